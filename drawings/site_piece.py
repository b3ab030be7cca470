"""A table about the unit in its place, for sheets of lists."""

from __future__ import annotations

from cabinet.site.tables import SiteTable
from drawings.list_piece import ListPiece
from drawings.table import Column


def site_piece(table: SiteTable) -> ListPiece:
    """The table with a column for each of its headings."""
    columns = tuple(Column(heading=heading) for heading in table.columns)
    return ListPiece(heading=table.title, columns=columns, rows=table.rows)
