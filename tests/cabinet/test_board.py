"""Places on a board, told from its surfaces."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.board import (
    At,
    BoardBox,
    BoardSize,
    Surface,
    place,
    require_across,
    require_inside,
    surface_at,
)
from cabinet.errors import SizeError
from tests.strategies import lengths, sizes

SIZE = BoardSize(613.0, 287.0, 17.6)


@pytest.mark.parametrize("surface", Surface)
def test_opposites(surface: Surface) -> None:
    """Across the board and back."""
    assert surface.opposite.axis == surface.axis
    assert surface.opposite.sign == -surface.sign
    assert surface_at(surface.axis, surface.sign) is surface
    assert surface.is_face == (surface in {Surface.A, Surface.B})


@pytest.mark.parametrize(
    ("datum", "expected"),
    [
        (Surface.START, 37.0),
        (Surface.END, 576.0),
        (Surface.LOW, 37.0),
        (Surface.HIGH, 250.0),
    ],
)
def test_coordinates_by_hand(datum: Surface, expected: float) -> None:
    """37 mm from each edge of a board of 613 by 287."""
    assert At(datum, 37.0).coordinate(SIZE) == expected


@given(size=sizes(), datum=st.sampled_from(Surface), distance=lengths(0, 100))
def test_place_is_the_inverse_of_coordinate(
    size: BoardSize, datum: Surface, distance: float
) -> None:
    """A place told by its coordinate comes back from the same datum."""
    at = At(datum, distance)
    again = place(datum, at.coordinate(size), size)
    assert again.datum is datum
    assert again.distance == pytest.approx(distance, abs=1e-6)


@given(size=sizes(), datum=st.sampled_from(Surface), more=lengths(0.1, 90))
def test_beyond_goes_away_from_the_datum(size: BoardSize, datum: Surface, more: float) -> None:
    """Away from the datum is into the board."""
    at = At(datum, 5.0)
    step = at.beyond(more).coordinate(size) - at.coordinate(size)
    assert step == pytest.approx(-datum.sign * more)


def test_gap_between_boxes() -> None:
    """Straight, over a corner (3, 4, 12 gives 13), and none."""
    box = BoardBox((0, 0, 0), (10, 10, 10))
    assert box.gap(BoardBox((17, 2, 2), (20, 5, 5))) == 7
    assert box.gap(BoardBox((13, 14, 22), (30, 30, 30))) == pytest.approx(13)
    assert box.gap(BoardBox((10, 0, 0), (20, 10, 10))) == 0
    assert box.gap(BoardBox((-6, -5, -4), (-2, 5, 5))) == 2


@pytest.mark.parametrize("sizes_", [(0, 1, 1), (1, -1, 1), (1, 1, math.nan), (True, 1, 1)])
def test_sizes_are_positive(sizes_: tuple[float, float, float]) -> None:
    """No board without a length."""
    with pytest.raises(SizeError):
        BoardSize(*sizes_)


def test_places_on_a_surface_are_told_from_beside_it() -> None:
    """Neither from the surface itself nor twice along one axis."""
    require_across("bore", Surface.A, At(Surface.START, 1), At(Surface.HIGH, 1))
    for places in (
        (At(Surface.B, 3), At(Surface.LOW, 3)),
        (At(Surface.START, 3), At(Surface.END, 3)),
    ):
        with pytest.raises(SizeError, match="bore"):
            require_across("bore", Surface.A, *places)


def test_places_lie_on_the_board() -> None:
    """Both ends belong to it."""
    for distance in (0.0, 287.0):
        require_inside("bore", "centre", At(Surface.HIGH, distance), SIZE)
    for distance in (-0.001, 287.001):
        with pytest.raises(SizeError) as caught:
            require_inside("bore", "centre", At(Surface.HIGH, distance), SIZE)
        assert caught.value.limit == (0.0, 287.0)
