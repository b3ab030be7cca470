"""Marks cut at the edge of the paper: exact, and nothing lost between neighbours."""

from __future__ import annotations

import math
from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.errors import SizeError
from drawings.mark_clipping import clipped_marks
from drawings.marks import Arc, Circle, Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.ruling import outline, rule

WINDOW = PaperBox(10.0, 20.0, 73.0, 61.0)
INK = Ink.VISIBLE


def length(marks: Iterable[Mark]) -> float:
    total = 0.0
    for mark in marks:
        match mark:
            case Line():
                total += math.hypot(mark.end.x - mark.start.x, mark.end.y - mark.start.y)
            case Arc():
                total += math.radians(mark.end - mark.start) * mark.radius
            case Circle():
                total += 2 * math.pi * mark.radius
            case _:
                raise AssertionError(mark)
    return total


def test_what_lies_within_stays_as_it_is() -> None:
    marks = (
        rule(11, 21, 70, 60, INK),
        Circle(PaperPoint(40, 40), 17.6, INK),
        Arc(PaperPoint(40, 40), 11.3, 17.0, 299.0, INK),
    )
    assert clipped_marks(marks, WINDOW) == marks


def test_what_lies_outside_goes() -> None:
    marks = (
        rule(0, 0, 9, 61, INK),
        Circle(PaperPoint(90, 40), 16.9, INK),
        Circle(PaperPoint(41, 40), 100.0, INK),
    )
    assert clipped_marks(marks, WINDOW) == ()


def test_a_circle_over_one_edge_keeps_the_arc_inside() -> None:
    """Centre 8 inside the right edge, radius 16: the edge cuts at acos(8/16) = 60 degrees."""
    (arc,) = clipped_marks((Circle(PaperPoint(65, 40), 16.0, INK),), WINDOW)
    assert isinstance(arc, Arc)
    assert (arc.centre, arc.radius) == (PaperPoint(65, 40), 16.0)
    assert arc.end - arc.start == pytest.approx(240.0, abs=1e-9)
    assert arc.start % 360 == pytest.approx(60.0, abs=1e-9)


def test_the_beginning_of_a_circle_is_no_cut() -> None:
    """Cut at the left only, the piece over 0 degrees comes back whole."""
    (arc,) = clipped_marks((Circle(PaperPoint(18, 40), 16.0, INK),), WINDOW)
    assert isinstance(arc, Arc)
    assert arc.end - arc.start == pytest.approx(240.0, abs=1e-9)
    assert arc.start == pytest.approx(-120.0, abs=1e-9)


def test_a_polyline_comes_back_as_lines() -> None:
    box = PaperBox(0.0, 30.0, 50.0, 90.0)
    lines = clipped_marks((outline(box, Ink.NARROW),), WINDOW)
    assert lines == (
        rule(10, 30, 50, 30, Ink.NARROW),
        rule(50, 30, 50, 61, Ink.NARROW),
    )


@pytest.mark.parametrize(
    "mark",
    [
        Text(PaperPoint(20, 30), "17.6", 3.5),
        Group("view", ()),
        Polyline((PaperPoint(1, 1), PaperPoint(2, 1), PaperPoint(1, 2)), Ink.ARROW, closed=True),
    ],
)
def test_lettering_and_areas_are_refused(mark: Mark) -> None:
    with pytest.raises(SizeError):
        clipped_marks((mark,), WINDOW)


@given(
    x=st.floats(-20, 120),
    y=st.floats(-20, 100),
    radius=st.floats(0.5, 90),
    start=st.floats(-360, 360),
    sweep=st.floats(1.0, 360.0),
    seam=st.floats(15, 70),
)
def test_pieces_on_both_sides_of_a_seam_make_up_the_whole(
    x: float, y: float, radius: float, start: float, sweep: float, seam: float
) -> None:
    arc = Arc(PaperPoint(x, y), radius, start, start + sweep, INK)
    left = PaperBox(WINDOW.left, WINDOW.top, seam, WINDOW.bottom)
    right = PaperBox(seam, WINDOW.top, WINDOW.right, WINDOW.bottom)
    parts = length(clipped_marks((arc,), left)) + length(clipped_marks((arc,), right))
    assert parts == pytest.approx(length(clipped_marks((arc,), WINDOW)), abs=1e-4)
