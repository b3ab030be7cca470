"""Edges that stand proud until they are trimmed flush. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.board import BoardBox, BoardSize, Surface
from cabinet.errors import SizeError
from cabinet.features.base import boxed, check_floor, into
from cabinet.quantity import named, within


@dataclass(frozen=True, slots=True, kw_only=True)
class FlushTrim:
    """An edge left proud when glued, then trimmed flush with its neighbour.

    Attributes:
        name: What it is trimmed flush with.
        edge: The edge or end that stands proud.
        proud: By how much, mm.
    """

    name: str
    edge: Surface
    proud: float

    def __post_init__(self) -> None:
        named("flush trim", "name", self.name)
        within(self.name, "proud", self.proud, 0.1, 5.0)
        if self.edge.is_face:
            raise SizeError(
                f"{self.name}: {self.edge.value} is not trimmed flush; only an edge or an end is",
                part=self.name,
                value=self.edge.value,
                limit="an edge or an end",
            )

    def box(self, size: BoardSize) -> BoardBox:
        """The strip that is trimmed away, mm in the board's frame."""
        spans = {axis: (0.0, size.along[axis]) for axis in range(3)}
        spans[self.edge.axis] = into(self.edge, self.proud, size)
        return boxed(spans)

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse a strip as large as the board (``SizeError``)."""
        check_floor(f"{owner}, {self.name}", self.edge, self.proud, size)
