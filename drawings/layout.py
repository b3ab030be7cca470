"""Lettering and leaders placed in free space, by trying places against what already stands.

Nothing here knows what it writes: it gets candidates, best first or with a cost, and takes the
first or the cheapest that runs into nothing. Lengths are in paper mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from drawings.clutter import Clutter, NoRoom
from drawings.dimension_ink import arrow
from drawings.fitting import wrapped
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

_SHELF = 2.0  # level piece of a leader beside its text, mm
_AFTER_SHELF = 1.0  # from it to the text, mm
_DISTANCES = (7.0, 10.0, 13.0, 17.0, 22.0, 28.0, 36.0, 46.0, 58.0, 74.0, 92.0)
_DIRECTIONS = tuple(range(15, 360, 15))
_CROSSING_COST = 14.0  # as bad as so many mm of leader
_BUSY_COST = 3.0  # each line at the leader's tip, as mm
_OUTSIDE_COST = 30.0  # a text that makes the view larger, as mm
_STEEP_COST = 0.06  # per degree away from 45, as mm
_FLATTEST, _STEEPEST = 14.0, 78.0  # a leader slopes: never level, never upright, degrees
_LINE_COST = 5.0  # each further line of a callout, as mm
_LEADER_GAP = 0.8  # a leader's arrow from lettering, mm
_SHELF_GAP = 0.3  # its level piece from lettering, mm
_TEXT_GAP = 1.2  # round a callout, mm
_TOGETHER = 128  # so many spots are looked at in one go
_ROUNDING = 0.01  # a box that reaches out by less is within, mm


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
    for text in candidates:
        box = text_box(text)
        if within is not None and not within.contains(box):
            continue
        if clutter.is_free(box, gap):
            clutter.add((text,))
            return text
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
    steps_x = np.array([_swing(i) for i in range(math.floor(across / step) + 1)]) * step
    steps_y = np.array([_swing(j) for j in range(math.floor(down / step) + 1)]) * step
    dx, dy = (grid.ravel() for grid in np.meshgrid(steps_x, steps_y, indexing="ij"))
    left, top = within.left + across / 2 + dx, within.top + down / 2 + dy
    boxes = np.stack([left, top, left + width, top + height], axis=1)
    # Nearest to the middle first; a step down counts for more, and ties go left and up.
    order = np.lexsort((top, left, np.hypot(dx, 1.6 * dy)))
    boxes = boxes[order][_are_within(boxes[order], within.grown(_ROUNDING))]
    for begin in range(0, len(boxes), _TOGETHER):
        some = boxes[begin : begin + _TOGETHER]
        free = ~clutter.are_on_text(some, gap) & ~clutter.are_on_lines(some, gap)
        if free.any():
            found = some[np.argmax(free)]
            return PaperBox(*(float(value) for value in found))
    return None


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
    best: _Leader | None = None
    least = math.inf
    for base, target, degrees, distance, index in _hopeful(
        forms, targets, clutter, style, home, within
    ):
        if base >= least:
            break
        leader = _leader(forms[index], targets[target], degrees, distance)
        # A tip that stands where several lines meet leaves open which of them is meant.
        cost = base + _BUSY_COST * clutter.lines_hit(_round_tip(leader.tip), 0.0)
        if cost >= least:
            continue
        crossed = clutter.crossings(leader.tip, leader.bend)
        crossed += clutter.crossings(leader.bend, leader.shelf)
        if cost + _CROSSING_COST * crossed < least:
            best, least = leader, cost + _CROSSING_COST * crossed
    if best is None:
        raise NoRoom(title)
    group = _leader_group(best, title, style, is_dotted=is_dotted)
    clutter.add(group.marks)
    return group


def _round_tip(tip: PaperPoint) -> PaperBox:
    return PaperBox(tip.x, tip.y, tip.x, tip.y).grown(1.2)


def _hopeful(
    forms: list[tuple[str, ...]],
    targets: Sequence[Target],
    clutter: Clutter,
    style: Style,
    home: PaperBox,
    within: PaperBox,
) -> list[tuple[float, int, int, float, int]]:
    """The tries that stand within bounds and touch no lettering or line, cheapest first.

    All are looked at together, since most of them fail on this alone.
    """
    tries = _tries(len(forms))
    costs, degrees, distances, index = (np.array(column) for column in zip(*tries, strict=True))
    ux, uy = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    side = np.where(ux > 0, 1.0, -1.0)
    shapes = [_texts(lines, PaperPoint(0.0, 0.0), Anchor.START, style) for lines in forms]
    extents = [_box_around(texts) for texts in shapes]
    width = np.array([box.width for box in extents])[index]
    rise = np.array([box.top for box in extents])[index]
    fall = np.array([box.bottom for box in extents])[index]
    found: list[tuple[float, int, int, float, int]] = []
    for number, target in enumerate(targets):
        reach = target.radius + distances
        x = target.centre.x + reach * ux + side * (_SHELF + _AFTER_SHELF)
        y = target.centre.y + reach * uy + style.figure_height / 2
        left = np.where(side > 0, x, x - width)
        boxes = np.stack([left, y + rise, left + width, y + fall], axis=1)
        is_hopeful = _are_within(boxes, within) & ~clutter.are_on_text(boxes, _TEXT_GAP)
        is_hopeful[is_hopeful] = ~clutter.are_on_lines(boxes[is_hopeful], _TEXT_GAP)
        tips = np.stack(
            [target.centre.x + target.radius * ux, target.centre.y + target.radius * uy], axis=1
        )
        bends = np.stack([target.centre.x + reach * ux, target.centre.y + reach * uy], axis=1)
        shelves = bends + np.stack([side * _SHELF, np.zeros_like(side)], axis=1)
        for starts, ends, gap in ((tips, bends, _LEADER_GAP), (bends, shelves, _SHELF_GAP)):
            over = clutter.run_over_text(starts[is_hopeful], ends[is_hopeful], gap)
            is_hopeful[is_hopeful] = ~over
        total = costs + np.where(_are_within(boxes, home), 0.0, _OUTSIDE_COST)
        for row in np.flatnonzero(is_hopeful):
            degree, distance, form = int(degrees[row]), float(distances[row]), int(index[row])
            found.append((float(total[row]), number, degree, distance, form))
    return sorted(found)


def _are_within(boxes: NDArray[np.float64], room: PaperBox) -> NDArray[np.bool_]:
    inside: NDArray[np.bool_] = (
        (boxes[:, 0] >= room.left)
        & (boxes[:, 1] >= room.top)
        & (boxes[:, 2] <= room.right)
        & (boxes[:, 3] <= room.bottom)
    )
    return inside


def _forms(text: str, style: Style) -> list[tuple[str, ...]]:
    """A text on one line, and broken into two and three of about equal width."""
    whole = text_width(text, style.figure_height)
    found: list[tuple[str, ...]] = [(text,)]
    for count in range(2, 4 if whole > 60.0 else 3 if whole > 30.0 else 2):
        for slack in (1.0, 1.1, 1.2, 1.35):
            lines = wrapped(text, whole / count * slack + 0.1, style.figure_height)
            # A word broken in two would read as two.
            if len(lines) == count and " ".join(lines) == " ".join(text.split()):
                found.append(lines)
                break
    return found


@lru_cache(maxsize=4)
def _tries(forms: int) -> tuple[tuple[float, int, float, int], ...]:
    """What to try, cheapest first: cost in mm, direction in degrees, distance, form of text."""
    found = []
    for degrees in _DIRECTIONS:
        slope = abs(math.degrees(math.asin(math.sin(math.radians(degrees)))))
        if not _FLATTEST <= slope <= _STEEPEST:
            continue
        for distance in _DISTANCES:
            for index in range(forms):
                cost = distance + abs(slope - 45.0) * _STEEP_COST + _LINE_COST * index
                found.append((cost, degrees, distance, index))
    return tuple(sorted(found))


def _leader(lines: tuple[str, ...], target: Target, degrees: int, distance: float) -> _Leader:
    turn = math.radians(degrees)
    ux, uy = math.cos(turn), math.sin(turn)
    side = 1 if ux > 0 else -1
    tip = target.centre.moved(target.radius * ux, target.radius * uy)
    bend = tip.moved(distance * ux, distance * uy)
    shelf = bend.moved(side * _SHELF, 0.0)
    return _Leader(tip, bend, shelf, lines, side)


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
