"""Lippings: blank and finished size differ by what each edge gets."""

from __future__ import annotations

import pytest

from cabinet import Design, board_shelf, pin_rows, solid_wood
from cabinet.checks.all import findings
from tests.strategies import BIRCH, small


def test_each_edge_gets_its_own_thickness() -> None:
    box = small()
    pins = pin_rows(box)
    strips = {
        "front": solid_wood("ash", 8, 690),
        "left": solid_wood("ash", 5.5, 690),
        "right": solid_wood("ash", 3.2, 690),
    }
    made = Design(
        "lipped",
        (
            box.component,
            pins.component,
            board_shelf(pins.bay(1), hole=4, stock=BIRCH, name="shelf", lipping=strips),
        ),
    ).resolve()
    plain = Design(
        "plain",
        (
            box.component,
            pins.component,
            board_shelf(pins.bay(1), hole=4, stock=BIRCH, name="shelf"),
        ),
    ).resolve()
    board, whole = made.by_name["shelf"].board, plain.by_name["shelf"].board
    assert board.length == pytest.approx(whole.length - 5.5 - 3.2)
    assert board.width == pytest.approx(whole.width - 8)
    front, left = made.by_name["shelf front lipping"], made.by_name["shelf left lipping"]
    assert front.board.size.along == pytest.approx((whole.length, whole.thickness, 8))
    assert left.board.size.along == pytest.approx((whole.width - 8, whole.thickness, 5.5))
    assert findings(made) == ()
