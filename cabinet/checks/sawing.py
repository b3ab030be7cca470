"""Sawing: the saw is deep enough for every board and tilts far enough for every bevel."""

from __future__ import annotations

import math
from collections.abc import Iterator

from cabinet.checks.bodies import board_middle, middle
from cabinet.design import Unit
from cabinet.features import Bevel
from cabinet.findings import Finding, Severity
from cabinet.part import Part
from cabinet.workshop import Saw, Workshop


def bevel_depth(saw: Saw, angle: float) -> float:
    """Thickness that a tilted saw cuts through, mm, square to the board.

    Between the two depths that are told of a saw, square and at 45 degrees, it falls with the
    cosine of the tilt; beyond 45 degrees it goes on falling with it.

    Args:
        saw: The saw.
        angle: Tilt from square, degrees.
    """
    cosine = math.cos(math.radians(angle))
    half = math.cos(math.radians(45.0))
    if angle > 45:
        return saw.bevel_depth * cosine / half
    return saw.bevel_depth + (saw.depth - saw.bevel_depth) * (cosine - half) / (1 - half)


def sawing(unit: Unit, workshop: Workshop) -> Iterator[Finding]:
    """Boards too thick for the saw, and bevels too steep or too deep for it.

    Args:
        unit: The resolved unit.
        workshop: The tools.
    """
    for board, parts in unit.boards:
        part = parts[0]
        if board.thickness > workshop.saw.depth:
            yield _too_thick(part, workshop.saw)
        for feature in board.features:
            if isinstance(feature, Bevel):
                yield from _bevel(part, feature, workshop.saw)


def _too_thick(part: Part, saw: Saw) -> Finding:
    board = part.board
    # From both faces a saw goes through twice its depth.
    is_hard = board.thickness > 2 * saw.depth
    change = "take thinner boards" if is_hard else "saw it from both faces, or take thinner boards"
    return Finding(
        rule="saw-too-shallow",
        severity=Severity.ERROR if is_hard else Severity.WARNING,
        parts=(part.name,),
        where=middle(part.box),
        found=board.thickness,
        limit=saw.depth,
        sentence=f"{part.name} is {board.thickness:.1f} mm thick but the saw cuts {saw.depth:g} mm "
        f"deep; {change}",
    )


def _bevel(part: Part, bevel: Bevel, saw: Saw) -> Iterator[Finding]:
    board = part.board
    where = board_middle(part, bevel.box(board.size))
    if bevel.angle > saw.bevel:
        yield Finding(
            rule="bevel-too-steep",
            severity=Severity.ERROR,
            parts=(part.name,),
            where=where,
            found=bevel.angle,
            limit=saw.bevel,
            sentence=f"{part.name}: {bevel.name} is {bevel.angle:g} degrees from square but the saw "
            f"tilts {saw.bevel:g} degrees; make it flatter",
        )
        return
    deep, most = board.thickness - bevel.land, bevel_depth(saw, bevel.angle)
    if deep <= most + 1e-6:
        return
    single = board.stock.measured
    is_hard = board.layers == 1 or single > most
    change = (
        "take a thinner board"
        if is_hard
        else f"bevel each board of {single:.1f} mm before they are doubled, or plane the rest"
    )
    yield Finding(
        rule="bevel-too-deep",
        severity=Severity.ERROR if is_hard else Severity.WARNING,
        parts=(part.name,),
        where=where,
        found=deep,
        limit=most,
        sentence=f"{part.name}: {bevel.name} goes through {deep:.1f} mm but tilted by "
        f"{bevel.angle:g} degrees the saw cuts {most:.1f} mm; {change}",
    )


__all__ = ["bevel_depth", "sawing"]
