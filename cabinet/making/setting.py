"""Settings as data: how a tool stands, what is cut at it, and what is touched to come there.

A setting is one stand of one tool: its cutter, its guide with its distance, its depth, its tilt.
What is cut at one stand is cut on all parts while it stands. Where a feature is told from and
what it is called do not matter; only the distance from the edge on the fence does.

A change is anything that has to be touched between one setting and the next of the same tool, a
tool being left as it is set while another one works. Putting in another cutter also sets its
depth and its fence anew. Lengths in mm, angles in degrees.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from cabinet.making.operation import Guide, Operation, Phase, Tool, Work
from cabinet.part import Part


class Change(Enum):
    """What is touched between two settings."""

    TOOL = "tool"
    CUTTER = "cutter"
    GUIDE = "fence or guide"
    DEPTH = "depth"
    ANGLE = "tilt"


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One pass of an operation on all parts that are made to one board.

    Attributes:
        item: Number of the board, as in the lists.
        item_name: What it is called there; of a strip its own name.
        parts: The parts, in the order of the unit.
        operation: The operation.
        number: Which of its passes this is, from 1.
        strip: Name of the strip that is worked on or that the boards came out of, "" if none.
        becomes: Of a strip, the names of the two parts that are ripped out of it.
    """

    item: int
    item_name: str
    parts: tuple[Part, ...]
    operation: Operation
    number: int = 1
    strip: str = ""
    becomes: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the unit's parts that it is for."""
        return self.becomes or tuple(part.name for part in self.parts)

    @property
    def pieces(self) -> int:
        """How many boards are cut."""
        return len(self.parts)

    @property
    def distance(self) -> float | None:
        """From the fence to the cutter in this pass, mm; None where nothing is measured."""
        passes = self.operation.passes
        return passes[self.number - 1] if passes else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """How a tool stands.

    Attributes:
        phase: When it is used so.
        tool: The tool.
        guide: What leads it.
        cutter: Diameter or thickness of its cutter, mm.
        position: Where the guide stands: for a fence its distance; for a hole jig its distance
            from the edge, the first hole's from the end, and the pitch; for a template the long
            and the short size and the corner radius of its opening; () for what goes by marks.
        depth: From the face, mm; None goes through.
        angle: Tilt of the saw, degrees.
    """

    phase: Phase
    tool: Tool
    guide: Guide
    cutter: float
    position: tuple[float, ...]
    depth: float | None
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A stand with all that is cut at it.

    Attributes:
        number: In the order of the work, from 1.
        stand: How the tool stands.
        tasks: What is cut, in the order of the boards.
        changes: What is touched to come here from this tool's setting before; the tool itself
            if another one was in hand.
    """

    number: int
    stand: Stand
    tasks: tuple[Task, ...]
    changes: tuple[Change, ...]

    @property
    def cuts(self) -> int:
        """How many cuts or holes are made at this setting."""
        return sum(t.pieces * max(1, len(t.operation.places)) for t in self.tasks)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUps:
    """All settings of a job in their order.

    Attributes:
        settings: In the order of the work.
        changes: How often each thing is changed, first settings of a tool not counted.
        bound: No order of these settings has fewer changes than this.
    """

    settings: tuple[Setting, ...]
    changes: tuple[tuple[Change, int], ...]
    bound: int

    @property
    def total(self) -> int:
        """All changes."""
        return sum(count for _, count in self.changes)

    @property
    def is_proven(self) -> bool:
        """Whether no order has fewer changes."""
        return self.total == self.bound


def stand(task: Task) -> Stand:
    """How the tool stands for a task."""
    one = task.operation
    position: tuple[float, ...] = ()
    if one.guide is Guide.FENCE:
        position = (task.distance or 0.0,)
    elif one.guide is Guide.JIG:
        pitch = one.places[1] - one.places[0]
        position = (one.passes[0], one.places[0], pitch)
    elif one.guide is Guide.TEMPLATE:
        short, long = sorted(one.size)
        position = (long, short, one.corner)
    depth = None if one.work is Work.TRIM else one.depth
    return Stand(
        phase=one.phase,
        tool=one.tool,
        guide=one.guide,
        cutter=round(one.cutter, 3),
        position=tuple(round(value, 3) for value in position),
        depth=None if depth is None else round(depth, 3),
        angle=one.angle if one.work is Work.BEVEL else 0.0,
    )


def changes_between(one: Stand, other: Stand) -> tuple[Change, ...]:
    """What is touched on a tool to bring it from one stand to another."""
    is_on_bearing = one.guide is Guide.BEARING, other.guide is Guide.BEARING
    if one.cutter != other.cutter or is_on_bearing[0] is not is_on_bearing[1]:
        found = [Change.CUTTER, Change.GUIDE, Change.DEPTH]
    else:
        found = []
        if (one.guide, one.position) != (other.guide, other.position):
            found.append(Change.GUIDE)
        if one.depth != other.depth:
            found.append(Change.DEPTH)
    if one.angle != other.angle:
        found.append(Change.ANGLE)
    return tuple(found)


__all__ = ["Change", "SetUps", "Setting", "Stand", "Task", "changes_between", "stand"]
