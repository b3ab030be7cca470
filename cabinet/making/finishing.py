"""Sanding and finishing: what is seen, how far it may be sanded, how much oil and how long.

What is seen only while a door is open is sanded and oiled like all that shows.

Hardwax oil: 20 to 30 m2 a litre and coat, two coats, the next after 8 to 24 h, light use after
24 h, hard after about a week, not below 16 C (sheets of the floor trade, read). Face veneers:
0.2 to 0.3 mm on cheap imported plywood, 0.4 to 0.6 mm usual before the mill sands it (a panel
inspector's page, read); about 1.1 mm on all-birch plywood (from memory, and it fits published
strengths). How much of it may be sanded off is common practice, no source. Areas in mm2.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.board import Surface
from cabinet.design import Unit
from cabinet.features import CutOut, Hole, HoleRow
from cabinet.making.rack import is_wood
from cabinet.part import Board
from cabinet.quantity import Range, finite, least_and_most, named, positive, whole
from cabinet.stock import Hatching, Stock

BIRCH_VENEER = 1.1
OTHER_VENEER = 0.4
# A quarter of the veneer is the most that sanding may take, so that glue never shows through.
_VENEER_SHARE = 0.25
_SOLID_OFF = 0.5
# A disc of 150 sands about this area before it is dull, m2 (common practice, no source).
DISC_AREA = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """What goes on bare wood at last.

    Attributes:
        name: What it is called.
        coverage: Square metres that a litre covers in one coat, least and most.
        coats: How many coats.
        between_hours: From one coat to the next, least and most.
        use_hours: Until it may be used with care.
        cure_days: Until it is hard.
        least_celsius: Not to be used below this temperature.
        is_drying_oil: Whether wet rags can catch fire by themselves.
        source: Where the figures are from.

    Raises:
        SizeError: a figure that is negative or no finite number, or a pair whose most comes first.
    """

    name: str
    coverage: Range
    coats: int
    between_hours: Range
    use_hours: float
    cure_days: float
    least_celsius: float
    is_drying_oil: bool
    source: str

    def __post_init__(self) -> None:
        named("finish", "name", self.name)
        low, _ = least_and_most(self.name, "coverage", self.coverage, unit="m2/l")
        positive(self.name, "least coverage", low, unit="m2/l")
        least_and_most(self.name, "hours between coats", self.between_hours, unit="h")
        positive(self.name, "hours until use", self.use_hours, unit="h")
        positive(self.name, "days until it is hard", self.cure_days, unit="days")
        finite(self.name, "least temperature", self.least_celsius, unit="C")
        whole(self.name, "coats", self.coats, 1, 10)

    def litres(self, area: float) -> Range:
        """For all coats on an area in mm2: least and most, litres."""
        square_metres = area / 1e6 * self.coats
        low, high = self.coverage
        return square_metres / high, square_metres / low


HARDWAX_OIL = Finish(
    name="hardwax oil",
    coverage=(20.0, 30.0),
    coats=2,
    between_hours=(8.0, 24.0),
    use_hours=24.0,
    cure_days=7.0,
    least_celsius=16.0,
    is_drying_oil=True,
    source="sheets of the floor trade",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sanding:
    """How one material is sanded.

    Attributes:
        material: The stock's title.
        grits: Grits in their order.
        most_off: The most that may come off a face, mm; 0 for what is not sanded.
        why: What sets that limit.
    """

    material: str
    grits: tuple[int, ...]
    most_off: float
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownFaces:
    """What is seen of one board, be it only while a door is open.

    Attributes:
        item: Number of the board, as in the lists.
        parts: Names of its parts.
        stock: What it is made of.
        faces: Each surface that is seen, as the maker names it on the first part, with its
            area, mm2, openings and holes through it taken off.
        behind_doors: Which of them are seen only while a door is open.
    """

    item: int
    parts: tuple[str, ...]
    stock: Stock
    faces: tuple[tuple[str, float], ...]
    behind_doors: tuple[str, ...]

    @property
    def area(self) -> float:
        """Of all its parts together, mm2."""
        return len(self.parts) * sum(area for _, area in self.faces)


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishingPlan:
    """Sanding and finishing of a unit.

    Attributes:
        finish: What goes on wood.
        shown: What is seen, board by board; first wood, then metal.
        sanding: How each material is sanded.
    """

    finish: Finish
    shown: tuple[ShownFaces, ...]
    sanding: tuple[Sanding, ...]

    @property
    def wood_area(self) -> float:
        """Area of wood that is seen, mm2."""
        return sum(one.area for one in self.shown if is_wood(one.stock))

    @property
    def metal_area(self) -> float:
        """Area of metal that is seen, mm2."""
        return sum(one.area for one in self.shown if one.stock.hatching is Hatching.METAL)

    @property
    def litres(self) -> Range:
        """Finish for all coats: least and most, litres."""
        return self.finish.litres(self.wood_area)

    @property
    def discs(self) -> int:
        """Sanding discs, one set for each grit."""
        total = 0
        for one in self.sanding:
            area = sum(s.area for s in self.shown if s.stock.title == one.material)
            total += len(one.grits) * math.ceil(area / 1e6 / DISC_AREA)
        return total


def finishing_plan(unit: Unit, finish: Finish = HARDWAX_OIL) -> FinishingPlan:
    """What is seen of a unit, and how it is sanded and finished."""
    shown = []
    for item, (board, parts) in enumerate(unit.boards, start=1):
        seen = (*board.shows, *board.behind_doors)
        if board.stock.hatching is Hatching.SOFT or not seen:
            continue
        shown.append(
            ShownFaces(
                item=item,
                parts=tuple(part.name for part in parts),
                stock=board.stock,
                faces=tuple(
                    (parts[0].surface_name(surface), surface_area(board, surface))
                    for surface in seen
                ),
                behind_doors=tuple(parts[0].surface_name(one) for one in board.behind_doors),
            )
        )
    shown.sort(key=lambda one: (not is_wood(one.stock), one.item))
    stocks = dict.fromkeys(one.stock for one in shown if is_wood(one.stock))
    return FinishingPlan(finish=finish, shown=tuple(shown), sanding=tuple(map(_sanding, stocks)))


def surface_area(board: Board, surface: Surface) -> float:
    """Area of one surface of a finished board, mm2, less what goes through it."""
    sizes = board.finished_size.along
    flat = [size for axis, size in enumerate(sizes) if axis != surface.axis]
    area = flat[0] * flat[1]
    if not surface.is_face:
        return area
    return area - board.open_area - sum(_through(feature) for feature in board.features)


def _through(feature: object) -> float:
    if isinstance(feature, CutOut):
        return feature.area
    if isinstance(feature, Hole | HoleRow) and feature.depth is None:
        count = feature.count if isinstance(feature, HoleRow) else 1
        return count * math.pi * feature.diameter**2 / 4
    return 0.0


def _sanding(stock: Stock) -> Sanding:
    if stock.hatching is Hatching.SOLID_WOOD:
        return Sanding(
            material=stock.title,
            grits=(120, 180),
            most_off=_SOLID_OFF,
            why="solid: coarse first, then fine, along the grain",
        )
    is_birch = "birch" in stock.material
    veneer = BIRCH_VENEER if is_birch else OTHER_VENEER
    return Sanding(
        material=stock.title,
        grits=(180,),
        most_off=round(veneer * _VENEER_SHARE, 2),
        why=f"face veneer about {veneer:g} thick: one fine grit, no more",
    )


__all__ = [
    "HARDWAX_OIL",
    "Finish",
    "FinishingPlan",
    "Sanding",
    "ShownFaces",
    "finishing_plan",
    "surface_area",
]
