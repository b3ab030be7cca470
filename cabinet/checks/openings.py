"""Openings: nothing that lies on the boards closes an opening that goes through them.

A cleat or a rail below the top, a covering that was left whole, a plinth below the base: each
closes the opening as far as it lies over it. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from cabinet.checks.bodies import common, middle
from cabinet.design import Unit
from cabinet.findings import Finding, Severity
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.joint import Opening
from cabinet.part import Part

# What stands this near to the boards closes the opening; farther off air and leads pass beside it
# (common practice, no source).
BEFORE = 10.0
# A part that lies over less of an opening than this along either side only touches its edge.
LEAST_OVER = 0.5


def openings(unit: Unit) -> Iterator[Finding]:
    """Openings that a part closes, or closes in part."""
    for joint in unit.joints:
        if isinstance(joint, Opening):
            for part, over in _closed_by(unit, joint):
                yield _finding(unit, joint, part, over)


def _closed_by(unit: Unit, opening: Opening) -> Iterator[tuple[Part, UnitBox]]:
    """Each part that lies over an opening, and the box in which it does."""
    known = unit.by_name
    through = [known[name] for name in opening.through]
    up = through[0].placement.up
    for side in (up, up.opposite):
        mouth = _mouth(opening, through, side)
        for part in unit.parts:
            over = common(mouth, part.box, LEAST_OVER) if part not in through else None
            if over is not None and _is_within_the_round(mouth, opening, part, side):
                yield part, over


def _mouth(opening: Opening, through: list[Part], side: Side) -> UnitBox:
    """The room right before an opening, on one side of all the boards that it goes through."""
    face = max((part.box.face(side) for part in through), key=lambda z: z * side.sign)
    low, high = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
    ends = sorted((face, face + side.sign * BEFORE))
    low[side.axis], high[side.axis] = ends
    flat = [axis for axis in range(3) if axis != side.axis]
    for axis, extent in zip(flat, opening.size, strict=True):
        centre = tuple(opening.centre)[axis]
        low[axis], high[axis] = centre - extent / 2, centre + extent / 2
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


def _is_within_the_round(mouth: UnitBox, opening: Opening, part: Part, side: Side) -> bool:
    """Whether a part lies over more than a corner that is rounded off anyway."""
    radius = opening.corner_radius
    ends = zip(mouth.low, mouth.high, part.box.low, part.box.high, strict=True)
    gaps = [
        max(low + radius - part_high, part_low - high + radius, 0.0)
        for axis, (low, high, part_low, part_high) in enumerate(ends)
        if axis != side.axis
    ]
    return radius == 0 or math.hypot(*gaps) < radius - LEAST_OVER


def _way_out(opening: Opening, part: Part, axis: int) -> tuple[float, Side]:
    """How far an opening must move, and to which side, to be clear of a part; the shorter way."""
    ways = []
    for side in Side:
        if side.axis != axis:
            extent = opening.size[[a for a in range(3) if a != axis].index(side.axis)]
            edge = tuple(opening.centre)[side.axis] - side.sign * extent / 2
            ways.append(((part.box.face(side) - edge) * side.sign, side))
    return min(ways, key=lambda way: way[0])


def _finding(unit: Unit, opening: Opening, part: Part, over: UnitBox) -> Finding:
    through = unit.by_name[opening.through[0]].placement.up.axis
    across = [extent for axis, extent in enumerate(over.size) if axis != through]
    far, side = _way_out(opening, part, through)
    return Finding(
        rule="opening-closed",
        severity=Severity.ERROR,
        parts=(*opening.through, part.name),
        where=middle(over),
        found=math.prod(across) / math.prod(opening.size),
        limit=0.0,
        sentence=f"{opening.name}, {opening.size[0]:g} × {opening.size[1]:g} mm: {part.name} lies over "
        f"{across[0]:.1f} × {across[1]:.1f} mm of it; move the opening {far:.1f} mm to the "
        f"{side.value}, or make it smaller",
    )
