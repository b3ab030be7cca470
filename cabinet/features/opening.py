"""Openings through a board and notches out of its edge. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.board import At, BoardBox, BoardSize, Surface, require_across, require_inside
from cabinet.features.base import boxed, check_floor, into, span
from cabinet.quantity import named, positive, within


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOut:
    """An opening through the board with round corners; a pill if they meet.

    Attributes:
        name: What it is for.
        centre: Its centre, told from two edges of the board.
        length: Clear size along the board's length.
        width: Clear size along the board's width.
        corner_radius: Radius of its corners.
    """

    name: str
    centre: tuple[At, At]
    length: float
    width: float
    corner_radius: float

    def __post_init__(self) -> None:
        named("cut-out", "name", self.name)
        positive(self.name, "length", self.length)
        positive(self.name, "width", self.width)
        positive(self.name, "corner radius", self.corner_radius)
        within(self.name, "corner radius", self.corner_radius, 0, min(self.length, self.width) / 2)
        require_across(self.name, Surface.A, *self.centre)

    @property
    def area(self) -> float:
        """Clear area, its round corners left out, mm2."""
        return self.length * self.width - (4 - math.pi) * self.corner_radius**2

    @property
    def is_pill(self) -> bool:
        """Whether its ends are full half circles."""
        return math.isclose(self.corner_radius, min(self.length, self.width) / 2)

    def box(self, size: BoardSize) -> BoardBox:
        """The box around it, mm in the board's frame."""
        spans = {2: (0.0, size.thickness)}
        for at in self.centre:
            half = (self.length if at.axis == 0 else self.width) / 2
            middle = at.coordinate(size)
            spans[at.axis] = (middle - half, middle + half)
        return boxed(spans)

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the cut-out if it does not lie within the board (``SizeError``)."""
        where = f"{owner}, {self.name}"
        for at in self.centre:
            half = (self.length if at.axis == 0 else self.width) / 2
            extent = size.along[at.axis]
            within(
                where,
                f"centre from {at.datum.value}",
                at.distance,
                half,
                extent - half,
                why="the opening must lie within the board",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """A square piece sawn out of an edge or a corner, through the whole thickness.

    Attributes:
        name: What it clears.
        edge: The edge that it is sawn into.
        near: Its nearer side, told from a neighbouring edge; distance 0 makes a corner notch.
        length: Size along the edge.
        depth: How far it reaches into the board from ``edge``.
    """

    name: str
    edge: Surface
    near: At
    length: float
    depth: float

    def __post_init__(self) -> None:
        named("notch", "name", self.name)
        positive(self.name, "length", self.length)
        positive(self.name, "depth", self.depth)
        require_across(self.name, Surface.A, At(self.edge, 0.0), self.near)

    def box(self, size: BoardSize) -> BoardBox:
        """The box that it takes away, mm in the board's frame."""
        return boxed(
            {
                self.edge.axis: into(self.edge, self.depth, size),
                self.near.axis: span(self.near, self.length, size),
                2: (0.0, size.thickness),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the notch if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        check_floor(where, self.edge, self.depth, size)
        require_inside(where, "near side", self.near, size)
        require_inside(where, "far side", self.near.beyond(self.length), size)
