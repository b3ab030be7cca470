"""Covering and openings."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings

from cabinet.checks.left_out import left_out
from cabinet.components.carcass import carcass
from cabinet.components.covering import pill, plug_pill, top_covering
from cabinet.design import Design, Unit
from cabinet.features import CutOut
from cabinet.frame import BoardPoint
from cabinet.part import Part
from cabinet.stock import birch_plywood, rubber_sheet
from tests.strategies import lengths, small

MAT = rubber_sheet(2.5)


def covered(*, back: float = 91.0) -> Unit:
    """A small covered unit with an opening for air."""
    box = small(covering=2.5)
    air = pill(box, "top", name="air", length=121, width=34, left=211, back=back)
    return Design("covered", (box.component, top_covering(box, MAT), air)).resolve()


def opening_in_unit(part: Part) -> tuple[float, float, float, float]:
    """Low and high X, low and high Y of the opening in the unit."""
    (cut,) = (f for f in part.board.features if isinstance(f, CutOut))
    box = cut.box(part.board.size)
    mid = (box.low[2] + box.high[2]) / 2
    corners = [
        part.placement.board_to_unit(BoardPoint(x, y, mid))
        for x in (box.low[0], box.high[0])
        for y in (box.low[1], box.high[1])
    ]
    xs, ys = [c.x for c in corners], [c.y for c in corners]
    return min(xs), max(xs), min(ys), max(ys)


def test_overall_height_includes_the_covering() -> None:
    """587 to the top of the mat, over the whole carcass."""
    unit = covered()
    mat = unit.by_name["covering"]
    assert mat.box.high.z == pytest.approx(587)
    assert unit.by_name["top"].box.high.z == pytest.approx(584.5)
    assert (mat.board.length, mat.board.width) == (813, 303)


def test_one_opening_in_top_and_covering() -> None:
    """The same place and size in both, told from the same two edges of the unit."""
    unit = covered()
    top, mat = unit.by_name["top"], unit.by_name["covering"]
    assert opening_in_unit(top) == pytest.approx(opening_in_unit(mat))
    assert opening_in_unit(mat) == pytest.approx(
        (211 - 60.5, 211 + 60.5, 303 - 91 - 17, 303 - 91 + 17)
    )
    for part in (top, mat):
        (cut,) = (f for f in part.board.features if isinstance(f, CutOut))
        assert {part.side(at.datum).value for at in cut.centre} == {"left", "back"}
        assert cut.is_pill


def test_no_covering_no_second_opening() -> None:
    """Without a covering the top has it alone."""
    box = small()
    air = pill(box, "top", name="air", length=121, width=34, right=211, front=91)
    unit = Design("bare", (box.component, air)).resolve()
    assert opening_in_unit(unit.by_name["top"]) == pytest.approx(
        (813 - 211 - 60.5, 813 - 211 + 60.5, 91 - 17, 91 + 17)
    )


@settings(max_examples=50)
@given(length=lengths(20, 90), width=lengths(15, 60))
def test_a_plug_passes_its_pill(length: float, width: float) -> None:
    """Every corner of the plug lies within the pill's outline, with half a millimetre left."""
    joint = plug_pill(small(), "top", name="plug", plug=(length, width), left=300, back=150).joints[
        0
    ]
    long, wide = joint.size  # type: ignore[attr-defined]
    radius = wide / 2
    straight = (long - wide) / 2
    beyond = max(length / 2 - straight, 0.0)
    assert width / 2 <= radius - 2
    assert math.hypot(beyond, width / 2) <= radius - 0.1


def test_a_covering_that_room_is_kept_for_must_come() -> None:
    """The top lies lower by its thickness; left out, the unit would be too low in silence."""
    box = carcass(width=720, height=500, depth=260, stock=birch_plywood(18, 17.7), covering=3)
    assert [f.rule for f in left_out(Design("Low", (box.component,)).resolve())] == ["left-out"]
    whole = Design("Right", (box.component, top_covering(box, rubber_sheet(3)))).resolve()
    assert list(left_out(whole)) == []
