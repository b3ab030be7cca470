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

from collections import Counter
from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from cabinet.making.packing.goal import Size

Table = NDArray[np.int64]

# More thresholds than this on one axis are thinned out: the bound stays a bound.
MOST_THRESHOLDS = 80


def sheets_needed(pieces: Sequence[Size], turns: Sequence[bool], sheet: Size) -> int:
    """How many sheets of one size are needed at least.

    Args:
        pieces: Length and width of each on the grid, kerf included.
        turns: Whether each may be turned.
        sheet: Length and width of the sheets, kerf included.
    """
    area = sum(length * width for length, width in pieces)
    least = -(-area // (sheet[0] * sheet[1]))
    first, second = _axes(pieces, turns, sheet)
    across = second.of(sheet[1])
    for capacity, areas in zip(
        first.of(sheet[0]), _areas(pieces, turns, sheet, first, second), strict=True
    ):
        least = max(least, int((-(-areas // (capacity * across))).max()))
    return least


def is_short_of_room(pieces: Sequence[Size], turns: Sequence[bool], sheets: Sequence[Size]) -> bool:
    """Whether the pieces cannot all lie on these sheets, which may differ.

    The functions never map two sizes to more than their sum, so what lies in a row on a smaller
    sheet does not come to more than that sheet's own size is mapped to.

    Args:
        pieces: Length and width of each on the grid, kerf included.
        turns: Whether each may be turned.
        sheets: Length and width of each sheet, kerf included.
    """
    if not all(
        any(
            (p[0] <= s[0] and p[1] <= s[1]) or (t and p[1] <= s[0] and p[0] <= s[1]) for s in sheets
        )
        for p, t in zip(pieces, turns, strict=True)
    ):
        return True
    room = sum(length * width for length, width in sheets)
    if sum(length * width for length, width in pieces) > room:
        return True
    around = max(s[0] for s in sheets), max(s[1] for s in sheets)
    first, second = _axes(pieces, turns, around)
    areas = _areas(pieces, turns, around, first, second)
    lengths = np.array([first.of(length) for length, _ in sheets])
    widths = np.array([second.of(width) for _, width in sheets])
    rooms = lengths.T @ widths
    return any(bool((row > room_row).any()) for row, room_row in zip(areas, rooms, strict=True))


def _axes(pieces: Sequence[Size], turns: Sequence[bool], sheet: Size) -> tuple[_Mapping, _Mapping]:
    """The functions for both axes."""
    lengths, widths = [p[0] for p in pieces], [p[1] for p in pieces]
    sizes = [*lengths, *widths] if any(turns) else None
    return _functions(sheet[0], sizes or lengths), _functions(sheet[1], sizes or widths)


def _areas(
    pieces: Sequence[Size],
    turns: Sequence[bool],
    sheet: Size,
    first: _Mapping,
    second: _Mapping,
) -> Iterator[Table]:
    """Areas of all pieces, for each function of the first axis by those of the second."""
    kinds = Counter(zip(pieces, turns, strict=True))
    lengths = np.array([p[0] for p, _ in kinds], dtype=np.int64)
    widths = np.array([p[1] for p, _ in kinds], dtype=np.int64)
    counts = np.array(list(kinds.values()), dtype=np.int64)
    fits = (lengths <= sheet[0]) & (widths <= sheet[1])
    # Only one way is open to a piece that must not be turned or fits but one way.
    may_turn = np.array([t for _, t in kinds], dtype=bool)
    either = fits & may_turn & (widths <= sheet[0]) & (lengths <= sheet[1])
    upright, lying = second(widths), second(lengths)
    rows = zip(first(lengths) * counts, first(widths) * counts, strict=True)
    for row_upright, row_lying in rows:
        area_upright = row_upright * upright
        area_lying = row_lying * lying
        yield np.where(
            either,
            np.minimum(area_upright, area_lying),
            np.where(fits, area_upright, area_lying),
        ).sum(axis=1)


class _Mapping:
    """All functions for one axis at once: rows are functions, columns sizes."""

    def __init__(self, size: int, thresholds: Sequence[int]) -> None:
        self._size = size
        self._thresholds = np.array(thresholds, dtype=np.int64)[:, None]

    def of(self, size: int) -> Table:
        """What one size becomes in each function."""
        return self(np.array([size], dtype=np.int64))[:, 0]

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


def _functions(size: int, sizes: Sequence[int]) -> _Mapping:
    """The functions for one axis whose thresholds can make a difference."""
    steps = {s for s in sizes if 0 < 2 * s <= size} | {size - s for s in sizes if s < size}
    steps |= {s + 1 for s in sizes} | {size - s + 1 for s in sizes}
    some = sorted(s for s in steps if 0 < 2 * s <= size)
    if len(some) > MOST_THRESHOLDS:
        every = len(some) / MOST_THRESHOLDS
        some = [some[int(k * every)] for k in range(MOST_THRESHOLDS)]
    # Threshold 0 leaves sizes as they are (and 2 * size is the same twice over).
    return _Mapping(size, [0, *some])
