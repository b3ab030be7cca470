"""The wall that a unit comes to: what is there, where the unit goes, and how it is hung.

What a script needs to tell of it is imported from here, without loading the kernel; the best
place is searched for by ``cabinet.site.room.best_place``.
"""

from __future__ import annotations

from cabinet.site.room.frame import WallPoint
from cabinet.site.room.room_wall import CornerReading, FaceReading, FloorReading, RoomWall
from cabinet.site.room.setting import Lead, Setting
from cabinet.site.room.things import Mirror, Neighbour, Pipe, Sash, Socket, Switch, Window
from cabinet.site.room.wishes import Beside, Centred, InLine

__all__ = [
    "Beside",
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
]
