"""A pin in its hole, by equilibrium worked another way."""

from __future__ import annotations

import numpy as np
import pytest

from cabinet.errors import SizeError
from cabinet.site.materials import elastic
from cabinet.site.pin_bearing import embedment_strength, hole_pressure, pin_check
from cabinet.site.service import Duration, ServiceClass
from cabinet.stock import birch_plywood, steel_sheet


def test_pressure_balances_force_and_moment() -> None:
    """A linear pressure a + c s over the depth, from the two equations of equilibrium."""
    force, d, b, e = 137.0, 5.0, 12.0, 4.6
    table = np.array([[d * b, d * b**2 / 2], [d * b**2 / 2, d * b**3 / 3]])
    a, _ = np.linalg.solve(table, np.array([force, -force * e]))
    assert hole_pressure(force, d, b, e) == pytest.approx(float(a))


def test_a_longer_reach_presses_more() -> None:
    """And a negative one is refused."""
    assert hole_pressure(90.0, 5.0, 12.0, 6.0) > hole_pressure(90.0, 5.0, 12.0, 3.0)
    with pytest.raises(SizeError, match="reach"):
        hole_pressure(90.0, 5.0, 12.0, -1.0)
    with pytest.raises(SizeError, match="diameter"):
        embedment_strength(0.2, elastic(birch_plywood(18, 17.7)))


def test_the_shares_are_linear_in_the_force() -> None:
    """Each share doubles with it; the hole's is its pressure over its design strength."""
    birch = elastic(birch_plywood(18, 17.7))
    sizes = {"diameter": 5.0, "depth": 12.0, "reach": 4.6, "bearing": 6.8}
    one, two = (
        pin_check(
            force,
            **sizes,
            upright=birch,
            shelf=birch,
            service=ServiceClass.DRY,
            duration=Duration.LONG,
        )
        for force in (61.0, 122.0)
    )
    assert two.hole_share == pytest.approx(2 * one.hole_share)
    assert two.shelf_share == pytest.approx(2 * one.shelf_share)
    assert two.steel_share == pytest.approx(2 * one.steel_share)
    limit = 0.7 / 1.3 * 0.11 * 630 * 5**-0.3
    assert one.hole_share == pytest.approx(hole_pressure(61.0, 5.0, 12.0, 4.6) / limit)
    assert one.greatest == max(one.hole_share, one.shelf_share, one.steel_share)


def test_a_metal_shelf_is_not_dented() -> None:
    """Its share is next to nothing."""
    birch, steel = elastic(birch_plywood(18, 17.7)), elastic(steel_sheet(2))
    found = pin_check(
        61.0,
        diameter=5.0,
        depth=12.0,
        reach=4.6,
        bearing=6.8,
        upright=birch,
        shelf=steel,
        service=ServiceClass.DRY,
        duration=Duration.LONG,
    )
    assert found.shelf_share < 0.01
