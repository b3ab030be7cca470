"""Free area seen from above: a rectangle less the rectangles that cover parts of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle seen from above, mm in the unit's X and Y; empty if its ends cross."""

    x0: float
    x1: float
    y0: float
    y1: float

    @property
    def area(self) -> float:
        """Area, mm2."""
        return max(self.x1 - self.x0, 0.0) * max(self.y1 - self.y0, 0.0)

    def within(self, other: Rectangle) -> Rectangle:
        """What of it lies in another."""
        return Rectangle(
            max(self.x0, other.x0),
            min(self.x1, other.x1),
            max(self.y0, other.y0),
            min(self.y1, other.y1),
        )


def free_area(whole: Rectangle, covers: Iterable[Rectangle]) -> float:
    """Area of a rectangle that nothing covers, mm2; covers may lie over each other."""
    them = [r for r in (cover.within(whole) for cover in covers) if r.area > 0]
    xs = sorted({whole.x0, whole.x1, *(v for r in them for v in (r.x0, r.x1))})
    ys = sorted({whole.y0, whole.y1, *(v for r in them for v in (r.y0, r.y1))})
    free = 0.0
    for x0, x1 in pairwise(xs):
        for y0, y1 in pairwise(ys):
            x, y = (x0 + x1) / 2, (y0 + y1) / 2
            if not any(r.x0 < x < r.x1 and r.y0 < y < r.y1 for r in them):
                free += (x1 - x0) * (y1 - y0)
    return free
