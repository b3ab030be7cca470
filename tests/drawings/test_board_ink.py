"""The callouts of a view where there is more or less room for them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from cabinet.part import Part
from drawings.board_ink import NARROW_ROOM, WIDE_ROOM, BoardInk
from drawings.clutter import NoRoom
from drawings.dimensioning import board_dimensions
from drawings.drawn import Drawn
from drawings.ground import marks_box
from drawings.marks import Ink, Line, PaperBox, PaperPoint, Text
from drawings.part_sheet import surface_names
from drawings.style import A3_STYLE
from drawings.views import plan_views
from tests.drawings.sample_parts import divider, door, side, steel_panel

AMPLE = PaperBox(0.0, 0.0, 1000.0, 1000.0)


def view_of(part: Part, scale: float) -> BoardInk:
    """A part's main view without callouts."""
    names = surface_names(part)
    dimensions = board_dimensions(part.board, names)
    plan = plan_views(part.board, dimensions)
    ink = BoardInk(part.board, plan.main, scale, A3_STYLE, names)
    ink.begin({}, (), hides=False)
    return ink


@pytest.mark.parametrize(
    ("part", "scale"),
    [(side, 0.1), (side, 0.5), (divider, 0.1), (door, 0.1), (steel_panel, 0.2), (door, 0.2)],
)
def test_what_does_not_reach_far_stands_there_with_less_room_too(
    part: Callable[[], Part], scale: float
) -> None:
    """So a sheet need not be tried again with less room for its callouts."""
    begun = view_of(part(), scale)
    wide = begun.with_callouts(WIDE_ROOM, AMPLE)
    try:
        narrow = begun.with_callouts(NARROW_ROOM, AMPLE)
    except NoRoom:
        assert wide.reaches_far
        return
    assert not narrow.reaches_far
    assert (narrow.drawn.marks == wide.drawn.marks) != wide.reaches_far


def test_callouts_keep_a_view_within_its_space() -> None:
    """A callout that would make the view larger than its space stands elsewhere."""
    begun = view_of(side(), 0.1)
    box = begun.box
    free = begun.with_callouts(WIDE_ROOM, AMPLE).box
    assert free.width > box.width + 1.0
    told = begun.with_callouts(WIDE_ROOM, PaperBox(0.0, 0.0, box.width, 1000.0))
    assert told.box.width == pytest.approx(box.width, abs=0.02)
    assert told.box.height > box.height


def test_the_box_of_what_is_drawn_grows_with_it() -> None:
    """The box of what is drawn is that of all its marks, however they came there."""
    drawn = Drawn()
    assert drawn.box is None
    drawn.add([Line(PaperPoint(3.0, 4.0), PaperPoint(31.0, 9.0), Ink.VISIBLE)])
    other = drawn.copied()
    other.add_placed(Text(PaperPoint(17.0, 23.0), "fence", 3.5))
    assert drawn.box == marks_box(drawn.marks)
    assert other.box == marks_box(other.marks)
    assert other.box != drawn.box
