"""The sheets of changes: what an altered design does to work that is cut already."""

from __future__ import annotations

from cabinet.making.rework import Fate
from drawings.list_pages import list_pages
from drawings.list_piece import ListPiece
from drawings.revision import Revision
from drawings.sheet import Sheet
from drawings.table import Column
from drawings.title_block import TitleBlock

_ORDER = (Fate.ANEW, Fate.REWORK, Fate.NEW, Fate.DROPPED)


def changes_sheets(revision: Revision, block: TitleBlock) -> tuple[Sheet, ...]:
    """By part: made anew, re-worked or unchanged; then the sheets, blanks and set-ups that differ.

    Args:
        revision: What is different.
        block: Title block of the first sheet; the others count on from it.
    """
    return list_pages(
        _pieces(revision), name="changes", title="Changes", document_type="changes", block=block
    )


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
    lines = (*revision.cuts, *revision.other)
    if lines:
        pieces.append(
            ListPiece(
                heading="Blanks, what is bought, set-ups and the place",
                columns=(Column(heading="no.", width=10.0), Column(heading="what is different")),
                rows=tuple((str(number), line) for number, line in enumerate(lines, start=1)),
            )
        )
    return pieces
