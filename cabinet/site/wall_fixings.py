"""Wall screws of a cleat: what one holds in a wall, where they go and how many are needed."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from cabinet.site.cleat_forces import CleatForces
from cabinet.site.cleat_model import Cleat
from cabinet.site.materials import elastic
from cabinet.site.pin_bearing import embedment_strength
from cabinet.site.ranges import Between
from cabinet.site.screw_yield import CORE_SHARE, Member, sideways_strength
from cabinet.site.screws import (
    CODE_THREAD,
    Grip,
    combined,
    design_force,
    head_pull_through,
    pull_strength,
)
from cabinet.site.service import STANDARD_GRAVITY, Duration, Kind, ServiceClass
from cabinet.site.walls import HollowWall, SolidMasonry, TimberStuds, Wall

# Of screws in a line across: 4 d from an edge; from the end of the cleat the code's 10 d
# (EN 1995-1-1 Table 8.6, from memory).
FROM_EDGE = 4.0
FROM_END = 10.0
# A screw counts as in a stud if it keeps this many diameters from the stud's side: the code's
# 4 d leave no room in a stud of 38 mm, so bore first (common practice, no source).
IN_STUD = 2.0
# Share of a hollow-wall anchor's rating that is taken, since a cleat stands off the wall.
HOLLOW_SHARE = 0.5
# What hangs there may weigh so much more or less, and the wall hold so much more or less than
# is told of it (common practice, no source).
WEIGHT_SPREAD = 0.1
WALL_SPREAD = 0.2
MOST_SCREWS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """What one wall screw holds.

    Attributes:
        pull: Outwards, N at design level.
        side: Downwards, N.
        governs: What fails first when it is pulled.
        safety: The safety factor as it is stated.
        power: 2 where pull and sideways load are combined as squares, by the timber code; 1
            where they are simply added, as for an anchor.
    """

    pull: float
    side: float
    governs: str
    safety: str
    power: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingPlan:
    """Where the wall screws are, and where they should be.

    Attributes:
        holding: X of the cleat's screws that hold.
        missing: X of those that miss what would hold them.
        places: X of each place where a screw would hold; a cleat has one line of them.
        is_found: Whether the places are known; otherwise only their number is.
        count: Places, known or not.
    """

    holding: tuple[float, ...]
    missing: tuple[float, ...]
    places: tuple[float, ...]
    is_found: bool
    count: int


_CODE_SAFETY = (
    "1.35 on own weight, 1.5 on contents, 1.3 on the fixing and k_mod for how long it lies"
)
_MAKER_SAFETY = "1.35 on own weight and 1.5 on contents on top of the anchor maker's working load"


def length_needed(cleat: Cleat, wall: Wall) -> float:
    """Least length of a wall screw, mm: through cleat and board or plaster, then its hold.

    The hold is 6 d in a stud, the range of the code's formula, and the anchor's depth in
    masonry; in a hollow wall it is the anchor maker's business and only the cleat counts.
    """
    through = cleat.wall_half.board.thickness
    if isinstance(wall, TimberStuds):
        return through + wall.board + CODE_THREAD * cleat.screw.diameter
    if isinstance(wall, SolidMasonry):
        return through + wall.plaster + wall.depth
    return through


def _thread_in_stud(cleat: Cleat, wall: TimberStuds) -> float:
    """Thread that a wall screw has in a stud, mm; its tip stays within the stud."""
    left = cleat.screw.length - cleat.wall_half.board.thickness - wall.board
    return min(left, wall.depth - 5.0)


def fixing(cleat: Cleat, wall: Wall, service: ServiceClass, duration: Duration) -> Fixing | None:
    """What one wall screw holds; None if it is too short for its wall.

    The head can pull through the cleat in any wall.
    """
    screw = cleat.screw
    if screw.length < length_needed(cleat, wall) - 1e-9:
        return None
    board = elastic(cleat.wall_half.board.stock, cleat.wall_half.board.layers)
    head = design_force(
        head_pull_through(screw.head_diameter, board.density_kg_m3), service, duration
    )
    if isinstance(wall, SolidMasonry):
        is_head = head < wall.anchor_pull
        return Fixing(
            pull=min(head, wall.anchor_pull),
            side=wall.anchor_shear,
            governs="its head pulls through the cleat" if is_head else "the anchor",
            safety=_MAKER_SAFETY,
            power=1,
        )
    if isinstance(wall, HollowWall):
        rating = HOLLOW_SHARE * wall.anchor_rating * STANDARD_GRAVITY
        return Fixing(
            pull=min(head, rating),
            side=rating,
            governs="the hollow-wall anchor",
            safety=f"{_MAKER_SAFETY}, of which half is taken",
            power=1,
        )
    thread = _thread_in_stud(cleat, wall)
    grip = Grip(kind=Kind.SOLID, density_kg_m3=wall.density_kg_m3, thread=thread)
    pull = pull_strength(
        screw.diameter, screw.head_diameter, board.density_kg_m3, grip, service, duration
    )
    width = CORE_SHARE * screw.core
    side = sideways_strength(
        Member(depth=cleat.wall_half.board.thickness, embedment=embedment_strength(width, board)),
        Member(
            depth=thread,
            embedment=0.082 * (1 - 0.01 * width) * wall.density_kg_m3,
        ),
        screw.core,
        gap=wall.board,
    )
    return Fixing(
        pull=pull.least,
        side=design_force(side, service, duration),
        governs=pull.governs,
        safety=_CODE_SAFETY,
        power=2,
    )


def plan(cleat: Cleat, wall: Wall) -> FixingPlan:
    """Where the screws of a cleat hold in a wall, and where they would."""
    own = tuple(sorted(item.at.x for item in cleat.screws))
    if not isinstance(wall, TimberStuds):
        return FixingPlan(holding=own, missing=(), places=own, is_found=True, count=len(own))
    diameter = cleat.screw.diameter
    box, end = cleat.wall_half.box, FROM_END * diameter
    low, high = box.low.x + end, box.high.x - end
    centres = wall.centres(low, high)
    tolerance = wall.width / 2 - IN_STUD * diameter
    anywhere = () if wall.first is None else wall.centres(box.low.x - 100, box.high.x + 100)
    holding = tuple(x for x in own if any(abs(x - c) <= tolerance + 1e-9 for c in anywhere))
    return FixingPlan(
        holding=holding,
        missing=tuple(x for x in own if x not in holding),
        places=centres,
        is_found=wall.first is not None,
        count=len(centres) if wall.first is not None else wall.certain(high - low),
    )


def used(forces: CleatForces, one: Fixing, count: int) -> float:
    """Use of each of ``count`` screws that share pull and weight; above 1 fails.

    Pull over n^0.9, weight over n, then (Fax/Rax)^2 + (Fv/Rv)^2 for screws in wood and
    Fax/Rax + Fv/Rv for anchors, without friction.

    Source: EN 1995-1-1, equations 8.28 and 8.41; for anchors common practice, no source.
    """
    if count < 1:
        return math.inf
    acting = float(count**0.9)
    pull, side = forces.pull.high / acting, forces.down / count
    if one.power == 1:
        return pull / one.pull + side / one.side
    return combined(pull, one.pull, side, one.side)


def used_range(forces: CleatForces, one: Fixing, count: int) -> Between:
    """Use of each screw as a range: what the wall holds and what hangs there are uncertain.

    The least with friction as high as it may be, a tenth less weight and a wall that holds more
    than its characteristic value by ``WALL_SPREAD``; the likely one with likely friction; the
    greatest without friction, a tenth more weight and a wall that holds so much less.

    Source: ``cleat_forces.FRICTION``; the spreads are common practice, no source.
    """
    found = []
    for pull, weight, wall in (
        (forces.pull.low, 1 - WEIGHT_SPREAD, 1 + WALL_SPREAD),
        (forces.pull.likely, 1.0, 1.0),
        (forces.pull.high, 1 + WEIGHT_SPREAD, 1 - WALL_SPREAD),
    ):
        acting = replace(forces, down=forces.down * weight, pull=Between(*(3 * (pull * weight,))))
        holding = replace(one, pull=one.pull * wall, side=one.side * wall)
        found.append(used(acting, holding, count))
    return Between(found[0], found[1], found[2])


def needed(forces: CleatForces, one: Fixing) -> int | None:
    """Least number of screws that hold; None if not even sixty do."""
    return next((n for n in range(2, MOST_SCREWS + 1) if used(forces, one, n) <= 1), None)
