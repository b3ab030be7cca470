"""The drawing of patches: where the recess lies, how large and deep it is, and its plug.

One patch to an A4: the blank's face with the recess told from an end and an edge, and a section
through the recess, not to scale, with the plug standing proud.
"""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.making.cut_board import JobCuts
from cabinet.making.patch import PROUD, Patch
from drawings.curves import Segment, ViewPoint
from drawings.dimension_ink import arrow
from drawings.fitting import fitted
from drawings.hatch import hatch
from drawings.lettering import text_width
from drawings.marks import (
    Anchor,
    Group,
    Ink,
    Line,
    Mark,
    PaperBox,
    PaperPoint,
    Polyline,
    Text,
)
from drawings.notes import notes_marks
from drawings.number import dimension_text
from drawings.paper import SheetSize, drawing_space, style_for
from drawings.planned_sheet import PlannedSheet
from drawings.ruling import outline, rule
from drawings.style import Style

_SIZE = SheetSize.A4
_INSET = 5.0
_FACE_WIDTH = 118.0  # most that the face takes on paper, mm
_FACE_HEIGHT = 90.0
_HEADROOM = 26.0  # from the heading to the face, for dimensions that stand out of it, mm
_LEFT = 24.0  # room for the dimensions at the left, mm
_LEVEL = 7.5  # from one dimension line to the next, mm
_SECTION_WIDTH = 46.0
_SECTION_HEIGHT = 12.0
_HEAD = 3.0  # paper height of what the plug stands proud in the section, mm


def patch_sheets(plan: JobCuts) -> tuple[PlannedSheet, ...]:
    """One sheet for each patch; none if there are no patches."""
    return tuple(patch_sheet(patch, number) for number, patch in enumerate(plan.patches, start=1))


def patch_sheet(patch: Patch, number: int) -> PlannedSheet:
    """The sheet of one patch.

    Args:
        patch: The patch.
        number: Its number in the plan, from 1.
    """
    space = drawing_space(_SIZE).grown(-_INSET)
    style = style_for(_SIZE)
    return PlannedSheet(
        name=f"patch-{number}",
        title=f"Patch {number}",
        document_type="patch drawing",
        size=_SIZE,
        marks=tuple(_patch(patch, number, space, style)),
    )


def _patch(patch: Patch, number: int, box: PaperBox, style: Style) -> Iterator[Mark]:
    told = fitted(
        f"Patch {number}: {patch.item} {patch.blank}, {patch.face}",
        width=box.width,
        tallest=style.heading_height,
        is_bold=True,
    )
    heading = [
        Text(
            PaperPoint(box.left, box.top + told.height * (1 + 1.4 * k)),
            line,
            told.height,
            is_bold=True,
        )
        for k, line in enumerate(told.lines)
    ]
    scale = min(_FACE_WIDTH / patch.length, _FACE_HEIGHT / patch.width)
    corner = PaperPoint(box.left + _LEFT, box.top + _HEADROOM + patch.width * scale)
    yield Group("view", (*heading, *_face(patch, corner, scale, style)), title=f"patch {number}")
    section = corner.y + 2 * _LEVEL + 14.0
    yield Group(
        "view",
        tuple(_section(patch, PaperPoint(box.left + _LEFT, section), style)),
        title=f"section of patch {number}",
    )
    notes = notes_marks(
        tuple(_notes(patch)),
        at=PaperPoint(box.left, section + _HEAD + _SECTION_HEIGHT + 12.0),
        width=box.width,
        style=style,
    )
    yield from notes.marks


def _face(patch: Patch, corner: PaperPoint, scale: float, style: Style) -> Iterator[Mark]:
    """The face with the recess, its near edge below and its start end at the left.

    Face B is seen as if the board were glass, as on the plan.
    """
    recess = patch.recess
    left, right = corner.x, corner.x + patch.length * scale
    top = corner.y - patch.width * scale
    yield outline(PaperBox(left, top, right, corner.y), Ink.VISIBLE)
    r_left, r_right = left + recess.x * scale, left + recess.right * scale
    r_low, r_top = corner.y - recess.y * scale, corner.y - recess.top * scale
    yield outline(PaperBox(r_left, r_top, r_right, r_low), Ink.VISIBLE)
    points = [
        ViewPoint(x, y)
        for x, y in ((r_left, -r_low), (r_right, -r_low), (r_right, -r_top), (r_left, -r_top))
    ]
    loop = [Segment(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True) if a != b]
    for line in hatch([loop], 45.0, 1.2):
        yield Line(
            PaperPoint(line.start.u, -line.start.v), PaperPoint(line.end.u, -line.end.v), Ink.HATCH
        )
    # The recess's own sizes stand nearer, so that no extension line runs through their figures.
    yield from _level_dimension(r_left, r_right, corner.y, _LEVEL, recess.length, style)
    if recess.x > 0:
        yield from _level_dimension(left, r_left, corner.y, 2 * _LEVEL, recess.x, style)
    yield from _upright_dimension(r_low, r_top, left, _LEVEL, recess.width, style)
    if recess.y > 0:
        yield from _upright_dimension(corner.y, r_low, left, 2 * _LEVEL, recess.y, style)


def _level_dimension(
    low: float, high: float, base: float, off: float, value: float, style: Style
) -> Iterator[Mark]:
    """A dimension below a view."""
    y = base + off
    marks: list[Mark] = [
        rule(x, base + style.extension_gap, x, y + style.extension_overshoot, Ink.EXTENSION)
        for x in (low, high)
    ]
    text = dimension_text(value)
    wide = text_width(text, style.figure_height)
    is_inside = high - low >= max(wide + 2.0, style.arrows_inside_least)
    if is_inside:
        at = PaperPoint((low + high) / 2, y - style.text_gap)
        marks.append(Text(at, text, style.figure_height, Anchor.MIDDLE))
        marks.append(rule(low, y, high, y, Ink.DIMENSION_LINE))
    else:
        start = high + style.arrow_length + 1.0
        at = PaperPoint(start, y - style.text_gap)
        marks.append(Text(at, text, style.figure_height))
        marks.append(rule(low - style.arrow_length - 1.0, y, start + wide, y, Ink.DIMENSION_LINE))
    turns = (180.0, 0.0) if is_inside else (0.0, 180.0)
    marks += [
        arrow(PaperPoint(low, y), turns[0], style),
        arrow(PaperPoint(high, y), turns[1], style),
    ]
    yield Group("dimension", tuple(marks), title=text)


def _upright_dimension(
    low: float, high: float, base: float, off: float, value: float, style: Style
) -> Iterator[Mark]:
    """A dimension at the left of a view; ``low`` lies below ``high`` on the paper."""
    x = base - off
    marks: list[Mark] = [
        rule(base - style.extension_gap, y, x - style.extension_overshoot, y, Ink.EXTENSION)
        for y in (low, high)
    ]
    text = dimension_text(value)
    wide = text_width(text, style.figure_height)
    is_inside = low - high >= max(wide + 2.0, style.arrows_inside_least)
    if is_inside:
        at = PaperPoint(x - style.text_gap, (low + high) / 2)
        marks.append(Text(at, text, style.figure_height, Anchor.MIDDLE, is_upright=False))
        marks.append(rule(x, low, x, high, Ink.DIMENSION_LINE))
    else:
        end = high - style.arrow_length - 1.0
        at = PaperPoint(x - style.text_gap, end)
        marks.append(Text(at, text, style.figure_height, is_upright=False))
        marks.append(rule(x, low + style.arrow_length + 1.0, x, end - wide, Ink.DIMENSION_LINE))
    turns = (90.0, 270.0) if is_inside else (270.0, 90.0)
    marks += [
        arrow(PaperPoint(x, low), turns[0], style),
        arrow(PaperPoint(x, high), turns[1], style),
    ]
    yield Group("dimension", tuple(marks), title=text)


def _section(patch: Patch, at: PaperPoint, style: Style) -> Iterator[Mark]:
    """A section through the recess, its sizes told and not measured."""
    left, right = at.x, at.x + _SECTION_WIDTH
    top, foot = at.y + _HEAD, at.y + _HEAD + _SECTION_HEIGHT
    floor = top + _SECTION_HEIGHT * 0.45
    r_left, r_right = left + 14.0, left + 34.0
    board = (
        PaperPoint(left, top),
        PaperPoint(r_left, top),
        PaperPoint(r_left, floor),
        PaperPoint(r_right, floor),
        PaperPoint(r_right, top),
        PaperPoint(right, top),
        PaperPoint(right, foot),
        PaperPoint(left, foot),
    )
    yield Polyline(board, Ink.CUT, closed=True)
    plug = PaperBox(r_left, at.y, r_right, floor)
    yield outline(plug, Ink.CUT)
    yield from _hatched(board, 90.0)
    yield from _hatched(
        (
            PaperPoint(plug.left, plug.top),
            PaperPoint(plug.right, plug.top),
            PaperPoint(plug.right, plug.bottom),
            PaperPoint(plug.left, plug.bottom),
        ),
        45.0,
    )
    yield Text(
        PaperPoint(left, foot + 2.0 + style.note_height),
        "section, not to scale",
        style.note_height,
    )
    yield Text(
        PaperPoint(left, at.y - 1.5),
        f"plug {dimension_text(patch.plug[2])} thick, {dimension_text(PROUD)} proud",
        style.note_height,
    )
    yield from _depth(top, floor, right, patch.depth, style)


def _depth(top: float, floor: float, right: float, value: float, style: Style) -> Iterator[Mark]:
    x = right + 6.0
    marks: list[Mark] = [
        rule(right + 1.0, y, x + style.extension_overshoot, y, Ink.EXTENSION) for y in (top, floor)
    ]
    marks.append(rule(x, top - 5.0, x, floor + 5.0, Ink.DIMENSION_LINE))
    marks += [
        arrow(PaperPoint(x, top), 90.0, style),
        arrow(PaperPoint(x, floor), 270.0, style),
        Text(
            PaperPoint(x + 2.5, (top + floor) / 2 + style.figure_height / 2),
            dimension_text(value),
            style.figure_height,
        ),
    ]
    yield Group("dimension", tuple(marks), title=dimension_text(value), is_not_to_scale=True)


def _hatched(corners: tuple[PaperPoint, ...], angle: float) -> Iterator[Mark]:
    points = [ViewPoint(p.x, -p.y) for p in corners]
    loop = [Segment(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True)]
    for line in hatch([loop], angle, 1.6):
        yield Line(
            PaperPoint(line.start.u, -line.start.v), PaperPoint(line.end.u, -line.end.v), Ink.HATCH
        )


def _notes(patch: Patch) -> Iterator[str]:
    long, wide, thick = (dimension_text(value) for value in patch.plug)
    grain = "length" if patch.grain_along_length else "width"
    yield f"Takes out: {patch.flaw}; {patch.why}."
    yield (
        f"Told from the {patch.end} (left) and the {patch.edge} (below). Rout the recess "
        f"{dimension_text(patch.depth)} deep, square its corners with a chisel."
    )
    source = patch.source or "an offcut of the same board, none of those left is large enough"
    yield (
        f"Plug {long} × {wide} from {source}: its face grain along the blank's {grain}, as the "
        f"part's. Thin it from its back to {thick}."
    )
    yield "Glue, leave proud, plane and sand flush when dry. Let grain and light run on."
