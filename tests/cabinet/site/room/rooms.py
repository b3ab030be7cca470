"""Walls and settings for the tests, in which one thing at a time can go wrong."""

from __future__ import annotations

from cabinet.design import Unit
from cabinet.site.report import SiteReport, site_report
from cabinet.site.room.frame import WallPoint
from cabinet.site.room.report import RoomReport, room_report
from cabinet.site.room.room_wall import CornerReading, FaceReading, FloorReading, RoomWall
from cabinet.site.room.setting import Lead, Setting
from cabinet.site.room.things import Thing
from cabinet.site.walls import SolidMasonry, Wall
from tests.cabinet.site.units import holds

MASONRY = SolidMasonry(anchor_pull=1500.0, anchor_shear=1800.0)


def room(
    *things: Thing,
    width: float = 3871.0,
    height: float = 2467.0,
    build: Wall = MASONRY,
    skirting: float = 0.0,
    floor: tuple[FloorReading, ...] = (),
    face: tuple[FaceReading, ...] = (),
    left_corner: tuple[CornerReading, ...] = (),
    right_corner: tuple[CornerReading, ...] = (),
) -> RoomWall:
    """A masonry wall with a level line at 1013."""
    return RoomWall(
        name="fern room wall",
        width=width,
        height=height,
        build=build,
        datum=1013.0,
        things=things,
        skirting=skirting,
        skirting_thick=14.0 if skirting else 0.0,
        floor=floor,
        face=face,
        left_corner=left_corner,
        right_corner=right_corner,
    )


def setting(where: RoomWall, x: float, z: float, *leads: Lead, gap: float = 0.0) -> Setting:
    """A unit's corner at (x, z)."""
    return Setting(room=where, at=WallPoint(x, z), leads=leads, gap=gap)


def reported(unit: Unit, where: Setting) -> RoomReport:
    """The report with the strength under a little on the base."""
    key = (unit.name, unit.outline, where.wall, len(unit.hardware))
    if key not in _SITES or _SITES[key][0] is not unit:
        _SITES[key] = (unit, site_report(unit, (holds(base=8.0),), where.wall))
    return room_report(unit, where, _SITES[key][1])


# Strength is worked out once for a unit and a wall, since many tests set one unit anew.
_SITES: dict[object, tuple[Unit, SiteReport]] = {}
