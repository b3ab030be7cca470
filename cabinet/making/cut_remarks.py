"""What a maker must know of a cut plan besides the plan: boards that stay, holes, strips."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from cabinet.design import Unit
from cabinet.making.perforated import perforation_of, sentence
from cabinet.making.rack import Leftover, Rack, is_wood
from cabinet.making.ripped import ripped_pairs
from cabinet.quantity import written
from cabinet.stock import Stock

# A thickness is measured to this, mm (common practice, no source).
_MEASURED_TO = 0.05


def remarks(unit: Unit, rack: Rack, stocks: Sequence[Stock], cut: Collection[str]) -> Iterator[str]:
    """Leftovers of the right kind but thicker or thinner, cuts in perforated sheet, strips.

    Args:
        unit: The unit.
        rack: What there is.
        stocks: Its stocks.
        cut: Names of the leftovers that are cut.
    """
    for leftover in rack.leftovers:
        yield from _off_thickness(leftover, stocks)
        if leftover.name in cut:
            yield from _nearly_as_thick(leftover, stocks)
    yield from _patterns(unit)
    yield from _strips(unit)


def _off_thickness(leftover: Leftover, stocks: Sequence[Stock]) -> Iterator[str]:
    near = [
        stock
        for stock in stocks
        if (stock.material, stock.nominal) == (leftover.stock.material, leftover.stock.nominal)
    ]
    if near and not any(leftover.serves(stock) for stock in near):
        yield (
            f"{leftover.name} is {leftover.thickness:g} mm thick and the unit is drawn for "
            f"{near[0].measured:g}; grooves would not fit, so it stays on the rack."
        )


def _nearly_as_thick(leftover: Leftover, stocks: Sequence[Stock]) -> Iterator[str]:
    """A board that goes into its grooves with less play, or more, than is drawn."""
    stock = next((stock for stock in stocks if leftover.serves(stock)), None)
    if stock is None:
        return
    off = leftover.thickness - stock.measured
    if abs(off) > _MEASURED_TO:
        yield (
            f"{leftover.name} is {written(leftover.thickness)} mm thick and the unit is drawn for "
            f"{written(stock.measured)}: what is cut from it has {written(abs(off))} mm "
            f"{'less' if off > 0 else 'more'} play in its grooves; try one in a test cut first."
        )


def _patterns(unit: Unit) -> Iterator[str]:
    names = unit.item_names
    for item, (board, parts) in enumerate(unit.boards, start=1):
        told = sentence(board)
        if told:
            yield f"Item {item}, {names[parts[0].name]}. {told}"
    perforated = [board.stock for board, _ in unit.boards if perforation_of(board) is not None]
    if perforated:
        yield (
            "Perforated sheet is taken to be perforated all over; one with a plain rim of its own "
            "is cut so that the field of holes lies in the middle. First bring the sheet's own "
            "edges between the holes as told; "
            + (_SET_OUT_ANEW if all(map(is_wood, perforated)) else _BEGINS_ALIKE)
        )
    if any(map(is_wood, perforated)) and not all(map(is_wood, perforated)):
        yield f"Of perforated board {_SET_OUT_ANEW}"


_BEGINS_ALIKE = (
    "each blank takes whole lines of holes, kerf included, so the next begins alike, and is then "
    "cut to size at its far end and edge."
)
_SET_OUT_ANEW = (
    "each blank has a line of holes more each way, for where the next begins hangs on the blade: "
    "set every panel out from the holes within its blank and cut it to size all round."
)


def _strips(unit: Unit) -> Iterator[str]:
    for pair in ripped_pairs(unit):
        one, other = (part.name for part in pair.parts)
        glued = "glued up, " if pair.below.board.layers > 1 else ""
        yield (
            f"{one} and {other} come out of one strip: {glued}cut to size as one, then ripped "
            f"at {pair.bevel.angle:g} degrees; the set-ups have the distances."
        )
