"""Parts, units and racks for the tests of the cut plan; every name and size is invented."""

from __future__ import annotations

import random
from collections.abc import Sequence

from cabinet.components.carcass import Rails, carcass
from cabinet.components.shelves import board_shelf, pin_rows
from cabinet.design import Component, Design, Unit
from cabinet.features import Feature
from cabinet.frame import Side, UnitPoint
from cabinet.making.outline import Outline, bounds, l_shape, rectangle
from cabinet.making.rack import Flaw, FlawFace, FlawKind, Leftover
from cabinet.part import Part, board_part
from cabinet.stock import Grain, Stock, birch_plywood

BIRCH = birch_plywood(nominal=18, measured=17.7)


def luck_of(seed: int) -> random.Random:
    """Random numbers that are the same in every run."""
    return random.Random(seed)  # noqa: S311 - no secret


def panel(
    name: str = "panel",
    *,
    length: float = 613.0,
    width: float = 287.0,
    shows: tuple[Side, ...] = (Side.TOP,),
    features: tuple[Feature, ...] = (),
    layers: int = 1,
    stock: Stock = BIRCH,
    grain: Grain | None = None,
    low: float = 0.0,
    oversize: float | None = None,
) -> Part:
    """A level board: face A looks up, its start is at the left and its near edge at the front."""
    return board_part(
        name=name,
        role=name,
        stock=stock,
        box_low=UnitPoint(0.0, 0.0, low),
        length=(Side.RIGHT, length),
        width=(Side.BACK, width),
        layers=layers,
        fence=Side.FRONT,
        stop=Side.LEFT,
        shows=shows,
        features=features,
        grain=grain,
        oversize=oversize,
    )


def unit_of(*parts: Part, name: str = "panels") -> Unit:
    """Parts that nothing ties, as a unit."""
    return Design(name, (Component(parts=parts),)).resolve()


def plain_unit(sizes: Sequence[tuple[float, float]], stock: Stock = BIRCH) -> Unit:
    """Plain boards of these sizes, stacked with air between them; all faces hidden."""
    return unit_of(
        *(
            panel(f"board {k + 1}", length=a, width=b, shows=(), stock=stock, low=40.0 * k)
            for k, (a, b) in enumerate(sizes)
        )
    )


def small_unit(width: float, height: float, depth: float, shelves: int) -> Unit:
    """An open carcass with rails behind, pin rows and shelves."""
    box = carcass(
        width=width,
        height=height,
        depth=depth,
        stock=BIRCH,
        back=Rails(stock=BIRCH, top=100, bottom=80),
    )
    pins = pin_rows(box)
    boards = [
        board_shelf(pins.bay(1), hole=2 + 3 * k, stock=BIRCH, name=f"shelf {k + 1}")
        for k in range(shelves)
    ]
    return Design("small unit", (box.component, pins.component, *boards)).resolve()


def random_leftovers(luck: random.Random, count: int, stock: Stock = BIRCH) -> tuple[Leftover, ...]:
    """Leftovers of all shapes with up to three flaws each."""
    return tuple(_leftover(luck, number, stock) for number in range(1, count + 1))


def _leftover(luck: random.Random, number: int, stock: Stock) -> Leftover:
    length, width = luck.randint(3000, 14000) / 10, luck.randint(1500, 6500) / 10
    shape: Outline = rectangle(length, width)
    kind = luck.randrange(5)
    if kind == 1:
        shape = l_shape(length, width, (length * luck.uniform(0.2, 0.6), width * 0.41))
    if kind == 2:
        cut = length * luck.uniform(0.05, 0.4)
        shape = ((0.0, 0.0), (length, 0.0), (round(length - cut, 1), width), (0.0, width))
    if kind == 3:
        # A U, its arms apart.
        one, other, deep = round(length * 0.4, 1), round(length * 0.7, 1), round(width * 0.6, 1)
        arms = ((other, width), (other, deep), (one, deep), (one, width))
        shape = ((0.0, 0.0), (length, 0.0), (length, width), *arms, (0.0, width))
    if kind == 4:
        shape = ((0.0, 0.0), (length, 0.0), (0.0, width))
    flaws = tuple(
        made for _ in range(luck.randrange(4)) if (made := _flaw(luck, shape, stock)) is not None
    )
    grain = Grain.WIDTH if luck.random() < 0.3 else Grain.LENGTH
    return Leftover(name=f"leftover {number}", stock=stock, outline=shape, flaws=flaws, grain=grain)


def _flaw(luck: random.Random, shape: Outline, stock: Stock) -> Flaw | None:
    """A flaw within the lower left part of a shape, which all of ours have."""
    around = bounds(shape)
    most_x, most_y = around.length * 0.38, around.width * 0.55
    length, width = luck.uniform(4, most_x * 0.9), luck.uniform(4, most_y * 0.4)
    x, y = luck.uniform(0, most_x - length), luck.uniform(0, most_y - width)
    kind = luck.choice(list(FlawKind))
    face = luck.choice(list(FlawFace))
    has_depth = kind is not FlawKind.STAIN and face is not FlawFace.THROUGH
    return Flaw(
        kind=kind,
        face=face,
        outline=rectangle(round(length, 1), round(width, 1), (round(x, 1), round(y, 1))),
        depth=round(luck.uniform(1, stock.measured - 1), 1) if has_depth else None,
    )
