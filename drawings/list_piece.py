"""A table or a list of numbered notes, as it stands on sheets of lists."""

from __future__ import annotations

from dataclasses import dataclass, replace

from drawings.marks import PaperPoint
from drawings.notes import notes_marks
from drawings.style import Style
from drawings.table import Column, Placed, table_marks

_CONTINUED = ", continued"


@dataclass(frozen=True, slots=True, kw_only=True)
class ListPiece:
    """A table, or numbered notes if it has no columns.

    Attributes:
        heading: Stands above it.
        columns: Of a table.
        rows: Of a table, each with a text for each column.
        notes: Otherwise.
        first: Number of the first note.
    """

    heading: str
    columns: tuple[Column, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    notes: tuple[str, ...] = ()
    first: int = 1

    @property
    def count(self) -> int:
        """How many rows or notes it has."""
        return len(self.rows) if self.columns else len(self.notes)

    def placed(self, at: PaperPoint, width: float, style: Style) -> Placed:
        """The piece with its top left corner at a place."""
        if self.columns:
            return table_marks(
                self.columns, self.rows, at=at, width=width, style=style, title=self.heading
            )
        return notes_marks(
            self.notes, at=at, width=width, style=style, heading=self.heading, first=self.first
        )

    def headed(self, count: int) -> ListPiece:
        """Its first rows or notes."""
        return replace(self, rows=self.rows[:count], notes=self.notes[:count])

    def after(self, count: int) -> ListPiece:
        """What comes after its first rows or notes; the heading says that it goes on."""
        return replace(
            self,
            heading=self.heading.removesuffix(_CONTINUED) + _CONTINUED,
            rows=self.rows[count:],
            notes=self.notes[count:],
            first=self.first + count,
        )
