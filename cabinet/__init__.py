"""The parts and joints of a cabinet, and everything that follows from them.

A script imports from here what describes a unit; ``drawings.write_job`` makes the job folder.
Importing this package does not load the solid-modelling kernel.
"""

from cabinet.components.carcass import BackPanel, Carcass, Rails, carcass
from cabinet.components.cleat import CleatKind, hanging_cleat
from cabinet.components.covering import pill, plug_pill, top_covering
from cabinet.components.doors import DoorTracks, sliding_doors
from cabinet.components.holes import hole_row
from cabinet.components.shelves import FramePanel, board_shelf, frame_shelf, pin_rows
from cabinet.components.stand import feet, plinth
from cabinet.design import Component, Design, Unit
from cabinet.errors import CabinetError
from cabinet.making.outline import l_shape, rectangle
from cabinet.making.quote import Prices, Rates
from cabinet.making.rack import Leftover, Rack, SheetToBuy, flaw
from cabinet.stock import (
    Stock,
    birch_plywood,
    poplar_plywood,
    rubber_sheet,
    solid_wood,
    steel_sheet,
)
from cabinet.workshop import Clamp, Driver, Router, Saw, Workshop

__all__ = [
    "BackPanel",
    "CabinetError",
    "Carcass",
    "Clamp",
    "CleatKind",
    "Component",
    "Design",
    "DoorTracks",
    "Driver",
    "FramePanel",
    "Leftover",
    "Prices",
    "Rack",
    "Rails",
    "Rates",
    "Router",
    "Saw",
    "SheetToBuy",
    "Stock",
    "Unit",
    "Workshop",
    "birch_plywood",
    "board_shelf",
    "carcass",
    "feet",
    "flaw",
    "frame_shelf",
    "hanging_cleat",
    "hole_row",
    "l_shape",
    "pill",
    "pin_rows",
    "plinth",
    "plug_pill",
    "poplar_plywood",
    "rectangle",
    "rubber_sheet",
    "sliding_doors",
    "solid_wood",
    "steel_sheet",
    "top_covering",
]
