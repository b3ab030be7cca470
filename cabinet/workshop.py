"""The workshop's tools as data: what they reach, how deep they cut, how far they open.

The checks of reach, the set-ups and the gluing plan read the same tools. A maker who has other
ones gives them to the job; the defaults are a small workshop's usual ones (common practice, no
source). Lengths in mm, angles in degrees.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.errors import DesignError, SizeError
from cabinet.quantity import ROUNDING, kind_of, named, numbers, positive, several, whole, within


@dataclass(frozen=True, slots=True, kw_only=True)
class Driver:
    """A screwdriver with its bit, as the straight body that must stand behind a screw's head.

    Attributes:
        name: What it is called at the bench.
        length: From the tip of the bit to its far end, hand included, mm.
        diameter: Of its body, mm.
        bit_length: Of the bit that stands out of the body, mm.
        bit_diameter: Of that bit, mm.
    """

    name: str
    length: float
    diameter: float
    bit_length: float
    bit_diameter: float = 8.0

    def __post_init__(self) -> None:
        named("driver", "name", self.name)
        positive(self.name, "length", self.length)
        positive(self.name, "diameter", self.diameter)
        within(self.name, "bit length", self.bit_length, 1.0, self.length)
        within(self.name, "bit diameter", self.bit_diameter, 1.0, self.diameter)


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideBush:
    """A guide bush and the straight cutter that turns in it.

    The bush runs along a template and the cutter within it, so the cut lies inside the
    template's edge by half of what the bush is wider than the cutter.

    Attributes:
        diameter: Outside diameter of the bush, mm.
        cutter: Diameter of the cutter, mm.

    Raises:
        SizeError: a diameter that is not positive, or a cutter that does not go through the
            bush.

    Source: offset = (bush outside diameter - cutter diameter) / 2, for an inside cut template
    opening = finished opening + 2 x offset, as told by router makers' and users' pages on
    template guides. A 30 bush with a 10 cutter is their usual example, and our default.
    """

    diameter: float = 30.0
    cutter: float = 10.0

    def __post_init__(self) -> None:
        positive("router", "guide bush", self.diameter)
        positive("router", "cutter in the bush", self.cutter)
        if self.cutter >= self.diameter:
            raise SizeError(
                f"router: a cutter of {self.cutter:g} mm does not go through a guide bush of "
                f"{self.diameter:g} mm; the cutter must be smaller",
                part="router",
                value=self.cutter,
                limit=self.diameter,
            )

    @property
    def offset(self) -> float:
        """From the template's edge to the cut, mm."""
        return (self.diameter - self.cutter) / 2

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Router:
    """A plunge router with its cutters.

    Attributes:
        base: Diameter of its base, mm.
        depth: Greatest depth of cut, mm.
        cutters: Diameters of the straight cutters there are, mm.
        bush: The guide bush with its cutter.
        bearing_diameter: Diameter of the bearing-guided cutter, mm.
        bearing_length: Cutting length of the bearing-guided cutter, mm.
        bearing_height: Height of its bearing, which needs a face to run on, mm.
    """

    base: float = 150.0
    depth: float = 60.0
    cutters: tuple[float, ...] = (4.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0)
    bush: GuideBush = GuideBush()
    bearing_diameter: float = 12.7
    bearing_length: float = 25.0
    bearing_height: float = 5.0

    def __post_init__(self) -> None:
        for name in ("base", "depth", "bearing_diameter"):
            positive("router", name.replace("_", " "), getattr(self, name))
        positive("router", "bearing-guided cutter's length", self.bearing_length)
        positive("router", "bearing's height", self.bearing_height)
        kind_of("router", "bush", self.bush, GuideBush, right="GuideBush(diameter=30, cutter=10)")
        object.__setattr__(self, "cutters", numbers("router", "cutters", self.cutters))
        if not self.cutters:
            raise DesignError(
                "router: there are no cutters; give the diameter of at least one",
                part="router",
                value=(),
                limit="at least one",
            )
        for cutter in self.cutters:
            positive("router", "cutter", cutter)


# No blade for boards cuts wider, mm (common practice, no source).
MOST_KERF = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """A circular saw, on a rail or in a table.

    Attributes:
        depth: Greatest depth of a square cut, mm.
        bevel_depth: Greatest depth of a cut at 45 degrees, measured square to the board, mm.
        bevel: Greatest angle from square to which it tilts, degrees.
        kerf: Width of its cut, mm.
    """

    depth: float = 55.0
    bevel_depth: float = 40.0
    bevel: float = 47.0
    kerf: float = 2.2

    def __post_init__(self) -> None:
        positive("saw", "depth of cut", self.depth)
        within("saw", "depth of cut at 45 degrees", self.bevel_depth, 1.0, self.depth)
        within("saw", "bevel", self.bevel, 0.0, 60.0, unit="degrees")
        within("saw", "kerf", self.kerf, 0.5, MOST_KERF, why="widths of saw blades")


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamp:
    """Clamps of one length.

    Attributes:
        opening: Widest that they open, mm.
        count: How many there are.
        reach: From the bar to the middle of the jaws, mm.

    Raises:
        SizeError: an opening or a reach that is not positive, or a number that is not whole or
            below 1.
    """

    opening: float
    count: int
    reach: float = 80.0

    def __post_init__(self) -> None:
        positive("clamp", "opening", self.opening)
        whole(f"clamps of {self.opening:g} mm", "number", self.count, 1, 1000)
        positive(f"clamps of {self.opening:g} mm", "reach", self.reach)


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """All the tools that a job may count on.

    Attributes:
        drivers: Screwdrivers, any of which may drive a screw.
        router: The router.
        saw: The saw.
        clamps: The clamps.
        square_chisel: Width of the chisel that squares corners, mm.

    Raises:
        DesignError: there is no driver, or no clamp.
    """

    drivers: tuple[Driver, ...] = (
        Driver(name="cordless driver", length=220.0, diameter=60.0, bit_length=50.0),
        Driver(name="stubby screwdriver", length=95.0, diameter=36.0, bit_length=30.0),
        Driver(name="angle driver", length=75.0, diameter=40.0, bit_length=28.0),
    )
    router: Router = Router()
    saw: Saw = Saw()
    clamps: tuple[Clamp, ...] = (
        Clamp(opening=300.0, count=6),
        Clamp(opening=600.0, count=6, reach=120.0),
        Clamp(opening=1000.0, count=4, reach=120.0),
    )
    square_chisel: float = 12.0

    def __post_init__(self) -> None:
        kind_of("workshop", "router", self.router, Router, right="Router(...)")
        kind_of("workshop", "saw", self.saw, Saw, right="Saw(...)")
        right = "Driver(name=..., length=..., diameter=..., bit_length=...)"
        drivers = several("workshop", "drivers", self.drivers, Driver, right=right)
        right = "Clamp(opening=..., count=...)"
        clamps = several("workshop", "clamps", self.clamps, Clamp, right=right)
        object.__setattr__(self, "drivers", drivers)
        object.__setattr__(self, "clamps", clamps)
        for name, tools in (("driver", self.drivers), ("clamp", self.clamps)):
            if not tools:
                raise DesignError(
                    f"workshop: there is no {name}; give at least one",
                    part="workshop",
                    value=(),
                    limit="at least one",
                )
        positive("workshop", "chisel", self.square_chisel)

    def saws_groove(self, width: float, most: float, depth: float) -> bool:
        """Whether a groove that runs out at both ends is sawn: a blade makes it and no router.

        Args:
            width: Its least width, mm.
            most: Its greatest width, mm: what its fit allows.
            depth: Its depth, mm.
        """
        is_for_router = width >= min(self.router.cutters) - ROUNDING and depth <= self.router.depth
        fits = self.saw.kerf <= most + ROUNDING and depth <= self.saw.depth
        return fits and not is_for_router
