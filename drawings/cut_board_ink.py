"""A board with its cuts on paper: parts, flaws, cuts numbered in order, rests, grain.

The board's x runs to the right and its y up, its grain along x. A flaw on face A is hatched one
way, on face B the other way with a dashed outline, through the board crossed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from cabinet.making.cut_board import CutBoard, LaidBlank, is_worth_keeping
from cabinet.making.guillotine import Axis
from cabinet.making.outline import Outline, Rect, bounds, clipped, cover
from cabinet.making.rack import Flaw, FlawFace
from drawings.clutter import Clutter, NoRoom
from drawings.curves import Segment, ViewPoint
from drawings.cut_words import short_rest
from drawings.fitting import wrapped
from drawings.hatch import hatch
from drawings.layout import Target, free_spot, grain_marks, placed_callout
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
from drawings.number import dimension_text
from drawings.style import Style

_HATCH = 1.3  # between two lines of a flaw's hatching, mm
_RINGS = (2.1, 2.75, 3.4)  # radius of the ring round a cut's number by its digits, mm
_BESIDE = 0.6  # from a cut to the ring of its number, mm
_GAP = 0.7  # between lettering and anything else, mm
_STEP = 0.8  # how finely a place for a part's lettering is looked for, mm
_LEAST_CROSSED = 0.8  # an offcut narrower than this is no more than a line, mm
_LONGEST_CROSSED = 12.0  # one that is longer than so many of its widths has several short strokes
_STROKES = (0.15, 0.5, 0.85)  # where along it
_LEADING = 1.45  # from baseline to baseline, in heights


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPaperPlace:
    """Where a board lies on paper.

    Attributes:
        corner: Paper place of the board's low corner (0, 0), mm.
        scale: Paper mm for one mm of the board.
    """

    corner: PaperPoint
    scale: float

    def point(self, x: float, y: float) -> PaperPoint:
        """A point of the board on paper."""
        return PaperPoint(self.corner.x + x * self.scale, self.corner.y - y * self.scale)

    def box(self, rect: Rect) -> PaperBox:
        """A rectangle of the board on paper."""
        low, high = self.point(rect.x, rect.y), self.point(rect.right, rect.top)
        return PaperBox(low.x, high.y, high.x, low.y)

    def shape(self, outline: Outline, ink: Ink) -> Polyline:
        """An outline on paper."""
        return Polyline(tuple(self.point(x, y) for x, y in outline), ink, closed=True)


@dataclass(kw_only=True)
class BoardInk:
    """The drawing of one board.

    Attributes:
        marks: What is drawn.
        untold: Labels of parts and numbers of cuts for which no place was found.
    """

    marks: list[Mark] = field(default_factory=list)
    untold: list[str] = field(default_factory=list)


def flaw_labels(board: CutBoard) -> dict[Flaw, str]:
    """What each flaw is called on the drawing."""
    return {flaw: f"F{number}" for number, flaw in enumerate(board.board.flaws, start=1)}


def board_ink(
    board: CutBoard,
    names: Mapping[str, str],
    place: BoardPaperPlace,
    within: PaperBox,
    style: Style,
) -> BoardInk:
    """Draw a board.

    Args:
        board: The board.
        names: What each blank is called, by its own name.
        place: Where it lies on paper.
        within: Where its lettering may stand, mm.
        style: Heights and gaps.
    """
    made = BoardInk()
    lines = [
        *_rest_shades(board, place),
        place.shape(board.board.outline, Ink.VISIBLE),
        *_trim(board, place),
        *_cut_lines(board, place),
        *_offcut_crosses(board, place),
    ]
    flaws = [group for flaw in board.board.flaws for group in flaw_marks(flaw, place)]
    made.marks += [Group("board", tuple(lines)), *flaws]
    clutter = Clutter(made.marks)
    _flaw_names(board, place, clutter, within, style, made)
    _part_names(board, names, place, clutter, within, style, made)
    _cut_numbers(board, place, clutter, within, style, made)
    _rest_names(board, place, clutter, within, style, made)
    _grain(board, place, clutter, within, style, made)
    return made


def _kept_shapes(board: CutBoard) -> Iterator[tuple[str, Outline]]:
    """The pieces of wood that go back on the rack, on the board, with their names."""
    for rest in board.rests:
        shapes = clipped(board.board.outline, rest.rect)
        worth = [shape for shape in shapes if is_worth_keeping(shape)]
        for piece, shape in zip(rest.kept, worth, strict=True):
            yield short_rest(piece), shape


def _offcut_shapes(board: CutBoard) -> Iterator[Outline]:
    """The pieces of wood that are left over and not kept, on the board."""
    for rest in board.rests:
        for shape in clipped(board.board.outline, rest.rect):
            if not is_worth_keeping(shape):
                yield shape


def _rest_shades(board: CutBoard, place: BoardPaperPlace) -> Iterator[Mark]:
    for _, shape in _kept_shapes(board):
        yield place.shape(shape, Ink.SHADE)


def _main_part(shape: Outline) -> Rect:
    """The largest rectangle of wood in a rest, for its lettering."""
    return max(cover(shape), key=lambda rect: (rect.length * rect.width, rect.x, rect.y))


def _trim(board: CutBoard, place: BoardPaperPlace) -> Iterator[Mark]:
    if board.trim > 0:
        length, width = board.size
        inner = Rect(board.trim, board.trim, length - 2 * board.trim, width - 2 * board.trim)
        yield place.shape(inner.outline, Ink.NARROW)


def _middle(board: CutBoard, place: BoardPaperPlace) -> Iterator[tuple[int, Line]]:
    """The middle of each cut on paper, as far as there is wood, with its number."""
    for cut in board.cuts:
        if cut.is_trim and board.trim > 0:
            continue
        # A knife takes nothing away: its cut has no width.
        parts = [bounds(shape) for shape in clipped(board.board.outline, cut.dust)] or [cut.dust]
        dust = _around(parts)
        if cut.axis is Axis.LENGTH:
            x = cut.dust.x + cut.dust.length / 2
            line = Line(place.point(x, dust.y), place.point(x, dust.top), Ink.NARROW)
        else:
            y = cut.dust.y + cut.dust.width / 2
            line = Line(place.point(dust.x, y), place.point(dust.right, y), Ink.NARROW)
        yield cut.number, line


def _around(rects: list[Rect]) -> Rect:
    x, y = min(rect.x for rect in rects), min(rect.y for rect in rects)
    right, top = max(rect.right for rect in rects), max(rect.top for rect in rects)
    return Rect(x, y, right - x, top - y)


def _cut_lines(board: CutBoard, place: BoardPaperPlace) -> Iterator[Mark]:
    for _, line in _middle(board, place):
        yield line


def _offcut_crosses(board: CutBoard, place: BoardPaperPlace) -> Iterator[Mark]:
    """One diagonal over what is not kept; over a narrow strip, short ones along it."""
    for shape in _offcut_shapes(board):
        box = place.box(_main_part(shape))
        short, long = sorted((box.width, box.height))
        if short < _LEAST_CROSSED:
            continue
        is_narrow = long > _LONGEST_CROSSED * short
        for share in _STROKES if is_narrow else (0.5,):
            x, y = box.left + share * box.width, box.top + share * box.height
            wide, high = (short, short) if is_narrow else (box.width, box.height)
            if box.width > box.height:
                y = box.top + box.height / 2
            else:
                x = box.left + box.width / 2
            yield Line(
                PaperPoint(x - wide / 2, y + high / 2),
                PaperPoint(x + wide / 2, y - high / 2),
                Ink.NARROW,
            )


def flaw_marks(flaw: Flaw, place: BoardPaperPlace) -> Iterator[Mark]:
    """A flaw with its hatching as one group ``flaw``."""
    ink = Ink.HIDDEN if flaw.face is FlawFace.B else Ink.NARROW
    angles = {FlawFace.A: (45.0,), FlawFace.B: (135.0,), FlawFace.THROUGH: (45.0, 135.0)}
    points = [ViewPoint(x, y) for x, y in flaw.outline]
    loop = [Segment(a, b) for a, b in pairwise([*points, points[0]])]
    marks: list[Mark] = [place.shape(flaw.outline, ink)]
    for angle in angles[flaw.face]:
        for line in hatch([loop], angle, _HATCH / place.scale):
            start, end = line.start, line.end
            marks.append(Line(place.point(start.u, start.v), place.point(end.u, end.v), Ink.HATCH))
    yield Group("flaw", tuple(marks), title=flaw.title)


def _flaw_names(
    board: CutBoard,
    place: BoardPaperPlace,
    clutter: Clutter,
    within: PaperBox,
    style: Style,
    made: BoardInk,
) -> None:
    for flaw, name in flaw_labels(board).items():
        box = place.box(bounds(flaw.outline))
        _called_out(name, f"flaw {name}", box.middle, clutter, within, style, made, is_dotted=True)


def _called_out(
    text: str,
    title: str,
    at: PaperPoint,
    clutter: Clutter,
    within: PaperBox,
    style: Style,
    made: BoardInk,
    *,
    is_dotted: bool,
) -> None:
    try:
        made.marks.append(
            placed_callout(
                text,
                title,
                [Target(at)],
                clutter,
                style,
                home=within,
                within=within,
                is_dotted=is_dotted,
            )
        )
    except NoRoom:
        made.untold.append(title)


def _part_names(
    board: CutBoard,
    names: Mapping[str, str],
    place: BoardPaperPlace,
    clutter: Clutter,
    within: PaperBox,
    style: Style,
    made: BoardInk,
) -> None:
    # Small parts first: they have the least choice.
    for laid in sorted(
        board.laid, key=lambda each: (each.rect.length * each.rect.width, each.blank.name)
    ):
        box = place.box(laid.rect)
        texts = next(
            (
                texts
                for form in _forms(names[laid.blank.name], laid, box, style)
                if (texts := _in_box(form, box, clutter)) is not None
            ),
            None,
        )
        if texts is None:
            middle = box.middle
            _called_out(
                names[laid.blank.name],
                f"part {names[laid.blank.name]}",
                middle,
                clutter,
                within,
                style,
                made,
                is_dotted=True,
            )
            continue
        clutter.add(texts)
        made.marks.append(Group("part", tuple(texts), title=laid.blank.name))


@dataclass(frozen=True, slots=True)
class _Form:
    """Lines of lettering, each with its height and whether it is bold; turned or not."""

    lines: tuple[tuple[str, float, bool], ...]
    is_upright: bool


def _forms(label: str, laid: LaidBlank, box: PaperBox, style: Style) -> Iterator[_Form]:
    """How a part may be lettered, the fullest first."""
    blank = laid.blank
    size = f"{dimension_text(blank.length)} × {dimension_text(blank.width)}"
    note, figure = style.note_height, style.figure_height
    for is_upright in (True, False):
        room = (box.width if is_upright else box.height) - 2 * _GAP - 1.0
        name = f"{label}  {blank.item_name}"
        longest = max(room, 8.0)
        wrapped_name = wrapped(name, longest, note, True)  # noqa: FBT003 - bold
        if len(wrapped_name) <= 3 and text_width(size, figure) <= room:
            lines = [(line, note, True) for line in wrapped_name]
            yield _Form((*lines, (size, figure, False)), is_upright)
    for is_upright in (True, False):
        yield _Form(((label, figure, True), (size, figure, False)), is_upright)
    for is_upright in (True, False):
        yield _Form(((f"{label}: {size}", figure, False),), is_upright)
    for height in (figure, note):
        yield _Form(((label, height, True),), is_upright=True)
    yield _Form(((label, note, True),), is_upright=False)


def _in_box(form: _Form, box: PaperBox, clutter: Clutter) -> tuple[Text, ...] | None:
    """A form's texts in a free place of a box, or None."""
    width = max(text_width(line, height, bold) for line, height, bold in form.lines)
    height = _block_height(form)
    across, down = (width, height) if form.is_upright else (height, width)
    spot = free_spot(across, down, clutter, within=box.grown(-_GAP / 2), gap=_GAP, step=_STEP)
    if spot is None:
        return None
    texts = []
    at = 0.0
    for k, (line, size, bold) in enumerate(form.lines):
        at += size if k == 0 else size * _LEADING
        if form.is_upright:
            where = PaperPoint((spot.left + spot.right) / 2, spot.top + at)
        else:
            where = PaperPoint(spot.left + at, (spot.top + spot.bottom) / 2)
        texts.append(
            Text(where, line, size, Anchor.MIDDLE, is_upright=form.is_upright, is_bold=bold)
        )
    return tuple(texts)


def _block_height(form: _Form) -> float:
    heights = [height for _, height, _ in form.lines]
    # The last line's tails hang below its baseline.
    return heights[0] + sum(height * _LEADING for height in heights[1:]) + 0.3 * heights[-1]


def _cut_numbers(
    board: CutBoard,
    place: BoardPaperPlace,
    clutter: Clutter,
    within: PaperBox,
    style: Style,
    made: BoardInk,
) -> None:
    around = place.box(bounds(board.board.outline))
    lines = sorted(_middle(board, place), key=lambda each: (_length(each[1]), each[0]))
    for number, line in lines:
        ring = _ring(number, line, around, clutter, within, style)
        if ring is None:
            middle = PaperPoint((line.start.x + line.end.x) / 2, (line.start.y + line.end.y) / 2)
            _called_out(
                f"cut {number}",
                f"cut {number}",
                middle,
                clutter,
                within,
                style,
                made,
                is_dotted=False,
            )
            continue
        clutter.add(ring)
        made.marks.append(Group("cut", ring, title=f"cut {number}"))


def _length(line: Line) -> float:
    return abs(line.end.x - line.start.x) + abs(line.end.y - line.start.y)


def _ring(
    number: int,
    line: Line,
    around: PaperBox,
    clutter: Clutter,
    within: PaperBox,
    style: Style,
) -> tuple[Mark, ...] | None:
    """A cut's number in a ring: at its end outside the board, else beside it."""
    radius = _RINGS[min(len(str(number)), 3) - 1]
    for middle in _ring_places(line, around, radius):
        box = PaperBox(middle.x, middle.y, middle.x, middle.y).grown(radius)
        if within.contains(box) and clutter.is_free(box, 0.25):
            height = style.note_height
            text = Text(middle, str(number), height, Anchor.MIDDLE)
            inked = text_box(text)
            down = middle.y - (inked.top + inked.bottom) / 2
            return (
                Circle(middle, radius, Ink.RING),
                Text(middle.moved(0.0, down), str(number), height, Anchor.MIDDLE),
            )
    return None


def _ring_places(line: Line, around: PaperBox, radius: float) -> Iterator[PaperPoint]:
    is_upright = line.start.x == line.end.x
    off = radius + _BESIDE
    if is_upright:
        x, low, high = line.start.x, line.end.y, line.start.y
        for out in (off, off + 5.2, off + 10.4):
            if high >= around.bottom - 1.2:
                yield from (PaperPoint(x + dx, around.bottom + out) for dx in (0.0, -2.4, 2.4))
            if low <= around.top + 1.2:
                yield from (PaperPoint(x + dx, around.top - out) for dx in (0.0, -2.4, 2.4))
        for share in _SHARES:
            y = high + (low - high) * share
            yield from (PaperPoint(x + side * off, y) for side in (-1, 1))
    else:
        y, low, high = line.start.y, line.start.x, line.end.x
        for out in (off, off + 5.2, off + 10.4):
            if low <= around.left + 1.2:
                yield from (PaperPoint(around.left - out, y + dy) for dy in (0.0, -2.4, 2.4))
            if high >= around.right - 1.2:
                yield from (PaperPoint(around.right + out, y + dy) for dy in (0.0, -2.4, 2.4))
        for share in _SHARES:
            x = low + (high - low) * share
            yield from (PaperPoint(x, y + side * off) for side in (1, -1))


_SHARES = tuple(
    k / 24 for k in (2, 22, 4, 20, 1, 23, 6, 18, 8, 16, 10, 14, 12, 3, 21, 5, 19, 7, 17)
)


def _rest_names(
    board: CutBoard,
    place: BoardPaperPlace,
    clutter: Clutter,
    within: PaperBox,
    style: Style,
    made: BoardInk,
) -> None:
    """On what is kept, its name and size; beside a small rest its name alone."""
    for name, shape in _kept_shapes(board):
        box, over_all = place.box(_main_part(shape)), bounds(shape)
        size = f"{dimension_text(over_all.length)} × {dimension_text(over_all.width)}"
        note, figure = style.note_height, style.figure_height
        forms = [
            _Form(((name, note, True), (size, figure, False)), is_upright)
            for is_upright in (True, False)
        ]
        forms += [_Form(((f"{name}: {size}", note, False),), up) for up in (True, False)]
        forms += [_Form(((name, note, True),), up) for up in (True, False)]
        for form in forms:
            texts = _in_box(form, box, clutter)
            if texts is not None:
                clutter.add(texts)
                made.marks.append(Group("rest", texts, title="rest to keep"))
                break
        else:
            _called_out(name, name, box.middle, clutter, within, style, made, is_dotted=True)


def _grain(
    board: CutBoard,
    place: BoardPaperPlace,
    clutter: Clutter,
    within: PaperBox,
    style: Style,
    made: BoardInk,
) -> None:
    if not board.board.stock.has_grain:
        return
    around = place.box(bounds(board.board.outline))
    below = PaperBox(within.left, around.bottom + 1.5, within.right, within.bottom)
    above = PaperBox(within.left, within.top, within.right, around.top - 1.5)
    for room in (below, above):
        spot = free_spot(26.0, 5.0, clutter, within=room, gap=_GAP, step=2.0)
        if spot is not None:
            marks = grain_marks(spot, style, is_level=True)
            clutter.add(marks)
            made.marks.append(Group("grain", marks, title="grain"))
            return
    made.untold.append("grain")
