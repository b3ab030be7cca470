"""How long a load lies and how damp the air is, and what of its strength wood keeps under it.

Design strength is k_mod f_k / gamma_M and design load gamma_F times the load.
"""

from __future__ import annotations

from enum import Enum

STANDARD_GRAVITY = 9.80665  # m/s2


class Duration(Enum):
    """Load-duration classes of EN 1995-1-1, 2.3.1.2, under their names there."""

    PERMANENT = "permanent"
    LONG = "long-term"
    MEDIUM = "medium-term"
    SHORT = "short-term"
    INSTANTANEOUS = "instantaneous"


class ServiceClass(Enum):
    """Service classes of EN 1995-1-1, 2.3.1.3: heated rooms, damp rooms, outdoors."""

    DRY = 1
    DAMP = 2
    OUTDOORS = 3


class Kind(Enum):
    """What a material is to the timber code."""

    SOLID = "solid wood"
    PLYWOOD = "plywood"
    METAL = "metal"


_DURATIONS = tuple(Duration)
# k_mod, plywood and solid timber alike, by service class, in the order of the durations.
_KMOD = {
    ServiceClass.DRY: (0.60, 0.70, 0.80, 0.90, 1.10),
    ServiceClass.DAMP: (0.60, 0.70, 0.80, 0.90, 1.10),
    ServiceClass.OUTDOORS: (0.50, 0.55, 0.65, 0.70, 0.90),
}
_GAMMA_M = {Kind.SOLID: 1.3, Kind.PLYWOOD: 1.2}
# Of connections (EN 1995-1-1 Table 2.3) and of mild steel yielding (EN 1993-1-1), from memory.
GAMMA_CONNECTION = 1.3
GAMMA_STEEL = 1.0
# On own weight and on what is put in (EN 1990, as in the worked floor beam of the tests).
GAMMA_OWN = 1.35
GAMMA_USE = 1.5


def kmod(kind: Kind, service: ServiceClass, duration: Duration) -> float:
    """Share of its characteristic strength that wood keeps under a load of some duration.

    Metal keeps all of it.

    Source: EN 1995-1-1 Table 3.1, plywood and solid timber, as printed in ICE Manual of
        Structural Design: Buildings, Table 19.9.
    """
    if kind is Kind.METAL:
        return 1.0
    return _KMOD[service][_DURATIONS.index(duration)]


def gamma_m(kind: Kind) -> float:
    """Partial factor of a material: solid wood 1.3, plywood 1.2, metal 1.0.

    Source: EN 1995-1-1 Table 2.3, from memory.
    """
    return _GAMMA_M.get(kind, GAMMA_STEEL)


def design_strength(
    characteristic: float, kind: Kind, service: ServiceClass, duration: Duration
) -> float:
    """Design strength k_mod f_k / gamma_M, N/mm2.

    Args:
        characteristic: Characteristic strength f_k, N/mm2.
        kind: What the material is.
        service: How damp the air is.
        duration: Of the shortest load that counts.

    Source: EN 1995-1-1, equation 2.14.
    """
    return kmod(kind, service, duration) * characteristic / gamma_m(kind)
