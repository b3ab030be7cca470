"""Edges sawn at an angle. Lengths in mm, angles in degrees."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.board import AXIS_NAMES, BoardBox, BoardSize, Surface
from cabinet.errors import SizeError
from cabinet.features.base import LEAST_FLOOR, boxed, into
from cabinet.quantity import named, within


@dataclass(frozen=True, slots=True, kw_only=True)
class Bevel:
    """An edge or end sawn at an angle through the whole thickness.

    Attributes:
        name: What it is for.
        edge: The edge or end that is bevelled.
        sharp: The face that keeps its full size; the sharp arris lies on it.
        angle: Tilt of the saw from square, degrees.
        land: What is left square beside the sharp face, mm of thickness; 0 leaves it sharp.
    """

    name: str
    edge: Surface
    sharp: Surface
    angle: float = 45.0
    land: float = 0.0

    def __post_init__(self) -> None:
        named("bevel", "name", self.name)
        within(self.name, "angle", self.angle, 1.0, 60.0, unit="degrees")
        within(self.name, "land", self.land, 0.0, math.inf)
        if self.edge.is_face or not self.sharp.is_face:
            raise SizeError(
                f"{self.name}: a bevel runs along an edge and is sharp at a face, not along "
                f"{self.edge.value} and at {self.sharp.value}",
                part=self.name,
                value=(self.edge.value, self.sharp.value),
                limit="an edge and a face",
            )

    def reach(self, thickness: float) -> float:
        """How far it reaches into the board on the face that is cut back, mm."""
        return (thickness - self.land) * math.tan(math.radians(self.angle))

    def box(self, size: BoardSize) -> BoardBox:
        """The box around the wedge that it takes away, mm in the board's frame."""
        run = 3 - self.edge.axis - self.sharp.axis
        depth = size.thickness - self.land
        return boxed(
            {
                self.edge.axis: into(self.edge, self.reach(size.thickness), size),
                2: into(self.sharp.opposite, depth, size),
                run: (0.0, size.along[run]),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the bevel if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        within(where, "land", self.land, 0.0, size.thickness - LEAST_FLOOR)
        extent = size.along[self.edge.axis]
        within(
            where,
            f"reach from {self.edge.value}",
            self.reach(size.thickness),
            0.0,
            extent - LEAST_FLOOR,
            why=f"the board's {AXIS_NAMES[self.edge.axis]}",
        )
