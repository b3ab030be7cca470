"""What is sawn for each part: its rough size, the one place for the cut list and the cut plan.

A doubled part takes one blank for each layer; two halves of a cleat share a strip; a panel of
perforated sheet takes a whole number of lines of holes. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.board import Surface
from cabinet.design import Unit
from cabinet.making.perforated import lie_of, margins
from cabinet.making.rack import is_wood, kerf_for
from cabinet.making.ripped import RippedPair, ripped_pairs
from cabinet.part import Board, Part
from cabinet.set_out import Lie
from cabinet.stock import Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class Rough:
    """What is sawn for one part, or for two that are ripped out of one strip.

    Attributes:
        name: What it is called.
        parts: Names of the parts that it becomes.
        items: Item numbers of their boards.
        board: The board of the first of them, for stock, layers and grain.
        length: Size along the board's length as it is sawn.
        width: Size across it as it is sawn.
        margins: By how much it is larger than the board, or the strip, at each edge and end.
        pair: The two parts that are ripped out of it, if it is a strip.
    """

    name: str
    parts: tuple[str, ...]
    items: tuple[int, ...]
    board: Board
    length: float
    width: float
    margins: dict[Surface, float]
    pair: RippedPair | None = None


def rough_blanks(unit: Unit) -> tuple[Rough, ...]:
    """What is sawn for all parts of a unit, in the order of their item numbers."""
    items = {
        part.name: item for item, (_, parts) in enumerate(unit.boards, start=1) for part in parts
    }
    pairs = {part.name: pair for pair in ripped_pairs(unit) for part in pair.parts}
    datums = _datums(unit)
    found: dict[str, Rough] = {}
    for board, parts in unit.boards:
        for part in parts:
            pair = pairs.get(part.name)
            if pair is None:
                found[part.name] = _single(part, items[part.name], datums.get(board.stock))
            elif pair.name not in found:
                found[pair.name] = _strip(pair, items)
    return tuple(found.values())


def _datums(unit: Unit) -> dict[Stock, Lie]:
    """How the blanks of each perforated sheet begin in its pattern: as its first panel does."""
    found: dict[Stock, Lie] = {}
    for board, _ in unit.boards:
        lie = lie_of(board)
        if lie is not None:
            found.setdefault(board.stock, lie)
    return found


def _single(part: Part, item: int, datum: Lie | None) -> Rough:
    board = part.board
    more = board.margins
    if datum is not None:
        more |= margins(board, datum, None if is_wood(board.stock) else kerf_for(board.stock))
    return Rough(
        name=part.name,
        parts=(part.name,),
        items=(item,),
        board=board,
        length=board.length + more[Surface.START] + more[Surface.END],
        width=board.width + more[Surface.LOW] + more[Surface.HIGH],
        margins=more,
    )


def _strip(pair: RippedPair, items: dict[str, int]) -> Rough:
    names = sorted((part.name for part in pair.parts), key=lambda name: items[name])
    length, width = pair.rough_size
    return Rough(
        name=pair.name,
        parts=tuple(names),
        items=tuple(items[name] for name in names),
        board=pair.below.board,
        length=length,
        width=width,
        margins=dict.fromkeys((s for s in Surface if not s.is_face), pair.allowance),
        pair=pair,
    )
