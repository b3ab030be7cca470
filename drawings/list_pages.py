"""Tables and notes in columns over as many sheets as they need."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drawings.list_sheet import ListPiece
from drawings.marks import Mark, PaperPoint
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.sheet import Sheet
from drawings.table import Placed
from drawings.title_block import TitleBlock, title_block_box, title_block_marks

_INSET = 6.0
_GUTTER = 10.0
_GAP = 5.0
_COLUMNS = {SheetSize.A4: 1, SheetSize.A3: 2}


def list_pages(
    pieces: Sequence[ListPiece], *, name: str, title: str, document_type: str, block: TitleBlock
) -> tuple[Sheet, ...]:
    """Pieces one below the other: on one A4 if they fit, otherwise on A3 sheets of two columns.

    Args:
        pieces: What is listed; a table longer than a column is continued in the next.
        name: Short name for the file; a number is added if there are several sheets.
        title: Title of the sheet.
        document_type: What the title block calls it.
        block: Title block of the first sheet; the others count on from it.
    """
    small = _filled(pieces, SheetSize.A4)
    size, pages = (SheetSize.A4, small) if len(small) == 1 else (SheetSize.A3, None)
    pages = pages or _filled(pieces, SheetSize.A3)
    style = style_for(size)
    sheets = []
    for index, marks in enumerate(pages):
        told = title if len(pages) == 1 else f"{title}, {index + 1} of {len(pages)}"
        filled = replace(
            numbered(block, index), title=told, document_type=document_type, general_tolerance=""
        )
        sheets.append(
            Sheet(
                number=filled.sheet_number,
                name=name if len(pages) == 1 else f"{name}-{index + 1}",
                title=told,
                size=size,
                marks=(*frame_marks(size, style), *title_block_marks(filled, size, style), *marks),
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


def _filled(pieces: Sequence[ListPiece], size: SheetSize) -> list[list[Mark]]:
    """Marks of each page."""
    space, style, columns = drawing_space(size), style_for(size), _COLUMNS[size]
    width = (space.width - 2 * _INSET - _GUTTER * (columns - 1)) / columns
    top = space.top + _INSET
    pages: list[list[Mark]] = [[]]
    column, y = 0, top
    waiting = list(pieces)
    while waiting:
        piece = waiting.pop(0)
        x = space.left + _INSET + column * (width + _GUTTER)
        placed = piece.placed(PaperPoint(x, y), width, style)
        foot = title_block_box(size).top - _GAP if column == columns - 1 else space.bottom - _INSET
        if placed.box.bottom > foot and y == top:
            first, rest = _split(piece, PaperPoint(x, y), width, foot, size)
            waiting = [first, *rest, *waiting] if rest else waiting
            if rest:
                continue
        if placed.box.bottom > foot and y > top:
            waiting.insert(0, piece)
            column, y = column + 1, top
            if column == columns:
                pages.append([])
                column = 0
            continue
        pages[-1] += placed.marks
        y = placed.box.bottom + _GAP
    return pages


def _split(
    piece: ListPiece, at: PaperPoint, width: float, foot: float, size: SheetSize
) -> tuple[ListPiece, tuple[ListPiece, ...]]:
    """As many rows or notes as fit a column, and the others as a piece of their own."""
    style = style_for(size)
    items = piece.rows or piece.notes
    field = "rows" if piece.rows else "notes"

    def with_items(some: Sequence[object], heading: str) -> ListPiece:
        return replace(piece, heading=heading, **{field: tuple(some)})  # type: ignore[arg-type]

    for count in range(len(items) - 1, 0, -1):
        first = with_items(items[:count], piece.heading)
        made: Placed = first.placed(at, width, style)
        if made.box.bottom <= foot:
            return first, (with_items(items[count:], f"{piece.heading}, continued"),)
    return piece, ()
