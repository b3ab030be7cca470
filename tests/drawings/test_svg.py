"""The SVG writer, read back with an XML parser."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cabinet.errors import SizeError, UnknownNameError
from drawings.lettering import font_size, text_width
from drawings.marks import Anchor, Arc, Circle, Group, Ink, Line, Mark, PaperPoint, Polyline, Text
from drawings.style import A3_STYLE
from drawings.svg import svg_document

ROOT = Path(__file__).parents[2]

NS = "{http://www.w3.org/2000/svg}"

MARKS: tuple[Mark, ...] = (
    Group(
        "view",
        (
            Line(PaperPoint(30, 40), PaperPoint(0.1 + 0.2, 1e-7), Ink.VISIBLE),
            Polyline((PaperPoint(1, 2), PaperPoint(3, 5), PaperPoint(8, 13)), Ink.HIDDEN),
            Polyline((PaperPoint(1, 2), PaperPoint(3, 5), PaperPoint(8, 13)), Ink.CUT, True),
            Circle(PaperPoint(61, 37), 2.5, Ink.RING),
            Arc(PaperPoint(100, 50), 10, 0, 90, Ink.VISIBLE),
        ),
        title='left side <b>& "co"',
        description="1:5",
    ),
    Group(
        "dimension",
        (
            Line(PaperPoint(30, 60), PaperPoint(90, 60), Ink.DIMENSION_LINE),
            Text(PaperPoint(60, 59), "604.6", 3.5, Anchor.MIDDLE),
        ),
        title="length, base",
        is_not_to_scale=True,
    ),
    Text(PaperPoint(20, 90), "width <b>&", 2.5, Anchor.END, is_upright=False, is_bold=True),
)


def written(marks: tuple[Mark, ...] = MARKS) -> str:
    return svg_document(title="Sheet 3 <&>", width=420, height=297, marks=marks, style=A3_STYLE)


def parsed(marks: tuple[Mark, ...] = MARKS) -> ET.Element:
    return ET.fromstring(written(marks).encode())


def with_class(root: ET.Element, name: str) -> list[ET.Element]:
    return [item for item in root.iter() if name in item.get("class", "").split()]


def test_one_unit_is_one_millimetre() -> None:
    """SVG 1.1: width and height in mm with a viewBox of the same numbers."""
    root = parsed()
    assert (root.get("width"), root.get("height")) == ("420mm", "297mm")
    assert root.get("viewBox") == "0 0 420 297"
    (paper,) = with_class(root, "paper")
    assert [paper.get(name) for name in ("x", "y", "width", "height")] == ["0", "0", "420", "297"]


def test_markup_in_names_comes_out_as_text() -> None:
    root = parsed()
    assert root.findtext(f"{NS}title") == "Sheet 3 <&>"
    (view,) = [item for item in with_class(root, "view") if item.tag == f"{NS}g"]
    assert view.findtext(f"{NS}title") == 'left side <b>& "co"'
    assert view.findtext(f"{NS}desc") == "1:5"
    assert [item.tag for item in view[:2]] == [f"{NS}title", f"{NS}desc"]
    assert not list(root.iter(f"{NS}b"))


def test_dimension_has_one_line_from_end_to_end() -> None:
    (group,) = with_class(parsed(), "dimension")
    assert group.get("class") == "dimension not-to-scale"
    (line,) = with_class(group, "dimension-line")
    assert [line.get(name) for name in ("x1", "y1", "x2", "y2")] == ["30", "60", "90", "60"]
    (text,) = group.iter(f"{NS}text")
    assert text.text == "604.6"


def test_text_keeps_its_box_in_every_viewer() -> None:
    texts = {item.text: item for item in parsed().iter(f"{NS}text")}
    figure, turned = texts["604.6"], texts["width <b>&"]
    assert float(figure.get("textLength", "")) == pytest.approx(
        text_width("604.6", 3.5), abs=0.0006
    )
    assert float(figure.get("font-size", "")) == pytest.approx(font_size(3.5), abs=0.0006)
    assert figure.get("lengthAdjust") == "spacingAndGlyphs"
    assert figure.get("text-anchor") == "middle"
    assert figure.get("transform") is None
    assert turned.get("transform") == "rotate(-90 20 90)"
    assert turned.get("text-anchor") == "end"
    assert turned.get("font-weight") == "bold"


def test_every_ink_has_its_class() -> None:
    sheet = written()
    for ink in Ink:
        line = A3_STYLE.line(ink)
        rule = re.search(rf"^\.{ink.value}\{{(.*)\}}$", sheet, re.MULTILINE)
        assert rule is not None, ink
        parts = dict(part.split(":") for part in rule[1].split(";"))
        assert (parts["fill"] != "none") == line.is_filled
        assert float(parts.get("stroke-width", 0)) == line.width
        dashes = parts.get("stroke-dasharray", "").split()
        assert [float(dash) for dash in dashes] == pytest.approx(line.dashes)


def test_quarter_arc_turns_clockwise_as_seen() -> None:
    """From the x axis towards the y axis, which points down: by way of (107.071, 57.071)."""
    (path,) = parsed().iter(f"{NS}path")
    assert path.get("d") == "M110 50A10 10 0 0 1 107.071 57.071A10 10 0 0 1 100 60"


def test_numbers_are_short_and_no_element_has_an_id() -> None:
    sheet = written()
    assert 'x2="0.3"' in sheet
    assert 'y2="0"' in sheet
    assert not re.search(r"\d\.\d{4,}", sheet)
    assert " id=" not in sheet


def test_closed_and_open_lines_are_told_apart() -> None:
    root = parsed()
    assert [item.get("class") for item in root.iter(f"{NS}polyline")] == ["hidden"]
    assert [item.get("class") for item in root.iter(f"{NS}polygon")] == ["cut"]


@pytest.mark.parametrize("bad", ["\x00", "a\x0bb", "\ud800", "￾", "two\nlines"])
def test_what_no_xml_file_may_hold_is_refused(bad: str) -> None:
    with pytest.raises(SizeError):
        written((Group("view", (), title=bad),))
    with pytest.raises(SizeError):
        svg_document(title=bad, width=420, height=297, marks=(), style=A3_STYLE)
    with pytest.raises(UnknownNameError):
        written((Text(PaperPoint(1, 2), bad, 3.5),))


def test_blank_text_has_no_length_of_zero() -> None:
    (text,) = parsed((Text(PaperPoint(1, 2), "", 3.5),)).iter(f"{NS}text")
    assert text.get("textLength") is None


@pytest.mark.parametrize("size", [(0, 297), (420, -1), (float("nan"), 297)])
def test_paper_must_have_a_size(size: tuple[float, float]) -> None:
    with pytest.raises(SizeError):
        svg_document(title="x", width=size[0], height=size[1], marks=(), style=A3_STYLE)
