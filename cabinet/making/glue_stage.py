"""The gluing plan as data: stages in the order of the work. Areas in mm2, minutes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from cabinet.making.clamping import ClampRow, Sharing
from cabinet.making.glue import Glue
from cabinet.making.glue_lines import GlueLine
from cabinet.quantity import Range, positive


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How fast one person works (common practice, no source).

    Attributes:
        spread: Area of one face spread with glue in a second, mm2.
        joint: Seconds to bring a joint together and look at it.
        biscuit: Seconds for each biscuit.
        clamp: Seconds for each clamp.
        screw: Seconds for each screw.
    """

    spread: float = 3000.0
    joint: float = 15.0
    biscuit: float = 6.0
    clamp: float = 20.0
    screw: float = 10.0

    def __post_init__(self) -> None:
        for name in ("spread", "joint", "biscuit", "clamp", "screw"):
            positive("pace", name, getattr(self, name), unit="")


class Kind(Enum):
    """What a stage of gluing is."""

    DOUBLING = "doubling"
    GLUE_UP = "glue-up"
    APPLIED = "glued on"
    COVERING = "covering"


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueStage:
    """One go of gluing, or several alike ones.

    Attributes:
        number: In the order of the work, from 1.
        kind: What it is.
        title: What is glued.
        sets: For each of the alike goes the names of its parts.
        glue: With what.
        lines: The glued joints of one go; none for doubling.
        area: Glued area of one go, mm2.
        minutes: From the first spread to the last clamp, one go.
        open_minutes: The longest that spread glue lies open before its joint is closed.
        rows: Rows of clamps of one go.
        sharing: Clamps from the workshop for one go.
        screws: Screws that pull joints together in one go.
        steps: Numbers of the assembly's steps, of the first of alike goes.
        part: Which part of its group this is and how many there are, if it takes several goes.
        notes: What else to know, each a sentence.
    """

    number: int
    kind: Kind
    title: str
    sets: tuple[tuple[str, ...], ...]
    glue: Glue
    lines: tuple[GlueLine, ...]
    area: float
    minutes: float
    open_minutes: float
    rows: tuple[ClampRow, ...]
    sharing: Sharing
    screws: int
    steps: tuple[int, ...]
    notes: tuple[str, ...]
    part: tuple[int, int] = (1, 1)

    @property
    def times(self) -> int:
        """How many alike goes there are."""
        return len(self.sets)

    @property
    def grams(self) -> Range:
        """Glue for all alike goes together, least and most, g."""
        low, high = self.glue.grams(self.area * self.times)
        return low, high

    @property
    def force(self) -> Range | None:
        """What the glue maker's pressure over the whole face comes to, kN; None for joints."""
        if self.kind not in (Kind.DOUBLING, Kind.COVERING):
            return None
        low, high = self.glue.pressure
        return self.area * low / 1000, self.area * high / 1000

    @property
    def clamps(self) -> int:
        """Clamps of one go."""
        return sum(row.count for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class GluingPlan:
    """All stages of gluing.

    Attributes:
        stages: In the order of the work.
        pace: How fast it is thought to go.
    """

    stages: tuple[GlueStage, ...]
    pace: Pace

    def grams(self, glue: Glue) -> Range:
        """What is used of one glue in all, g."""
        them = [stage.grams for stage in self.stages if stage.glue == glue]
        return sum(low for low, _ in them), sum(high for _, high in them)

    @property
    def glues(self) -> tuple[Glue, ...]:
        """The glues that are used."""
        return tuple(dict.fromkeys(stage.glue for stage in self.stages))
