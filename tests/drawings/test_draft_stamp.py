"""The stamp of a draft."""

from __future__ import annotations

import pytest

from drawings.draft_stamp import WORDS, draft_stamp
from drawings.lint import lint_sheet
from drawings.marks import Anchor, Group, Mark, PaperPoint, Text
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for


def words_of(group: Group) -> Text:
    """What the stamp says."""
    (words,) = [mark for mark in group.marks if isinstance(mark, Text)]
    return words


@pytest.mark.parametrize("size", list(SheetSize), ids=lambda size: size.name)
def test_an_empty_sheet_gets_a_band_at_the_top(size: SheetSize) -> None:
    space = drawing_space(size)
    frame = frame_marks(size, style_for(size))
    group = draft_stamp(frame, size)
    words = words_of(group)
    assert words.text == WORDS == "DRAFT – NOT FOR MAKING"
    assert words.is_bold
    assert words.height == 7.0
    assert words.at.y < space.top + 12
    assert len(group.marks) > 4
    assert lint_sheet((*frame, group), space) == ()


@pytest.mark.parametrize("size", [SheetSize.A4, SheetSize.A3], ids=lambda size: size.name)
def test_it_gives_way_to_what_stands_at_the_top(size: SheetSize) -> None:
    space = drawing_space(size)
    heading: Mark = Text(
        PaperPoint((space.left + space.right) / 2, space.top + 9), "Blanks", 5.0, Anchor.MIDDLE
    )
    marks = (*frame_marks(size, style_for(size)), heading)
    group = draft_stamp(marks, size)
    assert words_of(group).at.y > space.top + 12
    assert lint_sheet((*marks, group), space) == ()


def test_a_full_sheet_is_stamped_all_the_same() -> None:
    size = SheetSize.A4
    space = drawing_space(size)
    lines: tuple[Mark, ...] = tuple(
        Text(PaperPoint(space.left + 2, space.top + 4 + 4 * row), "x" * 60, 3.5)
        for row in range(68)
    )
    assert words_of(draft_stamp(lines, size)).text == WORDS
