"""A unit's place on a wall: the one link between the unit's frame and the wall's.

The unit's X runs along the wall's x and its Z along the wall's z; ``at`` is where the
unit's origin, the lower left corner of its carcass, comes to lie.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.frame import UnitBox, UnitPoint
from cabinet.quantity import kind_of, named, numbers, positive, several, within
from cabinet.site.lift import Lift, Lifter
from cabinet.site.room.frame import WallBox, WallPoint
from cabinet.site.room.room_wall import RoomWall
from cabinet.site.walls import TimberStuds, Wall


@dataclass(frozen=True, slots=True, kw_only=True)
class Lead:
    """A lead that goes from a socket behind the unit through one of its openings.

    Attributes:
        through: Name of the opening.
        socket: Name of the socket.
        plug: Width and height of the plug's body, mm; 0 where only the bare lead passes.
        plug_depth: How far plug and bend of the lead stand out from the wall's face, mm.

    Raises:
        SizeError: a blank name, or sizes of the plug that are none.
    """

    through: str
    socket: str
    plug: tuple[float, float] = (0.0, 0.0)
    plug_depth: float = 60.0

    def __post_init__(self) -> None:
        named("lead", "opening", self.through)
        named("lead", "socket", self.socket)
        wide, high = numbers(f"lead to {self.socket}", "plug", self.plug, count=2)
        within(f"lead to {self.socket}", "width of the plug", wide, 0.0, 500.0)
        within(f"lead to {self.socket}", "height of the plug", high, 0.0, 500.0)
        positive(f"lead to {self.socket}", "depth of its plug", self.plug_depth)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where a unit goes.

    Attributes:
        room: The wall.
        at: Where the lower left corner of the carcass comes to lie.
        leads: Leads that pass from sockets behind the unit through its openings.
        gap: Least room wished to what stands beside, above and below, mm.

    Raises:
        SizeError: a gap that is negative or no finite number.
        DesignError: a lead from a socket that is not on the wall.
    """

    room: RoomWall
    at: WallPoint
    leads: tuple[Lead, ...] = ()
    gap: float = 0.0

    def __post_init__(self) -> None:
        kind_of("place", "room", self.room, RoomWall, right="RoomWall(...)")
        kind_of("place", "at", self.at, WallPoint, right="WallPoint(x, z)")
        within("place", "gap", self.gap, 0.0, 2000.0)
        right = "Lead(through=..., socket=...)"
        object.__setattr__(self, "leads", several("place", "leads", self.leads, Lead, right=right))
        names = {thing.name for thing in self.room.things}
        for lead in self.leads:
            if lead.socket not in names:
                raise DesignError(
                    f"lead through {lead.through}: {self.room.name} has no socket "
                    f"{lead.socket!r}; there are {', '.join(sorted(names)) or 'none'}",
                    part=lead.through,
                    value=lead.socket,
                    limit=tuple(sorted(names)),
                )

    @property
    def wall(self) -> Wall:
        """The wall's build as the unit sees it: the first stud told as X of the unit."""
        build = self.room.build
        if isinstance(build, TimberStuds) and build.first is not None:
            return replace(build, first=build.first - self.at.x)
        return build

    def lift(
        self,
        *,
        start: float = 750.0,
        who: Lifter = Lifter.MAN,
        people: int = 1,
        has_table: bool = False,
    ) -> Lift:
        """How the unit is lifted to this place; see ``Lift``."""
        return Lift(to=self.at.z, start=start, who=who, people=people, has_table=has_table)

    def unit_to_wall(self, point: UnitPoint) -> WallPoint:
        """Where a point of the unit comes to lie, seen from the room."""
        return WallPoint(self.at.x + point.x, self.at.z + point.z)

    def box_to_wall(self, box: UnitBox) -> WallBox:
        """What a box of the unit covers of the wall."""
        return WallBox(low=self.unit_to_wall(box.low), high=self.unit_to_wall(box.high))

    def outline(self, unit: Unit) -> WallBox:
        """What the unit covers of the wall, feet included."""
        boxes = [part.box for part in unit.parts if part.group != "wall"]
        low_z = min(box.low.z for box in boxes)
        low, high = unit.outline.low, unit.outline.high
        return WallBox(
            low=WallPoint(self.at.x + low.x, self.at.z + min(low.z, low_z)),
            high=WallPoint(self.at.x + high.x, self.at.z + high.z),
        )
