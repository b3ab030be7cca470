"""The rack: sheets that can be bought, and leftovers with their old damage.

A leftover is told as it lies on the bench with face A up: x along its length, y across it, the
origin where the maker puts it. Face B is the one that lies down; a flaw on it is told from above
as well, as if the board were glass. Lengths in mm.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from enum import Enum

from cabinet.design import Unit
from cabinet.errors import DesignError, SizeError
from cabinet.making.guillotine import NO_END
from cabinet.making.outline import (
    Corner,
    Outline,
    Rect,
    bounds,
    checked_outline,
    clipped,
    cover,
    covers,
    rectangle,
    shared,
    sizes_text,
)
from cabinet.quantity import member, positive, several, short_name, whole, within, written
from cabinet.stock import MOST_OFF_NOMINAL, Grain, Hatching, Stock, require_stock

# A new sheet's edges are cut off by this much, kerf included (common practice, no source).
EDGE_TRIM = 10.0
# A leftover serves for a stock if its thickness differs by no more than this: grooves are cut to
# the measured board, with a play of 0.1 to 0.3 (common practice, no source).
MOST_OFF_MEASURED = 0.2


# Sheet metal is parted with a thin disc, rubber with a knife (common practice, no source).
METAL_KERF = 1.0
KNIFE_KERF = 0.0


class FlawKind(Enum):
    """What kind of old damage it is."""

    GROOVE = "groove"
    HOLE = "hole"
    BREAKOUT = "breakout"
    STAIN = "stain"


class FlawFace(Enum):
    """On which face of the leftover a flaw is."""

    A = "face A"
    B = "face B"
    THROUGH = "through"

    @property
    def turned(self) -> FlawFace:
        """The face on which it is when the board is turned over."""
        return {FlawFace.A: FlawFace.B, FlawFace.B: FlawFace.A}.get(self, self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Flaw:
    """Old damage.

    Attributes:
        kind: What it is.
        face: On which face, or through the board.
        outline: Its outline on the leftover, as seen from above with face A up.
        depth: How deep it goes from its face; None for a stain, which has no depth, and for what
            goes through.

    Raises:
        SizeError: an outline that crosses itself, a depth that is missing, not positive, or
            told for what has none.
        KindError: a kind or a face that is none.
    """

    kind: FlawKind
    face: FlawFace
    outline: Outline
    depth: float | None = None

    def __post_init__(self) -> None:
        member("flaw", "kind", self.kind, FlawKind)
        member("flaw", "face", self.face, FlawFace)
        shape = checked_outline(self.title, "its outline", self.outline)
        object.__setattr__(self, "outline", shape)
        has_depth = self.kind is not FlawKind.STAIN and self.face is not FlawFace.THROUGH
        if has_depth != (self.depth is not None):
            raise SizeError(
                f"{self.title}: depth is {self.depth}; "
                + (
                    "give how deep it goes"
                    if has_depth
                    else "it has no depth of its own, leave it out"
                ),
                part=self.title,
                value=self.depth,
                limit="a depth" if has_depth else None,
            )
        if self.depth is not None:
            positive(self.title, "depth", self.depth)

    @property
    def title(self) -> str:
        """What it is called in lists (``groove on face B``)."""
        where = "through" if self.face is FlawFace.THROUGH else f"on {self.face.value}"
        return f"{self.kind.value} {where}"

    @property
    def spots(self) -> tuple[Rect, ...]:
        """Rectangles that together hide it; exact if its edges are upright or level."""
        return cover(self.outline)

    def deep(self, thickness: float) -> float:
        """How deep it goes into a board of this thickness, mm; a stain does not."""
        if self.face is FlawFace.THROUGH:
            return thickness
        return self.depth or 0.0


def flaw(
    kind: str,
    face: str,
    *,
    at: Corner,
    length: float,
    width: float,
    depth: float | None = None,
) -> Flaw:
    """A rectangular flaw from words and numbers.

    Args:
        kind: ``groove``, ``hole``, ``breakout`` or ``stain``.
        face: ``face A``, ``face B`` or ``through``.
        at: Its low corner on the leftover, mm.
        length: Size along the leftover's length, mm.
        width: Size across it, mm.
        depth: As for ``Flaw``.

    Raises:
        SizeError: another word, or what ``Flaw`` refuses.
    """
    kinds = {each.value: each for each in FlawKind}
    faces = {each.value: each for each in FlawFace}
    for what, word, known in (("kind", kind, list(kinds)), ("face", face, list(faces))):
        if word not in known:
            raise SizeError(
                f"flaw: its {what} is {word!r}; it must be one of {', '.join(known)}",
                part="flaw",
                value=word,
                limit=tuple(known),
            )
    return Flaw(
        kind=kinds[kind], face=faces[face], outline=rectangle(length, width, at), depth=depth
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetToBuy:
    """A kind of full sheet that can be bought.

    Attributes:
        stock: What it is.
        length: Its longer side, mm; None for the stock's usual sheet.
        width: Its shorter side, mm; None for the stock's usual sheet.
        price: Price of one sheet in the maker's money; None if it is not known.
        grain: Along which side the face grain runs.
        trim: Cut off along each edge before anything else, kerf included, mm; None for the
            usual: nothing off metal and rubber.
        count: How many can be had.

    Raises:
        SizeError: a size that is not positive, a negative price, a trim that leaves nothing.
        KindError: a grain that is none.
    """

    stock: Stock
    length: float | None = None
    width: float | None = None
    price: float | None = None
    grain: Grain = Grain.LENGTH
    trim: float | None = None
    count: int = NO_END

    def __post_init__(self) -> None:
        owner = f"sheet of {require_stock('sheet to buy', 'stock', self.stock).title}"
        for name, value in (("length", self.length), ("width", self.width)):
            if value is not None:
                positive(owner, name, value)
        if self.price is not None:
            within(owner, "price", self.price, 0.0, float("inf"), unit="")
        member(owner, "grain", self.grain, Grain)
        if self.trim is not None:
            least = min(self.size) / 2 - 1.0
            within(owner, "trim", self.trim, 0.0, least, why="something must be left of the sheet")
        whole(owner, "number", self.count, 1, NO_END)

    @property
    def size(self) -> tuple[float, float]:
        """Size along the grain and across it, mm."""
        length = self.length if self.length is not None else self.stock.sheet_length
        width = self.width if self.width is not None else self.stock.sheet_width
        return (width, length) if self.grain is Grain.WIDTH else (length, width)

    @property
    def edge_trim(self) -> float:
        """What is cut off along each edge, mm."""
        if self.trim is not None:
            return self.trim
        return EDGE_TRIM if is_wood(self.stock) else 0.0

    @property
    def title(self) -> str:
        """What it is called in lists."""
        length, width = self.size
        return f"{self.stock.title}, {written(length)} × {written(width)}"


def is_wood(stock: Stock) -> bool:
    """Whether a saw for wood cuts it, and it is sanded and oiled; metal and rubber are not."""
    return stock.hatching in (Hatching.BOARD, Hatching.SOLID_WOOD)


def kerf_for(stock: Stock, saw_kerf: float = 0.0) -> float:
    """Width of a cut in a stock, mm: the saw's in wood, thinner in metal, none with a knife.

    Args:
        stock: What is cut.
        saw_kerf: The saw's; needed for wood alone.
    """
    if is_wood(stock):
        return saw_kerf
    return KNIFE_KERF if stock.hatching is Hatching.SOFT else METAL_KERF


@dataclass(frozen=True, slots=True, kw_only=True)
class Leftover:
    """A board that has been cut from before.

    Attributes:
        name: What is written on it.
        stock: What it is.
        outline: Its outline, any shape with straight edges.
        measured: Its thickness as measured, mm; None for the stock's.
        grain: Along which axis the face grain runs: LENGTH is x.
        flaws: Its old damage.

    Raises:
        SizeError: an outline that crosses itself, a thickness that is none, a flaw that leaves
            the board or is deeper than it is thick.
        KindError: a grain that is none.
    """

    name: str
    stock: Stock
    outline: Outline
    measured: float | None = None
    grain: Grain = Grain.LENGTH
    flaws: tuple[Flaw, ...] = ()

    def __post_init__(self) -> None:
        short_name("leftover", "name", self.name)
        require_stock(self.name, "stock", self.stock)
        member(self.name, "grain", self.grain, Grain)
        right = 'flaws, such as flaw("hole", "through", at=(90, 60), length=8, width=8)'
        flaws = several(self.name, "flaws", self.flaws, Flaw, right=right)
        object.__setattr__(self, "flaws", flaws)
        shape = checked_outline(self.name, "its outline", self.outline)
        object.__setattr__(self, "outline", shape)
        if self.measured is not None:
            nominal = self.stock.nominal
            within(
                self.name,
                "measured thickness",
                self.measured,
                nominal * (1 - MOST_OFF_NOMINAL),
                nominal * (1 + MOST_OFF_NOMINAL),
                why=f"a quarter either side of nominal {nominal:g}",
            )
        for number, each in enumerate(self.flaws, start=1):
            self._check(number, each)

    def _check(self, number: int, each: Flaw) -> None:
        if not covers(self.outline, each.outline):
            around = bounds(each.outline)
            raise SizeError(
                f"{self.name}: flaw {number}, a {each.title}, lies from {written(around.x)}, "
                f"{written(around.y)} to {written(around.right)}, {written(around.top)} and "
                f"leaves the board of {sizes_text(self.outline)} mm; mark what is on the board",
                part=self.name,
                value=each.outline,
                limit=self.outline,
            )
        if each.depth is not None:
            most = self.thickness - 0.1
            within(
                self.name,
                f"depth of flaw {number}, a {each.title},",
                each.depth,
                0.0,
                most,
                why="what goes deeper goes through; mark it so",
            )

    @property
    def thickness(self) -> float:
        """Measured thickness, mm."""
        return self.measured if self.measured is not None else self.stock.measured

    @property
    def is_plain(self) -> bool:
        """Whether it is a rectangle without flaws."""
        around = bounds(self.outline)
        return not self.flaws and set(self.outline) == set(around.outline)

    def serves(self, stock: Stock) -> bool:
        """Whether parts of this stock may be cut from it."""
        return (
            self.stock.material == stock.material
            and self.stock.nominal == stock.nominal
            and abs(self.thickness - stock.measured) <= MOST_OFF_MEASURED + 1e-9
        )

    def laid(self) -> Leftover:
        """The same with its grain along x and its surrounding rectangle's corner at 0, 0."""
        turned = self.grain is Grain.WIDTH
        around = bounds(self.outline)

        def moved(shape: Outline) -> Outline:
            if turned:
                # A quarter turn on the bench: face A stays up.
                return tuple((y - around.y, around.right - x) for x, y in shape)
            return tuple((x - around.x, y - around.y) for x, y in shape)

        return replace(
            self,
            outline=moved(self.outline),
            grain=Grain.LENGTH if turned else self.grain,
            flaws=tuple(replace(each, outline=moved(each.outline)) for each in self.flaws),
        )


def pieces_within(leftover: Leftover, rect: Rect, name: str) -> tuple[Leftover, ...]:
    """What of a laid leftover lies within a rectangle, as leftovers with their flaws.

    Args:
        leftover: The board.
        rect: The rectangle, mm.
        name: Their name; numbered if the rectangle holds several pieces.
    """
    shapes = clipped(leftover.outline, rect)
    found = []
    for number, shape in enumerate(shapes, start=1):
        flaws = tuple(
            replace(each, outline=met)
            for each in leftover.flaws
            for met in shared(each.outline, shape)
        )
        piece = Leftover(
            name=f"{name}, {number}" if len(shapes) > 1 else name,
            stock=leftover.stock,
            outline=shape,
            measured=leftover.measured,
            grain=leftover.grain,
            flaws=flaws,
        )
        found.append(piece.laid())
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """What there is and what can be bought.

    Attributes:
        leftovers: Boards that have been cut from before.
        sheets: Full sheets that can be bought; stock of which none is named is bought in its
            usual size.

    Raises:
        DesignError: two leftovers of one name, or a single thing without a comma after it.
    """

    leftovers: tuple[Leftover, ...] = ()
    sheets: tuple[SheetToBuy, ...] = ()

    def __post_init__(self) -> None:
        right = "Leftover(name=..., stock=..., outline=...)"
        leftovers = several("rack", "leftovers", self.leftovers, Leftover, right=right)
        right = "SheetToBuy(stock=...)"
        sheets = several("rack", "sheets", self.sheets, SheetToBuy, right=right)
        object.__setattr__(self, "leftovers", leftovers)
        object.__setattr__(self, "sheets", sheets)
        times = Counter(leftover.name for leftover in self.leftovers)
        for name, number in times.items():
            if number > 1:
                raise DesignError(
                    f"rack: {number} leftovers are called {name!r}; each needs its own name",
                    part=name,
                    value=number,
                    limit=1,
                )

    def sheets_of(self, stock: Stock) -> tuple[SheetToBuy, ...]:
        """The sheets of a stock that can be bought; its usual one if none is named."""
        mine = tuple(
            s
            for s in self.sheets
            if (s.stock.material, s.stock.nominal) == (stock.material, stock.nominal)
        )
        return mine or (SheetToBuy(stock=stock),)

    def leftovers_of(self, stock: Stock) -> tuple[Leftover, ...]:
        """The leftovers that serve for a stock, as told by the maker."""
        return tuple(each for each in self.leftovers if each.serves(stock))


def default_rack(unit: Unit) -> Rack:
    """Full sheets of each stock in its usual size and no leftovers (common practice)."""
    return Rack(sheets=tuple(SheetToBuy(stock=stock) for stock in stocks_of(unit)))


def stocks_of(unit: Unit) -> tuple[Stock, ...]:
    """Every stock of a unit, in the order of first use."""
    return tuple(dict.fromkeys(part.board.stock for part in unit.parts))
