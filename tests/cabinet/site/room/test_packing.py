"""Packing: the plane that needs least of it, held to a library's linear programme."""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy.optimize import linprog  # type: ignore[import-untyped]

from cabinet.site.room.frame import WallPoint, wall_box
from cabinet.site.room.packing import face_at, packing, touching_line
from cabinet.site.room.room_wall import FaceReading

OUTLINE = wall_box(600.0, 1400.0, 887.0, 613.0)
SPOTS = (
    ("wall screw 1", WallPoint(713.0, 1900.0)),
    ("wall screw 2", WallPoint(1374.0, 1900.0)),
    ("foot, left", WallPoint(600.0, 1400.0)),
    ("foot, right", WallPoint(1487.0, 1400.0)),
)


def test_a_true_wall_needs_none() -> None:
    """Flat and plumb, wherever the reference stands and however it is turned in plan."""
    for turn in (0.0, 0.011, -0.007):
        readings = tuple(
            FaceReading(x, z, 37.0 + turn * x)
            for x in (600.0, 1100.0, 1490.0)
            for z in (1400.0, 1950.0)
        )
        found = packing(readings, OUTLINE, SPOTS)
        assert found is not None
        assert found.pieces == ()
        assert found.turned == pytest.approx(turn * 887.0)


def test_a_wall_out_of_plumb_by_hand() -> None:
    """Leaning back 6 mm from foot to top row: the screws' row is packed by that, the foot rests."""
    readings = tuple(
        FaceReading(x, z, 20.0 + (6.0 if z > 1500.0 else 0.0))
        for x in (600.0, 1487.0)
        for z in (1400.0, 1900.0)
    )
    found = packing(readings, OUTLINE, SPOTS)
    assert found is not None
    assert [(p.what, p.thick) for p in found.pieces] == [
        ("wall screw 1", 6.0),
        ("wall screw 2", 6.0),
    ]
    assert found.unplumb == pytest.approx(6.0)
    assert found.most == 6.0


def test_a_hollow_is_bridged() -> None:
    """A wall hollow by 8 in its middle: the back bears at both ends."""
    readings = tuple(
        FaceReading(x, z, gap)
        for x, gap in ((600.0, 20.0), (1043.5, 28.0), (1487.0, 20.0))
        for z in (1400.0, 1900.0)
    )
    found = packing(readings, OUTLINE, SPOTS)
    assert found is not None
    by_name = {p.what: p.thick for p in found.pieces}
    assert "foot, left" not in by_name
    # Straight from 20 at the end to 28 at the middle, to the nearest half millimetre.
    assert by_name["wall screw 1"] == pytest.approx(8.0 * 113.0 / 443.5, abs=0.25)


def test_readings_far_from_the_unit_do_not_count() -> None:
    """A bump two metres away packs nothing."""
    assert packing((FaceReading(3000.0, 1500.0, 0.0),), OUTLINE, SPOTS) is None
    assert packing((), OUTLINE, SPOTS) is None


def test_between_readings_it_runs_straight() -> None:
    """Along a row, and from row to row."""
    readings = (
        FaceReading(600.0, 1400.0, 10.0),
        FaceReading(1000.0, 1400.0, 14.0),
        FaceReading(600.0, 1900.0, 20.0),
    )
    assert face_at(readings, WallPoint(700.0, 1400.0)) == pytest.approx(11.0)
    assert face_at(readings, WallPoint(700.0, 1650.0)) == pytest.approx((11.0 + 20.0) / 2)
    assert face_at(readings, WallPoint(700.0, 2300.0)) == pytest.approx(20.0)


def test_the_line_is_the_optimum_of_the_linear_programme() -> None:
    """Under all points, the greatest distance to the spots least: as scipy's linprog finds it."""
    pick = random.Random(1913)  # noqa: S311 - chances, not secrets
    for _ in range(80):
        count = pick.randrange(1, 9)
        points = [(pick.uniform(0.0, 1700.0), pick.uniform(5.0, 40.0)) for _ in range(count)]
        spots = [(pick.uniform(0.0, 1700.0), pick.uniform(5.0, 40.0)) for _ in range(3)]
        points += spots
        start, slope = touching_line(points, spots)
        assert all(start + slope * x <= gap + 1e-7 for x, gap in points)
        most = max(gap - start - slope * x for x, gap in spots)
        # Unknowns: start, slope, the greatest distance.
        under = [[1.0, x, 0.0] for x, _ in points]
        above = [[-1.0, -x, -1.0] for x, _ in spots]
        best = linprog(
            [0.0, 0.0, 1.0],
            A_ub=np.array(under + above),
            b_ub=[gap for _, gap in points] + [-gap for _, gap in spots],
            bounds=[(None, None), (None, None), (0.0, None)],
        )
        assert most == pytest.approx(best.fun, rel=1e-6, abs=1e-6)
