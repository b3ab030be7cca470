"""Frames: directions, points, boxes, placements."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given

from cabinet.errors import SizeError, UnknownNameError
from cabinet.frame import BoardPoint, Placement, Side, UnitBox, UnitPoint, side_along
from tests.strategies import ORIENTATIONS, placements, points

# X to the right, Y from the front to the back, Z up, as the guide to the frames says.
VECTORS = {
    Side.RIGHT: (1, 0, 0),
    Side.LEFT: (-1, 0, 0),
    Side.BACK: (0, 1, 0),
    Side.FRONT: (0, -1, 0),
    Side.TOP: (0, 0, 1),
    Side.BOTTOM: (0, 0, -1),
}


def test_directions_are_those_of_the_unit() -> None:
    """Each name points where the maker looks."""
    assert {side: side.vector for side in Side} == VECTORS


@pytest.mark.parametrize("side", Side)
def test_opposites(side: Side) -> None:
    """Twice opposite is the side itself."""
    assert tuple(-part for part in side.opposite.vector) == side.vector
    assert side.opposite.opposite is side
    assert side_along(side.axis, side.sign) is side


@pytest.mark.parametrize(("one", "other"), list(itertools.product(Side, Side)))
def test_cross_is_the_right_handed_product(one: Side, other: Side) -> None:
    """The same as numpy's; along one axis there is none."""
    if one.axis == other.axis:
        with pytest.raises(UnknownNameError):
            one.cross(other)
    else:
        assert one.cross(other).vector == tuple(np.cross(one.vector, other.vector))


def test_no_side_along_a_fourth_axis() -> None:
    """An axis that does not exist is told."""
    with pytest.raises(UnknownNameError):
        side_along(3, 1)


def test_there_are_24_orientations() -> None:
    """A cube has 24 rotations; all of them are right-handed, so none is a mirror."""
    frames = set()
    for along, across in ORIENTATIONS:
        placement = Placement(origin=UnitPoint(0, 0, 0), along=along, across=across)
        matrix = np.array([side.vector for side in placement.directions])
        assert np.linalg.det(matrix) == pytest.approx(1.0)
        frames.add(placement.directions)
    assert len(frames) == 24


@given(placement=placements(), point=points())
def test_round_trip(placement: Placement, point: UnitPoint) -> None:
    """There and back again is the same place."""
    back = placement.board_to_unit(placement.unit_to_board(point))
    assert tuple(back) == pytest.approx(tuple(point), abs=1e-9)


@given(placement=placements(), one=points(), other=points())
def test_distances_stay(placement: Placement, one: UnitPoint, other: UnitPoint) -> None:
    """A placement moves and turns; it stretches nothing."""
    a, b = placement.unit_to_board(one), placement.unit_to_board(other)
    assert math.dist(tuple(a), tuple(b)) == pytest.approx(
        math.dist(tuple(one), tuple(other)), abs=1e-9
    )


def test_a_worked_placement() -> None:
    """A left side: length up, width to the front, face A to the right... seen by hand."""
    placement = Placement(origin=UnitPoint(0, 287, -1), along=Side.TOP, across=Side.FRONT)
    assert placement.up is Side.RIGHT
    assert tuple(placement.board_to_unit(BoardPoint(613, 87, 17.6))) == (17.6, 200, 612)
    assert tuple(placement.unit_to_board(UnitPoint(17.6, 200, 612))) == (613, 87, 17.6)
    assert placement.board_axis(Side.BACK) == (1, -1)
    assert placement.board_axis(Side.TOP) == (0, 1)
    assert placement.board_axis(Side.LEFT) == (2, -1)


def test_a_placement_needs_two_axes() -> None:
    """Length and width along one axis span no board."""
    with pytest.raises(UnknownNameError):
        Placement(origin=UnitPoint(0, 0, 0), along=Side.LEFT, across=Side.RIGHT)


@pytest.mark.parametrize("kind", [UnitPoint, BoardPoint])
def test_points_refuse_nan(kind: type[UnitPoint | BoardPoint]) -> None:
    """No place is nowhere."""
    with pytest.raises(SizeError):
        kind(0.0, math.nan, 0.0)


def test_points_of_two_frames_are_not_equal() -> None:
    """A number cannot wander from one frame into another unseen."""
    found: object = UnitPoint(1, 2, 3)
    assert found != BoardPoint(1, 2, 3)


def test_box() -> None:
    """Size, faces and overlap, by hand."""
    box = UnitBox(low=UnitPoint(1, 2, 3), high=UnitPoint(14, 25, 36))
    assert box.size == (13, 23, 33)
    assert [box.face(side) for side in Side] == [1, 14, 2, 25, 3, 36]
    other = UnitBox(low=UnitPoint(10, 30, 4), high=UnitPoint(20, 40, 5))
    assert box.overlap(other) == (4, -5, 1) == other.overlap(box)


def test_box_refuses_corners_that_change_places() -> None:
    """Low is below high on every axis."""
    with pytest.raises(SizeError):
        UnitBox(low=UnitPoint(0, 0, 5), high=UnitPoint(1, 1, 5))
