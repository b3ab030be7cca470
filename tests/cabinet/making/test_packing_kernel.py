"""The trees of the search, held to a plain reckoning of the same things."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from cabinet.making.packing import kernel
from cabinet.making.packing.goal import Goal
from cabinet.making.packing.kernel import State
from tests.cabinet.making.published_recipes import instance

SIDE = 100


def children(s: State, node: int) -> list[int]:
    """The parts that lie side by side in a joint."""
    found = []
    child = s.first[node]
    while child >= 0:
        found.append(child)
        child = s.following[child]
    return found


def needs(s: State, node: int) -> tuple[int, int]:
    """Length and width of all that is below a node, from its pieces up."""
    if s.axis[node] < 0:
        return s.length[node], s.width[node]
    sizes = [needs(s, child) for child in children(s, node)]
    lengths, widths = [a for a, _ in sizes], [b for _, b in sizes]
    return (sum(lengths), max(widths)) if s.axis[node] == 0 else (max(lengths), sum(widths))


def rooms(s: State, node: int, length: int, width: int) -> Iterator[tuple[int, int, int]]:
    """All nodes from ``node`` down with the sizes they could grow to, all else as it is."""
    yield node, length, width
    own = needs(s, node)
    for child in children(s, node):
        part = needs(s, child)
        if s.axis[node] == 0:
            yield from rooms(s, child, part[0] + length - own[0], width)
        else:
            yield from rooms(s, child, length, part[1] + width - own[1])


def searched(seed: int) -> Goal:
    """A search that has run for a while and not come to its end."""
    made = instance(10, 60, seed)
    goal = Goal(made.sizes, [False] * 60, [(SIDE, SIDE)] * 5, seed)
    assert not goal.advance(200 + seed)
    return goal


@pytest.mark.parametrize("seed", range(4))
def test_needs_and_gaps_are_kept_up(seed: int) -> None:
    """A joint's gap is the most that anything below it could grow by, the joint as it is."""
    s = searched(seed).state()
    joints = 0
    for top in s.root:
        for node, _, _ in rooms(s, top, SIDE, SIDE):
            length, width = needs(s, node)
            assert (s.length[node], s.width[node]) == (length, width)
            growth = [
                (a - needs(s, part)[0], b - needs(s, part)[1])
                for part, a, b in rooms(s, node, length, width)
            ]
            assert s.gap_length[node] == max(a for a, _ in growth)
            assert s.gap_width[node] == max(b for _, b in growth)
            joints += s.axis[node] >= 0
    assert joints > 20


@pytest.mark.parametrize("seed", range(4))
def test_no_place_is_overlooked(seed: int) -> None:
    """A place is found if and only if some node could grow by the piece."""
    goal = searched(seed)
    luck = random.Random(seed)  # noqa: S311 - no secret
    found = []
    for _ in range(200):
        length, width = luck.randint(1, 40), luck.randint(1, 40)
        for b, top in enumerate(goal.now.root):
            best = kernel.place_on(
                goal.task, goal.now, b, length, width, 0, 0, 1e300, [0] * 4, [0] * 120
            )
            there_is = any(
                (needs(goal.now, node)[0] + length <= a and width <= c)
                or (needs(goal.now, node)[1] + width <= c and length <= a)
                for node, a, c in rooms(goal.now, top, SIDE, SIDE)
            )
            assert (best < 1e300) == there_is
            found.append(there_is)
    assert 20 < sum(found) < len(found) - 20


def test_what_is_too_heavy_is_given_up_at_once() -> None:
    """Once more lies outside than may, nothing further is placed, and nothing is lost."""
    goal = Goal([(80, 80)] * 3 + [(10, 10)] * 4, [False] * 7, [(SIDE, SIDE)], 0)
    scratch, where, keys, weight = [0] * 14, [0] * 4, [0.0] * 7, [6400.0] * 3 + [100.0] * 4
    kernel.recreate(goal.task, goal.now, 0, 0, 0, 0, where, scratch, keys, weight, 7000.0)
    out = list(goal.now.out[: goal.number_out])
    assert len(out) == 6
    assert sorted(out + [k for k in range(7) if goal.now.sheet[k] == 0]) == list(range(7))
