"""Whole plans from sheets of many tries: a choice of them on which every piece is found.

The search comes across thousands of well-filled sheets, of which only some ever lie in one plan.
Choosing a few of them that hold all pieces between them is a set cover (Monaci and Toth, "A
set-covering-based heuristic approach for bin-packing problems", INFORMS J. on Computing 18(1),
2006, from memory). Its relaxation tells which sheets are worth remembering, and whether a choice
is worth looking for at all.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from cabinet.making.packing.kernel import MODULUS, MULTIPLIER

Table = NDArray[np.int64]
Costs = NDArray[np.float64]

# Sheets that are remembered from one choice to the next, the most promising ones.
MOST_KEPT = 5_000
# Sheets among which a choice is made, and steps after which that is given up.
MOST_CHOSEN_AMONG = 4_000
MOST_BRANCHES = 60
# What the solver's numbers may be off by.
TOLERANCE = 1e-6


class Pool:
    """Sets of pieces that were seen together on one sheet; all sheets are of one size.

    Args:
        pieces: How many pieces there are.
        sheets: How many sheets there are.
    """

    def __init__(self, pieces: int, sheets: int) -> None:
        self._number = sheets
        self._held: NDArray[np.bool_] = np.zeros((0, pieces), dtype=bool)
        self._marks: set[int] = set()
        luck = 1
        keys = []
        for _ in range(2 * pieces):
            luck = luck * MULTIPLIER % MODULUS
            keys.append(luck)
        self._keys: Table = np.array(keys[::2], dtype=np.int64) * MODULUS + keys[1::2]

    def add(self, seen: Table) -> None:
        """Remember the sheets of some states.

        Args:
            seen: For each state a row that says on which sheet each piece lies, -1 for none.
        """
        fresh = []
        for sheet in range(self._number):
            held = seen == sheet
            marks = held @ self._keys
            _, first = np.unique(marks, return_index=True)
            for row in first:
                mark = int(marks[row])
                if mark and mark not in self._marks:
                    self._marks.add(mark)
                    fresh.append(held[row])
        if fresh:
            self._held = np.concatenate([self._held, np.array(fresh)])

    def choose(self, seconds: float) -> tuple[tuple[int, ...], ...]:
        """Look for sheets that hold every piece, some of them maybe twice; empty if in vain.

        Args:
            seconds: After how long it is given up, s.
        """
        if seconds <= 0 or not self._held.any(axis=0).all():
            return ()
        # A third of a second of loading that only a search without luck needs.
        from scipy.optimize import linprog  # type: ignore[import-untyped]  # noqa: PLC0415
        from scipy.sparse import csc_array  # type: ignore[import-untyped]  # noqa: PLC0415

        cover = csc_array(self._held.T.astype(float))
        pieces, number = cover.shape
        found = linprog(
            np.ones(number),
            A_ub=-cover,
            b_ub=-np.ones(pieces),
            method="highs",
            options={"time_limit": seconds},
        )
        if found.x is None:
            return ()
        costs: Costs = np.maximum(-found.ineqlin.marginals, 0.0)
        lost: Costs = 1.0 - self._held @ costs
        order = np.argsort(lost, kind="stable")[:MOST_KEPT]
        self._held, lost = self._held[order], lost[order]
        spare = self._number - float(found.fun) + TOLERANCE
        if spare < 0:
            return ()
        # No plan on so many sheets has one that loses more than there is to lose.
        return self._cover(self._held[lost <= spare][:MOST_CHOSEN_AMONG], seconds)

    def _cover(self, held: NDArray[np.bool_], seconds: float) -> tuple[tuple[int, ...], ...]:
        from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415
        from scipy.sparse import csc_array  # noqa: PLC0415

        number = len(held)
        every_piece = LinearConstraint(csc_array(held.T.astype(float)), lb=1)
        in_all = LinearConstraint(np.ones((1, number)), ub=self._number)
        found = milp(
            np.ones(number),
            constraints=[every_piece, in_all],
            integrality=np.ones(number),
            bounds=Bounds(0, 1),
            options={
                "node_limit": MOST_BRANCHES,
                "time_limit": seconds,
                # The first choice that will do is as good as any.
                "mip_rel_gap": 1.0,
            },
        )
        if found.x is None or round(found.fun) > self._number:
            return ()
        return tuple(_members(row) for row in held[found.x > 0.5])


def _members(row: NDArray[np.bool_]) -> tuple[int, ...]:
    return tuple(int(k) for k in np.flatnonzero(row))
