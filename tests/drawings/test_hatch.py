"""Hatching: chords and areas worked out by hand."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from cabinet.errors import DesignError, SizeError
from drawings.curves import ArcCurve, Curve, PolyCurve, Segment, ViewPoint, length
from drawings.hatch import hatch


def polygon(*corners: tuple[float, float]) -> tuple[Segment, ...]:
    points = [ViewPoint(u, v) for u, v in corners]
    return tuple(Segment(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True))


def rectangle(left: float, bottom: float, right: float, top: float) -> tuple[Segment, ...]:
    return polygon((left, bottom), (right, bottom), (right, top), (left, top))


BOARD = rectangle(10.0, 5.0, 623.0, 22.6)


def test_level_lines_cross_a_board_from_edge_to_edge() -> None:
    lines = hatch([BOARD], 0.0, 5.0, 1.0)
    # Lines lie at v = 1 + 5k: 6, 11, 16 and 21 lie within 5..22.6.
    assert [(s.start.v, s.start.u, s.end.u) for s in lines] == [
        (6.0, 10.0, 623.0),
        (11.0, 10.0, 623.0),
        (16.0, 10.0, 623.0),
        (21.0, 10.0, 623.0),
    ]


def test_lines_at_45_degrees_are_as_long_as_the_board_is_high() -> None:
    lines = hatch([BOARD], 45.0, 7.3)
    full = [s for s in lines if s.start.v == 5.0 and s.end.v == 22.6]
    assert len(full) > 50
    for stroke in full:
        assert stroke.end.u - stroke.start.u == pytest.approx(17.6, abs=3e-4)
    # The distance between neighbours, measured square to the lines.
    apart = {round((b.start.u - a.start.u) * math.sqrt(0.5), 3) for a, b in pairwise(full)}
    assert {abs(gap) for gap in apart} == {7.3}


def test_a_circle_is_crossed_in_chords() -> None:
    ring = (ArcCurve(ViewPoint(40.0, 30.0), 17.6, 0.0, 360.0),)
    lines = hatch([ring], 0.0, 4.0)
    assert [s.start.v for s in lines] == [16.0, 20.0, 24.0, 28.0, 32.0, 36.0, 40.0, 44.0]
    for stroke in lines:
        half = math.sqrt(17.6**2 - (stroke.start.v - 30.0) ** 2)
        assert stroke.start.u == pytest.approx(40.0 - half, abs=1e-4)
        assert stroke.end.u == pytest.approx(40.0 + half, abs=1e-4)


@pytest.mark.parametrize("angle", [0.0, 30.0, 45.0, 90.0, 135.0, 217.0])
def test_a_hole_stays_free_and_the_lines_fill_the_rest(angle: float) -> None:
    hole = (ArcCurve(ViewPoint(300.0, 14.0), 6.3, 0.0, 360.0),)
    notch: tuple[Curve, ...] = (
        Segment(ViewPoint(400.0, 8.0), ViewPoint(420.0, 8.0)),
        ArcCurve(ViewPoint(420.0, 13.0), 5.0, 270.0, 450.0),
        Segment(ViewPoint(420.0, 18.0), ViewPoint(400.0, 18.0)),
        PolyCurve((ViewPoint(400.0, 18.0), ViewPoint(396.5, 13.0), ViewPoint(400.0, 8.0))),
    )
    spacing = 0.11
    lines = hatch([BOARD, hole, notch], angle, spacing, 0.013)
    area = 613.0 * 17.6 - math.pi * 6.3**2 - (20.0 * 10.0 + math.pi * 12.5 + 10.0 * 3.5 / 2)
    # Lines times spacing is the area by the midpoint rule; the bound is one line's share.
    assert length(lines) * spacing == pytest.approx(area, rel=5e-3)
    for stroke in lines:
        u, v = (stroke.start.u + stroke.end.u) / 2, (stroke.start.v + stroke.end.v) / 2
        assert math.hypot(u - 300.0, v - 14.0) > 6.3 - 0.4


def test_a_line_through_corners_neither_leaks_nor_breaks() -> None:
    diamond = polygon((0.0, -10.0), (10.0, 0.0), (0.0, 10.0), (-10.0, 0.0))
    lines = hatch([diamond], 0.0, 10.0)
    assert lines == (Segment(ViewPoint(-10.0, 0.0), ViewPoint(10.0, 0.0)),)


def test_a_joint_one_step_of_the_grid_apart_does_not_leak() -> None:
    loop = (
        Segment(ViewPoint(0.0, 0.0), ViewPoint(50.0, 0.0)),
        Segment(ViewPoint(50.0, 0.0), ViewPoint(50.0, 10.0)),
        Segment(ViewPoint(50.0, 10.0001), ViewPoint(50.0, 20.0)),
        Segment(ViewPoint(50.0, 20.0), ViewPoint(0.0, 20.0)),
        Segment(ViewPoint(0.0, 20.0), ViewPoint(0.0, 0.0)),
    )
    (stroke,) = hatch([loop], 0.0, 13.0, -2.99995)
    assert (stroke.start.u, stroke.end.u) == (0.0, 50.0)
    assert stroke.start.v == pytest.approx(10.0, abs=0.05)


def test_the_pattern_is_the_parts_own_and_not_the_loops() -> None:
    near, far = rectangle(0.0, 0.0, 17.6, 30.0), rectangle(613.0, 2.0, 630.6, 44.0)
    together = hatch([near, far], 45.0, 6.0)
    assert set(together) == set(hatch([near], 45.0, 6.0)) | set(hatch([far], 45.0, 6.0))


def test_nothing_to_hatch() -> None:
    assert hatch([], 45.0, 3.0) == ()
    assert hatch([rectangle(0.0, 1.0, 9.0, 2.0)], 0.0, 5.0) == ()


def test_what_cannot_be_hatched_is_refused() -> None:
    with pytest.raises(DesignError):
        hatch([BOARD[:3]], 0.0, 5.0)
    with pytest.raises(SizeError):
        hatch([BOARD], 45.0, 0.0)
    with pytest.raises(SizeError):
        hatch([BOARD], math.nan, 3.0)
