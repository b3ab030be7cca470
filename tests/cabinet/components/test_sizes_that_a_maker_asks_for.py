"""Units of ordinary sizes that once could not be made: thin boards, low plinths, wide backs."""

from __future__ import annotations

import pytest

from cabinet import (
    BackPanel,
    Design,
    Rails,
    birch_plywood,
    board_shelf,
    carcass,
    pin_rows,
    plinth,
)
from cabinet.checks.all import findings
from cabinet.checks.wood import LEAST_WEB
from cabinet.errors import SizeError
from cabinet.features import Biscuit
from cabinet.joint import Biscuits, biscuit_for
from cabinet.joint.biscuits import BELOW_SLOT
from cabinet.site.report import site_report
from cabinet.site.uses import SpreadLoad, UseCase
from cabinet.site.walls import SolidMasonry
from cabinet.stock import Grain


@pytest.mark.parametrize(
    ("thick", "number"), [(14.6, "10"), (15.1, "20"), (12.9, "0"), (13.1, "10"), (17.7, "20")]
)
def test_rails_of_thin_boards_get_smaller_biscuits(thick: float, number: str) -> None:
    """The slot's floor keeps its wood below it, so that the check of it is silent."""
    board = birch_plywood(nominal=round(thick), measured=thick)
    box = carcass(
        width=300, height=700, depth=180, stock=board, back=Rails(stock=board, top=90, bottom=80)
    )
    unit = Design("Spice rack", (box.component,), is_hung=False).resolve()
    used = {joint.biscuit.number for joint in unit.joints if isinstance(joint, Biscuits)}
    assert used == {number}
    assert findings(unit) == ()


@pytest.mark.parametrize("height", [63, 70, 72, 90])
def test_low_plinths_get_smaller_biscuits(height: float) -> None:
    """As low as the smallest biscuit allows."""
    board = birch_plywood(nominal=18, measured=17.7)
    box = carcass(width=800, height=900, depth=350, stock=board)
    unit = Design(
        "Low", (box.component, plinth(box, stock=board, height=height)), is_hung=False
    ).resolve()
    assert findings(unit) == ()


def test_too_little_for_any_biscuit_is_refused() -> None:
    """Named, with what is needed."""
    with pytest.raises(SizeError, match=r"rail: height is 50 mm; it must be at least 62\.259 mm"):
        biscuit_for("rail", room=50, thick=18)
    with pytest.raises(SizeError, match=r"rail: thickness of what it meets is 9 mm; .* 11 mm"):
        biscuit_for("rail", room=90, thick=9)
    assert biscuit_for("rail", room=90, thick=11) is Biscuit.NO_0
    assert BELOW_SLOT >= LEAST_WEB


@pytest.mark.parametrize(
    ("width", "height", "grain"),
    [(900, 1800, Grain.LENGTH), (2000, 750, Grain.WIDTH), (1200, 2400, Grain.LENGTH)],
)
def test_a_back_wider_than_its_sheet_has_level_grain(
    width: float, height: float, grain: Grain
) -> None:
    """Upright wherever a sheet of 1250 is wide enough; else the only way it can be cut."""
    box = carcass(
        width=width,
        height=height,
        depth=350,
        stock=birch_plywood(nominal=18, measured=17.7),
        back=BackPanel(stock=birch_plywood(nominal=6.5, measured=6.3), inset=12),
    )
    unit = Design("Sideboard", (box.component,), is_hung=False).resolve()
    assert unit.by_name["back"].board.grain is grain


def test_shelves_of_any_bay_can_be_loaded() -> None:
    """A bay whose place is off by a trace of rounding once stopped the run within the beam."""
    board = birch_plywood(nominal=18, measured=17.8)
    box = carcass(
        width=2400, height=600, depth=320, stock=board, dividers=2, back=Rails(
            stock=board, top=110, bottom=90
        ),
    )  # fmt: skip
    pins = pin_rows(box)
    shelves = [board_shelf(pins.bay(i), hole=5, stock=board, name=f"shelf {i}") for i in (1, 2, 3)]
    unit = Design("Map store", (box.component, pins.component, *shelves), is_hung=False).resolve()
    loads = tuple(SpreadLoad(place=f"shelf {i}", kilograms=12) for i in (1, 2, 3))
    wall = SolidMasonry(anchor_pull=2000, anchor_shear=2400)
    report = site_report(unit, (UseCase(name="maps", loads=loads),), wall, lift=None)
    sags = [held.sag.likely for held in report.held if held.carrier in {"shelf 1", "shelf 3"}]
    assert sags[0] == pytest.approx(sags[-1], rel=1e-6)
