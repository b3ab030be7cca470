"""Stiffness, strength and characteristic density of what boards are made of.

The stock itself holds what is measured in the workshop; what only the strength checks need
stands here, by the stock's material. Every row says where its values come from.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.errors import UnknownNameError
from cabinet.site.plywood import birch_laminate, plies_of
from cabinet.site.ranges import Between, spread
from cabinet.site.service import Kind
from cabinet.stock import Stock

# How far the modulus of a sheet or board may lie from the mean. Plywood: common practice, no
# source. Solid wood: coefficient of variation of the modulus, Wood Handbook ch. 5, from memory.
PLYWOOD_SPREAD = 0.10
SOLID_SPREAD = 0.22


@dataclass(frozen=True, slots=True, kw_only=True)
class Elastic:
    """What the strength checks know of a material.

    Attributes:
        material: The stock's name for it.
        kind: What it is to the timber code.
        along: Modulus in bending for a span along the grain, N/mm2.
        across: The same across the grain.
        strength_along: Characteristic bending strength along the grain, N/mm2; for metal the
            yield strength.
        strength_across: The same across the grain.
        shear_modulus: For the shear part of a deflection, N/mm2; None where the modulus is an
            apparent one, in which the shear part is contained already.
        density_kg_m3: Characteristic (5 %) density for fixings, kg/m3.
        source: Where the values come from.
    """

    material: str
    kind: Kind
    along: Between
    across: Between
    strength_along: float
    strength_across: float
    shear_modulus: float | None
    density_kg_m3: float
    source: str


# Species -> mean modulus at 12 % moisture, N/mm2, and whether it is a hardwood. USDA Wood
# Handbook: beech 1.72, ash 1.74, yellow birch 2.01, cherry 1.49, red maple 1.64 million psi as
# quoted in a species table that was read; the others from memory.
_SPECIES = {
    "ash": (12_000.0, True),
    "beech": (11_900.0, True),
    "birch": (13_900.0, True),
    "cherry": (10_300.0, True),
    "douglas fir": (13_400.0, False),
    "maple": (11_300.0, True),
    "oak": (12_300.0, True),
    "spruce": (10_800.0, False),
}
# Characteristic bending strength and density of EN 338 classes D30 and C24, from memory: clear
# furniture wood is better, so this is cautious. Across the grain wood has next to no strength.
_HARDWOOD = (30.0, 530.0)
_SOFTWOOD = (24.0, 350.0)
_ACROSS_STRENGTH = 1.0
_ACROSS_MODULUS_SHARE = 1 / 30
# Rolling shear of birch plywood in bending across its faces, N/mm2, from memory (170 to 210 in
# the Finnish handbook, the lower figure).
_BIRCH_ROLLING_SHEAR = 170.0
_BIRCH_DENSITY = 630.0


def elastic(stock: Stock, layers: int = 1) -> Elastic:
    """Values of a stock by its material, and for birch plywood by its plies.

    Args:
        stock: What the board is cut from.
        layers: How many are glued face to face.

    Raises:
        UnknownNameError: the material, or the thickness of the plywood, is not known here; the
            message names it and lists those that are.
    """
    material = stock.material
    if material == "birch plywood":
        return _birch_plywood(stock.nominal, layers)
    if material == "poplar plywood":
        return _POPLAR
    if material == "steel sheet":
        return _STEEL
    if material in _SPECIES:
        return _solid(material)
    known = sorted((*_SPECIES, "birch plywood", "poplar plywood", "steel sheet"))
    raise UnknownNameError(
        f"{material}: unknown material, so its stiffness and strength are missing; there are "
        f"{', '.join(known)}; take one of them, or leave out uses=, which need these values",
        part=material,
        value=material,
        limit=tuple(known),
    )


def _birch_plywood(nominal: float, layers: int) -> Elastic:
    board = birch_laminate(plies_of(nominal), layers)
    return Elastic(
        material="birch plywood",
        kind=Kind.PLYWOOD,
        along=spread(board.along, PLYWOOD_SPREAD),
        across=spread(board.across, PLYWOOD_SPREAD),
        strength_along=board.strength_along,
        strength_across=board.strength_across,
        shear_modulus=_BIRCH_ROLLING_SHEAR,
        density_kg_m3=_BIRCH_DENSITY,
        source="lamination rule after the Handbook of Finnish Plywood, Table 3-2 (from memory)",
    )


def _solid(species: str) -> Elastic:
    modulus, is_hardwood = _SPECIES[species]
    strength, density = _HARDWOOD if is_hardwood else _SOFTWOOD
    return Elastic(
        material=species,
        kind=Kind.SOLID,
        along=spread(modulus, SOLID_SPREAD),
        across=spread(modulus * _ACROSS_MODULUS_SHARE, SOLID_SPREAD),
        strength_along=strength,
        strength_across=_ACROSS_STRENGTH,
        shear_modulus=None,
        density_kg_m3=density,
        source="modulus: USDA Wood Handbook; strength: EN 338 D30 or C24, from memory",
    )


_POPLAR = Elastic(
    material="poplar plywood",
    kind=Kind.PLYWOOD,
    along=Between(4500.0, 5500.0, 6500.0),
    across=Between(2500.0, 3500.0, 4500.0),
    strength_along=20.0,
    strength_across=14.0,
    shear_modulus=None,
    density_kg_m3=380.0,
    source="from memory, makers differ widely: ask for the sheet's own values",
)
_STEEL = Elastic(
    material="steel sheet",
    kind=Kind.METAL,
    along=spread(210_000.0, 0.02),
    across=spread(210_000.0, 0.02),
    strength_along=235.0,
    strength_across=235.0,
    shear_modulus=None,
    density_kg_m3=7850.0,
    source="mild steel, EN 1993-1-1, from memory",
)
