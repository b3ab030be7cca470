"""How deep jaws must reach: by hand, and against a search step by step."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.assembly import Assembly
from cabinet.design import Component, Design, Unit
from cabinet.frame import Side
from cabinet.joint import Housing
from cabinet.making.clamping import ClampRow, shared_out
from cabinet.making.gluing import gluing_plan
from cabinet.making.gluing_findings import gluing_findings
from cabinet.making.jaws import BAR, Span, reach_in
from cabinet.workshop import Clamp, Workshop
from tests.cabinet.making.test_gluing import board, step

spans = st.tuples(st.integers(-90, 90), st.integers(1, 120)).map(
    lambda one: (float(one[0]), float(one[0] + one[1]))
)


def steps_out(place: tuple[float, float], boards: list[tuple[Span, Span]]) -> float:
    """Millimetre by millimetre along both axes, both ways, to room for a bar."""

    def is_open(axis: int, low: float, high: float) -> bool:
        return not any(
            one[axis][0] < high
            and low < one[axis][1]
            and one[1 - axis][0] < place[1 - axis] < one[1 - axis][1]
            for one in boards
        )

    for far in range(1000):
        for axis in (0, 1):
            up, down = place[axis] + far, place[axis] - far
            if is_open(axis, up, up + BAR) or is_open(axis, down - BAR, down):
                return float(far)
    raise AssertionError("nothing is so large")


@given(st.lists(st.tuples(spans, spans), min_size=1, max_size=6), st.data())
def test_jaws_reach_in_from_the_nearest_room_for_a_bar(
    boards: list[tuple[Span, Span]], data: st.DataObject
) -> None:
    (left, right), (low, high) = data.draw(st.sampled_from(boards))
    place = (
        float(data.draw(st.integers(int(left), int(right)))),
        float(data.draw(st.integers(int(low), int(high)))),
    )
    assert reach_in(place, boards) == steps_out(place, boards)


def shelf(*, depth: float, height: float, front: float = 0.0) -> tuple[Unit, Assembly]:
    """A shelf housed in an upright of 1000, so deep and so far up, its front edge set back."""
    upright = board("upright", (0.0, 0.0, 0.0), (17.6, depth, 1000.0))
    level = board("shelf", (11.6, front, height), (613.0, depth - 2 * front, 17.6))
    joint = Housing(board="shelf", into="upright")
    unit = Design("job", (Component(parts=(upright, level), joints=(joint,)),), is_hung=False)
    steps = (step(1, "upright"), step(2, "shelf", onto=("upright",), joints=(0,), side=Side.LEFT))
    return unit.resolve(), Assembly(steps=steps)


@pytest.mark.parametrize(
    ("depth", "height", "reach"),
    [
        (287.0, 400.0, 45.0),  # in from the front and the back edge
        (487.0, 100.0, 108.8),  # in from the foot, 100 and half of 17.6
        (487.0, 881.4, 109.8),  # in from the top, 1000 less 881.4 and 8.8
    ],
)
def test_jaws_reach_past_the_upright_from_its_nearest_edge(
    depth: float, height: float, reach: float
) -> None:
    """By hand, for the deepest of the clamps."""
    (stage,) = gluing_plan(*shelf(depth=depth, height=height), Workshop()).stages
    (row,) = stage.rows
    assert row.reach == pytest.approx(reach)
    assert not row.is_bridged
    assert stage.sharing.suffices


def test_the_middle_of_a_deep_shelf_is_pressed_by_crowned_cauls() -> None:
    """Its middle lies 243.5 in and jaws reach 120; its ends 45."""
    plan = gluing_plan(*shelf(depth=487.0, height=400.0), Workshop())
    (stage,) = plan.stages
    (row,) = stage.rows
    assert (row.count, row.cauls, row.is_bridged) == (2, 2, True)
    assert gluing_findings(plan) == ()
    assert any("crowned cauls" in note for note in stage.notes)
    deep = Workshop(clamps=(Clamp(opening=1000.0, count=3, reach=244.0),))
    (stage,) = gluing_plan(*shelf(depth=487.0, height=400.0), deep).stages
    assert (stage.rows[0].count, stage.rows[0].is_bridged) == (3, False)


def test_a_joint_that_no_jaws_reach_is_told() -> None:
    """Set back by 97: its ends lie 97 + 45 in."""
    unit, order = shelf(depth=487.0, height=400.0, front=97.0)
    plan = gluing_plan(unit, order, Workshop())
    (finding,) = gluing_findings(plan)
    assert finding.rule == "jaws-too-short"
    assert finding.found == pytest.approx(142.0)
    assert set(finding.parts) == {"upright", "shelf"}
    deep = Workshop(clamps=(Clamp(opening=1000.0, count=2, reach=142.0),))
    assert gluing_findings(gluing_plan(unit, order, deep)) == ()


def test_the_joint_that_is_named_is_the_one_that_no_jaws_reach() -> None:
    """Another one lies deeper, but is narrow enough for a clamp with longer jaws."""
    clamps = (
        Clamp(opening=300.0, count=4, reach=400.0),
        Clamp(opening=1000.0, count=4, reach=120.0),
    )
    shop = Workshop(clamps=clamps)
    plan = gluing_plan(*shelf(depth=487.0, height=400.0, front=97.0), shop)
    (stage,) = plan.stages
    narrow = ClampRow(parts=("rail", "leg"), axis=0, count=1, opening=120.0, reach=300.0)
    rows = (narrow, *stage.rows)
    both = dataclasses.replace(stage, rows=rows, sharing=shared_out(rows, shop))
    (finding,) = gluing_findings(dataclasses.replace(plan, stages=(both,)))
    assert set(finding.parts) == {"upright", "shelf"}
    assert finding.found == pytest.approx(142.0)
