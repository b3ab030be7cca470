"""Cuts in perforated sheet, held against every phase of the pattern and every hole near a cut."""

from __future__ import annotations

import math
import random

import pytest

from cabinet.board import Surface
from cabinet.features import Pattern, Perforation
from cabinet.making.blanks import blanks
from cabinet.making.cut_board import JobCuts
from cabinet.making.cut_plan import cut_plan
from cabinet.making.perforated import lie_of, margins, sentence
from cabinet.making.rack import METAL_KERF, Rack, SheetToBuy
from cabinet.part import Board
from cabinet.stock import Grain, poplar_plywood, steel_sheet
from cabinet.workshop import Saw
from tests.cabinet.making.racks import luck_of, panel, plain_unit, unit_of
from tests.examples import example_unit

STEEL = steel_sheet(1.5)


def board(
    length: float, width: float, diameter: float, pitch: float, pattern: Pattern = Pattern.STAGGERED
) -> Board:
    """A panel with holes."""
    holes = Perforation(name="perforation", diameter=diameter, pitch=pitch, pattern=pattern)
    return Board(stock=STEEL, length=length, width=width, grain=Grain.NONE, features=(holes,))


def random_board(luck: random.Random) -> Board:
    diameter = luck.randint(20, 120) / 10
    return board(
        luck.randint(600, 4000) / 10,
        luck.randint(600, 2500) / 10,
        diameter,
        diameter * luck.uniform(1.1, 3.0),
        luck.choice(list(Pattern)),
    )


def rims(one: Board, x: float, y: float) -> dict[Surface, float]:
    """From each cut to the rim of the nearest hole near that cut, negative within one.

    The holes stand in an endless lattice with one hole's middle at x, y, told from the panel's
    low corner: rows along the length, every other one moved by half a pitch if they are staggered.
    Each is asked by itself; nothing is known of lines.
    """
    (holes,) = (f for f in one.features if isinstance(f, Perforation))
    pitch, radius = holes.pitch, holes.diameter / 2
    is_staggered = holes.pattern is Pattern.STAGGERED
    step = pitch * math.sin(math.radians(60)) if is_staggered else pitch
    found = dict.fromkeys((Surface.START, Surface.END, Surface.LOW, Surface.HIGH), math.inf)
    for surface in found:
        at = 0.0 if surface.sign < 0 else (one.length, one.width)[surface.axis]
        for row in range(4) if surface.axis == 0 else _near(at - y, step):
            shift = pitch / 2 if is_staggered and row % 2 else 0.0
            for hole in _near(at - x - shift, pitch) if surface.axis == 0 else range(4):
                middle = (x + shift + hole * pitch, y + row * step)[surface.axis]
                found[surface] = min(found[surface], abs(middle - at) - radius)
    return found


def _near(at: float, step: float) -> range:
    return range(math.floor(at / step) - 1, math.floor(at / step) + 3)


@pytest.mark.parametrize("seed", range(40))
def test_no_phase_of_the_pattern_keeps_both_cuts_further_from_holes(seed: int) -> None:
    one = random_board(luck_of(seed))
    lie = lie_of(one)
    assert lie is not None
    mine = rims(one, lie.along.first, lie.across.first)
    (holes,) = (f for f in one.features if isinstance(f, Perforation))
    for axis, low, high in ((0, Surface.START, Surface.END), (1, Surface.LOW, Surface.HIGH)):
        told = lie.at(low).rim
        assert mine[low] == pytest.approx(told, abs=1e-9)
        assert mine[high] == pytest.approx(told, abs=1e-9)
        steps = 400
        for k in range(steps):
            phase = 2 * holes.pitch * k / steps
            moved = rims(one, *((phase, 0.0) if axis == 0 else (0.0, phase)))
            assert min(moved[low], moved[high]) <= told + 1e-9


def test_which_cuts_meet_holes_by_hand() -> None:
    # Square, pitch 10, holes of 4. Length 100: half of it, 50, is 5 lines, so the middle of the
    # panel lies on a line or between two, and the cuts 50 from it on one, or 5 from the next:
    # 5 - 2 = 3 clear. Width 53: 26.5 is 3.5 from a line, or 1.5 with a gap in the middle.
    lie = lie_of(board(100, 53, 4, 10, Pattern.SQUARE))
    assert lie is not None
    assert (lie.along.first, lie.along.rim) == pytest.approx((5.0, 3.0))
    assert (lie.across.first, lie.across.rim) == pytest.approx((6.5, 1.5))
    assert lie.along.is_clear
    # Staggered, pitch 8, holes of 5: along a row's length lines stand 4 apart, holes are 5 wide.
    tight = board(455, 82, 5, 8)
    lie = lie_of(tight)
    assert lie is not None
    assert lie.along.rim < 0 < lie.across.rim
    told = sentence(tight)
    assert "Both ends carry cut holes: lines stand 4 apart" in told
    assert "The cuts at both edges run" in told
    assert "R5T8" in told
    assert sentence(Board(stock=STEEL, length=455, width=82, grain=Grain.NONE)) == ""


def clear(plan: JobCuts, boards: dict[str, Board]) -> int:
    """Hold every panel of a plan to one endless lattice over its sheet; how many there were."""
    count = 0
    for cut in plan.boards:
        first = min(cut.laid, key=lambda laid: (laid.blank.item, laid.rect.x, laid.rect.y))
        lead = lie_of(boards[first.blank.parts[0]])
        if lead is None:
            continue
        # Told on the sheet: its edges, trimmed, lie before the first lines as the first panel's.
        x = cut.trim + lead.along.first
        y = cut.trim + lead.across.first
        for laid in cut.laid:
            one = boards[laid.blank.parts[0]]
            lie = lie_of(one)
            assert lie is not None
            assert not laid.place.way.is_turned
            # The panel is cut out of its blank where its pattern begins right.
            more = margins(one, lead, METAL_KERF)
            corner = laid.rect.x + more[Surface.START], laid.rect.y + more[Surface.LOW]
            mine = rims(one, x - corner[0], y - corner[1])
            for surface, rim in mine.items():
                # Sizes are on a grid of 0.001, which adds up from panel to panel.
                assert rim == pytest.approx(lie.at(surface).rim, abs=0.02), (
                    laid.blank.name,
                    surface,
                )
            assert laid.blank.finished == (one.length, one.width)
            count += 1
    return count


@pytest.mark.parametrize(
    ("name", "panels"), [("greenhouse_wall_unit", 2), ("pottery_drying_rack", 4)]
)
def test_every_panel_of_a_sheet_lies_right_in_one_pattern(name: str, panels: int) -> None:
    unit = example_unit(name)
    plan = cut_plan(unit, rounds=25)
    assert clear(plan, {part.name: part.board for part in unit.parts}) == panels


@pytest.mark.parametrize("pattern", Pattern)
def test_panels_of_several_sizes_share_a_sheet(pattern: Pattern) -> None:
    holes = Perforation(name="holes", diameter=5, pitch=8, pattern=pattern)
    sizes = [(455.3, 82.1), (613.7, 197.4), (287.9, 143.2), (455.3, 82.1), (391.1, 211.6)]
    unit = unit_of(
        *(
            panel(
                f"panel {k}",
                length=a,
                width=b,
                stock=STEEL,
                grain=Grain.NONE,
                features=(holes,),
                low=9.0 * k,
            )
            for k, (a, b) in enumerate(sizes)
        )
    )
    plan = cut_plan(unit, rounds=25)
    assert plan.new_sheets == 1
    assert clear(plan, {part.name: part.board for part in unit.parts}) == len(sizes)
    # The sheet's edges are brought between the holes first, a plain one's are not.
    assert plan.boards[0].trim == math.ceil((8 if pattern is Pattern.SQUARE else 6.93) + METAL_KERF)
    told = SheetToBuy(stock=STEEL, trim=3.0)
    assert cut_plan(unit, Rack(sheets=(told,)), rounds=25).boards[0].trim == 3.0
    plain = cut_plan(plain_unit(sizes, STEEL), rounds=25)
    assert plain.boards[0].trim == 0.0
    assert all(blank.pattern == "" for blank in blanks(plain_unit(sizes, STEEL)))
    assert any("perforated all over" in remark for remark in plan.remarks)


def test_panels_of_perforated_board_find_their_place_wherever_their_blanks_begin() -> None:
    """The saw's kerf moves the next blank by no whole line, so each has a line to spare."""
    holes = Perforation(name="holes", diameter=8, pitch=17, pattern=Pattern.SQUARE)
    stock = poplar_plywood(4, 3.9)
    sizes = [(455.3, 82.1), (613.7, 197.4), (455.3, 82.1)]
    unit = unit_of(
        *(
            panel(
                f"panel {k}",
                length=a,
                width=b,
                stock=stock,
                grain=Grain.LENGTH,
                features=(holes,),
                low=9.0 * k,
            )
            for k, (a, b) in enumerate(sizes)
        )
    )
    plan = cut_plan(unit, rounds=25, saw_tool=Saw(kerf=2.7))
    laid = [(cut, one) for cut in plan.boards for one in cut.laid]
    assert len(laid) == len(sizes)
    for cut, one in laid:
        board_ = unit.by_name[one.blank.parts[0]].board
        lie = lie_of(board_)
        assert lie is not None
        for axis, extent, lines in ((0, board_.length, lie.along), (1, board_.width, lie.across)):
            low = (one.rect.x, one.rect.y)[axis]
            high = (one.rect.right, one.rect.top)[axis]
            # The sheet's edges are trimmed as told; from there every line has its place.
            first = cut.trim + (lie.along.first, lie.across.first)[axis]
            places = [first + k * lines.spacing - lines.first for k in range(400)]
            assert any(low - 1e-6 <= at and at + extent <= high + 1e-6 for at in places)
    assert any("set every panel out" in remark for remark in plan.remarks)
    assert not any("begins alike" in remark for remark in plan.remarks)
