"""Air that rises by its own warmth through openings in a row: areas, pressure, flow, heat."""

from __future__ import annotations

import math
from collections.abc import Iterable

from cabinet.errors import SizeError
from cabinet.quantity import positive, within
from cabinet.site.service import STANDARD_GRAVITY

# Discharge coefficient of a sharp-edged opening (Approved Document O, 2021, has 0.62).
SHARP_EDGED = 0.61
ROOM_KELVIN = 293.15
# Specific heat of air, J/(kg K), common handbook value.
AIR_HEAT = 1005.0
_MM2_PER_M2 = 1e6
_MM_PER_M = 1e3


def air_density(celsius: float) -> float:
    """Density of air, kg/m3: 353 / (273 + t), for -20 to 60 degrees Celsius.

    Source: Engineering ToolBox d_122.
    """
    within("air", "temperature", celsius, -20.0, 60.0, unit="degrees Celsius")
    return 353.0 / (273.0 + celsius)


def stack_pressure(inside: float, outside: float, height: float) -> float:
    """Pressure that drives warm air up, Pa: g (rho_outside - rho_inside) h.

    Args:
        inside: Degrees Celsius.
        outside: Degrees Celsius.
        height: Between the openings, mm.

    Source: Engineering ToolBox d_122.
    """
    lighter = air_density(outside) - air_density(inside)
    return STANDARD_GRAVITY * lighter * height / _MM_PER_M


def series_area(areas: Iterable[float]) -> float:
    """Area that lets through what openings one after the other do, mm2: 1/A^2 = sum 1/A_i^2.

    An opening of no area closes the path: the result is 0.

    Raises:
        SizeError: no opening, or a negative one.

    Source: BS 5925:1991 (orifices in series), from memory; form read on a secondary page.
    """
    them = tuple(areas)
    if not them:
        raise SizeError("air: a path needs at least one opening", part="air")
    for area in them:
        within("air", "opening", area, 0.0, math.inf, unit="mm2")
    if min(them) == 0:
        return 0.0
    return 1 / math.sqrt(sum(1 / area**2 for area in them))


def orifice_flow(area: float, pressure: float, coefficient: float = SHARP_EDGED) -> float:
    """Flow through an opening, m3/s: Q = Cd A (2 dp / rho)^0.5, rho at 20 degrees Celsius.

    Args:
        area: A, mm2.
        pressure: dp, Pa, not negative.
        coefficient: Cd, 0 to 1.

    Source: BS 5925:1991, equation 2 as amended 1995.
    """
    within("air", "pressure", pressure, 0.0, math.inf, unit="Pa")
    within("air", "discharge coefficient", coefficient, 0.0, 1.0, unit="")
    return coefficient * area / _MM2_PER_M2 * math.sqrt(2 * pressure / air_density(20.0))


def stack_flow(
    area: float,
    height: float,
    difference: float,
    *,
    kelvin: float = ROOM_KELVIN,
    coefficient: float = SHARP_EDGED,
) -> float:
    """Flow of warm air through a path, m3/s: Q = Cd A (2 g h dT / T)^0.5.

    Args:
        area: A of the whole path (``series_area``), mm2.
        height: h between its lowest and highest opening, mm.
        difference: dT, inside above outside, 0 to 100 K.
        kelvin: T, mean absolute temperature.
        coefficient: Cd, 0 to 1.

    Raises:
        SizeError: outside these ranges; the formula is for differences small against T.

    Source: CIBSE AM10 and BS 5925:1991, from memory; form read on a secondary page.
    """
    within("air", "area", area, 0.0, math.inf, unit="mm2")
    within("air", "height", height, 0.0, math.inf)
    within("air", "difference of temperature", difference, 0.0, 100.0, unit="K")
    within("air", "discharge coefficient", coefficient, 0.0, 1.0, unit="")
    positive("air", "temperature", kelvin, unit="K")
    drive = 2 * STANDARD_GRAVITY * height / _MM_PER_M * difference / kelvin
    return coefficient * area / _MM2_PER_M2 * math.sqrt(drive)


def heat_carried(flow: float, difference: float, density: float = 1.2) -> float:
    """Heat that a flow of air carries off, W: P = Q rho cp dT.

    Args:
        flow: Q, m3/s.
        difference: dT, K.
        density: rho, kg/m3.

    Source: definition of specific heat; 1.2 x 1005 J/(m3 K) common handbook values.
    """
    return flow * positive("air", "density", density, unit="kg/m3") * AIR_HEAT * difference


def flow_for_heat(power: float, difference: float, density: float = 1.2) -> float:
    """Flow that carries off a power at a rise of temperature, m3/s: P / (rho cp dT).

    Source: as ``heat_carried``.
    """
    rise = positive("air", "difference of temperature", difference, unit="K")
    return power / (positive("air", "density", density, unit="kg/m3") * AIR_HEAT * rise)
