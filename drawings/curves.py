"""Lines, arcs and other curves of a view, as plain data in model millimetres.

A view's frame has u to the right and v up, as the viewer sees it; nothing here knows of a
scale, a sheet or the kernel that the curves came from.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from cabinet.errors import SizeError
from cabinet.quantity import finite, positive

CHORD_ERROR = 0.05
"""Largest distance in mm between a curve and the ``PolyCurve`` that stands for it."""

FULL_TURN = 360.0


@dataclass(frozen=True, slots=True)
class ViewPoint:
    """A point of a view in model mm: u to the right, v up."""

    u: float
    v: float

    def __post_init__(self) -> None:
        # Views hold thousands of points, so the usual case is told at once.
        if type(self.u) is float and type(self.v) is float and math.isfinite(self.u + self.v):
            return
        finite("view point", "u", self.u)
        finite("view point", "v", self.v)


@dataclass(frozen=True, slots=True)
class ViewBounds:
    """An upright rectangle in a view, mm; ``left <= right`` and ``bottom <= top``."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Size along u in mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Size along v in mm."""
        return self.top - self.bottom

    def grown(self, margin: float) -> ViewBounds:
        """This rectangle with ``margin`` mm added on all four sides."""
        return ViewBounds(
            self.left - margin, self.bottom - margin, self.right + margin, self.top + margin
        )

    def meets(self, other: ViewBounds) -> bool:
        """Whether the two rectangles share a point, edges included."""
        return (
            self.left <= other.right
            and other.left <= self.right
            and self.bottom <= other.top
            and other.bottom <= self.top
        )


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight line between two different points."""

    start: ViewPoint
    end: ViewPoint

    def __post_init__(self) -> None:
        if self.start == self.end:
            raise SizeError(
                f"segment: both ends lie at {self.start}; they must differ", value=self.start
            )


@dataclass(frozen=True, slots=True)
class ArcCurve:
    """Part of a circle, or all of it.

    Attributes:
        centre: Its centre.
        radius: Its radius in mm.
        start: Where it begins, degrees counter-clockwise from the direction of u, 0 <= start < 360.
        end: Where it ends, in degrees; ``start < end <= start + 360``, and a difference of 360
            is the full circle.
    """

    centre: ViewPoint
    radius: float
    start: float
    end: float

    def __post_init__(self) -> None:
        positive("arc", "radius", self.radius)
        finite("arc", "start", self.start, unit="degrees")
        sweep = finite("arc", "end", self.end, unit="degrees") - self.start
        if not 0 <= self.start < FULL_TURN or not 0 < sweep <= FULL_TURN:
            raise SizeError(
                f"arc: it runs from {self.start} to {self.end} degrees; it must start within "
                "0..360 and turn counter-clockwise by at most 360",
                value=(self.start, self.end),
                limit=FULL_TURN,
            )

    @property
    def is_full(self) -> bool:
        """Whether it is the whole circle."""
        return self.end - self.start == FULL_TURN

    def point_at(self, angle: float) -> ViewPoint:
        """The point of its circle at ``angle`` degrees."""
        turn = math.radians(angle)
        return ViewPoint(
            self.centre.u + self.radius * math.cos(turn),
            self.centre.v + self.radius * math.sin(turn),
        )

    def passes(self, angle: float) -> bool:
        """Whether the direction ``angle`` (degrees) lies on it, ends included."""
        return (angle - self.start) % FULL_TURN <= self.end - self.start


@dataclass(frozen=True, slots=True)
class PolyCurve:
    """Any other curve, as points at most ``CHORD_ERROR`` mm of sagitta apart."""

    points: tuple[ViewPoint, ...]

    def __post_init__(self) -> None:
        if len(self.points) < 2:
            raise SizeError(
                f"curve: {len(self.points)} points; there must be at least 2",
                value=len(self.points),
                limit=2,
            )


Curve = Segment | ArcCurve | PolyCurve


def ends(curve: Curve) -> tuple[ViewPoint, ViewPoint]:
    """Where a curve begins and where it ends; the same point twice for a full circle."""
    if isinstance(curve, Segment):
        return curve.start, curve.end
    if isinstance(curve, PolyCurve):
        return curve.points[0], curve.points[-1]
    return curve.point_at(curve.start), curve.point_at(curve.end)


def bounds(curves: Iterable[Curve]) -> ViewBounds:
    """The smallest upright rectangle around all the curves, mm.

    Raises:
        SizeError: there is no curve.
    """
    points = [point for curve in curves for point in _extreme_points(curve)]
    if not points:
        raise SizeError("bounds: there is no curve to go round", value=0, limit=1)
    us = [point.u for point in points]
    vs = [point.v for point in points]
    return ViewBounds(min(us), min(vs), max(us), max(vs))


def _extreme_points(curve: Curve) -> tuple[ViewPoint, ...]:
    if isinstance(curve, Segment):
        return curve.start, curve.end
    if isinstance(curve, PolyCurve):
        return curve.points
    centre, radius = curve.centre, curve.radius
    quadrants = (
        (0.0, ViewPoint(centre.u + radius, centre.v)),
        (90.0, ViewPoint(centre.u, centre.v + radius)),
        (180.0, ViewPoint(centre.u - radius, centre.v)),
        (270.0, ViewPoint(centre.u, centre.v - radius)),
    )
    return (*ends(curve), *(point for angle, point in quadrants if curve.passes(angle)))


def length(curves: Iterable[Curve]) -> float:
    """How long all the curves are together, mm."""
    return math.fsum(_length(curve) for curve in curves)


def _length(curve: Curve) -> float:
    if isinstance(curve, ArcCurve):
        return math.radians(curve.end - curve.start) * curve.radius
    points = curve.points if isinstance(curve, PolyCurve) else (curve.start, curve.end)
    return math.fsum(math.hypot(b.u - a.u, b.v - a.v) for a, b in pairwise(points))


def sort_key(curve: Curve) -> tuple[int, tuple[float, ...]]:
    """A key from geometry alone, so that an order does not depend on where curves came from."""
    if isinstance(curve, Segment):
        return 0, (curve.start.u, curve.start.v, curve.end.u, curve.end.v)
    if isinstance(curve, ArcCurve):
        return 1, (curve.centre.u, curve.centre.v, curve.radius, curve.start, curve.end)
    return 2, tuple(number for point in curve.points for number in (point.u, point.v))
