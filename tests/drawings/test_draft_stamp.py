"""The stamp of a draft."""

from __future__ import annotations

import pytest

from drawings.draft_stamp import BAND_HEIGHT, WORDS, draft_stamp_box, draft_stamp_marks
from drawings.lettering import text_box
from drawings.lint import lint_sheet
from drawings.marks import Group, Polyline, Text
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.title_block import title_block_box


@pytest.mark.parametrize("size", list(SheetSize), ids=lambda size: size.name)
def test_stamp_fills_a_band_at_the_top_and_nothing_else(size: SheetSize) -> None:
    style, space, band = style_for(size), drawing_space(size), draft_stamp_box(size)
    assert (band.left, band.top, band.right) == (space.left, space.top, space.right)
    assert band.height == BAND_HEIGHT
    assert not band.overlaps(title_block_box(size))
    (group,) = draft_stamp_marks(size, style)
    assert isinstance(group, Group)
    (words,) = [mark for mark in group.marks if isinstance(mark, Text)]
    assert words.text == WORDS == "DRAFT – NOT FOR MAKING"
    assert words.is_bold
    assert words.height >= 7.0
    assert band.contains(text_box(words))
    for mark in group.marks:
        if isinstance(mark, Polyline):
            assert all(band.left <= p.x <= band.right for p in mark.points)
            assert all(band.top <= p.y <= band.bottom for p in mark.points)
    assert lint_sheet((*frame_marks(size, style), group), space) == ()
