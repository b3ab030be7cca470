"""Paper strip for the screws in the wall, taped to it level: seen from the front, as it hangs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.errors import SizeError
from cabinet.features import Bevel
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Screw
from cabinet.quantity import named, positive
from drawings.dimension_ink import Edge
from drawings.marks import Anchor, Circle, Ink, Mark, PaperPoint, Polyline, Text
from drawings.number import dimension_text
from drawings.ruling import rule
from drawings.sheet import slug
from drawings.template_motif import Span, TrueInk, true_dimensions
from drawings.template_style import LOUD_HEIGHT, TEMPLATE_STYLE
from drawings.template_words import Advice, Words
from drawings.tile_grid import TileGrid

_LEFT = 30.0  # room for the dimensions, mm
_HEAD = 12.0  # height of the words above the strip, mm
_BELOW = 8.0
_CROSS = 9.0  # half of the cross at each screw, mm
_END_ROOM = 3.0
_WALL = "wall"


@dataclass(frozen=True, slots=True, kw_only=True)
class WallScrewStrip:
    """The strip for the part that is screwed to the wall.

    Attributes:
        part: Name of that part.
        length: Of the part, mm.
        height: Of the part, mm.
        screws: Centre of each screw from the part's left end and down from its top edge, mm.
        diameter: Of the hole in the part, mm.
        article: The screw, as it stands in the list of hardware.
        above: How far the unit's top stands above the part's top edge, mm.
        left: How far the unit's left side stands to the left of the part's left end, mm.
        is_bevelled: Whether the unit hangs on a bevel of the part.

    Raises:
        SizeError: a size that is not positive, or no screws.
    """

    part: str
    length: float
    height: float
    screws: tuple[tuple[float, float], ...]
    diameter: float
    article: str
    above: float
    left: float
    is_bevelled: bool

    def __post_init__(self) -> None:
        named("wall strip", "part", self.part)
        positive(self.part, "length", self.length)
        positive(self.part, "height", self.height)
        positive(self.part, "hole", self.diameter)
        if not self.screws:
            raise SizeError(f"{self.part}: no screw goes into the wall", part=self.part, limit=1)

    @property
    def title(self) -> str:
        """What it is."""
        return f"Wall strip, {self.part}"

    @property
    def name(self) -> str:
        """Short name for files."""
        return slug(self.title)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing, mm."""
        return _LEFT + self.length + _END_ROOM, _HEAD + self.height + _BELOW

    @property
    def words(self) -> tuple[Words, ...]:
        """Cautions first, then where the unit will be and how the strip is used."""
        caution = Advice(
            heading="Before you drill",
            notes=(
                (
                    "Cables and pipes may run behind this line, above all in line with sockets, "
                    "switches and taps: trace them with a detector and keep clear. What is not "
                    "found may still be there."
                ),
                (
                    "Keep to your local codes; leave work on wiring, gas and water, and doubts "
                    "about the wall, to a licensed person."
                ),
                (
                    "Screws only into studs or masonry, with a fixing made for that wall. Where a "
                    "centre finds none, move it along the line, and the hole in the part with it."
                ),
            ),
        )
        told = (
            f"The {self.part} is {dimension_text(self.length)} long. With the unit hung in its "
            f"middle, the unit's top is {dimension_text(self.above)} above the strip's wide line "
            f"and its left side {dimension_text(self.left)} to the left of the strip."
        )
        bevel = (
            ("The sharp edge of its bevel goes up and away from the wall.",)
            if self.is_bevelled
            else ()
        )
        use = Advice(
            heading="How to use it",
            notes=(
                told,
                (
                    "Trim, lay crosses on crosses, tape the strip to the wall with the wide line "
                    "level; check the joined length with the rule before you drill."
                ),
                f"Screws, {len(self.screws)} pieces: {self.article}.",
                *bevel,
            ),
        )
        return caution, use

    def ink(self, grid: TileGrid) -> TrueInk:
        """The outline of the part as it hangs, its top edge as level line, and the centres."""
        top, bottom, right = _HEAD, _HEAD + self.height, _LEFT + self.length
        shapes: list[Mark] = [
            rule(_LEFT, top, right, top, Ink.VISIBLE),
            rule(_LEFT, bottom, right, bottom, Ink.NARROW),
            rule(_LEFT, top, _LEFT, bottom, Ink.NARROW),
            rule(right, top, right, bottom, Ink.NARROW),
        ]
        shapes += [
            rule(_LEFT, top + line, right, top + line, Ink.CENTRE)
            for line in sorted({y for _, y in self.screws})
        ]
        for x, y in self.screws:
            at = PaperPoint(_LEFT + x, top + y)
            shapes.append(Circle(at, self.diameter / 2, Ink.VISIBLE))
            shapes.append(rule(at.x, at.y - _CROSS, at.x, at.y + _CROSS, Ink.NARROW))
        spans = [
            Span("screws below the level line", top, top + y)
            for y in sorted({y for _, y in self.screws})
        ]
        spans.append(Span(f"height of {self.part}", top, bottom))
        uncut = (
            *true_dimensions(Edge.LEFT, _LEFT, spans, grid),
            *self._sheet_words(grid),
            *self._screw_words(grid),
        )
        return TrueInk(shapes=tuple(shapes), uncut=uncut)

    def _sheet_words(self, grid: TileGrid) -> Iterator[Mark]:
        """On every sheet: which edge this is, that it must be level, and the caution."""
        for column in range(grid.columns):
            own = grid.own(column, 0)
            low, high = max(own.left, _LEFT), min(own.right, _LEFT + self.length)
            if high - low < 70.0:
                continue
            tip = PaperPoint(low + 6.0, _HEAD - 1.0)
            wings = tip.moved(-2.0, -6.0), tip.moved(2.0, -6.0)
            yield Polyline((tip, *wings), Ink.ARROW, closed=True)
            yield Text(
                tip.moved(4.0, -1.5), f"LEVEL: top edge of {self.part}", LOUD_HEIGHT, is_bold=True
            )
            yield Text(
                PaperPoint(low + 10.0, _HEAD + self.height - 3.0),
                "Cables or pipes behind? Look before you drill.",
                TEMPLATE_STYLE.note_height,
            )

    def _screw_words(self, grid: TileGrid) -> Iterator[Text]:
        for index, (x, y) in enumerate(self.screws, start=1):
            at = grid.beside_seams(_LEFT + x, 24.0)
            middle = _HEAD + y
            yield Text(
                PaperPoint(at, middle - _CROSS - 7.5),
                f"screw {index} of {len(self.screws)}",
                LOUD_HEIGHT,
                Anchor.MIDDLE,
                is_bold=True,
            )
            yield Text(
                PaperPoint(at, middle - _CROSS - 2.0),
                f"{dimension_text(x)} from the left end",
                TEMPLATE_STYLE.note_height,
                Anchor.MIDDLE,
            )


def wall_screw_strips(unit: Unit) -> tuple[WallScrewStrip, ...]:
    """One strip for each part that is screwed to the wall."""
    parts = unit.by_name
    groups: dict[str, list[tuple[UnitPoint, Screw, str]]] = {}
    for piece in unit.hardware:
        if _WALL not in piece.inside or piece.axis is not Side.BACK:
            continue
        for name in piece.inside:
            if name in parts and isinstance(piece.body, Screw):
                groups.setdefault(name, []).append((piece.at, piece.body, piece.article))
    strips = []
    for name, found in groups.items():
        box = parts[name].box
        _, body, article = found[0]
        places = sorted(
            (round(at.x - box.low.x, 6), round(box.high.z - at.z, 6)) for at, *_ in found
        )
        strips.append(
            WallScrewStrip(
                part=name,
                length=box.size[0],
                height=box.size[2],
                screws=tuple(places),
                diameter=body.clearance,
                article=article,
                above=round(unit.outline.high.z - box.high.z, 6),
                left=round(box.low.x - unit.outline.low.x, 6),
                is_bevelled=any(isinstance(f, Bevel) for f in parts[name].board.features),
            )
        )
    return tuple(strips)
