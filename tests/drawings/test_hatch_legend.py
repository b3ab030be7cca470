"""The legend of cut faces: every stock once, in a free place and never within a view."""

from __future__ import annotations

from cabinet.stock import birch_plywood, rubber_sheet, solid_wood, steel_sheet
from drawings.ground import marks_box, texts
from drawings.hatch_legend import hatch_legend
from drawings.lint import lint_sheet
from drawings.marks import Group, Ink, Line, PaperBox, PaperPoint
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.ruling import outline

SIZE = SheetSize.A3
STOCKS = (
    birch_plywood(nominal=18, measured=17.6),
    rubber_sheet(3),
    birch_plywood(nominal=18, measured=17.6),
    steel_sheet(1.5),
    solid_wood("ash", measured=8, density_kg_m3=680),
)


def test_each_stock_is_told_once_with_its_code() -> None:
    """Boards first; DIN 919 school practice asks for a code, since all boards are hatched alike."""
    frame = frame_marks(SIZE, style_for(SIZE))
    legend = hatch_legend(STOCKS, frame, SIZE, 1.0)
    assert legend is not None
    told = [text.text for text in texts(legend)]
    assert told[0] == "Cut faces"
    assert len(told) == 5
    assert told[1] == "BP: birch plywood 18 (measured 17.6)"
    assert lint_sheet((*frame, legend), drawing_space(SIZE)) == ()


def test_boards_are_hatched_at_right_angles_to_their_faces() -> None:
    """The swatch lies level, so its lines stand upright (DIN 919 school practice)."""
    legend = hatch_legend(STOCKS[:1], (), SIZE, 1.0)
    assert legend is not None
    lines = [m for m in legend.marks if isinstance(m, Line) and m.ink is Ink.HATCH]
    assert len(lines) == 5
    assert all(abs(line.start.x - line.end.x) < 1e-6 for line in lines)


def test_it_keeps_out_of_views() -> None:
    """A view whose inside is free is still no place for it."""
    space = drawing_space(SIZE)
    inside = PaperBox(space.left + 40, space.top + 2, space.right - 1, space.bottom - 41)
    view = Group("view", (outline(inside, Ink.VISIBLE),), title="front", description="1:5")
    legend = hatch_legend(STOCKS[:2], (view,), SIZE, 1.0)
    assert legend is not None
    box = marks_box([legend])
    assert box is not None
    assert not box.overlaps(inside)


def test_a_full_sheet_gets_none() -> None:
    """Rather none than one that covers something."""
    space = drawing_space(SIZE)
    lines = [
        Line(PaperPoint(space.left, y), PaperPoint(space.right, y), Ink.VISIBLE)
        for y in range(int(space.top), int(space.bottom), 9)
    ]
    assert hatch_legend(STOCKS, lines, SIZE, 1.0) is None
    assert hatch_legend((), (), SIZE, 1.0) is None


def test_metal_too_thin_to_be_hatched_is_told_to_be_solid() -> None:
    """1.5 mm are 0.15 mm on paper at 1:10, less than their own outlines."""
    legends = [hatch_legend(STOCKS, (), SIZE, scale) for scale in (1.0, 0.1)]
    large, small = ([text.text for text in texts(one)] for one in legends if one is not None)
    assert not [words for words in large if "drawn solid" in words]
    assert [words for words in small if "drawn solid" in words] == [
        "ST: steel sheet 1.5, thin: drawn solid",
        "RU: rubber sheet 3, thin: drawn solid",
    ]
