"""Butt joints with biscuits. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.features import Biscuit, BiscuitSlot, Feature
from cabinet.frame import Side, UnitPoint, side_along
from cabinet.hardware import BiscuitPiece, Hardware
from cabinet.joint.base import Features, Parts, Proof, Touch, datum_side, meeting
from cabinet.part import Part
from cabinet.quantity import tenths, whole, within

# Wood that a slot keeps to the edges beside its ends, and below its floor, mm (common practice,
# no source).
BESIDE_SLOT = 4.0
BELOW_SLOT = 3.0


def biscuit_room(biscuit: Biscuit) -> float:
    """Length of a joint that one biscuit takes, mm."""
    return biscuit.slot_length + 2 * BESIDE_SLOT


def biscuit_for(owner: str, *, room: float, thick: float) -> Biscuit:
    """The largest biscuit that a joint has room for.

    Args:
        owner: The part whose end or edge is joined, for the message.
        room: Length of the joint for each biscuit, mm.
        thick: Thickness of the thinnest board whose face is slotted, mm.

    Raises:
        SizeError: there is too little room, or too thin a board, for the smallest.
    """
    least = Biscuit.NO_0
    why = f"biscuit no. {least.number} joins it"
    within(owner, "height", room, biscuit_room(least), math.inf, why=why)
    within(
        owner, "thickness of what it meets", thick, least.slot_depth + BELOW_SLOT, math.inf, why=why
    )
    return [
        biscuit
        for biscuit in Biscuit
        if biscuit_room(biscuit) <= room and biscuit.slot_depth + BELOW_SLOT <= thick
    ][-1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Biscuits:
    """A glued butt joint with biscuits, slots in both boards.

    Attributes:
        one: Part whose edge or end is slotted.
        other: Part that it meets.
        biscuit: Size of biscuit.
        count: How many, spread evenly along the joint.
        level: Side from which the slots' height is told: both boards lie with this side on
            the bench, or against the joiner's fence.
        height: Middle of the slots from that side of ``one``; None for the middle of the
            joint, brought to a whole tenth, to which the joiner's fence is set.
    """

    one: str
    other: str
    biscuit: Biscuit
    count: int
    level: Side
    height: float | None = None

    def __post_init__(self) -> None:
        whole(f"{self.one} to {self.other}", "biscuits", self.count, 1, 40)

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return self.one, self.other

    @property
    def title(self) -> str:
        """Kind of joint."""
        pieces = "biscuit" if self.count == 1 else "biscuits"
        return f"butt joint, {self.count} {pieces} no. {self.biscuit.number}"

    @property
    def is_glued(self) -> bool:
        """Biscuits are glued in."""
        return True

    def _places(self, parts: Parts) -> tuple[Side, int, tuple[UnitPoint, ...]]:
        """The side of ``one`` at the joint, the run axis, and the middles of the biscuits."""
        one = parts[self.one]
        side, rectangle = meeting(one, parts[self.other])
        run = 3 - side.axis - self.level.axis
        low, high = tuple(rectangle.low), tuple(rectangle.high)
        plane = (low[side.axis] + high[side.axis]) / 2
        face = one.box.face(self.level)
        height = self.height
        if height is None:
            middle = (low[self.level.axis] + high[self.level.axis]) / 2
            height = tenths(abs(face - middle))
        level = face - self.level.sign * height
        extent = high[run] - low[run]
        # Set out to tenths from both ends towards the middle, so that a mirrored joint is alike.
        offsets = [
            tenths(extent * (index + 0.5) / self.count) for index in range((self.count + 1) // 2)
        ]
        if self.count % 2:
            offsets[-1] = extent / 2
        points = []
        for index in range(self.count):
            place = [0.0, 0.0, 0.0]
            place[side.axis], place[self.level.axis] = plane, level
            mirrored = self.count - 1 - index
            is_near = index < len(offsets)
            place[run] = low[run] + offsets[index] if is_near else high[run] - offsets[mirrored]
            points.append(UnitPoint(*place))
        return side, run, tuple(points)

    def features(self, parts: Parts) -> Features:
        """One slot in each board for each biscuit."""
        side, run, points = self._places(parts)
        found: list[tuple[str, Feature]] = []
        for name, faces, mate in (
            (self.one, side, self.other),
            (self.other, side.opposite, self.one),
        ):
            part = parts[name]
            run_datum = datum_side(part, run)
            for index, point in enumerate(points):
                slot = BiscuitSlot(
                    name=_slot_name(part, faces, parts[mate].role, index, self.count),
                    surface=part.surface(faces),
                    centre=part.at(run_datum, tuple(point)[run]),
                    height=part.at(self.level, tuple(point)[self.level.axis]),
                    biscuit=self.biscuit,
                )
                found.append((name, slot))
        return tuple(found)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """The biscuits themselves."""
        side, run, points = self._places(parts)
        return tuple(
            Hardware(
                name=f"biscuit {index + 1}, {self.one} to {self.other}",
                article=f"biscuit no. {self.biscuit.number}",
                body=BiscuitPiece(biscuit=self.biscuit, along=side_along(run, 1)),
                at=point,
                axis=side,
                inside=self.parts,
            )
            for index, point in enumerate(points)
        )

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """The boards meet."""
        return (Touch(one=self.one, other=self.other),)


def _slot_name(part: Part, faces: Side, mate: str, index: int, count: int) -> str:
    surface = part.surface(faces)
    number = f" {index + 1}" if count > 1 else ""
    return f"slot{number} for {mate}, {surface.value}"
