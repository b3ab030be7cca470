"""Room that things need to move: a sash beside a unit, and the unit over its cleat."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.motion import Motion
from cabinet.site.room.frame import WallBox, WallPoint
from cabinet.site.room.setting import Setting
from cabinet.site.room.things import Pipe, Sash, Socket, Switch, Window

# Fingers between an open sash and a unit (common practice, no source).
FREE = 10.0


def sash_room(window: Window, depth: float) -> WallBox | None:
    """What a sash needs of the wall beside its window so that a unit is clear of it.

    A sash that opens to 90 degrees stays before its own frame. Beyond, it leans over the wall
    on its hinged side: a unit standing ``depth`` out is clear of it at depth x tan(opens - 90),
    and never farther off than the sash reaches.

    Args:
        window: The window.
        depth: How far the unit stands out from the wall, mm.

    Returns:
        Frame and that room in one box; None if the sash needs none.
    """
    if window.sash in {Sash.FIXED, Sash.SLIDES}:
        return None
    beside = FREE
    if window.sash is not Sash.TILTS and window.opens > 90:
        lean = math.radians(window.opens - 90)
        # The sash's edge swings over wall it does not reach at full depth.
        reach = window.width * math.sin(lean)
        beside += min(depth * math.tan(lean), reach) if window.opens < 180 else window.width
    is_left = window.sash in {Sash.HINGED_LEFT, Sash.TILTS}
    is_right = window.sash in {Sash.HINGED_RIGHT, Sash.TILTS}
    return window.frame.grown(left=beside if is_left else 0.0, right=beside if is_right else 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftRoom:
    """Room above a unit for lifting it over its cleat.

    Attributes:
        needed: How far it is raised, mm.
        free: How far it can rise, mm.
        under: What stands above it.
        above: The room that must be free.
    """

    needed: float
    free: float
    under: str
    above: WallBox


def lift_room(unit: Unit, setting: Setting) -> LiftRoom | None:
    """The room above a unit; None if it does not drop on to a cleat."""
    rises = [move.high for move in unit.moves if move.motion is Motion.DROP]
    if not rises:
        return None
    needed, outline = max(rises), setting.outline(unit)
    free, under = setting.room.height - outline.high.z, "the ceiling"
    for thing in setting.room.things:
        box = thing.box
        is_in_wall = isinstance(thing, Socket | Switch) or (
            isinstance(thing, Pipe) and not thing.stands_out
        )
        across, _ = outline.overlap(box)
        if not is_in_wall and across > 0 and box.low.z >= outline.high.z - 1e-6:
            gap = box.low.z - outline.high.z
            if gap < free:
                free, under = gap, thing.name
    high = WallPoint(outline.high.x, outline.high.z + needed)
    above = WallBox(low=WallPoint(outline.low.x, outline.high.z), high=high)
    return LiftRoom(needed=needed, free=free, under=under, above=above)
