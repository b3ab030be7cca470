"""Packing behind a unit on a wall that is not straight or not plumb.

The unit's back must be plumb and flat; it may follow the wall in plan. So the back is an
upright plane, and of all that the wall allows the one is taken whose thickest packing is least.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations, pairwise

from cabinet.site.room.frame import WallBox, WallPoint
from cabinet.site.room.room_wall import FaceReading, between

# Readings so far outside the unit still count, mm.
_BESIDE = 60.0
# Packing is made up of pieces to half a millimetre; less than this is left out, mm.
STEP = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class PackingPiece:
    """A piece of packing: where it goes and how thick it is, mm."""

    what: str
    at: WallPoint
    thick: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """All packing of a unit.

    Attributes:
        pieces: Those that are needed, from left to right and from the top down.
        turned: How far the unit's right end stands farther from the reference than its left, mm.
        unplumb: How far the wall's foot stands before (+) or behind (-) its top over the height
            of the unit, at its middle, mm.
    """

    pieces: tuple[PackingPiece, ...]
    turned: float
    unplumb: float

    @property
    def most(self) -> float:
        """The thickest piece, mm; 0 if none is needed."""
        return max((piece.thick for piece in self.pieces), default=0.0)


def face_at(readings: tuple[FaceReading, ...], at: WallPoint) -> float:
    """The wall's distance from the reference at a place, mm.

    Readings of one height are a row; within a row and from row to row it runs straight.
    """
    rows: dict[float, list[tuple[float, float]]] = {}
    for reading in readings:
        rows.setdefault(reading.z, []).append((reading.x, reading.gap))
    levels = [(z, between(sorted(row), at.x)) for z, row in sorted(rows.items())]
    return between(levels, at.z)


def _lower_hull(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The lower edge of the convex hull of points (x, gap), by rising x."""
    hull: list[tuple[float, float]] = []
    for x, gap in sorted(points):
        while len(hull) >= 2:
            (ax, ay), (bx, by) = hull[-2], hull[-1]
            if (bx - ax) * (gap - ay) - (by - ay) * (x - ax) > 0:
                break
            hull.pop()
        if hull and hull[-1][0] == x:
            continue
        hull.append((x, gap))
    return hull


def touching_line(
    points: list[tuple[float, float]], spots: list[tuple[float, float]]
) -> tuple[float, float]:
    """The straight line under all points whose greatest distance to the spots is least.

    The line touches the lower hull of the points, so it turns about a corner of it between the
    two edges there. For each corner the greatest distance is a convex broken line over the
    slope, and least at an edge's slope or where two spots are equally far: all are tried. Of
    equal ones the least in sum is taken.

    Args:
        points: (x, gap) of the wall, mm, at least one; the line must not reach beyond them.
        spots: (x, gap) where packing goes, mm, at least one.

    Returns:
        The line's gap at x = 0, and its slope.
    """
    hull = _lower_hull(points)
    edges = [(by - ay) / (bx - ax) for (ax, ay), (bx, by) in pairwise(hull)]
    best: tuple[tuple[float, float, float], tuple[float, float]] | None = None
    for index, (x, gap) in enumerate(hull):
        low = edges[index - 1] if index > 0 else -math.inf
        high = edges[index] if index < len(edges) else math.inf
        for slope in _slopes(spots, (x, gap), low, high):
            far = [each - gap - slope * (at - x) for at, each in spots]
            key = (round(max(far), 9), round(sum(far), 9), abs(slope))
            if best is None or key < best[0]:
                best = key, (gap - slope * x, slope)
    if best is None:
        raise AssertionError("every hull has a corner, and every corner a slope")
    return best[1]


def _slopes(
    spots: list[tuple[float, float]], about: tuple[float, float], low: float, high: float
) -> list[float]:
    """Slopes to be tried of a line about a point, from low to high."""
    x, gap = about
    tried = {slope for slope in (low, high) if math.isfinite(slope)}
    if not tried:
        tried = {0.0}
    far = [(at - x, each - gap) for at, each in spots]
    for (a, up), (b, other) in combinations(far, 2):
        # Equally far: up - s a = other - s b.
        if a != b and low <= (up - other) / (a - b) <= high:
            tried.add((up - other) / (a - b))
    return sorted(tried)


def packing(
    readings: tuple[FaceReading, ...],
    outline: WallBox,
    spots: tuple[tuple[str, WallPoint], ...],
) -> Packing | None:
    """The packing behind a unit; None without readings near it.

    Args:
        readings: The wall's face.
        outline: What the unit covers.
        spots: Where it bears on the wall, each with its name.
    """
    near = outline.grown(left=_BESIDE, right=_BESIDE, down=_BESIDE, up=_BESIDE)
    readings = tuple(
        r for r in readings if near.low.x <= r.x <= near.high.x and near.low.z <= r.z <= near.high.z
    )
    if not readings or not spots:
        return None
    packed = [(at.x, face_at(readings, at)) for _, at in spots]
    start, slope = touching_line([(r.x, r.gap) for r in readings] + packed, packed)
    pieces = []
    for what, at in spots:
        thick = face_at(readings, at) - (start + slope * at.x)
        rounded = math.floor(thick / STEP + 0.5) * STEP
        if rounded >= STEP:
            pieces.append(PackingPiece(what=what, at=at, thick=rounded))
    middle = outline.centre.x
    top = face_at(readings, WallPoint(middle, outline.high.z))
    foot = face_at(readings, WallPoint(middle, outline.low.z))
    return Packing(
        pieces=tuple(sorted(pieces, key=lambda p: (-p.at.z, p.at.x, p.what))),
        turned=slope * outline.width,
        unplumb=top - foot,
    )
