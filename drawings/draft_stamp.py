"""The stamp on every sheet of a design that must not be made as it is.

It takes the whole band inside the top of the frame where that is free, and otherwise the
largest free place on the sheet: it must be seen, and must not hide what it warns of.
"""

from __future__ import annotations

from collections.abc import Sequence

from drawings.clutter import Clutter
from drawings.layout import free_spot
from drawings.lettering import text_width
from drawings.marks import Anchor, Group, Ink, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.paper import SheetSize, drawing_space
from drawings.ruling import outline

WORDS = "DRAFT – NOT FOR MAKING"
"""What the stamp says."""

BAND_HEIGHT = 12.0
"""Height of the band just inside the top of the frame, mm."""

# Heights of the letters that are tried, mm (ISO 3098 series).
_LETTERS = (7.0, 5.0, 3.5)
_STRIPE = 4.0  # width of a stripe and of the gap after it, mm
_AROUND = 5.0  # from the words to the stripes or to the border, mm
_CLEAR = 1.2  # from the stamp to anything else, mm
_STEP = 3.0  # how finely a free place is looked for, mm


def draft_stamp(marks: Sequence[Mark], size: SheetSize) -> Group:
    """The stamp as one group ``draft-stamp``, in a place of the sheet that is free.

    Args:
        marks: All that stands on the sheet.
        size: Paper of the sheet.
    """
    space = drawing_space(size)
    clutter = Clutter(marks)
    band = PaperBox(
        space.left + _CLEAR, space.top + _CLEAR, space.right - _CLEAR, space.top + BAND_HEIGHT
    )
    if clutter.is_free(band, 0.0):
        return _stamp(band, _LETTERS[0])
    for letter in _LETTERS:
        width = text_width(WORDS, letter, is_bold=True) + 2 * _AROUND
        height = BAND_HEIGHT * letter / _LETTERS[0]
        spot = free_spot(
            width, height, clutter, within=space.grown(-_CLEAR), gap=_CLEAR, step=_STEP
        )
        if spot is not None:
            return _stamp(spot, letter)
    # A sheet without any free place is rather stamped across than not at all.
    return _stamp(band, _LETTERS[0])


def _stamp(box: PaperBox, letter: float) -> Group:
    """The words within a border, between black stripes where the box is wide."""
    middle = (box.left + box.right) / 2
    half = text_width(WORDS, letter, is_bold=True) / 2 + _AROUND
    baseline = (box.top + box.bottom + letter) / 2
    words = Text(PaperPoint(middle, baseline), WORDS, letter, Anchor.MIDDLE, is_bold=True)
    marks: tuple[Mark, ...] = (
        outline(box, Ink.FRAME),
        *_stripes(box.left, middle - half, box),
        *_stripes(middle + half, box.right, box),
        words,
    )
    return Group("draft-stamp", marks, title="Draft, not for making")


def _stripes(left: float, right: float, band: PaperBox) -> tuple[Polyline, ...]:
    """As many whole slanting stripes as fit, centred between ``left`` and ``right``."""
    slant = band.height / 2
    count = max(0, int((right - left - slant + _STRIPE) // (2 * _STRIPE)))
    start = (left + right - slant - (2 * count - 1) * _STRIPE) / 2
    return tuple(
        Polyline(
            (
                PaperPoint(x, band.bottom),
                PaperPoint(x + slant, band.top),
                PaperPoint(x + slant + _STRIPE, band.top),
                PaperPoint(x + _STRIPE, band.bottom),
            ),
            Ink.SOLID,
            closed=True,
        )
        for x in (start + 2 * _STRIPE * index for index in range(count))
    )
