"""Taking things apart by straight moves: what is in whose way, and in which order all come off.

A thing can be drawn off along one of the six sides of the unit if nothing that stays lies before
any of its bricks. If no single thing can, a group can whose members stand in each other's way
only (the strongly connected sets of that direction's graph of who blocks whom). What is left when
neither can is locked. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from cabinet.checks.bricks import Bricks
from cabinet.frame import Side

SIDES = tuple(Side)
# Nobody likes to push a glued board along its groove further than this, mm (common practice).
LONG_SLIDE = 100.0
# Bricks that reach into each other by less than this only touch, mm.
TOUCH = 1e-3

Ways = tuple[Side, ...]
Key = Callable[[int], tuple[float, ...]]


@dataclass(frozen=True, slots=True)
class Removal:
    """Some things drawn off together.

    Attributes:
        things: Their indices.
        side: Way they go.
        travel: How far until they are clear of all that stays, mm.
    """

    things: tuple[int, ...]
    side: Side
    travel: float


@dataclass(frozen=True, slots=True)
class TakeDown:
    """How things come apart.

    Attributes:
        removals: In the order in which they come off.
        kept: Indices of what stays to the end: the one from which the work begins.
        locked: Indices of what does not come apart.
    """

    removals: tuple[Removal, ...]
    kept: tuple[int, ...]
    locked: tuple[int, ...] = ()


def _lapping(one: Bricks, other: Bricks) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """For each axis and pair of bricks whether they lap, and whether a pair shares volume."""
    low = np.maximum(one.boxes[:, None, 0], other.boxes[None, :, 0])
    high = np.minimum(one.boxes[:, None, 1], other.boxes[None, :, 1])
    laps = high - low > TOUCH
    return laps, np.asarray(laps.all(axis=2))


def in_the_way(one: Bricks, other: Bricks) -> frozenset[Side]:
    """The sides to which one cannot be drawn off because of the other.

    Bricks that share volume as they lie are left out: that is a clash, and has its own rule.
    What reaches into a round cut of the other is taken to be held on all sides.
    """
    if one.doubts.intersection(other.names) or other.doubts.intersection(one.names):
        return frozenset(SIDES)
    if not len(one.boxes) or not len(other.boxes):
        return frozenset()
    laps, clash = _lapping(one, other)
    found = set()
    for axis in range(3):
        a, b = (x for x in range(3) if x != axis)
        before = laps[:, :, a] & laps[:, :, b] & ~clash
        if not before.any():
            continue
        ahead = other.boxes[None, :, 1, axis] - one.boxes[:, None, 0, axis] > TOUCH
        behind = one.boxes[:, None, 1, axis] - other.boxes[None, :, 0, axis] > TOUCH
        for side in SIDES:
            if side.axis == axis and (before & (ahead if side.sign > 0 else behind)).any():
                found.add(side)
    return frozenset(found)


@dataclass(slots=True)
class _Graph:
    """Who is in whose way: for each side, and each thing, the things that stop it."""

    stops: list[dict[Side, set[int]]]

    def is_free(self, thing: int, side: Side) -> bool:
        return not self.stops[thing][side]

    def remove(self, gone: Sequence[int]) -> None:
        for stops in self.stops:
            for blockers in stops.values():
                blockers.difference_update(gone)


@dataclass(frozen=True, slots=True)
class _Choice:
    """One thing that could be drawn off one way, and what speaks for it: less is better."""

    thing: int
    side: Side
    order: tuple[float, ...]


Between = Callable[[int, int], frozenset[Side]]


@dataclass(slots=True)
class Puzzle:
    """Things to be taken apart.

    Attributes:
        things: The things.
        ways: Sides in the order in which they are tried.
        key: Which of several that can go the same way goes first.
        fixed: Indices of what must stay.
        between: What stops one because of another; None for ``in_the_way`` of their bricks.
        tied: Pairs of things that are joined, so that nothing is left hanging in the air if it
            can be helped.
    """

    things: Sequence[Bricks]
    ways: Ways
    key: Key
    fixed: frozenset[int] = frozenset()
    between: Between | None = None
    tied: frozenset[tuple[int, int]] = frozenset()
    _low: NDArray[np.float64] = field(init=False)
    _high: NDArray[np.float64] = field(init=False)
    _far: NDArray[np.float64] = field(init=False)
    _graph: _Graph = field(init=False)

    def __post_init__(self) -> None:
        count = len(self.things)
        self._low = np.array([thing.low for thing in self.things])
        self._high = np.array([thing.high for thing in self.things])
        stops: list[dict[Side, set[int]]] = [{s: set() for s in SIDES} for _ in range(count)]
        for i, j in self._near():
            for one, other in ((i, j), (j, i)):
                for side in self._stopped(one, other):
                    stops[one][side].add(other)
        self._graph = _Graph(stops)
        self._far = self._travels()

    def _near(self) -> list[tuple[int, int]]:
        """Pairs whose boxes lap on at least two axes; no others can be in each other's way."""
        laps = self._laps()
        near = (laps > TOUCH).sum(axis=2) >= 2
        ones, others = np.nonzero(np.triu(near, 1))
        return list(zip(ones.tolist(), others.tolist(), strict=True))

    def _laps(self) -> NDArray[np.float64]:
        low, high = self._low, self._high
        return np.asarray(
            np.minimum(high[:, None], high[None]) - np.maximum(low[:, None], low[None])
        )

    def _travels(self) -> NDArray[np.float64]:
        """For each side and pair how far one goes until its box is past the other's, mm."""
        laps = self._laps() > TOUCH
        found = np.zeros((len(SIDES), len(self.things), len(self.things)))
        for index, side in enumerate(SIDES):
            one, other = (axis for axis in range(3) if axis != side.axis)
            before = laps[:, :, one] & laps[:, :, other]
            low, high = self._low[:, side.axis], self._high[:, side.axis]
            way = high[None] - low[:, None] if side.sign > 0 else high[:, None] - low[None]
            found[index] = np.where(before, np.maximum(way, 0.0), 0.0)
            np.fill_diagonal(found[index], 0.0)
        return found

    def _stopped(self, one: int, other: int) -> frozenset[Side]:
        if self.between is not None:
            return self.between(one, other)
        return in_the_way(self.things[one], self.things[other])

    def solve(self) -> TakeDown:
        """Draw off one thing after the other, or a group where no single one goes."""
        left = set(range(len(self.things)))
        removals: list[Removal] = []
        while len(left) > 1 and left - self.fixed:
            found = self._single(left) or self._group(left)
            if found is None:
                return TakeDown(tuple(removals), (), tuple(sorted(left - self.fixed)))
            gone, side = found
            removals.append(Removal(gone, side, self._group_travel(gone, side, left)))
            left.difference_update(gone)
            self._graph.remove(gone)
        return TakeDown(tuple(removals), tuple(sorted(left)))

    def _single(self, left: set[int]) -> tuple[tuple[int, ...], Side] | None:
        """The thing that goes first, each by its shortest way."""
        choices = []
        far_of = self._far[:, :, sorted(left)].max(axis=2)
        for thing in left - self.fixed:
            free = [
                (round(float(far_of[SIDES.index(side), thing]), 6), rank)
                for rank, side in enumerate(self.ways)
                if self._graph.is_free(thing, side)
            ]
            if free:
                far, rank = min(free)
                side = self.ways[rank]
                is_long = float(far > LONG_SLIDE)
                face = self._high if side.sign > 0 else self._low
                outer = -side.sign * round(float(face[thing, side.axis]), 3)
                choices.append(_Choice(thing, side, (*self.key(thing), is_long, rank, outer)))
        choices.sort(key=lambda choice: (choice.order, choice.thing))
        best = next((c for c in choices if self._holds(left - {c.thing})), None)
        if best is None and choices:
            best = choices[0]
        return None if best is None else ((best.thing,), best.side)

    def _holds(self, left: set[int]) -> bool:
        """Whether what is left hangs together."""
        if not self.tied:
            return True
        reached = {min(left)}
        waiting = list(reached)
        beside: dict[int, list[int]] = {}
        for one, other in self.tied:
            if one in left and other in left:
                beside.setdefault(one, []).append(other)
                beside.setdefault(other, []).append(one)
        while waiting:
            for other in beside.get(waiting.pop(), ()):
                if other not in reached:
                    reached.add(other)
                    waiting.append(other)
        return len(reached) == len(left)

    def _group(self, left: set[int]) -> tuple[tuple[int, ...], Side] | None:
        """The smallest set that can go one way together while something stays."""
        best: tuple[tuple[int, int, tuple[int, ...]], Side] | None = None
        for rank, side in enumerate(self.ways):
            for thing in sorted(left - self.fixed):
                members = self._dragged(thing, side)
                found = (len(members), rank, tuple(sorted(members)))
                if members < left and not members & self.fixed and (not best or found < best[0]):
                    best = found, side
        return None if best is None else (best[0][2], best[1])

    def _dragged(self, thing: int, side: Side) -> frozenset[int]:
        """A thing and all that it pushes before it; the smallest such set goes as a group.

        It is a strongly connected set of the graph with no way out of it: anything smaller that
        could go would have been found from one of its own members.
        """
        dragged, waiting = {thing}, [thing]
        while waiting:
            more = self._graph.stops[waiting.pop()][side] - dragged
            dragged |= more
            waiting += more
        return frozenset(dragged)

    def _group_travel(self, gone: tuple[int, ...], side: Side, left: set[int]) -> float:
        """How far they go until they stand beside all that stays, mm."""
        stays = sorted(left.difference(gone))
        reach = self._far[SIDES.index(side)][np.ix_(gone, stays)]
        return round(float(reach.max(initial=0.0)), 6)
