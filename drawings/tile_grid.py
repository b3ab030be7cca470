"""How a drawing at true size is divided over sheets of A4 that are laid together again.

Neighbouring sheets show the same strip of the drawing, ``OVERLAP`` wide. In the middle of it
runs the seam, on which one of the two is trimmed, and on the seam stand register crosses that
both sheets show. All lengths are in mm in the frame of the whole drawing: origin at its top
left corner, y down, as on paper.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from cabinet.quantity import positive
from drawings.marks import PaperBox, PaperPoint
from drawings.paper import MARGIN, SheetSize

OVERLAP = 10.0
"""Width of the strip that two neighbouring tiles share, mm."""

FOOT = 22.0
"""Height of the band at the foot of each tile, with the check bar and the tile's name, mm."""

CROSS_INSET = 7.0
"""From the window's edge to the outermost register crosses, mm."""

_NONE_LOST = 1e-6


class Orientation(Enum):
    """An A4 sheet lying or standing: width and height in mm (ISO 216)."""

    LYING = (SheetSize.A4.height, SheetSize.A4.width)
    STANDING = (SheetSize.A4.width, SheetSize.A4.height)

    @property
    def width(self) -> float:
        """Width in mm."""
        return self.value[0]

    @property
    def height(self) -> float:
        """Height in mm."""
        return self.value[1]

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of the drawing that one sheet can show, mm."""
        return self.width - 2 * MARGIN, self.height - 2 * MARGIN - FOOT


@dataclass(frozen=True, slots=True, kw_only=True)
class TileGrid:
    """Sheets in columns and rows over a drawing.

    Attributes:
        orientation: How the sheets lie.
        width: Width of the drawing, mm.
        height: Height of the drawing, mm.

    Raises:
        SizeError: a size that is not positive.
    """

    orientation: Orientation
    width: float
    height: float

    def __post_init__(self) -> None:
        positive("tiles", "width of the drawing", self.width)
        positive("tiles", "height of the drawing", self.height)

    @property
    def columns(self) -> int:
        """Sheets side by side."""
        return _count(self.width, self.orientation.window[0])

    @property
    def rows(self) -> int:
        """Sheets one below the other."""
        return _count(self.height, self.orientation.window[1])

    @property
    def places(self) -> tuple[tuple[int, int], ...]:
        """Column and row of each tile, row by row."""
        return tuple((c, r) for r in range(self.rows) for c in range(self.columns))

    @property
    def x_seams(self) -> tuple[float, ...]:
        """Where sheets side by side meet."""
        return _seams(self.columns, self.orientation.window[0])

    @property
    def y_seams(self) -> tuple[float, ...]:
        """Where sheets one below the other meet."""
        return _seams(self.rows, self.orientation.window[1])

    def window(self, column: int, row: int) -> PaperBox:
        """What of the drawing a tile shows."""
        wide, high = self.orientation.window
        left, top = column * (wide - OVERLAP), row * (high - OVERLAP)
        return PaperBox(left, top, left + wide, top + high)

    def own(self, column: int, row: int) -> PaperBox:
        """What a tile shows as far as the seams: the tiles' own parts make up the whole."""
        box = self.window(column, row)
        half = OVERLAP / 2
        return PaperBox(
            box.left + (half if column else 0.0),
            box.top + (half if row else 0.0),
            box.right - (half if column < self.columns - 1 else 0.0),
            box.bottom - (half if row < self.rows - 1 else 0.0),
        )

    def holds(self, box: PaperBox) -> bool:
        """Whether some tile shows the whole of a box without a seam through it."""
        return any(self.own(*place).contains(box) for place in self.places)

    def beside_seams(self, middle: float, half: float) -> float:
        """The place nearest to ``middle`` where something ``half`` to each side meets no seam."""
        for seam in self.x_seams:
            if abs(middle - seam) < half:
                return seam + half if middle >= seam else seam - half
        return middle

    @property
    def crosses(self) -> tuple[PaperPoint, ...]:
        """Register crosses: on each seam near its ends, and where seams cross."""
        last = self.window(self.columns - 1, self.rows - 1)
        outer_x = (CROSS_INSET, last.right - CROSS_INSET)
        outer_y = (CROSS_INSET, last.bottom - CROSS_INSET)
        found = {(x, y) for x in self.x_seams for y in (*outer_y, *self.y_seams)}
        found |= {(x, y) for y in self.y_seams for x in (*outer_x, *self.x_seams)}
        return tuple(PaperPoint(x, y) for x, y in sorted(found))

    def crosses_of(self, column: int, row: int) -> Iterator[tuple[int, PaperPoint]]:
        """The crosses that a tile shows, each with its number from 1 in the whole drawing."""
        window = self.window(column, row)
        for number, point in enumerate(self.crosses, start=1):
            if window.contains(PaperBox(point.x, point.y, point.x, point.y)):
                yield number, point


def _count(extent: float, window: float) -> int:
    step = window - OVERLAP
    return max(1, math.ceil((extent - OVERLAP) / step - _NONE_LOST))


def _seams(count: int, window: float) -> tuple[float, ...]:
    step = window - OVERLAP
    return tuple(index * step + OVERLAP / 2 for index in range(1, count))
