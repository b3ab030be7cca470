"""Openings through a board, and through what covers it. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.features import CutOut, Feature
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware
from cabinet.joint.base import Features, Parts, Proof


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """One opening through several boards that lie on each other.

    Attributes:
        name: What it is for.
        through: Names of the boards, all at right angles to one unit axis.
        centre: Centre in the unit; the coordinate along the boards' thickness is ignored.
        size: Clear size along the two unit axes of the face, in X, Y, Z order.
        corner_radius: Radius of the corners.
        told_from: The two sides from which the centre is told.
    """

    name: str
    through: tuple[str, ...]
    centre: UnitPoint
    size: tuple[float, float]
    corner_radius: float
    told_from: tuple[Side, Side]

    @property
    def parts(self) -> tuple[str, ...]:
        """The boards that it goes through."""
        return self.through

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "opening"

    @property
    def is_glued(self) -> bool:
        """Nothing is glued."""
        return False

    def features(self, parts: Parts) -> Features:
        """The same cut-out in each board."""
        found: list[tuple[str, Feature]] = []
        for name in self.through:
            part = parts[name]
            axes = [axis for axis in range(3) if axis != part.placement.up.axis]
            sizes = dict(zip(axes, self.size, strict=True))
            along, across = part.placement.along.axis, part.placement.across.axis
            first, second = (
                part.at(side, tuple(self.centre)[side.axis]) for side in self.told_from
            )
            found.append(
                (
                    name,
                    CutOut(
                        name=self.name,
                        centre=(first, second),
                        length=sizes[along],
                        width=sizes[across],
                        corner_radius=self.corner_radius,
                    ),
                )
            )
        return tuple(found)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """Nothing touches."""
        return ()
