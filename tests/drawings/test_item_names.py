"""One name for one board: parts list, part sheet, tags, cut plan, cuts, set-ups, record agree."""

from __future__ import annotations

import csv
import io
from collections import Counter
from dataclasses import replace
from functools import cache

import pytest

from cabinet.design import Unit
from cabinet.making.blanks import blanks
from cabinet.making.cut_list import cut_list
from cabinet.making.cut_plan import cut_plan
from cabinet.making.setups import set_ups
from cabinet.wording import capital
from cabinet.workshop import Workshop
from drawings.cut_plan_sheet import cut_plan_sheets
from drawings.lists import cuts_csv, parts_csv
from drawings.marks import Group, Mark, Text
from drawings.pictorial import pictorial_sheet
from drawings.scene import Scene, scene
from drawings.setup_words import rows
from drawings.sheet_set import Imprint, item_sheet, sheet_numbers, title_blocks
from drawings.tags_sheet import tags_sheets
from tests.examples import example_unit

EXAMPLES = ["greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack"]
IMPRINT = Imprint(owner="The workshop", number="NM", creator="The workshop")


@cache
def made(name: str) -> Scene:
    return scene(example_unit(name))


def texts(marks: tuple[Mark, ...]) -> list[str]:
    """All lettering of a sheet."""
    found: list[str] = []
    for mark in marks:
        if isinstance(mark, Group):
            found += texts(mark.marks)
        elif isinstance(mark, Text):
            found.append(mark.text)
    return found


def items(unit: Unit) -> dict[int, str]:
    """Names by item number."""
    names = unit.item_names
    return {item: names[parts[0].name] for item, (_, parts) in enumerate(unit.boards, start=1)}


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_two_boards_share_a_name(name: str) -> None:
    unit = example_unit(name)
    assert max(Counter(items(unit).values()).values()) == 1
    assert set(unit.item_names) == {part.name for part in unit.parts}


def test_boards_of_one_kind_and_several_sizes_are_told_apart() -> None:
    unit = example_unit("pantry_cupboard")
    shelves = [part for part in unit.parts if part.role == "shelf"]
    shorter = {part.name for part in shelves[:3]}
    parts = tuple(
        replace(part, board=replace(part.board, length=part.board.length - 1.0))
        if part.name in shorter
        else part
        for part in unit.parts
    )
    other = replace(unit, parts=parts)
    names = items(other)
    assert len(names) == len(items(unit)) + 1
    assert len(set(names.values())) == len(names)
    told = {other.item_names[part.name] for part in shelves}
    assert told == {f"shelf, item {k}" for k, name in names.items() if name.startswith("shelf,")}


@pytest.mark.parametrize("name", EXAMPLES)
def test_sheets_are_titled_as_the_parts_list_has_it(name: str) -> None:
    drawn = made(name)
    numbers = sheet_numbers(drawn)
    block = title_blocks(drawn, IMPRINT)(2)
    listed = texts(pictorial_sheet(drawn, block, numbers).marks)
    for item, called in items(drawn.unit).items():
        sheet = item_sheet(drawn, IMPRINT, item)
        assert sheet.title == capital(called)
        assert capital(called) in texts(sheet.marks)
        assert called in listed


@pytest.mark.parametrize("name", EXAMPLES)
def test_lists_set_ups_and_tags_have_the_same_name(name: str) -> None:
    drawn = made(name)
    unit, names = drawn.unit, items(drawn.unit)
    for line in cut_list(unit):
        assert line.item_names[0] == names[line.item]
    for row in list(csv.reader(io.StringIO(parts_csv(drawn, sheet_numbers(drawn)))))[1:]:
        assert row[1] == names[int(row[0])]
    for row in list(csv.reader(io.StringIO(cuts_csv(drawn))))[1:]:
        assert row[1].startswith(names[int(row[0])])
    shop = Workshop()
    for setting in set_ups(unit, shop).settings:
        boards = [one for row in rows(setting, shop) for one in row.boards.split("; ")]
        for task in setting.tasks:
            called = task.strip if task.becomes else names[task.item]
            assert any(one == called or one.endswith(f" × {called}") for one in boards)
    plan = cut_plan(unit, rounds=25)
    shown = texts(tuple(m for sheet in cut_plan_sheets(plan) for m in sheet.marks))
    tags = texts(tuple(m for s in tags_sheets(plan, unit) for m in s.marks))
    for blank in blanks(unit):
        if len(blank.items) == 1:
            assert blank.item_name.split(", layer")[0] == names[blank.item]
        for told in (shown, tags):
            assert any(blank.item_name in one for one in (*told, " ".join(told)))
