"""Biscuits and the slots of their joiner. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from cabinet.board import At, BoardBox, BoardSize, Surface, require_across
from cabinet.features.base import boxed, check_floor, into
from cabinet.quantity import named, within

# Blade of a biscuit joiner, mm (tool maker's glossary: diameter 100, kerf 3.96 to 4.06).
BISCUIT_BLADE_RADIUS = 50.0


class Biscuit(Enum):
    """Sizes of biscuit: its number, then length, width and thickness in mm.

    Numbers 10 and 20 after a tool maker's glossary, 0 from memory.
    """

    NO_0 = ("0", 47.0, 15.0, 4.0)
    NO_10 = ("10", 53.0, 19.0, 4.0)
    NO_20 = ("20", 56.0, 23.0, 4.0)

    @property
    def number(self) -> str:
        """The number by which it is sold."""
        return self.value[0]

    @property
    def length(self) -> float:
        """Length in mm."""
        return self.value[1]

    @property
    def width(self) -> float:
        """Width in mm, half of which goes into each board."""
        return self.value[2]

    @property
    def thickness(self) -> float:
        """Thickness in mm before the glue swells it; also the kerf of the slot."""
        return self.value[3]

    @property
    def face(self) -> float:
        """Area of one of its faces, mm2: a lens is about two thirds of the rectangle around it."""
        return self.length * self.width * 2 / 3

    @property
    def slot_depth(self) -> float:
        """Depth of the slot: half the width and half a millimetre for glue."""
        return self.width / 2 + 0.5

    @property
    def slot_length(self) -> float:
        """Length of the slot at the surface, mm, from the blade's radius and the depth."""
        rest = BISCUIT_BLADE_RADIUS - self.slot_depth
        return 2 * math.sqrt(BISCUIT_BLADE_RADIUS**2 - rest**2)


@dataclass(frozen=True, slots=True, kw_only=True)
class BiscuitSlot:
    """A slot plunged with a biscuit joiner: a segment of its round blade.

    Attributes:
        name: Which board it joins to.
        surface: Surface it is plunged into.
        centre: Middle of the slot along ``run``, told from an edge.
        height: Middle of the slot's thickness, told from the surface on which the joiner's
            fence rests.
        biscuit: Size of biscuit.
    """

    name: str
    surface: Surface
    centre: At
    height: At
    biscuit: Biscuit

    def __post_init__(self) -> None:
        named("biscuit slot", "name", self.name)
        require_across(self.name, self.surface, self.centre, self.height)

    @property
    def chord(self) -> float:
        """Length of the slot at the surface, mm."""
        return self.biscuit.slot_length

    def box(self, size: BoardSize) -> BoardBox:
        """The box around it, mm in the board's frame."""
        along, up = self.centre.coordinate(size), self.height.coordinate(size)
        half = self.biscuit.thickness / 2
        return boxed(
            {
                self.centre.axis: (along - self.chord / 2, along + self.chord / 2),
                self.height.axis: (up - half, up + half),
                self.surface.axis: into(self.surface, self.biscuit.slot_depth, size),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the slot if it does not lie within the board (``SizeError``)."""
        where = f"{owner}, {self.name}"
        check_floor(where, self.surface, self.biscuit.slot_depth, size)
        halves = ((self.centre, self.chord / 2), (self.height, self.biscuit.thickness / 2))
        for at, half in halves:
            within(
                where,
                f"middle from {at.datum.value}",
                at.distance,
                half,
                size.along[at.axis] - half,
                why="the slot must lie within the board",
            )
