"""Tags for the blanks."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from cabinet.making.cut_plan import cut_plan
from drawings.cut_words import labels
from drawings.marks import PaperBox
from drawings.tags_sheet import _Tag, _texts, next_work, tags_sheets
from tests.drawings.cut_plans import check_sheets, greenhouse_plan, groups, patched, texts
from tests.examples import example_unit


def test_every_blank_has_one_tag() -> None:
    plan, unit = greenhouse_plan(), example_unit("greenhouse_wall_unit")
    sheets = tags_sheets(plan, unit)
    check_sheets(sheets)
    titles = [group.title for sheet in sheets for group in groups(sheet.marks, "tag")]
    blanks = [laid.blank.name for board in plan.boards for laid in board.laid]
    assert sorted(titles) == sorted(blanks)


def test_a_tag_says_what_face_which_datum_and_what_next() -> None:
    plan, unit = greenhouse_plan(), example_unit("greenhouse_wall_unit")
    tags = {g.title: g for sheet in tags_sheets(plan, unit) for g in groups(sheet.marks, "tag")}
    side = " ".join(text.text for text in texts(tags["left side"].marks))
    assert "on face A, the right face" in side
    assert "fence at the front edge, stop at the bottom end" in side
    assert "next: rebates, slots, rows of holes" in side
    top = " ".join(text.text for text in texts(tags["top, layer 2 of 2"].marks))
    assert "1184.6 × 298" in top
    assert "glue to the other layer, cut to 1176.6 × 290" in top


def test_a_patch_comes_first() -> None:
    plan, unit = patched()
    (sheet,) = tags_sheets(plan, unit)
    assert "next: patch, sand and finish" in " ".join(text.text for text in texts(sheet.marks))


@pytest.mark.parametrize(
    ("example", "name", "expected"),
    [
        ("pantry_cupboard", "left shelf 1", "glue to the front lipping, sand and finish"),
        ("pantry_cupboard", "left shelf 1 front lipping", "glue to the shelf, sand and finish"),
        ("pantry_cupboard", "back", "sand, glue up"),
        ("pottery_drying_rack", "front left foot", "glue to the base, sand and finish"),
        ("pottery_drying_rack", "shelf 1 panel", "deburr, paint"),
        ("greenhouse_wall_unit", "tool shelf", "sand and finish"),
        ("greenhouse_wall_unit", "covering", "glue on oversize, trim, open the holes"),
    ],
)
def test_a_part_without_cuts_is_glued_painted_or_sanded(
    example: str, name: str, expected: str
) -> None:
    unit = example_unit(example)
    assert next_work(unit.by_name[name], unit) == expected


def test_a_covering_is_not_cut_to_size_before_it_is_glued() -> None:
    plan, unit = greenhouse_plan(), example_unit("greenhouse_wall_unit")
    tags = {g.title: g for sheet in tags_sheets(plan, unit) for g in groups(sheet.marks, "tag")}
    said = " ".join(text.text for text in texts(tags["covering"].marks))
    assert "next: glue on oversize, trim, open the holes" in said
    assert "cut to" not in said


def test_a_tag_has_the_number_and_the_board_of_the_cut_plan() -> None:
    unit = example_unit("pantry_cupboard")
    plan = cut_plan(unit, rounds=25)
    tags = {g.title: g for sheet in tags_sheets(plan, unit) for g in groups(sheet.marks, "tag")}
    for number, board in enumerate(plan.boards, start=1):
        for laid in board.laid:
            said = [text.text for text in texts(tags[laid.blank.name].marks)]
            assert said[0] == labels(plan)[laid.blank.name]
            assert any(line.endswith(f", board {number}") for line in said)


def test_tags_of_alike_blanks_count_up_in_the_order_of_the_saw() -> None:
    unit = example_unit("pantry_cupboard")
    plan = cut_plan(unit, rounds=25)
    tags = [g for sheet in tags_sheets(plan, unit) for g in groups(sheet.marks, "tag")]
    first = [texts(tag.marks)[0].text for tag in tags]
    assert [one for one in first if one.startswith("7.")] == [f"7.{n}" for n in range(1, 8)]


def test_a_tag_names_the_leftover_that_its_blank_comes_out_of() -> None:
    plan, unit = patched()
    (sheet,) = tags_sheets(plan, unit)
    assert ", board 1, old lid" in " ".join(text.text for text in texts(sheet.marks))


def test_what_a_tag_says_stays_in_it_however_much_it_is() -> None:
    plan, _ = patched()
    laid = plan.boards[0].laid[0]
    named = replace(laid, blank=replace(laid.blank, name="left drying frame shelf " * 3))
    box = PaperBox(20.0, 20.0, 106.0, 59.0)
    for words in (1, 10, 20):
        tag = _Tag(laid=named, item="7.1", board="board 1", work="cut to 800.4 × 268.4, " * words)
        said = list(_texts(tag, box))
        assert max(text.at.y for text in said) < box.bottom - 1.0
        levels = sorted({text.at.y for text in said[3:]})
        assert all(high - low >= 2.5 for low, high in pairwise(levels))
