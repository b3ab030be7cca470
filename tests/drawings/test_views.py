"""Which views a board gets, and what stands in which of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given

from cabinet.board import At, Surface
from cabinet.features import Groove, Hole
from cabinet.part import Board, Part
from drawings.dimensioning import board_dimensions
from drawings.look import FACE_A, FACE_B, Look
from drawings.view_frame import FROM_LEFT, FRONT, PLAN
from drawings.views import (
    DETAIL_SCALES,
    SCALES,
    Place,
    ViewPlan,
    plan_views,
    scale_text,
)
from tests.drawings.sample_parts import (
    SAMPLES,
    cleat,
    divider,
    doubled_top,
    plinth,
    rail,
    shelf,
    side,
)
from tests.strategies import boards


def plan_of(board: Board) -> ViewPlan:
    """The views of a board."""
    return plan_views(board, board_dimensions(board))


def assert_each_link_once(board: Board) -> None:
    """Every dimension and callout stands in one place."""
    dimensions = board_dimensions(board)
    plan = plan_views(board, dimensions)
    shown = [link for view in plan.views for link in view.links]
    shown += [link for detail in plan.details for link in detail.links]
    shown += plan.notes
    assert sorted(link.title for link in shown) == sorted(link.title for link in dimensions.links)
    told = [callout for view in plan.views for callout in view.callouts]
    told += [callout for detail in plan.details for callout in detail.callouts]
    assert sorted(c.title for c in told) == sorted(c.title for c in dimensions.callouts)
    for view in plan.views:
        for link in view.links:
            assert link.axis in {view.look.right[0], view.look.up[0]}


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_dimension_stands_in_one_view(sample: Callable[[], Part]) -> None:
    """Every dimension stands in one view."""
    assert_each_link_once(sample().board)


@given(boards())
def test_every_dimension_of_generated_boards_stands_in_one_view(board: Board) -> None:
    """Every dimension of generated boards stands in one view."""
    assert_each_link_once(board)


def test_first_angle_neighbours() -> None:
    """Checked on a part standing as the unit does: x right, z up, front towards the viewer.

    Source: ISO 5456-2:1996, first angle: seen from the left stands at the right, from above
    below.
    """
    front = Look((0, 1), (2, 1))
    assert (front.frame.right, front.frame.up) == (FRONT.right, FRONT.up)
    above = front.from_above
    assert (above.frame.right, above.frame.up) == (PLAN.right, PLAN.up)
    left = front.from_left
    assert (left.frame.right, left.frame.up) == (FROM_LEFT.right, FROM_LEFT.up)


def test_neighbours_see_the_surface_that_their_place_says() -> None:
    """Neighbours see the surface that their place says."""
    assert FACE_A.surface is Surface.A
    assert FACE_B.surface is Surface.B
    assert FACE_A.from_left.surface is Surface.START
    assert FACE_A.from_right.surface is Surface.END
    assert FACE_A.from_above.surface is Surface.HIGH
    assert FACE_A.from_below.surface is Surface.LOW
    # Turned over along its length the stop stays where it is, and the fence's edge is up.
    assert FACE_B.from_left.surface is Surface.START
    assert FACE_B.from_above.surface is Surface.LOW


def test_the_worked_face_is_the_main_view() -> None:
    """The worked face is the main view."""
    assert plan_of(side().board).main.look is FACE_A
    assert plan_of(doubled_top().board).main.look is FACE_B
    assert plan_of(shelf().board).main.look is FACE_A


def test_a_second_view_only_if_both_faces_are_worked() -> None:
    """A second view only if both faces are worked."""
    assert [view.place for view in plan_of(divider().board).others] == [Place.SECOND_FACE]
    assert plan_of(side().board).others == ()


def test_a_plain_hole_through_asks_for_no_second_face() -> None:
    """A plain hole through asks for no second face."""
    groove = Groove(name="groove", surface=Surface.B, near=At(Surface.LOW, 23), width=7, depth=6)
    hole = Hole(
        name="hole",
        surface=Surface.A,
        centre=(At(Surface.START, 71), At(Surface.LOW, 113)),
        diameter=9,
    )
    board = replace(shelf().board, features=(groove, hole))
    assert plan_of(board).others == ()
    assert plan_of(replace(board, features=(groove, replace(hole, depth=7)))).others != ()


def test_ends_that_are_alike_share_a_view() -> None:
    """Ends that are alike share a view."""
    ends = plan_of(doubled_top().board).others
    assert [(view.place, view.alike) for view in ends] == [(Place.RIGHT, Surface.END)]


def test_edges_with_slots_get_their_views() -> None:
    """Edges with slots get their views."""
    plan = plan_of(rail().board)
    assert {view.look.surface for view in plan.others} == {Surface.LOW, Surface.START}
    assert plan.hides


def test_what_belongs_together_stands_in_the_detail() -> None:
    """Source: ISO 129-1, dimensions that belong together in one view, where the shape shows."""
    plan = plan_of(side().board)
    groove = next(d for d in plan.details if d.features == ("groove for back",))
    assert [link.text for link in groove.links] == ["20", "6.2 +0.2 / 0", "6"]
    assert groove.letter == "Y"
    doors = plan_of(doubled_top().board).details[0]
    assert doors.features == ("front door groove", "rear door groove")


def test_a_far_offset_stays_in_the_main_view() -> None:
    """A far offset stays in the main view."""
    plan = plan_of(doubled_top().board)
    housing = next(d for d in plan.details if d.features == ("housing for divider",))
    assert [link.text for link in housing.links] == ["17.9", "6"]
    assert "571.3" in [link.text for link in plan.main.links]


def test_details_cut_through_their_own_shape_only() -> None:
    """Details cut through their own shape only."""
    board = doubled_top().board
    for detail in plan_of(board).details:
        for feature in board.features:
            box = feature.box(board.size)
            run, cross = detail.run_axis, detail.cross_axis
            is_cut = box.low[run] < detail.plane < box.high[run]
            is_near = box.low[cross] < detail.window[1] and box.high[cross] > detail.window[0]
            if is_cut and is_near:
                assert feature.name in detail.features


def test_a_plain_board_has_its_thickness_in_a_note() -> None:
    """A plain board has its thickness in a note."""
    assert [link.text for link in plan_of(plinth().board).notes] == ["17.7"]
    assert plan_of(cleat().board).notes == ()


def test_scales_are_those_of_the_standard() -> None:
    """Source: ISO 5455:1979, 5.1: 1, 2, 5 and these times a power of ten."""
    allowed = {"50:1", "20:1", "10:1", "5:1", "2:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50"}
    assert {scale_text(scale) for scale in (*SCALES, *DETAIL_SCALES)} <= allowed


@pytest.mark.parametrize("main", [1.0, 0.5, 0.2, 0.1])
def test_details_are_larger_than_the_main_view(main: float) -> None:
    """Details are larger than the main view."""
    for sample in (side, doubled_top, rail, cleat):
        board = sample().board
        for detail in plan_of(board).details:
            assert detail.scale(main, board.thickness) > main


def test_letters_come_from_the_end_of_the_alphabet() -> None:
    """Letters come from the end of the alphabet."""
    assert [detail.letter for detail in plan_of(doubled_top().board).details] == ["Z", "Y", "X"]
