"""Holes all over a sheet, as it is bought. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from cabinet.board import BoardBox, BoardSize
from cabinet.quantity import named, positive, within


class Pattern(Enum):
    """How the holes of a perforated sheet are set out (ISO 7806: T staggered, U square)."""

    STAGGERED = "staggered at 60 degrees"
    SQUARE = "square"

    @property
    def density(self) -> float:
        """Open area as a share of (diameter / pitch) squared: pi / (2 sqrt 3) or pi / 4."""
        return math.pi / (2 * math.sqrt(3)) if self is Pattern.STAGGERED else math.pi / 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Perforation:
    """Holes all over a sheet. The solid stays plain; the pattern is data.

    Where the holes lie on a panel follows from its size: ``cabinet.set_out``.

    Attributes:
        name: What it is called on the sheet.
        diameter: Diameter of the holes.
        pitch: Centre to centre.
        pattern: How they are set out.
    """

    name: str
    diameter: float
    pitch: float
    pattern: Pattern

    def __post_init__(self) -> None:
        named("perforation", "name", self.name)
        positive(self.name, "diameter", self.diameter)
        within(self.name, "pitch", self.pitch, self.diameter * 1.05, math.inf)

    @property
    def open_share(self) -> float:
        """Open area of an endless sheet, 0 to 1.

        Source: perforated-sheet makers' formula, 90.7 w2/t2 % staggered and 78.5 w2/t2 %
        square, here with its exact factors.
        """
        return self.pattern.density * (self.diameter / self.pitch) ** 2

    @property
    def designation(self) -> str:
        """Short form after ISO 7806: round hole, pattern, pitch (``R5T8``)."""
        letter = "T" if self.pattern is Pattern.STAGGERED else "U"
        return f"R{self.diameter:g}{letter}{self.pitch:g}"

    def box(self, size: BoardSize) -> BoardBox:
        """The box around the field, mm in the board's frame: the whole sheet."""
        return BoardBox(low=(0.0, 0.0, 0.0), high=size.along)

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse holes that are wider than the sheet (``SizeError``)."""
        most = min(size.length, size.width)
        within(f"{owner}, {self.name}", "diameter", self.diameter, 0.0, most, why="one must fit")
