"""What is done to a blank: grooves, rebates, bevels, holes and the rest, as frozen data.

A feature is told in the frame of its board, from named surfaces. Three rooms read it and none
writes it: as a solid (``cabinet.solids``), as dimensions (``drawings.dimension``) and as an
operation at the bench. ``box`` bounds what it takes away; ``check`` refuses a feature that its
board cannot have. Lengths are in mm, angles in degrees.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from cabinet.board import (
    AXIS_NAMES,
    At,
    BoardBox,
    BoardSize,
    Surface,
    require_across,
    require_inside,
)
from cabinet.errors import SizeError
from cabinet.quantity import finite, named, positive, whole, within

# A cut never goes through by accident: what is meant to go through is a hole or a cut-out.
LEAST_FLOOR = 1.0


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Allowed deviations from a size, mm: ``lower`` and ``upper``, signed."""

    lower: float
    upper: float

    def __post_init__(self) -> None:
        finite("tolerance", "lower deviation", self.lower)
        finite("tolerance", "upper deviation", self.upper)
        if self.lower > self.upper:
            raise SizeError(
                f"tolerance: lower deviation {self.lower:g} mm is above the upper {self.upper:g}",
                value=self.lower,
                limit=self.upper,
            )


def _span(at: At, extent: float, size: BoardSize) -> tuple[float, float]:
    """Low and high coordinate of what starts at a place and runs ``extent`` from its datum."""
    near = at.coordinate(size)
    far = near - at.datum.sign * extent
    return min(near, far), max(near, far)


def _into(surface: Surface, depth: float, size: BoardSize) -> tuple[float, float]:
    """Low and high coordinate of a cut ``depth`` deep from a surface."""
    return _span(At(surface, 0.0), depth, size)


def _box(spans: dict[int, tuple[float, float]]) -> BoardBox:
    lows, highs = zip(*(spans[axis] for axis in range(3)), strict=True)
    return BoardBox(low=lows, high=highs)


def _run_span(axis: int, start: At | None, end: At | None, size: BoardSize) -> tuple[float, float]:
    """Where a run along an axis begins and ends; None runs out of the board."""
    ends = [at.coordinate(size) for at in (start, end) if at is not None]
    low = start.coordinate(size) if start is not None else 0.0
    high = end.coordinate(size) if end is not None else size.along[axis]
    if len(ends) == 2:
        low, high = min(ends), max(ends)
    return low, high


def _check_floor(owner: str, surface: Surface, depth: float, size: BoardSize) -> None:
    extent = size.along[surface.axis]
    within(
        owner,
        f"depth from {surface.value}",
        depth,
        0.0,
        extent - LEAST_FLOOR,
        why=f"{LEAST_FLOOR:g} must be left of the board's {AXIS_NAMES[surface.axis]} {extent:g}",
    )


def _check_run(
    owner: str,
    axis: int,
    start: At | None,
    end: At | None,
    size: BoardSize,
    *,
    least: float = 0.0,
) -> None:
    for name, at in (("start", start), ("end", end)):
        if at is not None:
            require_inside(owner, name, at, size)
    low, high = _run_span(axis, start, end, size)
    if high - low <= least:
        raise SizeError(
            f"{owner}: it runs from {low:g} to {high:g} mm; it must be longer than {least:g} mm",
            part=owner,
            value=high - low,
            limit=least,
        )


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
        return _box(
            {
                self.near.axis: _span(self.near, self.width, size),
                self.surface.axis: _into(self.surface, self.depth, size),
                self.run_axis: _run_span(self.run_axis, self.start, self.end, size),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the groove if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        require_inside(where, "near wall", self.near, size)
        require_inside(where, "far wall", self.near.beyond(self.width), size)
        _check_floor(where, self.surface, self.depth, size)
        # Both round ends need their room.
        least = 2 * self.end_radius
        _check_run(where, self.run_axis, self.start, self.end, size, least=least)


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
        return _box(
            {
                self.edge.axis: _into(self.edge, self.width, size),
                self.face.axis: _into(self.face, self.depth, size),
                self.run_axis: _run_span(self.run_axis, self.start, self.end, size),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the rebate if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        _check_floor(where, self.face, self.depth, size)
        _check_floor(where, self.edge, self.width, size)
        _check_run(where, self.run_axis, self.start, self.end, size)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bevel:
    """An edge or end sawn at an angle through the whole thickness.

    Attributes:
        name: What it is for.
        edge: The edge or end that is bevelled.
        sharp: The face that keeps its full size; the sharp arris lies on it.
        angle: Tilt of the saw from square, degrees.
        land: What is left square beside the sharp face, mm of thickness; 0 leaves it sharp.
    """

    name: str
    edge: Surface
    sharp: Surface
    angle: float = 45.0
    land: float = 0.0

    def __post_init__(self) -> None:
        named("bevel", "name", self.name)
        within(self.name, "angle", self.angle, 1.0, 60.0, unit="degrees")
        within(self.name, "land", self.land, 0.0, math.inf)
        if self.edge.is_face or not self.sharp.is_face:
            raise SizeError(
                f"{self.name}: a bevel runs along an edge and is sharp at a face, not along "
                f"{self.edge.value} and at {self.sharp.value}",
                part=self.name,
                value=(self.edge.value, self.sharp.value),
                limit="an edge and a face",
            )

    def reach(self, thickness: float) -> float:
        """How far it reaches into the board on the face that is cut back, mm."""
        return (thickness - self.land) * math.tan(math.radians(self.angle))

    def box(self, size: BoardSize) -> BoardBox:
        """The box around the wedge that it takes away, mm in the board's frame."""
        run = 3 - self.edge.axis - self.sharp.axis
        depth = size.thickness - self.land
        return _box(
            {
                self.edge.axis: _into(self.edge, self.reach(size.thickness), size),
                2: _into(self.sharp.opposite, depth, size),
                run: (0.0, size.along[run]),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the bevel if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        within(where, "land", self.land, 0.0, size.thickness - LEAST_FLOOR)
        extent = size.along[self.edge.axis]
        within(
            where,
            f"reach from {self.edge.value}",
            self.reach(size.thickness),
            0.0,
            extent - LEAST_FLOOR,
            why=f"the board's {AXIS_NAMES[self.edge.axis]}",
        )


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
        radius = max(self.diameter, self.countersink) / 2
        extent = size.along[self.surface.axis]
        spans = {self.surface.axis: _into(self.surface, self.depth or extent, size)}
        for at in self.centre:
            middle = at.coordinate(size)
            spans[at.axis] = (middle - radius, middle + radius)
        return _box(spans)

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
            _check_floor(where, self.surface, self.depth, size)
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
        first, last = _hole_of(self, 0).box(size), _hole_of(self, self.count - 1).box(size)
        return BoardBox(
            low=tuple(min(a, b) for a, b in zip(first.low, last.low, strict=True)),  # type: ignore[arg-type]
            high=tuple(max(a, b) for a, b in zip(first.high, last.high, strict=True)),  # type: ignore[arg-type]
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the row if it does not fit on the board (``SizeError``)."""
        where = f"{owner}, {self.name}"
        _hole_of(self, 0).check(owner, size)
        radius = max(self.diameter, self.countersink) / 2
        room = size.along[self.first.axis] - self.first.distance - radius
        most = 1 + math.floor(room / self.pitch + 1e-9)
        whole(where, "count", self.count, 1, most, why=f"holes that fit at pitch {self.pitch:g}")


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
        return _box(spans)

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
        return _box(
            {
                self.edge.axis: _into(self.edge, self.depth, size),
                self.near.axis: _span(self.near, self.length, size),
                2: (0.0, size.thickness),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the notch if the board cannot have it (``SizeError``)."""
        where = f"{owner}, {self.name}"
        _check_floor(where, self.edge, self.depth, size)
        require_inside(where, "near side", self.near, size)
        require_inside(where, "far side", self.near.beyond(self.length), size)


# Blade of a biscuit joiner, mm (tool maker's glossary: diameter 100, kerf 3.96 to 4.06).
BISCUIT_BLADE_RADIUS = 50.0


class Biscuit(Enum):
    """Sizes of biscuit: its number, then length, width and thickness in mm.

    Numbers 10 and 20 after a tool maker's glossary, 0 from memory.
    """

    NO_0 = ("0", 47.0, 15.0, 4.0)
    NO_10 = ("10", 53.0, 19.0, 4.0)
    NO_20 = ("20", 56.0, 23.0, 4.0)

    @property
    def number(self) -> str:
        """The number by which it is sold."""
        return self.value[0]

    @property
    def length(self) -> float:
        """Length in mm."""
        return self.value[1]

    @property
    def width(self) -> float:
        """Width in mm, half of which goes into each board."""
        return self.value[2]

    @property
    def thickness(self) -> float:
        """Thickness in mm before the glue swells it; also the kerf of the slot."""
        return self.value[3]

    @property
    def slot_depth(self) -> float:
        """Depth of the slot: half the width and half a millimetre for glue."""
        return self.width / 2 + 0.5

    @property
    def slot_length(self) -> float:
        """Length of the slot at the surface, mm, from the blade's radius and the depth."""
        rest = BISCUIT_BLADE_RADIUS - self.slot_depth
        return 2 * math.sqrt(BISCUIT_BLADE_RADIUS**2 - rest**2)


@dataclass(frozen=True, slots=True, kw_only=True)
class BiscuitSlot:
    """A slot plunged with a biscuit joiner: a segment of its round blade.

    Attributes:
        name: Which board it joins to.
        surface: Surface it is plunged into.
        centre: Middle of the slot along ``run``, told from an edge.
        height: Middle of the slot's thickness, told from the surface on which the joiner's
            fence rests.
        biscuit: Size of biscuit.
    """

    name: str
    surface: Surface
    centre: At
    height: At
    biscuit: Biscuit

    def __post_init__(self) -> None:
        named("biscuit slot", "name", self.name)
        require_across(self.name, self.surface, self.centre, self.height)

    @property
    def chord(self) -> float:
        """Length of the slot at the surface, mm."""
        return self.biscuit.slot_length

    def box(self, size: BoardSize) -> BoardBox:
        """The box around it, mm in the board's frame."""
        along, up = self.centre.coordinate(size), self.height.coordinate(size)
        half = self.biscuit.thickness / 2
        return _box(
            {
                self.centre.axis: (along - self.chord / 2, along + self.chord / 2),
                self.height.axis: (up - half, up + half),
                self.surface.axis: _into(self.surface, self.biscuit.slot_depth, size),
            }
        )

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse the slot if it does not lie within the board (``SizeError``)."""
        where = f"{owner}, {self.name}"
        _check_floor(where, self.surface, self.biscuit.slot_depth, size)
        halves = ((self.centre, self.chord / 2), (self.height, self.biscuit.thickness / 2))
        for at, half in halves:
            within(
                where,
                f"middle from {at.datum.value}",
                at.distance,
                half,
                size.along[at.axis] - half,
                why="the slot must lie within the board",
            )


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
        spans[self.edge.axis] = _into(self.edge, self.proud, size)
        return _box(spans)

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse a strip as large as the board (``SizeError``)."""
        _check_floor(f"{owner}, {self.name}", self.edge, self.proud, size)


class Pattern(Enum):
    """How the holes of a perforated sheet are set out (ISO 7806: T staggered, U square)."""

    STAGGERED = "staggered at 60 degrees"
    SQUARE = "square"

    @property
    def density(self) -> float:
        """Open area as a share of (diameter / pitch) squared: pi / (2 sqrt 3) or pi / 4."""
        return math.pi / (2 * math.sqrt(3)) if self is Pattern.STAGGERED else math.pi / 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Perforation:
    """Holes all over a sheet. The solid stays plain; the pattern is data.

    Where the holes lie on a panel follows from its size: ``cabinet.set_out``.

    Attributes:
        name: What it is called on the sheet.
        diameter: Diameter of the holes.
        pitch: Centre to centre.
        pattern: How they are set out.
    """

    name: str
    diameter: float
    pitch: float
    pattern: Pattern

    def __post_init__(self) -> None:
        named("perforation", "name", self.name)
        positive(self.name, "diameter", self.diameter)
        within(self.name, "pitch", self.pitch, self.diameter * 1.05, math.inf)

    @property
    def open_share(self) -> float:
        """Open area of an endless sheet, 0 to 1.

        Source: perforated-sheet makers' formula, 90.7 w2/t2 % staggered and 78.5 w2/t2 %
        square, here with its exact factors.
        """
        return self.pattern.density * (self.diameter / self.pitch) ** 2

    @property
    def designation(self) -> str:
        """Short form after ISO 7806: round hole, pattern, pitch (``R5T8``)."""
        letter = "T" if self.pattern is Pattern.STAGGERED else "U"
        return f"R{self.diameter:g}{letter}{self.pitch:g}"

    def box(self, size: BoardSize) -> BoardBox:
        """The box around the field, mm in the board's frame: the whole sheet."""
        return BoardBox(low=(0.0, 0.0, 0.0), high=size.along)

    def check(self, owner: str, size: BoardSize) -> None:
        """Refuse holes that are wider than the sheet (``SizeError``)."""
        most = min(size.length, size.width)
        within(f"{owner}, {self.name}", "diameter", self.diameter, 0.0, most, why="one must fit")


Feature = (
    Groove
    | Rebate
    | Bevel
    | Hole
    | HoleRow
    | CutOut
    | Notch
    | BiscuitSlot
    | FlushTrim
    | Perforation
)

__all__ = [
    "Bevel",
    "Biscuit",
    "BiscuitSlot",
    "CutOut",
    "Feature",
    "FlushTrim",
    "Groove",
    "Hole",
    "HoleRow",
    "Notch",
    "Pattern",
    "Perforation",
    "Rebate",
    "Tolerance",
]
