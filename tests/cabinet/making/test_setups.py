"""Settings are shared by distance alone, ordered with the fewest changes, nothing left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import permutations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cabinet.board import At, Surface
from cabinet.design import Component, Design, Unit
from cabinet.features import (
    Bevel,
    Biscuit,
    BiscuitSlot,
    Feature,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Rebate,
)
from cabinet.frame import Side, UnitPoint
from cabinet.making.operation import Guide, Phase, Tool, Work
from cabinet.making.operations import operations
from cabinet.making.setting import Change, SetUps, Stand, changes_between
from cabinet.making.setups import set_up_findings, set_ups
from cabinet.part import Part, board_part
from cabinet.stock import birch_plywood
from cabinet.workshop import Router, Workshop
from tests.examples import example_unit
from tests.strategies import FEATURES, boards

EXAMPLES = ("greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack")
SHOP = Workshop()


def part(name: str, *features: Feature, layers: int = 1, width: float = 287.0) -> Part:
    return board_part(
        name=name,
        role=name,
        stock=birch_plywood(18, 17.6),
        box_low=UnitPoint(0.0, 0.0, float(len(name) * 500)),
        length=(Side.RIGHT, 613.0),
        width=(Side.BACK, width),
        fence=Side.FRONT,
        stop=Side.LEFT,
        layers=layers,
        features=features,
    )


def unit_of(*parts: Part) -> Unit:
    return Design("job", (Component(parts=parts),), is_hung=False).resolve()


def groove(distance: float, *, edge: Surface = Surface.LOW, depth: float = 6.0) -> Groove:
    return Groove(
        name=f"groove {distance} {edge.name} {depth}",
        surface=Surface.A,
        near=At(edge, distance),
        width=8.0,
        depth=depth,
    )


def stands(made: SetUps) -> list[Stand]:
    return [setting.stand for setting in made.settings]


def test_what_is_equally_far_from_its_edge_shares_a_setting_whatever_it_is_called() -> None:
    one = part("a", groove(31.4))
    other = part("bb", groove(31.4, edge=Surface.HIGH), groove(31.4, edge=Surface.START))
    made = set_ups(unit_of(one, other), SHOP)
    assert len(made.settings) == 1
    assert [task.parts[0].name for task in made.settings[0].tasks] == ["a", "bb", "bb"]
    assert made.total == 0
    assert made.is_proven


def test_one_fence_then_one_depth_is_changed_on_the_way_round() -> None:
    # Four stands at two distances and two depths: a round of three single changes, by hand.
    features = [groove(d, depth=h) for d in (31.4, 52.7) for h in (5.0, 7.5)]
    made = set_ups(unit_of(part("a", *features)), SHOP)
    assert len(made.settings) == 4
    assert made.total == made.bound == 3
    assert all(len(setting.changes) == 1 for setting in made.settings[1:])


def test_another_cutter_sets_depth_and_fence_anew() -> None:
    wide = Rebate(name="r", edge=Surface.LOW, face=Surface.A, width=36.4, depth=6.0)
    made = set_ups(unit_of(part("a", groove(31.4), wide)), SHOP)
    changed = [setting.changes for setting in made.settings]
    assert (Change.CUTTER, Change.GUIDE, Change.DEPTH) in changed
    assert dict(made.changes)[Change.CUTTER] == 1


def every_pass(unit: Unit) -> Counter[tuple[int, str, str, int]]:
    """Every pass that a job asks for, counted from the operations themselves."""
    made = operations((board for board, _ in unit.boards), SHOP)
    found: Counter[tuple[int, str, str, int]] = Counter()
    for item, (board, _) in enumerate(unit.boards, start=1):
        is_half = any(isinstance(feature, Bevel) for feature in board.features)
        for one in made[board]:
            if one.tool is Tool.NONE:
                continue
            if is_half and one.work in (Work.BEVEL, Work.TO_SIZE):
                # Cut on the strip of both halves, which test_ripped saws on solids.
                continue
            is_carried = one.guide in (Guide.STRAIGHT_EDGE, Guide.MARKS, Guide.BEARING)
            for number in range(1, 2 if is_carried else len(one.passes) + 1):
                found[item, one.name, one.work.value, number] += 1
    return found


@pytest.mark.parametrize("name", EXAMPLES)
def test_examples_are_proven_and_no_pass_is_left_out(name: str) -> None:
    unit = example_unit(name)
    made = set_ups(unit, SHOP)
    assert made.is_proven
    assert set_up_findings(made) == ()
    done = Counter(
        (task.item, task.operation.name, task.operation.work.value, task.number)
        for setting in made.settings
        for task in setting.tasks
        if not task.strip
    )
    assert done == every_pass(unit)
    assert len(set(stands(made))) == len(made.settings)
    assert [setting.number for setting in made.settings] == list(range(1, len(made.settings) + 1))
    phases = [list(Phase).index(stand.phase) for stand in stands(made)]
    assert phases == sorted(phases)


def test_settings_of_the_greenhouse_unit_are_fewer_than_its_cuts() -> None:
    made = set_ups(example_unit("greenhouse_wall_unit"), SHOP)
    assert sum(setting.cuts for setting in made.settings) > 5 * len(made.settings)
    # Both halves of the cleat are ripped out of one strip at one setting: one cut parts them and
    # finishes the lower, the wall's half; the upper one follows.
    (bevel,) = [s for s in made.settings if s.stand.angle == 45.0]
    first, second = bevel.tasks
    assert set(first.names) == {"cleat, unit half", "cleat, wall half"}
    assert second.names == ("cleat, unit half",)
    assert bevel.cuts == 2


def recounted(order: Sequence[Stand]) -> int:
    """Changes of an order, counted afresh: every tool remembers how it was left."""
    total = 0
    left: dict[Tool, Stand] = {}
    for index, here in enumerate(order):
        if index and order[index - 1].tool is not here.tool:
            total += 1
        before = left.get(here.tool)
        left[here.tool] = here
        if before is None:
            continue
        bit = (before.cutter, before.guide is Guide.BEARING)
        if bit != (here.cutter, here.guide is Guide.BEARING):
            total += 3
        else:
            total += (before.guide, before.position) != (here.guide, here.position)
            total += before.depth != here.depth
        total += before.angle != here.angle
    return total


def may_come_so(order: Sequence[Stand], made: SetUps) -> bool:
    """Phases follow each other, a countersink its hole, a notch what its edge is needed for."""
    phases = [list(Phase).index(stand.phase) for stand in order]
    if phases != sorted(phases):
        return False
    tasks = {setting.stand: setting.tasks for setting in made.settings}
    bored: set[str] = set()
    notched: set[Surface] = set()
    for stand in order:
        for task in tasks[stand]:
            one = task.operation
            if one.work is Work.BORE:
                bored.add(one.name)
            elif one.work is Work.COUNTERSINK and one.name not in bored:
                return False
            ends = {at.datum for at in (one.start, one.end) if at is not None}
            if (
                one.work is not Work.NOTCH
                and one.phase is Phase.FLAT
                and (notched & {one.reference, one.stop, *ends})
            ):
                return False
        notched |= {t.operation.reference for t in tasks[stand] if t.operation.work is Work.NOTCH}
    return True


@settings(max_examples=25)
@given(data=st.data())
def test_no_order_of_a_small_job_has_fewer_changes(data: st.DataObject) -> None:
    kinds = (Groove, Rebate, Hole, HoleRow, BiscuitSlot)
    board = data.draw(boards())
    extra = [data.draw(FEATURES[data.draw(st.sampled_from(kinds))](board.size)) for _ in range(2)]
    features = [
        *board.features,
        *(f for index, f in enumerate(extra) if f.name not in {g.name for g in extra[:index]}),
    ]
    job = unit_of(part("plain", layers=1))
    made = set_ups(job, SHOP)
    assert made.settings == ()
    mixed = board.with_features(*(f for f in features if f not in board.features))
    assume(len({f.name for f in mixed.features}) == len(mixed.features))
    whole = Part(name="p", role="p", board=mixed, placement=job.parts[0].placement)
    made = set_ups(unit_of(whole), SHOP)
    assume(1 < len(made.settings) <= 6)
    assert recounted(stands(made)) == made.total
    best = min(recounted(order) for order in permutations(stands(made)) if may_come_so(order, made))
    assert made.is_proven
    assert made.total == best


def test_an_edge_is_bevelled_and_notched_after_all_that_is_told_from_it() -> None:
    row = HoleRow(
        name="row",
        surface=Surface.A,
        first=At(Surface.START, 41.0),
        line=At(Surface.HIGH, 37.0),
        count=9,
        pitch=32.0,
        diameter=5.0,
        depth=12.0,
    )
    bevel = Bevel(name="bevel", edge=Surface.HIGH, sharp=Surface.A)
    notch = Notch(name="notch", edge=Surface.HIGH, near=At(Surface.START, 0.0), length=86, depth=18)
    slot = BiscuitSlot(
        name="slot",
        surface=Surface.A,
        centre=At(Surface.START, 210.0),
        height=At(Surface.HIGH, 44.2),
        biscuit=Biscuit.NO_20,
    )
    for cut in (bevel, notch):
        made = set_ups(unit_of(part("a", row, slot, cut)), SHOP)
        order = [task.operation.name for setting in made.settings for task in setting.tasks]
        assert order[-1] == cut.name


def test_a_countersink_follows_its_hole() -> None:
    hole = Hole(
        name="hole",
        surface=Surface.A,
        centre=(At(Surface.START, 210.0), At(Surface.LOW, 190.0)),
        diameter=5.5,
        countersink=10.0,
    )
    made = set_ups(unit_of(part("a", hole)), SHOP)
    works = [task.operation.work for setting in made.settings for task in setting.tasks]
    assert works == [Work.BORE, Work.COUNTERSINK]


def test_doubled_boards_are_cut_to_size_first_and_trimming_comes_last() -> None:
    made = set_ups(unit_of(part("a", groove(31.4), layers=2)), SHOP)
    works = [task.operation.work for setting in made.settings for task in setting.tasks]
    assert works == [Work.TO_SIZE, Work.TO_SIZE, Work.GROOVE]


def test_a_radius_that_no_cutter_leaves_is_named() -> None:
    def stopped(radius: float) -> Unit:
        return unit_of(
            part(
                "pane",
                Groove(
                    name="slot for glass",
                    surface=Surface.A,
                    near=At(Surface.LOW, 31.0),
                    width=8.0,
                    depth=5.0,
                    start=At(Surface.START, 40.0),
                    end_radius=radius,
                ),
            )
        )

    (finding,) = set_up_findings(set_ups(stopped(3.3), SHOP))
    assert finding.rule == "no-such-radius"
    assert (finding.found, finding.limit) == (3.3, 3.0)
    assert "pane, slot for glass" in finding.sentence
    assert set_up_findings(set_ups(stopped(4.0), SHOP)) == ()
    fitted = Workshop(router=Router(cutters=(6.6, 8.0)))
    assert set_up_findings(set_ups(stopped(3.3), fitted), fitted) == ()


def test_a_bearing_cutter_is_another_cutter_even_at_the_same_diameter() -> None:
    plain = Stand(
        phase=Phase.FLAT,
        tool=Tool.ROUTER,
        guide=Guide.FENCE,
        cutter=12.0,
        position=(10.0,),
        depth=6.0,
        angle=0.0,
    )
    bearing = Stand(
        phase=Phase.GLUED,
        tool=Tool.ROUTER,
        guide=Guide.BEARING,
        cutter=12.0,
        position=(),
        depth=None,
        angle=0.0,
    )
    assert Change.CUTTER in changes_between(plain, bearing)
