"""Where cables usually run in a wall: bands along its top and its corners, and from accessories.

Source: BS 7671:2018, regulation 522.6.202, as quoted from the On-Site Guide 7.3.2 on two public
    pages: cables less than 50 mm deep run within 150 mm of the wall's top, within 150 mm of an
    angle of two walls, or level or upright in line with an accessory. On a wall of 100 mm or
    less the zones of the other side count too. A zone is where a cable is likely; outside it
    there may be one all the same, so test before drilling and leave doubts to a licensed
    electrician and the local code.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.frame import Side
from cabinet.site.room.frame import SAME, WallBox, WallPoint
from cabinet.site.room.room_wall import RoomWall
from cabinet.site.room.things import Socket, Switch

RULE = "BS 7671, 522.6.202"
STRIP = 150.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CableZone:
    """A part of the wall in which a cable is likely."""

    name: str
    box: WallBox


def cable_zones(room: RoomWall) -> tuple[CableZone, ...]:
    """All zones of a wall, the strips first, then those of each accessory."""
    width, height = room.width, room.height
    strip = min(STRIP, width, height)
    whole = WallBox(low=WallPoint(0.0, 0.0), high=WallPoint(width, height))
    zones = [
        CableZone(
            name=f"the top {STRIP:g} mm of the wall",
            box=WallBox(low=WallPoint(0.0, height - strip), high=whole.high),
        ),
        CableZone(
            name=f"{STRIP:g} mm from the wall's left corner",
            box=WallBox(low=whole.low, high=WallPoint(strip, height)),
        ),
        CableZone(
            name=f"{STRIP:g} mm from the wall's right corner",
            box=WallBox(low=WallPoint(width - strip, 0.0), high=whole.high),
        ),
    ]
    for thing in room.things:
        if isinstance(thing, Socket | Switch):
            zones += _of_accessory(thing, whole)
    return tuple(zones)


def _of_accessory(thing: Socket | Switch, whole: WallBox) -> list[CableZone]:
    box, ways = thing.box, set(thing.cables)
    zones = []
    if ways & {Side.LEFT, Side.RIGHT}:
        left = whole.low.x if Side.LEFT in ways else box.low.x
        right = whole.high.x if Side.RIGHT in ways else box.high.x
        zones.append(
            CableZone(
                name=f"level with the {thing.name}",
                box=WallBox(low=WallPoint(left, box.low.z), high=WallPoint(right, box.high.z)),
            )
        )
    if ways & {Side.TOP, Side.BOTTOM}:
        low = whole.low.z if Side.BOTTOM in ways else box.low.z
        high = whole.high.z if Side.TOP in ways else box.high.z
        zones.append(
            CableZone(
                name=f"above and below the {thing.name}",
                box=WallBox(low=WallPoint(box.low.x, low), high=WallPoint(box.high.x, high)),
            )
        )
    return zones


def zones_at(
    zones: tuple[CableZone, ...], place: WallPoint, radius: float
) -> tuple[CableZone, ...]:
    """The zones that a screw of a radius (mm) would enter."""
    into = radius - SAME
    return tuple(
        zone
        for zone in zones
        if zone.box.low.x - into < place.x < zone.box.high.x + into
        and zone.box.low.z - into < place.z < zone.box.high.z + into
    )
