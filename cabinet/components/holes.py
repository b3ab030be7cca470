"""Rows of holes anywhere on a board, told from the edges that lie against fence and stop."""

from __future__ import annotations

from cabinet.design import Component
from cabinet.errors import KindError, UnknownNameError
from cabinet.frame import Side
from cabinet.joint import BoredRow
from cabinet.quantity import finite, named, one_of, short_name

_SIDES = {side.value: side for side in Side}


def _told(name: str, what: str, value: object) -> tuple[str, float]:
    """An edge and a distance from it, mm (``KindError`` if it is something else)."""
    if not isinstance(value, tuple | list) or len(value) != 2:
        right = 'an edge and a distance in mm, such as ("bottom", 60)'
        raise KindError(
            f"{name}: {what} is {value!r}; give {right}", part=name, value=value, limit=right
        )
    return value[0], finite(name, f"{what}, its distance,", value[1])


def hole_row(
    board: str,
    *,
    name: str,
    face: str,
    first: tuple[str, float],
    line: tuple[str, float],
    count: int,
    pitch: float,
    diameter: float,
    depth: float | None = None,
) -> Component:
    """A row of equal holes in a board of the unit.

    Args:
        board: Name of the part.
        name: What the row is for.
        face: Side to which the surface looks that is bored: ``left``, ``top`` ...
        first: The first hole: the edge that it is told from, by the side it looks to, and the
            distance, mm; the row runs away from this edge.
        line: The line of the row, likewise, from an edge at right angles to the first.
        count: Number of holes.
        pitch: Centre to centre, mm.
        diameter: Of the holes, mm.
        depth: Depth, mm; None bores through.

    Raises:
        UnknownNameError: a side of no such name, or sides that are not all different ways.
    """
    short_name("row of holes", "name", name)
    named(name, "board", board)
    first, line = _told(name, "first", first), _told(name, "line", line)
    sides = [
        _SIDES[one_of(name, "side", side, tuple(_SIDES))] for side in (face, first[0], line[0])
    ]
    if len({side.axis for side in sides}) != 3:
        told = ", ".join(side.value for side in sides)
        raise UnknownNameError(
            f"{name}: face, first hole and line are told from {told}; they must look three "
            "different ways, such as left, bottom and front",
            part=name,
            value=told,
            limit="three sides at right angles",
        )
    row = BoredRow(
        board=board,
        name=name,
        face=sides[0],
        first=(sides[1], first[1]),
        line=(sides[2], line[1]),
        count=count,
        pitch=pitch,
        diameter=diameter,
        depth=depth,
    )
    return Component(joints=(row,))
