"""Straight moves: intervals of travel against the kernel, and round things on the safe side."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.board import At, Surface
from cabinet.checks.bodies import shared_volume
from cabinet.checks.pieces import disc, less, pieces
from cabinet.checks.sweep import Space, blocked, meet, united
from cabinet.design import Component, Design
from cabinet.features import Bevel, CutOut, Hole
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Rod
from cabinet.part import Part
from cabinet.solids import part_solid
from tests.strategies import a_groove, a_part, lengths, parts


def rod(diameter: float, at: tuple[float, float, float], axis: Side, length: float) -> Hardware:
    """A round bar."""
    return Hardware(
        name="bar",
        article="bar",
        body=Rod(diameter=diameter, length=length),
        at=UnitPoint(*at),
        axis=axis,
    )


@given(part=parts())
@settings(max_examples=25)
def test_boxes_bound_the_solid(part: Part) -> None:
    """A grown body is no smaller than the solid, a shrunk one no larger, finer ones nearer."""
    true = part_solid(part).Volume()
    volumes = [
        sum(math.prod(b - a for a, b in piece) for piece in pieces(part, is_grown=grown))
        for grown in (False, True)
    ]
    assert volumes[0] <= true + 1e-3 * true
    assert volumes[1] >= true - 1e-3 * true


@pytest.mark.parametrize(
    "feature",
    [
        Hole(
            name="hole",
            surface=Surface.A,
            centre=(At(Surface.START, 113.0), At(Surface.LOW, 71.0)),
            diameter=37.0,
        ),
        CutOut(
            name="pill",
            centre=(At(Surface.START, 211.0), At(Surface.LOW, 91.0)),
            length=120.0,
            width=34.0,
            corner_radius=17.0,
        ),
        CutOut(
            name="opening",
            centre=(At(Surface.START, 211.0), At(Surface.LOW, 91.0)),
            length=73.0,
            width=94.0,
            corner_radius=9.0,
        ),
        Bevel(name="bevel", edge=Surface.HIGH, sharp=Surface.A, angle=41.0, land=2.0),
        Bevel(name="bevel", edge=Surface.START, sharp=Surface.B, angle=30.0),
    ],
    ids=["hole", "pill", "opening", "bevel", "bevel at an end"],
)
def test_steps_close_in_on_round_shapes(feature: Hole | CutOut | Bevel) -> None:
    """With finer steps both bounds come near to the solid's volume, from their own side."""
    part = a_part(feature)
    true = part_solid(part).Volume()
    everywhere = ((-1e4, 1e4), (-1e4, 1e4), (-1e4, 1e4))
    gaps = []
    for fine in (4, 16, 64):
        low, high = (
            sum(
                math.prod(b - a for a, b in piece)
                for piece in pieces(part, is_grown=grown, fine=fine, within=everywhere)
            )
            for grown in (False, True)
        )
        assert low <= true + 1.0
        assert high >= true - 1.0
        gaps.append(high - low)
    assert gaps[2] < gaps[1] < gaps[0]
    assert gaps[2] < gaps[0] / 8


def test_strips_of_a_disc() -> None:
    """Strips within it and around it bound its area."""
    area = math.pi * 7.5**2
    within, around = (
        sum((b - a) * 2 * half for (a, b), half in disc(7.5, 200, is_within=inside))
        for inside in (True, False)
    )
    assert within < area < around
    assert around - within < 0.02 * area


def test_a_box_less_a_box() -> None:
    """What is left shares nothing and has the right volume."""
    left = less(((0, 10), (0, 8), (0, 6)), ((3, 5), (-1, 4), (2, 9)))
    assert sum(math.prod(b - a for a, b in piece) for piece in left) == pytest.approx(
        10 * 8 * 6 - 2 * 4 * 4
    )
    assert less(((0, 1), (0, 1), (0, 1)), ((1, 2), (0, 1), (0, 1))) == [((0, 1), (0, 1), (0, 1))]


def test_union_of_intervals() -> None:
    """Overlapping ones become one, in order."""
    assert united([(5, 7), (0, 2), (1, 3), (6, 6.5)]) == ((0, 3), (5, 7))
    assert united([]) == ()


@given(
    depth=lengths(2, 14),
    near=lengths(20, 120),
    travel=st.lists(lengths(-60, 60), min_size=6, max_size=6),
    side=st.sampled_from(list(Side)),
)
@settings(max_examples=25)
def test_intervals_agree_with_exact_volumes(
    depth: float, near: float, travel: list[float], side: Side
) -> None:
    """At any travel the two bodies share volume if and only if it lies in an interval."""
    board = a_part(a_groove(depth=depth, near=near))
    block = a_part(name="block")
    moved = Part(
        name="block",
        role="block",
        board=block.board,
        placement=board.placement.__class__(
            origin=board.placement.origin.moved(Side.RIGHT, 17.3).moved(Side.TOP, 211.7),
            along=Side.FRONT,
            across=Side.TOP,
        ),
    )
    spans = blocked(pieces(moved), pieces(board), side.axis)
    for distance in travel:
        shares = shared_volume(moved, board, side, distance) > 1.0
        at = side.sign * distance
        inside = any(low < at < high for low, high in spans)
        near_end = any(min(abs(at - low), abs(at - high)) < 0.05 for low, high in spans)
        assert shares == inside or near_end


def test_a_bar_passes_a_bar() -> None:
    """Two round bars of 10 pass with 10.5 between their middles; with 9.5 they meet for certain."""
    still = rod(10.0, (0.0, 0.0, 0.0), Side.RIGHT, 300.0)
    for apart, is_free in ((10.5, True), (9.5, False)):
        # It lies parallel, shifted in Y and Z so that its square would be hit, and slides by.
        off = apart * math.sqrt(0.5)
        mover = rod(10.0, (-400.0, off, off), Side.RIGHT, 100.0)
        hit = meet(mover, still, 0, 0.0, 700.0)
        assert (hit is None) == is_free
        if hit is not None:
            assert hit.is_certain
            assert hit.travel == pytest.approx(300.0, abs=0.1)


def test_what_is_too_near_is_undecided() -> None:
    """Within the finest step nothing is claimed."""
    still = rod(10.0, (0.0, 0.0, 0.0), Side.RIGHT, 300.0)
    off = 10.0 * math.sqrt(0.5) + 0.001
    hit = meet(rod(10.0, (-400.0, off, off), Side.RIGHT, 100.0), still, 0, 0.0, 700.0)
    assert hit is not None
    assert not hit.is_certain


def test_nothing_between_two_samples_is_missed() -> None:
    """A thin fin in the middle of a long way is met."""
    fin = rod(0.4, (500.0, -50.0, 10.0), Side.BACK, 400.0)
    block = a_part(name="block")
    unit = Design("way", (Component(parts=(block,), hardware=(fin,)),)).resolve()
    hits = list(Space(unit).stops(("block",), Side.RIGHT, 0.0, 2000.0))
    assert [hit.other for hit in hits] == ["bar"]
    assert hits[0].travel == pytest.approx(500.0 - 0.2 - block.box.high.x, abs=0.05)


def test_the_index_finds_what_meets_a_box() -> None:
    """The same bodies as asking all of them, whatever their sizes."""
    boards = []
    for index in range(40):
        part = a_part(name=f"part {index}")
        origin = part.placement.origin.moved(Side.RIGHT, (index * 137) % 900)
        boards.append(
            Part(
                name=part.name,
                role="board",
                board=part.board,
                placement=part.placement.__class__(
                    origin=origin, along=part.placement.along, across=part.placement.across
                ),
            )
        )
    bars = tuple(
        Hardware(
            name=f"bar {i}",
            article="bar",
            body=Rod(diameter=3.0, length=2.0 ** (i + 1)),
            at=UnitPoint(i * 91.0, 5.0, 50.0),
            axis=Side.RIGHT,
        )
        for i in range(9)
    )
    space = Space(Design("many", (Component(parts=tuple(boards), hardware=bars),)).resolve())
    wanted = ((310.0, 420.0), (-500.0, 500.0), (0.0, 100.0))
    found = {body.name for body in space.near(wanted)}
    plain = {
        name
        for name, box in space.boxes.items()
        if all(min(a[1], b[1]) - max(a[0], b[0]) > 0.01 for a, b in zip(wanted, box, strict=True))
    }
    assert found == plain
    assert found
