"""Shelves, top and base under a use: sag now and later, bending, pins, frame and panel."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.features import Perforation
from cabinet.frame import Side
from cabinet.joint import Biscuits
from cabinet.part import Part
from cabinet.site.beam import Beam, Bent, LineLoad, PointLoad, Stiffness, Support, solve
from cabinet.site.beam_table import Case, deflection
from cabinet.site.board_beam import BoardBeam, fibre, softened
from cabinet.site.carriers import Carrier, Held, bearing_place
from cabinet.site.creep import creep_factor
from cabinet.site.materials import elastic
from cabinet.site.pin_bearing import PinCheck, pin_check
from cabinet.site.ranges import Between
from cabinet.site.service import (
    GAMMA_CONNECTION,
    GAMMA_OWN,
    GAMMA_USE,
    STANDARD_GRAVITY,
    Kind,
    design_strength,
    kmod,
)
from cabinet.site.uses import SpotLoad, UseCase, newtons
from cabinet.site.weight import part_mass

# Shear that a biscuit's glued faces carry along the plies of plywood, characteristic, N/mm2:
# a cautious figure, common practice, no source (rolling shear of birch plywood is two to three
# times that).
BISCUIT_SHEAR = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldCheck:
    """A board or a rail under one use.

    Attributes:
        name: Of the board or rail.
        carrier: Of the shelf, top or base that it belongs to.
        use: Of the use.
        span: Greatest distance between neighbouring supports, mm.
        load: Weight on it apart from its own, N.
        sag: Greatest deflection when loaded, mm.
        lasting_sag: The same after years, mm.
        stress: Design stress in bending where it comes nearest to the strength, N/mm2.
        strength: Design strength there, N/mm2.
        place: X of that place, mm.
        stiffness: Least E I over its length with the likely modulus, N mm2.
        pin: The most loaded pin; None without pins.
    """

    name: str
    carrier: str
    use: str
    span: float
    load: float
    sag: Between
    lasting_sag: Between
    stress: float
    strength: float
    place: float
    stiffness: float
    pin: PinCheck | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameCheck:
    """Panel and corners of a frame shelf under one use.

    Attributes:
        name: Of the frame shelf.
        use: Of the use.
        opening: Clear span of the panel between the rails, mm.
        panel_sag: Sag of the panel, mm.
        panel_share: Design stress of the panel over its strength.
        corner_force: Design force on a corner joint, N.
        corner_strength: What its biscuits carry, N.
    """

    name: str
    use: str
    opening: float
    panel_sag: Between
    panel_share: float
    corner_force: float
    corner_strength: float


def own_weight(parts: tuple[Part, ...]) -> float:
    """Weight of parts, N."""
    return sum(part_mass(part).kilograms for part in parts) * STANDARD_GRAVITY


def _beam(
    held: Held,
    carrier: Carrier,
    use: UseCase,
    factors: tuple[float, float],
    spans: tuple[Stiffness, ...],
) -> Beam:
    """The board under its own weight and what lies on it, each times its factor."""
    board = BoardBeam(parts=held.parts)
    left, length = board.left, board.length
    intensity = factors[0] * held.share * own_weight(carrier.parts) / length
    points = []
    for load in use.loads:
        if load.place != carrier.name:
            continue
        force = factors[1] * held.share * newtons(load, carrier.area)
        if isinstance(load, SpotLoad):
            at = carrier.size[0] / 2 if load.from_left is None else load.from_left
            place = at + carrier.left - left
            points.append(PointLoad(min(max(place, 0.0), length), force))
        else:
            intensity += force / length
    return Beam(
        stretches=spans,
        # Where a strip at the end lies on the pin, the board itself begins a little later.
        supports=tuple(Support(min(max(x - left, 0.0), length)) for x in held.supports),
        points=tuple(points),
        lines=(LineLoad(0.0, length, intensity),),
    )


def _sag(held: Held, carrier: Carrier, use: UseCase, spans: tuple[Stiffness, ...]) -> Between:
    least, most = BoardBeam(parts=held.parts).moduli
    sags = [
        abs(solve(_beam(held, carrier, use, (1.0, 1.0), each)).greatest_deflection()[1])
        for each in (softened(spans, most), spans, softened(spans, least))
    ]
    return Between(sags[0], sags[1], sags[2])


def _pin(unit: Unit, held: Held, bent: Bent, use: UseCase) -> PinCheck | None:
    """The most loaded pin; pins at one end share its reaction."""
    found = []
    for x, reaction in zip(held.supports, bent.reactions, strict=True):
        here = [p for p in held.pins if abs(bearing_place(held.bearing, p)[0] - x) < 1e-3]
        for pin in here:
            middle, bearing = bearing_place(held.bearing, pin)
            upright = unit.by_name[pin.inside[0]]
            face = upright.box.face(pin.axis.opposite)
            found.append(
                pin_check(
                    abs(reaction) / len(here),
                    diameter=getattr(pin.body, "diameter", 0.0),
                    depth=abs(pin.box.face(pin.axis) - face),
                    reach=abs(middle - face),
                    bearing=bearing,
                    upright=elastic(upright.board.stock),
                    shelf=elastic(held.parts[0].board.stock),
                    service=use.service,
                    duration=use.duration,
                )
            )
    return max(found, key=lambda check: check.greatest, default=None)


def check_held(unit: Unit, carrier: Carrier, held: Held, use: UseCase) -> HeldCheck:
    """A board or rail under a use.

    Raises:
        UnknownNameError: an unknown material.

    Source: ``beam.solve``, ``creep.creep_factor``; design loads 1.35 own + 1.5 use, EN 1990.
    """
    board = BoardBeam(parts=held.parts)
    kind = elastic(held.parts[0].board.stock).kind
    spans = board.spans()
    sag = _sag(held, carrier, use, spans)
    creep = creep_factor(kind, use.service, use.duration)
    design = solve(_beam(held, carrier, use, (GAMMA_OWN, GAMMA_USE), spans))
    stress, strength, place = board.stress(design, use.service, use.duration)
    gaps = [b - a for a, b in zip(held.supports, held.supports[1:], strict=False)]
    here = [load for load in use.loads if load.place == carrier.name]
    return HeldCheck(
        name=held.name,
        carrier=carrier.name,
        use=use.name,
        span=max(gaps),
        load=held.share * sum(newtons(load, carrier.area) for load in here),
        sag=sag,
        lasting_sag=Between(sag.low * creep.low, sag.likely * creep.likely, sag.high * creep.high),
        stress=stress,
        strength=strength,
        place=place,
        stiffness=min(s.bending for s in spans),
        pin=_pin(unit, held, design, use),
    )


def _pressure(carrier: Carrier, use: UseCase) -> float:
    """Everything on a shelf as if spread over it, N/mm2."""
    loads = [load for load in use.loads if load.place == carrier.name]
    return sum(newtons(load, carrier.area) for load in loads) / carrier.area


def check_frame(unit: Unit, carrier: Carrier, use: UseCase) -> FrameCheck | None:
    """Panel and corner joints of a frame shelf; None for a shelf without a panel.

    The panel is taken as strips from rail to rail, their stiffness and strength reduced by the
    holes to (pitch - diameter) / pitch. Each end member takes the triangle of the panel that
    lies nearest and hands half of it to each of its corners. What stands on one spot is taken
    as spread.

    Source: common practice, no source.
    """
    panel, clear = carrier.panel, carrier.opening
    if panel is None or clear is None:
        return None
    opening = clear.y1 - clear.y0
    own = own_weight((panel,)) / (panel.box.size[0] * panel.box.size[1])
    pressure = _pressure(carrier, use)
    holes = [f for f in panel.board.features if isinstance(f, Perforation)]
    left = min([1.0, *((f.pitch - f.diameter) / f.pitch for f in holes)])
    run = panel.placement.board_axis(Side.BACK)[0]
    known = fibre(panel, run)
    thick = panel.board.thickness
    stiff = known.modulus.times(left * thick**3 / 12)
    sags = [
        deflection(Case.SIMPLE_UNIFORM, (own + pressure) * opening, opening, bending)
        for bending in (stiff.high, stiff.likely, stiff.low)
    ]
    design = GAMMA_OWN * own + GAMMA_USE * pressure
    stress = design * opening**2 / 8 / (left * thick**2 / 6)
    limit = design_strength(known.strength, known.material.kind, use.service, use.duration)
    return FrameCheck(
        name=carrier.name,
        use=use.name,
        opening=opening,
        panel_sag=Between(sags[0], sags[1], sags[2]),
        panel_share=stress / limit,
        corner_force=design * opening**2 / 4 / 2,
        corner_strength=min(_corner(unit, carrier, end, use) for end in carrier.ends),
    )


def _corner(unit: Unit, carrier: Carrier, end: Part, use: UseCase) -> float:
    """What the weakest corner of an end member carries, N."""
    rails = {held.parts[0].name for held in carrier.held}
    found = []
    for rail in sorted(rails):
        area = 0.0
        for joint in unit.joints:
            if isinstance(joint, Biscuits) and {joint.one, joint.other} == {end.name, rail}:
                # Half of each of its two faces lies in either board.
                area += joint.biscuit.face * joint.count
        found.append(area)
    factor = kmod(Kind.PLYWOOD, use.service, use.duration) / GAMMA_CONNECTION
    return min(found) * BISCUIT_SHEAR * factor
