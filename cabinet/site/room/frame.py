"""The wall's frame: x along the wall from its left end, z above the finished floor.

As seen from within the room; lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.quantity import finite, positive

# Places nearer than this are one, so what lies at an edge is not beyond it, whatever rounding
# does, mm.
SAME = 1e-6


@dataclass(frozen=True, slots=True)
class WallPoint:
    """A place on a wall, mm: ``x`` from its left end, ``z`` above the finished floor."""

    x: float
    z: float

    def __post_init__(self) -> None:
        finite("wall point", "x", self.x)
        finite("wall point", "z", self.z)

    def moved(self, dx: float, dz: float) -> WallPoint:
        """This point moved by (dx, dz) mm."""
        return WallPoint(self.x + dx, self.z + dz)


@dataclass(frozen=True, slots=True, kw_only=True)
class WallBox:
    """An upright rectangle on a wall, mm; ``low`` and ``high`` are opposite corners."""

    low: WallPoint
    high: WallPoint

    def __post_init__(self) -> None:
        positive("box on the wall", "width", self.high.x - self.low.x)
        positive("box on the wall", "height", self.high.z - self.low.z)

    @property
    def width(self) -> float:
        """Size along the wall, mm."""
        return self.high.x - self.low.x

    @property
    def height(self) -> float:
        """Size upwards, mm."""
        return self.high.z - self.low.z

    @property
    def centre(self) -> WallPoint:
        """Its middle."""
        return WallPoint((self.low.x + self.high.x) / 2, (self.low.z + self.high.z) / 2)

    def overlap(self, other: WallBox) -> tuple[float, float]:
        """How far the two reach into each other along x and z; negative is a gap, mm."""
        return (
            min(self.high.x, other.high.x) - max(self.low.x, other.low.x),
            min(self.high.z, other.high.z) - max(self.low.z, other.low.z),
        )

    def covers(self, other: WallBox) -> bool:
        """Whether the two share more than an edge."""
        across, up = self.overlap(other)
        return across > SAME and up > SAME

    def grown(
        self, *, left: float = 0.0, right: float = 0.0, down: float = 0.0, up: float = 0.0
    ) -> WallBox:
        """This box with so much added on each side, mm."""
        return WallBox(low=self.low.moved(-left, -down), high=self.high.moved(right, up))

    def moved(self, dx: float, dz: float) -> WallBox:
        """This box moved by (dx, dz) mm."""
        return WallBox(low=self.low.moved(dx, dz), high=self.high.moved(dx, dz))


def wall_box(left: float, bottom: float, width: float, height: float) -> WallBox:
    """A box from its lower left corner and its sizes, mm."""
    low = WallPoint(left, bottom)
    return WallBox(low=low, high=low.moved(width, height))
