"""Round columns: distances by hand, and what stands in them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from cabinet.checks.columns import Column, axis_gap, box_gap, first_in, gap_between
from cabinet.frame import Side, UnitBox, UnitPoint

COLUMN = Column(UnitPoint(3.0, 5.0, 7.0), Side.BACK, 97.0, 11.0)


def _box(low: tuple[float, float, float], size: tuple[float, float, float]) -> UnitBox:
    high = [a + b for a, b in zip(low, size, strict=True)]
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


def test_distance_to_a_box_beside() -> None:
    """A box off by 3 and 4 across is 5 from the axis, wherever it is along it."""
    assert box_gap(COLUMN, _box((6.0, 31.0, 11.0), (9.0, 9.0, 9.0))) == pytest.approx(5.0)
    assert box_gap(COLUMN, _box((-7.0, 31.0, -9.0), (20.0, 9.0, 30.0))) == 0.0


def test_distance_to_a_box_past_the_end() -> None:
    """Past the end the third leg counts: 3, 4 and 12 make 13."""
    far = _box((6.0, 5.0 + 97.0 + 12.0, 11.0), (9.0, 9.0, 9.0))
    assert box_gap(COLUMN, far) == pytest.approx(13.0)


def test_axes_of_two_columns() -> None:
    """Crossing they are as far apart as the third axis says; side by side by both."""
    crossing = Column(UnitPoint(-50.0, 41.0, 7.0 + 6.5), Side.RIGHT, 100.0, 2.0)
    assert axis_gap(COLUMN, crossing) == pytest.approx(6.5)
    beside = Column(UnitPoint(3.0 + 8.0, 60.0, 7.0 - 15.0), Side.FRONT, 30.0, 2.0)
    assert axis_gap(COLUMN, beside) == pytest.approx(17.0)
    assert axis_gap(beside, COLUMN) == axis_gap(COLUMN, beside)


@pytest.mark.parametrize(("off", "is_in"), [(10.9, True), (11.1, False)])
def test_a_corner_counts_by_its_true_distance(*, off: float, is_in: bool) -> None:
    """A corner at 45 degrees is in the column only within its radius, not its square."""
    leg = off / math.sqrt(2)
    boxes = np.array([[[3.0 + leg, 36.0, 7.0 + leg], [90.0, 50.0, 90.0]]])
    met = first_in(COLUMN, boxes)
    assert (met is not None) == is_in
    if met is not None:
        assert met[0] == 0
        assert met[1] == pytest.approx(31.0)


def test_the_first_of_several() -> None:
    """The nearest along the column is told; what lies behind its start is not in it."""
    boxes = np.array(
        [
            [[0.0, 60.0, 0.0], [9.0, 70.0, 20.0]],
            [[0.0, 29.0, 0.0], [9.0, 31.0, 20.0]],
            [[0.0, -20.0, 0.0], [9.0, 4.9, 20.0]],
            [[0.0, 103.0, 0.0], [9.0, 110.0, 20.0]],
        ]
    )
    met = first_in(COLUMN, boxes)
    assert met is not None
    assert met[0] == 1
    assert met[1] == pytest.approx(24.0)
    assert first_in(COLUMN, boxes[2:]) is None


def _points(column: Column) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Points on both ends and the round side of a column."""
    turn = np.linspace(0.0, 2 * np.pi, 121)
    rings = []
    for along in np.linspace(0.0, column.length, 61):
        for share in (1.0, 0.5) if along in {0.0, column.length} else (1.0,):
            ring = np.zeros((len(turn), 3)) + tuple(column.start.moved(column.side, float(along)))
            first, second = (a for a in range(3) if a != column.side.axis)
            ring[:, first] += share * column.radius * np.cos(turn)
            ring[:, second] += share * column.radius * np.sin(turn)
            rings.append(ring)
    return np.concatenate(rings)


def _sampled(one: Column, other: Column) -> float:
    """From points of each to the exact solid of the other, the least."""
    least = math.inf
    for points, solid in ((_points(one), other), (_points(other), one)):
        along = (points - tuple(solid.start))[:, solid.side.axis] * solid.side.sign
        beyond = np.maximum(np.maximum(-along, along - solid.length), 0.0)
        flat = [a for a in range(3) if a != solid.side.axis]
        off = np.hypot(*(points - tuple(solid.start))[:, flat].T)
        least = min(least, float(np.hypot(beyond, np.maximum(off - solid.radius, 0.0)).min()))
    return least


UPRIGHT = Column(UnitPoint(0.0, 0.0, 0.0), Side.TOP, 31.0, 3.0)


@pytest.mark.parametrize(
    ("other", "by_hand"),
    [
        # Side by side, and end to end.
        (Column(UnitPoint(6.0, 8.0, 40.0), Side.BOTTOM, 20.0, 2.0), 10.0 - 5.0),
        (Column(UnitPoint(1.0, 0.0, 34.5), Side.TOP, 20.0, 2.0), 3.5),
        (Column(UnitPoint(9.0, 0.0, 34.0), Side.TOP, 20.0, 3.0), math.hypot(3.0, 3.0)),
        # Crossing, and with an end before the round side of the other.
        (Column(UnitPoint(-20.0, 9.0, 11.0), Side.RIGHT, 50.0, 2.0), 9.0 - 5.0),
        (Column(UnitPoint(7.0, 0.0, 11.0), Side.RIGHT, 50.0, 2.0), 7.0 - 3.0),
        (Column(UnitPoint(-20.0, 1.0, 37.0), Side.RIGHT, 50.0, 2.0), 6.0 - 2.0),
    ],
)
def test_distance_of_two_round_columns(other: Column, by_hand: float) -> None:
    """By hand, and by points of each against the other, either way round."""
    assert gap_between(UPRIGHT, other) == pytest.approx(by_hand)
    assert gap_between(other, UPRIGHT) == pytest.approx(by_hand)
    assert _sampled(UPRIGHT, other) == pytest.approx(by_hand, abs=0.03)


def test_past_both_ends_it_is_never_more_than_the_distance() -> None:
    """There a corner is taken for round."""
    far = Column(UnitPoint(7.0, 2.0, 37.0), Side.RIGHT, 50.0, 2.0)
    assert 0 < gap_between(UPRIGHT, far) < _sampled(UPRIGHT, far)


def test_columns_that_overlap_are_told_how_deep() -> None:
    """Negative by what they share across."""
    assert gap_between(UPRIGHT, Column(UnitPoint(4.0, 0, 5.0), Side.TOP, 9.0, 2.0)) == -1.0
