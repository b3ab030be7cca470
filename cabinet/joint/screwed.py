"""Faces pulled together by screws. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.errors import DesignError
from cabinet.features import Feature, Hole, HoleRow
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Screw
from cabinet.joint.base import (
    LEAST_BETWEEN,
    LEAST_THREAD,
    SAME,
    Features,
    Parts,
    Proof,
    Touch,
    datum_side,
    meeting,
    near_place,
)
from cabinet.quantity import positive, tenths, whole, within


@dataclass(frozen=True, slots=True, kw_only=True)
class Screwed:
    """Screws through one part into another.

    Attributes:
        through: Part that is pulled tight; it gets clearance holes with countersinks.
        into: Part that takes the thread; it gets pilot holes.
        screw: The screw.
        count: How many, at an equal pitch along the joint.
        inset: First and last screw from the ends of the joint.
        offset: Line of the screws from the joint's edge that looks to ``offset_from``;
            None for the middle of the joint.
        offset_from: See ``offset``.
        is_glued: Whether the faces are glued as well.
    """

    through: str
    into: str
    screw: Screw
    count: int
    inset: float
    offset: float | None = None
    offset_from: Side | None = None
    is_glued: bool = True

    def __post_init__(self) -> None:
        owner = f"{self.through} to {self.into}"
        whole(owner, "screws", self.count, 1, 60)
        positive(owner, "inset of the first screw", self.inset)
        if (self.offset is None) != (self.offset_from is None):
            raise DesignError(f"{owner}: an offset needs the side that it is told from", part=owner)

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return self.through, self.into

    @property
    def title(self) -> str:
        """Kind of joint."""
        return f"{self.count} screws {self.screw.diameter:g} × {self.screw.length:g}" + (
            ", glued" if self.is_glued else ""
        )

    def _line(self, parts: Parts) -> tuple[Side, int, float, float, float]:
        """Driving direction, run axis, first place, pitch, and the line across the run."""
        through = parts[self.through]
        side, rectangle = meeting(through, parts[self.into])
        across_axes = [axis for axis in range(3) if axis != side.axis]
        run = max(across_axes, key=lambda axis: rectangle.size[axis])
        across = 3 - side.axis - run
        low, high = tuple(rectangle.low), tuple(rectangle.high)
        room = high[run] - low[run] - 2 * self.inset
        least = self.screw.head_diameter + LEAST_BETWEEN
        most = 1 + math.floor(room / least + 1e-9) if room >= -SAME else 0
        if self.count > most:
            raise DesignError(
                f"{self.through} to {self.into}: {self.count} screws, the outer ones "
                f"{self.inset:g} mm from the ends, do not fit on a joint "
                f"{high[run] - low[run]:.1f} mm long; at most {most} at {least:g} mm apart",
                part=self.through,
                value=self.count,
                limit=most,
            )
        pitch = tenths(room / (self.count - 1)) if self.count > 1 else 0.0
        first = low[run] + self.inset if self.count > 1 else (low[run] + high[run]) / 2
        if self.offset is None or self.offset_from is None:
            line = (low[across] + high[across]) / 2
        else:
            line = rectangle.face(self.offset_from) - self.offset_from.sign * self.offset
        return side, run, first, pitch, line

    def features(self, parts: Parts) -> Features:
        """Countersunk clearance holes in one part, pilot holes in the other."""
        side, run, first, pitch, line = self._line(parts)
        across = 3 - side.axis - run
        through, into = parts[self.through], parts[self.into]
        grip = through.blank_box.size[side.axis]
        within(
            f"{self.through} to {self.into}",
            "screw length",
            self.screw.length,
            grip + LEAST_THREAD,
            math.inf,
            why=f"it goes through {grip:g} and must hold in {LEAST_THREAD:g} more",
        )
        last = first + pitch * (self.count - 1)
        found: list[tuple[str, Feature]] = []
        for part, surface, diameter, depth, countersink in (
            (
                through,
                through.surface(side.opposite),
                self.screw.clearance,
                None,
                self.screw.head_diameter,
            ),
            (
                into,
                into.surface(side.opposite),
                self.screw.core,
                round(self.screw.length - grip + 1.0, 6),
                0.0,
            ),
        ):
            mate = into if part is through else through
            run_side = datum_side(part, run)
            start = near_place(part, run_side, first, last)
            line_at = part.at(datum_side(part, across), line)
            name = ("screw holes to " if part is through else "pilot holes for ") + mate.role
            if self.count == 1:
                found.append(
                    (
                        part.name,
                        Hole(
                            name=name,
                            surface=surface,
                            centre=(start, line_at),
                            diameter=diameter,
                            depth=depth,
                            countersink=countersink,
                        ),
                    )
                )
            else:
                found.append(
                    (
                        part.name,
                        HoleRow(
                            name=name,
                            surface=surface,
                            first=start,
                            line=line_at,
                            count=self.count,
                            pitch=pitch,
                            diameter=diameter,
                            depth=depth,
                            countersink=countersink,
                        ),
                    )
                )
        return tuple(found)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """The screws in place."""
        side, run, first, pitch, line = self._line(parts)
        face = parts[self.through].blank_box.face(side.opposite)
        screws = []
        for index in range(self.count):
            place = [0.0, 0.0, 0.0]
            place[side.axis], place[run] = face, first + index * pitch
            place[3 - side.axis - run] = line
            screws.append(
                Hardware(
                    name=f"screw {index + 1}, {self.through} to {self.into}",
                    article=f"countersunk wood screw {self.screw.diameter:g} × "
                    f"{self.screw.length:g}",
                    body=self.screw,
                    at=UnitPoint(*place),
                    axis=side,
                    inside=self.parts,
                )
            )
        return tuple(screws)

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """The parts meet."""
        return (Touch(one=self.through, other=self.into),)
