"""The cuts that make two boards out of one strip: to size, ripped once, each to its own size.

Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

from cabinet.features import Bevel
from cabinet.making.operation import Operation, Work, sawn_to_size
from cabinet.making.ripped import RippedPair
from cabinet.part import Part

_SAME = 1e-6
# What a half already has from the strip, or gets from the cuts below.
_FROM_THE_STRIP = (Work.TO_SIZE, Work.BEVEL)


def own_operations(made: Iterable[Operation]) -> tuple[Operation, ...]:
    """Of a half's operations those that are left when it is out of its strip."""
    return tuple(one for one in made if one.work not in _FROM_THE_STRIP)


def strip_operations(pair: RippedPair, bevel: Operation, kerf: float) -> Iterator[Operation]:
    """What is done to the strip: cut to size as one, then ripped.

    Args:
        pair: The two boards.
        bevel: The bevel of the lower one by itself, told from its near edge: the same cut.
        kerf: Width of the saw's cut.
    """
    board = pair.strip(kerf).board
    length, width = pair.rough_size
    for axis, reference, rough in ((1, board.fence, width), (0, board.stop, length)):
        extent = board.size.along[axis]
        allowance = (rough - extent) / 2
        if allowance > _SAME:
            yield sawn_to_size(reference, extent, allowance, kerf)
    yield replace(bevel, name=f"{bevel.name} of both halves in one cut")


def half_operations(pair: RippedPair, part: Part, kerf: float) -> Iterator[Operation]:
    """What brings a half to its size once it is ripped: blunted, and cut to its length."""
    board = part.board
    bevel = next(f for f in board.features if isinstance(f, Bevel))
    sharp = bevel.land * math.tan(math.radians(bevel.angle))
    if sharp > _SAME:
        yield sawn_to_size(bevel.edge.opposite, board.width, sharp, kerf)
    spare = pair.length - board.length
    if spare > _SAME:
        yield sawn_to_size(board.stop, board.length, spare, kerf)
