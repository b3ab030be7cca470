"""Round columns along an axis of the unit, and what stands in them. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from cabinet.checks.bricks import Boxes, box_array
from cabinet.checks.takedown import TOUCH
from cabinet.frame import Side, UnitBox, UnitPoint


@dataclass(frozen=True, slots=True)
class Column:
    """A round column.

    Attributes:
        start: Middle of its near end.
        side: Way it runs from there.
        length: Its length, mm.
        radius: Its radius, mm.
    """

    start: UnitPoint
    side: Side
    length: float
    radius: float


def gaps(column: Column, boxes: Boxes) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """How far each box is from the column's axis, square to it, mm; 0 where the axis is in it."""
    beside = [axis for axis in range(3) if axis != column.side.axis]
    middle = np.array([tuple(column.start)[axis] for axis in beside])
    off = np.maximum(boxes[:, 0][:, beside] - middle, middle - boxes[:, 1][:, beside])
    return np.asarray(np.hypot(*np.maximum(off, 0.0).T))


def first_in(column: Column, boxes: Boxes) -> tuple[int, float] | None:
    """The first box that a column runs into, and how far from its start, mm."""
    if not len(boxes):
        return None
    axis, sign = column.side.axis, column.side.sign
    origin = tuple(column.start)[axis]
    ends = np.sort((boxes[:, :, axis] - origin) * sign, axis=1)
    is_in = (
        (gaps(column, boxes) < column.radius - TOUCH)
        & (ends[:, 0] < column.length - TOUCH)
        & (ends[:, 1] > TOUCH)
    )
    if not is_in.any():
        return None
    away = np.where(is_in, np.maximum(ends[:, 0], 0.0), np.inf)
    index = int(np.argmin(away))
    return index, float(away[index])


def axis_gap(one: Column, other: Column) -> float:
    """Least distance between the axes of two columns, mm."""
    low_high = [_span(one), _span(other)]
    apart = [
        max(
            low_high[0][axis][0] - low_high[1][axis][1],
            low_high[1][axis][0] - low_high[0][axis][1],
            0,
        )
        for axis in range(3)
    ]
    return float(np.hypot(np.hypot(apart[0], apart[1]), apart[2]))


def gap_between(one: Column, other: Column) -> float:
    """Distance between the surfaces of two columns, mm; negative as far as they overlap.

    Exact for columns that run alike and for those that cross; where both end before they meet,
    a corner of each is taken for round, which is never more than the distance.
    """
    spans = _span(one), _span(other)
    apart = [max(a[0] - b[1], b[0] - a[1], 0.0) for a, b in zip(*spans, strict=True)]
    mine, its = one.side.axis, other.side.axis
    if mine == its:
        beside = [gap for axis, gap in enumerate(apart) if axis != mine]
        clear = math.hypot(*beside) - one.radius - other.radius
        return math.hypot(apart[mine], max(clear, 0.0)) if apart[mine] > 0 else clear
    over = apart[3 - mine - its]
    for end, its_end, first, second in (
        (apart[mine], apart[its], one, other),
        (apart[its], apart[mine], other, one),
    ):
        # A flat end before a round side: the first is a rectangle as seen along the second.
        if end > 0 and its_end == 0:
            return math.hypot(end, max(over - first.radius, 0.0)) - second.radius
    return axis_gap(one, other) - one.radius - other.radius


def _span(column: Column) -> list[tuple[float, float]]:
    ends = tuple(column.start), tuple(column.start.moved(column.side, column.length))
    return [(min(a, b), max(a, b)) for a, b in zip(*ends, strict=True)]


def box_gaps(column: Column, boxes: Boxes) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Least distance from a column's axis to each box, mm; 0 where it goes through."""
    low, high = (np.array(ends) for ends in zip(*_span(column), strict=True))
    apart = np.maximum(np.maximum(boxes[:, 0] - high, low - boxes[:, 1]), 0.0)
    return np.asarray(np.sqrt((apart**2).sum(axis=1)))


def box_gap(column: Column, box: UnitBox) -> float:
    """Least distance from a column's axis to a box, mm; 0 if it goes through."""
    return float(box_gaps(column, box_array(box))[0])


__all__ = ["Column", "axis_gap", "box_gap", "box_gaps", "first_in", "gap_between", "gaps"]
