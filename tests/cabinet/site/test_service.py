"""Design strength against published tables and a worked beam."""

from __future__ import annotations

import pytest

from cabinet.site.service import (
    Duration,
    Kind,
    ServiceClass,
    design_strength,
    kmod,
)

# EN 1995-1-1 Table 3.1, plywood and solid timber, as printed in ICE Manual of Structural
# Design: Buildings, Table 19.9.
TABLE_3_1 = {
    ServiceClass.DRY: (0.60, 0.70, 0.80, 0.90, 1.10),
    ServiceClass.DAMP: (0.60, 0.70, 0.80, 0.90, 1.10),
    ServiceClass.OUTDOORS: (0.50, 0.55, 0.65, 0.70, 0.90),
}


@pytest.mark.parametrize("kind", [Kind.SOLID, Kind.PLYWOOD])
@pytest.mark.parametrize("service", list(ServiceClass))
def test_kmod_of_table_3_1(kind: Kind, service: ServiceClass) -> None:
    """Each class of duration."""
    assert tuple(kmod(kind, service, d) for d in Duration) == TABLE_3_1[service]


def test_metal_keeps_its_strength() -> None:
    """Duration and damp are nothing to it."""
    assert kmod(Kind.METAL, ServiceClass.OUTDOORS, Duration.PERMANENT) == 1.0


def test_bending_ratio_of_the_worked_floor_beam() -> None:
    """Bending ratio 0.4557 (q 1.4625 N/mm, C24, 75 x 200, 4.5 m, k_mod 0.8, k_sys 1.1).

    Source: Benoit, Legrand, Tastet, Calcul de structures en bois (2008), example 2.3.1, as
    coded in the public verification tests of xcfem/xc.
    """
    q = 0.5 * (1.35 * 0.5 + 1.5 * 1.5)
    assert q == pytest.approx(1.4625)
    stress = q * 4500**2 / 8 / (75 * 200**2 / 6)
    strength = design_strength(24.0, Kind.SOLID, ServiceClass.DRY, Duration.MEDIUM)
    assert stress / (1.1 * strength) == pytest.approx(0.4557, abs=0.00006)
