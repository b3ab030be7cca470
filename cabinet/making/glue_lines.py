"""The faces that meet in each glued joint: their area, how they lie, and which way to press.

The area is that of contact: for a housing its floor and both cheeks, for a rebate its floor and
one cheek, for a notch its floor and cheeks, for boards that meet flat the whole of the touching
rectangle, less openings through it. Lengths in mm, areas in mm2, in the unit's frame.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.features import CutOut, Feature, Groove, Notch, Rebate
from cabinet.joint import Biscuits, Butt, Crossing, Housing, Joint, Screwed
from cabinet.part import Part

# Joints that cover each other by this share are closed by the same clamps (common practice,
# no source).
_MOST = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueLine:
    """One glued joint.

    Attributes:
        index: Number of the joint among the unit's joints.
        parts: The two parts.
        title: Kind of joint.
        area: Glued area.
        axis: Unit axis along which the parts are pressed together.
        spans: Where the parts meet along X, Y and Z, low and high.
        biscuits: How many biscuits go in.
        screws: How many screws pull it together; 0 if clamps must.
    """

    index: int
    parts: tuple[str, str]
    title: str
    area: float
    axis: int
    spans: tuple[tuple[float, float], ...]
    biscuits: int = 0
    screws: int = 0

    @property
    def across(self) -> tuple[int, int]:
        """The two unit axes in the plane of the joint."""
        first, second = (axis for axis in range(3) if axis != self.axis)
        return first, second

    @property
    def lie(self) -> tuple[int, int]:
        """The axes in the plane of the joint: along its longer extent, then across it."""
        first, second = self.across
        return (first, second) if self._extent(first) >= self._extent(second) else (second, first)

    @property
    def length(self) -> float:
        """The longer extent of the joint in its plane."""
        return self._extent(self.lie[0])

    @property
    def width(self) -> float:
        """The shorter extent of the joint in its plane."""
        return self._extent(self.lie[1])

    def _extent(self, axis: int) -> float:
        low, high = self.spans[axis]
        return high - low


def glue_lines(unit: Unit) -> dict[int, GlueLine]:
    """Every glued joint by its number among the unit's joints."""
    parts = unit.by_name
    return {
        index: line
        for index, joint in enumerate(unit.joints)
        if joint.is_glued and (line := _line(index, joint, parts)) is not None
    }


def _line(index: int, joint: Joint, parts: Mapping[str, Part]) -> GlueLine | None:
    if not isinstance(joint, Housing | Crossing | Butt | Biscuits | Screwed):
        return None
    one, other = (parts[name] for name in joint.parts)
    spans = _meeting(one, other)
    if isinstance(joint, Housing | Crossing):
        axis, area = _let_in(joint, one, other, spans)
    else:
        extents = [high - low for low, high in spans]
        axis = min(range(3), key=lambda a: abs(extents[a]))
        flat = [a for a in range(3) if a != axis]
        area = extents[flat[0]] * extents[flat[1]] - _opened(one, other, axis)
    biscuits = joint.count if isinstance(joint, Biscuits) else 0
    if isinstance(joint, Biscuits):
        area += 2 * biscuits * joint.biscuit.face
    return GlueLine(
        index=index,
        parts=(one.name, other.name),
        title=joint.title,
        area=area,
        axis=axis,
        spans=spans,
        biscuits=biscuits,
        screws=joint.count if isinstance(joint, Screwed) else 0,
    )


def _meeting(one: Part, other: Part) -> tuple[tuple[float, float], ...]:
    """Where the boxes of two parts overlap or touch, by unit axis."""
    return tuple(
        (max(a0, b0), min(a1, b1))
        for a0, a1, b0, b1 in zip(
            one.box.low, one.box.high, other.box.low, other.box.high, strict=True
        )
    )


def _let_in(
    joint: Housing | Crossing,
    board: Part,
    into: Part,
    spans: tuple[tuple[float, float], ...],
) -> tuple[int, float]:
    """Pressing axis and area of a board let into a groove, a rebate or a notch."""
    ((_, feature),) = joint.features({board.name: board, into.name: into})
    axis = _entered(feature, into)
    depth = spans[axis][1] - spans[axis][0]
    thick_axis = board.placement.up.axis
    run = 3 - axis - thick_axis if thick_axis != axis else 3 - axis - into.placement.up.axis
    thickness = abs(spans[thick_axis][1] - spans[thick_axis][0])
    length = abs(spans[run][1] - spans[run][0])
    if isinstance(feature, Groove):
        return axis, length * (thickness + 2 * depth)
    if isinstance(feature, Rebate):
        return axis, length * (thickness + depth)
    third = 3 - axis - run
    floor = length * abs(spans[third][1] - spans[third][0])
    cheeks = 2 if isinstance(feature, Notch) and feature.near.distance > 0 else 1
    return axis, floor + cheeks * depth * min(length, into.board.thickness)


def _entered(feature: Feature, into: Part) -> int:
    """Unit axis along which the board goes into its groove, rebate or notch."""
    if isinstance(feature, Groove):
        return into.side(feature.surface).axis
    if isinstance(feature, Rebate):
        return into.side(feature.face).axis
    if isinstance(feature, Notch):
        return into.side(feature.edge).axis
    return into.placement.up.axis


def _opened(one: Part, other: Part, axis: int) -> float:
    """Area of the openings that go through both parts where they lie on each other."""
    names = {f.name for f in other.board.features if isinstance(f, CutOut)}
    if one.placement.up.axis != axis:
        return 0.0
    return sum(f.area for f in one.board.features if isinstance(f, CutOut) and f.name in names)


def clamp_rows(lines: Sequence[GlueLine]) -> Iterator[list[GlueLine]]:
    """Glue lines that one row of clamps closes together, the longest first.

    Those that lie over one another along one axis and share a part: left, top and right are
    pulled together by the same clamps.
    """
    left = sorted(lines, key=lambda line: (-line.length, line.index))
    while left:
        chain = [left.pop(0)]
        grown = True
        while grown:
            grown = False
            for line in list(left):
                if any(_one_row(line, member) for member in chain):
                    chain.append(line)
                    left.remove(line)
                    grown = True
        yield chain


def _one_row(one: GlueLine, other: GlueLine) -> bool:
    """Whether they share a part and each covers most of the other, seen along the axis."""
    if one.axis != other.axis or not set(one.parts) & set(other.parts):
        return False
    for a in one.across:
        common = min(one.spans[a][1], other.spans[a][1]) - max(one.spans[a][0], other.spans[a][0])
        widest = max(line.spans[a][1] - line.spans[a][0] for line in (one, other))
        if common < _MOST * widest:
            return False
    return True


def beside(one: GlueLine, other: GlueLine) -> float | None:
    """How far the middle of one joint is from another one that presses on the same part, mm.

    None if they are pressed along different axes or share no part.
    """
    if one.axis != other.axis or not set(one.parts) & set(other.parts):
        return None
    gaps = []
    for a in one.across:
        middle = (one.spans[a][0] + one.spans[a][1]) / 2
        gaps.append(max(other.spans[a][0] - middle, middle - other.spans[a][1], 0.0))
    return math.hypot(*gaps)
