"""A board cut at the bench by someone who has only its operations: no feature, no model.

It reads the fields of operations and the rough blank, nothing else. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

import cadquery as cq

from cabinet.board import At, Surface
from cabinet.making.operation import Operation, Work

Span = tuple[float, float]
Size = tuple[float, float, float]
OUT = 9.0
SAME = 1e-6


def cut_by_operations(
    size: Size, margins: tuple[Span, Span], operations: Sequence[Operation]
) -> cq.Shape:
    """The solid that is left of a blank after its operations.

    Args:
        size: Finished length, width and thickness before any flush trim.
        margins: Wood past the finished length and width, at the low and at the high side.
        operations: All that is done.
    """
    over = (*margins, (0.0, 0.0))
    spans = [(-low, extent + high) for (low, high), extent in zip(over, size, strict=True)]
    blank = _block(spans)
    bodies = [body for one in operations for body in WORKS[one.work](one, size)]
    return blank.cut(*bodies) if bodies else blank


def _block(spans: Sequence[Span]) -> cq.Shape:
    length, width, height = (high - low for low, high in spans)
    return cq.Solid.makeBox(length, width, height, cq.Vector(*(low for low, _ in spans)))


def _unit(axis: int, sign: float = 1.0) -> cq.Vector:
    return cq.Vector(*(sign if index == axis else 0.0 for index in range(3)))


def _from(surface: Surface, distance: float, size: Size) -> float:
    extent = size[surface.axis]
    return distance if surface.sign < 0 else extent - distance


def _at(at: At, size: Size) -> float:
    return _from(at.datum, at.distance, size)


def _open(span: Span, extent: float) -> Span:
    low, high = sorted(span)
    return (low - OUT if low < SAME else low, high + OUT if high > extent - SAME else high)


def _to_size(one: Operation, size: Size) -> list[cq.Shape]:
    """Both strips outside the finished size across one axis."""
    axis = one.reference.axis
    found: list[cq.Shape] = []
    for near in (-one.allowance, one.passes[0]):
        spans = [(-OUT - 60, extent + OUT + 60) for extent in size]
        ends = (
            _from(one.reference, near - (OUT if near < 0 else 0.0), size),
            _from(one.reference, near + one.allowance + (0.0 if near < 0 else OUT), size),
        )
        spans[axis] = (min(ends), max(ends))
        found.append(_block(spans))
    return found


def _run(one: Operation, size: Size) -> Span:
    ends = [_at(at, size) for at in (one.start, one.end) if at is not None]
    if len(ends) == 2:
        return min(ends), max(ends)
    low = _at(one.start, size) if one.start is not None else 0.0
    high = _at(one.end, size) if one.end is not None else size[one.run_axis]
    return low, high


def _channel(one: Operation, size: Size) -> list[cq.Shape]:
    """Grooves and rebates: the union of the passes, its stopped corners as they are told."""
    assert one.depth is not None
    near, far = min(one.passes), max(one.passes) + one.swath
    ordered = sorted(one.passes)
    for left, right in pairwise(ordered):
        assert right - left <= one.swath + SAME, "the passes leave wood between them"
    across, into, run = one.reference.axis, one.face.axis, one.run_axis
    ends = _from(one.reference, near, size), _from(one.reference, far, size)
    depth = _from(one.face, 0.0, size), _from(one.face, one.depth, size)
    along = _run(one, size)
    spans: list[Span] = [(0.0, 0.0)] * 3
    spans[across] = (min(ends), max(ends))
    spans[into] = _open((min(depth), max(depth)), size[into])
    spans[run] = _open(along, size[run])
    if one.corner:
        stopped = [end for end in (0, 1) if SAME < along[end] < size[run] - SAME]
        return _rounded(spans, into, run, across, stopped, one.corner)
    return [_block(spans)]


def _rounded(
    spans: Sequence[Span], into: int, run: int, across: int, stopped: list[int], r: float
) -> list[cq.Shape]:
    """A channel whose stopped ends have round corners: blocks and cylinders."""
    (low, high), (near, far) = spans[run], spans[across]
    body_low = low + (r if 0 in stopped else 0.0)
    body_high = high - (r if 1 in stopped else 0.0)
    pieces: list[cq.Shape] = []

    def piece(along: Span, wide: Span) -> None:
        if along[1] - along[0] > SAME and wide[1] - wide[0] > SAME:
            them: list[Span] = [(0.0, 0.0)] * 3
            them[run], them[across], them[into] = along, wide, spans[into]
            pieces.append(_block(them))

    piece((body_low, body_high), (near, far))
    for end in stopped:
        piece(((low, body_low), (body_high, high))[end], (near + r, far - r))
        for side in (near + r, far - r):
            foot = [0.0, 0.0, 0.0]
            foot[into] = spans[into][0]
            foot[run], foot[across] = (body_low, body_high)[end], side
            height = spans[into][1] - spans[into][0]
            pieces.append(cq.Solid.makeCylinder(r, height, cq.Vector(*foot), _unit(into)))
    return pieces


def _bevel(one: Operation, size: Size) -> list[cq.Shape]:
    """All beyond a cut that starts on the face at a distance and leans outwards below it."""
    across, run = one.reference.axis, one.run_axis
    slope = math.tan(math.radians(one.angle))
    corners = []
    thick = size[2]
    far = size[across] + OUT + thick * slope
    for away, down in (
        (one.passes[0] - OUT * slope, -OUT),
        (one.passes[0] + (thick + OUT) * slope, thick + OUT),
        (far + OUT, thick + OUT),
        (far + OUT, -OUT),
    ):
        place = [0.0, 0.0, 0.0]
        place[across] = _from(one.reference, away, size)
        place[2] = _from(one.face, down, size)
        place[run] = -OUT
        corners.append(cq.Vector(*place))
    wire = cq.Wire.makePolygon(corners, close=True)
    return [cq.Solid.extrudeLinear(wire, [], _unit(run, size[run] + 2 * OUT))]


def _places(one: Operation, size: Size) -> list[list[float]]:
    assert one.stop is not None
    found = []
    for distance in one.places:
        place = [0.0, 0.0, 0.0]
        place[one.stop.axis] = _from(one.stop, distance, size)
        place[one.reference.axis] = _from(one.reference, one.passes[0], size)
        found.append(place)
    return found


def _bore(one: Operation, size: Size) -> list[cq.Shape]:
    depth = one.depth if one.depth is not None else size[one.face.axis] + OUT
    found: list[cq.Shape] = []
    for place in _places(one, size):
        place[one.face.axis] = _from(one.face, -OUT, size)
        inward = _unit(one.face.axis, -one.face.sign)
        found.append(cq.Solid.makeCylinder(one.cutter / 2, depth + OUT, cq.Vector(*place), inward))
    return found


def _countersink(one: Operation, size: Size) -> list[cq.Shape]:
    assert one.depth is not None
    wide = one.size[0] / 2
    narrow = wide - one.depth * math.tan(math.radians(one.angle / 2))
    found: list[cq.Shape] = []
    for place in _places(one, size):
        place[one.face.axis] = _from(one.face, 0.0, size)
        inward = _unit(one.face.axis, -one.face.sign)
        found.append(cq.Solid.makeCone(wide, narrow, one.depth, cq.Vector(*place), inward))
    return found


def _opening(one: Operation, size: Size) -> list[cq.Shape]:
    (place,) = _places(one, size)
    half = one.size[0] / 2, one.size[1] / 2
    spans: list[Span] = [
        (place[0] - half[0], place[0] + half[0]),
        (place[1] - half[1], place[1] + half[1]),
        (-OUT, size[2] + OUT),
    ]
    return _rounded(spans, 2, 0, 1, [0, 1], one.corner)


def _notch(one: Operation, size: Size) -> list[cq.Shape]:
    assert one.stop is not None
    near = one.places[0]
    along = _from(one.stop, near, size), _from(one.stop, near + one.size[0], size)
    deep = _from(one.reference, 0.0, size), _from(one.reference, one.size[1], size)
    spans: list[Span] = [(-OUT, size[2] + OUT)] * 3
    spans[one.stop.axis] = _open((min(along), max(along)), size[one.stop.axis])
    spans[one.reference.axis] = _open((min(deep), max(deep)), size[one.reference.axis])
    return [_block(spans)]


def _slot(one: Operation, size: Size) -> list[cq.Shape]:
    assert one.depth is not None
    found: list[cq.Shape] = []
    for place in _places(one, size):
        # A biscuit jointer's blade, 100 in diameter.
        place[one.face.axis] = _from(one.face, one.depth - 50.0, size)
        place[one.reference.axis] -= one.cutter / 2
        found.append(
            cq.Solid.makeCylinder(50.0, one.cutter, cq.Vector(*place), _unit(one.reference.axis))
        )
    return found


def _trim(one: Operation, size: Size) -> list[cq.Shape]:
    assert one.depth is not None
    spans: list[Span] = [(-OUT, extent + OUT) for extent in size]
    deep = _from(one.face, 0.0, size), _from(one.face, one.depth, size)
    spans[one.face.axis] = _open((min(deep), max(deep)), size[one.face.axis])
    return [_block(spans)]


WORKS: dict[Work, Callable[[Operation, Size], list[cq.Shape]]] = {
    Work.TO_SIZE: _to_size,
    Work.GROOVE: _channel,
    Work.REBATE: _channel,
    Work.BEVEL: _bevel,
    Work.BORE: _bore,
    Work.COUNTERSINK: _countersink,
    Work.OPENING: _opening,
    Work.NOTCH: _notch,
    Work.SLOT: _slot,
    Work.TRIM: _trim,
    Work.BOUGHT: lambda _one, _size: [],
}
