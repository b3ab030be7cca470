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


class Clutter:
    """Lines and lettering already placed."""

    def __init__(self, marks: Iterable[Mark] = ()) -> None:
        self._lines: list[tuple[float, float, float, float]] = []
        self._boxes: list[tuple[float, float, float, float]] = []
        self._line_rows: _Floats | None = None
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
        if self._line_rows is None:
            self._line_rows = np.array(self._lines, dtype=np.float64).reshape(-1, 4)
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

    def lines_hit(self, box: PaperBox, gap: float) -> int:
        """How many straight pieces come nearer to a box than ``gap`` mm (corners squared)."""
        lines, _ = self._rows()
        return int(np.count_nonzero(_meet(lines, box.grown(gap))))

    def is_free(self, box: PaperBox, gap: float) -> bool:
        """Whether nothing comes nearer to the box than ``gap`` mm."""
        return self.boxes_hit(box, gap) == 0 and self.lines_hit(box, gap) == 0

    def crossings(self, start: PaperPoint, end: PaperPoint) -> int:
        """How many straight pieces a line from one point to another crosses."""
        lines, _ = self._rows()
        x1, y1, x2, y2 = lines.T
        dx, dy = end.x - start.x, end.y - start.y
        a = dx * (y1 - start.y) - dy * (x1 - start.x)
        b = dx * (y2 - start.y) - dy * (x2 - start.x)
        ex, ey = x2 - x1, y2 - y1
        c = ex * (start.y - y1) - ey * (start.x - x1)
        d = ex * (end.y - y1) - ey * (end.x - x1)
        return int(np.count_nonzero((a * b < 0) & (c * d < 0)))

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


def _meet(lines: _Floats, box: PaperBox) -> NDArray[np.bool_]:
    """Which lines have a point in common with a box."""
    near = (
        (np.maximum(lines[:, 0], lines[:, 2]) > box.left)
        & (np.minimum(lines[:, 0], lines[:, 2]) < box.right)
        & (np.maximum(lines[:, 1], lines[:, 3]) > box.top)
        & (np.minimum(lines[:, 1], lines[:, 3]) < box.bottom)
    )
    if not near.any():
        return near
    # A near line misses the box only if all four corners lie on one side of it.
    x1, y1, x2, y2 = lines[near].T
    corners = [
        (x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)
        for x in (box.left, box.right)
        for y in (box.top, box.bottom)
    ]
    sides = np.sign(np.array(corners)).sum(axis=0)
    near[near] = np.abs(sides) != 4
    return near
