"""A view on its piece of paper: model millimetres to paper millimetres, curves to marks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from drawings.curves import ArcCurve, Curve, PolyCurve, ViewBounds, ViewPoint
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

    The top left corner of ``bounds`` is the paper's (0, 0); this is where the sheet's y, which
    grows downwards, is turned against the view's.
    """

    bounds: ViewBounds
    scale: float

    @property
    def box(self) -> PaperBox:
        """The paper that the bounds take, mm."""
        width, height = self.bounds.width * self.scale, self.bounds.height * self.scale
        return PaperBox(0.0, 0.0, width, height)

    def x(self, u: float) -> float:
        """Paper x of a view coordinate u."""
        return (u - self.bounds.left) * self.scale

    def y(self, v: float) -> float:
        """Paper y of a view coordinate v."""
        return (self.bounds.top - v) * self.scale

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
        """Curves as marks."""
        return [self.mark(curve, ink) for curve in curves]


def moved(mark: Mark, dx: float, dy: float) -> Mark:
    """A mark moved by (dx, dy) mm on the sheet."""
    match mark:
        case Line():
            return replace(mark, start=mark.start.moved(dx, dy), end=mark.end.moved(dx, dy))
        case Polyline():
            return replace(mark, points=tuple(p.moved(dx, dy) for p in mark.points))
        case Circle() | Arc():
            return replace(mark, centre=mark.centre.moved(dx, dy))
        case Text():
            return replace(mark, at=mark.at.moved(dx, dy))
        case Group():
            return replace(mark, marks=tuple(moved(inner, dx, dy) for inner in mark.marks))
