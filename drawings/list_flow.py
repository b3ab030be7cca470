"""Tables and notes one below the other, in the room that a sheet has for them."""

from __future__ import annotations

from collections.abc import Sequence

from drawings.list_piece import ListPiece
from drawings.marks import Mark, PaperBox, PaperPoint
from drawings.style import Style

GAP = 6.0
"""Between one piece and the next, mm."""

# Fewer rows than these at the foot of an area are not worth a heading there.
_FEWEST = 2
_ROUNDING = 0.01


def flowed(
    pieces: Sequence[ListPiece], areas: Sequence[PaperBox], style: Style
) -> tuple[tuple[Mark, ...], tuple[ListPiece, ...]]:
    """Pieces in their order, area by area, as a text is read.

    A piece that an area cannot hold goes on in the next; if that can hold it whole it is not
    parted.

    Args:
        pieces: In their order.
        areas: Where there is room, in their order; after the last, as many again are counted
            on, as where one page follows another.
        style: Heights of the lettering.

    Returns:
        The marks, and what found no room.
    """
    marks: list[Mark] = []
    left = [piece for piece in pieces if piece.count]
    for index, area in enumerate(areas):
        following = areas[(index + 1) % len(areas)]
        y = area.top
        while left:
            room = PaperBox(area.left, y, area.right, max(area.bottom, y))
            count = _here(left[0], room, following, style, is_fresh=y == area.top)
            if count == 0:
                break
            placed = left[0].headed(count).placed(PaperPoint(area.left, y), area.width, style)
            marks += placed.marks
            y = placed.box.bottom + GAP
            left[:1] = [left[0].after(count)] if count < left[0].count else []
    return tuple(marks), tuple(left)


def set_where_there_is_room(
    pieces: Sequence[ListPiece], areas: Sequence[PaperBox], style: Style
) -> tuple[Mark, ...] | None:
    """Whole pieces, each in the first area that holds it; None if one finds no room.

    Args:
        pieces: In their order.
        areas: Where they may stand, the best first.
        style: Heights of the lettering.
    """
    feet = [area.top for area in areas]
    marks: list[Mark] = []
    for piece in pieces:
        for index, area in enumerate(areas):
            placed = piece.placed(PaperPoint(area.left, feet[index]), area.width, style)
            if placed.box.bottom <= area.bottom + _ROUNDING:
                marks += placed.marks
                feet[index] = placed.box.bottom + GAP
                break
        else:
            return None
    return tuple(marks)


def _here(
    piece: ListPiece, room: PaperBox, following: PaperBox, style: Style, *, is_fresh: bool
) -> int:
    """How many rows or notes of a piece are set in some room before the following area."""
    fits = _fitting(piece, room, style)
    if fits == piece.count or is_fresh:
        return fits
    is_whole_there = _fitting(piece, following, style) == piece.count
    return 0 if is_whole_there or fits < _FEWEST else fits


def _fitting(piece: ListPiece, room: PaperBox, style: Style) -> int:
    """How many rows or notes of a piece, from its first, find room in a box."""
    low, high = 0, piece.count
    while low < high:
        middle = (low + high + 1) // 2
        placed = piece.headed(middle).placed(PaperPoint(room.left, room.top), room.width, style)
        if placed.box.bottom <= room.bottom + _ROUNDING:
            low = middle
        else:
            high = middle - 1
    return low
