"""Part sheets as a whole: readable, true to scale, complete."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

import pytest
from hypothesis import given, settings

from cabinet.board import AXIS_NAMES, At, Surface
from cabinet.errors import DesignError
from cabinet.features import Groove, Hole, HoleRow, Perforation
from cabinet.frame import UnitBox, UnitPoint
from cabinet.part import Board, Part
from drawings.dimensioning import board_dimensions
from drawings.ground import marks_box, texts
from drawings.interruption import BREAK_GAP
from drawings.lettering import text_box
from drawings.lint import lint_sheet
from drawings.marks import Circle, Group, Ink, Line, Mark, PaperBox, Polyline
from drawings.paper import SheetSize, drawing_space
from drawings.part_notes import Surroundings
from drawings.part_sheet import part_sheet, surface_names
from drawings.sheet import Sheet
from drawings.title_block import TitleBlock
from drawings.views import plan_views
from tests.drawings.sample_parts import (
    SAMPLES,
    cleat,
    divider,
    door,
    doubled_top,
    plinth,
    rail,
    shelf,
    side,
    steel_panel,
    tiny,
)
from tests.strategies import long_boards, parts

BLOCK = TitleBlock(
    legal_owner="workshop",
    identification_number="TR-07",
    date_of_issue="",
    sheet_number=3,
    sheet_count=16,
    title="part",
    approval_person="",
    creator="workshop",
    document_type="part drawing",
    supplementary_title="Tool wall unit",
    general_tolerance="ISO 2768-c",
)


def box(*numbers: float) -> UnitBox:
    """A box from six numbers."""
    low, high = numbers[:3], numbers[3:]
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


BOXES = {
    "left side": box(0, 0, 0, 17.7, 284, 604),
    "right side": box(1158, 0, 0, 1176, 284, 604),
    "top": box(0, 0, 604, 1176, 290, 640),
    "divider": box(571, 20, 0, 589, 260, 604),
}


LONG = 2358.0
LONG_FEATURES = (
    Groove(name="groove", surface=Surface.LOW, near=At(Surface.A, 5), width=6.3, depth=7),
    HoleRow(
        name="row",
        surface=Surface.A,
        first=At(Surface.START, 163),
        line=At(Surface.LOW, 43),
        count=64,
        pitch=32,
        diameter=5,
        depth=9,
    ),
)


@lru_cache(maxsize=32)
def sheet_of(sample: Callable[[], Part]) -> Sheet:
    """The sheet of a sample, made once."""
    return part_sheet(sample(), block=BLOCK, around=Surroundings(boxes=BOXES))


def groups(marks: Sequence[Mark], name: str) -> Iterator[Group]:
    """All groups of a name, however deep."""
    for mark in marks:
        if isinstance(mark, Group):
            if mark.name == name:
                yield mark
            yield from groups(mark.marks, name)


def words(sheet: Sheet) -> list[str]:
    """Everything written on a sheet."""
    return [text.text for mark in sheet.marks for text in texts(mark)]


def scale_value(text: str) -> float:
    """A scale as a number."""
    one, other = text.split(":")
    return float(one) / float(other)


def assert_contract(sheet: Sheet) -> int:
    """Paper length of each dimension line divided by the view's scale is its value.

    A line over what an interrupted view leaves out is shorter by just that, and is marked so.
    """
    count = 0
    cut = sheet.views[0].interruption
    for record in sheet.dimensions.values():
        by_title = {entry["title"]: entry for entry in record["dimensions"]}  # type: ignore[attr-defined]
        for view in groups(sheet.marks, "view"):
            scale = scale_value(view.description)
            for group in groups(view.marks, "dimension"):
                lines = [
                    mark
                    for mark in group.marks
                    if isinstance(mark, Line) and mark.ink is Ink.DIMENSION_LINE
                ]
                assert len(lines) == 1
                assert len(texts(group)) == 1
                line = lines[0]
                paper = math.hypot(line.end.x - line.start.x, line.end.y - line.start.y)
                entry = by_title[group.title]
                ends = [node["coordinate"] for node in (entry["from"], entry["to"])]
                over = [
                    high - low
                    for low, high in (() if cut is None else cut.spans)
                    if cut is not None
                    and AXIS_NAMES[cut.axis] == entry["axis"]
                    and min(ends) < low < max(ends)
                ]
                left_out = sum(length * scale - BREAK_GAP for length in over)
                assert (paper + left_out) / scale == pytest.approx(entry["value"], abs=1e-6)
                assert texts(group)[0].text == entry["text"]
                assert group.is_not_to_scale is bool(over)
                assert entry.get("is_to_scale", True) is not bool(over)
                count += 1
    return count


@pytest.mark.parametrize("sample", SAMPLES)
def test_sheets_are_readable(sample: Callable[[], Part]) -> None:
    """Sheets are readable."""
    sheet = sheet_of(sample)
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_dimension_is_drawn_to_scale(sample: Callable[[], Part]) -> None:
    """Every dimension is drawn to scale."""
    sheet = sheet_of(sample)
    drawn = assert_contract(sheet)
    (record,) = sheet.dimensions.values()
    noted = sum(word.startswith("t = ") for word in words(sheet))
    assert drawn + noted == len(record["dimensions"])  # type: ignore[arg-type]


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_callout_is_on_the_sheet(sample: Callable[[], Part]) -> None:
    """Every callout is on the sheet."""
    sheet = sheet_of(sample)
    (record,) = sheet.dimensions.values()
    notes = [" ".join(t.text for t in texts(group)) for group in groups(sheet.marks, "note")]
    callouts = record["callouts"]
    assert isinstance(callouts, list)
    assert len(notes) == len(callouts)
    for callout in callouts:
        assert any(note.startswith(callout["text"]) for note in notes)


@pytest.mark.parametrize("sample", SAMPLES)
def test_views_stay_in_the_drawing_space_and_apart(sample: Callable[[], Part]) -> None:
    """Views stay in the drawing space and apart."""
    sheet = sheet_of(sample)
    space = drawing_space(sheet.size)
    boxes = []
    for name in ("view", "notes", "key", "title-block"):
        for group in groups(sheet.marks, name):
            found = marks_box([group])
            assert found is not None
            assert space.contains(found)
            boxes.append(found)
    for index, one in enumerate(boxes):
        for other in boxes[index + 1 :]:
            assert not one.overlaps(other)


@settings(max_examples=25)
@given(parts())
def test_sheets_of_generated_parts(part: Part) -> None:
    """Sheets of generated parts."""
    sheet = part_sheet(part, block=BLOCK)
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()
    assert_contract(sheet)


def test_the_same_part_gives_the_same_marks() -> None:
    """The same part gives the same marks."""
    one = part_sheet(doubled_top(), block=BLOCK, around=Surroundings(boxes=BOXES))
    assert one == sheet_of(doubled_top)


def test_small_boards_are_drawn_large_and_long_ones_small() -> None:
    """Small boards are drawn large and long ones small."""
    scales = {sample: sheet_of(sample).views[0].scale for sample in (tiny, side, plinth)}
    assert scales == {tiny: "2:1", side: "1:2", plinth: "1:10"}
    assert sheet_of(tiny).size is SheetSize.A4
    assert sheet_of(side).size is SheetSize.A3


def test_datum_edges_and_faces_are_named() -> None:
    """Datum edges and faces are named."""
    said = words(sheet_of(side))
    for word in ("front edge, fence", "top end, stop", "back edge", "bottom end", "right face"):
        assert word in said
    assert "grain" in said
    assert any(word.startswith("Fence: front edge. Stop: top end.") for word in said)


def test_edges_left_proud_are_told_in_both_states() -> None:
    """Edges left proud are told in both states."""
    said = words(sheet_of(side))
    assert "both ends 1 proud, trimmed flush" in said
    assert any("602.6 × 284" in word for word in said)
    assert "604.6" in said


def test_a_doubled_board_tells_its_blanks() -> None:
    """Blanks 4 larger on every edge: common practice, no source."""
    said = " ".join(words(sheet_of(doubled_top)))
    assert "Two blanks 1184.6 × 298, glued face to face, then cut to 1176.6 × 290." in said


def test_what_goes_into_a_groove_is_told_with_its_measured_thickness() -> None:
    """What goes into a groove is told with its measured thickness."""
    around = Surroundings(mates={"divider": divider()}, sheets={"divider": 7})
    said = " ".join(words(part_sheet(doubled_top(), block=BLOCK, around=around)))
    assert "takes the divider, sheet 7; follows from its measured 17.7." in said


def test_remarks_and_pieces_are_printed() -> None:
    """Remarks and pieces are printed."""
    around = Surroundings(
        alike=("upper shelf", "lower shelf"), remarks=("Left hand; right hand is sheet 4.",)
    )
    sheet = part_sheet(shelf(), block=BLOCK, around=around, quantity=2)
    said = words(sheet)
    assert "Left hand; right hand is sheet 4." in said
    assert "2 pieces: upper shelf and lower shelf." in said
    assert "2" in said


def test_pieces_with_commas_in_their_names_stay_apart() -> None:
    """Names that have commas of their own are parted by semicolons."""
    around = Surroundings(alike=("foot, front left", "foot, back left", "foot, right"))
    said = " ".join(words(part_sheet(shelf(), block=BLOCK, around=around, quantity=3)))
    assert "3 pieces: foot, front left; foot, back left; and foot, right." in said


def test_names_in_a_narrow_strip_do_not_read_as_one() -> None:
    """Names on one level keep 4 apart, in a lipping 17.4 wide at 1:2 as well."""
    strip = replace(shelf().board, length=391.5, width=17.4, features=())
    sheet = part_sheet(replace(shelf(), board=strip), block=BLOCK)
    view = next(groups(sheet.marks, "view"))
    names = [t for t in texts(view) if any(w in t.text for w in ("edge", "end"))]
    boxes = [text_box(text) for text in names]
    assert len(boxes) == 4
    for index, one in enumerate(boxes):
        for other in boxes[index + 1 :]:
            if one.top < other.bottom and other.top < one.bottom:
                assert max(one.left, other.left) - min(one.right, other.right) >= 3.9


def test_the_second_face_says_what_stands_on_the_first() -> None:
    """The second face says what stands on the first."""
    notes = [
        " ".join(t.text for t in texts(group)) for group in groups(sheet_of(divider).marks, "note")
    ]
    assert "2 × 11 × ⌀5, 11 deep; across the width as on the right face" in notes


def test_bevels_and_slots_are_told_where_they_show() -> None:
    """Bevels and slots are told where they show."""
    for sample, text in (
        (cleat, "45° off square"),
        (rail, "4 × slot for biscuit no. 0, 4 wide, 8 deep"),
    ):
        details = [
            group
            for group in groups(sheet_of(sample).marks, "view")
            if group.title.startswith("detail")
        ]
        said = [
            " ".join(t.text for t in texts(note))
            for detail in details
            for note in groups(detail.marks, "note")
        ]
        assert text in said


def test_sharp_metal_is_cautioned() -> None:
    """Sharp metal is cautioned."""
    assert "Edges are sharp until they are deburred." in words(sheet_of(steel_panel))


def test_the_perforation_is_designated() -> None:
    """Source: ISO 7806: R round, T staggered at 60 degrees, diameter and pitch (R5T8)."""
    feature = steel_panel().board.features[0]
    assert isinstance(feature, Perforation)
    assert any("(R5T8)" in word for word in words(sheet_of(steel_panel)))


def test_main_views_and_details_have_their_scales() -> None:
    """Main views and details have their scales."""
    sheet = sheet_of(door)
    assert [view.scale for view in sheet.views] == ["1:5", "2:1", "2:1"]
    said = words(sheet)
    assert "Z (2:1)" in said
    assert "1:5 (2:1)" in said


def test_the_key_shows_the_part() -> None:
    """The key shows the part."""
    keys = list(groups(sheet_of(side).marks, "key"))
    assert len(keys) == 1
    assert not list(groups(part_sheet(side(), block=BLOCK).marks, "key"))


def _busy(length: float) -> Part:
    """A board with holes all along it, nowhere at one pitch, so that no view can be broken."""
    part, apart = plinth(), 431.0
    one = part.board.features[0]
    assert isinstance(one, Hole)
    holes = tuple(
        replace(
            one,
            name=f"screw {index}",
            centre=(At(Surface.START, index * apart + index % 3 * 17), At(Surface.LOW, 43)),
        )
        for index in range(1, int(length / apart))
    )
    return replace(part, board=replace(part.board, length=length, features=holes))


def test_what_fits_no_a3_gets_an_a2() -> None:
    """What fits no A3 gets an A2: larger paper only where smaller paper fails at any scale."""
    sheet = part_sheet(_busy(9200.0), block=BLOCK)
    assert sheet.size is SheetSize.A2
    assert sheet.views[0].interruption is None
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()


def test_what_fits_nowhere_is_refused() -> None:
    """What fits nowhere is refused."""
    with pytest.raises(DesignError, match="plinth"):
        part_sheet(_busy(17200.0), block=BLOCK)


@pytest.mark.parametrize("length", [2358.0, 9200.0, 17200.0])
def test_a_long_plain_board_is_broken_and_stays_on_a_small_sheet(length: float) -> None:
    """Its holes stand near the ends; what lies between is left out, and every figure is true."""
    part = plinth()
    hole = part.board.features[0]
    assert isinstance(hole, Hole)
    holes = tuple(
        replace(hole, name=name, centre=(At(end, 61.0), At(Surface.LOW, 43)))
        for name, end in (("one", Surface.START), ("other", Surface.END))
    )
    sheet = part_sheet(
        replace(part, board=replace(part.board, length=length, features=holes)), block=BLOCK
    )
    assert sheet.size in (SheetSize.A4, SheetSize.A3)
    cut = sheet.views[0].interruption
    assert cut is not None
    assert cut.left_out > length / 2
    assert assert_contract(sheet) > 0
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()
    assert "zigzag" in " ".join(words(sheet))
    assert scale_value(sheet.views[0].scale) >= 0.2


@settings(max_examples=20)
@given(board=long_boards())
def test_sheets_of_generated_long_boards(board: Board) -> None:
    """Readable and true, broken or not; every callout is there and no ring lies on a break."""
    part = replace(plinth(), board=board)
    sheet = part_sheet(part, block=BLOCK)
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()
    assert_contract(sheet)
    (record,) = sheet.dimensions.values()
    callouts = record["callouts"]
    assert isinstance(callouts, list)
    notes = [group.title for group in groups(sheet.marks, "note")]
    assert sorted(notes) == sorted(callout["title"] for callout in callouts)
    for gap in groups(sheet.marks, "break"):
        box = marks_box([gap])
        assert box is not None
        for view in groups(sheet.marks, "view"):
            for mark in view.marks:
                if isinstance(mark, Circle) and mark.ink is Ink.RING:
                    ring = marks_box([mark])
                    assert ring is not None
                    assert not ring.overlaps(box)


def test_nothing_is_drawn_between_the_lines_of_a_break_but_what_crosses_it() -> None:
    """Edges, hidden edges and centre lines end at it; extension and dimension lines run on."""
    rail = replace(plinth(), board=replace(plinth().board, length=LONG, features=LONG_FEATURES))
    sheet = part_sheet(rail, block=BLOCK)
    cut = sheet.views[0].interruption
    assert cut is not None
    (pair,) = groups(sheet.marks, "break")
    lines = [line for line in pair.marks if isinstance(line, Polyline)]
    left, right = sorted(line.points[0].x for line in lines)
    assert right - left == pytest.approx(BREAK_GAP)
    view = next(groups(sheet.marks, "view"))
    shown = [mark for mark in view.marks if isinstance(mark, Line)]
    assert {mark.ink for mark in shown} >= {Ink.VISIBLE, Ink.HIDDEN, Ink.CENTRE}
    reaching = 0
    for line in shown:
        low, high = sorted((line.start.x, line.end.x))
        assert high <= left + 1e-6 or low >= right - 1e-6
        reaching += abs(high - left) < 1e-6 or abs(low - right) < 1e-6
    # Two edges, the groove's hidden wall and the row's centre line, on either side.
    assert reaching >= 8


def test_all_links_are_in_the_plan_of_the_sheet() -> None:
    """All links are in the plan of the sheet."""
    part = doubled_top()
    (record,) = sheet_of(doubled_top).dimensions.values()
    dimensions = record["dimensions"]
    assert isinstance(dimensions, list)
    found = board_dimensions(part.board, surface_names(part))
    plan = plan_views(part.board, found)
    count = sum(len(view.links) for view in plan.views)
    count += sum(len(detail.links) for detail in plan.details) + len(plan.notes)
    assert count == len(dimensions)


def test_spaces_are_inside_the_frame() -> None:
    """Source: ISO 5457:1999, table 1: A3 has 390 by 277 mm inside the frame."""
    space = drawing_space(SheetSize.A3)
    assert (space.width, space.height) == (390, 277)
    assert space.contains(PaperBox(25, 15, 400, 280))
