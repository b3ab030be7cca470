"""A sheet as the text of its SVG file."""

from __future__ import annotations

from drawings.paper import style_for
from drawings.sheet import Sheet
from drawings.svg import svg_document


def sheet_svg(sheet: Sheet) -> str:
    """The SVG document of a sheet, in true millimetres."""
    return svg_document(
        title=f"{sheet.title}, sheet {sheet.number}",
        width=sheet.size.width,
        height=sheet.size.height,
        marks=sheet.marks,
        style=style_for(sheet.size),
    )
