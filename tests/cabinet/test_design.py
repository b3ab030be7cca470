"""Designs: what is collected, what is refused, and what does not matter."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.components.shelves import pin_rows
from cabinet.design import Component, Design, Unit, around, together
from cabinet.errors import DesignError
from cabinet.features import Groove
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.hardware import Hardware, Rod
from tests.examples import example_unit
from tests.strategies import Recipe, points, recipes, small


def boards_of(unit: Unit) -> dict[str, object]:
    """Each part's board by its name."""
    return {part.name: part.board for part in unit.parts}


@settings(max_examples=20)
@given(recipe=recipes(), seed=st.integers(0, 1000))
def test_the_order_of_components_does_not_matter(recipe: Recipe, seed: int) -> None:
    """Boards, hardware and outline come out the same."""
    components = list(recipe.components())
    straight = Design("unit", tuple(components)).resolve()
    random.Random(seed).shuffle(components)  # noqa: S311 - seeded by hypothesis, nothing secret
    mixed = Design("unit", tuple(components)).resolve()
    assert boards_of(mixed) == boards_of(straight)
    assert set(mixed.hardware) == set(straight.hardware)
    assert mixed.outline == straight.outline
    assert {board for board, _ in mixed.boards} == {board for board, _ in straight.boards}


def moved(component: Component, by: UnitPoint) -> Component:
    """The parts of a component somewhere else."""

    def to(point: UnitPoint) -> UnitPoint:
        return UnitPoint(point.x + by.x, point.y + by.y, point.z + by.z)

    return replace(
        component,
        parts=tuple(
            replace(part, placement=replace(part.placement, origin=to(part.placement.origin)))
            for part in component.parts
        ),
        joints=tuple(joint for joint in component.joints if getattr(joint, "until", None) is None),
        outline=tuple(UnitBox(low=to(box.low), high=to(box.high)) for box in component.outline),
    )


@settings(max_examples=20)
@given(recipe=recipes(plain=True), by=points())
def test_moving_the_origin_changes_no_board(recipe: Recipe, by: UnitPoint) -> None:
    """Joints that name no coordinate give the same boards wherever the carcass stands."""
    here = moved(recipe.box().component, UnitPoint(0, 0, 0))
    there = moved(recipe.box().component, by)
    one = Design("here", (here,)).resolve()
    other = Design("there", (there,)).resolve()
    assert boards_of(other) == boards_of(one)


def test_equal_boards_are_grouped() -> None:
    """Each distinct board once, with the parts made to it, in order of first use."""
    unit = example_unit("greenhouse_wall_unit")
    listed = [part.name for _, parts in unit.boards for part in parts]
    assert sorted(listed) == sorted(unit.by_name)
    assert len({board for board, _ in unit.boards}) == len(unit.boards)
    assert len(unit.boards) < len(unit.parts)


def test_sides_are_not_two_of_one_hand() -> None:
    """A left and a right side with pin rows are mirror images, not equal."""
    box = small()
    unit = Design("pair", (box.component, pin_rows(box).component)).resolve()
    left, right = unit.by_name["left side"].board, unit.by_name["right side"].board
    assert left != right
    assert left.is_mirror_of(right)
    assert unit.other_hands["left side"] == "right side"
    assert unit.other_hands["right side"] == "left side"
    assert "top" not in unit.other_hands


def test_equal_names_are_numbered_by_place() -> None:
    """A rail has a slot at either end and more along its edge, each with its own name."""
    unit = Design("names", (small().component,)).resolve()
    for part in unit.parts:
        names = [feature.name for feature in part.board.features]
        assert len(names) == len(set(names))


def test_a_joint_asked_for_twice_cuts_once() -> None:
    """Two doors share a groove; equal features are one."""
    box = small(dividers=1)
    twice = Component(joints=box.component.joints)
    once = Design("once", (box.component,)).resolve()
    again = Design(
        "twice",
        (
            box.component,
            replace(
                twice, joints=tuple(joint for joint in twice.joints if joint.title == "housing")
            ),
        ),
    ).resolve()
    grooves = [
        [f for f in unit.by_name["top"].board.features if isinstance(f, Groove)]
        for unit in (once, again)
    ]
    assert grooves[0] == grooves[1]


def test_hardware_and_parts_share_one_set_of_names() -> None:
    """A bar called like a board would hide it from the checks."""
    bar = Hardware(
        name="top",
        article="bar",
        body=Rod(diameter=8.0, length=413.0),
        at=UnitPoint(0, 0, 0),
        axis=Side.RIGHT,
    )
    design = Design("names", (small().component, Component(hardware=(bar,))))
    with pytest.raises(DesignError, match="'top'"):
        design.resolve()


def test_together_keeps_the_order() -> None:
    """Components in a row."""
    one, other = small().component, Component(outline=(small().box,))
    both = together(one, other)
    assert both.parts == one.parts
    assert both.outline == one.outline + other.outline


def test_around() -> None:
    """The smallest box round boxes."""
    boxes = (
        UnitBox(low=UnitPoint(1, 20, 3), high=UnitPoint(4, 50, 6)),
        UnitBox(low=UnitPoint(0, 30, 5), high=UnitPoint(2, 40, 60)),
    )
    assert around(boxes) == UnitBox(low=UnitPoint(0, 20, 3), high=UnitPoint(4, 50, 60))


def test_the_outline_is_what_components_declare() -> None:
    """The example's box: 1200 by 290 by 640, as its script says."""
    unit = example_unit("greenhouse_wall_unit")
    assert tuple(unit.outline.low) == (0, 0, 0)
    assert tuple(unit.outline.high) == (1200, 290, 640)
    assert unit.is_hung
