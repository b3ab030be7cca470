"""The widest strip that can be taken off one sheet while every piece keeps a place.

What a sheet must have left is searched from both ends: a size that the pieces were laid on is
enough, one that is short of room is not, and in between the search is given so many rounds.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from cabinet.making.packing.bounds import is_short_of_room
from cabinet.making.packing.goal import Goal, Size

# The search ends where a larger rest would be larger by less than this share of the sheet.
FINEST = 0.005
# A size that is not enough is looked for to this share of the sheet's.
BOUND_STEP = 0.001


class Stops:
    """Sums of sizes along one axis: no row of pieces ends anywhere else."""

    def __init__(self, sizes: Sequence[Sequence[int]], most: int) -> None:
        within = (1 << most + 1) - 1
        reached = 1
        for ways in sizes:
            before = reached
            for size in set(ways):
                reached |= before << size & within
        self._reached = reached

    def at_or_below(self, size: int) -> int:
        """The largest sum that is not above a size."""
        return (self._reached & (1 << size + 1) - 1).bit_length() - 1

    def above(self, size: int) -> int:
        """The smallest sum above a size, or the size itself if there is none."""
        beyond = self._reached >> size + 1
        return size + (beyond & -beyond).bit_length()


class StripSearch:
    """What one of the sheets must have left, along either axis.

    Args:
        pieces: Length and width of each on the grid, kerf included.
        turns: Whether each may be turned.
        sheets: Length and width of each sheet, kerf included.
        place: Which of them is shortened.
        kerf: The kerf on the grid.
        rounds: How long each attempt may take.
        seed: Start of the random numbers.
    """

    def __init__(
        self,
        pieces: Sequence[Size],
        turns: Sequence[bool],
        sheets: Sequence[Size],
        place: int,
        kerf: int,
        rounds: int,
        seed: int,
    ) -> None:
        self._pieces, self._turns, self._place, self._kerf = pieces, turns, place, kerf
        self._rounds = rounds
        self._sheets = list(sheets)
        self._size = sheets[place]
        self._stops = [
            Stops(
                [
                    piece if turn else (piece[axis],)
                    for piece, turn in zip(pieces, turns, strict=True)
                ],
                self._size[axis],
            )
            for axis in (0, 1)
        ]
        # The least that is not known to be too little.
        self._least = [self._not_refuted(0), self._not_refuted(1)]
        self._is_new = [True, True]
        self.goal = Goal(pieces, turns, sheets, seed)

    def rest(self, axis: int, need: int) -> int:
        """Area of the rest if the sheet is cut off after ``need``."""
        beyond = self._size[axis] - need - self._kerf
        return max(0, beyond) * (self._size[1 - axis] - self._kerf)

    def _shortened(self, axis: int, need: int) -> Size:
        return (need, self._size[1]) if axis == 0 else (self._size[0], need)

    def _not_refuted(self, axis: int) -> int:
        """About the least size along an axis that is not short of room."""
        low, high = -1, self._size[axis]
        step = max(1, int(high * BOUND_STEP))
        while high - low > step:
            middle = self._stops[axis].at_or_below((low + high) // 2)
            if middle <= low or self._is_refuted(axis, middle):
                low = (low + high) // 2
            else:
                high = middle
        return high

    def _is_refuted(self, axis: int, need: int) -> bool:
        if need == 0 and len(self._sheets) == 1:
            return True
        sheets = list(self._sheets)
        across = self._stops[1 - axis].at_or_below(self._size[1 - axis])
        sheets[self._place] = (need, across) if axis == 0 else (across, need)
        if need == 0:
            del sheets[self._place]
        return is_short_of_room(self._pieces, self._turns, sheets)

    def next(self, now: int) -> tuple[int, int] | None:
        """Which axis and size should be tried next, or None if no rest is worth it.

        Args:
            now: Area of the largest rest so far.
        """
        gains = [self.rest(axis, self._least[axis]) - now for axis in (0, 1)]
        axis = 0 if gains[0] >= gains[1] else 1
        if gains[axis] <= 0:
            return None
        if self._is_new[axis]:
            return axis, self._least[axis]
        if gains[axis] < FINEST * self._size[0] * self._size[1]:
            return None
        beyond = -(-(now + gains[axis] // 2) // (self._size[1 - axis] - self._kerf))
        half_way = self._size[axis] - self._kerf - beyond
        need = self._stops[axis].at_or_below(half_way)
        if need < self._least[axis]:
            self._least[axis] = self._stops[axis].above(half_way)
            return self.next(now)
        return axis, need

    def attempt(self, axis: int, need: int, advance: Callable[[Goal, int], bool]) -> bool:
        """Search for a place for every piece with the sheet cut off after ``need``.

        The search starts from where the pieces lie, and goes back there if it fails.

        Args:
            axis: Along which axis.
            need: What is left of the sheet.
            advance: Searches for so many rounds; returns whether every piece has its place.
        """
        before = self.goal.state()
        # What nothing speaks against is mostly found soon, or not at all.
        rounds = self._rounds // 6 if self._is_new[axis] else self._rounds
        self._is_new[axis] = False
        self.goal.resize(self._place, self._shortened(axis, need))
        if advance(self.goal, rounds):
            return True
        self.goal.put_back(before)
        self._least[axis] = self._stops[axis].above(need)
        return False
