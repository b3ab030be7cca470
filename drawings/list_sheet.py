"""Tables and numbered notes one below the other, in one column or two, on a sheet of lists."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drawings.marks import Mark, PaperBox, PaperPoint
from drawings.notes import notes_marks
from drawings.paper import SheetSize, drawing_space, style_for
from drawings.style import Style
from drawings.table import Column, Placed, table_marks
from drawings.title_block import title_block_box

_INSET = 6.0
_GAP = 7.0

FORMS = ((SheetSize.A4, 1), (SheetSize.A3, 2))
"""Papers with their columns, smaller first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListPiece:
    """A table, or numbered notes if it has no columns."""

    heading: str
    columns: tuple[Column, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    notes: tuple[str, ...] = ()

    def placed(self, at: PaperPoint, width: float, style: Style) -> Placed:
        """The piece with its top left corner at a place."""
        if self.columns:
            return table_marks(
                self.columns, self.rows, at=at, width=width, style=style, title=self.heading
            )
        return notes_marks(self.notes, at=at, width=width, style=style, heading=self.heading)


def in_columns(pieces: Sequence[ListPiece], size: SheetSize, columns: int) -> list[Mark] | None:
    """The pieces from the top of the first column down; None if they do not fit."""
    space, style = drawing_space(size), style_for(size)
    width = (space.width - 2 * _INSET - 2 * _GAP * (columns - 1)) / columns
    foot = title_block_box(size).top - _GAP
    column, y = 0, space.top + _INSET
    marks: list[Mark] = []
    for piece in pieces:
        placed = piece.placed(_corner(space, width, column, y), width, style)
        if placed.box.bottom > foot:
            column, y = column + 1, space.top + _INSET
            if column == columns:
                return None
            placed = piece.placed(_corner(space, width, column, y), width, style)
            if placed.box.bottom > foot:
                return None
        marks += placed.marks
        y = placed.box.bottom + _GAP
    return marks


def _corner(space: PaperBox, width: float, column: int, y: float) -> PaperPoint:
    return PaperPoint(space.left + _INSET + column * (width + 2 * _GAP), y)
