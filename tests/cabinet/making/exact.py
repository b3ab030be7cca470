"""Fewest sheets by trying everything: an own, slow way, for a handful of pieces.

From the top down: a set of pieces fits a rectangle if some cut at a sum of their sizes parts both
so that each half fits. Nothing of the project is used.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import combinations

Size = tuple[int, int]


def fewest_sheets(sizes: Sequence[Size], sheet: Size, *, kerf: int, turn: bool) -> int:
    """The least number of sheets, or raise ValueError if a piece fits on none."""

    def ways(k: int) -> list[Size]:
        a, b = sizes[k]
        return [(a, b), (b, a)] if turn else [(a, b)]

    @cache
    def fits(group: frozenset[int], length: int, width: int) -> bool:
        if len(group) == 1:
            return any(a <= length and b <= width for a, b in ways(*group))
        if sum(sizes[k][0] * sizes[k][1] for k in group) > length * width:
            return False
        return any(
            parted(group, halves, length, width)
            for number in range(1, len(group))
            for halves in combinations(sorted(group), number)
        )

    def parted(group: frozenset[int], chosen: tuple[int, ...], length: int, width: int) -> bool:
        one, other = frozenset(chosen), group - frozenset(chosen)
        return any(
            fits(one, at, width) and fits(other, length - at - kerf, width)
            for at in stops(chosen, length)
        ) or any(
            fits(one, length, at) and fits(other, length, width - at - kerf)
            for at in stops(chosen, width)
        )

    def stops(chosen: tuple[int, ...], size: int) -> list[int]:
        reached = {0}
        for k in chosen:
            steps = {side for way in ways(k) for side in way}
            reached |= {at + step + kerf for at in reached for step in steps}
        return sorted({at - kerf for at in reached if 0 < at - kerf < size})

    @cache
    def least(group: frozenset[int]) -> int:
        if not group:
            return 0
        first, rest = min(group), sorted(group)[1:]
        counts = [
            1 + least(group - {first, *others})
            for number in range(len(rest) + 1)
            for others in combinations(rest, number)
            if fits(frozenset({first, *others}), *sheet)
        ]
        return min(counts)

    return least(frozenset(range(len(sizes))))
