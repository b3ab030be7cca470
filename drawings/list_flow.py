"""Tables and notes that go wherever there is room: each in the first area that holds it."""

from __future__ import annotations

from collections.abc import Sequence

from drawings.list_sheet import ListPiece
from drawings.marks import Mark, PaperBox, PaperPoint
from drawings.style import Style

GAP = 7.0
"""Between one piece and the next, mm."""

_ROUNDING = 0.01


def flowed(
    pieces: Sequence[ListPiece], areas: Sequence[PaperBox], style: Style
) -> tuple[Mark, ...] | None:
    """Pieces one below the other in areas of the sheet; None if one finds no room.

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
