"""Bars and pins: how each leaves the board that it sits in, and the steps that bring it.

Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from cabinet.assembly import Stage
from cabinet.checks.bricks import Bricks, box_array
from cabinet.checks.build import Draft, Piece
from cabinet.checks.takedown import TOUCH
from cabinet.checks.ties import Ties
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.hardware import Hardware

Way = tuple[Side, float]


def rods_in(root: Piece, ties: Ties) -> list[tuple[Piece, Way | None]]:
    """Bars and pins that sit in a piece, each with the way that it is drawn out."""
    found = []
    inside = set(root.bodies)
    for host in root.bricks.names:
        for rod in ties.rods.get(host, ()):
            if rod.name not in inside:
                box = ties.parts[host].box
                found.append((_rod_piece(rod), _way_out(rod, box, root.bricks)))
    return found


def _rod_piece(rod: Hardware) -> Piece:
    boxes = box_array(rod.box)
    return Piece(Bricks((rod.name,), boxes, np.zeros(1, dtype=np.intp)), (rod.name,))


def rod_drafts(
    ready: Sequence[tuple[Piece, Way | None]],
    hardware: dict[str, Hardware],
    stands: tuple[str, ...],
) -> Iterator[Draft]:
    """Rods that go the same way into the same parts, or lie in one, in one step."""
    groups: dict[tuple[tuple[str, ...], Side], list[tuple[str, float]]] = {}
    for piece, way in ready:
        if way is not None:
            inside = hardware[piece.bodies[0]].inside
            groups.setdefault((inside, way[0]), []).append((piece.bodies[0], way[1]))
    for (_, side), group in groups.items():
        names = tuple(name for name, _ in group)
        far = max(far for _, far in group)
        yield Draft(names, stands, side.opposite, far, Stage.AFTER_FINISHING)


def _way_out(rod: Hardware, host: UnitBox, others: Bricks) -> Way | None:
    """The way by which a rod leaves the board that it sits in, and how far it goes, mm.

    A rod drawn along its axis only enters what lies behind its end, and a rod that lies in a
    groove only what lies above its box.
    """
    back = rod.axis.opposite
    for side in (back, Side.TOP, Side.FRONT, Side.BOTTOM, Side.LEFT, Side.RIGHT, Side.BACK):
        far = (host.face(side) - rod.box.face(side.opposite)) * side.sign
        if far > TOUCH and not _meets(_ahead(rod.box, side, far), others):
            return side, round(far, 6)
    return None


def _ahead(box: UnitBox, side: Side, far: float) -> UnitBox:
    """What a box enters when it is moved."""
    low, high = list(box.low), list(box.high)
    axis = side.axis
    if side.sign > 0:
        low[axis], high[axis] = high[axis], high[axis] + far
    else:
        low[axis], high[axis] = low[axis] - far, low[axis]
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


def _meets(box: UnitBox, others: Bricks) -> bool:
    room = box_array(box)[0]
    laps = np.minimum(others.boxes[:, 1], room[1]) - np.maximum(others.boxes[:, 0], room[0])
    return bool((laps > TOUCH).all(axis=1).any())


__all__ = ["Way", "rod_drafts", "rods_in"]
