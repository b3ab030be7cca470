"""All that is computed about a unit on its wall and in use, once, for findings and sheets alike."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.site.air_path import AirPath, air_paths
from cabinet.site.anti_tip import AntiTip, anti_tip
from cabinet.site.carriers import Carrier, carriers, require_places
from cabinet.site.cleat_model import Cleat, cleat_of
from cabinet.site.creep import RULE
from cabinet.site.hanging import EXCLUDED, HangingCheck, check_hanging
from cabinet.site.lift import Lift
from cabinet.site.lifting import LiftCheck, check_lift
from cabinet.site.shelf_check import FrameCheck, HeldCheck, check_frame, check_held
from cabinet.site.stability import TippingCheck, check_tipping
from cabinet.site.uses import UseCase
from cabinet.site.walls import Wall, require_wall

ASSUMPTIONS = (
    "Every figure is a check with the assumptions stated here, never a promise.",
    "Design loads are 1.35 times own weight and 1.5 times what is put in (EN 1990).",
    "Strengths are k_mod f_k / gamma_M of EN 1995-1-1; stiffness is a mean value with its range.",
    f"{RULE[0].upper()}{RULE[1:]}.",
    "Shelves are beams along their length; a load at the front edge is not told from one at the "
    "back, and rails of frame shelves take half of the load each.",
    "The cleat is checked without friction, its wall half prying on its own lower edge; glue in "
    "the ends of boards counts half.",
    "The range of the screws' use takes a tenth of the weight and a fifth of what the wall holds "
    "either way; where it ends above 100 %, pull at a fixing in this wall before you trust it.",
    "Weights come from densities and may be off by a tenth: weigh what you lift.",
    f"{EXCLUDED[0].upper()}{EXCLUDED[1:]}.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteReport:
    """What was computed about a unit in its place.

    Attributes:
        unit: The unit.
        uses: What it is used for.
        wall: What it hangs on, or is tied to; None for a unit that stands free.
        carriers: What loads can be put on.
        held: Boards and rails, each under each use.
        frames: Frame shelves, each under each use.
        cleat: The unit's cleat; None if it has none.
        hanging: The unit on its cleat under each use.
        tipping: A standing unit empty and under each use.
        anti_tip: Its ties to the wall, if it needs any and a wall is given.
        lift: The lift; None if none was given.
        air: The way of air through each bay.
        assumptions: Sentences that belong on the sheet.
    """

    unit: Unit
    uses: tuple[UseCase, ...]
    wall: Wall | None
    carriers: tuple[Carrier, ...]
    held: tuple[HeldCheck, ...]
    frames: tuple[FrameCheck, ...]
    cleat: Cleat | None
    hanging: tuple[HangingCheck, ...]
    tipping: tuple[TippingCheck, ...]
    anti_tip: AntiTip | None
    lift: LiftCheck | None
    air: tuple[AirPath, ...]
    assumptions: tuple[str, ...] = ASSUMPTIONS


def _require_uses(unit: Unit, uses: tuple[UseCase, ...], known: tuple[Carrier, ...]) -> None:
    names = [use.name for use in uses]
    if not names or len(set(names)) != len(names):
        raise DesignError(
            f"{unit.name}: its uses are {names}; give at least one, each with its own name",
            part=unit.name,
            value=tuple(names),
            limit="at least one, distinct names",
        )
    for use in uses:
        require_places(use, known)


def site_report(
    unit: Unit,
    uses: tuple[UseCase, ...],
    wall: Wall | None = None,
    *,
    lift: Lift | None = None,
) -> SiteReport:
    """Compute a unit in its place.

    Args:
        unit: The unit, resolved.
        uses: What it is used for; the worst counts.
        wall: The wall it hangs on; for a standing unit the wall it is tied to, or None.
        lift: How it is lifted to its place; None leaves that out.

    Raises:
        UnknownNameError: a unit that hangs on no known wall, a load whose place there is not,
            or a board of unknown material.
        DesignError: no use, two of one name, or a cleat that cannot be checked.
    """
    known = carriers(unit)
    _require_uses(unit, uses, known)
    if unit.is_hung or wall is not None:
        wall = require_wall(unit.name, wall)
    held = tuple(check_held(unit, c, h, use) for c in known for h in c.held for use in uses)
    frames = [check_frame(unit, c, use) for c in known for use in uses]
    hanging: list[HangingCheck | None] = []
    if unit.is_hung and wall is not None:
        hanging = [check_hanging(unit, use, wall, known) for use in uses]
    tipping = () if unit.is_hung else check_tipping(unit, uses, known)
    return SiteReport(
        unit=unit,
        uses=uses,
        wall=wall,
        carriers=known,
        held=held,
        frames=tuple(frame for frame in frames if frame is not None),
        cleat=cleat_of(unit) if unit.is_hung else None,
        hanging=tuple(check for check in hanging if check is not None),
        tipping=tipping,
        anti_tip=anti_tip(unit, tipping, wall),
        lift=None if lift is None else check_lift(unit, lift),
        air=air_paths(unit, known),
    )
