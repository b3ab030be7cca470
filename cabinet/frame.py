"""The frames in which places are told, each with a type of its own.

* Unit: X to the right, Y from the front to the back, Z up, seen from the front; the origin is
  the front-left-bottom corner of the carcass.
* Board: x along the length, y across the width, z through the thickness; face A is the upper
  face, z = thickness, and face B the lower, z = 0. The origin is a corner of face B.

Boards stand square to the unit, so a placement is the unit point at which the board's origin
lies and the unit direction in which each board axis runs; the names by which the maker knows
a board's edges (front, back, left, right, top, bottom) follow from it and are stored nowhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from math import isfinite

from cabinet.errors import UnknownNameError
from cabinet.quantity import finite, positive

Vector = tuple[float, float, float]


class Side(Enum):
    """A direction in the unit's frame, under the name the maker gives to what faces that way."""

    LEFT = "left"
    RIGHT = "right"
    FRONT = "front"
    BACK = "back"
    BOTTOM = "bottom"
    TOP = "top"

    # Members are single, so they are told apart by identity: far faster than by name.
    __hash__ = object.__hash__

    @property
    def axis(self) -> int:
        """Index of the unit axis it runs along: 0 for X, 1 for Y, 2 for Z."""
        return _AXES[self][0]

    @property
    def sign(self) -> int:
        """+1 if it runs with that axis, -1 if against it."""
        return _AXES[self][1]

    @property
    def vector(self) -> Vector:
        """Unit vector in the unit's frame."""
        return _VECTORS[self]

    @property
    def opposite(self) -> Side:
        """The direction against this one."""
        return side_along(self.axis, -self.sign)

    def cross(self, other: Side) -> Side:
        """The right-handed product of two directions at right angles.

        Raises:
            UnknownNameError: the two lie along one axis.
        """
        if self.axis == other.axis:
            raise UnknownNameError(
                f"{self.value} and {other.value} lie along one axis and span no face",
                value=(self.value, other.value),
                limit="two directions at right angles",
            )
        third = 3 - self.axis - other.axis
        is_cyclic = (self.axis + 1) % 3 == other.axis
        return side_along(third, self.sign * other.sign * (1 if is_cyclic else -1))


_AXES: dict[Side, tuple[int, int]] = {
    Side.LEFT: (0, -1),
    Side.RIGHT: (0, 1),
    Side.FRONT: (1, -1),
    Side.BACK: (1, 1),
    Side.BOTTOM: (2, -1),
    Side.TOP: (2, 1),
}

_ALONG = {along: side for side, along in _AXES.items()}
_VECTORS: dict[Side, Vector] = {
    side: (
        float(sign) if axis == 0 else 0.0,
        float(sign) if axis == 1 else 0.0,
        float(sign) if axis == 2 else 0.0,
    )
    for side, (axis, sign) in _AXES.items()
}


def side_along(axis: int, sign: int) -> Side:
    """The side that looks along unit axis 0, 1 or 2 in the direction of ``sign``."""
    side = _ALONG.get((axis, sign))
    if side is not None:
        return side
    raise UnknownNameError(
        f"no side looks along axis {axis} with sign {sign}", value=(axis, sign), limit="0..2, +-1"
    )


@dataclass(frozen=True, slots=True)
class UnitPoint:
    """A place in the unit's frame, mm."""

    x: float
    y: float
    z: float

    def __post_init__(self) -> None:
        if type(self.x) is type(self.y) is type(self.z) is float and isfinite(
            self.x + self.y + self.z
        ):
            return
        for name, value in zip("xyz", self, strict=True):
            finite("unit point", name, value)

    def __iter__(self) -> Iterator[float]:
        return iter((self.x, self.y, self.z))

    def moved(self, side: Side, distance: float) -> UnitPoint:
        """This point moved ``distance`` mm in a direction."""
        dx, dy, dz = (distance * part for part in side.vector)
        return UnitPoint(self.x + dx, self.y + dy, self.z + dz)


@dataclass(frozen=True, slots=True)
class BoardPoint:
    """A place in a board's frame, mm."""

    x: float
    y: float
    z: float

    def __post_init__(self) -> None:
        if type(self.x) is type(self.y) is type(self.z) is float and isfinite(
            self.x + self.y + self.z
        ):
            return
        for name, value in zip("xyz", self, strict=True):
            finite("board point", name, value)

    def __iter__(self) -> Iterator[float]:
        return iter((self.x, self.y, self.z))


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitBox:
    """An upright box in the unit's frame, mm; ``low`` and ``high`` are opposite corners."""

    low: UnitPoint
    high: UnitPoint

    def __post_init__(self) -> None:
        for name, low, high in zip("xyz", self.low, self.high, strict=True):
            positive("box in the unit", f"size along {name}", high - low)

    @property
    def size(self) -> Vector:
        """Sizes along X, Y and Z in mm."""
        low, high = self.low, self.high
        return high.x - low.x, high.y - low.y, high.z - low.z

    def face(self, side: Side) -> float:
        """Coordinate, along the side's axis, of the face that looks that way."""
        return tuple(self.high if side.sign > 0 else self.low)[side.axis]

    def overlap(self, other: UnitBox) -> Vector:
        """How far the two boxes reach into each other along X, Y, Z; negative is a gap, mm."""
        pairs = zip(self.low, self.high, other.low, other.high, strict=True)
        spans = [min(a1, b1) - max(a0, b0) for a0, a1, b0, b1 in pairs]
        return spans[0], spans[1], spans[2]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where a board lies in the unit.

    Attributes:
        origin: Unit point of the board's origin.
        along: Unit direction of the board's x axis, its length.
        across: Unit direction of the board's y axis, its width.
    """

    origin: UnitPoint
    along: Side
    across: Side

    def __post_init__(self) -> None:
        self.along.cross(self.across)

    @property
    def up(self) -> Side:
        """Unit direction of the board's z axis: the way face A looks."""
        return self.along.cross(self.across)

    @property
    def directions(self) -> tuple[Side, Side, Side]:
        """Unit directions of the board's x, y and z axes."""
        return self.along, self.across, self.up

    def board_to_unit(self, point: BoardPoint) -> UnitPoint:
        """The unit point at which a point of the board lies."""
        parts = list(self.origin)
        for side, distance in zip(self.directions, point, strict=True):
            parts[side.axis] += float(side.sign) * distance
        return UnitPoint(parts[0], parts[1], parts[2])

    def unit_to_board(self, point: UnitPoint) -> BoardPoint:
        """The board point that lies at a unit point."""
        offset = [a - b for a, b in zip(point, self.origin, strict=True)]
        parts = [offset[side.axis] * side.sign for side in self.directions]
        return BoardPoint(parts[0], parts[1], parts[2])

    def board_axis(self, side: Side) -> tuple[int, int]:
        """Which board axis (0, 1, 2) runs along a unit direction, and with what sign."""
        for index, direction in enumerate(self.directions):
            if direction.axis == side.axis:
                return index, direction.sign * side.sign
        raise AssertionError("three directions at right angles cover every axis")
