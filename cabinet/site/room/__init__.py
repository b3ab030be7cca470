"""The wall that a unit comes to: what is there, where the unit goes, and how it is hung."""

from __future__ import annotations

from cabinet.site.room.best_place import BestPlace, best_place
from cabinet.site.room.frame import WallPoint
from cabinet.site.room.room_wall import CornerReading, FaceReading, FloorReading, RoomWall
from cabinet.site.room.setting import Lead, Setting
from cabinet.site.room.things import Mirror, Neighbour, Pipe, Sash, Socket, Switch, Window
from cabinet.site.room.wishes import Beside, Centred, InLine

__all__ = [
    "Beside",
    "BestPlace",
    "Centred",
    "CornerReading",
    "FaceReading",
    "FloorReading",
    "InLine",
    "Lead",
    "Mirror",
    "Neighbour",
    "Pipe",
    "RoomWall",
    "Sash",
    "Setting",
    "Socket",
    "Switch",
    "WallPoint",
    "Window",
    "best_place",
]
