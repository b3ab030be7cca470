"""What is on a wall or stands before it: windows, mirrors, sockets, switches, pipes, neighbours.

Places are told in the wall's frame, mm. Sizes of plates are those of common square boxes, from
memory; give your own.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from cabinet.errors import SizeError
from cabinet.frame import Side
from cabinet.quantity import finite, kind_of, member, named, positive, several, within
from cabinet.site.room.frame import WallBox, WallPoint, wall_box

EVERY_WAY = (Side.TOP, Side.BOTTOM, Side.LEFT, Side.RIGHT)


class Sash(Enum):
    """How a window opens, seen from the room."""

    FIXED = "does not open"
    SLIDES = "slides in its frame"
    HINGED_LEFT = "opens into the room, hinged at its left"
    HINGED_RIGHT = "opens into the room, hinged at its right"
    TILTS = "tilts into the room at its top"


def _check_edges(
    kind: str, name: str, corner: tuple[float, float], size: tuple[float, float]
) -> None:
    named(kind, "name", name)
    finite(name, "left edge", corner[0])
    finite(name, "lower edge", corner[1])
    positive(name, "width", size[0])
    positive(name, "height", size[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A window with its frame and its sill board.

    Attributes:
        name: What it is called.
        left: Left edge of the frame or lining.
        bottom: Its lower edge, where the sill board begins.
        width: Over the frame.
        height: Over the frame.
        sash: How it opens.
        opens: How far a hinged sash opens, degrees.
        sill: Height of the sill board below the frame; 0 for none.
        sill_ends: How far the sill board runs past the frame at each end.
    """

    name: str
    left: float
    bottom: float
    width: float
    height: float
    sash: Sash = Sash.FIXED
    opens: float = 90.0
    sill: float = 0.0
    sill_ends: float = 0.0

    def __post_init__(self) -> None:
        _check_edges("window", self.name, (self.left, self.bottom), (self.width, self.height))
        member(self.name, "sash", self.sash, Sash)
        within(self.name, "opening of the sash", self.opens, 10.0, 180.0, unit="degrees")
        within(self.name, "sill", self.sill, 0.0, 300.0)
        within(self.name, "ends of the sill", self.sill_ends, 0.0, 500.0)

    @property
    def frame(self) -> WallBox:
        """The frame alone."""
        return wall_box(self.left, self.bottom, self.width, self.height)

    @property
    def sill_box(self) -> WallBox | None:
        """The sill board; None if there is none."""
        if not self.sill:
            return None
        ends = self.sill_ends
        return wall_box(self.left - ends, self.bottom - self.sill, self.width + 2 * ends, self.sill)

    @property
    def box(self) -> WallBox:
        """All of it."""
        return self.frame.grown(left=self.sill_ends, right=self.sill_ends, down=self.sill)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mirror:
    """A mirror on the wall: left edge, lower edge, width and height."""

    name: str
    left: float
    bottom: float
    width: float
    height: float

    def __post_init__(self) -> None:
        _check_edges("mirror", self.name, (self.left, self.bottom), (self.width, self.height))

    @property
    def box(self) -> WallBox:
        """Where it is."""
        return wall_box(self.left, self.bottom, self.width, self.height)


@dataclass(frozen=True, slots=True, kw_only=True)
class Socket:
    """A socket outlet.

    Attributes:
        name: What it is called.
        x: Of its middle.
        z: Of its middle above the floor.
        width: Of its plate.
        height: Of its plate.
        cables: Ways in which its cable may run within the wall; all of them unless a licensed
            electrician has traced it.
    """

    name: str
    x: float
    z: float
    width: float = 86.0
    height: float = 86.0
    cables: tuple[Side, ...] = EVERY_WAY

    def __post_init__(self) -> None:
        _check_plate("socket", self)

    @property
    def box(self) -> WallBox:
        """Its plate."""
        return _plate(self.x, self.z, self.width, self.height)


@dataclass(frozen=True, slots=True, kw_only=True)
class Switch:
    """A light switch or another control that is worked by hand; as ``Socket``."""

    name: str
    x: float
    z: float
    width: float = 86.0
    height: float = 86.0
    cables: tuple[Side, ...] = EVERY_WAY

    def __post_init__(self) -> None:
        _check_plate("switch", self)

    @property
    def box(self) -> WallBox:
        """Its plate."""
        return _plate(self.x, self.z, self.width, self.height)


def _plate(x: float, z: float, width: float, height: float) -> WallBox:
    return wall_box(x - width / 2, z - height / 2, width, height)


def _check_plate(kind: str, thing: Socket | Switch) -> None:
    name = named(kind, "name", thing.name)
    finite(name, "x of its middle", thing.x)
    finite(name, "z of its middle", thing.z)
    positive(name, "width of the plate", thing.width)
    positive(name, "height of the plate", thing.height)
    ways = several(name, "cables", thing.cables, Side, right="ways, such as Side.TOP")
    if set(ways) - set(EVERY_WAY):
        raise SizeError(
            f"{name}: its cables run {', '.join(way.value for way in ways)}; within a wall they "
            "run to the top, bottom, left or right",
            part=name,
            value=tuple(way.value for way in ways),
            limit="top, bottom, left, right",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pipe:
    """A straight pipe, upright or level.

    Attributes:
        name: What it is called.
        start: One end of its middle line.
        end: The other end.
        diameter: Over all, with its lagging.
        stands_out: How far it stands out from the wall's face; 0 lies within the wall.
    """

    name: str
    start: WallPoint
    end: WallPoint
    diameter: float
    stands_out: float = 0.0

    def __post_init__(self) -> None:
        named("pipe", "name", self.name)
        kind_of(self.name, "start", self.start, WallPoint, right="WallPoint(x, z)")
        kind_of(self.name, "end", self.end, WallPoint, right="WallPoint(x, z)")
        positive(self.name, "diameter", self.diameter)
        within(self.name, "how far it stands out", self.stands_out, 0.0, 400.0)
        if (self.start.x == self.end.x) == (self.start.z == self.end.z):
            raise SizeError(
                f"{self.name}: it runs from {self.start} to {self.end}; give straight pieces that "
                "are upright or level, one by one",
                part=self.name,
                value=(self.start, self.end),
                limit="upright or level",
            )

    @property
    def box(self) -> WallBox:
        """What it covers of the wall."""
        half = self.diameter / 2
        xs, zs = sorted((self.start.x, self.end.x)), sorted((self.start.z, self.end.z))
        if xs[0] == xs[1]:
            xs = [xs[0] - half, xs[1] + half]
        else:
            zs = [zs[0] - half, zs[1] + half]
        return WallBox(low=WallPoint(xs[0], zs[0]), high=WallPoint(xs[1], zs[1]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbour:
    """Something else before the wall: a bench top, another unit, a shelf, a tap.

    Attributes:
        name: What it is called.
        left: Left edge.
        bottom: Lower edge.
        width: Along the wall.
        height: Upwards.
        gap: Least room that it needs all round, mm.
    """

    name: str
    left: float
    bottom: float
    width: float
    height: float
    gap: float = 0.0

    def __post_init__(self) -> None:
        _check_edges("neighbour", self.name, (self.left, self.bottom), (self.width, self.height))
        within(self.name, "gap", self.gap, 0.0, 2000.0)

    @property
    def box(self) -> WallBox:
        """Where it is."""
        return wall_box(self.left, self.bottom, self.width, self.height)


Thing = Window | Mirror | Socket | Switch | Pipe | Neighbour
