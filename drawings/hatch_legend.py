"""What the hatching of cut faces stands for: a swatch and the stock for each kind of board."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from cabinet.stock import Hatching, Stock
from drawings.clutter import sheet_clutter
from drawings.curves import Segment, ViewPoint
from drawings.hatch import hatch
from drawings.layout import free_spot
from drawings.lettering import text_width
from drawings.marks import Group, Ink, Line, Mark, PaperBox, PaperPoint, Text
from drawings.paper import SheetSize, drawing_space, style_for
from drawings.ruling import outline
from drawings.title_block import title_block_box

_SWATCH = (13.0, 5.0)  # mm
_AFTER = 2.5  # from a swatch to its words, mm
_PITCH = 7.5  # from one swatch to the next, mm
_HEAD = 5.5  # from the head of the legend to its first swatch, mm
_CLEAR = 3.0  # from the legend to anything else, mm
_STEP = 3.0  # how finely a free place is looked for, mm
_HEADING = "Cut faces"
_SOLID = 1.5  # widths of an outline below which a cut face is one line

# Directions and spacings on the swatch, degrees and mm. Boards: at right angles to the faces
# (DIN 919 school practice), which are the swatch's long sides.
_PATTERNS: dict[Hatching, tuple[tuple[float, float], ...]] = {
    Hatching.BOARD: ((90.0, 2.5),),
    Hatching.SOLID_WOOD: ((45.0, 1.8),),
    Hatching.METAL: ((45.0, 0.8),),
    Hatching.SOFT: ((45.0, 1.4), (135.0, 1.4)),
}


def hatch_legend(
    stocks: Iterable[Stock], marks: Sequence[Mark], size: SheetSize, scale: float
) -> Group | None:
    """The legend as one group ``legend`` where the sheet is free; None if it is full.

    What is so thin that the outlines of its cut face run into each other is told to be solid
    (ISO 128-3, thin sections).

    Args:
        stocks: What is cut on the sheet; each is told once.
        marks: All that stands on the sheet.
        size: Its paper.
        scale: The smallest scale at which they are cut, paper mm for one mm.
    """
    style, told = (
        style_for(size),
        _told(stocks, _SOLID * style_for(size).line(Ink.CUT).width / scale),
    )
    widths = [text_width(words, style.label_height) for _, words in told]
    width = max(_SWATCH[0] + _AFTER + max(widths, default=0.0), 20.0)
    height = _HEAD + _PITCH * (len(told) - 1) + _SWATCH[1]
    spot = _free(width, height, marks, size) if told else None
    if spot is None:
        return None
    found: list[Mark] = [
        Text(
            PaperPoint(spot.left, spot.top + style.label_height),
            _HEADING,
            style.label_height,
            is_bold=True,
        )
    ]
    for index, (hatching, words) in enumerate(told):
        top = spot.top + _HEAD + index * _PITCH
        box = PaperBox(spot.left, top, spot.left + _SWATCH[0], top + _SWATCH[1])
        found += [outline(box, Ink.CUT), *_lines(box, hatching)]
        at = PaperPoint(box.right + _AFTER, (box.top + box.bottom + style.label_height) / 2)
        found.append(Text(at, words, style.label_height))
    return Group("legend", tuple(found), title="What the hatching stands for")


def _free(width: float, height: float, marks: Sequence[Mark], size: SheetSize) -> PaperBox | None:
    """A free place, at the foot beside the title block if there is one."""
    clutter = sheet_clutter(marks)
    room, title = drawing_space(size).grown(-_CLEAR), title_block_box(size)
    beside = PaperBox(room.left, title.top, title.left - _CLEAR, room.bottom)
    for place in (beside, room):
        spot = free_spot(width, height, clutter, within=place, gap=_CLEAR, step=_STEP)
        if spot is not None:
            return spot
    return None


def _told(stocks: Iterable[Stock], thin: float) -> list[tuple[Hatching, str]]:
    """Each stock once, boards first, with its code and title; thinner ones look solid."""
    order = list(Hatching)
    distinct = {
        (s.hatching, f"{s.code}: {s.title}{'' if s.measured > thin else ', thin: drawn solid'}")
        for s in stocks
    }
    return sorted(distinct, key=lambda one: (order.index(one[0]), one[1]))


def _lines(box: PaperBox, hatching: Hatching) -> list[Line]:
    corners = [
        ViewPoint(box.left, -box.bottom),
        ViewPoint(box.right, -box.bottom),
        ViewPoint(box.right, -box.top),
        ViewPoint(box.left, -box.top),
    ]
    loop = [Segment(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)]
    lines = []
    for angle, spacing in _PATTERNS[hatching]:
        turn = math.radians(angle)
        # The lines are counted from the swatch's own corner, so that all swatches look alike.
        phase = corners[0].v * math.cos(turn) - corners[0].u * math.sin(turn) + spacing / 2
        for piece in hatch((loop,), angle, spacing, math.remainder(phase, spacing)):
            start = PaperPoint(piece.start.u, -piece.start.v)
            lines.append(Line(start, PaperPoint(piece.end.u, -piece.end.v), Ink.HATCH))
    return lines
