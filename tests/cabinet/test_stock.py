"""Stock: measured thickness, weight, and what is refused."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from cabinet.errors import SizeError
from cabinet.stock import (
    Grain,
    Stock,
    birch_plywood,
    poplar_plywood,
    rubber_sheet,
    solid_wood,
    steel_sheet,
)

MAKERS: list[Callable[[], Stock]] = [
    lambda: birch_plywood(18, 17.6),
    lambda: poplar_plywood(15, 14.7),
    lambda: solid_wood("ash", 41.5, 690),
    lambda: steel_sheet(1.5),
    lambda: rubber_sheet(2.5),
]


@pytest.mark.parametrize("make", MAKERS, ids=lambda make: make().material)
def test_stock_is_data(make: Callable[[], Stock]) -> None:
    """Equal numbers are equal stock, and hash alike."""
    assert make() == make()
    assert hash(make()) == hash(make())


def test_titles_tell_both_thicknesses() -> None:
    """Name and measured thickness, once if they agree."""
    assert birch_plywood(18, 17.6).title == "birch plywood 18 (measured 17.6)"
    assert rubber_sheet(2.5).title == "rubber sheet 2.5"


def test_birch_plywood_weighs_what_its_maker_says() -> None:
    """18 mm of 1.4 mm veneers: 685 kg/m3 (maker's data sheet, from memory)."""
    assert birch_plywood(18, 17.6).density_kg_m3 == 685


def test_steel_weighs_what_handbooks_say() -> None:
    """Mild steel 7850 kg/m3 (EN 1991-1-1 table A.4 gives 77.0 to 78.5 kN/m3; from memory)."""
    assert 77.0e3 / 9.81 - 5 <= steel_sheet(1.5).density_kg_m3 <= 78.5e3 / 9.81 + 5


@pytest.mark.parametrize("measured", [17.1, 18.1])
def test_usual_deviations_pass(measured: float) -> None:
    """18 is often 17.1 to 18.1 (common practice, no source)."""
    assert birch_plywood(18, measured).measured == measured


@pytest.mark.parametrize(("inside", "outside"), [(13.5, 13.4), (22.5, 22.6)])
def test_a_quarter_off_is_the_limit(inside: float, outside: float) -> None:
    """Just inside and just outside."""
    birch_plywood(18, inside)
    with pytest.raises(SizeError, match="was the right board measured"):
        birch_plywood(18, outside)


@pytest.mark.parametrize(
    "change",
    [
        {"density_kg_m3": 0.0},
        {"sheet_length": -2500.0},
        {"sheet_width": float("nan")},
        {"material": " "},
        {"code": ""},
        {"colour": (0.1, 0.2)},
        {"colour": (0.1, 0.2, 1.2)},
    ],
    ids=str,
)
def test_bad_stock_is_refused(change: dict[str, object]) -> None:
    """Each number is checked when the stock is made, also by replace."""
    with pytest.raises(SizeError):
        replace(birch_plywood(18, 17.6), **change)  # type: ignore[arg-type]


def test_grain_is_told_in_words() -> None:
    """The lists print these."""
    assert [grain.value for grain in Grain] == [
        "along the length",
        "across, along the width",
        "none",
    ]
