"""The order in which a unit comes together, as data: found by a check, read by all that follows.

Gluing, the driver's reach and the job book read this order; nobody works it out again.
Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from cabinet.frame import Side


class Stage(Enum):
    """When a step is done.

    Frames are glued; what is glued or screwed flat on to them when they are dry and trimmed
    comes after gluing; what moves in use or lies loose, after finishing.
    """

    GLUED = "glued"
    AFTER_GLUING = "after gluing"
    AFTER_FINISHING = "after finishing"
    ON_SITE = "on the wall"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One straight move that brings some bodies to their place beside what already stands.

    Attributes:
        number: Counted from 1, in the order of the work.
        bodies: Names of the parts and hardware that move together; what was put together in
            earlier steps is named again when it is added as one.
        onto: Names of the parts that stand already and that these touch or are joined to;
            empty for a step that begins a group.
        side: Way they move, in the unit; None for what begins a group.
        travel: Length of the move after which they are clear of everything, mm.
        stage: When it is done.
        joints: Indices into the unit's joints that this step closes.
        group: Number of the gluing group; what is glued in one go has one number. 0 for none.
    """

    number: int
    bodies: tuple[str, ...]
    onto: tuple[str, ...]
    side: Side | None
    travel: float
    stage: Stage
    joints: tuple[int, ...] = ()
    group: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """How a unit comes together.

    Attributes:
        steps: In the order of the work.
        locked: Names of bodies that cannot come apart from each other by straight moves; empty
            if everything can be put together.
    """

    steps: tuple[Step, ...]
    locked: tuple[str, ...] = ()
