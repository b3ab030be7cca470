"""What a template shows at true size, before it is divided over sheets of paper.

Lengths are paper mm, which at true size are mm of the work; the origin is the drawing's top
left corner and y grows downwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from drawings.clutter import Clutter
from drawings.dimension import Dimension, Node
from drawings.dimension_ink import Edge, Wanted, side_ink
from drawings.ground import marks_box
from drawings.marks import Group, Mark
from drawings.template_style import TEMPLATE_STYLE
from drawings.template_words import Words
from drawings.tile_grid import TileGrid


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueInk:
    """A drawing at true size.

    Attributes:
        shapes: Lines and curves; they may be cut at the edge of a sheet.
        uncut: Lettering and dimensions; each stands whole on some sheet.
    """

    shapes: tuple[Mark, ...]
    uncut: tuple[Mark, ...]


class Motif(Protocol):
    """One template as it is thought of, whatever the paper."""

    @property
    def name(self) -> str:
        """Short name for files, made of small letters, digits and hyphens."""

    @property
    def title(self) -> str:
        """What it is, in words."""

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing, lettering included, mm."""

    @property
    def words(self) -> tuple[Words, ...]:
        """What is to be read beside it, first things first."""

    def ink(self, grid: TileGrid) -> TrueInk:
        """The drawing, its lettering placed so that none lies on a seam of the sheets."""


@dataclass(frozen=True, slots=True)
class Span:
    """A length to be dimensioned beside the drawing.

    Attributes:
        title: What it measures, in words.
        start: Where it begins along the side, mm.
        end: Where it ends, mm.
        foot: How far inside the outline both places are seen, mm.
    """

    title: str
    start: float
    end: float
    foot: float = 0.0


def true_dimensions(
    edge: Edge, base: float, spans: Sequence[Span], grid: TileGrid
) -> tuple[Group, ...]:
    """Dimensions on one side of a drawing at true size.

    A dimension that would lie across a seam is left out, since half a dimension line tells
    nothing: what is longer than a sheet is told in words.

    Args:
        edge: The side on which they stand.
        base: Coordinate of the outline there, mm.
        spans: What they tell.
        grid: The sheets.
    """
    axis = 0 if edge.is_upright else 1
    wanted = []
    for span in spans:
        start, end = (
            Node(axis=axis, coordinate=coordinate, what=span.title)
            for coordinate in (span.start, span.end)
        )
        dimension = Dimension(start=start, end=end, title=span.title)
        wanted.append(
            Wanted(
                dimension=dimension,
                start=span.start,
                end=span.end,
                start_foot=span.foot,
                end_foot=span.foot,
            )
        )
    groups = side_ink(edge, base, wanted, TEMPLATE_STYLE, Clutter()).marks
    return tuple(group for group in groups if _fits(group, grid))


def _fits(group: Group, grid: TileGrid) -> bool:
    box = marks_box((group,))
    return box is not None and grid.holds(box)
