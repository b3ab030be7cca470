"""Curves cut off at an upright rectangle of a view, for enlarged details."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

from drawings.curves import ArcCurve, Curve, PolyCurve, Segment, ViewBounds, ViewPoint

# Arcs that cross the rectangle become short chords, one for each so many degrees.
_STEP = 3.0


def clipped(curves: Iterable[Curve], window: ViewBounds) -> list[Curve]:
    """What lies within the rectangle, edges included; whole curves stay exact.

    Args:
        curves: Curves of a view, mm.
        window: The rectangle, mm.
    """
    found: list[Curve] = []
    for curve in curves:
        if isinstance(curve, Segment):
            part = clipped_segment(curve, window)
            found += [part] if part is not None else []
        elif isinstance(curve, ArcCurve) and _is_within(curve, window):
            found.append(curve)
        else:
            found += [
                part
                for piece in _chords(curve)
                if (part := clipped_segment(piece, window)) is not None
            ]
    return found


def clipped_segment(segment: Segment, window: ViewBounds) -> Segment | None:
    """The piece of a segment within the rectangle; None if there is none.

    Source: Liang and Barsky, A new concept and method for line clipping, ACM TOG 3(1), 1984.
    """
    a, b = segment.start, segment.end
    du, dv = b.u - a.u, b.v - a.v
    first, last = 0.0, 1.0
    for p, q in (
        (-du, a.u - window.left),
        (du, window.right - a.u),
        (-dv, a.v - window.bottom),
        (dv, window.top - a.v),
    ):
        if abs(p) < 1e-12:
            if q < -1e-9:
                return None
            continue
        if p < 0:
            first = max(first, q / p)
        else:
            last = min(last, q / p)
    if last - first < 1e-9:
        return None
    return Segment(
        ViewPoint(a.u + first * du, a.v + first * dv), ViewPoint(a.u + last * du, a.v + last * dv)
    )


def _is_within(arc: ArcCurve, window: ViewBounds) -> bool:
    c, r = arc.centre, arc.radius
    return (
        window.left <= c.u - r
        and c.u + r <= window.right
        and window.bottom <= c.v - r
        and c.v + r <= window.top
    )


def _chords(curve: Curve) -> list[Segment]:
    if isinstance(curve, PolyCurve):
        points = list(curve.points)
    elif isinstance(curve, ArcCurve):
        count = max(2, math.ceil((curve.end - curve.start) / _STEP))
        points = [
            curve.point_at(curve.start + (curve.end - curve.start) * i / count)
            for i in range(count + 1)
        ]
    else:
        points = [curve.start, curve.end]
    return [Segment(a, b) for a, b in pairwise(points)]
