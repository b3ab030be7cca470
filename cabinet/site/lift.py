"""How a unit is lifted, as data, with the guidance's zones and filter values. kg and mm."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from cabinet.quantity import kind_of, member, whole, within


class Zone(Enum):
    """Where the hands are, with the filter values close to the body in kg, men and women.

    Source: HSE L23, figure 20 / INDG143, as printed on a reference page (the women's value at
        the lower leg is cut off there; 7 is from memory).
    """

    HEAD = ("head height", 10.0, 7.0)
    SHOULDER = ("shoulder height", 20.0, 13.0)
    ELBOW = ("elbow height", 25.0, 16.0)
    KNUCKLE = ("knuckle height", 20.0, 13.0)
    LOWER_LEG = ("mid lower leg height", 10.0, 7.0)

    @property
    def title(self) -> str:
        """What it is called."""
        return self.value[0]

    def filter_value(self, who: Lifter) -> float:
        """What one person lifts there, kg."""
        return self.value[1] if who is Lifter.MAN else self.value[2]


class Lifter(Enum):
    """Whose filter value is taken."""

    MAN = "man"
    WOMAN = "woman"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """How a unit is lifted.

    Attributes:
        to: Where its underside hangs or stands, above the floor, mm.
        start: Where the hands take it up, above the floor, mm: a trestle's height.
        who: Whose filter values are taken.
        people: How many lift together.
        has_table: Whether a lifting table or a prop under the unit takes its weight to the
            height where it hangs, so that hands only steer it.
    """

    to: float
    start: float = 750.0
    who: Lifter = Lifter.MAN
    people: int = 1
    has_table: bool = False

    def __post_init__(self) -> None:
        within("lift", "height of the underside", self.to, 0.0, 2600.0)
        within("lift", "height at the start", self.start, 0.0, 2000.0)
        kind_of("lift", "has_table", self.has_table, bool, right="True or False")
        member("lift", "lifter", self.who, Lifter)
        whole("lift", "people", self.people, 1, 4)
