"""The cheapest order of a few things, some of which must come before others, with its proof.

Small numbers are settled exactly by dynamic programming over subsets (Held and Karp, J. SIAM
10(1), 1962); larger ones by the nearest next one, with the least spanning tree as the bound.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from itertools import pairwise

from cabinet.errors import DesignError

# Up to this many things every order is considered.
MOST_EXACT = 11

Cost = Callable[[int, int], int]
Pairs = Collection[tuple[int, int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """An order of things.

    Attributes:
        order: Their numbers.
        cost: What the order costs.
        bound: No order costs less.
    """

    order: tuple[int, ...]
    cost: int
    bound: int


def shortest_path(count: int, cost: Cost, before: Pairs = ()) -> Path:
    """The cheapest order of ``count`` things that respects who must come before whom.

    Args:
        count: How many things.
        cost: What it costs to go from one to another; the same both ways.
        before: Pairs of which the first must come before the second.

    Raises:
        DesignError: pairs that go round in a circle.
    """
    if count <= 1:
        return Path(order=tuple(range(count)), cost=0, bound=0)
    order = _nearest_next(count, cost, before)
    total = sum(cost(a, b) for a, b in pairwise(order))
    bound = _spanning_tree(count, cost)
    if total > bound and count <= MOST_EXACT:
        order, total = _exact(count, cost, before)
        bound = total
    return Path(order=tuple(order), cost=total, bound=bound)


def _nearest_next(count: int, cost: Cost, before: Pairs) -> list[int]:
    """From every beginning always the nearest next one that may come; the best of these."""
    best: tuple[int, list[int]] | None = None
    for first in range(count):
        order: list[int] = []
        left = set(range(count))
        total = 0
        while left:
            free = [i for i in left if not any(b == i and a in left for a, b in before)]
            if not order:
                if first not in free:
                    break
                nearest = first
            else:
                nearest = min(free, key=lambda i: (cost(order[-1], i), i))
                total += cost(order[-1], nearest)
            order.append(nearest)
            left.discard(nearest)
        if not left and (best is None or total < best[0]):
            best = total, order
    if best is None:
        raise DesignError(
            f"order: each of {count} things would have to come before another; at least one must "
            "be free to come first",
            part="order",
            value=tuple(sorted(before)),
            limit="no circle",
        )
    return best[1]


def _spanning_tree(count: int, cost: Cost) -> int:
    """Cost of the least spanning tree, which no path over all things can go below."""
    reach = {i: cost(0, i) for i in range(1, count)}
    total = 0
    while reach:
        nearest = min(reach, key=lambda i: (reach[i], i))
        total += reach.pop(nearest)
        reach = {i: min(known, cost(nearest, i)) for i, known in reach.items()}
    return total


def _exact(count: int, cost: Cost, before: Pairs) -> tuple[list[int], int]:
    costs = [[cost(a, b) for b in range(count)] for a in range(count)]
    needs = [sum(1 << a for a, b in before if b == i) for i in range(count)]
    best: dict[tuple[int, int], tuple[int, int]] = {
        (1 << i, i): (0, -1) for i in range(count) if not needs[i]
    }
    layer = sorted(best)
    for _ in range(count - 1):
        following: dict[tuple[int, int], tuple[int, int]] = {}
        for chosen, last in layer:
            so_far = best[chosen, last][0]
            for i in range(count):
                if chosen >> i & 1 or needs[i] & ~chosen:
                    continue
                key = chosen | 1 << i, i
                total = so_far + costs[last][i]
                if key not in following or total < following[key][0]:
                    following[key] = (total, last)
        best |= following
        layer = sorted(following)
    everything = (1 << count) - 1
    key = min((k for k in layer if k[0] == everything), key=lambda k: (best[k][0], k[1]))
    total = best[key][0]
    order: list[int] = []
    chosen, last = key
    while last >= 0:
        order.append(last)
        previous = best[chosen, last][1]
        chosen, last = chosen & ~(1 << last), previous
    return order[::-1], total
