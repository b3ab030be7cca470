"""Numbered notes."""

from __future__ import annotations

import itertools

import pytest

from cabinet.errors import SizeError
from drawings.lint import lint_sheet
from drawings.marks import Group, PaperPoint, Text
from drawings.notes import notes_marks
from drawings.style import A3_STYLE
from drawings.table import Placed

NOTES = (
    "Top end against the stop, front edge against the fence.",
    "Bore with the right side from the same end; make a test cut in an offcut first.",
    *(f"Spare note of number {index}." for index in range(3, 12)),
)


def drawn(width: float = 61.0) -> Placed:
    return notes_marks(NOTES, at=PaperPoint(37, 53), width=width, style=A3_STYLE)


def texts(placed: Placed) -> list[Text]:
    (group,) = placed.marks
    assert isinstance(group, Group)
    assert group.name == "notes"
    return [mark for mark in group.marks if isinstance(mark, Text)]


def test_numbers_count_the_notes_and_end_under_each_other() -> None:
    numbers = [text for text in texts(drawn()) if text.text.isdigit()]
    assert [text.text for text in numbers] == [str(index) for index in range(1, 12)]
    assert len({text.at.x for text in numbers}) == 1


def test_nothing_is_lost_and_all_is_readable() -> None:
    placed = drawn()
    words = " ".join(text.text for text in texts(placed) if not text.is_bold)
    assert words == " ".join(NOTES)
    assert lint_sheet(placed.marks, placed.box) == ()
    assert placed.box.width == 61


def test_lines_of_one_note_keep_the_baseline_spacing() -> None:
    """ISO 3098-0: b2 = 15/10 h, 3.75 mm for h = 2.5."""
    lines = [text.at.y for text in texts(drawn()) if not text.is_bold]
    steps = {round(b - a, 3) for a, b in itertools.pairwise(lines)}
    assert min(steps) == 3.75
    assert len(steps) == 2


def test_no_heading_takes_no_paper() -> None:
    at = PaperPoint(37, 53)
    with_heading = notes_marks(NOTES, at=at, width=61, style=A3_STYLE).box
    without = notes_marks(NOTES, at=at, width=61, style=A3_STYLE, heading="").box
    assert without.height < with_heading.height - A3_STYLE.heading_height


def test_blank_notes_and_no_width_are_refused() -> None:
    with pytest.raises(SizeError):
        notes_marks((" ",), at=PaperPoint(37, 53), width=61, style=A3_STYLE)
    with pytest.raises(SizeError):
        notes_marks(("note",), at=PaperPoint(37, 53), width=3, style=A3_STYLE)
