"""Lettering and leaders placed in free space, by trying places against what already stands.

Nothing here knows what it writes: it gets candidates, best first or with a cost, and takes the
first or the cheapest that runs into nothing. Lengths are in paper mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, combinations, islice, pairwise

import numpy as np
from numpy.typing import NDArray

from drawings.clutter import Clutter, NoRoom
from drawings.dimension_ink import arrow
from drawings.lettering import text_box, text_width
from drawings.marks import (
    Anchor,
    Circle,
    Group,
    Ink,
    Line,
    Mark,
    PaperBox,
    PaperPoint,
    Polyline,
    Text,
)
from drawings.style import BASELINE_SPACING, Style

_Floats = NDArray[np.float64]

_SHELF = 2.0  # level piece of a leader beside its text, mm
_AFTER_SHELF = 1.0  # from it to the text, mm
_DISTANCES = (7.0, 10.0, 13.0, 17.0, 22.0, 28.0, 36.0, 46.0, 58.0, 74.0, 92.0)
_CROSSING_COST = 14.0  # as bad as so many mm of leader
_BUSY_COST = 3.0  # each line at the leader's tip, as mm
_OUTSIDE_COST = 30.0  # a text that makes the view larger, as mm
_STEEP_COST = 0.06  # per degree away from 45, as mm
_FLATTEST, _STEEPEST = 14.0, 78.0  # a leader slopes: never level, never upright, degrees
_LEADING = ("no.", "to", "of", "for")  # words that belong to the next
_MID_PHRASE = 0.15  # by how much a line that ends within a phrase counts as longer
_LINE_COST = 5.0  # each further line of a callout, as mm
_LEADER_GAP = 0.8  # a leader's arrow from lettering, mm
_SHELF_GAP = 0.3  # its level piece from lettering, mm
_TEXT_GAP = 1.2  # round a callout, mm
_ROUND_TIP = 1.2  # lines that come nearer to a leader's tip make it busy, mm
_TOGETHER = 128  # so many spots are looked at in one go
_NEAR_STEPS = 4  # so many steps from the middle of a room are tried before all others
_FIRST_FEW = 8  # so many of a list of which the first is likely to do
_ROUNDING = 0.01  # a box that reaches out by less is within, mm


def _slope(degrees: float) -> float:
    """How far a direction is from level, degrees."""
    return abs(math.degrees(math.asin(math.sin(math.radians(degrees)))))


_DIRECTIONS = tuple(d for d in range(15, 360, 15) if _FLATTEST <= _slope(d) <= _STEEPEST)
# Unit vectors from a leader's tip to its bend, x and y.
_TOWARD = np.array([(math.cos(a), math.sin(a)) for a in map(math.radians, _DIRECTIONS)])


@dataclass(frozen=True, slots=True)
class Target:
    """What a leader may point at: a circle's outline, or a point if the radius is 0, mm."""

    centre: PaperPoint
    radius: float = 0.0


@dataclass(frozen=True, slots=True)
class _Leader:
    tip: PaperPoint
    bend: PaperPoint
    shelf: PaperPoint
    lines: tuple[str, ...]
    side: int


def placed_label(
    candidates: Iterable[Text], clutter: Clutter, *, within: PaperBox | None, gap: float
) -> Text | None:
    """The first candidate that stands free, and takes its place among the clutter.

    Args:
        candidates: Texts, best first.
        clutter: What stands already; the label is added.
        within: Box in which the text must stay; None for anywhere.
        gap: Least distance from anything else, mm.
    """
    waiting = iter(candidates)
    # Few at first: often one of the best is free, and the rest need not even be written.
    count = _FIRST_FEW
    while some := list(islice(waiting, count)):
        boxes = [text_box(text) for text in some]
        if within is not None:
            some = [text for text, box in zip(some, boxes, strict=True) if within.contains(box)]
            boxes = [box for box in boxes if within.contains(box)]
        rows = np.array([(b.left, b.top, b.right, b.bottom) for b in boxes]).reshape(-1, 4)
        free = np.flatnonzero(clutter.are_free(rows, gap))
        if len(free) > 0:
            text: Text = some[int(free[0])]
            clutter.add((text,))
            return text
        count = min(2 * count, _TOGETHER)
    return None


def free_spot(
    width: float, height: float, clutter: Clutter, *, within: PaperBox, gap: float, step: float
) -> PaperBox | None:
    """A free box of that size within another, as near to its middle as can be.

    Args:
        width: Width wanted, mm.
        height: Height wanted, mm.
        clutter: What stands already.
        within: Where to look.
        gap: Least distance from anything else, mm.
        step: How finely to look, mm.
    """
    across, down = within.width - width, within.height - height
    if across < 0 or down < 0:
        return None
    middle = np.array([within.left + across / 2, within.top + down / 2])
    counts = math.floor(across / step) + 1, math.floor(down / step) + 1
    for is_near in (True, False):
        corners = middle + step * _steps_out(*counts, is_near=is_near)
        boxes = np.concatenate([corners, corners + np.array([width, height])], axis=1)
        boxes = boxes[_are_within(boxes, within.grown(_ROUNDING))]
        for begin in range(0, len(boxes), _TOGETHER):
            some = boxes[begin : begin + _TOGETHER]
            free = clutter.are_free(some, gap)
            if free.any():
                return PaperBox(*some[np.argmax(free)].tolist())
    return None


def _steps_out(across: int, down: int, *, is_near: bool) -> _Floats:
    """Steps (n, 2) from a middle to the places of a grid, nearest first, near or far ones.

    A step down counts for more than one across, and ties go left and up. Most often one of the
    near ones will do, and they are the same on every grid that is not very small.
    """
    if is_near:
        return _sorted_steps(min(across, 2 * _NEAR_STEPS + 1), min(down, 2 * _NEAR_STEPS + 1))[0]
    return _sorted_steps(across, down)[1]


@lru_cache(maxsize=64)
def _sorted_steps(across: int, down: int) -> tuple[_Floats, _Floats]:
    """Steps to the places of a grid of so many by so many, sorted: the near and the far ones."""
    swings = [np.array([_swing(i) for i in range(count)]) for count in (across, down)]
    dx, dy = (grid.ravel() for grid in np.meshgrid(*swings, indexing="ij"))
    away = np.hypot(dx, 1.6 * dy)
    order = np.lexsort((dy, dx, away))
    steps = np.stack([dx, dy], axis=1)[order].astype(np.float64)
    near = int(np.count_nonzero(away <= _NEAR_STEPS))
    return steps[:near], steps[near:]


def _swing(index: int) -> int:
    """0, -1, 1, -2, 2 ..."""
    return (index + 1) // 2 * (1 if index % 2 == 0 else -1)


def placed_callout(
    text: str,
    title: str,
    targets: Sequence[Target],
    clutter: Clutter,
    style: Style,
    *,
    home: PaperBox,
    within: PaperBox,
    is_dotted: bool = False,
) -> Group:
    """A text on a leader, where leader and text cost least; it is added to the clutter.

    A short leader is good; one that crosses lines is bad; one that runs over lettering, or a
    text that touches anything, is out of the question.

    Args:
        text: What is told.
        title: What it is about, for the group.
        targets: What the leader may point at; any will do.
        clutter: What stands already.
        style: Heights and gaps.
        home: Where the text should stand, so that the view does not grow.
        within: Where the text may stand.
        is_dotted: End in a dot within a surface instead of an arrow at a line.

    Returns:
        The group ``note``.

    Raises:
        NoRoom: no place is free.
    """
    forms = _forms(text, style)
    leaders = _Leaders(forms, targets, style)
    best = _cheapest(leaders, clutter, home=home, within=within)
    if best is None:
        raise NoRoom(title)
    group = _leader_group(leaders.leader(best), title, style, is_dotted=is_dotted)
    clutter.add(group.marks)
    return group


class _Leaders:
    """All leaders that could be drawn, row by row; lengths in mm.

    Of two rows that are equally good the upper one is taken.
    """

    def __init__(
        self, forms: Sequence[tuple[str, ...]], targets: Sequence[Target], style: Style
    ) -> None:
        self._forms = forms
        shapes = _shapes(len(forms))
        self.costs = np.tile(shapes.costs, len(targets))
        self._form = np.tile(shapes.forms, len(targets))
        distances = np.tile(shapes.distances, len(targets))
        # One place for each target and direction, many leaders that end there.
        centres = np.array([(one.centre.x, one.centre.y) for one in targets])
        radii = np.array([one.radius for one in targets])
        places = centres[:, None] + radii[:, None, None] * _TOWARD
        self.places = places.reshape(-1, 2)
        self.place_of = np.repeat(np.arange(len(self.places)), len(shapes.costs) // len(_TOWARD))
        toward = _TOWARD[self.place_of % len(_TOWARD)]
        self._side = np.where(toward[:, 0] > 0, 1.0, -1.0)
        self.tips = self.places[self.place_of]
        self.bends = self.tips + distances[:, None] * toward
        self.shelves = self.bends + np.outer(self._side, (_SHELF, 0.0))
        self.boxes = self._text_boxes(style)

    def _text_boxes(self, style: Style) -> _Floats:
        """What the texts cover, (n, 4): left, top, right, bottom."""
        shapes = [_texts(lines, PaperPoint(0.0, 0.0), Anchor.START, style) for lines in self._forms]
        extents = np.array([(b.width, b.top, b.bottom) for b in map(_box_around, shapes)])
        width, rise, fall = extents[self._form].T
        x = self.bends[:, 0] + self._side * (_SHELF + _AFTER_SHELF)
        y = self.bends[:, 1] + style.figure_height / 2
        left = np.where(self._side > 0, x, x - width)
        return np.stack([left, y + rise, left + width, y + fall], axis=1)

    def leader(self, row: int) -> _Leader:
        """One of them, to be drawn."""
        tip, bend, shelf = (
            PaperPoint(*places[row].tolist()) for places in (self.tips, self.bends, self.shelves)
        )
        return _Leader(tip, bend, shelf, self._forms[self._form[row]], int(self._side[row]))


def _cheapest(
    leaders: _Leaders, clutter: Clutter, *, home: PaperBox, within: PaperBox
) -> int | None:
    """The row of the leader that costs least, None if none is free.

    What each costs at least is known soon. They are looked at in that order, and no further
    than the best of them costs in all: most are never compared with what stands on the paper.
    """
    rows = np.flatnonzero(_are_within(leaders.boxes, within))
    if len(rows) == 0:
        return None
    alone = leaders.costs[rows]
    alone += np.where(_are_within(leaders.boxes[rows], home), 0.0, _OUTSIDE_COST)
    # A tip that stands where several lines meet leaves open which of them is meant.
    ends = np.concatenate([leaders.places - _ROUND_TIP, leaders.places + _ROUND_TIP], axis=1)
    least = alone + _BUSY_COST * clutter.are_hit(ends, 0.0)[leaders.place_of[rows]]
    order = np.argsort(least)
    best = (math.inf, math.inf, 0)
    for begin in range(0, len(order), _TOGETHER):
        some = order[begin : begin + _TOGETHER]
        if least[some[0]] > best[0]:
            break
        some = some[_are_free(leaders, rows[some], clutter)]
        if len(some) == 0:
            continue
        here = rows[some]
        crossed = clutter.are_crossed(leaders.tips[here], leaders.bends[here])
        crossed += clutter.are_crossed(leaders.bends[here], leaders.shelves[here])
        total = least[some] + _CROSSING_COST * crossed
        # Of equal costs in all, that one is taken which costs less before lines are counted.
        first = np.lexsort((here, alone[some], total))[0]
        best = min(best, (float(total[first]), float(alone[some[first]]), int(here[first])))
    return None if math.isinf(best[0]) else best[2]


def _are_free(leaders: _Leaders, rows: NDArray[np.intp], clutter: Clutter) -> NDArray[np.bool_]:
    """Of which leaders the text touches nothing, and the line no lettering."""
    free = clutter.are_free(leaders.boxes[rows], _TEXT_GAP)
    for starts, ends, gap in (
        (leaders.tips, leaders.bends, _LEADER_GAP),
        (leaders.bends, leaders.shelves, _SHELF_GAP),
    ):
        still = rows[free]
        free[free] = ~clutter.run_over_text(starts[still], ends[still], gap)
    return free


def _are_within(boxes: _Floats, room: PaperBox) -> NDArray[np.bool_]:
    inside: NDArray[np.bool_] = (
        (boxes[:, 0] >= room.left)
        & (boxes[:, 1] >= room.top)
        & (boxes[:, 2] <= room.right)
        & (boxes[:, 3] <= room.bottom)
    )
    return inside


def _forms(text: str, style: Style) -> list[tuple[str, ...]]:
    """A text on one line, and broken into two and three of about equal width."""
    words = text.split()
    # Where each word ends on the one line, and what a blank takes, mm.
    blank = text_width(" ", style.figure_height)
    ends = list(
        accumulate((text_width(w, style.figure_height) + blank for w in words), initial=0.0)
    )
    found: list[tuple[str, ...]] = [(text,)]
    whole = ends[-1] - blank
    free = [at for at in range(1, len(words)) if _may_part(words[at - 1], words[at])]
    for count in range(2, 4 if whole > 60.0 else 3 if whole > 30.0 else 2):
        ways = []
        for breaks in combinations(free, count - 1):
            widest = max(ends[b] - ends[a] for a, b in pairwise((0, *breaks, len(words)))) - blank
            # Lines are made worse that do not end where a phrase does.
            torn = sum(not words[at - 1].endswith((",", ";")) for at in breaks)
            ways.append((round(widest * (1.0 + _MID_PHRASE * torn), 6), breaks))
        if ways:
            at = (0, *min(ways)[1], len(words))
            found.append(tuple(" ".join(words[a:b]) for a, b in pairwise(at)))
    return found


def _may_part(one: str, other: str) -> bool:
    """Whether a line may end between two words: not beside a times sign, nor after ``no.``."""
    return "×" not in (one, other) and one not in _LEADING


@dataclass(frozen=True, slots=True)
class _Shapes:
    """How a leader to one target can run, row by row.

    Attributes:
        costs: What it costs in any case, mm.
        distances: From its tip to its bend, mm.
        forms: Which form of the text stands at its end.
    """

    costs: _Floats
    distances: _Floats
    forms: NDArray[np.intp]


@lru_cache(maxsize=4)
def _shapes(forms: int) -> _Shapes:
    """All of them, direction by direction, where a text has so many forms."""
    found = [
        (distance + abs(_slope(degrees) - 45.0) * _STEEP_COST + _LINE_COST * form, distance, form)
        for degrees in _DIRECTIONS
        for distance in _DISTANCES
        for form in range(forms)
    ]
    costs, distances, form_of = (np.array(column) for column in zip(*found, strict=True))
    return _Shapes(costs, distances, form_of)


def _texts(lines: Sequence[str], at: PaperPoint, anchor: Anchor, style: Style) -> tuple[Text, ...]:
    height = style.figure_height
    return tuple(
        Text(at.moved(0.0, index * BASELINE_SPACING * height), line, height, anchor)
        for index, line in enumerate(lines)
    )


def _box_around(texts: Sequence[Text]) -> PaperBox:
    boxes = [text_box(text) for text in texts]
    return PaperBox(
        min(box.left for box in boxes),
        boxes[0].top,
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def _leader_group(leader: _Leader, title: str, style: Style, *, is_dotted: bool) -> Group:
    end: Mark
    if is_dotted:
        end = Circle(leader.tip, style.dot_diameter / 2, Ink.SOLID)
    else:
        direction = math.degrees(
            math.atan2(leader.tip.y - leader.bend.y, leader.tip.x - leader.bend.x)
        )
        end = arrow(leader.tip, direction, style)
    line = Polyline((leader.tip, leader.bend, leader.shelf), Ink.LEADER)
    at = leader.shelf.moved(leader.side * _AFTER_SHELF, style.figure_height / 2)
    anchor = Anchor.START if leader.side > 0 else Anchor.END
    texts = _texts(leader.lines, at, anchor, style)
    return Group("note", (line, end, *texts), title=title)


def grain_marks(box: PaperBox, style: Style, *, is_level: bool) -> tuple[Mark, ...]:
    """A double arrow along the face grain with its word, filling ``box``."""
    height = style.label_height
    if is_level:
        line = Line(
            PaperPoint(box.left, box.bottom - 0.5),
            PaperPoint(box.right, box.bottom - 0.5),
            Ink.NARROW,
        )
        at = PaperPoint((box.left + box.right) / 2, box.bottom - 0.5 - style.text_gap)
        turns = (180.0, 0.0)
    else:
        line = Line(
            PaperPoint(box.right - 0.5, box.top),
            PaperPoint(box.right - 0.5, box.bottom),
            Ink.NARROW,
        )
        at = PaperPoint(box.right - 0.5 - style.text_gap, (box.top + box.bottom) / 2)
        turns = (270.0, 90.0)
    word = Text(at, "grain", height, Anchor.MIDDLE, is_upright=is_level)
    ends = (arrow(line.start, turns[0], style), arrow(line.end, turns[1], style))
    return line, *ends, word
