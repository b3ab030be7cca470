"""What parts allow, derived from whole units."""

from __future__ import annotations

import pytest

from cabinet.making.allowance import Need, part_allowance
from cabinet.making.blanks import blanks
from tests.cabinet.making.racks import small_unit
from tests.examples import example_unit

GREENHOUSE = "greenhouse_wall_unit"


def needs(unit_name: str, part_name: str) -> dict[str, Need]:
    unit = example_unit(unit_name)
    allowed = part_allowance(unit, unit.by_name[part_name])
    return {keep.what: keep.need for keep in allowed.keep_outs}


def test_the_inside_of_a_side_must_be_sound_only_where_no_door_hides_it() -> None:
    closed = example_unit(GREENHOUSE)
    side = closed.by_name["left side"]
    told = {keep.what: keep for keep in part_allowance(closed, side).keep_outs}
    assert told["face B shows"].box.high[:2] == (side.board.length, side.board.width)
    assert "face A shows" not in told
    # 640 less 3 of covering, 1 proud at both ends; seen from the front edge, which is the far one,
    # to the face of the rear door: lip 10, half the play 0.5 before the bar of 8 in the second
    # track, 14.9 further back, less the door's 11.9.
    strip = told["face A is seen past the doors"].box
    seen = 10 + 14.9 + 8 - 0.5 - 11.9
    assert sorted((strip.low[1], strip.high[1])) == pytest.approx([290 - seen, 290])
    assert (strip.low[2], strip.high[2]) == (17.7, 17.7)
    open_unit = small_unit(813.0, 587.0, 287.0, 1)
    told = {k.what: k for k in part_allowance(open_unit, open_unit.by_name["left side"]).keep_outs}
    assert {"face A shows", "face B shows"} <= set(told)
    assert "face A is seen past the doors" not in told


def test_joints_hardware_and_features_need_sound_wood() -> None:
    told = needs(GREENHOUSE, "left side")
    assert told["front pin row, left bay"] is Need.CUT
    assert told["joint with top"] is Need.JOINT
    assert told["shelf pin 5 × 20"] is Need.HARDWARE
    assert told["face B shows"] is Need.SHOWS
    assert "face A shows" not in told


def test_the_whole_face_below_a_covering_is_glued() -> None:
    unit = example_unit(GREENHOUSE)
    allowed = part_allowance(unit, unit.by_name["covering"])
    glued = [keep for keep in allowed.keep_outs if keep.what == "glued to top"]
    assert [keep.need for keep in glued] == [Need.GLUE]
    assert not [k for k in allowed.keep_outs if k.need is Need.JOINT and k.what.endswith("top")]
    low, high = glued[0].box.low, glued[0].box.high
    assert high[0] - low[0] > 1160
    assert high[1] - low[1] == 290


def test_a_cleat_is_free_but_for_its_bevel_its_screws_and_its_glue() -> None:
    told = needs(GREENHOUSE, "cleat, wall half")
    assert set(told.values()) <= {Need.CUT, Need.HARDWARE, Need.JOINT}
    assert "hanging bevel" in told


def test_blanks_of_the_greenhouse_unit() -> None:
    unit = example_unit(GREENHOUSE)
    made = {blank.name: blank for blank in blanks(unit)}
    top = made["top, layer 2 of 2"]
    # 1176.6 x 290 and 4 on every edge.
    assert (top.length, top.width) == (1184.6, 298.0)
    assert top.is_oversize
    assert (made["left side"].length, made["left side"].width) == (639.0, 290.0)
    assert sum(blank.parts == ("base",) for blank in made.values()) == 2
    glued = [k for k in made["top, layer 1 of 2"].keep_outs if "other layer" in k.what]
    assert [keep.box.low[2] for keep in glued] == [17.7]
