"""The order of a board's cuts that sets the fence least often, with its proof.

A cut can be made once what it takes has been freed by one other cut, so the cuts are a forest,
each with its distance from the fence. While the fence stands, all that can be cut at it is cut:
nothing is lost by that. What is left to choose is the sequence of distances. The best one is
sought by A* (Hart, Nilsson and Raphael, IEEE Trans. SSC 4(2), 1968, from memory); of each distance
at least as many settings are needed as it has separate runs along any one line of cuts: the bound.
"""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

# States that are looked at before the search gives up; boards of a job need a few dozen.
MOST_STATES = 4000

Ready = tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FenceOrder:
    """A sequence of settings.

    Attributes:
        fences: The distances in their order; one may come more than once.
        at_least: No order of the same cuts sets the fence less often.
    """

    fences: tuple[int, ...]
    at_least: int

    @property
    def is_proven(self) -> bool:
        """Whether no order sets the fence less often."""
        return len(self.fences) == self.at_least


def fence_order(
    freed_by: Sequence[int | None], fences: Sequence[int | None], *, most: int = MOST_STATES
) -> FenceOrder:
    """The sequence of distances with the fewest settings.

    Args:
        freed_by: For each cut the cut that frees what it takes, which comes earlier in the
            list; None if it can be made from the beginning.
        fences: For each cut its distance; None for one that needs no fence and is made as soon
            as it can be.
        most: How many states are looked at.
    """
    task = _Task(freed_by, fences)
    first = task.beginning()
    greedy = _nearest_to_done(task, first)
    at_least = task.at_least(first)
    if len(greedy) > at_least:
        found, at_least = _best(task, first, most)
        if found is not None and len(found) < len(greedy):
            greedy = found
        at_least = min(at_least, len(greedy))
    return FenceOrder(fences=greedy, at_least=at_least)


class _Task:
    """The forest of cuts."""

    def __init__(self, freed_by: Sequence[int | None], fences: Sequence[int | None]) -> None:
        self.fences = fences
        self.frees: list[list[int]] = [[] for _ in fences]
        self._roots = []
        for cut, before in enumerate(freed_by):
            if before is None:
                self._roots.append(cut)
            else:
                self.frees[before].append(cut)
        # The most separate runs of each distance along a line of cuts from here on.
        self._runs: list[dict[int, int]] = [{} for _ in fences]
        for cut in reversed(range(len(fences))):
            self._runs[cut] = self._runs_from(cut)

    def _runs_from(self, cut: int) -> dict[int, int]:
        mine = self.fences[cut]
        most: dict[int, int] = {}
        for after in self.frees[cut]:
            for fence, count in self._runs[after].items():
                # A cut that needs no fence parts no run, so what follows it goes on with ours.
                goes_on = fence == mine and fence in self._first_after(after)
                more = count + (1 if fence == mine and not goes_on else 0)
                most[fence] = max(most.get(fence, 0), more)
        if mine is not None:
            most[mine] = max(most.get(mine, 0), 1)
        return most

    def _first_after(self, cut: int) -> set[int]:
        """The distances that come first from a cut on, its own or those behind free cuts."""
        fence = self.fences[cut]
        if fence is not None:
            return {fence}
        return {one for after in self.frees[cut] for one in self._first_after(after)}

    def beginning(self) -> Ready:
        """What can be cut at first."""
        return self._settled(self._roots, None)[0]

    def cut_at(self, ready: Ready, fence: int) -> tuple[Ready, int]:
        """What can be cut when all is cut that this setting allows, and how much that was."""
        return self._settled(ready, fence)

    def _settled(self, ready: Sequence[int], fence: int | None) -> tuple[Ready, int]:
        left, made, open_ = [], 0, list(ready)
        while open_:
            cut = open_.pop()
            if self.fences[cut] is None or self.fences[cut] == fence:
                made += self.fences[cut] is not None
                open_ += self.frees[cut]
            else:
                left.append(cut)
        return tuple(sorted(left)), made

    def at_least(self, ready: Ready) -> int:
        """How many settings are still needed at least, the fence standing elsewhere."""
        most: dict[int, int] = {}
        for cut in ready:
            for fence, count in self._runs[cut].items():
                most[fence] = max(most.get(fence, 0), count)
        return sum(most.values())

    def choices(self, ready: Ready) -> list[int]:
        """The distances at which something can be cut, the largest first."""
        found = {fence for cut in ready if (fence := self.fences[cut]) is not None}
        return sorted(found, reverse=True)


def _nearest_to_done(task: _Task, ready: Ready) -> tuple[int, ...]:
    """A good sequence at once.

    A distance whose cuts can all be made now need never be set again, so it comes first; of
    those that must come back, the one that leaves fewest cuts behind. Then what frees most, and
    the largest.
    """
    left = Counter(fence for fence in task.fences if fence is not None)
    found = []
    while ready:
        made = {fence: task.cut_at(ready, fence) for fence in task.choices(ready)}
        fence = min(made, key=lambda one: (left[one] - made[one][1], -made[one][1], -one))
        ready, count = made[fence]
        left[fence] -= count
        found.append(fence)
    return tuple(found)


def _best(task: _Task, first: Ready, most: int) -> tuple[tuple[int, ...] | None, int]:
    """The shortest sequence if it is found in so many states, and a bound for it."""
    came_from: dict[Ready, tuple[Ready, int] | None] = {first: None}
    settings = {first: 0}
    waiting = [(task.at_least(first), 0, 0, first)]
    number = 0
    done: set[Ready] = set()
    while waiting:
        least, _, _, ready = heapq.heappop(waiting)
        if ready in done:
            continue
        if not ready:
            return _path(came_from, ready), least
        done.add(ready)
        if len(done) > most:
            return None, least
        for fence in task.choices(ready):
            after, _ = task.cut_at(ready, fence)
            count = settings[ready] + 1
            if count < settings.get(after, count + 1):
                settings[after] = count
                came_from[after] = ready, fence
                number += 1
                # Of equals the one that is further on, so that an end is reached sooner.
                heapq.heappush(waiting, (count + task.at_least(after), -count, number, after))
    raise AssertionError("every cut can be made")


def _path(came_from: dict[Ready, tuple[Ready, int] | None], end: Ready) -> tuple[int, ...]:
    found = []
    step = came_from[end]
    while step is not None:
        end, fence = step
        found.append(fence)
        step = came_from[end]
    return tuple(found[::-1])
