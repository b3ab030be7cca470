"""Boards that meet face to face, and boards that cross in notches. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.features import Notch
from cabinet.frame import Side, side_along
from cabinet.hardware import Hardware
from cabinet.joint.base import Features, Parts, Proof, Touch, datum_side, near_place, shared_box
from cabinet.quantity import within


@dataclass(frozen=True, slots=True, kw_only=True)
class Butt:
    """Two faces that meet, glued or merely bearing on each other."""

    one: str
    other: str
    is_glued: bool = True

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return self.one, self.other

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "glued face" if self.is_glued else "bearing"

    def features(self, parts: Parts) -> Features:
        """Nothing is cut."""
        return ()

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """They touch."""
        return (Touch(one=self.one, other=self.other),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """A board laid into a notch of another, through its whole thickness.

    Attributes:
        board: Name of the part that is laid in.
        into: Name of the part that is notched.
        edge: Side of ``into`` from which the notch is sawn.
        play: Notch longer than the board by this in all.
        to_end: Side at which the notch goes on to the end of ``into``, so that no thin horn
            is left; None if both ends of the notch are sawn.
    """

    board: str
    into: str
    edge: Side
    play: float = 0.0
    to_end: Side | None = None

    def __post_init__(self) -> None:
        within(f"{self.board} across {self.into}", "play", self.play, 0.0, 5.0)

    @property
    def parts(self) -> tuple[str, ...]:
        """The board and the one that it crosses."""
        return self.board, self.into

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "notch"

    @property
    def is_glued(self) -> bool:
        """It is glued."""
        return True

    def features(self, parts: Parts) -> Features:
        """The notch."""
        board, into = parts[self.board], parts[self.into]
        over = shared_box(board, into, self.title)
        run = 3 - into.placement.up.axis - self.edge.axis
        low = over.face(side_along(run, -1)) - self.play / 2
        high = over.face(side_along(run, 1)) + self.play / 2
        if self.to_end is not None:
            end = into.blank_box.face(self.to_end)
            low, high = (low, end) if self.to_end.sign > 0 else (end, high)
        datum = self.to_end if self.to_end is not None else datum_side(into, run)
        depth = abs(into.blank_box.face(self.edge) - over.face(self.edge.opposite))
        notch = Notch(
            name=f"notch for {board.role}",
            edge=into.surface(self.edge),
            near=near_place(into, datum, low, high),
            length=round(high - low, 6),
            depth=round(depth, 6),
        )
        return ((into.name, notch),)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """The board bears on the floor of its notch."""
        return (Touch(one=self.board, other=self.into),)
