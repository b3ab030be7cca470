"""The title block against ISO 7200 and the projection symbol against ISO 5456-2."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields, replace

import pytest

from cabinet.errors import SizeError
from drawings.fitting import ELLIPSIS
from drawings.lettering import text_box
from drawings.lint import lint_sheet
from drawings.marks import Circle, Group, Mark, PaperPoint, Polyline, Text
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.title_block import (
    TitleBlock,
    projection_symbol,
    title_block_box,
    title_block_marks,
)

BLOCK = TitleBlock(
    legal_owner="Reed Bank workshop",
    identification_number="SC-03",
    date_of_issue="2031-04-17",
    sheet_number=3,
    sheet_count=16,
    title="Left side",
    approval_person="the maker",
    creator="workshop office",
    document_type="part drawing",
    supplementary_title="Seed cabinet",
    revision="B",
    scale="1:5 (1:1)",
    material="birch plywood 17.6",
    general_tolerance="ISO 2768-c",
    pieces="2",
)

# ISO 7200:2004, tables 1 to 3: mandatory fields.
MANDATORY = {
    "legal_owner",
    "identification_number",
    "date_of_issue",
    "sheet_number",
    "title",
    "approval_person",
    "creator",
    "document_type",
}

# ISO 7200:2004, tables 1 to 3: recommended numbers of characters.
CHARACTERS = {
    "identification_number": 16,
    "date_of_issue": 10,
    "title": 25,
    "supplementary_title": 25,
    "approval_person": 20,
    "creator": 20,
    "document_type": 30,
    "revision": 2,
}

SIZES = pytest.mark.parametrize("size", list(SheetSize), ids=lambda size: size.name)


def texts_in(marks: Sequence[Mark]) -> Iterator[Text]:
    for mark in marks:
        if isinstance(mark, Group):
            yield from texts_in(mark.marks)
        elif isinstance(mark, Text):
            yield mark


def printed(block: TitleBlock, size: SheetSize = SheetSize.A3) -> list[str]:
    return [text.text for text in texts_in(title_block_marks(block, size, style_for(size)))]


@SIZES
def test_stands_in_the_lower_right_180_wide(size: SheetSize) -> None:
    """ISO 7200:2004: 180 mm on all sheets, which fills an A4 from side to side."""
    box, space = title_block_box(size), drawing_space(size)
    assert box.width == 180
    assert (box.right, box.bottom) == (space.right, space.bottom)
    assert (box.left == space.left) == (size is SheetSize.A4)


def test_mandatory_fields_cannot_be_left_out() -> None:
    for name in MANDATORY:
        arguments = {field.name: getattr(BLOCK, field.name) for field in fields(TitleBlock)}
        del arguments[name]
        with pytest.raises(TypeError, match=name):
            TitleBlock(**arguments)


def test_every_field_is_printed() -> None:
    words = printed(BLOCK)
    for field in fields(TitleBlock):
        value = getattr(BLOCK, field.name)
        if isinstance(value, str):
            assert value in words, field.name
    assert "3 of 16" in words
    assert "A3" in words
    assert "A4" in printed(BLOCK, SheetSize.A4)
    assert "dimensions in mm" in words


@pytest.mark.parametrize("name", sorted(CHARACTERS))
def test_recommended_characters_fit_uncut(name: str) -> None:
    """ISO 7200:2004: of letters as wide as an n and of figures."""
    for letter in ("n", "0"):
        value = letter * CHARACTERS[name]
        words = printed(replace(BLOCK, **{name: value}))  # type: ignore[arg-type]
        assert ELLIPSIS not in "".join(words)
        assert value in "".join(words)


def test_four_figure_sheet_numbers_fit_uncut() -> None:
    """ISO 7200:2004: 4 characters for the sheet number and 4 for the number of sheets."""
    words = printed(replace(BLOCK, sheet_number=1234, sheet_count=5678))
    assert "1234 of 5678" in " ".join(words)


@pytest.mark.parametrize("size", [SheetSize.A4, SheetSize.A3], ids=lambda size: size.name)
@pytest.mark.parametrize("length", [1, 8, 25, 90])
def test_texts_of_any_length_stay_in_their_fields(size: SheetSize, length: int) -> None:
    """No text meets a ruling, another text or the frame, however long or short it is."""
    names = [
        field.name for field in fields(TitleBlock) if isinstance(getattr(BLOCK, field.name), str)
    ]
    value = ("Quilting room " * 8)[:length]
    block = replace(BLOCK, **dict.fromkeys(names, value))  # type: ignore[arg-type]
    style = style_for(size)
    marks = (*frame_marks(size, style), *title_block_marks(block, size, style))
    assert [fault.sentence for fault in lint_sheet(marks, drawing_space(size))] == []
    box = title_block_box(size)
    for text in texts_in(title_block_marks(block, size, style)):
        assert box.contains(text_box(text))


def test_too_long_a_text_is_cut_where_one_sees_it() -> None:
    words = printed(replace(BLOCK, material="birch plywood " * 9))
    assert any(word.endswith(ELLIPSIS) for word in words)


def test_empty_date_is_a_blank_field() -> None:
    with_date, without = printed(BLOCK), printed(replace(BLOCK, date_of_issue=""))
    assert set(with_date) - set(without) == {"2031-04-17"}
    assert "date of issue" in without


@pytest.mark.parametrize(
    "change",
    [
        {"legal_owner": " "},
        {"identification_number": ""},
        {"title": "two\nlines"},
        {"creator": ""},
        {"document_type": ""},
        {"material": "a\tb"},
        {"revision": 2},
        {"sheet_number": 0},
        {"sheet_number": 17},
        {"sheet_count": 0},
        {"sheet_count": True},
    ],
)
def test_bad_fields_are_refused(change: dict[str, object]) -> None:
    with pytest.raises(SizeError):
        replace(BLOCK, **change)  # type: ignore[arg-type]


def symbol() -> tuple[Polyline, list[Circle]]:
    (group,) = projection_symbol(PaperPoint(113, 71))
    assert isinstance(group, Group)
    (frustum,) = [mark for mark in group.marks if isinstance(mark, Polyline)]
    circles = [mark for mark in group.marks if isinstance(mark, Circle)]
    return frustum, sorted(circles, key=lambda circle: circle.radius)


def test_symbol_of_first_angle_projection() -> None:
    """ISO 5456-2:1996: circles to the right, the frustum's large end next to them."""
    frustum, (small, large) = symbol()
    xs = [point.x for point in frustum.points]
    ends = {x: [p.y for p in frustum.points if p.x == x] for x in (min(xs), max(xs))}
    height = {x: max(ys) - min(ys) for x, ys in ends.items()}
    assert height[max(xs)] > height[min(xs)]
    assert small.centre == large.centre
    assert large.centre.x - large.radius > max(xs)


def test_proportions_of_the_symbol() -> None:
    """ISO 5456-2:1996, annex (from memory): ends h and 2h, length 2h, circles alike."""
    frustum, (small, large) = symbol()
    xs = [point.x for point in frustum.points]
    left = [point.y for point in frustum.points if point.x == min(xs)]
    right = [point.y for point in frustum.points if point.x == max(xs)]
    h = max(left) - min(left)
    assert max(right) - min(right) == pytest.approx(2 * h)
    assert max(xs) - min(xs) == pytest.approx(2 * h)
    assert (2 * small.radius, 2 * large.radius) == pytest.approx((h, 2 * h))
