"""Corner of a perforated sheet, to copy and to check each piece by: first holes, diagonal."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.board import BoardSize
from cabinet.design import Unit
from cabinet.errors import SizeError
from cabinet.features import Perforation
from cabinet.set_out import holes, lie
from drawings.dimension_ink import Edge
from drawings.mark_clipping import clipped_marks
from drawings.marks import Anchor, Circle, Ink, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.number import dimension_text
from drawings.ruling import rule
from drawings.sheet import slug
from drawings.table import Column
from drawings.template_motif import Span, TrueInk, true_dimensions
from drawings.template_style import TEMPLATE_STYLE
from drawings.template_words import Advice, Listing, Words
from drawings.tile_grid import TileGrid

_LEFT, _TOP = 30.0, 8.0
_RIGHT, _BELOW = 12.0, 24.0
_MOST_LONG = 150.0  # of the panel's length that is shown, mm
_MOST_WIDE = 110.0  # of its width, mm
_BREAK = 3.0  # half of the height of a kink in a break line, mm
_CLEAR = 4.0  # from the last holes shown to a break, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelTemplate:
    """The corner of equal perforated panels.

    Attributes:
        pieces: Names of the panels, at least one.
        material: What they are cut from.
        panel: Size of one panel, mm.
        perforation: Its holes.
    """

    pieces: tuple[str, ...]
    material: str
    panel: BoardSize
    perforation: Perforation

    def __post_init__(self) -> None:
        if not self.pieces:
            raise SizeError("panel template: it is for no panel; there must be one", limit=1)

    @property
    def title(self) -> str:
        """What it is."""
        long, wide = dimension_text(self.panel.length), dimension_text(self.panel.width)
        return f"Perforated panel {long} × {wide}"

    @property
    def name(self) -> str:
        """Short name for files."""
        return slug(self.title)

    @property
    def diagonal(self) -> float:
        """From corner to corner, mm."""
        return math.hypot(self.panel.length, self.panel.width)

    @property
    def _shown(self) -> tuple[float, float]:
        return min(self.panel.length, _MOST_LONG), min(self.panel.width, _MOST_WIDE)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing, mm."""
        long, wide = self._shown
        return _LEFT + long + _RIGHT, _TOP + wide + _BELOW

    @property
    def words(self) -> tuple[Words, ...]:
        """Sizes of the whole panel, and how it is checked."""
        headings = ("Panels", "Number", "Length", "Width", "Both diagonals")
        row = (
            ", ".join(self.pieces),
            str(len(self.pieces)),
            dimension_text(self.panel.length),
            dimension_text(self.panel.width),
            dimension_text(self.diagonal),
        )
        listing = Listing(
            title=f"{self.material.capitalize()}, {self.perforation.designation}",
            columns=tuple(Column(heading=heading) for heading in headings),
            rows=(row,),
        )
        advice = Advice(
            notes=(
                (
                    "Cut the first panel to size and check it: corner on this corner, length with "
                    "the rule; it is square when both diagonals are alike. Copy the others from it."
                ),
                (
                    "Set the panel out from its holes: the first lines lie as drawn, and the far end "
                    "and edge come out alike. Which row begins half a pitch further is left free."
                ),
                (
                    "Deburr every edge and hole; gloves for the sheet, none at the drill; eyes "
                    "protected. Degrease, paint and let dry before it goes in, away from raw wood."
                ),
            )
        )
        return listing, advice

    def ink(self, grid: TileGrid) -> TrueInk:
        """The corner of the panel, at the lower left, with the holes that lie near it."""
        long, wide = self._shown
        top, bottom, right = _TOP, _TOP + wide, _LEFT + long
        is_long_cut, is_wide_cut = long < self.panel.length, wide < self.panel.width
        shapes: list[Mark] = [
            rule(_LEFT, top, _LEFT, bottom, Ink.VISIBLE),
            rule(_LEFT, bottom, right, bottom, Ink.VISIBLE),
        ]
        if is_wide_cut:
            shapes.append(_break(PaperPoint(_LEFT, top), PaperPoint(right, top)))
        else:
            shapes.append(rule(_LEFT, top, right, top, Ink.VISIBLE))
        if is_long_cut:
            shapes.append(_break(PaperPoint(right, top), PaperPoint(right, bottom)))
        else:
            shapes.append(rule(right, top, right, bottom, Ink.VISIBLE))
        shown = self._holes(is_long_cut=is_long_cut, is_wide_cut=is_wide_cut)
        radius = self.perforation.diameter / 2
        circles = [Circle(PaperPoint(_LEFT + x, bottom - y), radius, Ink.NARROW) for x, y in shown]
        shapes += clipped_marks(circles, PaperBox(_LEFT, top, right, bottom))
        how = lie(self.perforation, self.panel)
        x, y = how.along.first, how.across.first
        uncut: list[Mark] = list(
            true_dimensions(
                Edge.BELOW, bottom, (Span("end to the first line", _LEFT, _LEFT + x, y),), grid
            )
        )
        spans = [Span("edge to the first line", bottom - y, bottom, x)]
        if not is_wide_cut:
            spans.append(Span("width of the panel", top, bottom))
        uncut += true_dimensions(Edge.LEFT, _LEFT, spans, grid)
        if is_long_cut:
            uncut.append(
                Text(
                    PaperPoint(right + 7.0, (top + bottom) / 2),
                    f"runs on to {dimension_text(self.panel.length)}",
                    TEMPLATE_STYLE.label_height,
                    Anchor.MIDDLE,
                    is_upright=False,
                )
            )
        return TrueInk(shapes=tuple(shapes), uncut=tuple(uncut))

    def _holes(self, *, is_long_cut: bool, is_wide_cut: bool) -> Iterator[tuple[float, float]]:
        """Centres of the holes shown, from the panel's corner, mm."""
        long, wide = self._shown
        radius = self.perforation.diameter / 2
        most_x = long - (radius + _CLEAR if is_long_cut else 0.0)
        most_y = wide - (radius + _CLEAR if is_wide_cut else 0.0)
        for x, y in holes(self.perforation, self.panel):
            if x <= most_x and y <= most_y:
                yield x, y


def _break(start: PaperPoint, end: PaperPoint) -> Polyline:
    """A narrow line with a kink: the panel goes on beyond it (ISO 128, type 01.1.19)."""
    length = math.hypot(end.x - start.x, end.y - start.y)
    ux, uy = (end.x - start.x) / length, (end.y - start.y) / length

    def at(along: float, beside: float) -> PaperPoint:
        return start.moved(along * ux - beside * uy, along * uy + beside * ux)

    middle = length / 2
    points = (
        start,
        at(middle - _BREAK, 0.0),
        at(middle - _BREAK / 2, _BREAK),
        at(middle + _BREAK / 2, -_BREAK),
        at(middle + _BREAK, 0.0),
        end,
    )
    return Polyline(points, Ink.NARROW)


def panel_templates(unit: Unit) -> tuple[PanelTemplate, ...]:
    """One template for each distinct perforated panel of a unit."""
    groups: dict[tuple[BoardSize, str, Perforation], list[str]] = {}
    for part in unit.parts:
        for feature in part.board.features:
            if isinstance(feature, Perforation):
                key = part.board.finished_size, part.board.stock.title, feature
                groups.setdefault(key, []).append(part.name)
    return tuple(
        PanelTemplate(pieces=tuple(names), material=material, panel=size, perforation=feature)
        for (size, material, feature), names in groups.items()
    )
