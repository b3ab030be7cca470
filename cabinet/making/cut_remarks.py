"""What a maker must know of a cut plan besides the plan: boards that stay, rims of metal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cabinet.design import Unit
from cabinet.features import Perforation
from cabinet.making.rack import Leftover, Rack
from cabinet.stock import Stock

# A plain rim narrower than this lets a hole break out at a cut edge of perforated sheet (common
# practice, no source), mm.
LEAST_RIM = 2.0


def remarks(unit: Unit, rack: Rack, stocks: Sequence[Stock]) -> Iterator[str]:
    """Leftovers that are of the right kind but too thick or thin, and holes near a cut edge."""
    for leftover in rack.leftovers:
        yield from _off_thickness(leftover, stocks)
    yield from _rims(unit)


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


def _rims(unit: Unit) -> Iterator[str]:
    for item, (board, parts) in enumerate(unit.boards, start=1):
        for feature in board.features:
            if not isinstance(feature, Perforation):
                continue
            places = feature.centres(board.size)
            if not places:
                continue
            nearest = min(min(x, y) for x, y in places)
            rim = nearest - feature.diameter / 2
            told = f"Item {item}, {parts[0].name}: the holes end {rim:.1f} mm from the cut edge"
            if rim < LEAST_RIM:
                yield f"{told}; less than {LEAST_RIM:g} mm break out, so shift the cut."
            else:
                yield f"{told}; cut so that the field of holes lies in the middle."
