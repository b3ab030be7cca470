"""Plain curves: sizes worked out by hand."""

from __future__ import annotations

import math

import pytest

from cabinet.errors import SizeError
from drawings.curves import (
    ArcCurve,
    Curve,
    PolyCurve,
    Segment,
    ViewBounds,
    ViewPoint,
    bounds,
    ends,
    length,
)


def test_bounds_of_an_arc_take_in_the_quadrants_it_passes_and_no_other() -> None:
    # From 30 to 200 degrees an arc passes 90 and 180, so it reaches its top and its left; its
    # right is at cos 30 and its bottom at sin 200.
    arc = ArcCurve(ViewPoint(613.0, 287.0), 17.6, 30.0, 200.0)
    box = bounds([arc])
    assert box.left == pytest.approx(613.0 - 17.6, abs=1e-12)
    assert box.top == pytest.approx(287.0 + 17.6, abs=1e-12)
    assert box.right == pytest.approx(613.0 + 17.6 * math.cos(math.radians(30)), abs=1e-9)
    assert box.bottom == pytest.approx(287.0 + 17.6 * math.sin(math.radians(200)), abs=1e-9)


def test_an_arc_through_zero_reaches_its_right() -> None:
    box = bounds([ArcCurve(ViewPoint(0.0, 0.0), 5.0, 350.0, 370.0)])
    assert box.right == pytest.approx(5.0)
    assert box.left == pytest.approx(5.0 * math.cos(math.radians(10)))


def test_bounds_of_several_curves() -> None:
    curves: list[Curve] = [
        Segment(ViewPoint(-3.5, 4.0), ViewPoint(613.0, 1.0)),
        PolyCurve((ViewPoint(0.0, 0.0), ViewPoint(7.0, -12.5), ViewPoint(9.0, 3.0))),
    ]
    assert bounds(curves) == ViewBounds(-3.5, -12.5, 613.0, 4.0)
    assert bounds(curves).width == 616.5
    assert bounds(curves).height == 16.5


def test_lengths() -> None:
    # 3-4-5 and 5-12-13 triangles, and a quarter of a circle.
    line = Segment(ViewPoint(1.0, 1.0), ViewPoint(4.0, 5.0))
    bent = PolyCurve((ViewPoint(0.0, 0.0), ViewPoint(5.0, 12.0), ViewPoint(5.0, 13.5)))
    quarter = ArcCurve(ViewPoint(0.0, 0.0), 17.6, 300.0, 390.0)
    assert length([line]) == pytest.approx(5.0)
    assert length([bent]) == pytest.approx(14.5)
    assert length([quarter]) == pytest.approx(math.pi * 17.6 / 2)
    assert length([line, bent, quarter]) == pytest.approx(19.5 + math.pi * 8.8)


def test_ends_of_an_arc_lie_on_its_circle() -> None:
    start, end = ends(ArcCurve(ViewPoint(10.0, 20.0), 4.0, 270.0, 360.0))
    assert (start.u, start.v) == pytest.approx((10.0, 16.0))
    assert (end.u, end.v) == pytest.approx((14.0, 20.0))


@pytest.mark.parametrize(
    ("start", "end"), [(-1.0, 20.0), (360.0, 400.0), (10.0, 10.0), (10.0, 5.0), (0.0, 360.5)]
)
def test_arcs_that_are_none_are_refused(start: float, end: float) -> None:
    with pytest.raises(SizeError):
        ArcCurve(ViewPoint(0.0, 0.0), 5.0, start, end)


def test_other_bad_curves_are_refused() -> None:
    point = ViewPoint(1.0, 2.0)
    with pytest.raises(SizeError):
        ViewPoint(math.nan, 0.0)
    with pytest.raises(SizeError):
        Segment(point, point)
    with pytest.raises(SizeError):
        PolyCurve((point,))
    with pytest.raises(SizeError):
        ArcCurve(point, 0.0, 0.0, 360.0)
    with pytest.raises(SizeError):
        bounds([])
