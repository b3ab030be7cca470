"""Whole cut plans: properties over generated jobs, optima, bad input, and proofs that can fail."""

from __future__ import annotations

import json
import time
from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from cabinet.components.carcass import Rails, carcass
from cabinet.components.doors import DoorTracks, sliding_doors
from cabinet.design import Design, Unit
from cabinet.errors import DesignError, SizeError
from cabinet.frame import Side
from cabinet.making.blanks import blanks
from cabinet.making.cut_board import CutBoard, JobCuts, is_worth_keeping
from cabinet.making.cut_plan import cut_plan
from cabinet.making.cut_proof import areas, prove
from cabinet.making.cut_record import cut_plan_record
from cabinet.making.lie import Fate, Place, Way, verdicts
from cabinet.making.outline import area, l_shape, rectangle
from cabinet.making.rack import Leftover, Rack, SheetToBuy, flaw
from cabinet.making.sawing import Cut
from cabinet.stock import Grain, birch_plywood, rubber_sheet, steel_sheet
from cabinet.workshop import Saw
from tests.cabinet.making.exact import fewest_sheets
from tests.cabinet.making.flaw_points import faults
from tests.cabinet.making.published_recipes import instance
from tests.cabinet.making.racks import (
    BIRCH,
    luck_of,
    panel,
    plain_unit,
    random_leftovers,
    small_unit,
    unit_of,
)
from tests.cabinet.making.separable import come_apart
from tests.examples import example_unit

FEW = 25
KERF = Saw().kerf


def gridded(value: float) -> int:
    return round(value * 1000)


def check_plan(plan: JobCuts, unit: Unit) -> None:
    """All that must be so of any plan, judged without its own proof."""
    wanted = Counter(blank.name for blank in blanks(unit))
    assert Counter(laid.blank.name for b in plan.boards for laid in b.laid) == wanted
    for board in plan.boards:
        outline = Polygon([(gridded(x), gridded(y)) for x, y in board.board.outline])
        boxes = []
        for laid in board.laid:
            rect = laid.rect
            low = gridded(rect.x), gridded(rect.y)
            high = gridded(rect.x + rect.length), gridded(rect.y + rect.width)
            assert outline.buffer(1).covers(box(*low, *high)), laid.blank.name
            boxes.append((*low, *high))
            sizes = sorted((gridded(rect.length), gridded(rect.width)))
            assert sizes == sorted((gridded(laid.blank.length), gridded(laid.blank.width)))
            # A strip of two halves has tests of its own.
            if len(laid.blank.parts) == 1:
                part = unit.by_name[laid.blank.parts[0]]
                assert list(faults(board, laid, part.board)) == []
            if laid.blank.grain is not Grain.NONE:
                is_across = laid.blank.grain is Grain.WIDTH
                assert laid.place.way.is_turned is is_across
        assert come_apart(boxes, gridded(board.kerf)), board.name
        used = areas(board)
        assert used.blanks == sum(
            (Fraction(gridded(x.blank.length) * gridded(x.blank.width)) for x in board.laid),
            Fraction(0),
        )
        assert used.blanks + used.rests + used.dust + used.trim == area(board.board.outline)
        for piece in board.kept:
            assert is_worth_keeping(piece.outline)
        check_flaws_kept(board)


def check_flaws_kept(board: CutBoard) -> None:
    """What is kept has all of the old damage that lies on it."""
    flaws = [Polygon(flaw.outline) for flaw in board.board.flaws]
    outline = Polygon(board.board.outline)
    on_rests = 0.0
    for rest in board.rests:
        r = rest.rect
        wood = outline.intersection(box(r.x, r.y, r.x + r.length, r.y + r.width))
        for piece in getattr(wood, "geoms", [wood]):
            low_x, low_y, high_x, high_y = piece.bounds or (0.0, 0.0, 0.0, 0.0)
            sides = sorted((high_x - low_x, high_y - low_y))
            if sides[1] >= 300.0 and sides[0] >= 60.0:
                on_rests += sum(piece.intersection(flaw).area for flaw in flaws)
    kept = sum(Polygon(flaw.outline).area for piece in board.kept for flaw in piece.flaws)
    assert kept == pytest.approx(on_rests, abs=2.0)


@given(st.integers(0, 10**6), st.integers(0, 5))
@settings(max_examples=12, deadline=None)
def test_plans_of_random_boards_on_random_leftovers(seed: int, count: int) -> None:
    luck = luck_of(seed)
    sizes = [
        (luck.randint(600, 9000) / 10, luck.randint(500, 4000) / 10)
        for _ in range(luck.randint(1, 9))
    ]
    unit = plain_unit(sizes)
    plan = cut_plan(unit, Rack(leftovers=random_leftovers(luck, count)), rounds=FEW)
    check_plan(plan, unit)


@given(st.integers(0, 10**6))
@settings(max_examples=8, deadline=None)
def test_plans_of_random_units_on_random_leftovers(seed: int) -> None:
    luck = luck_of(seed)
    unit = small_unit(
        luck.randint(5000, 9000) / 10,
        luck.randint(4800, 8000) / 10,
        luck.randint(2300, 3400) / 10,
        luck.randint(0, 3),
    )
    plan = cut_plan(unit, Rack(leftovers=random_leftovers(luck, 4)), rounds=FEW)
    check_plan(plan, unit)


@pytest.mark.parametrize("name", ["greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack"])
def test_every_example_has_a_plan_without_a_rack(name: str) -> None:
    unit = example_unit(name)
    plan = cut_plan(unit, rounds=FEW)
    check_plan(plan, unit)
    assert all(stock.is_proven or stock.new_sheets == stock.at_least + 1 for stock in plan.stocks)
    assert {s.stock for s in plan.stocks} == {p.board.stock for p in unit.parts}


def test_sides_hide_old_grooves_behind_the_doors_of_the_greenhouse_unit() -> None:
    unit = example_unit("greenhouse_wall_unit")
    stock = unit.by_name["left side"].board.stock
    # Between the two pin rows and clear of the rails' slots and rebates.
    old = flaw("groove", "face B", at=(60, 120), length=520, width=12, depth=5)
    rack = Rack(
        leftovers=tuple(
            Leftover(name=name, stock=stock, outline=rectangle(640, 291), flaws=(old,))
            for name in ("old bench one", "old bench two")
        )
    )
    plan = cut_plan(unit, rack, rounds=FEW)
    mine = {b.name: b for b in plan.boards if b.bought is None}
    assert set(mine) == {"old bench one", "old bench two"}
    parts = sorted(laid.blank.parts[0] for board in mine.values() for laid in board.laid)
    assert parts == ["left side", "right side"]
    for board in mine.values():
        (laid,) = board.laid
        assert laid.place.way.is_flipped
        assert [v.fate for v in laid.verdicts] == [Fate.FILLED]
        assert laid.verdicts[0].why.endswith("fill it flush and sand it")
    check_plan(plan, unit)


def doored(*, has_doors: bool) -> Unit:
    """A carcass of 17.7 birch, 587 high and 331 deep, with doors or without."""
    tracks = DoorTracks(stock=birch_plywood(nominal=12, measured=11.9), bar=8)
    frame = carcass(
        width=913,
        height=587,
        depth=331,
        stock=BIRCH,
        top_layers=2,
        base_layers=2,
        setback=60,
        back=Rails(stock=BIRCH, top=100, bottom=80),
    )
    doors = (sliding_doors(frame, tracks),) if has_doors else ()
    return Design("pair", (frame.component, *doors)).resolve()


@pytest.mark.parametrize(
    ("kind", "at", "depth", "fate"),
    [
        ("groove", 120.0, 5.0, Fate.FILLED),
        ("stain", 120.0, None, Fate.FILLED),
        # A third of 17.7 is 5.9: what runs further than half of the side and goes deeper is weak.
        ("groove", 120.0, 6.1, Fate.PATCH),
        # 9 mm behind the front edge, before the rear door: seen past the closed doors.
        ("stain", 9.0, None, Fate.PATCH),
        ("stain", 24.0, None, Fate.FILLED),
    ],
)
def test_a_flaw_inside_is_filled_behind_doors_and_not_left_without(
    kind: str, at: float, depth: float | None, fate: Fate
) -> None:
    old = flaw(kind, "face B", at=(100, at), length=320, width=11, depth=depth)
    for has_doors in (True, False):
        unit = doored(has_doors=has_doors)
        side = next(b for b in blanks(unit) if b.parts == ("left side",))
        board = Leftover(name="old side", stock=BIRCH, outline=rectangle(700, 331), flaws=(old,))
        # The inside is face A; flipped about the long axis it lies down, its front edge, which
        # is the far one, where the near one was.
        (told,) = verdicts(side, Place(0.0, 0.0, Way(is_flipped=True)), board)
        assert told.fate is (fate if has_doors else Fate.PATCH)
        if depth == 6.1:
            assert told.why.startswith("6.1 mm deep, more than a third")
        elif not has_doors:
            assert told.why == "face A shows: it shows"


def test_a_plan_takes_an_old_side_for_a_closed_unit_and_leaves_it_for_an_open_one() -> None:
    old = flaw("groove", "face B", at=(100, 120), length=320, width=11, depth=5)
    rack = Rack(
        leftovers=(
            Leftover(name="old side", stock=BIRCH, outline=rectangle(590, 332), flaws=(old,)),
        )
    )
    closed, without = doored(has_doors=True), doored(has_doors=False)
    plan = cut_plan(closed, rack, rounds=FEW)
    check_plan(plan, closed)
    (board,) = [b for b in plan.boards if b.bought is None]
    (laid,) = board.laid
    assert laid.blank.parts[0] in ("left side", "right side")
    assert [verdict.fate for verdict in laid.verdicts] == [Fate.FILLED]
    other = cut_plan(without, rack, rounds=FEW)
    check_plan(other, without)
    assert not any(
        laid.blank.parts[0].endswith("side")
        for b in other.boards
        if b.bought is None
        for laid in b.laid
    )


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("recipe", [1, 3, 7, 9])
def test_as_few_sheets_as_an_exact_search_on_published_recipes(recipe: int, seed: int) -> None:
    told = instance(recipe, 5, seed)
    # In steps of 10 mm and with a kerf of 2, on bins without trimmed edges.
    sizes = [(10 * a, 10 * b) for a, b in told.sizes]
    side = 10 * told.side
    unit = plain_unit([(float(a), float(b)) for a, b in sizes])
    sheet = SheetToBuy(stock=BIRCH, length=side, width=side, trim=0.0)
    plan = cut_plan(unit, Rack(sheets=(sheet,)), saw_tool=Saw(kerf=2.0), rounds=300)
    assert plan.new_sheets == fewest_sheets(sizes, (side, side), kerf=2, turn=False)


def test_a_leftover_that_holds_everything_needs_no_sheet() -> None:
    unit = plain_unit([(613, 287), (487, 211), (251, 211)])
    rack = Rack(leftovers=(Leftover(name="L", stock=BIRCH, outline=l_shape(900, 505, (270, 211))),))
    plan = cut_plan(unit, rack, rounds=FEW)
    assert plan.new_sheets == 0
    assert plan.stocks[0].is_proven
    assert plan.price == 0
    check_plan(plan, unit)


def test_a_patch_is_planned_where_it_saves_a_sheet_and_nowhere_else() -> None:
    unit = unit_of(panel(shows=(Side.TOP, Side.BOTTOM)))
    hole = flaw("hole", "face A", at=(100, 50), length=30, width=20, depth=4)
    marred = Leftover(name="old lid", stock=BIRCH, outline=rectangle(700, 287), flaws=(hole,))
    other = replace(hole, outline=rectangle(30, 20, (400, 50)))
    marred = replace(marred, flaws=(hole, other))
    plan = cut_plan(unit, Rack(leftovers=(marred,)), rounds=FEW)
    assert plan.new_sheets == 0
    assert len(plan.patches) == 2
    first = plan.patches[0]
    # Two millimetres beyond the flaw on each side, one deeper; the plug one millimetre proud.
    assert (first.recess.length, first.recess.width, first.depth) == (34.0, 24.0, 5.0)
    assert (first.recess.x, first.recess.y) == (98.0, 48.0)
    assert first.plug == (34.0, 24.0, 6.0)
    assert first.source == "an offcut of old lid"
    assert cut_plan(unit, Rack(leftovers=(marred,)), rounds=FEW, with_patches=False).new_sheets == 1
    clean = Leftover(name="clean", stock=BIRCH, outline=rectangle(700, 300))
    assert cut_plan(unit, Rack(leftovers=(marred, clean)), rounds=FEW).patches == ()


def test_four_patches_are_more_work_than_a_sheet() -> None:
    unit = unit_of(
        *(panel(f"panel {k}", shows=(Side.TOP, Side.BOTTOM), low=40.0 * k) for k in range(4))
    )
    hole = flaw("hole", "face A", at=(300, 140), length=30, width=20, depth=4)
    rack = Rack(
        leftovers=tuple(
            Leftover(name=f"lid {k}", stock=BIRCH, outline=rectangle(620, 290), flaws=(hole,))
            for k in range(4)
        )
    )
    plan = cut_plan(unit, rack, rounds=FEW)
    assert plan.new_sheets == 1
    assert plan.patches == ()


def test_blanks_of_one_width_come_from_one_setting() -> None:
    unit = plain_unit([(571.3, 64.7)] * 6 + [(391.9, 64.7)] * 3)
    (board,) = cut_plan(unit, rounds=FEW).boards
    rips = [cut for cut in board.cuts if cut.fence == 64.7]
    assert rips
    numbers = [cut.number for cut in rips]
    assert numbers == list(range(numbers[0], numbers[0] + len(numbers)))


def test_metal_and_rubber_have_their_own_cuts() -> None:
    metal = unit_of(panel(stock=steel_sheet(1.5), grain=Grain.NONE))
    soft = unit_of(panel(stock=rubber_sheet(3), grain=Grain.NONE, oversize=8.0))
    (one,), (other,) = (cut_plan(unit, rounds=FEW).boards for unit in (metal, soft))
    assert (one.kerf, one.trim) == (1.0, 0.0)
    assert (other.kerf, other.trim) == (0.0, 0.0)
    assert other.laid[0].blank.length == 629.0


def test_what_is_left_can_be_cut_again() -> None:
    rack = Rack()
    for round_number in range(3):
        unit = plain_unit([(613, 287), (487, 211)])
        plan = cut_plan(unit, rack, rounds=FEW)
        assert plan.new_sheets == (1 if round_number == 0 else 0)
        rack = Rack(
            leftovers=tuple(
                replace(piece, name=f"{round_number}: {piece.name}") for piece in plan.rack_after
            )
        )


@pytest.mark.parametrize("name", ["greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack"])
def test_what_is_kept_has_one_name_at_the_saw_and_on_the_rack(name: str) -> None:
    """The list says of a cut that it leaves ``rest 2``, and ``rest 2`` goes back on the rack."""
    for board in cut_plan(example_unit(name), rounds=FEW).boards:
        at_the_saw = {each for cut in board.cuts for each in (cut.gives, cut.leaves)}
        kept = {piece.name.split(" of ")[0].split(",")[0] for piece in board.kept}
        assert kept == {each for each in at_the_saw if each.startswith("rest ")}


def test_flaws_stay_on_what_goes_back_to_the_rack() -> None:
    unit = plain_unit([(613, 287)])
    old = flaw("groove", "face A", at=(700, 0), length=11, width=500, depth=6)
    board = Leftover(name="old door", stock=BIRCH, outline=rectangle(1100, 500), flaws=(old,))
    plan = cut_plan(unit, Rack(leftovers=(board,)), rounds=FEW)
    flawed = [piece for piece in plan.rack_after if piece.flaws]
    assert sum(float(area(f.outline)) for piece in flawed for f in piece.flaws) == pytest.approx(
        11 * 500 * 1e6, rel=0.01
    )


def test_a_board_of_another_thickness_stays_and_is_told() -> None:
    unit = plain_unit([(613, 287)])
    thick = Leftover(name="thick one", stock=BIRCH, outline=rectangle(700, 300), measured=18.1)
    plan = cut_plan(unit, Rack(leftovers=(thick,)), rounds=FEW)
    assert plan.new_sheets == 1
    assert plan.stays == (thick,)
    assert any("18.1" in remark and "17.7" in remark for remark in plan.remarks)


@pytest.mark.parametrize(
    ("measured", "says"),
    [(None, ""), (17.74, ""), (17.9, "0.2 mm less play"), (17.55, "0.15 mm more play")],
)
def test_a_leftover_of_nearly_the_thickness_serves_and_is_told(
    measured: float | None, says: str
) -> None:
    """Its parts go into grooves that are drawn for another board; one that stays is not told."""
    unit = plain_unit([(613.0, 287.0)])
    there = Leftover(name="bench top", stock=BIRCH, outline=rectangle(700, 300), measured=measured)
    short = Leftover(name="short one", stock=BIRCH, outline=rectangle(200, 90), measured=17.9)
    plan = cut_plan(unit, Rack(leftovers=(there, short)), rounds=FEW)
    assert plan.new_sheets == 0
    told = [remark for remark in plan.remarks if "play" in remark]
    assert len(told) == (1 if says else 0)
    assert all(says in remark and remark.startswith("bench top") for remark in told)


def test_a_part_larger_than_any_board_is_one_clear_error() -> None:
    unit = plain_unit([(2600, 287), (613, 287)])
    with pytest.raises(DesignError, match="board 1: 2600 x 287") as caught:
        cut_plan(unit, rounds=FEW)
    assert "2480" in str(caught.value)
    assert "\n" not in str(caught.value)


def test_grain_keeps_a_part_from_being_turned_to_fit() -> None:
    with pytest.raises(DesignError, match="not turned"):
        cut_plan(plain_unit([(287, 1300)]), rounds=FEW)


def test_a_negative_kerf_is_refused() -> None:
    with pytest.raises(SizeError, match="kerf"):
        cut_plan(plain_unit([(613, 287)]), saw_tool=Saw(kerf=-2.0), rounds=FEW)


def test_too_few_sheets_are_one_clear_error() -> None:
    sheets = (SheetToBuy(stock=BIRCH, length=700, width=300, count=1),)
    with pytest.raises(DesignError, match="more sheets are needed"):
        cut_plan(plain_unit([(613, 280), (613, 280)]), Rack(sheets=sheets), rounds=FEW)


def test_the_same_input_gives_the_same_plan_and_the_clock_has_no_say() -> None:
    unit = example_unit("greenhouse_wall_unit")
    rack = Rack(leftovers=random_leftovers(luck_of(5), 4, unit.parts[0].board.stock))
    one = cut_plan_record(cut_plan(unit, rack, rounds=FEW))
    assert one == cut_plan_record(
        cut_plan(unit, rack, rounds=FEW, progress=lambda _: time.sleep(0))
    )


def test_the_record_is_plain_data_and_complete() -> None:
    unit = unit_of(panel(shows=(Side.TOP, Side.BOTTOM)))
    hole = flaw("hole", "face A", at=(100, 50), length=30, width=20, depth=4)
    board = Leftover(name="old lid", stock=BIRCH, outline=rectangle(620, 290), flaws=(hole,))
    record = cut_plan_record(cut_plan(unit, Rack(leftovers=(board,)), rounds=FEW))
    assert json.loads(json.dumps(record)) == record
    (stock,) = record["stocks"]
    (told,) = stock["boards"]
    assert told["is_leftover"] is True
    assert told["blanks"][0]["flaws"][0]["fate"] == "patch"
    assert [cut["number"] for cut in told["cuts"]] == list(range(1, len(told["cuts"]) + 1))
    assert stock["patches"][0]["plug"] == [34.0, 24.0, 6.0]


def test_the_first_plan_is_told_and_the_search_can_be_stopped() -> None:
    unit = example_unit("greenhouse_wall_unit")
    told: list[JobCuts] = []
    stopped = cut_plan(unit, rounds=10**6, progress=told.append, stop=lambda: bool(told))
    assert len(told) == 2
    check_plan(told[0], unit)
    check_plan(stopped, unit)


def spoiled(plan: JobCuts, board: CutBoard) -> JobCuts:
    stock = plan.stocks[0]
    return replace(plan, stocks=(replace(stock, boards=(board, *stock.boards[1:])),))


@pytest.fixture
def good() -> tuple[JobCuts, CutBoard, Unit]:
    unit = unit_of(
        *(panel(f"panel {k}", low=40.0 * k, shows=(Side.TOP, Side.BOTTOM)) for k in range(3))
    )
    old = flaw("stain", "face A", at=(0, 600), length=50, width=50)
    board = Leftover(name="old lid", stock=BIRCH, outline=rectangle(1300, 700), flaws=(old,))
    plan = cut_plan(unit, Rack(leftovers=(board,)), rounds=FEW)
    assert plan.new_sheets == 0
    return plan, plan.boards[0], unit


def refused(plan: JobCuts, unit: Unit) -> str:
    with pytest.raises(DesignError) as caught:
        prove(plan, blanks(unit))
    return str(caught.value)


def test_the_proof_finds_a_missing_blank(good: tuple[JobCuts, CutBoard, Unit]) -> None:
    plan, board, unit = good
    assert "not just once" in refused(spoiled(plan, replace(board, laid=board.laid[1:])), unit)


def test_the_proof_finds_a_blank_that_lies_elsewhere(
    good: tuple[JobCuts, CutBoard, Unit],
) -> None:
    plan, board, unit = good
    first = board.laid[0]
    moved = replace(first, place=Place(first.place.x + 0.1, first.place.y, first.place.way))
    told = refused(spoiled(plan, replace(board, laid=(moved, *board.laid[1:]))), unit)
    assert "does not lie where" in told


def test_the_proof_finds_a_flaw_below_a_blank(good: tuple[JobCuts, CutBoard, Unit]) -> None:
    plan, board, unit = good
    first = board.laid[0].rect
    under = flaw("stain", "face A", at=(first.x + 99, first.y + 99), length=9, width=9)
    worse = replace(board.board, flaws=(*board.board.flaws, replace(under)))
    told = refused(spoiled(plan, replace(board, board=worse)), unit)
    assert "lies on a stain on face A of old lid that the plan does not provide for" in told


@pytest.mark.parametrize("spoil", ["swapped", "missing", "fence", "name"])
def test_the_proof_finds_a_wrong_list_of_cuts(
    good: tuple[JobCuts, CutBoard, Unit], spoil: str
) -> None:
    plan, board, unit = good
    cuts: list[Cut] = list(board.cuts)
    assert len(cuts) >= 3
    if spoil == "swapped":
        cuts[0], cuts[-1] = cuts[-1], cuts[0]
    elif spoil == "missing":
        del cuts[0]
    elif spoil == "fence":
        cuts[0] = replace(cuts[0], fence=cuts[0].fence + 0.5)
    else:
        cuts[-1] = replace(cuts[-1], takes="another board")
    refused(spoiled(plan, replace(board, cuts=tuple(cuts))), unit)


def test_the_proof_finds_a_rest_under_another_name(good: tuple[JobCuts, CutBoard, Unit]) -> None:
    plan, board, unit = good
    first = next(rest for rest in board.rests if rest.kept)
    rests = tuple(replace(rest, name="panel 99") if rest is first else rest for rest in board.rests)
    told = refused(spoiled(plan, replace(board, rests=rests)), unit)
    assert "panel 99: the list of cuts of old lid does not free it" in told
