"""The sheet of changes: what an altered design does to work that is cut already."""

from __future__ import annotations

from dataclasses import replace

from cabinet.making.rework import Fate
from drawings.list_sheet import FORMS, ListPiece, in_columns
from drawings.paper import frame_marks, style_for
from drawings.revision import Revision
from drawings.sheet import Sheet
from drawings.table import Column
from drawings.title_block import TitleBlock, title_block_marks

_ORDER = (Fate.ANEW, Fate.REWORK, Fate.NEW, Fate.DROPPED)


def changes_sheet(revision: Revision, block: TitleBlock) -> Sheet:
    """By part: made anew, re-worked or unchanged; then the sheets and blanks that differ.

    A list that is longer than an A3 holds is cut, and says so; job.json has all of it.

    Args:
        revision: What is different.
        block: Title block; title and document type are filled in here.
    """
    filled = replace(block, title="Changes", document_type="changes", general_tolerance="")
    pieces = _pieces(revision)
    most = max((len(piece.rows) for piece in pieces), default=0)
    for count in range(most, -1, -1):
        for size, columns in FORMS:
            marks = in_columns([_first(piece, count) for piece in pieces], size, columns)
            if marks is not None:
                style = style_for(size)
                frame = (*frame_marks(size, style), *title_block_marks(filled, size, style))
                return Sheet(
                    number=block.sheet_number,
                    name="changes",
                    title="Changes",
                    size=size,
                    marks=(*frame, *marks),
                )
    raise AssertionError("headings alone fit on an A3")


def _first(piece: ListPiece, count: int) -> ListPiece:
    rest = len(piece.rows) - count
    if rest <= 0:
        return piece
    more = ("…", f"and {rest} more, in job.json and in the book")
    return replace(piece, rows=(*piece.rows[:count], more))


def _pieces(revision: Revision) -> list[ListPiece]:
    since = f"the issue {revision.earlier}" if revision.earlier else "the first issue"
    rows = [
        (change.part, f"{fate.value}{': ' if change.steps else ''}{'; '.join(change.steps)}")
        for fate in _ORDER
        for change in revision.of(fate)
    ]
    told = [c for c in revision.of(Fate.SAME) if c.steps]
    rows += [(change.part, "; ".join(change.steps)) for change in told]
    plain = [c.part for c in revision.of(Fate.SAME) if not c.steps]
    if plain:
        rows.append((f"{len(plain)} other parts", f"unchanged: {', '.join(plain)}"))
    pieces = [
        ListPiece(
            heading=f"Parts, compared with {since}",
            columns=(Column(heading="part", width=45.0), Column(heading="what becomes of it")),
            rows=tuple(rows),
        )
    ]
    if revision.sheets:
        pieces.append(
            ListPiece(
                heading="Sheets that are different: throw the old ones away",
                columns=(Column(heading="sheet", width=45.0), Column(heading="title")),
                rows=tuple((str(number), title) for number, title in revision.sheets.items()),
            )
        )
    lines = tuple(revision.cuts) + tuple(revision.other)
    if lines:
        pieces.append(ListPiece(heading="Blanks and what is bought", notes=lines))
    return pieces
