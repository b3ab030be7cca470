"""How much paper a text takes, from the metrics of the very font it is printed in.

The two cuts of the font travel with the package (see ``fonts/README.md``). They have no
kerning, so a text is as wide as the sum of its letters' advances, in every writer.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from pathlib import Path

from fontTools.ttLib import TTFont

from cabinet.errors import UnknownNameError
from cabinet.quantity import positive
from drawings.marks import Anchor, PaperBox, Text

FAMILY = '"DejaVu Sans Condensed","DejaVu Sans",Verdana,sans-serif'
"""CSS font stack; the second face is the wide sister of the first, squeezed by textLength."""

_FILES = {False: "DejaVuSansCondensed.ttf", True: "DejaVuSansCondensed-Bold.ttf"}


@dataclass(frozen=True, slots=True)
class _Glyph:
    """Advance, highest and lowest point of a letter, as parts of the height of capitals."""

    advance: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class _Face:
    """The letters of one cut; ``size`` is the font size for capitals 1 mm high."""

    size: float
    glyphs: Mapping[str, _Glyph]


def font_file(is_bold: bool = False) -> Path:
    """The TrueType file of the regular or the bold cut, inside the installed package."""
    return Path(str(resources.files("drawings").joinpath("fonts", _FILES[is_bold])))


@lru_cache(maxsize=2)
def _face(is_bold: bool) -> _Face:
    with TTFont(font_file(is_bold)) as font:
        outlines, advances = font["glyf"], font["hmtx"]
        # ISO 3098 names a lettering by the height of its capitals; an H has no overshoot.
        capital = outlines["H"].yMax
        glyphs = {}
        for code, name in font.getBestCmap().items():
            outline = outlines[name]
            # A blank has no contours and so no bounds.
            has_ink = outline.numberOfContours != 0
            glyphs[chr(code)] = _Glyph(
                advance=advances[name][0] / capital,
                top=outline.yMax / capital if has_ink else 0.0,
                bottom=outline.yMin / capital if has_ink else 0.0,
            )
        return _Face(font["head"].unitsPerEm / capital, glyphs)


def font_size(height: float, is_bold: bool = False) -> float:
    """The font size in mm at which capitals are ``height`` mm high.

    Raises:
        SizeError: ``height`` is not greater than zero.
    """
    return _face(is_bold).size * positive("lettering", "height", height)


@lru_cache(maxsize=16384)
def _measure(text: str, is_bold: bool) -> _Glyph:
    """A whole text as if it were one letter."""
    glyphs = _face(is_bold).glyphs
    missing = sorted({letter for letter in text if letter not in glyphs})
    if missing:
        raise UnknownNameError(
            f"lettering: {text!r} has {', '.join(map(repr, missing))}, which the drawing font "
            "does not have; use Latin letters and the signs of drawings",
            part=text,
            value="".join(missing),
            limit="the letters of the drawing font",
        )
    letters = [glyphs[letter] for letter in text]
    return _Glyph(
        advance=sum(letter.advance for letter in letters),
        top=max((letter.top for letter in letters), default=0.0),
        bottom=min((letter.bottom for letter in letters), default=0.0),
    )


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


@lru_cache(maxsize=16384)
def text_box(text: Text) -> PaperBox:
    """The paper that a text covers: its width by the rise and fall of its own letters.

    Raises:
        UnknownNameError: The font lacks a letter of it.
    """
    measured = _measure(text.text, text.is_bold)
    width = measured.advance * text.height
    rise = max(0.0, measured.top) * text.height
    fall = max(0.0, -measured.bottom) * text.height
    before = {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[text.anchor]
    x, y = text.at.x, text.at.y
    if text.is_upright:
        return PaperBox(x - before, y - rise, x - before + width, y + fall)
    # Turned counter-clockwise: it runs up the sheet, its letters' tops point left.
    return PaperBox(x - rise, y + before - width, x + fall, y + before)
