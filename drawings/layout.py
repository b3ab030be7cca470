"""Lettering and leaders placed in free space, by trying places against what already stands.

Nothing here knows what it writes: it gets candidates, best first or with a cost, and takes the
first or the cheapest that runs into nothing. Lengths are in paper mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

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
_DISTANCES = (7.0, 10.0, 13.0, 17.0, 22.0, 28.0, 36.0, 46.0, 58.0, 74.0, 92.0)
_DIRECTIONS = tuple(range(15, 360, 15))
_CROSSING_COST = 14.0  # as bad as so many mm of leader
_OUTSIDE_COST = 30.0  # a text that makes the view larger, as mm
_STEEP_COST = 0.06  # per degree away from 45, as mm
_FLATTEST, _STEEPEST = 14.0, 78.0  # a leader slopes: never level, never upright, degrees
_LINE_COST = 5.0  # each further line of a callout, as mm
_TEXT_GAP = 1.2  # round a callout, mm


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
    texts: tuple[Text, ...]
    box: PaperBox


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
    spots = []
    for i in range(math.floor(across / step) + 1):
        for j in range(math.floor(down / step) + 1):
            left = within.left + across / 2 + _swing(i) * step
            top = within.top + down / 2 + _swing(j) * step
            box = PaperBox(left, top, left + width, top + height)
            if within.contains(box):
                off = math.hypot(_swing(i) * step, 1.6 * _swing(j) * step)
                spots.append((off, left, top, box))
    for _, _, _, box in sorted(spots, key=lambda spot: spot[:3]):
        if clutter.is_free(box, gap):
            return box
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
    with_dot: bool = False,
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
        with_dot: End in a dot within a surface instead of an arrow at a line.

    Returns:
        The group ``note``.

    Raises:
        NoRoom: no place is free.
    """
    best: _Leader | None = None
    least = math.inf
    forms = _forms(text, style)
    for target in targets:
        for cost, direction, distance, index in _tries(len(forms)):
            if cost >= least:
                break
            leader = _leader(forms[index], target, direction, distance, style)
            if not within.contains(leader.box) or not clutter.is_free(leader.box, _TEXT_GAP):
                continue
            if clutter.runs_over_text(leader.tip, leader.bend, 0.5):
                continue
            if clutter.runs_over_text(leader.bend, leader.shelf, 0.3):
                continue
            crossed = clutter.crossings(leader.tip, leader.bend)
            crossed += clutter.crossings(leader.bend, leader.shelf)
            cost += _CROSSING_COST * crossed
            if not home.contains(leader.box):
                cost += _OUTSIDE_COST
            if cost < least:
                best, least = leader, cost
    if best is None:
        raise NoRoom(title)
    group = _leader_group(best, title, style, with_dot)
    clutter.add(group.marks)
    return group


def _forms(text: str, style: Style) -> list[tuple[str, ...]]:
    """A text on one line, and broken into two and three of about equal width."""
    whole = text_width(text, style.figure_height)
    found: list[tuple[str, ...]] = [(text,)]
    for count in range(2, 4 if whole > 60.0 else 3 if whole > 30.0 else 2):
        for slack in (1.0, 1.1, 1.2, 1.35):
            lines = wrapped(text, whole / count * slack + 0.1, style.figure_height)
            if len(lines) == count:
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


def _leader(
    lines: tuple[str, ...], target: Target, degrees: int, distance: float, style: Style
) -> _Leader:
    height = style.figure_height
    turn = math.radians(degrees)
    ux, uy = math.cos(turn), math.sin(turn)
    side = 1 if ux > 0 else -1
    tip = target.centre.moved(target.radius * ux, target.radius * uy)
    bend = tip.moved(distance * ux, distance * uy)
    shelf = bend.moved(side * _SHELF, 0.0)
    at = shelf.moved(side * 1.0, height / 2)
    anchor = Anchor.START if side > 0 else Anchor.END
    texts = tuple(
        Text(at.moved(0.0, index * BASELINE_SPACING * height), line, height, anchor)
        for index, line in enumerate(lines)
    )
    boxes = [text_box(text) for text in texts]
    box = PaperBox(
        min(box.left for box in boxes),
        boxes[0].top,
        max(box.right for box in boxes),
        boxes[-1].bottom,
    )
    return _Leader(tip, bend, shelf, texts, box)


def _leader_group(leader: _Leader, title: str, style: Style, with_dot: bool) -> Group:
    end: Mark
    if with_dot:
        end = Circle(leader.tip, style.dot_diameter / 2, Ink.SOLID)
    else:
        direction = math.degrees(
            math.atan2(leader.tip.y - leader.bend.y, leader.tip.x - leader.bend.x)
        )
        end = arrow(leader.tip, direction, style)
    line = Polyline((leader.tip, leader.bend, leader.shelf), Ink.LEADER)
    return Group("note", (line, end, *leader.texts), title=title)


def grain_marks(box: PaperBox, is_level: bool, style: Style) -> tuple[Mark, ...]:
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
