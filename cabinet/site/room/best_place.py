"""The best place of a unit on its wall, computed exactly.

What may be taken is a rectangle less open rectangles, and each wish costs in proportion to the
distance along one axis. Between the lines x = edge or target and z = edge or target the cost
changes straight, so a cheapest place lies where two such lines cross: all crossings are looked
at, and nothing is left to chance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.quantity import kind_of, several
from cabinet.site.room.frame import SAME, WallPoint
from cabinet.site.room.keep_clear import Places, places_for, shape_of
from cabinet.site.room.setting import Setting
from cabinet.site.room.wishes import Centred, PlaceWish, Pull, pull


@dataclass(frozen=True, slots=True, kw_only=True)
class BestPlace:
    """The place found.

    Attributes:
        at: Where the unit's origin comes to lie.
        misses: Each wish in words, and by how much it is missed, mm.
        cost: What all misses cost together.
    """

    at: WallPoint
    misses: tuple[tuple[str, float], ...]
    cost: float


def best_place(unit: Unit, setting: Setting, wishes: Sequence[PlaceWish]) -> BestPlace:
    """The cheapest place that every rule allows; of equal ones that nearest to ``setting.at``.

    Where the ties of a standing unit go hangs on its loads, so nothing is known of them here.

    Args:
        unit: The unit, resolved.
        setting: Wall, leads, gaps, and the place it has now.
        wishes: What is wished, with weights.

    Raises:
        KindError: no resolved unit, no setting, or something that is no wish.
        DesignError: no place on the wall will do.
        UnknownNameError: a wish names what is not there.
    """
    kind_of("best place", "unit", unit, Unit, right="a resolved design: design.resolve()")
    kind_of("best place", "setting", setting, Setting, right="Setting(room=..., at=...)")
    right = "Centred(x=...), InLine(edge=..., at=...) or Beside(thing=..., side=...)"
    for wish in several("best place", "wishes", wishes, object, right=right):
        if not isinstance(wish, PlaceWish):
            kind_of("best place", "wish", wish, Centred, right=right)
    places = places_for(unit, setting)
    shape = shape_of(unit, setting)
    pulls = [pull(wish, setting.room, shape) for wish in wishes]
    found = cheapest(places, pulls, setting.at)
    if found is None:
        raise DesignError(
            f"{unit.name}: no place on {setting.room.name} is free for its "
            f"{shape.width:g} x {shape.height:g} mm; make it smaller, move its wall screws, or "
            "give up a gap",
            part=unit.name,
            value=(shape.width, shape.height),
            limit=tuple(sorted({f.why for f in places.forbidden})),
        )
    misses = tuple((p.said, abs((found.x, found.z)[p.axis] - p.target)) for p in pulls)
    cost = sum(p.weight * miss for p, (_, miss) in zip(pulls, misses, strict=True))
    return BestPlace(at=found, misses=misses, cost=cost)


def _lines(places: Places, pulls: Sequence[Pull], now: WallPoint, axis: int) -> list[float]:
    """Coordinates at which a cheapest place can lie on one axis."""
    low, high = ((p.x, p.z)[axis] for p in (places.low, places.high))
    tried = [low, high, (now.x, now.z)[axis], *(p.target for p in pulls if p.axis == axis)]
    for each in places.forbidden:
        tried += [(each.low.x, each.low.z)[axis], (each.high.x, each.high.z)[axis]]
    return sorted({round(t, 6) for t in tried if low - SAME <= t <= high + SAME})


def cheapest(places: Places, pulls: Sequence[Pull], now: WallPoint) -> WallPoint | None:
    """The cheapest place of all that are allowed; None if there are none.

    Args:
        places: What is allowed.
        pulls: What is wished.
        now: Of equally cheap places the nearest to this one is taken.
    """
    xs = np.array(_lines(places, pulls, now, 0))
    zs = np.array(_lines(places, pulls, now, 1))
    if not len(xs) or not len(zs):
        return None
    x, z = (grid.ravel() for grid in np.meshgrid(xs, zs, indexing="ij"))
    is_free = np.ones(len(x), dtype=np.bool_)
    for each in places.forbidden:
        is_free &= ~(
            (x > each.low.x + SAME)
            & (x < each.high.x - SAME)
            & (z > each.low.z + SAME)
            & (z < each.high.z - SAME)
        )
    x, z = x[is_free], z[is_free]
    if not len(x):
        return None
    cost = np.zeros(len(x))
    for each_pull in pulls:
        cost += each_pull.weight * np.abs((x, z)[each_pull.axis] - each_pull.target)
    away = np.abs(x - now.x) + np.abs(z - now.z)
    # Cheapest, then nearest, then leftmost and lowest; rounded, so that ties are ties.
    best = np.lexsort((z, x, np.round(away, 6), np.round(cost, 6)))[0]
    return WallPoint(float(x[best]), float(z[best]))
