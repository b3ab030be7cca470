"""The model as plain data for the job file: numbers, texts, lists and dicts.

The same data that the solids, the dimensions and the checks read, so the file cannot disagree
with them. Lengths in mm, rounded to a millionth.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any

from cabinet.assembly import Assembly
from cabinet.board import At, BoardSize
from cabinet.features import Feature
from cabinet.findings import Finding
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware
from cabinet.joint import Joint
from cabinet.motion import Move
from cabinet.part import Part

Record = dict[str, Any]


def plain(value: object) -> Any:  # noqa: ANN401 - what JSON holds has no narrower type
    """A value of the model as JSON has it.

    Enums become their words, points become lists of coordinates, dataclasses become dicts.
    """
    if isinstance(value, float):
        return round(value, 6) + 0.0
    if isinstance(value, Enum):
        return value.name.lower() if not isinstance(value.value, str) else value.value
    if isinstance(value, UnitPoint):
        return [plain(coordinate) for coordinate in value]
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain(getattr(value, f.name)) for f in fields(value)}
    return value


def size_record(size: BoardSize) -> Record:
    """Length, width and thickness."""
    return plain(size)  # type: ignore[no-any-return]


def feature_record(part: Part, feature: Feature) -> Record:
    """A feature with its kind; places name the edge both on the board and in the unit."""
    record: Record = {"kind": type(feature).__name__}
    for field in fields(feature):
        record[field.name] = _with_places(part, getattr(feature, field.name))
    return record


def _with_places(part: Part, value: object) -> Any:  # noqa: ANN401
    if isinstance(value, At):
        return {
            "from": value.datum.value,
            "edge": part.surface_name(value.datum),
            "distance": plain(value.distance),
        }
    if isinstance(value, tuple) and value and isinstance(value[0], At):
        return [_with_places(part, item) for item in value]
    return plain(value)


def placement_record(part: Part) -> Record:
    """Where a part's board lies: its origin and the directions of its axes in the unit."""
    placement = part.placement
    return {
        "origin": plain(placement.origin),
        "along": placement.along.value,
        "across": placement.across.value,
        "up": placement.up.value,
    }


def blank_record(part: Part) -> Record:
    """The blank: what it is cut from and its sizes before and after trimming.

    How large it is sawn stands in the cut list, since two parts may share a blank.
    """
    board = part.board
    return {
        "material": board.stock.material,
        "code": board.stock.code,
        "nominal_thickness": plain(board.stock.nominal),
        "measured_thickness": plain(board.stock.measured),
        "density_kg_m3": plain(board.stock.density_kg_m3),
        "layers": board.layers,
        "grain": board.grain.value,
        "before_trimming": size_record(board.size),
        "finished": size_record(board.finished_size),
        "open_area_mm2": plain(board.open_area),
    }


def joint_record(joint: Joint) -> Record:
    """A joint: its kind, its parts, whether it is glued."""
    return {"kind": joint.title, "parts": list(joint.parts), "is_glued": joint.is_glued}


def hardware_record(item: Hardware) -> Record:
    """A piece of hardware with its place."""
    return {
        "name": item.name,
        "article": item.article,
        "kind": type(item.body).__name__,
        "body": plain(item.body),
        "at": plain(item.at),
        "axis": item.axis.value,
        "inside": list(item.inside),
    }


def move_record(move: Move) -> Record:
    """A move with its range."""
    return {
        "name": move.name,
        "motion": move.motion.value,
        "parts": list(move.parts),
        "direction": move.side.value,
        "low": plain(move.low),
        "high": plain(move.high),
    }


def assembly_record(assembly: Assembly) -> Record:
    """The order of putting together, step by step."""
    return {
        "steps": [
            {
                "number": step.number,
                "bodies": list(step.bodies),
                "onto": list(step.onto),
                "direction": None if step.side is None else step.side.value,
                "travel": plain(step.travel),
                "stage": step.stage.value,
                "group": step.group,
                "joints": list(step.joints),
            }
            for step in assembly.steps
        ],
        "locked": list(assembly.locked),
    }


def finding_record(finding: Finding) -> Record:
    """A finding, all of its fields."""
    return plain(finding)  # type: ignore[no-any-return]


def surface_records(part: Part) -> Record:
    """Which board surface looks which way in the unit."""
    return {part.surface(side).value: side.value for side in Side}
