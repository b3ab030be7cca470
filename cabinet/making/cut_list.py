"""The cut list: every blank to be sawn, by stock."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.making.rough import Rough, rough_blanks
from cabinet.record import Record, plain
from cabinet.stock import Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLine:
    """Equal blanks from one stock.

    Attributes:
        stock: What they are cut from.
        item: Item number of the board that they become, of a strip's two the first.
        parts: Names of the parts that they become: of a strip that is ripped into two, both.
        item_names: What their boards are called on lists and sheets: of a strip both.
        length: Size along the board's length, mm, oversize included.
        width: Size across it, mm, oversize included.
        pieces: How many blanks; two for each doubled part.
        layers: How many are glued face to face for one part.
        grain: Which way the face grain runs on the part.
    """

    stock: Stock
    item: int
    parts: tuple[str, ...]
    item_names: tuple[str, ...]
    length: float
    width: float
    pieces: int
    layers: int
    grain: str


def cut_list(unit: Unit) -> tuple[CutLine, ...]:
    """All blanks of a unit, stock by stock, in the order of their item numbers."""
    names = unit.item_names
    groups: dict[tuple[object, ...], list[Rough]] = {}
    for rough in rough_blanks(unit):
        groups.setdefault((rough.items, rough.length, rough.width), []).append(rough)
    lines = [
        CutLine(
            stock=first.board.stock,
            item=first.items[0],
            parts=tuple(name for one in alike for name in one.parts),
            item_names=tuple(names[name] for name in first.parts),
            length=round(first.length, 6),
            width=round(first.width, 6),
            pieces=len(alike) * first.board.layers,
            layers=first.board.layers,
            grain=first.board.grain.value,
        )
        for alike in groups.values()
        for first in alike[:1]
    ]
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
