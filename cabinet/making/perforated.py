"""Panels cut from a sheet that is perforated all over: where the cuts fall between the holes.

A panel that is set out in the pattern stays so if it is moved by whole lines of holes; therefore
a blank takes a whole number of lines with its kerf, and the next one on the sheet begins alike.
Where the kerf is that of the saw, which is not known to a tenth, a blank has a line more each way
instead, so that its panel is set out within it wherever the blank begins. Lengths in mm.
"""

from __future__ import annotations

import math

from cabinet.board import Surface
from cabinet.features import Perforation
from cabinet.part import Board
from cabinet.quantity import written
from cabinet.set_out import Lie, lie

# Plain metal narrower than this between a cut and a hole tears out (common practice, no source).
LEAST_RIM = 2.0
_SAME = 1e-6


def perforation_of(board: Board) -> Perforation | None:
    """The perforation of a board, if it has one."""
    return next((f for f in board.features if isinstance(f, Perforation)), None)


def lie_of(board: Board) -> Lie | None:
    """The best place of a board in the pattern of its sheet; None if it is not perforated."""
    perforation = perforation_of(board)
    return None if perforation is None else lie(perforation, board.size)


def _told(length: float) -> str:
    return written(round(length, 2))


def sentence(board: Board) -> str:
    """How a perforated panel is set out and what its cuts meet; "" for any other board."""
    perforation, mine = perforation_of(board), lie_of(board)
    if perforation is None or mine is None:
        return ""
    ends, edges = mine.along, mine.across
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


def margins(board: Board, datum: Lie, kerf: float | None) -> dict[Surface, float]:
    """By how much a perforated blank is larger at each side, mm.

    Args:
        board: The panel.
        datum: How blanks of its stock begin within the pattern.
        kerf: Width of a cut in it; None for the saw's own, whatever it is.
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
        if kerf is None:
            found[low], found[high] = lines.spacing, 0.0
            continue
        before = (datum.at(low).first - lines.first) % lines.spacing
        if lines.spacing - before < _SAME:
            before = 0.0
        whole = before + extent + kerf
        count = math.ceil(whole / lines.spacing - _SAME)
        found[low], found[high] = before, count * lines.spacing - whole
    return found


__all__ = ["lie_of", "margins", "perforation_of", "sentence"]
