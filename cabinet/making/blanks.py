"""Blanks: what is sawn for the parts, each with what it allows of the board it comes from.

Their sizes are those of ``rough``. A blank's frame is that of its layer: x along the length, y
across, z from face B up, its origin at the rough corner. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.board import BoardBox, Surface
from cabinet.design import Unit
from cabinet.making.allowance import (
    Allowance,
    CutAway,
    KeepOut,
    Need,
    part_allowance,
)
from cabinet.making.guillotine import from_grid, to_grid
from cabinet.making.perforated import perforation_of, sentence
from cabinet.making.ripped import RippedPair
from cabinet.making.rough import Rough, rough_blanks
from cabinet.part import Part
from cabinet.set_out import spacings
from cabinet.stock import Grain, Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """One rectangle to be sawn.

    Attributes:
        name: Its own name (``top, layer 1 of 2``).
        parts: Names of the parts that it becomes: two for a strip that is ripped into both.
        item_name: What its board is called on lists and sheets, or the strip, with its layer.
        items: Item numbers of their boards.
        layer: Which layer it is, from 1 at face B.
        layers: How many there are.
        stock: What it is cut from.
        length: Size along the board's length as it is sawn.
        width: Size across it as it is sawn.
        thickness: Thickness of one layer.
        grain: Which way the face grain must run on it; NONE if it may lie either way.
        keep_outs: Where it needs sound wood, in its own frame.
        cut_away: What is cut away in any case, in its own frame.
        behind_doors: Those of its faces that are seen only while a door is open.
        surfaces: What its part's sheet calls its surfaces (``front edge``), in
            the order of ``Surface``.
        finished: Length and width to which it is cut when it is glued; its own if it is not
            oversize.
        fence: The edge that runs against the fence from now on.
        stop: The end that lies against the stop.
        pattern: How it lies in the pattern of a perforated sheet; "" in others.
        lines: How far the lines of holes in such a sheet stand apart at most; 0 in others.
    """

    name: str
    parts: tuple[str, ...]
    items: tuple[int, ...]
    item_name: str
    layer: int
    layers: int
    stock: Stock
    length: float
    width: float
    thickness: float
    grain: Grain
    keep_outs: tuple[KeepOut, ...]
    cut_away: tuple[CutAway, ...]
    behind_doors: tuple[Surface, ...]
    surfaces: tuple[str, ...]
    finished: tuple[float, float]
    fence: Surface
    stop: Surface
    pattern: str = ""
    lines: float = 0.0

    def called(self, surface: Surface) -> str:
        """What the maker calls one of its surfaces (``front edge``)."""
        return self.surfaces[list(Surface).index(surface)]

    @property
    def item(self) -> int:
        """Item number of the first board that it becomes."""
        return self.items[0]

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


def blanks(unit: Unit) -> tuple[Blank, ...]:
    """All blanks of a unit, in the order of their item numbers."""
    found: list[Blank] = []
    names, firsts = unit.item_names, {board: parts[0] for board, parts in unit.boards}
    for rough in rough_blanks(unit):
        whole = _whole(unit, rough)
        called = names.get(rough.name, rough.name)
        namesake = whole.part if rough.pair is not None else firsts[rough.board]
        found += [
            _blank(rough, whole, called, namesake, layer)
            for layer in range(1, rough.board.layers + 1)
        ]
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Whole:
    """All layers of a blank together.

    Attributes:
        part: What it is cut to when its layers are glued: a part, or the strip of two.
        x, y: Where that begins on the blank.
        allowances: What it needs of its board, each with the place where its part begins.
    """

    part: Part
    x: float
    y: float
    allowances: tuple[tuple[float, float, Allowance], ...]


def _whole(unit: Unit, rough: Rough) -> _Whole:
    x, y = rough.margins[Surface.START], rough.margins[Surface.LOW]
    if rough.pair is not None:
        return _strip(unit, rough.pair, x, y)
    part = unit.by_name[rough.name]
    return _Whole(part=part, x=x, y=y, allowances=((x, y, part_allowance(unit, part)),))


def _strip(unit: Unit, pair: RippedPair, x: float, y: float) -> _Whole:
    """The strip of two parts, which begins at x, y on its blank."""
    allowances = []
    for part, start in ((pair.below, y), (pair.above, y + pair.starts_above)):
        # Both lie against the stop; what the shorter one leaves of the strip is cut off it.
        is_far = pair.below.board.stop is Surface.END
        begins = x + (pair.length - part.board.length if is_far else 0.0)
        allowances.append((begins, start, part_allowance(unit, part)))
    return _Whole(part=pair.strip, x=x, y=y, allowances=tuple(allowances))


def _blank(rough: Rough, whole: _Whole, called: str, namesake: Part, layer: int) -> Blank:
    """One layer of a blank, its surfaces called as on the sheet, which draws the namesake."""
    board, part = whole.part.board, whole.part
    thick = board.stock.measured
    below = (layer - 1) * thick

    def moved(box: BoardBox, x: float, y: float) -> BoardBox:
        return BoardBox(
            low=(box.low[0] + x, box.low[1] + y, box.low[2] - below),
            high=(box.high[0] + x, box.high[1] + y, box.high[2] - below),
        )

    keep_outs = [
        KeepOut(moved(keep.box, x, y), keep.need, keep.what)
        for x, y, allowance in whole.allowances
        for keep in allowance.keep_outs
    ]
    for is_inner, z in ((layer > 1, 0.0), (layer < board.layers, thick)):
        if is_inner:
            face = BoardBox(
                low=(whole.x, whole.y, z),
                high=(whole.x + board.length, whole.y + board.width, z),
            )
            keep_outs.append(KeepOut(face, Need.GLUE, "glued to the other layer"))
    cut_away = [
        CutAway(moved(cut.box, x, y), cut.what)
        for x, y, allowance in whole.allowances
        for cut in allowance.cut_away
    ]
    faces = ((Surface.B, layer == 1), (Surface.A, layer == board.layers))
    which = f", layer {layer} of {board.layers}" if board.layers > 1 else ""
    return Blank(
        name=f"{part.name}{which}",
        parts=rough.parts,
        items=rough.items,
        item_name=f"{called}{which}",
        layer=layer,
        layers=board.layers,
        stock=board.stock,
        length=from_grid(to_grid(rough.length)),
        width=from_grid(to_grid(rough.width)),
        thickness=thick,
        grain=_grain(rough),
        keep_outs=tuple(keep_outs),
        cut_away=(*cut_away, *_oversize(rough, whole)),
        behind_doors=tuple(
            face for face, is_outer in faces if is_outer and face in rough.board.behind_doors
        ),
        surfaces=tuple(namesake.surface_name(surface) for surface in Surface),
        finished=(board.length, board.width),
        fence=board.fence,
        stop=board.stop,
        pattern=sentence(board),
        lines=max(spacings(perforation)) if (perforation := perforation_of(board)) else 0.0,
    )


def _grain(rough: Rough) -> Grain:
    """Which way a blank must lie; the lines of a perforated sheet run one way as grain does."""
    board = rough.board
    if perforation_of(board) is not None:
        return Grain.LENGTH
    return board.grain if board.stock.has_grain else Grain.NONE


def _oversize(rough: Rough, whole: _Whole) -> Iterator[CutAway]:
    """The strips of a blank beyond what it is cut to."""
    far = 1e6
    length, width, board = rough.length, rough.width, whole.part.board
    strips = (
        ((0.0, 0.0), (whole.x, width)),
        ((whole.x + board.length, 0.0), (length, width)),
        ((0.0, 0.0), (length, whole.y)),
        ((0.0, whole.y + board.width), (length, width)),
    )
    for low, high in strips:
        if high[0] - low[0] > 1e-9 and high[1] - low[1] > 1e-9:
            yield CutAway(BoardBox(low=(*low, -far), high=(*high, far)), "oversize")
