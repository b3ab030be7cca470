"""A scribe strip where a unit meets a wall or a floor that is not straight, with its cut line.

The strip's straight edge lies against the unit; the other edge is cut to the wall.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.frame import Side
from cabinet.site.room.frame import WallBox
from cabinet.site.room.room_wall import RoomWall, between

# What the blank is wider than the strip, for the pencil and the plane (common practice).
SPARE = 6.0
# A gap that runs this true needs no strip cut to it, mm (common practice).
TRUE = 1.0
# Farther from a corner the unit does not meet the wall, mm (common practice).
MEETS = 80.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ScribeStrip:
    """A strip and its cut line.

    Attributes:
        side: Side of the unit on which it lies.
        start: Where along the wall's z (a floor: x) it begins, mm.
        length: Its length, mm.
        blank: Width of the blank, mm.
        line: The cut line: along the strip from its start, and across from its straight edge, mm.
    """

    side: Side
    start: float
    length: float
    blank: float
    line: tuple[tuple[float, float], ...]

    @property
    def least(self) -> float:
        """Its least width, mm."""
        return min(width for _, width in self.line)

    @property
    def greatest(self) -> float:
        """Its greatest width, mm."""
        return max(width for _, width in self.line)


def _line(
    known: list[tuple[float, float]], low: float, high: float
) -> tuple[tuple[float, float], ...]:
    """Ends and readings between, each with its gap; places told from ``low``."""
    places = sorted({low, high, *(at for at, _ in known if low < at < high)})
    return tuple((at - low, between(known, at)) for at in places)


def gaps(room: RoomWall, outline: WallBox, side: Side) -> tuple[tuple[float, float], ...]:
    """The gap between a unit and the adjoining wall or the floor, along that side, mm.

    Args:
        room: The wall with its readings.
        outline: What the unit covers.
        side: LEFT, RIGHT or BOTTOM.

    Returns:
        Places from the lower (a floor: left) end, each with its gap; none without readings.

    """
    if side is Side.LEFT:
        known = sorted((r.z, outline.low.x - r.x) for r in room.left_corner)
    elif side is Side.RIGHT:
        known = sorted((r.z, r.x - outline.high.x) for r in room.right_corner)
    else:
        known = sorted((r.x, outline.low.z - (room.datum - r.below)) for r in room.floor)
    if not known:
        return ()
    span = (
        (outline.low.x, outline.high.x) if side is Side.BOTTOM else (outline.low.z, outline.high.z)
    )
    return _line(known, *span)


def scribe_strips(room: RoomWall, outline: WallBox, *, is_hung: bool) -> tuple[ScribeStrip, ...]:
    """The strips that a unit needs: at a corner that it meets, and at the floor if it stands."""
    strips = []
    for side in (Side.LEFT, Side.RIGHT, Side.BOTTOM):
        if side is Side.BOTTOM and is_hung:
            continue
        line = gaps(room, outline, side)
        if not line or min(width for _, width in line) > MEETS:
            continue
        widths = [width for _, width in line]
        if max(widths) - min(widths) < TRUE and min(widths) < TRUE:
            continue
        start = outline.low.x if side is Side.BOTTOM else outline.low.z
        strips.append(
            ScribeStrip(
                side=side,
                start=start,
                length=line[-1][0],
                blank=round(max(widths) + SPARE, 1),
                line=tuple((round(at, 1), round(width, 1)) for at, width in line),
            )
        )
    return tuple(strips)
