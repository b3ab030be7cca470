"""Clash: just touching is silent, a hair more is not."""

from __future__ import annotations

import pytest

from cabinet.checks.clash import LEAST_CLASH, clashes
from cabinet.design import Component, Design
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Rod
from tests.cabinet.checks.planted import block, blocks


def test_just_inside_and_just_outside() -> None:
    """Two boards that overlap by 0.0005 mm on 5 by 17.6 share 0.044, by 0.0007 mm 0.062 mm3."""
    assert 5 * 17.6 * 0.0005 < LEAST_CLASH < 5 * 17.6 * 0.0007
    for overlap, expected in ((0.0, 0), (0.0005, 0), (0.0007, 1)):
        unit = blocks(
            block("one", (0, 0, 0), (313.0, 5.0)),
            block("other", (313.0 - overlap, 0, 0), (157.0, 5.0)),
        )
        assert len(list(clashes(unit))) == expected


def test_what_it_says() -> None:
    """Both names, the shared volume, the size and the place."""
    unit = blocks(
        block("one", (0, 0, 0), (313.0, 211.0)), block("other", (272, 188, 12), (157.0, 131.0))
    )
    (finding,) = clashes(unit)
    assert finding.parts == ("one", "other")
    assert finding.found == pytest.approx(41 * 23 * 5.6)
    assert finding.where is not None
    assert tuple(finding.where) == pytest.approx((292.5, 199.5, 14.8))
    assert "5280.8 mm3" in finding.sentence
    assert "41.0 × 23.0 × 5.6 mm" in finding.sentence


def test_a_bar_through_a_board() -> None:
    """A rod beside a board is silent, through its edge it shares half of its section."""
    board = block("board", (0, 0, 0), (313.0, 211.0))
    for y, expected in ((-4.0, 0), (0.0, 1)):
        bar = Hardware(
            name="bar",
            article="bar",
            body=Rod(diameter=8.0, length=211.0),
            at=UnitPoint(51.0, y, 8.8),
            axis=Side.RIGHT,
        )
        unit = Design("bar", (Component(parts=(board,), hardware=(bar,)),)).resolve()
        found = list(clashes(unit))
        assert len(found) == expected
        if found:
            assert found[0].found == pytest.approx(3.141592653589793 * 16 / 2 * 211, rel=1e-5)
