"""Router template for openings of one size: finished line, saw line, template opening.

Source: template opening = finished opening + 2 x offset, see ``GuideBush``. That
the waste is sawn out 2 to 3 mm inside the line is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.board import At
from cabinet.design import Unit
from cabinet.errors import SizeError
from cabinet.features import CutOut
from cabinet.part import Part
from cabinet.quantity import positive
from cabinet.workshop import GuideBush
from drawings.dimension_ink import Edge
from drawings.marks import Arc, Ink, Mark, PaperPoint, Text
from drawings.number import dimension_text
from drawings.ruling import rule
from drawings.sheet import slug
from drawings.table import Column
from drawings.template_motif import Span, TrueInk, true_dimensions
from drawings.template_style import TEMPLATE_STYLE
from drawings.template_words import Advice, LineKey, Listing, Words
from drawings.tile_grid import Orientation, TileGrid

SAW_INSIDE = 2.5
"""How far inside the finished line the waste is sawn out, mm."""

_LEFT, _TOP = 26.0, 23.0  # room for the dimensions, mm
_RIGHT, _BOTTOM = 34.0, 10.0  # room for the centre lines' ends and words, mm
_BARE = 9.0  # the same room where there are none, mm
_OVER = 8.0  # how far the centre lines run past the template opening, mm

# A covering is opened after it is glued, along the opening that is already below it.
_COVERING = "covering"


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOutPlace:
    """Where one opening is.

    Attributes:
        part: Name of the board.
        name: What the opening is for.
        along: Centre from an end, as the maker says it (``188.3 from left end``).
        across: Centre from an edge.
        lies: Which way its longer side runs on the board, "" for a round or square one.
    """

    part: str
    name: str
    along: str
    across: str
    lies: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOutTemplate:
    """The template for all openings of one size in a unit.

    Attributes:
        length: The longer clear size, mm.
        width: The shorter, mm.
        corner_radius: Radius of the corners, mm.
        bush: Guide bush and cutter.
        places: The openings that are cut with it.
        followed: Openings of a covering, cut with a bearing along the ones below.
        thickest: Thickness of the thickest board, mm.

    Raises:
        SizeError: corners that the cutter cannot leave, a width above the length, or a size
            that leaves nothing to saw out.
    """

    length: float
    width: float
    corner_radius: float
    bush: GuideBush
    places: tuple[CutOutPlace, ...]
    followed: tuple[CutOutPlace, ...]
    thickest: float

    def __post_init__(self) -> None:
        owner = self.places[0].name if self.places else self.title
        positive(owner, "length", self.length)
        positive(owner, "width less what the saw leaves", self.width - 2 * SAW_INSIDE)
        self.bush.require_corner(owner, self.corner_radius)
        if self.width > self.length:
            raise SizeError(
                f"{owner}: width {self.width:g} mm is above length {self.length:g} mm; the "
                "longer size is the length",
                part=owner,
                value=self.width,
                limit=self.length,
            )

    @property
    def is_pill(self) -> bool:
        """Whether the ends are half circles."""
        return math.isclose(self.corner_radius, self.width / 2)

    @property
    def title(self) -> str:
        """What it is."""
        size = f"{dimension_text(self.length)} × {dimension_text(self.width)}"
        if self.is_pill:
            return f"Pill template {size}"
        return f"Cut-out template {size} R{dimension_text(self.corner_radius)}"

    @property
    def name(self) -> str:
        """Short name for files."""
        return slug(self.title)

    @property
    def opening(self) -> tuple[float, float, float]:
        """Length, width and corner radius of the opening in the template, mm."""
        return (
            self.bush.template_opening(self.length),
            self.bush.template_opening(self.width),
            self.corner_radius + self.bush.offset,
        )

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing, mm."""
        long, wide, _ = self.opening
        left, top = self._corner
        return left + long + _RIGHT, top + wide + _BOTTOM

    @property
    def _is_dimensioned(self) -> bool:
        """Whether it fits on one sheet with its dimensions; else the key alone tells its sizes."""
        long, wide, _ = self.opening
        return any(
            _LEFT + long + _RIGHT <= sheet.window[0] and _TOP + wide + _BOTTOM <= sheet.window[1]
            for sheet in Orientation
        )

    @property
    def _corner(self) -> tuple[float, float]:
        """Left upper corner of the box around the template opening, mm."""
        return (_LEFT, _TOP) if self._is_dimensioned else (_BARE, _BARE)

    @property
    def words(self) -> tuple[Words, ...]:
        """The lines, the places and how to use it."""
        return (self._key, self._listing, self._advice)

    @property
    def _key(self) -> LineKey:
        long, wide, radius = map(dimension_text, self.opening)
        bush = self.bush
        finished = " × ".join(map(dimension_text, (self.length, self.width)))
        return LineKey(
            lines=(
                (
                    Ink.NARROW,
                    (
                        f"template opening, cut this: {long} × {wide}, corners R{radius}, for a guide "
                        f"bush of {dimension_text(bush.diameter)} and a cutter of "
                        f"{dimension_text(bush.cutter)}"
                    ),
                ),
                (
                    Ink.VISIBLE,
                    f"finished opening: {finished}, corners R{dimension_text(self.corner_radius)}",
                ),
                (Ink.HIDDEN, f"saw out the waste here, {dimension_text(SAW_INSIDE)} inside"),
            )
        )

    @property
    def _listing(self) -> Listing:
        columns = ("Board", "Opening", "Centre", "Centre, other way", "Long side runs")
        rows = tuple((p.part, p.name, p.along, p.across, p.lies) for p in self.places)
        return Listing(
            title="Openings cut with it",
            columns=tuple(Column(heading=heading) for heading in columns),
            rows=rows,
        )

    @property
    def _advice(self) -> Advice:
        bush = self.bush
        offset = dimension_text(bush.offset)
        notes = [
            (
                "Glue the sheet on template board, thicker than the bush stands out of the router's "
                f"base. The cut lies ({dimension_text(bush.diameter)} \N{MINUS SIGN} "
                f"{dimension_text(bush.cutter)}) / 2 = {offset} inside the template's edge."
            ),
            (
                "Mark the centre lines on the board; lay the template's centre lines on the marks "
                "and fix it."
            ),
            (
                "Drill, saw on the dashed line, then rout to the template in shallow passes "
                f"(board up to {dimension_text(self.thickest)} thick), on a waste board."
            ),
            (
                "Unplug before changing the cutter; eyes, ears and lungs protected, as the "
                "machine's own instructions say."
            ),
        ]
        if self.followed:
            names: dict[str, list[str]] = {}
            for place in self.followed:
                names.setdefault(place.part, []).append(place.name)
            told = ", ".join(f"{part} ({'; '.join(them)})" for part, them in names.items())
            notes.insert(
                3,
                f"Not with this template: {told}. Open it after gluing, from the middle "
                "outwards, with a bearing that runs on the opening below.",
            )
        return Advice(notes=tuple(notes))

    def ink(self, grid: TileGrid) -> TrueInk:
        """Three outlines about one centre, and the centre lines."""
        long, wide, radius = self.opening
        left, top = self._corner
        x, y = left + long / 2, top + wide / 2
        saw = 2 * SAW_INSIDE
        shapes: tuple[Mark, ...] = (
            *_outline(x, y, (long, wide, radius), Ink.NARROW),
            *_outline(x, y, (self.length, self.width, self.corner_radius), Ink.VISIBLE),
            *_outline(
                x,
                y,
                (self.length - saw, self.width - saw, max(0.0, self.corner_radius - SAW_INSIDE)),
                Ink.HIDDEN,
            ),
            rule(x - long / 2 - _OVER, y, x + long / 2 + _OVER, y, Ink.CENTRE),
            rule(x, y - wide / 2 - _OVER, x, y + wide / 2 + _OVER, Ink.CENTRE),
        )
        words = _centre_words(x, y, (long, wide), grid)
        dimensions = self._dimensions(x, y, grid) if self._is_dimensioned else ()
        return TrueInk(shapes=shapes, uncut=(*dimensions, *words))

    def _dimensions(self, x: float, y: float, grid: TileGrid) -> tuple[Mark, ...]:
        """Sizes of the finished and of the template opening, above and at the left."""
        long, wide, radius = self.opening
        foot = self.bush.offset + self.corner_radius
        above = true_dimensions(
            Edge.ABOVE,
            y - wide / 2,
            (
                Span("length of the finished opening", *_about(x, self.length), foot),
                Span("length of the template opening", *_about(x, long), radius),
            ),
            grid,
        )
        left = true_dimensions(
            Edge.LEFT,
            x - long / 2,
            (
                Span("width of the finished opening", *_about(y, self.width), foot),
                Span("width of the template opening", *_about(y, wide), radius),
            ),
            grid,
        )
        return *above, *left


def _about(middle: float, extent: float) -> tuple[float, float]:
    return middle - extent / 2, middle + extent / 2


def _centre_words(
    x: float, y: float, opening: tuple[float, float], grid: TileGrid
) -> tuple[Text, ...]:
    """What the ends of the centre lines are for."""
    long, wide = opening
    height = TEMPLATE_STYLE.label_height
    right, below = x + long / 2 + _OVER + 1.0, y + wide / 2 + _OVER
    return (
        Text(PaperPoint(right, y - 0.3), "on the", height),
        Text(PaperPoint(right, y + 3.6), "board's mark", height),
        Text(
            PaperPoint(grid.beside_seams(x + 19.0, 18.0) - 17.0, below),
            "on the board's mark",
            height,
        ),
    )


def _outline(x: float, y: float, size: tuple[float, float, float], ink: Ink) -> Iterator[Mark]:
    """A rectangle with round corners about (x, y), as lines and arcs."""
    long, wide, radius = size
    radius = min(radius, wide / 2)
    dx, dy = long / 2 - radius, wide / 2 - radius
    if dx > 1e-9:
        yield rule(x - dx, y - wide / 2, x + dx, y - wide / 2, ink)
        yield rule(x - dx, y + wide / 2, x + dx, y + wide / 2, ink)
    if dy > 1e-9:
        yield rule(x - long / 2, y - dy, x - long / 2, y + dy, ink)
        yield rule(x + long / 2, y - dy, x + long / 2, y + dy, ink)
    if radius > 1e-9:
        corners = ((dx, dy, 0.0), (-dx, dy, 90.0), (-dx, -dy, 180.0), (dx, -dy, 270.0))
        for cx, cy, start in corners:
            yield Arc(PaperPoint(x + cx, y + cy), radius, start, start + 90.0, ink)


def cut_out_templates(unit: Unit, bush: GuideBush) -> tuple[CutOutTemplate, ...]:
    """One template for each distinct size of opening in a unit.

    Raises:
        SizeError: corners that the router's cutter cannot leave.
    """
    groups: dict[tuple[float, float, float], list[tuple[Part, CutOut]]] = {}
    for part in unit.parts:
        for feature in part.board.features:
            if isinstance(feature, CutOut):
                short, long = sorted((feature.length, feature.width))
                key = round(long, 3), round(short, 3), round(feature.corner_radius, 3)
                groups.setdefault(key, []).append((part, feature))
    made = []
    for (long, short, radius), found in groups.items():
        routed = [(p, f) for p, f in found if p.role != _COVERING] or found
        followed = [pair for pair in found if pair not in routed]
        made.append(
            CutOutTemplate(
                length=long,
                width=short,
                corner_radius=radius,
                bush=bush,
                places=tuple(_place(*pair) for pair in routed),
                followed=tuple(_place(*pair) for pair in followed),
                thickest=max(part.board.thickness for part, _ in routed),
            )
        )
    return tuple(made)


def _place(part: Part, feature: CutOut) -> CutOutPlace:
    along, across = sorted(feature.centre, key=lambda at: at.axis)
    lies = ""
    if not math.isclose(feature.length, feature.width):
        longer = along if feature.length > feature.width else across
        lies = _runs(part, longer)
    return CutOutPlace(
        part=part.name,
        name=feature.name,
        along=_told(part, along),
        across=_told(part, across),
        lies=lies,
    )


def _told(part: Part, at: At) -> str:
    return f"{dimension_text(at.distance)} from {part.surface_name(at.datum)}"


def _runs(part: Part, at: At) -> str:
    """Between which two sides of the unit an axis of the board runs."""
    sides = sorted((part.side(at.datum), part.side(at.datum.opposite)), key=lambda s: s.sign)
    return f"{sides[0].value} to {sides[1].value}"
