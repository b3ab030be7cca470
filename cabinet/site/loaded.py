"""The unit with what is in it: weight and centre, its own part and the use's part."""

from __future__ import annotations

from collections.abc import Iterable

from cabinet.design import Unit
from cabinet.frame import UnitPoint
from cabinet.site.carriers import Carrier
from cabinet.site.service import GAMMA_OWN, GAMMA_USE, STANDARD_GRAVITY
from cabinet.site.uses import SpotLoad, UseCase, newtons
from cabinet.site.weight import Mass, total, unit_mass


def contents(use: UseCase, known: tuple[Carrier, ...]) -> tuple[Mass, ...]:
    """What a use puts in, each load over the middle of its depth and lying on its carrier."""
    by_name = {carrier.name: carrier for carrier in known}
    found = []
    for load in use.loads:
        carrier = by_name[load.place]
        x = carrier.size[0] / 2
        if isinstance(load, SpotLoad) and load.from_left is not None:
            x = load.from_left
        place = UnitPoint(
            carrier.left + x, carrier.front + carrier.size[1] / 2, float(carrier.level)
        )
        found.append(Mass(newtons(load, carrier.area) / STANDARD_GRAVITY, place))
    return tuple(found)


def loaded_mass(unit: Unit, use: UseCase, known: tuple[Carrier, ...]) -> Mass:
    """Mass and centre of the unit with its contents."""
    return total([unit_mass(unit), *contents(use, known)])


def design_weight(unit: Unit, use: UseCase, known: tuple[Carrier, ...]) -> tuple[float, float]:
    """Design weight in N, 1.35 own + 1.5 use, and Y of its centre, mm.

    Source: EN 1990 factors, from memory.
    """
    own = unit_mass(unit)
    masses: Iterable[Mass] = contents(use, known)
    parts = [Mass(own.kilograms * GAMMA_OWN, own.centre)]
    parts += [Mass(mass.kilograms * GAMMA_USE, mass.centre) for mass in masses]
    both = total(parts)
    return both.kilograms * STANDARD_GRAVITY, both.centre.y
