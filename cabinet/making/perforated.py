"""Panels cut from a sheet that is perforated all over: where the cuts fall between the holes.

The holes stand in lines across each axis of the panel. Where a panel begins within the pattern is
free, so it is chosen such that the cuts at both sides run as far from the holes as they can, and
equally far. Moved by whole lines that stays so; therefore a blank takes a whole number of lines
with its kerf, and the next one on the sheet begins alike. Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.board import Surface
from cabinet.features import Pattern, Perforation
from cabinet.part import Board
from cabinet.quantity import written

# Plain metal narrower than this between a cut and a hole tears out (common practice, no source).
LEAST_RIM = 2.0
_SAME = 1e-6


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


def perforation_of(board: Board) -> Perforation | None:
    """The perforation of a board, if it has one."""
    return next((f for f in board.features if isinstance(f, Perforation)), None)


def spacings(perforation: Perforation) -> tuple[float, float]:
    """From line to line of holes along a panel's length and across it.

    Staggered rows run along the length at half the pitch times the square root of 3, and every
    other one is moved by half the pitch.
    """
    pitch = perforation.pitch
    if perforation.pattern is Pattern.STAGGERED:
        return pitch / 2, pitch * math.sqrt(3) / 2
    return pitch, pitch


def lie_of(board: Board) -> Lie | None:
    """The best place of a board in the pattern of its sheet; None if it is not perforated."""
    perforation = perforation_of(board)
    if perforation is None:
        return None
    along, across = spacings(perforation)
    return Lie(
        along=_lines(board.length, along, perforation.diameter),
        across=_lines(board.width, across, perforation.diameter),
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


def _told(length: float) -> str:
    return written(round(length, 2))


def sentence(board: Board) -> str:
    """How a perforated panel is set out and what its cuts meet; "" for any other board."""
    perforation, lie = perforation_of(board), lie_of(board)
    if perforation is None or lie is None:
        return ""
    ends, edges = lie.along, lie.across
    told = (
        f"Perforated {perforation.designation}: set out from the holes, its rows along the length. "
        f"The end at the stop lies {_told(ends.first)} mm before the middle of a line of holes, the "
        f"edge at the fence {_told(edges.first)} before one; the other end and edge come out alike."
    )
    for name, lines in (("ends", ends), ("edges", edges)):
        if lines.is_clear:
            thin = f", less than {LEAST_RIM:g}: mind the thin webs" if lines.rim < LEAST_RIM else ""
            told += f" The cuts at both {name} run {_told(lines.rim)} clear of the holes{thin}."
        else:
            told += (
                f" Both {name} carry cut holes: lines stand {_told(lines.spacing)} apart, so every "
                f"cut there runs into holes, this one by {_told(-lines.rim)}; deburr them well."
            )
    return told


def margins(board: Board, datum: Lie, kerf: float) -> dict[Surface, float]:
    """By how much a perforated blank is larger at each side, mm.

    Args:
        board: The panel.
        datum: How blanks of its stock begin within the pattern.
        kerf: Width of a cut in it.
    """
    mine = lie_of(board)
    if mine is None:
        return {}
    found: dict[Surface, float] = {}
    for low, high, extent in (
        (Surface.START, Surface.END, board.length),
        (Surface.LOW, Surface.HIGH, board.width),
    ):
        lines = mine.at(low)
        before = (datum.at(low).first - lines.first) % lines.spacing
        if lines.spacing - before < _SAME:
            before = 0.0
        whole = before + extent + kerf
        count = math.ceil(whole / lines.spacing - _SAME)
        found[low], found[high] = before, count * lines.spacing - whole
    return found


__all__ = ["Lie", "Lines", "lie_of", "margins", "perforation_of", "sentence", "spacings"]
