"""Wishes for the place of a unit: in line with something, centred on something, beside something.

Each wish pulls the unit along one axis towards one place; how far it misses that place, times
its weight, is what it costs.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.errors import UnknownNameError
from cabinet.frame import Side
from cabinet.quantity import finite, positive
from cabinet.site.room.frame import WallBox
from cabinet.site.room.room_wall import RoomWall

_ON_WALL = (Side.LEFT, Side.RIGHT, Side.BOTTOM, Side.TOP)


@dataclass(frozen=True, slots=True, kw_only=True)
class InLine:
    """An edge of the unit on a line: LEFT or RIGHT at an x, TOP or BOTTOM at a z, mm."""

    edge: Side
    at: float
    weight: float = 1.0

    def __post_init__(self) -> None:
        _require_side("wish", self.edge)
        finite("wish", "line", self.at)
        positive("wish", "weight", self.weight, unit="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Centred:
    """The unit's middle at an x, mm."""

    x: float
    weight: float = 1.0

    def __post_init__(self) -> None:
        finite("wish", "centre", self.x)
        positive("wish", "weight", self.weight, unit="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """A gap between the unit and a thing: the unit lies on that side of it."""

    thing: str
    side: Side
    gap: float = 0.0
    weight: float = 1.0

    def __post_init__(self) -> None:
        _require_side(self.thing, self.side)
        finite(self.thing, "gap", self.gap)
        positive(self.thing, "weight", self.weight, unit="")


PlaceWish = InLine | Centred | Beside


def _require_side(owner: str, side: Side) -> None:
    if side not in _ON_WALL:
        raise UnknownNameError(
            f"{owner}: {side} is no edge of a unit on a wall; name left, right, bottom or top",
            part=owner,
            value=side,
            limit=tuple(each.value for each in _ON_WALL),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """A wish as a pull along one axis.

    Attributes:
        said: The wish in words.
        axis: 0 along the wall, 1 upwards.
        target: Where the unit's origin should be on that axis, mm.
        weight: What a millimetre off costs.
    """

    said: str
    axis: int
    target: float
    weight: float


def pull(wish: PlaceWish, room: RoomWall, shape: WallBox) -> Pull:
    """A wish as a pull on the unit's origin.

    Args:
        wish: The wish.
        room: The wall, for the things on it.
        shape: What the unit covers with its origin at (0, 0).

    Raises:
        UnknownNameError: a thing that is not on the wall.
    """
    if isinstance(wish, Centred):
        return Pull(
            said=f"middle at x {wish.x:g}",
            axis=0,
            target=wish.x - shape.centre.x,
            weight=wish.weight,
        )
    if isinstance(wish, InLine):
        return _edge(f"{wish.edge.value} edge at {wish.at:g}", wish.edge, wish.at, shape, wish)
    boxes = {thing.name: thing.box for thing in room.things}
    if wish.thing not in boxes:
        raise UnknownNameError(
            f"{room.name}: there is no {wish.thing!r} to be beside; there are "
            f"{', '.join(sorted(boxes)) or 'none'}",
            part=room.name,
            value=wish.thing,
            limit=tuple(sorted(boxes)),
        )
    box = boxes[wish.thing]
    # The unit's edge that faces the thing.
    edge, at = {
        Side.LEFT: (Side.RIGHT, box.low.x - wish.gap),
        Side.RIGHT: (Side.LEFT, box.high.x + wish.gap),
        Side.BOTTOM: (Side.TOP, box.low.z - wish.gap),
        Side.TOP: (Side.BOTTOM, box.high.z + wish.gap),
    }[wish.side]
    word = {Side.BOTTOM: "below", Side.TOP: "above"}.get(wish.side, f"{wish.side.value} of")
    return _edge(f"{wish.gap:g} {word} {wish.thing}", edge, at, shape, wish)


def _edge(said: str, edge: Side, at: float, shape: WallBox, wish: InLine | Beside) -> Pull:
    offset = {
        Side.LEFT: shape.low.x,
        Side.RIGHT: shape.high.x,
        Side.BOTTOM: shape.low.z,
        Side.TOP: shape.high.z,
    }[edge]
    axis = 0 if edge in {Side.LEFT, Side.RIGHT} else 1
    return Pull(said=said, axis=axis, target=at - offset, weight=wish.weight)
