"""The cleat as it hangs: a section through it, and its wall half seen from the room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from cabinet.frame import UnitBox
from cabinet.site.cleat_model import Cleat
from cabinet.site.room.report import RoomReport
from drawings.curves import ArcCurve, Curve, Segment, ViewBounds, ViewPoint
from drawings.dimension_ink import Edge
from drawings.hatch import hatch
from drawings.marks import Ink
from drawings.unit_ink import UnitView, Wish
from drawings.view_frame import FROM_RIGHT, FRONT
from drawings.view_labels import ViewLabel

# How much of the unit before the rail is shown, and of the wall behind it, mm.
_BEFORE, _WALL = 62.0, 26.0
_HATCH = 2.6


def _loop(corners: Sequence[tuple[float, float]]) -> tuple[Segment, ...]:
    points = [ViewPoint(float(u), float(v)) for u, v in corners]
    return tuple(Segment(a, b) for a, b in pairwise([*points, points[0]]) if a != b)


def _cut_box(box: UnitBox, bounds: ViewBounds) -> tuple[Segment, ...] | None:
    """A board cut across, as far as it lies within the picture."""
    left, right = max(box.low.y, bounds.left), min(box.high.y, bounds.right)
    low, high = max(box.low.z, bounds.bottom), min(box.high.z, bounds.top)
    if right - left < 0.5 or high - low < 0.5:
        return None
    return _loop([(left, low), (right, low), (right, high), (left, high)])


def _wall_half(cleat: Cleat) -> tuple[Segment, ...]:
    """The wall half: sharp edge up and away from the wall."""
    box, thick = cleat.wall_half.box, cleat.wall_half.board.thickness
    front, back = box.low.y, box.high.y
    return _loop(
        [(front, box.low.z), (back, box.low.z), (back, box.high.z - thick), (front, box.high.z)]
    )


def _unit_half(cleat: Cleat) -> tuple[Segment, ...]:
    """The unit half: its edge down and towards the wall, blunted."""
    box = cleat.unit_half.box
    front, back, foot = box.low.y, box.high.y, box.low.z
    land = cleat.unit_half.board.thickness - cleat.engaged
    return _loop(
        [
            (front, foot + cleat.engaged),
            (back - land, foot),
            (back, foot),
            (back, box.high.z),
            (front, box.high.z),
        ]
    )


def section_view(report: RoomReport, cleat: Cleat, scale: float) -> UnitView:
    """A section through cleat, rail and top, the wall at the right.

    Args:
        report: What was computed about the unit in its setting.
        cleat: Its cleat.
        scale: Paper mm for one mm, for the hatching.
    """
    unit = report.unit
    rail, half = cleat.rail.box, cleat.wall_half.box
    bounds = ViewBounds(
        rail.low.y - _BEFORE, half.low.z - 14.0, cleat.wall + _WALL, unit.outline.high.z
    )
    spacing = _HATCH / scale
    cut: list[tuple[Segment, ...]] = [_wall_half(cleat), _unit_half(cleat)]
    cut += [
        loop
        for part in unit.parts
        if part.name == cleat.rail.name or part.group == "covering" or part.role == "top"
        for loop in [_cut_box(part.box, bounds)]
        if loop is not None
    ]
    curves: list[tuple[Ink, tuple[Curve, ...]]] = []
    for number, loop in enumerate(cut):
        curves.append((Ink.CUT, loop))
        angle = 45.0 if number % 2 else -45.0
        curves.append((Ink.HATCH, hatch([loop], angle, spacing)))
    face = cleat.wall
    wall = [(face, bounds.bottom), (bounds.right, bounds.bottom), (bounds.right, bounds.top)]
    curves.append(
        (Ink.CUT, (Segment(ViewPoint(face, bounds.bottom), ViewPoint(face, bounds.top)),))
    )
    curves.append((Ink.HATCH, hatch([_loop([*wall, (face, bounds.top)])], 60.0, 2 * spacing)))
    level = cleat.screw_level
    head = half.low.y
    curves.append(
        (Ink.CENTRE, (Segment(ViewPoint(head - 6.0, level), ViewPoint(bounds.right, level)),))
    )
    if report.lock is not None:
        lock = report.lock
        tip = cleat.rail.box.low.y + lock.screw.length
        curves.append(
            (
                Ink.CENTRE,
                (Segment(ViewPoint(rail.low.y - 6.0, lock.level), ViewPoint(tip, lock.level)),),
            )
        )
    wishes = [
        Wish(
            edge=Edge.RIGHT,
            axis=2,
            start=half.high.z,
            end=level,
            title="wall screws below the wall half's top edge",
            foot=_WALL,
        ),
        Wish(
            edge=Edge.RIGHT,
            axis=2,
            start=half.high.z,
            end=half.low.z,
            title="height of the wall half",
            foot=_WALL,
        ),
        Wish(
            edge=Edge.RIGHT,
            axis=2,
            start=half.high.z,
            end=unit.outline.high.z,
            title="unit's top above the wall half's top edge",
            foot=_WALL,
        ),
        Wish(
            edge=Edge.BELOW,
            axis=1,
            start=cleat.wall,
            end=half.low.y,
            title="thickness of the cleat",
            foot=14.0,
        ),
    ]
    if report.lock is not None:
        wishes.append(
            Wish(
                edge=Edge.LEFT,
                axis=2,
                start=rail.low.z,
                end=report.lock.level,
                title="lock screws above the rail's lower edge",
                foot=_BEFORE,
            )
        )
    return UnitView(
        title="cleat, section",
        frame=FROM_RIGHT,
        bounds=bounds,
        curves=tuple(curves),
        wishes=tuple(wishes),
    )


def section_labels(report: RoomReport, cleat: Cleat) -> Iterator[ViewLabel]:
    """What the section shows, in words."""
    half, own, rail = cleat.wall_half.box, cleat.unit_half.box, cleat.rail.box
    yield ViewLabel(
        text="unit half",
        at=(
            ViewPoint(own.low.y + 6.0, own.high.z - 12.0),
            ViewPoint(own.low.y + 9.0, own.high.z - 22.0),
        ),
    )
    yield ViewLabel(
        text="wall half",
        at=(ViewPoint(half.low.y, half.low.z + 12.0), ViewPoint(half.low.y, half.low.z + 20.0)),
    )
    yield ViewLabel(
        text=cleat.rail.name,
        at=(ViewPoint(rail.low.y, rail.high.z - 30.0), ViewPoint(rail.low.y, rail.high.z - 46.0)),
    )
    yield ViewLabel(text="wall screw", at=(ViewPoint(half.low.y - 6.0, cleat.screw_level),))
    if report.lock is not None:
        yield ViewLabel(text="lock screw", at=(ViewPoint(rail.low.y - 6.0, report.lock.level),))


def wall_half_view(cleat: Cleat) -> UnitView:
    """The wall half seen from the room, with each screw told from its left end."""
    box = cleat.wall_half.box
    left, top = box.low.x, box.high.z
    bounds = ViewBounds(0.0, box.low.z - top, box.size[0], 0.0)
    curves: list[tuple[Ink, tuple[Curve, ...]]] = [
        (
            Ink.VISIBLE,
            _loop(
                [
                    (bounds.left, bounds.bottom),
                    (bounds.right, bounds.bottom),
                    (bounds.right, bounds.top),
                    (bounds.left, bounds.top),
                ]
            ),
        )
    ]
    level = cleat.screw_level - top
    rim = cleat.screw.clearance / 2
    places = sorted(item.at.x - left for item in cleat.screws)
    curves.append(
        (Ink.VISIBLE, tuple(ArcCurve(ViewPoint(x, level), rim, 0.0, 360.0) for x in places))
    )
    curves.append((Ink.CENTRE, tuple(_crosses(places, level))))
    wishes = [
        Wish(
            edge=Edge.ABOVE,
            axis=0,
            start=0.0,
            end=x,
            title=f"wall screw {number} from the wall half's left end",
            foot=-level,
        )
        for number, x in enumerate(places, start=1)
    ]
    wishes += [
        Wish(edge=Edge.BELOW, axis=0, start=0.0, end=box.size[0], title="length of the wall half"),
        Wish(edge=Edge.RIGHT, axis=2, start=0.0, end=level, title="wall screws below the top edge"),
    ]
    return UnitView(
        title="wall half of the cleat, seen from the room",
        frame=FRONT,
        bounds=bounds,
        curves=tuple(curves),
        wishes=tuple(wishes),
    )


def _crosses(places: Sequence[float], level: float) -> Iterator[Segment]:
    arm = 14.0
    for x in places:
        yield Segment(ViewPoint(x - arm, level), ViewPoint(x + arm, level))
        yield Segment(ViewPoint(x, level - arm), ViewPoint(x, level + arm))
