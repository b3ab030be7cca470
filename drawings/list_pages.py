"""Sheets of tables and notes in columns, as many as they need."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drawings.list_flow import GAP, flowed
from drawings.list_piece import ListPiece
from drawings.marks import Mark, PaperBox, PaperPoint
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.sheet import Sheet
from drawings.title_block import TitleBlock, title_block_box, title_block_marks

_INSET = 6.0
_GUTTER = 12.0
_COLUMNS = {SheetSize.A4: 1, SheetSize.A3: 2}

SIZES = tuple(_COLUMNS)
"""Papers of such sheets, smaller first."""


def list_pages(
    pieces: Sequence[ListPiece], *, name: str, title: str, document_type: str, block: TitleBlock
) -> tuple[Sheet, ...]:
    """Pieces one below the other: on one A4 if they fit, otherwise on A3 sheets of two columns.

    Args:
        pieces: What is listed; what is longer than a column is continued in the next.
        name: Short name for the file; a number is added if there are several sheets.
        title: Title of the sheet.
        document_type: What the title block calls it.
        block: Title block of the first sheet; the others count on from it.
    """
    size, pages = next(
        (size, pages)
        for size in SIZES
        if len(pages := filled(pieces, size)) == 1 or size is SIZES[-1]
    )
    style = style_for(size)
    sheets = []
    for index, marks in enumerate(pages):
        told = title if len(pages) == 1 else f"{title}, {index + 1} of {len(pages)}"
        own = replace(
            numbered(block, index), title=told, document_type=document_type, general_tolerance=""
        )
        sheets.append(
            Sheet(
                number=own.sheet_number,
                name=name if len(pages) == 1 else f"{name}-{index + 1}",
                title=told,
                size=size,
                marks=(*frame_marks(size, style), *title_block_marks(own, size, style), *marks),
            )
        )
    return tuple(sheets)


def numbered(block: TitleBlock, index: int) -> TitleBlock:
    """The title block of the sheet that comes ``index`` sheets after a block's own."""
    number = block.sheet_number + index
    stem, _, ending = block.identification_number.rpartition("-")
    is_counted = bool(stem) and ending.isdigit()
    return replace(
        block,
        sheet_number=number,
        sheet_count=max(block.sheet_count, number),
        identification_number=(
            f"{stem}-{number:02d}" if is_counted else block.identification_number
        ),
    )


def filled(pieces: Sequence[ListPiece], size: SheetSize) -> list[tuple[Mark, ...]]:
    """Marks of each page; the last column of a page ends above the title block."""
    areas, style = list_columns(size), style_for(size)
    pages: list[tuple[Mark, ...]] = []
    left = tuple(piece for piece in pieces if piece.count)
    while left or not pages:
        marks, rest = flowed(left, areas, style)
        if rest == left and left:
            # A single row that is higher than a column: it stands out of it, and the lint
            # of the sheet tells.
            corner = PaperPoint(areas[0].left, areas[0].top)
            alone = left[0].headed(1).placed(corner, areas[0].width, style)
            marks, rest = alone.marks, (left[0].after(1), *left[1:])
            rest = tuple(piece for piece in rest if piece.count)
        pages.append(marks)
        left = rest
    return pages


def list_columns(size: SheetSize) -> tuple[PaperBox, ...]:
    """The columns of a sheet of lists."""
    space, count = drawing_space(size).grown(-_INSET), _COLUMNS[size]
    width = (space.width - _GUTTER * (count - 1)) / count
    foot = title_block_box(size).top - GAP
    return tuple(
        PaperBox(
            space.left + column * (width + _GUTTER),
            space.top,
            space.left + column * (width + _GUTTER) + width,
            foot if column == count - 1 else space.bottom,
        )
        for column in range(count)
    )
