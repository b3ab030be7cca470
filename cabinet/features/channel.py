"""Channels and steps: grooves and rebates. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.board import At, BoardBox, BoardSize, Surface, require_across, require_inside
from cabinet.features.base import Tolerance, boxed, check_floor, check_run, into, run_span, span
from cabinet.quantity import named, positive, within


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """A channel in a surface, running along one axis of the board.

    Attributes:
        name: What it is for (``groove for back``).
        surface: Surface it is cut into.
        near: Its nearer wall, told from the edge that runs against the fence.
        width: Clear width, away from that edge.
        depth: Depth from the surface.
        start: Where it begins, told from an end; None runs out.
        end: Where it stops, told from an end; None runs out.
        end_radius: Radius that the cutter leaves in the corners of a stopped end; 0 means
            squared with a chisel.
        width_tolerance: Allowed deviation of the width where a fit depends on it.
        takes: Name of the part that goes in, "" if none.
    """

    name: str
    surface: Surface
    near: At
    width: float
    depth: float
    start: At | None = None
    end: At | None = None
    end_radius: float = 0.0
    width_tolerance: Tolerance | None = None
    takes: str = ""

    def __post_init__(self) -> None:
        named("groove", "name", self.name)
        positive(self.name, "width", self.width)
        positive(self.name, "depth", self.depth)
        within(self.name, "corner radius", self.end_radius, 0.0, self.width / 2)
        require_across(self.name, self.surface, self.near)
        for at in (self.start, self.end):
            if at is not None:
                require_across(self.name, self.surface, self.near, at)

    @property
    def run_axis(self) -> int:
        """Board axis along which it runs."""
        return 3 - self.surface.axis - self.near.axis

    @property
    def runs_out(self) -> bool:
        """Whether it runs out at both ends."""
        return self.start is None and self.end is None

    @property
    def most_width(self) -> float:
        """The widest that its tolerance allows, mm."""
        return self.width + (self.width_tolerance.upper if self.width_tolerance is not None else 0)

    def box(self, size: BoardSize) -> BoardBox:
        """The box that it takes away, mm in the board's frame."""
        return boxed(
            {
                self.near.axis: span(self.near, self.width, size),
                self.surface.axis: into(self.surface, self.depth, size),
                self.run_axis: run_span(self.run_axis, self.start, self.end, size),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the groove if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        require_inside(where, "near wall", self.near, size)
        require_inside(where, "far wall", self.near.beyond(self.width), size)
        check_floor(where, self.surface, self.depth, size)
        # Both round ends need their room.
        least = 2 * self.end_radius
        check_run(where, self.run_axis, self.start, self.end, size, least=least)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rebate:
    """A step along an edge; what it leaves is a tongue.

    Attributes:
        name: What it is for.
        edge: Edge or end that it runs along.
        face: The surface, beside that edge, from which its depth is told.
        width: How far it reaches into the board from the edge.
        depth: How deep it is from ``face``.
        start: Where it begins, told from an end; None runs out.
        end: Where it stops; None runs out.
        depth_tolerance: Allowed deviation of the depth where a fit depends on it.
        takes: Name of the part that goes in, "" if none.
    """

    name: str
    edge: Surface
    face: Surface
    width: float
    depth: float
    start: At | None = None
    end: At | None = None
    depth_tolerance: Tolerance | None = None
    takes: str = ""

    def __post_init__(self) -> None:
        named("rebate", "name", self.name)
        positive(self.name, "width", self.width)
        positive(self.name, "depth", self.depth)
        require_across(self.name, self.edge, At(self.face, 0.0))
        for at in (self.start, self.end):
            if at is not None:
                require_across(self.name, self.edge, At(self.face, 0.0), at)

    @property
    def run_axis(self) -> int:
        """Board axis along which it runs."""
        return 3 - self.edge.axis - self.face.axis

    def box(self, size: BoardSize) -> BoardBox:
        """The box that it takes away, mm in the board's frame."""
        return boxed(
            {
                self.edge.axis: into(self.edge, self.width, size),
                self.face.axis: into(self.face, self.depth, size),
                self.run_axis: run_span(self.run_axis, self.start, self.end, size),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the rebate if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        check_floor(where, self.face, self.depth, size)
        check_floor(where, self.edge, self.width, size)
        check_run(where, self.run_axis, self.start, self.end, size)
