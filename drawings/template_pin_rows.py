"""Drilling jig for shelf-pin rows: one strip with the hole centres at the pitch.

The jig is as long as the board with the greatest distance from its end to the first hole
asks; on the others a packing piece between the jig's stop and the board makes up the
difference. So every row starts from the stop, and the pitch is only in the jig (common
practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.errors import SizeError
from cabinet.features import HoleRow
from cabinet.joint import PinRows
from cabinet.quantity import named, positive, whole
from drawings.dimension_ink import Edge
from drawings.marks import Anchor, Circle, Ink, Mark, PaperPoint, Polyline, Text
from drawings.number import dimension_text
from drawings.ruling import rule
from drawings.sheet import slug
from drawings.table import Column
from drawings.template_motif import Span, TrueInk, true_dimensions
from drawings.template_style import LOUD_HEIGHT, TEMPLATE_STYLE
from drawings.template_words import Advice, Listing, Words
from drawings.tile_grid import TileGrid

HALF_WIDTH = 25.0
"""From the jig's edges to its line of holes, mm."""

_LEFT = 20.0  # room for the dimension at the stop, mm
_HEAD = 12.0  # height of the words above the strip, mm
_FOOT = 30.0  # height of the dimensions below the strip, mm
_BEYOND = 15.0  # the strip runs on past the last hole by this, mm
_WORDS = 14.0  # what the words beside the stop take, mm
_CROSS = 5.0  # half of the cross at each centre, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class PinRowPlace:
    """One row that is bored with the jig.

    Attributes:
        part: Name of the board.
        face: The face that is bored.
        row: Name of the row.
        first: From the board's end to the first hole, mm.
        line: From ``edge`` to the line of holes, mm.
        edge: The edge from which the line is told.
        count: Holes in the row.
        depth: How deep they are, mm; None goes through.
        is_trimmed_later: That end stands proud and is trimmed flush after gluing.
    """

    part: str
    face: str
    row: str
    first: float
    line: float
    edge: str
    count: int
    depth: float | None
    is_trimmed_later: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PinRowJig:
    """The jig for all rows of one pitch and diameter that are bored from one end.

    Attributes:
        end: Name of the end against which the stop lies (``bottom end``).
        pitch: Centre to centre, mm.
        diameter: Of the holes, mm.
        places: The rows that are bored with it, at least one.

    Raises:
        SizeError: a size that is not positive, or no rows.
    """

    end: str
    pitch: float
    diameter: float
    places: tuple[PinRowPlace, ...]

    def __post_init__(self) -> None:
        named("pin-row jig", "end", self.end)
        positive("pin-row jig", "pitch", self.pitch)
        positive("pin-row jig", "diameter", self.diameter)
        if not self.places:
            raise SizeError("pin-row jig: it bores no rows; there must be at least one", limit=1)
        for place in self.places:
            positive(f"{place.part}, {place.row}", "first hole", place.first)
            whole(f"{place.part}, {place.row}", "count", place.count, 1, 1000)

    @property
    def title(self) -> str:
        """What it is."""
        return (
            f"Shelf-pin jig, {self.count} holes at {dimension_text(self.pitch)} from the {self.end}"
        )

    @property
    def name(self) -> str:
        """Short name for files."""
        return slug(f"shelf-pin jig {dimension_text(self.pitch)} {self.end}")

    @property
    def first(self) -> float:
        """From the jig's stop to its first hole, mm."""
        return max(place.first for place in self.places)

    @property
    def count(self) -> int:
        """Holes in the jig."""
        return max(place.count for place in self.places)

    def packing(self, place: PinRowPlace) -> float:
        """Thickness of the piece between the stop and the end of that row's board, mm."""
        return round(self.first - place.first, 6)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing, mm."""
        length = self.first + (self.count - 1) * self.pitch + _BEYOND
        return _LEFT + length + 2.0, _HEAD + 2 * HALF_WIDTH + _FOOT

    @property
    def words(self) -> tuple[Words, ...]:
        """Where each row is, and how to use the jig."""
        return (self._listing, self._advice)

    @property
    def _listing(self) -> Listing:
        columns = (
            "Board, face",
            "Row",
            "Line of holes",
            "Jig's near edge",
            "Holes",
            "Packing at the stop",
        )
        rows = []
        for p in self.places:
            near = p.line - HALF_WIDTH
            packing = self.packing(p)
            over = f"{dimension_text(abs(near))} {'from it' if near >= 0 else 'over it'}"
            rows.append(
                (
                    f"{p.part}, {p.face}",
                    p.row,
                    f"{dimension_text(p.line)} from {p.edge}",
                    over,
                    str(p.count),
                    dimension_text(packing) if packing else "none",
                )
            )
        return Listing(
            title="Rows to bore",
            columns=tuple(Column(heading=heading) for heading in columns),
            rows=tuple(rows),
        )

    @property
    def _advice(self) -> Advice:
        end = self.end
        depths = sorted({p.depth for p in self.places if p.depth is not None})
        deep = " or ".join(dimension_text(depth) for depth in depths)
        notes = [
            (
                "Glue the strip on a straight piece of hard board, cut its long edges on the lines, "
                f"bore ø{dimension_text(self.diameter)} square on a drill press, and screw a stop "
                "across the marked end."
            ),
            (
                f"Stop against the {end.upper()} of the board, with the packing of the table between "
                "the two; line of holes on the line of the table. The jig may be turned over, never "
                "end for end."
            ),
        ]
        if deep:
            notes.append(
                f"Depth stop: {deep} into the board, the jig's thickness added. Try it in an "
                "offcut."
            )
        if any(p.depth is None for p in self.places):
            notes.append("Holes that go through: clamp an offcut under the board.")
        proud = sorted({p.part for p in self.places if p.is_trimmed_later})
        if proud:
            notes.append(
                f"Bore before trimming: the {end} stands proud until it is trimmed flush after "
                f"gluing, and the jig counts from it untrimmed ({', '.join(proud)})."
            )
        return Advice(notes=tuple(notes))

    @property
    def _has_room(self) -> bool:
        """Whether words stand between the stop and the first hole."""
        return self.first - self.diameter > _WORDS + 5.0

    def _centre(self, index: int) -> float:
        return _LEFT + self.first + index * self.pitch

    def ink(self, grid: TileGrid) -> TrueInk:
        """The strip, its centres with their numbers and distances, and the marked end."""
        top, line, bottom = _HEAD, _HEAD + HALF_WIDTH, _HEAD + 2 * HALF_WIDTH
        right = self._centre(self.count - 1) + _BEYOND
        shapes: list[Mark] = [
            rule(_LEFT, top, right, top, Ink.NARROW),
            rule(_LEFT, bottom, right, bottom, Ink.NARROW),
            rule(right, top, right, bottom, Ink.NARROW),
            rule(_LEFT, 2.0, _LEFT, bottom + 4.0, Ink.VISIBLE),
            rule(_LEFT + (_WORDS if self._has_room else 0.0), line, right, line, Ink.CENTRE),
        ]
        for index in range(self.count):
            x = self._centre(index)
            shapes.append(Circle(PaperPoint(x, line), self.diameter / 2, Ink.VISIBLE))
            shapes.append(rule(x, line - _CROSS, x, line + _CROSS, Ink.NARROW))
        dimensions = true_dimensions(Edge.BELOW, bottom, tuple(self._spans(grid)), grid)
        dimensions += true_dimensions(
            Edge.LEFT, _LEFT, (Span("line of holes from the jig's edge", top, line),), grid
        )
        words = (*self._end_words(), *self._hole_words(grid, line))
        return TrueInk(shapes=tuple(shapes), uncut=(*dimensions, *words))

    def _spans(self, grid: TileGrid) -> Iterator[Span]:
        """The first hole from the stop, and the pitch once on each sheet."""
        foot = HALF_WIDTH - _CROSS
        yield Span("first hole from the stop", _LEFT, self._centre(0), foot)
        for column in range(grid.columns):
            own = grid.own(column, 0)
            for index in range(self.count - 1):
                a, b = self._centre(index), self._centre(index + 1)
                if own.left + 10.0 < a and b < own.right - 10.0:
                    yield Span(f"pitch, hole {index + 1} to {index + 2}", a, b, foot)
                    break

    def _end_words(self) -> Iterator[Mark]:
        """Which end this is: above the strip in full, and on it so that it stays when cut out."""
        words = f"STOP: THIS END AGAINST THE {self.end.upper()}"
        if self._has_room:
            for index, line in enumerate(("STOP AGAINST", self.end.upper())):
                at = PaperPoint(_LEFT + 6.0 + 5.5 * index, _HEAD + HALF_WIDTH)
                height = TEMPLATE_STYLE.figure_height
                yield Text(at, line, height, Anchor.MIDDLE, is_upright=False, is_bold=True)
        tip = PaperPoint(_LEFT + 1.5, 6.5)
        back = tip.moved(6.0, 0.0)
        head = Polyline((tip, back.moved(0.0, -2.5), back.moved(0.0, 2.5)), Ink.ARROW, closed=True)
        yield head
        yield Text(back.moved(2.0, 2.5), words, LOUD_HEIGHT, is_bold=True)

    def _hole_words(self, grid: TileGrid, line: float) -> Iterator[Text]:
        """Number of each hole and its distance from the stop, beside no seam."""
        for index in range(self.count):
            x = grid.beside_seams(self._centre(index), 8.0)
            told = dimension_text(self.first + index * self.pitch)
            number_at = PaperPoint(x, line - _CROSS - 8.0)
            yield Text(number_at, str(index + 1), LOUD_HEIGHT, Anchor.MIDDLE, is_bold=True)
            yield Text(
                PaperPoint(x, line - _CROSS - 2.0),
                told,
                TEMPLATE_STYLE.label_height,
                Anchor.MIDDLE,
            )


def pin_row_jigs(unit: Unit) -> tuple[PinRowJig, ...]:
    """One jig for each pitch, diameter and end from which shelf-pin rows are bored."""
    parts = unit.by_name
    groups: dict[tuple[str, float, float], list[PinRowPlace]] = {}
    for joint in unit.joints:
        if not isinstance(joint, PinRows):
            continue
        for name, row in joint.features(parts):
            if not isinstance(row, HoleRow):
                continue
            part = parts[name]
            key = part.surface_name(row.first.datum), round(row.pitch, 3), row.diameter
            place = PinRowPlace(
                part=name,
                face=part.surface_name(row.surface),
                row=row.name,
                first=row.first.distance,
                line=row.line.distance,
                edge=part.surface_name(row.line.datum),
                count=row.count,
                depth=row.depth,
                is_trimmed_later=any(t.edge is row.first.datum for t in part.board.trims),
            )
            groups.setdefault(key, []).append(place)
    return tuple(
        PinRowJig(end=end, pitch=pitch, diameter=diameter, places=_sorted(places))
        for (end, pitch, diameter), places in groups.items()
    )


def _sorted(places: list[PinRowPlace]) -> tuple[PinRowPlace, ...]:
    """Board by board and face by face, the row nearest to its edge first, none twice."""
    return tuple(sorted(set(places), key=lambda p: (p.part, p.face, p.line, p.row)))
