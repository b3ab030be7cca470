"""Tags for the blanks."""

from __future__ import annotations

from cabinet.making.cut_plan import cut_plan
from drawings.cut_words import labels
from drawings.tags_sheet import next_work, tags_sheets
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


def test_a_patch_comes_first_and_the_set_ups_may_say_more() -> None:
    plan, unit = patched()
    (sheet,) = tags_sheets(plan, unit)
    assert "next: patch, sand and finish" in " ".join(text.text for text in texts(sheet.marks))
    (sheet,) = tags_sheets(plan, unit, {"panel": "setting 4"})
    assert "next: patch, setting 4" in " ".join(text.text for text in texts(sheet.marks))


def test_a_plain_board_is_sanded() -> None:
    _, unit = patched()
    assert next_work(unit.parts[0].board) == "sand and finish"


def test_a_tag_has_the_number_and_the_board_of_the_cut_plan() -> None:
    unit = example_unit("pantry_cupboard")
    plan = cut_plan(unit, rounds=25)
    tags = {g.title: g for sheet in tags_sheets(plan, unit) for g in groups(sheet.marks, "tag")}
    for number, board in enumerate(plan.boards, start=1):
        for laid in board.laid:
            said = [text.text for text in texts(tags[laid.blank.name].marks)]
            assert said[0] == labels(plan)[laid.blank.name]
            assert any(f"board {number}: " in line for line in said)
