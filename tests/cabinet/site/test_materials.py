"""What the checks know of materials, and that they refuse what they do not know."""

from __future__ import annotations

import pytest

from cabinet.errors import UnknownNameError
from cabinet.site.materials import elastic
from cabinet.site.service import Kind
from cabinet.stock import (
    birch_plywood,
    poplar_plywood,
    rubber_sheet,
    solid_wood,
    steel_sheet,
)

# 1e6 psi in N/mm2.
MPSI = 6894.757


@pytest.mark.parametrize(
    ("species", "mpsi"),
    [("beech", 1.72), ("birch", 2.01), ("cherry", 1.49), ("ash", 1.74), ("maple", 1.64)],
)
def test_moduli_of_species(species: str, mpsi: float) -> None:
    """Within half a percent of the values at 12 % moisture content.

    Source: USDA Wood Handbook values in a species table (beech, yellow birch, black cherry,
    white ash, red maple; 10^6 psi).
    """
    found = elastic(solid_wood(species, measured=18, density_kg_m3=640)).along
    assert found.likely == pytest.approx(mpsi * MPSI, rel=0.005)
    assert found.low < found.likely < found.high


def test_birch_plywood_goes_by_its_plies() -> None:
    """The nominal thickness chooses the plies, the caliper does not."""
    known = elastic(birch_plywood(nominal=18, measured=17.3))
    assert round(known.along.likely) == 10048
    assert known.kind is Kind.PLYWOOD
    assert elastic(birch_plywood(nominal=18, measured=17.3), layers=2).along.likely < 10_048


@pytest.mark.parametrize("stock", [poplar_plywood(18, 17.4), steel_sheet(1.5)])
def test_other_sheets_are_known(stock: object) -> None:
    """They say where their values come from."""
    assert "from memory" in elastic(stock).source  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "stock", [rubber_sheet(3), solid_wood("balsa", measured=10, density_kg_m3=150)]
)
def test_an_unknown_material_is_named(stock: object) -> None:
    """One clear error that names it and lists what is known."""
    with pytest.raises(UnknownNameError, match="unknown material") as caught:
        elastic(stock)  # type: ignore[arg-type]
    assert caught.value.part in str(caught.value)
    assert "beech" in str(caught.value)
