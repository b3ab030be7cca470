"""Curves of a view that lie on each other: joined into one, or taken away from beneath.

Where two lines of a drawing coincide only one of them is drawn, and a visible edge goes
before a hidden one (Source: ISO 128-2, precedence of coinciding lines).

Two kinds of carrier are exact: straight lines and circles. On each, curves are intervals,
which are united and subtracted. A ``PolyCurve`` is compared chord by chord, with circles too:
the line in which two bores cross is one, seen along either of them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drawings.curves import (
    CHORD_ERROR,
    FULL_TURN,
    ArcCurve,
    Curve,
    PolyCurve,
    Segment,
    ViewBounds,
    ViewPoint,
    bounds,
    sort_key,
)

_PLACES = 4

GRID = 10.0**-_PLACES
"""Coordinates of a view are multiples of this many mm."""

TOUCH = 2.5 * GRID
"""Two snapped coordinates of one place differ by at most this many mm (one step, in both)."""

SHORTEST = 10 * GRID
"""What is left of a curve and shorter than this many mm is an error of rounding."""

_NEAR = 1.2 * CHORD_ERROR

Interval = tuple[float, float]
"""Low and high end of a stretch of a carrier."""


def snapped(u: float, v: float) -> ViewPoint:
    """The point of the grid next to (u, v) mm."""
    # Adding 0.0 turns -0.0 into 0.0, which would otherwise reach the files as "-0".
    return ViewPoint(round(u, _PLACES) + 0.0, round(v, _PLACES) + 0.0)


def joined(curves: Iterable[Curve]) -> tuple[Curve, ...]:
    """The same ink with every place inked once: no duplicates, what meets in line made one.

    Curves must be snapped. The order is by geometry and does not depend on the order given.
    """
    return _resolved(curves, ())


def without(curves: Iterable[Curve], over: Iterable[Curve]) -> tuple[Curve, ...]:
    """``joined(curves)`` less what lies beneath the curves ``over``."""
    return _resolved(curves, tuple(over))


def _resolved(curves: Iterable[Curve], over: Sequence[Curve]) -> tuple[Curve, ...]:
    under = sorted(set(curves), key=sort_key)
    lines = _lines(
        [c for c in under if isinstance(c, Segment)],
        [c for c in over if isinstance(c, Segment)],
    )
    arcs_over = [c for c in over if isinstance(c, ArcCurve)]
    arcs = _arcs([c for c in under if isinstance(c, ArcCurve)], arcs_over)
    polys = _polys(
        [c for c in under if isinstance(c, PolyCurve)],
        [c for c in over if isinstance(c, PolyCurve)],
        [*arcs, *arcs_over],
    )
    found: list[Curve] = [*lines, *arcs, *polys]
    return tuple(sorted(found, key=sort_key))


# Intervals


def _united(intervals: Iterable[Interval], touch: float) -> list[Interval]:
    result: list[Interval] = []
    for low, high in sorted(intervals):
        if result and low <= result[-1][1] + touch:
            result[-1] = (result[-1][0], max(result[-1][1], high))
        else:
            result.append((low, high))
    return result


def less(intervals: Iterable[Interval], over: Iterable[Interval], least: float) -> list[Interval]:
    """The intervals less those that lie over them; what is shorter than ``least`` is dropped."""
    result = list(intervals)
    for low, high in over:
        result = [
            piece
            for a, b in result
            for piece in (
                ((a, min(b, low)), (max(a, high), b)) if low < b and high > a else ((a, b),)
            )
            if piece[1] - piece[0] >= least
        ]
    return result


# Straight lines


@dataclass(frozen=True, slots=True)
class _Line:
    """A carrier: the point at parameter 0, a unit direction, and what lies on it, in mm.

    ``corners`` holds the ends of what lies on it, so that a corner stays one point for all
    the lines that meet in it.
    """

    u: float
    v: float
    du: float
    dv: float
    under: list[Interval]
    over: list[Interval]
    corners: dict[float, ViewPoint]

    def at(self, along: float) -> ViewPoint:
        """The point of the grid at ``along`` mm."""
        return self.corners.get(along, snapped(self.u + along * self.du, self.v + along * self.dv))


def _lines(under: Sequence[Segment], over: Sequence[Segment]) -> list[Segment]:
    result: list[Segment] = []
    for line in _line_carriers(under, over):
        for low, high in less(_united(line.under, TOUCH), _united(line.over, TOUCH), SHORTEST):
            start, end = line.at(low), line.at(high)
            if start != end:
                result.append(Segment(*sorted((start, end), key=lambda p: (p.u, p.v))))
    return result


def _line_carriers(under: Sequence[Segment], over: Sequence[Segment]) -> list[_Line]:
    flat: list[tuple[float, Interval, bool]] = []
    steep: list[tuple[float, Interval, bool]] = []
    oblique: list[tuple[Segment, bool]] = []
    for segments, is_over in ((under, False), (over, True)):
        for segment in segments:
            a, b = segment.start, segment.end
            width, height = abs(b.u - a.u), abs(b.v - a.v)
            if height <= TOUCH < width:
                flat.append((min(a.v, b.v), (min(a.u, b.u), max(a.u, b.u)), is_over))
            elif width <= TOUCH < height:
                steep.append((min(a.u, b.u), (min(a.v, b.v), max(a.v, b.v)), is_over))
            else:
                oblique.append((segment, is_over))
    lines = [_Line(0.0, at, 1.0, 0.0, *these, {}) for at, these in _levels(flat)]
    lines += [_Line(at, 0.0, 0.0, 1.0, *these, {}) for at, these in _levels(steep)]
    return lines + _oblique_carriers(oblique)


def _levels(
    found: list[tuple[float, Interval, bool]],
) -> list[tuple[float, tuple[list[Interval], list[Interval]]]]:
    """Intervals at one level, put together; levels closer than ``TOUCH`` are one."""
    result: list[tuple[float, tuple[list[Interval], list[Interval]]]] = []
    for at, interval, is_over in sorted(found):
        if not result or at > result[-1][0] + TOUCH:
            result.append((at, ([], [])))
        result[-1][1][is_over].append(interval)
    return result


def _oblique_carriers(found: Sequence[tuple[Segment, bool]]) -> list[_Line]:
    """Carriers of sloping lines: the longest line that is left carries all that lie on it."""
    ordered = sorted(found, key=lambda pair: (-_span(pair[0]), sort_key(pair[0])))
    us = np.array([s.start.u for s, _ in ordered] + [s.end.u for s, _ in ordered])
    vs = np.array([s.start.v for s, _ in ordered] + [s.end.v for s, _ in ordered])
    is_left = [True] * len(ordered)
    lines: list[_Line] = []
    for index, (carrier, _) in enumerate(ordered):
        if not is_left[index]:
            continue
        u, v, span = carrier.start.u, carrier.start.v, _span(carrier)
        du, dv = (carrier.end.u - u) / span, (carrier.end.v - v) / span
        is_on = np.abs((vs - v) * du - (us - u) * dv) <= TOUCH
        line = _Line(u, v, du, dv, [], [], {})
        for other in np.flatnonzero(is_on[: len(ordered)] & is_on[len(ordered) :]).tolist():
            if is_left[other]:
                is_left[other] = False
                segment, is_over = ordered[other]
                (line.over if is_over else line.under).append(_along(line, segment))
        lines.append(line)
    return lines


def _span(segment: Segment) -> float:
    return math.hypot(segment.end.u - segment.start.u, segment.end.v - segment.start.v)


def _along(line: _Line, segment: Segment) -> Interval:
    places = [
        ((p.u - line.u) * line.du + (p.v - line.v) * line.dv, p)
        for p in (segment.start, segment.end)
    ]
    line.corners.update(places)
    return min(places[0][0], places[1][0]), max(places[0][0], places[1][0])


# Circles


def _arcs(under: Sequence[ArcCurve], over: Sequence[ArcCurve]) -> list[ArcCurve]:
    circles: dict[tuple[float, float, float], tuple[list[ArcCurve], list[ArcCurve]]] = {}
    for arcs, is_over in ((under, False), (over, True)):
        for arc in arcs:
            here = (arc.centre.u, arc.centre.v, arc.radius)
            key = next((known for known in circles if _is_near(known, here)), here)
            circles.setdefault(key, ([], []))[is_over].append(arc)
    return [
        arc for (u, v, radius), sides in circles.items() for arc in _on_circle(u, v, radius, *sides)
    ]


def _is_near(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return all(abs(a - b) <= TOUCH for a, b in zip(one, other, strict=True))


def _on_circle(
    u: float, v: float, radius: float, under: Iterable[ArcCurve], over: Iterable[ArcCurve]
) -> list[ArcCurve]:
    touch, least = math.degrees(TOUCH / radius), math.degrees(SHORTEST / radius)
    here = _united(_unrolled(under), touch)
    if len(here) == 1 and here[0][1] - here[0][0] >= FULL_TURN - touch:
        here = [(0.0, FULL_TURN)]
    pieces = less(here, _united(_unrolled(over), touch), least)
    # An arc that runs through 0 degrees was split there; the two halves are one again.
    if len(pieces) > 1 and pieces[0][0] <= touch and pieces[-1][1] >= FULL_TURN - touch:
        first = pieces.pop(0)
        pieces[-1] = (pieces[-1][0], first[1] + FULL_TURN)
    return [
        ArcCurve(ViewPoint(u, v), radius, low % FULL_TURN, low % FULL_TURN + high - low)
        for low, high in pieces
    ]


def _unrolled(arcs: Iterable[ArcCurve]) -> list[Interval]:
    """The arcs as intervals of 0..360 degrees."""
    result: list[Interval] = []
    for arc in arcs:
        result.append((arc.start, min(arc.end, FULL_TURN)))
        if arc.end > FULL_TURN:
            result.append((0.0, arc.end - FULL_TURN))
    return result


# Other curves


@dataclass(frozen=True, slots=True)
class _Chords:
    """A flattened curve for comparing: its chords (shape (n - 1, 2, 2), mm) and its bounds."""

    chords: NDArray[np.float64]
    box: ViewBounds

    @classmethod
    def of(cls, poly: PolyCurve) -> _Chords:
        return cls._through(np.array([(p.u, p.v) for p in poly.points]), bounds((poly,)))

    @classmethod
    def of_arc(cls, arc: ArcCurve) -> _Chords:
        """An arc in chords that keep as close to it as a ``PolyCurve`` does."""
        # The sagitta of a chord is r (1 - cos(turn / 2)).
        turn = math.degrees(2 * math.acos(max(1 - CHORD_ERROR / arc.radius, 0.0)))
        count = math.ceil((arc.end - arc.start) / turn) + 1
        angles = np.radians(np.linspace(arc.start, arc.end, count + 1))
        spokes = np.stack((np.cos(angles), np.sin(angles)), axis=1)
        centre = (arc.centre.u, arc.centre.v)
        return cls._through(centre + arc.radius * spokes, bounds((arc,)))

    @classmethod
    def _through(cls, points: NDArray[np.float64], box: ViewBounds) -> _Chords:
        return cls(np.stack((points[:-1], points[1:]), axis=1), box)

    def may_touch(self, other: _Chords) -> bool:
        """Whether the two are near enough for one to lie on the other."""
        one, two = self.box, other.box
        return (
            one.left <= two.right + _NEAR
            and two.left <= one.right + _NEAR
            and one.bottom <= two.top + _NEAR
            and two.bottom <= one.top + _NEAR
        )


def _polys(
    under: Sequence[PolyCurve], over: Sequence[PolyCurve], arcs: Sequence[ArcCurve]
) -> list[PolyCurve]:
    """What is left of each curve beneath those ``over``, arcs, and those that came before it."""
    if not under:
        return []
    covers = [*(_Chords.of(poly) for poly in over), *(_Chords.of_arc(arc) for arc in arcs)]
    result: list[PolyCurve] = []
    for poly in sorted({_one_way(poly) for poly in under}, key=sort_key):
        here = _Chords.of(poly)
        is_covered = np.zeros(len(here.chords), dtype=bool)
        for cover in covers:
            if here.may_touch(cover):
                is_covered |= _lie_on(here.chords, cover.chords)
        result += _runs(poly, is_covered)
        covers.append(here)
    return result


def _one_way(poly: PolyCurve) -> PolyCurve:
    """The same curve begun at the end that comes first; a closed one at its first point."""
    points = poly.points
    if points[0] == points[-1]:
        first = min(range(len(points) - 1), key=lambda i: (points[i].u, points[i].v))
        points = (*points[first:-1], *points[: first + 1])
    return min(PolyCurve(points), PolyCurve(points[::-1]), key=sort_key)


def _lie_on(chords: NDArray[np.float64], cover: NDArray[np.float64]) -> NDArray[np.bool_]:
    """For each chord, whether its ends and its middle lie on the other curve."""
    origin, along = cover[:, 0], cover[:, 1] - cover[:, 0]
    squares = np.maximum((along**2).sum(axis=1), GRID**2)
    points = np.stack((chords[:, 0], chords.mean(axis=1), chords[:, 1]))
    away = points[:, :, None, :] - origin
    share = np.clip((away * along).sum(axis=-1) / squares, 0.0, 1.0)
    gaps = away - share[..., None] * along
    is_near: NDArray[np.bool_] = ((gaps**2).sum(axis=-1) <= _NEAR**2).any(axis=2).all(axis=0)
    return is_near


def _runs(poly: PolyCurve, is_covered: NDArray[np.bool_]) -> list[PolyCurve]:
    result: list[PolyCurve] = []
    run: list[ViewPoint] = []
    for index, covered in enumerate(is_covered.tolist()):
        if covered:
            if run:
                result.append(PolyCurve(tuple(run)))
            run = []
        else:
            run = [*(run or [poly.points[index]]), poly.points[index + 1]]
    if run:
        result.append(PolyCurve(tuple(run)))
    return result
