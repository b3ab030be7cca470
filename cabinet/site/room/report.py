"""All that is computed about a unit in its setting, once, for findings, sheets and records."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.site.cleat_model import Cleat, cleat_of
from cabinet.site.lock import Lock, lock_of
from cabinet.site.report import SiteReport
from cabinet.site.room.cable_zones import CableZone, cable_zones
from cabinet.site.room.frame import WallBox, WallPoint
from cabinet.site.room.leads import LeadWay, lead_way
from cabinet.site.room.packing import Packing, packing
from cabinet.site.room.screw_places import ScrewPlan, screw_plan, tie_plan
from cabinet.site.room.scribe import ScribeStrip, scribe_strips
from cabinet.site.room.setting import Setting
from cabinet.site.room.swing import LiftRoom, lift_room


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomReport:
    """What was computed about a unit in its setting.

    Attributes:
        unit: The unit.
        setting: Where it goes.
        site: Strength, lift and air, if uses were given.
        outline: What it covers of the wall.
        depth: How far it stands out from the wall, mm.
        zones: Where cables are likely.
        cleat: Its cleat; None if it has none.
        screws: Its wall screws, or the ties of a standing unit; None if it has neither.
        lock: Its lock; None if there is none.
        packing: Packing behind it; None without readings of the wall.
        scribes: Scribe strips beside or below it.
        leads: The ways of its leads.
        lift_room: Room above it; None if it does not drop on to a cleat.
    """

    unit: Unit
    setting: Setting
    site: SiteReport | None
    outline: WallBox
    depth: float
    zones: tuple[CableZone, ...]
    cleat: Cleat | None
    screws: ScrewPlan | None
    lock: Lock | None
    packing: Packing | None
    scribes: tuple[ScribeStrip, ...]
    leads: tuple[LeadWay, ...]
    lift_room: LiftRoom | None


def _needed(site: SiteReport | None) -> int | None:
    """Least number of wall screws under the worst use; None if unknown."""
    needed = [check.needed for check in site.hanging if check.needed] if site else []
    return max(needed, default=None)


def _spots(unit: Unit, setting: Setting, cleat: Cleat | None) -> tuple[tuple[str, WallPoint], ...]:
    """Where the unit bears on the wall: at each wall screw, and at both ends of its foot."""
    outline = setting.outline(unit)
    spots: list[tuple[str, WallPoint]] = []
    foot = outline.low.z
    if cleat is not None:
        spots += [
            (item.name, setting.unit_to_wall(item.at))
            for item in sorted(cleat.screws, key=lambda item: item.at.x)
        ]
        foot = setting.at.z + (cleat.foot or 0.0)
    else:
        spots += [
            ("top, left", WallPoint(outline.low.x, outline.high.z)),
            ("top, right", WallPoint(outline.high.x, outline.high.z)),
        ]
    spots += [
        ("foot, left", WallPoint(outline.low.x, foot)),
        ("foot, right", WallPoint(outline.high.x, foot)),
    ]
    return tuple(spots)


def room_report(unit: Unit, setting: Setting, site: SiteReport | None = None) -> RoomReport:
    """Compute a unit in its setting.

    Args:
        unit: The unit, resolved.
        setting: Where it goes.
        site: Its strength on ``setting.wall``; None leaves the number of screws unchecked.

    Raises:
        DesignError: the strength was computed for another wall, or a cleat cannot be checked.
        UnknownNameError: a lead through an opening or from a socket that there is not.
    """
    if site is not None and site.wall is not None and site.wall != setting.wall:
        raise DesignError(
            f"{unit.name}: its strength was computed for another wall than "
            f"{setting.room.name}; give write_job the setting alone, without a wall",
            part=unit.name,
            value=type(site.wall).__name__,
            limit=type(setting.wall).__name__,
        )
    cleat = cleat_of(unit) if unit.is_hung else None
    zones = cable_zones(setting.room)
    screws: ScrewPlan | None = None
    if cleat is not None:
        screws = screw_plan(setting, cleat, zones, _needed(site))
    elif site is not None and site.anti_tip is not None:
        screws = tie_plan(setting, unit, site.anti_tip, zones)
    outline = setting.outline(unit)
    return RoomReport(
        unit=unit,
        setting=setting,
        site=site,
        outline=outline,
        depth=max(part.box.high.y for part in unit.parts) - unit.outline.low.y,
        zones=zones,
        cleat=cleat,
        screws=screws,
        lock=None if cleat is None else lock_of(cleat),
        packing=packing(setting.room.face, outline, _spots(unit, setting, cleat)),
        scribes=scribe_strips(setting.room, outline, is_hung=unit.is_hung),
        leads=tuple(lead_way(unit, setting, lead) for lead in setting.leads),
        lift_room=lift_room(unit, setting),
    )
