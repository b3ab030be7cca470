"""Tables and notes in the room that a sheet has for them."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from drawings.list_flow import GAP, flowed, set_where_there_is_room
from drawings.list_piece import ListPiece
from drawings.marks import Group, Mark, PaperBox
from drawings.style import A3_STYLE
from drawings.table import Column
from tests.drawings.cut_plans import texts


def _piece(title: str, rows: int) -> ListPiece:
    return ListPiece(
        heading=title,
        columns=(Column(heading="what"), Column(heading="size")),
        rows=tuple((f"{title} {i}", "17.6") for i in range(rows)),
    )


def _notes(title: str, count: int) -> ListPiece:
    return ListPiece(heading=title, notes=tuple(f"{title} {i}" for i in range(count)))


FIRST, SECOND = PaperBox(20.0, 10.0, 120.0, 80.0), PaperBox(150.0, 30.0, 260.0, 200.0)


def _tops(marks: tuple[Mark, ...]) -> list[tuple[float, float]]:
    """Left and top of each table's first ink."""
    found = []
    for mark in marks:
        assert isinstance(mark, Group)
        title = mark.marks[0]
        found.append((round(title.at.x, 3), round(title.at.y, 3)))  # type: ignore[union-attr]
    return found


def _written(marks: tuple[Mark, ...], begin: str) -> list[str]:
    return [text.text for text in texts(marks) if text.text.startswith(begin)]


def test_each_in_the_first_area_that_holds_it() -> None:
    """Two small ones stay in the first area; the third, too high for what is left, goes on."""
    areas = (FIRST, SECOND)
    marks = set_where_there_is_room(
        [_piece("a", 2), _piece("b", 2), _piece("c", 9)], areas, A3_STYLE
    )
    assert marks is not None
    tops = _tops(marks)
    assert [x for x, _ in tops] == [20.0, 20.0, 150.0]
    assert tops[1][1] - tops[0][1] > GAP
    # A later small one still finds the room that the large one could not use.
    back = set_where_there_is_room(
        [_piece("a", 2), _piece("c", 9), _piece("b", 2)], areas, A3_STYLE
    )
    assert back is not None
    assert [x for x, _ in _tops(back)] == [20.0, 150.0, 20.0]


def test_what_finds_no_room_whole_is_told() -> None:
    """None, so that the caller can try another scale."""
    assert set_where_there_is_room([_piece("a", 60)], (FIRST, SECOND), A3_STYLE) is None
    assert set_where_there_is_room([], (FIRST,), A3_STYLE) == ()


def test_a_long_table_goes_on_in_the_next_area_without_losing_a_row() -> None:
    """Its heading says so, and so does every further one, once."""
    marks, left = flowed([_piece("strip", 20)], (FIRST, SECOND), A3_STYLE)
    assert left == ()
    assert _written(marks, "strip,") == ["strip, continued"]
    assert _written(marks, "strip ") == [f"strip {i}" for i in range(20)]


def test_what_finds_no_room_is_handed_back() -> None:
    """The rest of a table, and what comes after it."""
    marks, left = flowed([_piece("strip", 30), _piece("bar", 3)], (FIRST,), A3_STYLE)
    assert [piece.heading for piece in left] == ["strip, continued", "bar"]
    assert len(_written(marks, "strip ")) + left[0].count == 30


def test_a_table_that_the_next_area_holds_whole_is_not_parted() -> None:
    """It leaves some of the first area empty instead."""
    marks, left = flowed([_piece("a", 5), _piece("b", 6)], (FIRST, SECOND), A3_STYLE)
    assert left == ()
    assert [x for x, _ in _tops(marks)] == [20.0, 150.0]
    assert not _written(marks, "b,")


def test_notes_go_on_with_their_numbers() -> None:
    """The first of the next area has the number that follows."""
    marks, left = flowed([_notes("mind", 24)], (FIRST, SECOND), A3_STYLE)
    assert left == ()
    numbers = [text.text for text in texts(marks) if text.text.isdigit()]
    assert numbers == [str(number) for number in range(1, 25)]


@given(
    counts=st.lists(st.integers(0, 40), max_size=6),
    heights=st.lists(st.floats(30.0, 190.0), min_size=1, max_size=3),
)
def test_every_row_is_set_once_or_handed_back(counts: list[int], heights: list[float]) -> None:
    """In order, inside the areas, and none over another."""
    areas = tuple(
        PaperBox(20.0 + 110.0 * i, 10.0, 120.0 + 110.0 * i, 10.0 + height)
        for i, height in enumerate(heights)
    )
    names = [chr(ord("a") + i) for i in range(len(counts))]
    pieces = [
        (_piece if i % 2 else _notes)(name, count)
        for i, (name, count) in enumerate(zip(names, counts, strict=True))
    ]
    marks, left = flowed(pieces, areas, A3_STYLE)
    told = [(name, f"{name} {i}") for name, n in zip(names, counts, strict=True) for i in range(n)]
    set_down = [row for name in names for row in _written(marks, f"{name} ")]
    kept = [row for piece in left for row in (*(r[0] for r in piece.rows), *piece.notes)]
    assert [*set_down, *kept] == [row for _, row in told]
    feet = [(x, y) for x, y in _tops(marks)]
    assert all(b > a or u > x for (x, a), (u, b) in pairwise(feet))
    for mark in marks:
        lines = [text.at for text in texts((mark,))]
        assert any(
            area.left <= at.x <= area.right and area.top <= at.y <= area.bottom + 0.01
            for area in areas
            for at in lines[:1]
        )
        holder = next(a for a in areas if a.left <= lines[0].x <= a.right)
        assert all(at.y <= holder.bottom + 0.01 for at in lines)
