"""Blanks: what is sawn for the parts, each with what it allows of the board it comes from.

A doubled part has one blank for each layer, all oversize; a lipped board is already smaller by
its lippings in the model; an edge that is bevelled gets room for the tilted saw; a covering is
oversize. A blank's frame is that of its layer: x along the length, y across, z from face B up, its
origin at the rough corner. Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.board import BoardBox, Surface
from cabinet.design import Unit
from cabinet.features import Bevel
from cabinet.making.allowance import (
    Allowance,
    CutAway,
    KeepOut,
    Need,
    part_allowance,
)
from cabinet.making.guillotine import from_grid, to_grid
from cabinet.part import Board, Part
from cabinet.quantity import tenths
from cabinet.stock import Grain, Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """One rectangle to be sawn.

    Attributes:
        name: Its own name (``top, layer 1 of 2``).
        part: Name of the part that it becomes.
        item: Item number of that part's board.
        layer: Which layer it is, from 1 at face B.
        layers: How many there are.
        stock: What it is cut from.
        length: Size along the board's length as it is sawn.
        width: Size across it as it is sawn.
        thickness: Thickness of one layer.
        grain: Which way the face grain must run on it; NONE if it may lie either way.
        keep_outs: Where it needs sound wood, in its own frame.
        cut_away: What is cut away in any case, in its own frame.
        surfaces: What the maker calls its surfaces in the finished unit (``front edge``), in
            the order of ``Surface``.
        finished: Length and width to which it is cut when it is glued; its own if it is not
            oversize.
        fence: The edge that runs against the fence from now on.
        stop: The end that lies against the stop.
    """

    name: str
    part: str
    item: int
    layer: int
    layers: int
    stock: Stock
    length: float
    width: float
    thickness: float
    grain: Grain
    keep_outs: tuple[KeepOut, ...]
    cut_away: tuple[CutAway, ...]
    surfaces: tuple[str, ...]
    finished: tuple[float, float]
    fence: Surface
    stop: Surface

    def called(self, surface: Surface) -> str:
        """What the maker calls one of its surfaces (``front edge``)."""
        return self.surfaces[list(Surface).index(surface)]

    @property
    def is_oversize(self) -> bool:
        """Whether it is cut to size later."""
        return self.finished != (self.length, self.width)

    @property
    def may_turn(self) -> bool:
        """Whether it may lie across the sheet's grain."""
        return self.grain is Grain.NONE

    @property
    def along_grain(self) -> tuple[float, float]:
        """Sizes as it lies on a sheet whose grain runs along the length."""
        return (self.width, self.length) if self.grain is Grain.WIDTH else (self.length, self.width)


def blanks(unit: Unit, *, kerf: float) -> tuple[Blank, ...]:
    """All blanks of a unit, in the order of their item numbers.

    Args:
        unit: The unit.
        kerf: Width of the saw's cut, for the room beside a bevel, mm.
    """
    found: list[Blank] = []
    for item, (board, parts) in enumerate(unit.boards, start=1):
        for part in parts:
            allowance = part_allowance(unit, part)
            found += [
                _blank(part, board, allowance, item, layer, kerf)
                for layer in range(1, board.layers + 1)
            ]
    return tuple(found)


def margins(board: Board, *, kerf: float) -> dict[Surface, float]:
    """By how much a blank is larger than its board at each edge and end, mm.

    A bevelled edge gets at least the width of the tilted cut, so that the blade runs in wood on
    both sides and the sharp arris comes out at its size (common practice, no source).
    """
    length, width = board.rough_size
    found = {
        Surface.START: (length - board.length) / 2,
        Surface.END: (length - board.length) / 2,
        Surface.LOW: (width - board.width) / 2,
        Surface.HIGH: (width - board.width) / 2,
    }
    for feature in board.features:
        if isinstance(feature, Bevel):
            cut = tenths(kerf / math.cos(math.radians(feature.angle)), up=True)
            found[feature.edge] = max(found[feature.edge], cut)
    return found


def _blank(
    part: Part, board: Board, allowance: Allowance, item: int, layer: int, kerf: float
) -> Blank:
    more = margins(board, kerf=kerf)
    length = board.length + more[Surface.START] + more[Surface.END]
    width = board.width + more[Surface.LOW] + more[Surface.HIGH]
    thick = board.stock.measured
    below = (layer - 1) * thick
    x, y = more[Surface.START], more[Surface.LOW]

    def moved(box: BoardBox) -> BoardBox:
        return BoardBox(
            low=(box.low[0] + x, box.low[1] + y, box.low[2] - below),
            high=(box.high[0] + x, box.high[1] + y, box.high[2] - below),
        )

    keep_outs = [KeepOut(moved(k.box), k.need, k.what) for k in allowance.keep_outs]
    for is_inner, z in ((layer > 1, 0.0), (layer < board.layers, thick)):
        if is_inner:
            face = BoardBox(low=(x, y, z), high=(x + board.length, y + board.width, z))
            keep_outs.append(KeepOut(face, Need.GLUE, "glued to the other layer"))
    cut_away = [CutAway(moved(c.box), c.what) for c in allowance.cut_away]
    return Blank(
        name=f"{part.name}, layer {layer} of {board.layers}" if board.layers > 1 else part.name,
        part=part.name,
        item=item,
        layer=layer,
        layers=board.layers,
        stock=board.stock,
        length=from_grid(to_grid(length)),
        width=from_grid(to_grid(width)),
        thickness=thick,
        grain=board.grain if board.stock.has_grain else Grain.NONE,
        keep_outs=tuple(keep_outs),
        cut_away=(*cut_away, *_oversize(length, width, more)),
        surfaces=tuple(part.surface_name(surface) for surface in Surface),
        finished=(board.length, board.width),
        fence=board.fence,
        stop=board.stop,
    )


def _oversize(length: float, width: float, more: dict[Surface, float]) -> list[CutAway]:
    """The strips of a blank beyond its board."""
    far = 1e6
    strips = {
        Surface.START: ((0.0, 0.0), (more[Surface.START], width)),
        Surface.END: ((length - more[Surface.END], 0.0), (length, width)),
        Surface.LOW: ((0.0, 0.0), (length, more[Surface.LOW])),
        Surface.HIGH: ((0.0, width - more[Surface.HIGH]), (length, width)),
    }
    return [
        CutAway(BoardBox(low=(*low, -far), high=(*high, far)), "oversize")
        for surface, (low, high) in strips.items()
        if more[surface] > 0
    ]
