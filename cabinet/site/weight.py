"""Mass and centre of mass, from the solids and the densities of what they are made of.

Densities of hardware are common handbook values from memory: steel 7850, beech 700 kg/m3.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.frame import BoardPoint, Side, UnitPoint
from cabinet.hardware import BiscuitPiece, Body, Hardware
from cabinet.part import Part
from cabinet.solids import centre_of_mass, hardware_shape, volume

STEEL_KG_M3 = 7850.0
BEECH_KG_M3 = 700.0
_MM3_PER_M3 = 1e9


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass in kg and where its centre lies in the unit."""

    kilograms: float
    centre: UnitPoint


def part_mass(part: Part) -> Mass:
    """Mass and centre of a finished part; holes of a perforation are taken off."""
    kilograms = volume(part.board) * part.board.stock.density_kg_m3 / _MM3_PER_M3
    return Mass(kilograms, part.placement.board_to_unit(BoardPoint(*centre_of_mass(part.board))))


def hardware_mass(item: Hardware) -> Mass:
    """Mass and centre of a piece of hardware."""
    own = _bare_mass(item.body, item.axis)
    x, y, z = (a + b for a, b in zip(item.at, own.centre, strict=True))
    return Mass(own.kilograms, UnitPoint(x, y, z))


# A unit has dozens of equal screws and pins.
@lru_cache(maxsize=1024)
def _bare_mass(body: Body, axis: Side) -> Mass:
    """Mass and centre of a kind of hardware that begins at the origin."""
    density = BEECH_KG_M3 if isinstance(body, BiscuitPiece) else STEEL_KG_M3
    solid = hardware_shape(body, axis)
    centre = solid.Center()
    return Mass(
        float(solid.Volume()) * density / _MM3_PER_M3, UnitPoint(centre.x, centre.y, centre.z)
    )


def total(masses: Iterable[Mass]) -> Mass:
    """The sum of masses and the centre of all.

    Raises:
        DesignError: there is nothing to add up.
    """
    them = tuple(masses)
    kilograms = sum(mass.kilograms for mass in them)
    if kilograms <= 0:
        raise DesignError("mass: there are no bodies to add up", value=len(them), limit=1)
    sums = [
        sum(mass.kilograms * tuple(mass.centre)[axis] for mass in them) / kilograms
        for axis in range(3)
    ]
    return Mass(kilograms, UnitPoint(*sums))


def unit_mass(unit: Unit) -> Mass:
    """Mass of the empty unit as it is lifted: without what stays on or in the wall."""
    on_wall = {part.name for part in unit.parts if part.group == "wall"} | {"wall"}
    parts = [part_mass(part) for part in unit.parts if part.name not in on_wall]
    items = [hardware_mass(item) for item in unit.hardware if not on_wall & set(item.inside)]
    return total([*parts, *items])
