"""What the tools reach: pairs just inside and just outside each limit."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.board import At, Surface
from cabinet.checks.clash import clashes
from cabinet.checks.cutters import cutters, needed_past
from cabinet.checks.reach import reach
from cabinet.checks.sawing import bevel_depth, sawing
from cabinet.checks.screws import screws_and_metal, screws_in_wood
from cabinet.checks.trims import trims
from cabinet.design import Component, Design, Unit
from cabinet.features import Bevel, Biscuit, CutOut, Feature, FlushTrim, Groove, Tolerance
from cabinet.findings import Finding
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Screw
from cabinet.joint import Biscuits, Butt, Housing
from cabinet.making.operations import Tool, operations
from cabinet.part import Part, board_part
from cabinet.stock import Stock, birch_plywood
from cabinet.workshop import Driver, Router, Saw, Workshop
from tests.cabinet.checks.planted import block, one_board, with_feature, with_part
from tests.strategies import BIRCH, a_groove

TOOLS = Workshop()
NO_0 = Biscuit.NO_0


def rules(found: list[Finding]) -> list[str]:
    """Their rules, sorted."""
    return sorted(f.rule for f in found)


# The saw.


def test_bevel_depth_passes_the_two_depths_that_are_told() -> None:
    """Square and at 45 degrees as told; beyond it falls with the cosine."""
    saw = Saw(depth=57.0, bevel_depth=39.0, bevel=60.0)
    assert bevel_depth(saw, 0.0) == pytest.approx(57.0)
    assert bevel_depth(saw, 45.0) == pytest.approx(39.0)
    assert bevel_depth(saw, 60.0) == pytest.approx(39.0 * 0.5 / math.sqrt(0.5))


@given(angle=st.floats(0, 59), more=st.floats(0.01, 1))
def test_steeper_is_never_deeper(angle: float, more: float) -> None:
    """A saw tilted further cuts less."""
    assert bevel_depth(Saw(), angle + more) < bevel_depth(Saw(), angle)


@pytest.mark.parametrize(
    ("angle", "bevel", "expected"), [(47.0, 47.0, []), (47.1, 47.0, ["bevel-too-steep"])]
)
def test_tilt(angle: float, bevel: float, expected: list[str]) -> None:
    """Just as far as it tilts, and a tenth of a degree more."""
    cut = Bevel(name="bevel", edge=Surface.HIGH, sharp=Surface.A, angle=angle)
    workshop = Workshop(saw=Saw(bevel=bevel))
    assert rules(list(sawing(one_board(cut), workshop))) == expected


@pytest.mark.parametrize(("depth", "expected"), [(17.6, []), (17.5, ["bevel-too-deep"])])
def test_depth_of_a_bevel(depth: float, expected: list[str]) -> None:
    """A board of 17.6 at 45 degrees."""
    cut = Bevel(name="bevel", edge=Surface.HIGH, sharp=Surface.A, angle=45.0)
    workshop = Workshop(saw=Saw(bevel_depth=depth))
    assert rules(list(sawing(one_board(cut), workshop))) == expected


@pytest.mark.parametrize(("depth", "expected"), [(17.6, []), (17.5, ["saw-too-shallow"])])
def test_depth_of_a_square_cut(depth: float, expected: list[str]) -> None:
    """A board of 17.6."""
    workshop = Workshop(saw=Saw(depth=depth, bevel_depth=11.0))
    assert rules(list(sawing(one_board(), workshop))) == expected


# Cutters.


@pytest.mark.parametrize(
    ("width", "stopped", "expected"),
    [
        (4.0, True, []),
        (3.9, True, ["no-cutter"]),
        (2.2, False, []),
        (2.1, False, ["no-cutter"]),
    ],
)
def test_width_of_a_groove(*, width: float, stopped: bool, expected: list[str]) -> None:
    """A cutter of 4 for a stopped groove; the saw's kerf of 2.2 for one that runs out."""
    end = At(Surface.START, 311.0) if stopped else None
    groove = replace(a_groove(width=width), end=end)
    assert rules(list(cutters(one_board(groove), TOOLS))) == expected


@pytest.mark.parametrize(("kerf", "expected"), [(2.5, []), (2.6, ["no-cutter"])])
def test_a_blade_wider_than_the_groove_by_what_its_fit_allows(
    kerf: float, expected: list[str]
) -> None:
    """A groove of 2.2 + 0.3: what the set-ups saw is not told to lack a cutter, and no other is."""
    tools = Workshop(saw=Saw(kerf=kerf))
    groove = replace(a_groove(width=2.2), width_tolerance=Tolerance(0.0, 0.3))
    unit = one_board(groove)
    assert rules(list(cutters(unit, tools))) == expected
    (made,) = operations((unit.parts[0].board,), tools).values()
    assert (made[0].tool is Tool.SAW) is (not expected)


def test_a_groove_that_is_routed_needs_ground_for_the_router() -> None:
    """A wide one that runs out is not sawn in the set-ups, so the router must stand on the board."""
    part = board_part(
        name="strip",
        role="strip",
        stock=BIRCH,
        box_low=UnitPoint(0, 0, 0),
        length=(Side.RIGHT, 613.0),
        width=(Side.BACK, 53.0),
        fence=Side.FRONT,
        stop=Side.LEFT,
        features=(a_groove(near=17.0),),
    )
    unit = Design("strip", (Component(parts=(part,)),)).resolve()
    assert rules(list(cutters(unit, TOOLS))) == ["router-tips"]
    assert rules(list(cutters(unit, Workshop(router=Router(base=130.0))))) == []


@pytest.mark.parametrize(("depth", "expected"), [(9.0, []), (9.1, ["cut-too-deep"])])
def test_depth_of_a_groove(depth: float, expected: list[str]) -> None:
    """A router that plunges 9, and a stopped groove."""
    groove = replace(a_groove(depth=depth), end=At(Surface.START, 311.0))
    assert rules(list(cutters(one_board(groove), Workshop(router=Router(depth=9.0))))) == expected


@pytest.mark.parametrize(("radius", "expected"), [(5.0, []), (4.9, ["corner-too-tight"])])
def test_corners_of_an_opening(radius: float, expected: list[str]) -> None:
    """A cutter of 10 in the guide bush."""
    opening = CutOut(
        name="air",
        centre=(At(Surface.START, 151.0), At(Surface.LOW, 131.0)),
        length=91.0,
        width=61.0,
        corner_radius=radius,
    )
    assert rules(list(cutters(one_board(opening), TOOLS))) == expected


def _let_in(*, radius: float, past: float, play: float) -> Unit:
    """A board of 17.6 let 6 deep into a stopped groove that runs on past it."""
    floor = block("floor", (0.0, 0.0, 0.0), (613.0, 287.0))
    upright = board_part(
        name="upright",
        role="upright",
        stock=BIRCH,
        box_low=UnitPoint(131.0, 31.0, 11.6),
        length=(Side.TOP, 211.0),
        width=(Side.BACK, 173.0),
        fence=Side.FRONT,
        stop=Side.BOTTOM,
    )
    joint = Housing(board="upright", into="floor", play=play, endplay=past)
    unit = Design("let in", (Component(parts=(floor, upright), joints=(joint,)),)).resolve()
    made = unit.by_name["floor"]
    groove = next(f for f in made.board.features if isinstance(f, Groove))
    if not radius:
        return unit
    return with_part(unit, with_feature(made, groove, replace(groove, end_radius=radius)))


@settings(max_examples=8)
@given(radius=st.floats(2.0, 8.0), play=st.floats(0.0, 3.0))
def test_room_past_a_square_board_in_a_round_end(radius: float, play: float) -> None:
    """The kernel's clash says the same as the arc's own formula, just inside and outside."""
    need = needed_past(radius, play / 2)
    off = radius - play / 2
    # Where the board's corner would lie 0.3 outside the arc.
    short = radius - math.sqrt((radius + 0.3) ** 2 - off**2)
    for past, is_free in ((need + 0.01, True), (short, False)):
        if past > 0:
            unit = _let_in(radius=radius, past=past, play=play)
            assert ("stopped-short" not in rules(list(cutters(unit, TOOLS)))) == is_free
            assert (not list(clashes(unit))) == is_free


def test_needed_past_at_its_ends() -> None:
    """Without play a whole radius; with a radius of play nothing."""
    assert needed_past(7.0, 0.0) == pytest.approx(7.0)
    assert needed_past(7.0, 7.0) == 0.0
    # 3-4-5: r 5, play 1 -> the corner lies 4 off, so 5 - 3.
    assert needed_past(5.0, 1.0) == pytest.approx(2.0)


@pytest.mark.parametrize(("chisel", "expected"), [(17.8, []), (17.9, ["chisel-too-wide"])])
def test_chisel_in_a_groove(chisel: float, expected: list[str]) -> None:
    """A groove of 17.8 whose ends are to be squared."""
    unit = _let_in(radius=0.0, past=0.0, play=0.2)
    found = rules(list(cutters(unit, Workshop(square_chisel=chisel))))
    assert sorted(set(found)) == expected


# Drivers and screws.


def _screwed(*, room: float, length: float = 40.0) -> Unit:
    """A screw through a batten into a floor, and a shelf ``room`` above its head."""
    floor = block("floor", (0.0, 0.0, 0.0), (613.0, 287.0))
    batten = block("batten", (0.0, 0.0, 17.6), (613.0, 97.0))
    roof = block("roof", (0.0, 0.0, 35.2 + room), (613.0, 287.0))
    wall = board_part(
        name="wall",
        role="wall",
        stock=BIRCH,
        box_low=UnitPoint(613.0, 0.0, 0.0),
        length=(Side.TOP, 35.2 + room + 17.6),
        width=(Side.BACK, 287.0),
        fence=Side.FRONT,
        stop=Side.BOTTOM,
    )
    screw = Hardware(
        name="screw",
        article="screw",
        body=Screw(diameter=4.0, length=length, head_diameter=8.0),
        at=UnitPoint(211.0, 43.0, 35.2),
        axis=Side.BOTTOM,
        inside=("batten", "floor", "roof"),
    )
    joints = (
        Butt(one="batten", other="floor"),
        Biscuits(one="floor", other="wall", biscuit=NO_0, count=1, level=Side.BOTTOM),
        Biscuits(one="roof", other="wall", biscuit=NO_0, count=1, level=Side.BOTTOM),
    )
    component = Component(parts=(floor, batten, roof, wall), joints=joints, hardware=(screw,))
    return Design("screwed", (component,)).resolve()


@pytest.mark.parametrize(("room", "expected"), [(110.1, []), (109.9, ["out-of-reach"])])
def test_a_driver_behind_a_screw(room: float, expected: list[str]) -> None:
    """The shortest, 75 long, and 35 of the screw that stand out before it is driven."""
    found = list(reach(_screwed(room=room), TOOLS))
    assert rules(found) == expected
    assert all(f.found == pytest.approx(room) and f.limit == pytest.approx(110.0) for f in found)


def test_another_driver_reaches_further() -> None:
    """Whoever has a shorter one gets in."""
    short = Driver(name="right-angle ratchet", length=31.0, diameter=25.0, bit_length=20.0)
    workshop = Workshop(drivers=(short,))
    assert not list(reach(_screwed(room=67.0), workshop))
    assert list(reach(_screwed(room=65.0), workshop))


def test_a_screw_driven_before_the_board_is_on() -> None:
    """What comes later is not in the way: the same screw, not tied to the roof."""
    unit = _screwed(room=31.0)
    screw = next(h for h in unit.hardware if h.name == "screw")
    hardware = tuple(
        replace(h, inside=("batten", "floor")) if h == screw else h for h in unit.hardware
    )
    joints = tuple(j for j in unit.joints if "roof" not in j.parts)
    assert not list(reach(replace(unit, hardware=hardware, joints=joints), TOOLS))


@pytest.mark.parametrize(("length", "expected"), [(33.2, []), (33.3, ["screw-breaks-out"])])
def test_the_tip_of_a_screw(length: float, expected: list[str]) -> None:
    """Through 17.6 into 17.6, with 2 left."""
    unit = _screwed(room=211.0, length=length)
    screw = next(h for h in unit.hardware if h.name == "screw")
    made = replace(screw, inside=("batten", "floor"))
    unit = replace(unit, hardware=tuple(made if h == screw else h for h in unit.hardware))
    assert rules(list(screws_in_wood(unit))) == expected


@pytest.mark.parametrize(("off", "expected"), [(5.01, []), (4.99, ["screw-meets-metal"])])
def test_screws_side_by_side(off: float, expected: list[str]) -> None:
    """Two of 4 mm with 1 between."""
    unit = _screwed(room=211.0)
    screw = next(h for h in unit.hardware if h.name == "screw")
    other = replace(screw, name="other", at=screw.at.moved(Side.RIGHT, off))
    assert rules(list(screws_and_metal(replace(unit, hardware=(screw, other))))) == expected


# Trimming.


def _proud_side(*, gap: float = 0.0, stock: Stock = BIRCH, low: float = 0.0) -> Unit:
    """A side that stands 1 proud over a top housed in it, which may lie low or have a gap."""
    side = board_part(
        name="side",
        role="side",
        stock=stock,
        box_low=UnitPoint(-stock.measured, 0.0, 0.0),
        length=(Side.TOP, 314.0),
        width=(Side.BACK, 287.0),
        fence=Side.FRONT,
        stop=Side.BOTTOM,
    )
    trim = FlushTrim(name="flush with top", edge=side.surface(Side.TOP), proud=1.0)
    cuts: tuple[Feature, ...] = ()
    if gap:
        cuts = (
            CutOut(
                name="air",
                centre=(At(Surface.START, 3.0 + 31.0), At(Surface.LOW, 131.0)),
                length=62.0,
                width=gap,
                corner_radius=gap / 4,
            ),
        )
    top = block("top", (0.0, 0.0, 313.0 - low - 17.6), (613.0, 287.0), *cuts)
    joint = Biscuits(one="top", other="side", biscuit=NO_0, count=2, level=Side.TOP)
    parts: tuple[Part, ...] = (side.with_features(trim), top)
    return Design("proud", (Component(parts=parts, joints=(joint,)),)).resolve()


def test_a_side_over_its_top_is_trimmed() -> None:
    """The bearing runs on the top."""
    assert list(trims(_proud_side(), TOOLS)) == []


@pytest.mark.parametrize(("low", "expected"), [(0.04, []), (0.06, ["trim-unguided"])])
def test_a_top_that_lies_low(low: float, expected: list[str]) -> None:
    """Flush within half a tenth."""
    assert rules(list(trims(_proud_side(low=low), TOOLS))) == expected


@pytest.mark.parametrize(("gap", "expected"), [(2.9, []), (3.1, ["trim-unguided"])])
def test_a_gap_in_what_the_bearing_runs_on(gap: float, expected: list[str]) -> None:
    """An opening 3 from the edge, where a bearing 5 high runs."""
    assert rules(list(trims(_proud_side(gap=gap), TOOLS))) == expected


@pytest.mark.parametrize(("thick", "expected"), [(25.0, []), (25.1, ["trim-cutter-short"])])
def test_length_of_the_guided_cutter(thick: float, expected: list[str]) -> None:
    """A cutter of 25 through a side of 25."""
    unit = _proud_side(stock=birch_plywood(24, thick))
    assert rules(list(trims(unit, TOOLS))) == expected
