"""Whether a standing unit tips forwards: empty or full, pulled at its top or climbed upon.

No published test load was at hand, so the child's pull and climb are common practice, no
source. A unit that a child can reach is fixed to the wall whatever the figures say.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.frame import Side
from cabinet.motion import Motion
from cabinet.quantity import positive
from cabinet.site.carriers import Carrier
from cabinet.site.loaded import contents
from cabinet.site.service import STANDARD_GRAVITY
from cabinet.site.uses import UseCase
from cabinet.site.weight import Mass, part_mass, total, unit_mass

# Common practice, no source: a child pulls with this at this height at most, or hangs with
# this mass on the front edge.
CHILD_PULL = 100.0  # N
PULL_HEIGHT = 1200.0
CHILD_MASS = 25.0
# A tie holds a unit so far below its top, mm (common practice, no source).
TIE_BELOW_TOP = 25.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TippingCheck:
    """A standing unit about the front edge of what it stands on.

    Attributes:
        state: ``empty``, or the name of the use.
        mass: Unit and contents, kg.
        back: From the front edge of the footing to the centre of mass, mm.
        holding: Moment that holds it, N mm.
        pull: Moment of a child's pull, N mm.
        climb: Moment of a child that hangs on the front edge, N mm.
        lever: Height of a tie near the top above what the unit stands on, mm.
    """

    state: str
    mass: float
    back: float
    holding: float
    pull: float
    climb: float
    lever: float

    @property
    def tips(self) -> float:
        """The greater of the moments that tip it, N mm."""
        return max(self.pull, self.climb)

    @property
    def margin(self) -> float:
        """Holding moment over the greater tipping moment; below 1 it tips."""
        return self.holding / self.tips

    @property
    def tie(self) -> float:
        """Pull of a tie near the top that makes up what is missing, N; 0 if nothing is."""
        return max(self.tips - self.holding, 0.0) / self.lever


def tipping_pull(mass: float, back: float, height: float) -> float:
    """Level pull at a height at which a body tips: m g e / h, N.

    Args:
        mass: kg.
        back: From the tipping edge back to the centre of mass, mm.
        height: Of the pull above the floor, mm.

    Source: moments about the tipping edge.
    """
    return mass * STANDARD_GRAVITY * back / positive("tipping", "height of the pull", height)


def _footing(unit: Unit) -> float:
    """Y of the front edge of what the unit stands on."""
    low = min(part.box.low.z for part in unit.parts)
    return min(p.box.low.y for p in unit.parts if p.box.low.z - low < 0.5)


def _pulled_out(unit: Unit) -> float:
    """What doors and drawers, moved as far forward as they go, add to the moment, kg mm."""
    by_name = unit.by_name
    moved = 0.0
    for move in unit.moves:
        if move.motion is not Motion.SLIDE or move.side.axis != Side.FRONT.axis:
            continue
        forward = max(-move.side.sign * move.low, -move.side.sign * move.high, 0.0)
        moved += forward * sum(part_mass(by_name[n]).kilograms for n in move.parts if n in by_name)
    return moved


def _check(unit: Unit, state: str, mass: Mass) -> TippingCheck:
    floor, top = min(part.box.low.z for part in unit.parts), unit.outline.high.z
    front = _footing(unit)
    back = mass.centre.y - front - _pulled_out(unit) / mass.kilograms
    holding = mass.kilograms * STANDARD_GRAVITY * back
    pull = CHILD_PULL * min(PULL_HEIGHT, top - floor)
    climb = CHILD_MASS * STANDARD_GRAVITY * max(front - unit.outline.low.y, 0.0)
    return TippingCheck(
        state=state,
        mass=mass.kilograms,
        back=back,
        holding=holding,
        pull=pull,
        climb=climb,
        lever=top - floor - min(TIE_BELOW_TOP, (top - floor) / 2),
    )


def check_tipping(
    unit: Unit, uses: tuple[UseCase, ...], known: tuple[Carrier, ...]
) -> tuple[TippingCheck, ...]:
    """A standing unit empty and under each use, with all that moves forward pulled out.

    Source: moments about the footing's front edge; loads common practice, no source.
    """
    own = unit_mass(unit)
    full = [(use.name, total([own, *contents(use, known)])) for use in uses]
    return tuple(_check(unit, state, mass) for state, mass in [("empty", own), *full])
