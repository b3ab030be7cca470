"""Sheets against ISO 216 and ISO 5457."""

from __future__ import annotations

import pytest

from drawings.lettering import text_box
from drawings.marks import Group, Ink, Line, PaperBox, Polyline, Text
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.style import A3_STYLE, A4_STYLE

SIZES = pytest.mark.parametrize("size", list(SheetSize), ids=lambda size: size.name)

# ISO 5457:1999, table 1: trimmed sheet and drawing space, short side x long side, mm.
# Spaces as printed in Zickert, table 4.1, and Westermann, ISBN 978-3-7100-2443-6, p. 5.
TRIMMED = {
    "A4": (210, 297),
    "A3": (297, 420),
    "A2": (420, 594),
    "A1": (594, 841),
    "A0": (841, 1189),
}
SPACES = {"A4": (180, 277), "A3": (277, 390), "A2": (400, 564), "A1": (574, 811), "A0": (821, 1159)}

# BS EN ISO 5457:1999+A1:2010: number of fields, long side x short side.
FIELDS = {"A4": (6, 4), "A3": (8, 6), "A2": (12, 8), "A1": (16, 12), "A0": (24, 16)}


def frame_of(size: SheetSize) -> Group:
    (group,) = frame_marks(size, style_for(size))
    assert isinstance(group, Group)
    return group


@SIZES
def test_trimmed_size(size: SheetSize) -> None:
    short, long = TRIMMED[size.name]
    assert sorted((size.width, size.height)) == [short, long]


@SIZES
def test_orientation(size: SheetSize) -> None:
    """ISO 5457: A4 upright, larger sheets lying."""
    assert (size.height > size.width) == (size is SheetSize.A4)


@SIZES
def test_drawing_space(size: SheetSize) -> None:
    """ISO 5457:1999, table 1; 20 mm left for filing, 10 mm on the other sides."""
    space = drawing_space(size)
    assert sorted((space.width, space.height)) == list(SPACES[size.name])
    assert (space.left, space.top) == (20, 10)
    assert (size.width - space.right, size.height - space.bottom) == (10, 10)


@SIZES
def test_number_of_fields(size: SheetSize) -> None:
    names = {mark.text for mark in frame_of(size).marks if isinstance(mark, Text)}
    numerals = {name for name in names if name.isdigit()}
    letters = names - numerals
    long, short = FIELDS[size.name]
    across, down = (short, long) if size is SheetSize.A4 else (long, short)
    assert numerals == {str(index + 1) for index in range(across)}
    assert len(letters) == down


def test_letters_leave_out_i_and_o() -> None:
    """ISO 5457:1999, 4.4."""
    names = [mark.text for mark in frame_of(SheetSize.A0).marks if isinstance(mark, Text)]
    letters = sorted({name for name in names if not name.isdigit()})
    assert "".join(letters) == "ABCDEFGHJKLMNPQR"


@SIZES
def test_fields_are_fifty_from_the_centring_marks(size: SheetSize) -> None:
    """ISO 5457:1999, 4.4: 50 mm, set out from the marks; only corner fields differ."""
    space = drawing_space(size)
    ticks = [
        mark for mark in frame_of(size).marks if isinstance(mark, Line) and mark.ink is Ink.GRID
    ]
    top = sorted(mark.start.x for mark in ticks if mark.end.y == space.top)
    side = sorted(mark.start.y for mark in ticks if mark.start.x == space.right)
    assert all((x - size.width / 2) % 50 == 0 for x in top)
    assert all((y - size.height / 2) % 50 == 0 for y in side)
    assert size.width / 2 in top
    assert size.height / 2 in side


@SIZES
def test_frame_and_centring_marks(size: SheetSize) -> None:
    """ISO 5457:1999, 4.2 and 4.3: 0.7 mm lines, four marks on the sheet's axes (memory)."""
    assert style_for(size).line(Ink.FRAME).width == 0.7
    assert style_for(size).line(Ink.GRID).width == 0.35  # 4.4, read
    space = drawing_space(size)
    heavy = [mark for mark in frame_of(size).marks if getattr(mark, "ink", None) is Ink.FRAME]
    (frame,) = [mark for mark in heavy if isinstance(mark, Polyline)]
    assert {(point.x, point.y) for point in frame.points} == {
        (space.left, space.top),
        (space.right, space.top),
        (space.right, space.bottom),
        (space.left, space.bottom),
    }
    marks = [mark for mark in heavy if isinstance(mark, Line)]
    upright = [mark for mark in marks if mark.start.x == mark.end.x]
    lying = [mark for mark in marks if mark.start.y == mark.end.y]
    assert len(upright) == len(lying) == 2
    assert {mark.start.x for mark in upright} == {size.width / 2}
    assert {mark.start.y for mark in lying} == {size.height / 2}


@SIZES
def test_strip_of_the_grid_is_five_wide(size: SheetSize) -> None:
    """ISBN 978-3-7100-2443-6, p. 5, detail X: 5 mm of strip, 5 mm more to the edge."""
    (border,) = [
        mark for mark in frame_of(size).marks if isinstance(mark, Polyline) and mark.ink is Ink.GRID
    ]
    assert min(point.y for point in border.points) == 5
    assert max(point.x for point in border.points) == size.width - 5


@SIZES
def test_names_stand_in_the_strip(size: SheetSize) -> None:
    space = drawing_space(size)
    strip = space.grown(5)
    for mark in frame_of(size).marks:
        if isinstance(mark, Text):
            box = text_box(mark)
            assert strip.contains(box)
            assert not space.overlaps(box)


def test_a4_has_its_grid_on_two_sides_only() -> None:
    """ISO 5457:1999, 4.4, A4 (from memory: top and right)."""
    names = [mark.text for mark in frame_of(SheetSize.A4).marks if isinstance(mark, Text)]
    assert sorted(names) == [*"1234", *"ABCDEF"]


def test_first_field_is_at_the_top_left() -> None:
    space = drawing_space(SheetSize.A3)
    corner = PaperBox(0, 0, space.left + 50, space.top + 50)
    names = {
        mark.text
        for mark in frame_of(SheetSize.A3).marks
        if isinstance(mark, Text) and corner.contains(text_box(mark))
    }
    assert names == {"1", "A"}


def test_a4_has_a_look_of_its_own() -> None:
    assert style_for(SheetSize.A4) is A4_STYLE
    assert style_for(SheetSize.A3) is A3_STYLE
    assert style_for(SheetSize.A1) is A3_STYLE
