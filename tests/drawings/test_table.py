"""Ruled tables."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.errors import SizeError
from drawings.lettering import text_box, text_width
from drawings.lint import lint_sheet
from drawings.marks import Anchor, Group, Ink, Line, PaperBox, PaperPoint, Text
from drawings.style import A3_STYLE, A4_STYLE
from drawings.table import Column, Placed, table_marks

COLUMNS = (
    Column(heading="no.", width=9, anchor=Anchor.END),
    Column(heading="part"),
    Column(heading="length", anchor=Anchor.END),
    Column(heading="what to mind"),
)
ROWS = (
    ("1", "left side", "412.3", "grain runs up"),
    ("2", "top", "604.6", "face veneer on the inside; grain runs along the length, cut it first"),
    ("3", "back", "580.2", ""),
)
PAPER = PaperBox(20, 10, 410, 287)


def drawn(width: float = 96, rows: tuple[tuple[str, ...], ...] = ROWS, title: str = "") -> Placed:
    return table_marks(
        COLUMNS, rows, at=PaperPoint(37, 53), width=width, style=A3_STYLE, title=title
    )


def texts(placed: Placed) -> list[Text]:
    (group,) = placed.marks
    assert isinstance(group, Group)
    assert group.name == "table"
    return [mark for mark in group.marks if isinstance(mark, Text)]


def rules(placed: Placed) -> list[Line]:
    (group,) = placed.marks
    assert isinstance(group, Group)
    return [mark for mark in group.marks if isinstance(mark, Line) and mark.ink is Ink.TABLE]


def test_takes_the_width_it_was_given() -> None:
    box = drawn().box
    assert (box.left, box.top, box.width) == (37, 53, 96)


def test_all_words_stand_in_reading_order() -> None:
    words = [text.text for text in texts(drawn(width=150))]
    assert words[:4] == ["no.", "part", "length", "what to mind"]
    assert " ".join(words[4:]).split() == " ".join(cell for row in ROWS for cell in row).split()


def test_long_cell_makes_its_row_higher_by_the_baseline_spacing() -> None:
    """ISO 3098-0: b2 = 15/10 h from baseline to baseline, 3.75 mm for h = 2.5."""
    placed = drawn()
    cell = [text for text in texts(placed) if text.at.x > 60 and "412" not in text.text]
    wrapped_lines = [t.at.y for t in cell if t.text.startswith(("face", "grain runs along"))]
    assert len(wrapped_lines) >= 1
    lines = sorted({t.at.y for t in texts(placed)})
    steps = [b - a for a, b in itertools.pairwise(lines)]
    assert min(steps) == pytest.approx(3.75)
    single = drawn(width=190).box.height
    assert placed.box.height > single
    assert (placed.box.height - single) / 3.75 == pytest.approx(
        round((placed.box.height - single) / 3.75)
    )


def test_set_width_is_kept_and_figures_align_at_the_right() -> None:
    placed = drawn(width=150)
    first = min(rule.start.x for rule in rules(placed) if rule.start.x == rule.end.x)
    assert first == pytest.approx(37 + 9)
    ends = {text.at.x for text in texts(placed) if text.text in {"412.3", "604.6", "580.2"}}
    assert len(ends) == 1


def test_short_columns_stay_on_one_line_while_a_long_one_wraps() -> None:
    assert "left side" in {text.text for text in texts(drawn(width=80))}


def test_a_table_that_can_do_without_wrapping_does() -> None:
    """At the width of its widest cells side by side no cell needs a second line."""
    long = "cut it first, then turn the fence and the stop around, and cut the other end"
    columns = (Column(heading="part"), Column(heading="what to mind"))
    inset = 1.2
    width = sum(text_width(text, 2.5, is_bold=True) + 2 * inset for text in ("left side", long))
    placed = table_marks(
        columns, [("left side", long)], at=PaperPoint(21, 12), width=width, style=A3_STYLE
    )
    assert {"left side", long} <= {text.text for text in texts(placed)}


def test_headings_are_bold_on_a_shade() -> None:
    placed = drawn(title="Parts")
    assert [text.text for text in texts(placed) if text.is_bold] == [
        "Parts",
        "no.",
        "part",
        "length",
        "what to mind",
    ]
    assert min(text_box(text).top for text in texts(placed)) == pytest.approx(53, abs=0.2)


WORD = st.text(alphabet="abcdefghijkm012345", min_size=1, max_size=9)
CELL = st.lists(WORD, max_size=7).map(" ".join)


@given(st.lists(st.tuples(CELL, CELL, CELL), max_size=6), st.floats(90, 200), st.booleans())
def test_any_table_is_readable_and_inside_its_box(
    rows: list[tuple[str, str, str]], width: float, is_a4: bool
) -> None:
    columns = (
        Column(heading="part"),
        Column(heading="pieces", anchor=Anchor.END),
        Column(heading="grain", anchor=Anchor.MIDDLE),
    )
    style = A4_STYLE if is_a4 else A3_STYLE
    placed = table_marks(
        columns, rows, at=PaperPoint(21, 12), width=width, style=style, title="Parts of it"
    )
    assert [fault.sentence for fault in lint_sheet(placed.marks, placed.box.grown(0.2))] == []


def test_rows_must_have_a_cell_for_each_column() -> None:
    with pytest.raises(SizeError, match="row 2 has 3 cells"):
        drawn(rows=(ROWS[0], ROWS[1][:3]))


@pytest.mark.parametrize("width", [30.0, 0.0, float("nan")])
def test_too_little_width_is_refused(width: float) -> None:
    with pytest.raises(SizeError):
        drawn(width=width)


@given(st.integers(1, 3), st.integers(20, 40), st.sampled_from([90.0, 120.0, 190.0]))
def test_a_long_word_is_broken_and_takes_no_other_s_room(
    count: int, letters: int, width: float
) -> None:
    """Only the widest columns give way; nothing collides and every letter is there."""
    columns = tuple(Column(heading=heading) for heading in ("part", "size", "stock", "no."))
    word = ("Seitenwandablagefach" * 2)[:letters]
    rows = ((*(word,) * count, *("571",) * (3 - count), "12"),)
    placed = table_marks(columns, rows, at=PaperPoint(21, 12), width=width, style=A3_STYLE)
    assert placed.box.width == pytest.approx(width)
    assert lint_sheet(placed.marks, placed.box.grown(0.2)) == ()
    lines = [text.text for text in texts(placed)]
    assert "12" in lines
    told = [line for line in lines if line not in ("571", "12", *(c.heading for c in columns))]
    assert sorted("".join(told)) == sorted(word * count)


def test_fixed_columns_must_fill_the_width() -> None:
    columns = (Column(heading="a", width=20), Column(heading="b", width=30))
    at = PaperPoint(21, 12)
    assert table_marks(columns, (), at=at, width=50, style=A3_STYLE).box.width == 50
    for width in (49.0, 51.0):
        with pytest.raises(SizeError):
            table_marks(columns, (), at=at, width=width, style=A3_STYLE)


def test_bad_columns_are_refused() -> None:
    with pytest.raises(SizeError):
        Column(heading="")
    with pytest.raises(SizeError):
        Column(heading="part", width=-2)
    with pytest.raises(SizeError):
        table_marks((), (), at=PaperPoint(21, 12), width=50, style=A3_STYLE)
