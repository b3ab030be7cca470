"""Round columns: distances by hand, and what stands in them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from cabinet.checks.columns import Column, axis_gap, box_gap, first_in
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
