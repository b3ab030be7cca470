"""Where a unit's origin may not lie on a wall, as rectangles, so that every rule holds.

Each thing that must stay clear, taken with the shape that must not reach it, forbids an open
rectangle of places; what a lead needs narrows the rectangle in which the place must lie.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.motion import Motion
from cabinet.site.cleat_model import cleat_of
from cabinet.site.room.cable_zones import cable_zones
from cabinet.site.room.frame import SAME, WallBox, WallPoint
from cabinet.site.room.leads import FINGERS, lead_way
from cabinet.site.room.screw_places import FROM_PIPE
from cabinet.site.room.setting import Setting
from cabinet.site.room.swing import sash_room
from cabinet.site.room.things import Neighbour, Pipe, Socket, Switch, Thing, Window

# A hand beside a switch needs this (common practice, no source).
HAND = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Forbidden:
    """Places that the unit's origin may not take: an open rectangle, and why."""

    why: str
    low: WallPoint
    high: WallPoint


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where the unit's origin may lie.

    Attributes:
        low: Least x and z.
        high: Greatest x and z; below ``low`` if no place will do.
        forbidden: What is cut out of that.
    """

    low: WallPoint
    high: WallPoint
    forbidden: tuple[Forbidden, ...]


def _apart(why: str, shape: WallBox, box: WallBox) -> Forbidden:
    """Places at which a shape, told from the origin, would reach into a box on the wall."""
    return Forbidden(
        why=why,
        low=WallPoint(box.low.x - shape.high.x, box.low.z - shape.high.z),
        high=WallPoint(box.high.x - shape.low.x, box.high.z - shape.low.z),
    )


def shape_of(unit: Unit, setting: Setting) -> WallBox:
    """What a unit covers of the wall with its origin at (0, 0)."""
    return setting.outline(unit).moved(-setting.at.x, -setting.at.z)


def rise(unit: Unit) -> float:
    """How far a unit is raised to be hung, mm; 0 if it is not."""
    return max((m.high for m in unit.moves if m.motion is Motion.DROP), default=0.0)


def places_for(unit: Unit, setting: Setting) -> Places:
    """All places that a unit may take on its wall.

    Args:
        unit: The unit, resolved.
        setting: Wall, leads and gaps; its own place does not count.
    """
    room, shape = setting.room, shape_of(unit, setting)
    left = max([0.0, *(r.x for r in room.left_corner)])
    right = min([room.width, *(r.x for r in room.right_corner)])
    foot = room.skirting if unit.is_hung else 0.0
    low = [left - shape.low.x, foot - shape.low.z]
    high = [right - shape.high.x, room.height - shape.high.z - rise(unit)]
    if not unit.is_hung:
        high[1] = min(high[1], low[1])
    forbidden: list[Forbidden] = []
    for thing in room.things:
        forbidden += _of_thing(unit, setting, shape, thing)
    forbidden += _of_screws(unit, setting)
    for lead in setting.leads:
        way = lead_way(unit, setting, lead)
        socket = way.socket
        # The socket behind the unit, within the bay that the opening leads to.
        low[0] = max(low[0], socket.x - way.bay[1], socket.box.high.x - shape.high.x)
        high[0] = min(high[0], socket.x - way.bay[0], socket.box.low.x - shape.low.x)
        low[1] = max(low[1], socket.box.high.z - shape.high.z)
        high[1] = min(high[1], socket.box.low.z - shape.low.z)
        near = socket.box.grown(left=FINGERS, right=FINGERS, down=FINGERS, up=FINGERS)
        forbidden += _of_parts(unit, setting, near, lead.plug_depth, f"plug in {socket.name}")
    return Places(low=WallPoint(*low), high=WallPoint(*high), forbidden=tuple(forbidden))


def _of_parts(
    unit: Unit, setting: Setting, box: WallBox, depth: float, why: str
) -> Iterator[Forbidden]:
    """Places at which a part would leave less than a depth before a box on the wall."""
    wall = max(part.box.high.y for part in unit.parts)
    for part in unit.parts:
        if wall - part.box.high.y < depth - 1e-6:
            shape = setting.box_to_wall(part.box).moved(-setting.at.x, -setting.at.z)
            yield _apart(f"{why}, {part.name}", shape, box)


def _of_thing(unit: Unit, setting: Setting, shape: WallBox, thing: Thing) -> Iterator[Forbidden]:
    box = thing.box
    raised = shape.grown(up=rise(unit))
    if isinstance(thing, Switch):
        yield _apart(thing.name, shape, box.grown(left=HAND, right=HAND, down=HAND, up=HAND))
    elif isinstance(thing, Socket):
        if thing.name not in {lead.socket for lead in setting.leads}:
            yield _apart(thing.name, shape, box)
    elif isinstance(thing, Pipe):
        if thing.stands_out:
            yield from _of_parts(unit, setting, box, thing.stands_out, thing.name)
    elif isinstance(thing, Window):
        depth = max(part.box.high.y for part in unit.parts) - unit.outline.low.y
        yield _apart(thing.name, raised, thing.frame)
        if thing.sill_box is not None:
            yield _apart(f"sill of {thing.name}", raised, thing.sill_box)
        swept = sash_room(thing, depth)
        if swept is not None:
            yield _apart(f"sash of {thing.name}", shape, swept)
    else:
        gap = max(thing.gap, setting.gap) if isinstance(thing, Neighbour) else 0.0
        yield _apart(thing.name, shape, box.grown(left=gap, right=gap, down=gap, up=gap))
        yield _apart(f"room to lift under {thing.name}", raised, box)


def _of_screws(unit: Unit, setting: Setting) -> Iterator[Forbidden]:
    """Places at which a wall screw would lie in a cable zone or near a pipe."""
    cleat = cleat_of(unit) if unit.is_hung else None
    if cleat is None:
        return
    radius = cleat.screw.diameter / 2
    zones = [
        (zone.name, zone.box.grown(left=radius, right=radius, down=radius, up=radius))
        for zone in cable_zones(setting.room)
    ]
    near = FROM_PIPE + radius
    zones += [
        (f"screws near {thing.name}", thing.box.grown(left=near, right=near, down=near, up=near))
        for thing in setting.room.things
        if isinstance(thing, Pipe)
    ]
    for item in cleat.screws:
        at = WallPoint(item.at.x, item.at.z)
        for name, box in zones:
            yield Forbidden(
                why=f"{item.name} in {name}",
                low=WallPoint(box.low.x - at.x, box.low.z - at.z),
                high=WallPoint(box.high.x - at.x, box.high.z - at.z),
            )


def is_allowed(places: Places, at: WallPoint) -> bool:
    """Whether the origin may lie there, edges of what is forbidden included."""
    if not (
        places.low.x - SAME <= at.x <= places.high.x + SAME
        and places.low.z - SAME <= at.z <= places.high.z + SAME
    ):
        return False
    return not any(
        f.low.x + SAME < at.x < f.high.x - SAME and f.low.z + SAME < at.z < f.high.z - SAME
        for f in places.forbidden
    )
