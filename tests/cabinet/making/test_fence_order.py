"""The fewest settings of the fence, against every order of small sets of cuts."""

from __future__ import annotations

import random
from functools import cache
from itertools import groupby

import pytest

from cabinet.making.cut_plan import cut_plan
from cabinet.making.fence_order import FenceOrder, fence_order
from cabinet.making.sawing import Cut, least_settings, settings
from tests.cabinet.making.racks import luck_of, plain_unit
from tests.examples import example_unit

Cuts = tuple[tuple[int | None, ...], tuple[int | None, ...]]


def random_cuts(luck: random.Random, most: int) -> Cuts:
    """A forest of cuts: what frees each, and its distance."""
    count, kinds = luck.randint(1, most), luck.randint(1, 4)
    freed_by = [
        None if k == 0 or luck.random() < 0.15 else luck.randrange(max(0, k - 3), k)
        for k in range(count)
    ]
    fences = [None if luck.random() < 0.15 else 100 * luck.randint(1, kinds) for _ in freed_by]
    return tuple(freed_by), tuple(fences)


def fewest(cuts: Cuts) -> int:
    """By every order in which the cuts can be made, one cut at a time."""
    freed_by, fences = cuts
    everything = (1 << len(fences)) - 1

    @cache
    def left(done: int, fence: int | None) -> int:
        if done == everything:
            return 0
        found = []
        for k, mine in enumerate(fences):
            before = freed_by[k]
            if done >> k & 1 or (before is not None and not done >> before & 1):
                continue
            now = fence if mine is None else mine
            found.append((now != fence) + left(done | 1 << k, now))
        return min(found)

    return left(0, None)


def replayed(cuts: Cuts, found: FenceOrder) -> bool:
    """Whether all cuts are made by setting the fence as told and cutting what can be cut."""
    freed_by, fences = cuts
    done: set[int] = set()
    for fence in (None, *found.fences):
        while True:
            ready = [
                k
                for k in range(len(fences))
                if k not in done
                and fences[k] in (None, fence)
                and (freed_by[k] is None or freed_by[k] in done)
            ]
            if not ready:
                break
            done.update(ready)
    return len(done) == len(fences)


@pytest.mark.parametrize("seed", range(30))
def test_as_few_settings_as_any_order(seed: int) -> None:
    luck = luck_of(seed)
    for _ in range(20):
        cuts = random_cuts(luck, 9)
        found = fence_order(*cuts)
        assert len(found.fences) == found.at_least == fewest(cuts)
        assert found.is_proven
        assert replayed(cuts, found)


def test_a_search_that_is_given_up_still_bounds() -> None:
    luck, unproven = luck_of(7), 0
    for _ in range(800):
        cuts = random_cuts(luck, 10)
        found, least = fence_order(*cuts, most=0), fewest(cuts)
        assert found.at_least <= least <= len(found.fences)
        assert replayed(cuts, found)
        unproven += not found.is_proven
    # Without the search some are left open, or it would prove nothing.
    assert unproven > 5


def test_a_distance_that_comes_back_is_needed_twice() -> None:
    # Cross-cut at 300, rip at 100, cross-cut at 300 again, one after another: no way round.
    assert fence_order((None, 0, 1), (300, 100, 300)) == FenceOrder(
        fences=(300, 100, 300), at_least=3
    )
    # The last one can be made at first if nothing frees it.
    assert fence_order((None, 0, None), (300, 100, 300)).fences == (300, 100)
    # A cut by the rail needs no fence and parts no run.
    assert fence_order((None, 0, 1), (300, None, 300)).fences == (300,)
    assert fence_order((), ()) == FenceOrder(fences=(), at_least=0)


def cuts_of(cuts: tuple[Cut, ...]) -> Cuts:
    """The same forest from the printed list: a cut takes what an earlier one gave or left."""
    freed_by = []
    for number, cut in enumerate(cuts):
        before = [k for k in range(number) if cut.takes in (cuts[k].gives, cuts[k].leaves)]
        freed_by.append(before[-1] if before else None)
    return tuple(freed_by), tuple(None if c.is_trim else round(c.fence * 1000) for c in cuts)


@pytest.mark.parametrize("name", ["greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack"])
def test_examples_set_the_fence_as_seldom_as_can_be(name: str) -> None:
    plan = cut_plan(example_unit(name), rounds=25)
    assert plan.settings == plan.settings_at_least
    small = [board for board in plan.boards if len(board.cuts) <= 14]
    assert small
    for board in small:
        assert settings(board.cuts) == fewest(cuts_of(board.cuts))


@pytest.mark.parametrize("seed", range(12))
def test_small_boards_set_the_fence_as_seldom_as_any_order_of_their_list(seed: int) -> None:
    luck = luck_of(seed)
    sizes = [
        (float(luck.choice((313, 419, 523, 611))), float(luck.choice((97, 211, 287))))
        for _ in range(luck.randint(3, 7))
    ]
    for board in cut_plan(plain_unit(sizes), rounds=25).boards:
        told = [fence for fence, _ in groupby(c.fence for c in board.cuts if not c.is_trim)]
        least = fewest(cuts_of(board.cuts))
        assert len(told) == settings(board.cuts) == least_settings(board.cuts) == least
