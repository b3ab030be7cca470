"""Where the name of an edge can be written in a view of a board, best places first."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from cabinet.board import Surface
from drawings.board_paper import BoardPaper
from drawings.dimension_ink import Edge
from drawings.layout import Places
from drawings.lettering import text_width
from drawings.marks import Anchor, PaperBox, PaperPoint, Text
from drawings.style import Style

_Floats = NDArray[np.float64]

_INSET = 1.8  # from the edge to its name, within the board, mm
_OFFSETS = (2.2, 5.5, 9.0, 13.0, 18.0, 24.0, 31.0)  # the same outside, mm
_SHARES = np.array([0.5, 0.6, 0.4, 0.68, 0.32, 0.76, 0.24, 0.85, 0.15])
_FINE_SHARES = np.array(sorted((k / 120 for k in range(12, 109)), key=lambda s: (abs(s - 0.5), s)))
_ORIGIN = PaperPoint(0.0, 0.0)


def edge_names_within(
    surface: Surface, text: str, at: BoardPaper, style: Style
) -> Iterator[Places]:
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
        yield _along(edge, box, text, height)
    if not edge.is_upright:
        yield _level(edge, box, text, height)


def edge_names_beside(
    surface: Surface, text: str, at: BoardPaper, style: Style
) -> Iterator[Places]:
    """Places for a name outside the board, made only as far as they are asked for.

    Args:
        surface: Which edge or end.
        text: Its name.
        at: The view's paper.
        style: Height of the lettering.
    """
    edge, box, height = at.edge_of(surface), at.outline, style.label_height
    for offset in _OFFSETS:
        yield _outside(edge, box, offset, text, height)


def _along(edge: Edge, box: PaperBox, text: str, height: float) -> Places:
    x, y = box.left + _SHARES * box.width, box.top + _SHARES * box.height
    pattern = Text(_ORIGIN, text, height, Anchor.MIDDLE, is_upright=edge.is_upright)
    match edge:
        case Edge.BELOW:
            return Places(pattern, _points(x, box.bottom - _INSET))
        case Edge.ABOVE:
            return Places(pattern, _points(x, box.top + _INSET + height))
        case Edge.LEFT:
            return Places(pattern, _points(box.left + _INSET + height, y))
        case Edge.RIGHT:
            return Places(pattern, _points(box.right - _INSET, y))


def _level(edge: Edge, box: PaperBox, text: str, height: float) -> Places:
    """Level, just inside an end that is too short to be written along."""
    x = box.left + _INSET if edge is Edge.LEFT else box.right - _INSET
    anchor = Anchor.START if edge is Edge.LEFT else Anchor.END
    y = box.top + _FINE_SHARES * box.height + height / 2
    inside = (box.top + 1.0 < y - height) & (y < box.bottom - 1.0)
    return Places(Text(_ORIGIN, text, height, anchor), _points(x, y[inside]))


def _outside(edge: Edge, box: PaperBox, offset: float, text: str, height: float) -> Places:
    x = box.left + _FINE_SHARES * box.width
    y = box.top + _FINE_SHARES * box.height + height / 2
    match edge:
        case Edge.BELOW:
            points, anchor = _points(x, box.bottom + offset + height), Anchor.MIDDLE
        case Edge.ABOVE:
            points, anchor = _points(x, box.top - offset), Anchor.MIDDLE
        case Edge.LEFT:
            points, anchor = _points(box.left - offset, y), Anchor.END
        case Edge.RIGHT:
            points, anchor = _points(box.right + offset, y), Anchor.START
    return Places(Text(_ORIGIN, text, height, anchor), points)


def _points(x: float | _Floats, y: float | _Floats) -> _Floats:
    """Points (n, 2) on one line: one of their coordinates is the same for all."""
    points = np.empty((np.broadcast(x, y).size, 2))
    points[:, 0], points[:, 1] = x, y
    return points
