"""A unit on its cleat under a use: wall screws, both halves in bending, cleat to rail, lift-off.

Figures are checks with stated assumptions. Furniture standards leave out the wall and what is
fixed in it, so wall and fixings are for the person who knows them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.frame import Side
from cabinet.site.beam import Beam, LineLoad, Support, solve
from cabinet.site.board_beam import BoardBeam
from cabinet.site.carcass_joint import GLUE_SHEAR, carcass_joint, joint_share
from cabinet.site.carriers import Carrier
from cabinet.site.cleat_forces import CleatForces, Hung, forces
from cabinet.site.cleat_model import Cleat, cleat_of
from cabinet.site.loaded import design_weight, loaded_mass
from cabinet.site.materials import elastic
from cabinet.site.pin_bearing import embedment_strength
from cabinet.site.ranges import Between
from cabinet.site.screw_yield import CORE_SHARE, Member, sideways_strength
from cabinet.site.screws import Grip, combined, design_force, pull_strength
from cabinet.site.service import (
    GAMMA_CONNECTION,
    STANDARD_GRAVITY,
    Kind,
    design_strength,
    kmod,
)
from cabinet.site.uses import UseCase
from cabinet.site.wall_fixings import Fixing, FixingPlan, fixing, needed, plan, used, used_range
from cabinet.site.walls import TimberStuds, Wall
from cabinet.site.weight import unit_mass

EXCLUDED = (
    "EN 14749, EN 16121 and EN 16122 leave out the wall and what is fixed in it: check wall and "
    "fixings separately, find cables and pipes first, follow local codes and ask a licensed "
    "person where in doubt"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HangingCheck:
    """A hung unit under one use.

    Attributes:
        use: Of the use.
        mass: Unit and contents, kg.
        forces: On cleat and foot under the design weight.
        fixing: What one wall screw holds; None if it is too short for its wall.
        plan: Where the wall screws go.
        screws_used: Use of each screw that holds now; above 1 fails, infinite without any.
        needed: Least number of screws; None if no number will do.
        wall_half_share: Bending of the wall half along, over its strength; None with fewer than
            two screws that hold.
        wall_half_across: The same across its grain above the screws.
        unit_half_share: Bending of the unit half where it hangs below its rail.
        rail_screws: Use of each screw from rail to unit half, without glue.
        rail_glue: Use of the glued face; infinite without glue.
        carcass_share: Use of what ties sides and dividers to the rail and the top.
        screws_range: Use of each screw with friction and light wood or none: least, likely,
            greatest; None if no screw holds.
        lift: Upward push at the front edge that turns the empty unit off its cleat, N.
        engaged: How far the unit must rise to come off, mm.
        edge: Least distance of a wall screw's line from an edge of its full thickness, mm.
    """

    use: str
    mass: float
    forces: CleatForces
    fixing: Fixing | None
    plan: FixingPlan
    screws_used: float
    needed: int | None
    wall_half_share: float | None
    wall_half_across: float
    unit_half_share: float
    rail_screws: float
    rail_glue: float
    carcass_share: float
    screws_range: Between | None
    lift: float
    engaged: float
    edge: float


def _along(cleat: Cleat, on: CleatForces, places: tuple[float, ...], use: UseCase) -> float | None:
    """Bending of the wall half from screw to screw, outwards and downwards together."""
    if len(set(places)) < 2:
        return None
    share = 0.0
    for load, total in ((Side.FRONT, on.out.high), (Side.BOTTOM, on.down)):
        board = BoardBeam(parts=(cleat.wall_half,), load=load)
        beam = Beam(
            stretches=board.spans(),
            supports=tuple(Support(x - board.left) for x in sorted(set(places))),
            lines=(LineLoad(0.0, board.length, total / board.length),),
        )
        stress, strength, _ = board.stress(solve(beam), use.service, use.duration)
        share += stress / strength
    return share


def _somewhere(cleat: Cleat, wall: Wall, count: int) -> tuple[float, ...]:
    """Where studs that nobody has found yet may lie behind the cleat: round its middle."""
    if not isinstance(wall, TimberStuds):
        return ()
    box = cleat.wall_half.box
    middle = (box.low.x + box.high.x) / 2
    return tuple(middle + (i - (count - 1) / 2) * wall.spacing for i in range(count))


def _across_strength(cleat: Cleat, use: UseCase, *, is_wall_half: bool) -> float:
    part = cleat.wall_half if is_wall_half else cleat.unit_half
    known = elastic(part.board.stock, part.board.layers)
    return design_strength(known.strength_across, known.kind, use.service, use.duration)


def _above_screws(cleat: Cleat, on: CleatForces, count: int, use: UseCase) -> float:
    """Bending of the wall half across its grain at the line of the screws.

    The strip that works with a screw spreads at 45 degrees from its head up to the bevel.
    """
    if count < 1:
        return math.inf
    thick = cleat.wall_half.board.thickness
    rise = max(cleat.bevel_level - cleat.screw_level, 0.0)
    lever = abs(cleat.bevel_out - thick / 2)
    moment = (on.out.high * rise + on.down * lever) / count
    pitch = cleat.wall_half.box.size[0] / count
    width = min(pitch, cleat.screw.head_diameter + 2 * rise)
    stress = moment / (width * thick**2 / 6)
    return stress / _across_strength(cleat, use, is_wall_half=True)


def _below_rail(cleat: Cleat, on: CleatForces, use: UseCase) -> float:
    """Bending of the unit half across its grain below the lower edge of its rail."""
    hangs = max(cleat.rail.box.low.z - cleat.unit_half.box.low.z, 0.0)
    thick = cleat.unit_half.board.thickness
    per_mm = on.out.high / cleat.unit_half.box.size[0] * hangs
    return per_mm * 6 / thick**2 / _across_strength(cleat, use, is_wall_half=False)


def _rail_screws(cleat: Cleat, on: CleatForces, use: UseCase) -> float:
    """Use of each screw between rail and unit half, as if there were no glue."""
    screw, count = cleat.joint.screw, cleat.joint.count
    rail = elastic(cleat.rail.board.stock)
    half = elastic(cleat.unit_half.board.stock, cleat.unit_half.board.layers)
    thread = screw.length - cleat.rail.board.thickness
    is_edge = cleat.unit_half.placement.up.axis != cleat.screws[0].axis.axis
    grip = Grip(kind=half.kind, density_kg_m3=half.density_kg_m3, thread=thread, is_edge=is_edge)
    pull = pull_strength(
        screw.diameter, screw.head_diameter, rail.density_kg_m3, grip, use.service, use.duration
    )
    width = CORE_SHARE * screw.core
    side = sideways_strength(
        Member(depth=cleat.rail.board.thickness, embedment=embedment_strength(width, rail)),
        Member(depth=thread, embedment=embedment_strength(width, half)),
        screw.core,
    )
    strength = design_force(side, use.service, use.duration)
    return combined(on.tilt / count, pull.least, on.down / count, strength)


def _rail_glue(cleat: Cleat, on: CleatForces, use: UseCase) -> float:
    """Use of the glued face between rail and unit half, weight alone."""
    if not cleat.joint.is_glued:
        return math.inf
    over = cleat.rail.box.overlap(cleat.unit_half.box)
    area = max(over[0], 0.0) * max(over[2], 0.0)
    factor = kmod(Kind.PLYWOOD, use.service, use.duration) / GAMMA_CONNECTION
    return on.down / (area * GLUE_SHEAR * factor) if area else math.inf


def _lift(unit: Unit, cleat: Cleat) -> float:
    """Upward push at the front edge at which the empty unit turns about its bevel, N."""
    own = unit_mass(unit)
    arm = cleat.wall - cleat.bevel_out - own.centre.y
    reach = cleat.wall - cleat.bevel_out - unit.outline.low.y
    return own.kilograms * STANDARD_GRAVITY * max(arm, 0.0) / reach


def hung_on(unit: Unit, cleat: Cleat, use: UseCase, known: tuple[Carrier, ...]) -> CleatForces:
    """Forces on the cleat under the design weight of a use; the cleat needs its foot."""
    weight, y = design_weight(unit, use, known)
    low = cleat.wall_half.box.low.z
    return forces(
        Hung(
            weight=weight,
            centre=cleat.wall - y,
            bevel=cleat.bevel_out,
            height=cleat.bevel_level - (cleat.foot or 0.0),
            angle=cleat.angle,
            bevel_above=cleat.bevel_level - low,
            screws_above=cleat.screw_level - low,
        )
    )


def check_hanging(
    unit: Unit, use: UseCase, wall: Wall, known: tuple[Carrier, ...]
) -> HangingCheck | None:
    """A hung unit under a use; None without a cleat or without a foot that bears on the wall.

    Raises:
        UnknownNameError: a cleat of unknown material.
        DesignError: a cleat without bevel or screws, or screws into a plywood's edge.
    """
    cleat = cleat_of(unit)
    if cleat is None or cleat.foot is None:
        return None
    on = hung_on(unit, cleat, use, known)
    one = fixing(cleat, wall, use.service, use.duration)
    where = plan(cleat, wall)
    count = len(where.holding)
    if not where.is_found:
        # Nobody knows yet which screws will hit: as many as there are studs for certain.
        count = where.count
    low = cleat.wall_half.box.low.z
    places = where.holding if where.is_found else _somewhere(cleat, wall, where.count)
    return HangingCheck(
        use=use.name,
        mass=loaded_mass(unit, use, known).kilograms,
        forces=on,
        fixing=one,
        plan=where,
        screws_used=math.inf if one is None else used(on, one, count),
        needed=None if one is None else needed(on, one),
        wall_half_share=_along(cleat, on, places, use),
        wall_half_across=_above_screws(cleat, on, count, use),
        unit_half_share=_below_rail(cleat, on, use),
        rail_screws=_rail_screws(cleat, on, use),
        rail_glue=_rail_glue(cleat, on, use),
        carcass_share=joint_share(carcass_joint(unit, cleat), on.down, use),
        screws_range=None if one is None or count < 1 else used_range(on, one, count),
        lift=_lift(unit, cleat),
        engaged=cleat.engaged,
        edge=min(cleat.screw_level - low, low + cleat.full_height - cleat.screw_level),
    )
