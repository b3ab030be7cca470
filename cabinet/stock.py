"""What a part is cut from: boards and sheets with a name, a measured thickness and a weight.

Densities of birch plywood are those of a maker's data sheet (1.4 mm veneers, 18 mm: 685 kg/m3);
the densities of steel (7850 kg/m3) and of rubber sheet (1300 kg/m3) are common handbook values
from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from cabinet.errors import SizeError
from cabinet.quantity import finite, kind_of, named, positive, short_name, within

# More than this over a metre is no sheet that a door could be made of, mm.
MOST_BOW = 50.0

Colour = tuple[float, float, float]

# Measured plywood may differ from its name; 18 is often 17.1 to 18.1 (birch data sheets). A
# larger gap than this is a slip of the pen and would be cut into every groove of the unit.
MOST_OFF_NOMINAL = 0.25


class Grain(Enum):
    """Which way the face grain runs on a part."""

    LENGTH = "along the length"
    WIDTH = "across, along the width"
    NONE = "none"


class Hatching(Enum):
    """How a cut through the material is hatched, by the kind of material."""

    BOARD = "at right angles to the faces"
    SOLID_WOOD = "at 45 degrees"
    METAL = "at 45 degrees, close"
    SOFT = "crossed at 45 degrees"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """One kind of sheet or board in the rack.

    Attributes:
        material: What it is, as the maker calls it (``birch plywood``).
        code: Short code for cut faces on drawings (``BP``).
        nominal: Thickness by which it is bought, mm.
        measured: Thickness found with the caliper, mm; everything derives from this one.
        density_kg_m3: Density, kg/m3.
        has_grain: Whether its face has a grain direction that shows.
        hatching: How its cuts are hatched.
        colour: Red, green, blue from 0 to 1, for solids and pictures.
        sheet_length: Length of a full sheet along its face grain, mm.
        sheet_width: Width of a full sheet, mm.
        bow_per_metre: How hollow the sheet lies under a straightedge of 1 m, mm, as measured.

    Raises:
        SizeError: a size that is not positive, a measured thickness further than a quarter
            from the nominal one, or a bow that no sheet has.
    """

    material: str
    code: str
    nominal: float
    measured: float
    density_kg_m3: float
    has_grain: bool
    hatching: Hatching
    colour: Colour
    sheet_length: float = 2500.0
    sheet_width: float = 1250.0
    bow_per_metre: float = 0.0

    def __post_init__(self) -> None:
        owner = short_name("stock", "material", self.material)
        named(owner, "code", self.code)
        positive(owner, "nominal thickness", self.nominal)
        positive(owner, "measured thickness", self.measured)
        within(
            owner,
            "measured thickness",
            self.measured,
            self.nominal * (1 - MOST_OFF_NOMINAL),
            self.nominal * (1 + MOST_OFF_NOMINAL),
            why=f"a quarter either side of nominal {self.nominal:g}; was the right board measured?",
        )
        positive(owner, "density", self.density_kg_m3, unit="kg/m3")
        positive(owner, "sheet length", self.sheet_length)
        positive(owner, "sheet width", self.sheet_width)
        within(owner, "bow over a metre", self.bow_per_metre, 0.0, MOST_BOW)
        kind_of(owner, "has_grain", self.has_grain, bool, right="True or False")
        kind_of(owner, "hatching", self.hatching, Hatching, right="a Hatching, Hatching.BOARD ...")
        right = "red, green and blue, three numbers from 0 to 1"
        kind_of(owner, "colour", self.colour, tuple, right=right)
        if len(self.colour) != 3:
            raise SizeError(
                f"{owner}: colour has {len(self.colour)} parts; it must have 3: {right}",
                part=owner,
                value=self.colour,
                limit=right,
            )
        for part in self.colour:
            within(owner, "colour part", finite(owner, "colour part", part, unit=""), 0, 1, unit="")

    def bow(self, length: float) -> float:
        """How hollow a piece lies under a straightedge as long as itself, mm.

        The sagitta of an arc: over a chord c of a bend with radius R it is
        R - sqrt(R2 - c2 / 4), nearly c2 / (8 R).

        Args:
            length: Length of the piece, mm.

        Raises:
            SizeError: a bend so tight that the piece would be more than a half circle.
        """
        if not self.bow_per_metre:
            return 0.0
        radius = (500.0**2 + self.bow_per_metre**2) / (2 * self.bow_per_metre)
        within(self.material, "length of a bowed piece", length, 0.0, 2 * radius)
        return radius - math.sqrt(radius**2 - length**2 / 4)

    @property
    def title(self) -> str:
        """Material with nominal and measured thickness, as printed on sheets and lists."""
        if self.nominal == self.measured:
            return f"{self.material} {self.nominal:g}"
        return f"{self.material} {self.nominal:g} (measured {self.measured:g})"


def require_stock(owner: str, name: str, value: object) -> Stock:
    """Return ``value`` if it is a stock.

    Args:
        owner: What is made of it, for the message.
        name: What it is there, for the message.
        value: The value.

    Raises:
        KindError: it is something else.
    """
    right = "a Stock, such as birch_plywood(nominal=18, measured=17.7)"
    return kind_of(owner, name, value, Stock, right=right)


# Nominal thickness -> kg/m3 of all-birch plywood with 1.4 mm veneers (maker's data sheet).
BIRCH_DENSITIES = {4: 660, 6.5: 670, 9: 710, 12: 695, 15: 690, 18: 685, 21: 680, 24: 680, 30: 672}


def birch_plywood(nominal: float, measured: float, bow_per_metre: float = 0.0) -> Stock:
    """All-birch plywood, its density by nominal thickness from a maker's data sheet.

    Args:
        nominal: Thickness by which it is sold, mm.
        measured: Thickness found with the caliper, mm.
        bow_per_metre: How hollow it lies under a straightedge of 1 m, mm.

    Raises:
        SizeError: as for ``Stock``.
    """
    return Stock(
        material="birch plywood",
        code="BP",
        nominal=nominal,
        measured=measured,
        density_kg_m3=BIRCH_DENSITIES.get(positive("birch plywood", "nominal", nominal), 680),
        has_grain=True,
        hatching=Hatching.BOARD,
        colour=(0.87, 0.76, 0.58),
        bow_per_metre=bow_per_metre,
    )


def poplar_plywood(nominal: float, measured: float, bow_per_metre: float = 0.0) -> Stock:
    """Light poplar plywood; 450 kg/m3 is from memory, so weigh a sheet if weight matters.

    Args:
        nominal: Thickness by which it is sold, mm.
        measured: Thickness found with the caliper, mm.
        bow_per_metre: How hollow it lies under a straightedge of 1 m, mm.
    """
    return Stock(
        material="poplar plywood",
        code="PP",
        nominal=nominal,
        measured=measured,
        density_kg_m3=450,
        has_grain=True,
        hatching=Hatching.BOARD,
        colour=(0.93, 0.88, 0.74),
        bow_per_metre=bow_per_metre,
    )


def solid_wood(species: str, measured: float, density_kg_m3: float) -> Stock:
    """Planed boards for lippings, rails and feet.

    Args:
        species: Kind of wood, as it is printed (``ash``).
        measured: Planed thickness, mm; solid wood has no other nominal one here.
        density_kg_m3: Density at the workshop's moisture, kg/m3.
    """
    return Stock(
        material=species,
        code="SW",
        nominal=measured,
        measured=measured,
        density_kg_m3=density_kg_m3,
        has_grain=True,
        hatching=Hatching.SOLID_WOOD,
        colour=(0.80, 0.66, 0.46),
        sheet_length=3000.0,
        sheet_width=200.0,
    )


def steel_sheet(thickness: float) -> Stock:
    """Mild steel sheet, 7850 kg/m3 (common handbook value, from memory).

    Args:
        thickness: Gauge, mm.
    """
    return Stock(
        material="steel sheet",
        code="ST",
        nominal=thickness,
        measured=thickness,
        density_kg_m3=7850,
        has_grain=False,
        hatching=Hatching.METAL,
        colour=(0.55, 0.58, 0.60),
        sheet_length=2000.0,
        sheet_width=1000.0,
    )


def rubber_sheet(thickness: float) -> Stock:
    """Rubber sheet for coverings; 1300 kg/m3 is from memory.

    Args:
        thickness: Thickness, mm.
    """
    return Stock(
        material="rubber sheet",
        code="RU",
        nominal=thickness,
        measured=thickness,
        density_kg_m3=1300,
        has_grain=False,
        hatching=Hatching.SOFT,
        colour=(0.30, 0.36, 0.33),
        sheet_length=5000.0,
        sheet_width=1400.0,
    )
