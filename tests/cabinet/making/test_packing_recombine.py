"""A whole plan chosen from sheets of many tries."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from random import Random

import numpy as np
import pytest

from cabinet.making.guillotine import Piece, Sheet
from cabinet.making.packing import solve
from cabinet.making.packing.goal import Goal, Size
from cabinet.making.packing.recombine import Pool
from tests.cabinet.making.published_recipes import instance

NO_LIMIT = float("inf")


def rows_of(
    states: list[list[set[int]]], pieces: int
) -> np.ndarray[tuple[int, int], np.dtype[np.int64]]:
    """For each state the sheet of each piece."""
    rows = np.full((len(states), pieces), -1, dtype=np.int64)
    for row, sheets in zip(rows, states, strict=True):
        for number, members in enumerate(sheets):
            row[sorted(members)] = number
    return rows


def test_sheets_of_two_states_make_a_plan() -> None:
    """Neither state has a place for every piece; one sheet of each does."""
    pool = Pool(6, 2)
    pool.add(rows_of([[{0, 1, 2}, {3, 4}], [{0, 1}, {3, 4, 5}]], 6))
    assert sorted(pool.choose(NO_LIMIT)) == [(0, 1, 2), (3, 4, 5)]


def test_no_plan_where_a_piece_was_never_seen_or_sheets_are_too_few() -> None:
    """Piece 5 lay nowhere; then three sheets would be needed and there are two."""
    pool = Pool(6, 2)
    pool.add(rows_of([[{0, 1, 2}, {3, 4}]], 6))
    assert pool.choose(NO_LIMIT) == ()
    pool.add(rows_of([[{0, 3, 5}, {1, 4}]], 6))
    assert pool.choose(NO_LIMIT) == ()
    assert pool.choose(0) == ()


@pytest.mark.parametrize("seed", range(10))
def test_choice_is_found_exactly_where_there_is_one(seed: int) -> None:
    """Random sheets, against going through every three of them."""
    luck = Random(seed)  # noqa: S311 - no secret
    sheets = [set(luck.sample(range(9), luck.randint(2, 4))) for _ in range(14)]
    there_is = any(len(set.union(*three)) == 9 for three in combinations(sheets, 3))
    pool = Pool(9, 3)
    pool.add(rows_of([[each] for each in sheets], 9))
    chosen = pool.choose(NO_LIMIT)
    assert bool(chosen) == there_is
    if chosen:
        assert len(chosen) <= 3
        assert set().union(*chosen) == set(range(9))
        assert all(set(each) in sheets for each in chosen)


def test_notes_say_where_pieces_lay() -> None:
    """Every fourth round a row, empty if it was given up; what lies on one sheet fits there."""
    sizes = [(7, 5), (6, 4), (5, 5), (4, 9), (8, 3), (3, 3), (9, 6)]
    for is_compiled in (False, True):
        goal = Goal(sizes, [False] * 7, [(11, 10), (11, 10)], 2)
        if is_compiled:
            goal.compile()
        goal.take_notes(40)
        assert not goal.advance(40)
        assert goal.notes.shape == (10, 7)
        for row in goal.notes.tolist():
            for sheet in (0, 1):
                area = sum(a * b for (a, b), at in zip(sizes, row, strict=True) if at == sheet)
                assert 0 < area <= 110


@pytest.mark.parametrize(
    ("recipe", "number", "seed", "choices"),
    [
        # Thirty pieces to a sheet: no choice among sheets.
        (4, 60, 8, 0),
        # Four to a sheet: a choice after every spell as long as these are short.
        (8, 40, 6, 2),
    ],
)
def test_search_begins_anew(
    recipe: int, number: int, seed: int, choices: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of 200 rounds, spells of 10, 30, 120, 40; a goal's seed says with which ten it begins."""
    begun: list[tuple[int, int]] = []

    class Noted(Goal):
        def __init__(
            self,
            pieces: Sequence[Size],
            turns: Sequence[bool],
            sheets: Sequence[Size],
            seed: int,
        ) -> None:
            begun.append((len(sheets), seed))
            super().__init__(pieces, turns, sheets, seed)

    monkeypatch.setattr(solve, "Goal", Noted)

    class Counted(Pool):
        def choose(self, seconds: float) -> tuple[tuple[int, ...], ...]:
            chosen.append(seconds)
            return super().choose(seconds)

    chosen: list[float] = []
    monkeypatch.setattr(solve, "Pool", Counted)
    monkeypatch.setattr(solve, "ROUNDS_IN_A_SPELL", 10)
    monkeypatch.setattr(solve, "ROUNDS_RECOMBINED", 40)
    made = instance(recipe, number, seed)
    answer = solve.plan_cuts(
        [Piece(name=str(k), length=a, width=b) for k, (a, b) in enumerate(made.sizes)],
        [Sheet(name="full", length=made.side, width=made.side)],
        kerf=0,
        rounds=200,
        largest_rest=False,
    )
    fewer = answer.new_sheets - 1
    assert fewer == answer.at_least
    assert [each for sheets, each in begun if sheets == fewer] == [1, 2, 5, 17]
    assert len(chosen) == choices
