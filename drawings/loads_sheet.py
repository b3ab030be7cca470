"""The sheet of loads: what the unit bears, how it hangs or stands, and the way of its air.

Every figure is a check with the assumptions printed beside it, never a promise.
"""

from __future__ import annotations

from dataclasses import replace

from cabinet.errors import DesignError
from cabinet.site.report import SiteReport
from cabinet.site.tables import SiteTable, site_tables
from drawings import cautions
from drawings.list_sheet import FORMS, ListPiece, in_columns
from drawings.paper import frame_marks, style_for
from drawings.sheet import Sheet
from drawings.table import Column
from drawings.title_block import TitleBlock, title_block_marks


def loads_sheet(report: SiteReport, block: TitleBlock) -> Sheet:
    """The report's tables with its assumptions and cautions.

    Args:
        report: What was computed about the unit in its place.
        block: Title block; title and document type are filled in here.

    Raises:
        DesignError: there are more uses than two columns of an A3 hold.
    """
    pieces = [_piece(table) for table in site_tables(report) if table.rows]
    caution = cautions.WALL if report.unit.is_hung else cautions.TIPPING
    pieces.append(ListPiece(heading="Assumptions", notes=(*report.assumptions, caution)))
    filled = replace(block, title="Loads and hanging", document_type="loads", general_tolerance="")
    for size, columns in FORMS:
        marks = in_columns(pieces, size, columns)
        if marks is not None:
            style = style_for(size)
            return Sheet(
                number=block.sheet_number,
                name="loads-and-hanging",
                title="Loads and hanging",
                size=size,
                marks=(*frame_marks(size, style), *title_block_marks(filled, size, style), *marks),
            )
    raise DesignError(
        f"{report.unit.name}: the loads of {len(report.uses)} uses are more than an A3 holds; "
        "give fewer uses, the worst ones",
        part=report.unit.name,
        value=len(report.uses),
    )


def _piece(table: SiteTable) -> ListPiece:
    columns = tuple(Column(heading=heading) for heading in table.columns)
    return ListPiece(heading=table.title, columns=columns, rows=table.rows)
