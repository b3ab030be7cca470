"""What a part's sheet tells of the rest of the unit."""

from __future__ import annotations

from functools import cache

import pytest

from cabinet import (
    Design,
    FramePanel,
    birch_plywood,
    carcass,
    frame_shelf,
    pin_rows,
    steel_sheet,
)
from drawings.scene import Scene, scene
from drawings.sheet_set import Imprint, item_sheet, sheet_numbers
from tests.drawings.cut_plans import texts
from tests.examples import example_unit

IMPRINT = Imprint(owner="The workshop", number="NM", creator="The workshop")


@cache
def made(name: str) -> Scene:
    return scene(example_unit(name))


def notes(drawn: Scene, part: str) -> str:
    """All that is written on the sheet of a part."""
    item = next(n for n, _, parts in drawn.items if part in {one.name for one in parts})
    return " ".join(text.text for text in texts(item_sheet(drawn, IMPRINT, item).marks))


@pytest.mark.parametrize(
    ("example", "part", "surface", "mate"),
    [
        ("pantry_cupboard", "right shelf 2", "front edge", "left shelf 1 front lipping"),
        ("pantry_cupboard", "plinth front", "top edge", "base"),
        ("pottery_drying_rack", "back left foot", "top face", "base"),
        ("greenhouse_wall_unit", "covering", "bottom face", "top"),
    ],
)
def test_what_is_glued_flat_to_a_part_is_told(
    example: str, part: str, surface: str, mate: str
) -> None:
    drawn = made(example)
    called, number = drawn.unit.item_names[mate], sheet_numbers(drawn)[mate]
    assert f"Glued: {surface} to the {called} (sheet {number})" in notes(drawn, part)


def test_a_part_without_glued_faces_says_nothing_of_glue() -> None:
    assert "Glued:" not in notes(made("greenhouse_wall_unit"), "tool shelf")


def test_a_groove_names_the_sheet_of_the_panel_that_goes_into_it() -> None:
    """Two frame shelves of different width: each frame takes its own panel."""
    birch = birch_plywood(nominal=18, measured=17.7)
    box = carcass(width=1100, height=600, depth=300, stock=birch, dividers=1)
    pins = pin_rows(box)
    panel = FramePanel(stock=steel_sheet(2), diameter=8, pitch=12)
    shelves = [
        frame_shelf(
            pins.bay(bay), hole=4, stock=birch, panel=panel, name=f"{name} frame", member=member
        )
        for bay, name, member in ((1, "left", 65), (2, "right", 80))
    ]
    unit = Design("Two panels", (box.component, pins.component, *shelves), is_hung=False).resolve()
    drawn = scene(unit)
    numbers = sheet_numbers(drawn)
    assert numbers["left frame panel"] != numbers["right frame panel"]
    for name in ("left", "right"):
        told = f"takes the panel, sheet {numbers[f'{name} frame panel']}"
        assert told in notes(drawn, f"{name} frame front")
