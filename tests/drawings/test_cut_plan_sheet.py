"""The sheets of a cut plan: everything that must be told is told, and can be read."""

from __future__ import annotations

import re

import pytest

from cabinet.making.cut_plan import cut_plan
from cabinet.making.rack import Rack
from drawings.cut_board_ink import BoardPaperPlace
from drawings.cut_plan_sheet import cut_plan_sheets
from drawings.cut_words import labels, short_rest
from drawings.marks import Ink, PaperPoint, Polyline
from drawings.number import dimension_text
from tests.cabinet.making.racks import luck_of, plain_unit, random_leftovers
from tests.drawings.cut_plans import check_sheets, greenhouse_plan, groups, texts
from tests.examples import example_unit


def test_all_sheets_of_a_plan_with_damaged_leftovers_can_be_read() -> None:
    check_sheets(cut_plan_sheets(greenhouse_plan()))


@pytest.mark.parametrize("name", ["pantry_cupboard", "pottery_drying_rack"])
def test_all_sheets_of_a_plan_from_new_sheets_can_be_read(name: str) -> None:
    check_sheets(cut_plan_sheets(cut_plan(example_unit(name), rounds=25)))


@pytest.mark.parametrize("seed", range(6))
def test_sheets_of_random_plans_can_be_read(seed: int) -> None:
    luck = luck_of(seed)
    unit = plain_unit(
        [(luck.randint(300, 9000) / 10, luck.randint(200, 4000) / 10) for _ in range(14)]
    )
    plan = cut_plan(unit, Rack(leftovers=random_leftovers(luck, 3)), rounds=25)
    check_sheets(cut_plan_sheets(plan))


def test_each_board_tells_its_parts_its_flaws_and_its_cuts() -> None:
    plan = greenhouse_plan()
    for board, sheet in zip(plan.boards, cut_plan_sheets(plan), strict=False):
        written = " ".join(text.text for text in texts(sheet.marks))
        for laid in board.laid:
            assert labels(plan)[laid.blank.name] in written
            assert dimension_text(laid.blank.length) in written
        drawn = groups(sheet.marks, "cut") + groups(sheet.marks, "note")
        numbers = {int(n) for g in drawn for n in re.findall(r"^cut (\d+)$", g.title)}
        asked = {cut.number for cut in board.cuts if not (cut.is_trim and board.trim)}
        assert numbers == asked
        for number in range(1, len(board.board.flaws) + 1):
            assert f"F{number}" in written
        drawing = " ".join(
            text.text for g in groups(sheet.marks, "view") for text in texts(g.marks)
        )
        for piece in board.kept:
            assert short_rest(piece) in drawing
        assert f"Kerf {dimension_text(board.kerf)}" in written
        assert ("grain" in written) is board.board.stock.has_grain


def test_flaws_are_hatched_by_their_face() -> None:
    plan = greenhouse_plan()
    sheet = cut_plan_sheets(plan)[0]
    flaws = {group.title: group for group in groups(sheet.marks, "flaw")}
    slopes = {}
    for title in ("groove on face B", "hole through", "stain on face A"):
        lines = [mark for mark in flaws[title].marks if not isinstance(mark, Polyline)]
        slopes[title] = {
            (line.end.y - line.start.y) * (line.end.x - line.start.x) > 0  # type: ignore[union-attr]
            for line in lines
        }
    assert slopes["groove on face B"] == {True}
    assert slopes["stain on face A"] == {False}
    assert slopes["hole through"] == {True, False}
    outline = flaws["groove on face B"].marks[0]
    assert isinstance(outline, Polyline)
    assert outline.ink is Ink.HIDDEN


def test_a_board_lies_true_to_scale() -> None:
    place = BoardPaperPlace(corner=PaperPoint(30.0, 200.0), scale=0.1)
    point = place.point(613.0, 287.0)
    assert (point.x, point.y) == pytest.approx((91.3, 171.3))


def test_lettering_keeps_to_the_heights() -> None:
    for sheet in cut_plan_sheets(greenhouse_plan()):
        for text in texts(sheet.marks):
            assert text.height >= 2.5
        for group in groups(sheet.marks, "part"):
            for text in texts(group.marks):
                if "×" in text.text:
                    assert text.height == 3.5


def test_the_list_has_every_cut_of_every_board() -> None:
    plan = greenhouse_plan()
    lists = [sheet for sheet in cut_plan_sheets(plan) if sheet.name.startswith("cuts-")]
    written = [text.text for sheet in lists for text in texts(sheet.marks)]
    for board in plan.boards:
        for cut in board.cuts:
            assert dimension_text(cut.fence) in written
    rows = sum(len(board.cuts) for board in plan.boards)
    ways = [w for w in written if re.fullmatch(r"(along|across)(, rail)?", w)]
    assert len(ways) == rows
    told = " ".join(written)
    assert "proven: no plan takes fewer" in told
    assert "No flaw on a face that shows" in told


def test_no_two_blanks_of_a_job_are_called_alike() -> None:
    plan = cut_plan(example_unit("pantry_cupboard"), rounds=25)
    names = labels(plan)
    assert len(set(names.values())) == len(names) == sum(len(b.laid) for b in plan.boards)
    shelves = {name: label for name, label in names.items() if "shelf" in name and "." in label}
    assert {label for label in shelves.values() if label.startswith("7.")} == {
        f"7.{number}" for number in range(1, 8)
    }
    on = [sum("shelf" in laid.blank.item_name for laid in board.laid) for board in plan.boards]
    assert sum(count > 0 for count in on) > 1  # else a number for each board would do
