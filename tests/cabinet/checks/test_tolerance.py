"""Chains of sizes: every corner of the tolerances' box, and what eats a clearance."""

from __future__ import annotations

import math
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.checks.tolerance import Accuracy, Chain, stacks
from cabinet.errors import SizeError
from cabinet.features import Tolerance
from tests.planted import carcass as planted_carcass
from tests.planted import doors as planted_doors
from tests.planted import shelves as planted_shelves
from tests.planted.designs import ALL, good


@given(
    nominal=st.floats(0.1, 9.0),
    tolerances=st.lists(st.floats(0.0, 0.6), min_size=1, max_size=6),
)
def test_the_worst_case_is_the_least_of_all_corners(
    nominal: float, tolerances: list[float]
) -> None:
    """By trying every corner; the root sum square is never worse."""
    chain = Chain(nominal, tuple((f"size {i}", t) for i, t in enumerate(tolerances)))
    corners = [
        nominal + sum(sign * t for sign, t in zip(signs, tolerances, strict=True))
        for signs in product((-1, 1), repeat=len(tolerances))
    ]
    assert chain.worst == pytest.approx(min(corners))
    assert chain.worst - 1e-9 <= chain.likely <= nominal
    assert chain.likely == pytest.approx(nominal - math.sqrt(sum(t * t for t in tolerances)))


@pytest.mark.parametrize("name", ALL)
def test_good_designs_keep_their_clearances(name: str) -> None:
    """With a usual workshop's accuracy."""
    assert list(stacks(good(name))) == []


@pytest.mark.parametrize("name", ALL)
def test_a_coarse_workshop_does_not(name: str) -> None:
    """Cuts to a millimetre and a half eat the play of shelves, whatever the design."""
    found = list(stacks(good(name), Accuracy(cut=1.5, place=1.0, depth=0.8)))
    assert "tolerance-chain" in {finding.rule for finding in found}
    assert any("length of the shelf ±1.5" in finding.sentence for finding in found)


def test_the_chain_is_named_with_its_sizes() -> None:
    """2.4 of play, 1.1 of them cut away, less 0.2 + 0.2 + 0.1."""
    (finding,) = stacks(planted_shelves._longer(good("tool rack"), 1.1))
    assert finding.rule == "tolerance-chain"
    assert finding.found == pytest.approx(2.4 - 1.1 - 0.5)
    for told in ("1.30 mm less", "length of the shelf ±0.2", "their thickness ±0.1", "0.80 mm"):
        assert told in finding.sentence


def test_shelf_play_at_its_limit() -> None:
    """2.4 less 0.5 of tolerances leaves 0.7 to lose before 1.2 is reached."""
    unit = good("tool rack")
    assert list(stacks(planted_shelves._longer(unit, 0.65))) == []
    assert list(stacks(planted_shelves._longer(unit, 0.75)))


def test_a_groove_as_wide_as_its_board_does_not_close() -> None:
    """The board may be 0.1 thicker somewhere; 0.1 of play is just enough."""
    unit = good("seed cupboard")
    assert list(stacks(planted_carcass._housing_tight(unit, 0.1))) == []
    (finding,) = stacks(planted_carcass._housing_tight(unit, 0.09))
    assert finding.rule == "does-not-close"
    assert "±0.1" in finding.sentence


def test_a_divider_without_room_does_not_close_in_a_coarse_workshop() -> None:
    """Sides and divider each off by 0.6: the likely misfit is more than clamps draw together."""
    found = list(stacks(good("seed cupboard"), Accuracy(cut=0.6)))
    assert "does-not-close" in {finding.rule for finding in found}


def test_doors_that_pass_are_a_chain_of_their_grooves() -> None:
    """3 between bodies, less half of each play, less 0.2 + 0.2 + 0.1."""
    (finding,) = stacks(planted_doors._tracks_nearer(good("seed cupboard"), 1.4))
    assert finding.found == pytest.approx(3.0 - 1.4 - 1.0 - 0.5)


@pytest.mark.parametrize("value", [-0.1, 3.1, float("nan"), float("inf")])
@pytest.mark.parametrize("name", ["thickness", "cut", "place", "depth", "bar"])
def test_no_such_accuracy(name: str, value: float) -> None:
    """It is refused by name."""
    with pytest.raises(SizeError, match=name):
        Accuracy(**{name: value})


def test_contradictory_tolerances_are_refused() -> None:
    """A lower deviation above the upper one."""
    with pytest.raises(SizeError, match="above the upper"):
        Tolerance(0.2, 0.1)
