"""The cheapest order is the one that trying every order finds, and its bound is honest."""

from __future__ import annotations

from itertools import pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.errors import DesignError
from cabinet.making.shortest_path import MOST_EXACT, shortest_path


@st.composite
def problems(draw: st.DrawFn) -> tuple[list[list[int]], set[tuple[int, int]]]:
    """Costs of up to six things and pairs of which the first comes before the second."""
    count = draw(st.integers(1, 6))
    costs = [[0] * count for _ in range(count)]
    for a in range(count):
        for b in range(a):
            costs[a][b] = costs[b][a] = draw(st.integers(0, 4))
    pairs = [(a, b) for a in range(count) for b in range(a + 1, count)]
    before = draw(st.lists(st.sampled_from(pairs), max_size=4)) if pairs else []
    return costs, set(before)


@settings(max_examples=60)
@given(problems())
def test_no_order_is_cheaper(problem: tuple[list[list[int]], set[tuple[int, int]]]) -> None:
    costs, before = problem
    path = shortest_path(len(costs), lambda a, b: costs[a][b], before)
    allowed = [
        order
        for order in permutations(range(len(costs)))
        if all(order.index(a) < order.index(b) for a, b in before)
    ]
    assert path.order in allowed
    assert path.cost == sum(costs[a][b] for a, b in pairwise(path.order))
    assert path.bound <= path.cost
    assert path.cost == min(sum(costs[a][b] for a, b in pairwise(order)) for order in allowed)


def test_many_things_keep_an_honest_bound() -> None:
    count = MOST_EXACT + 5
    path = shortest_path(count, lambda a, b: 1 + (a * 7 + b * 7) % 3)
    assert sorted(path.order) == list(range(count))
    assert count - 1 <= path.bound <= path.cost


def test_things_that_each_come_first_are_refused() -> None:
    with pytest.raises(DesignError, match="before another"):
        shortest_path(2, lambda _a, _b: 1, {(0, 1), (1, 0)})
