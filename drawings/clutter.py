"""What already stands on the paper, and whether a text or a line finds room among it.

Lettering and leaders are placed by trying places and asking here. Straight pieces and boxes
are kept as arrays, so that a question costs microseconds however much is drawn. Everything is
in paper mm; arcs are taken as chords.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from drawings.ground import Ground, marks_box
from drawings.lettering import text_box
from drawings.marks import Group, Mark, PaperBox, PaperPoint

_Floats = NDArray[np.float64]
_Row = tuple[float, float, float, float]

# All corners of a box on one side of a line.
_ALL_CORNERS = 4.0
# Of no box and no line.
_NONE_MEET = np.empty(0, dtype=np.intp), np.empty((5, 0))
# An upright or level line has a box of no width; this gives it some, mm.
_HAIR = 1e-6


class NoRoom(Exception):  # noqa: N818 - it says what is so, and is always caught
    """Something that must be told finds no free place at this scale; never leaves the sheet."""


def sheet_clutter(marks: Iterable[Mark]) -> Clutter:
    """What stands on a finished sheet, each view as one box: nothing more goes into a view."""
    them = tuple(marks)
    clutter = Clutter(them)
    for mark in them:
        box = marks_box([mark]) if isinstance(mark, Group) and mark.name == "view" else None
        if box is not None:
            clutter.block(box)
    return clutter


class _Columns:
    """Rows of four numbers, held column by column; what is new is taken in when asked for.

    From the rows other columns may be told, which are held beside them.
    """

    def __init__(self, tell: Callable[[_Floats], _Floats], count: int) -> None:
        self._new: list[_Row] = []
        self._new_many: list[_Floats] = []
        self._tell = tell
        self._held = np.empty((count, 64))
        self._count = 0

    def add(self, rows: Iterable[_Row], many: Iterable[_Floats] = ()) -> None:
        """Add rows, one by one or many in an array (n, 4)."""
        self._new += rows
        self._new_many += many

    def copied(self) -> _Columns:
        """The same rows, to which others may be added."""
        other = _Columns(self._tell, 0)
        other._new, other._new_many = list(self._new), list(self._new_many)
        other._held, other._count = self._held.copy(), self._count
        return other

    def below(self, limits: _Floats) -> _Columns:
        """The rows whose reach, their first four columns, stays below limits (4, 1)."""
        some, held = _Columns(self._tell, 0), self.all
        some._held = held.take(np.flatnonzero(np.logical_and.reduce(held[:4] < limits)), axis=1)
        some._count = some._held.shape[1]
        return some

    @property
    def all(self) -> _Floats:
        """All columns told from the rows that were added, one row each."""
        if self._new or self._new_many:
            many = [*self._new_many, np.array(self._new)] if self._new else self._new_many
            new = many[0] if len(many) == 1 else np.concatenate(many)
            count = self._count + len(new)
            if count > self._held.shape[1]:
                longer = np.empty((len(self._held), 2 * count))
                longer[:, : self._count] = self._held[:, : self._count]
                self._held = longer
            self._held[:, self._count : count] = self._tell(new.T)
            self._count = count
            self._new.clear()
            self._new_many.clear()
        return self._held[:, : self._count]


def _box_columns(boxes: _Floats) -> _Floats:
    """The reach of boxes: left, top, -right and -bottom.

    With the far edges negated, one comparison tells which boxes begin before another ends on
    all four sides, and those are the ones that meet it.
    """
    return np.concatenate([boxes[:2], -boxes[2:]])


def _line_columns(lines: _Floats) -> _Floats:
    """Of lines x1, y1, x2, y2: their reach, themselves, and 1 if neither level nor upright."""
    one, other = lines[:2], lines[2:]
    is_slanted = (one != other).all(axis=0)
    return np.concatenate(
        [np.minimum(one, other), np.minimum(-one, -other), lines, is_slanted[None]]
    )


def _limits(boxes: _Floats, gap: float) -> _Floats:
    """What the reach of a thing must stay below to come nearer to boxes (4, n) than ``gap``."""
    return np.concatenate([boxes[2:] + gap, gap - boxes[:2]])


def _meet(reaches: _Floats, limits: _Floats) -> NDArray[np.bool_]:
    """Which boxes (n, from their limits) meet which things (k, by their reach): (n, k)."""
    meet: NDArray[np.bool_] = np.logical_and.reduce(reaches[:, None, :] < limits[:, :, None])
    return meet


class Clutter:
    """Lines and lettering already placed."""

    def __init__(
        self, marks: Iterable[Mark] = (), *, held: tuple[_Columns, _Columns] | None = None
    ) -> None:
        self._lines, self._boxes = held or (_Columns(_line_columns, 9), _Columns(_box_columns, 4))
        if marks:
            self.add(marks)

    def copied(self) -> Clutter:
        """The same, to which other things may be added."""
        return Clutter(held=(self._lines.copied(), self._boxes.copied()))

    def within(self, box: PaperBox) -> Clutter:
        """What comes into a box, so that much can be asked quickly of a place with little in it."""
        limits = _limits_of(box, 0.0)
        return Clutter(held=(self._lines.below(limits), self._boxes.below(limits)))

    def add(self, marks: Iterable[Mark]) -> None:
        """Add what has been placed; shaded areas take no room."""
        self.take(Ground(marks))

    def take(self, ground: Ground) -> None:
        """Add the paper that marks cover."""
        self._lines.add(ground.lines, ground.chords())
        for text in ground.texts:
            self.block(text_box(text))

    def block(self, box: PaperBox) -> None:
        """Keep a box free of anything else."""
        self._boxes.add([(box.left, box.top, box.right, box.bottom)])

    def boxes_hit(self, box: PaperBox, gap: float) -> int:
        """How many kept boxes and texts come nearer to a box than ``gap`` mm."""
        boxes = self._boxes.all
        if boxes.shape[1] == 0:
            return 0
        return int(np.count_nonzero(np.logical_and.reduce(boxes < _limits_of(box, gap))))

    def are_hit(self, rows: _Floats, gap: float) -> NDArray[np.intp]:
        """How many straight pieces come too near to each of many boxes (n, 4), mm.

        The boxes are taken with squared corners.
        """
        return self._lines_in(_limits(rows.T, gap))

    def _lines_in(self, limits: _Floats) -> NDArray[np.intp]:
        """How many straight pieces reach into each of many boxes, from their limits."""
        box, lines = self._meetings(limits)
        if len(box) == 0:
            return np.zeros(limits.shape[1], dtype=np.intp)
        # The reach of a level or an upright line is the line itself.
        (slanted,) = lines[4].nonzero()
        if len(slanted) == 0:
            return np.bincount(box, minlength=limits.shape[1])
        far_x, far_y, near_x, near_y = limits.take(box[slanted], axis=1)
        sides = _sides(lines[:4].take(slanted, axis=1), (-near_x, -near_y, far_x, far_y))
        is_hit = np.ones(len(box), dtype=np.bool_)
        is_hit[slanted] = np.abs(sides) != _ALL_CORNERS
        return np.bincount(box[is_hit], minlength=limits.shape[1])

    def _meetings(self, limits: _Floats) -> tuple[NDArray[np.intp], _Floats]:
        """Which of some boxes (from their limits) meet the reach of which line.

        Most lines are far from all the boxes, and most boxes that remain are far from most
        lines, so that the exact tests are left with few.

        Returns:
            Numbers of the boxes, and with each the columns of a line: ends and is-slanted.
        """
        lines = self._lines.all
        if lines.shape[1] == 0 or limits.shape[1] == 0:
            return _NONE_MEET
        near = np.flatnonzero(np.logical_and.reduce(lines[:4] < limits.max(axis=1, keepdims=True)))
        if len(near) == 0:
            return _NONE_MEET
        meet = _meet(lines[:4].take(near, axis=1), limits)
        box, line = np.divmod(np.flatnonzero(meet), len(near))
        return box, lines[4:].take(near[line], axis=1)

    def lines_hit(self, box: PaperBox, gap: float) -> int:
        """How many straight pieces come nearer to a box than ``gap`` mm (corners squared)."""
        return int(self._lines_in(_limits_of(box, gap))[0])

    def is_free(self, box: PaperBox, gap: float) -> bool:
        """Whether nothing comes nearer to the box than ``gap`` mm."""
        return self.boxes_hit(box, gap) == 0 and self.lines_hit(box, gap) == 0

    def are_free(self, rows: _Floats, gap: float) -> NDArray[np.bool_]:
        """Of which of many boxes (n, 4: left, top, right, bottom) nothing comes too near."""
        limits = _limits(rows.T, gap)
        free: NDArray[np.bool_] = ~np.logical_or.reduce(_meet(self._boxes.all, limits), axis=1)
        free[free] = self._lines_in(limits[:, free]) == 0
        return free

    def grid_free(
        self, lefts: _Floats, tops: _Floats, width: float, height: float, gap: float
    ) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
        """Which boxes of one size on a grid are free, as far as can be told at little cost.

        What a thing reaches into is a rectangle of the grid, so columns and rows are compared
        each by themselves, and things are put together as bits.

        Args:
            lefts: Left edges of the boxes, ascending, (m,) mm.
            tops: Top edges, ascending, (n,) mm.
            width: Their width, mm.
            height: Their height, mm.
            gap: Least distance from anything else, mm.

        Returns:
            Which of the boxes (m, n) may be free, and which of those are so for sure. Of the
            others a slanted line may run by, which ``are_free`` tells.
        """
        across = lefts + width + gap, gap - lefts
        down = tops + height + gap, gap - tops
        lines = self._lines.all
        level, slanted = (lines[:4].take(np.flatnonzero(lines[8] == k), axis=1) for k in (0, 1))
        straight = np.concatenate([self._boxes.all, level], axis=1)
        may = ~_reached(straight, across, down)
        if not may.any():
            return may, may
        return may, may & ~_reached(slanted, across, down)

    def crossings(self, start: PaperPoint, end: PaperPoint) -> int:
        """How many straight pieces a line from one point to another crosses."""
        return int(self.are_crossed(np.array([[start.x, start.y]]), np.array([[end.x, end.y]]))[0])

    def are_crossed(self, starts: _Floats, ends: _Floats) -> NDArray[np.intp]:
        """How many straight pieces each of many lines (n, 2 each: x, y) crosses."""
        reach = np.concatenate([np.minimum(starts, ends), np.maximum(starts, ends)], axis=1)
        own, (x1, y1, x2, y2, _) = self._meetings(_limits(reach.T, _HAIR))
        (start_x, start_y), (end_x, end_y) = starts[own].T, ends[own].T
        dx, dy = end_x - start_x, end_y - start_y
        a = dx * (y1 - start_y) - dy * (x1 - start_x)
        b = dx * (y2 - start_y) - dy * (x2 - start_x)
        ex, ey = x2 - x1, y2 - y1
        c = ex * (start_y - y1) - ey * (start_x - x1)
        d = ex * (end_y - y1) - ey * (end_x - x1)
        return np.bincount(own[(a * b < 0) & (c * d < 0)], minlength=len(starts))

    def crossed_at_least(
        self, starts: _Floats, toward: _Floats, distances: _Floats
    ) -> NDArray[np.intp]:
        """How many straight pieces lines cross at least that run on and on.

        Pieces that are only just crossed may go uncounted.

        Args:
            starts: Where they begin, (n, 2) mm.
            toward: Where they run, unit vectors (n, 2).
            distances: How far, ascending, (k,) mm.

        Returns:
            What each has surely crossed after each distance, (n, k).
        """
        ends = starts + distances[-1] * toward
        reach = np.concatenate([np.minimum(starts, ends), np.maximum(starts, ends)], axis=1)
        own, (x1, y1, x2, y2, _) = self._meetings(_limits(reach.T, _HAIR))
        (start_x, start_y), (dx, dy) = starts[own].T, toward[own].T
        x1, y1, x2, y2 = x1 - start_x, y1 - start_y, x2 - start_x, y2 - start_y
        # How far the ends of the pieces lie to either side of the way, and where it is crossed.
        a, b = dx * y1 - dy * x1, dx * y2 - dy * x2
        is_met = (np.minimum(a, b) < -_HAIR) & (np.maximum(a, b) > _HAIR)
        share = a[is_met] / (a - b)[is_met]
        x, y = (p[is_met] + share * (q - p)[is_met] for p, q in ((x1, x2), (y1, y2)))
        way = x * dx[is_met] + y * dy[is_met]
        after = np.searchsorted(distances, way + _HAIR, side="right")
        is_there = (way > _HAIR) & (after < len(distances))
        number = (own[is_met] * len(distances) + after)[is_there]
        found = np.bincount(number, minlength=len(starts) * len(distances))
        counts: NDArray[np.intp] = found.reshape(len(starts), -1).cumsum(axis=1)
        return counts

    def run_over_text(self, starts: _Floats, ends: _Floats, gap: float) -> NDArray[np.bool_]:
        """Which of many lines (n, 2 each: x, y) come nearer to a kept box than ``gap`` mm."""
        reach = np.concatenate([np.minimum(starts, ends), np.maximum(starts, ends)], axis=1)
        grown = self._boxes.all - gap
        line, box = _meet(grown, _limits(reach.T, 0.0)).nonzero()
        over = np.zeros(len(starts), dtype=np.bool_)
        if len(line) > 0:
            lines = np.concatenate([starts[line], ends[line]], axis=1).T
            left, top, right, bottom = grown[:, box]
            sides = _sides(lines, (left, top, -right, -bottom))
            over[line[np.abs(sides) != _ALL_CORNERS]] = True
        return over


def _limits_of(box: PaperBox, gap: float) -> _Floats:
    """The limits of one box, (4, 1)."""
    return np.array([[box.right + gap], [box.bottom + gap], [gap - box.left], [gap - box.top]])


def _reached(
    reaches: _Floats, across: tuple[_Floats, _Floats], down: tuple[_Floats, _Floats]
) -> NDArray[np.bool_]:
    """Which boxes of a grid any of some things reaches into, (m, n).

    Args:
        reaches: The reach of the things, (4, k).
        across: Limits of the columns' right and left edges, (m,) each.
        down: Limits of the rows' bottom and top edges, (n,) each.
    """
    room = np.array([[across[0][-1]], [down[0][-1]], [across[1][0]], [down[1][0]]])
    near = np.flatnonzero(np.logical_and.reduce(reaches < room))
    low_x, low_y, high_x, high_y = reaches.take(near, axis=1)[:, :, None]
    columns = np.packbits((low_x < across[0]) & (high_x < across[1]), axis=0)
    rows = np.packbits((low_y < down[0]) & (high_y < down[1]), axis=0)
    shared = np.bitwise_or.reduce(columns[:, :, None] & rows[:, None, :], axis=0)
    reached: NDArray[np.bool_] = shared.astype(np.bool_)
    return reached


def _sides(lines: _Floats, boxes: Sequence[float | _Floats] | _Floats) -> _Floats:
    """On how many more corners' left than right side lines pass: 4 or -4 misses the box.

    Args:
        lines: Columns x1, y1, x2, y2.
        boxes: Left, top, right and bottom edge of the boxes: one for all lines, or one for each.
    """
    x1, y1, x2, y2 = lines
    left, top, right, bottom = boxes
    dx, dy = x2 - x1, y2 - y1
    # A corner's side is the sign of the difference of two products, each shared by two corners.
    lefts, rights = (left - x1) * dy, (right - x1) * dy
    tops, bottoms = (top - y1) * dx, (bottom - y1) * dx
    total: _Floats = np.sign(lefts - tops)
    total += np.sign(lefts - bottoms)
    total += np.sign(rights - tops)
    total += np.sign(rights - bottoms)
    return total
