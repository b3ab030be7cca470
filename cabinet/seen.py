"""What of a unit is seen: always, only while a door is open, or not at all.

A component says of its parts which surfaces are meant to be seen in an open unit. What of them
lies behind doors, or under another part, follows from where the parts and the doors stand, so
nobody types it. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cabinet.board import Surface
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.joint import Joint, Track
from cabinet.part import Part

# What is so near before a surface lies on it.
_NEAR = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """The space that a set of doors closes.

    Attributes:
        space: Between the boards that guide the doors, front edges to back edges.
        behind: Y of the front of the rearmost door; what lies before it is seen past the
            doors.
    """

    space: UnitBox
    behind: float

    @property
    def before(self) -> UnitBox | None:
        """What of the space lies before the rearmost door; None if nothing does."""
        low, high = self.space.low, self.space.high
        if self.behind - low.y <= _NEAR:
            return None
        return UnitBox(low=low, high=UnitPoint(high.x, self.behind, high.z))


def closed_spaces(parts: Mapping[str, Part], joints: Iterable[Joint]) -> tuple[Closed, ...]:
    """The spaces behind sliding doors, one for each pair of boards that guides some.

    Args:
        parts: The parts by their names.
        joints: The joints; those of doors with their tracks say which doors there are.
    """
    guides: dict[str, dict[Side, str]] = {}
    for joint in joints:
        if isinstance(joint, Track):
            guides.setdefault(joint.door, {})[joint.side] = joint.board
    doors: dict[tuple[str, str], list[Part]] = {}
    for door, boards in guides.items():
        if len(boards) == 2:
            doors.setdefault((boards[Side.BOTTOM], boards[Side.TOP]), []).append(parts[door])
    return tuple(
        _closed(parts[base].box, parts[top].box, them) for (base, top), them in doors.items()
    )


def _closed(base: UnitBox, top: UnitBox, doors: Sequence[Part]) -> Closed:
    boxes = [door.box for door in doors]
    return Closed(
        space=UnitBox(
            low=UnitPoint(min(box.low.x for box in boxes), min(base.low.y, top.low.y), base.high.z),
            high=UnitPoint(
                max(box.high.x for box in boxes), max(base.high.y, top.high.y), top.low.z
            ),
        ),
        behind=max(box.low.y for box in boxes),
    )


def with_what_is_seen(parts: Sequence[Part], joints: Sequence[Joint]) -> tuple[Part, ...]:
    """The parts, each knowing which of its surfaces show and which are behind doors.

    Args:
        parts: The parts as their components made them: ``shows`` has all that is meant to be
            seen in an open unit.
        joints: The joints.
    """
    by_name = {part.name: part for part in parts}
    closed = closed_spaces(by_name, joints)
    doors = {joint.door for joint in joints if isinstance(joint, Track)}
    # Doors move, so they neither hide for good what they stand at nor are hidden.
    still = [(part.name, part.box) for part in parts if part.name not in doors]
    return tuple(
        part if part.name in doors or not part.board.shows else _settled(part, still, closed)
        for part in parts
    )


def _settled(part: Part, still: Sequence[tuple[str, UnitBox]], closed: Sequence[Closed]) -> Part:
    others = [box for name, box in still if name != part.name]
    shows: list[Surface] = []
    behind: list[Surface] = []
    for surface in part.board.shows:
        is_open, is_behind = _sight(part.box, part.side(surface), others, closed)
        if is_open:
            shows.append(surface)
        elif is_behind:
            behind.append(surface)
    if len(shows) == len(part.board.shows):
        return part
    return replace(part, board=replace(part.board, shows=tuple(shows), behind_doors=tuple(behind)))


def _sight(
    box: UnitBox, side: Side, others: Iterable[UnitBox], closed: Sequence[Closed]
) -> tuple[bool, bool]:
    """Whether any of a face is in the open, and whether any of it is behind doors.

    What is seen past the doors counts as open only where nothing of the face is behind them;
    else ``past_the_doors`` tells of it.
    """
    level = box.face(side) + side.sign * _NEAR
    axes = [axis for axis in range(3) if axis != side.axis]
    face = _flat(box, axes)
    on_it = [
        flat
        for other in others
        if tuple(other.low)[side.axis] < level < tuple(other.high)[side.axis]
        and _meet(flat := _flat(other, axes), face)
    ]
    spaces = [
        _flat(one.space, axes)
        for one in closed
        if tuple(one.space.low)[side.axis] < level < tuple(one.space.high)[side.axis]
    ]
    past = [
        _flat(before, axes)
        for one in closed
        if (before := one.before) is not None
        and tuple(before.low)[side.axis] < level < tuple(before.high)[side.axis]
    ]
    is_open = is_past = is_behind = False
    for x, y in _middles(face, [*on_it, *spaces, *past]):
        if any(_holds(flat, x, y) for flat in on_it):
            continue
        if any(_holds(flat, x, y) for flat in past):
            is_past = True
        elif any(_holds(flat, x, y) for flat in spaces):
            is_behind = True
        else:
            is_open = True
    return is_open or (is_past and not is_behind), is_behind


_Flat = tuple[float, float, float, float]


def _flat(box: UnitBox, axes: Sequence[int]) -> _Flat:
    low, high = tuple(box.low), tuple(box.high)
    return low[axes[0]], low[axes[1]], high[axes[0]], high[axes[1]]


def _meet(one: _Flat, other: _Flat) -> bool:
    return (
        one[0] < other[2] - _NEAR
        and other[0] < one[2] - _NEAR
        and one[1] < other[3] - _NEAR
        and other[1] < one[3] - _NEAR
    )


def _holds(flat: _Flat, x: float, y: float) -> bool:
    return flat[0] < x < flat[2] and flat[1] < y < flat[3]


def _middles(face: _Flat, others: Iterable[_Flat]) -> Iterator[tuple[float, float]]:
    """The middles of the fields into which the edges of others part a face."""
    them = list(others)
    lines = []
    for k in (0, 1):
        values = sorted(
            {face[k], face[k + 2], *(v for flat in them for v in (flat[k], flat[k + 2]))}
        )
        lines.append(values[bisect_left(values, face[k]) : bisect_left(values, face[k + 2]) + 1])
    for x0, x1 in pairwise(lines[0]):
        if x1 - x0 > _NEAR:
            for y0, y1 in pairwise(lines[1]):
                if y1 - y0 > _NEAR:
                    yield (x0 + x1) / 2, (y0 + y1) / 2


def past_the_doors(part: Part, closed: Iterable[Closed]) -> Iterator[tuple[Surface, UnitBox]]:
    """What of the faces behind doors is seen past them, before the rearmost door.

    Args:
        part: A part of a unit.
        closed: The spaces that doors close.
    """
    for surface in part.board.behind_doors:
        side = part.side(surface)
        box, level = part.box, part.box.face(side)
        for one in closed:
            if one.before is None or side.axis == 1 or box.low.y >= one.behind - _NEAR:
                continue
            low, high = list(box.low), list(box.high)
            low[side.axis], high[side.axis] = level - _NEAR, level + _NEAR
            high[1] = min(high[1], one.behind)
            yield surface, UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


__all__ = ["Closed", "closed_spaces", "past_the_doors", "with_what_is_seen"]
