"""One goal of the search: these pieces on these sheets and on no other.

A goal holds the kernel's lists or arrays and hands them over; how many rounds are run at a
time, and whether compiled or not, makes no difference to what is found.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from cabinet.making.packing import kernel, speed
from cabinet.making.packing.kernel import OUT, State, Task

# Found by trial on the classes of Berkey and Wang and of Martello and Vigo: how many branches
# are taken out at a time, on average; the chance in 1/1024 that a place is overlooked; how many
# rounds back a cost is remembered; after how many rounds without gain the pieces that are out
# grow heavier, and by what share of their area.
BRANCHES = 4
BLINK = 10
MEMORY = 30
PATIENCE = 100
GROWTH = 0.1
# After how many rounds it is noted where the pieces lie, and how many notes there may be.
NOTE_EVERY = 4
MOST_NOTES = 2_500

Size = tuple[int, int]


class Goal:
    """The state of a search for a place for every piece.

    Args:
        pieces: Length and width of each piece on the grid, kerf included.
        turns: Whether each may be turned.
        sheets: Length and width of each sheet on the grid, kerf included.
        seed: Start of the random numbers, from 0.
    """

    def __init__(
        self, pieces: Sequence[Size], turns: Sequence[bool], sheets: Sequence[Size], seed: int
    ) -> None:
        n, m = len(pieces), len(sheets)
        self.sheets = list(sheets)
        self.task = Task(
            length=[p[0] for p in pieces],
            width=[p[1] for p in pieces],
            area=[p[0] * p[1] for p in pieces],
            turn=[int(t) for t in turns],
            sheet_length=[s[0] for s in sheets],
            sheet_width=[s[1] for s in sheets],
            sheet_area=[s[0] * s[1] for s in sheets],
        )
        luck = 1 + (seed * 7919 + 7918) % (kernel.MODULUS - 1)
        self.now = _empty(n, m, self.task.area, luck)
        self.trial = _empty(n, m, self.task.area, luck)
        self._scratch: tuple[Any, ...] = (
            [0] * 2 * n,
            [0] * 4,
            [0.0] * n,
            [float(a) for a in self.task.area],
        )
        self._history: Any = [1e300] * MEMORY
        self._clock: Any = [0, 0]
        # One note at least, or numba does not know what they are.
        self._notes: Any = [-1]
        self._every = 0
        self._functions = speed.plain()

    @property
    def is_met(self) -> bool:
        """Whether every piece has a place."""
        return self.number_out == 0

    @property
    def number_out(self) -> int:
        """How many pieces have no place; they come first in ``state().out``."""
        return int(self.now.tally[OUT])

    @property
    def rounds(self) -> int:
        """How many rounds have been run."""
        return int(self._clock[0])

    def compile(self) -> bool:
        """Go on in machine code from here; return whether that can be had."""
        functions = speed.compiled()
        if functions is None:
            return False
        if self._functions is not functions:
            self._functions = functions
            self.task = Task(*_arrays(self.task))
            self.now = State(*_arrays(self.now))
            self.trial = State(*_arrays(self.trial))
            scratch, where, keys, weight = self._scratch
            self._scratch = (
                np.array(scratch, dtype=np.int64),
                np.array(where, dtype=np.int64),
                np.array(keys, dtype=np.float64),
                np.array(weight, dtype=np.float64),
            )
            self._history = np.array(self._history, dtype=np.float64)
            self._clock = np.array(self._clock, dtype=np.int64)
            self._notes = np.array(self._notes, dtype=np.int64)
        return True

    def close(self, sheet: int) -> None:
        """Leave a sheet out until it is opened."""
        self.task.sheet_area[sheet] = 0

    def open(self, sheet: int) -> None:
        """Let a sheet that was closed be used."""
        self.task.sheet_area[sheet] = self.sheets[sheet][0] * self.sheets[sheet][1]

    def resize(self, sheet: int, size: Size) -> None:
        """Change a sheet and start the search for this goal from where the pieces lie."""
        self.sheets[sheet] = size
        self.task.sheet_length[sheet], self.task.sheet_width[sheet] = size
        self.task.sheet_area[sheet] = size[0] * size[1]
        self._functions["cut_back"](self.task, self.now, sheet)
        for k in range(MEMORY):
            self._history[k] = 1e300
        self._clock[0] = self._clock[1] = 0

    def put_back(self, state: State) -> None:
        """Lay the pieces as they lay before."""
        for now, then in zip(self.now, state, strict=True):
            now[:] = then

    def fill(self, rule: int, sort: int) -> bool:
        """Put the pieces that are out where they fit, once; return whether all found a place."""
        scratch, where, keys, weight = self._scratch
        self._functions["recreate"](
            self.task, self.now, rule, sort, 0, 0, where, scratch, keys, weight, 1e300
        )
        return self.is_met

    def advance(self, rounds: int) -> bool:
        """Search for ``rounds`` rounds or until every piece has its place; return whether so."""
        return bool(
            self._functions["search"](
                self.task,
                self.now,
                self.trial,
                *self._scratch,
                self._history,
                self._clock,
                self._notes,
                self._every,
                rounds,
                BRANCHES,
                BLINK,
                PATIENCE,
                GROWTH,
            )
        )

    def take_notes(self, rounds: int) -> None:
        """Note now and then, for so many rounds, on which sheets the pieces lie."""
        self._every = max(NOTE_EVERY, rounds // MOST_NOTES)
        self._notes = [-1] * (rounds // self._every * len(self.task.length))
        if isinstance(self._clock, np.ndarray):
            self._notes = np.array(self._notes, dtype=np.int64)

    @property
    def notes(self) -> NDArray[np.int64]:
        """A row for each note with the sheet of each piece, or -1."""
        return np.array(self._notes, dtype=np.int64).reshape(-1, len(self.task.length))

    def weigh(self, weights: Sequence[float]) -> None:
        """Tell the search what it costs to leave each piece out."""
        for k, weight in enumerate(weights):
            self._scratch[-1][k] = weight

    def is_used(self, sheet: int) -> bool:
        """Whether a piece lies on the sheet."""
        return int(self.now.root[sheet]) >= 0

    def free_area(self, sheet: int) -> int:
        """Area of the sheet that no piece has."""
        return self.sheets[sheet][0] * self.sheets[sheet][1] - int(self.now.used[sheet])

    def state(self) -> State:
        """A copy of the trees, as lists."""
        return State(*([int(v) for v in x] for x in self.now))


def _arrays(lists: Iterable[Any]) -> Iterator[Any]:
    return (np.array(each, dtype=np.int64) for each in lists)


def _empty(n: int, m: int, area: Sequence[int], luck: int) -> State:
    nodes = 2 * n
    return State(
        parent=[-1] * nodes,
        first=[-1] * nodes,
        following=[-1] * nodes,
        axis=[-1] * nodes,
        length=[0] * nodes,
        width=[0] * nodes,
        gap_length=[0] * nodes,
        gap_width=[0] * nodes,
        room_length=[0] * nodes,
        room_width=[0] * nodes,
        sheet=[-1] * nodes,
        root=[-1] * m,
        used=[0] * m,
        spare=[*range(n, nodes), *([0] * n)],
        out=[*range(n), *([0] * n)],
        tally=[n, n, sum(area), luck],
    )
