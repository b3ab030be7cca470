"""A view on its piece of paper: model millimetres to paper millimetres, curves to marks."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product

from msgspec import structs

from drawings.clipping import clipped
from drawings.curves import ArcCurve, Curve, PolyCurve, ViewBounds, ViewPoint
from drawings.interruption import Span, kept, shortened
from drawings.marks import (
    Arc,
    Circle,
    Group,
    Ink,
    Line,
    Mark,
    PaperBox,
    PaperPoint,
    Polyline,
    Text,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ViewPaper:
    """Where a view lies on paper and how large it is drawn.

    Attributes:
        bounds: The part of the view that is drawn, mm of the model.
        scale: Paper mm for one mm of the model.
        gaps_u: What an interrupted view leaves out along u, ascending, mm of the model.
        gaps_v: Likewise along v.

    The top left corner of ``bounds`` is the paper's (0, 0); this is where the sheet's y, which
    grows downwards, is turned against the view's.
    """

    bounds: ViewBounds
    scale: float
    gaps_u: tuple[Span, ...] = ()
    gaps_v: tuple[Span, ...] = ()

    @property
    def box(self) -> PaperBox:
        """The paper that the bounds take, mm."""
        return PaperBox(0.0, 0.0, self.x(self.bounds.right), self.y(self.bounds.bottom))

    def x(self, u: float) -> float:
        """Paper x of a view coordinate u."""
        left = self.bounds.left
        gaps = tuple((a - left, b - left) for a, b in self.gaps_u) if self.gaps_u else ()
        return shortened(u - left, gaps, self.scale)

    def y(self, v: float) -> float:
        """Paper y of a view coordinate v."""
        top = self.bounds.top
        gaps = tuple((top - b, top - a) for a, b in reversed(self.gaps_v)) if self.gaps_v else ()
        return shortened(top - v, gaps, self.scale)

    def point(self, point: ViewPoint) -> PaperPoint:
        """The paper point of a view point."""
        return PaperPoint(self.x(point.u), self.y(point.v))

    def mark(self, curve: Curve, ink: Ink) -> Mark:
        """A curve as a mark."""
        if isinstance(curve, ArcCurve):
            centre, radius = self.point(curve.centre), curve.radius * self.scale
            if curve.is_full:
                return Circle(centre, radius, ink)
            # Seen from y downwards a counter-clockwise turn is a clockwise one.
            return Arc(centre, radius, -curve.end, -curve.start, ink)
        if isinstance(curve, PolyCurve):
            return Polyline(tuple(self.point(p) for p in curve.points), ink)
        return Line(self.point(curve.start), self.point(curve.end), ink)

    def marks(self, curves: Iterable[Curve], ink: Ink) -> list[Mark]:
        """What is shown of curves, as marks."""
        return [self.mark(curve, ink) for curve in self._shown(tuple(curves))]

    def _shown(self, curves: tuple[Curve, ...]) -> Iterable[Curve]:
        """The curves without what an interrupted view leaves out; at its ends nothing is cut."""
        if not self.gaps_u and not self.gaps_v:
            return curves
        across = kept(self.gaps_u, (-math.inf, math.inf))
        up = kept(self.gaps_v, (-math.inf, math.inf))
        return [
            piece
            for (left, right), (bottom, top) in product(across, up)
            for piece in clipped(curves, ViewBounds(left, bottom, right, top))
        ]


def moved(mark: Mark, dx: float, dy: float) -> Mark:
    """A mark moved by (dx, dy) mm on the sheet."""
    match mark:
        case Line():
            return Line(mark.start.moved(dx, dy), mark.end.moved(dx, dy), mark.ink)
        case Polyline():
            points = tuple(point.moved(dx, dy) for point in mark.points)
            return Polyline(points, mark.ink, mark.closed)
        case Circle():
            return Circle(mark.centre.moved(dx, dy), mark.radius, mark.ink)
        case Arc():
            return Arc(mark.centre.moved(dx, dy), mark.radius, mark.start, mark.end, mark.ink)
        case Text():
            return mark.put(mark.at.moved(dx, dy))
        case Group():
            return structs.replace(mark, marks=tuple(moved(inner, dx, dy) for inner in mark.marks))
