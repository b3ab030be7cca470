"""A scribe strip at true size: its straight edge for the unit, its cut line for the wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cabinet.frame import Side
from cabinet.site.room.scribe import ScribeStrip
from drawings.dimension_ink import Edge
from drawings.marks import Anchor, Ink, Mark, PaperPoint, Polyline, Text
from drawings.number import dimension_text
from drawings.ruling import rule
from drawings.sheet import slug
from drawings.template_motif import Span, TrueInk, true_dimensions
from drawings.template_style import LOUD_HEIGHT, TEMPLATE_STYLE
from drawings.template_words import Advice, Words
from drawings.tile_grid import TileGrid

_LEFT = 30.0  # room for the dimensions, mm
_HEAD = 14.0  # height of the words above the strip, mm
_BELOW = 16.0
_END_ROOM = 3.0
_TICK = 4.0  # half of the mark at each reading, mm
_WHERE = {
    Side.LEFT: ("left of the unit", "its lower end", "the wall at the left"),
    Side.RIGHT: ("right of the unit", "its lower end", "the wall at the right"),
    Side.BOTTOM: ("below the unit", "its left end", "the floor"),
}


@dataclass(frozen=True, slots=True)
class ScribeMotif:
    """One strip, laid level: its straight edge below, its lower or left end at the left."""

    strip: ScribeStrip

    @property
    def title(self) -> str:
        """What it is."""
        return f"Scribe strip {_WHERE[self.strip.side][0]}"

    @property
    def name(self) -> str:
        """Short name for files."""
        return slug(self.title)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing, mm."""
        return _LEFT + self.strip.length + _END_ROOM, _HEAD + self.strip.blank + _BELOW

    @property
    def words(self) -> tuple[Words, ...]:
        """How the strip is cut and tried."""
        strip = self.strip
        _, end, wall = _WHERE[strip.side]
        at = ", ".join(
            f"{dimension_text(place)}: {dimension_text(width)}" for place, width in strip.line
        )
        return (
            Advice(
                heading="How to use it",
                notes=(
                    f"Blank {dimension_text(strip.length)} × {dimension_text(strip.blank)}. Width "
                    f"from the straight edge, told from {end}: {at}.",
                    f"The line comes from readings of {wall} at those places and runs straight "
                    "between them. Leave the line standing, try the strip, plane to it.",
                    "Guard, push stick and dust extraction at the saw; plane towards the middle.",
                ),
            ),
        )

    def ink(self, grid: TileGrid) -> TrueInk:
        """The blank, the cut line and a mark at each reading."""
        strip, foot = self.strip, _HEAD + self.strip.blank
        right = _LEFT + strip.length
        line = [PaperPoint(_LEFT + at, foot - width) for at, width in strip.line]
        shapes: list[Mark] = [
            rule(_LEFT, foot, right, foot, Ink.VISIBLE),
            rule(_LEFT, _HEAD, right, _HEAD, Ink.NARROW),
            rule(_LEFT, _HEAD, _LEFT, foot, Ink.NARROW),
            rule(right, _HEAD, right, foot, Ink.NARROW),
            Polyline(tuple(line), Ink.CUT),
        ]
        shapes += [rule(p.x, p.y - _TICK, p.x, p.y + _TICK, Ink.NARROW) for p in line]
        spans = [Span("width at the lower or left end", foot, line[0].y)]
        uncut: tuple[Mark, ...] = (
            *true_dimensions(Edge.LEFT, _LEFT, spans, grid),
            *self._sheet_words(grid),
            *self._widths(grid),
        )
        return TrueInk(shapes=tuple(shapes), uncut=uncut)

    def _sheet_words(self, grid: TileGrid) -> Iterator[Text]:
        """On every sheet: which edge is the straight one."""
        foot = _HEAD + self.strip.blank
        for column in range(grid.columns):
            own = grid.own(column, 0)
            low, high = max(own.left, _LEFT), min(own.right, _LEFT + self.strip.length)
            if high - low < 60.0:
                continue
            yield Text(
                PaperPoint(low + 6.0, foot + 6.0),
                "straight edge: against the unit",
                LOUD_HEIGHT,
                is_bold=True,
            )

    def _widths(self, grid: TileGrid) -> Iterator[Text]:
        foot = _HEAD + self.strip.blank
        for at, width in self.strip.line:
            x = grid.beside_seams(_LEFT + at, 16.0)
            yield Text(
                PaperPoint(x, foot + 13.0),
                dimension_text(width),
                TEMPLATE_STYLE.note_height,
                Anchor.MIDDLE,
            )


def scribe_templates(strips: Sequence[ScribeStrip]) -> tuple[ScribeMotif, ...]:
    """One template for each strip that is cut to a line."""
    return tuple(ScribeMotif(strip) for strip in strips)
