"""A sheet that is laid out before its number in the set is known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drawings.list_sheet import ListPiece
from drawings.marks import Mark, PaperBox, PaperPoint
from drawings.paper import SheetSize, frame_marks, style_for
from drawings.sheet import Sheet, SheetView
from drawings.table import table_marks
from drawings.title_block import TitleBlock, title_block_marks

_GAP = 6.0  # between two tables, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedSheet:
    """A sheet without its title block.

    Attributes:
        name: Short name for its file.
        title: What it shows.
        document_type: What kind of document it is.
        size: Paper.
        marks: What is drawn, frame and title block excepted.
        material: For the title block, "" for none.
        scale: Of its view, "" for none.
    """

    name: str
    title: str
    document_type: str
    size: SheetSize
    marks: tuple[Mark, ...]
    material: str = ""
    scale: str = ""

    def sheet(self, block: TitleBlock) -> Sheet:
        """The sheet with its frame and title block.

        Args:
            block: Title block with number and count; title, kind, scale and material are
                filled in here.
        """
        style = style_for(self.size)
        filled = replace(
            block,
            title=self.title,
            document_type=self.document_type,
            general_tolerance="",
            material=self.material,
            scale=self.scale,
        )
        views = (SheetView(title=self.title, scale=self.scale),) if self.scale else ()
        return Sheet(
            number=block.sheet_number,
            name=self.name,
            title=self.title,
            size=self.size,
            marks=(
                *frame_marks(self.size, style),
                *title_block_marks(filled, self.size, style),
                *self.marks,
            ),
            views=views,
        )


def flowed(
    pieces: Sequence[ListPiece], areas: Sequence[PaperBox], size: SheetSize
) -> tuple[list[Mark], list[ListPiece]]:
    """Tables and notes one below the other, area by area; tables go on in the next area.

    Args:
        pieces: What is to be written.
        areas: Where there is room, mm.
        size: Paper, for the heights of the lettering.

    Returns:
        The marks, and what found no room.
    """
    style = style_for(size)
    marks: list[Mark] = []
    left = list(pieces)
    for area in areas:
        y = area.top
        while left:
            piece = left[0]
            fits = _fitting(piece, PaperBox(area.left, y, area.right, area.bottom), size)
            if fits == 0:
                break
            now, later = _divided(piece, fits)
            placed = now.placed(PaperPoint(area.left, y), area.width, style)
            marks += placed.marks
            y = placed.box.bottom + _GAP
            left = [later, *left[1:]] if later is not None else left[1:]
            if later is not None:
                break
    return marks, left


def _fitting(piece: ListPiece, box: PaperBox, size: SheetSize) -> int:
    """How many rows of a piece, from its first, find room in a box; for notes all or none."""
    style = style_for(size)
    at = PaperPoint(box.left, box.top)
    if not piece.columns:
        return int(piece.placed(at, box.width, style).box.bottom <= box.bottom)
    low, high = 0, len(piece.rows)
    while low < high:
        middle = (low + high + 1) // 2
        foot = table_marks(
            piece.columns,
            piece.rows[:middle],
            at=at,
            width=box.width,
            style=style,
            title=piece.heading,
        ).box.bottom
        if foot <= box.bottom:
            low = middle
        else:
            high = middle - 1
    # One row by itself at the foot of a column is not worth its heading.
    return low if low == len(piece.rows) or low >= 2 else 0


def _divided(piece: ListPiece, fits: int) -> tuple[ListPiece, ListPiece | None]:
    if not piece.columns or fits == len(piece.rows):
        return piece, None
    heading = piece.heading.removesuffix(", continued")
    return (
        replace(piece, rows=piece.rows[:fits]),
        replace(piece, heading=f"{heading}, continued", rows=piece.rows[fits:]),
    )
