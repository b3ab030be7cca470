"""Marking template for a bored opening such as a finger pull: folded over the board's edge."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.features import Hole
from cabinet.quantity import positive
from drawings.dimension_ink import Edge
from drawings.marks import Anchor, Circle, Ink, Mark, PaperBox, PaperPoint, Text
from drawings.number import dimension_text
from drawings.ruling import outline, rule
from drawings.sheet import slug
from drawings.table import Column
from drawings.template_motif import Span, TrueInk, true_dimensions
from drawings.template_style import TEMPLATE_STYLE
from drawings.template_words import Advice, Listing, Words
from drawings.tile_grid import TileGrid

_FLAP = 20.0  # the strip that is folded over the edge, mm
_AROUND = 20.0  # from the hole to the template's edges, mm
_MARGIN = 6.0
_BELOW = 24.0  # room for the dimension, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class HolePlace:
    """Where one such hole is.

    Attributes:
        part: Name of the board.
        edge: The edge over which the flap is folded.
        level: Distance from the board's end to the level line, mm.
        end: Name of that end.
        face: The face that is bored from.
    """

    part: str
    edge: str
    level: float
    end: str
    face: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleTemplate:
    """The template for all holes of one name and diameter at one distance from an edge.

    Attributes:
        hole: What the hole is (``finger pull``).
        diameter: Of the hole, mm.
        inset: From the board's edge to its centre, mm.
        places: The holes that are marked with it.
    """

    hole: str
    diameter: float
    inset: float
    places: tuple[HolePlace, ...]

    def __post_init__(self) -> None:
        positive(self.hole, "diameter", self.diameter)
        positive(self.hole, "distance from the edge less the radius", self.inset - self.radius)

    @property
    def radius(self) -> float:
        """Radius of the hole, mm."""
        return self.diameter / 2

    @property
    def title(self) -> str:
        """What it is."""
        return f"{self.hole.capitalize()} template ø{dimension_text(self.diameter)}"

    @property
    def name(self) -> str:
        """Short name for files."""
        return slug(f"{self.hole} {dimension_text(self.diameter)} {dimension_text(self.inset)}")

    @property
    def _board(self) -> PaperBox:
        """The part of the template that lies on the board's face."""
        left = _MARGIN + _FLAP
        high = self.diameter + 2 * _AROUND
        right = left + self.inset + self.radius + _AROUND
        return PaperBox(left, _MARGIN, right, _MARGIN + high)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing, mm."""
        return self._board.right + _MARGIN, self._board.bottom + _BELOW

    @property
    def words(self) -> tuple[Words, ...]:
        """Where each hole is and how it is marked."""
        headings = ("Board", "Face", "Flap over", "Level line")
        rows = tuple(
            (p.part, p.face, p.edge, f"{dimension_text(p.level)} from {p.end}") for p in self.places
        )
        listing = Listing(
            title="Holes marked with it",
            columns=tuple(Column(heading=heading) for heading in headings),
            rows=rows,
        )
        advice = Advice(
            notes=(
                "Cut out along the narrow outline, fold the flap back on the wide line.",
                (
                    "Square the level line across the board at the distance in the table. Flap over "
                    "the edge named, level line on level line; turn the sheet end for end for the "
                    "other hand."
                ),
                (
                    f"Prick the centre. Bore ø{dimension_text(self.diameter)} through on a waste "
                    "board, clamped, from both faces if the veneer tears."
                ),
            )
        )
        return listing, advice

    def ink(self, grid: TileGrid) -> TrueInk:
        """The hole, its two centre lines, the edge and the flap."""
        board = self._board
        x, y = board.left + self.inset, (board.top + board.bottom) / 2
        whole = PaperBox(board.left - _FLAP, board.top, board.right, board.bottom)
        shapes: tuple[Mark, ...] = (
            outline(whole, Ink.NARROW),
            rule(board.left, board.top, board.left, board.bottom, Ink.VISIBLE),
            Circle(PaperPoint(x, y), self.radius, Ink.VISIBLE),
            rule(board.left, y, board.right + 4.0, y, Ink.CENTRE),
            rule(x, y - self.radius - 6.0, x, y + self.radius + 6.0, Ink.CENTRE),
        )
        height = TEMPLATE_STYLE.label_height
        flap_x = board.left - _FLAP / 2
        foot = board.bottom - (y + self.radius + 6.0)
        uncut: tuple[Mark, ...] = (
            *true_dimensions(
                Edge.BELOW,
                board.bottom,
                (Span("centre from the board's edge", board.left, x, foot),),
                grid,
            ),
            Text(PaperPoint(flap_x, y), "FLAP", 3.5, Anchor.MIDDLE, is_upright=False),
            Text(
                PaperPoint(board.left - 2.0, y),
                "fold: board's edge",
                height,
                Anchor.MIDDLE,
                is_upright=False,
            ),
            Text(PaperPoint(board.right - 2.0, y - 1.2), "level line", height, Anchor.END),
        )
        return TrueInk(shapes=shapes, uncut=uncut)


def hole_templates(unit: Unit) -> tuple[HoleTemplate, ...]:
    """One template for each plain hole through a face, by name, diameter and distance.

    Screw holes, which are countersunk, and pilot holes, which end in the board, get none.
    """
    groups: dict[tuple[str, float, float], list[HolePlace]] = {}
    for part in unit.parts:
        for hole in part.board.features:
            if not isinstance(hole, Hole) or not hole.surface.is_face:
                continue
            if hole.depth is not None or hole.countersink:
                continue
            level, inset = sorted(hole.centre, key=lambda at: at.axis)
            key = hole.name, round(hole.diameter, 3), round(inset.distance, 3)
            place = HolePlace(
                part=part.name,
                edge=part.surface_name(inset.datum),
                level=level.distance,
                end=part.surface_name(level.datum),
                face=part.surface_name(hole.surface),
            )
            groups.setdefault(key, []).append(place)
    return tuple(
        HoleTemplate(hole=name, diameter=diameter, inset=inset, places=tuple(places))
        for (name, diameter, inset), places in groups.items()
    )
