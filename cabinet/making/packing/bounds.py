"""How many sheets are needed at least, by area in several measures.

A dual feasible function maps sizes so that whatever fits in a row on a sheet still fits after
it. Mapping lengths by one and widths by another gives pieces new areas; these still fit on
sheets of one unit each, so their sum, rounded up, is a bound (Fekete and Schepers, "New classes
of fast lower bounds for bin packing problems", Mathematical Programming 91, 2001). The
functions are f0 and f2 of Carlier, Clautiaux and Moukrim ("New reduction procedures and lower
bounds for the two-dimensional bin packing problem with fixed orientation", Computers &
Operations Research 34, 2007), cited from memory; they contain Martello and Vigo's bounds
(Management Science 44, 1998). All sums are whole numbers, so rounding up is safe.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from cabinet.making.packing.goal import Size

Table = NDArray[np.int64]

# More thresholds than this on one axis are thinned out: the bound stays a bound.
MOST_THRESHOLDS = 80


def sheets_needed(
    pieces: Sequence[Size], turns: Sequence[bool], sheet: Size, *, spared: int = 0
) -> int:
    """How many sheets of one size are needed at least.

    Args:
        pieces: Length and width of each on the grid, kerf included.
        turns: Whether each may be turned.
        sheet: Length and width of the sheets, kerf included.
        spared: Area that leftovers take at most; if not 0, only areas are compared.
    """
    area = sum(length * width for length, width in pieces) - spared
    least = max(0, -(-area // (sheet[0] * sheet[1])))
    if spared or not pieces:
        return least
    lengths = np.array([p[0] for p in pieces], dtype=np.int64)
    widths = np.array([p[1] for p in pieces], dtype=np.int64)
    fits = (lengths <= sheet[0]) & (widths <= sheet[1])
    # Only one way is open to a piece that must not be turned or fits but one way.
    turned_fits = (widths <= sheet[0]) & (lengths <= sheet[1]) & np.array(turns, dtype=bool)
    sizes = [*lengths.tolist(), *widths.tolist()] if any(turns) else None
    first = _functions(sheet[0], sizes or lengths.tolist())
    second = _functions(sheet[1], sizes or widths.tolist())
    upright = second[1](widths)
    lying = second[1](lengths)
    for capacity, row_upright, row_lying in zip(
        first[0], first[1](lengths), first[1](widths), strict=True
    ):
        area_upright = row_upright * upright
        area_lying = row_lying * lying
        least_area = np.where(
            fits & turned_fits,
            np.minimum(area_upright, area_lying),
            np.where(fits, area_upright, area_lying),
        ).sum(axis=1)
        unit = capacity * second[0]
        least = max(least, int((-(-least_area // unit)).max()))
    return least


class _Mapping:
    """All functions for one axis at once: rows are functions, columns sizes."""

    def __init__(self, size: int, thresholds: Sequence[int]) -> None:
        self._size = size
        self._thresholds = np.array(thresholds, dtype=np.int64)[:, None]

    @property
    def capacities(self) -> Table:
        """What the sheet's own size becomes in each function."""
        ks = self._thresholds[:, 0]
        return np.concatenate([np.full(len(ks), self._size), 2 * (self._size // np.maximum(ks, 1))])

    def __call__(self, sizes: Table) -> Table:
        """Map sizes by every function; sizes beyond the sheet's are clipped, and not used."""
        x = np.minimum(sizes, self._size)[None, :]
        k, c = self._thresholds, self._size
        # f0: what is nearly as long as the sheet counts as all of it, what is short as nothing.
        zero = np.where(x > c - k, c, np.where(x < k, 0, x))
        # f2: how many steps of k, the long ones by what they leave over.
        step = np.maximum(k, 1)
        whole = c // step
        two = np.where(
            2 * x > c,
            2 * (whole - (c - x) // step),
            np.where(2 * x == c, whole, 2 * (x // step)),
        )
        return np.concatenate([zero, two])


def _functions(size: int, sizes: Sequence[int]) -> tuple[Table, _Mapping]:
    """The functions for one axis whose thresholds can make a difference."""
    steps = {s for s in sizes if 0 < 2 * s <= size} | {size - s for s in sizes if s < size}
    steps |= {s + 1 for s in sizes} | {size - s + 1 for s in sizes}
    some = sorted(s for s in steps if 0 < 2 * s <= size)
    if len(some) > MOST_THRESHOLDS:
        every = len(some) / MOST_THRESHOLDS
        some = [some[int(k * every)] for k in range(MOST_THRESHOLDS)]
    # Threshold 0 leaves sizes as they are (and 2 * size is the same twice over).
    mapping = _Mapping(size, [0, *some])
    return mapping.capacities, mapping
