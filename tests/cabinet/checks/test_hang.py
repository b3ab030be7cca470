"""Hanging: convex outlines against the kernel, and pairs inside and outside the limits."""

from __future__ import annotations

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.checks.hang import hangs
from cabinet.checks.prism import Prism, outline, travel_down
from cabinet.design import Unit
from cabinet.solids import part_solid
from tests.planted import hanging as planted
from tests.planted.designs import HUNG, good
from tests.strategies import lengths


def rules_of(unit: Unit) -> set[str]:
    """Rules that speak."""
    return {finding.rule for finding in hangs(unit)}


def solid_of(prism: Prism) -> cq.Shape:
    """An outline as the kernel's solid."""
    points = [cq.Vector(prism.x[0], y, z) for y, z in prism.corners]
    wire = cq.Wire.makePolygon(points, close=True)
    return cq.Solid.extrudeLinear(wire, [], cq.Vector(prism.x[1] - prism.x[0], 0, 0))


@pytest.mark.parametrize("name", HUNG)
def test_good_cleats_are_silent(name: str) -> None:
    """Hidden and behind, of one board and of two."""
    assert list(hangs(good(name))) == []


@pytest.mark.parametrize("half", ["cleat, unit half", "cleat, wall half"])
def test_the_outline_is_the_solid(half: str) -> None:
    """But for its screw holes, which the outline leaves out."""
    part = good("tool rack").by_name[half]
    (prism,) = outline(part)
    drawn, true = solid_of(prism), part_solid(part)
    assert true.cut(drawn).Volume() < 0.01
    assert drawn.Volume() - true.Volume() < 0.02 * true.Volume()


@given(
    shape=st.sampled_from(["box", "bevel", "roof"]),
    y=lengths(-30, 30),
    z=lengths(20, 90),
    distances=st.lists(lengths(0, 140), min_size=5, max_size=5),
)
@settings(max_examples=20)
def test_travel_agrees_with_the_kernel(
    shape: str, y: float, z: float, distances: list[float]
) -> None:
    """Two convex outlines share volume at exactly the travel that the interval tells."""
    fixed = Prism((0.0, 50.0), ((0.0, 0.0), (35.0, 0.0), (35.0, 40.0), (0.0, 75.0)))
    corners = {
        "box": ((0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)),
        "bevel": ((0.0, 0.0), (30.0, -30.0), (30.0, 20.0), (0.0, 20.0)),
        "roof": ((0.0, 10.0), (15.0, 0.0), (30.0, 10.0), (15.0, 31.0)),
    }[shape]
    mover = Prism((10.0, 90.0), tuple((a + y, b + z) for a, b in corners))
    span = travel_down(mover, fixed)
    for distance in distances:
        moved = solid_of(mover).translate(cq.Vector(0, 0, -distance))
        shared = moved.intersect(solid_of(fixed)).Volume()
        if span is None:
            assert shared < 1.0
        elif span[0] + 0.5 < distance < span[1] - 0.5:
            assert shared > 0
        elif not span[0] - 0.5 < distance < span[1] + 0.5:
            assert shared < 0.01


@pytest.mark.parametrize("name", HUNG)
def test_each_direction_alone_is_told(name: str) -> None:
    """The part whose bevel is wrong is the one that is named."""
    found = hangs(planted._unit_bevel_turned(good(name), 0.0))
    (finding,) = (f for f in found if f.rule == "bevel-wrong-way")
    assert finding.parts == ("cleat, unit half",)


def test_limits_of_the_cleat() -> None:
    """Just inside is silent, just outside speaks."""
    unit = good("seed cupboard")
    pairs = (
        (planted._sharp_edge, 1.05, 0.95, "cleat-bottoms"),
        (planted._other_angle, 44.6, 44.4, "bevels-differ"),
        (planted._wall_half_lower, 0.05, 0.2, "cleat-bears-little"),
        (planted._deep_sides, 0.45, 0.55, "not-plumb"),
    )
    for plant, inside, outside, rule in pairs:
        assert rule not in rules_of(plant(unit, inside))
        assert rule in rules_of(plant(unit, outside))


def test_a_small_lift_is_told_with_the_one_that_is_needed() -> None:
    """The thickness of 2 x 17.6 less the blunted 3, and 5."""
    (finding,) = hangs(planted._small_lift(good("seed cupboard"), 11.0))
    assert finding.rule == "cleat-caught"
    assert finding.limit == pytest.approx(2 * 17.6 - 3.0 + 5.0)


def test_a_standing_unit_needs_no_cleat() -> None:
    """Nothing is said of what is not there."""
    assert list(hangs(good("bottle store"))) == []
