"""Boards cut by their operations alone are the model's; each tool is chosen as a bench would."""

from __future__ import annotations

import dataclasses

import cadquery as cq
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cabinet.board import At, Surface
from cabinet.errors import KernelError
from cabinet.features import Bevel, CutOut, Groove, HoleRow, Perforation, Rebate, Tolerance
from cabinet.making.operation import Guide, Operation, Tool, Work
from cabinet.making.operations import fewest_cutters, operations
from cabinet.part import Board
from cabinet.solids import solid
from cabinet.stock import birch_plywood
from cabinet.workshop import Router, Workshop
from tests.bench import cut_by_operations
from tests.examples import example_unit
from tests.strategies import FEATURES, boards

EXAMPLES = ("greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack")
SHOP = Workshop()
PLY = birch_plywood(18, 17.6)
# Two solids are one if less than this lies in only one of them, mm3.
SAME_SOLID = 1.0


def board(*features: object, length: float = 613.0, width: float = 287.0) -> Board:
    return Board(stock=PLY, length=length, width=width, features=features)  # type: ignore[arg-type]


def done(one: Board, shop: Workshop = SHOP) -> tuple[Operation, ...]:
    return operations([one], shop)[one]


def is_in_one_piece(one: Board) -> bool:
    """Whether the model has the board at all: a hole at a corner may cut the corner off."""
    try:
        solid(one)
    except KernelError:
        return False
    return True


def difference(one: Board, made: tuple[Operation, ...]) -> float:
    more = one.margins
    margins = (more[Surface.START], more[Surface.END]), (more[Surface.LOW], more[Surface.HIGH])
    cut = cut_by_operations(one.size.along, margins, made)
    model = solid(one)
    try:
        common = cut.intersect(model, tol=1e-5).Volume()
    except ValueError:
        # Where a slot just touches a face the kernel finds no common part of two equal bodies.
        # What lies elsewhere then shows in the volume or moves its centre.
        one_centre, other_centre = cq.Shape.centerOfMass(cut), cq.Shape.centerOfMass(model)
        moved = (one_centre - other_centre).Length * model.Volume() / max(one.size.along)
        return abs(cut.Volume() - model.Volume()) + moved
    return abs(cut.Volume() + model.Volume() - 2 * common)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_board_of_the_examples_is_cut_by_its_operations_alone(name: str) -> None:
    unit = example_unit(name)
    made = operations((one for one, _ in unit.boards), SHOP)
    assert len(made) > 5
    for one, them in made.items():
        assert difference(one, them) < SAME_SOLID, one


@settings(max_examples=12)
@given(one=boards())
def test_generated_boards_are_cut_by_their_operations_alone(one: Board) -> None:
    assume(is_in_one_piece(one))
    assert difference(one, done(one)) < SAME_SOLID


@pytest.mark.parametrize("kind", FEATURES)
@settings(max_examples=5)
@given(data=st.data())
def test_every_kind_of_feature_is_read(kind: type, data: st.DataObject) -> None:
    plain = board()
    one = board(data.draw(FEATURES[kind](plain.size)))
    assume(is_in_one_piece(one))
    assert difference(one, done(one)) < SAME_SOLID


def test_a_wrong_distance_makes_another_board() -> None:
    one = example_unit("pantry_cupboard").by_name["top"].board
    made = done(one)
    for index, operation in enumerate(made):
        if operation.passes:
            shifted = tuple(p + 0.5 for p in operation.passes)
            wrong = dataclasses.replace(operation, passes=shifted)
            assert difference(one, (*made[:index], wrong, *made[index + 1 :])) > SAME_SOLID
        without = (*made[:index], *made[index + 1 :])
        assert difference(one, without) > SAME_SOLID


def test_a_groove_wider_than_the_cutter_is_cut_in_passes_that_meet_its_walls() -> None:
    one = board(
        Groove(name="g", surface=Surface.A, near=At(Surface.LOW, 31.4), width=17.9, depth=6.1)
    )
    (operation,) = done(one)
    assert operation.cutter == 16.0
    assert operation.passes == (31.4, 33.3)
    assert operation.guide is Guide.FENCE


def test_a_rebate_is_told_from_the_edge_that_runs_on_the_fence() -> None:
    one = board(Rebate(name="r", edge=Surface.HIGH, face=Surface.B, width=11.3, depth=4.9))
    (operation,) = done(one)
    assert operation.reference is Surface.HIGH
    assert operation.face is Surface.B
    assert [p + operation.swath for p in operation.passes] == [pytest.approx(11.3)]


def test_far_from_the_edge_a_straight_edge_leads_the_router() -> None:
    one = board(
        Groove(name="g", surface=Surface.A, near=At(Surface.START, 287.3), width=8, depth=5)
    )
    assert done(one)[0].guide is Guide.STRAIGHT_EDGE


def test_a_groove_too_narrow_for_the_router_is_sawn_if_the_kerf_is_within_its_tolerance() -> None:
    groove = Groove(
        name="g",
        surface=Surface.LOW,
        near=At(Surface.B, 4.0),
        width=2.0,
        depth=8.0,
        width_tolerance=Tolerance(0.0, 0.3),
    )
    (sawn,) = done(board(groove))
    assert (sawn.tool, sawn.cutter, sawn.swath, sawn.passes) == (Tool.SAW, 2.2, 2.0, (4.0,))
    tight = dataclasses.replace(groove, width_tolerance=Tolerance(0.0, 0.1))
    (other,) = done(board(tight))
    assert (other.tool, other.cutter) == (Tool.ROUTER, 2.0)


def test_both_halves_of_a_cleat_share_the_fence_though_one_has_a_land() -> None:
    # 90 - 17.6 = 72.4 and 87 - (17.6 - 3) = 72.4: the same rip, by hand.
    one = board(Bevel(name="b", edge=Surface.HIGH, sharp=Surface.A), width=90)
    other = board(Bevel(name="b", edge=Surface.LOW, sharp=Surface.B, land=3.0), width=87)
    made = operations([one, other], SHOP)
    assert {them[0].passes for them in made.values()} == {(72.4,)}


def test_rows_close_together_get_a_jig_and_others_marks() -> None:
    def row(pitch: float, count: int, distance: float) -> Board:
        return board(
            HoleRow(
                name="row",
                surface=Surface.A,
                first=At(Surface.START, 41.0),
                line=At(Surface.LOW, distance),
                count=count,
                pitch=pitch,
                diameter=5.0,
                depth=12.0,
            )
        )

    assert done(row(32.0, 9, 37.0))[0].guide is Guide.JIG
    assert done(row(170.0, 3, 37.0))[0].tool is Tool.PILLAR_DRILL
    assert done(row(170.0, 3, 199.0))[0].guide is Guide.MARKS


def test_an_opening_with_tight_corners_gets_a_smaller_cutter_in_the_bush() -> None:
    def opening(radius: float) -> Operation:
        middle = (At(Surface.START, 210.0), At(Surface.LOW, 131.0))
        return done(
            board(CutOut(name="o", centre=middle, length=90, width=60, corner_radius=radius))
        )[0]

    assert opening(15.0).cutter == 10.0
    assert opening(4.2).cutter == 8.0


def test_perforated_sheet_comes_so() -> None:
    unit = example_unit("pottery_drying_rack")
    sheet = next(
        one for one, _ in unit.boards if any(isinstance(f, Perforation) for f in one.features)
    )
    assert [operation.work for operation in done(sheet)] == [Work.BOUGHT]


def test_the_fewest_cutters_fit_all_cuts_and_no_fewer_would() -> None:
    wanted = [(4.0, 6.0, 8.0), (8.0,), (10.0, 12.0, 16.0), (20.0,), (16.0, 20.0), ()]
    assert fewest_cutters(wanted, Router().cutters) == (20.0, 16.0, 8.0)
    assert fewest_cutters([], Router().cutters) == ()
