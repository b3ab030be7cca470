"""Lifting against the published filter values."""

from __future__ import annotations

import pytest

from cabinet.errors import KindError, SizeError
from cabinet.site.lift import Lift, Lifter, Zone
from cabinet.site.lifting import check_lift, filter_value, zone_at, zones_between
from cabinet.site.weight import unit_mass
from tests.examples import example_unit

# HSE L23 figure 20 / INDG143, close to the body: kg for men and women, as printed on a
# reference page (head 10/7, shoulder 20/13, elbow 25/16, knuckle 20/13; lower leg 10 for men).
FIGURE_20 = [
    (Zone.HEAD, 10, 7),
    (Zone.SHOULDER, 20, 13),
    (Zone.ELBOW, 25, 16),
    (Zone.KNUCKLE, 20, 13),
]


@pytest.mark.parametrize(("zone", "men", "women"), FIGURE_20, ids=[z.name for z, _, _ in FIGURE_20])
def test_filter_values(zone: Zone, men: float, women: float) -> None:
    """Both columns."""
    assert filter_value(zone, Lifter.MAN) == men
    assert filter_value(zone, Lifter.WOMAN) == women


def test_lower_leg() -> None:
    """10 kg for men; the women's value is cut off on the page and not tested."""
    assert filter_value(Zone.LOWER_LEG, Lifter.MAN) == 10


def test_hands_through_several_zones_go_by_the_smallest() -> None:
    """From a trestle to head height, elbow and shoulder zones are passed."""
    assert zones_between(760.0, 1500.0) == (Zone.ELBOW, Zone.SHOULDER, Zone.HEAD)
    assert zone_at(100.0) is Zone.LOWER_LEG
    assert zones_between(1500.0, 760.0) == zones_between(760.0, 1500.0)


def test_a_hung_unit_is_lifted_over_its_cleat() -> None:
    """Its bevel and the lift are added; without doors and shelves it is lighter."""
    unit = example_unit("greenhouse_wall_unit")
    found = check_lift(unit, Lift(to=1330.0))
    assert found.hands == pytest.approx(1330 + 35.4 + 8)
    assert found.zone is Zone.SHOULDER
    assert found.mass == pytest.approx(unit_mass(unit).kilograms)
    assert found.bare < found.mass - 8
    assert {"left door", "tool shelf", "left frame shelf panel"} <= set(found.loose)
    assert check_lift(unit, Lift(to=1370.0)).zone is Zone.HEAD


def test_a_team_lifts_less_than_its_sum() -> None:
    """Two people two thirds of the sum."""
    assert filter_value(Zone.SHOULDER, Lifter.MAN, 2) == pytest.approx(26.67, abs=0.01)


def test_bad_lifts_are_refused() -> None:
    """Each with its number."""
    with pytest.raises(SizeError, match="height of the underside"):
        Lift(to=-5.0)
    with pytest.raises(SizeError, match="people"):
        Lift(to=900.0, people=0)
    with pytest.raises(KindError, match="lifter"):
        Lift(to=900.0, who="giant")  # type: ignore[arg-type]


def test_a_table_takes_the_weight() -> None:
    """Then hands only steer, whatever it weighs."""
    unit = example_unit("greenhouse_wall_unit")
    assert not check_lift(unit, Lift(to=1611.0)).is_light
    assert check_lift(unit, Lift(to=1611.0, has_table=True)).is_light
