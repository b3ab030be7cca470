"""Ties that keep a standing unit from tipping: brackets at its top, each with one fixing.

A bracket is steel, so its head does not pull through; what counts is the fixing in the wall.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.site.screws import CODE_THREAD, code_withdrawal, design_force
from cabinet.site.service import STANDARD_GRAVITY, Duration, ServiceClass
from cabinet.site.stability import TIE_BELOW_TOP, TippingCheck
from cabinet.site.wall_fixings import HOLLOW_SHARE
from cabinet.site.walls import HollowWall, SolidMasonry, TimberStuds, Wall

# A pull or a climb is an accident of seconds; its load is taken with the first factor, the weight
# that holds with the second (EN 1990, Table A1.2(A), loss of equilibrium, from memory).
GAMMA_PULL = 1.5
GAMMA_HOLDING = 0.9
# The screw of a bracket and its thread in a stud, mm (common practice, no source).
SCREW = 6.0
THREAD = max(40.0, CODE_THREAD * SCREW)
# Ties stand so far within the unit's sides, mm (common practice, no source).
FROM_SIDE = 80.0
TIES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class AntiTip:
    """Ties at a unit's top.

    Attributes:
        count: How many.
        pull: Design pull on each, N.
        holds: What one holds, N at design level.
        places: X of each in the unit, mm; studs where they are known.
        level: Z of all.
    """

    count: int
    pull: float
    holds: float
    places: tuple[float, ...]
    level: float

    @property
    def share(self) -> float:
        """Use of each tie; above 1 fails."""
        return self.pull / self.holds if self.holds else float("inf")


def tie_holds(wall: Wall) -> float:
    """What one tie's fixing holds against pull, N.

    Source: EN 1995-1-1, 8.7.2, for a screw of 6 mm in a stud; the maker's working load of an
        anchor in masonry; half of the rating in a hollow wall.
    """
    if isinstance(wall, SolidMasonry):
        return wall.anchor_pull
    if isinstance(wall, HollowWall):
        return HOLLOW_SHARE * wall.anchor_rating * STANDARD_GRAVITY
    force = code_withdrawal(SCREW, THREAD, wall.density_kg_m3)
    return design_force(force, ServiceClass.DRY, Duration.INSTANTANEOUS)


def tie_pull(check: TippingCheck) -> float:
    """Design pull of all ties together in one state of a unit, N; 0 if it does not tip.

    Source: moments about the footing's front edge, 1.5 of what tips less 0.9 of what holds.
    """
    if check.margin >= 1:
        return 0.0
    return (GAMMA_PULL * check.tips - GAMMA_HOLDING * check.holding) / check.lever


def anti_tip(unit: Unit, tipping: tuple[TippingCheck, ...], wall: Wall | None) -> AntiTip | None:
    """The ties that a unit needs; None if it tips in no state, or nothing is there to tie it to.

    Studs that are known give the places: the outermost two behind the unit. A single stud takes
    one tie, which then takes all of the pull.
    """
    most = max((tie_pull(check) for check in tipping), default=0.0)
    if wall is None or most <= 0:
        return None
    low, high = unit.outline.low.x + FROM_SIDE, unit.outline.high.x - FROM_SIDE
    places: tuple[float, ...] = (low, high)
    holds = tie_holds(wall)
    if isinstance(wall, TimberStuds) and wall.first is not None:
        centres = wall.centres(unit.outline.low.x + SCREW, unit.outline.high.x - SCREW)
        places = (centres[0], centres[-1]) if len(centres) >= TIES else centres
        if not centres:
            holds = 0.0
    count = max(len(places), 1)
    return AntiTip(
        count=count,
        pull=most / count,
        holds=holds,
        places=places,
        level=unit.outline.high.z - TIE_BELOW_TOP,
    )
