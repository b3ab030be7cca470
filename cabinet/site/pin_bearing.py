"""A shelf pin in its hole: pressure in the hole, on the shelf, and bending of the pin."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.quantity import positive, within
from cabinet.site.materials import Elastic
from cabinet.site.service import (
    GAMMA_CONNECTION,
    GAMMA_STEEL,
    Duration,
    Kind,
    ServiceClass,
    design_strength,
    kmod,
)

# Pressing across the face of a board, characteristic, N/mm2: birch plywood 9 (Finnish handbook,
# from memory), solid hardwood 5 and softwood 2.5 (EN 338, from memory); the least is taken
# for what is neither.
_FACE_PRESSURE = {Kind.PLYWOOD: 5.0, Kind.SOLID: 2.5, Kind.METAL: 235.0}
_BIRCH_FACE_PRESSURE = 9.0
# Mild steel of a pin, N/mm2, from memory.
PIN_YIELD = 235.0


def embedment_strength(diameter: float, material: Elastic, *, is_predrilled: bool = True) -> float:
    """Characteristic pressure at which a fastener sinks sideways into wood, N/mm2.

    Plywood: f_h = 0.11 rho_k d^-0.3. Solid wood: f_h = 0.082 (1 - 0.01 d) rho_k predrilled,
    else 0.082 rho_k d^-0.3.

    Args:
        diameter: Effective diameter d, 1 to 30 mm.
        material: What it sits in.
        is_predrilled: Whether a hole was bored for it.

    Raises:
        SizeError: a diameter out of range.

    Source: EN 1995-1-1, equations 8.15, 8.16 and 8.20, from memory.
    """
    within("fastener", "diameter", diameter, 1.0, 30.0)
    density = material.density_kg_m3
    if material.kind is Kind.PLYWOOD:
        return float(0.11 * density * diameter**-0.3)
    if is_predrilled:
        return 0.082 * (1 - 0.01 * diameter) * density
    return float(0.082 * density * diameter**-0.3)


def hole_pressure(force: float, diameter: float, depth: float, reach: float) -> float:
    """Greatest pressure in the hole of a stiff pin that is loaded outside it, N/mm2.

    p = F (4 + 6 e / b) / (d b): force and moment at the face, pressure linear over the depth.

    Args:
        force: F, N.
        diameter: d, mm.
        depth: b, of the pin in its hole, mm.
        reach: e, from the face to the force, mm.

    Raises:
        SizeError: a diameter or a depth that is not positive.

    Source: equilibrium of a stiff pin, derived here.
    """
    positive("pin", "diameter", diameter)
    positive("pin", "depth in its hole", depth)
    within("pin", "reach", reach, 0.0, math.inf)
    return force * (4 + 6 * reach / depth) / (diameter * depth)


@dataclass(frozen=True, slots=True, kw_only=True)
class PinCheck:
    """A pin under its design force; shares above 1 fail.

    Attributes:
        force: Design force, N.
        hole_share: Pressure in the hole over its strength.
        shelf_share: Pressure under the shelf over its strength.
        steel_share: Bending of the pin over its yield.
    """

    force: float
    hole_share: float
    shelf_share: float
    steel_share: float

    @property
    def greatest(self) -> float:
        """The greatest of its shares."""
        return max(self.hole_share, self.shelf_share, self.steel_share)


def pin_check(
    force: float,
    *,
    diameter: float,
    depth: float,
    reach: float,
    bearing: float,
    upright: Elastic,
    shelf: Elastic,
    service: ServiceClass,
    duration: Duration,
) -> PinCheck:
    """Check a pin.

    Args:
        force: Design force on the pin, N.
        diameter: Of the pin, mm.
        depth: Of the pin in its hole, mm.
        reach: From the upright's face to the middle of the bearing, mm.
        bearing: Length over which the shelf lies on it, mm.
        upright: Material of the upright.
        shelf: Material of the shelf.
        service: How damp the air is.
        duration: Of the load.

    Source: ``hole_pressure``, ``embedment_strength``; bearing over d times length and bending
        of the pin at a quarter of its depth: common practice, no source.
    """
    factor = kmod(upright.kind, service, duration) / GAMMA_CONNECTION
    hole = hole_pressure(force, diameter, depth, reach)
    is_birch = shelf.material == "birch plywood"
    pressing = _BIRCH_FACE_PRESSURE if is_birch else _FACE_PRESSURE[shelf.kind]
    bending = force * (reach + depth / 4) / (math.pi * diameter**3 / 32)
    return PinCheck(
        force=force,
        hole_share=hole / (factor * embedment_strength(diameter, upright)),
        shelf_share=force
        / (diameter * bearing)
        / design_strength(pressing, shelf.kind, service, duration),
        steel_share=bending / (PIN_YIELD / GAMMA_STEEL),
    )
