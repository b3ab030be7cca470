"""The rack: leftovers, flaws and sheets, and what is refused of them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from cabinet.errors import CabinetError, DesignError, SizeError
from cabinet.making.outline import Rect, bounds, l_shape, rectangle
from cabinet.making.rack import (
    Flaw,
    FlawFace,
    FlawKind,
    Leftover,
    Rack,
    SheetToBuy,
    default_rack,
    flaw,
    pieces_within,
)
from cabinet.stock import Grain, birch_plywood, steel_sheet
from tests.cabinet.making.racks import BIRCH, plain_unit


def board(**more: object) -> Leftover:
    told: dict[str, object] = {"name": "old lid", "stock": BIRCH, "outline": rectangle(613, 287)}
    return Leftover(**(told | more))  # type: ignore[arg-type]


BAD: list[tuple[Callable[[], object], type[CabinetError], str]] = [
    (
        lambda: board(flaws=(flaw("stain", "face A", at=(600, 10), length=20, width=20),)),
        SizeError,
        "old lid: flaw 1, a stain on face A, .* leaves the board of 613 × 287 mm",
    ),
    (
        lambda: board(outline=((0, 0), (613, 287), (613, 0), (0, 287))),
        SizeError,
        "old lid: edges 1 and 3 of its outline cross",
    ),
    (
        lambda: Flaw(
            kind=FlawKind.STAIN, face=FlawFace.A, outline=((0, 0), (90, 80), (90, 0), (0, 80))
        ),
        SizeError,
        "stain on face A: edges 1 and 3",
    ),
    (
        lambda: board(flaws=(flaw("hole", "face B", at=(1, 1), length=9, width=9, depth=17.7),)),
        SizeError,
        "depth of flaw 1.*17.7 mm.*goes through",
    ),
    (lambda: flaw("groove", "face A", at=(0, 0), length=9, width=9), SizeError, "give how deep"),
    (
        lambda: flaw("stain", "face A", at=(0, 0), length=9, width=9, depth=2),
        SizeError,
        "leave it out",
    ),
    (
        lambda: flaw("groove", "face B", at=(0, 0), length=9, width=9, depth=-2),
        SizeError,
        "depth is -2",
    ),
    (lambda: flaw("scratch", "face A", at=(0, 0), length=9, width=9), SizeError, "'scratch'"),
    (lambda: flaw("stain", "edge", at=(0, 0), length=9, width=9), SizeError, "'edge'"),
    (lambda: board(measured=12.1), SizeError, "measured thickness"),
    (lambda: board(name=" "), SizeError, "name"),
    (lambda: SheetToBuy(stock=BIRCH, length=-1), SizeError, "length"),
    (lambda: SheetToBuy(stock=BIRCH, price=-3), SizeError, "price"),
    (lambda: SheetToBuy(stock=BIRCH, trim=700), SizeError, "trim"),
    (lambda: SheetToBuy(stock=BIRCH, count=0), SizeError, "number"),
    (lambda: Rack(leftovers=(board(), board())), DesignError, "2 leftovers are called 'old lid'"),
]


@pytest.mark.parametrize(("make", "error", "says"), BAD)
def test_bad_racks_are_refused_with_one_clear_sentence(
    make: Callable[[], object], error: type[CabinetError], says: str
) -> None:
    with pytest.raises(error, match=says) as caught:
        make()
    assert "\n" not in str(caught.value)


def test_sizes_of_sheets_are_told_along_the_grain() -> None:
    assert SheetToBuy(stock=BIRCH).size == (2500.0, 1250.0)
    assert SheetToBuy(stock=BIRCH, length=1525, width=1513, grain=Grain.WIDTH).size == (1513, 1525)
    assert SheetToBuy(stock=BIRCH).edge_trim == 10.0
    assert SheetToBuy(stock=steel_sheet(1.5)).edge_trim == 0.0


def test_a_leftover_serves_boards_of_its_own_thickness_only() -> None:
    assert board(measured=17.5).serves(BIRCH)
    assert not board(measured=17.4).serves(BIRCH)
    assert not board().serves(birch_plywood(nominal=12, measured=11.9))


def test_a_cross_grained_leftover_is_laid_with_its_flaws() -> None:
    told = board(
        outline=rectangle(613, 287, (10, 20)),
        grain=Grain.WIDTH,
        flaws=(flaw("stain", "face A", at=(17, 31), length=53, width=29),),
    )
    laid = told.laid()
    assert bounds(laid.outline) == Rect(0.0, 0.0, 287.0, 613.0)
    # A quarter turn: what was 11 from the lower edge is 11 from the left, and what was 7 from
    # the left is 7 from the top.
    assert bounds(laid.flaws[0].outline) == Rect(11.0, 613.0 - 7.0 - 53.0, 29.0, 53.0)
    assert laid.grain is Grain.LENGTH


def test_pieces_keep_their_part_of_a_flaw() -> None:
    told = Leftover(
        name="L",
        stock=BIRCH,
        outline=l_shape(900, 500, (300, 200)),
        flaws=(flaw("groove", "face B", at=(0, 250), length=900, width=9, depth=4),),
    )
    (piece,) = pieces_within(told, Rect(400.0, 100.0, 500.0, 400.0), "rest")
    assert bounds(piece.outline) == Rect(0.0, 0.0, 500.0, 400.0)
    assert [bounds(each.outline) for each in piece.flaws] == [Rect(0.0, 150.0, 500.0, 9.0)]


def test_the_default_rack_has_full_sheets_of_every_stock() -> None:
    unit = plain_unit([(613, 287)])
    assert [sheet.stock for sheet in default_rack(unit).sheets] == [BIRCH]
    assert Rack().sheets_of(BIRCH)[0].size == (2500.0, 1250.0)
