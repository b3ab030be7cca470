"""The wall with the unit in its place, seen from the room, before it is on paper.

The wall's x runs to the right and its z upwards, so the frame of a front view serves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from cabinet.design import Unit
from cabinet.site.room.frame import WallBox, WallPoint
from cabinet.site.room.report import RoomReport
from cabinet.site.room.setting import Setting
from cabinet.site.room.things import Pipe, Sash, Socket, Switch, Thing, Window
from cabinet.site.room.two_places import OldHole
from cabinet.site.walls import TimberStuds
from drawings.curves import ArcCurve, Curve, Segment, ViewBounds, ViewPoint
from drawings.dimension_ink import Edge
from drawings.hatch import hatch
from drawings.marks import Ink
from drawings.unit_ink import UnitView, Wish
from drawings.view_frame import FRONT
from drawings.view_labels import ViewLabel

# Between the lines that hatch a cable zone, paper mm.
_HATCH = 2.2
# Half of the cross at each screw, paper mm.
_CROSS = 1.6
# Radius of the ring at an old hole, paper mm.
_RING = 0.9
# Height of the strip above a line in which its name stands, paper mm.
_ON_LINE = 8.0
# Below this an edge is lost on paper, mm of the wall.
_SHORTEST = 0.5


def rectangle(box: WallBox) -> tuple[Segment, ...]:
    """The four edges of a box, each after the other."""
    low, high = box.low, box.high
    corners = [
        ViewPoint(low.x, low.z),
        ViewPoint(high.x, low.z),
        ViewPoint(high.x, high.z),
        ViewPoint(low.x, high.z),
    ]
    return tuple(Segment(a, b) for a, b in pairwise([*corners, corners[0]]))


def level(z: float, low: float, high: float) -> Segment:
    """A level line at z from x to x."""
    return Segment(ViewPoint(low, z), ViewPoint(high, z))


def upright(x: float, low: float, high: float) -> Segment:
    """An upright line at x from z to z."""
    return Segment(ViewPoint(x, low), ViewPoint(x, high))


def front_edges(unit: Unit, setting: Setting) -> tuple[Segment, ...]:
    """Edges of the unit's parts as the room sees them; what stands before hides what is behind."""
    parts = [p for p in unit.parts if p.group != "wall"]
    boxes = [(p.box.low.y, setting.box_to_wall(p.box)) for p in parts]
    found: list[Segment] = []
    for depth, box in boxes:
        before = [other for y, other in boxes if y < depth - 1e-6]
        for edge in rectangle(box):
            found += _seen(edge, before)
    return tuple(sorted(set(found), key=lambda s: (s.start.u, s.start.v, s.end.u, s.end.v)))


def _seen(edge: Segment, before: Iterable[WallBox]) -> Iterator[Segment]:
    """The pieces of a level or upright edge that no box before it covers."""
    is_level = edge.start.v == edge.end.v
    at = edge.start.v if is_level else edge.start.u
    ends = sorted((edge.start.u, edge.end.u) if is_level else (edge.start.v, edge.end.v))
    hidden = []
    for box in before:
        low, high = (box.low.z, box.high.z) if is_level else (box.low.x, box.high.x)
        if low - 1e-6 <= at <= high + 1e-6:
            hidden.append((box.low.x, box.high.x) if is_level else (box.low.z, box.high.z))
    place = ends[0]
    for low, high in [*sorted(hidden), (ends[1], ends[1])]:
        until = min(low, ends[1])
        if until - place > _SHORTEST:
            yield level(at, place, until) if is_level else upright(at, place, until)
        place = max(place, high)


def _studs(report: RoomReport) -> Iterator[Segment]:
    room = report.setting.room
    if isinstance(room.build, TimberStuds):
        half = room.build.width / 2
        for centre in room.build.centres(0.0, room.width):
            for x in (centre - half, centre + half):
                if 0 < x < room.width:
                    yield upright(x, room.skirting, room.height)


def _sash(window: Window) -> Iterator[Segment]:
    """The sash within its frame and the sign of how it opens: its lines meet at the hinges."""
    frame = window.frame
    inner = frame.grown(left=-45.0, right=-45.0, down=-45.0, up=-45.0)
    yield from rectangle(inner)
    low, high, middle = inner.low, inner.high, inner.centre
    tips = {
        Sash.HINGED_LEFT: (ViewPoint(low.x, middle.z), high.x),
        Sash.HINGED_RIGHT: (ViewPoint(high.x, middle.z), low.x),
    }
    if window.sash in tips:
        tip, far = tips[window.sash]
        yield Segment(tip, ViewPoint(far, high.z))
        yield Segment(tip, ViewPoint(far, low.z))
    elif window.sash is Sash.TILTS:
        tip = ViewPoint(middle.x, low.z)
        yield Segment(tip, ViewPoint(low.x, high.z))
        yield Segment(tip, ViewPoint(high.x, high.z))


def _thing(thing: Thing) -> Iterator[tuple[Ink, tuple[Curve, ...]]]:
    if isinstance(thing, Window):
        yield Ink.VISIBLE, rectangle(thing.frame)
        yield Ink.NARROW, tuple(_sash(thing))
        if thing.sill_box is not None:
            yield Ink.NARROW, rectangle(thing.sill_box)
    elif isinstance(thing, Pipe) and not thing.stands_out:
        yield Ink.HIDDEN, rectangle(thing.box)
    else:
        yield Ink.NARROW, rectangle(thing.box)
        if isinstance(thing, Socket | Switch):
            yield Ink.NARROW, _plate(thing)


def _plate(thing: Socket | Switch) -> tuple[Segment, ...]:
    """What tells a socket from a switch: a cross, or a stroke."""
    low, high = thing.box.low, thing.box.high
    rising = Segment(ViewPoint(low.x, low.z), ViewPoint(high.x, high.z))
    if isinstance(thing, Switch):
        return (rising,)
    return (rising, Segment(ViewPoint(low.x, high.z), ViewPoint(high.x, low.z)))


def wall_view(report: RoomReport, scale: float, old_holes: tuple[OldHole, ...] = ()) -> UnitView:
    """The elevation with its dimensions.

    Args:
        report: What was computed about the unit in its setting.
        scale: Paper mm for one mm of the wall, for what keeps its size on paper.
        old_holes: Holes of an earlier place of the unit.
    """
    room, unit = report.setting.room, report.unit
    whole = WallBox(low=WallPoint(0.0, 0.0), high=WallPoint(room.width, room.height))
    curves: list[tuple[Ink, tuple[Curve, ...]]] = [
        (Ink.VISIBLE, rectangle(whole)),
        (Ink.HIDDEN, tuple(_studs(report))),
        (Ink.CENTRE, (level(room.datum, 0.0, room.width),)),
    ]
    if room.skirting:
        curves.append((Ink.NARROW, (level(room.skirting, 0.0, room.width),)))
    spacing = _HATCH / scale
    for zone in report.zones:
        curves.append((Ink.HATCH, hatch([rectangle(zone.box)], 45.0, spacing)))
        curves.append((Ink.HATCH, rectangle(zone.box)))
    for thing in room.things:
        curves += _thing(thing)
    curves.append((Ink.VISIBLE, front_edges(unit, report.setting)))
    curves += _cleat(report, scale)
    rings = (
        ArcCurve(ViewPoint(hole.at.x, hole.at.z), _RING / scale, 0.0, 360.0) for hole in old_holes
    )
    curves.append((Ink.NARROW, tuple(rings)))
    return UnitView(
        title=f"{room.name}, elevation",
        frame=FRONT,
        bounds=ViewBounds(0.0, 0.0, room.width, room.height),
        curves=tuple((ink, them) for ink, them in curves if them),
        wishes=tuple(_wishes(report)),
    )


def _cleat(report: RoomReport, scale: float) -> Iterator[tuple[Ink, tuple[Curve, ...]]]:
    """The wall half behind the unit, its screws, and the unit raised to be hung."""
    setting = report.setting
    if report.cleat is not None:
        yield Ink.HIDDEN, rectangle(setting.box_to_wall(report.cleat.wall_half.box))
    if report.screws is not None:
        arm = _CROSS / scale
        crosses: list[Curve] = []
        for place in report.screws.designed:
            x, z = place.at.x, place.at.z
            crosses += [level(z, x - arm, x + arm), upright(x, z - arm, z + arm)]
        yield Ink.VISIBLE, tuple(crosses)
    if report.lift_room is not None:
        above = report.lift_room.above
        low, high = above.low, above.high
        yield (
            Ink.PHANTOM,
            (
                upright(low.x, low.z, high.z),
                level(high.z, low.x, high.x),
                upright(high.x, low.z, high.z),
            ),
        )


def _wishes(report: RoomReport) -> Iterator[Wish]:
    """Dimensions: heights from the level line, places from the wall's left end."""
    room, outline = report.setting.room, report.outline
    is_left = outline.centre.x <= room.width / 2
    near, far = (Edge.LEFT, Edge.RIGHT) if is_left else (Edge.RIGHT, Edge.LEFT)
    foot = outline.low.x if is_left else room.width - outline.high.x
    datum = room.datum
    yield Wish(edge=far, axis=2, start=0.0, end=datum, title="level line above the floor")
    yield Wish(edge=far, axis=2, start=0.0, end=room.height, title="floor to ceiling")
    heights = [("underside", outline.low.z), ("top", outline.high.z)]
    if report.cleat is not None:
        half = report.setting.box_to_wall(report.cleat.wall_half.box)
        heights.append(("top edge of the cleat's wall half", half.high.z))
        heights.append(("wall screws", report.setting.at.z + report.cleat.screw_level))
    for what, z in heights:
        if abs(z - datum) > _SHORTEST:
            yield Wish(
                edge=near,
                axis=2,
                start=datum,
                end=z,
                title=f"{what} from the level line",
                foot=foot,
            )
    if room.height - outline.high.z > _SHORTEST:
        yield Wish(
            edge=near,
            axis=2,
            start=outline.high.z,
            end=room.height,
            title="unit's top to the ceiling",
            foot=foot,
        )
    for what, start, end in (
        ("wall's left end to the unit", 0.0, outline.low.x),
        ("unit's width", outline.low.x, outline.high.x),
        ("unit to the wall's right end", outline.high.x, room.width),
    ):
        if end - start > _SHORTEST:
            yield Wish(edge=Edge.BELOW, axis=0, start=start, end=end, title=what)
    yield Wish(edge=Edge.BELOW, axis=0, start=0.0, end=room.width, title="width of the wall")
    if report.screws is not None:
        for place in report.screws.designed:
            yield Wish(
                edge=Edge.ABOVE,
                axis=0,
                start=0.0,
                end=place.at.x,
                title=f"{place.name} from the wall's left end",
                foot=room.height - place.at.z,
            )


def wall_labels(report: RoomReport, scale: float) -> Iterator[ViewLabel]:
    """What is written on the elevation, the most important first.

    Args:
        report: What was computed about the unit in its setting.
        scale: Paper mm for one mm of the wall, for what keeps its size on paper.
    """
    room = report.setting.room
    yield _label(report.unit.name, report.outline)
    for thing in room.things:
        yield _label(thing.name, thing.frame if isinstance(thing, Window) else thing.box)
    shares = (0.9, 0.1, 0.5, 0.7, 0.3, 0.97, 0.03)
    strip = _ON_LINE / scale
    yield ViewLabel(
        text="level line",
        at=tuple(ViewPoint(room.width * share, room.datum) for share in shares),
        inside=ViewBounds(0.0, room.datum, room.width, room.datum + strip),
    )


def _label(text: str, box: WallBox) -> ViewLabel:
    """A name for a box, inside it or with a leader to one of its edges."""
    low, high, middle = box.low, box.high, box.centre
    return ViewLabel(
        text=text,
        at=(
            ViewPoint(high.x, middle.z),
            ViewPoint(low.x, middle.z),
            ViewPoint(middle.x, high.z),
            ViewPoint(middle.x, low.z),
        ),
        inside=ViewBounds(low.x, low.z, high.x, high.z),
    )


def legend(report: RoomReport) -> Iterator[str]:
    """What the lines of the elevation mean."""
    build = report.setting.room.build
    if report.cleat is not None:
        yield "Dashed behind the unit: the cleat's wall half, and upright crosses for its screws."
    if report.lift_room is not None:
        yield (
            f"Long-dash double-dot above it: raised by {report.lift_room.needed:.0f}, so that it "
            "can drop on to its cleat; keep that free."
        )
    if isinstance(build, TimberStuds):
        yield (
            f"Dashed uprights: studs {build.width:g} wide at {build.spacing:g} centres."
            if build.first is not None
            else "Studs are not found yet: find them and draw them in."
        )
