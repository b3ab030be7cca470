"""Where a section is taken: wide ends, arrows in the direction of view, a letter at each end.

Source: ISO 128-3 as told by trade-school textbooks: wide long-dash dot line only at the ends,
arrow tips on the line, length half as long again as the arrows of dimensions.
"""

from __future__ import annotations

from drawings.dimension_ink import arrow
from drawings.marks import Anchor, Group, Ink, Line, Mark, PaperPoint, Text
from drawings.style import Style

# How far an end of the line reaches into the view and out of it, mm.
_INTO, _OUT = 3.0, 5.0


def upright_plane(
    x: float, top: float, bottom: float, letter: str, style: Style, *, is_seen_to_right: bool
) -> Group:
    """A cutting plane that is seen as an upright line across a view.

    Args:
        x: Its place on the sheet, mm.
        top: Upper edge of the view's outline, mm.
        bottom: Lower edge, mm.
        letter: Its letter.
        is_seen_to_right: Whether the section is seen in the direction to the right.
        style: Arrows and heights.
    """
    sign = 1.0 if is_seen_to_right else -1.0
    marks: list[Mark] = []
    for inner, outer in ((top + _INTO, top - _OUT), (bottom - _INTO, bottom + _OUT)):
        marks.append(Line(PaperPoint(x, inner), PaperPoint(x, outer), Ink.CUTTING_PLANE))
        tail = PaperPoint(x - sign * style.cutting_arrow_length, outer)
        marks.append(Line(tail, PaperPoint(x, outer), Ink.NARROW))
        marks.append(arrow(PaperPoint(x, outer), 0.0 if sign > 0 else 180.0, style))
        at = tail.moved(-sign * 1.5, style.letter_height / 2)
        marks.append(
            Text(at, letter, style.letter_height, Anchor.END if sign > 0 else Anchor.START)
        )
    return Group("cutting-plane", tuple(marks), title=f"section {letter}–{letter}")
