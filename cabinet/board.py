"""A board's six surfaces, its sizes, and how a place on it is told.

Nothing on a board is told by a bare coordinate. A place is a distance from a named surface,
the one that lies against the fence or the stop, so what is drawn, what is set on the machine
and what is cut all start from the same edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from cabinet.errors import SizeError
from cabinet.quantity import finite, positive, within

AXIS_NAMES = ("length", "width", "thickness")


class Surface(Enum):
    """One of the six surfaces of a board, in the board's frame."""

    START = "start end"
    END = "far end"
    LOW = "near edge"
    HIGH = "far edge"
    B = "face B"
    A = "face A"

    # Members are single, so they are told apart by identity: far faster than by name.
    __hash__ = object.__hash__

    @property
    def axis(self) -> int:
        """Index of the board axis at right angles to it: 0 length, 1 width, 2 thickness."""
        return _SURFACES[self][0]

    @property
    def sign(self) -> int:
        """+1 if it looks along that axis, -1 if against it."""
        return _SURFACES[self][1]

    @property
    def opposite(self) -> Surface:
        """The surface across the board."""
        return surface_at(self.axis, -self.sign)

    @property
    def is_face(self) -> bool:
        """Whether it is one of the two large faces."""
        return self.axis == 2


_SURFACES: dict[Surface, tuple[int, int]] = {
    Surface.START: (0, -1),
    Surface.END: (0, 1),
    Surface.LOW: (1, -1),
    Surface.HIGH: (1, 1),
    Surface.B: (2, -1),
    Surface.A: (2, 1),
}
_AT = {key: surface for surface, key in _SURFACES.items()}


def surface_at(axis: int, sign: int) -> Surface:
    """The surface at right angles to board axis 0, 1 or 2 that looks the way of ``sign``."""
    return _AT[axis, 1 if sign > 0 else -1]


@dataclass(frozen=True, slots=True)
class BoardSize:
    """Length, width and thickness of a board, mm."""

    length: float
    width: float
    thickness: float

    def __post_init__(self) -> None:
        for name, value in zip(AXIS_NAMES, self.along, strict=True):
            positive("board", name, value)

    @property
    def along(self) -> tuple[float, float, float]:
        """The three sizes by board axis, mm."""
        return self.length, self.width, self.thickness


@dataclass(frozen=True, slots=True)
class At:
    """A place on one axis of a board: ``distance`` mm into it from the surface ``datum``."""

    datum: Surface
    distance: float

    def __post_init__(self) -> None:
        finite("place on a board", "distance", self.distance)

    @property
    def axis(self) -> int:
        """The board axis on which the place lies."""
        return self.datum.axis

    def coordinate(self, size: BoardSize) -> float:
        """Board coordinate of the place, mm from the axis's zero end."""
        axis, sign = _SURFACES[self.datum]
        return self.distance if sign < 0 else size.along[axis] - self.distance

    def beyond(self, more: float) -> At:
        """The place ``more`` mm further from the same datum."""
        return At(self.datum, self.distance + more)


def place(datum: Surface, coordinate: float, size: BoardSize) -> At:
    """The place at a board coordinate, told from ``datum``.

    Distances are rounded to a millionth of a millimetre, so that boards placed in different
    corners of the unit still come out as equal parts.
    """
    extent = size.along[datum.axis]
    distance = coordinate if datum.sign < 0 else extent - coordinate
    return At(datum, round(distance, 6) + 0.0)


@dataclass(frozen=True, slots=True)
class BoardBox:
    """An upright box in a board's frame, mm: low and high along length, width, thickness."""

    low: tuple[float, float, float]
    high: tuple[float, float, float]

    @property
    def size(self) -> tuple[float, float, float]:
        """Sizes along the board's axes, mm."""
        spans = [b - a for a, b in zip(self.low, self.high, strict=True)]
        return spans[0], spans[1], spans[2]

    def gap(self, other: BoardBox) -> float:
        """Distance between the two boxes, mm; 0 if they touch or overlap."""
        pairs = zip(self.low, self.high, other.low, other.high, strict=True)
        gaps = [max(a0 - b1, b0 - a1, 0.0) for a0, a1, b0, b1 in pairs]
        return math.hypot(*gaps)


def require_across(owner: str, surface: Surface, *places: At) -> None:
    """Check that places lie on distinct axes, none of them the one into ``surface``.

    Raises:
        SizeError: two places on one axis, or one measured from the surface worked on.
    """
    axes = [at.axis for at in places]
    if surface.axis in axes or len(set(axes)) != len(axes):
        told = ", ".join(at.datum.value for at in places)
        raise SizeError(
            f"{owner}: places on {surface.value} are told from {told}; each must be told from "
            f"a different edge beside {surface.value}",
            part=owner,
            value=told,
            limit=f"edges beside {surface.value}",
        )


def require_inside(owner: str, name: str, at: At, size: BoardSize) -> None:
    """Check that a place lies on the board.

    Raises:
        SizeError: it lies outside.
    """
    within(
        owner,
        f"{name} from {at.datum.value}",
        at.distance,
        0.0,
        size.along[at.axis],
        why=f"the board's {AXIS_NAMES[at.axis]}",
    )
