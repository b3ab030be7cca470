"""Gaps for fingers: EN 14749:2016, 5.2.1, as read in a test report: 8 or less, 25 or more."""

from __future__ import annotations

import pytest

from cabinet.checks.fingers import finger_gaps
from cabinet.frame import Side
from tests.planted.designs import WITH_DOORS, good
from tests.planted.doors import _pull_at_the_side, _small_finger_pull
from tests.planted.edits import doors_of, knob, more_hardware


@pytest.mark.parametrize("name", WITH_DOORS)
def test_good_doors_are_silent(name: str) -> None:
    """Their pulls are 30 wide."""
    assert list(finger_gaps(good(name))) == []


@pytest.mark.parametrize(
    ("diameter", "is_free"), [(8.0, True), (8.1, False), (24.9, False), (25.0, True)]
)
def test_bored_pulls(diameter: float, is_free: bool) -> None:
    """Both limits themselves are allowed."""
    found = list(finger_gaps(_small_finger_pull(good("seed cupboard"), diameter)))
    assert (found == []) == is_free


@pytest.mark.parametrize(("gap", "is_free"), [(24.0, False), (9.0, False), (26.0, True)])
def test_a_pull_beside_the_side(gap: float, is_free: bool) -> None:
    """Closed, the door's pull stands that far from the side."""
    found = list(finger_gaps(_pull_at_the_side(good("seed cupboard"), gap)))
    assert (found == []) == is_free
    if found:
        assert found[0].found == pytest.approx(gap, abs=0.1)


def test_a_gap_that_closes_is_a_trap_even_if_it_ends_narrow() -> None:
    """From wide to 3 it passes through all that holds a finger."""
    assert list(finger_gaps(_pull_at_the_side(good("seed cupboard"), 3.0)))


def test_two_pulls_of_one_track_come_near_each_other() -> None:
    """Where doors of one track meet, their pulls keep apart."""
    unit = good("glaze cabinet")
    one, other = doors_of(unit)[0], doors_of(unit)[2]
    close = more_hardware(
        unit,
        knob(one, Side.FRONT, (Side.RIGHT, 12.0), 23.0),
        knob(other, Side.FRONT, (Side.LEFT, 12.0), 23.0),
    )
    found = [f for f in finger_gaps(close) if len(f.parts) == 2 and "pull of" in f.parts[1]]
    assert found
    # 12 and 12 to their middles, less 7 and 7.
    assert found[0].found == pytest.approx(10.0, abs=0.01)
