"""The PDF writer, read back with pypdf and, where it is installed, poppler."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest
from pypdf import PdfReader

from cabinet.errors import FolderError, SizeError
from drawings.lettering import text_box
from drawings.marks import Anchor, Arc, Circle, Group, Ink, Line, PaperPoint, Polyline, Text
from drawings.paper import SheetSize
from drawings.pdf import Page, write_pdf
from drawings.style import A3_STYLE, A4_STYLE

ROOT = Path(__file__).parents[2]

WORDS = Text(PaperPoint(137, 61), "groove 6.2 × 9.1, ⌀5 → 12 deep – é", 3.5)
TURNED = Text(PaperPoint(41, 173), "283.9", 3.5, is_upright=False, is_bold=True)
ENDING = Text(PaperPoint(181, 83), "17.6", 2.5, Anchor.END)
CENTRED = Text(PaperPoint(83, 211), "613", 5, Anchor.MIDDLE)

# ISO 216 sheets in points of 1/72 in, as derived from mm: 1 mm = 72/25.4 pt.
MEDIA_BOX = {
    SheetSize.A4: (595.276, 841.890),
    SheetSize.A3: (1190.551, 841.890),
    SheetSize.A2: (1683.780, 1190.551),
}


def page(size: SheetSize) -> Page:
    marks = (
        Group("view", (WORDS, Line(PaperPoint(30, 40), PaperPoint(91, 40), Ink.HIDDEN))),
        TURNED,
        ENDING,
        CENTRED,
        Circle(PaperPoint(61, 37), 2.5, Ink.VISIBLE),
        Arc(PaperPoint(100, 50), 10, 0, 90, Ink.VISIBLE),
        Polyline((PaperPoint(1, 2), PaperPoint(3, 5), PaperPoint(8, 13)), Ink.SHADE, closed=True),
    )
    return Page(
        title=f"Sheet {size.name} <&>",
        width=size.width,
        height=size.height,
        marks=marks,
        style=A4_STYLE if size is SheetSize.A4 else A3_STYLE,
    )


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "job.pdf"
    write_pdf([page(size) for size in MEDIA_BOX], path, title="Seed cabinet")
    return path


def test_each_page_has_its_true_size(file: Path) -> None:
    """ISO 32000-1: the unit is 1/72 in; no rotation and no user unit that would change it."""
    pages = PdfReader(file).pages
    assert len(pages) == len(MEDIA_BOX)
    for sheet, expected in zip(pages, MEDIA_BOX.values(), strict=True):
        box = sheet.mediabox
        assert (float(box.width), float(box.height)) == pytest.approx(expected, abs=0.01)
        assert sheet.rotation == 0
        assert sheet.user_unit == 1


def test_text_can_be_searched_and_pages_are_in_the_outline(file: Path) -> None:
    reader = PdfReader(file)
    for sheet in reader.pages:
        text = sheet.extract_text()
        assert WORDS.text in text
        assert TURNED.text in text
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert titles == ["Sheet A4 <&>", "Sheet A3 <&>", "Sheet A2 <&>"]
    assert reader.metadata is not None
    assert reader.metadata.title == "Seed cabinet"


def test_fonts_are_embedded_subsets(file: Path) -> None:
    seen = set()
    for sheet in PdfReader(file).pages:
        for font in sheet["/Resources"]["/Font"].values():  # type: ignore[index]
            details = font.get_object()
            seen.add(details["/BaseFont"])
            assert "/FontFile2" in details["/FontDescriptor"]
            assert "/ToUnicode" in details
    assert {name.split("+")[1] for name in seen} == {
        "DejaVuSansCondensed",
        "DejaVuSansCondensed-Bold",
    }
    assert all("+" in name for name in seen)


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler is not installed")
def test_another_reader_finds_the_words_where_they_were_put(file: Path) -> None:
    printed = subprocess.run(
        ["pdftotext", "-bbox", "-f", "2", "-l", "2", str(file), "-"],
        capture_output=True,
        check=True,
    ).stdout.decode("utf-8")
    boxes = {}
    for line in printed.splitlines():
        if "<word" in line:
            numbers = [float(part) * 25.4 / 72 for part in line.split('"')[1:8:2]]
            boxes[line.split(">")[1].split("<")[0]] = numbers
    left, _, _, _ = boxes["groove"]
    _, _, right, _ = boxes["é"]
    expected = text_box(WORDS)
    assert left == pytest.approx(expected.left, abs=0.05)
    assert right == pytest.approx(expected.right, abs=0.05)
    for text in (ENDING, CENTRED):
        placed = text_box(text)
        sides = (boxes[text.text][0], boxes[text.text][2])
        assert sides == pytest.approx((placed.left, placed.right), abs=0.05)
    # Turned counter-clockwise: it runs up the page from its point.
    _, top, _, bottom = boxes["283.9"]
    turned = text_box(TURNED)
    assert (top, bottom) == pytest.approx((turned.top, turned.bottom), abs=0.05)


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler is not installed")
def test_an_arc_bends_the_same_way_as_in_an_svg(tmp_path: Path) -> None:
    """Clockwise as seen from the x axis: a quarter below and to the right of its centre."""
    path = tmp_path / "arc.pdf"
    arc = Arc(PaperPoint(40, 60), 20, 0, 90, Ink.VISIBLE)
    write_pdf([Page(title="arc", width=100, height=150, marks=(arc,), style=A3_STYLE)], path)
    command = ["pdftoppm", "-r", "25.4", "-gray", "-singlefile", str(path), str(tmp_path / "arc")]
    subprocess.run(command, check=True)
    header, pixels = (tmp_path / "arc.pgm").read_bytes().split(b"255\n", 1)
    width = int(header.split()[1])
    dark = [divmod(index, width) for index, grey in enumerate(pixels) if grey < 230]
    # 25.4 dots an inch: one pixel is one millimetre.
    assert min(x for _, x in dark) >= 39
    assert max(x for _, x in dark) in (59, 60)
    assert min(y for y, _ in dark) >= 59
    assert max(y for y, _ in dark) in (79, 80)


def test_what_cannot_be_written_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SizeError):
        write_pdf([], tmp_path / "none.pdf")
    with pytest.raises(FolderError):
        write_pdf([page(SheetSize.A4)], tmp_path / "missing" / "job.pdf")
    with pytest.raises(SizeError):
        Page(title="", width=210, height=297, marks=(), style=A4_STYLE)
    with pytest.raises(SizeError):
        Page(title="x", width=0, height=297, marks=(), style=A4_STYLE)
