"""Where a part is in the unit: a small isometric picture of all boxes with one of them shaded.

Edges behind other boxes are left out; the part in question is drawn over all, so that it is
found even inside. Source: ISO 5456-3:1996, isometric: three axes 120 degrees apart, equal
scales.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from cabinet.frame import UnitBox, Vector
from drawings.curves import ViewPoint
from drawings.marks import Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline
from drawings.view_frame import ISOMETRIC

_SAMPLES = 48
_CLEAR = 1e-3  # how far before a box a point must lie not to touch it, mm

Corner = tuple[int, int, int]

# The view is from front, left and above: the corner that is nearest, and the one hidden.
_NEAR: Corner = (0, 0, 1)
_FAR: Corner = (1, 1, 0)


def _edges() -> tuple[tuple[Corner, Corner], ...]:
    """The nine edges of a box that are seen: all that do not meet in the hidden corner."""
    corners = [(i, j, k) for i in (0, 1) for j in (0, 1) for k in (0, 1)]
    return tuple(
        (a, b)
        for a in corners
        for b in corners
        if a < b and sum(x != y for x, y in zip(a, b, strict=True)) == 1 and _FAR not in (a, b)
    )


_SEEN = _edges()
# Round the outline, without the near and the far corner.
_OUTLINE: tuple[Corner, ...] = (
    (0, 0, 0),
    (1, 0, 0),
    (1, 0, 1),
    (1, 1, 1),
    (0, 1, 1),
    (0, 1, 0),
)


def _corner(box: UnitBox, corner: Corner) -> Vector:
    low, high = tuple(box.low), tuple(box.high)
    x, y, z = ((high if c else low)[axis] for axis, c in enumerate(corner))
    return x, y, z


def _hidden(points: NDArray[np.float64], boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which points (n, 3) lie behind a box (m, 2, 3), seen along the isometric direction."""
    toward = np.array(ISOMETRIC.toward)
    # Slab by slab: for which distances towards the viewer is the point inside the box.
    with np.errstate(divide="ignore"):
        one = (boxes[None, :, 0, :] - points[:, None, :]) / toward
        two = (boxes[None, :, 1, :] - points[:, None, :]) / toward
    enter = np.minimum(one, two).max(axis=2)
    leave = np.maximum(one, two).min(axis=2)
    found: NDArray[np.bool_] = (leave - np.maximum(enter, _CLEAR) > _CLEAR).any(axis=1)
    return found


@lru_cache(maxsize=16)
def _seen_lines(boxes: tuple[UnitBox, ...]) -> tuple[tuple[ViewPoint, ViewPoint], ...]:
    """The visible pieces of all edges, as the view shows them, mm."""
    solid = np.array([[tuple(box.low), tuple(box.high)] for box in boxes])
    shares = (np.arange(_SAMPLES) + 0.5) / _SAMPLES
    found: list[tuple[ViewPoint, ViewPoint]] = []
    for box in boxes:
        ends = np.array([(_corner(box, a), _corner(box, b)) for a, b in _SEEN])
        starts, runs = ends[:, 0], ends[:, 1] - ends[:, 0]
        points = starts[:, None] + shares[:, None] * runs[:, None]
        are_seen = ~_hidden(points.reshape(-1, 3), solid).reshape(len(_SEEN), _SAMPLES)
        for start, run, is_seen in zip(starts, runs, are_seen.tolist(), strict=True):
            index = 0
            while index < _SAMPLES:
                if not is_seen[index]:
                    index += 1
                    continue
                last = index
                while last < _SAMPLES and is_seen[last]:
                    last += 1
                low, high = (start + run * k / _SAMPLES for k in (index, last))
                found.append((_seen_at(_vector(low)), _seen_at(_vector(high))))
                index = last
    return tuple(found)


def _seen_at(point: Vector) -> ViewPoint:
    return ISOMETRIC.model_to_view(point)


def _vector(values: NDArray[np.float64]) -> Vector:
    return float(values[0]), float(values[1]), float(values[2])


def key_marks(
    boxes: Mapping[str, UnitBox], highlight: Collection[str], box: PaperBox
) -> tuple[Mark, ...]:
    """The picture, as large as fits into a box and in its middle, as one group ``key``.

    Args:
        boxes: Every part's box in the unit.
        highlight: Names of the parts to be shaded and drawn heavy.
        box: Where it goes on the sheet, mm.

    Returns:
        No marks if there are no boxes.
    """
    if not boxes:
        return ()
    ordered = tuple(boxes[name] for name in sorted(boxes))
    paper, lines = _unit_lines(ordered, box)
    marked = [
        {c: paper.point(_seen_at(_corner(boxes[name], c))) for c in (*_OUTLINE, _NEAR)}
        for name in sorted(highlight)
        if name in boxes
    ]
    marks: list[Mark] = [
        Polyline(tuple(at[c] for c in _OUTLINE), Ink.SHADE, closed=True) for at in marked
    ]
    marks += lines
    marks += [Line(at[a], at[b], Ink.VISIBLE) for at in marked for a, b in _SEEN]
    return (Group("key", tuple(marks), title="place in the unit"),)


@dataclass(frozen=True, slots=True)
class _KeyPaper:
    """How the picture lies on the sheet: its scale, and where the view's origin is, mm."""

    scale: float
    x: float
    y: float

    def point(self, point: ViewPoint) -> PaperPoint:
        """Where a point of the view is drawn."""
        return PaperPoint(self.x + point.u * self.scale, self.y - point.v * self.scale)


@lru_cache(maxsize=16)
def _unit_lines(boxes: tuple[UnitBox, ...], box: PaperBox) -> tuple[_KeyPaper, tuple[Line, ...]]:
    """How the picture lies in a box, and the lines of the unit: on most sheets the same."""
    corners = [_seen_at(_corner(one, c)) for one in boxes for c in (*_OUTLINE, _NEAR)]
    us, vs = [point.u for point in corners], [point.v for point in corners]
    width, height = max(us) - min(us), max(vs) - min(vs)
    scale = min(box.width / width, box.height / height)
    x = box.left + (box.width - scale * width) / 2 - scale * min(us)
    y = box.top + (box.height - scale * height) / 2 + scale * max(vs)
    paper = _KeyPaper(scale, x, y)
    lines = (Line(paper.point(a), paper.point(b), Ink.NARROW) for a, b in _seen_lines(boxes))
    return paper, tuple(lines)
