"""Where the name of an edge can be written in a view of a board, best places first."""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.board import Surface
from drawings.board_paper import BoardPaper
from drawings.dimension_ink import Edge
from drawings.lettering import text_width
from drawings.marks import Anchor, PaperBox, PaperPoint, Text
from drawings.style import Style

_INSET = 1.8  # from the edge to its name, within the board, mm
_OFFSETS = (2.2, 5.5, 9.0, 13.0, 18.0, 24.0, 31.0)  # the same outside, mm
_SHARES = (0.5, 0.6, 0.4, 0.68, 0.32, 0.76, 0.24, 0.85, 0.15)
_FINE_SHARES = tuple(sorted((k / 120 for k in range(12, 109)), key=lambda s: (abs(s - 0.5), s)))


def edge_names_within(surface: Surface, text: str, at: BoardPaper, style: Style) -> Iterator[Text]:
    """Places for a name within the board: along the edge, then level within an end.

    Like those outside they are made only as far as they are asked for.

    Args:
        surface: Which edge or end.
        text: Its name.
        at: The view's paper.
        style: Height of the lettering.
    """
    edge, box, height = at.edge_of(surface), at.outline, style.label_height
    room = box.width if edge.is_upright else box.height
    if text_width(text, height) < room - 4.0:
        for share in _SHARES:
            yield _along(edge, box, share, text, height)
    if not edge.is_upright:
        yield from _level(edge, box, text, height)


def edge_names_beside(surface: Surface, text: str, at: BoardPaper, style: Style) -> Iterator[Text]:
    """Places for a name outside the board, made only as far as they are asked for.

    Args:
        surface: Which edge or end.
        text: Its name.
        at: The view's paper.
        style: Height of the lettering.
    """
    edge, box, height = at.edge_of(surface), at.outline, style.label_height
    for offset in _OFFSETS:
        for share in _FINE_SHARES:
            yield _outside(edge, box, share, offset, text, height)


def _along(edge: Edge, box: PaperBox, share: float, text: str, height: float) -> Text:
    x, y = box.left + share * box.width, box.top + share * box.height
    place = {
        Edge.BELOW: PaperPoint(x, box.bottom - _INSET),
        Edge.ABOVE: PaperPoint(x, box.top + _INSET + height),
        Edge.LEFT: PaperPoint(box.left + _INSET + height, y),
        Edge.RIGHT: PaperPoint(box.right - _INSET, y),
    }[edge]
    return Text(place, text, height, Anchor.MIDDLE, is_upright=edge.is_upright)


def _level(edge: Edge, box: PaperBox, text: str, height: float) -> Iterator[Text]:
    """Level, just inside an end that is too short to be written along."""
    x = box.left + _INSET if edge is Edge.LEFT else box.right - _INSET
    anchor = Anchor.START if edge is Edge.LEFT else Anchor.END
    for share in _FINE_SHARES:
        y = box.top + share * box.height + height / 2
        if box.top + 1.0 < y - height and y < box.bottom - 1.0:
            yield Text(PaperPoint(x, y), text, height, anchor)


def _outside(
    edge: Edge, box: PaperBox, share: float, offset: float, text: str, height: float
) -> Text:
    x, y = box.left + share * box.width, box.top + share * box.height + height / 2
    match edge:
        case Edge.BELOW:
            place, anchor = PaperPoint(x, box.bottom + offset + height), Anchor.MIDDLE
        case Edge.ABOVE:
            place, anchor = PaperPoint(x, box.top - offset), Anchor.MIDDLE
        case Edge.LEFT:
            place, anchor = PaperPoint(box.left - offset, y), Anchor.END
        case Edge.RIGHT:
            place, anchor = PaperPoint(box.right + offset, y), Anchor.START
    return Text(place, text, height, anchor)
