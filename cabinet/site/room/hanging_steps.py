"""How a unit is hung, step by step, by one person alone where the guidance allows it."""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.quantity import written
from cabinet.site.room.report import RoomReport
from cabinet.site.tables import SiteTable
from cabinet.wording import listed

# Beside the unit, floor readings still help to transfer its height, mm.
_NEAR = 700.0


def _mm(value: float) -> str:
    return written(round(value, 1))


def _above(report: RoomReport, z: float) -> str:
    """A height told from the level line."""
    rise = z - report.setting.room.datum
    return f"{_mm(abs(rise))} {'above' if rise >= 0 else 'below'} the level line"


def taken_out(report: RoomReport) -> tuple[str, ...]:
    """Doors and shelves that come out before the unit is lifted, by their names."""
    doors = [p.name for p in report.unit.parts if p.group == "doors" and p.role == "door"]
    shelves: list[str] = []
    if report.site is not None:
        fixed = {p.name for p in report.unit.parts if p.group == "carcass"}
        shelves = [c.name for c in report.site.carriers if c.name not in fixed]
    return (*doors, *shelves)


def hanging_steps(report: RoomReport) -> tuple[str, ...]:
    """The steps in words, in their order; none for a unit without a cleat."""
    if report.cleat is None or report.screws is None:
        return ()
    return (
        *_ready(report),
        *_wall_half(report),
        *_hung(report),
    )


def _ready(report: RoomReport) -> Iterator[str]:
    room = report.setting.room
    yield (
        f"Mark the level line all along the wall, {_mm(room.datum)} above the finished floor at "
        "its mark. All heights are measured from it, not from the floor."
    )
    yield (
        "Trace cables and pipes with a detector, above all in the hatched zones of the wall "
        "elevation; where one shows, stop and move the screws."
    )
    out = taken_out(report)
    lift = None if report.site is None else report.site.lift
    if out and lift is not None:
        yield (
            f"Take out {listed(list(out))}: the unit then weighs about {lift.bare:.1f} kg instead "
            f"of {lift.mass:.1f}."
        )
    elif out:
        yield f"Take out {listed(list(out))}."


def _wall_half(report: RoomReport) -> Iterator[str]:
    cleat, screws = report.cleat, report.screws
    if cleat is None or screws is None:
        return
    half = report.setting.box_to_wall(cleat.wall_half.box)
    yield (
        f"Strike the line of the wall half's top edge, {_above(report, half.high.z)}, from x "
        f"{_mm(half.low.x)} to {_mm(half.high.x)}; tape the wall strip to it, level."
    )
    into = sorted({place.into for place in screws.designed if place.into})
    yield (
        f"Bore for {len(screws.designed)} screws at x "
        f"{', '.join(_mm(p.at.x) for p in screws.designed)}, "
        f"{_above(report, screws.designed[0].at.z)}, into {listed(into) if into else 'the wall'}, "
        "with the fixing chosen for this wall."
    )
    packed = [] if report.packing is None else list(report.packing.pieces)
    behind = [p for p in packed if p.what.startswith("wall screw")]
    if behind:
        told = [f"{_mm(p.thick)} at {p.what.removeprefix('wall ')}" for p in behind]
        yield f"Pack behind the wall half: {listed(told)}."
    yield (
        "Screw the wall half on, its sharp edge up and away from the wall. Check that it is level, "
        "then lean your weight on it: nothing may move."
    )


def _hung(report: RoomReport) -> Iterator[str]:
    cleat, room = report.cleat, report.lift_room
    lift = None if report.site is None else report.site.lift
    for way in report.leads:
        yield (
            f"Have the lead of {way.socket.name} ready: it goes through {way.lead.through!r}; plug "
            "it in from within the bay once the unit hangs."
        )
    if room is not None:
        raised = report.setting.at.z + room.needed
        how = "Raise the unit"
        if lift is not None and lift.has_table:
            how = "With the unit on a lifting table or prop, steadied by hand, raise it"
        elif lift is not None and lift.bare > lift.allowed:
            how = (
                f"Do not lift it alone: {lift.bare:.1f} kg past {lift.zone.title} are more than the "
                f"guidance's {lift.allowed:.1f} kg. With help or a lifting table, raise the unit"
            )
        yield (
            f"{how} until its underside is {_mm(raised)} above the floor, close to the wall; let it "
            f"down on to the bevel, and slide it until its left side is at x "
            f"{_mm(report.outline.low.x)}. Keep a hand on it until it sits along its whole length."
        )
    foot = [
        p
        for p in (report.packing.pieces if report.packing is not None else ())
        if p.what.startswith("foot")
    ]
    if foot:
        told = [f"{_mm(p.thick)} at the {p.what}" for p in foot]
        yield f"Pack {listed(told)}, so that it hangs plumb; check with a level at a side."
    if cleat is not None and report.lock is not None:
        lock = report.lock
        yield (
            f"Lock it: from within, {len(lock.places)} screws {lock.screw.diameter:g} × "
            f"{lock.screw.length:g} through the {lock.rail} into the wall half, at X "
            f"{listed([_mm(x) for x in lock.places])} in the unit, {_mm(lock.level)} above its "
            "underside; pilot hole first. Without them a knock from below lifts it off."
        )
    for strip in report.scribes:
        yield (
            f"Scribe strip at its {strip.side.value}: blank {_mm(strip.length)} × "
            f"{_mm(strip.blank)}, cut to the line in the table, straight edge against the unit."
        )
    yield "Put doors and shelves back, load it by and by, and look at screws and wall after a week."


def heights_table(report: RoomReport) -> SiteTable:
    """The wall half's top edge over the floor wherever the floor was measured near the unit.

    A rule that stands on the floor needs the floor's own height there.
    """
    rows: list[tuple[str, ...]] = []
    if report.cleat is not None:
        room, outline = report.setting.room, report.outline
        top = report.setting.box_to_wall(report.cleat.wall_half.box).high.z
        for reading in sorted(room.floor, key=lambda r: r.x):
            if outline.low.x - _NEAR <= reading.x <= outline.high.x + _NEAR:
                level = room.floor_level(reading.x)
                rows.append((_mm(reading.x), _mm(reading.below), _mm(level), _mm(top - level)))
    return SiteTable(
        title="Height over the floor",
        columns=("at x", "level line to floor", "floor lies at", "wall half's top edge over it"),
        rows=tuple(rows),
    )
