"""Where the wall screws of a cleat go: into what, at which places on the cleat and on the wall.

Screws that the design has are kept where they hold and where no cable is likely; the others are
moved as little as can be, and further ones are added if the loads ask for them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.components.cleat import LEAST_WALL_PITCH, WALL_SCREW_FROM_END
from cabinet.design import Unit
from cabinet.site.anti_tip import SCREW, AntiTip
from cabinet.site.cleat_model import Cleat
from cabinet.site.room.cable_zones import CableZone, zones_at
from cabinet.site.room.frame import SAME, WallPoint
from cabinet.site.room.setting import Setting
from cabinet.site.room.things import Pipe
from cabinet.site.wall_fixings import IN_STUD
from cabinet.site.walls import SolidMasonry, TimberStuds

# Room between a screw and a pipe in the wall (common practice, no source).
FROM_PIPE = 50.0
# Places are told to whole millimetres and tried so finely.
_STEP = 1.0
# A tie's bracket keeps so far within the unit's sides (common practice, no source).
TIE_FROM_SIDE = 40.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewPlace:
    """One wall screw.

    Attributes:
        name: What it is called: ``wall screw 1``, ``tie 1``.
        on_cleat: From the left end of the wall half (a tie: of the unit), mm.
        at: On the wall.
        into: What it holds in: ``stud at 1180``, ``masonry``, ``hollow wall``.
        zones: Cable zones that it lies in.
        pipes: Pipes that it comes too near to.
    """

    name: str
    on_cleat: float
    at: WallPoint
    into: str
    zones: tuple[CableZone, ...] = ()
    pipes: tuple[str, ...] = ()

    @property
    def is_clear(self) -> bool:
        """Whether no cable or pipe is likely there."""
        return not self.zones and not self.pipes


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewPlan:
    """The screws as designed, and the places where they should be.

    Attributes:
        designed: The screws that the cleat has.
        proposed: Where they should go instead, from the left end of the wall half, mm; as
            designed if nothing is wrong; None if no places will do at this height.
    """

    designed: tuple[ScrewPlace, ...]
    proposed: tuple[float, ...] | None


def pipes_near(setting: Setting, at: WallPoint, radius: float) -> tuple[str, ...]:
    """Pipes nearer to a place on the wall than a screw may come."""
    room = FROM_PIPE + radius
    found = []
    for thing in setting.room.things:
        if isinstance(thing, Pipe):
            box = thing.box
            dx = max(box.low.x - at.x, at.x - box.high.x)
            dz = max(box.low.z - at.z, at.z - box.high.z)
            if max(dx, dz) < room - SAME:
                found.append(thing.name)
    return tuple(found)


def _into(setting: Setting, diameter: float, at: WallPoint) -> str:
    """What a screw at a place holds in; "" for nothing known."""
    build = setting.room.build
    if isinstance(build, SolidMasonry):
        return "masonry"
    if not isinstance(build, TimberStuds):
        return "hollow wall"
    room = build.width / 2 - IN_STUD * diameter
    for centre in build.centres(at.x - build.width, at.x + build.width):
        if abs(centre - at.x) <= room + 1e-9:
            return f"stud at {centre:.0f}"
    return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rail:
    """A level line on the wall along which screws can be placed; lengths in mm."""

    setting: Setting
    zones: tuple[CableZone, ...]
    diameter: float
    start: WallPoint
    low: float
    high: float

    def place(self, along: float, name: str = "screw") -> ScrewPlace:
        """A screw so far along it."""
        at = self.start.moved(along, 0.0)
        radius = self.diameter / 2
        return ScrewPlace(
            name=name,
            on_cleat=round(along, 6),
            at=at,
            into=_into(self.setting, self.diameter, at),
            zones=zones_at(self.zones, at, radius),
            pipes=pipes_near(self.setting, at, radius),
        )

    def free(self) -> list[float]:
        """Places, to whole mm (in studs: their middles), where a screw holds and is clear."""
        build = self.setting.room.build
        if isinstance(build, TimberStuds):
            x = self.start.x
            tried = [round(c - x, 1) for c in build.centres(x + self.low, x + self.high)]
        else:
            steps = math.floor((self.high - math.ceil(self.low)) / _STEP)
            tried = [math.ceil(self.low) + i * _STEP for i in range(steps + 1)]
        places = (self.place(along) for along in tried)
        return [place.on_cleat for place in places if place.is_clear and place.into]


def screw_plan(
    setting: Setting, cleat: Cleat, zones: tuple[CableZone, ...], needed: int | None
) -> ScrewPlan:
    """Where a cleat's wall screws are, and where they should be.

    Args:
        setting: Where the unit goes.
        cleat: Its cleat.
        zones: Cable zones of the wall.
        needed: Least number of screws by the loads; None if no number will do.
    """
    box = cleat.wall_half.box
    rail = _Rail(
        setting=setting,
        zones=zones,
        diameter=cleat.screw.diameter,
        start=WallPoint(setting.at.x + box.low.x, setting.at.z + cleat.screw_level),
        low=WALL_SCREW_FROM_END,
        high=box.size[0] - WALL_SCREW_FROM_END,
    )
    own = sorted(item.at.x - box.low.x for item in cleat.screws)
    designed = tuple(rail.place(x, f"wall screw {i}") for i, x in enumerate(own, start=1))
    return _plan(rail, designed, max(len(designed), needed or 0))


def tie_plan(setting: Setting, unit: Unit, tie: AntiTip, zones: tuple[CableZone, ...]) -> ScrewPlan:
    """Where the ties of a standing unit are, and where they should be.

    Args:
        setting: Where the unit goes.
        unit: The unit.
        tie: Its ties.
        zones: Cable zones of the wall.
    """
    left, right = unit.outline.low.x, unit.outline.high.x
    rail = _Rail(
        setting=setting,
        zones=zones,
        diameter=SCREW,
        start=WallPoint(setting.at.x + left, setting.at.z + tie.level),
        low=TIE_FROM_SIDE,
        high=right - left - TIE_FROM_SIDE,
    )
    designed = tuple(rail.place(x - left, f"tie {i}") for i, x in enumerate(tie.places, start=1))
    return _plan(rail, designed, len(designed))


def _plan(rail: _Rail, designed: tuple[ScrewPlace, ...], wanted: int) -> ScrewPlan:
    good = [place.on_cleat for place in designed if place.is_clear and place.into]
    own = [place.on_cleat for place in designed]
    if len(good) == wanted == len(own):
        return ScrewPlan(designed=designed, proposed=tuple(own))
    return ScrewPlan(designed=designed, proposed=_proposed(rail.free(), good, own, wanted))


def _proposed(
    free: list[float], good: list[float], own: list[float], wanted: int
) -> tuple[float, ...] | None:
    """Good screws kept, bad ones moved to the nearest free place, further ones far from all."""
    chosen = sorted(good)

    def is_apart(x: float) -> bool:
        return all(abs(x - other) >= LEAST_WALL_PITCH - 1e-9 for other in chosen)

    for x in sorted(set(own) - set(good)):
        near = [place for place in free if is_apart(place)]
        if near:
            chosen.append(min(near, key=lambda place: (abs(place - x), place)))
    while len(chosen) < wanted:
        near = [place for place in free if is_apart(place)]
        if not near:
            break
        chosen.append(max(near, key=lambda p: (min((abs(p - c) for c in chosen), default=0.0), -p)))
    return tuple(sorted(chosen)) if len(chosen) >= min(len(own), 2) else None
