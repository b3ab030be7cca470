"""Bricks: never less than the board, never more, and exact where all cuts are boxes."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings

from cabinet.checks.bricks import Boxes, board_bricks, part_bricks, together
from cabinet.features import Bevel, FlushTrim, Groove, Notch, Rebate
from cabinet.frame import Side
from cabinet.part import Board, Part
from cabinet.solids import solid
from tests.strategies import a_groove, a_hole, a_part, boards, parts


def _volume(boxes: Boxes) -> float:
    return float(np.prod(boxes[:, 1] - boxes[:, 0], axis=1).sum())


@settings(max_examples=40)
@given(board=boards())
def test_bricks_hold_the_solid_between_them(board: Board) -> None:
    """The kernel's volume lies between that of the fewest and that of the most bricks."""
    true = float(solid(board).Volume())
    assert _volume(board_bricks(board, at_least=False)) <= true + 1e-3
    plain = tuple(f for f in board.features if isinstance(f, Groove | Rebate | Notch | FlushTrim))
    cut = replace(board, features=plain)
    assert _volume(board_bricks(cut, at_least=True)) >= float(solid(cut).Volume()) - 1e-3


@settings(max_examples=40)
@given(board=boards())
def test_bricks_are_exact_where_all_cuts_are_boxes(board: Board) -> None:
    """Grooves with square ends, rebates, notches, trims: the bricks have the solid's volume."""
    square = tuple(
        replace(f, end_radius=0.0) if isinstance(f, Groove) else f
        for f in board.features
        if isinstance(f, Groove | Rebate | Notch | FlushTrim)
    )
    cut = replace(board, features=square)
    for at_least in (True, False):
        bricks = board_bricks(cut, at_least=at_least)
        assert _volume(bricks) == pytest.approx(float(solid(cut).Volume()), rel=1e-9)


@settings(max_examples=30)
@given(part=parts())
def test_bricks_lie_where_the_part_lies(part: Part) -> None:
    """The box around the bricks of a part without bevels is the part's own box."""
    if any(isinstance(f, Bevel) for f in part.board.features):
        return
    bricks = part_bricks(part)
    for side in Side:
        assert bricks.face(side) == pytest.approx(part.box.face(side), abs=2.0 + 1e-6)
    assert bricks.low == pytest.approx(tuple(part.box.low), abs=1e-6)
    assert bricks.high == pytest.approx(tuple(part.box.high), abs=1e-6)


def test_bricks_know_their_owner() -> None:
    """Things put together can be taken apart by name."""
    one = part_bricks(a_part(a_groove(), name="one"))
    other = part_bricks(a_part(a_hole(), name="other"))
    both = together([one, other])
    assert both.names == ("one", "other")
    assert len(both.boxes) == len(one.boxes) + len(other.boxes)
    assert np.array_equal(both.without(["one"]).boxes, other.boxes)
