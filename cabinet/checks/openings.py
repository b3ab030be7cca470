"""Openings: no board lies against the face where one comes out, such as a cleat under the top.

A place in the plane of an opening is told by the two unit axes across it. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from cabinet.checks.placed import feature_box
from cabinet.design import Unit
from cabinet.features import CutOut, Perforation
from cabinet.findings import Finding, Severity
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.part import Part

# What lies nearer to the face than this lies against it (common practice, no source).
LEAST_BEFORE = 1.0
# Less than this of an opening is not missed.
LEAST_COVERED = 0.1


def openings(unit: Unit) -> Iterator[Finding]:
    """Openings that run into a board behind or before their own."""
    for part in unit.parts:
        for cut in part.board.features:
            if isinstance(cut, CutOut):
                for other in unit.parts:
                    if other is not part and _is_in_the_way(part, cut, other):
                        yield _blocked(part, cut, other)


def _is_in_the_way(part: Part, cut: CutOut, other: Part) -> bool:
    """Whether a part lies against the board and covers some of the opening."""
    if any(
        isinstance(feature, Perforation)
        or (isinstance(feature, CutOut) and feature.name == cut.name)
        for feature in other.board.features
    ):
        return False
    axis = part.placement.up.axis
    own, there = part.box, other.box
    if not any(
        tuple(there.low)[axis] < level + LEAST_BEFORE
        and tuple(there.high)[axis] > level - LEAST_BEFORE
        for level in (tuple(own.low)[axis], tuple(own.high)[axis])
    ):
        return False
    gaps = [_gap(feature_box(part, cut), there, each, cut.corner_radius) for each in _across(axis)]
    if max(gaps) < -LEAST_COVERED:
        return True
    # Round corners: the middle of each corner's arc lies a radius within both edges.
    return math.hypot(*(max(gap, 0.0) for gap in gaps)) < cut.corner_radius - LEAST_COVERED


def _across(axis: int) -> tuple[int, int]:
    first, second = (each for each in range(3) if each != axis)
    return first, second


def _gap(opening: UnitBox, there: UnitBox, axis: int, radius: float) -> float:
    """From what is left of an opening without its corners' radii to a box; negative within."""
    low, high = tuple(opening.low)[axis] + radius, tuple(opening.high)[axis] - radius
    return max(low - tuple(there.high)[axis], tuple(there.low)[axis] - high)


def _blocked(part: Part, cut: CutOut, other: Part) -> Finding:
    box, there = feature_box(part, cut), other.box
    axes = _across(part.placement.up.axis)
    low = [max(a, b) for a, b in zip(box.low, there.low, strict=True)]
    high = [min(a, b) for a, b in zip(box.high, there.high, strict=True)]
    sizes = [high[axis] - low[axis] for axis in axes]
    # The shortest way out of the board's shadow, by the box.
    ways = [
        (abs(box.face(side.opposite) - there.face(side)), side)
        for side in Side
        if side.axis in axes
    ]
    far, side = min(ways, key=lambda way: way[0])
    middle = [(a + b) / 2 for a, b in zip(box.low, box.high, strict=True)]
    return Finding(
        rule="opening-blocked",
        severity=Severity.ERROR,
        parts=(part.name, other.name),
        where=UnitPoint(*middle),
        found=min(sizes),
        limit=0.0,
        sentence=f"{part.name}: {cut.name} comes out against {other.name}, which covers "
        f"{sizes[0]:.1f} × {sizes[1]:.1f} mm of it; move it {far:.1f} mm to the {side.value}, or "
        "make it smaller",
    )
