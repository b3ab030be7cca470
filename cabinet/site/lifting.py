"""Lifting a unit to its place: its mass against published lifting guidance at that height.

Guidance values are no legal limits and hold for a close, two-handed lift with good footing.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.motion import Motion
from cabinet.quantity import whole
from cabinet.site.lift import Lift, Lifter, Zone
from cabinet.site.weight import hardware_mass, part_mass, total, unit_mass

# Upper end of each zone above the floor, mm (body sizes, from memory).
_UPPER = (
    (250.0, Zone.LOWER_LEG),
    (750.0, Zone.KNUCKLE),
    (1050.0, Zone.ELBOW),
    (1400.0, Zone.SHOULDER),
)
# Two people together lift two thirds of the sum, three or more half of it (HSE, from memory).
_TEAM = {1: 1.0, 2: 2 / 3, 3: 1 / 2, 4: 1 / 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftCheck:
    """A lift against the guidance, kg and mm.

    Attributes:
        mass: Of the unit as it is.
        bare: Of the unit without doors and shelves.
        loose: Names of doors and shelves that come out.
        hands: Height of the hands at the end.
        zone: The worst zone that they pass.
        allowed: Filter value for all who lift.
        has_table: Whether something else takes the weight.
    """

    mass: float
    bare: float
    loose: tuple[str, ...]
    hands: float
    zone: Zone
    allowed: float
    has_table: bool = False

    @property
    def is_light(self) -> bool:
        """Whether the unit as it is may be lifted by the guidance."""
        return self.has_table or self.mass <= self.allowed


def zone_at(height: float) -> Zone:
    """Zone of hands at a height above the floor, mm."""
    return next((zone for upper, zone in _UPPER if height <= upper), Zone.HEAD)


def zones_between(low: float, high: float) -> tuple[Zone, ...]:
    """All zones that hands pass between two heights above the floor, mm."""
    low, high = min(low, high), max(low, high)
    inside = [upper for upper, _ in _UPPER if low < upper < high]
    return tuple(dict.fromkeys(zone_at(h) for h in (low, *(u + 1 for u in inside), high)))


def filter_value(zone: Zone, who: Lifter, people: int = 1) -> float:
    """Filter value of a zone for people who lift together, kg.

    Source: HSE L23, figure 20 (``Zone``); share of a team from memory.
    """
    whole("lift", "people", people, 1, 4)
    return zone.filter_value(who) * people * _TEAM[people]


def check_lift(unit: Unit, lift: Lift) -> LiftCheck:
    """A unit's lift from its start to its place, the hands at its underside.

    Hands that pass several zones go by the smallest value. A hung unit is lifted over its
    cleat.
    """
    over = max([0.0, *(m.high for m in unit.moves if m.motion is Motion.DROP)])
    hands = lift.to + over
    zones = zones_between(lift.start, hands)
    # Of zones alike the last one passed is named: that is where the lift ends.
    worst = min(reversed(zones), key=lambda zone: zone.filter_value(lift.who))
    out = {p.name for p in unit.parts if p.group in {"doors", "shelves"}}
    kept = [part_mass(p) for p in unit.parts if p.name not in out and p.group != "wall"]
    kept += [
        hardware_mass(item)
        for item in unit.hardware
        if not out & set(item.inside) and "wall" not in item.inside
    ]
    return LiftCheck(
        mass=unit_mass(unit).kilograms,
        bare=total(kept).kilograms,
        loose=tuple(sorted(out)),
        hands=hands,
        zone=worst,
        allowed=filter_value(worst, lift.who, lift.people),
        has_table=lift.has_table,
    )
