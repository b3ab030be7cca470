"""Tables and notes in the first area that holds them."""

from __future__ import annotations

from drawings.list_flow import GAP, flowed
from drawings.list_sheet import ListPiece
from drawings.marks import Group, PaperBox
from drawings.style import A3_STYLE
from drawings.table import Column


def _piece(title: str, rows: int) -> ListPiece:
    return ListPiece(
        heading=title,
        columns=(Column(heading="what"), Column(heading="size")),
        rows=tuple((f"row {i}", "17.6") for i in range(rows)),
    )


FIRST, SECOND = PaperBox(20.0, 10.0, 120.0, 80.0), PaperBox(150.0, 30.0, 260.0, 200.0)


def _tops(pieces: list[ListPiece], areas: tuple[PaperBox, ...]) -> list[tuple[float, float]]:
    """Left and top of each table's first ink."""
    marks = flowed(pieces, areas, A3_STYLE)
    assert marks is not None
    found = []
    for mark in marks:
        assert isinstance(mark, Group)
        title = mark.marks[0]
        found.append((round(title.at.x, 3), round(title.at.y, 3)))  # type: ignore[union-attr]
    return found


def test_one_below_the_other_then_the_next_area() -> None:
    """Two small ones stay in the first area; the third, too high for what is left, goes on."""
    tops = _tops([_piece("a", 2), _piece("b", 2), _piece("c", 9)], (FIRST, SECOND))
    assert [x for x, _ in tops] == [20.0, 20.0, 150.0]
    assert tops[1][1] - tops[0][1] > GAP
    # A later small one still finds the room that the large one could not use.
    back = _tops([_piece("a", 2), _piece("c", 9), _piece("b", 2)], (FIRST, SECOND))
    assert [x for x, _ in back] == [20.0, 150.0, 20.0]


def test_what_finds_no_room_is_told() -> None:
    """None, so that the caller can try another scale."""
    assert flowed([_piece("a", 60)], (FIRST, SECOND), A3_STYLE) is None
    assert flowed([], (FIRST,), A3_STYLE) == ()
