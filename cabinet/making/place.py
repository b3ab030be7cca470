"""The search for a place on a board with flaws: shift, turn and flip until nothing is in the way.

For each way in which a blank may lie, every pair of a flaw and a place that needs sound wood
forbids the blank's corner an open rectangle; so does every gap of the board's outline. A corner
that lies in none of them is good, and the best ones lie on the rectangles' edges. All of it on
the grid of 0.001 mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cabinet.board import BoardBox
from cabinet.making.allowance import KeepOut
from cabinet.making.blanks import Blank
from cabinet.making.guillotine import from_grid, to_grid
from cabinet.making.lie import (
    DEEPEST,
    Fate,
    Place,
    Verdict,
    Way,
    are_near,
    covers_depths,
    depths,
    is_patchable,
    laid_box,
    laid_size,
    reach,
    recess_depths,
    recess_of,
    verdicts,
    ways,
)
from cabinet.making.outline import Rect, missing
from cabinet.making.rack import Flaw, Leftover

_Ints = NDArray[np.int64]
# So many corners are put to the full rules, best first, before a way is given up.
_MOST_TRIED = 24
# Patches on one blank, at most (common practice: more work than a new board).
MOST_PATCHES = 2


@dataclass(frozen=True, slots=True)
class Cell:
    """A rectangle that no cut has parted yet, on the grid."""

    x0: int
    y0: int
    x1: int
    y1: int


@dataclass(frozen=True, slots=True)
class Found:
    """A place for a blank in a cell.

    Attributes:
        place: Where and how it lies.
        waste: How far it was shifted from the cell's edges, on the grid.
        verdicts: What becomes of the flaws below.
    """

    place: Place
    waste: int
    verdicts: tuple[Verdict, ...]


@dataclass(frozen=True, slots=True)
class _Forbidden:
    """For one flaw: corners that are forbidden, and those that are pardoned all the same.

    Rows of (low x, low y, high x, high y); forbidden ones are open, pardoned ones closed.
    """

    rows: _Ints
    pardons: _Ints


def kind_of(blank: Blank) -> tuple[object, ...]:
    """What decides where a blank may lie: equal for blanks that are interchangeable."""
    return (
        blank.length,
        blank.width,
        blank.grain,
        blank.keep_outs,
        blank.cut_away,
        blank.behind_doors,
    )


class Finder:
    """Places on one board.

    Args:
        board: The leftover, its grain along x and its surrounding rectangle from 0, 0.
        kerf: The saw's kerf, on the grid.
    """

    def __init__(self, board: Leftover, kerf: int) -> None:
        self.board = board
        self._kerf = kerf
        self._gaps = missing(board.outline)
        self._forbidden: dict[tuple[object, ...], tuple[_Forbidden, ...]] = {}
        self._found: dict[tuple[object, ...], Found | None] = {}
        self._numbers: dict[tuple[object, ...], int] = {}

    def _number(self, blank: Blank) -> int:
        return self._numbers.setdefault(kind_of(blank), len(self._numbers))

    def place(self, blank: Blank, cell: Cell, *, with_patch: bool = False) -> Found | None:
        """The place in a cell that wastes least, or None.

        Args:
            blank: The blank.
            cell: Where it may lie.
            with_patch: Whether flaws may lie where a patch makes them good.
        """
        key = (self._number(blank), cell, with_patch)
        if key not in self._found:
            self._found[key] = self._search(blank, cell, with_patch=with_patch)
        return self._found[key]

    def _search(self, blank: Blank, cell: Cell, *, with_patch: bool) -> Found | None:
        best: Found | None = None
        for way in ways(blank):
            found = self._lying(blank, way, cell, with_patch=with_patch)
            if found is not None and (best is None or _cost(found) < _cost(best)):
                best = found
            if best is not None and _cost(best) == (0, 0):
                break
        return best

    def _lying(self, blank: Blank, way: Way, cell: Cell, *, with_patch: bool) -> Found | None:
        length, width = (to_grid(value) for value in laid_size(blank, way))
        most_x, most_y = cell.x1 - length, cell.y1 - width
        if most_x < cell.x0 or most_y < cell.y0:
            return None
        forbidden = self._of(blank, way, with_patch=with_patch)
        xs = self._corners(forbidden, 0, cell.x0, most_x)
        ys = self._corners(forbidden, 1, cell.y0, most_y)
        bad = np.zeros((len(xs), len(ys)), dtype=np.bool_)
        for each in forbidden:
            hit = _inside(xs, ys, each.rows, is_open=True)
            if hit.any() and len(each.pardons):
                hit &= ~_inside(xs, ys, each.pardons, is_open=False)
            bad |= hit
        good = np.argwhere(~bad)
        if not len(good):
            return None
        x, y = xs[good[:, 0]], ys[good[:, 1]]
        waste = np.minimum(x - cell.x0, most_x - x) + np.minimum(y - cell.y0, most_y - y)
        order = np.lexsort((x, y, waste))
        for k in order[:_MOST_TRIED]:
            place = Place(from_grid(int(x[k])), from_grid(int(y[k])), way)
            told = verdicts(blank, place, self.board)
            if _are_good(told, with_patch=with_patch):
                return Found(place, int(waste[k]), told)
        return None

    def _corners(self, forbidden: Iterable[_Forbidden], axis: int, low: int, high: int) -> _Ints:
        """Where the blank's corner may be tried along an axis.

        A strip before it is as wide as a kerf at least, or it could not be sawn off.
        """
        tried = [np.array([low, high, low + self._kerf + 1], dtype=np.int64)]
        for each in forbidden:
            tried += [each.rows[:, axis], each.rows[:, axis + 2]]
            tried += [each.pardons[:, axis], each.pardons[:, axis + 2]]
        places = np.unique(np.concatenate(tried))
        is_in = (places >= low) & (places <= high)
        kept: _Ints = places[is_in & ((places == low) | (places > low + self._kerf))]
        return kept

    def _of(self, blank: Blank, way: Way, *, with_patch: bool) -> tuple[_Forbidden, ...]:
        key = (self._number(blank), way, with_patch)
        if key not in self._forbidden:
            size = laid_size(blank, way)
            whole = BoardBox(low=(0.0, 0.0, 0.0), high=(*size, blank.thickness))
            gaps = _rows(self._gaps, [whole])
            keeps = [(k, laid_box(blank, way, k.box)) for k in blank.keep_outs]
            away = [laid_box(blank, way, cut.box) for cut in blank.cut_away]
            made = [_Forbidden(gaps, _none())]
            for flaw in self.board.flaws:
                made += _for_flaw(flaw, blank, size, keeps, away, with_patch=with_patch)
            self._forbidden[key] = tuple(each for each in made if len(each.rows))
        return self._forbidden[key]


def _cost(found: Found) -> tuple[int, int]:
    """What is wasted, then how many flaws must be filled."""
    return found.waste, sum(verdict.fate is Fate.FILLED for verdict in found.verdicts)


def _are_good(told: tuple[Verdict, ...], *, with_patch: bool) -> bool:
    fates = [verdict.fate for verdict in told]
    if Fate.FORBIDDEN in fates:
        return False
    patches = fates.count(Fate.PATCH)
    return patches == 0 or (with_patch and patches <= MOST_PATCHES)


def _none() -> _Ints:
    return np.zeros((0, 4), dtype=np.int64)


def _for_flaw(
    flaw: Flaw,
    blank: Blank,
    size: tuple[float, float],
    keeps: list[tuple[KeepOut, BoardBox]],
    away: list[BoardBox],
    *,
    with_patch: bool,
) -> list[_Forbidden]:
    low, high = depths(flaw, blank.thickness)
    is_deep = flaw.deep(blank.thickness) > DEEPEST * blank.thickness + 1e-9
    spots: tuple[Rect, ...] = flaw.spots
    if with_patch and is_patchable(flaw, blank.thickness):
        low, high = recess_depths(flaw, blank.thickness)
        hard = [box for keep, box in keeps if not keep.need.is_curable]
        rows = _rows([recess_of(flaw)], [box for box in hard if are_near(low, high, box)])
        # Where no patch is needed the flaw itself decides, not its recess.
        own = depths(flaw, blank.thickness)
        plain = [box for _, box in keeps if are_near(*own, box)]
        return [] if not len(_rows(spots, plain)) else [_Forbidden(rows, _none())]
    against = [box for _, box in keeps if are_near(low, high, box)]
    if is_deep:
        against = [BoardBox(low=(0.0, 0.0, 0.0), high=(*size, blank.thickness))]
    takers = [reach(box, size) for box in away if covers_depths(box, low, high)]
    return [
        _Forbidden(
            _rows([spot], against),
            _pardons(spot, takers),
        )
        for spot in spots
    ]


def _rows(spots: Iterable[Rect], boxes: list[BoardBox]) -> _Ints:
    """Corners that bring one of the boxes on to one of the spots."""
    rows = [
        (
            to_grid(spot.x) - to_grid(box.high[0]),
            to_grid(spot.y) - to_grid(box.high[1]),
            to_grid(spot.right) - to_grid(box.low[0]),
            to_grid(spot.top) - to_grid(box.low[1]),
        )
        for spot in spots
        for box in boxes
    ]
    return np.array(sorted(set(rows)), dtype=np.int64).reshape(-1, 4)


def _pardons(spot: Rect, takers: list[Rect]) -> _Ints:
    """Corners at which all of a spot lies in what is cut away."""
    rows = [
        (
            to_grid(spot.right) - to_grid(taker.right),
            to_grid(spot.top) - to_grid(taker.top),
            to_grid(spot.x) - to_grid(taker.x),
            to_grid(spot.y) - to_grid(taker.y),
        )
        for taker in takers
    ]
    good = [row for row in rows if row[0] <= row[2] and row[1] <= row[3]]
    return np.array(sorted(set(good)), dtype=np.int64).reshape(-1, 4)


def _inside(xs: _Ints, ys: _Ints, rows: _Ints, *, is_open: bool) -> NDArray[np.bool_]:
    """Which corners (x by y) lie in one of the rectangles."""
    x, y = xs[:, None], ys[:, None]
    if is_open:
        in_x, in_y = (x > rows[:, 0]) & (x < rows[:, 2]), (y > rows[:, 1]) & (y < rows[:, 3])
    else:
        in_x, in_y = (x >= rows[:, 0]) & (x <= rows[:, 2]), (y >= rows[:, 1]) & (y <= rows[:, 3])
    both: NDArray[np.bool_] = (in_x.astype(np.float32) @ in_y.T.astype(np.float32)) > 0
    return both
