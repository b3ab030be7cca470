"""How much paper a text takes, from the metrics of the very font it is printed in.

The two cuts of the font travel with the package (see ``fonts/README.md``). They have no
kerning, so a text is as wide as the sum of its letters' advances, in every writer.
"""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from io import BytesIO
from pathlib import Path
from typing import NamedTuple, TypeVar

import numpy as np
from fontTools.ttLib import TTFont
from numpy.typing import NDArray

from cabinet.errors import UnknownNameError
from cabinet.quantity import positive
from drawings.marks import Anchor, PaperBox, Text

_Floats = NDArray[np.float64]
_Lengths = TypeVar("_Lengths", float, _Floats)

FAMILY = '"DejaVu Sans Condensed","DejaVu Sans",Verdana,sans-serif'
"""CSS font stack; the second face is the wide sister of the first, squeezed by textLength."""

# How much of a text's width stands before its place.
_BEFORE = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}

_FILES = {False: "DejaVuSansCondensed.ttf", True: "DejaVuSansCondensed-Bold.ttf"}


class _Glyph(NamedTuple):
    """Advance, highest and lowest point of a letter, as parts of the height of capitals."""

    advance: float
    top: float
    bottom: float


def font_file(is_bold: bool = False) -> Path:
    """The TrueType file of the regular or the bold cut, inside the installed package."""
    return Path(str(resources.files("drawings").joinpath("fonts", _FILES[is_bold])))


@lru_cache(maxsize=2)
def _face(is_bold: bool) -> TTFont:
    """One cut; its letters are read when they are asked for."""
    font = TTFont(BytesIO(font_file(is_bold).read_bytes()))
    # The file has no names for its glyphs. Numbers will do; else they would be guessed from a
    # list of all names there are, which takes longer than reading the font.
    font.setGlyphOrder([str(number) for number in range(font["maxp"].numGlyphs)])
    return font


@lru_cache(maxsize=2)
def _capital(is_bold: bool) -> float:
    """Height of capitals in the font's units.

    ISO 3098 names a lettering by the height of its capitals; an H has no overshoot.
    """
    font = _face(is_bold)
    return float(font["glyf"][font.getBestCmap()[ord("H")]].yMax)


@lru_cache(maxsize=2048)
def _glyph(letter: str, is_bold: bool) -> _Glyph | None:
    """A letter of the font, None if it has no such letter."""
    font = _face(is_bold)
    name = font.getBestCmap().get(ord(letter))
    if name is None:
        return None
    outline, capital = font["glyf"][name], _capital(is_bold)
    # A blank has no contours and so no bounds.
    has_ink = outline.numberOfContours != 0
    return _Glyph(
        advance=font["hmtx"][name][0] / capital,
        top=outline.yMax / capital if has_ink else 0.0,
        bottom=outline.yMin / capital if has_ink else 0.0,
    )


def font_size(height: float, is_bold: bool = False) -> float:
    """The font size in mm at which capitals are ``height`` mm high.

    Raises:
        SizeError: ``height`` is not greater than zero.
    """
    units = float(_face(is_bold)["head"].unitsPerEm)
    return units / _capital(is_bold) * positive("lettering", "height", height)


def _letters(text: str, is_bold: bool) -> list[_Glyph]:
    found = [_glyph(letter, is_bold) for letter in text]
    letters = [letter for letter in found if letter is not None]
    if len(letters) < len(found):
        missing = sorted({letter for letter in text if _glyph(letter, is_bold) is None})
        raise UnknownNameError(
            f"lettering: {text!r} has {', '.join(map(repr, missing))}, which the drawing font "
            "does not have; use Latin letters and the signs of drawings",
            part=text,
            value="".join(missing),
            limit="the letters of the drawing font",
        )
    return letters


@lru_cache(maxsize=16384)
def _measure(text: str, is_bold: bool) -> _Glyph:
    """A whole text as if it were one letter."""
    letters = _letters(text, is_bold)
    if not letters:
        return _Glyph(0.0, 0.0, 0.0)
    advances, tops, bottoms = zip(*letters, strict=True)
    return _Glyph(sum(advances), max(tops), min(bottoms))


def run_on(text: str, before: float, is_bold: bool = False) -> float:
    """How far a line reaches when a text is added to it, as parts of the height of capitals.

    Whoever tries how much goes on a line need not measure its beginning again and again.

    Args:
        text: What is added.
        before: How far the line reached, as parts of the height of capitals; 0 for a new line.
        is_bold: Set in the heavier cut.

    Raises:
        UnknownNameError: The font lacks a letter of it.
    """
    return sum((letter.advance for letter in _letters(text, is_bold)), before)


def text_width(text: str, height: float, is_bold: bool = False) -> float:
    """Width of one line of text in mm.

    Args:
        text: What it says.
        height: Height of its capitals, mm.
        is_bold: Set in the heavier cut.

    Raises:
        SizeError: ``height`` is not greater than zero.
        UnknownNameError: The font lacks a letter of it.
    """
    return _measure(text, is_bold).advance * positive("lettering", "height", height)


def text_extent(text: str, height: float, is_bold: bool = False) -> tuple[float, float, float]:
    """Width of one line of text, and how far it rises above its line and falls below it, mm.

    Args:
        text: What it says.
        height: Height of its capitals, mm.
        is_bold: Set in the heavier cut.

    Raises:
        UnknownNameError: The font lacks a letter of it.
    """
    advance, top, bottom = _measure(text, is_bold)
    return advance * height, max(0.0, top) * height, max(0.0, -bottom) * height


@lru_cache(maxsize=16384)
def text_box(text: Text) -> PaperBox:
    """The paper that a text covers: its width by the rise and fall of its own letters.

    Raises:
        UnknownNameError: The font lacks a letter of it.
    """
    return PaperBox(*_covered(text, text.at.x, text.at.y))


def text_boxes(text: Text, points: _Floats) -> _Floats:
    """The paper that a text would cover at each of many places.

    Args:
        text: The text; where it stands does not matter.
        points: Where its position would be, (n, 2) mm.

    Returns:
        Left, top, right and bottom, (n, 4) mm.

    Raises:
        UnknownNameError: The font lacks a letter of it.
    """
    boxes = np.empty((len(points), 4))
    for side, places in enumerate(_covered(text, *points.T)):
        boxes[:, side] = places
    return boxes


def _covered(text: Text, x: _Lengths, y: _Lengths) -> tuple[_Lengths, _Lengths, _Lengths, _Lengths]:
    """Left, top, right and bottom of a text at one place, or at many."""
    width, rise, fall = text_extent(text.text, text.height, text.is_bold)
    before = _BEFORE[text.anchor] * width
    if text.is_upright:
        return x - before, y - rise, x - before + width, y + fall
    # Turned counter-clockwise: it runs up the sheet, its letters' tops point left.
    return x - rise, y + before - width, x + fall, y + before
