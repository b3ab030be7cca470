"""A wall as the maker measured it: its size, what it is built of, what is there, how true it is.

Everything is told in the wall's frame, mm: x from its left end, z above the finished floor at
the mark of the level line.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from cabinet.errors import DesignError, SizeError
from cabinet.quantity import finite, named, positive, several, within
from cabinet.site.room.things import Thing
from cabinet.site.walls import Wall, require_wall


@dataclass(frozen=True, slots=True)
class FloorReading:
    """Measured down from the level line to the floor at ``x``: ``below``, mm."""

    x: float
    below: float

    def __post_init__(self) -> None:
        finite("floor reading", "x", self.x)
        positive("floor reading", "distance below the level line", self.below)


@dataclass(frozen=True, slots=True)
class FaceReading:
    """From a straight and plumb reference before the wall back to its face at (x, z): mm."""

    x: float
    z: float
    gap: float

    def __post_init__(self) -> None:
        finite("face reading", "x", self.x)
        finite("face reading", "z", self.z)
        within("face reading", "gap", self.gap, 0.0, 500.0)


@dataclass(frozen=True, slots=True)
class CornerReading:
    """Where the adjoining wall's face is at a height ``z``: its ``x``, mm."""

    z: float
    x: float

    def __post_init__(self) -> None:
        finite("corner reading", "z", self.z)
        finite("corner reading", "x", self.x)


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomWall:
    """A wall and what is there.

    Attributes:
        name: What it is called (``potting-room wall``).
        width: From its left to its right end.
        height: From the finished floor to the ceiling.
        build: Studs, masonry or hollow; the place of the first stud is told along this wall.
        datum: Height of the level line above the finished floor, at the mark.
        things: What is on it or stands before it.
        skirting: Height of the skirting board; 0 for none.
        skirting_thick: Its thickness.
        floor: Readings from the level line down to the floor.
        face: Readings from a plumb reference back to the wall.
        left_corner: Readings of the wall that meets it at its left end; none if it is straight.
        right_corner: The same at its right end.

    Raises:
        UnknownNameError: a build that is none.
        SizeError: sizes that are not positive, or a thing outside the wall.
        DesignError: two things of one name.
    """

    name: str
    width: float
    height: float
    build: Wall
    datum: float
    things: tuple[Thing, ...] = ()
    skirting: float = 0.0
    skirting_thick: float = 0.0
    floor: tuple[FloorReading, ...] = ()
    face: tuple[FaceReading, ...] = ()
    left_corner: tuple[CornerReading, ...] = ()
    right_corner: tuple[CornerReading, ...] = ()

    def __post_init__(self) -> None:
        named("wall", "name", self.name)
        positive(self.name, "width", self.width)
        positive(self.name, "height", self.height)
        within(self.name, "level line", self.datum, 1.0, self.height, why="floor to ceiling")
        within(self.name, "skirting", self.skirting, 0.0, self.height)
        within(self.name, "thickness of the skirting", self.skirting_thick, 0.0, 100.0)
        require_wall(self.name, self.build)
        self._check_readings()
        for x in (*(r.x for r in self.floor), *(r.x for r in self.face)):
            within(self.name, "place of a reading", x, 0.0, self.width, why="its width")
        self._check_things()

    def _check_readings(self) -> None:
        for name, kind, right in (
            ("floor", FloorReading, "FloorReading(x, below)"),
            ("face", FaceReading, "FaceReading(x, z, gap)"),
            ("left_corner", CornerReading, "CornerReading(z, x)"),
            ("right_corner", CornerReading, "CornerReading(z, x)"),
        ):
            told = several(self.name, name, getattr(self, name), kind, right=right)
            object.__setattr__(self, name, told)

    def _check_things(self) -> None:
        right = "Window, Mirror, Socket, Switch, Pipe or Neighbour"
        things = several(self.name, "things", self.things, object, right=right)
        object.__setattr__(self, "things", things)
        for thing in self.things:
            if not isinstance(thing, Thing):
                raise DesignError(
                    f"{self.name}: {thing!r} is nothing that a wall can hold; give Window, Mirror, "
                    "Socket, Switch, Pipe or Neighbour",
                    part=self.name,
                    value=thing,
                )
            box = thing.box
            is_inside = (
                box.low.x >= -_OVER
                and box.high.x <= self.width + _OVER
                and box.low.z >= -_OVER
                and box.high.z <= self.height + _OVER
            )
            if not is_inside:
                raise SizeError(
                    f"{self.name}: {thing.name} reaches from x {box.low.x:g} to {box.high.x:g} and "
                    f"z {box.low.z:g} to {box.high.z:g} mm, which is outside the wall of "
                    f"{self.width:g} x {self.height:g} mm; measure it from the wall's left end and "
                    "from the floor",
                    part=thing.name,
                    value=(box.low.x, box.low.z, box.high.x, box.high.z),
                    limit=(self.width, self.height),
                )
        names = [thing.name for thing in self.things]
        doubles = sorted({name for name in names if names.count(name) > 1})
        if doubles:
            raise DesignError(
                f"{self.name}: two things are called {doubles[0]!r}; each needs its own name",
                part=self.name,
                value=doubles[0],
                limit="distinct names",
            )

    def floor_level(self, x: float) -> float:
        """Height of the floor at x over the finished floor at the mark, mm; 0 unmeasured."""
        known = sorted((r.x, self.datum - r.below) for r in self.floor)
        return between(known, x) if known else 0.0


# Measuring is good to this, mm.
_OVER = 1.0


def between(known: list[tuple[float, float]], at: float) -> float:
    """The value at a place between measured ones, straight from one to the next.

    Args:
        known: Places in rising order with their values, at least one.
        at: The place; beyond the first or the last the nearest value holds.
    """
    if at <= known[0][0]:
        return known[0][1]
    for (a, low), (b, high) in pairwise(known):
        if at <= b:
            return low if b == a else low + (high - low) * (at - a) / (b - a)
    return known[-1][1]
