"""Screws against printed results; see each test for its source."""

from __future__ import annotations

import pytest

from cabinet.errors import DesignError, SizeError
from cabinet.site.screws import (
    PLYWOOD_SHARE,
    Grip,
    allowable_withdrawal,
    code_withdrawal,
    combined,
    design_force,
    head_pull_through,
    pull_strength,
    ultimate_withdrawal,
)
from cabinet.site.service import Duration, Kind, ServiceClass

LBF = 4.448222
INCH = 25.4
DAMP, DRY = ServiceClass.DAMP, ServiceClass.DRY


def test_head_pull_through_of_the_worked_screw() -> None:
    """Axial design resistance 395.77 N: C24, head 10 mm, permanent, service class 2.

    Source: public notebook paulevalentine/Python_Development, timber_connections.ipynb, which
    transcribes EN 1995-1-1 (its printed 395.77 is the head's; its two labels are swapped).
    """
    characteristic = head_pull_through(10.0, 350.0)
    found = design_force(characteristic, DAMP, Duration.PERMANENT)
    assert found == pytest.approx(395.77, abs=0.005)


def test_combined_use_of_the_worked_screw() -> None:
    """Unities 0.76 and 0.53, combined 0.85, for 300 N axial and 500 N sideways.

    Source: the same notebook; its printed sideways resistance is 949.58 N.
    """
    pull = design_force(head_pull_through(10.0, 350.0), DAMP, Duration.PERMANENT)
    assert 300 / pull == pytest.approx(0.76, abs=0.005)
    sideways = 500 / 949.58
    assert sideways == pytest.approx(0.53, abs=0.005)
    assert combined(300.0, pull, 500.0, 949.58) == pytest.approx(0.85, abs=0.005)


def test_allowable_withdrawal_of_a_number_10() -> None:
    """SG 0.45, 0.190 in: 109 lbf for each inch (19.1 N/mm).

    Source: Engineering ToolBox d_1815 (109.65 unrounded, printed cut to 109).
    """
    found = allowable_withdrawal(0.190 * INCH, INCH, 0.45) / LBF
    assert int(found) == 109
    assert allowable_withdrawal(0.190 * INCH, 1.0, 0.45) == pytest.approx(19.1, abs=0.15)


def test_ultimate_withdrawal_in_both_systems() -> None:
    """108.25 G^2 D L in N and mm is 15,700 G^2 D L in pounds and inches, to 0.02 %.

    Source: USDA Wood Handbook GTR-282, ch. 8, equation 8-10b, as quoted in a note.
    """
    printed = 15_700 * 0.62**2 * (4.2 / INCH) * (30 / INCH) * LBF
    assert ultimate_withdrawal(4.2, 30.0, 0.62) == pytest.approx(printed, rel=2e-4)


def test_allowable_is_a_tenth_to_a_half_of_ultimate() -> None:
    """As the page of the allowable load says.

    Source: Engineering ToolBox d_1815.
    """
    share = allowable_withdrawal(4.8, 33.0, 0.47) / ultimate_withdrawal(4.8, 33.0, 0.47)
    assert 0.1 < share < 0.5
    assert 1 / share == pytest.approx(15_700 / 2850, rel=1e-3)


def test_code_withdrawal_formula() -> None:
    """The formula with its numbers spelled out; several screws by n^0.9; a slant by its factor.

    Source: EN 1995-1-1, 8.7.2, from memory; no worked example was found in print.
    """
    one = code_withdrawal(6.0, 40.0, 350.0)
    assert one == pytest.approx(0.52 / 6**0.5 / 40**0.1 * 350**0.8 * 6 * 40 * 0.75)
    assert code_withdrawal(6.0, 40.0, 350.0, count=3) == pytest.approx(3**0.9 * one)
    slanted = code_withdrawal(6.0, 40.0, 350.0, angle=45.0)
    assert slanted == pytest.approx(one / 1.1)
    assert code_withdrawal(8.0, 48.0, 350.0) > one


@pytest.mark.parametrize(
    ("diameter", "thread", "angle"), [(5.0, 50.0, 90.0), (6.0, 35.0, 90.0), (6.0, 50.0, 20.0)]
)
def test_code_withdrawal_keeps_to_its_range(diameter: float, thread: float, angle: float) -> None:
    """6 to 12 mm, at least 6 d of thread, 30 degrees to the grain."""
    with pytest.raises(SizeError):
        code_withdrawal(diameter, thread, 350.0, angle=angle)


def test_never_into_a_plywood_edge() -> None:
    """A grip in an edge is refused; one in solid wood's edge is not."""
    with pytest.raises(DesignError, match="screw into a face"):
        Grip(kind=Kind.PLYWOOD, density_kg_m3=630.0, thread=30.0, is_edge=True)
    Grip(kind=Kind.SOLID, density_kg_m3=530.0, thread=30.0, is_edge=True)


def test_plywood_holds_less_than_solid_wood_of_its_density() -> None:
    """The formulas overpredict plywood (J. Korean Wood Sci. Technol. 49(1), 2021, abstract)."""
    pulls = [
        pull_strength(
            6.0,
            12.0,
            630.0,
            Grip(kind=kind, density_kg_m3=550.0, thread=41.0),
            DRY,
            Duration.LONG,
        )
        for kind in (Kind.SOLID, Kind.PLYWOOD)
    ]
    assert pulls[1].thread == pytest.approx(PLYWOOD_SHARE * pulls[0].thread)
    assert pulls[1].head == pulls[0].head


def test_the_least_governs() -> None:
    """Under a thin soft board the head pulls through; with a short thread the thread goes."""
    long = Grip(kind=Kind.SOLID, density_kg_m3=350.0, thread=50.0)
    soft = pull_strength(5.0, 10.0, 350.0, long, DAMP, Duration.PERMANENT)
    assert soft.governs == "its head pulls through"
    assert soft.least == pytest.approx(395.77, abs=0.005)
    short = Grip(kind=Kind.SOLID, density_kg_m3=350.0, thread=12.0)
    hard = pull_strength(5.0, 10.0, 630.0, short, DAMP, Duration.PERMANENT)
    assert hard.governs == "its thread pulls out"
    assert hard.least == hard.thread < hard.head
