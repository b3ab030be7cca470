"""Rows of holes: for shelf pins on facing boards, and anywhere on one board. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.board import At
from cabinet.features import Feature, HoleRow
from cabinet.frame import Side
from cabinet.hardware import Hardware
from cabinet.joint.base import Features, Parts, Proof


@dataclass(frozen=True, slots=True, kw_only=True)
class PinRows:
    """Shelf-pin holes in two boards that face each other, bored from one datum.

    Attributes:
        left: Board at the left of the bay.
        right: Board at the right.
        lines: Y of each row in the unit, with the row's name (``front``, ``back``).
        first: Z of the lowest hole in the unit.
        count: Holes in a row.
        pitch: Centre to centre.
        diameter: Of the holes.
        depth: Depth of the holes; None bores through.
        label: Told apart by this where a board has rows for two bays; "" otherwise.
        datum: End from which all rows are bored.
    """

    left: str
    right: str
    lines: tuple[tuple[str, float], ...]
    first: float
    count: int
    pitch: float
    diameter: float
    depth: float | None
    label: str = ""
    datum: Side = Side.BOTTOM

    @property
    def parts(self) -> tuple[str, ...]:
        """The two boards."""
        return self.left, self.right

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "shelf-pin rows"

    @property
    def is_glued(self) -> bool:
        """Pins are loose."""
        return False

    def features(self, parts: Parts) -> Features:
        """The same rows in both boards, at the same heights."""
        found: list[tuple[str, Feature]] = []
        for name, faces in ((self.left, Side.RIGHT), (self.right, Side.LEFT)):
            part = parts[name]
            first = part.at(self.datum, self.first)
            if self.datum is Side.TOP:
                first = part.at(self.datum, self.first + self.pitch * (self.count - 1))
            for row, y in self.lines:
                found.append(
                    (
                        name,
                        HoleRow(
                            name=f"{row} pin row{self.label}",
                            surface=part.surface(faces),
                            first=first,
                            line=part.at(part.side(part.board.fence), y),
                            count=self.count,
                            pitch=self.pitch,
                            diameter=self.diameter,
                            depth=self.depth,
                        ),
                    )
                )
        return tuple(found)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """Pins come with the shelves that stand on them."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """Nothing touches; that facing rows are level has a check of its own."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoredRow:
    """A row of holes in one board, wherever it is wanted.

    Attributes:
        board: Name of the part.
        name: What the row is for.
        face: Side to which the bored surface looks.
        first: Side of the edge from which the first hole is told, and its distance.
        line: Side of the edge from which the line is told, and its distance.
        count: Number of holes.
        pitch: Centre to centre.
        diameter: Of the holes.
        depth: Depth of the holes; None bores through.
    """

    board: str
    name: str
    face: Side
    first: tuple[Side, float]
    line: tuple[Side, float]
    count: int
    pitch: float
    diameter: float
    depth: float | None

    @property
    def parts(self) -> tuple[str, ...]:
        """The board."""
        return (self.board,)

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "row of holes"

    @property
    def is_glued(self) -> bool:
        """Nothing is glued."""
        return False

    def features(self, parts: Parts) -> Features:
        """The row."""
        part = parts[self.board]
        row = HoleRow(
            name=self.name,
            surface=part.surface(self.face),
            first=At(part.surface(self.first[0]), self.first[1]),
            line=At(part.surface(self.line[0]), self.line[1]),
            count=self.count,
            pitch=self.pitch,
            diameter=self.diameter,
            depth=self.depth,
        )
        return ((part.name, row),)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """Nothing touches."""
        return ()
