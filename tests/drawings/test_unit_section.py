"""Sections of a whole unit: what stands behind a board that hides it is not drawn."""

from __future__ import annotations

import re

import pytest

from cabinet.frame import Side
from drawings.curves import Segment
from drawings.scene import scene
from drawings.section_planes import section_planes
from drawings.unit_section import across_cut, across_sheet, behind_sheet
from tests.drawings.cut_plans import block, groups, texts
from tests.examples import example_unit

SIDES = (Side.BOTTOM, Side.TOP)


def test_shelves_beyond_the_divider_do_not_show_at_its_pin_holes() -> None:
    """A shelf of the other bay stands with its underside in line with the rim of a hole."""
    unit = example_unit("pantry_cupboard")
    made = scene(unit)
    cut = across_cut(made, section_planes(unit))
    beyond = {name for name in unit.by_name if name.startswith("right shelf")}
    assert beyond
    assert not beyond & set(cut)
    levels = {unit.by_name[name].box.face(side) for name in beyond for side in SIDES}
    seen = [
        curve
        for piece in cut.values()
        for curve in piece.behind.visible
        if isinstance(curve, Segment) and abs(curve.start.v - curve.end.v) < 1e-6
    ]
    assert seen
    assert not [c for c in seen if any(abs(c.start.v - level) < 1e-6 for level in levels)]


@pytest.mark.parametrize(
    ("name", "behind", "expected"),
    [
        ("pantry_cupboard", False, {"front": 50.0}),
        ("pantry_cupboard", True, {}),
        ("pottery_drying_rack", False, {"front": 30.0, "back": 30.0}),
        ("pottery_drying_rack", True, {"left": 30.0, "right": 30.0}),
    ],
)
def test_the_sections_place_what_the_unit_stands_on(
    name: str, behind: bool, expected: dict[str, float]
) -> None:
    """A plinth and feet are glued on without any joint that places them."""
    unit = example_unit(name)
    draw = behind_sheet if behind else across_sheet
    sheet = draw(scene(unit), section_planes(unit), block(1, 1))
    told = {
        found.group(1): float("".join(text.text for text in texts(group.marks)))
        for group in groups(sheet.marks, "dimension")
        if (found := re.fullmatch(r"from the carcass's (\w+) to what it stands on", group.title))
    }
    assert told == pytest.approx(expected)
