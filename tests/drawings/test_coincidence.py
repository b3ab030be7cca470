"""Curves upon each other: what remains, worked out by hand."""

from __future__ import annotations

import itertools
import math

import pytest

from drawings.coincidence import joined, snapped, without
from drawings.curves import ArcCurve, Curve, PolyCurve, Segment, ViewPoint, length


def line(a: float, b: float, c: float, d: float) -> Segment:
    return Segment(snapped(a, b), snapped(c, d))


def arc(start: float, end: float, radius: float = 17.6) -> ArcCurve:
    return ArcCurve(ViewPoint(3.0, 4.0), radius, start, end)


def sine(start: int, end: int) -> PolyCurve:
    return PolyCurve(tuple(snapped(k, 20 * math.sin(k / 9)) for k in range(start, end + 1)))


def test_level_lines_that_meet_or_overlap_become_one() -> None:
    pieces = [line(300, 7, 613, 7), line(0, 7, 200, 7), line(310, 7, 180, 7), line(0, 8, 9, 8)]
    assert joined(pieces) == (line(0, 7, 613, 7), line(0, 8, 9, 8))


def test_a_gap_stays() -> None:
    assert len(joined([line(0, 7, 200, 7), line(200.01, 7, 613, 7)])) == 2


def test_sloping_lines_one_step_of_the_grid_apart_become_one() -> None:
    pieces = [line(0, 0, 300, 100), line(600.0001, 200, 299.9999, 100), line(0, 1, 300, 101)]
    assert joined(pieces) == (line(0, 0, 600.0001, 200), line(0, 1, 300, 101))


def test_the_result_does_not_depend_on_the_order() -> None:
    pieces: list[Curve] = [line(0, 0, 30, 10), line(60, 20, 30, 10), arc(0, 90), arc(80, 200)]
    assert len({joined(order) for order in itertools.permutations(pieces)}) == 1


def test_a_visible_line_covers_its_part_of_a_hidden_one() -> None:
    left = without([line(0, 0, 613, 0), line(5, 0, 5, 287)], [line(100, 0, 250.5, 0)])
    assert left == (line(0, 0, 100, 0), line(5, 0, 5, 287), line(250.5, 0, 613, 0))


def test_a_sloping_line_covers_too() -> None:
    assert without([line(0, 0, 600, 200)], [line(-300, -100, 300, 100)]) == (
        line(300, 100, 600, 200),
    )


def test_arcs_of_one_circle_are_joined_through_zero() -> None:
    assert joined([arc(300, 360), arc(0, 45), arc(40, 70)]) == (arc(300, 430),)
    assert joined([arc(0, 180), arc(180, 360)]) == (arc(0, 360),)
    assert len(joined([arc(0, 180), arc(180, 360, radius=17.5)])) == 2


def test_an_arc_is_covered_in_part() -> None:
    assert without([arc(0, 360)], [arc(350, 380)]) == (arc(20, 350),)


def test_other_curves_are_covered_chord_by_chord() -> None:
    assert joined([sine(0, 50), PolyCurve(sine(0, 50).points[::-1])]) == (sine(0, 50),)
    assert without([sine(0, 50)], [sine(10, 30)]) == (sine(0, 10), sine(30, 50))
    moved = PolyCurve(tuple(ViewPoint(p.u, p.v + 0.5) for p in sine(0, 50).points))
    assert without([sine(0, 50)], [moved]) == (sine(0, 50),)


def test_no_ink_is_lost_or_made() -> None:
    pieces = [line(0, 0, 100, 0), line(50, 0, 150, 0), line(0, 0, 0, 9)]
    assert length(joined(pieces)) == pytest.approx(159.0)
    assert length(without(pieces, [line(20, 0, 30, 0)])) == pytest.approx(149.0)
