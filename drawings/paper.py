"""The bare sheet: sizes, the drawing space, its frame, centring marks and grid of fields."""

from __future__ import annotations

from enum import Enum
from functools import lru_cache
from itertools import pairwise

from drawings.lettering import text_box
from drawings.marks import Anchor, Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.ruling import outline, rule
from drawings.style import A3_STYLE, A4_STYLE, Style

FILING_MARGIN = 20.0
"""From the left edge to the frame, mm. Source: ISO 5457:1999, 4.2."""

MARGIN = 10.0
"""From the other edges to the frame, mm. Source: ISO 5457:1999, 4.2."""

FIELD = 50.0
"""Side of a field of the grid, mm, counted from the centring marks. Source: ISO 5457, 4.4."""

GRID_STRIP = 5.0
"""Width of the strip with the letters and numerals, mm. Source: ISO 5457:1999, detail X."""

_LEAST_FIELD = 20.0
# What is left at a corner joins its neighbour if it is smaller than this. Any value from 11
# to 24 gives the numbers of fields that ISO 5457 prints for A4 to A0.

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # ISO 5457: I and O are not used


class SheetSize(Enum):
    """Trimmed sheets (width, height) in mm: A4 upright, the others lying. Source: ISO 216."""

    A4 = (210.0, 297.0)
    A3 = (420.0, 297.0)
    A2 = (594.0, 420.0)
    A1 = (841.0, 594.0)
    A0 = (1189.0, 841.0)

    @property
    def width(self) -> float:
        """Width in mm."""
        return self.value[0]

    @property
    def height(self) -> float:
        """Height in mm."""
        return self.value[1]


def style_for(size: SheetSize) -> Style:
    """The look that suits a sheet: A4 has its own, larger sheets share that of A3."""
    return A4_STYLE if size is SheetSize.A4 else A3_STYLE


def drawing_space(size: SheetSize) -> PaperBox:
    """The space inside the frame, mm. Source: ISO 5457:1999, table 1."""
    return PaperBox(FILING_MARGIN, MARGIN, size.width - MARGIN, size.height - MARGIN)


@lru_cache(maxsize=16)
def frame_marks(size: SheetSize, style: Style) -> tuple[Mark, ...]:
    """Frame, centring marks and grid of fields, as one group ``frame``.

    An A4 has its grid along the top and the right only, as ISO 5457:1999, 4.4 has it (from
    memory; sources differ on the side).
    """
    space = drawing_space(size)
    marks = (
        outline(space, Ink.FRAME),
        *_centring_marks(size),
        *_grid_outline(size),
        *_columns(size, style),
        *_rows(size, style),
    )
    return (Group("frame", marks),)


def _centring_marks(size: SheetSize) -> tuple[Line, ...]:
    """On the sheet's two axes, 10 mm long, ending on the frame.

    ISO 5457 lets them run on into the drawing space; ours stop at the frame, so that they
    never meet a view or the title block.
    """
    space, x, y = drawing_space(size), size.width / 2, size.height / 2
    return (
        rule(x, space.top - MARGIN, x, space.top, Ink.FRAME),
        rule(space.right, y, space.right + MARGIN, y, Ink.FRAME),
        rule(x, space.bottom, x, space.bottom + MARGIN, Ink.FRAME),
        rule(space.left - MARGIN, y, space.left, y, Ink.FRAME),
    )


def _grid_outline(size: SheetSize) -> tuple[Polyline, ...]:
    space = drawing_space(size)
    outer = space.grown(GRID_STRIP)
    if size is not SheetSize.A4:
        return (outline(outer, Ink.GRID),)
    corners = (
        PaperPoint(space.left, space.top),
        PaperPoint(space.left, outer.top),
        PaperPoint(outer.right, outer.top),
        PaperPoint(outer.right, space.bottom),
        PaperPoint(space.right, space.bottom),
    )
    return (Polyline(corners, Ink.GRID),)


def _field_borders(start: float, end: float, centre: float) -> tuple[float, ...]:
    """Borders of the fields from ``start`` to ``end``, both included, mm."""
    before = int((centre - start - _LEAST_FIELD) // FIELD)
    after = int((end - centre - _LEAST_FIELD) // FIELD)
    inner = (centre + FIELD * step for step in range(-before, after + 1))
    return (start, *inner, end)


def _columns(size: SheetSize, style: Style) -> tuple[Mark, ...]:
    """Numerals from the left to the right, with the ticks between them."""
    space = drawing_space(size)
    strips = [space.top - GRID_STRIP]
    if size is not SheetSize.A4:
        strips.append(space.bottom)
    borders = _field_borders(space.left, space.right, size.width / 2)
    marks: list[Mark] = []
    for top in strips:
        marks += [rule(x, top, x, top + GRID_STRIP, Ink.GRID) for x in borders[1:-1]]
        for index, (left, right) in enumerate(pairwise(borders)):
            centre = PaperPoint((left + right) / 2, top + GRID_STRIP / 2)
            marks.append(_field_name(str(index + 1), centre, style))
    return tuple(marks)


def _rows(size: SheetSize, style: Style) -> tuple[Mark, ...]:
    """Letters from the top down, with the ticks between them."""
    space = drawing_space(size)
    strips = [space.right]
    if size is not SheetSize.A4:
        strips.append(space.left - GRID_STRIP)
    borders = _field_borders(space.top, space.bottom, size.height / 2)
    marks: list[Mark] = []
    for left in strips:
        marks += [rule(left, y, left + GRID_STRIP, y, Ink.GRID) for y in borders[1:-1]]
        for index, (top, bottom) in enumerate(pairwise(borders)):
            centre = PaperPoint(left + GRID_STRIP / 2, (top + bottom) / 2)
            marks.append(_field_name(_LETTERS[index], centre, style))
    return tuple(marks)


def _field_name(name: str, centre: PaperPoint, style: Style) -> Text:
    """One letter or numeral, in the middle of its field by its own outline."""
    text = Text(centre, name, style.label_height, Anchor.MIDDLE)
    box = text_box(text)
    return Text(
        centre.moved(0.0, centre.y - (box.top + box.bottom) / 2),
        name,
        style.label_height,
        Anchor.MIDDLE,
    )
