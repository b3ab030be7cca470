"""The small picture of the unit with one part shaded."""

from __future__ import annotations

import math

import pytest

from cabinet.frame import UnitBox, UnitPoint
from drawings.ground import marks_box
from drawings.key import key_marks
from drawings.marks import Group, Ink, Line, Mark, PaperBox, Polyline

ROOM = PaperBox(30, 40, 71, 83)


def a_box(low: tuple[float, float, float], high: tuple[float, float, float]) -> UnitBox:
    """A box between two corners."""
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


def lines(marks: tuple[Mark, ...], ink: Ink) -> list[Line]:
    """All lines of one ink in the key."""
    (group,) = marks
    assert isinstance(group, Group)
    return [mark for mark in group.marks if isinstance(mark, Line) and mark.ink is ink]


def length(line: Line) -> float:
    """Length of a line on paper, mm."""
    return math.hypot(line.end.x - line.start.x, line.end.y - line.start.y)


def test_a_box_shows_nine_edges_at_isometric_angles() -> None:
    """Source: ISO 5456-3:1996, isometric: receding axes at 30 degrees, equal scales."""
    one = {"cube": a_box((0, 0, 0), (97, 97, 97))}
    seen = lines(key_marks(one, (), ROOM), Ink.NARROW)
    assert len(seen) == 9
    assert {round(length(line), 6) for line in seen} == {round(length(seen[0]), 6)}
    angles = {
        round(math.degrees(math.atan2(a.end.y - a.start.y, a.end.x - a.start.x))) % 180
        for a in seen
    }
    assert angles == {30, 90, 150}


def test_the_picture_fits_its_room() -> None:
    """As large as fits, in the middle."""
    boxes = {"case": a_box((0, 0, 0), (613, 287, 431)), "top": a_box((0, 0, 431), (613, 287, 449))}
    found = marks_box(key_marks(boxes, ("top",), ROOM))
    assert found is not None
    assert ROOM.contains(found)
    assert max(found.width / ROOM.width, found.height / ROOM.height) == pytest.approx(1.0)


def test_what_lies_behind_is_not_drawn() -> None:
    """A small box within a large one adds no line; marked, it is drawn over all."""
    outer = a_box((0, 0, 0), (613, 287, 431))
    inner = a_box((113, 71, 97), (217, 131, 193))
    alone = lines(key_marks({"outer": outer}, (), ROOM), Ink.NARROW)
    both = {"outer": outer, "inner": inner}
    assert lines(key_marks(both, (), ROOM), Ink.NARROW) == alone
    marked = key_marks(both, ("inner",), ROOM)
    assert len(lines(marked, Ink.VISIBLE)) == 9
    (group,) = marked
    assert isinstance(group, Group)
    shades = [m for m in group.marks if isinstance(m, Polyline) and m.ink is Ink.SHADE]
    assert len(shades) == 1


def test_no_boxes_no_key() -> None:
    """Nothing is drawn for nothing."""
    assert key_marks({}, ("side",), ROOM) == ()
