"""Whether a hole or slot takes in a piece of metal or a biscuit whole.

Then the two share nothing with the wood around them, and the kernel need not be asked: a bar in
a wider bore, a countersunk screw in its hole, a biscuit in the cut of a round blade. Whatever
is not proved to be taken in is left to the kernel. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

import math

from cabinet.features import BISCUIT_BLADE_RADIUS, BiscuitSlot, Feature, Hole
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.hardware import BiscuitPiece, Rod, Screw
from cabinet.hardware import Body as HardwareBody
from cabinet.quantity import ROUNDING


def is_swallowed(
    body: HardwareBody,
    at: UnitPoint,
    axis: Side,
    cut: tuple[Feature, UnitBox, Side],
    reach: tuple[float, float],
) -> bool:
    """Whether a cut takes in all of a piece of hardware that lies in its board.

    Args:
        body: Shape of the piece.
        at: Where it begins; for a biscuit, its middle.
        axis: Way it points.
        cut: A feature of the board, the box around it, and the surface of the unit it enters by.
        reach: From where to where along ``axis`` the piece lies in the board.
    """
    feature, box, surface = cut
    if isinstance(feature, Hole) and isinstance(body, Rod | Screw):
        return surface.axis == axis.axis and _in_hole(
            body, at, axis, (feature, box, surface), reach
        )
    if isinstance(feature, BiscuitSlot) and isinstance(body, BiscuitPiece):
        return surface.axis == axis.axis and _in_slot(body, at, feature, box, surface)
    return False


def _in_hole(
    body: Rod | Screw,
    at: UnitPoint,
    axis: Side,
    cut: tuple[Hole, UnitBox, Side],
    reach: tuple[float, float],
) -> bool:
    hole, box, surface = cut
    ends = tuple(box.low)[axis.axis], tuple(box.high)[axis.axis]
    if reach[0] < ends[0] - ROUNDING or reach[1] > ends[1] + ROUNDING:
        return False
    off = _beside(at, box, axis)
    bar = body.diameter if isinstance(body, Rod) else body.core
    if bar / 2 + off > hole.diameter / 2 + ROUNDING:
        return False
    if isinstance(body, Rod):
        return True
    # Both cones narrow by 1 mm a millimetre, so where they begin tells which is the wider.
    begin = reach[0] if axis.sign > 0 else reach[1]
    head = body.head_diameter / 2 - (begin - tuple(at)[axis.axis]) * axis.sign
    if head + off <= hole.diameter / 2 + ROUNDING:
        return True
    sunk = hole.countersink / 2 - (begin - box.face(surface)) * axis.sign
    return axis is surface.opposite and head + off <= sunk + ROUNDING


def _in_slot(
    piece: BiscuitPiece, at: UnitPoint, slot: BiscuitSlot, box: UnitBox, surface: Side
) -> bool:
    """Whether the blade's round cut holds the whole lens of a biscuit, also what is outside."""
    biscuit, along = piece.biscuit, piece.along.axis
    across = 3 - along - surface.axis
    low, high = tuple(box.low), tuple(box.high)
    thin = biscuit.thickness / 2
    if (
        tuple(at)[across] - thin < low[across] - ROUNDING
        or tuple(at)[across] + thin > high[across] + ROUNDING
        or high[across] - low[across] > slot.biscuit.thickness + ROUNDING
    ):
        return False
    # The middle of the blade as seen from the biscuit's: along it, and out of the board.
    aside = (low[along] + high[along]) / 2 - tuple(at)[along]
    floor = box.face(surface) - surface.sign * slot.biscuit.slot_depth
    out = (floor - tuple(at)[surface.axis]) * surface.sign + BISCUIT_BLADE_RADIUS
    return _farthest_of_lens(biscuit.length / 2, biscuit.width / 2, aside, out) <= (
        BISCUIT_BLADE_RADIUS + ROUNDING
    )


def _farthest_of_lens(length: float, width: float, x: float, y: float) -> float:
    """How far the farthest point of a lens is from a point.

    The lens has two arcs through its tips at (-length, 0) and (length, 0); their middles are
    at (0, width) and (0, -width).
    """
    radius = (length**2 + width**2) / (2 * width)
    far = max(math.hypot(x - length, y), math.hypot(x + length, y))
    for side in (1.0, -1.0):
        centre = side * (width - radius)
        off = math.hypot(x, y - centre)
        # Of a circle, the point behind its centre is the farthest, if the arc has it.
        is_on_arc = off > 0 and side * (centre + radius * (centre - y) / off) >= 0
        far = max(far, off + radius if is_on_arc else math.hypot(x, y - side * width))
    return far


def _beside(at: UnitPoint, box: UnitBox, axis: Side) -> float:
    """How far the axis of a piece runs beside that of a hole."""
    middle = [(a + b) / 2 for a, b in zip(box.low, box.high, strict=True)]
    off = [a - m for a, m in zip(at, middle, strict=True)]
    off[axis.axis] = 0.0
    return math.hypot(*off)
