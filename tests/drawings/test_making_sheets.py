"""Sheets and lists of set-ups, gluing, finishing and quote: clean, and nothing left out."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Sequence
from functools import cache

import pytest
from hypothesis import given, settings

from cabinet import birch_plywood, carcass
from cabinet.checks.assembly import assembly
from cabinet.design import Design, Unit
from cabinet.making.consumables import Consumable, consumables
from cabinet.making.finishing import FinishingPlan, finishing_plan
from cabinet.making.glue_stage import GluingPlan
from cabinet.making.gluing import gluing_plan
from cabinet.making.hardware_list import hardware_list
from cabinet.making.operation import Work
from cabinet.making.quote import Prices, Quote, Rates, quote
from cabinet.making.setting import SetUps
from cabinet.making.setups import set_ups
from cabinet.workshop import Workshop
from drawings import cautions
from drawings.gluing_sheet import finishing_sheets, gluing_sheets
from drawings.lint import lint_sheet
from drawings.making_lists import consumables_csv, gluing_csv, quote_csv, set_ups_csv
from drawings.marks import Group, Mark, Text
from drawings.paper import drawing_space
from drawings.quote_sheet import quote_sheets
from drawings.setup_sheet import set_up_sheets
from drawings.setup_words import BOX, figures, is_fine, rows
from drawings.sheet import Sheet
from drawings.title_block import TitleBlock
from tests.examples import example_unit
from tests.strategies import Recipe, recipes

EXAMPLES = ("greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack")
SHOP = Workshop()
BLOCK = TitleBlock(
    legal_owner="the workshop",
    identification_number="GWU-24",
    date_of_issue="",
    sheet_number=24,
    sheet_count=24,
    title="unit",
    approval_person="",
    creator="the bench",
    document_type="sheet",
    supplementary_title="Greenhouse wall unit",
)
Made = tuple[SetUps, GluingPlan, FinishingPlan, tuple[Consumable, ...], Quote]


def made_for(unit: Unit) -> Made:
    ups = set_ups(unit, SHOP)
    gluing = gluing_plan(unit, assembly(unit), SHOP)
    finishing = finishing_plan(unit)
    used = consumables(gluing, finishing)
    prices = Prices(currency="crowns", each=(("hardwax oil", 317.0),))
    cost = quote(unit, ups, gluing, finishing, used, rates=Rates(hour=(31, 37)), prices=prices)
    return ups, gluing, finishing, used, cost


@cache
def example(name: str) -> Made:
    return made_for(example_unit(name))


def sheets(unit: Unit, made: Made) -> tuple[Sheet, ...]:
    ups, gluing, finishing, used, cost = made
    return (
        *set_up_sheets(ups, SHOP, BLOCK),
        *gluing_sheets(gluing, BLOCK),
        *finishing_sheets(finishing, used, hardware_list(unit), BLOCK),
        *quote_sheets(cost, BLOCK),
    )


def texts(marks: Sequence[Mark]) -> Iterator[str]:
    for mark in marks:
        if isinstance(mark, Text):
            yield mark.text
        elif isinstance(mark, Group):
            yield from texts(mark.marks)


def words(them: Sequence[Sheet]) -> str:
    return " ".join(text for sheet in them for text in texts(sheet.marks))


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_sheet_has_lettering_that_collides(name: str) -> None:
    for sheet in sheets(example_unit(name), example(name)):
        assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == (), sheet.title


@settings(max_examples=4)
@given(recipes())
def test_sheets_of_generated_units_are_clean(recipe: Recipe) -> None:
    unit = recipe.design().resolve()
    for sheet in sheets(unit, made_for(unit)):
        assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == (), sheet.title


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_setting_has_its_block_its_numbers_and_a_box_for_each_piece(name: str) -> None:
    ups = example(name)[0]
    drawn = set_up_sheets(ups, SHOP, BLOCK)
    told = words(drawn)
    for setting in ups.settings:
        for one in figures(setting, SHOP):
            assert one.value in told
    tested = sum(text.startswith(f"{BOX} test cut") for s in drawn for text in texts(s.marks))
    boxes = sum(text.count(BOX) for sheet in drawn for text in texts(sheet.marks))
    pieces = [row.pieces for s in ups.settings for row in rows(s, SHOP)]
    assert boxes == tested + sum(count if count <= 10 else 1 for count in pieces)
    assert [sheet.number for sheet in drawn] == list(range(24, 24 + len(drawn)))


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_part_is_ticked_off_wherever_it_is_cut(name: str) -> None:
    for setting in example(name)[0].settings:
        told = {name: row for row in rows(setting, SHOP) for name in row.boards.split("; ")}
        for task in setting.tasks:
            times = f"{task.pieces} × " if task.pieces > 1 else ""
            assert f"{times}{task.item_name}" in told
        named = {task.item_name: task.pieces for task in setting.tasks}
        assert sum(row.pieces for row in rows(setting, SHOP)) == sum(named.values())


def test_the_figures_of_a_rebate_are_those_of_its_drawing() -> None:
    ups = example("greenhouse_wall_unit")[0]
    told = [
        [one.value for one in figures(setting, SHOP)]
        for setting in ups.settings
        if any(task.operation.name == "top tongue" for task in setting.tasks)
    ]
    # The door's upper tongue: 11 from its end, 4.9 deep, as on its sheet.
    assert told == [["11", "4.9", "⌀20"]]


def test_the_straight_edge_lies_off_the_groove_by_half_base_less_half_cutter() -> None:
    ups = example("pantry_cupboard")[0]
    (setting,) = [s for s in ups.settings if s.stand.guide.value == "straight-edge"]
    # Base 150, cutter 16: (150 - 16) / 2 = 67; the housing begins at 399.8.
    assert figures(setting, SHOP)[0].value == "67"
    assert all(
        "straight-edge 332.8 and 334.4 from the left end" in cut
        for row in rows(setting, SHOP)
        for _, cut in row.cuts
    )


def test_the_template_opening_is_the_finished_one_and_twice_the_offset() -> None:
    # Router makers' rule: 30 bush, 10 cutter, so 2 x 10 more: 360 x 40 becomes 380 x 60.
    ups = example("pottery_drying_rack")[0]
    (setting,) = [s for s in ups.settings if s.stand.position == (360, 40, 20.0)]
    values = [one.value for one in figures(setting, SHOP)]
    assert values[:2] == ["10", "380 × 60"]


def test_cautions_stand_where_the_work_can_hurt() -> None:
    unit = example_unit("greenhouse_wall_unit")
    ups, gluing, finishing, used, _ = example("greenhouse_wall_unit")
    assert cautions.BLADES.split(":")[0] in words(set_up_sheets(ups, SHOP, BLOCK))
    assert "Glue, paint and solvents" in words(gluing_sheets(gluing, BLOCK))
    last = words(finishing_sheets(finishing, used, hardware_list(unit), BLOCK))
    assert "Rags wet with drying oil" in last
    assert "Sheet metal has sharp edges" in last


def test_without_prices_the_quote_tells_no_money() -> None:
    unit = example_unit("pantry_cupboard")
    ups, gluing, finishing, used, cost = example("pantry_cupboard")
    bare = quote(unit, ups, gluing, finishing, used)
    assert "costs" not in words(quote_sheets(bare, BLOCK)).lower()
    assert "crowns" in words(quote_sheets(cost, BLOCK))


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_lists_open_in_a_spreadsheet(name: str) -> None:
    unit = example_unit(name)
    ups, gluing, _, used, cost = example(name)
    for text in (
        set_ups_csv(ups, SHOP),
        gluing_csv(gluing),
        consumables_csv(used, hardware_list(unit)),
        quote_csv(cost),
    ):
        table = list(csv.reader(io.StringIO(text, newline="")))
        assert len(table) > 1
        assert len({len(row) for row in table}) == 1
    settings_told = {row["setting"] for row in csv.DictReader(io.StringIO(set_ups_csv(ups, SHOP)))}
    assert settings_told == {str(setting.number) for setting in ups.settings}


def test_equal_units_give_equal_sheets() -> None:
    unit = example_unit("pottery_drying_rack")
    once, again = (sheets(unit, made_for(unit)) for _ in range(2))
    assert [sheet.marks for sheet in once] == [sheet.marks for sheet in again]


@pytest.mark.parametrize("name", EXAMPLES)
def test_boards_measured_in_tenths_are_set_in_tenths(name: str) -> None:
    """What may lie anywhere is chosen so that no fence and no depth asks for a hundredth."""
    ups = example(name)[0]
    printed = [one.value for s in ups.settings for one in figures(s, SHOP)]
    assert not [value for value in printed if re.search(r"\.\d\d", value)]
    # What the record has is what is printed: no figure is rounded on the sheet alone.
    for setting in ups.settings:
        stand = setting.stand
        if setting.tasks[0].operation.work is Work.COUNTERSINK:
            # Bored to a diameter, which the sheet tells; its depth follows.
            continue
        for value in (*stand.position, *([] if stand.depth is None else [stand.depth])):
            assert value == pytest.approx(round(value, 1), abs=1e-6)
    told = " ".join(text for s in set_up_sheets(ups, SHOP, BLOCK) for text in texts(s.marks))
    assert "A second decimal" not in told


def test_a_hundredth_that_is_left_is_explained() -> None:
    """A caliper that shows 17.65 gives housings of a hundredth; the sheet says how to set them."""
    stock = birch_plywood(nominal=18, measured=17.65)
    box = carcass(width=887, height=613, depth=287, stock=stock, dividers=1)
    ups = set_ups(Design("seed box", (box.component,)).resolve(), SHOP)
    assert any(is_fine(setting, SHOP) for setting in ups.settings)
    told = " ".join(text for s in set_up_sheets(ups, SHOP, BLOCK) for text in texts(s.marks))
    assert "A second decimal comes of a thickness measured to" in told
