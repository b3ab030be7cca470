"""Features as data: boxes worked out by hand, and what a board cannot have."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from cabinet.board import At, BoardSize, Surface
from cabinet.errors import SizeError
from cabinet.features import (
    Bevel,
    Biscuit,
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    HoleRow,
    Notch,
    Pattern,
    Perforation,
    Rebate,
    Tolerance,
)
from tests.strategies import SIZE, a_groove, a_hole, a_row


def test_groove_from_each_edge() -> None:
    """31 from the near edge, or from the far one: 287 - 31 - 11.8 = 244.2."""
    near = a_groove().box(SIZE)
    assert near.low == (0.0, 31.0, 11.600000000000001)
    assert near.high == (613.0, 42.8, 17.6)
    far = replace(a_groove(), near=At(Surface.HIGH, 31.0)).box(SIZE)
    assert far.low[1] == pytest.approx(244.2)
    assert far.high[1] == pytest.approx(256.0)


@pytest.mark.parametrize(
    ("start", "end", "low", "high"),
    [
        (None, None, 0.0, 613.0),
        (At(Surface.START, 41.0), None, 41.0, 613.0),
        (None, At(Surface.END, 57.0), 0.0, 556.0),
        (At(Surface.START, 41.0), At(Surface.END, 57.0), 41.0, 556.0),
        (At(Surface.START, 41.0), At(Surface.START, 57.0), 41.0, 57.0),
        (At(Surface.END, 57.0), At(Surface.END, 41.0), 556.0, 572.0),
    ],
)
def test_groove_stopped(start: At | None, end: At | None, low: float, high: float) -> None:
    """None runs out; both ends may be told from either end."""
    box = replace(a_groove(), start=start, end=end).box(SIZE)
    assert (box.low[0], box.high[0]) == (low, high)


def test_groove_across() -> None:
    """A housing across the board runs along its width."""
    groove = Groove(
        name="housing",
        surface=Surface.B,
        near=At(Surface.END, 97.0),
        width=17.8,
        depth=5.9,
    )
    assert groove.run_axis == 1
    assert groove.box(SIZE).low == pytest.approx((498.2, 0.0, 0.0))
    assert groove.box(SIZE).high == (516.0, 287.0, 5.9)


def test_rebate_box() -> None:
    """17.7 wide at the far end, 6 deep from face B."""
    rebate = Rebate(name="rebate", edge=Surface.END, face=Surface.B, width=17.7, depth=6.0)
    assert rebate.run_axis == 1
    assert rebate.box(SIZE).low == pytest.approx((595.3, 0.0, 0.0))
    assert rebate.box(SIZE).high == (613.0, 287.0, 6.0)


def test_bevel_reach() -> None:
    """At 45 degrees it reaches as far as it is deep; a land takes from both."""
    bevel = Bevel(name="bevel", edge=Surface.LOW, sharp=Surface.A)
    assert bevel.reach(17.6) == pytest.approx(17.6)
    assert replace(bevel, land=3.0).reach(17.6) == pytest.approx(14.6)
    # tan 30 = 1 / sqrt 3
    assert replace(bevel, angle=30.0).reach(17.6) == pytest.approx(17.6 / math.sqrt(3))


def test_hole_and_row_boxes() -> None:
    """The row's box runs from the first hole's edge to the last one's."""
    hole = a_hole(countersink=11.0).box(SIZE)
    assert hole.low == pytest.approx((107.5, 65.5, 8.1))
    assert hole.high == (118.5, 76.5, 17.6)
    row = a_row().box(SIZE)
    assert (row.low[0], row.high[0]) == (93.5, 96 + 4 * 32 + 2.5)
    backwards = replace(a_row(), first=At(Surface.END, 96.0)).box(SIZE)
    assert (backwards.low[0], backwards.high[0]) == (613 - 96 - 4 * 32 - 2.5, 613 - 93.5)


def test_row_is_its_holes() -> None:
    """Each hole of it, from the first away from the datum."""
    row = replace(a_row(), first=At(Surface.END, 96.0))
    assert [hole.centre[0].coordinate(SIZE) for hole in row.holes] == [517, 485, 453, 421, 389]
    assert {hole.centre[1] for hole in row.holes} == {row.line}
    assert len({hole.name for hole in row.holes}) == 5


def test_as_many_holes_as_fit() -> None:
    """96 + 16 * 32 + 2.5 = 610.5 of 613 fits, one more does not."""
    a_row(count=17).check("side", SIZE)
    with pytest.raises(SizeError) as caught:
        a_row(count=18).check("side", SIZE)
    assert caught.value.limit == (1, 17)


@pytest.mark.parametrize(("inside", "outside"), [(3.5, 3.4), (609.5, 609.6)])
def test_a_hole_lies_within_its_board(inside: float, outside: float) -> None:
    """A hole of 7 may touch the end and not break out of it."""
    a_hole(x=inside).check("side", SIZE)
    with pytest.raises(SizeError, match="within the board"):
        a_hole(x=outside).check("side", SIZE)


def a_rebate(*, depth: float) -> Rebate:
    """A rebate along an edge."""
    return Rebate(name="rebate", edge=Surface.LOW, face=Surface.A, width=9.0, depth=depth)


@pytest.mark.parametrize("make", [a_groove, a_hole, a_rebate])
def test_a_floor_is_left(make: Callable[..., Feature]) -> None:
    """1 of 17.6 must be left below a blind hole, a groove and a rebate."""
    make(depth=16.6).check("side", SIZE)
    with pytest.raises(SizeError) as caught:
        make(depth=16.7).check("side", SIZE)
    assert caught.value.limit == (0.0, pytest.approx(16.6))


def test_cut_out_within_the_board() -> None:
    """Its half sizes keep it from the edges; a pill's ends are half circles."""
    opening = CutOut(
        name="air",
        centre=(At(Surface.START, 91.0), At(Surface.HIGH, 41.0)),
        length=121.0,
        width=34.0,
        corner_radius=17.0,
    )
    assert opening.is_pill
    assert not replace(opening, corner_radius=16.0).is_pill
    assert opening.box(SIZE).low == (30.5, 229.0, 0.0)
    assert opening.box(SIZE).high == (151.5, 263.0, 17.6)
    opening.check("top", SIZE)
    with pytest.raises(SizeError) as caught:
        replace(opening, centre=(At(Surface.START, 60.0), At(Surface.HIGH, 41.0))).check(
            "top", SIZE
        )
    assert caught.value.limit == (60.5, 552.5)
    with pytest.raises(SizeError, match="corner radius"):
        replace(opening, corner_radius=17.1)


def test_notch_at_a_corner() -> None:
    """Distance 0 makes a corner notch."""
    notch = Notch(
        name="notch", edge=Surface.HIGH, near=At(Surface.END, 0.0), length=101.0, depth=17.7
    )
    assert notch.box(SIZE).low == pytest.approx((512.0, 269.3, 0.0))
    assert notch.box(SIZE).high == (613.0, 287.0, 17.6)
    with pytest.raises(SizeError):
        replace(notch, depth=286.5).check("side", SIZE)


def test_biscuit_slot_is_a_chord_of_the_blade() -> None:
    """No. 20: 23 wide (tool maker's glossary), half of it and 0.5 is 12 deep.

    A chord 12 deep in a circle of 50: 2 sqrt(50^2 - 38^2) = 65.0.
    """
    slot = BiscuitSlot(
        name="slot",
        surface=Surface.LOW,
        centre=At(Surface.START, 91.0),
        height=At(Surface.A, 8.0),
        biscuit=Biscuit.NO_20,
    )
    assert Biscuit.NO_20.slot_depth == 12.0
    assert slot.chord == pytest.approx(2 * math.sqrt(50**2 - 38**2))
    assert slot.chord == pytest.approx(64.99, abs=0.01)
    # Longer than the biscuit itself, so that the joint can be shifted a little.
    assert slot.chord > Biscuit.NO_20.length
    box = slot.box(SIZE)
    assert (box.low[2], box.high[2]) == pytest.approx((7.6, 11.6))
    assert (box.low[1], box.high[1]) == (0.0, 12.0)
    with pytest.raises(SizeError, match="within the board"):
        replace(slot, height=At(Surface.A, 1.9)).check("rail", SIZE)
    with pytest.raises(SizeError, match="within the board"):
        replace(slot, centre=At(Surface.START, 32.0)).check("rail", SIZE)


def test_flush_trim_box() -> None:
    """The strip at the edge."""
    trim = FlushTrim(name="trim", edge=Surface.START, proud=1.0)
    assert trim.box(SIZE).high == (1.0, 287.0, 17.6)


def test_perforated_share() -> None:
    """R5T8 is open by 90.7 * 25 / 64 = 35.4 %, R5U8 by 78.5 * 25 / 64 = 30.7 %.

    Source: perforated-sheet makers' formulas (90.7 w2/t2 staggered, 78.5 w2/t2 square).
    """
    field = Perforation(name="f", diameter=5, pitch=8, pattern=Pattern.STAGGERED)
    assert field.open_share == pytest.approx(0.907 * 25 / 64, abs=0.0003)
    assert field.designation == "R5T8"
    square = replace(field, pattern=Pattern.SQUARE)
    assert square.open_share == pytest.approx(0.785 * 25 / 64, abs=0.0003)
    assert square.designation == "R5U8"


def test_a_field_needs_room_for_a_hole() -> None:
    """A sheet narrower than a hole has none."""
    field = Perforation(name="f", diameter=5, pitch=8, pattern=Pattern.SQUARE)
    field.check("panel", BoardSize(91.0, 5.0, 1.5))
    with pytest.raises(SizeError):
        field.check("panel", BoardSize(91.0, 4.9, 1.5))


def test_features_are_told_from_beside_their_surface() -> None:
    """A groove's wall cannot be told from the face that it is cut into."""
    with pytest.raises(SizeError, match="face A"):
        replace(a_groove(), near=At(Surface.B, 3.0))
    with pytest.raises(SizeError):
        replace(a_groove(), start=At(Surface.HIGH, 3.0))
    with pytest.raises(SizeError):
        replace(a_hole(), centre=(At(Surface.START, 3.0), At(Surface.END, 3.0)))
    with pytest.raises(SizeError):
        Bevel(name="bevel", edge=Surface.A, sharp=Surface.B)
    with pytest.raises(SizeError):
        Rebate(name="rebate", edge=Surface.LOW, face=Surface.HIGH, width=3, depth=3)
    with pytest.raises(SizeError):
        Notch(name="notch", edge=Surface.A, near=At(Surface.LOW, 3), length=3, depth=3)


def test_tolerance_is_ordered() -> None:
    """Lower is not above upper."""
    assert Tolerance(-0.2, 0.0).lower == -0.2
    with pytest.raises(SizeError):
        Tolerance(0.1, 0.0)


def test_row_direction_follows_its_datum() -> None:
    """Rows across the board run along the width."""
    row = HoleRow(
        name="row",
        surface=Surface.A,
        first=At(Surface.HIGH, 37.0),
        line=At(Surface.START, 61.0),
        count=3,
        pitch=32.0,
        diameter=5.0,
        depth=None,
    )
    assert [hole.centre[0].coordinate(SIZE) for hole in row.holes] == [250, 218, 186]
