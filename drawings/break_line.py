"""The pair of lines between which a view leaves something out.

Source: ISO 128-2, line 01.1, continuous narrow with zigzags, for the limits of interrupted
views; that a zigzag is 14 line widths high and 7 wide is from memory.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drawings.marks import Ink, Line, PaperBox, PaperPoint, Polyline
from drawings.style import Style

# Pieces shorter than this are none, mm.
_SAME = 1e-6
# How far the lines run past the outline, mm: as extension lines do.
_OVERSHOOT = 2.0
# From one zigzag to the next on a long line, mm (common practice, no source).
_APART = 70.0
# Where a zigzag is tried, as shares of its piece of the line: in its middle, or beside it.
_SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74)


def zigzags(low: float, high: float, busy: Sequence[float], style: Style) -> tuple[float, ...]:
    """Where on a break line its zigzags lie: clear of the lines that end at it, if they can.

    Args:
        low: Where the outline begins along the line, paper mm.
        high: Where it ends.
        busy: Where other lines meet the break line.
        style: Width of narrow lines.
    """
    count = max(1, round((high - low) / _APART))
    piece, half = (high - low) / count, 7 * style.narrow

    def clear(place: float) -> float:
        return min((abs(place - other) for other in busy), default=half)

    found = []
    for index in range(count):
        places = [low + (index + share) * piece for share in _SHARES]
        found.append(next((p for p in places if clear(p) >= half), max(places, key=clear)))
    return tuple(found)


def break_line(
    place: float, low: float, high: float, turns: Sequence[float], style: Style, *, is_upright: bool
) -> Polyline:
    """One line with zigzags.

    Args:
        place: Where it stands across its own direction, paper mm.
        low: Where the outline begins along it.
        high: Where the outline ends.
        turns: Middles of its zigzags along it.
        style: Width of narrow lines.
        is_upright: Whether it runs down the sheet.
    """
    high_turn, wide_turn = 7 * style.narrow, 7 * style.narrow / 2
    points = [(low - _OVERSHOOT, 0.0)]
    for turn in turns:
        points += [
            (turn - high_turn / 2, 0.0),
            (turn - wide_turn / 2, high_turn),
            (turn + wide_turn / 2, -high_turn),
            (turn + high_turn / 2, 0.0),
        ]
    points.append((high + _OVERSHOOT, 0.0))
    return Polyline(
        tuple(
            PaperPoint(place + aside, along) if is_upright else PaperPoint(along, place + aside)
            for along, aside in points
        ),
        Ink.NARROW,
    )


def without_breaks(line: Line, breaks: Iterable[PaperBox]) -> list[Line]:
    """A level or upright line less what lies between the lines of the view's breaks.

    Args:
        line: The line.
        breaks: The paper between the two lines of each break.
    """
    is_level = line.start.y == line.end.y
    start, end = (line.start.x, line.end.x) if is_level else (line.start.y, line.end.y)
    pieces = [(min(start, end), max(start, end))]
    for gap in breaks:
        is_across = (
            gap.top <= line.start.y <= gap.bottom
            if is_level
            else (gap.left <= line.start.x <= gap.right)
        )
        if is_across:
            low, high = (gap.left, gap.right) if is_level else (gap.top, gap.bottom)
            pieces = [
                piece
                for a, b in pieces
                for piece in ((a, min(b, low)), (max(a, high), b))
                if piece[1] - piece[0] > _SAME
            ]
    if pieces == [(min(start, end), max(start, end))]:
        return [line]
    return [
        Line(PaperPoint(a, line.start.y), PaperPoint(b, line.start.y), line.ink)
        if is_level
        else Line(PaperPoint(line.start.x, a), PaperPoint(line.start.x, b), line.ink)
        for a, b in pieces
    ]
