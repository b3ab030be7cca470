"""Widths and boxes of texts against the font file itself, read by another library."""

from __future__ import annotations

from pathlib import Path

import pytest
from reportlab.pdfbase.ttfonts import TTFont

from cabinet.errors import CabinetError, SizeError, UnknownNameError
from drawings.lettering import FAMILY, font_file, font_size, text_box, text_width
from drawings.marks import Anchor, PaperPoint, Text

CUTS = pytest.mark.parametrize("is_bold", [False, True])

# What drawings say, and a Latin name with accents.
SIGNS = '⌀5 × 12 ± 0.3 45° → ↧ − – " ≈ é ő Ł ½ ² ☐ …'


@CUTS
def test_fonts_and_licence_travel_with_the_package(is_bold: bool) -> None:
    font = font_file(is_bold)
    assert font.read_bytes()[:4] == b"\x00\x01\x00\x00"
    assert font.stat().st_size < 120_000
    licence = (font.parent / "LICENSE.txt").read_text(encoding="utf-8")
    assert "Permission is hereby granted, free of charge" in licence


@CUTS
def test_width_is_that_of_another_reader(is_bold: bool) -> None:
    reader = TTFont(f"probe-{is_bold}", str(font_file(is_bold)))
    height = 3.5
    for text in ("604.6", "9 × 32 (= 288)", SIGNS):
        expected = reader.stringWidth(text, font_size(height, is_bold))
        assert text_width(text, height, is_bold) == pytest.approx(expected, rel=2e-3)


def test_bold_is_wider_than_regular() -> None:
    assert text_width("left side", 3.5, is_bold=True) > 1.05 * text_width("left side", 3.5)


@CUTS
@pytest.mark.parametrize("height", [2.5, 3.5, 7.0])
def test_height_is_that_of_capitals(height: float, is_bold: bool) -> None:
    """ISO 3098-0: a lettering is named by the height h of its capitals."""
    box = text_box(Text(PaperPoint(31, 47), "H", height, is_bold=is_bold))
    assert box.height == pytest.approx(height, abs=1e-9)
    assert box.bottom == pytest.approx(47)


def test_small_letters_are_near_seven_tenths() -> None:
    """ISO 3098-0: height of lower-case letters c1 = 7/10 h; ours may differ by a tenth."""
    box = text_box(Text(PaperPoint(0, 0), "x", 10.0))
    assert box.height / 10 == pytest.approx(0.7, abs=0.1)


def test_figures_are_of_one_width() -> None:
    widths = {round(text_width(figure, 3.5), 9) for figure in "0123456789"}
    assert len(widths) == 1


def test_descent_is_that_of_the_letters_there_are() -> None:
    flat = text_box(Text(PaperPoint(0, 50), "one", 3.5))
    deep = text_box(Text(PaperPoint(0, 50), "edge", 3.5))
    # Round letters overshoot the baseline by a hair.
    assert flat.bottom == pytest.approx(50, abs=0.1)
    assert deep.bottom > 50.6


@pytest.mark.parametrize(
    ("anchor", "before"), [(Anchor.START, 0.0), (Anchor.MIDDLE, 0.5), (Anchor.END, 1.0)]
)
def test_anchor_moves_the_box_along_the_baseline(anchor: Anchor, before: float) -> None:
    width = text_width("613", 3.5)
    upright = text_box(Text(PaperPoint(40, 70), "613", 3.5, anchor))
    assert upright.left == pytest.approx(40 - before * width)
    assert upright.width == pytest.approx(width)
    turned = text_box(Text(PaperPoint(40, 70), "613", 3.5, anchor, is_upright=False))
    # Turned counter-clockwise: what lay to the right of the point now lies above it.
    assert turned.bottom == pytest.approx(70 + before * width)
    assert turned.height == pytest.approx(width)


def test_turned_text_reads_from_the_right() -> None:
    """ISO 129-1: vertical figures stand to the left of their line, tops to the left."""
    turned = text_box(Text(PaperPoint(40, 70), "H", 3.5, is_upright=False))
    assert (turned.left, turned.right) == pytest.approx((36.5, 40))
    hanging = text_box(Text(PaperPoint(40, 70), "g", 3.5, is_upright=False))
    assert hanging.right > 40.6


@pytest.mark.parametrize("text", ["木", "a\nb", "a\tb", "\x00", "🪵"])
def test_letter_that_the_font_lacks_is_refused(text: str) -> None:
    with pytest.raises(UnknownNameError) as caught:
        text_width(text, 3.5)
    assert isinstance(caught.value, CabinetError)
    assert caught.value.part == text


@pytest.mark.parametrize("height", [0.0, -3.5, float("nan")])
def test_height_must_be_positive(height: float) -> None:
    with pytest.raises(SizeError):
        text_width("613", height)
    with pytest.raises(SizeError):
        font_size(height)


def test_blank_takes_no_height() -> None:
    box = text_box(Text(PaperPoint(3, 4), " ", 3.5))
    assert box.height == 0
    assert box.width > 0


def test_family_names_the_bundled_face_first() -> None:
    assert FAMILY.split(",")[0].strip('"') == "DejaVu Sans Condensed"
    assert font_file() != font_file(is_bold=True)
    assert isinstance(font_file(), Path)
