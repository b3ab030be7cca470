"""Proof for small jobs that a number of sheets is too few: every way of sharing out is tried.

Sheets are filled one after another. The largest piece that is left lies on some sheet; all
largest sets of pieces that fit on one sheet together with it are tried in turn (a smaller set
is never better, since any further piece could be moved to it). Whether a set fits is decided
exactly: the sizes of all its guillotine arrangements follow from those of its two halves, for
all ways of halving it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from cabinet.making.packing.goal import Size

# More pieces than this are not tried at all.
MOST_PIECES = 30
# A set of more pieces than this has too many arrangements to look through.
MOST_TOGETHER = 8
# How many arrangements and how many sets are looked at before it is given up.
MOST_WORK = 400_000


class _GivenUp(Exception):  # noqa: N818 - not an error: an answer
    """Too much work."""


def fit_together(
    pieces: Sequence[Size],
    turns: Sequence[bool],
    sheet: Size,
    number: int,
    over: Callable[[], bool],
) -> bool | None:
    """Whether all pieces fit on ``number`` equal sheets by guillotine cuts, or None: not known.

    Args:
        pieces: Length and width of each on the grid, kerf included.
        turns: Whether each may be turned.
        sheet: Length and width of the sheets, kerf included.
        number: How many sheets there are.
        over: Asked now and then; True gives up.
    """
    order = sorted(range(len(pieces)), key=lambda k: (-pieces[k][0] * pieces[k][1], pieces[k], k))
    tray = _Tray([pieces[k] for k in order], [turns[k] for k in order], sheet, over)
    try:
        return tray.share_out((1 << len(pieces)) - 1, number)
    except _GivenUp:
        return None


class _Tray:
    """The pieces, largest first, as bits of a set, and what is known of their sets."""

    def __init__(
        self,
        pieces: Sequence[Size],
        turns: Sequence[bool],
        sheet: Size,
        over: Callable[[], bool],
    ) -> None:
        self._pieces = pieces
        self._turns = turns
        self._sheet = sheet
        self._over = over
        self._area = [length * width for length, width in pieces]
        self._sizes: dict[int, tuple[Size, ...]] = {}
        self._failed: set[tuple[int, int]] = set()
        self._work = 0

    def _toil(self, amount: int) -> None:
        self._work += amount
        if self._work > MOST_WORK or self._over():
            raise _GivenUp

    def _members(self, group: int) -> list[int]:
        return [k for k in range(len(self._pieces)) if group >> k & 1]

    def area(self, group: int) -> int:
        """Area of a set."""
        return sum(self._area[k] for k in self._members(group))

    def share_out(self, group: int, number: int) -> bool:
        """Whether a set fits on a number of sheets."""
        if not group:
            return True
        room = number * self._sheet[0] * self._sheet[1]
        if self.area(group) > room or (group, number) in self._failed:
            return False
        self._toil(1)
        first = group & -group
        for filled in self._largest_sets(first, group & ~first):
            if self.share_out(group & ~filled, number - 1):
                return True
        self._failed.add((group, number))
        return False

    def _largest_sets(self, chosen: int, others: int) -> Iterator[int]:
        """All sets with ``chosen`` in them that fit on a sheet and to which nothing can be added."""
        yield from self._grow(chosen, self._members(others), 0)

    def _grow(self, chosen: int, others: list[int], left_out: int) -> Iterator[int]:
        if not others:
            if not any(self.fits(chosen | 1 << k) for k in self._members(left_out)):
                yield chosen
            return
        k, rest = others[0], others[1:]
        if self.fits(chosen | 1 << k):
            yield from self._grow(chosen | 1 << k, rest, left_out)
        # Of equal pieces the first are taken first, so leaving one out leaves the others out.
        same = [j for j in rest if self._is_like(j, k)]
        skipped = left_out | 1 << k
        for j in same:
            skipped |= 1 << j
        yield from self._grow(chosen, [j for j in rest if j not in same], skipped)

    def _is_like(self, j: int, k: int) -> bool:
        return self._pieces[j] == self._pieces[k] and self._turns[j] == self._turns[k]

    def fits(self, group: int) -> bool:
        """Whether a set fits on one sheet."""
        if self.area(group) > self._sheet[0] * self._sheet[1]:
            return False
        return bool(self._arrangements(group))

    def _arrangements(self, group: int) -> tuple[Size, ...]:
        """Sizes of a set's guillotine arrangements that fit and of which none holds another."""
        known = self._sizes.get(group)
        if known is not None:
            return known
        low = group & -group
        found: set[Size] = set()
        if group == low:
            k = low.bit_length() - 1
            length, width = self._pieces[k]
            found.add((length, width))
            if self._turns[k]:
                found.add((width, length))
        else:
            if group.bit_count() > MOST_TOGETHER:
                raise _GivenUp
            others = group & ~low
            half = others
            while half:
                # One half has the lowest bit, so each way of halving comes up once.
                half_sizes = self._arrangements(half)
                if half_sizes:
                    beside = self._arrangements(group & ~half)
                    self._toil(len(half_sizes) * len(beside) + 1)
                    for a, b in half_sizes:
                        for c, d in beside:
                            found.add((a + c, max(b, d)))
                            found.add((max(a, c), b + d))
                half = (half - 1) & others
        made = _least(size for size in found if self._is_inside(size))
        self._sizes[group] = made
        return made

    def _is_inside(self, size: Size) -> bool:
        return size[0] <= self._sheet[0] and size[1] <= self._sheet[1]


def _least(sizes: Iterator[Size]) -> tuple[Size, ...]:
    """Those sizes of which none is as long and as wide as another."""
    kept: list[Size] = []
    for size in sorted(sizes):
        if not kept or size[1] < kept[-1][1]:
            kept.append(size)
    return tuple(kept)
