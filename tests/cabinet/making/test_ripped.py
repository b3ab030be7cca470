"""Two halves out of one strip: each comes out at its size when the cuts are made on solids."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest

from cabinet import Design, Rails, birch_plywood, carcass, hanging_cleat
from cabinet.board import At, Surface
from cabinet.components.cleat import CleatKind
from cabinet.design import Unit
from cabinet.errors import SizeError
from cabinet.features import Bevel, Hole
from cabinet.making.blanks import blanks
from cabinet.making.cut_list import cut_list
from cabinet.making.cut_plan import cut_plan
from cabinet.making.operation import Operation, Work
from cabinet.making.operations import operations
from cabinet.making.ripped import RippedPair, pair_of, ripped_pairs
from cabinet.making.setups import set_ups
from cabinet.part import Board
from cabinet.solids import solid
from cabinet.workshop import MOST_KERF, Saw, Workshop
from tests.bench import WORKS
from tests.cabinet.making.racks import small_unit
from tests.examples import example_unit

BIRCH = birch_plywood(nominal=18, measured=17.7)


def unit_of(*, layers: int = 2, height: float = 90.0, kind: CleatKind = CleatKind.HIDDEN) -> Unit:
    thick = BIRCH.measured * layers
    box = carcass(
        width=1013,
        height=587,
        depth=331,
        stock=BIRCH,
        back=Rails(
            stock=BIRCH, top=110, bottom=80, behind=thick if kind is CleatKind.HIDDEN else 0.0
        ),
    )
    cleat = hanging_cleat(box, stock=BIRCH, layers=layers, height=height, kind=kind)
    return Design("hung", (box.component, cleat)).resolve()


def lands(pair: RippedPair) -> float:
    """What is left square of both sharp edges, mm."""
    return sum(f.land for part in pair.parts for f in part.board.features if isinstance(f, Bevel))


def the_pair(unit: Unit) -> RippedPair:
    (pair,) = ripped_pairs(unit)
    return pair


def sawn_apart(
    unit: Unit, saw: Saw, *, wrong: float = 0.0
) -> tuple[dict[str, cq.Shape], list[str]]:
    """Both halves, sawn on solids from the blanks of the cut list by the set-ups in their order.

    Only the settings, the size of the blank, and that a blade turns its kerf into dust are known.
    """
    pair = the_pair(unit)
    shop = replace(Workshop(), saw=saw)
    (line,) = [line for line in cut_list(unit) if pair.below.name in line.parts]
    thick = line.layers * line.stock.measured
    tasks = [
        task
        for setting in set_ups(unit, shop).settings
        for task in setting.tasks
        if set(task.names) & set(line.parts)
    ]
    strip = pair.strip.board
    off = (line.length - strip.length) / 2, (line.width - strip.width) / 2
    body: cq.Shape = cq.Solid.makeBox(line.length, line.width, thick, cq.Vector(-off[0], -off[1]))
    halves: dict[str, cq.Shape] = {}
    done: list[str] = []
    for task in tasks:
        one, done = task.operation, [*done, task.operation.name]
        if one.passes and one.work is Work.BEVEL:
            one = replace(one, passes=(one.passes[0] + wrong,))
        if task.becomes:
            gone = WORKS[one.work](one, strip.size.along)
            if one.work is not Work.BEVEL:
                body = body.cut(*gone)
                continue
            (beyond,) = gone
            kerf = saw.kerf / math.cos(math.radians(one.angle))
            halves[pair.below.name] = body.cut(beyond)
            rest = body.intersect(beyond.moved(cq.Location(cq.Vector(0, kerf, 0))))
            # From its own full edge: the upper half is told from the strip's far edge.
            down = pair.above.board.width - strip.width
            halves[pair.above.name] = rest.moved(cq.Location(cq.Vector(0, down, 0)))
            continue
        for part in task.parts:
            assert part.name in halves, f"{one.name} comes before the strip is ripped"
            bodies = WORKS[one.work](one, part.board.size.along)
            halves[part.name] = halves[part.name].cut(*bodies)
    return halves, done


def apart(one: cq.Shape, board: Board) -> float:
    """What only one of a body and the model's board has, mm3."""
    model = solid(board)
    return abs(one.Volume() + model.Volume() - 2 * one.intersect(model, tol=1e-5).Volume())


@pytest.mark.parametrize("kerf", [0.5, 2.2, 3.1, 4.4, MOST_KERF])
@pytest.mark.parametrize(
    ("layers", "height"), [(1, 87.0), (2, 90.0), (2, 113.0)], ids=["single", "doubled", "high"]
)
def test_both_halves_come_out_of_the_strip_at_their_sizes(
    layers: int, height: float, kerf: float
) -> None:
    unit = unit_of(layers=layers, height=height)
    halves, done = sawn_apart(unit, Saw(kerf=kerf))
    assert sum("parts the halves" in name for name in done) == 1
    for part in the_pair(unit).parts:
        assert apart(halves[part.name], part.board) < 1.0, part.name


def test_the_cleat_of_the_greenhouse_unit_comes_out_of_its_strip() -> None:
    unit = example_unit("greenhouse_wall_unit")
    halves, _ = sawn_apart(unit, Saw())
    for part in the_pair(unit).parts:
        assert apart(halves[part.name], part.board) < 1.0
    spoiled, _ = sawn_apart(unit, Saw(), wrong=0.3)
    for part in the_pair(unit).parts:
        assert apart(spoiled[part.name], part.board) > 1000.0


@pytest.mark.parametrize("kerf", [0.0, 0.4, MOST_KERF + 0.1, math.nan])
def test_no_saw_has_a_kerf_that_the_strip_has_no_room_for(kerf: float) -> None:
    with pytest.raises(SizeError, match="kerf"):
        Saw(kerf=kerf)


@pytest.mark.parametrize("angle", [15.0, 30.0, 45.0])
@pytest.mark.parametrize("measured", [17.7, 17.65, 18.3])
def test_a_strip_is_set_in_tenths_and_has_room_for_every_blade(
    angle: float, measured: float
) -> None:
    pair = the_pair(unit_of())
    stock = birch_plywood(nominal=18, measured=measured)
    parts = [
        replace(
            part,
            board=replace(
                part.board,
                stock=stock,
                features=tuple(
                    replace(f, angle=angle) for f in part.board.features if isinstance(f, Bevel)
                ),
            ),
        )
        for part in pair.parts
    ]
    made = RippedPair(below=parts[0], above=parts[1])
    assert made.width == pytest.approx(round(made.width, 1))
    # The upper half's own bevel begins beyond what the widest blade takes of its full face.
    slope = math.tan(math.radians(angle))
    cut = made.below.board.width - (stock.measured * 2 - lands(made)) * slope
    left = made.starts_above - cut - MOST_KERF / math.cos(math.radians(angle))
    assert -1e-6 <= left < 0.1


def test_the_strip_is_as_wide_as_both_less_the_bevel_and_the_widest_kerf() -> None:
    pair = the_pair(unit_of())
    # Sharp, both are 90 high; they overlap by the thickness at 45 degrees; the widest kerf of 5
    # stands askew: 7.071, and the fence is set to whole tenths.
    assert pair.width == pytest.approx(90 + 90 - 35.4 + 7.1)
    assert pair.length == max(part.board.length for part in pair.parts)
    # 4 to cut off on every edge of what is glued up.
    assert pair.rough_size == pytest.approx((pair.length + 8, pair.width + 8))
    single = the_pair(unit_of(layers=1))
    assert single.rough_size == pytest.approx((single.length, 90 + 90 - 17.7 + 7.1))


def test_one_blank_a_layer_serves_both_in_list_and_plan() -> None:
    unit = unit_of()
    (line,) = [line for line in cut_list(unit) if any("cleat" in name for name in line.parts)]
    assert sorted(line.parts) == ["cleat, unit half", "cleat, wall half"]
    assert (line.pieces, line.layers) == (2, 2)
    plan = cut_plan(unit, rounds=25)
    laid = [one for b in plan.boards for one in b.laid if len(one.blank.parts) == 2]
    assert [one.blank.layer for one in laid] == [1, 2]
    for one in laid:
        assert (one.blank.length, one.blank.width) == pytest.approx((line.length, line.width))
    assert any("come out of one strip" in remark for remark in plan.remarks)
    with_own = sum(
        b.rough_size[0] * b.rough_size[1] * 2 for b in (p.board for p in the_pair(unit).parts)
    )
    assert line.length * line.width * 2 < 0.85 * with_own


def test_a_strip_keeps_what_both_halves_need_of_their_board() -> None:
    unit = unit_of()
    pair = the_pair(unit)
    strip = next(b for b in blanks(unit) if len(b.parts) == 2 and b.layer == 1)
    told = {keep.what for keep in strip.keep_outs}
    assert {"hanging bevel", "wall screw holes", "glued to the other layer"} <= told
    # The strip is cut out of the middle of its blank, the upper half out of its far edge.
    rows = [k.box for k in strip.keep_outs if k.what == "wall screw holes"]
    line = next(f for f in pair.below.board.features if f.name == "wall screw holes")
    at = line.line.distance + (strip.width - pair.width) / 2  # type: ignore[union-attr]
    assert all(box.low[1] < at < box.high[1] for box in rows)
    above = (strip.width - pair.width) / 2 + pair.starts_above
    bevels = sorted(k.box.low[1] for k in strip.keep_outs if k.what == "hanging bevel")
    assert bevels[-1] == pytest.approx(above, abs=5.1)


@pytest.mark.parametrize(
    "change",
    ["angle", "stock", "layers", "longer", "told from the bevel", "plane"],
)
def test_halves_that_do_not_mate_have_blanks_of_their_own(change: str) -> None:
    unit = unit_of()
    pair = the_pair(unit)
    board = pair.above.board
    (bevel,) = (f for f in board.features if isinstance(f, Bevel))
    others = tuple(f for f in board.features if f is not bevel)
    made = {
        "angle": lambda: replace(board, features=(*others, replace(bevel, angle=40.0))),
        "stock": lambda: replace(board, stock=birch_plywood(nominal=18, measured=17.8)),
        "layers": lambda: replace(board, layers=3, features=(bevel,)),
        "longer": lambda: replace(board, length=board.length + 31.0),
        "told from the bevel": lambda: replace(
            board,
            features=(
                *board.features,
                Hole(
                    name="peg",
                    surface=Surface.A,
                    centre=(At(Surface.START, 100.0), At(bevel.edge, 60.0)),
                    diameter=6.0,
                    depth=9.0,
                ),
            ),
        ),
        "plane": lambda: replace(board, features=(*others, replace(bevel, land=2.0))),
    }[change]()
    parts = tuple(replace(p, board=made) if p.name == pair.above.name else p for p in unit.parts)
    other = replace(unit, parts=parts)
    assert ripped_pairs(other) == ()
    assert pair_of(other, pair.above.name) is None
    assert all(len(blank.parts) == 1 for blank in blanks(other))


def test_a_unit_without_a_cleat_has_no_strip() -> None:
    assert ripped_pairs(small_unit(813.0, 587.0, 287.0, 1)) == ()


def test_a_lone_bevel_gets_room_for_the_tilted_saw_in_list_and_plan_alike() -> None:
    bevel = Bevel(name="b", edge=Surface.HIGH, sharp=Surface.A)
    board = Board(stock=BIRCH, length=613, width=287, features=(bevel,))
    # 5 at the bevelled edge, for a kerf of up to 3.5 at 45 degrees.
    assert board.rough_size == (613, 292)
    assert board.margins[Surface.HIGH] == 5.0
    assert replace(board, layers=2).rough_size == (621, 295)
    (cut,) = operations([board], Workshop())[board]
    assert isinstance(cut, Operation)
    assert cut.work is Work.BEVEL


@pytest.mark.parametrize("name", ["greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack"])
def test_list_and_plan_tell_the_same_sizes(name: str) -> None:
    unit = example_unit(name)
    listed = sorted(
        (part, round(line.length, 3), round(line.width, 3))
        for line in cut_list(unit)
        for part in line.parts
        for _ in range(line.layers)
    )
    planned = sorted(
        (part, round(blank.length, 3), round(blank.width, 3))
        for blank in blanks(unit)
        for part in blank.parts
    )
    assert listed == planned
    assert sum(line.pieces for line in cut_list(unit)) == len(blanks(unit))
