"""Tipping by moments about the footing's front edge."""

from __future__ import annotations

import pytest

from cabinet.site.carriers import carriers
from cabinet.site.stability import CHILD_PULL, check_tipping, tipping_pull
from cabinet.site.uses import SpreadLoad, UseCase
from cabinet.site.weight import unit_mass
from tests.examples import example_unit


def test_a_box_tips_when_its_weight_passes_the_edge() -> None:
    """A box 400 deep with its centre 600 up tips at m g 200 / h: moments, any text."""
    assert tipping_pull(50.0, 200.0, 1200.0) == pytest.approx(50 * 9.80665 / 6)


def test_a_plinth_set_back_holds_less() -> None:
    """The pantry's footing begins at its plinth, 50 behind its front."""
    unit = example_unit("pantry_cupboard")
    empty = check_tipping(unit, (), carriers(unit))[0]
    assert empty.back == pytest.approx(unit_mass(unit).centre.y - 50)
    assert empty.climb == pytest.approx(25 * 9.80665 * 50)
    assert empty.pull == CHILD_PULL * 1200
    assert empty.margin < 1
    # The tie, 25 below the top, makes up exactly what is missing.
    assert empty.holding + empty.tie * (1870 - 25) == pytest.approx(empty.pull)


def test_contents_hold_it_down() -> None:
    """Full, the rack stands firmer than empty, and needs no tie."""
    unit = example_unit("pottery_drying_rack")
    known = carriers(unit)
    pots = UseCase(
        name="pots", loads=tuple(SpreadLoad(place=f"shelf {i}", kilograms=18) for i in (1, 2, 3))
    )
    empty, full = check_tipping(unit, (pots,), known)
    assert (empty.state, full.state) == ("empty", "pots")
    assert full.mass == pytest.approx(empty.mass + 54)
    assert full.margin > 1 > empty.margin
    assert full.tie == 0
