"""Shelves: the closed form of the tilt, the solids, and pairs inside and outside the limits."""

from __future__ import annotations

import math

import cadquery as cq
import pytest
from hypothesis import given

from cabinet.checks.shelves import (
    LEAST_HEADROOM,
    least_tilt,
    shelf_fits,
    tilted_height,
    tilted_width,
    turning_width,
    ways_in,
)
from cabinet.checks.shelving import shelves_of
from cabinet.checks.sweep import Space
from cabinet.design import Unit
from tests.planted import shelves as planted
from tests.planted.designs import ALL, good
from tests.strategies import lengths


def rules_of(unit: Unit) -> set[str]:
    """Rules that speak."""
    return {finding.rule for finding in shelf_fits(unit)}


@given(length=lengths(120, 1400), thickness=lengths(9, 42), share=lengths(0.2, 0.9))
def test_the_diagonal_is_the_most_that_any_tilt_takes(
    length: float, thickness: float, share: float
) -> None:
    """By a fine table of angles; and the least tilt passes exactly its width."""
    widest = max(tilted_width(length, thickness, a / 2000 * math.pi / 2) for a in range(2001))
    assert widest == pytest.approx(turning_width(length, thickness), rel=1e-6)
    width = share * length
    angle = least_tilt(length, thickness, width)
    assert tilted_width(length, thickness, angle) == pytest.approx(width)
    # From there on every steeper tilt passes.
    steeper = [angle + (math.pi / 2 - angle) * n / 50 for n in range(51)]
    if width > thickness:
        assert all(tilted_width(length, thickness, a) <= width + 1e-6 for a in steeper)


@pytest.mark.parametrize("angle", [0.0, 0.031, 0.4, 1.2])
def test_tilted_sizes_on_the_solid(angle: float) -> None:
    """The box around the kernel's solid of a shelf that is turned."""
    solid = cq.Solid.makeBox(587.3, 231.0, 17.6).rotate(
        cq.Vector(0, 0, 0), cq.Vector(0, 1, 0), math.degrees(angle)
    )
    box = solid.BoundingBox(1e-6)
    assert box.xlen == pytest.approx(tilted_width(587.3, 17.6, angle), abs=1e-4)
    assert box.zlen == pytest.approx(tilted_height(587.3, 17.6, angle), abs=1e-4)


def test_a_wide_way_needs_no_tilt() -> None:
    """As wide as the diagonal, nothing is tilted."""
    assert least_tilt(587.3, 17.6, turning_width(587.3, 17.6)) == 0.0


@pytest.mark.parametrize("name", ALL)
def test_good_shelves_are_silent_and_have_a_way_in(name: str) -> None:
    """Past parked doors where there are doors, level where there are none."""
    unit = good(name)
    assert list(shelf_fits(unit)) == []
    ways = ways_in(unit)
    assert len(ways) == len(shelves_of(unit, Space(unit)))
    for way in ways:
        assert (way.doors == "none") == (name == "tool rack")


def test_the_tilt_past_the_doors() -> None:
    """Parked, the doors leave less than the shelf is long; by the closed form from the sizes."""
    unit = good("seed cupboard")
    way = next(w for w in ways_in(unit) if w.shelf == "shelf 2 7")
    shelf = unit.by_name["shelf 2 7"].box
    doors = [p for p in unit.parts if p.role == "door"]
    free = 1028.0 - 2 * 17.6 - doors[0].box.size[0]
    assert way.doors == "left"
    assert way.tilt == pytest.approx(least_tilt(shelf.size[0], 17.6, free - 1.0), abs=1e-6)
    assert 0 < way.tilt < 0.5


def test_heights_are_those_of_the_holes() -> None:
    """One for each hole, at the pitch, and the one that is shown."""
    unit = good("tool rack")
    (shelf,) = shelves_of(unit, Space(unit))
    assert 0.0 in shelf.heights
    steps = [b - a for a, b in zip(shelf.heights, shelf.heights[1:], strict=False)]
    assert steps == pytest.approx([32.0] * len(steps))
    # 8 of the pin stand out, less the play of 2.4.
    assert shelf.bearing == pytest.approx(8.0 - 2.4)


def test_headroom_at_its_limit() -> None:
    """A hand's room is enough; half a millimetre less is not."""
    unit = good("tool rack")
    assert "no-headroom" not in rules_of(planted._under_the_top(unit, LEAST_HEADROOM + 0.1))
    assert "no-headroom" in rules_of(planted._under_the_top(unit, LEAST_HEADROOM - 0.5))


def test_a_post_that_leaves_enough_is_no_finding() -> None:
    """A narrow post is passed with the shelf tilted, a broad one is not."""
    unit = good("seed cupboard")
    assert rules_of(planted._post(unit, 23.0)) == set()
    assert "shelf-shut-out" in rules_of(planted._post(unit, 287.0))


def test_a_low_front_board_is_passed_above() -> None:
    """A board across the front below the shelf's height, or high enough open, shuts nothing."""
    unit = good("tool rack")
    assert rules_of(planted._closed_front(unit, 240.0)) == set()
    assert "shelf-shut-out" in rules_of(planted._closed_front(unit, 11.0))


def test_a_screw_beside_a_pin_at_its_limit() -> None:
    """Wood between hole and thread counts; the wide head lies where the hole does not reach."""
    unit = good("tool rack")
    assert "pin-meets-screw" not in rules_of(planted._screw_by_the_pins(unit, 3.05))
    assert "pin-meets-screw" in rules_of(planted._screw_by_the_pins(unit, 2.9))
