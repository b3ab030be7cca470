"""The search for cut plans, held against other solvers, exact optima and what must always hold."""

from __future__ import annotations

import dataclasses
import subprocess
import sys
from itertools import combinations, product
from random import Random
from typing import Any

import pytest
import rectpack
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.errors import CabinetError, DesignError, SizeError
from cabinet.making.guillotine import GRID, Axis, Piece, Sheet, saw, to_grid
from cabinet.making.packing.bounds import sheets_needed
from cabinet.making.packing.goal import Goal
from cabinet.making.packing.one_sheet import fullest_sheet
from cabinet.making.packing.solve import CutAnswer, plan_cuts
from cabinet.making.packing.subsets import fit_together
from tests.cabinet.making.exact import fewest_sheets
from tests.cabinet.making.published_recipes import instance
from tests.cabinet.making.separable import Box, come_apart


def pieces_of(sizes: list[tuple[int, int]], *, turn: bool) -> list[Piece]:
    """Pieces named by their number."""
    return [
        Piece(name=f"piece {k}", length=a, width=b, may_turn=turn) for k, (a, b) in enumerate(sizes)
    ]


def full(length: float, width: float, **more: float) -> Sheet:
    """A kind of new sheet without number."""
    return Sheet(name="full", length=length, width=width, trim=more.get("trim", 0.0))


def boxes_by_sheet(answer: CutAnswer, pieces: list[Piece]) -> list[list[Box]]:
    """Places of the pieces on each sheet, on the grid."""
    sheets: list[list[Box]] = [[] for _ in answer.plan.sheets]
    for spot in saw(answer.plan, pieces).pieces:
        x, y = to_grid(spot.x), to_grid(spot.y)
        sheets[spot.sheet].append((x, y, x + to_grid(spot.length), y + to_grid(spot.width)))
    return sheets


jobs = st.builds(
    lambda sizes, turns, kerf, trim: (
        [
            Piece(name=f"piece {k}", length=a / 10, width=b / 10, may_turn=turn)
            for k, ((a, b), turn) in enumerate(zip(sizes, turns, strict=False))
        ],
        kerf / 10,
        trim / 10,
    ),
    st.lists(st.tuples(st.integers(300, 6000), st.integers(200, 3000)), min_size=1, max_size=12),
    st.lists(st.booleans(), min_size=12, max_size=12),
    st.integers(0, 45),
    st.integers(0, 150),
)


@settings(max_examples=40)
@given(job=jobs)
def test_every_piece_comes_off_the_saw_once(job: tuple[list[Piece], float, float]) -> None:
    """Inside the trimmed edges, a kerf apart, by through cuts, and the areas add up."""
    pieces, kerf, trim = job
    sheet = full(913.7, 641.3, trim=trim)
    answer = plan_cuts(pieces, [sheet], kerf=kerf, rounds=30)
    sawn = saw(answer.plan, pieces)
    assert sorted(spot.piece for spot in sawn.pieces) == sorted(piece.name for piece in pieces)
    total = sawn.piece_area + sawn.rest_area + sawn.dust_area + sawn.trim_area
    assert total == len(answer.plan.sheets) * to_grid(913.7) * to_grid(641.3)
    assert sawn.piece_area == sum(to_grid(p.length) * to_grid(p.width) for p in pieces)
    edge, gap = to_grid(trim), to_grid(kerf)
    for boxes in boxes_by_sheet(answer, pieces):
        assert come_apart(boxes, gap)
        for x, y, far_x, far_y in boxes:
            assert edge <= x < far_x <= to_grid(913.7) - edge
            assert edge <= y < far_y <= to_grid(641.3) - edge
        for a, b in combinations(boxes, 2):
            assert max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3]) >= gap
    assert answer.at_least <= answer.new_sheets == len(answer.plan.sheets)


def test_pieces_that_lock_do_not_come_apart() -> None:
    """The judge above can say no: five pieces round a core, and two too close for the kerf."""
    wheel = [(0, 0, 7, 3), (7, 0, 10, 7), (3, 7, 10, 10), (0, 3, 3, 10), (3, 3, 7, 7)]
    assert not come_apart(wheel, 0)
    assert come_apart([(0, 0, 7, 3), (8, 0, 10, 7)], 1)
    assert not come_apart([(0, 0, 7, 3), (8, 0, 10, 7)], 2)


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("seed", range(12))
def test_fewest_sheets_of_small_jobs(seed: int, *, turn: bool) -> None:
    """As few as by trying everything, and proven, with and without a kerf."""
    luck = Random(seed)  # noqa: S311 - no secret
    kerf = seed % 3
    sizes = [(luck.randint(3, 17), luck.randint(2, 11)) for _ in range(5)]
    least = fewest_sheets(sizes, (19, 13), kerf=kerf, turn=turn)
    answer = plan_cuts(pieces_of(sizes, turn=turn), [full(19, 13)], kerf=kerf, rounds=200)
    assert answer.new_sheets == least
    assert answer.is_proven
    assert answer.gap == 0


def test_exact_reference_knows_two_sheets_by_hand() -> None:
    """The reference itself: five locked pieces fill 10 x 10 exactly, but not by through cuts."""
    wheel = [(7, 3), (3, 7), (7, 3), (3, 7), (4, 4)]
    assert fewest_sheets(wheel, (10, 10), kerf=0, turn=False) == 2
    assert fewest_sheets(wheel[:2], (10, 10), kerf=0, turn=False) == 1
    answer = plan_cuts(pieces_of(wheel, turn=True), [full(10, 10)], kerf=0)
    assert (answer.new_sheets, answer.at_least) == (2, 2)


def rectpack_best(sizes: tuple[tuple[int, int], ...], side: int, *, turn: bool) -> int:
    """Fewest bins of rectpack's guillotine settings with the usual piece orders."""
    counts = []
    algorithms = (
        rectpack.GuillotineBssfSas,
        rectpack.GuillotineBssfMaxas,
        rectpack.GuillotineBafSas,
        rectpack.GuillotineBlsfLas,
        rectpack.GuillotineBssfSlas,
    )
    for algorithm, order in product(
        algorithms, (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE)
    ):
        packer = rectpack.newPacker(
            mode=rectpack.PackingMode.Offline,
            bin_algo=rectpack.PackingBin.Global,
            pack_algo=algorithm,
            sort_algo=order,
            rotation=turn,
        )
        for k, (a, b) in enumerate(sizes):
            packer.add_rect(a, b, rid=k)
        packer.add_bin(side, side, count=float("inf"))
        packer.pack()
        if sum(len(sheet) for sheet in packer) == len(sizes):
            counts.append(len(packer))
    return min(counts)


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("recipe", range(1, 11))
def test_no_more_sheets_than_a_general_library(recipe: int, *, turn: bool) -> None:
    """Rectpack 0.2.2, best of fifteen guillotine settings, on the published recipes."""
    made = instance(recipe, 23, seed=5)
    reference = rectpack_best(made.sizes, made.side, turn=turn)
    answer = plan_cuts(
        pieces_of(list(made.sizes), turn=turn),
        [full(made.side, made.side)],
        kerf=0,
        rounds=40,
        largest_rest=False,
    )
    assert answer.at_least <= answer.new_sheets <= reference


@pytest.mark.parametrize("recipe", [1, 3, 5, 7, 9])
def test_bound_is_not_above_the_optimum(recipe: int) -> None:
    """Held to the exact count of six pieces; and never below the plain area."""
    made = instance(recipe, 6, seed=11)
    least = fewest_sheets(made.sizes, (made.side, made.side), kerf=0, turn=False)
    sizes = list(made.sizes)
    bound = sheets_needed(sizes, [False] * 6, (made.side, made.side))
    area = sum(a * b for a, b in sizes)
    assert -(-area // made.side**2) <= bound <= least
    turned = sheets_needed(sizes, [True] * 6, (made.side, made.side))
    assert turned <= fewest_sheets(made.sizes, (made.side, made.side), kerf=0, turn=True)


def test_bound_sees_what_area_does_not() -> None:
    """Five pieces of 6 x 6 have 1.8 times a 10 x 10 sheet's area, and need five sheets."""
    assert sheets_needed([(6, 6)] * 5, [True] * 5, (10, 10)) == 5
    assert sheets_needed([(6, 4)] * 5, [False] * 5, (10, 10)) == 3


def test_sharing_out_is_exact() -> None:
    """True where a plan exists, False where none does, None where it is too much work."""
    wheel = [(7, 3), (3, 7), (7, 3), (3, 7), (4, 4)]
    assert fit_together(wheel, [False] * 5, (10, 10), 1, lambda: False) is False
    assert fit_together(wheel, [False] * 5, (10, 10), 2, lambda: False) is True
    assert fit_together(wheel, [False] * 5, (10, 10), 1, lambda: True) is None
    assert fit_together([(1, 1)] * 20, [False] * 20, (9, 9), 1, lambda: False) is None


def test_fullest_sheet_by_hand() -> None:
    """7 x 4 and 3 x 5 on 10 x 10: two of the first on one another leave 7 x 2 and 3 x 10."""
    fullest = fullest_sheet(
        ["a", "b"], [(7000, 4000), (3000, 5000)], [False, False], (10_000, 10_000), 0
    )
    # Three columns of 3 hold two of 3 x 5 each: 90; 2 of 7 x 4 and 2 of 3 x 5: 86.
    assert fullest.area == 90 * GRID**2
    assert fullest.root.axis is Axis.LENGTH


@pytest.mark.parametrize("kerf", [0, 1])
def test_fullest_sheet_against_trying_everything(kerf: int) -> None:
    """By a recursion over every whole-number cut, with a kerf and turning."""
    kinds = [(5, 3), (4, 7), (6, 2)]

    best: dict[tuple[int, int], int] = {}
    for a, b in product(range(18), range(15)):
        values = [p * q for p, q in kinds + [k[::-1] for k in kinds] if p <= a and q <= b]
        values += [best[c, b] + best[max(a - c - kerf, 0), b] for c in range(1, a)]
        values += [best[a, c] + best[a, max(b - c - kerf, 0)] for c in range(1, b)]
        best[a, b] = max(values, default=0)
    fullest = fullest_sheet(
        ["a", "b", "c"],
        [((p + kerf) * GRID, (q + kerf) * GRID) for p, q in kinds],
        [True] * 3,
        ((17 + kerf) * GRID, (14 + kerf) * GRID),
        kerf * GRID,
    )
    assert fullest.area == best[17, 14] * GRID**2


def small_job() -> list[Piece]:
    """Twenty parts of a standing unit for a workshop's clamps."""
    luck = Random(29)  # noqa: S311 - no secret
    return [
        Piece(
            name=f"part {k}",
            length=luck.randint(1500, 8700) / 10,
            width=luck.randint(900, 5300) / 10,
            may_turn=k % 3 == 0,
        )
        for k in range(20)
    ]


SHEETS = [
    full(2440, 1220, trim=8.5),
    Sheet(name="short rest", length=873, width=417, is_leftover=True, count=1),
]


def test_leftovers_first_and_largest_rest_last() -> None:
    """The leftover is cut from, and looking for a rest gives a larger one on no more sheets."""
    plain = plan_cuts(small_job(), SHEETS, kerf=3.2, rounds=40, largest_rest=False)
    kept = plan_cuts(small_job(), SHEETS, kerf=3.2, rounds=40)
    assert plain.plan.sheets[0].sheet.is_leftover
    assert kept.new_sheets == plain.new_sheets
    assert kept.rest[0] * kept.rest[1] > plain.rest[0] * plain.rest[1]
    rests = saw(kept.plan, small_job()).rests
    assert kept.rest[0] * kept.rest[1] == max(r.length * r.width for r in rests)


def test_job_that_a_leftover_holds_takes_no_new_sheet() -> None:
    """Two pieces with one kerf between them are just as long as the leftover."""
    pieces = [
        Piece(name="left", length=435.4, width=401),
        Piece(name="right", length=434.4, width=417),
    ]
    answer = plan_cuts(pieces, SHEETS, kerf=3.2)
    assert (answer.new_sheets, answer.at_least, answer.is_proven) == (0, 0, True)
    longer = [dataclasses.replace(pieces[0], length=435.401), pieces[1]]
    assert plan_cuts(longer, SHEETS, kerf=3.2).new_sheets == 1


def test_smaller_kind_of_sheet_is_taken_where_it_does() -> None:
    """One sheet either way, so the smaller one."""
    kinds = [
        Sheet(name="large", length=2500, width=1250),
        Sheet(name="small", length=1250, width=833),
    ]
    answer = plan_cuts([Piece(name="top", length=1213, width=617)], kinds, kerf=3.2)
    assert [cuts.sheet.name for cuts in answer.plan.sheets] == ["small"]


def test_sheets_run_out() -> None:
    """Two sheets hold two pieces; the third is named, with what there is."""
    rack = [dataclasses.replace(full(700, 500), count=2)]
    pieces = pieces_of([(613, 287)] * 2, turn=False)
    assert plan_cuts(pieces, rack, kerf=3.2, rounds=5).new_sheets == 2
    with pytest.raises(DesignError, match="more sheets are needed") as caught:
        plan_cuts(pieces_of([(613, 287)] * 3, turn=False), rack, kerf=3.2, rounds=5)
    assert caught.value.part in {"piece 0", "piece 1", "piece 2"}


@settings(max_examples=15)
@given(seed=st.integers(0, 10**6), more=st.integers(1, 9))
def test_larger_sheet_needs_no_more(seed: int, more: int) -> None:
    """Whatever is proven for the larger sheet is no more than what the smaller one takes."""
    luck = Random(seed)  # noqa: S311 - no secret
    sizes = [(luck.randint(3, 17), luck.randint(2, 11)) for _ in range(7)]
    pieces = pieces_of(sizes, turn=True)
    small = plan_cuts(pieces, [full(19, 13)], kerf=1, rounds=60, largest_rest=False)
    large = plan_cuts(pieces, [full(19 + more, 13)], kerf=1, rounds=60, largest_rest=False)
    if large.is_proven:
        assert large.new_sheets <= small.new_sheets
    assert large.at_least <= small.new_sheets


PRINT = """
from tests.cabinet.making.test_packing import SHEETS, small_job
from cabinet.making.packing.goal import Goal
from cabinet.making.packing.solve import plan_cuts
{before}
print(plan_cuts(small_job(), SHEETS, kerf=3.2, rounds=60).plan)
"""
COMPILED = "Goal([(3, 2)], [True], [(4, 3)], 0).compile()"


def test_same_seed_same_plan_in_fresh_processes_compiled_or_not() -> None:
    """To the last character, with another hash seed, in plain Python and in machine code."""
    outputs = {
        subprocess.run(
            [sys.executable, "-c", PRINT.format(before=before)],
            env={"PYTHONHASHSEED": seed, "PATH": ""},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for before, seed in (("", "1"), (COMPILED, "2"))
    }
    assert len(outputs) == 1
    assert "SheetCuts" in outputs.pop()


def test_compiled_search_goes_on_where_the_plain_one_stopped() -> None:
    """Round for round the same trees, wherever it is compiled on the way."""
    made = instance(7, 25, seed=3)
    states = []
    for switch in (0, 7, 40):
        goal = Goal(made.sizes, [True] * 25, [(100, 100)] * 5, 3)
        goal.advance(switch)
        assert goal.compile()
        goal.advance(40 - switch)
        assert not goal.is_met
        states.append(goal.state())
    assert states[0] == states[1] == states[2]


def test_search_is_stopped_and_tells_of_its_progress() -> None:
    """The first plan comes at once, before any round; a stop ends the search with it."""
    told: list[CutAnswer] = []
    answer = plan_cuts(small_job(), SHEETS, kerf=3.2, progress=told.append, stop=lambda: bool(told))
    assert told[0].rounds == 0
    assert answer.rounds == 0
    assert answer.plan == told[0].plan
    timed = plan_cuts(small_job(), SHEETS, kerf=3.2, seconds=0)
    assert timed.plan == answer.plan


BAD: dict[str, tuple[dict[str, Any], type[CabinetError], str, str]] = {
    "no piece": ({"pieces": []}, DesignError, "cut plan", "no piece"),
    "no sheet": ({"sheets": []}, DesignError, "cut plan", "no sheet"),
    "two of a name": (
        {"pieces": [small_job()[0]] * 2},
        DesignError,
        "part 0",
        "2 pieces have this name",
    ),
    "too long": (
        {"pieces": [Piece(name="worktop", length=2431, width=617)]},
        DesignError,
        "worktop",
        "2423 x 1203 (full)",
    ),
    "too long unless turned": (
        {"pieces": [Piece(name="tall side", length=613, width=2287)]},
        DesignError,
        "tall side",
        "not turned",
    ),
    "negative kerf": ({"kerf": -3.2}, SizeError, "saw", "kerf is -3.2"),
    "kerf of no number": ({"kerf": float("nan")}, SizeError, "saw", "kerf"),
    "half a round": ({"rounds": 0.5}, SizeError, "cut plan", "rounds"),
    "negative seed": ({"seed": -1}, SizeError, "cut plan", "seed"),
    "seconds of no number": ({"seconds": float("nan")}, SizeError, "cut plan", "seconds"),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_jobs_are_refused(name: str) -> None:
    """One clear error each, that names the part, what was found and what would be right."""
    changed, error, part, says = BAD[name]
    job: dict[str, Any] = {"pieces": small_job(), "sheets": SHEETS, "kerf": 3.2} | changed
    with pytest.raises(CabinetError) as caught:
        plan_cuts(**job)
    assert type(caught.value) is error
    assert caught.value.part == part
    assert says in str(caught.value)


def test_turned_piece_fits_where_it_may() -> None:
    """The same tall side, free to turn, needs one sheet."""
    tall = Piece(name="tall side", length=613, width=2287, may_turn=True)
    answer = plan_cuts([tall], SHEETS, kerf=3.2)
    spot = saw(answer.plan, [tall]).pieces[0]
    assert (spot.length, spot.width, spot.is_turned) == (2287, 613, True)
