"""Where the holes of a perforated panel lie: the one place for its weight, its air, its drawing.

A panel is cut from a sheet that is perforated all over. The holes stand in lines across each
axis of the panel. Where a panel begins within the pattern is free, so it is chosen such that the
cuts at both sides run as far from the holes as they can, and equally far; where they cannot run
between two lines, they run through holes. Lengths in mm, areas in mm2.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from cabinet.board import BoardBox, BoardSize, Surface
from cabinet.features import Pattern, Perforation

_SAME = 1e-6
_Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """How a panel lies in the lines of holes across one of its axes.

    Attributes:
        spacing: From line to line.
        first: From the panel's low edge to the middle of the first line within it.
        rim: Plain metal between either cut and the nearest hole beside it, whichever side of
            the cut that is on; negative by how far the cut runs into holes.
    """

    spacing: float
    first: float
    rim: float

    @property
    def is_clear(self) -> bool:
        """Whether both cuts run between the lines and meet no hole."""
        return self.rim > 0

    def numbers(self, span: _Span, radius: float) -> range:
        """Numbers of the lines, 0 for the first, whose holes reach into a span."""
        low, high = span
        return range(
            math.floor((low - radius - self.first) / self.spacing) + 1,
            math.ceil((high + radius - self.first) / self.spacing),
        )

    def at(self, number: int) -> float:
        """From the panel's low edge to the middle of a line."""
        return self.first + number * self.spacing


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """How a panel lies in the pattern of its sheet.

    Attributes:
        along: The lines across its length, which the cuts at its ends run beside.
        across: The lines across its width, which the cuts at its edges run beside.
    """

    along: Lines
    across: Lines

    def at(self, surface: Surface) -> Lines:
        """The lines beside which the cut of an edge or end runs."""
        return self.along if surface.axis == 0 else self.across


def spacings(perforation: Perforation) -> tuple[float, float]:
    """From line to line of holes along a panel's length and across it.

    Staggered rows run along the length at half the pitch times the square root of 3, and every
    other one is moved by half the pitch.
    """
    pitch = perforation.pitch
    if perforation.pattern is Pattern.STAGGERED:
        return pitch / 2, pitch * math.sqrt(3) / 2
    return pitch, pitch


def lie(perforation: Perforation, size: BoardSize) -> Lie:
    """The best place of a panel in the pattern of its sheet."""
    along, across = spacings(perforation)
    return Lie(
        along=_lines(size.length, along, perforation.diameter),
        across=_lines(size.width, across, perforation.diameter),
    )


def _lines(size: float, spacing: float, diameter: float) -> Lines:
    """The lines of holes so that both cuts are equally far from them, and as far as can be.

    Both are equally far only if a line, or the middle between two, lies in the panel's middle;
    the farther of these two is the best there is, since moving the panel brings one cut nearer.
    """
    beyond = (size / 2) % spacing
    from_line = min(beyond, spacing - beyond)
    is_on_line = from_line >= spacing / 2 - from_line
    middle = size / 2 if is_on_line else size / 2 + spacing / 2
    first = middle % spacing
    return Lines(
        spacing=spacing,
        first=first if first > _SAME else spacing,
        rim=max(from_line, spacing / 2 - from_line) - diameter / 2,
    )


def holes(perforation: Perforation, size: BoardSize) -> tuple[tuple[float, float], ...]:
    """Centres of all holes on a panel, whole or cut, (x, y) from its low corner.

    Of a staggered pattern the hole where the first lines meet is taken to be there. A panel that
    begins half a pitch further is set out as well; it has about one hole more or less.
    """
    found = _grids(perforation, size, _whole(size))
    return tuple((x, y) for xs, ys in found for y in ys for x in xs)


def _whole(size: BoardSize) -> BoardBox:
    return BoardBox(low=(0.0, 0.0, 0.0), high=size.along)


def _grids(
    perforation: Perforation, size: BoardSize, within: BoardBox
) -> Iterator[tuple[list[float], list[float]]]:
    """The holes that reach into a box, as upright grids: one, or two that are interleaved."""
    how, radius = lie(perforation, size), perforation.diameter / 2
    axes = [
        [(number, lines.at(number)) for number in lines.numbers(span, radius)]
        for lines, span in zip(
            (how.along, how.across), zip(within.low, within.high, strict=True), strict=False
        )
    ]
    if perforation.pattern is Pattern.SQUARE:
        yield [x for _, x in axes[0]], [y for _, y in axes[1]]
        return
    for half in (0, 1):
        yield (
            [x for number, x in axes[0] if number % 2 == half],
            [y for number, y in axes[1] if number % 2 == half],
        )


@lru_cache(maxsize=256)
def open_area(perforation: Perforation, size: BoardSize, within: BoardBox | None = None) -> float:
    """Area of the holes of a panel, whole and cut, mm2.

    Args:
        perforation: Its holes.
        size: Its size.
        within: Only what lies within this box of it counts; None for the whole panel.
    """
    box = within or _whole(size)
    radius = perforation.diameter / 2
    area = 0.0
    for xs, ys in _grids(perforation, size, box):
        # Most holes are whole, and cut ones are cut alike along a side.
        across = _kept(ys, (box.low[1], box.high[1]), radius)
        for x, columns in _kept(xs, (box.low[0], box.high[0]), radius).items():
            area += columns * sum(rows * _disc(radius, x, y) for y, rows in across.items())
    return area


def _kept(centres: list[float], span: _Span, radius: float) -> Counter[_Span]:
    """How many holes keep the same of themselves within a span, told from their middles."""
    low, high = span
    return Counter((max(-radius, low - at), min(radius, high - at)) for at in centres)


def _disc(radius: float, x: _Span, y: _Span) -> float:
    """Area of a disc about the origin within an upright box."""
    return sum(
        sign * _beyond(radius, a, b)
        for a, b, sign in ((x[0], y[0], 1), (x[1], y[0], -1), (x[0], y[1], -1), (x[1], y[1], 1))
    )


def _beyond(radius: float, x: float, y: float) -> float:
    """Area of a disc about the origin right of an upright line and above a level one.

    The integral of the disc's height above the level line; where that line passes below the
    disc's rim, beside the chord, the whole height counts.
    """
    chord = math.sqrt(max(radius**2 - y**2, 0.0))
    start = min(max(x, -chord), chord)
    area = _under_arc(radius, chord) - _under_arc(radius, start) - y * (chord - start)
    if y < 0:
        right = _under_arc(radius, radius) - _under_arc(radius, max(x, chord))
        left = _under_arc(radius, -chord) - _under_arc(radius, min(x, -chord))
        area += 2 * (right + left)
    return area


def _under_arc(radius: float, x: float) -> float:
    """Area under a half circle about the origin, from its middle to x."""
    height = math.sqrt(max(radius**2 - x**2, 0.0))
    return (x * height + radius**2 * math.asin(min(max(x / radius, -1.0), 1.0))) / 2


__all__ = ["Lie", "Lines", "holes", "lie", "open_area", "spacings"]
