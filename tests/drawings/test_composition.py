"""Blocks set out on a sheet."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.block import Block
from drawings.composition import GAP, KEY, aligned, composed, is_too_large, notes_width
from drawings.ground import marks_box
from drawings.marks import Ink, PaperBox
from drawings.paper import SheetSize, drawing_space
from drawings.ruling import outline
from drawings.title_block import title_block_box

SPACE = drawing_space(SheetSize.A3)
TITLE = title_block_box(SheetSize.A3)


def block(width: float, height: float) -> Block:
    """A block that is nothing but its outline."""
    box = PaperBox(0, 0, width, height)
    return Block(marks=(outline(box, Ink.VISIBLE),), box=box, outline=box)


def notes(width: float) -> Block:
    """Notes that get higher where they are narrower."""
    return block(width, 3400 / width)


@pytest.mark.parametrize(
    ("cluster", "details"),
    [
        ((310, 147), [(61, 57), (73, 43)]),
        ((263, 87), [(91, 61), (57, 47), (63, 51)]),
        ((331, 153), []),
        ((147, 163), [(97, 71)]),
    ],
)
@pytest.mark.parametrize("has_key", [True, False])
def test_everything_has_its_place(
    *, cluster: tuple[float, float], details: list[tuple[float, float]], has_key: bool
) -> None:
    """Nothing overlaps, nothing leaves the space, the key is there if it is wanted."""
    found = composed(
        aligned(block(*cluster), []),
        [block(*size) for size in details],
        notes,
        title=TITLE,
        space=SPACE,
        has_key=has_key,
    )
    assert found is not None
    boxes = [TITLE, found.cluster.box, found.notes.box, *(d.box for d in found.details)]
    assert (found.key is not None) is has_key
    if found.key is not None:
        assert found.key.width == pytest.approx(KEY)
        boxes.append(found.key)
    for index, one in enumerate(boxes):
        assert SPACE.contains(one)
        for other in boxes[index + 1 :]:
            assert not one.overlaps(other)


def test_details_stand_level() -> None:
    """Their headings are on one line, left to right in the order of their letters."""
    found = composed(
        aligned(block(310, 147), []),
        [block(61, 57), block(73, 43)],
        notes,
        title=TITLE,
        space=SPACE,
        has_key=False,
    )
    assert found is not None
    one, other = (detail.box for detail in found.details)
    assert one.top == other.top
    assert other.left - one.right >= GAP


def test_what_does_not_fit_is_not_squeezed() -> None:
    """A cluster wider than the space has no place."""
    assert (
        composed(aligned(block(391, 100), []), [], notes, title=TITLE, space=SPACE, has_key=False)
        is None
    )


def test_neighbouring_views_are_aligned() -> None:
    """Views above and below share the main view's left edge, those beside it its top."""
    main = block(97, 61)
    below, right = block(97, 13), block(17, 61)
    whole = aligned(main, [("below", below), ("right", right)])
    assert whole.box.height == pytest.approx(61 + GAP + 13)
    assert whole.box.width == pytest.approx(97 + GAP + 17)
    assert whole.outline == main.outline
    moved = whole.moved(31, 17)
    assert moved.box == whole.box.moved(31, 17)
    foot, side = 61 + GAP, 97 + GAP
    corners = [(31, 17), (31, 17 + foot), (31 + side, 17)]
    drawn = [marks_box([mark]) for mark in moved.marks]
    assert [(box.left, box.top) for box in drawn if box] == corners


sizes = st.tuples(st.floats(13, 380), st.floats(13, 260))


@given(
    sizes,
    st.lists(st.tuples(st.floats(13, 90), st.floats(13, 97)), max_size=3),
    st.floats(1700, 9700),
    st.sampled_from([SheetSize.A4, SheetSize.A3]),
    st.booleans(),
)
def test_what_can_be_set_out_is_never_told_to_be_too_large(
    cluster: tuple[float, float],
    details: list[tuple[float, float]],
    area: float,
    size: SheetSize,
    has_key: bool,
) -> None:
    """What is told before trying is only what trying would find."""
    title, space = title_block_box(size), drawing_space(size)
    blocks = [block(*one) for one in details]

    def some_notes(width: float) -> Block:
        return block(width, area / width)

    found = composed(
        aligned(block(*cluster), []), blocks, some_notes, title=title, space=space, has_key=has_key
    )
    told = is_too_large(
        block(*cluster).box,
        [one.box for one in blocks],
        some_notes(notes_width(title)).box,
        title=title,
        space=space,
    )
    assert not (told and found)


@pytest.mark.parametrize(
    ("cluster", "details", "size"),
    [
        ((173, 31), [], SheetSize.A4),
        ((151, 143), [(53, 68)], SheetSize.A4),
        ((31, 271), [], SheetSize.A3),
        ((361, 197), [(53, 68)], SheetSize.A3),
    ],
)
def test_what_is_too_wide_or_too_high_is_told_before_trying(
    cluster: tuple[float, float], details: list[tuple[float, float]], size: SheetSize
) -> None:
    """Too wide, too high by itself, or with what cannot stand beside it."""
    title, space = title_block_box(size), drawing_space(size)
    boxes = [block(*one).box for one in details]
    told = notes(notes_width(title)).box
    assert is_too_large(block(*cluster).box, boxes, told, title=title, space=space)
    assert not is_too_large(block(31, 97).box, boxes, told, title=title, space=space)
