"""What is drawn as visible, held to lines of sight: curved outlines, whole boards and units.

``sight_lines`` finds the lines of a view by arithmetic on the parts' data; it knows nothing of
the kernel's hidden-line removal. Lengths must agree within 0.1 %, places within 0.1 mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.features import BiscuitSlot, CutOut, Groove, Hole, HoleRow
from cabinet.part import Board
from cabinet.solids import solid
from drawings import projection
from drawings.board_projection import board_edges
from drawings.curves import length
from drawings.dimensioning import board_dimensions
from drawings.pictorial import _exploded, _shift
from drawings.projection import Projection, merged, project
from drawings.scene import Scene, scene
from drawings.view_frame import FROM_LEFT, FRONT, ISOMETRIC, PLAN, ViewFrame
from drawings.views import plan_views
from tests.drawings.convex_bodies import Body, Round, Slabs, board_body, part_body, rod_body
from tests.drawings.sight_lines import View, view_of
from tests.golden import example
from tests.strategies import boards

EXAMPLES = ["greenhouse_wall_unit", "pottery_drying_rack", "pantry_cupboard"]
NEARLY = 1e-3
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def askew(turn: float, tilt: float) -> ViewFrame:
    """A view from the front, turned about the upright and tilted down, degrees."""
    a, b = math.radians(turn), math.radians(tilt)
    return ViewFrame(
        (math.cos(a), math.sin(a), 0.0),
        (-math.sin(a) * math.sin(b), math.cos(a) * math.sin(b), math.cos(b)),
    )


FRAMES = {
    "front": FRONT,
    "plan": PLAN,
    "from left": FROM_LEFT,
    "isometric": ISOMETRIC,
    "askew": askew(23, 31),
    "from low at the right": askew(-40, 11),
}

Cylinder = tuple[tuple[float, float, float], tuple[float, float, float], float, float]
"""Start, direction, length and radius, mm."""


def round_solid(piece: Cylinder) -> cq.Solid:
    start, axis, long, radius = piece
    return cq.Solid.makeCylinder(radius, long, cq.Vector(*start), cq.Vector(*axis))


def round_body(piece: Cylinder) -> Round:
    start, axis, long, radius = piece
    return Round(np.array(start), np.array(axis), long, radius)


class Model:
    """Blocks and bars as solids and as bodies, from the same numbers."""

    def __init__(self) -> None:
        self.solids: dict[str, cq.Shape] = {}
        self.bodies: dict[str, Body] = {}

    def block(
        self, low: tuple[float, float, float], size: tuple[float, float, float], *bores: Cylinder
    ) -> Model:
        """Add an upright block, mm, with bores."""
        shape: cq.Shape = cq.Solid.makeBox(*size, cq.Vector(*low))
        if bores:
            shape = shape.cut(*map(round_solid, bores))
        high = [a + b for a, b in zip(low, size, strict=True)]
        body = Body(Slabs.box(low, high), tuple(map(round_body, bores)))
        return self._with(shape, body)

    def bar(self, piece: Cylinder) -> Model:
        """Add a round bar."""
        return self._with(round_solid(piece), Body(round_body(piece)))

    def _with(self, shape: cq.Shape, body: Body) -> Model:
        name = f"piece {len(self.solids)}"
        self.solids[name], self.bodies[name] = shape, body
        return self

    def drawn(self, frame: ViewFrame) -> Projection:
        """What the drawings show of it."""
        return merged(project(self.solids, frame).values())

    def view(self, frame: ViewFrame) -> View:
        """What is seen of it."""
        return view_of(self.solids, self.bodies, frame)


def plate(*bores: Cylinder) -> Model:
    return Model().block((0, 0, 0), (80, 60, 18), *bores)


THROUGH: Cylinder = ((37, 23.7, -1), Z, 20, 8)
BLIND: Cylinder = ((37, 23.7, 6.3), Z, 20, 8)
LEVEL: Cylinder = ((-1, 30, 14), X, 100, 8)
HALF: Cylinder = ((-1, 30, 18), X, 100, 8)

# Round faces that touch: where both a line and a body claim the same place.
FITS: dict[str, Callable[[], Model]] = {
    "bar in a blind bore": lambda: plate(BLIND).bar(((37, 23.7, 6.3), Z, 30, 8)),
    "bar in a bore with play": lambda: plate(BLIND).bar(((37, 23.7, 6.3), Z, 30, 7.6)),
    "bar through a bore": lambda: plate(THROUGH).bar(((37, 23.7, -15), Z, 50, 8)),
    "bar flush in a bore": lambda: plate(BLIND).bar(((37, 23.7, 6.3), Z, 11.7, 8)),
    "bar sunk in a bore": lambda: plate(THROUGH).bar(((37, 23.7, -15), Z, 29, 8)),
    "bar off the floor": lambda: plate(BLIND).bar(((37, 23.7, 9.1), Z, 18, 8)),
    "two bars meet in a bore": lambda: (
        plate(THROUGH).bar(((37, 23.7, -15), Z, 24, 8)).bar(((37, 23.7, 9), Z, 24, 8))
    ),
    "bore that breaks out": lambda: plate(LEVEL).bar(((-20, 30, 14), X, 120, 8)),
    "bar in a half-round groove": lambda: plate(HALF).bar(((-20, 30, 18), X, 120, 8)),
    "bar within a half-round groove": lambda: plate(HALF).bar(((10, 30, 18), X, 50, 8)),
    "bores that cross": lambda: plate(THROUGH, ((-1, 23.7, 9), X, 100, 5)).bar(
        ((37, 23.7, -15), Z, 50, 8)
    ),
    "bar between two blocks": lambda: (
        Model()
        .block((0, 0, 0), (18, 60, 80), ((-1, 30, 40), X, 20, 8))
        .block((140, 0, 0), (18, 60, 80), ((139, 30, 40), X, 20, 8))
        .bar(((9, 30, 40), X, 140, 8))
    ),
    "bar lying": lambda: plate().bar(((-10, 30, 26), X, 100, 8)),
    "bar standing": lambda: plate().bar(((40, 30, 18), Z, 50, 8)),
    "bar against an arris": lambda: plate().bar(
        ((-10, -8 * math.cos(0.6), 18 + 8 * math.sin(0.6)), X, 100, 8)
    ),
    "bars end to end": lambda: Model().bar(((0, 0, 0), X, 50, 8)).bar(((50, 0, 0), X, 50, 8)),
    "bars that touch crosswise": lambda: (
        Model().bar(((0, 0, 0), X, 50, 8)).bar(((10, 16, -20), Z, 50, 8))
    ),
}


# The judge


def test_the_judge_sees_a_bar_as_worked_out_by_hand() -> None:
    # An upright bar seen from 30 degrees above: one whole ellipse, half of another, two sides.
    model = Model().bar(((11, 7, 3), Z, 60, 20))
    view = model.view(askew(17, 30))
    turns = np.linspace(0, 2 * math.pi, 100_001)
    rim = np.hypot(20 * np.sin(turns), 20 * math.sin(math.radians(30)) * np.cos(turns))
    ellipse = float(rim[:-1].mean() * 2 * math.pi)
    sides = 2 * 60 * math.cos(math.radians(30))
    assert view.seen.length() == pytest.approx(1.5 * ellipse + sides, rel=5e-5)
    assert view.hidden_length == pytest.approx(ellipse / 2, rel=3e-4)


def test_the_judge_sees_into_a_bore_as_worked_out_by_hand() -> None:
    # Square on, a through bore is one circle; from the front two hidden lines.
    model = plate(THROUGH)
    plan, front = model.view(PLAN), model.view(FRONT)
    assert plan.seen.length() == pytest.approx(2 * (80 + 60) + 16 * math.pi, rel=1e-5)
    assert plan.hidden_length == pytest.approx(0, abs=1e-3)
    assert front.seen.length() == pytest.approx(2 * (80 + 18), rel=1e-6)
    assert front.hidden_length == pytest.approx(2 * 18, rel=1e-4)


def test_a_line_dropped_and_a_line_shown_are_noticed() -> None:
    model = FITS["bar through a bore"]()
    drawn, view = model.drawn(ISOMETRIC), model.view(ISOMETRIC)
    assert view.faults(drawn.visible).worst < NEARLY
    for curve in drawn.visible:
        fewer = [other for other in drawn.visible if other != curve]
        assert view.faults(fewer).longer < -NEARLY
        assert view.faults(fewer).lacking > NEARLY
    for curve in drawn.hidden:
        more = view.faults((*drawn.visible, curve))
        assert more.longer > NEARLY
        assert more.excess > NEARLY


def test_what_the_kernel_alone_draws_of_an_exact_fit_is_noticed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    model = FITS["bar through a bore"]()
    monkeypatch.setattr(projection, "redrawn", lambda *_: {})
    faults = model.view(ISOMETRIC).faults(model.drawn(ISOMETRIC).visible)
    assert faults.longer > 0.03
    assert faults.excess > 0.03


# Touching round faces


# The kernel takes seconds over bores that cross; two views of them will do.
TOUCHING = [
    (fit, frame)
    for fit in FITS
    for frame in FRAMES
    if fit != "bores that cross" or frame in {"from left", "isometric"}
]


@pytest.mark.parametrize(("fit", "frame"), TOUCHING)
def test_round_faces_that_touch(fit: str, frame: str) -> None:
    model = FITS[fit]()
    drawn, view = model.drawn(FRAMES[frame]), model.view(FRAMES[frame])
    assert view.faults(drawn.visible).worst < NEARLY


# Boards


def assert_board_agrees(board: Board, frame: ViewFrame, drawn: Projection) -> None:
    view = view_of({"board": solid(board)}, {"board": board_body(board)}, frame)
    assert view.faults(drawn.visible).worst < NEARLY
    assert length(drawn.hidden) == pytest.approx(view.hidden_length, rel=NEARLY, abs=0.02)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_view_that_the_sheets_draw_of_a_board(name: str) -> None:
    for board, _ in example(name).resolve().boards:
        for shown in plan_views(board, board_dimensions(board)).views:
            look = shown.look
            assert_board_agrees(board, look.frame, board_edges(board, look))


def is_curved(board: Board) -> bool:
    return any(
        isinstance(f, Hole | HoleRow | CutOut | BiscuitSlot)
        or (isinstance(f, Groove) and f.end_radius > 0)
        for f in board.features
    )


@settings(max_examples=30)
@given(boards().filter(is_curved), st.sampled_from(list(FRAMES)))
def test_generated_boards_with_curves(board: Board, frame: str) -> None:
    drawn = project({"board": solid(board)}, FRAMES[frame])["board"]
    solids, bodies = {"board": solid(board)}, {"board": board_body(board)}
    view = view_of(solids, bodies, FRAMES[frame], pitch=2.0)
    assert view.faults(drawn.visible).worst < NEARLY


# Units


def unit_bodies(made: Scene) -> dict[str, Body]:
    return {part.name: part_body(part) for part in made.unit.parts} | {
        item.name: rod_body(item) for item in made.unit.hardware if item.name in made.rods
    }


def assert_unit_agrees(
    solids: Mapping[str, cq.Shape], bodies: Mapping[str, Body], frame: ViewFrame
) -> None:
    view = view_of(solids, {name: bodies[name] for name in solids}, frame, pitch=4.0)
    assert view.faults(merged(project(solids, frame).values()).visible).worst < NEARLY


def test_a_whole_unit_with_its_pins_from_the_front() -> None:
    made = scene(example("pottery_drying_rack").resolve())
    assert_unit_agrees({**made.parts, **made.rods}, unit_bodies(made), FRONT)


def test_a_unit_taken_apart() -> None:
    made = scene(example("pottery_drying_rack").resolve())
    still = np.eye(3)
    bodies = {
        part.name: part_body(part).moved(still, np.array(_shift(made, part, 0.0).toTuple()))
        for part in made.unit.parts
    }
    assert_unit_agrees(_exploded(made, 0.0), bodies, ISOMETRIC)
