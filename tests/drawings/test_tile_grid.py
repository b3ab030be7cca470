"""Sheets laid over a drawing."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.errors import SizeError
from drawings.marks import PaperBox
from drawings.tile_grid import OVERLAP, Orientation, TileGrid

SIZES = st.floats(20, 1500)


def lying(width: float, height: float) -> TileGrid:
    return TileGrid(orientation=Orientation.LYING, width=width, height=height)


def test_one_sheet_as_long_as_the_drawing_fits() -> None:
    wide, high = Orientation.LYING.window
    assert lying(wide, high).places == ((0, 0),)
    assert lying(wide + 0.1, high).places == ((0, 0), (1, 0))
    assert lying(wide, high + 0.1).places == ((0, 0), (0, 1))


@given(width=SIZES, height=SIZES, orientation=st.sampled_from(Orientation))
def test_own_parts_make_up_the_whole_without_overlap(
    width: float, height: float, orientation: Orientation
) -> None:
    grid = TileGrid(orientation=orientation, width=width, height=height)
    own = [grid.own(*place) for place in grid.places]
    last = grid.window(grid.columns - 1, grid.rows - 1)
    area = math.fsum(box.width * box.height for box in own)
    assert area == pytest.approx(last.right * last.bottom)
    assert last.right >= width - 1e-3
    assert last.bottom >= height - 1e-3


@given(width=SIZES, height=SIZES, orientation=st.sampled_from(Orientation))
def test_each_cross_stands_on_two_sheets_at_least(
    width: float, height: float, orientation: Orientation
) -> None:
    grid = TileGrid(orientation=orientation, width=width, height=height)
    shown = [number for place in grid.places for number, _ in grid.crosses_of(*place)]
    assert all(shown.count(number) >= 2 for number in range(1, len(grid.crosses) + 1))
    assert bool(grid.crosses) == (len(grid.places) > 1)


def test_neighbours_overlap_and_share_two_crosses() -> None:
    grid = lying(613.0, 91.0)
    first, second = grid.window(0, 0), grid.window(1, 0)
    assert first.right - second.left == OVERLAP
    shared = dict(grid.crosses_of(0, 0)).keys() & dict(grid.crosses_of(1, 0)).keys()
    assert len(shared) == 2


def test_lettering_is_moved_off_a_seam() -> None:
    grid = lying(613.0, 91.0)
    (seam, *_) = grid.x_seams
    assert grid.beside_seams(seam + 3.0, 8.0) == seam + 8.0
    assert grid.beside_seams(seam - 3.0, 8.0) == seam - 8.0
    assert grid.beside_seams(seam - 9.0, 8.0) == seam - 9.0
    assert not grid.holds(PaperBox(seam - 1.0, 10.0, seam + 1.0, 20.0))
    assert grid.holds(PaperBox(seam + 1.0, 10.0, seam + 9.0, 20.0))


@pytest.mark.parametrize("size", [0.0, -613.0, math.nan])
def test_a_drawing_must_have_a_size(size: float) -> None:
    with pytest.raises(SizeError):
        lying(size, 91.0)
