"""Leads from sockets behind a unit: room for the plug, and a way to the opening.

A lead's way is judged bay by bay: the opening must lead into a bay that is open to the wall
where the socket is.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.errors import UnknownNameError
from cabinet.joint import Opening
from cabinet.part import Part
from cabinet.site.room.frame import WallBox
from cabinet.site.room.setting import Lead, Setting
from cabinet.site.room.things import Socket

# Room for fingers round a socket's plate behind a unit (common practice, no source).
FINGERS = 15.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadWay:
    """A lead and what stands in its way.

    Attributes:
        lead: The lead.
        socket: Its socket.
        depth: Free depth before the socket, from the wall to the nearest part, mm.
        nearest: Name of that part; "" if nothing is before it.
        bay: Where the opening leads to: X from and to in the unit, mm.
        is_behind: Whether the unit covers the socket at all.
        is_same_bay: Whether the socket lies behind that bay.
        opening: Clear sizes of the opening, the longer one first, mm.
    """

    lead: Lead
    socket: Socket
    depth: float
    nearest: str
    bay: tuple[float, float]
    is_behind: bool
    is_same_bay: bool
    opening: tuple[float, float]

    @property
    def passes_plug(self) -> bool:
        """Whether the plug's body goes through the opening."""
        plug = sorted(self.lead.plug, reverse=True)
        return all(need <= size + 1e-9 for need, size in zip(plug, self.opening, strict=True))


def depth_before(
    unit: Unit, setting: Setting, box: WallBox, *, around: float = 0.0
) -> tuple[float, str]:
    """Free depth from the wall before a box on it, mm, and the part that ends it ("" for none).

    Args:
        unit: The unit.
        setting: Where it goes.
        box: A place on the wall.
        around: Room wished around the box, mm.
    """
    wall = max(part.box.high.y for part in unit.parts)
    wide = box.grown(left=around, right=around, down=around, up=around)
    before = [
        (part.box.high.y, part.name)
        for part in unit.parts
        if setting.box_to_wall(part.box).covers(wide)
    ]
    if not before:
        return float("inf"), ""
    y, name = max(before)
    return wall - y, name


def _bay(unit: Unit, x: float) -> tuple[float, float]:
    """X of the uprights left and right of a place."""
    uprights: list[Part] = [p for p in unit.parts if p.role in {"side", "divider"}]
    left = max((p.box.high.x for p in uprights if p.box.high.x <= x), default=unit.outline.low.x)
    right = min((p.box.low.x for p in uprights if p.box.low.x >= x), default=unit.outline.high.x)
    return left, right


def lead_way(unit: Unit, setting: Setting, lead: Lead) -> LeadWay:
    """The way of one lead.

    Raises:
        UnknownNameError: the unit has no such opening, or the lead begins at no socket.
    """
    openings = {j.name: j for j in unit.joints if isinstance(j, Opening)}
    if lead.through not in openings:
        raise UnknownNameError(
            f"lead to {lead.socket}: {unit.name} has no opening {lead.through!r}; there are "
            f"{', '.join(sorted(openings)) or 'none'}",
            part=lead.socket,
            value=lead.through,
            limit=tuple(sorted(openings)),
        )
    socket = next(thing for thing in setting.room.things if thing.name == lead.socket)
    if not isinstance(socket, Socket):
        raise UnknownNameError(
            f"lead through {lead.through}: {lead.socket} is no socket but a "
            f"{type(socket).__name__.lower()}",
            part=lead.through,
            value=lead.socket,
            limit="a socket",
        )
    opening = openings[lead.through]
    bay = _bay(unit, opening.centre.x)
    depth, nearest = depth_before(unit, setting, socket.box, around=FINGERS)
    x = socket.x - setting.at.x
    long, short = sorted(opening.size, reverse=True)
    return LeadWay(
        lead=lead,
        socket=socket,
        depth=depth,
        nearest=nearest,
        bay=bay,
        is_behind=setting.outline(unit).covers(socket.box),
        is_same_bay=bay[0] <= x <= bay[1],
        opening=(long, short),
    )
