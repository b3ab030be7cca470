"""Chisel guides for stopped grooves and housings whose round ends are squared by hand."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.board import At
from cabinet.design import Unit
from cabinet.errors import SizeError
from cabinet.features import Groove
from cabinet.part import Part
from cabinet.quantity import positive
from drawings.dimension_ink import Edge
from drawings.marks import Anchor, Ink, Mark, PaperPoint, Polyline, Text
from drawings.number import dimension_text
from drawings.table import Column
from drawings.template_motif import Span, TrueInk, true_dimensions
from drawings.template_style import TEMPLATE_STYLE
from drawings.template_words import Advice, Listing, Words
from drawings.tile_grid import TileGrid

_CHEEK = 22.0  # of the guide, at each side of the groove, mm
_BACK = 24.0  # of the guide, beyond the groove's end, mm
_REACH = 20.0  # how far the guide runs along the groove, mm
_AROUND = 16.0  # from one guide to the next, mm
_TOP = 6.0
_BELOW = 24.0  # room for the dimension, mm
_MOST_BESIDE = 250.0  # guides stand in rows no longer than this, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class StoppedGroove:
    """A groove with squared ends.

    Attributes:
        part: Name of the board.
        name: What the groove is for.
        face: The surface that it is cut into.
        width: Clear width, mm.
        depth: Depth, mm.
        stops: Where it ends, as the maker says it (``36.9 from front edge``).
    """

    part: str
    name: str
    face: str
    width: float
    depth: float
    stops: tuple[str, ...]

    def __post_init__(self) -> None:
        positive(f"{self.part}, {self.name}", "width", self.width)
        positive(f"{self.part}, {self.name}", "depth", self.depth)


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerTemplate:
    """One guide for each distinct width of stopped groove in a unit.

    Attributes:
        grooves: The grooves that are squared, at least one.
    """

    grooves: tuple[StoppedGroove, ...]

    def __post_init__(self) -> None:
        if not self.grooves:
            raise SizeError("chisel guide: there are no stopped grooves to square", limit=1)

    @property
    def title(self) -> str:
        """What it is."""
        return "Chisel guide for stopped grooves"

    @property
    def name(self) -> str:
        """Short name for files."""
        return "chisel-guide"

    @property
    def widths(self) -> tuple[float, ...]:
        """The distinct widths, mm."""
        return tuple(sorted({round(groove.width, 3) for groove in self.grooves}))

    def _corners(self) -> tuple[PaperPoint, ...]:
        """Left upper corner of each guide."""
        corners = []
        x, y = _AROUND, _TOP
        for width in self.widths:
            wide = width + 2 * _CHEEK
            if x > _AROUND and x + wide + _AROUND > _MOST_BESIDE:
                x, y = _AROUND, y + _BACK + _REACH + _BELOW + _TOP
            corners.append(PaperPoint(x, y))
            x += wide + _AROUND
        return tuple(corners)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing, mm."""
        corners = self._corners()
        rights = [
            at.x + width + 2 * _CHEEK + _AROUND
            for at, width in zip(corners, self.widths, strict=True)
        ]
        return max(rights), corners[-1].y + _BACK + _REACH + _BELOW

    @property
    def words(self) -> tuple[Words, ...]:
        """Which ends are squared, and how."""
        headings = ("Board, face", "Groove", "Width", "Depth", "Squared ends")
        rows = tuple(
            (
                f"{g.part}, {g.face}",
                g.name,
                dimension_text(g.width),
                dimension_text(g.depth),
                "; ".join(g.stops),
            )
            for g in self.grooves
        )
        listing = Listing(
            title="Grooves to square",
            columns=tuple(Column(heading=heading) for heading in headings),
            rows=rows,
        )
        advice = Advice(
            notes=(
                (
                    "Glue the sheet on a block of hard wood at least 20 thick and saw out the "
                    "notch exactly on the wide line; its walls guide the chisel upright."
                ),
                (
                    "Notch over the groove, its floor on the stop line; clamp it. Pare the corners "
                    "down to the groove's depth, in thin slices, both hands behind the edge."
                ),
            )
        )
        return listing, advice

    def ink(self, grid: TileGrid) -> TrueInk:
        """Each guide with its notch, as wide as the groove."""
        shapes: list[Mark] = []
        uncut: list[Mark] = []
        for at, width in zip(self._corners(), self.widths, strict=True):
            left, right = at.x + _CHEEK, at.x + _CHEEK + width
            far = right + _CHEEK
            floor, foot = at.y + _BACK, at.y + _BACK + _REACH
            outer = ((left, foot), (at.x, foot), (at.x, at.y), (far, at.y), (far, foot))
            body = (*outer, (right, foot))
            notch = ((left, foot), (left, floor), (right, floor), (right, foot))
            shapes += [
                Polyline(tuple(PaperPoint(*p) for p in body), Ink.NARROW),
                Polyline(tuple(PaperPoint(*p) for p in notch), Ink.VISIBLE),
            ]
            middle = (left + right) / 2
            height = TEMPLATE_STYLE.label_height
            uncut += [
                Text(PaperPoint(middle, floor - 7.0), "end of the groove", height, Anchor.MIDDLE),
                Text(PaperPoint(middle, floor - 3.0), "on its stop line", height, Anchor.MIDDLE),
                *true_dimensions(
                    Edge.BELOW, foot, (Span("width of the groove", left, right),), grid
                ),
            ]
        return TrueInk(shapes=tuple(shapes), uncut=tuple(uncut))


def corner_templates(unit: Unit) -> tuple[CornerTemplate, ...]:
    """The chisel guides of a unit, as one template; none if no groove is squared."""
    found = tuple(
        _stopped(part, feature)
        for part in unit.parts
        for feature in part.board.features
        if isinstance(feature, Groove)
        and feature.end_radius == 0
        and (feature.start is not None or feature.end is not None)
    )
    return (CornerTemplate(grooves=found),) if found else ()


def _stopped(part: Part, groove: Groove) -> StoppedGroove:
    ends = sorted(
        (at for at in (groove.start, groove.end) if at is not None),
        key=lambda at: (at.datum.value, at.distance),
    )
    stops = tuple(_told(part, at) for at in ends)
    return StoppedGroove(
        part=part.name,
        name=groove.name,
        face=part.surface_name(groove.surface),
        width=groove.width,
        depth=groove.depth,
        stops=stops,
    )


def _told(part: Part, at: At) -> str:
    return f"{dimension_text(at.distance)} from {part.surface_name(at.datum)}"
