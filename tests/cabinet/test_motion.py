"""Moves: straight, and the place shown is within the range."""

from __future__ import annotations

import math

import pytest

from cabinet.errors import CabinetError, DesignError, SizeError
from cabinet.frame import Side
from cabinet.motion import Motion, Move


def a_move(low: float, high: float, parts: tuple[str, ...] = ("door",)) -> Move:
    """A sliding door's move."""
    return Move(
        name="door slides", motion=Motion.SLIDE, parts=parts, side=Side.RIGHT, low=low, high=high
    )


@pytest.mark.parametrize(("low", "high"), [(-573.0, 0.0), (0.0, 4.0), (-64.0, 96.0)])
def test_good_moves(low: float, high: float) -> None:
    """From the place shown either way."""
    assert (a_move(low, high).low, a_move(low, high).high) == (low, high)


@pytest.mark.parametrize(("low", "high"), [(1.0, 5.0), (-5.0, -1.0), (0.0, 0.0)])
def test_moves_that_leave_the_place_shown(low: float, high: float) -> None:
    """The part is drawn where it is not, or moves nowhere."""
    with pytest.raises(DesignError) as caught:
        a_move(low, high)
    assert caught.value.value == (low, high)


@pytest.mark.parametrize("value", [math.nan, math.inf, True, None])
def test_travel_is_finite(value: float) -> None:
    """No endless slide."""
    with pytest.raises(SizeError):
        a_move(-1.0, value)


def test_something_moves() -> None:
    """A move of nothing is none."""
    with pytest.raises(CabinetError):
        a_move(-1.0, 1.0, parts=())
