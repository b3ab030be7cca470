"""What already stands on the paper, and whether a text or a line finds room among it.

Lettering and leaders are placed by trying places and asking here. Straight pieces and boxes
are kept as arrays, so that a question costs microseconds however much is drawn. Everything is
in paper mm; arcs are taken as chords.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
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


def _chords(centre: PaperPoint, radius: float, start: float, end: float) -> list[PaperPoint]:
    count = max(2, math.ceil((end - start) / _CHORD_TURN))
    angles = [math.radians(start + (end - start) * i / count) for i in range(count + 1)]
    return [centre.moved(radius * math.cos(a), radius * math.sin(a)) for a in angles]


def pieces(mark: Mark) -> list[tuple[float, float, float, float]]:
    """The straight pieces of a mark, (x1, y1, x2, y2) in mm; none for a text."""
    points: list[PaperPoint]
    match mark:
        case Line():
            points = [mark.start, mark.end]
        case Polyline():
            points = [*mark.points, mark.points[0]] if mark.closed else list(mark.points)
        case Circle():
            points = _chords(mark.centre, mark.radius, 0.0, 360.0)
        case Arc():
            points = _chords(mark.centre, mark.radius, mark.start, mark.end)
        case Group():
            return [piece for inner in mark.marks for piece in pieces(inner)]
        case _:
            return []
    return [(a.x, a.y, b.x, b.y) for a, b in pairwise(points)]


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


class Clutter:
    """Lines and lettering already placed."""

    def __init__(self, marks: Iterable[Mark] = ()) -> None:
        self._lines: list[tuple[float, float, float, float]] = []
        self._boxes: list[tuple[float, float, float, float]] = []
        self._line_rows: _Floats | None = None
        self._reaches: _Floats | None = None
        self._box_rows: _Floats | None = None
        self.add(marks)

    def add(self, marks: Iterable[Mark]) -> None:
        """Add what has been placed."""
        for mark in marks:
            if isinstance(mark, Polyline) and mark.ink is Ink.SHADE:
                continue
            self._lines += pieces(mark)
            for text in texts(mark):
                self.block(text_box(text))
        self._line_rows = self._box_rows = None

    def block(self, box: PaperBox) -> None:
        """Keep a box free of anything else."""
        self._boxes.append((box.left, box.top, box.right, box.bottom))
        self._box_rows = None

    def _rows(self) -> tuple[_Floats, _Floats]:
        if self._line_rows is None or self._reaches is None:
            self._line_rows = np.array(self._lines, dtype=np.float64).reshape(-1, 4)
            # The boxes around the lines, column by column: left, top, right, bottom.
            self._reaches = np.stack(
                [
                    np.minimum(self._line_rows[:, 0], self._line_rows[:, 2]),
                    np.minimum(self._line_rows[:, 1], self._line_rows[:, 3]),
                    np.maximum(self._line_rows[:, 0], self._line_rows[:, 2]),
                    np.maximum(self._line_rows[:, 1], self._line_rows[:, 3]),
                ]
            )
        if self._box_rows is None:
            self._box_rows = np.array(self._boxes, dtype=np.float64).reshape(-1, 4)
        return self._line_rows, self._box_rows

    def boxes_hit(self, box: PaperBox, gap: float) -> int:
        """How many kept boxes and texts come nearer to a box than ``gap`` mm."""
        _, boxes = self._rows()
        hit = (
            (box.left - gap < boxes[:, 2])
            & (boxes[:, 0] < box.right + gap)
            & (box.top - gap < boxes[:, 3])
            & (boxes[:, 1] < box.bottom + gap)
        )
        return int(np.count_nonzero(hit))

    def are_on_text(self, rows: _Floats, gap: float) -> NDArray[np.bool_]:
        """Which of many boxes (n, 4: left, top, right, bottom) come too near to a kept one."""
        _, boxes = self._rows()
        meet = (
            (rows[:, None, 0] - gap < boxes[None, :, 2])
            & (boxes[None, :, 0] < rows[:, None, 2] + gap)
            & (rows[:, None, 1] - gap < boxes[None, :, 3])
            & (boxes[None, :, 1] < rows[:, None, 3] + gap)
        )
        on_text: NDArray[np.bool_] = np.any(meet, axis=1)
        return on_text

    def _near_lines(self, left: float, top: float, right: float, bottom: float) -> _Floats:
        """The lines whose boxes reach into a box, as columns x1, y1, x2, y2."""
        lines, _ = self._rows()
        reaches = self._reaches
        if reaches is None:
            raise AssertionError("the rows were just made")
        near = (
            (reaches[2] > left) & (reaches[0] < right) & (reaches[3] > top) & (reaches[1] < bottom)
        )
        columns: _Floats = lines[near].T
        return columns

    def are_on_lines(self, rows: _Floats, gap: float) -> NDArray[np.bool_]:
        """Which of many boxes (n, 4: left, top, right, bottom) come too near to a line."""
        on_line = np.zeros(len(rows), dtype=np.bool_)
        if len(rows) == 0:
            return on_line
        low, high = rows[:, :2] - gap, rows[:, 2:] + gap
        lines = self._near_lines(*low.min(axis=0), *high.max(axis=0))
        x1, y1, x2, y2 = lines
        near = (
            (np.maximum(x1, x2) > low[:, None, 0])
            & (np.minimum(x1, x2) < high[:, None, 0])
            & (np.maximum(y1, y2) > low[:, None, 1])
            & (np.minimum(y1, y2) < high[:, None, 1])
        )
        box, line = np.nonzero(near)
        sides = _sides(lines[:, line], *low[box].T, *high[box].T)
        on_line[box[np.abs(sides) != _ALL_CORNERS]] = True
        return on_line

    def lines_hit(self, box: PaperBox, gap: float) -> int:
        """How many straight pieces come nearer to a box than ``gap`` mm (corners squared)."""
        wide = box.grown(gap)
        corners = wide.left, wide.top, wide.right, wide.bottom
        lines = self._near_lines(*corners)
        if lines.shape[1] == 0:
            return 0
        return int(np.count_nonzero(np.abs(_sides(lines, *corners)) != _ALL_CORNERS))

    def is_free(self, box: PaperBox, gap: float) -> bool:
        """Whether nothing comes nearer to the box than ``gap`` mm."""
        return self.boxes_hit(box, gap) == 0 and self.lines_hit(box, gap) == 0

    def crossings(self, start: PaperPoint, end: PaperPoint) -> int:
        """How many straight pieces a line from one point to another crosses."""
        lines = self._near_lines(
            min(start.x, end.x) - _HAIR,
            min(start.y, end.y) - _HAIR,
            max(start.x, end.x) + _HAIR,
            max(start.y, end.y) + _HAIR,
        )
        x1, y1, x2, y2 = lines
        dx, dy = end.x - start.x, end.y - start.y
        a = dx * (y1 - start.y) - dy * (x1 - start.x)
        b = dx * (y2 - start.y) - dy * (x2 - start.x)
        ex, ey = x2 - x1, y2 - y1
        c = ex * (start.y - y1) - ey * (start.x - x1)
        d = ex * (end.y - y1) - ey * (end.x - x1)
        return int(np.count_nonzero((a * b < 0) & (c * d < 0)))

    def run_over_text(self, starts: _Floats, ends: _Floats, gap: float) -> NDArray[np.bool_]:
        """Which of many lines (n, 2 each: x, y) come nearer to a kept box than ``gap`` mm."""
        _, boxes = self._rows()
        low, high = boxes[:, :2] - gap, boxes[:, 2:] + gap
        near = np.all(
            (np.maximum(starts, ends)[:, None] > low[None])
            & (np.minimum(starts, ends)[:, None] < high[None]),
            axis=2,
        )
        line, box = np.nonzero(near)
        ends_of = np.concatenate([starts[line], ends[line]], axis=1).T
        sides = _sides(ends_of, *low[box].T, *high[box].T)
        over = np.zeros(len(starts), dtype=np.bool_)
        over[line[np.abs(sides) != _ALL_CORNERS]] = True
        return over

    def runs_over_text(self, start: PaperPoint, end: PaperPoint, gap: float) -> bool:
        """Whether a line would come nearer to a kept box or a text than ``gap`` mm."""
        _, boxes = self._rows()
        left, top = boxes[:, 0] - gap, boxes[:, 1] - gap
        right, bottom = boxes[:, 2] + gap, boxes[:, 3] + gap
        near = (
            (max(start.x, end.x) > left)
            & (min(start.x, end.x) < right)
            & (max(start.y, end.y) > top)
            & (min(start.y, end.y) < bottom)
        )
        if not near.any():
            return False
        dx, dy = end.x - start.x, end.y - start.y
        corners = [
            (x[near] - start.x) * dy - (y[near] - start.y) * dx
            for x in (left, right)
            for y in (top, bottom)
        ]
        sides = np.sign(np.array(corners)).sum(axis=0)
        return bool((np.abs(sides) != 4).any())


def _sides(
    lines: _Floats,
    left: float | _Floats,
    top: float | _Floats,
    right: float | _Floats,
    bottom: float | _Floats,
) -> _Floats:
    """On how many more corners' left than right side lines pass: 4 or -4 misses the box.

    Args:
        lines: Columns x1, y1, x2, y2.
        left: Left edges of the boxes: one for all lines, or one for each.
        top: Likewise the top edges.
        right: Likewise the right edges.
        bottom: Likewise the bottom edges.
    """
    x1, y1, x2, y2 = lines
    dx, dy = x2 - x1, y2 - y1
    total: _Floats = np.zeros_like(x1)
    for x in (left, right):
        for y in (top, bottom):
            total += np.sign((x - x1) * dy - (y - y1) * dx)
    return total
