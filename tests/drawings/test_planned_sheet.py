"""Tables that flow from area to area."""

from __future__ import annotations

from drawings.list_sheet import ListPiece
from drawings.marks import PaperBox
from drawings.paper import SheetSize
from drawings.planned_sheet import flowed
from drawings.table import Column
from tests.drawings.cut_plans import texts

COLUMNS = (Column(heading="no."), Column(heading="what"))
LONG = ListPiece(
    heading="Cuts",
    columns=COLUMNS,
    rows=tuple((str(k), f"strip {k}") for k in range(1, 31)),
)
ONE, OTHER = PaperBox(25.0, 20.0, 120.0, 140.0), PaperBox(130.0, 20.0, 225.0, 140.0)


def test_a_long_table_goes_on_in_the_next_area_without_losing_a_row() -> None:
    marks, left = flowed([LONG], (ONE, OTHER), SheetSize.A3)
    written = [text.text for text in texts(marks)]
    assert left == []
    assert "Cuts, continued" in written
    assert [w for w in written if w.startswith("strip ")] == [f"strip {k}" for k in range(1, 31)]


def test_what_finds_no_room_is_handed_back() -> None:
    marks, left = flowed([LONG, LONG], (ONE,), SheetSize.A3)
    assert [piece.heading for piece in left] == ["Cuts, continued", "Cuts"]
    shown = [text.text for text in texts(marks) if text.text.startswith("strip ")]
    assert len(shown) + len(left[0].rows) == 30


def test_notes_stay_together() -> None:
    notes = ListPiece(heading="Notes", notes=("A note that says something.",) * 30)
    assert flowed([notes], (ONE,), SheetSize.A3)[1] == [notes]
