"""Where along a board nothing happens, so that a view may leave it out.

A stretch is plain if the board has one and the same cross-section from its one end to its
other and no dimension ends in it. What runs on (a groove along the board, a rebate, a bevelled
edge) does not spoil it. Of a long row of equal holes the first and the last few are shown, and
the rest is told by their number and pitch. Lengths are in mm of the board unless they are said
to be on paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from cabinet.board import BoardSize
from cabinet.features import Bevel, Feature, FlushTrim, Groove, HoleRow, Notch, Rebate
from cabinet.part import Board
from drawings.dimension import Dimension
from drawings.interruption import BREAK_GAP, Interruption, Span

# Holes at either end of a row that are always shown, and the least that a row must have
# between them to be cut through (common practice, no source).
_END_HOLES, _LEAST_BETWEEN = 3, 3
# From what must be seen to a break, mm on paper: much where there is room, little where not.
_ROOMS = (90.0, 64.0, 48.0, 36.0, 24.0, 15.0)
# From a break to a hole of a row that it cuts through, mm on paper.
_HOLE_ROOM = 1.0
# A break that saves less than this is not worth it, mm on paper.
_LEAST_SAVED = 24.0
_MOST_BREAKS = 3
# Stretches are alike if the shorter has so much of the longer's length: a divider in the middle
# must not come to stand at one side (common practice, no source).
_ALIKE = 0.75


def interruptions(
    board: Board, links: Iterable[Dimension], rings: Iterable[Span], *, axis: int, scale: float
) -> Iterator[Interruption]:
    """What the views of a board might leave out at a scale, best first.

    Few breaks are better than many, and what stands beside a break has air if it can. Of
    stretches that are about equally long all are broken or none.

    Args:
        board: The board.
        links: Its dimensions.
        rings: Where along the axis rings of details lie that cannot be moved.
        axis: Board axis along which it is shortened, 0 or 1.
        scale: Paper mm for one mm of the board.
    """
    extent = board.size.along[axis]
    busy = [(0.0, 0.0), (extent, extent), *rings]
    for link in links:
        if link.axis == axis:
            busy += [(end.coordinate, end.coordinate) for pair in link.pairs for end in pair]
    passing: list[Span] = []
    for feature in board.features:
        busy += busy_spans(feature, board.size, axis)
        passing += [
            (low - _HOLE_ROOM / scale, high + _HOLE_ROOM / scale)
            for low, high in passing_holes(feature, board.size, axis)
        ]
    found = [_stretches(busy, passing, room / scale) for room in _ROOMS]
    by_room = [sorted(spans, key=lambda s: (s[0] - s[1], s[0])) for spans in found]
    for count in range(1, _MOST_BREAKS + 1):
        for longest in by_room:
            lengths = [high - low for low, high in longest]
            is_worth = len(lengths) >= count and (
                lengths[count - 1] * scale - BREAK_GAP >= _LEAST_SAVED
            )
            is_even = len(lengths) <= count or lengths[count] < _ALIKE * lengths[count - 1]
            if is_worth and is_even:
                yield Interruption(axis, tuple(sorted(longest[:count])))


def busy_spans(feature: Feature, size: BoardSize, axis: int) -> tuple[Span, ...]:
    """Where along an axis a feature changes the board's cross-section.

    Args:
        feature: The feature.
        size: Size of the board.
        axis: Board axis.
    """
    box = feature.box(size)
    low, high = box.low[axis], box.high[axis]
    match feature:
        case Groove() | Rebate() if feature.run_axis == axis:
            radius = feature.end_radius if isinstance(feature, Groove) else 0.0
            stops = [at.coordinate(size) for at in (feature.start, feature.end) if at is not None]
            return tuple((stop - radius, stop + radius) for stop in stops)
        case Bevel() | FlushTrim() if feature.edge.axis != axis:
            return ()
        case Notch() if feature.near.axis == axis:
            return (low, low), (high, high)
        case HoleRow() if _is_cut_through(feature, axis):
            holes = sorted(hole.box(size).low[axis] for hole in feature.holes)
            wide = max(feature.diameter, feature.countersink)
            return (
                (holes[0], holes[_END_HOLES - 1] + wide),
                (holes[-_END_HOLES], holes[-1] + wide),
            )
        case _:
            return ((low, high),)


def passing_holes(feature: Feature, size: BoardSize, axis: int) -> tuple[Span, ...]:
    """The holes of a row that may be left out; a break must run between them.

    Args:
        feature: The feature; only a long row along the axis has such holes.
        size: Size of the board.
        axis: Board axis.
    """
    if not isinstance(feature, HoleRow) or not _is_cut_through(feature, axis):
        return ()
    boxes = [hole.box(size) for hole in feature.holes[_END_HOLES:-_END_HOLES]]
    return tuple((box.low[axis], box.high[axis]) for box in boxes)


def cuts_a_row(board: Board, interruption: Interruption) -> bool:
    """Whether holes of a row lie in what is left out.

    Args:
        board: The board.
        interruption: What its views leave out.
    """
    return any(
        interruption.crosses(interruption.axis, *span)
        for feature in board.features
        for span in passing_holes(feature, board.size, interruption.axis)
    )


def _is_cut_through(row: HoleRow, axis: int) -> bool:
    return row.first.axis == axis and row.count >= 2 * _END_HOLES + _LEAST_BETWEEN


def _stretches(busy: Sequence[Span], passing: Sequence[Span], room: float) -> list[Span]:
    """The spans between what is busy, with room on both sides, clear of passing holes."""
    found = []
    reached = float("-inf")
    for low, high in sorted(busy):
        if reached > float("-inf"):
            begin = _clear_of(passing, reached + room, up=True)
            end = _clear_of(passing, low - room, up=False)
            if end > begin:
                found.append((begin, end))
        reached = max(reached, high)
    return found


def _clear_of(passing: Sequence[Span], place: float, *, up: bool) -> float:
    """The next place, up or down the axis, that lies in no hole."""
    for low, high in sorted(passing, reverse=not up):
        if low < place < high:
            place = high if up else low
    return place
