"""The cuts that make two boards out of one strip: to size, ripped, each to its own size.

Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

from cabinet.features import Bevel
from cabinet.making.operation import Operation, Phase, Work, sawn_to_size
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
    board = pair.strip.board
    if pair.allowance:
        for axis, reference in ((1, board.fence), (0, board.stop)):
            yield sawn_to_size(reference, board.size.along[axis], pair.allowance, kerf)
    yield replace(bevel, name=f"{bevel.name}, which parts the halves", phase=Phase.SIZE)


def half_operations(
    pair: RippedPair, part: Part, bevel: Operation, kerf: float
) -> Iterator[Operation]:
    """What brings a half to its size once it is ripped: bevelled, blunted, cut to its length.

    Args:
        pair: The two boards.
        part: One of them.
        bevel: Its bevel by itself, told from its full edge.
        kerf: Width of the saw's cut.
    """
    board = part.board
    if part is pair.above:
        yield replace(bevel, phase=Phase.SIZE)
    edge = next(f for f in board.features if isinstance(f, Bevel))
    sharp = edge.land * math.tan(math.radians(edge.angle))
    if sharp > _SAME:
        yield sawn_to_size(edge.edge.opposite, board.width, sharp, kerf)
    spare = pair.length - board.length
    if spare > _SAME:
        yield sawn_to_size(board.stop, board.length, spare, kerf)
