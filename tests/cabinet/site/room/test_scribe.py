"""Scribe strips: gaps from readings, the blank and the cut line."""

from __future__ import annotations

import pytest

from cabinet.frame import Side
from cabinet.site.room.frame import wall_box
from cabinet.site.room.room_wall import CornerReading, FloorReading
from cabinet.site.room.scribe import SPARE, gaps, scribe_strips
from tests.cabinet.site.room.rooms import room

OUTLINE = wall_box(43.0, 1411.0, 887.0, 613.0)


def test_the_cut_line_follows_the_readings() -> None:
    """Gap from the unit's side at 43 to the wall, at the ends and at each reading between."""
    corner = (CornerReading(1200.0, 4.0), CornerReading(1700.0, -2.5), CornerReading(2300.0, 5.0))
    (strip,) = scribe_strips(room(left_corner=corner), OUTLINE, is_hung=True)
    assert strip.side is Side.LEFT
    assert strip.length == pytest.approx(613.0)
    low = 43.0 - (4.0 + (-6.5) * 211.0 / 500.0)
    high = 43.0 - (-2.5 + 7.5 * 324.0 / 600.0)
    assert [at for at, _ in strip.line] == [0.0, 289.0, 613.0]
    assert [width for _, width in strip.line] == pytest.approx([low, 45.5, high], abs=0.051)
    assert strip.greatest == 45.5
    assert strip.blank == pytest.approx(45.5 + SPARE)


def test_the_right_corner_is_measured_from_the_right_side() -> None:
    """The adjoining wall's x less the unit's right side."""
    corner = (CornerReading(0.0, 961.0), CornerReading(2400.0, 955.0))
    line = gaps(room(right_corner=corner), OUTLINE, Side.RIGHT)
    assert line[0][0] == 0.0
    assert line[0][1] == pytest.approx(961.0 - 6.0 * 1411.0 / 2400.0 - 930.0)


def test_a_floor_that_falls_is_scribed_under_a_standing_unit_only() -> None:
    """From the level line: 1013 at the mark, 1019 is 6 lower."""
    floor = (FloorReading(0.0, 1013.0), FloorReading(1000.0, 1019.0))
    stands = wall_box(200.0, 0.0, 500.0, 800.0)
    (strip,) = scribe_strips(room(floor=floor), stands, is_hung=False)
    assert strip.side is Side.BOTTOM
    assert strip.line == ((0.0, 1.2), (500.0, 4.2))
    assert scribe_strips(room(floor=floor), stands, is_hung=True) == ()


def test_no_strip_where_none_is_needed() -> None:
    """Far from the corner, without readings, or true and close."""
    corner = (CornerReading(0.0, 0.0), CornerReading(2400.0, 9.0))
    far = OUTLINE.moved(300.0, 0.0)
    assert scribe_strips(room(left_corner=corner), far, is_hung=True) == ()
    assert scribe_strips(room(), OUTLINE, is_hung=True) == ()
    true = (CornerReading(0.0, 42.5), CornerReading(2400.0, 42.5))
    assert scribe_strips(room(left_corner=true), OUTLINE, is_hung=True) == ()
