"""How much area can be cut from one sheet at most, of kinds of pieces without number.

Exact, by dynamic programming over the lengths and widths that sums of pieces can have: a sheet
is best cut where such a sum ends (Beasley, "Algorithms for unconstrained two-dimensional
guillotine cutting", J. Oper. Res. Soc. 36(4), 1985).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cabinet.making.guillotine import Axis, Node, from_grid
from cabinet.making.packing.goal import Size

Table = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fullest:
    """The fullest sheet.

    Attributes:
        area: Area of all pieces on it, in squares of the grid, kerf not included.
        root: Its cuts; a piece has the name of its kind.
    """

    area: int
    root: Node


def fullest_sheet(
    names: Sequence[str], kinds: Sequence[Size], turns: Sequence[bool], sheet: Size, kerf: int
) -> Fullest:
    """Cut one sheet so that the area of pieces on it is largest.

    Args:
        names: Name of each kind of piece.
        kinds: Length and width of each on the grid, kerf included.
        turns: Whether each may be turned.
        sheet: Length and width of the sheet on the grid, kerf included.
        kerf: The kerf on the grid.
    """
    ways = [(size, k) for k, size in enumerate(kinds)]
    ways += [((size[1], size[0]), k) for k, size in enumerate(kinds) if turns[k]]
    ways = [(size, k) for size, k in ways if size[0] <= sheet[0] and size[1] <= sheet[1]]
    grid = _Grid(
        lengths=_sums([size[0] for size, _ in ways], sheet[0]),
        widths=_sums([size[1] for size, _ in ways], sheet[1]),
        ways=ways,
        names=names,
        kerf=kerf,
    )
    grid.fill()
    return Fullest(area=int(grid.best[-1, -1]), root=grid.node(*sheet))


def _sums(sizes: Sequence[int], size: int) -> Table:
    """The sums of sizes up to ``size`` that can matter, 0 included.

    Of all sums those are kept that are the largest beside some other (raster points: Scheithauer
    and Terno, "The G4-heuristic for the pallet loading problem", J. Oper. Res. Soc. 47(4),
    1996, from memory): a part may always grow until it meets what lies beside it.
    """
    reached = np.zeros(size + 1, dtype=bool)
    reached[0] = True
    for step in sorted(set(sizes)):
        for start in range(step, size + 1, step):
            end = min(start + step, size + 1)
            reached[start:end] |= reached[start - step : end - step]
    sums = np.flatnonzero(reached).astype(np.int64)
    beside = np.searchsorted(sums, size - sums, side="right") - 1
    return np.unique(sums[beside])


class _Grid:
    """Best areas for all sizes that matter."""

    def __init__(
        self,
        *,
        lengths: Table,
        widths: Table,
        ways: Sequence[tuple[Size, int]],
        names: Sequence[str],
        kerf: int,
    ) -> None:
        self._lengths, self._widths = lengths, widths
        self._ways, self._names, self._kerf = ways, names, kerf
        self.best: Table = np.zeros((len(lengths), len(widths)), dtype=np.int64)

    def fill(self) -> None:
        """Work out the best areas, smaller sheets first."""
        for (length, width), _ in self._ways:
            i = int(np.searchsorted(self._lengths, length))
            j = int(np.searchsorted(self._widths, width))
            area = (length - self._kerf) * (width - self._kerf)
            np.maximum(self.best[i:, j:], area, out=self.best[i:, j:])
        for i, length in enumerate(self._lengths):
            row = self.best[i]
            firsts, seconds = _halves(self._lengths, int(length))
            if len(firsts):
                np.maximum(row, (self.best[firsts] + self.best[seconds]).max(axis=0), out=row)
            for j, width in enumerate(self._widths):
                firsts, seconds = _halves(self._widths, int(width))
                if len(firsts):
                    row[j] = max(row[j], int((row[firsts] + row[seconds]).max()))

    def node(self, length: int, width: int) -> Node:
        """The cuts that reach the best area."""
        i = int(np.searchsorted(self._lengths, length, side="right")) - 1
        j = int(np.searchsorted(self._widths, width, side="right")) - 1
        area = int(self.best[i, j])
        size = self._size(length, width)
        if area == 0:
            return Node(length=size[0], width=size[1])
        for (own_length, own_width), k in self._ways:
            if (
                own_length <= length
                and own_width <= width
                and (own_length - self._kerf) * (own_width - self._kerf) == area
            ):
                return self._piece(k, own_length, own_width, length, width)
        firsts, seconds = _halves(self._lengths, int(self._lengths[i]))
        for first, second in zip(firsts, seconds, strict=True):
            if self.best[first, j] + self.best[second, j] == area:
                at = int(self._lengths[first])
                parts = (self.node(at, width), self.node(length - at, width))
                return Node(length=size[0], width=size[1], axis=Axis.LENGTH, parts=parts)
        firsts, seconds = _halves(self._widths, int(self._widths[j]))
        for first, second in zip(firsts, seconds, strict=True):
            if self.best[i, first] + self.best[i, second] == area:
                at = int(self._widths[first])
                parts = (self.node(length, at), self.node(length, width - at))
                return Node(length=size[0], width=size[1], axis=Axis.WIDTH, parts=parts)
        raise AssertionError("a best area comes from a piece or from two halves")

    def _size(self, length: int, width: int) -> tuple[float, float]:
        return from_grid(length - self._kerf), from_grid(width - self._kerf)

    def _piece(self, k: int, own_length: int, own_width: int, length: int, width: int) -> Node:
        """A piece in the corner of a sheet that may be larger."""
        own = self._size(own_length, own_width)
        node = Node(length=own[0], width=own[1], piece=self._names[k])
        node = self._with_rest(node, own_length, width, width - own_width, Axis.WIDTH)
        return self._with_rest(node, length, width, length - own_length, Axis.LENGTH)

    def _with_rest(self, node: Node, length: int, width: int, left: int, axis: Axis) -> Node:
        if left == 0:
            return node
        size = self._size(length, width)
        parts: tuple[Node, ...] = (node,)
        if left > self._kerf:
            rest = (left, width) if axis is Axis.LENGTH else (length, left)
            rest_size = self._size(*rest)
            parts = (node, Node(length=rest_size[0], width=rest_size[1]))
        return Node(length=size[0], width=size[1], axis=axis, parts=parts)


def _halves(sums: Table, size: int) -> tuple[Table, Table]:
    """Where to cut a size in two, the first part no larger than the second, as indices."""
    firsts = np.arange(1, int(np.searchsorted(sums, size // 2, side="right")), dtype=np.int64)
    seconds = np.searchsorted(sums, size - sums[firsts], side="right") - 1
    return firsts, seconds.astype(np.int64)
