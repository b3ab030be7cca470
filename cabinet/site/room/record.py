"""A unit in its setting as plain data for the job file. Lengths in mm, places in the wall's frame."""

from __future__ import annotations

from cabinet.record import Record, plain
from cabinet.site.room.frame import WallBox
from cabinet.site.room.hanging_steps import hanging_steps, heights_table, taken_out
from cabinet.site.room.report import RoomReport
from cabinet.site.room.screw_places import ScrewPlace
from cabinet.site.room.tables import kind, ready_table


def hanging_record(report: RoomReport) -> Record:
    """All that was computed about a unit in its setting."""
    room, at = report.setting.room, report.setting.at
    return {
        "wall": {
            "name": room.name,
            "width": plain(room.width),
            "height": plain(room.height),
            "build": {"kind": type(room.build).__name__, **plain(room.build)},
            "level_line": plain(room.datum),
            "skirting": plain(room.skirting),
            "things": [
                {"name": thing.name, "kind": kind(thing), "box": _box(thing.box)}
                for thing in room.things
            ],
            "floor": plain(room.floor),
            "face": plain(room.face),
            "left_corner": plain(room.left_corner),
            "right_corner": plain(room.right_corner),
        },
        "at": [plain(at.x), plain(at.z)],
        "outline": _box(report.outline),
        "stands_out": plain(report.depth),
        "cable_zones": [{"name": zone.name, "box": _box(zone.box)} for zone in report.zones],
        "screws": [_screw(place) for place in report.screws.designed] if report.screws else [],
        "screw_places_proposed": None
        if report.screws is None or report.screws.proposed is None
        else plain(report.screws.proposed),
        "lock": None if report.lock is None else plain(report.lock),
        "packing": []
        if report.packing is None
        else [
            {"what": p.what, "at": [plain(p.at.x), plain(p.at.z)], "thick": plain(p.thick)}
            for p in report.packing.pieces
        ],
        "scribe_strips": plain(report.scribes),
        "leads": [
            {
                "through": way.lead.through,
                "socket": way.socket.name,
                "plug_depth": plain(way.lead.plug_depth),
                "free_depth": None if not way.nearest else plain(way.depth),
            }
            for way in report.leads
        ],
        "lift_room": None
        if report.lift_room is None
        else {
            "needed": plain(report.lift_room.needed),
            "free": plain(report.lift_room.free),
            "under": report.lift_room.under,
        },
        "taken_out_first": list(taken_out(report)),
        "steps": list(hanging_steps(report)),
        "to_have_ready": [
            {"article": article, "count": int(count)} for article, count in ready_table(report).rows
        ],
        "heights_over_floor": plain(heights_table(report)),
    }


def _box(box: WallBox) -> Record:
    return {
        "low": [plain(box.low.x), plain(box.low.z)],
        "high": [plain(box.high.x), plain(box.high.z)],
    }


def _screw(place: ScrewPlace) -> Record:
    return {
        "name": place.name,
        "along": plain(place.on_cleat),
        "at": [plain(place.at.x), plain(place.at.z)],
        "into": place.into,
        "cable_zones": [zone.name for zone in place.zones],
        "pipes": list(place.pipes),
    }
