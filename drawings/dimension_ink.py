"""Dimensions as ink: lanes beside an outline, arrows, figures, extension lines.

Everything on one side of a view is worked out in the lane's own frame: ``t`` along the side,
``d`` outwards from the outline, both in paper mm, and turned on to the sheet at the end. A
dimension of any length has a defined form: arrows and figure within; arrows outside; figure
outside as well, on the prolonged line. Smaller dimensions stand nearer to the outline.

Source: ISO 129-1:2018 as told by the textbooks named in ``drawings.style``: first line about 10
from the outline, figures above the line and readable from below or from the right, arrows
outside where less than 2.5 arrow lengths are free.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache
from itertools import accumulate, chain, pairwise

from drawings.clutter import Clutter, NoRoom
from drawings.dimension import Dimension
from drawings.lettering import text_extent, text_width
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
from drawings.style import Style

RUNNING_LEAST = 7
"""From so many places told from one datum, a running scale takes the place of single lines."""

_TOUCH = 0.05  # how far lines may run into each other before they overlap, mm
_AFTER_ARROW = 1.5  # how far the line runs on behind an arrow that stands outside, mm
_BESIDE = 0.35  # least distance of a figure from an extension line, mm
_TIGHT = 0.8  # what a figure within needs more than its own width, mm
_SHIFT = 2.0  # how finely a figure within is moved aside, mm
_MOST_LANES = 30
_FAR = 1e6  # beyond all paper, mm


class Edge(Enum):
    """The side of a view on which dimensions stand."""

    BELOW = "below"
    ABOVE = "above"
    LEFT = "left"
    RIGHT = "right"

    # Members are single, so they are told apart by identity: far faster than by name.
    __hash__ = object.__hash__

    @property
    def is_upright(self) -> bool:
        """Whether dimension lines lie level there."""
        return self in (Edge.BELOW, Edge.ABOVE)

    @property
    def is_text_inward(self) -> bool:
        """Whether a figure above its line lies between the line and the outline."""
        return self in (Edge.BELOW, Edge.RIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A dimension to be drawn on one side of a view.

    Attributes:
        dimension: What it tells.
        start: Paper coordinate of its datum along the side, mm.
        end: Paper coordinate of the place, mm.
        start_foot: How far inside the outline the place at ``start`` is seen, mm, >= 0.
        end_foot: Likewise for ``end``.
    """

    dimension: Dimension
    start: float
    end: float
    start_foot: float = 0.0
    end_foot: float = 0.0

    @property
    def low(self) -> float:
        """Smaller coordinate."""
        return min(self.start, self.end)

    @property
    def high(self) -> float:
        """Larger coordinate."""
        return max(self.start, self.end)

    @property
    def length(self) -> float:
        """Paper length, mm."""
        return self.high - self.low


@dataclass(frozen=True, slots=True)
class _Rect:
    """A rectangle in the lane's frame, mm."""

    t0: float
    t1: float
    d0: float
    d1: float

    def hits(self, other: _Rect, gap: float) -> bool:
        return (
            self.t0 < other.t1 + gap
            and other.t0 < self.t1 + gap
            and self.d0 < other.d1 + gap
            and other.d0 < self.d1 + gap
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Form:
    """How one dimension would be written: where its figure stands, where its arrows."""

    text_middle: float
    is_arrows_inside: bool
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placed:
    wanted: Wanted
    form: _Form
    d: float
    text: _Rect
    is_running: bool = False


def arrow(tip: PaperPoint, direction: float, style: Style) -> Polyline:
    """A filled arrow of the sheet's size; ``direction`` in degrees on the sheet, y down."""
    one, other = _barbs(direction, style.arrow_angle, style.arrow_length)
    return Polyline((tip, tip.moved(*one), tip.moved(*other)), Ink.ARROW, closed=True)


# Nearly all arrows lie level or upright.
@lru_cache(maxsize=64)
def _barbs(
    direction: float, angle: float, length: float
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the two barbs of an arrow stand from its tip, right and down, mm."""
    back = math.radians(direction) + math.pi
    wing = length * math.tan(math.radians(angle / 2))
    ux, uy = math.cos(back), math.sin(back)
    return (
        (length * ux - wing * uy, length * uy + wing * ux),
        (length * ux + wing * uy, length * uy - wing * ux),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lane:
    """What may stand in the way of one dimension, wherever along its lane it is written.

    Attributes:
        gap: Least distance of figures from lines and from each other, mm.
        lines: The forms of the dimensions whose lines lie in this lane.
        beside_text: Figures at the height of its figure.
        beside_line: Figures at the height of its line.
        smaller: Forms of smaller dimensions that lie as far out, or farther.
        extensions: Extension lines at the height of its figure, its own included.
    """

    gap: float
    lines: list[_Form]
    beside_text: list[_Rect]
    beside_line: list[_Rect]
    smaller: list[_Form]
    extensions: list[_Rect]

    def is_barred(self, wanted: Wanted) -> bool:
        """Whether no form can stand here, since each of them covers the length that it tells."""
        low, high = wanted.low, wanted.high
        line = _Rect(low + _TOUCH, high - _TOUCH, 0.0, 0.0)
        return any(_overlap(line, other) for other in self.lines) or any(
            other.low < high and low < other.high for other in self.smaller
        )

    def takes(self, form: _Form, text: _Rect, line: _Rect) -> bool:
        """Whether the dimension can stand in this form, its figure and its line being there."""
        return not (
            any(_overlap(line, other) for other in self.lines)
            or any(text.hits(other, self.gap) for other in self.beside_text)
            or any(line.hits(other, self.gap) for other in self.beside_line)
            # A dimension must not stand nearer to the outline than a smaller one inside it.
            or any(other.low < form.high and form.low < other.high for other in self.smaller)
            or any(text.hits(other, _BESIDE) for other in self.extensions)
        )


class _Side:
    """The lanes on one side of a view."""

    def __init__(self, edge: Edge, base: float, style: Style, clutter: Clutter) -> None:
        self.edge = edge
        self.base = base
        self.style = style
        self.clutter = clutter
        self.placed: list[_Placed] = []
        self._first = style.first_offset
        nearest = self._first - style.text_gap - style.figure_height
        band = _Rect(-_FAR, _FAR, nearest - style.text_clearance, _FAR)
        self._beside = clutter.within(self._box(band))
        self._extensions: list[_Rect] = []

    def to_paper(self, t: float, d: float) -> PaperPoint:
        match self.edge:
            case Edge.BELOW:
                return PaperPoint(t, self.base + d)
            case Edge.ABOVE:
                return PaperPoint(t, self.base - d)
            case Edge.LEFT:
                return PaperPoint(self.base - d, t)
            case Edge.RIGHT:
                return PaperPoint(self.base + d, t)

    def text_rect(self, middle: float, width: float, d: float) -> _Rect:
        style = self.style
        near, far = style.text_gap, style.text_gap + style.figure_height
        d0, d1 = (d - far, d - near) if self.edge.is_text_inward else (d + near, d + far)
        return _Rect(middle - width / 2, middle + width / 2, d0, d1)

    def forms(self, wanted: Wanted, coming: Sequence[float]) -> Iterator[_Form]:
        """The forms a dimension can take, best first.

        A figure that must stand outside stands beside the arrow, or else beyond all the
        extension lines that are still to come. Those pass through all lanes, so no figure
        stands on one of them.
        """
        width = text_width(wanted.dimension.text, self.style.figure_height)
        within = self._forms_within(wanted, width)
        for form in chain(within, self._forms_beside(wanted, width, coming)):
            if not _is_between(coming, form.text_middle, width):
                yield form

    def _forms_within(self, wanted: Wanted, width: float) -> Iterator[_Form]:
        """Those with the figure between the extension lines, near the middle first."""
        style, length = self.style, wanted.length
        least = width + _TIGHT
        is_inside = length >= style.arrows_inside_least
        if is_inside and _hangs(wanted.dimension.text, style):
            # Brackets and strokes hang down to where an arrow within would be.
            beside = width + 2 * (style.arrow_length + _TIGHT)
            is_inside = length >= beside
            least = beside if is_inside else least
        if least > length:
            return
        tail = 0.0 if is_inside else style.arrow_length + _AFTER_ARROW
        low, high = wanted.low - tail, wanted.high + tail
        middle, room = (wanted.low + wanted.high) / 2, (length - least) / 2
        yield _Form(text_middle=middle, is_arrows_inside=is_inside, low=low, high=high)
        for number in range(1, math.floor(room / _SHIFT) + 1):
            for shift in (-number * _SHIFT, number * _SHIFT):
                at = middle + shift
                yield _Form(text_middle=at, is_arrows_inside=is_inside, low=low, high=high)

    def _forms_beside(
        self, wanted: Wanted, width: float, coming: Sequence[float]
    ) -> Iterator[_Form]:
        """Those with the figure outside, on the prolonged line, shorter ones first."""
        style = self.style
        tail = style.arrow_length + _AFTER_ARROW
        low, high = wanted.low - tail, wanted.high + tail
        reach = width + 0.5
        clear = style.text_clearance + 0.5
        rights = [high, *sorted(t + clear for t in coming if t > high)]
        lefts = [low, *sorted((t - clear for t in coming if t < low), reverse=True)]
        ends = [
            *((right + reach / 2, low, right + reach) for right in rights),
            *((left - reach / 2, left - reach, high) for left in lefts),
        ]
        found = [
            _Form(text_middle=middle, is_arrows_inside=False, low=begin, high=end)
            for middle, begin, end in ends
        ]
        yield from sorted(found, key=lambda form: round(form.high - form.low, 3))

    def place(self, wanted: Sequence[Wanted]) -> None:
        """Give each dimension a lane, smaller ones first."""
        waiting = sorted(wanted, key=lambda w: (round(w.length, 3), w.low, w.dimension.title))
        while waiting:
            item = waiting.pop(0)
            self._put(item, [t for w in waiting for t in (w.low, w.high)])

    def _put(self, wanted: Wanted, coming: list[float]) -> None:
        style = self.style
        width = text_width(wanted.dimension.text, style.figure_height)
        for number in range(_MOST_LANES):
            d = self._first + number * style.pitch
            feet = self._feet(wanted, d)
            if any(foot.hits(other.text, _BESIDE) for other in self.placed for foot in feet):
                continue
            if any(self.clutter.boxes_hit(self._box(foot), _BESIDE) for foot in feet):
                continue
            lane = self._lane(wanted, d, feet)
            for form in () if lane.is_barred(wanted) else self.forms(wanted, coming):
                text = self.text_rect(form.text_middle, width, d)
                line = _Rect(form.low + _TOUCH, form.high - _TOUCH, d, d)
                if lane.takes(form, text, line) and self._is_clear(text, line):
                    self._accept(_Placed(wanted=wanted, form=form, d=d, text=text))
                    return
        raise NoRoom(wanted.dimension.title)

    def _feet(self, wanted: Wanted, d: float) -> list[_Rect]:
        over = self.style.extension_overshoot
        return [
            _Rect(t, t, min(-foot, d), d + over)
            for t, foot in ((wanted.start, wanted.start_foot), (wanted.end, wanted.end_foot))
        ]

    def _lane(self, wanted: Wanted, d: float, feet: list[_Rect]) -> _Lane:
        """What stands in a dimension's way in the lane at ``d``, whatever form it takes."""
        gap = self.style.text_clearance
        # As long as can be: what this does not meet is far from every form.
        text = self.text_rect(0.0, math.inf, d)
        line = _Rect(-math.inf, math.inf, d, d)
        return _Lane(
            gap=gap,
            lines=[p.form for p in self.placed if abs(p.d - d) < _TOUCH],
            beside_text=[p.text for p in self.placed if text.hits(p.text, gap)],
            beside_line=[p.text for p in self.placed if line.hits(p.text, gap)],
            smaller=[
                p.form
                for p in self.placed
                if p.d > d - _TOUCH and p.wanted.length < wanted.length - _TOUCH
            ],
            extensions=[e for e in (*self._extensions, *feet) if text.hits(e, _BESIDE)],
        )

    def _is_clear(self, text: _Rect, line: _Rect) -> bool:
        """Whether figure and line run into nothing on the other sides of the view."""
        # An arrow is wider than its line.
        gap = self.style.text_clearance
        beside = self._beside
        return beside.boxes_hit(self._box(line), gap) == 0 and beside.is_free(
            self._box(text), _BESIDE
        )

    def _box(self, rect: _Rect) -> PaperBox:
        match self.edge:
            case Edge.BELOW:
                return PaperBox(rect.t0, self.base + rect.d0, rect.t1, self.base + rect.d1)
            case Edge.ABOVE:
                return PaperBox(rect.t0, self.base - rect.d1, rect.t1, self.base - rect.d0)
            case Edge.LEFT:
                return PaperBox(self.base - rect.d1, rect.t0, self.base - rect.d0, rect.t1)
            case Edge.RIGHT:
                return PaperBox(self.base + rect.d0, rect.t0, self.base + rect.d1, rect.t1)

    def _accept(self, placed: _Placed) -> None:
        self.placed.append(placed)
        self._extensions += self._feet(placed.wanted, placed.d)

    @property
    def reach(self) -> float:
        """How far out the last line or figure lies, mm."""
        over = self.style.extension_overshoot
        return max((max(p.d + over, p.text.d1) for p in self.placed), default=0.0)

    # Running scales

    def can_run(self, wanted: Sequence[Wanted]) -> bool:
        """Whether figures written across the line find room beside each other."""
        ends = sorted(w.end for w in wanted)
        least = self.style.figure_height + self.style.text_clearance
        gaps = [b - a for a, b in pairwise(ends)]
        return all(gap >= least for gap in gaps)

    def run(self, wanted: Sequence[Wanted]) -> None:
        """One line from the datum with a figure at each place."""
        style = self.style
        occupied = [p.d for p in self.placed]
        d = max(occupied, default=style.first_offset - style.pitch) + style.pitch
        for item in sorted(wanted, key=lambda w: w.length):
            width = text_width(item.dimension.text, style.figure_height)
            start = d + style.extension_overshoot + style.text_gap
            half = style.figure_height / 2
            text = _Rect(item.end - half, item.end + half, start, start + width)
            form = _Form(text_middle=item.end, is_arrows_inside=True, low=item.low, high=item.high)
            self._accept(_Placed(wanted=item, form=form, d=d, text=text, is_running=True))
        # Nothing may stand between the figures of the scale.
        self._first = self.reach + style.text_gap
        if self.edge.is_text_inward:
            self._first += style.figure_height + style.text_gap

    # Ink

    def ink(self) -> list[Group]:
        return [self._running_ink(p) if p.is_running else self._ink(p) for p in self.placed]

    def _angle(self, sign: int) -> float:
        """Direction on the sheet, degrees, of growing (+1) or falling t."""
        turn = 0.0 if self.edge.is_upright else 90.0
        return turn if sign > 0 else turn + 180.0

    def _extension(self, t: float, foot: float, d: float) -> Line:
        style = self.style
        begin = -foot + style.extension_gap
        return Line(
            self.to_paper(t, min(begin, d)),
            self.to_paper(t, d + style.extension_overshoot),
            Ink.EXTENSION,
        )

    def _ink(self, placed: _Placed) -> Group:
        wanted, form, d = placed.wanted, placed.form, placed.d
        style = self.style
        marks: list[Mark] = [
            self._extension(wanted.start, wanted.start_foot, d),
            self._extension(wanted.end, wanted.end_foot, d),
            Line(self.to_paper(wanted.low, d), self.to_paper(wanted.high, d), Ink.DIMENSION_LINE),
        ]
        if not form.is_arrows_inside:
            marks += [
                Line(self.to_paper(a, d), self.to_paper(b, d), Ink.LEADER)
                for a, b in ((form.low, wanted.low), (wanted.high, form.high))
            ]
        outward = 1 if form.is_arrows_inside else -1
        marks += [
            arrow(self.to_paper(wanted.low, d), self._angle(-outward), style),
            arrow(self.to_paper(wanted.high, d), self._angle(outward), style),
            Text(
                self._baseline(form.text_middle, d),
                wanted.dimension.text,
                style.figure_height,
                Anchor.MIDDLE,
                is_upright=self.edge.is_upright,
            ),
        ]
        return Group("dimension", tuple(marks), title=wanted.dimension.title)

    def _baseline(self, middle: float, d: float) -> PaperPoint:
        on_line = self.to_paper(middle, d)
        gap = self.style.text_gap
        return on_line.moved(0.0, -gap) if self.edge.is_upright else on_line.moved(-gap, 0.0)

    def _running_ink(self, placed: _Placed) -> Group:
        wanted, d, style = placed.wanted, placed.d, self.style
        sign = 1 if wanted.end > wanted.start else -1
        half = style.figure_height / 2
        foot = self.to_paper(wanted.end, placed.text.d0)
        if self.edge.is_upright:
            # Across the line: the figure reads from the right.
            at = foot.moved(half, 0.0)
            anchor = Anchor.END if self.edge is Edge.BELOW else Anchor.START
        else:
            at = foot.moved(0.0, half)
            anchor = Anchor.END if self.edge is Edge.LEFT else Anchor.START
        origin = self.to_paper(wanted.start, d)
        marks: tuple[Mark, ...] = (
            self._extension(wanted.start, wanted.start_foot, d),
            self._extension(wanted.end, wanted.end_foot, d),
            Line(origin, self.to_paper(wanted.end, d), Ink.DIMENSION_LINE),
            Circle(origin, 2 * style.dot_diameter, Ink.NARROW),
            arrow(self.to_paper(wanted.end, d), self._angle(sign), style),
            Text(
                at,
                wanted.dimension.text,
                style.figure_height,
                anchor,
                is_upright=not self.edge.is_upright,
            ),
        )
        return Group("dimension", marks, title=wanted.dimension.title)


def _hangs(text: str, style: Style) -> bool:
    _, _, fall = text_extent(text, style.figure_height)
    return fall > 0.3


def _overlap(line: _Rect, other: _Form) -> bool:
    return line.t0 < other.high - _TOUCH and other.low + _TOUCH < line.t1


def _is_between(places: Iterable[float], middle: float, width: float) -> bool:
    """Whether a figure of that width stands on one of some places along the side."""
    low, high = middle - width / 2 - _BESIDE, middle + width / 2 + _BESIDE
    return any(low < place < high for place in places)


def least_reach(spans: Sequence[tuple[float, float]], style: Style) -> float:
    """How far from the outline the dimensions on one side reach at least, mm.

    Dimensions that overlap lie in lanes of their own, but for those of a running scale.

    Args:
        spans: The two ends of each dimension along the side, paper mm.
        style: Distances.
    """
    # Begun and ended again: where both are at one place, ends come first.
    turns = sorted(
        turn
        for a, b in spans
        if abs(b - a) > 2 * _TOUCH
        for turn in ((min(a, b) + _TOUCH, 1), (max(a, b) - _TOUCH, -1))
    )
    lanes = max(accumulate(step for _, step in turns), default=1)
    if len(spans) >= RUNNING_LEAST:
        lanes = 1
    return style.first_offset + (lanes - 1) * style.pitch + style.extension_overshoot


def least_box(
    outline: PaperBox, sides: Mapping[Edge, Sequence[tuple[float, float]]], style: Style
) -> PaperBox:
    """The paper that a view takes at least with the dimensions on its sides.

    Args:
        outline: The outline beside which they stand.
        sides: The ends of the dimensions on each side, as for ``least_reach``.
        style: Distances.
    """
    out = {edge: least_reach(spans, style) for edge, spans in sides.items()}
    return PaperBox(
        outline.left - out.get(Edge.LEFT, 0.0),
        outline.top - out.get(Edge.ABOVE, 0.0),
        outline.right + out.get(Edge.RIGHT, 0.0),
        outline.bottom + out.get(Edge.BELOW, 0.0),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SideInk:
    """What stands on one side of a view.

    Attributes:
        marks: One group for each dimension.
        reach: How far they reach from the outline, mm.
    """

    marks: tuple[Group, ...]
    reach: float


def side_ink(
    edge: Edge, base: float, wanted: Sequence[Wanted], style: Style, clutter: Clutter
) -> SideInk:
    """Lay out all dimensions on one side of a view.

    Args:
        edge: Which side.
        base: Paper coordinate of the outline there, mm.
        wanted: What is to be told.
        style: Distances and heights.
        clutter: What stands already, such as the dimensions of the other sides.

    Raises:
        NoRoom: a dimension finds no free lane.
    """
    side = _Side(edge, base, style, clutter)
    running = _running(side, wanted)
    total = max((w.length for w in wanted), default=0.0)
    inner = [w for w in wanted if w not in running and (not running or w.length < total - _TOUCH)]
    side.place(inner)
    if running:
        side.run(running)
        rest = [w for w in wanted if w not in running and w not in inner]
        side.place(rest)
    return SideInk(marks=tuple(side.ink()), reach=side.reach)


def _running(side: _Side, wanted: Sequence[Wanted]) -> list[Wanted]:
    """The places that a running scale will tell, none if single lines do."""
    total = max((w.length for w in wanted), default=0.0)
    by_datum: dict[float, list[Wanted]] = {}
    for item in wanted:
        is_plain = item.dimension.repeat is None and item.length < total - _TOUCH
        if is_plain:
            by_datum.setdefault(round(item.start, 3), []).append(item)
    if not by_datum:
        return []
    most = max(by_datum.values(), key=len)
    return most if len(most) >= RUNNING_LEAST and side.can_run(most) else []
