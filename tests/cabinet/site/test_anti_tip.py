"""Ties of a standing unit: their pull by moments, what they hold by the code."""

from __future__ import annotations

import pytest

from cabinet.site.anti_tip import anti_tip, tie_holds
from cabinet.site.carriers import carriers
from cabinet.site.stability import check_tipping
from cabinet.site.walls import HollowWall, SolidMasonry, TimberStuds
from tests.cabinet.site.units import holds, standing

MASONRY = SolidMasonry(anchor_pull=1300.0, anchor_shear=1700.0)


def test_pull_by_moments() -> None:
    """1.5 of the pull less 0.9 of the weight about the feet, over the ties' height, half on each.

    Source: EN 1990, Table A1.2(A), loss of equilibrium, from memory: what holds is not helped by
        the factor of what tips.
    """
    unit = standing(height=1613.0)
    checks = check_tipping(unit, (holds(shelf=5.0),), carriers(unit))
    found = anti_tip(unit, checks, MASONRY)
    assert found is not None
    empty = checks[0]
    assert empty.holding == min(c.holding for c in checks)
    # The ties sit 25 below the top, 45 of feet stand below the unit.
    lever = 1613.0 + 45.0 - 25.0
    assert empty.tie == pytest.approx((empty.tips - empty.holding) / lever)
    by_hand = (1.5 * 100.0 * 1200.0 - 0.9 * empty.holding) / lever
    assert found.pull == pytest.approx(by_hand / 2)
    assert found.level == 1613.0 - 25.0
    assert found.holds == 1300.0
    assert found.share == pytest.approx(found.pull / 1300.0)
    assert found.places == (80.0, 887.0 - 80.0)


def test_a_screw_in_a_stud_by_the_code() -> None:
    """Thread 6 × 40 in C16: f = 0.52 d^-0.5 l^-0.1 rho^0.8, F = f d l (d/8), 1.1 F / 1.3.

    Source: EN 1995-1-1:2004 + A1:2008, 8.7.2, from memory; k_mod instantaneous 1.10 from
        Table 3.1 as printed in the ICE Manual, Table 19.9.
    """
    strength = 0.52 * 6**-0.5 * 40**-0.1 * 310**0.8
    by_hand = 1.1 * strength * 6 * 40 * 6 / 8 / 1.3
    assert tie_holds(TimberStuds(spacing=400.0)) == pytest.approx(by_hand)
    assert tie_holds(HollowWall(anchor_rating=15.0)) == pytest.approx(0.5 * 15 * 9.80665)


def test_ties_go_into_studs() -> None:
    """The outermost behind the unit; a single one takes all; none holds nothing."""
    unit = standing(height=1613.0)
    checks = check_tipping(unit, (holds(shelf=5.0),), carriers(unit))
    three = anti_tip(unit, checks, TimberStuds(spacing=400.0, first=31.0))
    assert three is not None
    assert three.places == pytest.approx((31.0, 831.0))
    one = anti_tip(unit, checks, TimberStuds(spacing=1200.0, first=400.0))
    assert one is not None
    assert one.count == 1
    assert one.pull == pytest.approx(2 * three.pull)
    none = anti_tip(unit, checks, TimberStuds(spacing=1200.0, first=-100.0))
    assert none is not None
    assert none.share > 1


def test_no_ties_without_a_wall_or_a_need() -> None:
    """A low unit under a load does not tip."""
    unit = standing(height=1613.0)
    checks = check_tipping(unit, (holds(shelf=5.0),), carriers(unit))
    assert anti_tip(unit, checks, None) is None
    low = standing(depth=600.0, height=500.0)
    assert (
        anti_tip(low, check_tipping(low, (holds(base=30.0),), carriers(low))[1:], MASONRY) is None
    )
