"""The cut list: every blank to be sawn, by stock."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.record import Record, plain
from cabinet.stock import Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLine:
    """Equal blanks from one stock.

    Attributes:
        stock: What they are cut from.
        item: Item number of the board that they become.
        parts: Names of the parts that they become.
        length: Size along the board's length, mm, oversize included.
        width: Size across it, mm, oversize included.
        pieces: How many blanks; two for each doubled part.
        layers: How many are glued face to face for one part.
        grain: Which way the face grain runs on the part.
    """

    stock: Stock
    item: int
    parts: tuple[str, ...]
    length: float
    width: float
    pieces: int
    layers: int
    grain: str


def cut_list(unit: Unit) -> tuple[CutLine, ...]:
    """All blanks of a unit, stock by stock, in the order of their item numbers."""
    lines = []
    for item, (board, parts) in enumerate(unit.boards, start=1):
        length, width = board.rough_size
        lines.append(
            CutLine(
                stock=board.stock,
                item=item,
                parts=tuple(part.name for part in parts),
                length=length,
                width=width,
                pieces=len(parts) * board.layers,
                layers=board.layers,
                grain=board.grain.value,
            )
        )
    stocks = list(dict.fromkeys(line.stock for line in lines))
    return tuple(sorted(lines, key=lambda line: (stocks.index(line.stock), line.item)))


def cut_record(line: CutLine) -> Record:
    """A line as plain data for job.json."""
    return {
        "item": line.item,
        "parts": list(line.parts),
        "board": line.stock.title,
        "length": plain(line.length),
        "width": plain(line.width),
        "pieces": line.pieces,
        "layers": line.layers,
        "grain": line.grain,
    }
