"""A small end view of one setting: fence, cutter and board, to scale.

The edge that runs against the fence is at the left. A board that is longer than the sketch is
broken with two lines; letters name what is set. Lengths of the work in mm, scaled to the paper.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

from cabinet.making.operation import Guide, Tool, Work
from cabinet.making.setting import Setting
from cabinet.workshop import Workshop
from drawings.marks import Anchor, Group, Ink, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.number import number
from drawings.ruling import rule
from drawings.setup_words import bush_with, reach
from drawings.style import Style

_SCALES = (1.0, 0.5, 0.2, 0.1)
_KEPT = 20.0  # of the board shown on each side of what matters, mm
_FENCE = 14.0  # thickness of the fence as drawn, mm
_ROOM = (14.0, 17.0)  # in all for the letters and the scale, paper mm

Point = tuple[float, float]


@dataclass(slots=True)
class _Work:
    """Lines in mm of the work: u away from the fence, v up; drawn when all is known."""

    lines: list[tuple[Ink, tuple[Point, ...], bool]] = field(default_factory=list)
    spans: list[tuple[str, Point, Point]] = field(default_factory=list)

    def shape(self, ink: Ink, *points: Point, closed: bool = True) -> None:
        self.lines.append((ink, points, closed))

    def block(self, ink: Ink, left: float, low: float, right: float, high: float) -> None:
        self.shape(ink, (left, low), (right, low), (right, high), (left, high))

    def span(self, letter: str, start: Point, end: Point) -> None:
        """What is measured, named by a letter; level or upright."""
        self.spans.append((letter, start, end))


def sketch(setting: Setting, workshop: Workshop, box: PaperBox, style: Style) -> Group:
    """The end view of a setting within a box of paper.

    Args:
        setting: The setting.
        workshop: Its tools, for the sizes of base and bush.
        box: The paper that it may take, mm.
        style: Heights of the lettering.
    """
    work = _Work()
    guide, kind = setting.stand.guide, setting.tasks[0].operation.work
    if setting.stand.tool is Tool.HAND:
        _notch(work, setting)
    elif guide is Guide.BEARING:
        _bearing(work, setting, workshop)
    elif guide is Guide.TEMPLATE:
        _template(work, setting, workshop)
    elif guide is Guide.STRAIGHT_EDGE:
        _straight_edge(work, setting, workshop)
    elif kind is Work.BEVEL:
        _bevel(work, setting)
    else:
        _fenced(work, setting)
    title = f"setting {setting.number}, end view"
    return _on_paper(work, title, box, style)


def _extents(setting: Setting) -> tuple[float, float]:
    """Of the first board: size away from the fence, and depth below the surface worked on."""
    task = setting.tasks[0]
    along = task.parts[0].board.size.along
    one = task.operation
    return along[one.reference.axis], along[one.face.axis]


def _board(work: _Work, right: float, deep: float, *, is_cut: tuple[bool, bool]) -> None:
    """The board's section from the fence to ``right``; open at the right or below if cut off."""
    open_right, open_below = is_cut
    top = [(0.0, -deep), (0.0, 0.0), (right, 0.0)]
    if open_right:
        work.shape(Ink.VISIBLE, *top, closed=False)
        _wave(work, right, -deep, 0.0)
        if not open_below:
            work.shape(Ink.VISIBLE, (0.0, -deep), (right, -deep), closed=False)
    else:
        work.shape(Ink.VISIBLE, *top, (right, -deep), closed=False)
        if not open_below:
            work.shape(Ink.VISIBLE, (0.0, -deep), (right, -deep), closed=False)
    if open_below:
        step = right / 4
        ends = [(index * step, -deep + (1.2 if index % 2 else -1.2)) for index in range(1, 4)]
        work.shape(Ink.NARROW, (0.0, -deep), *ends, (right, -deep), closed=False)


def _wave(work: _Work, u: float, low: float, high: float) -> None:
    """A break line across the board."""
    third = (high - low) / 3
    work.shape(
        Ink.NARROW,
        (u, low),
        (u + 1.6, low + third),
        (u - 1.6, high - third),
        (u, high),
        closed=False,
    )


def _fenced(work: _Work, setting: Setting) -> None:
    """Anything that runs on a fence, and a hole jig, whose edge lies against the board's."""
    one, stand = setting.tasks[0].operation, setting.stand
    wide, thick = _extents(setting)
    distance = stand.position[0] if stand.position else one.passes[0]
    is_middle = one.work in (Work.SLOT, Work.BORE, Work.COUNTERSINK)
    cutter = stand.cutter or one.size[0]
    near = distance - cutter / 2 if is_middle else distance
    # A long way to the fence is broken out of the sketch.
    gap = max(0.0, near - 2 * _KEPT)
    near, wide = near - gap, wide - gap
    depth = stand.depth if stand.depth is not None else thick
    deep = min(thick, depth + _KEPT)
    right = min(wide, near + cutter + _KEPT)
    if one.work is Work.TO_SIZE:
        wide = right = near + cutter + one.allowance
    _board(work, right, deep, is_cut=(right < wide - 0.01, deep < thick - 0.01))
    if gap:
        _wave(work, _KEPT - 1.5, -deep, 0.0)
        _wave(work, _KEPT + 1.5, -deep, 0.0)
    is_marked = stand.guide is Guide.MARKS
    if not is_marked:
        low = max(-deep, -12.0) if stand.tool is Tool.ROUTER else -deep
        work.block(Ink.VISIBLE, -_FENCE, low, 0.0, 15.0)
        work.block(Ink.SHADE, -_FENCE, low, 0.0, 15.0)
    over = 13.0
    if one.work is Work.COUNTERSINK:
        sunk = stand.depth or 0.0
        middle, half = near + cutter / 2, cutter / 2
        tip = half - sunk
        work.shape(
            Ink.VISIBLE,
            (middle - half, over),
            (middle - half, 0.0),
            (middle - tip, -sunk),
            (middle + tip, -sunk),
            (middle + half, 0.0),
            (middle + half, over),
            closed=False,
        )
        work.span("b", (middle - half, over), (middle + half, over))
        return
    foot = -depth - (2.0 if stand.depth is None else 0.0)
    work.block(Ink.SHADE, near, foot, near + cutter, over)
    if one.work is Work.BORE:
        point = min(cutter * 0.25, 4.0)
        work.shape(
            Ink.VISIBLE,
            (near, over),
            (near, foot),
            (near + cutter / 2, foot - (point if stand.depth is None else 0.0)),
            (near + cutter, foot),
            (near + cutter, over),
            closed=False,
        )
    else:
        work.shape(
            Ink.VISIBLE,
            (near, over),
            (near, foot),
            (near + cutter, foot),
            (near + cutter, over),
            closed=False,
        )
    far = near + cutter if one.work is Work.REBATE else near + (cutter / 2 if is_middle else 0.0)
    if not is_marked:
        work.span("a", (0.0, over), (far, over))
    if stand.depth is not None:
        work.span("b", (right + 3.0, -depth), (right + 3.0, 0.0))


def _straight_edge(work: _Work, setting: Setting, workshop: Workshop) -> None:
    """The router's base against a straight-edge that is clamped on the board."""
    stand = setting.stand
    thick = _extents(setting)[1]
    base, away = workshop.router.base, reach(workshop, stand.cutter)
    left, right = -44.0, base + 12.0
    for v in (0.0, -thick):
        work.shape(Ink.VISIBLE, (left, v), (right, v), closed=False)
    _wave(work, left, -thick, 0.0)
    _wave(work, right, -thick, 0.0)
    work.block(Ink.SHADE, -36.0, 0.0, 0.0, 18.0)
    work.block(Ink.VISIBLE, -36.0, 0.0, 0.0, 18.0)
    work.block(Ink.VISIBLE, 0.0, 0.0, base, 10.0)
    depth = stand.depth or thick
    work.block(Ink.SHADE, away, -depth, away + stand.cutter, 40.0)
    work.shape(
        Ink.VISIBLE,
        (away, 40.0),
        (away, -depth),
        (away + stand.cutter, -depth),
        (away + stand.cutter, 40.0),
        closed=False,
    )
    work.span("a", (0.0, 40.0), (away, 40.0))
    work.span("b", (right + 10.0, -depth), (right + 10.0, 0.0))


def _template(work: _Work, setting: Setting, workshop: Workshop) -> None:
    """Guide bush against the template's edge, the cutter inside it."""
    stand = setting.stand
    thick = _extents(setting)[1]
    guide = bush_with(workshop, stand.cutter)
    offset, bush = guide.offset, guide.diameter
    left, right = -34.0, bush + 16.0
    sheet = 9.0
    work.shape(
        Ink.VISIBLE, (left, -thick), (offset, -thick), (offset, 0.0), (left, 0.0), closed=False
    )
    _wave(work, left, -thick, 0.0)
    work.block(Ink.SHADE, left, 0.0, 0.0, sheet)
    work.shape(Ink.VISIBLE, (left, sheet), (0.0, sheet), (0.0, 0.0), (left, 0.0), closed=False)
    work.block(Ink.VISIBLE, left, sheet, right, sheet + 7.0)
    work.shape(Ink.VISIBLE, (0.0, sheet), (0.0, 3.0), (bush, 3.0), (bush, sheet), closed=False)
    work.block(Ink.SHADE, offset, -thick - 2, offset + stand.cutter, 3.0)
    work.shape(
        Ink.VISIBLE,
        (offset, 3.0),
        (offset, -thick - 2),
        (offset + stand.cutter, -thick - 2),
        (offset + stand.cutter, 3.0),
        closed=False,
    )
    work.span("a", (0.0, -thick - 4.0), (offset, -thick - 4.0))


def _bearing(work: _Work, setting: Setting, workshop: Workshop) -> None:
    """What stands over is cut off; the bearing runs on the finished face beside it."""
    one = setting.tasks[0].operation
    cutter, router = setting.stand.cutter, workshop.router
    over = one.depth if one.work is Work.TRIM else one.allowance
    over = over or 1.0
    thick = min(setting.tasks[0].parts[0].board.thickness, router.bearing_length - 3.0)
    # The finished face is upright at u = 0, the wood that stands over lies above the bearing.
    work.shape(Ink.VISIBLE, (-24.0, 0.0), (0.0, 0.0), (0.0, -14.0), closed=False)
    work.shape(Ink.VISIBLE, (-24.0, thick), (over, thick), (over, 0.0), (0.0, 0.0), closed=False)
    _wave(work, -24.0, -14.0, thick)
    high = -2.0
    work.block(Ink.SHADE, 0.0, high, cutter, high + router.bearing_length)
    work.block(Ink.VISIBLE, 0.0, high, cutter, high + router.bearing_length)
    work.block(Ink.VISIBLE, 0.0, high - 1.0 - router.bearing_height, cutter, high - 1.0)
    shank = cutter / 2
    work.block(
        Ink.VISIBLE,
        shank - 4.0,
        high + router.bearing_length,
        shank + 4.0,
        high + router.bearing_length + 5.0,
    )


def _bevel(work: _Work, setting: Setting) -> None:
    """A blade tilted through the whole thickness."""
    stand = setting.stand
    wide, thick = _extents(setting)
    gap = max(0.0, stand.position[0] - 2 * _KEPT)
    near, wide = stand.position[0] - gap, wide - gap
    slope = math.tan(math.radians(stand.angle))
    kerf = stand.cutter / math.cos(math.radians(stand.angle))
    _board(work, wide, thick, is_cut=(False, False))
    if gap:
        _wave(work, _KEPT - 1.5, -thick, 0.0)
        _wave(work, _KEPT + 1.5, -thick, 0.0)
    work.block(Ink.SHADE, -_FENCE, -thick, 0.0, 15.0)
    work.block(Ink.VISIBLE, -_FENCE, -thick, 0.0, 15.0)
    low, high = -thick - 5.0, 12.0
    blade = (
        (near - high * slope, high),
        (near - high * slope + kerf, high),
        (near - low * slope + kerf, low),
        (near - low * slope, low),
    )
    work.shape(Ink.SHADE, *blade)
    work.shape(Ink.VISIBLE, *blade)
    work.span("a", (0.0, 19.0), (near, 19.0))


def _notch(work: _Work, setting: Setting) -> None:
    """Seen from above: the notch in its edge."""
    task = setting.tasks[0]
    one = task.operation
    long, deep = one.size
    near = one.places[0]
    left = min(near, _KEPT)
    body = deep + 24.0
    u0 = -left
    points: list[Point] = [(u0, -body), (u0, 0.0)] if near > 0 else [(0.0, -body), (0.0, -deep)]
    if near > 0:
        points += [(0.0, 0.0), (0.0, -deep)]
    points += [(long, -deep), (long, 0.0), (long + _KEPT, 0.0)]
    work.shape(Ink.VISIBLE, *points, closed=False)
    work.block(Ink.SHADE, 0.0, -deep, long, 0.0)
    _wave(work, long + _KEPT, -body, 0.0)
    work.shape(Ink.NARROW, (u0 if near > 0 else 0.0, -body), (long + _KEPT, -body), closed=False)


def _on_paper(work: _Work, title: str, box: PaperBox, style: Style) -> Group:
    """The work at the largest scale that fits, its letters beside what they measure."""
    points = [p for _, them, _ in work.lines for p in them]
    points += [p for _, start, end in work.spans for p in (start, end)]
    low_u, high_u = min(p[0] for p in points), max(p[0] for p in points)
    low_v, high_v = min(p[1] for p in points), max(p[1] for p in points)
    room = box.width - _ROOM[0], box.height - _ROOM[1]
    scale = next(
        (s for s in _SCALES if (high_u - low_u) * s <= room[0] and (high_v - low_v) * s <= room[1]),
        _SCALES[-1],
    )
    x0 = (box.left + box.right) / 2 - (low_u + high_u) / 2 * scale
    y0 = (box.top + box.bottom) / 2 + 1.0 + (low_v + high_v) / 2 * scale

    def at(point: Point) -> PaperPoint:
        return PaperPoint(x0 + point[0] * scale, y0 - point[1] * scale)

    # Filled areas first, so that no line is hidden under one.
    ordered = sorted(work.lines, key=lambda one: one[0] is not Ink.SHADE)
    marks: list[Mark] = [
        Polyline(tuple(at(p) for p in them), ink, closed=closed) for ink, them, closed in ordered
    ]
    for letter, start, end in work.spans:
        marks += _span_marks(letter, at(start), at(end), style, is_below=start[1] < 0)
    corner = PaperPoint(box.left + 1.6, box.bottom - 1.4)
    marks.append(Text(corner, _scale_text(scale), style.label_height))
    return Group(
        "view",
        tuple(marks),
        title=title,
        description=_scale_text(scale),
    )


def _scale_text(scale: float) -> str:
    return f"1:{number(1 / scale)}"


def _span_marks(
    letter: str, start: PaperPoint, end: PaperPoint, style: Style, *, is_below: bool
) -> Iterable[Mark]:
    """A dimension line with its letter: level ones above or below, upright ones at the right."""
    height = style.figure_height
    if abs(start.y - end.y) < 0.01:
        out = 1.0 if is_below else -1.0
        y = start.y + 2.5 * out
        left, right = sorted((start.x, end.x))
        yield rule(left, y, right, y, Ink.DIMENSION_LINE)
        for x in (left, right):
            yield rule(x, y + 1.2 * out, x, y - 2.0 * out, Ink.EXTENSION)
        # A letter wider than what it measures stands above the extension lines' ends.
        base = y + 1.9 + height if is_below else y - 1.9
        yield Text(PaperPoint((left + right) / 2, base), letter, height, Anchor.MIDDLE)
        return
    x = start.x + 1.5
    top, foot = sorted((start.y, end.y))
    yield rule(x, top, x, foot, Ink.DIMENSION_LINE)
    for y in (top, foot):
        yield rule(x - 2.0, y, x + 1.2, y, Ink.EXTENSION)
    yield Text(PaperPoint(x + 2.0, (top + foot) / 2 + height / 2), letter, height)
