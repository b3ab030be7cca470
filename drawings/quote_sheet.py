"""The sheet for a quote: hours as a range and, with the maker's prices, costs."""

from __future__ import annotations

from cabinet.making.quote import Quote
from cabinet.quantity import Range
from drawings.list_pages import list_pages
from drawings.list_piece import ListPiece
from drawings.marks import Anchor
from drawings.sheet import Sheet
from drawings.table import Column
from drawings.title_block import TitleBlock

_NOTES = (
    (
        "Counted from the operations, gluing goes and areas of this design; the minutes are usual "
        "ones for one person, not measured ones: put your own in."
    ),
    "Drawing, buying, travel and clearing up are not in it.",
)


def span(values: Range, places: int = 1) -> str:
    """A range as it is printed."""
    low, high = values
    told = f"{low:.{places}f}", f"{high:.{places}f}"
    return told[0] if told[0] == told[1] else f"{told[0]} to {told[1]}"


def quote_sheets(made: Quote, block: TitleBlock) -> tuple[Sheet, ...]:
    """Hours and, where there are prices, costs.

    Args:
        made: What was counted.
        block: Title block of the first sheet.
    """
    hours = [(line.title, line.basis, span(line.hours)) for line in made.work]
    hours.append(("in all", "", span(made.hours)))
    hours.append(("drying, waiting", "one go after another", span(made.waiting, 0)))
    pieces = [
        ListPiece(
            heading="Hours",
            columns=(
                Column(heading="work"),
                Column(heading="counted"),
                Column(heading="h", width=30.0, anchor=Anchor.END),
            ),
            rows=tuple(hours),
        )
    ]
    if made.total is not None:
        costs = [(line.title, line.basis, span(line.cost, 2)) for line in made.costs]
        costs.append(("in all", "", span(made.total, 2)))
        pieces.append(
            ListPiece(
                heading=f"Costs, {made.currency}",
                columns=(
                    Column(heading="what"),
                    Column(heading="how much"),
                    Column(heading=made.currency, width=44.0, anchor=Anchor.END),
                ),
                rows=tuple(costs),
            )
        )
    notes = list(_NOTES)
    if made.unpriced:
        notes.append(f"Not in the sum, since no price was given: {', '.join(made.unpriced)}.")
    pieces.append(ListPiece(heading="Notes", notes=tuple(notes)))
    title = "Hours" if made.total is None else "Hours and costs"
    return list_pages(pieces, name="quote", title=title, document_type="estimate", block=block)
