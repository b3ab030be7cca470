"""The lock of a hung unit: screws that keep a knock from below from lifting it off its cleat.

They go through the rail into the wall half, from within the unit, once it hangs.

Source: EN 16122:2012, 10.1.4, tests wall units by an upward push at the front edge and stops at
    a travel of 10 mm (read in a preview; the force was not to be seen there).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.hardware import Screw
from cabinet.site.cleat_model import Cleat

# What the lock is screwed with (common practice, no source).
DIAMETER = 4.0
HEAD = 8.0
LENGTHS = (50.0, 45.0, 40.0, 35.0, 30.0, 25.0)
# The screw keeps this from the rail's lower edge: 4 d (EN 1995-1-1 Table 8.6, from memory).
FROM_EDGE = 4 * DIAMETER
# It holds with 3 d at least, and this is left before the bevel.
LEAST_HOLD = 3 * DIAMETER
BEFORE_BEVEL = 3.0
# From the ends of the rail, clear of biscuits and uprights.
FROM_END = 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lock:
    """Two screws from a rail into the wall half.

    Attributes:
        rail: Name of the rail.
        screw: What screw they are.
        places: X of each in the unit, mm.
        level: Z of both in the unit.
        hold: What each has in the wall half, mm.
    """

    rail: str
    screw: Screw
    places: tuple[float, float]
    level: float
    hold: float


def lock_of(cleat: Cleat) -> Lock | None:
    """The lock of a cleat; None if its rail does not reach down before the wall half enough.

    The wall half is deepest at its front far below the bevel, so the screws go as low in the
    rail as its edge allows.
    """
    rail, wall_half = cleat.rail, cleat.wall_half.box
    level = rail.box.low.z + FROM_EDGE
    # Behind the rail's back the wall half begins, and ends at the bevel or at the wall.
    to_bevel = (wall_half.high.z - level) / math.tan(math.radians(cleat.angle))
    room = min(to_bevel, cleat.wall_half.board.thickness) - BEFORE_BEVEL
    is_behind = abs(rail.box.high.y - wall_half.low.y) < 0.5 and level > wall_half.low.z
    if not is_behind or room < LEAST_HOLD:
        return None
    most = rail.board.thickness + room
    length = next((each for each in LENGTHS if each <= most + 1e-9), None)
    if length is None or length - rail.board.thickness < LEAST_HOLD:
        return None
    low = max(rail.box.low.x, wall_half.low.x) + FROM_END
    high = min(rail.box.high.x, wall_half.high.x) - FROM_END
    if high - low < FROM_END:
        return None
    return Lock(
        rail=rail.name,
        screw=Screw(diameter=DIAMETER, length=length, head_diameter=HEAD),
        places=(float(round(low)), float(round(high))),
        level=round(level, 1),
        hold=length - rail.board.thickness,
    )


def lock_lacks(cleat: Cleat) -> float:
    """How much lower the rail's lower edge must lie for lock screws to hold, mm; 0 if it does."""
    rise = (LEAST_HOLD + BEFORE_BEVEL) * math.tan(math.radians(cleat.angle))
    wanted = cleat.wall_half.box.high.z - rise - FROM_EDGE
    return max(cleat.rail.box.low.z - wanted, 0.0)
