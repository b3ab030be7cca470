"""How deep the jaws of clamps must reach along a joint.

A clamp's bar passes beside the boards that stand, and from there its jaws reach in to where
they press. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence

from cabinet.frame import UnitBox
from cabinet.making.clamping import places_along
from cabinet.making.glue_lines import GlueLine

Span = tuple[float, float]
"""Low and high coordinate, mm."""

# A gap between boards through which a bar can pass (common practice, no source).
BAR = 30.0


def reaches(line: GlueLine, standing: Sequence[UnitBox], between: Span) -> tuple[float, ...]:
    """How deep the jaws reach at each place of a joint where a clamp presses, mm.

    Args:
        line: The joint; clamps press in the middle of its width.
        standing: The boxes of all boards that stand while it is pressed.
        between: From jaw to jaw along the axis in which it is pressed.
    """
    along, across = line.lie
    spans = [tuple(zip(box.low, box.high, strict=True)) for box in standing]
    beside = [
        (box[along], box[across])
        for box in spans
        if box[line.axis][0] < between[1] and between[0] < box[line.axis][1]
    ]
    low, middle = line.spans[along][0], sum(line.spans[across]) / 2
    return tuple(reach_in((low + place, middle), beside) for place in places_along(line.length))


def reach_in(place: tuple[float, float], boards: Sequence[tuple[Span, Span]]) -> float:
    """How far a place lies, straight along one of two axes, from where a bar can pass, mm.

    Args:
        place: The place.
        boards: What boards cover, as spans on both axes.
    """
    found = []
    for axis in (0, 1):
        other = place[1 - axis]
        covered = sorted(
            board[axis] for board in boards if board[1 - axis][0] < other < board[1 - axis][1]
        )
        low = high = place[axis]
        for begin, end in covered:
            if begin < high + BAR and end > place[axis]:
                high = max(high, end)
        for begin, end in sorted(covered, key=lambda span: span[1], reverse=True):
            if end > low - BAR and begin < place[axis]:
                low = min(low, begin)
        found += [high - place[axis], place[axis] - low]
    return min(found)
