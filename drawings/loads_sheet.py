"""Sheets with what a unit carries, what holds it, and whether its air gets through."""

from __future__ import annotations

from cabinet.site.report import SiteReport
from cabinet.site.tables import site_tables
from drawings import cautions
from drawings.list_pages import list_pages
from drawings.list_piece import ListPiece
from drawings.sheet import Sheet
from drawings.site_piece import site_piece
from drawings.title_block import TitleBlock


def loads_sheets(report: SiteReport, block: TitleBlock) -> tuple[Sheet, ...]:
    """The report's tables with its assumptions and cautions.

    Args:
        report: What was computed about the unit in its place.
        block: Title block of the first; title and document type are filled in here.
    """
    pieces = [site_piece(table) for table in site_tables(report) if table.rows]
    caution = cautions.WALL if report.unit.is_hung else cautions.TIPPING
    pieces.append(ListPiece(heading="Assumptions", notes=(*report.assumptions, caution)))
    return list_pages(
        pieces,
        name="loads-and-hanging",
        title="Loads and hanging",
        document_type="loads",
        block=block,
    )
