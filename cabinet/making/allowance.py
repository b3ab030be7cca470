"""What a part allows of the board that it is cut from: where it needs sound wood, and where not.

All of it is derived from the model: which faces and edges show, where features are, where joints
are glued or bear, where hardware sits. Told in the board's frame; lengths in mm.

Distances are common practice, no source. That a cut is never deeper than half of the board is a
rule for housings (a woodworkers' forum on plywood carcasses: 1/4 to 1/3 is normal).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from cabinet.board import BoardBox, Surface
from cabinet.design import Unit
from cabinet.features import (
    Bevel,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Perforation,
    Rebate,
)
from cabinet.frame import UnitBox, UnitPoint
from cabinet.joint import Opening, PinRows
from cabinet.part import Board, Part
from cabinet.seen import closed_spaces, past_the_doors

# Sound wood round a cut, a hole, a joint or a screw.
ROUND_A_CUT = 5.0
# Sound wood along an edge that shows.
ALONG_AN_EDGE = 5.0
# Wood between a flaw's floor and whatever is on the other side of it.
LEAST_BETWEEN = 3.0
# What is cut away must reach this far beyond a flaw.
BEYOND_A_FLAW = 1.0
# Two boxes touch if they come nearer than this.
_TOUCH = 1e-3

RULES = (
    f"No flaw on a face that shows, nor within {ALONG_AN_EDGE:g} mm of an edge that shows, be it "
    "only with a door open.",
    "An inside face counts as showing unless doors close the space before it; behind doors a flaw "
    "is filled flush and sanded, a stain may stay. What is seen past the closed doors shows.",
    f"No flaw within {ROUND_A_CUT:g} mm of a cut, a hole, a screw or a joint, and at least "
    f"{LEAST_BETWEEN:g} mm of wood between its floor and whatever is cut or glued from the other "
    "side.",
    "No flaw on a face that is glued or that bears.",
    "No flaw deeper than half of the board, nor deeper than a third of it where it runs over more "
    "than half of the part; nothing that goes through.",
    "What is cut away in any case (oversize, cut-outs, notches, wider grooves) may hold any flaw.",
    "Where a flaw is in the way the part is shifted, turned or flipped; if that fails and a patch "
    "saves a sheet, a patch is planned.",
)
"""What decides, as it is printed on the plan."""


class Need(Enum):
    """Why a place needs sound wood."""

    SHOWS = "it shows"
    EDGE = "the edge shows"
    CUT = "something is cut there"
    JOINT = "it is joined there"
    GLUE = "it is glued over its face"
    HARDWARE = "hardware sits there"

    @property
    def is_curable(self) -> bool:
        """Whether a patch, flush and glued in, makes the place good."""
        return self in (Need.SHOWS, Need.GLUE)


@dataclass(frozen=True, slots=True)
class KeepOut:
    """A box of the board that must be sound, its margin included.

    Attributes:
        box: The box; flat on a face if only the face must be sound.
        need: Why.
        what: What is there, in words (``front pin row``).
    """

    box: BoardBox
    need: Need
    what: str


@dataclass(frozen=True, slots=True)
class CutAway:
    """A box of the board that is cut away in any case.

    Attributes:
        box: The box.
        what: By what, in words.
    """

    box: BoardBox
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """What one part allows.

    Attributes:
        keep_outs: Where it needs sound wood.
        cut_away: What is cut away in any case.
    """

    keep_outs: tuple[KeepOut, ...]
    cut_away: tuple[CutAway, ...]


def part_allowance(unit: Unit, part: Part) -> Allowance:
    """What a part allows of its board, in the board's frame before any flush trim.

    Args:
        unit: The unit; its joints and hardware say where the part is glued and bored.
        part: One of its parts.
    """
    board = part.board
    keep_outs = [
        *_faces(unit, part),
        *_edges(board),
        *(keep for feature in board.features for keep in _around(feature, board)),
        *_meetings(unit, part),
        *_hardware(unit, part),
    ]
    extent = board.size.along
    inside = [
        KeepOut(met, keep.need, keep.what)
        for keep in keep_outs
        if (met := _within(keep.box, extent)) is not None
    ]
    return Allowance(
        keep_outs=tuple(dict.fromkeys(inside)),
        cut_away=tuple(_cut_away(board)),
    )


def _within(box: BoardBox, extent: tuple[float, float, float]) -> BoardBox | None:
    """A box clipped to the board; None if nothing of it lies on the board."""
    low = [max(value, 0.0) for value in box.low]
    high = [min(value, limit) for value, limit in zip(box.high, extent, strict=True)]
    if low[0] >= high[0] or low[1] >= high[1] or low[2] > high[2]:
        return None
    return BoardBox(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def _grown(box: BoardBox, margin: float, *, up: float = 0.0) -> BoardBox:
    low, high = box.low, box.high
    return BoardBox(
        low=(low[0] - margin, low[1] - margin, low[2] - up),
        high=(high[0] + margin, high[1] + margin, high[2] + up),
    )


def _through(box: BoardBox, board: Board) -> BoardBox:
    """A box over the whole thickness."""
    return BoardBox(
        low=(box.low[0], box.low[1], 0.0), high=(box.high[0], box.high[1], board.thickness)
    )


def _on_face(board: Board, surface: Surface, box: BoardBox) -> BoardBox:
    """A box laid flat on a face."""
    z = board.thickness if surface is Surface.A else 0.0
    return BoardBox(low=(box.low[0], box.low[1], z), high=(box.high[0], box.high[1], z))


def _faces(unit: Unit, part: Part) -> Iterator[KeepOut]:
    for surface in (Surface.A, Surface.B):
        if surface in part.board.shows:
            whole = BoardBox(low=(0.0, 0.0, 0.0), high=part.board.size.along)
            face = _on_face(part.board, surface, whole)
            yield KeepOut(face, Need.SHOWS, f"{surface.value} shows")
    for surface, box in past_the_doors(part, closed_spaces(unit.by_name, unit.joints)):
        if surface.is_face:
            strip = _on_face(part.board, surface, part.board_box(box))
            yield KeepOut(strip, Need.SHOWS, f"{surface.value} is seen past the doors")


def _edges(board: Board) -> Iterator[KeepOut]:
    for surface in (*board.shows, *board.behind_doors):
        if surface.is_face:
            continue
        low, high = [0.0, 0.0, 0.0], list(board.size.along)
        if surface.sign < 0:
            high[surface.axis] = ALONG_AN_EDGE
        else:
            low[surface.axis] = high[surface.axis] - ALONG_AN_EDGE
        yield KeepOut(
            BoardBox(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2])),
            Need.EDGE,
            f"{surface.value} shows",
        )


def _around(feature: Feature, board: Board) -> Iterator[KeepOut]:
    """Sound wood round a feature; all through where a tongue or a bevel is left to bear."""
    if isinstance(feature, FlushTrim | Perforation):
        return
    box = feature.box(board.size)
    if isinstance(feature, Rebate | Bevel):
        box = _through(box, board)
    yield KeepOut(_grown(box, ROUND_A_CUT), Need.CUT, feature.name)


def _meetings(unit: Unit, part: Part) -> Iterator[KeepOut]:
    """Where a joint ties the part: what of it lies in, or on, the other part."""
    parts = unit.by_name
    for joint in unit.joints:
        if part.name not in joint.parts or len(joint.parts) != 2:
            continue
        if isinstance(joint, PinRows | Opening):
            # Rows and openings only bore what they go through; they tie nothing.
            continue
        other = parts[next(name for name in joint.parts if name != part.name)]
        mine, its = part.blank_box, other.blank_box
        low = [max(a, b) - _TOUCH for a, b in zip(mine.low, its.low, strict=True)]
        high = [min(a, b) + _TOUCH for a, b in zip(mine.high, its.high, strict=True)]
        if any(a >= b for a, b in zip(low, high, strict=True)):
            continue
        met = part.board_box(UnitBox(low=UnitPoint(*low), high=UnitPoint(*high)))
        is_flat = met.high[2] - met.low[2] <= 3 * _TOUCH
        if is_flat and joint.is_glued:
            yield KeepOut(_grown(met, ROUND_A_CUT), Need.GLUE, f"glued to {other.name}")
        else:
            yield KeepOut(_grown(met, ROUND_A_CUT), Need.JOINT, f"joint with {other.name}")


def _hardware(unit: Unit, part: Part) -> Iterator[KeepOut]:
    for item in unit.hardware:
        if part.name in item.inside:
            box = part.board_box(item.box)
            yield KeepOut(_grown(box, ROUND_A_CUT), Need.HARDWARE, item.article)


def _cut_away(board: Board) -> Iterator[CutAway]:
    size = board.size
    for feature in board.features:
        if isinstance(feature, FlushTrim | Notch | Groove | Rebate):
            yield CutAway(feature.box(size), feature.name)
        elif isinstance(feature, CutOut):
            # The rectangle that fits between its round corners.
            yield CutAway(_inset(feature.box(size), feature.corner_radius), feature.name)
        elif isinstance(feature, Hole | HoleRow) and feature.surface.is_face:
            for hole in feature.holes if isinstance(feature, HoleRow) else (feature,):
                if hole.depth is None:
                    radius = max(hole.diameter, hole.countersink) / 2
                    less = radius - hole.diameter / 2
                    box = _grown(hole.box(size), -less)
                    yield CutAway(_inset(box, hole.diameter / 2), feature.name)


def _inset(box: BoardBox, radius: float) -> BoardBox:
    """The box of an opening with round corners, so much smaller that its corners are within."""
    off = radius * (1 - 1 / math.sqrt(2))
    return _grown(box, -off)
