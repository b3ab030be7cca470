"""Rows of holes that their own board hides are left out, and the views stay as they are."""

from __future__ import annotations

from dataclasses import replace

import pytest

import drawings.scene
from cabinet.design import Unit
from cabinet.features import Feature
from cabinet.frame import Side
from cabinet.part import Part
from drawings.arrangement import unit_seen
from drawings.enclosed import seen_part
from drawings.scene import scene
from drawings.section_planes import section_planes
from drawings.unit_section import behind_cut
from drawings.view_frame import FRONT, PLAN
from tests.examples import example_unit
from tests.strategies import a_groove, a_part, a_row

# The part stands upright with its face A to the right; the row is 37 mm from its back edge.
ROW = a_row()


def left_of(viewer: Side, *made: Feature, plane: float | None = None) -> tuple[Feature, ...]:
    """Features of a part that are drawn for a viewer."""
    return seen_part(a_part(*made), viewer, plane).board.features


@pytest.mark.parametrize("viewer", [Side.FRONT, Side.BACK, Side.TOP, Side.BOTTOM, Side.LEFT])
def test_a_row_is_out_of_sight_across_its_holes_and_from_its_back(viewer: Side) -> None:
    """Wood stands before it on every side but the one it is bored from."""
    assert left_of(viewer, ROW) == ()


def test_a_row_is_seen_from_the_side_it_is_bored_from() -> None:
    assert left_of(Side.RIGHT, ROW) == (ROW,)


def test_holes_that_go_through_are_seen_from_both_sides() -> None:
    through = replace(ROW, depth=None)
    assert left_of(Side.LEFT, through) == (through,)
    assert left_of(Side.FRONT, through) == ()


def test_a_row_that_the_section_cuts_is_drawn() -> None:
    """And one behind the plane only if wood is left between."""
    part = a_part(ROW)
    line = part.box.high.y - 37.0
    for cut in (line - ROW.diameter / 2, line, line + ROW.diameter / 2):
        assert left_of(Side.FRONT, ROW, plane=cut) == (ROW,)
    assert left_of(Side.FRONT, ROW, plane=line - ROW.diameter / 2 - 1.0) == ()


def test_a_row_behind_a_groove_is_hidden_by_what_stands_before_both() -> None:
    groove = a_groove(near=60.0)
    assert left_of(Side.FRONT, groove, ROW) == (groove,)
    # From behind there are 33 mm of wood, and none of it once the groove runs out of the edge.
    rebate = a_groove(near=0.0, width=36.0)
    assert left_of(Side.BACK, rebate, ROW) == (rebate, ROW)


def views(unit: Unit) -> tuple[object, ...]:
    """The square views that show most rows edge-on."""
    made = scene(unit)
    return (
        unit_seen(made, "front view", FRONT, Side.FRONT),
        unit_seen(made, "plan", PLAN, Side.TOP),
        behind_cut(made, section_planes(unit)),
    )


@pytest.mark.parametrize("name", ["greenhouse_wall_unit", "pantry_cupboard"])
def test_no_line_of_a_view_changes(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Views with and without the hidden rows are the same, to the last digit."""
    unit = example_unit(name)
    without = views(unit)
    left_out: list[str] = []

    def whole(part: Part, viewer: Side, plane: float | None = None) -> Part:
        if seen_part(part, viewer, plane) is not part:
            left_out.append(part.name)
        return part

    monkeypatch.setattr(drawings.scene, "seen_part", whole)
    assert views(unit) == without
    assert {"left side", "right side"} <= set(left_out)
