"""Is every word on the sheet readable? Finds lettering that other ink runs into.

Texts are measured by the font they are printed in. Lines are taken without their width, so a
margin around each text stands for half a line. All pairs are compared at once with numpy, by
bounding boxes first and exactly where these meet.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from drawings.lettering import text_box
from drawings.marks import Arc, Circle, Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.number import number
from drawings.style import SMALLEST_HEIGHT

_Floats = NDArray[np.float64]

Drawn = Line | Polyline | Circle | Arc
"""A mark that can run through a text."""

_TOUCH = 0.1
# A line that comes nearer to a text than this touches it, mm: about half a narrow line.

_GRACE = 0.02
# Two texts, or a text and the edge of its space, may overlap by this much, mm: rounding.

_SAGITTA = 0.05
# How far the chords that stand for an arc may lie inside it, mm.

_PAPER_INKS = frozenset({Ink.SHADE})
# What lettering may stand on.


class CollisionKind(Enum):
    """What is wrong with a text."""

    TEXT_ON_TEXT = "text on text"
    LINE_THROUGH_TEXT = "line through text"
    OUTSIDE_SPACE = "text outside the drawing space"
    TOO_SMALL = "text too small"


@dataclass(frozen=True, slots=True, kw_only=True)
class Collision:
    """One fault of a sheet.

    Attributes:
        kind: What is wrong.
        text: The text concerned.
        other: What runs into it; None if the text is wrong by itself.
        sentence: What is wrong and where on the paper, in words.
    """

    kind: CollisionKind
    text: Text
    other: Text | Drawn | None
    sentence: str


@dataclass(frozen=True, slots=True)
class _Lettered:
    """A text, the paper it covers, and the number of its dimension group (0 for none)."""

    text: Text
    box: PaperBox
    dimension: int
    is_in_frame: bool


@dataclass(frozen=True, slots=True)
class _Stroke:
    """The mark that straight pieces come from, and the number of its dimension group."""

    mark: Drawn
    dimension: int


@dataclass(slots=True)
class _Sheet:
    """The marks of a sheet taken out of their groups.

    ``ends`` has x and y of the two ends of each straight piece, mm; ``strokes`` has for each
    piece the stroke it comes from, the same object for all pieces of one mark.
    """

    letters: list[_Lettered]
    strokes: list[_Stroke]
    ends: list[tuple[float, float, float, float]]
    dimensions: int = 0


def lint_sheet(marks: Sequence[Mark], space: PaperBox) -> tuple[Collision, ...]:
    """Find every text on a sheet that is hard or impossible to read.

    Found are: text on text; text that any line, arc or outline of another mark runs through or
    touches, or that lies wholly within a filled mark (a shade may lie under text); text
    outside the drawing space, the names of the grid's fields excepted; lettering below 2.5 mm.
    In a group ``dimension`` the tails of letters may hang over the group's own dimension line
    as long as the baseline keeps clear of it.

    Args:
        marks: All that is drawn, groups included.
        space: The drawing space, mm.

    Returns:
        The faults, first those of single texts, then by the order of the texts; none for a
        clean sheet. Each pair of marks is named once.

    Raises:
        UnknownNameError: The drawing font lacks a letter.
    """
    sheet = _Sheet([], [], [])
    _take(marks, sheet, dimension=0, is_in_frame=False)
    if not sheet.letters:
        return ()
    return (
        *_faults_of_single_texts(sheet.letters, space),
        *_texts_on_texts(sheet.letters),
        *_lines_through_texts(sheet),
    )


def _take(marks: Sequence[Mark], sheet: _Sheet, *, dimension: int, is_in_frame: bool) -> None:
    for mark in marks:
        if isinstance(mark, Group):
            inner = dimension
            if mark.name == "dimension":
                sheet.dimensions += 1
                inner = sheet.dimensions
            _take(
                mark.marks,
                sheet,
                dimension=inner,
                is_in_frame=is_in_frame or mark.name == "frame",
            )
        elif isinstance(mark, Text):
            if mark.text.strip():
                sheet.letters.append(_Lettered(mark, text_box(mark), dimension, is_in_frame))
        elif mark.ink not in _PAPER_INKS:
            pieces = _straight_pieces(mark)
            sheet.ends += pieces
            sheet.strokes += [_Stroke(mark, dimension)] * len(pieces)


def _straight_pieces(mark: Drawn) -> list[tuple[float, float, float, float]]:
    match mark:
        case Line(start, end):
            return [(start.x, start.y, end.x, end.y)]
        case Polyline(points, _, closed):
            ring = (*points, points[0]) if closed else points
            return [(a.x, a.y, b.x, b.y) for a, b in pairwise(ring)]
        case Circle(centre, radius):
            return _chords(centre, radius, 0.0, 360.0)
        case Arc(centre, radius, start, end):
            return _chords(centre, radius, start, end)


def _chords(
    centre: PaperPoint, radius: float, start: float, end: float
) -> list[tuple[float, float, float, float]]:
    """An arc as chords that lie at most ``_SAGITTA`` inside it."""
    step = 2 * math.acos(max(0.0, 1 - _SAGITTA / radius))
    count = max(1, math.ceil(math.radians(end - start) / step))
    turns = [math.radians(start + (end - start) * index / count) for index in range(count + 1)]
    points = [
        (centre.x + radius * math.cos(turn), centre.y + radius * math.sin(turn)) for turn in turns
    ]
    return [(*a, *b) for a, b in pairwise(points)]


def _where(text: Text) -> str:
    return f"{text.text!r} at ({number(text.at.x, 1)}, {number(text.at.y, 1)})"


def _faults_of_single_texts(letters: Sequence[_Lettered], space: PaperBox) -> Iterator[Collision]:
    allowed = space.grown(_GRACE)
    for lettered in letters:
        text = lettered.text
        if text.height < SMALLEST_HEIGHT:
            yield Collision(
                kind=CollisionKind.TOO_SMALL,
                text=text,
                other=None,
                sentence=f"{_where(text)} is {number(text.height)} mm high; lettering must be "
                f"at least {number(SMALLEST_HEIGHT)} mm",
            )
        if not lettered.is_in_frame and not allowed.contains(lettered.box):
            yield Collision(
                kind=CollisionKind.OUTSIDE_SPACE,
                text=text,
                other=None,
                sentence=f"{_where(text)} runs out of the drawing space",
            )


def _rows(boxes: Sequence[PaperBox]) -> _Floats:
    """Boxes as an array (n, 4): left, top, right, bottom in mm."""
    return np.array([(box.left, box.top, box.right, box.bottom) for box in boxes])


def _texts_on_texts(letters: Sequence[_Lettered]) -> Iterator[Collision]:
    rows = _rows([lettered.box for lettered in letters])
    left, top, right, bottom = rows.T
    meets = (
        (left[:, None] < right[None, :] - _GRACE)
        & (left[None, :] < right[:, None] - _GRACE)
        & (top[:, None] < bottom[None, :] - _GRACE)
        & (top[None, :] < bottom[:, None] - _GRACE)
    )
    for first, second in zip(*np.nonzero(np.triu(meets, k=1)), strict=True):
        one, other = letters[first].text, letters[second].text
        yield Collision(
            kind=CollisionKind.TEXT_ON_TEXT,
            text=one,
            other=other,
            sentence=f"{_where(one)} runs into {_where(other)}",
        )


def _lines_through_texts(sheet: _Sheet) -> Iterator[Collision]:
    if not sheet.strokes:
        return
    ends = np.array(sheet.ends)
    boxes = [lettered.box.grown(_TOUCH) for lettered in sheet.letters]
    texts, strokes = _pairs_that_meet(_rows(boxes), ends)
    seen: set[tuple[int, int]] = set()
    for index, stroke_index in zip(texts.tolist(), strokes.tolist(), strict=True):
        lettered, stroke = sheet.letters[index], sheet.strokes[stroke_index]
        if (index, id(stroke)) in seen or _hangs_over(lettered, stroke, ends[stroke_index]):
            continue
        seen.add((index, id(stroke)))
        yield _crossing(lettered.text, stroke.mark)
    yield from _texts_inside_fills(sheet)


def _crossing(text: Text, mark: Drawn) -> Collision:
    return Collision(
        kind=CollisionKind.LINE_THROUGH_TEXT,
        text=text,
        other=mark,
        sentence=f"{_where(text)} is crossed or touched by a mark of kind {mark.ink.value!r}",
    )


def _pairs_that_meet(boxes: _Floats, ends: _Floats) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Indices of the boxes (n, 4) and the straight pieces (m, 4) that meet, in that order."""
    left, top, right, bottom = boxes.T
    x1, y1, x2, y2 = ends.T
    near = (
        (np.minimum(x1, x2)[None, :] < right[:, None])
        & (np.maximum(x1, x2)[None, :] > left[:, None])
        & (np.minimum(y1, y2)[None, :] < bottom[:, None])
        & (np.maximum(y1, y2)[None, :] > top[:, None])
    )
    box, piece = np.nonzero(near)
    # The bounds overlap; the piece meets the box unless all four corners lie on one side.
    dx, dy = x2[piece] - x1[piece], y2[piece] - y1[piece]
    sides = [
        dx * (y[box] - y1[piece]) - dy * (x[box] - x1[piece])
        for x in (left, right)
        for y in (top, bottom)
    ]
    meets = (np.min(sides, axis=0) <= 0) & (np.max(sides, axis=0) >= 0)
    return box[meets], piece[meets]


def _hangs_over(lettered: _Lettered, stroke: _Stroke, ends: _Floats) -> bool:
    """Whether only the tails of a figure reach its own dimension line, which is allowed."""
    if stroke.mark.ink is not Ink.DIMENSION_LINE or lettered.dimension == 0:
        return False
    if stroke.dimension != lettered.dimension:
        return False
    x1, y1, x2, y2 = (float(value) for value in ends)
    # Lettering stands above its baseline, or to the left of it when it is turned.
    if lettered.text.is_upright:
        return min(y1, y2) > lettered.text.at.y + _TOUCH
    return min(x1, x2) > lettered.text.at.x + _TOUCH


def _texts_inside_fills(sheet: _Sheet) -> Iterator[Collision]:
    """Texts that lie wholly within a black area, where no outline meets them."""
    fills = {
        id(stroke): stroke.mark
        for stroke in sheet.strokes
        if stroke.mark.ink in (Ink.SOLID, Ink.ARROW) and isinstance(stroke.mark, Polyline)
    }
    # A fill that is smaller than every text, as arrows are, has none within it.
    least_width = min(lettered.box.width for lettered in sheet.letters)
    least_height = min(lettered.box.height for lettered in sheet.letters)
    for mark in fills.values():
        xs, ys = [point.x for point in mark.points], [point.y for point in mark.points]
        bounds = PaperBox(min(xs), min(ys), max(xs), max(ys))
        if bounds.width + _GRACE < least_width or bounds.height + _GRACE < least_height:
            continue
        for lettered in sheet.letters:
            if bounds.contains(lettered.box) and _is_inside(lettered.box, mark):
                yield _crossing(lettered.text, mark)


def _is_inside(box: PaperBox, shape: Polyline) -> bool:
    """Whether a corner of the box is inside; no outline meets it, so one stands for all."""
    x, y = box.left, box.top
    is_inside = False
    ring = (*shape.points, shape.points[0])
    for a, b in pairwise(ring):
        if (a.y > y) != (b.y > y) and x < a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y):
            is_inside = not is_inside
    return is_inside
