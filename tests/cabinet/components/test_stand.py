"""Plinth and feet."""

from __future__ import annotations

import pytest

from cabinet.components.stand import feet, plinth
from cabinet.design import Design, around
from cabinet.stock import solid_wood
from tests.strategies import BIRCH, small

ASH = solid_wood("ash", 41, 690)


def test_plinth_is_set_back_and_stands_below() -> None:
    """As wide as the carcass, 42 behind its front, from the floor to the base."""
    box = small()
    unit = Design(
        "standing",
        (box.component, plinth(box, stock=BIRCH, height=87, setback=42)),
        is_hung=False,
    ).resolve()
    boards = [part for part in unit.parts if part.group == "plinth"]
    assert len(boards) == 4
    around_all = around(part.box for part in boards)
    assert tuple(around_all.low) == pytest.approx((0, 42, -87))
    assert tuple(around_all.high) == pytest.approx((813, 303, 0))
    ends = [part for part in boards if part.role == "plinth end"]
    assert {part.board.length for part in ends} == {303 - 42 - 2 * 17.6}


def test_feet_stand_in_from_the_edges() -> None:
    """Four blocks of 60, 30 in from each edge, as high as their wood is thick."""
    box = small()
    unit = Design("standing", (box.component, feet(box, stock=ASH, height=41))).resolve()
    blocks = [part for part in unit.parts if part.role == "foot"]
    assert len(blocks) == 4
    assert len({part.board for part in blocks}) == 1
    around_all = around(part.box for part in blocks)
    assert tuple(around_all.low) == pytest.approx((30, 30, -41))
    assert tuple(around_all.high) == pytest.approx((813 - 30, 303 - 30, 0))
