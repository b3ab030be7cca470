"""Sideways strength of a screw against a printed result and the code's own formulas."""

from __future__ import annotations

import math

import pytest

from cabinet.errors import SizeError
from cabinet.site.materials import elastic
from cabinet.site.pin_bearing import embedment_strength
from cabinet.site.screw_yield import Member, sideways_strength, yield_modes, yield_moment
from cabinet.stock import solid_wood

# C24, predrilled: 0.082 (1 - 0.01 x 5) x 350 (EN 1995-1-1, equation 8.16).
C24_AT_5 = 0.082 * 0.95 * 350


def test_sideways_resistance_of_the_worked_screw() -> None:
    """949.58 N: d 5, C24, t1 38, thread 50, f_u 540, permanent, service class 2.

    The printed figure is k_mod / 1.3 of 1.15 times the bent screw, and a quarter of the axial
    DESIGN resistance (395.77 N) in that sum, where the code adds the characteristic one.
    Source: public notebook paulevalentine/Python_Development, timber_connections.ipynb.
    """
    modes = yield_modes(
        Member(depth=38.0, embedment=C24_AT_5),
        Member(depth=50.0, embedment=C24_AT_5),
        5.0,
        yield_moment(5.0, 540.0),
    )
    assert min(modes, key=lambda name: modes[name]) == "bent in both"
    found = 0.6 / 1.3 * (1.15 * modes["bent in both"] + 395.77 / 4)
    assert found == pytest.approx(949.58, abs=0.05)


def johansen(t1: float, t2: float, f1: float, f2: float, d: float, moment: float) -> list[float]:
    """EN 1995-1-1, equation 8.6 a to f without 1.05, 1.15 and the rope effect (from memory)."""
    b, f = f2 / f1, f1 * d
    r = t2 / t1
    return [
        f * t1,
        f2 * t2 * d,
        f * t1 / (1 + b) * (math.sqrt(b + 2 * b**2 * (1 + r + r**2) + b**3 * r**2) - b * (1 + r)),
        f
        * t1
        / (2 + b)
        * (math.sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * moment / (f * t1**2)) - b),
        f
        * t2
        / (1 + 2 * b)
        * (math.sqrt(2 * b**2 * (1 + b) + 4 * b * (1 + 2 * b) * moment / (f * t2**2)) - b),
        math.sqrt(2 * b / (1 + b)) * math.sqrt(2 * moment * f),
    ]


@pytest.mark.parametrize("sizes", [(17.7, 27.3, 44.0, 25.0, 4.6), (35.4, 52.1, 24.3, 43.8, 6.6)])
def test_without_a_gap_it_is_the_code(sizes: tuple[float, ...]) -> None:
    """All six modes of equation 8.6, boards and strengths all different."""
    t1, t2, f1, f2, d = sizes
    moment = yield_moment(d)
    ours = yield_modes(Member(depth=t1, embedment=f1), Member(depth=t2, embedment=f2), d, moment)
    a, b, tilted, bent_second, bent_first, both = johansen(t1, t2, f1, f2, d, moment)
    assert ours["first board crushed"] == pytest.approx(a)
    assert ours["second board crushed"] == pytest.approx(b)
    assert ours["tilted"] == pytest.approx(tilted)
    assert ours["bent in the second board"] == pytest.approx(bent_second)
    assert ours["bent in the first board"] == pytest.approx(bent_first)
    assert ours["bent in both"] == pytest.approx(both)


def test_a_gap_weakens() -> None:
    """Plasterboard between cleat and stud; a very wide gap leaves 2 M / g, as of a free pin."""
    first, second = Member(depth=35.4, embedment=43.8), Member(depth=52.1, embedment=24.3)
    plain = sideways_strength(first, second, 4.2)
    assert sideways_strength(first, second, 4.2, gap=12.5) < 0.75 * plain
    modes = yield_modes(first, second, 4.6, yield_moment(4.6), 60.0)
    assert modes["bent in both"] < 2 * yield_moment(4.6) / 60.0
    with pytest.raises(SizeError, match="gap"):
        sideways_strength(first, second, 4.2, gap=-1.0)


def test_embedment_strength_of_the_worked_screw() -> None:
    """Solid wood predrilled; the notebook's screw sits in C24."""
    wood = elastic(solid_wood("spruce", measured=38, density_kg_m3=420))
    assert wood.density_kg_m3 == 350
    assert embedment_strength(5.0, wood) == pytest.approx(C24_AT_5)
