"""Outlines with straight edges: checked, measured, and cut by upright lines.

The only file that knows shapely. Corners lie on the grid of 0.001 mm that the saw's proof uses,
so areas are exact: those of clipped outlines are fractions of the grid's squares. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from shapely import get_parts, normalize
from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry

from cabinet.errors import KindError, SizeError
from cabinet.making.guillotine import GRID, from_grid, to_grid
from cabinet.quantity import numbers, positive, within, written

Corner = tuple[float, float]
Outline = tuple[Corner, ...]
# A slanted edge is followed by boxes in so many steps, on the safe side.
_STEPS = 12
# What a float may be off by that should lie on the grid, in its units.
_EPS = 1e-6
# Corners that were rounded to the grid lie off an edge by less than this, in its units.
_ROUNDED = 1.5
_Exact = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle, mm; ``x`` and ``y`` are its low corner.

    Attributes:
        x: Low coordinate along the board's length.
        y: Low coordinate along its width.
        length: Size along the length.
        width: Size along the width.
    """

    x: float
    y: float
    length: float
    width: float

    @property
    def right(self) -> float:
        """High coordinate along the length, mm."""
        return self.x + self.length

    @property
    def top(self) -> float:
        """High coordinate along the width, mm."""
        return self.y + self.width

    @property
    def outline(self) -> Outline:
        """Its four corners."""
        return (
            (self.x, self.y),
            (self.right, self.y),
            (self.right, self.top),
            (self.x, self.top),
        )

    def holds(self, other: Rect) -> bool:
        """Whether another rectangle lies within this one, edges included."""
        return (
            to_grid(self.x) <= to_grid(other.x)
            and to_grid(self.y) <= to_grid(other.y)
            and to_grid(other.right) <= to_grid(self.right)
            and to_grid(other.top) <= to_grid(self.top)
        )


def rectangle(length: float, width: float, at: Corner = (0.0, 0.0)) -> Outline:
    """A rectangle's outline, its low corner at ``at``, mm.

    Raises:
        SizeError: a size that is not positive.
    """
    positive("rectangle", "length", length)
    positive("rectangle", "width", width)
    x, y = numbers("rectangle", "at", at, count=2)
    return Rect(x, y, length, width).outline


def l_shape(length: float, width: float, missing: tuple[float, float]) -> Outline:
    """An L: a rectangle whose far upper corner is missing.

    Args:
        length: Size along the length over all, mm.
        width: Size across it over all, mm.
        missing: Length and width of the corner that has been cut away, mm.

    Raises:
        SizeError: sizes that are not positive, or nothing left of an arm.
    """
    positive("L-shape", "length", length)
    positive("L-shape", "width", width)
    off_long, off_wide = numbers("L-shape", "missing", missing, count=2)
    off_x = within("L-shape", "missing length", off_long, 1 / GRID, length - 1 / GRID)
    off_y = within("L-shape", "missing width", off_wide, 1 / GRID, width - 1 / GRID)
    return (
        (0.0, 0.0),
        (length, 0.0),
        (length, width - off_y),
        (length - off_x, width - off_y),
        (length - off_x, width),
        (0.0, width),
    )


def checked_outline(owner: str, what: str, corners: Sequence[Corner]) -> Outline:
    """An outline on the grid, counter-clockwise from its lowest corner (leftmost if two are).

    Raises:
        KindError: no tuple or list of corners of two numbers.
        SizeError: fewer than three corners, a coordinate that is no finite number, edges that
            cross or touch, or no area.
    """
    if not isinstance(corners, tuple | list):
        raise KindError(
            f"{owner}: {what} is {corners!r}; give its corners, such as rectangle(1200, 400)",
            part=owner,
            value=corners,
            limit="a tuple of corners",
        )
    if len(corners) < 3:
        raise SizeError(
            f"{owner}: {what} has {len(corners)} corners; it must have at least 3",
            part=owner,
            value=len(corners),
            limit=3,
        )
    points = []
    for number, told in enumerate(corners, start=1):
        x, y = numbers(owner, f"corner {number} of {what}", told, count=2)
        points.append((from_grid(to_grid(x)), from_grid(to_grid(y))))
    for number, corner in enumerate(points, start=1):
        if corner == points[number % len(points)]:
            raise SizeError(
                f"{owner}: corners {number} and {number % len(points) + 1} of {what} lie in one "
                "place; leave one out",
                part=owner,
                value=corner,
                limit="distinct corners",
            )
    crossing = _crossing(points)
    if crossing is not None:
        one, other = crossing
        raise SizeError(
            f"{owner}: edges {one} and {other} of {what} cross or touch; an outline must go once "
            "round without meeting itself",
            part=owner,
            value=(one, other),
            limit="no crossing",
        )
    if _doubled_area(points) == 0:
        raise SizeError(
            f"{owner}: {what} has no area; its corners lie on one line",
            part=owner,
            value=0,
            limit="an area",
        )
    if _doubled_area(points) < 0:
        points.reverse()
    first = min(range(len(points)), key=lambda k: (points[k][1], points[k][0]))
    return tuple(points[first:] + points[:first])


def _crossing(points: Sequence[Corner]) -> tuple[int, int] | None:
    """The numbers, from 1, of two edges that meet where they must not."""
    ring = [(to_grid(x), to_grid(y)) for x, y in points]
    edges = list(pairwise([*ring, ring[0]]))
    count = len(edges)
    for i in range(count):
        for j in range(i + 1, count):
            if _meet(edges[i], edges[j], is_next=j == i + 1, is_last=(j + 1) % count == i):
                return i + 1, j + 1
    return None


_Edge = tuple[tuple[int, int], tuple[int, int]]


def _meet(one: _Edge, other: _Edge, *, is_next: bool, is_last: bool) -> bool:
    """Whether two edges share a point that is not the corner between neighbours."""
    (a, b), (c, d) = one, other
    if is_next or is_last:
        # Neighbours share one corner; they must not run back over each other.
        shared, end, start = (b, d, a) if is_next else (a, c, b)
        return _side(start, shared, end) == 0 and _dot(shared, start, end) > 0
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    return (
        _sign(_side(a, b, c)) * _sign(_side(a, b, d)) <= 0
        and _sign(_side(c, d, a)) * _sign(_side(c, d, b)) <= 0
    )


def _side(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> int:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _dot(at: tuple[int, int], a: tuple[int, int], b: tuple[int, int]) -> int:
    return (a[0] - at[0]) * (b[0] - at[0]) + (a[1] - at[1]) * (b[1] - at[1])


def _sign(value: int) -> int:
    return (value > 0) - (value < 0)


def _doubled_area(points: Sequence[Corner]) -> int:
    ring = [(to_grid(x), to_grid(y)) for x, y in points]
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*ring, ring[0]]))


def bounds(outline: Outline) -> Rect:
    """The upright rectangle round an outline, mm."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return Rect(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def area(outline: Outline) -> Fraction:
    """Area in squares of the grid (1e-6 mm2), exact."""
    return Fraction(abs(_doubled_area(outline)), 2)


@lru_cache(maxsize=16384)
def clipped_area(outline: Outline, rect: Rect) -> Fraction:
    """Area of what lies within a rectangle, in squares of the grid, exact.

    The outline is cut by the rectangle's four lines one after another (Sutherland and Hodgman,
    "Reentrant polygon clipping", Comm. ACM 17(1), 1974; from memory); bridges that this leaves
    between separate pieces have no area.
    """
    ring: list[_Exact] = [(Fraction(to_grid(x)), Fraction(to_grid(y))) for x, y in outline]
    low = Fraction(to_grid(rect.x)), Fraction(to_grid(rect.y))
    high = Fraction(to_grid(rect.right)), Fraction(to_grid(rect.top))
    for axis in (0, 1):
        ring = _half(ring, axis, low[axis], lambda value, limit: value >= limit)
        ring = _half(ring, axis, high[axis], lambda value, limit: value <= limit)
    if not ring:
        return Fraction(0)
    doubled = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*ring, ring[0]]))
    return abs(Fraction(doubled)) / 2


class Wood:
    """Where there is wood on a board of some outline.

    Args:
        outline: The board's outline.
    """

    def __init__(self, outline: Outline) -> None:
        self._outline = outline
        self._around = bounds(outline)
        self._is_full = set(outline) == set(self._around.outline)

    def area(self, rect: Rect) -> Fraction:
        """Area of wood within a rectangle, in squares of the grid, exact."""
        if self._is_full:
            met = overlap(rect, self._around)
            return Fraction(to_grid(met.length) * to_grid(met.width)) if met else Fraction(0)
        return clipped_area(self._outline, rect)

    def is_in(self, rect: Rect) -> bool:
        """Whether there is any wood within a rectangle."""
        if self._is_full:
            return overlap(rect, self._around) is not None
        return self.area(rect) > 0

    def fills(self, rect: Rect) -> bool:
        """Whether a rectangle is nothing but wood."""
        if self._is_full:
            return self._around.holds(rect)
        return self.area(rect) == to_grid(rect.length) * to_grid(rect.width)

    def share(self, rect: Rect) -> float:
        """Which part of a rectangle is wood, 0 to 1."""
        if self._is_full and self._around.holds(rect):
            return 1.0
        whole = to_grid(rect.length) * to_grid(rect.width)
        return float(self.area(rect) / whole) if whole else 0.0


def _half(
    ring: list[_Exact], axis: int, limit: Fraction, keeps: Callable[[Fraction, Fraction], bool]
) -> list[_Exact]:
    """What of a closed ring lies on the kept side of a line across an axis."""
    kept: list[_Exact] = []
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        if keeps(a[axis], limit):
            kept.append(a)
        if keeps(a[axis], limit) != keeps(b[axis], limit):
            share = (limit - a[axis]) / (b[axis] - a[axis])
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return kept


def _polygon(outline: Outline) -> Polygon:
    return Polygon([(to_grid(x), to_grid(y)) for x, y in outline])


def covers(outline: Outline, inner: Outline) -> bool:
    """Whether one outline lies within another, edges included, but for rounding on the grid."""
    grown = _polygon(outline).buffer(_ROUNDED, join_style="mitre")
    return bool(grown.covers(_polygon(inner)))


def shared(one: Outline, other: Outline) -> tuple[Outline, ...]:
    """The pieces that two outlines share, largest first, their corners on the grid."""
    found = _pieces(_polygon(one).intersection(_polygon(other)))
    return tuple(sorted(found, key=lambda piece: (-area(piece), piece)))


def clipped(outline: Outline, rect: Rect) -> tuple[Outline, ...]:
    """The pieces of an outline within a rectangle, largest first, their corners on the grid.

    Slivers that vanish on the grid are left out.
    """
    window = box(to_grid(rect.x), to_grid(rect.y), to_grid(rect.right), to_grid(rect.top))
    found = _pieces(_polygon(outline).intersection(window))
    return tuple(sorted(found, key=lambda piece: (-area(piece), piece)))


def _pieces(met: BaseGeometry) -> Iterator[Outline]:
    """The polygons of what two outlines give, on the grid; slivers that vanish there left out."""
    for piece in get_parts(normalize(met)):
        if not isinstance(piece, Polygon):
            continue
        corners = [(from_grid(round(x)), from_grid(round(y))) for x, y in piece.exterior.coords]
        try:
            yield checked_outline("piece", "outline", _without_idle(corners[:-1]))
        except SizeError:
            # Rounded to the grid, a sliver lies on one line.
            continue


def _without_idle(corners: Sequence[Corner]) -> list[Corner]:
    """Corners without those that lie on the line between their neighbours."""
    ring = [(to_grid(x), to_grid(y)) for x, y in corners]
    kept = [
        corner
        for k, corner in enumerate(corners)
        if _side(ring[k - 1], ring[k], ring[(k + 1) % len(ring)]) != 0
    ]
    return kept if len(kept) >= 3 else list(corners)


@lru_cache(maxsize=4096)
def cover(outline: Outline) -> tuple[Rect, ...]:
    """Rectangles that together hide an outline; exact if all its edges are upright or level."""
    xs = sorted({x for x, _ in outline})
    found: list[Rect] = []
    for low, high in pairwise(xs):
        slanted = any(
            min(a[0], b[0]) <= low and max(a[0], b[0]) >= high and a[1] != b[1] and a[0] != b[0]
            for a, b in pairwise([*outline, outline[0]])
        )
        steps = _STEPS if slanted else 1
        edges = [
            from_grid(round(to_grid(low) + (to_grid(high) - to_grid(low)) * k / steps))
            for k in range(steps + 1)
        ]
        for left, right in pairwise(edges):
            if right <= left:
                continue
            slab = bounds(outline)
            strip = Rect(left, slab.y, right - left, slab.width)
            found += _boxes(outline, strip)
    return _joined(found)


def _boxes(outline: Outline, strip: Rect) -> Iterator[Rect]:
    """The boxes round what lies in a strip, brought to the grid outwards: nothing is lost."""
    window = box(to_grid(strip.x), to_grid(strip.y), to_grid(strip.right), to_grid(strip.top))
    for piece in get_parts(normalize(_polygon(outline).intersection(window))):
        if isinstance(piece, Polygon):
            low_x, low_y, high_x, high_y = piece.bounds
            x, y = math.floor(low_x + _EPS), math.floor(low_y + _EPS)
            right, top = math.ceil(high_x - _EPS), math.ceil(high_y - _EPS)
            yield Rect(from_grid(x), from_grid(y), from_grid(right - x), from_grid(top - y))


def missing(outline: Outline) -> tuple[Rect, ...]:
    """Rectangles that together hide what an outline lacks to its surrounding rectangle."""
    around = bounds(outline)
    frame = box(to_grid(around.x), to_grid(around.y), to_grid(around.right), to_grid(around.top))
    found: list[Rect] = []
    for piece in _pieces(frame.difference(_polygon(outline))):
        found += cover(piece)
    return tuple(found)


def _joined(rects: Sequence[Rect]) -> tuple[Rect, ...]:
    """Neighbours along the length with equal widths made one."""
    joined: list[Rect] = []
    for rect in sorted(rects, key=lambda r: (r.y, r.width, r.x)):
        if joined:
            last = joined[-1]
            if (last.y, last.width) == (rect.y, rect.width) and to_grid(last.right) == to_grid(
                rect.x
            ):
                joined[-1] = Rect(last.x, last.y, rect.right - last.x, last.width)
                continue
        joined.append(rect)
    return tuple(joined)


def overlap(one: Rect, other: Rect) -> Rect | None:
    """What two rectangles share, or None if that has no area."""
    x, y = max(one.x, other.x), max(one.y, other.y)
    right, top = min(one.right, other.right), min(one.top, other.top)
    if to_grid(right) <= to_grid(x) or to_grid(top) <= to_grid(y):
        return None
    return Rect(x, y, right - x, top - y)


def sizes_text(outline: Outline) -> str:
    """An outline's size as people write it: length by width over all, mm."""
    around = bounds(outline)
    shape = "" if len(outline) == 4 and not missing(outline) else ", not rectangular"
    sizes = (written(round(size, 2)) for size in (around.length, around.width))
    return f"{' × '.join(sizes)}{shape}"
