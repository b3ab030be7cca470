"""The cut plan as data: boards, the blanks on them, their cuts, and what is left.

Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.making.blanks import Blank
from cabinet.making.guillotine import Node
from cabinet.making.lie import Place, Verdict
from cabinet.making.outline import Outline, Rect, bounds
from cabinet.making.patch import Patch
from cabinet.making.rack import Leftover, SheetToBuy
from cabinet.making.sawing import Cut, least_settings, settings
from cabinet.stock import Stock

# A rest is kept if it is this long and wide at least (common practice, no source).
KEEP_LENGTH = 300.0
KEEP_WIDTH = 60.0


def is_worth_keeping(shape: Outline) -> bool:
    """Whether a rest is large enough to go back on the rack."""
    around = bounds(shape)
    long, short = max(around.length, around.width), min(around.length, around.width)
    return long >= KEEP_LENGTH and short >= KEEP_WIDTH


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidBlank:
    """A blank in its place on a board.

    Attributes:
        blank: The blank.
        place: Where and how it lies.
        verdicts: What becomes of the flaws below it.
    """

    blank: Blank
    place: Place
    verdicts: tuple[Verdict, ...] = ()

    @property
    def rect(self) -> Rect:
        """What it covers on the board."""
        return self.place.rect(self.blank)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """What is left over of a board in one place.

    Attributes:
        name: What it is called, on the drawing and in the list of cuts.
        rect: Where it lies on the board.
        kept: What of it goes back on the rack, with its flaws; none if it is too small.
    """

    name: str
    rect: Rect
    kept: tuple[Leftover, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutBoard:
    """One sheet or leftover and how it is cut.

    Attributes:
        name: What it is called on the plan.
        board: Its outline and flaws, its grain along x.
        bought: What it is bought as; None for a leftover.
        trim: Cut off along each edge first, kerf included.
        kerf: Width of a cut.
        root: Its cuts as a tree, within the trimmed edges.
        laid: The blanks on it.
        rests: What is left over.
        cuts: The cuts in the order in which they are made.
    """

    name: str
    board: Leftover
    bought: SheetToBuy | None
    trim: float
    kerf: float
    root: Node
    laid: tuple[LaidBlank, ...]
    rests: tuple[Rest, ...]
    cuts: tuple[Cut, ...]

    @property
    def size(self) -> tuple[float, float]:
        """Length and width over all."""
        around = bounds(self.board.outline)
        return around.length, around.width

    @property
    def kept(self) -> tuple[Leftover, ...]:
        """What goes back on the rack."""
        return tuple(piece for rest in self.rests for piece in rest.kept)


@dataclass(frozen=True, slots=True, kw_only=True)
class StockCuts:
    """The boards of one stock.

    Attributes:
        stock: What they are.
        boards: Leftovers, then new sheets, in the order in which they are cut.
        at_least: How many new sheets any plan takes that uses the leftovers in this way.
        patches: The patches that save a sheet.
    """

    stock: Stock
    boards: tuple[CutBoard, ...]
    at_least: int
    patches: tuple[Patch, ...]

    @property
    def new_sheets(self) -> int:
        """How many sheets are bought."""
        return sum(board.bought is not None for board in self.boards)

    @property
    def is_proven(self) -> bool:
        """Whether no plan takes fewer new sheets."""
        return self.new_sheets == self.at_least

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """All cuts, board by board."""
        return tuple(cut for board in self.boards for cut in board.cuts)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobCuts:
    """The cut plan of a job.

    Attributes:
        unit: Name of the unit.
        stocks: Stock by stock.
        stays: Leftovers that are not touched.
        remarks: What else the maker must know.
    """

    unit: str
    stocks: tuple[StockCuts, ...]
    stays: tuple[Leftover, ...]
    remarks: tuple[str, ...]

    @property
    def boards(self) -> tuple[CutBoard, ...]:
        """Every board that is cut."""
        return tuple(board for stock in self.stocks for board in stock.boards)

    @property
    def patches(self) -> tuple[Patch, ...]:
        """Every patch."""
        return tuple(patch for stock in self.stocks for patch in stock.patches)

    @property
    def new_sheets(self) -> int:
        """How many sheets are bought in all."""
        return sum(stock.new_sheets for stock in self.stocks)

    @property
    def price(self) -> float | None:
        """What the new sheets cost; None if one of them has no price."""
        prices = [b.bought.price for b in self.boards if b.bought is not None]
        known = [price for price in prices if price is not None]
        return sum(known) if len(known) == len(prices) else None

    @property
    def new_area(self) -> float:
        """Area of the new sheets, m2."""
        return sum(b.size[0] * b.size[1] for b in self.boards if b.bought is not None) / 1e6

    @property
    def settings(self) -> int:
        """How often the fence is set in all."""
        return sum(settings(board.cuts) for board in self.boards)

    @property
    def settings_at_least(self) -> int:
        """How often it must be set at least in any order of the same cuts, board by board."""
        return sum(least_settings(board.cuts) for board in self.boards)

    @property
    def rack_after(self) -> tuple[Leftover, ...]:
        """The rack when all is cut: what was not touched, then what is left."""
        return (*self.stays, *(piece for board in self.boards for piece in board.kept))
