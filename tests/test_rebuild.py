"""The blind rebuild: a board made from its sheet alone is the board of the model."""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import cadquery as cq
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

import tests.rebuild
from cabinet.board import At, BoardSize, Surface
from cabinet.errors import KernelError
from cabinet.features import CutOut
from cabinet.part import Board, Part
from cabinet.solids import solid
from cabinet.stock import birch_plywood
from drawings.dimensioning import board_dimensions
from drawings.part_sheet import part_sheet
from tests.drawings.sample_parts import SAMPLES
from tests.drawings.test_part_sheet import BLOCK
from tests.examples import example_unit
from tests.rebuild import NotToldError, rebuilt
from tests.strategies import FEATURES, Recipe, boards, long_boards, recipes

EXAMPLES = ("greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack")
PLY = birch_plywood(18, 17.6)
# Two solids are one if less than this lies in only one of them, mm3.
SAME_SOLID = 1.0
# Records keep a millionth of a mm; faces nearer than this are one face, mm.
SAME_FACE = 1e-5


def blinded(told: dict[str, Any]) -> dict[str, Any]:
    """What is told without any coordinate: nodes get names that say nothing."""
    names: dict[str, str] = {}

    def name(key: str) -> str:
        return names.setdefault(key, f"place {len(names) + 1}")

    def pair(link: dict[str, Any]) -> dict[str, Any]:
        return {
            "from": {"key": name(link["from"]["key"])},
            "to": {"key": name(link["to"]["key"])},
            "direction": link["direction"],
        }

    return {
        "dimensions": [
            {
                **pair(one),
                "axis": one["axis"],
                "value": one["value"],
                "feature": one["feature"],
                "also": [pair(more) for more in one["also"]],
            }
            for one in told["dimensions"]
        ],
        "callouts": [
            {"features": callout["features"], "sizes": callout["sizes"]}
            for callout in told["callouts"]
        ],
        "shapes": [
            {**shape, "nodes": {role: name(key) for role, key in shape["nodes"].items()}}
            for shape in told["shapes"]
        ],
    }


def is_in_one_piece(board: Board) -> bool:
    """Whether the model has the board at all: a hole at a corner may cut the corner off."""
    try:
        solid(board)
    except KernelError:
        return False
    return True


def told_of(board: Board) -> dict[str, Any]:
    """What a board's sheet tells, blinded."""
    return blinded(board_dimensions(board).record())


def difference(told: dict[str, Any], board: Board) -> float:
    """Volume that lies in only one of the two, the rebuilt board and the model's, mm3.

    Raises:
        NotToldError: the board cannot be made from what is told.
    """
    made, model = rebuilt(told), solid(board)
    open_area = abs(made.open_area - board.open_area) * board.thickness
    sizes = made.solid.Volume(), model.Volume()
    try:
        common = made.solid.intersect(model, tol=SAME_FACE).Volume()
    except ValueError:
        common = -1.0
    if not 0.0 < common <= min(sizes) + SAME_SOLID:
        # The kernel fails to compare some pairs of equal solids: those with a hole that touches
        # a face along a line, and some with a round opening. It says so, or its answer is
        # nothing or less, which no two boards have in common that both begin at their datum.
        return _apart_by_moments(made.solid, model) + open_area
    return abs(sum(sizes) - 2 * common) + open_area


def _apart_by_moments(one: cq.Shape, other: cq.Shape) -> float:
    """How far two solids differ in volume and in first and second moments, as a volume in mm3.

    Every hole that is larger, deeper or elsewhere changes one of them.
    """
    measured = []
    for shape in (one, other):
        found = GProp_GProps()
        BRepGProp.VolumeProperties_s(shape.wrapped, found)
        centre, inertia = found.CentreOfMass(), found.MatrixOfInertia()
        first = [found.Mass() * place for place in (centre.X(), centre.Y(), centre.Z())]
        # About the centre; per mm and per square decimetre, so that all count as volumes.
        second = [inertia.Value(i, j) / 1e4 for i in (1, 2, 3) for j in range(i, 4)]
        measured.append([found.Mass(), *first, *second])
    return float(sum(abs(a - b) for a, b in zip(*measured, strict=True)))


def is_missed(told: dict[str, Any], board: Board) -> bool:
    """Whether what is told no longer makes the board."""
    try:
        return difference(told, board) > SAME_SOLID
    except NotToldError:
        return True


def without_one(told: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """What is told less one dimension or one callout, each in turn."""
    for kind in ("dimensions", "callouts"):
        for index in range(len(told[kind])):
            fewer = [one for i, one in enumerate(told[kind]) if i != index]
            yield f"{kind} {index}", {**told, kind: fewer}


def assert_all_needed(told: dict[str, Any], board: Board) -> None:
    """Nothing that is told can be left out."""
    count = 0
    for name, less in without_one(told):
        assert is_missed(less, board), name
        count += 1
    assert count >= 3


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_part_of_the_examples_is_rebuilt(name: str) -> None:
    boards_done = {part.board for part in example_unit(name).parts}
    assert len(boards_done) > 5
    for board in boards_done:
        assert difference(told_of(board), board) < SAME_SOLID


@pytest.mark.parametrize("sample", SAMPLES)
def test_samples_are_rebuilt_and_nothing_can_be_left_out(sample: Callable[[], Part]) -> None:
    board = sample().board
    told = told_of(board)
    assert difference(told, board) < SAME_SOLID
    assert_all_needed(told, board)


@pytest.mark.parametrize("kind", FEATURES)
@settings(max_examples=15)
@given(data=st.data())
def test_every_kind_of_feature_is_rebuilt(kind: type, data: st.DataObject) -> None:
    size = BoardSize(613.4, 287.2, 17.6)
    feature = data.draw(FEATURES[kind](size))
    board = Board(stock=PLY, length=size.length, width=size.width, features=(feature,))
    assume(is_in_one_piece(board))
    told = told_of(board)
    assert difference(told, board) < SAME_SOLID
    assert_all_needed(told, board)


@settings(max_examples=300)
@given(board=boards(), data=st.data())
def test_generated_boards_are_rebuilt(board: Board, data: st.DataObject) -> None:
    told = told_of(board)
    assert difference(told, board) < SAME_SOLID
    name, less = data.draw(st.sampled_from(list(without_one(told))))
    assert is_missed(less, board), name


@settings(max_examples=25)
@given(board=long_boards())
def test_boards_are_rebuilt_from_the_record_of_a_sheet_that_leaves_some_out(board: Board) -> None:
    """What stands in job.json with interrupted views makes the whole board, not the picture."""
    assume(is_in_one_piece(board))
    part = replace(SAMPLES[0](), board=board)
    sheet = part_sheet(part, block=BLOCK)
    assume(sheet.views[0].interruption is not None)
    (told,) = sheet.dimensions.values()
    assert difference(blinded(told), board) < SAME_SOLID


ROUND = CutOut(
    name="opening",
    centre=(At(Surface.END, 135.6), At(Surface.LOW, 14.7)),
    length=27.4,
    width=27.4,
    corner_radius=13.7,
)


@pytest.mark.parametrize(
    "wrong",
    [
        replace(ROUND, length=27.5, width=27.5, corner_radius=13.75),
        replace(ROUND, centre=(At(Surface.END, 135.7), At(Surface.LOW, 14.7))),
        replace(ROUND, centre=(At(Surface.END, 135.6), At(Surface.LOW, 14.8))),
    ],
)
def test_what_the_kernel_cannot_compare_is_compared_by_its_moments(wrong: CutOut) -> None:
    """A round opening of which the kernel makes a solid of less than no volume."""
    board, other = (
        Board(stock=PLY, length=190.0, width=140.0, features=(one,)) for one in (ROUND, wrong)
    )
    assert difference(told_of(board), board) < SAME_SOLID
    assert _apart_by_moments(solid(board), solid(board)) < 1e-3
    assert _apart_by_moments(solid(other), solid(board)) > SAME_SOLID


def test_equal_boards_that_the_kernel_takes_to_be_apart_are_compared_by_their_moments() -> None:
    """A round opening of which the kernel says that the boards have nothing in common."""
    centre = At(Surface.START, 92.0), At(Surface.HIGH, 116.7)
    opening = replace(ROUND, centre=centre, length=25.8, width=25.8, corner_radius=12.9)
    thin = birch_plywood(12.0, 11.1)
    board = Board(stock=thin, length=190.0, width=140.0, features=(opening,))
    wider = Board(stock=thin, length=190.0, width=140.1, features=(opening,))
    assert difference(told_of(board), board) < SAME_SOLID
    assert difference(told_of(wider), board) > SAME_SOLID


@settings(max_examples=4)
@given(recipes())
def test_parts_of_generated_units_are_rebuilt(recipe: Recipe) -> None:
    parts = recipe.design().resolve().parts
    for board in {part.board for part in parts}:
        assert difference(told_of(board), board) < SAME_SOLID


def test_the_rebuilder_knows_nothing_of_the_project() -> None:
    """It may import the kernel, shapely and the standard library, and no package of ours."""
    tree = ast.parse(Path(tests.rebuild.__file__).read_text("utf-8"))
    modules = {
        name.split(".")[0]
        for node in ast.walk(tree)
        for name in (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom)
            else []
        )
    }
    assert modules == {"__future__", "collections", "dataclasses", "math", "typing"} | {
        "cadquery",
        "shapely",
    }


def test_a_value_a_tenth_wrong_is_seen() -> None:
    """The comparison itself can fail: each value and size of a side, changed by a tenth."""
    board = SAMPLES[0]().board
    told = told_of(board)
    for index, one in enumerate(told["dimensions"]):
        wrong = {**one, "value": one["value"] + 0.1}
        links = [wrong if i == index else link for i, link in enumerate(told["dimensions"])]
        assert is_missed({**told, "dimensions": links}, board), index
    for index, callout in enumerate(told["callouts"]):
        for name, value in callout["sizes"].items():
            changed = {**callout, "sizes": {**callout["sizes"], name: value + 0.1}}
            if name == "count":
                changed["sizes"][name] = value + 1
            callouts = [changed if i == index else c for i, c in enumerate(told["callouts"])]
            assert is_missed({**told, "callouts": callouts}, board), name
