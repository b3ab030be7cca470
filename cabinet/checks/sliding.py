"""The sliding doors of a unit as the checks see them: their boards, their travel, their track.

Which board guides a door is told by its joints; every size is taken from the solids.
Lengths in mm.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from cabinet.checks.pieces import Piece, Span, piece_of, pieces
from cabinet.checks.sweep import Space
from cabinet.design import Unit
from cabinet.features import Groove
from cabinet.frame import Side
from cabinet.joint import Track
from cabinet.motion import Motion
from cabinet.part import Part

# Doors whose places across the depth differ by less than this run in one track, mm.
SAME_TRACK = 1.5


@dataclass(frozen=True, slots=True)
class Door:
    """A sliding door in its place.

    Attributes:
        part: The door.
        top: Board that guides its head.
        base: Board on which it runs.
        names: The door and what is fixed to it.
        low: Least travel to the right, mm.
        high: Greatest travel to the right, mm.
    """

    part: Part
    top: Part
    base: Part
    names: tuple[str, ...]
    low: float
    high: float

    @property
    def name(self) -> str:
        """Name of the door."""
        return self.part.name

    @property
    def span(self) -> Span:
        """X of its edges where it is shown."""
        box = self.part.box
        return box.low.x, box.high.x

    @property
    def front(self) -> float:
        """Y of its front face."""
        return self.part.box.low.y

    @property
    def ceiling(self) -> float:
        """Z of the top's face, where its groove begins."""
        return self.top.box.low.z

    @property
    def floor(self) -> float:
        """Z of the base's face, where its groove begins."""
        return self.base.box.high.z

    @property
    def opening(self) -> float:
        """Clear height between base and top."""
        return self.ceiling - self.floor

    @property
    def engaged_above(self) -> float:
        """How far the head is in its groove at rest."""
        return self.part.box.high.z - self.ceiling

    @property
    def engaged_below(self) -> float:
        """How far the foot is in its groove at rest."""
        return self.floor - self.part.box.low.z

    def shares_track(self, other: Door) -> bool:
        """Whether both run in one groove."""
        return abs(self.front - other.front) < SAME_TRACK


def sliding(unit: Unit, space: Space) -> tuple[tuple[Door, ...], ...]:
    """The doors of a unit, those between one top and one base together, from left to right."""
    guides: dict[str, dict[Side, str]] = defaultdict(dict)
    for joint in unit.joints:
        if isinstance(joint, Track):
            guides[joint.door][joint.side] = joint.board
    travel: dict[str, tuple[float, float]] = {}
    for move in unit.moves:
        if move.motion is Motion.SLIDE and move.side.axis == 0:
            ends = move.side.sign * move.low, move.side.sign * move.high
            travel |= dict.fromkeys(move.parts, (min(ends), max(ends)))
    parts = unit.by_name
    groups: dict[tuple[str, str], list[Door]] = defaultdict(list)
    for name, boards in guides.items():
        if name not in parts or Side.TOP not in boards or Side.BOTTOM not in boards:
            continue
        low, high = travel.get(name, (0.0, 0.0))
        door = Door(
            part=parts[name],
            top=parts[boards[Side.TOP]],
            base=parts[boards[Side.BOTTOM]],
            names=space.carried((name,)),
            low=low,
            high=high,
        )
        groups[boards[Side.TOP], boards[Side.BOTTOM]].append(door)
    return tuple(tuple(sorted(doors, key=lambda d: d.span)) for doors in groups.values())


def groove_of(board: Part, y: float, faces: Side) -> Piece | None:
    """The groove in a board's face at a place across the depth, as a box in the unit."""
    surface = board.surface(faces)
    for feature in board.board.features:
        if isinstance(feature, Groove) and feature.surface is surface:
            box = board.feature_box(feature)
            if box.low.y <= y <= box.high.y:
                return piece_of(box)
    return None


def tongue_of(door: Part, side: Side) -> Piece:
    """The tongue, or the plain edge, with which a door ends above or below."""
    them = pieces(door)
    axis = 2
    if side is Side.TOP:
        return max(them, key=lambda p: p[axis][1])
    return min(them, key=lambda p: p[axis][0])


def shoulder_of(door: Part, side: Side) -> float | None:
    """Z of the shoulder beside a tongue; None if there is none."""
    tongue = tongue_of(door, side)
    end = tongue[2][1] if side is Side.TOP else tongue[2][0]
    others = [p[2][1] if side is Side.TOP else p[2][0] for p in pieces(door)]
    beside = [z for z in others if abs(z - end) > 1e-6]
    if not beside:
        return None
    return max(beside) if side is Side.TOP else min(beside)


__all__ = ["Door", "groove_of", "shoulder_of", "sliding", "tongue_of"]
