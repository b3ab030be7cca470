"""What already stands on the paper, and whether a text or a line finds room among it.

Lettering and leaders are placed by trying places and asking here. Straight pieces and boxes
are kept as arrays, so that a question costs microseconds however much is drawn. Everything is
in paper mm; arcs are taken as chords.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from drawings.lettering import text_box
from drawings.marks import Arc, Circle, Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline, Text

_Floats = NDArray[np.float64]

# Turn of one chord that stands for an arc, degrees.
_CHORD_TURN = 20.0
# All corners of a box on one side of a line.
_ALL_CORNERS = 4.0
# An upright or level line has a box of no width; this gives it some, mm.
_HAIR = 1e-6


class NoRoom(Exception):  # noqa: N818 - it says what is so, and is always caught
    """Something that must be told finds no free place at this scale; never leaves the sheet."""


@lru_cache(maxsize=256)
def _turns(start: float, end: float) -> tuple[tuple[float, float], ...]:
    """Unit vectors to the corners between the chords of an arc; many arcs share them."""
    count = max(2, math.ceil((end - start) / _CHORD_TURN))
    angles = [math.radians(start + (end - start) * i / count) for i in range(count + 1)]
    return tuple((math.cos(a), math.sin(a)) for a in angles)


def _chords(
    centre: PaperPoint, radius: float, start: float, end: float
) -> list[tuple[float, float, float, float]]:
    corners = [(centre.x + radius * ux, centre.y + radius * uy) for ux, uy in _turns(start, end)]
    return [(*one, *other) for one, other in pairwise(corners)]


def pieces(mark: Mark) -> list[tuple[float, float, float, float]]:
    """The straight pieces of a mark, (x1, y1, x2, y2) in mm; none for a text."""
    match mark:
        case Line():
            return [(mark.start.x, mark.start.y, mark.end.x, mark.end.y)]
        case Polyline():
            points = (*mark.points, mark.points[0]) if mark.closed else mark.points
            return [(a.x, a.y, b.x, b.y) for a, b in pairwise(points)]
        case Circle():
            return _chords(mark.centre, mark.radius, 0.0, 360.0)
        case Arc():
            return _chords(mark.centre, mark.radius, mark.start, mark.end)
        case Group():
            return [piece for inner in mark.marks for piece in pieces(inner)]
        case _:
            return []


def texts(mark: Mark) -> list[Text]:
    """The texts in a mark."""
    if isinstance(mark, Text):
        return [mark]
    return [t for inner in mark.marks for t in texts(inner)] if isinstance(mark, Group) else []


def marks_box(marks: Iterable[Mark]) -> PaperBox | None:
    """The smallest box around all marks, lettering included; None if there are none."""
    xs: list[float] = []
    ys: list[float] = []
    for mark in marks:
        for x1, y1, x2, y2 in pieces(mark):
            xs += [x1, x2]
            ys += [y1, y2]
        for text in texts(mark):
            box = text_box(text)
            xs += [box.left, box.right]
            ys += [box.top, box.bottom]
    return PaperBox(min(xs), min(ys), max(xs), max(ys)) if xs else None


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
    """Rows of four numbers, held column by column; what is new is taken in when asked for."""

    def __init__(self) -> None:
        self._new: list[tuple[float, float, float, float]] = []
        self._held = np.empty((4, 64))
        self._count = 0

    def add(self, rows: Iterable[tuple[float, float, float, float]]) -> None:
        """Add rows."""
        self._new += rows

    def copied(self) -> _Columns:
        """The same rows, to which others may be added."""
        copy = _Columns()
        copy._new, copy._held, copy._count = list(self._new), self._held.copy(), self._count
        return copy

    @property
    def all(self) -> _Floats:
        """All that were added, (4, n)."""
        if self._new:
            count = self._count + len(self._new)
            if count > self._held.shape[1]:
                longer = np.empty((4, 2 * count))
                longer[:, : self._count] = self._held[:, : self._count]
                self._held = longer
            self._held[:, self._count : count] = np.array(self._new).T
            self._count = count
            self._new.clear()
        return self._held[:, : self._count]


class Clutter:
    """Lines and lettering already placed."""

    def __init__(self, marks: Iterable[Mark] = ()) -> None:
        # Lines as x1, y1, x2, y2; the boxes around them, and kept ones, as left, top, right, bottom.
        self._lines = _Columns()
        self._reaches = _Columns()
        self._boxes = _Columns()
        self.add(marks)

    def copied(self) -> Clutter:
        """The same, to which other things may be added."""
        copy = Clutter()
        copy._lines = self._lines.copied()
        copy._reaches = self._reaches.copied()
        copy._boxes = self._boxes.copied()
        return copy

    def add(self, marks: Iterable[Mark]) -> None:
        """Add what has been placed."""
        for mark in marks:
            if isinstance(mark, Polyline) and mark.ink is Ink.SHADE:
                continue
            found = pieces(mark)
            self._lines.add(found)
            self._reaches.add(
                (min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)) for x1, y1, x2, y2 in found
            )
            for text in texts(mark):
                self.block(text_box(text))

    def block(self, box: PaperBox) -> None:
        """Keep a box free of anything else."""
        self._boxes.add([(box.left, box.top, box.right, box.bottom)])

    def boxes_hit(self, box: PaperBox, gap: float) -> int:
        """How many kept boxes and texts come nearer to a box than ``gap`` mm."""
        left, top, right, bottom = self._boxes.all
        hit = (
            (box.left - gap < right)
            & (left < box.right + gap)
            & (box.top - gap < bottom)
            & (top < box.bottom + gap)
        )
        return int(np.count_nonzero(hit))

    def are_on_text(self, rows: _Floats, gap: float) -> NDArray[np.bool_]:
        """Which of many boxes (n, 4: left, top, right, bottom) come too near to a kept one."""
        left, top, right, bottom = self._boxes.all
        meet = (
            (rows[:, None, 0] - gap < right)
            & (left < rows[:, None, 2] + gap)
            & (rows[:, None, 1] - gap < bottom)
            & (top < rows[:, None, 3] + gap)
        )
        on_text: NDArray[np.bool_] = np.any(meet, axis=1)
        return on_text

    def are_on_lines(self, rows: _Floats, gap: float) -> NDArray[np.bool_]:
        """Which of many boxes (n, 4: left, top, right, bottom) come too near to a line."""
        return self.are_hit(rows, gap) > 0

    def are_hit(self, rows: _Floats, gap: float) -> NDArray[np.intp]:
        """How many straight pieces come too near to each of many boxes (n, 4), mm.

        The boxes are taken with squared corners.
        """
        wide = np.concatenate([rows[:, :2] - gap, rows[:, 2:] + gap], axis=1).T
        box, lines = self._meetings(wide)
        is_hit = np.abs(_sides(lines, wide[:, box])) != _ALL_CORNERS
        return np.bincount(box[is_hit], minlength=len(rows))

    def _meetings(self, boxes: _Floats) -> tuple[NDArray[np.intp], _Floats]:
        """Which of some boxes (4, n) meet the box round which line: numbers, and lines (4, m).

        Most lines are far from all the boxes, and most boxes that remain are far from most
        lines, so that the exact tests are left with few.
        """
        if boxes.shape[1] == 0:
            return np.empty(0, dtype=np.intp), np.empty((4, 0))
        near = self._near(*boxes[:2].min(axis=1), *boxes[2:].max(axis=1))
        left, top, right, bottom = self._reaches.all[:, near]
        low_x, low_y, high_x, high_y = boxes[:, :, None]
        meet = (right > low_x) & (left < high_x) & (bottom > low_y) & (top < high_y)
        box, line = np.nonzero(meet)
        return box, self._lines.all[:, near[line]]

    def _near(self, left: float, top: float, right: float, bottom: float) -> NDArray[np.intp]:
        """Numbers of the lines whose boxes reach into a box."""
        lefts, tops, rights, bottoms = self._reaches.all
        return np.flatnonzero((rights > left) & (lefts < right) & (bottoms > top) & (tops < bottom))

    def lines_hit(self, box: PaperBox, gap: float) -> int:
        """How many straight pieces come nearer to a box than ``gap`` mm (corners squared)."""
        wide = box.grown(gap)
        corners = wide.left, wide.top, wide.right, wide.bottom
        near = self._near(*corners)
        if len(near) == 0:
            return 0
        lines = self._lines.all[:, near]
        return int(np.count_nonzero(np.abs(_sides(lines, corners)) != _ALL_CORNERS))

    def is_free(self, box: PaperBox, gap: float) -> bool:
        """Whether nothing comes nearer to the box than ``gap`` mm."""
        return self.boxes_hit(box, gap) == 0 and self.lines_hit(box, gap) == 0

    def are_free(self, rows: _Floats, gap: float) -> NDArray[np.bool_]:
        """Of which of many boxes (n, 4: left, top, right, bottom) nothing comes too near."""
        free = ~self.are_on_text(rows, gap)
        free[free] = ~self.are_on_lines(rows[free], gap)
        return free

    def crossings(self, start: PaperPoint, end: PaperPoint) -> int:
        """How many straight pieces a line from one point to another crosses."""
        return int(self.are_crossed(np.array([[start.x, start.y]]), np.array([[end.x, end.y]]))[0])

    def are_crossed(self, starts: _Floats, ends: _Floats) -> NDArray[np.intp]:
        """How many straight pieces each of many lines (n, 2 each: x, y) crosses."""
        low, high = np.minimum(starts, ends) - _HAIR, np.maximum(starts, ends) + _HAIR
        own, (x1, y1, x2, y2) = self._meetings(np.concatenate([low, high], axis=1).T)
        (start_x, start_y), (end_x, end_y) = starts[own].T, ends[own].T
        dx, dy = end_x - start_x, end_y - start_y
        a = dx * (y1 - start_y) - dy * (x1 - start_x)
        b = dx * (y2 - start_y) - dy * (x2 - start_x)
        ex, ey = x2 - x1, y2 - y1
        c = ex * (start_y - y1) - ey * (start_x - x1)
        d = ex * (end_y - y1) - ey * (end_x - x1)
        return np.bincount(own[(a * b < 0) & (c * d < 0)], minlength=len(starts))

    def run_over_text(self, starts: _Floats, ends: _Floats, gap: float) -> NDArray[np.bool_]:
        """Which of many lines (n, 2 each: x, y) come nearer to a kept box than ``gap`` mm."""
        boxes = self._boxes.all
        wide = np.concatenate([boxes[:2] - gap, boxes[2:] + gap])
        left, top, right, bottom = wide
        low_x, low_y = np.minimum(starts, ends).T[:, :, None]
        high_x, high_y = np.maximum(starts, ends).T[:, :, None]
        near = (high_x > left) & (low_x < right) & (high_y > top) & (low_y < bottom)
        line, box = np.nonzero(near)
        over = np.zeros(len(starts), dtype=np.bool_)
        if len(line) > 0:
            lines = np.concatenate([starts[line], ends[line]], axis=1).T
            over[line[np.abs(_sides(lines, wide[:, box])) != _ALL_CORNERS]] = True
        return over


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
