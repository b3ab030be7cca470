"""The cut plan as CSV, read back by the standard reader."""

from __future__ import annotations

import csv
import io

import pytest

from drawings.cut_csv import rack_csv, saw_cuts_csv, stock_used_csv
from tests.drawings.cut_plans import greenhouse_plan


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_every_cut_is_a_row() -> None:
    plan = greenhouse_plan()
    told = rows(saw_cuts_csv(plan))
    assert len(told) == sum(len(board.cuts) for board in plan.boards)
    first = plan.boards[0].cuts[0]
    assert float(told[0]["fence mm"]) == pytest.approx(first.fence)
    assert told[0]["board"] == "old bench side"


def test_the_stock_used_adds_up() -> None:
    plan = greenhouse_plan()
    told = rows(stock_used_csv(plan))
    assert [row["bought"] for row in told].count("yes") == plan.new_sheets
    for row in told:
        parts = ("blanks m2", "rests m2", "dust and trim m2")
        assert sum(float(row[name]) for name in parts) == pytest.approx(
            float(row["area m2"]), abs=2e-4
        )
    bench = next(row for row in told if row["board"] == "old bench side")
    assert float(bench["area m2"]) == pytest.approx(1.5 * 0.64 - 0.6 * 0.25)
    assert [row["price"] for row in told if row["stock"].startswith("birch plywood 18")][
        -1
    ] == "71.5"


def test_what_is_left_has_size_and_flaws() -> None:
    plan = greenhouse_plan()
    told = rows(rack_csv(plan))
    assert [row["board"] for row in told] == [piece.name for piece in plan.rack_after]
    assert all(len(row["corners mm"].split("; ")) >= 3 for row in told)
