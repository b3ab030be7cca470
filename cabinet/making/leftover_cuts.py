"""As many blanks as fit on leftovers with flaws or odd outlines, by through cuts.

Each board is a rectangle round its outline; what is missing of it is no wood, and no blank lies
there. Blanks are placed one after another, larger ones first, each where it wastes least; several
orders are tried, and the fullest boards win. The result depends on the blanks, the boards, the
kerf and the seed alone.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from cabinet.making.blanks import Blank
from cabinet.making.guillotine import Axis, Node, from_grid, to_grid
from cabinet.making.lie import laid_size
from cabinet.making.outline import Rect, Wood, bounds
from cabinet.making.place import Cell, Finder, Found, kind_of
from cabinet.making.rack import Leftover

# Orders of the blanks that are tried.
ROUNDS = 8
# How far an order may stray from "larger first": areas are weighed by up to this share.
_STRAY = 0.45


@dataclass(kw_only=True)
class _Branch:
    """A rectangle that is free, is a blank, or is parted."""

    cell: Cell
    blank: str = ""
    axis: Axis | None = None
    parts: list[_Branch] = field(default_factory=list)

    def leaves(self) -> Iterator[_Branch]:
        """Everything below that is not parted, blanks included."""
        if self.axis is None:
            yield self
        for part in self.parts:
            yield from part.leaves()

    def node(self) -> Node:
        """The same as cuts."""
        return Node(
            length=from_grid(self.cell.x1 - self.cell.x0),
            width=from_grid(self.cell.y1 - self.cell.y0),
            piece=self.blank,
            axis=self.axis,
            parts=tuple(part.node() for part in self.parts),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverCuts:
    """How one leftover is cut.

    Attributes:
        board: The leftover, laid with its grain along x.
        root: Its cuts, from the rectangle round it.
        found: Where each blank on it lies, by the blank's name.
    """

    board: Leftover
    root: Node
    found: dict[str, Found]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverPlan:
    """What comes from the leftovers, and what does not.

    Attributes:
        boards: The leftovers that are cut, in the rack's order.
        unplaced: Blanks for which no place was found.
    """

    boards: tuple[LeftoverCuts, ...]
    unplaced: tuple[Blank, ...]


class LeftoverSearch:
    """The search on the leftovers of one stock.

    Args:
        boards: The leftovers, laid.
        kerf: The saw's kerf, on the grid.
        seed: Another seed, other orders.
    """

    def __init__(self, boards: Sequence[Leftover], kerf: int, seed: int) -> None:
        self._finders = [Finder(board, kerf) for board in boards]
        self._kerf = kerf
        self._seed = seed

    def fullest(
        self,
        blanks: Sequence[Blank],
        *,
        rounds: int = ROUNDS,
        with_patch: bool = False,
        stop: Callable[[], bool] | None = None,
    ) -> LeftoverPlan:
        """The plan that puts most area of blanks on the leftovers.

        Args:
            blanks: What may be placed.
            rounds: How many orders are tried.
            with_patch: Whether patches may be planned.
            stop: Asked between orders; True ends the search.
        """
        luck = random.Random(self._seed)  # noqa: S311 - no secret
        best: tuple[tuple[int, int], _Round] | None = None
        for number in range(max(1, rounds)):
            stray = 0.0 if number == 0 else _STRAY
            order = sorted(
                range(len(blanks)),
                key=lambda k: (-_area(blanks[k]) * (1 + luck.uniform(-stray, stray)), k),
            )
            made = _Round(self._finders, self._kerf, luck if number else None)
            made.fill([blanks[k] for k in order], with_patch=with_patch)
            worth = (made.placed_area, made.largest_rest)
            if best is None or worth > best[0]:
                best = worth, made
            if not made.unplaced and number >= min(2, rounds - 1):
                break
            if stop is not None and stop():
                break
        if best is None:
            raise AssertionError("at least one order is tried")
        return best[1].plan(blanks)

    def could_hold(self, blank: Blank, *, with_patch: bool) -> bool:
        """Whether one of the leftovers has a place for a blank while nothing else is cut."""
        for finder in self._finders:
            around = bounds(finder.board.outline)
            cell = Cell(0, 0, to_grid(around.length), to_grid(around.width))
            if finder.place(blank, cell, with_patch=with_patch) is not None:
                return True
        return False


def _area(blank: Blank) -> float:
    return blank.length * blank.width


class _Round:
    """One order of blanks placed on all leftovers."""

    def __init__(self, finders: Sequence[Finder], kerf: int, luck: random.Random | None) -> None:
        self._finders = finders
        self._kerf = kerf
        self._luck = luck
        self._roots = []
        for finder in finders:
            around = bounds(finder.board.outline)
            cell = Cell(0, 0, to_grid(around.length), to_grid(around.width))
            self._roots.append(_Branch(cell=cell))
        self._found: list[dict[str, Found]] = [{} for _ in finders]
        self.unplaced: list[Blank] = []
        self.placed_area = 0

    def fill(self, blanks: Sequence[Blank], *, with_patch: bool) -> None:
        """Place the blanks in this order."""
        hopeless: set[tuple[object, ...]] = set()
        for blank in blanks:
            # Cells only get smaller, so what failed once fails again.
            if kind_of(blank) in hopeless or not self._put(blank, with_patch=with_patch):
                hopeless.add(kind_of(blank))
                self.unplaced.append(blank)

    def _put(self, blank: Blank, *, with_patch: bool) -> bool:
        best: tuple[tuple[int, int, int], int, _Branch, Found] | None = None
        for number, finder in enumerate(self._finders):
            for order, leaf in enumerate(self._roots[number].leaves()):
                if leaf.blank:
                    continue
                found = finder.place(blank, leaf.cell, with_patch=with_patch)
                if found is None:
                    continue
                length, width = (to_grid(v) for v in laid_size(blank, found.place.way))
                spare_x = leaf.cell.x1 - leaf.cell.x0 - length
                spare_y = leaf.cell.y1 - leaf.cell.y0 - width
                patches = sum(v.fate.name == "PATCH" for v in found.verdicts)
                cost = (patches, min(spare_x, spare_y) + found.waste, order)
                if best is None or cost < best[0]:
                    best = cost, number, leaf, found
        if best is None:
            return False
        _, number, leaf, found = best
        self._part(self._finders[number].board, leaf, blank, found)
        self._found[number][blank.name] = found
        self.placed_area += to_grid(blank.length) * to_grid(blank.width)
        return True

    def _part(self, board: Leftover, leaf: _Branch, blank: Blank, found: Found) -> None:
        """Cut a blank out of a free rectangle, the better of two ways round."""
        length, width = (to_grid(v) for v in laid_size(blank, found.place.way))
        x, y = to_grid(found.place.x), to_grid(found.place.y)
        mine = Cell(x, y, x + length, y + width)
        choices = [_parted(leaf.cell, mine, blank.name, self._kerf, axis) for axis in Axis]
        worths = [max((_wood(board, c.cell) for c in _free(one)), default=0) for one in choices]
        pick = 0 if worths[0] >= worths[1] else 1
        if self._luck is not None and self._luck.random() < 0.2:
            pick = 1 - pick
        made = choices[pick]
        leaf.blank, leaf.axis, leaf.parts = made.blank, made.axis, made.parts

    @property
    def largest_rest(self) -> int:
        """Area of wood in the largest free rectangle, in squares of the grid."""
        return max(
            (
                _wood(finder.board, leaf.cell)
                for finder, root in zip(self._finders, self._roots, strict=True)
                for leaf in root.leaves()
                if not leaf.blank
            ),
            default=0,
        )

    def plan(self, blanks: Sequence[Blank]) -> LeftoverPlan:
        """The round as a plan; blanks without a place in their first order."""
        left = {blank.name for blank in self.unplaced}
        return LeftoverPlan(
            boards=tuple(
                LeftoverCuts(board=finder.board, root=root.node(), found=dict(found))
                for finder, root, found in zip(self._finders, self._roots, self._found, strict=True)
                if found
            ),
            unplaced=tuple(blank for blank in blanks if blank.name in left),
        )


def _free(branch: _Branch) -> Iterator[_Branch]:
    return (leaf for leaf in branch.leaves() if not leaf.blank)


def _wood(board: Leftover, cell: Cell) -> int:
    """Area of the board within a cell, in squares of the grid."""
    rect = Rect(
        from_grid(cell.x0),
        from_grid(cell.y0),
        from_grid(cell.x1 - cell.x0),
        from_grid(cell.y1 - cell.y0),
    )
    return int(Wood(board.outline).area(rect))


def _parted(cell: Cell, mine: Cell, name: str, kerf: int, first: Axis) -> _Branch:
    """The cuts that free one blank: first along one axis, then along the other."""
    if first is Axis.LENGTH:
        inner = Cell(mine.x0, cell.y0, mine.x1, cell.y1)
        second = Axis.WIDTH
    else:
        inner = Cell(cell.x0, mine.y0, cell.x1, mine.y1)
        second = Axis.LENGTH
    within = _slices(inner, _Branch(cell=mine, blank=name), kerf, second)
    return _slices(cell, within, kerf, first)


def _slices(cell: Cell, middle: _Branch, kerf: int, axis: Axis) -> _Branch:
    """What lies before and behind a part along an axis; the part itself if nothing does."""
    mine = middle.cell
    if axis is Axis.LENGTH:
        low, high, start, end = mine.x0, mine.x1, cell.x0, cell.x1
    else:
        low, high, start, end = mine.y0, mine.y1, cell.y0, cell.y1
    if low == start and high == end:
        return middle
    parts = []
    if low > start:
        parts.append(_Branch(cell=_cut(cell, axis, start, low - kerf)))
    parts.append(middle)
    if end - high > kerf:
        parts.append(_Branch(cell=_cut(cell, axis, high + kerf, end)))
    return _Branch(cell=cell, axis=axis, parts=parts)


def _cut(cell: Cell, axis: Axis, low: int, high: int) -> Cell:
    if axis is Axis.LENGTH:
        return Cell(low, cell.y0, high, cell.y1)
    return Cell(cell.x0, low, cell.x1, high)
