"""The router as it stands when an opening is cut to a template: guide bush and cutter.

The bush runs along the template and the cutter within it, so the cut lies inside the
template's edge by half of what the bush is wider than the cutter. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.errors import SizeError
from cabinet.quantity import positive
from cabinet.workshop import Router


@dataclass(frozen=True, slots=True, kw_only=True)
class RouterSetup:
    """A guide bush and the straight cutter that turns in it.

    Attributes:
        bush: Outside diameter of the guide bush, mm.
        cutter: Diameter of the cutter, mm.

    Raises:
        SizeError: a diameter that is not positive, or a cutter that does not go through the
            bush.

    Source: offset = (bush outside diameter - cutter diameter) / 2, for an inside cut template
    opening = finished opening + 2 x offset, as told by router makers' and users' pages on
    template guides. A 30 bush with a 10 cutter is their usual example, and our default.
    """

    bush: float = 30.0
    cutter: float = 10.0

    def __post_init__(self) -> None:
        positive("router", "guide bush", self.bush)
        positive("router", "cutter", self.cutter)
        if self.cutter >= self.bush:
            raise SizeError(
                f"router: a cutter of {self.cutter:g} mm does not go through a guide bush of "
                f"{self.bush:g} mm; the cutter must be smaller",
                part="router",
                value=self.cutter,
                limit=self.bush,
            )

    @classmethod
    def of(cls, router: Router) -> RouterSetup:
        """The bush and the cutter of a workshop's router."""
        return cls(bush=router.bush, cutter=router.bush_cutter)

    @property
    def offset(self) -> float:
        """From the template's edge to the cut, mm."""
        return (self.bush - self.cutter) / 2

    def template_opening(self, finished: float) -> float:
        """Size that the template needs for an opening of a finished size, both in mm."""
        return positive("router", "finished opening", finished) + 2 * self.offset

    def require_corner(self, owner: str, radius: float) -> float:
        """Return the inner radius (mm) if the cutter can leave it.

        Raises:
            SizeError: the cutter's own radius is larger; the message names ``owner``.
        """
        if radius < self.cutter / 2 - 1e-6:
            raise SizeError(
                f"{owner}: corners of radius {radius:g} mm cannot be cut by a cutter of "
                f"{self.cutter:g} mm; the cutter must be at most {2 * radius:g} mm",
                part=owner,
                value=self.cutter,
                limit=2 * radius,
            )
        return radius
