"""What is done to a blank: grooves, rebates, bevels, holes and the rest, as frozen data.

A feature is told in the frame of its board, from named surfaces. Three rooms read it and none
writes it: as a solid (``cabinet.solids``), as dimensions (``drawings.dimension``) and as an
operation at the bench. ``box`` bounds what it takes away; ``check`` refuses a feature that its
board cannot have. Lengths are in mm, angles in degrees.
"""

from cabinet.features.base import Tolerance
from cabinet.features.bevel import Bevel
from cabinet.features.biscuit import BISCUIT_BLADE_RADIUS, Biscuit, BiscuitSlot
from cabinet.features.channel import Groove, Rebate
from cabinet.features.hole import Hole, HoleRow
from cabinet.features.opening import CutOut, Notch
from cabinet.features.perforation import Pattern, Perforation
from cabinet.features.trim import FlushTrim

Feature = (
    Groove
    | Rebate
    | Bevel
    | Hole
    | HoleRow
    | CutOut
    | Notch
    | BiscuitSlot
    | FlushTrim
    | Perforation
)

__all__ = [
    "BISCUIT_BLADE_RADIUS",
    "Bevel",
    "Biscuit",
    "BiscuitSlot",
    "CutOut",
    "Feature",
    "FlushTrim",
    "Groove",
    "Hole",
    "HoleRow",
    "Notch",
    "Pattern",
    "Perforation",
    "Rebate",
    "Tolerance",
]
