"""A unit in its setting as tables of words and figures, for sheets, lists and records."""

from __future__ import annotations

from cabinet.frame import Side
from cabinet.quantity import written
from cabinet.site.room.report import RoomReport
from cabinet.site.room.things import Mirror, Pipe, Socket, Switch, Thing, Window
from cabinet.site.tables import SiteTable


def screw_table(report: RoomReport) -> SiteTable:
    """The wall screws: on the cleat, on the wall, from the level line, into what, packed how."""
    rows = []
    if report.screws is not None:
        packed = {} if report.packing is None else {p.what: p.thick for p in report.packing.pieces}
        datum = report.setting.room.datum
        for place in report.screws.designed:
            thick = packed.get(place.name, 0.0)
            rows.append(
                (
                    place.name,
                    written(round(place.on_cleat, 1)),
                    written(round(place.at.x, 1)),
                    written(round(place.at.z - datum, 1)),
                    place.into or "nothing",
                    written(thick) if thick else "-",
                )
            )
    return SiteTable(
        title="Wall screws" if report.cleat is not None else "Ties",
        columns=(
            "what",
            "on the cleat" if report.cleat else "on the unit",
            "from the left",
            "from the line",
            "into",
            "packing",
        ),
        rows=tuple(rows),
    )


def things_table(report: RoomReport) -> SiteTable:
    """What is on the wall, with its place and the room to the unit."""
    rows = []
    for thing in report.setting.room.things:
        box = thing.box
        across, up = report.outline.overlap(box)
        gap = "behind the unit" if across > 0 and up > 0 else written(round(max(-across, -up)))
        rows.append(
            (
                thing.name,
                kind(thing),
                written(box.low.x),
                written(box.low.z),
                f"{written(box.width)} × {written(box.height)}",
                gap,
            )
        )
    return SiteTable(
        title="On the wall",
        columns=("what", "kind", "from the left", "above the floor", "size", "gap to the unit"),
        rows=tuple(rows),
    )


def kind(thing: Thing) -> str:
    """What a thing is, in words."""
    if isinstance(thing, Window):
        return f"window, {thing.sash.value}"
    if isinstance(thing, Pipe):
        return "pipe before the wall" if thing.stands_out else "pipe in the wall"
    if isinstance(thing, Socket | Switch):
        return type(thing).__name__.lower()
    return "mirror" if isinstance(thing, Mirror) else "neighbour"


def packing_table(report: RoomReport) -> SiteTable:
    """Packing pieces, their places and thickness."""
    rows = [
        (
            piece.what,
            written(round(piece.at.x, 1)),
            written(round(piece.at.z - report.setting.room.datum, 1)),
            written(piece.thick),
        )
        for piece in (report.packing.pieces if report.packing is not None else ())
    ]
    return SiteTable(
        title="Packing behind the unit",
        columns=("where", "from the left", "from the line", "thick"),
        rows=tuple(rows),
    )


def ready_table(report: RoomReport) -> SiteTable:
    """What must be at hand before the unit is hung or tied, each article with its count."""
    found: dict[str, int] = {}
    if report.cleat is not None:
        for item in report.cleat.screws:
            found[item.article] = found.get(item.article, 0) + 1
    elif report.screws is not None:
        found["steel bracket with a fixing for the wall"] = len(report.screws.designed)
    if report.lock is not None:
        screw = report.lock.screw
        found[f"lock screw {screw.diameter:g} × {screw.length:g}"] = len(report.lock.places)
    pieces = () if report.packing is None else report.packing.pieces
    for piece in sorted(pieces, key=lambda p: p.thick):
        what = f"packing {written(piece.thick)} thick"
        found[what] = found.get(what, 0) + 1
    rows = tuple((article, str(count)) for article, count in found.items())
    return SiteTable(title="To have ready", columns=("article", "pieces"), rows=rows)


_WHERE = {Side.LEFT: "left of the unit", Side.RIGHT: "right of the unit", Side.BOTTOM: "below it"}


def scribe_table(report: RoomReport) -> SiteTable:
    """Scribe strips: blank and cut line."""
    rows = [
        (
            _WHERE[strip.side],
            f"{written(round(strip.length, 1))} × {written(strip.blank)}",
            ", ".join(f"{written(at)}: {written(width)}" for at, width in strip.line),
        )
        for strip in report.scribes
    ]
    return SiteTable(
        title="Scribe strips",
        columns=("where", "blank", "cut line: from the lower or left end, width from the unit"),
        rows=tuple(rows),
    )
