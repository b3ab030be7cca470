"""Fitting a text into a width: where its lines break, and how high its letters can be."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from cabinet.quantity import positive
from drawings.lettering import run_on, text_width
from drawings.style import LETTERING_HEIGHTS, SMALLEST_HEIGHT

ELLIPSIS = "…"
"""Stands where a text had to be cut."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedText:
    """A text made to fit.

    Attributes:
        lines: What stands on each line.
        height: Height of its capitals, mm.
        is_cut: Something of it is missing; the last line ends with an ellipsis.
    """

    lines: tuple[str, ...]
    height: float
    is_cut: bool = False


@lru_cache(maxsize=4096)
def wrapped(text: str, width: float, height: float, is_bold: bool = False) -> tuple[str, ...]:
    """Break a text into lines no wider than ``width`` mm, at its spaces where possible.

    A word that is wider than the line is broken where the line ends. Runs of spaces count as
    one. A blank text gives no line.

    Raises:
        SizeError: ``width`` or ``height`` is not greater than zero.
        UnknownNameError: The font lacks a letter of it.
    """
    positive("wrapped text", "width", width)
    positive("wrapped text", "height", height)
    lines: list[str] = []
    line, reach = "", 0.0
    for word in text.split():
        longer = f" {word}" if line else word
        on = run_on(longer, reach, is_bold)
        if on * height <= width:
            line, reach = line + longer, on
            continue
        if line:
            lines.append(line)
        *whole_lines, line = _broken(word, width, height, is_bold)
        lines += whole_lines
        reach = run_on(line, 0.0, is_bold)
    return (*lines, line) if line else tuple(lines)


def _broken(word: str, width: float, height: float, is_bold: bool) -> list[str]:
    """A word in pieces that fit; a single letter counts as fitting, however wide it is."""
    pieces, reach = [""], 0.0
    for letter in word:
        on = run_on(letter, reach, is_bold)
        if pieces[-1] and on * height > width:
            pieces.append(letter)
            reach = run_on(letter, 0.0, is_bold)
        else:
            pieces[-1] += letter
            reach = on
    return pieces


@lru_cache(maxsize=4096)
def fitted(
    text: str, *, width: float, tallest: float, most_lines: int = 2, is_bold: bool = False
) -> FittedText:
    """Fit a text into a field: high letters first, then more lines, at last a cut.

    The largest ISO 3098 height from ``tallest`` down to 2.5 mm at which the text fits on one
    line is taken. If there is none, it is wrapped at 2.5 mm on up to ``most_lines`` lines; what
    is still too long is cut and ends with an ellipsis.

    Args:
        text: What it says.
        width: Width of the field, mm.
        tallest: Height to begin with, mm.
        most_lines: Lines that the field can hold at 2.5 mm.
        is_bold: Set in the heavier cut.

    Raises:
        SizeError: A size is not greater than zero.
        UnknownNameError: The font lacks a letter of it.
    """
    one_line = " ".join(text.split())
    positive("fitted text", "tallest", tallest)
    for height in reversed(LETTERING_HEIGHTS):
        if not SMALLEST_HEIGHT <= height <= tallest:
            continue
        if text_width(one_line, height, is_bold) <= width:
            return FittedText(lines=(one_line,) if one_line else (), height=height)
    lines = wrapped(one_line, width, SMALLEST_HEIGHT, is_bold)
    if len(lines) <= most_lines:
        return FittedText(lines=lines, height=SMALLEST_HEIGHT)
    last = lines[most_lines - 1]
    while last and text_width(last + ELLIPSIS, SMALLEST_HEIGHT, is_bold) > width:
        last = last[:-1]
    kept = (*lines[: most_lines - 1], last.rstrip() + ELLIPSIS)
    return FittedText(lines=kept, height=SMALLEST_HEIGHT, is_cut=True)
