"""Openings that come out against another board, and those that pass beside it."""

from __future__ import annotations

import pytest

from cabinet import (
    Design,
    Rails,
    Unit,
    birch_plywood,
    carcass,
    hanging_cleat,
    pill,
    plinth,
    rubber_sheet,
    top_covering,
)
from cabinet.checks.openings import openings
from cabinet.findings import Finding, is_error

BOARD = birch_plywood(nominal=18, measured=17.7)
CLEAT = 2 * BOARD.measured


def found(*, back: float, through: str = "top", left: float = 300) -> list[Finding]:
    """The findings for a pill of 100 x 30 in a unit 260 deep, with rails, cleat and plinth."""
    box = carcass(
        width=720,
        height=500,
        depth=260,
        stock=BOARD,
        back=Rails(stock=BOARD, top=100, bottom=80, behind=CLEAT),
        covering=3,
    )
    unit: Unit = Design(
        "Loom cupboard",
        (
            box.component,
            hanging_cleat(box, stock=BOARD),
            top_covering(box, rubber_sheet(3)),
            plinth(box, stock=BOARD, height=80, setback=0),
            pill(box, through, name="air", length=100, width=30, left=left, back=back),
        ),
    ).resolve()
    return list(openings(unit))


def test_an_opening_beside_the_rail_is_free_and_over_it_is_not() -> None:
    """The rail's front lies 35.4 + 17.7 before the back edge; the pill reaches 15 either way."""
    free = CLEAT + BOARD.measured + 15
    assert found(back=free) == []
    (finding,) = found(back=free - 0.4)
    assert is_error(finding)
    assert finding.parts == ("top", "top rail")
    assert finding.where is not None
    assert finding.found == pytest.approx(0.4)
    assert "100.0 × 0.4 mm" in finding.sentence
    assert "0.4 mm to the front" in finding.sentence


def test_an_opening_over_the_cleat_names_the_cleat() -> None:
    """The cut-out that the trade warns of: it would saw the cleat, or end against it."""
    assert [f.parts for f in found(back=18)] == [("top", "cleat, unit half")]


def test_an_opening_in_the_base_over_a_plinth() -> None:
    """The plinth's back stands flush with the unit's."""
    assert {f.parts for f in found(back=25, through="base")} >= {("base", "plinth back")}
    assert found(back=120, through="base") == []


def test_round_ends_pass_where_corners_would_not() -> None:
    """A pill's end is a half circle: its box reaches the plinth's end board, the pill does not."""
    inside = BOARD.measured + 50
    assert found(back=120, through="base", left=inside) == []
    assert found(back=120, through="base", left=inside - 0.4)
