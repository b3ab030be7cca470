"""The lint of a sheet: each kind of fault planted, near misses, and clean sheets."""

from __future__ import annotations

import pytest

from drawings.lint import CollisionKind, lint_sheet
from drawings.marks import (
    Anchor,
    Arc,
    Circle,
    Group,
    Ink,
    Mark,
    PaperBox,
    PaperPoint,
    Polyline,
    Text,
)
from drawings.notes import notes_marks
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.ruling import outline, rule
from drawings.table import Column, table_marks
from drawings.title_block import title_block_marks
from tests.drawings.test_title_block import BLOCK

SPACE = PaperBox(20, 10, 410, 287)

# Capitals 3.5 high with their foot at y = 100, no tails: covers y from 96.5 to 100.
WORD = Text(PaperPoint(60, 100), "HIT", 3.5)


def kinds(*marks: Mark) -> list[CollisionKind]:
    return [fault.kind for fault in lint_sheet(marks, SPACE)]


def test_text_on_text() -> None:
    (fault,) = lint_sheet((WORD, Text(PaperPoint(64, 102), "MISS", 3.5)), SPACE)
    assert fault.kind is CollisionKind.TEXT_ON_TEXT
    assert fault.text is WORD
    assert isinstance(fault.other, Text)
    assert "'HIT' at (60, 100)" in fault.sentence
    assert "'MISS' at (64, 102)" in fault.sentence


def test_texts_side_by_side_are_fine() -> None:
    assert kinds(WORD, Text(PaperPoint(60, 104), "MISS", 3.5)) == []
    assert kinds(WORD, Text(PaperPoint(60, 100), "MISS", 3.5, Anchor.END)) == []


@pytest.mark.parametrize("ink", [ink for ink in Ink if ink is not Ink.SHADE])
def test_any_ink_but_a_shade_through_a_text(ink: Ink) -> None:
    line = rule(40, 98, 90, 98.5, ink)
    (fault,) = lint_sheet((line, WORD), SPACE)
    assert fault.kind is CollisionKind.LINE_THROUGH_TEXT
    assert (fault.text, fault.other) == (WORD, line)
    assert ink.value in fault.sentence


def test_shade_may_lie_under_text() -> None:
    assert kinds(outline(PaperBox(59, 98, 75, 102), Ink.SHADE), WORD) == []


@pytest.mark.parametrize(
    "mark",
    [
        # A sloping line of which only the middle meets the word.
        rule(55, 106, 72, 91, Ink.LEADER),
        # A line that ends within it.
        rule(62, 98, 62, 150, Ink.EXTENSION),
        # A line that only touches its foot, and one its head.
        rule(40, 100, 90, 100, Ink.VISIBLE),
        rule(40, 96.5, 90, 96.5, Ink.VISIBLE),
        # The last side of a closed line.
        Polyline(
            (PaperPoint(62, 80), PaperPoint(40, 85), PaperPoint(62, 120)), Ink.CUT, closed=True
        ),
        Circle(PaperPoint(62, 118), 20, Ink.VISIBLE),
        Arc(PaperPoint(62, 118), 20, 250, 290, Ink.VISIBLE),
    ],
)
def test_line_through_text(mark: Mark) -> None:
    assert kinds(mark, WORD) == [CollisionKind.LINE_THROUGH_TEXT]


@pytest.mark.parametrize(
    "mark",
    [
        rule(40, 101, 90, 101, Ink.VISIBLE),
        # The bounds meet, the line itself passes the corner.
        rule(50, 99, 62, 110, Ink.LEADER),
        # The open end of an open line.
        Polyline((PaperPoint(62, 80), PaperPoint(40, 85), PaperPoint(62, 120)), Ink.CUT),
        # Around the word, and a part of the circle that does not come near it.
        Circle(PaperPoint(63, 98), 9, Ink.RING),
        Arc(PaperPoint(62, 118), 20, 0, 180, Ink.VISIBLE),
    ],
)
def test_near_miss_is_fine(mark: Mark) -> None:
    assert kinds(mark, WORD) == []


def test_turned_text_is_measured_turned() -> None:
    turned = Text(PaperPoint(60, 100), "HIT", 3.5, is_upright=False)
    assert kinds(rule(58, 80, 58, 120, Ink.HATCH), turned) == [CollisionKind.LINE_THROUGH_TEXT]
    assert kinds(rule(62, 80, 62, 120, Ink.HATCH), turned) == []


def test_one_fault_for_each_pair_of_marks() -> None:
    zigzag = Polyline(
        tuple(PaperPoint(58 + 2 * step, 95 + 6 * (step % 2)) for step in range(7)), Ink.NARROW
    )
    assert len(kinds(zigzag, WORD)) == 1


def test_word_within_a_black_area() -> None:
    assert kinds(outline(PaperBox(50, 90, 90, 110), Ink.SOLID), WORD) == [
        CollisionKind.LINE_THROUGH_TEXT
    ]
    assert kinds(outline(PaperBox(50, 90, 90, 110), Ink.VISIBLE), WORD) == []


def dimension(gap: float, *, is_upright: bool = True) -> Group:
    """A dimension whose figures stand ``gap`` above their line, or left of it."""
    if is_upright:
        figures = Text(PaperPoint(130, 100 - gap), "(98.3)", 3.5, Anchor.MIDDLE)
        line = rule(100, 100, 160, 100, Ink.DIMENSION_LINE)
    else:
        figures = Text(PaperPoint(130 - gap, 100), "(98.3)", 3.5, Anchor.MIDDLE, is_upright=False)
        line = rule(130, 70, 130, 130, Ink.DIMENSION_LINE)
    return Group("dimension", (line, figures), title="width, left side")


@pytest.mark.parametrize("is_upright", [True, False])
def test_tails_may_hang_over_the_own_dimension_line(is_upright: bool) -> None:
    """The brackets' tails reach 0.5 mm below the baseline."""
    assert kinds(dimension(1.0, is_upright=is_upright)) == []
    assert kinds(dimension(0.3, is_upright=is_upright)) == []
    assert kinds(dimension(0.0, is_upright=is_upright)) == [CollisionKind.LINE_THROUGH_TEXT]
    assert kinds(dimension(-1.7, is_upright=is_upright)) == [CollisionKind.LINE_THROUGH_TEXT]


def test_tails_may_not_hang_over_the_line_of_another_dimension() -> None:
    other = Group("dimension", (rule(100, 100, 160, 100, Ink.DIMENSION_LINE),))
    figures = Group("dimension", (Text(PaperPoint(130, 99.7), "(98.3)", 3.5, Anchor.MIDDLE),))
    assert kinds(other, figures) == [CollisionKind.LINE_THROUGH_TEXT]


@pytest.mark.parametrize(
    "at", [PaperPoint(19, 100), PaperPoint(405, 100), PaperPoint(60, 12), PaperPoint(60, 288)]
)
def test_text_outside_the_drawing_space(at: PaperPoint) -> None:
    assert kinds(Text(at, "HIT", 3.5)) == [CollisionKind.OUTSIDE_SPACE]


def test_names_of_fields_belong_outside() -> None:
    text = Text(PaperPoint(60, 9), "2", 2.5)
    assert kinds(Group("frame", (text,))) == []
    assert kinds(Group("notes", (text,))) == [CollisionKind.OUTSIDE_SPACE]


def test_lettering_below_two_and_a_half() -> None:
    """ISO 3098, preferred smallest height for A4 to A3 (from memory): 2.5 mm."""
    assert kinds(Text(PaperPoint(60, 100), "HIT", 2.4)) == [CollisionKind.TOO_SMALL]
    assert kinds(Text(PaperPoint(60, 100), "HIT", 2.5)) == []


@pytest.mark.parametrize("name", ["table", "title-block"])
def test_rulings_of_tables_are_lines_too(name: str) -> None:
    marks = (rule(63, 80, 63, 120, Ink.TABLE), WORD)
    assert kinds(Group(name, marks)) == [CollisionKind.LINE_THROUGH_TEXT]


@pytest.mark.parametrize("size", [SheetSize.A4, SheetSize.A3], ids=lambda size: size.name)
def test_a_clean_sheet_is_silent(size: SheetSize) -> None:
    style, space = style_for(size), drawing_space(size)
    table = table_marks(
        (Column(heading="no.", anchor=Anchor.END), Column(heading="part")),
        (("1", "left side"), ("2", "a back whose name is long enough to need a second line")),
        at=PaperPoint(31, 131),
        width=77,
        style=style,
        title="Parts",
    )
    notes = notes_marks(
        ("Stop against the top end.", "Groove first."),
        at=PaperPoint(31, 171),
        width=77,
        style=style,
    )
    sheet = (
        *frame_marks(size, style),
        *title_block_marks(BLOCK, size, style),
        outline(PaperBox(50, 30, 161, 83), Ink.VISIBLE),
        dimension(1.0),
        *table.marks,
        *notes.marks,
    )
    assert [fault.sentence for fault in lint_sheet(sheet, space)] == []


def test_nothing_drawn_has_no_fault() -> None:
    assert lint_sheet((), SPACE) == ()
    assert lint_sheet((WORD,), SPACE) == ()
    assert lint_sheet((rule(40, 98, 90, 98, Ink.VISIBLE),), SPACE) == ()
