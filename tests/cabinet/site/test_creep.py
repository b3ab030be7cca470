"""Creep against the published table and a worked beam."""

from __future__ import annotations

import pytest

from cabinet.site.beam_table import Case, deflection
from cabinet.site.creep import creep_factor, kdef
from cabinet.site.service import Duration, Kind, ServiceClass

# EN 1995-1-1 Table 3.2 as read in a public transcription: service classes 1, 2, 3.
TABLE_3_2 = {Kind.SOLID: (0.60, 0.80, 2.00), Kind.PLYWOOD: (0.80, 1.00, 2.50)}


@pytest.mark.parametrize("kind", list(TABLE_3_2))
def test_kdef_of_table_3_2(kind: Kind) -> None:
    """Solid wood and plywood in each service class."""
    assert tuple(kdef(kind, service) for service in ServiceClass) == TABLE_3_2[kind]


def test_creep_part_of_the_worked_floor_beam() -> None:
    """k_def 0.6 on (0.57 + 0.3 x 1.5) kN/m2 x 0.5 m gives 3.060 mm.

    Source: Benoit, Legrand, Tastet, Calcul de structures en bois (2008), example 2.3.1, as
    coded in xcfem/xc.
    """
    intensity = (0.57 + 0.3 * 1.5) * 0.5
    first = deflection(
        Case.SIMPLE_UNIFORM,
        intensity * 4500,
        4500.0,
        11_000 * 75 * 200**3 / 12,
        690 * 75 * 200 * 5 / 6,
    )
    assert kdef(Kind.SOLID, ServiceClass.DRY) * first == pytest.approx(3.060, abs=0.0006)


def test_code_and_handbook_side_by_side() -> None:
    """Plywood in a dry room: 1.8 by the code, about 2 by the Wood Handbook (GTR-282 ch. 5)."""
    factor = creep_factor(Kind.PLYWOOD, ServiceClass.DRY, Duration.LONG)
    assert (factor.low, factor.likely, factor.high) == pytest.approx((1.8, 1.8, 2.0))


def test_a_short_load_and_metal_do_not_creep() -> None:
    """Nothing is added."""
    short = creep_factor(Kind.SOLID, ServiceClass.DAMP, Duration.SHORT)
    assert (short.low, short.high) == (1.0, 1.0)
    assert creep_factor(Kind.METAL, ServiceClass.DRY, Duration.PERMANENT).high == 1.0
