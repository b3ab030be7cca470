"""Lettering on a view: inside where there is room, otherwise on a leader to what it names."""

from __future__ import annotations

import pytest

from drawings.clutter import NoRoom
from drawings.curves import Segment, ViewBounds, ViewPoint
from drawings.ground import marks_box
from drawings.marks import Group, Ink, Polyline, Text
from drawings.style import A3_STYLE
from drawings.unit_ink import UnitView
from drawings.view_frame import FRONT
from drawings.view_labels import ViewLabel, labelled

VIEW = UnitView(
    title="wall",
    frame=FRONT,
    bounds=ViewBounds(0.0, 0.0, 2600.0, 1700.0),
    curves=(
        (Ink.VISIBLE, (Segment(ViewPoint(0.0, 0.0), ViewPoint(2600.0, 0.0)),)),
        (Ink.VISIBLE, (Segment(ViewPoint(1300.0, 500.0), ViewPoint(1300.0, 1300.0)),)),
    ),
)
TIP = ViewPoint(1300.0, 900.0)


def _note(label: ViewLabel, scale: float = 1 / 20) -> Group:
    block = labelled(VIEW, (label,), scale, A3_STYLE)
    (view,) = (m for m in block.marks if isinstance(m, Group))
    (note,) = (m for m in view.marks if isinstance(m, Group) and m.name == "note")
    return note


def test_inside_where_there_is_room() -> None:
    """A text alone, within the box."""
    note = _note(
        ViewLabel(text="bench", at=(TIP,), inside=ViewBounds(1400.0, 600.0, 2500.0, 1100.0))
    )
    (text,) = note.marks
    assert isinstance(text, Text)
    box = marks_box(note.marks)
    assert box is not None
    assert box.left >= 1400 / 20
    assert box.right <= 2500 / 20
    assert box.top >= (1700 - 1100) / 20
    assert box.bottom <= (1700 - 600) / 20


def test_a_leader_where_there_is_none() -> None:
    """Too narrow a box: the leader's tip is the place that was named."""
    note = _note(
        ViewLabel(text="potting bench", at=(TIP,), inside=ViewBounds(1400, 600, 1500, 700))
    )
    leader = next(m for m in note.marks if isinstance(m, Polyline) and m.ink is Ink.LEADER)
    assert leader.points[0].x == pytest.approx(1300 / 20)
    assert leader.points[0].y == pytest.approx((1700 - 900) / 20)


def test_what_finds_no_place_says_so() -> None:
    """A text longer than the view and what is round it."""
    with pytest.raises(NoRoom):
        _note(ViewLabel(text="bench " * 90, at=(TIP,)), scale=1 / 200)


def test_what_may_be_left_out_is_left_out() -> None:
    """The others still stand."""
    labels = (ViewLabel(text="bench " * 90, at=(TIP,)), ViewLabel(text="tap", at=(TIP,)))
    block = labelled(VIEW, labels, 1 / 50, A3_STYLE, may_omit=True)
    (view,) = (m for m in block.marks if isinstance(m, Group))
    assert [m.title for m in view.marks if isinstance(m, Group) and m.name == "note"] == ["tap"]
