"""The forces on a unit that hangs on a bevelled cleat, as a body in equilibrium.

The bevel carries all of the weight. Without friction it also draws the unit to the wall as
hard as W tan(angle), and pushes the wall half off it by as much. The centre of mass stands
off the bevel, so the unit turns: its foot pushes the wall, and its top must be held.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.quantity import positive, within
from cabinet.site.ranges import Between

# Friction of planed wood on wood along the bevel, as a range (common practice, no source). The
# checks use the worst end, none at all: knocks shake it out.
FRICTION = Between(0.0, 0.25, 0.4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """Where things are on a hung unit, mm; heights are told from the foot's contact.

    Attributes:
        weight: W, N.
        centre: a, of the centre of mass from the wall.
        bevel: b, of the middle of the bevel's contact from the wall.
        height: k, of the bevel's middle above the foot's contact.
        angle: Of the bevel from level, degrees.
        bevel_above: Of the bevel's middle above the lower edge of the wall half.
        screws_above: Of the line of the wall screws above that edge.
    """

    weight: float
    centre: float
    bevel: float
    height: float
    angle: float
    bevel_above: float
    screws_above: float

    def __post_init__(self) -> None:
        positive("hanging", "weight", self.weight, unit="N")
        positive("hanging", "height of the bevel over the foot", self.height)
        within("hanging", "angle of the bevel", self.angle, 1.0, 60.0, unit="degrees")
        positive("hanging", "bevel above the cleat's edge", self.bevel_above)
        positive("hanging", "screws above the cleat's edge", self.screws_above)
        within("hanging", "bevel from the wall", self.bevel, 0.0, math.inf)


@dataclass(frozen=True, slots=True, kw_only=True)
class CleatForces:
    """Forces on the wall half and on the foot, N.

    Attributes:
        down: Down on the bevel.
        tilt: Push of the foot against the wall, and the least pull at the top.
        out: Outwards on the bevel, by friction: none is the greatest.
        pull: On all wall screws together, the wall half prying on its lower edge.
    """

    down: float
    tilt: float
    out: Between
    pull: Between


def simple_tilt(weight: float, centre: float, height: float) -> float:
    """Pull at the top = push at the foot = W a / k, N, the weight taken at the wall.

    Source: moments about the foot; common practice.
    """
    return weight * centre / positive("hanging", "height of the bevel over the foot", height)


def forces(hung: Hung) -> CleatForces:
    """Forces on a bevelled cleat.

    Foot: F = W (a - b) / k. Bevel: H = W tan(angle - phi), phi = atan(mu), at least F. Wall
    half about its lower edge: T z_s = H z_b + W b.

    Source: equilibrium, derived here; W a / k for b = 0 is common practice.
    """
    tilt = max(0.0, hung.weight * (hung.centre - hung.bevel) / hung.height)
    angle = math.radians(hung.angle)
    outs = [
        max(hung.weight * math.tan(angle - min(math.atan(mu), angle)), tilt)
        for mu in (FRICTION.high, FRICTION.likely, FRICTION.low)
    ]
    pulls = [
        (out * hung.bevel_above + hung.weight * hung.bevel) / hung.screws_above for out in outs
    ]
    return CleatForces(
        down=hung.weight,
        tilt=tilt,
        out=Between(outs[0], outs[1], outs[2]),
        pull=Between(pulls[0], pulls[1], pulls[2]),
    )
