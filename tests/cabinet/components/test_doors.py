"""Sliding doors: sizes that follow, and the conditions of lifting in and out."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.components.carcass import Carcass, carcass
from cabinet.components.doors import DoorTracks, sliding_doors
from cabinet.design import Design, Unit
from cabinet.errors import DesignError
from cabinet.features import Groove, Hole, Rebate
from cabinet.frame import Side
from cabinet.motion import Motion
from cabinet.part import Part
from cabinet.stock import birch_plywood
from tests.strategies import BIRCH, THIN, TRACKS, lengths, small


def box_of(opening: float) -> Carcass:
    """A carcass with a clear width."""
    return carcass(
        width=opening + 2 * 17.6,
        height=587,
        depth=303,
        stock=BIRCH,
        top_layers=2,
        base_layers=2,
    )


def doors_of(opening: float, count: int, overlap: float, tracks: DoorTracks = TRACKS) -> Unit:
    """A unit with doors."""
    box = box_of(opening)
    doors = sliding_doors(box, tracks, count=count, overlap=overlap)
    return Design("doors", (box.component, doors)).resolve()


def doors_in(unit: Unit) -> list[Part]:
    """Its doors from left to right."""
    return sorted((p for p in unit.parts if p.role == "door"), key=lambda p: p.box.low.x)


def test_two_doors_worked_example() -> None:
    """Opening 1200, overlap 25: 612.5 each.

    Source: en.kakprosto.ru how-34610 (track-hung wardrobe doors; the width rule only).
    """
    doors = doors_in(doors_of(1200.0, 2, 25.0))
    assert [door.board.width for door in doors] == pytest.approx([612.5, 612.5])


def test_three_doors_share_two_overlaps() -> None:
    """(opening + 2 * overlap) / 3, after the same page, with its overlap of 20; cut to tenths."""
    doors = doors_in(doors_of(1213.0, 3, 20.0))
    exact = (1213.0 + 2 * 20) / 3
    assert [door.board.width for door in doors] == pytest.approx([math.ceil(10 * exact) / 10] * 3)


@given(opening=lengths(700, 1600), count=st.integers(2, 4), overlap=lengths(15, 50))
@settings(max_examples=25)
def test_doors_cover_the_opening(opening: float, count: int, overlap: float) -> None:
    """From side to side, each over the next by the overlap, and in the other track."""
    doors = doors_in(doors_of(opening, count, overlap))
    assert doors[0].box.low.x == pytest.approx(17.6)
    assert doors[-1].box.high.x == pytest.approx(17.6 + opening)
    for one, other in pairwise(doors):
        found = one.box.high.x - other.box.low.x
        # Widths are rounded up to tenths, which the overlaps share.
        assert overlap - 1e-9 <= found < overlap + 0.1 * count / (count - 1)
        # Bodies pass with 2 to 4 between them (common practice, no source).
        apart = max(
            one.box.low.y - other.box.high.y,
            other.box.low.y - one.box.high.y,
        )
        assert 2.0 <= apart <= 4.0


def test_lift_conditions() -> None:
    """The conditions of lifting a door in and out (common practice, no source).

    h opening, b and d groove and bar below, p and q tongues, g groove above, H door:
    e1 = b - d; H = h + e1 + e2; L >= e1 + 1; g >= e2 + L; q >= e2 + L; e2 >= 5; c1 = p - e1
    between 0.5 and 1.
    """
    unit = doors_of(1187.0, 2, 33.0)
    door = doors_in(unit)[0]
    rebates = {f.name: f for f in door.board.features if isinstance(f, Rebate)}
    p, q = rebates["bottom tongue"].width, rebates["top tongue"].width
    b = next(f.depth for f in unit.by_name["base"].board.features if isinstance(f, Groove))
    g = next(f.depth for f in unit.by_name["top"].board.features if isinstance(f, Groove))
    h = 587 - 4 * 17.6
    lift = next(m.high for m in unit.moves if m.motion is Motion.LIFT)
    e1 = b - 8.0
    e2 = door.board.length - h - e1
    assert e2 >= 5.0
    assert 0.5 <= p - e1 <= 1.0
    assert lift >= e1 + 1.0
    assert g >= e2 + lift
    assert q >= e2 + lift
    # In the unit: the foot stands on the bar, the head is in the top by e2.
    assert door.box.low.z == pytest.approx(2 * 17.6 - e1)
    assert door.box.high.z == pytest.approx(587 - 2 * 17.6 + e2)


def test_grooves_are_never_deeper_than_half() -> None:
    """A common rule for housings: never more than half of the board."""
    unit = doors_of(1187.0, 2, 33.0)
    for name in ("top", "base"):
        board = unit.by_name[name].board
        grooves = [f for f in board.features if isinstance(f, Groove)]
        assert len(grooves) == 2
        assert all(f.depth <= board.thickness / 2 for f in grooves)


def test_tongue_and_groove() -> None:
    """The tongue is the bar less the play; the rebate takes the rest of the door."""
    unit = doors_of(1187.0, 2, 33.0)
    door = doors_in(unit)[0]
    rebates = [f for f in door.board.features if isinstance(f, Rebate)]
    assert [f.depth for f in rebates] == pytest.approx([11.8 - 7.0] * 2)
    widths = {f.width for f in unit.by_name["base"].board.features if isinstance(f, Groove)}
    assert widths == {8.0}


def test_wall_between_the_grooves() -> None:
    """6 or more must be left (a furniture maker's page): the pitch is 11.8 + 3."""
    DoorTracks(stock=THIN, bar=8.8)
    with pytest.raises(DesignError):
        DoorTracks(stock=THIN, bar=8.9)


@pytest.mark.parametrize("opening", [211.0, 312.0, 516.0])
@pytest.mark.parametrize("distance", [18.0, 32.8])
def test_groove_is_wide_enough_for_a_leaning_tongue(opening: float, distance: float) -> None:
    """Drawn: the tongue's outline turned about the back of its foot and cut at the mouth.

    What lies above the mouth is as wide as the groove must be, for all a up to asin(s / H).
    """
    tracks = TRACKS
    height = tracks.door_height(opening)
    widest = tracks.tongue
    steepest = math.asin(distance / height)
    for step in range(2001):
        a = steepest * step / 2000
        outline = [(0.0, 0.0), (-tracks.tongue, 0.0), (-tracks.tongue, height), (0.0, height)]
        turned = [
            (y * math.cos(a) + z * math.sin(a), z * math.cos(a) - y * math.sin(a))
            for y, z in outline
        ]
        above = [y for y, z in turned if z >= opening]
        for (y0, z0), (y1, z1) in zip(turned, turned[1:] + turned[:1], strict=True):
            if (z0 - opening) * (z1 - opening) < 0:
                above.append(y0 + (opening - z0) / (z1 - z0) * (y1 - y0))
        if above:
            widest = max(widest, max(above) - min(above))
    assert tracks.width_askew(opening, distance) == pytest.approx(widest, abs=1e-3)


def test_the_play_that_is_asked_for_is_enough() -> None:
    """A refusal that names a play must accept that play."""
    low = carcass(width=813, height=231, depth=303, stock=BIRCH, top_layers=2, base_layers=2)
    with pytest.raises(DesignError) as caught:
        sliding_doors(low, replace(TRACKS, play=0.5))
    assert isinstance(caught.value.limit, float)
    sliding_doors(low, replace(TRACKS, play=caught.value.limit))


@pytest.mark.parametrize("count", [2, 3, 4])
def test_pulls_are_not_covered_by_the_neighbour(count: int) -> None:
    """Closed, no pull lies behind a door of the front track, and a finger passes.

    EN 14749:2016 5.2.1 as read in a test report: openings of 25 or more.
    """
    unit = doors_of(1387.0, count, 40.0)
    doors = doors_in(unit)
    for door in doors:
        (hole,) = (f for f in door.board.features if isinstance(f, Hole))
        assert hole.diameter >= 25.0
        (width_at,) = (at for at in hole.centre if at.axis == 1)
        low = door.placement.across
        y = width_at.coordinate(door.board.size)
        x = door.box.high.x - y if low is Side.LEFT else door.box.low.x + y
        for other in doors:
            if other.box.low.y < door.box.low.y:
                covered = min(x + hole.diameter / 2, other.box.high.x) - max(
                    x - hole.diameter / 2, other.box.low.x
                )
                assert covered <= 0


@given(opening=lengths(700, 1600), count=st.integers(2, 4))
@settings(max_examples=20)
def test_doors_slide_from_side_to_side(opening: float, count: int) -> None:
    """Each move ends against a side, or against the doors of its track that are pushed there."""
    unit = doors_of(opening, count, 31.0)
    doors = doors_in(unit)
    for move in unit.moves:
        if move.motion is Motion.SLIDE:
            door = unit.by_name[move.parts[0]]
            track = [d for d in doors if abs(d.box.low.y - door.box.low.y) < 1.0]
            before = track.index(door) * door.box.size[0]
            after = (len(track) - 1 - track.index(door)) * door.box.size[0]
            assert door.box.low.x + move.low == pytest.approx(17.6 + before)
            assert door.box.high.x + move.high == pytest.approx(17.6 + opening - after)


def test_doors_of_one_track_share_its_groove_and_bar() -> None:
    """Three doors, two tracks: two bars, two grooves above and below."""
    unit = doors_of(1213.0, 3, 25.0)
    bars = [item for item in unit.hardware if item.name.startswith("runner")]
    assert [bar.name for bar in bars] == ["runner, track 1", "runner, track 2"]
    for name in ("top", "base"):
        grooves = [f for f in unit.by_name[name].board.features if isinstance(f, Groove)]
        assert len(grooves) == 2


def test_a_thinner_sheet_keeps_the_tongue_to_the_bar() -> None:
    """Measured again, the door's rebate changes; the grooves stay where the bar is."""
    before = doors_of(1187.0, 2, 33.0)
    after = doors_of(1187.0, 2, 33.0, replace(TRACKS, stock=birch_plywood(12, 11.5)))
    for unit, depth in ((before, 4.8), (after, 4.5)):
        door = doors_in(unit)[0]
        assert {round(f.depth, 6) for f in door.board.features if isinstance(f, Rebate)} == {depth}


def test_no_setback_and_the_dividers_clash() -> None:
    """The carcass keeps the doors' depth free only if it is told to."""
    assert small().bays[0].space.low.y == 0.0
    # lip 10, bar 8, one pitch of 11.8 + 3, and 4 behind.
    assert TRACKS.depth == pytest.approx(10 + 8 + 14.8 + 4)
