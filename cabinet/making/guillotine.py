"""Cut plans as trees of through cuts, and their proof by sawing them again on paper.

A panel saw or a guide rail cuts from edge to edge. So a sheet is a tree: a cut node is divided
along one axis into parts, each part is cut further, is a piece, or is a rest. Each cut turns a
strip as wide as the saw's kerf into dust. If less than a kerf is left beyond the last part,
the last cut runs along the edge and takes all of it.

Lengths are floats in millimetres. Sums are made on a whole-number grid of 0.001 mm, so that
the areas of pieces, rests, dust and trimmed edges add up exactly to the sheet's.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum

from cabinet.errors import DesignError, SizeError
from cabinet.quantity import finite, named, positive, whole, within, written

# Grid units per millimetre. Finer than any saw by a factor of a hundred.
GRID = 1000
# Sheets at hand without number.
NO_END = 1_000_000


def to_grid(value: float) -> int:
    """A length in mm on the grid of 0.001 mm."""
    return round(value * GRID)


def from_grid(value: int) -> float:
    """A length on the grid in mm."""
    return value / GRID


class Axis(Enum):
    """Along which side of a sheet something lies or is measured."""

    LENGTH = "length"
    WIDTH = "width"


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A rectangle to be cut, one of its kind; a plan knows it by its name.

    Attributes:
        name: What it is called; no two pieces of a job have one name.
        length: Size along the sheet's length, mm.
        width: Size along the sheet's width, mm.
        may_turn: Whether it may lie turned by 90 degrees (it shows no grain).

    Raises:
        SizeError: a name that is blank, or a size that is not positive on the grid.
    """

    name: str
    length: float
    width: float
    may_turn: bool = False

    def __post_init__(self) -> None:
        named("piece", "name", self.name)
        for what, value in (("length", self.length), ("width", self.width)):
            within(self.name, what, value, 1 / GRID, float("inf"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A kind of sheet, or a leftover, in the rack.

    Attributes:
        name: What it is called; no two kinds of a job have one name.
        length: Size along the grain, mm.
        width: Size across it, mm.
        trim: How much is cut off along each of the four edges before anything else, the
            saw's kerf included, mm.
        is_leftover: Whether it has been cut from before; leftovers are used up first.
        count: How many there are.

    Raises:
        SizeError: a name that is blank, a size that is not positive, a trim that is negative
            or leaves nothing, or a count below one.
    """

    name: str
    length: float
    width: float
    trim: float = 0.0
    is_leftover: bool = False
    count: int = NO_END

    def __post_init__(self) -> None:
        named("sheet", "name", self.name)
        positive(self.name, "length", self.length)
        positive(self.name, "width", self.width)
        most = (min(self.length, self.width) - 2 / GRID) / 2
        within(self.name, "trim", self.trim, 0.0, most, why="something must be left of the sheet")
        whole(self.name, "count", self.count, 1, NO_END)

    @property
    def usable(self) -> tuple[int, int]:
        """Length and width within the trimmed edges, on the grid."""
        off = 2 * to_grid(self.trim)
        return to_grid(self.length) - off, to_grid(self.width) - off

    @property
    def area(self) -> int:
        """Area with its edges, in squares of the grid."""
        return to_grid(self.length) * to_grid(self.width)


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A rectangle that comes off the saw: a piece, a rest, or what is cut further.

    Attributes:
        length: Size along the sheet's length, mm.
        width: Size along its width, mm.
        piece: Name of the piece that it is, or "".
        axis: Along which axis the parts lie side by side, or None if it is not cut.
        parts: What it is cut into, from low to high.

    Raises:
        SizeError: sizes that are not positive, a piece that is cut further, or an axis
            without parts or parts without an axis.
    """

    length: float
    width: float
    piece: str = ""
    axis: Axis | None = None
    parts: tuple[Node, ...] = ()

    def __post_init__(self) -> None:
        owner = self.piece or "part of a sheet"
        positive(owner, "length", self.length)
        positive(owner, "width", self.width)
        if self.piece and self.parts:
            raise SizeError(
                f"{owner}: it is cut into {len(self.parts)} parts; a piece is not cut further",
                part=owner,
                value=len(self.parts),
                limit=0,
            )
        if (self.axis is None) == bool(self.parts):
            raise SizeError(
                f"{owner}: {len(self.parts)} parts along {self.axis}; parts and the axis of the "
                "cut belong together",
                part=owner,
                value=len(self.parts),
                limit="both or neither",
            )

    @property
    def is_rest(self) -> bool:
        """Whether it is left over."""
        return not self.piece and not self.parts


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCuts:
    """One sheet and how it is cut.

    Attributes:
        sheet: The kind of sheet.
        root: The sheet within its trimmed edges.
    """

    sheet: Sheet
    root: Node


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """Every sheet that is cut, in order: leftovers, then new sheets.

    Attributes:
        kerf: Width of the strip that a cut turns into dust, mm.
        sheets: The sheets with their cuts.
    """

    kerf: float
    sheets: tuple[SheetCuts, ...]

    def __post_init__(self) -> None:
        kerf_of(self.kerf)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A rectangle in its place on a sheet, from the sheet's own corner, mm.

    Attributes:
        sheet: Which sheet of the plan, from 0.
        x, y: Its low corner along the sheet's length and width.
        length, width: Its size along the same.
        piece: Name of the piece that it is, or "".
        is_turned: Whether it is a piece that lies turned by 90 degrees.
    """

    sheet: int
    x: float
    y: float
    length: float
    width: float
    piece: str = ""
    is_turned: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """What a plan gives when it is sawn: everything in its place, nothing lost.

    Areas are in squares of the grid (1e-6 mm²), so they add up exactly.

    Attributes:
        pieces: Every piece, sheet by sheet.
        rests: What is left over.
        strips: What the cuts turn into dust, in the order in which they are made.
        piece_area, rest_area, dust_area, trim_area: Their areas and that of trimmed edges.
        sheet_area: Area of all sheets.
    """

    pieces: tuple[Spot, ...]
    rests: tuple[Spot, ...]
    strips: tuple[Spot, ...]
    piece_area: int
    rest_area: int
    dust_area: int
    trim_area: int
    sheet_area: int


def kerf_of(kerf: float) -> int:
    """A kerf on the grid.

    Raises:
        SizeError: it is not a finite number, or negative.
    """
    finite("saw", "kerf", kerf)
    return to_grid(within("saw", "kerf", kerf, 0.0, float("inf")))


def _refuse(where: str, what: str, value: object, limit: object) -> DesignError:
    return DesignError(f"{where}: {what}", part=where, value=value, limit=limit)


def _spot(sheet: int, x: int, y: int, length: int, width: int) -> Spot:
    return Spot(
        sheet=sheet,
        x=from_grid(x),
        y=from_grid(y),
        length=from_grid(length),
        width=from_grid(width),
    )


def _saw(
    node: Node, kerf: int, sheet: int, x: int, y: int, strips: list[Spot]
) -> Iterator[tuple[Node, Spot]]:
    """Give every uncut part below ``node`` in its place, and note the strips of dust."""
    length, width = to_grid(node.length), to_grid(node.width)
    if node.axis is None:
        yield node, _spot(sheet, x, y, length, width)
        return
    along = node.axis is Axis.LENGTH
    whole_size, across = (length, width) if along else (width, length)
    at = 0
    later: list[tuple[Node, int]] = []
    for k, part in enumerate(node.parts):
        size, other = to_grid(part.length), to_grid(part.width)
        if not along:
            size, other = other, size
        if other != across:
            raise _refuse(
                f"sheet {sheet + 1}",
                f"a part is {written(from_grid(other))} mm across its cut and must be "
                f"{written(from_grid(across))} mm, as what it is cut from",
                from_grid(other),
                from_grid(across),
            )
        later.append((part, at))
        at += size
        left = whole_size - at
        if k < len(node.parts) - 1 or left > 0:
            dust = min(kerf, left)
            start = (x + at, y) if along else (x, y + at)
            strip = (dust, across) if along else (across, dust)
            strips.append(_spot(sheet, *start, *strip))
            at += dust
    if at != whole_size:
        raise _refuse(
            f"sheet {sheet + 1}",
            f"the parts along its {node.axis.value} and the kerfs between them add up to "
            f"{written(from_grid(at))} mm and must make {written(from_grid(whole_size))} mm",
            from_grid(at),
            from_grid(whole_size),
        )
    for part, start_at in later:
        step = (x + start_at, y) if along else (x, y + start_at)
        yield from _saw(part, kerf, sheet, *step, strips)


def _area(spots: Iterable[Spot]) -> int:
    return sum(to_grid(s.length) * to_grid(s.width) for s in spots)


def saw(plan: CutPlan, pieces: Iterable[Piece]) -> Sawn:
    """Saw a plan on paper and prove it.

    Every piece comes out exactly once and in its size (turned only if it may be), every part
    lies within what it is cut from, parts and kerfs add up, no sheet is used that is not
    there, and all areas add up to the sheets' to the last square of the grid.

    Args:
        plan: The plan.
        pieces: What was to be cut.

    Raises:
        DesignError: the plan is none; the message names the sheet or the piece.
    """
    wanted = {piece.name: piece for piece in pieces}
    kerf = kerf_of(plan.kerf)
    strips: list[Spot] = []
    rests: list[Spot] = []
    found: dict[str, Spot] = {}
    taken: dict[Sheet, int] = {}
    usable_area = 0
    for number, cuts in enumerate(plan.sheets):
        taken[cuts.sheet] = taken.get(cuts.sheet, 0) + 1
        size = to_grid(cuts.root.length), to_grid(cuts.root.width)
        usable_area += size[0] * size[1]
        if size != cuts.sheet.usable:
            raise _refuse(
                f"sheet {number + 1}",
                f"its cuts begin with {written(cuts.root.length)} x {written(cuts.root.width)} mm "
                "and must begin with the sheet within its trimmed edges",
                size,
                cuts.sheet.usable,
            )
        edge = to_grid(cuts.sheet.trim)
        for node, spot in _saw(cuts.root, kerf, number, edge, edge, strips):
            if node.is_rest:
                rests.append(spot)
                continue
            found[node.piece] = _known(node.piece, spot, wanted, found)
    for sheet, number in taken.items():
        if number > sheet.count:
            raise _refuse(
                sheet.name,
                f"{number} are cut and there are {sheet.count}",
                number,
                sheet.count,
            )
    for name in wanted:
        if name not in found:
            raise _refuse(name, "it is not cut; every piece must be cut once", 0, 1)
    sawn = Sawn(
        pieces=tuple(found.values()),
        rests=tuple(rests),
        strips=tuple(strips),
        piece_area=_area(found.values()),
        rest_area=_area(rests),
        dust_area=_area(strips),
        trim_area=sum(c.sheet.area for c in plan.sheets) - usable_area,
        sheet_area=sum(c.sheet.area for c in plan.sheets),
    )
    total = sawn.piece_area + sawn.rest_area + sawn.dust_area + sawn.trim_area
    if total != sawn.sheet_area:
        raise _refuse("cut plan", "the areas do not add up to the sheets'", total, sawn.sheet_area)
    return sawn


def _known(name: str, spot: Spot, wanted: dict[str, Piece], found: dict[str, Spot]) -> Spot:
    """Return the spot of a piece, told whether it is turned, if it is as it was wanted."""
    piece = wanted.get(name)
    if piece is None:
        raise _refuse(name, "it is cut and nobody asked for it", name, tuple(wanted))
    if name in found:
        raise _refuse(name, "it is cut twice; every piece must be cut once", 2, 1)
    size = to_grid(spot.length), to_grid(spot.width)
    right = to_grid(piece.length), to_grid(piece.width)
    if size != right and not (piece.may_turn and size == right[::-1]):
        raise _refuse(
            name,
            f"it is cut {written(spot.length)} x {written(spot.width)} mm and must be "
            f"{written(piece.length)} x {written(piece.width)} mm"
            + (", either way" if piece.may_turn else ", not turned"),
            size,
            right,
        )
    return Spot(
        sheet=spot.sheet,
        x=spot.x,
        y=spot.y,
        length=spot.length,
        width=spot.width,
        piece=name,
        is_turned=size != right,
    )
