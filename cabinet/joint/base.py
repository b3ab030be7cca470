"""Joints: what ties two parts, with the matching features that it puts on both.

A joint reads where its parts lie, works out the features of both from one nominal size and one
clearance, and returns them; so two boards cannot disagree. It also says what the solids must
then prove: that two parts touch, or that one lies in the other with a stated gap. Nothing here
edits a part: the design collects the features when it is resolved. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from cabinet.board import At, Surface
from cabinet.errors import DesignError
from cabinet.features import Feature, Tolerance
from cabinet.frame import Side, UnitBox, UnitPoint, side_along
from cabinet.hardware import Hardware
from cabinet.part import Part

# Two coordinates nearer than this are the same place, mm.
SAME = 1e-4

Parts = Mapping[str, Part]
Features = tuple[tuple[str, Feature], ...]

# A screw holds with at least this much of its thread (common practice: twice its diameter).
LEAST_THREAD = 10.0
# Wood between the heads of two screws, at least (common practice, no source).
LEAST_BETWEEN = 3.0

# A groove is opened to the board that goes in: never tighter, a little wider at most. The
# board's own thickness varies within one sheet by more than a cutter does, so plus only.
GLUED_FIT = Tolerance(0.0, 0.2)
SLIDING_FIT = Tolerance(0.0, 0.3)
TONGUE_FIT = Tolerance(-0.2, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Touch:
    """Two bodies that are declared to touch."""

    one: str
    other: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A stated clearance: moved ``gap`` towards ``side``, ``inner`` just meets ``outer``."""

    inner: str
    outer: str
    side: Side
    gap: float


Proof = Touch | Gap


class Joint(Protocol):
    """What the design asks of every joint."""

    @property
    def parts(self) -> tuple[str, ...]:
        """Names of the parts that it ties."""

    @property
    def title(self) -> str:
        """What kind of joint it is, in the words of the trade."""

    @property
    def is_glued(self) -> bool:
        """Whether glue goes in."""

    def features(self, parts: Parts) -> Features:
        """The matching features, each with the name of its part."""

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """What is bought for it, in place."""

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """What the solids must prove."""


def blank_extent(part: Part, axis: int) -> tuple[float, float]:
    """From where to where a part's blank reaches along an axis of the unit, mm."""
    box = part.blank_box
    return tuple(box.low)[axis], tuple(box.high)[axis]


def proud_of(part: Part, side: Side) -> float:
    """How far a part is left proud on a side until it is trimmed flush, mm."""
    surface = part.surface(side)
    return sum(trim.proud for trim in part.board.trims if trim.edge is surface)


def datum_side(part: Part, axis: int) -> Side:
    """The side that a part's datum on a unit axis looks to: its stop, its fence or face B."""
    board = part.board
    surface = {0: board.stop, 1: board.fence, 2: Surface.B}[
        part.placement.board_axis(side_along(axis, 1))[0]
    ]
    return part.side(surface)


def near_place(part: Part, datum: Side, low: float, high: float) -> At:
    """The nearer of two coordinates, told from the datum's edge."""
    one, other = part.at(datum, low), part.at(datum, high)
    return one if one.distance <= other.distance else other


def entry_side(board: Part, into: Part) -> Side:
    """The side of ``into`` by which ``board`` stands out of it."""
    reach = {
        side: (board.blank_box.face(side) - into.blank_box.face(side)) * side.sign for side in Side
    }
    return max(reach, key=lambda side: reach[side])


def shared_box(board: Part, into: Part, what: str) -> UnitBox:
    """The box that a finished board shares with the blank that it goes into.

    Raises:
        DesignError: they share none, so there is no ``what`` to cut.
    """
    low = [max(a, b) for a, b in zip(board.box.low, into.blank_box.low, strict=True)]
    high = [min(a, b) for a, b in zip(board.box.high, into.blank_box.high, strict=True)]
    if any(b - a <= SAME for a, b in zip(low, high, strict=True)):
        gaps = ", ".join(f"{b - a:.1f}" for a, b in zip(low, high, strict=True))
        raise DesignError(
            f"{board.name} does not reach into {into.name}: they overlap by {gaps} mm along "
            f"X, Y, Z, so there is no {what} to cut",
            part=board.name,
            value=gaps,
            limit="an overlap on every axis",
        )
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


def meeting(one: Part, other: Part) -> tuple[Side, UnitBox]:
    """The side of ``one`` that touches ``other``, and the touching rectangle made 1 mm thick.

    Raises:
        DesignError: they do not meet face to face.
    """
    spans = one.box.overlap(other.box)
    axis = min(range(3), key=lambda a: abs(spans[a]))
    if abs(spans[axis]) > SAME or any(spans[a] <= SAME for a in range(3) if a != axis):
        told = ", ".join(f"{span:.2f}" for span in spans)
        raise DesignError(
            f"{one.name} and {other.name} do not meet face to face (overlaps {told} mm along "
            "X, Y, Z); a glued or screwed joint needs two faces that touch",
            part=one.name,
            value=told,
            limit=0.0,
        )
    low = [max(a, b) for a, b in zip(one.box.low, other.box.low, strict=True)]
    high = [min(a, b) for a, b in zip(one.box.high, other.box.high, strict=True)]
    is_high = abs(tuple(one.box.high)[axis] - low[axis]) <= SAME
    low[axis], high[axis] = low[axis] - 0.5, low[axis] + 0.5
    return side_along(axis, 1 if is_high else -1), UnitBox(
        low=UnitPoint(*low), high=UnitPoint(*high)
    )
