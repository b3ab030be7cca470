"""Numbered notes: paragraphs wrapped within a width."""

from __future__ import annotations

from collections.abc import Sequence

from cabinet.quantity import named
from drawings.fitting import wrapped
from drawings.lettering import text_width
from drawings.marks import Anchor, Group, Mark, PaperBox, PaperPoint, Text
from drawings.style import BASELINE_SPACING, Style
from drawings.table import Placed

_AFTER_HEADING = 1.0  # from the heading to the first note, in heights of capitals
_AFTER_NUMBER = 1.0  # from a number to its note, in heights of capitals
_BETWEEN = 0.35  # added between two notes, in heights of capitals


def notes_marks(
    notes: Sequence[str],
    *,
    at: PaperPoint,
    width: float,
    style: Style,
    heading: str = "Notes",
    first: int = 1,
) -> Placed:
    """Numbered notes, as one group ``notes``.

    Args:
        notes: What each says.
        at: Top left corner of the paper they take.
        width: Width of that paper, mm.
        style: Heights of the lettering.
        heading: Stands above them; "" for none.
        first: Number of the first.

    Returns:
        The marks and the paper they take, heading included.

    Raises:
        SizeError: A note is blank, or the width is too small for its number.
        UnknownNameError: The drawing font lacks a letter.
    """
    height = style.note_height
    pitch = height * BASELINE_SPACING
    marks: list[Mark] = []
    foot = at.y
    if heading:
        foot += style.heading_height
        marks.append(Text(PaperPoint(at.x, foot), heading, style.heading_height, is_bold=True))
        foot += height * _AFTER_HEADING
    number_end = at.x + text_width("0" * len(str(first + len(notes) - 1)), height, is_bold=True)
    x = number_end + height * _AFTER_NUMBER
    for index, note in enumerate(notes, start=first):
        baseline = foot + height
        marks.append(
            Text(PaperPoint(number_end, baseline), str(index), height, Anchor.END, is_bold=True)
        )
        for line in wrapped(named(f"note {index}", "text", note), at.x + width - x, height):
            marks.append(Text(PaperPoint(x, baseline), line, height))
            baseline += pitch
        foot = baseline - height + height * _BETWEEN
    box = PaperBox(at.x, at.y, at.x + width, foot)
    return Placed((Group("notes", tuple(marks), title=heading),), box)
