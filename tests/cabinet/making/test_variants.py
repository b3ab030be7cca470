"""What leftovers can become: order, findings, and stopping."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Sequence

import pytest

from cabinet.design import Unit
from cabinet.errors import SizeError
from cabinet.findings import Finding, Severity
from cabinet.making.outline import rectangle
from cabinet.making.rack import Leftover, Rack, SheetToBuy
from cabinet.making.variants import steps, variants
from tests.cabinet.making.racks import BIRCH, small_unit


def made(width: float, shelves: float) -> Unit:
    return small_unit(width, 587.0, 287.0, int(shelves))


# Enough for the narrow ones: two sides, top, base and rails, and one shelf.
RACK = Rack(
    leftovers=(
        Leftover(name="lid", stock=BIRCH, outline=rectangle(1300.0, 620.0)),
        Leftover(name="side", stock=BIRCH, outline=rectangle(700.0, 480.0)),
    ),
    sheets=(SheetToBuy(stock=BIRCH, price=71.0),),
)
RANGES = {"width": steps(500.0, 800.0, 150.0), "shelves": (0.0, 1.0, 2.0)}


def test_steps_end_where_they_are_told_to() -> None:
    assert steps(900, 1300, 150) == (900.0, 1050.0, 1200.0, 1300.0)
    assert steps(2, 4, 1) == (2.0, 3.0, 4.0)
    with pytest.raises(SizeError):
        steps(4, 2, 1)
    with pytest.raises(SizeError):
        steps(2, 4, 0)


def test_what_needs_nothing_comes_first_and_then_the_cheapest() -> None:
    found = variants(made, RANGES, RACK)
    assert found.tried == found.possible == 9
    news = [variant.plan.new_sheets for variant in found.best_first]
    assert news == sorted(news)
    assert 0 in news
    assert 1 in news
    # Of those that need nothing, the one that makes most of the leftovers.
    free = [v.used_area for v in found.best_first if v.needs_nothing]
    assert free == sorted(free, reverse=True)
    assert all(v.plan.price == 71.0 * v.plan.new_sheets for v in found.best_first)


def test_prices_and_areas_are_not_mixed() -> None:
    """One sheet has a price, the next none: a second sheet is not cheaper for that."""
    rack = Rack(
        sheets=(
            SheetToBuy(stock=BIRCH, price=71.0, count=1),
            SheetToBuy(stock=BIRCH),
        )
    )
    found = variants(made, {"width": (1700.0,), "shelves": (0.0, 4.0)}, rack)
    plans = {dict(v.values)["shelves"]: v.plan for v in found.best_first}
    assert (plans[0.0].price, plans[4.0].price) == (71.0, None)
    assert (plans[0.0].new_sheets, plans[4.0].new_sheets) == (1, 2)
    assert [dict(v.values)["shelves"] for v in found.best_first] == [0.0, 4.0]


def test_variants_with_errors_come_last() -> None:
    def check(unit: Unit) -> Sequence[Finding]:
        if unit.by_name["top"].board.length < 600:
            return ()
        return (
            Finding(
                rule="too-wide",
                severity=Severity.ERROR,
                parts=("top",),
                where=None,
                found=None,
                limit=None,
                sentence="top: it is too wide for this wall",
            ),
        )

    found = variants(made, RANGES, RACK, check=check)
    sound = [variant.is_sound for variant in found.best_first]
    # Of 500, 650 and 800 wide only the first has a top (23.4 shorter) of less than 600.
    widths = [dict(variant.values)["width"] for variant in found.best_first]
    assert widths[:3] == [500.0] * 3
    assert set(widths[3:]) == {650.0, 800.0}
    assert sound == [True] * 3 + [False] * 6


def test_what_cannot_be_made_is_told_with_its_reason() -> None:
    found = variants(made, {"width": (60.0, 613.0), "shelves": (0.0,)}, RACK)
    assert [dict(v.values)["width"] for v in found.best_first] == [613.0]
    ((values, reason),) = found.refused
    assert dict(values)["width"] == 60.0
    assert reason


def test_a_search_can_be_stopped_and_begins_in_the_middle() -> None:
    seen: list[float] = []
    found = variants(
        made,
        {"width": (500.0, 613.0, 800.0), "shelves": (1.0,)},
        RACK,
        progress=lambda variant: seen.append(dict(variant.values)["width"]),
        stop=lambda: len(seen) >= 1,
    )
    assert seen == [613.0]
    assert (found.tried, found.possible) == (1, 3)


def test_no_range_is_refused() -> None:
    with pytest.raises(SizeError, match="no number has a range"):
        variants(made, {}, RACK)
    with pytest.raises(SizeError, match="width has no values"):
        variants(made, {"width": ()}, RACK)


def test_the_search_does_not_load_the_kernel() -> None:
    told = (
        "import sys\n"
        "import cabinet.making.variants\n"
        "sys.exit(int('cadquery' in sys.modules or 'OCP' in sys.modules))\n"
    )
    assert subprocess.run([sys.executable, "-c", told], check=False).returncode == 0
