"""Only what is plain is left out: measured on the solid, and by the dimensions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import cadquery as cq
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cabinet.board import At, Surface
from cabinet.errors import KernelError
from cabinet.features import Feature, Groove, HoleRow, Notch
from cabinet.part import Board
from cabinet.solids import solid
from cabinet.stock import birch_plywood
from drawings.dimensioning import board_dimensions
from drawings.interruption import Interruption
from drawings.plain_stretch import cuts_a_row, interruptions, passing_holes
from drawings.views import plan_views
from tests.strategies import long_boards

PLY = birch_plywood(18, 17.6)
LENGTH = 2358.0


def board_with(*features: Feature) -> Board:
    """A long board."""
    return Board(stock=PLY, length=LENGTH, width=413.0, features=features)


def found_for(board: Board, scale: float = 0.2) -> list[Interruption]:
    """All that its views might leave out."""
    dimensions = board_dimensions(board)
    rings = plan_views(board, dimensions).rings(0, scale, with_loose=False)
    return list(interruptions(board, dimensions.links, rings, axis=0, scale=scale))


def slab(shape: cq.Shape, low: float, high: float) -> cq.Shape:
    """A slice of a board."""
    box = cq.Solid.makeBox(high - low, 1000.0, 100.0, cq.Vector(low, -200.0, -30.0))
    return shape.intersect(box)


def housing(name: str, distance: float) -> Groove:
    """A groove across the board."""
    near = At(Surface.START, distance)
    return Groove(name=name, surface=Surface.A, near=near, width=17.9, depth=6.0)


def row(count: int, first: float = 163.0) -> HoleRow:
    """Holes along the board."""
    return HoleRow(
        name="row",
        surface=Surface.A,
        first=At(Surface.START, first),
        line=At(Surface.LOW, 37.0),
        count=count,
        pitch=32.0,
        diameter=5.0,
        depth=11.0,
    )


@settings(max_examples=25)
@given(board=long_boards(), scale=st.sampled_from((0.1, 0.2, 0.5)))
def test_what_is_left_out_has_one_cross_section(board: Board, scale: float) -> None:
    """Slices of it, laid on each other, are the same body; holes of rows are told apart."""
    found = found_for(board, scale)
    assume(found)
    kept = tuple(feature for feature in board.features if not isinstance(feature, HoleRow))
    try:
        shape = solid(replace(board, features=kept))
    except KernelError:
        assume(False)  # a hole at a corner may cut the corner off
    for low, high in found[-1].spans:
        step = (high - low) / 3
        slices = [slab(shape, low + i * step, low + (i + 1) * step) for i in range(3)]
        first = slices[0]
        for index, other in enumerate(slices[1:], start=1):
            moved = other.translate(cq.Vector(-index * step, 0, 0))
            assert moved.Volume() == pytest.approx(first.Volume(), rel=1e-9)
            assert moved.Center().toTuple() == pytest.approx(first.Center().toTuple(), abs=1e-6)


@settings(max_examples=100)
@given(board=long_boards(), scale=st.sampled_from((0.1, 0.2, 0.5)))
def test_no_dimension_ends_and_no_hole_is_cut_in_it(board: Board, scale: float) -> None:
    """Neither end of a dimension lies in it; a break never runs through a hole."""
    for cut in found_for(board, scale):
        ends = [
            end.coordinate
            for link in board_dimensions(board).links
            if link.axis == 0
            for pair in link.pairs
            for end in pair
        ]
        assert not any(cut.hides(end) for end in ends)
        assert not any(cut.hides(end) for end in (0.0, board.length))
        for feature in board.features:
            for low, high in passing_holes(feature, board.size, 0):
                assert not any(low < place < high for span in cut.spans for place in span)


def spans_of(found: Iterable[Interruption]) -> set[int]:
    """How many breaks there may be."""
    return {len(cut.spans) for cut in found}


def test_a_plain_board_is_broken_once() -> None:
    assert spans_of(found_for(board_with())) == {1}


def test_what_stands_in_the_middle_stays_there() -> None:
    """Both halves are shortened or neither, so that the picture keeps its look."""
    found = found_for(board_with(housing("middle", 1163.0)))
    assert spans_of(found) == {2}
    for cut in found:
        left, right = cut.spans
        assert left[1] < 1163.0 < right[0]


def test_a_long_plain_end_is_broken_alone() -> None:
    """What stands near one end leaves one stretch that is far longer than the other."""
    found = found_for(board_with(housing("first", 411.0)))
    assert len(found[0].spans) == 1
    assert found[0].spans[0][0] > 411.0 + 17.9


def test_a_board_with_something_everywhere_is_not_broken() -> None:
    """Housings every 293 mm at 1:5 leave nothing worth a break."""
    housings = (housing(f"housing {i}", i * 293.0) for i in range(1, 8))
    assert not found_for(board_with(*housings))


def test_a_long_row_is_shown_by_its_ends() -> None:
    """Three holes at least at either end, and the board is told to have a cut row."""
    long = row(64)
    board = board_with(long)
    holes = [hole.box(board.size) for hole in long.holes]
    for cut in found_for(board):
        (low, high) = cut.spans[0]
        assert holes[2].high[0] < low < high < holes[-3].low[0]
        assert cuts_a_row(board, cut)


def test_a_short_row_is_not_cut() -> None:
    """Eight holes are shown, all of them."""
    short = row(8)
    board = board_with(short)
    box = short.box(board.size)
    found = found_for(board)
    assert found
    for cut in found:
        assert not cut.crosses(0, box.low[0], box.high[0])
        assert not cuts_a_row(board, cut)


def test_what_runs_on_does_not_stand_in_the_way_but_its_ends_do() -> None:
    """A groove along the board; stopped, and a notch, they are broken between their ends."""
    groove = Groove(
        name="groove", surface=Surface.A, near=At(Surface.HIGH, 18.0), width=6.3, depth=6.0
    )
    assert found_for(board_with(groove)) == found_for(board_with())
    stopped = replace(groove, start=At(Surface.START, 311.0), end_radius=3.0)
    notch = Notch(
        name="notch", edge=Surface.LOW, near=At(Surface.START, 311.0), length=1721.0, depth=9.0
    )
    for feature, ends in ((stopped, (311.0,)), (notch, (311.0, 311.0 + 1721.0))):
        found = found_for(board_with(feature))
        assert found
        for cut in found:
            assert cut.left_out > 800.0
            assert not any(cut.hides(end) for end in ends)
