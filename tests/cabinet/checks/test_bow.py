"""Bow: the sagitta, the groove it needs, and the side to which a door may be hollow."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given

from cabinet.checks.bow import bows
from cabinet.errors import SizeError
from cabinet.stock import birch_plywood
from tests.planted.designs import WITH_DOORS, good
from tests.planted.doors import _bowed
from tests.planted.edits import doors_of
from tests.strategies import lengths


def bowed_over(bow: float, length: float) -> float:
    """What a straightedge of a metre finds on a bend that is ``bow`` over a length."""
    radius = (length**2 / 4 + bow**2) / (2 * bow)
    return radius - math.sqrt(radius**2 - 500.0**2)


def test_bow_of_a_sheet_in_the_trade() -> None:
    """12.7 over 2440: R 58.6 m, 0.77 on a door of 600, 2.1 on one of 1000.

    Source: woodweb, 'Dealing with bowed or warped plywood', 2005; its arithmetic recomputed.
    """
    stock = birch_plywood(12, 11.9, bow_per_metre=bowed_over(12.7, 2440.0))
    assert 1000.0**2 / (8 * stock.bow_per_metre) / 1000 == pytest.approx(58.6, abs=0.1)
    assert stock.bow(600.0) == pytest.approx(0.77, abs=0.01)
    assert stock.bow(1000.0) == pytest.approx(2.1, abs=0.05)
    assert stock.bow(2440.0) == pytest.approx(12.7)


@given(bow=lengths(0.1, 30), length=lengths(50, 900))
def test_the_sagitta_is_that_of_an_arc(bow: float, length: float) -> None:
    """Points of the arc: ends on the chord, the middle off it by the sagitta; nearly c2 / 8R."""
    stock = birch_plywood(12, 11.9, bow_per_metre=bow)
    sagitta = stock.bow(length)
    radius = (500.0**2 + bow**2) / (2 * bow)
    assert math.hypot(length / 2, radius - sagitta) == pytest.approx(radius)
    assert sagitta == pytest.approx(length**2 / (8 * radius), rel=0.02)


def test_a_flat_sheet_has_no_bow() -> None:
    """Unmeasured is flat, and no check speaks."""
    assert birch_plywood(12, 11.9).bow(1900.0) == 0.0
    for name in WITH_DOORS:
        assert list(bows(good(name))) == []


@pytest.mark.parametrize("value", [-0.1, 51.0, float("nan")])
def test_no_sheet_has_that_bow(value: float) -> None:
    """It is refused."""
    with pytest.raises(SizeError, match="bow"):
        birch_plywood(12, 11.9, bow_per_metre=value)


def test_a_piece_longer_than_the_bend_is_refused() -> None:
    """A bow of 50 a metre is a bend of 2.5 m radius."""
    with pytest.raises(SizeError, match="bowed piece"):
        birch_plywood(12, 11.9, bow_per_metre=50.0).bow(5100.0)


@pytest.mark.parametrize("name", WITH_DOORS)
def test_a_bowed_door_binds_when_its_play_is_used_up(name: str) -> None:
    """Play 1, of which 0.1 stays: a bow of 0.89 over its width runs, one of 0.91 binds."""
    unit = good(name)
    width = doors_of(unit)[0].box.size[0]
    for bow, binds in ((0.89, False), (0.91, True)):
        spoiled = _bowed(unit, bowed_over(bow, width))
        in_groove = [f for f in bows(spoiled) if f.rule == "door-binds" and len(f.parts) == 2]
        assert (in_groove != []) == binds
        if binds:
            assert f"{bow:.2f} mm over its {width:.0f} mm" in in_groove[0].sentence


def test_a_tall_door_runs_with_its_hollow_to_one_side() -> None:
    """In front it has nothing, behind it the other doors: the front ones may belly out."""
    unit = good("glaze cabinet")
    found = list(bows(_bowed(unit, 3.1)))
    assert {f.rule for f in found} == {"door-hollow"}
    fronts = [f for f in found if f.parts == ("left door",)]
    # The belly goes to the front, so the hollow looks back.
    assert "hollow to the back" in fronts[0].sentence


def test_only_the_door_that_is_bowed_is_named() -> None:
    """The others are of a flat sheet."""
    unit = good("bottle store")
    door = doors_of(unit)[1]
    stock = replace(door.board.stock, bow_per_metre=17.0)
    bent = replace(door, board=replace(door.board, stock=stock))
    spoiled = replace(unit, parts=tuple(bent if p == door else p for p in unit.parts))
    assert {f.parts[0] for f in bows(spoiled)} == {door.name}
