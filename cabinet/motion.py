"""What moves, as data: straight moves of named parts over a range.

Checks, drawings and the assembly order read the same moves. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from cabinet.errors import DesignError
from cabinet.frame import Side
from cabinet.quantity import finite, named


class Motion(Enum):
    """Why something moves."""

    SLIDE = "slides"
    LIFT = "lifts"
    DROP = "drops on to its cleat"
    SHELF = "is set at another height"


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A straight move of some parts from where the design shows them.

    Attributes:
        name: What moves (``left door slides``).
        motion: Why.
        parts: Names of the parts and hardware that move together.
        side: Direction of the move in the unit.
        low: Least travel from the place shown, mm; at most 0.
        high: Greatest travel, mm; at least 0.
    """

    name: str
    motion: Motion
    parts: tuple[str, ...]
    side: Side
    low: float
    high: float

    def __post_init__(self) -> None:
        named("move", "name", self.name)
        finite(self.name, "low", self.low)
        finite(self.name, "high", self.high)
        if not self.low <= 0 <= self.high or self.low == self.high or not self.parts:
            raise DesignError(
                f"{self.name}: travel {self.low:g} to {self.high:g} mm of {len(self.parts)} parts; "
                "it must move at least one part and include the place shown",
                part=self.name,
                value=(self.low, self.high),
                limit=0.0,
            )
