"""Bored holes, one by one or in rows. Lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from cabinet.board import At, BoardBox, BoardSize, Surface, require_across
from cabinet.features.base import LEAST_FLOOR, boxed, check_floor, into
from cabinet.quantity import named, positive, whole, within


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A bored hole.

    Attributes:
        name: What it is for.
        surface: Surface it is bored from.
        centre: Two places, told from two edges beside that surface.
        diameter: Diameter.
        depth: Depth from the surface; None goes through.
        countersink: Diameter of a 90 degree countersink at the surface; 0 for none.
    """

    name: str
    surface: Surface
    centre: tuple[At, At]
    diameter: float
    depth: float | None = None
    countersink: float = 0.0

    def __post_init__(self) -> None:
        named("hole", "name", self.name)
        positive(self.name, "diameter", self.diameter)
        if self.depth is not None:
            positive(self.name, "depth", self.depth)
        if self.countersink:
            within(self.name, "countersink", self.countersink, self.diameter, math.inf)
        require_across(self.name, self.surface, *self.centre)

    def box(self, size: BoardSize) -> BoardBox:
        """The box around it, mm in the board's frame."""
        return _around(self, ((at, at) for at in self.centre), size)

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the hole if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        radius = max(self.diameter, self.countersink) / 2
        for at in self.centre:
            within(
                where,
                f"centre from {at.datum.value}",
                at.distance,
                radius,
                size.along[at.axis] - radius,
                why="the hole must lie within the board",
            )
        if self.depth is not None:
            check_floor(where, self.surface, self.depth, size)
        if self.countersink:
            room = self.depth or size.along[self.surface.axis] - LEAST_FLOOR
            within(
                where,
                "depth of the countersink",
                (self.countersink - self.diameter) / 2,
                0.0,
                room,
                why="its cone must end above the hole's end",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleRow:
    """Equal holes at an equal pitch along a line.

    Attributes:
        name: What it is for.
        surface: Surface they are bored from.
        first: The first hole, told from the end that lies against the stop; the row runs
            away from this datum.
        line: The line of the row, told from the edge that lies against the fence.
        count: Number of holes.
        pitch: Centre to centre; for one hole it has no meaning but must still be positive.
        diameter: Diameter.
        depth: Depth from the surface; None goes through.
        countersink: Diameter of a 90 degree countersink at the surface; 0 for none.
    """

    name: str
    surface: Surface
    first: At
    line: At
    count: int
    pitch: float
    diameter: float
    depth: float | None
    countersink: float = 0.0

    def __post_init__(self) -> None:
        named("hole row", "name", self.name)
        whole(self.name, "count", self.count, 1, 1000)
        positive(self.name, "pitch", self.pitch)
        positive(self.name, "diameter", self.diameter)
        if self.depth is not None:
            positive(self.name, "depth", self.depth)
        require_across(self.name, self.surface, self.first, self.line)
        if self.countersink:
            within(self.name, "countersink", self.countersink, self.diameter, math.inf)
        if self.count > 1:
            within(self.name, "pitch", self.pitch, self.diameter + 1.0, math.inf)

    @property
    def holes(self) -> tuple[Hole, ...]:
        """Each hole of the row by itself."""
        return _holes_of(self)

    def box(self, size: BoardSize) -> BoardBox:
        """The box around the row, mm in the board's frame."""
        last = self.first.beyond((self.count - 1) * self.pitch)
        return _around(self, ((self.first, last), (self.line, self.line)), size)

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the row if it does not fit on the board (``SizeError``)."""
        where = f"{owner}, {self.name}"
        _hole_of(self, 0).check(owner, size)
        radius = max(self.diameter, self.countersink) / 2
        room = size.along[self.first.axis] - self.first.distance - radius
        most = 1 + math.floor(room / self.pitch + 1e-9)
        whole(where, "count", self.count, 1, most, why=f"holes that fit at pitch {self.pitch:g}")


def _around(bored: Hole | HoleRow, centres: Iterable[tuple[At, At]], size: BoardSize) -> BoardBox:
    """The box around holes whose centres lie between two places on each axis."""
    radius = max(bored.diameter, bored.countersink) / 2
    surface = bored.surface
    spans = {surface.axis: into(surface, bored.depth or size.along[surface.axis], size)}
    for one, other in centres:
        a, b = one.coordinate(size), other.coordinate(size)
        spans[one.axis] = (min(a, b) - radius, max(a, b) + radius)
    return boxed(spans)


def _hole_of(row: HoleRow, index: int) -> Hole:
    return Hole(
        name=f"{row.name} {index + 1}",
        surface=row.surface,
        centre=(row.first.beyond(index * row.pitch), row.line),
        diameter=row.diameter,
        depth=row.depth,
        countersink=row.countersink,
    )


# Every check asks for the holes of the same rows, and rows are values.
@lru_cache(maxsize=1024)
def _holes_of(row: HoleRow) -> tuple[Hole, ...]:
    return tuple(_hole_of(row, index) for index in range(row.count))
