"""The largest rest and what cannot be had, held against trying everything."""

from __future__ import annotations

import subprocess
import sys
from itertools import product
from random import Random

import pytest

from cabinet.making.guillotine import GRID, Piece, Sheet
from cabinet.making.packing.bounds import is_short_of_room
from cabinet.making.packing.solve import plan_cuts
from cabinet.making.packing.strip import Stops
from tests.cabinet.making.exact import fewest_sheets

Size = tuple[int, int]


def some_sizes(seed: int, number: int) -> list[Size]:
    """Unround whole sizes of a handful of pieces."""
    luck = Random(seed)  # noqa: S311 - no secret
    return [(luck.randint(3, 17), luck.randint(2, 11)) for _ in range(number)]


def pieces_of(sizes: list[Size], *, turn: bool) -> list[Piece]:
    """Pieces named by their number."""
    return [
        Piece(name=f"piece {k}", length=a, width=b, may_turn=turn) for k, (a, b) in enumerate(sizes)
    ]


def fits(sizes: list[Size], sheet: Size, *, kerf: int, turn: bool) -> bool:
    """Whether one sheet holds all pieces, by trying everything."""
    if min(sheet) <= 0:
        return False
    ways = [(a, b) if not turn else (min(a, b), max(a, b)) for a, b in sizes]
    around = sheet if not turn else (min(sheet), max(sheet))
    if any(a > around[0] or b > around[1] for a, b in ways):
        return False
    return fewest_sheets(sizes, sheet, kerf=kerf, turn=turn) == 1


def widest_strip(sizes: list[Size], sheet: Size, *, kerf: int, turn: bool) -> int:
    """Area of the largest strip that can be left along one edge, by trying every width."""
    best = 0
    for axis in (0, 1):
        for strip in range(1, sheet[axis] - kerf):
            left = sheet[axis] - strip - kerf
            size = (left, sheet[1]) if axis == 0 else (sheet[0], left)
            if fits(sizes, size, kerf=kerf, turn=turn):
                best = max(best, strip * sheet[1 - axis])
    return best


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("seed", range(6))
def test_rest_is_no_smaller_than_the_widest_strip(seed: int, *, turn: bool) -> None:
    """Four pieces with a kerf: a strip of every width is tried along both edges."""
    sizes = some_sizes(seed + 40, 4)
    sheet = (37, 29)
    answer = plan_cuts(
        pieces_of(sizes, turn=turn),
        [Sheet(name="full", length=37, width=29)],
        kerf=1,
        rounds=600,
    )
    assert answer.new_sheets == 1
    rest = answer.rest[0] * answer.rest[1]
    # The search stops where a larger rest would be larger by less than 0.005 of the sheet.
    assert rest >= widest_strip(sizes, sheet, kerf=1, turn=turn) - 0.005 * 38 * 30


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("number", [6, 7])
@pytest.mark.parametrize("seed", range(3))
def test_least_number_of_more_pieces_is_proven(seed: int, number: int, *, turn: bool) -> None:
    """As few sheets as by trying everything, and told to be proven."""
    sizes = some_sizes(seed + 70, number)
    answer = plan_cuts(
        pieces_of(sizes, turn=turn),
        [Sheet(name="full", length=19, width=13)],
        kerf=1,
        rounds=400,
        largest_rest=False,
    )
    assert answer.new_sheets == fewest_sheets(sizes, (19, 13), kerf=1, turn=turn)
    assert answer.is_proven


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("seed", range(8))
def test_what_fits_is_never_said_to_be_short_of_room(seed: int, *, turn: bool) -> None:
    """One sheet shortened bit by bit: refuted only where trying everything fails as well."""
    sizes = some_sizes(seed, 4)
    refuted = []
    for length, width in product(range(10, 40, 3), range(7, 31, 4)):
        is_short = is_short_of_room(sizes, [turn] * 4, [(length, width)])
        assert not (is_short and fits(sizes, (length, width), kerf=0, turn=turn))
        refuted.append(is_short)
    assert any(refuted)
    assert not all(refuted)


def test_room_of_sheets_that_differ() -> None:
    """Three of 6 x 6 are 108 of 190 squares and one too many for a whole and a short sheet."""
    squares = [(6, 6)] * 3
    assert not is_short_of_room(squares, [False] * 3, [(10, 10)] * 3)
    assert is_short_of_room(squares, [False] * 3, [(10, 10), (9, 10)])
    # A long second sheet has room for two in a row.
    assert not is_short_of_room(squares, [False] * 3, [(10, 10), (12, 9)])
    # A piece that lies on neither, whatever the areas.
    assert is_short_of_room([(11, 2)], [False], [(10, 10), (2, 11)])
    assert not is_short_of_room([(11, 2)], [True], [(10, 10), (2, 11)])


def test_leftover_that_holds_one_of_three_saves_one_sheet_and_no_more() -> None:
    """By area the leftover and one sheet would do; no two of 613 x 613 lie on a sheet."""
    answer = plan_cuts(
        pieces_of([(613, 613)] * 3, turn=True),
        [
            Sheet(name="full", length=1187, width=1187),
            Sheet(name="leftover", length=701, width=643, is_leftover=True, count=1),
        ],
        kerf=3.2,
        rounds=40,
    )
    assert (answer.new_sheets, answer.at_least) == (2, 2)


def test_stops_are_the_sums_of_sizes() -> None:
    """Every sum of some of the pieces, each in one of its ways, by going through them all."""
    ways: list[tuple[int, ...]] = [(7, 4), (5,), (5,), (11, 2)]
    sums = {sum(choice) for choice in product(*[(0, *each) for each in ways]) if sum(choice) <= 23}
    stops = Stops(ways, 23)
    for size in range(24):
        assert stops.at_or_below(size) == max(s for s in sums if s <= size)
        assert stops.above(size) == min((s for s in sums if s > size), default=size)


FEW = """
import sys
from cabinet.making.guillotine import Piece, Sheet
from cabinet.making.packing.solve import plan_cuts
pieces = [Piece(name=f"side {k}", length=1187 - 3 * k, width=287) for k in range(12)]
answer = plan_cuts(pieces, [Sheet(name="full", length=2500, width=1250)], kerf=3.2, rounds=600)
print(answer.new_sheets, answer.at_least, "numba" in sys.modules, "scipy" in sys.modules)
"""


def test_small_job_loads_neither_the_compiler_nor_the_solver() -> None:
    """A dozen sides are planned and proven without either."""
    done = subprocess.run(
        [sys.executable, "-c", FEW], env={"PATH": ""}, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["2", "2", "False", "False"]


def test_clock_is_the_callers() -> None:
    """A clock that has run out after the first look ends the search with the first plan."""
    ticks = iter([0.0, *[10.0] * 100])
    sizes = some_sizes(3, 9)
    answer = plan_cuts(
        pieces_of(sizes, turn=False),
        [Sheet(name="full", length=19, width=13)],
        kerf=1,
        seconds=5,
        clock=lambda: next(ticks),
    )
    assert answer.rounds == 0
    assert GRID == 1000
