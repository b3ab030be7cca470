"""Marks cut off at the edges of a piece of paper, exactly: what was an arc stays an arc."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

from cabinet.errors import SizeError
from drawings.clipping import clipped_segment
from drawings.curves import Segment, ViewBounds, ViewPoint
from drawings.marks import Arc, Circle, Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline, Text

_SAME = 1e-9  # places nearer than this are one, mm
_SAME_ANGLE = 1e-9  # degrees
_FILLED = frozenset({Ink.ARROW, Ink.SOLID, Ink.SHADE})


def clipped_marks(marks: Iterable[Mark], window: PaperBox) -> tuple[Mark, ...]:
    """What of some lines, polylines, circles and arcs lies within a box, edges included.

    Args:
        marks: Marks without lettering, areas or groups, mm.
        window: The box, mm.

    Returns:
        The pieces in the order of the marks. Polylines come back as lines; a circle or an arc
        that is cut comes back as arcs of the same centre and radius.

    Raises:
        SizeError: a text, a group or a filled area, which cannot be cut in two and be right.
    """
    return tuple(piece for mark in marks for piece in _pieces(mark, window))


def _pieces(mark: Mark, window: PaperBox) -> Iterator[Mark]:
    match mark:
        case Line():
            yield from _line(mark, window)
        case Polyline() if mark.ink not in _FILLED:
            ring = (*mark.points, mark.points[0]) if mark.closed else mark.points
            for start, end in pairwise(ring):
                yield from _line(Line(start, end, mark.ink), window)
        case Circle():
            yield from _circle(mark, window)
        case Arc():
            yield from _arc(mark, window)
        case Text() | Group() | Polyline():
            raise SizeError(
                f"clipping: a {type(mark).__name__.lower()} cannot be cut at the paper's edge",
                value=type(mark).__name__,
                limit="lines, polylines, circles and arcs",
            )


def _line(line: Line, window: PaperBox) -> Iterator[Line]:
    if line.start == line.end:
        return
    bounds = ViewBounds(window.left, window.top, window.right, window.bottom)
    ends = (ViewPoint(point.x, point.y) for point in (line.start, line.end))
    part = clipped_segment(Segment(*ends), bounds)
    if part is not None:
        start, end = (PaperPoint(point.u, point.v) for point in (part.start, part.end))
        yield Line(start, end, line.ink)


def _circle(circle: Circle, window: PaperBox) -> Iterator[Circle | Arc]:
    arc = Arc(circle.centre, circle.radius, 0.0, 360.0, circle.ink)
    pieces = list(_arc(arc, window))
    if len(pieces) == 1 and math.isclose(pieces[0].end - pieces[0].start, 360.0):
        yield circle
        return
    if len(pieces) > 1 and pieces[0].start == 0.0 and pieces[-1].end == 360.0:
        # The circle's own beginning is no cut: join what meets there.
        first, last = pieces[0], pieces.pop()
        pieces[0] = Arc(arc.centre, arc.radius, last.start - 360.0, first.end, arc.ink)
    yield from pieces


def _arc(arc: Arc, window: PaperBox) -> Iterator[Arc]:
    cuts = sorted({arc.start, arc.end, *_crossings(arc, window)})
    begin: float | None = None
    for low, high in pairwise(cuts):
        if high - low < _SAME_ANGLE:
            continue
        if _is_within(arc, (low + high) / 2, window):
            begin = low if begin is None else begin
        elif begin is not None:
            yield Arc(arc.centre, arc.radius, begin, low, arc.ink)
            begin = None
    if begin is not None:
        yield Arc(arc.centre, arc.radius, begin, arc.end, arc.ink)


def _crossings(arc: Arc, window: PaperBox) -> Iterator[float]:
    """Angles within the arc at which its circle meets the lines of the window's edges."""
    found: list[float] = []
    for edge in (window.left, window.right):
        share = (edge - arc.centre.x) / arc.radius
        if abs(share) <= 1:
            angle = math.degrees(math.acos(share))
            found += [angle, -angle]
    for edge in (window.top, window.bottom):
        share = (edge - arc.centre.y) / arc.radius
        if abs(share) <= 1:
            angle = math.degrees(math.asin(share))
            found += [angle, 180.0 - angle]
    for angle in found:
        turned = arc.start + (angle - arc.start) % 360.0
        if arc.start < turned < arc.end:
            yield turned


def _is_within(arc: Arc, degrees: float, window: PaperBox) -> bool:
    angle = math.radians(degrees)
    x = arc.centre.x + arc.radius * math.cos(angle)
    y = arc.centre.y + arc.radius * math.sin(angle)
    return (
        window.left - _SAME <= x <= window.right + _SAME
        and window.top - _SAME <= y <= window.bottom + _SAME
    )
