"""What marks cover of the paper: straight pieces, chords of arcs, lettering, and a box around all.

Everything is in paper mm; arcs are taken as chords, which leave them by a tenth of it at most.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from drawings.lettering import text_box
from drawings.marks import Arc, Circle, Group, Ink, Line, Mark, PaperBox, Polyline, Text

_Floats = NDArray[np.float64]
_Row = tuple[float, float, float, float]

# A chord that stands for an arc turns by no more, degrees, nor leaves it by more, mm.
_LARGEST_TURN = 72.0
_CHORD_ERROR = 0.1


def _chords(start: float, end: float, radius: float) -> int:
    """How many chords stand for an arc."""
    turn = math.degrees(2.0 * math.acos(max(0.0, 1.0 - _CHORD_ERROR / radius)))
    return max(2, math.ceil((end - start) / min(turn, _LARGEST_TURN)))


@lru_cache(maxsize=256)
def _turns(start: float, end: float, count: int) -> _Floats:
    """Unit vectors to the corners between the chords of an arc, (n, 2); many arcs share them."""
    angles = [math.radians(start + (end - start) * i / count) for i in range(count + 1)]
    return np.array([(math.cos(a), math.sin(a)) for a in angles])


@lru_cache(maxsize=256)
def _reach(start: float, end: float) -> _Row:
    """Least x and y, greatest x and y of an arc, as parts of its radius."""
    quarters = range(math.ceil(start / 90.0), math.floor(end / 90.0) + 1)
    angles = [math.radians(angle) for angle in (start, end, *(90.0 * k for k in quarters))]
    x, y = [math.cos(a) for a in angles], [math.sin(a) for a in angles]
    return min(x), min(y), max(x), max(y)


class Ground:
    """The paper that marks cover, gathered once for all who ask.

    Attributes:
        lines: Straight pieces, without those around shaded areas: x1, y1, x2, y2.
        texts: Lettering.
    """

    def __init__(self, marks: Iterable[Mark]) -> None:
        self.texts: list[Text] = []
        self.lines: list[_Row] = []
        self._shades: list[_Row] = []
        self._arcs: dict[tuple[float, float, int], list[tuple[float, float, float]]] = {}
        self._gather(marks)

    def _gather(self, marks: Iterable[Mark]) -> None:
        for mark in marks:
            match mark:
                case Line():
                    start, end = mark.start, mark.end
                    self.lines.append((start.x, start.y, end.x, end.y))
                case Text():
                    self.texts.append(mark)
                case Group():
                    self._gather(mark.marks)
                case Polyline():
                    points = [(point.x, point.y) for point in mark.points]
                    if mark.closed:
                        points.append(points[0])
                    rows = self._shades if mark.ink is Ink.SHADE else self.lines
                    rows += [(*one, *other) for one, other in pairwise(points)]
                case Circle():
                    self._add_arc(mark, 0.0, 360.0)
                case Arc():
                    self._add_arc(mark, mark.start, mark.end)

    def _add_arc(self, mark: Circle | Arc, start: float, end: float) -> None:
        ring = (mark.centre.x, mark.centre.y, mark.radius)
        self._arcs.setdefault((start, end, _chords(start, end, mark.radius)), []).append(ring)

    def chords(self) -> list[_Floats]:
        """The chords of all arcs, (n, 4) each: x1, y1, x2, y2."""
        found = []
        for turn, rings in self._arcs.items():
            x, y, radius = np.array(rings).T[:, :, None, None]
            corners = np.concatenate([x, y], axis=2) + radius * _turns(*turn)
            found.append(np.concatenate([corners[:, :-1], corners[:, 1:]], axis=2).reshape(-1, 4))
        return found

    @property
    def box(self) -> PaperBox | None:
        """The smallest box around all, lettering included; None if there is nothing."""
        boxes = [(box.left, box.top, box.right, box.bottom) for box in map(text_box, self.texts)]
        for (start, end, _), rings in self._arcs.items():
            left, top, right, bottom = _reach(start, end)
            boxes += [
                (x + r * left, y + r * top, x + r * right, y + r * bottom) for x, y, r in rings
            ]
        rows = [*self.lines, *self._shades, *boxes]
        if not rows:
            return None
        x1, y1, x2, y2 = zip(*rows, strict=True)
        return PaperBox(min(*x1, *x2), min(*y1, *y2), max(*x1, *x2), max(*y1, *y2))


def marks_box(marks: Iterable[Mark]) -> PaperBox | None:
    """The smallest box around all marks, lettering included; None if there are none."""
    return Ground(marks).box


def texts(mark: Mark) -> list[Text]:
    """The texts in a mark."""
    if isinstance(mark, Text):
        return [mark]
    return [t for inner in mark.marks for t in texts(inner)] if isinstance(mark, Group) else []
