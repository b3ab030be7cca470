"""A part: a board with its features, a name and a place in the unit.

``Board`` is what is made and ``Part`` is one of them in its place, so equal boards share one
solid, one mesh, one set of views and one sheet, wherever they stand.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, fields, replace
from itertools import product

from cabinet.board import At, BoardBox, BoardSize, Surface, place, surface_at
from cabinet.errors import SizeError, UnknownNameError
from cabinet.features import (
    Bevel,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Perforation,
    Rebate,
)
from cabinet.frame import BoardPoint, Placement, Side, UnitBox, UnitPoint
from cabinet.quantity import named, positive, whole, within
from cabinet.set_out import open_area
from cabinet.stock import Grain, Stock, require_stock

# Two blanks to be glued face to face are cut this much larger on every edge and cut to size
# as one when dry (common practice, no source: 3 to 5).
DOUBLING_ALLOWANCE = 4.0

# A blank is wider by this at an edge that is bevelled to a sharp arris, so that the tilted blade
# runs in wood on both sides: enough for a kerf of 3.5 at 45 degrees (common practice, no source).
TILTED_CUT = 5.0

# What a board is called as long as it does not know whose it is.
_NAMELESS = "board"


@contextmanager
def _naming(part: str) -> Iterator[None]:
    """Raise what a board refuses when it is made with the name of its part."""
    try:
        yield
    except SizeError as error:
        told = str(error).removeprefix(_NAMELESS)
        where = error.part.removeprefix(_NAMELESS)
        raise SizeError(
            f"{part}{told}", part=f"{part}{where}", value=error.value, limit=error.limit
        ) from error


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """What is made: a blank with its features, wherever it will stand.

    Attributes:
        stock: What it is cut from.
        length: Size along the board's x axis before any flush trim, mm.
        width: Size along its y axis before any flush trim, mm.
        layers: How many boards are glued face to face to make it.
        grain: Which way the face grain runs.
        features: All that is done to it.
        fence: The edge that runs against the fence: datum across the width.
        stop: The end that lies against the stop: datum along the length.
        shows: Surfaces that are seen in the finished unit, its doors closed.
        behind_doors: Surfaces that are seen only while a door is open.
        oversize: A blank is first cut larger by this on every edge, mm, and cut to size when
            it is glued; None for what doubled boards need, and nothing for others.

    Raises:
        SizeError: sizes that are not positive, no layer or more than four, two features of
            one name, a datum that is not an edge, or a feature that the board cannot have.
    """

    stock: Stock
    length: float
    width: float
    layers: int = 1
    grain: Grain = Grain.LENGTH
    features: tuple[Feature, ...] = ()
    fence: Surface = Surface.LOW
    stop: Surface = Surface.START
    shows: tuple[Surface, ...] = ()
    behind_doors: tuple[Surface, ...] = ()
    oversize: float | None = None

    def __post_init__(self) -> None:
        self.check(_NAMELESS)

    def check(self, owner: str) -> None:
        """Refuse what cannot be made, naming ``owner``; see the class for what is raised."""
        positive(owner, "length", self.length)
        positive(owner, "width", self.width)
        whole(owner, "layers", self.layers, 1, 4)
        if self.oversize is not None:
            within(owner, "oversize", self.oversize, 0.0, 50.0)
        if self.fence.axis != 1 or self.stop.axis != 0:
            raise SizeError(
                f"{owner}: fence at {self.fence.value} and stop at {self.stop.value}; the fence "
                "must lie at an edge and the stop at an end",
                part=owner,
                value=(self.fence.value, self.stop.value),
                limit="an edge and an end",
            )
        names: set[str] = set()
        for feature in self.features:
            if feature.name in names:
                raise SizeError(
                    f"{owner}: two features are called {feature.name!r}; each needs its own name",
                    part=owner,
                    value=feature.name,
                    limit="distinct names",
                )
            names.add(feature.name)
            feature.check(owner, self.size)

    @property
    def thickness(self) -> float:
        """Measured thickness of all layers, mm; glue adds nothing."""
        return self.stock.measured * self.layers

    @property
    def size(self) -> BoardSize:
        """Length, width and thickness before any flush trim, mm."""
        return BoardSize(self.length, self.width, self.thickness)

    @property
    def trims(self) -> tuple[FlushTrim, ...]:
        """The edges that stand proud until they are trimmed flush."""
        return tuple(f for f in self.features if isinstance(f, FlushTrim))

    @property
    def finished_size(self) -> BoardSize:
        """Length, width and thickness after the flush trims, mm."""
        sizes = list(self.size.along)
        for trim in self.trims:
            sizes[trim.edge.axis] -= trim.proud
        return BoardSize(*sizes)

    @property
    def is_glued_on_oversize(self) -> bool:
        """Whether it is glued on larger than it is to be, and trimmed there, as a covering is."""
        return self.oversize is not None and self.layers == 1

    @property
    def margins(self) -> dict[Surface, float]:
        """By how much a blank is first cut larger than the board at each edge and end, mm."""
        more = DOUBLING_ALLOWANCE if self.layers > 1 else 0.0
        if self.oversize is not None:
            more = self.oversize
        found = dict.fromkeys((Surface.START, Surface.END, Surface.LOW, Surface.HIGH), more)
        for feature in self.features:
            # What is cut to size before it is bevelled has no room left there anyhow.
            if isinstance(feature, Bevel) and not more and not feature.land:
                found[feature.edge] = TILTED_CUT
        return found

    @property
    def rough_size(self) -> tuple[float, float]:
        """Length and width of each blank as it is first cut, mm."""
        more = self.margins
        return (
            self.length + more[Surface.START] + more[Surface.END],
            self.width + more[Surface.LOW] + more[Surface.HIGH],
        )

    @property
    def open_area(self) -> float:
        """Area of the perforations that the solid leaves out, mm2."""
        return self.open_area_within(None)

    def open_area_within(self, box: BoardBox | None) -> float:
        """Area of the perforations within a box of the board, or in all of it, mm2."""
        found = [f for f in self.features if isinstance(f, Perforation)]
        return sum(open_area(f, self.size, box) for f in found)

    def with_features(self, *more: Feature) -> Board:
        """This board with further features at the end."""
        return replace(self, features=self.features + more)

    def mirrored(self) -> Board:
        """The board of the other hand: start and far end change places."""
        return _mapped(self, {Surface.START: Surface.END, Surface.END: Surface.START})

    def is_mirror_of(self, other: Board) -> bool:
        """Whether the other board is this one as seen in a mirror, but not this one itself."""
        if len(self.features) != len(other.features) or self.size != other.size:
            return False
        if (self.stock, self.layers) != (other.stock, other.layers):
            return False
        mine = {_cuts_of(board) for board in _turns(self)}
        return _cuts_of(other) not in mine and _cuts_of(other.mirrored()) in mine


def _mapped(board: Board, swap: dict[Surface, Surface]) -> Board:
    """The board with surfaces exchanged in all that it has."""
    return replace(
        board,
        features=tuple(_swapped(feature, swap) for feature in board.features),
        fence=swap.get(board.fence, board.fence),
        stop=swap.get(board.stop, board.stop),
        shows=tuple(swap.get(s, s) for s in board.shows),
        behind_doors=tuple(swap.get(s, s) for s in board.behind_doors),
    )


def _swap_value(value: object, swap: dict[Surface, Surface]) -> object:
    if isinstance(value, Surface):
        return swap.get(value, value)
    if isinstance(value, At):
        return At(swap.get(value.datum, value.datum), value.distance)
    if isinstance(value, tuple):
        return tuple(_swap_value(item, swap) for item in value)
    return value


def _swapped(feature: Feature, swap: dict[Surface, Surface]) -> Feature:
    """The feature with surfaces exchanged in every place and datum that it has."""
    values = {f.name: _swap_value(getattr(feature, f.name), swap) for f in fields(feature)}
    # A run starts at the low end: turned end for end, its start and its end change places.
    if isinstance(feature, Groove | Rebate) and surface_at(feature.run_axis, -1) in swap:
        values["start"], values["end"] = values["end"], values["start"]
    return type(feature)(**values)  # type: ignore[arg-type]


def _turns(board: Board) -> tuple[Board, ...]:
    """The board in the four ways it can lie on the bench with its length the same way."""
    axes = [((surface_at(a, -1)), (surface_at(a, 1))) for a in range(3)]
    boards = []
    for flips in product((False, True), repeat=2):
        # Two swaps at a time are half turns; a single one would be a mirror.
        about = (flips[0], flips[1], flips[0] != flips[1])
        swap: dict[Surface, Surface] = {}
        for (low, high), is_flipped in zip(axes, about, strict=True):
            if is_flipped:
                swap |= {low: high, high: low}
        boards.append(_mapped(board, swap))
    return tuple(boards)


def _cuts_of(board: Board) -> frozenset[tuple[object, ...]]:
    return frozenset(shape_key(feature, board.size) for feature in board.features)


def shape_key(feature: Feature, size: BoardSize) -> tuple[object, ...]:
    """What the feature does to the solid, whatever its name and its datum."""
    box = feature.box(size)
    corners = tuple(round(value, 3) for value in (*box.low, *box.high))
    plain = [
        getattr(feature, f.name)
        for f in fields(feature)
        if isinstance(getattr(feature, f.name), float | int) and f.name != "name"
    ]
    # Of these a box does not tell which way round they are.
    hand: tuple[Surface, ...] = ()
    if isinstance(feature, Bevel):
        hand = feature.edge, feature.sharp
    elif isinstance(feature, Hole | HoleRow) and feature.countersink:
        hand = (feature.surface,)
    return type(feature).__name__, corners, tuple(round(v, 3) for v in plain), hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One board in its place in the unit.

    Attributes:
        name: Its own name, used once in a unit (``left side``).
        role: What it is, shared by all of its kind (``frame shelf end``).
        board: What it is made of and what is done to it.
        placement: Where it lies.
        group: The component that it belongs to, for lists and pictures.
        box: The box of the finished board in the unit; it follows from the others.

    Raises:
        SizeError: a name that is blank, or a feature that the board cannot have; the
            message names the part.
    """

    name: str
    role: str
    board: Board
    placement: Placement
    group: str = ""
    # Asked for thousands of times by the checks, so it is kept.
    box: UnitBox = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        named("part", "name", self.name)
        named(self.name, "role", self.role)
        self.board.check(self.name)
        object.__setattr__(self, "box", self._finished_box())

    @property
    def blank_box(self) -> UnitBox:
        """The box of the board before any flush trim, in the unit."""
        if not self.board.trims:
            return self.box
        return self.unit_box(BoardBox(low=(0.0, 0.0, 0.0), high=self.board.size.along))

    def _finished_box(self) -> UnitBox:
        low = [0.0, 0.0, 0.0]
        high = list(self.board.size.along)
        for trim in self.board.trims:
            if trim.edge.sign < 0:
                low[trim.edge.axis] += trim.proud
            else:
                high[trim.edge.axis] -= trim.proud
        return self.unit_box(
            BoardBox(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))
        )

    def surface(self, side: Side) -> Surface:
        """The surface of the board that looks to a side of the unit."""
        axis, sign = self.placement.board_axis(side)
        return surface_at(axis, sign)

    def side(self, surface: Surface) -> Side:
        """The side of the unit to which a surface of the board looks."""
        direction = self.placement.directions[surface.axis]
        return direction if surface.sign > 0 else direction.opposite

    def surface_name(self, surface: Surface) -> str:
        """A surface as the maker names it in the finished unit (``front edge``, ``top end``)."""
        kind = ("end", "edge", "face")[surface.axis]
        return f"{self.side(surface).value} {kind}"

    def at(self, side: Side, coordinate: float) -> At:
        """The place at a coordinate of the unit, told from the edge that looks to ``side``.

        Args:
            side: Where the datum edge looks.
            coordinate: Unit coordinate along that side's axis, mm.
        """
        _, sign = self.placement.board_axis(side_of_axis(side))
        origin = tuple(self.placement.origin)[side.axis]
        return place(self.surface(side), (coordinate - origin) * sign, self.board.size)

    def with_features(self, *more: Feature) -> Part:
        """This part with further features on its board; errors name the part."""
        with _naming(self.name):
            board = self.board.with_features(*more)
        return replace(self, board=board)

    def board_box(self, box: UnitBox) -> BoardBox:
        """A box of the unit in this board's frame."""
        one = self.placement.unit_to_board(box.low)
        other = self.placement.unit_to_board(box.high)
        pairs = [sorted(pair) for pair in zip(one, other, strict=True)]
        return BoardBox(
            low=(pairs[0][0], pairs[1][0], pairs[2][0]),
            high=(pairs[0][1], pairs[1][1], pairs[2][1]),
        )

    def unit_box(self, box: BoardBox) -> UnitBox:
        """A box of this board in the unit."""
        one = self.placement.board_to_unit(BoardPoint(*box.low))
        other = self.placement.board_to_unit(BoardPoint(*box.high))
        pairs = [sorted(pair) for pair in zip(one, other, strict=True)]
        return UnitBox(
            low=UnitPoint(pairs[0][0], pairs[1][0], pairs[2][0]),
            high=UnitPoint(pairs[0][1], pairs[1][1], pairs[2][1]),
        )

    def feature_box(self, feature: Feature) -> UnitBox:
        """The box around what a feature takes away, in the unit."""
        return self.unit_box(feature.box(self.board.size))


def side_of_axis(side: Side) -> Side:
    """The side that looks along the same axis in its positive direction."""
    return side if side.sign > 0 else side.opposite


def board_part(
    *,
    name: str,
    role: str,
    stock: Stock,
    box_low: UnitPoint,
    length: tuple[Side, float],
    width: tuple[Side, float],
    layers: int = 1,
    fence: Side,
    stop: Side,
    shows: tuple[Side, ...] = (),
    grain: Grain | None = None,
    group: str = "",
    features: tuple[Feature, ...] = (),
    oversize: float | None = None,
) -> Part:
    """A part from the low corner of its box and the unit directions of its length and width.

    Args:
        name: Its own name, used once in a unit.
        role: What it is, shared by all of its kind.
        stock: What it is cut from.
        box_low: Front-left-bottom corner of the board's box in the unit, mm.
        length: Unit direction and size of the board's length, mm.
        width: Unit direction and size of its width; face A looks the way of length x width.
        fence: Side to which the edge looks that runs against the fence.
        stop: Side to which the end looks that lies against the stop.
        shows: Sides of the board that are meant to be seen in an open unit; what doors or other
            parts hide of them follows when the design is resolved.
        layers: How many boards are glued face to face to make it.
        grain: Which way the face grain runs; None for along the length, if it has any.
        group: The component that it belongs to.
        features: What is done to it apart from its joints.
        oversize: As for ``Board``.

    Raises:
        SizeError: sizes that are not positive, no layer or more than four, or fence and stop
            not at an edge and an end.
    """
    (along, long), (across, wide) = length, width
    positive(name, "length", long)
    positive(name, "width", wide)
    whole(name, "layers", layers, 1, 4)
    thick = require_stock(name, "stock", stock).measured * layers
    corner = box_low
    for side, extent in ((along, long), (across, wide), (along.cross(across), thick)):
        if side.sign < 0:
            corner = corner.moved(side.opposite, extent)
    placement = Placement(origin=corner, along=along, across=across)

    def surface(side: Side) -> Surface:
        axis, sign = placement.board_axis(side)
        return surface_at(axis, sign)

    has_grain = Grain.LENGTH if stock.has_grain else Grain.NONE
    with _naming(name):
        board = Board(
            stock=stock,
            length=round(long, 6),
            width=round(wide, 6),
            layers=layers,
            grain=grain if grain is not None else has_grain,
            fence=surface(fence),
            stop=surface(stop),
            shows=tuple(sorted((surface(s) for s in shows), key=lambda s: s.value)),
            oversize=oversize,
        )
    part = Part(name=name, role=role, board=board, placement=placement, group=group)
    return part.with_features(*features) if features else part


def find_part(parts: dict[str, Part], name: str) -> Part:
    """The part of that name.

    Raises:
        UnknownNameError: there is none; the message lists those that exist.
    """
    if name not in parts:
        raise UnknownNameError(
            f"no part is called {name!r}; there are {', '.join(sorted(parts))}",
            part=name,
            value=name,
            limit=tuple(sorted(parts)),
        )
    return parts[name]


__all__ = ["DOUBLING_ALLOWANCE", "Board", "Part", "board_part", "find_part"]
