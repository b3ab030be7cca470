"""Parallel lines across the inside of closed loops.

Inside is what an odd number of loops goes round (even-odd rule), so a hole within an outline
stays free whichever way either of them runs.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from cabinet.errors import DesignError
from cabinet.quantity import finite, positive
from drawings.coincidence import SHORTEST, snapped
from drawings.curves import ArcCurve, Curve, PolyCurve, Segment, ViewBounds, ViewPoint, bounds

# A loop's joints agree to a step of the grid only, so a hatch line just there may meet an odd
# number of curves; moved by this share of the spacing, nobody sees it and it meets them all.
_NUDGE = 0.003
_TRIES = 8


def hatch(
    loops: Sequence[Sequence[Curve]],
    angle: float,
    spacing: float,
    phase: float = 0.0,
    window: ViewBounds | None = None,
) -> tuple[Segment, ...]:
    """Hatch the inside of loops with parallel lines.

    The lines are counted from the view's origin, not from the loops, so that all cut faces of
    a part carry one pattern (Source: ISO 128-3: the same part, the same hatching).

    Args:
        loops: Closed loops, outer and inner alike, each a sequence of curves in any direction.
        angle: Direction of the lines, degrees counter-clockwise from u.
        spacing: Distance between the lines in mm of the model.
        phase: How far the line that would go through the view's origin is moved, mm to its left.
        window: Lines that miss this rectangle are left out; None for all.

    Returns:
        The lines, one after another across the loops; none if the loops lie between two lines.

    Raises:
        SizeError: ``angle`` or ``phase`` is not finite, ``spacing`` is not positive.
        DesignError: a loop is not closed.
    """
    finite("hatch", "angle", angle, unit="degrees")
    positive("hatch", "spacing", spacing)
    finite("hatch", "phase", phase)
    curves = [curve for loop in loops for curve in loop]
    if not curves:
        return ()
    turn = math.radians(angle)
    direction = (math.cos(turn), math.sin(turn))
    low, high = _range_across(bounds(curves), direction)
    if window is not None:
        lowest, highest = _range_across(window, direction)
        low, high = max(low, lowest), min(high, highest)
    result: list[Segment] = []
    first = math.ceil((low - phase) / spacing)
    last = math.floor((high - phase) / spacing)
    for index in range(first, last + 1):
        result += _line(curves, direction, phase + index * spacing, spacing)
    return tuple(result)


def _range_across(box: ViewBounds, direction: tuple[float, float]) -> tuple[float, float]:
    across = [
        _across(ViewPoint(u, v), direction)
        for u in (box.left, box.right)
        for v in (box.bottom, box.top)
    ]
    return min(across), max(across)


def _across(point: ViewPoint, direction: tuple[float, float]) -> float:
    return point.v * direction[0] - point.u * direction[1]


def _line(
    curves: Sequence[Curve], direction: tuple[float, float], level: float, spacing: float
) -> list[Segment]:
    for tried in range(_TRIES):
        at = level + tried * _NUDGE * spacing
        along = sorted(place for curve in curves for place in _crossings(curve, direction, at))
        if len(along) % 2 == 0:
            return _strokes(along, direction, at)
    raise DesignError(
        f"hatch: the line {level:.3f} mm from the origin enters a loop and does not leave it; "
        "loops must be closed",
        value=level,
        limit="closed loops",
    )


def _strokes(along: Sequence[float], direction: tuple[float, float], level: float) -> list[Segment]:
    du, dv = direction
    return [
        Segment(
            snapped(low * du - level * dv, low * dv + level * du),
            snapped(high * du - level * dv, high * dv + level * du),
        )
        for low, high in zip(along[::2], along[1::2], strict=True)
        if high - low >= SHORTEST
    ]


def _crossings(curve: Curve, direction: tuple[float, float], level: float) -> list[float]:
    """Where, along the line at ``level``, a curve passes from one side of it to the other."""
    if isinstance(curve, ArcCurve):
        return _arc_crossings(curve, direction, level)
    points = curve.points if isinstance(curve, PolyCurve) else (curve.start, curve.end)
    result: list[float] = []
    for a, b in pairwise(points):
        below, above = _across(a, direction) - level, _across(b, direction) - level
        # "Above" takes in the line itself, so that a corner on it counts once or twice, never half.
        if (below >= 0) != (above >= 0):
            share = below / (below - above)
            u, v = a.u + share * (b.u - a.u), a.v + share * (b.v - a.v)
            result.append(u * direction[0] + v * direction[1])
    return result


def _arc_crossings(arc: ArcCurve, direction: tuple[float, float], level: float) -> list[float]:
    """Like ``_crossings``: the arc is parted where it turns back, and each part crosses once."""
    turn = math.degrees(math.atan2(direction[1], direction[0]))
    rise = level - _across(arc.centre, direction)
    middle = arc.centre.u * direction[0] + arc.centre.v * direction[1]
    start, end = arc.start - turn, arc.end - turn
    turning = math.floor((start - 90.0) / 180.0) * 180.0 + 270.0
    limits = [start]
    while turning < end:
        limits.append(turning)
        turning += 180.0
    limits.append(end)
    result: list[float] = []
    for low, high in pairwise(limits):
        heights = [arc.radius * math.sin(math.radians(limit)) for limit in (low, high)]
        if (heights[0] >= rise) != (heights[1] >= rise):
            half_chord = math.sqrt(max(arc.radius**2 - rise**2, 0.0))
            is_right = math.cos(math.radians((low + high) / 2)) > 0
            result.append(middle + (half_chord if is_right else -half_chord))
    return result
