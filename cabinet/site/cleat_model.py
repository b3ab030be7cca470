"""The hanging cleat of a unit as the strength checks need it, read from its parts and joints."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.features import Bevel
from cabinet.hardware import Hardware, Screw
from cabinet.joint import Screwed
from cabinet.part import Part

_AT_WALL = 0.01
# The foot must bear at least this far below the bevel to hold the unit plumb, mm.
_LEAST_LEVER = 50.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cleat:
    """A cleat in its unit; lengths in mm in the unit's frame.

    Attributes:
        unit_half: The half in the unit.
        wall_half: The half on the wall.
        rail: The rail that the unit half is fixed to, and how.
        joint: The screws between them.
        screws: The wall screws.
        screw: What screw they are.
        wall: Y of the wall's face.
        angle: Of the bevel from level, degrees.
        bevel_out: Of the middle of the bevel's contact from the wall.
        bevel_level: Z of that middle.
        engaged: Height of the contact.
        foot: Z of what bears on the wall below; None if nothing does.
    """

    unit_half: Part
    wall_half: Part
    rail: Part
    joint: Screwed
    screws: tuple[Hardware, ...]
    screw: Screw
    wall: float
    angle: float
    bevel_out: float
    bevel_level: float
    engaged: float
    foot: float | None

    @property
    def screw_level(self) -> float:
        """Z of the line of the wall screws."""
        return self.screws[0].at.z

    @property
    def full_height(self) -> float:
        """Height of the wall half that has its full thickness, mm."""
        return self.wall_half.box.size[2] - self.wall_half.board.thickness


def _foot(unit: Unit, wall: float, below: float) -> float | None:
    """Z of the lowest thing that bears on the wall; of a spacer its middle."""
    found = []
    for part in unit.parts:
        box = part.box
        if part.group == "wall" or box.high.y < wall - _AT_WALL:
            continue
        level = (box.low.z + box.high.z) / 2 if part.role == "spacer" else box.low.z
        if level <= below - _LEAST_LEVER:
            found.append(level)
    return min(found, default=None)


def cleat_of(unit: Unit) -> Cleat | None:
    """The unit's cleat; None if it has none.

    Raises:
        DesignError: a cleat without bevel, without wall screws or fixed to nothing.
    """
    by_role = {part.role: part for part in unit.parts}
    unit_half, wall_half = by_role.get("cleat, unit half"), by_role.get("cleat, wall half")
    if unit_half is None or wall_half is None:
        return None
    bevels = [f for f in unit_half.board.features if isinstance(f, Bevel)]
    screws = tuple(item for item in unit.hardware if "wall" in item.inside)
    bodies = [item.body for item in screws if isinstance(item.body, Screw)]
    joints = [j for j in unit.joints if isinstance(j, Screwed) and j.into == unit_half.name]
    if not bevels or not bodies or not joints:
        raise DesignError(
            f"{unit.name}: the cleat lacks its bevel, its wall screws or the screws to its rail, "
            "so it cannot be checked",
            part="cleat",
            value=(len(bevels), len(bodies), len(joints)),
            limit="bevel, wall screws, screws to the rail",
        )
    bevel, wall = bevels[0], wall_half.box.high.y
    thick = unit_half.board.thickness
    engaged = bevel.reach(thick)
    level = unit_half.box.low.z + engaged / 2
    return Cleat(
        unit_half=unit_half,
        wall_half=wall_half,
        rail=unit.by_name[joints[0].through],
        joint=joints[0],
        screws=screws,
        screw=bodies[0],
        wall=wall,
        angle=bevel.angle,
        bevel_out=(bevel.land + thick) / 2,
        bevel_level=level,
        engaged=engaged,
        foot=_foot(unit, wall, level),
    )
