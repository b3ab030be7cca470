"""Lettering and leaders placed in free space, by trying places against what already stands.

Nothing here knows what it writes: it gets candidates, best first or with a cost, and takes the
first or the cheapest that runs into nothing. Lengths are in paper mm.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, combinations, pairwise
from operator import sub

import numpy as np
from numpy.typing import NDArray

from drawings.clutter import Clutter, NoRoom
from drawings.dimension_ink import arrow
from drawings.lettering import text_box, text_boxes, text_extent, text_width
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
_DISTANCES = np.array([7.0, 10.0, 13.0, 17.0, 22.0, 28.0, 36.0, 46.0, 58.0, 74.0, 92.0])
_CROSSING_COST = 14.0  # as bad as so many mm of leader
_BUSY_COST = 3.0  # each line at the leader's tip, as mm
_OUTSIDE_COST = 30.0  # a text that makes the view larger, as mm
_STEEP_COST = 0.06  # per degree away from 45, as mm
_FLATTEST, _STEEPEST = 14.0, 78.0  # a leader slopes: never level, never upright, degrees
_LEADING = ("no.", "to", "of", "for")  # words that belong to the next
_MID_PHRASE = 0.15  # by how much a line that ends within a phrase counts as longer
_FEW_LINES, _MOST_LINES = 3, 6  # of a callout, as a rule and where room is short
_LINE_COST = 5.0  # each further line of a callout, as mm
_LEADER_GAP = 0.8  # a leader's arrow from lettering, mm
_SHELF_GAP = 0.3  # its level piece from lettering, mm
_TEXT_GAP = 1.2  # round a callout, mm
_ROUND_TIP = 1.2  # lines that come nearer to a leader's tip make it busy, mm
_TOGETHER = 128  # so many leaders are looked at in one go
_NEAR_STEPS = 6  # so many steps from the middle of a room are tried before all others
_FEW_PLACES = 10  # after a label's best place so many are tried before all others
_MANY_PLACES = 600  # where there are no more they are all looked at in one go
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


@dataclass(frozen=True, slots=True)
class Places:
    """Where a text may stand, best places first.

    Attributes:
        text: The text; its own place does not count.
        points: Its positions, (n, 2) mm.
    """

    text: Text
    points: _Floats


def placed_label(
    candidates: Iterable[Places], clutter: Clutter, *, within: PaperBox | None, gap: float
) -> Text | None:
    """The text at the first place where it stands free; it is added to the clutter.

    Args:
        candidates: Places near each other, best ones first; more are asked for if none is free.
        clutter: What stands already.
        within: Box in which the text must stay; None for anywhere.
        gap: Least distance from anything else, mm.
    """
    for places in candidates:
        at = _first_free(places, clutter, within=within, gap=gap)
        if at is not None:
            label = places.text.put(at)
            clutter.add((label,))
            return label
    return None


def _first_free(
    places: Places, clutter: Clutter, *, within: PaperBox | None, gap: float
) -> PaperPoint | None:
    """The best of some places where a text stands free: most often the very best."""
    points = places.points
    if len(points) == 0:
        return None
    best = PaperPoint(*points[0].tolist())
    box = text_box(places.text.put(best))
    if (within is None or within.contains(box)) and clutter.is_free(box, gap):
        return best
    boxes = text_boxes(places.text, points)
    if within is not None:
        inside = _are_within(boxes.T, within.grown(_ROUNDING))
        points, boxes = points[inside], boxes[inside]
    for some in (slice(_FEW_PLACES), slice(_FEW_PLACES, None)):
        free = clutter.are_free(boxes[some], gap)
        if free.any():
            return PaperPoint(*points[some][np.argmax(free)].tolist())
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
    steps_x, steps_y = _steps_out(across, step), _steps_out(down, step)
    lefts = within.left + across / 2 + step * steps_x
    tops = within.top + down / 2 + step * steps_y
    # Most often a place near the middle of a large room will do, and the rest is not looked at.
    is_large = len(steps_x) * len(steps_y) > _MANY_PLACES
    for near in (_NEAR_STEPS, math.inf) if is_large else (math.inf,):
        columns, rows = np.abs(steps_x) <= near, np.abs(steps_y) <= near
        may, must = clutter.grid_free(lefts[columns], tops[rows], width, height, gap)
        # A step down counts for more than one across; ties go left and up.
        away = np.hypot(steps_x[columns, None], 1.6 * steps_y[rows])
        away[~may | (away > near)] = math.inf
        while not math.isinf(away.min()):
            column, row = divmod(int(np.argmin(away)), away.shape[1])
            left, top = float(lefts[columns][column]), float(tops[rows][row])
            spot = PaperBox(left, top, left + width, top + height)
            if must[column, row] or clutter.is_free(spot, gap):
                return spot
            away[column, row] = math.inf
    return None


def _steps_out(room: float, step: float) -> _Floats:
    """Steps from the middle of a room, ascending: as many as fit, the odd one to the left."""
    count = math.floor(room / step) + 1
    steps = np.arange(-(count // 2), (count + 1) // 2, dtype=np.float64)
    return steps[np.abs(steps) * step <= room / 2 + _ROUNDING]


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
        # A long text beside a small part: more and shorter lines find room where few do not.
        leaders = _Leaders(_narrow_forms(text, style), targets, style)
        best = _cheapest(leaders, clutter, home=home, within=within)
    if best is None:
        raise NoRoom(title)
    group = _leader_group(leaders.leader(best), title, style, is_dotted=is_dotted)
    clutter.add(group.marks)
    return group


class _Leaders:
    """All leaders that could be drawn, row by row: place by place, by distance, by form of text.

    Lengths in mm. Of two rows that are equally good the upper one is taken.

    Attributes:
        places: Where a leader may end: one place for each target and direction, (p, 2).
        toward: Unit vector from each place to the bends of its leaders, (p, 2).
        costs: What each leader costs in any case, (n,).
        boxes: What the texts cover, (4, n): left, top, right, bottom.
    """

    def __init__(
        self, forms: Sequence[tuple[str, ...]], targets: Sequence[Target], style: Style
    ) -> None:
        self._forms = forms
        centres = np.array([(one.centre.x, one.centre.y) for one in targets])
        radii = np.array([one.radius for one in targets])
        self.places = (centres[:, None] + radii[:, None, None] * _TOWARD).reshape(-1, 2)
        self.toward = np.tile(_TOWARD, (len(targets), 1))
        self.costs = np.tile(_costs(len(forms)), len(targets))
        self._sides = np.where(self.toward[:, 0] > 0, 1.0, -1.0)
        self._bends = self.places[:, None] + _DISTANCES[:, None] * self.toward[:, None]
        self.boxes = self._text_boxes(style)

    def _text_boxes(self, style: Style) -> _Floats:
        height = style.figure_height
        width, top, bottom = np.array([_extent(lines, height) for lines in self._forms]).T
        side = self._sides[:, None]
        x = (self._bends[:, :, 0] + side * (_SHELF + _AFTER_SHELF))[:, :, None]
        y = (self._bends[:, :, 1] + style.figure_height / 2)[:, :, None]
        left = np.where(side[:, :, None] > 0, x, x - width)
        return np.stack([left, y + top, left + width, y + bottom]).reshape(4, -1)

    def ways(self, rows: NDArray[np.intp]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """Place and distance of leaders, as numbers."""
        place, along = np.divmod(rows, len(_DISTANCES) * len(self._forms))
        return place, along // len(self._forms)

    def lines(self, rows: NDArray[np.intp]) -> tuple[_Floats, _Floats, _Floats]:
        """Tips, bends and ends of leaders, (n, 2) each."""
        place, distance = self.ways(rows)
        bends = self._bends[place, distance]
        return self.places[place], bends, bends + np.outer(self._sides[place], (_SHELF, 0.0))

    def crossed(self, rows: NDArray[np.intp], clutter: Clutter) -> NDArray[np.intp]:
        """How many straight pieces each of some leaders crosses."""
        tips, bends, shelves = self.lines(rows)
        return clutter.are_crossed(tips, bends) + clutter.are_crossed(bends, shelves)

    def crossed_on_the_way(
        self, place: NDArray[np.intp], distance: NDArray[np.intp], clutter: Clutter
    ) -> NDArray[np.intp]:
        """How many straight pieces leaders cross at least from their tips to their bends."""
        if len(place) == 0:
            return np.empty(0, dtype=np.intp)
        places, which = np.unique(place, return_inverse=True)
        distances = _DISTANCES[: distance.max() + 1]
        crossed = clutter.crossed_at_least(self.places[places], self.toward[places], distances)
        return crossed[which, distance]

    def leader(self, row: int) -> _Leader:
        """One of them, to be drawn."""
        tip, bend, shelf = (PaperPoint(*ends[0].tolist()) for ends in self.lines(np.array([row])))
        form = self._forms[row % len(self._forms)]
        return _Leader(tip, bend, shelf, form, 1 if shelf.x > bend.x else -1)


def _cheapest(
    leaders: _Leaders, clutter: Clutter, *, home: PaperBox, within: PaperBox
) -> int | None:
    """The row of the leader that costs least, None if none is free.

    What each costs at least is known soon. The best by that are looked at first, and no more
    once the best in all costs less than those to come: most are never compared with what
    stands on the paper. If the first few do not settle it, the lines that the others cross on
    their way are counted before they are looked at.
    """
    rows = np.flatnonzero(_are_within(leaders.boxes, within))
    alone = leaders.costs[rows]
    alone += np.where(_are_within(leaders.boxes.take(rows, axis=1), home), 0.0, _OUTSIDE_COST)
    # A tip that stands where several lines meet leaves open which of them is meant.
    ends = np.concatenate([leaders.places - _ROUND_TIP, leaders.places + _ROUND_TIP], axis=1)
    place, distance = leaders.ways(rows)
    least = alone + _BUSY_COST * clutter.are_hit(ends, 0.0)[place]
    best = (math.inf, math.inf, 0)
    waiting, bound = np.arange(len(rows)), least
    while len(waiting) > 0:
        order = np.argpartition(bound, min(_TOGETHER, len(bound)) - 1)
        some = waiting[order[:_TOGETHER]]
        free = some[_are_free(leaders, rows[some], clutter)]
        if len(free) > 0:
            here = rows[free]
            total = least[free] + _CROSSING_COST * leaders.crossed(here, clutter)
            # Of equal costs in all, that one is taken which costs less before lines are counted.
            first = np.lexsort((here, alone[free], total))[0]
            best = min(best, (float(total[first]), float(alone[free[first]]), int(here[first])))
        is_first = len(waiting) == len(rows)
        waiting, bound = waiting[order[_TOGETHER:]], bound[order[_TOGETHER:]]
        if is_first:
            waiting = waiting[bound <= best[0]]
            crossed = leaders.crossed_on_the_way(place[waiting], distance[waiting], clutter)
            bound = least[waiting] + _CROSSING_COST * crossed
        waiting, bound = waiting[bound <= best[0]], bound[bound <= best[0]]
    return None if math.isinf(best[0]) else best[2]


def _are_free(leaders: _Leaders, rows: NDArray[np.intp], clutter: Clutter) -> NDArray[np.bool_]:
    """Of which leaders the text touches nothing, and the line no lettering."""
    free = clutter.are_free(leaders.boxes.take(rows, axis=1).T, _TEXT_GAP)
    tips, bends, shelves = leaders.lines(rows)
    for starts, ends, gap in ((tips, bends, _LEADER_GAP), (bends, shelves, _SHELF_GAP)):
        free[free] = ~clutter.run_over_text(starts[free], ends[free], gap)
    return free


def _are_within(boxes: _Floats, room: PaperBox) -> NDArray[np.bool_]:
    """Which boxes (4, n) lie in a room."""
    inside: NDArray[np.bool_] = (
        (boxes[0] >= room.left)
        & (boxes[1] >= room.top)
        & (boxes[2] <= room.right)
        & (boxes[3] <= room.bottom)
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
    is_torn = [True, *(not word.endswith((",", ";")) for word in words)]
    for count in range(2, (_FEW_LINES if whole > 60.0 else 2 if whole > 30.0 else 1) + 1):
        best: tuple[float, tuple[int, ...]] = (math.inf, ())
        for breaks in combinations(free, count - 1):
            # The first line only gets longer from here on.
            if ends[breaks[0]] - blank > best[0]:
                break
            reaches = [0.0, *[ends[at] for at in breaks], ends[-1]]
            widest = max(map(sub, reaches[1:], reaches)) - blank
            if widest > best[0]:
                continue
            # Lines are made worse that do not end where a phrase does.
            torn = sum([is_torn[at] for at in breaks])
            best = min(best, (round(widest * (1.0 + _MID_PHRASE * torn), 6), breaks))
        if best[1]:
            at = (0, *best[1], len(words))
            found.append(tuple(" ".join(words[a:b]) for a, b in pairwise(at)))
    return found


def _narrow_forms(text: str, style: Style) -> list[tuple[str, ...]]:
    """A text broken into four to six lines that are no wider than they must be."""
    words = text.split()
    phrases = [words[:1]]
    for one, other in pairwise(words):
        if _may_part(one, other):
            phrases.append([])
        phrases[-1].append(other)
    pieces = [" ".join(phrase) for phrase in phrases]
    widths = [text_width(piece, style.figure_height) for piece in pieces]
    blank = text_width(" ", style.figure_height)
    found: list[tuple[str, ...]] = []
    # Every width that a line can have is a sum; few of them are tried.
    tried = sorted({sum(widths[a:b]) + blank * (b - a - 1) for a, b in _runs(len(pieces))})
    for count in range(_FEW_LINES + 1, _MOST_LINES + 1):
        least = bisect_left(tried, -count, key=lambda most: -len(_filled(widths, blank, most)))
        lines = _filled(widths, blank, tried[least])
        if len(lines) == count:
            found.append(tuple(" ".join(pieces[a:b]) for a, b in lines))
    return found or [(text,)]


def _runs(count: int) -> Iterator[tuple[int, int]]:
    """Begin and end of each run of so many things."""
    return ((a, b) for b in range(count + 1) for a in range(b))


def _filled(widths: Sequence[float], blank: float, most: float) -> list[tuple[int, int]]:
    """Lines filled one after another, as begin and end; a piece wider than all stands alone."""
    lines: list[tuple[int, int]] = []
    begin, reach = 0, 0.0
    for at, width in enumerate(widths):
        if at > begin and reach + blank + width > most + _ROUNDING:
            lines.append((begin, at))
            begin, reach = at, width
        else:
            reach += width + (blank if at > begin else 0.0)
    return [*lines, (begin, len(widths))]


def _may_part(one: str, other: str) -> bool:
    """Whether a line may end between two words: not beside a times sign, nor after ``no.``."""
    return "×" not in (one, other) and one not in _LEADING


@lru_cache(maxsize=4)
def _costs(forms: int) -> _Floats:
    """What leaders to one target cost, row by row, where a text has so many forms, mm."""
    steep = np.array([abs(_slope(degrees) - 45.0) * _STEEP_COST for degrees in _DIRECTIONS])
    lines = _LINE_COST * np.arange(forms)
    costs: _Floats = (_DISTANCES[:, None] + steep[:, None, None] + lines).ravel()
    return costs


def _texts(lines: Sequence[str], at: PaperPoint, anchor: Anchor, style: Style) -> tuple[Text, ...]:
    height = style.figure_height
    return tuple(
        Text(at.moved(0.0, index * BASELINE_SPACING * height), line, height, anchor)
        for index, line in enumerate(lines)
    )


def _extent(lines: Sequence[str], height: float) -> tuple[float, float, float]:
    """Width, top and bottom of a text's lines, from where the first one stands, mm."""
    width, rise, _ = text_extent(lines[0], height)
    bottom = 0.0
    for index, line in enumerate(lines):
        wide, _, fall = text_extent(line, height)
        width = max(width, wide)
        bottom = max(bottom, index * BASELINE_SPACING * height + fall)
    return width, -rise, bottom


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
