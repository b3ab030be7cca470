"""Rows of holes that show nothing in a square view, since their own board stands before them.

Hidden-line removal costs the square of what it is given, and a row of pin holes has a hundred
edges. Bored across the line of sight it lies inside its board, with solid wood between it and
the viewer, so the view is the same without it. A single hole or slot would be as much out of
sight, but making the board anew costs more than it spares. Whatever this rule does not prove
hidden is drawn and left to the kernel. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from dataclasses import replace

from cabinet.board import BoardBox
from cabinet.features import Feature, HoleRow
from cabinet.frame import Side
from cabinet.part import Board, Part

# Wood thinner than this is not counted on.
_LEAST_WOOD = 0.5


def seen_part(part: Part, viewer: Side, plane: float | None = None) -> Part:
    """A part that looks the same from a side, without rows of holes that are surely hidden.

    Args:
        part: The part in its place.
        viewer: Side of the unit on which the viewer stands, looking square on it.
        plane: Where a section cuts the unit, along the axis of ``viewer``; None for a view of
            the whole.
    """
    board = part.board
    axis, sign = part.placement.board_axis(viewer)
    near = board.size.along[axis] if sign > 0 else 0.0
    if plane is not None:
        near = _nearer(near, _on_board(part, axis, viewer, plane), sign)
    kept = tuple(f for f in board.features if not _is_enclosed(f, board, axis, sign, near))
    if len(kept) == len(board.features):
        return part
    return replace(part, board=replace(board, features=kept))


def _on_board(part: Part, axis: int, viewer: Side, plane: float) -> float:
    """Where a plane of the unit lies on an axis of a board."""
    origin = tuple(part.placement.origin)[viewer.axis]
    return (plane - origin) * part.placement.directions[axis].sign


def _nearer(one: float, other: float, sign: int) -> float:
    """Of two places, the one farther from the viewer: what is before it is cut away."""
    return min(one, other) if sign > 0 else max(one, other)


def _is_enclosed(feature: Feature, board: Board, axis: int, sign: int, near: float) -> bool:
    """Whether this is a row of holes with solid wood all over it, on the viewer's side of it."""
    if not isinstance(feature, HoleRow):
        return False
    box = feature.box(board.size)
    # From the face nearest to the viewer to the row, both as depths away from the viewer.
    begin, end = 0.0, _depth(box, axis, sign, near)[0]
    screens = sorted(
        _depth(other, axis, sign, near)
        for other in (f.box(board.size) for f in board.features if f is not feature)
        if _overlap(other, box, axis)
    )
    for first, last in screens:
        if min(first, end) - begin >= _LEAST_WOOD:
            return True
        begin = max(begin, last)
    return end - begin >= _LEAST_WOOD


def _depth(box: BoardBox, axis: int, sign: int, near: float) -> tuple[float, float]:
    """How far a box reaches, from the place ``near`` away from the viewer."""
    ends = ((near - place) * sign for place in (box.low[axis], box.high[axis]))
    first, last = sorted(ends)
    return first, last


def _overlap(one: BoardBox, other: BoardBox, axis: int) -> bool:
    """Whether two boxes meet as the viewer sees them."""
    return all(
        one.low[k] < other.high[k] and other.low[k] < one.high[k] for k in range(3) if k != axis
    )
