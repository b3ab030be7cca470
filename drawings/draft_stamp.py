"""The stamp on every sheet of a design that must not be made as it is."""

from __future__ import annotations

from drawings.lettering import text_width
from drawings.marks import Anchor, Group, Ink, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.paper import SheetSize, drawing_space
from drawings.ruling import outline, rule
from drawings.style import Style

WORDS = "DRAFT – NOT FOR MAKING"
"""What the stamp says."""

BAND_HEIGHT = 12.0
"""Height of the band just inside the top of the frame, mm."""

_LETTER_HEIGHT = 7.0
_STRIPE = 4.0  # width of a stripe and of the gap after it, mm
_SLANT = BAND_HEIGHT / 2  # how far a stripe leans over the band's height, mm
_AROUND = 5.0  # from the words to the stripes, mm


def draft_stamp_box(size: SheetSize) -> PaperBox:
    """The band that the stamp takes from the drawing space, mm; views keep below it."""
    space = drawing_space(size)
    return PaperBox(space.left, space.top, space.right, space.top + BAND_HEIGHT)


def draft_stamp_marks(size: SheetSize, style: Style) -> tuple[Mark, ...]:
    """The stamp as one group ``draft-stamp``: the words between black stripes."""
    band = draft_stamp_box(size)
    inner = band.grown(-style.frame_width)
    middle = (band.left + band.right) / 2
    half = text_width(WORDS, _LETTER_HEIGHT, is_bold=True) / 2 + _AROUND
    baseline = (band.top + band.bottom + _LETTER_HEIGHT) / 2
    words = Text(PaperPoint(middle, baseline), WORDS, _LETTER_HEIGHT, Anchor.MIDDLE, is_bold=True)
    marks: tuple[Mark, ...] = (
        outline(PaperBox(inner.left, inner.top, middle - half, inner.bottom), Ink.SHADE),
        outline(PaperBox(middle + half, inner.top, inner.right, inner.bottom), Ink.SHADE),
        *_stripes(inner.left, middle - half, inner),
        *_stripes(middle + half, inner.right, inner),
        rule(band.left, band.bottom, band.right, band.bottom, Ink.FRAME),
        words,
    )
    return (Group("draft-stamp", marks, title="Draft, not for making"),)


def _stripes(left: float, right: float, band: PaperBox) -> tuple[Polyline, ...]:
    """As many whole slanting stripes as fit, centred between ``left`` and ``right``."""
    count = int((right - left - _SLANT + _STRIPE) // (2 * _STRIPE))
    start = (left + right - _SLANT - (2 * count - 1) * _STRIPE) / 2
    return tuple(
        Polyline(
            (
                PaperPoint(x, band.bottom),
                PaperPoint(x + _SLANT, band.top),
                PaperPoint(x + _SLANT + _STRIPE, band.top),
                PaperPoint(x + _STRIPE, band.bottom),
            ),
            Ink.SOLID,
            closed=True,
        )
        for x in (start + 2 * _STRIPE * index for index in range(count))
    )
