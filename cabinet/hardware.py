"""Bought pieces with a body and a place: screws, pins, bars and biscuits.

They are not made, so they have no sheet, but they have solids, so that reach, clash and motion
are decided on them as on everything else. Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.features import Biscuit
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.quantity import named, positive, within


@dataclass(frozen=True, slots=True, kw_only=True)
class Rod:
    """A round bar or pin."""

    diameter: float
    length: float

    def __post_init__(self) -> None:
        positive("rod", "diameter", self.diameter)
        positive("rod", "length", self.length)


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """A countersunk wood screw.

    Attributes:
        diameter: Outer diameter of the thread.
        length: Length over all.
        head_diameter: Diameter of the countersunk head.
    """

    diameter: float
    length: float
    head_diameter: float

    def __post_init__(self) -> None:
        positive("screw", "diameter", self.diameter)
        within("screw", "head diameter", self.head_diameter, self.diameter, 4 * self.diameter)
        # A countersunk head of 90 degrees is as high as it stands out beside the core.
        within("screw", "length", self.length, (self.head_diameter - self.core) / 2, math.inf)

    @property
    def core(self) -> float:
        """Core diameter: 0.7 of the thread's (EN 1995-1-1 allows 0.6 to 0.75; from memory)."""
        return round(0.7 * self.diameter, 1)

    @property
    def clearance(self) -> float:
        """Hole in the board that is pulled tight: the thread passes (common practice)."""
        return self.diameter + 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class BiscuitPiece:
    """A biscuit; its length lies along ``along``, half of its width in each board."""

    biscuit: Biscuit
    along: Side


Body = Rod | Screw | BiscuitPiece


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """One bought piece in its place.

    Attributes:
        name: Its own name, used once in a unit.
        article: What is bought, as it stands in the list (``shelf pin 5 x 20``).
        body: Its shape.
        at: Where it begins (for a biscuit: its middle), in the unit.
        axis: Way it points: a screw's tip, a pin's inner end, a biscuit's width.
        inside: Names of the parts that it sits in or bears on.
    """

    name: str
    article: str
    body: Body
    at: UnitPoint
    axis: Side
    inside: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        named("hardware", "name", self.name)
        named(self.name, "article", self.article)

    @property
    def box(self) -> UnitBox:
        """The upright box around it, in the unit."""
        body = self.body
        if isinstance(body, BiscuitPiece):
            half = [body.biscuit.thickness / 2] * 3
            half[body.along.axis] = body.biscuit.length / 2
            half[self.axis.axis] = body.biscuit.width / 2
            low = [c - h for c, h in zip(self.at, half, strict=True)]
            high = [c + h for c, h in zip(self.at, half, strict=True)]
        else:
            wide = body.diameter if isinstance(body, Rod) else body.head_diameter
            ends = tuple(self.at), tuple(self.at.moved(self.axis, body.length))
            low = [min(a, b) - wide / 2 for a, b in zip(*ends, strict=True)]
            high = [max(a, b) + wide / 2 for a, b in zip(*ends, strict=True)]
            low[self.axis.axis], high[self.axis.axis] = sorted(e[self.axis.axis] for e in ends)
        return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))
