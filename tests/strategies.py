"""The one file where random inputs are made: boards, features, parts, whole units.

All are valid by construction; ``BAD`` holds the others, each wrong in exactly one known way.
Sizes in mm, to a tenth.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from hypothesis import strategies as st

from cabinet.board import At, BoardSize, Surface, surface_at
from cabinet.components.carcass import BackPanel, Carcass, Rails, carcass
from cabinet.components.cleat import CleatKind, hanging_cleat
from cabinet.components.covering import pill, top_covering
from cabinet.components.doors import DoorTracks, sliding_doors
from cabinet.components.shelves import FramePanel, Pins, board_shelf, frame_shelf, pin_rows
from cabinet.components.stand import feet, plinth
from cabinet.design import Component, Design
from cabinet.errors import CabinetError, DesignError, SizeError, UnknownNameError
from cabinet.features import (
    Bevel,
    Biscuit,
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Pattern,
    Perforation,
    Rebate,
)
from cabinet.frame import Placement, Side, UnitPoint
from cabinet.hardware import Screw
from cabinet.joint import Butt, Housing, Screwed
from cabinet.motion import Motion, Move
from cabinet.part import Board, Part, board_part
from cabinet.stock import Stock, birch_plywood, rubber_sheet, solid_wood, steel_sheet

Draw = st.DrawFn
Span = tuple[float, float]

# A board in cells: each takes one feature, with plain wood between neighbours.
CELL = 190.0
CELL_MARGIN = 12.0


def lengths(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths to a tenth of a millimetre, ends included."""
    return st.integers(math.ceil(low * 10 - 1e-6), math.floor(high * 10 + 1e-6)).map(
        lambda tenths: tenths / 10
    )


def stocks() -> st.SearchStrategy[Stock]:
    """Plywood as it is really measured: a little thinner or thicker than its name."""
    return st.sampled_from([12.0, 15.0, 18.0, 21.0]).flatmap(
        lambda nominal: lengths(nominal - 0.9, nominal + 0.2).map(
            lambda measured: birch_plywood(nominal, measured)
        )
    )


def sizes() -> st.SearchStrategy[BoardSize]:
    """Sizes of single boards."""
    return st.builds(BoardSize, lengths(230, 1400), lengths(140, 600), lengths(11.1, 36))


def _told(draw: Draw, axis: int, coordinate: float, size: BoardSize) -> At:
    """A coordinate told from one of the two surfaces across that axis."""
    sign = draw(st.sampled_from([-1, 1]))
    extent = size.along[axis]
    return At(surface_at(axis, sign), coordinate if sign < 0 else extent - coordinate)


def _near(draw: Draw, axis: int, low: float, extent: float, size: BoardSize) -> At:
    """The nearer end of an extent from ``low``, told from either of two surfaces."""
    sign = draw(st.sampled_from([-1, 1]))
    distance = low if sign < 0 else size.along[axis] - low - extent
    return At(surface_at(axis, sign), distance)


def _middle(draw: Draw, axis: int, half: float, size: BoardSize, span: Span | None) -> At:
    """A centre that keeps ``half`` from both ends of the axis, or of the span on the length."""
    low, high = span if span is not None and axis == 0 else (0.0, size.along[axis])
    return _told(draw, axis, draw(lengths(low + half, high - half)), size)


def _run(
    draw: Draw, axis: int, size: BoardSize, span: Span | None, *, least: float = 60.0
) -> tuple[At | None, At | None]:
    """Start and end of a run, each told from either end, or None where it runs out."""
    if span is not None and axis == 0:
        low, high = span
        is_open = (False, False)
    else:
        low, high = 0.0, size.along[axis]
        is_open = draw(st.tuples(st.booleans(), st.booleans()))
    third = (high - low - least) / 2
    start = None if is_open[0] else _told(draw, axis, low + draw(lengths(0.1, third)), size)
    end = None if is_open[1] else _told(draw, axis, high - draw(lengths(0.1, third)), size)
    return start, end


@st.composite
def grooves(draw: Draw, size: BoardSize, span: Span | None = None) -> Groove:
    """Grooves in faces, along and across, and in edges; open, stopped, with round ends."""
    surface = draw(st.sampled_from([Surface.A, Surface.B, Surface.LOW, Surface.HIGH]))
    width = draw(lengths(2, 6)) if not surface.is_face else draw(lengths(3, 22))
    near_axis = 2 if not surface.is_face else draw(st.sampled_from([0, 1]))
    run = 3 - surface.axis - near_axis
    low, high = span if span is not None and near_axis == 0 else (0.0, size.along[near_axis])
    place = draw(lengths(low + 2, high - width - 2))
    start, end = _run(draw, run, size, span)
    radius = draw(st.sampled_from([0.0, width / 2, width / 3])) if start or end else 0.0
    most = size.along[surface.axis] - 1 if surface.is_face else 20.0
    return Groove(
        name="groove",
        surface=surface,
        near=_near(draw, near_axis, place, width, size),
        width=width,
        depth=draw(lengths(1, most)),
        start=start,
        end=end,
        end_radius=radius,
    )


@st.composite
def rebates(draw: Draw, size: BoardSize, span: Span | None = None) -> Rebate:
    """Rebates along edges and, on a whole board, along ends."""
    edges = [Surface.LOW, Surface.HIGH]
    if span is None:
        edges += [Surface.START, Surface.END]
    edge = draw(st.sampled_from(edges))
    start, end = _run(draw, 1 - edge.axis, size, span)
    return Rebate(
        name="rebate",
        edge=edge,
        face=draw(st.sampled_from([Surface.A, Surface.B])),
        width=draw(lengths(1, 40)),
        depth=draw(lengths(1, size.thickness - 1)),
        start=start,
        end=end,
    )


@st.composite
def bevels(draw: Draw, size: BoardSize, span: Span | None = None) -> Bevel:
    """Bevels with and without a land."""
    return Bevel(
        name="bevel",
        edge=draw(st.sampled_from([Surface.LOW, Surface.HIGH, Surface.START, Surface.END])),
        sharp=draw(st.sampled_from([Surface.A, Surface.B])),
        angle=float(draw(st.integers(5, 60))),
        land=draw(st.sampled_from([0.0, 1.5, 3.0])),
    )


@st.composite
def holes(draw: Draw, size: BoardSize, span: Span | None = None) -> Hole:
    """Holes through faces and into faces and edges, some countersunk."""
    surface = draw(st.sampled_from([Surface.A, Surface.B, Surface.LOW, Surface.HIGH]))
    diameter = draw(lengths(2, 9)) if not surface.is_face else draw(lengths(2, 35))
    through = surface.is_face and draw(st.booleans())
    most = size.thickness - 1 if surface.is_face else 40.0
    depth = None if through else draw(lengths(1, most))
    room = (depth or size.thickness - 1) * 2
    countersink = 0.0
    if diameter + 2 < min(size.thickness, 2 * diameter, diameter + room):
        countersink = draw(st.sampled_from([0.0, diameter + 2]))
    half = max(diameter, countersink) / 2
    axes = [axis for axis in range(3) if axis != surface.axis]
    first, second = (_middle(draw, axis, half, size, span) for axis in axes)
    return Hole(
        name="hole",
        surface=surface,
        centre=(first, second),
        diameter=diameter,
        depth=depth,
        countersink=countersink,
    )


@st.composite
def hole_rows(draw: Draw, size: BoardSize, span: Span | None = None) -> HoleRow:
    """Rows along the length and across, from either end."""
    run = draw(st.sampled_from([0, 1]))
    low, high = span if span is not None and run == 0 else (0.0, size.along[run])
    diameter = draw(lengths(3, 8))
    pitch = draw(lengths(diameter + 1, 32))
    half = diameter / 2
    most = 1 + math.floor((high - low - diameter) / pitch - 1e-6)
    count = draw(st.integers(1, min(most, 6)))
    extent = (count - 1) * pitch
    place = draw(lengths(low + half, high - half - extent))
    surface = draw(st.sampled_from([Surface.A, Surface.B]))
    return HoleRow(
        name="row",
        surface=surface,
        first=_near(draw, run, place, extent, size),
        line=_middle(draw, 1 - run, half, size, span),
        count=count,
        pitch=pitch,
        diameter=diameter,
        depth=draw(st.sampled_from([None, 3.0, 8.5])),
    )


@st.composite
def cut_outs(draw: Draw, size: BoardSize, span: Span | None = None) -> CutOut:
    """Openings with round corners, and pills."""
    length, width = draw(lengths(12, 90)), draw(lengths(12, 90))
    share = draw(st.sampled_from([0.1, 0.6, 1.0]))
    return CutOut(
        name="opening",
        centre=(
            _middle(draw, 0, length / 2 + 1, size, span),
            _middle(draw, 1, width / 2 + 1, size, span),
        ),
        length=length,
        width=width,
        corner_radius=share * min(length, width) / 2,
    )


@st.composite
def notches(draw: Draw, size: BoardSize, span: Span | None = None) -> Notch:
    """Notches in edges."""
    low, high = span if span is not None else (0.0, size.length)
    length = draw(lengths(5, 100))
    return Notch(
        name="notch",
        edge=draw(st.sampled_from([Surface.LOW, Surface.HIGH])),
        near=_near(draw, 0, draw(lengths(low + 1, high - length - 1)), length, size),
        length=length,
        depth=draw(lengths(2, size.width / 2)),
    )


@st.composite
def biscuit_slots(draw: Draw, size: BoardSize, span: Span | None = None) -> BiscuitSlot:
    """Slots in edges and faces."""
    biscuit = draw(st.sampled_from(list(Biscuit)))
    surface = draw(st.sampled_from([Surface.LOW, Surface.HIGH, Surface.A, Surface.B]))
    if surface.is_face and biscuit.slot_depth > size.thickness - 1:
        surface = Surface.LOW
    depth = biscuit.slot_depth
    half_chord = math.sqrt(50.0**2 - (50.0 - depth) ** 2)
    height_axis = 3 - surface.axis
    return BiscuitSlot(
        name="slot",
        surface=surface,
        centre=_middle(draw, 0, half_chord + 0.1, size, span),
        height=_middle(draw, height_axis, 2.0, size, span),
        biscuit=biscuit,
    )


@st.composite
def flush_trims(draw: Draw, size: BoardSize, span: Span | None = None) -> FlushTrim:
    """Edges and ends left proud."""
    return FlushTrim(
        name="trim",
        edge=draw(st.sampled_from([Surface.LOW, Surface.HIGH, Surface.START, Surface.END])),
        proud=draw(lengths(0.5, 2)),
    )


@st.composite
def perforations(draw: Draw, size: BoardSize, span: Span | None = None) -> Perforation:
    """Fields of holes."""
    diameter = draw(lengths(8, 20))
    return Perforation(
        name="field",
        diameter=diameter,
        pitch=draw(lengths(diameter * 1.2, 45)),
        pattern=draw(st.sampled_from(list(Pattern))),
    )


FeatureStrategy = Callable[..., st.SearchStrategy[Feature]]

# Every class of feature has its strategy here; a test holds that none is missing.
FEATURES: dict[type, FeatureStrategy] = {
    Groove: grooves,
    Rebate: rebates,
    Bevel: bevels,
    Hole: holes,
    HoleRow: hole_rows,
    CutOut: cut_outs,
    Notch: notches,
    BiscuitSlot: biscuit_slots,
    FlushTrim: flush_trims,
    Perforation: perforations,
}
KINDS: tuple[type, ...] = tuple(FEATURES)
# These keep within a part of the length; the others reach along a whole edge or face.
LOCAL = (Groove, Rebate, Hole, HoleRow, CutOut, Notch, BiscuitSlot)


def features(size: BoardSize) -> st.SearchStrategy[Feature]:
    """Any one feature that a board of this size can have."""
    return st.one_of([strategy(size) for strategy in FEATURES.values()])


def _stock(thickness: float) -> Stock:
    return birch_plywood(thickness, thickness)


@st.composite
def boards(draw: Draw, *, apart: bool = False) -> Board:
    """Boards with one feature in each stretch of their length, so that no two meet.

    Args:
        draw: Given by hypothesis.
        apart: Whether each feature's solid leaves the board in one piece and meets no other.
    """
    stock = draw(stocks())
    cells = draw(st.integers(1, 4))
    size = BoardSize(cells * CELL, draw(lengths(140, 420)), stock.measured)
    found: list[Feature] = []
    for cell in range(cells):
        kind = draw(st.sampled_from(LOCAL))
        span = (cell * CELL + CELL_MARGIN, (cell + 1) * CELL - CELL_MARGIN)
        feature = draw(FEATURES[kind](size, span))
        found.append(replace(feature, name=f"{feature.name} {cell + 1}"))
    if not apart and draw(st.booleans()):
        found.append(draw(flush_trims(size)))
    return Board(
        stock=stock,
        length=size.length,
        width=size.width,
        features=tuple(found),
        fence=draw(st.sampled_from([Surface.LOW, Surface.HIGH])),
        stop=draw(st.sampled_from([Surface.START, Surface.END])),
    )


@st.composite
def long_boards(draw: Draw) -> Board:
    """Boards of up to three metres with features in a few places and much plain wood between.

    A groove may run along all of it, and a long row of holes lie in what would be plain.
    """
    stock = draw(st.sampled_from([birch_plywood(18, 17.6), solid_wood("ash", 21.4, 680)]))
    cells = draw(st.integers(8, 15))
    size = BoardSize(cells * CELL, draw(lengths(60, 420)), stock.measured)
    found: list[Feature] = []
    is_row = size.width > 300 and draw(st.booleans())
    # Features stand at one end, at both, or in the middle too.
    for cell in draw(st.sampled_from([(0,), (0, cells - 1), (0, cells // 2, cells - 1)])):
        span = (cell * CELL + CELL_MARGIN, (cell + 1) * CELL - CELL_MARGIN)
        kinds = [Hole] if is_row or size.width < 140 else LOCAL
        feature = draw(FEATURES[draw(st.sampled_from(kinds))](size, span))
        found.append(replace(feature, name=f"{feature.name} {cell + 1}"))
    if is_row:
        count = draw(st.integers(6, math.floor((cells - 2) * CELL / 32)))
        found.append(
            HoleRow(
                name="long row",
                surface=Surface.A,
                first=At(draw(st.sampled_from([Surface.START, Surface.END])), CELL + 17.3),
                line=At(Surface.HIGH, draw(lengths(30, 60))),
                count=count,
                pitch=32.0,
                diameter=5.0,
                depth=9.0,
            )
        )
    if draw(st.booleans()):
        near = At(Surface.LOW, draw(lengths(9, 14)))
        found.append(Groove(name="run", surface=Surface.B, near=near, width=6.3, depth=5.0))
    return Board(stock=stock, length=size.length, width=size.width, features=tuple(found))


def points() -> st.SearchStrategy[UnitPoint]:
    """Places in a unit and round it."""
    metres = lengths(-2000, 3000)
    return st.builds(UnitPoint, metres, metres, metres)


ORIENTATIONS = tuple(
    (along, across) for along in Side for across in Side if along.axis != across.axis
)


def placements() -> st.SearchStrategy[Placement]:
    """Any of the 24 ways a board lies square to the unit, anywhere."""
    return st.builds(
        lambda origin, way: Placement(origin=origin, along=way[0], across=way[1]),
        points(),
        st.sampled_from(ORIENTATIONS),
    )


@st.composite
def parts(draw: Draw) -> Part:
    """Boards in their places."""
    return Part(name="part", role="board", board=draw(boards()), placement=draw(placements()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """A shelf of a recipe: which bay, which hole, and what kind of shelf."""

    bay: int
    hole: int
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """The few numbers from which a good unit follows; prints short when a test fails.

    Attributes:
        nominal: Name of the board's thickness.
        measured: Its measured thickness.
        bay: Clear width that each bay is to have for the nominal thickness.
        inside: Depth from behind the doors to the back.
        height: Overall height.
        dividers: Number of dividers.
        layers: Layers of top and base.
        back: ``rails``, ``panel``, ``grooved panel`` or ``open``.
        doors: Number of doors, 0 for none.
        overlap: Of the doors.
        door_measured: Measured thickness of the door's sheet of 12.
        shelves: Shelves.
        cleat: ``hidden``, ``behind`` or "" for none.
        cleat_layers: Boards of the cleat.
        stand: ``plinth``, ``feet`` or "".
        covering: Thickness of a covering, 0 for none.
        pills: Bays that get an opening for air above and below.
    """

    nominal: float
    measured: float
    bay: float
    inside: float
    height: float
    dividers: int = 0
    layers: int = 1
    back: str = "rails"
    doors: int = 0
    overlap: float = 40.0
    door_measured: float = 11.9
    shelves: tuple[Shelf, ...] = ()
    cleat: str = ""
    cleat_layers: int = 2
    stand: str = ""
    covering: float = 0.0
    pills: tuple[int, ...] = ()

    @property
    def stock(self) -> Stock:
        """The board."""
        return birch_plywood(self.nominal, self.measured)

    @property
    def width(self) -> float:
        """Overall width: it stays when the board is measured again."""
        return round((self.dividers + 1) * self.bay + (self.dividers + 2) * self.nominal, 1)

    @property
    def tracks(self) -> DoorTracks:
        """How the doors run."""
        return DoorTracks(stock=birch_plywood(12, self.door_measured), bar=8)

    @property
    def setback(self) -> float:
        """Room for the doors."""
        return self.tracks.depth if self.doors else 0.0

    @property
    def depth(self) -> float:
        """Overall depth: it stays when the board is measured again."""
        behind = self.cleat_layers * self.nominal if self.cleat == "hidden" else 0.0
        return round(self.setback + self.inside + self.nominal + 12.0 + behind, 1)

    def box(self) -> Carcass:
        """The carcass."""
        behind = self.cleat_layers * self.measured if self.cleat == "hidden" else 0.0
        back: Rails | BackPanel | None = None
        if self.back == "rails":
            back = Rails(stock=self.stock, top=100, bottom=85, behind=behind)
        elif self.back == "panel":
            back = BackPanel(stock=birch_plywood(6.5, 6.3))
        elif self.back == "grooved panel":
            back = BackPanel(stock=birch_plywood(6.5, 6.3), inset=11.5)
        return carcass(
            width=self.width,
            height=self.height,
            depth=self.depth,
            stock=self.stock,
            top_layers=self.layers,
            base_layers=self.layers,
            dividers=self.dividers,
            setback=self.setback,
            back=back,
            covering=self.covering,
        )

    def components(self) -> tuple[Component, ...]:
        """What the unit is made of, carcass first."""
        box = self.box()
        pins = pin_rows(box)
        found = [box.component, pins.component]
        if self.doors:
            found.append(sliding_doors(box, self.tracks, count=self.doors, overlap=self.overlap))
        found += [self._shelf(pins, shelf) for shelf in self.shelves]
        if self.cleat:
            kind = CleatKind.HIDDEN if self.cleat == "hidden" else CleatKind.BEHIND
            found.append(
                hanging_cleat(
                    box,
                    stock=self.stock,
                    layers=self.cleat_layers,
                    height=95,
                    kind=kind,
                    screws=4,
                    wall_screws=3 if self.width > 400 else 2,
                )
            )
        if self.stand == "plinth":
            found.append(plinth(box, stock=self.stock, height=87, setback=42))
        if self.stand == "feet":
            found.append(feet(box, stock=solid_wood("ash", 41, 690), height=41))
        if self.covering:
            found.append(top_covering(box, rubber_sheet(self.covering)))
        found += [p for number in self.pills for p in self._pills(box, number)]
        return tuple(found)

    def _shelf(self, pins: Pins, shelf: Shelf) -> Component:
        name = f"{shelf.kind} {shelf.bay} {shelf.hole}"
        bay = pins.bay(shelf.bay)
        if shelf.kind == "frame shelf":
            panel = FramePanel(stock=steel_sheet(1.5), diameter=5, pitch=8)
            return frame_shelf(bay, hole=shelf.hole, stock=self.stock, panel=panel, name=name)
        lipping = {"front": solid_wood("ash", 8, 690)} if shelf.kind == "lipped shelf" else None
        return board_shelf(bay, hole=shelf.hole, stock=self.stock, name=name, lipping=lipping)

    def _pills(self, box: Carcass, number: int) -> tuple[Component, ...]:
        space = box.bay(number).space
        x, y = (space.low.x + space.high.x) / 2, (space.low.y + space.high.y) / 2
        return tuple(
            pill(box, board, name=f"air, {board} {number}", length=91, width=34, left=x, front=y)
            for board in ("top", "base")
        )

    def design(self) -> Design:
        """The design."""
        return Design("generated unit", self.components(), is_hung=bool(self.cleat))


SHELF_KINDS = ("frame shelf", "shelf", "lipped shelf")


@st.composite
def recipes(draw: Draw, *, plain: bool = False) -> Recipe:
    """Good units, hung and standing, with all that they may have.

    Args:
        draw: Given by hypothesis.
        plain: Without doors, shelves and openings: fast to check.
    """
    nominal = draw(st.sampled_from([18.0, 21.0]))
    dividers = draw(st.integers(0, 4))
    most = 520.0 if dividers < 2 else 330.0
    bay = draw(lengths(260, most))
    # A door narrower than this has no room for its pull.
    kinds = [count for count in (2, 3, 4) if (dividers + 1) * bay / count > 170]
    doors = 0 if plain or not kinds else draw(st.sampled_from([0, *kinds]))
    height = draw(lengths(480, 820))
    layers = 2 if doors else draw(st.integers(1, 2))
    hole_count = 1 + math.floor((height - 2 * layers * nominal - 6 - 2 * 96) / 32)
    cleat = draw(st.sampled_from(["hidden", "behind", ""]))
    back = "rails" if cleat else draw(st.sampled_from(["rails", "panel", "grooved panel", "open"]))
    shelves: list[Shelf] = []
    if not plain:
        for number in draw(st.lists(st.integers(1, dividers + 1), max_size=2, unique=True)):
            kind = draw(st.sampled_from(SHELF_KINDS))
            shelves.append(Shelf(bay=number, hole=draw(st.integers(1, hole_count)), kind=kind))
    pills = () if plain else tuple(draw(st.lists(st.integers(1, dividers + 1), max_size=1)))
    return Recipe(
        nominal=nominal,
        measured=draw(lengths(nominal - 0.9, nominal + 0.1)),
        bay=bay,
        inside=draw(lengths(195, 300)),
        height=height,
        dividers=dividers,
        layers=layers,
        back=back,
        doors=doors,
        overlap=draw(lengths(25, 45)),
        door_measured=draw(lengths(11.5, 12.1)),
        shelves=tuple(shelves),
        cleat=cleat,
        cleat_layers=draw(st.integers(1, 2)),
        stand="" if cleat else draw(st.sampled_from(["plinth", "feet", ""])),
        covering=draw(st.sampled_from([0.0, 2.5, 3.0])),
        pills=pills,
    )


MOST_PARTS = 60
"""No unit of ``wide_recipes`` has more parts."""


@st.composite
def wide_recipes(draw: Draw, low: float = 300.0, high: float = 2400.0) -> Recipe:
    """Units from ``low`` to ``high`` mm wide with up to sixty parts, for whoever draws them all."""
    base = draw(recipes())
    width = draw(lengths(low, high))
    # Bays that a hand reaches into and a shelf does not sag in.
    bays = [n for n in range(1, 8) if 260 <= width / n - base.nominal <= 900]
    count = draw(st.sampled_from(bays or [1]))
    bay = round((width - (count + 1) * base.nominal) / count, 1)
    doors = base.doors if count * bay / max(base.doors, 1) > 170 else 0
    hole_count = 1 + math.floor((base.height - 2 * base.layers * base.nominal - 6 - 2 * 96) / 32)
    spots = [(number, hole) for number in range(1, count + 1) for hole in (1, hole_count)]
    chosen = draw(st.lists(st.sampled_from(spots), max_size=8, unique=True))
    shelves = tuple(
        Shelf(bay=number, hole=hole, kind=draw(st.sampled_from(SHELF_KINDS)))
        for number, hole in sorted(chosen)
    )
    return replace(
        base,
        bay=bay,
        dividers=count - 1,
        doors=doors,
        shelves=shelves,
        pills=tuple(draw(st.lists(st.integers(1, count), max_size=3, unique=True))),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bad:
    """An input that is wrong in exactly one way.

    Attributes:
        name: What is wrong.
        make: Makes it; must raise.
        error: The class of the project's own error.
        part: Part or feature that the error must name.
        value: The value that the error must carry.
        limit: What the error must say would be right.
        says: Pieces of text that the message must have beside the part's name.
    """

    name: str
    make: Callable[[], object]
    error: type[CabinetError]
    part: str
    value: object
    limit: object
    says: tuple[str, ...]


BIRCH = birch_plywood(18, 17.6)
THIN = birch_plywood(12, 11.8)
TRACKS = DoorTracks(stock=THIN, bar=8)
SIZE = BoardSize(613.0, 287.0, 17.6)


def small(
    *,
    width: float = 813.0,
    height: float = 587.0,
    depth: float = 303.0,
    layers: int = 1,
    dividers: int = 0,
    behind: float = 0.0,
    covering: float = 0.0,
) -> Carcass:
    """A small carcass with rails, for tests that spoil one number."""
    return carcass(
        width=width,
        height=height,
        depth=depth,
        stock=BIRCH,
        top_layers=layers,
        base_layers=layers,
        dividers=dividers,
        back=Rails(stock=BIRCH, top=100, bottom=85, behind=behind),
        covering=covering,
    )


def a_part(*made: Feature, name: str = "left side") -> Part:
    """A part of 613 by 287 by 17.6 with features."""
    plain = board_part(
        name=name,
        role="side",
        stock=BIRCH,
        box_low=UnitPoint(0, 0, 0),
        length=(Side.TOP, SIZE.length),
        width=(Side.FRONT, SIZE.width),
        fence=Side.FRONT,
        stop=Side.BOTTOM,
    )
    return plain.with_features(*made)


def a_groove(*, depth: float = 6.0, width: float = 11.8, near: float = 31.0) -> Groove:
    """A groove along a board."""
    return Groove(
        name="groove for back",
        surface=Surface.A,
        near=At(Surface.LOW, near),
        width=width,
        depth=depth,
    )


def a_hole(*, x: float = 113.0, countersink: float = 0.0, depth: float | None = 9.5) -> Hole:
    """A hole of 7 in face A."""
    return Hole(
        name="bore",
        surface=Surface.A,
        centre=(At(Surface.START, x), At(Surface.LOW, 71.0)),
        diameter=7.0,
        depth=depth,
        countersink=countersink,
    )


def a_row(*, count: int = 5, pitch: float = 32.0) -> HoleRow:
    """A row along the length."""
    return HoleRow(
        name="pin row",
        surface=Surface.A,
        first=At(Surface.START, 96.0),
        line=At(Surface.LOW, 37.0),
        count=count,
        pitch=pitch,
        diameter=5.0,
        depth=12.0,
    )


def _bad_sizes() -> tuple[Bad, ...]:
    found = []
    for key in ("width", "height", "depth"):
        for value, limit, text in (
            (math.nan, "finite", "nan"),
            (math.inf, "finite", "inf"),
            (True, "finite", "True"),
            ("813", "finite", "'813'"),
            (0, 0.0, "0 mm"),
            (-813.0, 0.0, "-813 mm"),
        ):
            found.append(
                Bad(
                    name=f"carcass, {key} {value}",
                    make=partial(small, **{key: value}),  # type: ignore[arg-type]
                    error=SizeError,
                    part="carcass",
                    value=value,
                    limit=limit,
                    says=(key, text),
                )
            )
    return tuple(found)


def _doubled_design() -> Design:
    box = small()
    again = replace(box.component.parts[0])
    return Design("twice", (box.component, Component(parts=(again,))))


BAD: tuple[Bad, ...] = (
    *_bad_sizes(),
    Bad(
        name="a measured thickness far from its name",
        make=lambda: birch_plywood(18, 12.1),
        error=SizeError,
        part="birch plywood",
        value=12.1,
        limit=(13.5, 22.5),
        says=("measured thickness", "12.1 mm", "13.5", "22.5", "nominal 18"),
    ),
    Bad(
        name="a groove deeper than its board",
        make=lambda: a_part(a_groove(depth=18.4)),
        error=SizeError,
        part="left side, groove for back",
        value=18.4,
        limit=(0.0, 16.6),
        says=("depth", "18.4 mm", "between 0 and 16.6 mm", "thickness 17.6"),
    ),
    Bad(
        name="a groove past the edge",
        make=lambda: a_part(a_groove(near=281.0)),
        error=SizeError,
        part="left side, groove for back",
        value=292.8,
        limit=(0.0, 287.0),
        says=("far wall", "292.8 mm", "287 mm"),
    ),
    Bad(
        name="a groove that ends before it begins",
        make=lambda: a_part(
            replace(a_groove(), start=At(Surface.START, 400.0), end=At(Surface.START, 400.0))
        ),
        error=SizeError,
        part="left side, groove for back",
        value=0.0,
        limit=0.0,
        says=("400", "longer than 0 mm"),
    ),
    Bad(
        name="round ends that leave no run between them",
        make=lambda: a_part(
            replace(
                a_groove(),
                start=At(Surface.START, 100.0),
                end=At(Surface.START, 111.0),
                end_radius=5.9,
            )
        ),
        error=SizeError,
        part="left side, groove for back",
        value=11.0,
        limit=11.8,
        says=("100 to 111 mm", "longer than 11.8 mm"),
    ),
    Bad(
        name="a hole that breaks out of the end",
        make=lambda: a_part(a_hole(x=2.5)),
        error=SizeError,
        part="left side, bore",
        value=2.5,
        limit=(3.5, 609.5),
        says=("centre from start end", "2.5 mm", "between 3.5 and 609.5 mm"),
    ),
    Bad(
        name="a countersink deeper than its hole",
        make=lambda: a_part(a_hole(countersink=28.0)),
        error=SizeError,
        part="left side, bore",
        value=10.5,
        limit=(0.0, 9.5),
        says=("countersink", "10.5 mm", "9.5 mm"),
    ),
    Bad(
        name="more holes than fit",
        make=lambda: a_part(a_row(count=18)),
        error=SizeError,
        part="left side, pin row",
        value=18,
        limit=(1, 17),
        says=("count", "18", "from 1 to 17", "pitch 32"),
    ),
    Bad(
        name="holes that run into each other",
        make=lambda: a_row(pitch=5.5),
        error=SizeError,
        part="pin row",
        value=5.5,
        limit=(6.0, math.inf),
        says=("pitch", "5.5 mm", "at least 6 mm"),
    ),
    Bad(
        name="a face trimmed flush",
        make=lambda: FlushTrim(name="flush", edge=Surface.A, proud=1.0),
        error=SizeError,
        part="flush",
        value="face A",
        limit="an edge or an end",
        says=("face A", "edge or an end"),
    ),
    Bad(
        name="two features of one name",
        make=lambda: a_part(a_groove(), a_groove(near=150.0)),
        error=SizeError,
        part="left side",
        value="groove for back",
        limit="distinct names",
        says=("two features", "'groove for back'"),
    ),
    Bad(
        name="no layer",
        make=lambda: board_part(
            name="top",
            role="top",
            stock=BIRCH,
            box_low=UnitPoint(0, 0, 0),
            length=(Side.RIGHT, 613.0),
            width=(Side.BACK, 287.0),
            layers=0,
            fence=Side.FRONT,
            stop=Side.LEFT,
        ),
        error=SizeError,
        part="top",
        value=0,
        limit=(1, 4),
        says=("layers", "0", "from 1 to 4"),
    ),
    Bad(
        name="a fence at an end",
        make=lambda: board_part(
            name="top",
            role="top",
            stock=BIRCH,
            box_low=UnitPoint(0, 0, 0),
            length=(Side.RIGHT, 613.0),
            width=(Side.BACK, 287.0),
            fence=Side.LEFT,
            stop=Side.LEFT,
        ),
        error=SizeError,
        part="top",
        value=("start end", "start end"),
        limit="an edge and an end",
        says=("fence", "stop"),
    ),
    Bad(
        name="more pin holes than fit",
        make=lambda: pin_rows(small(), count=16),
        error=SizeError,
        part="pin rows",
        value=16,
        limit=(1, 15),
        says=("count", "16", "from 1 to 15", "pitch 32"),
    ),
    Bad(
        name="a pitch of nothing",
        make=lambda: pin_rows(small(), pitch=0.0),
        error=SizeError,
        part="pin rows",
        value=0.0,
        limit=0.0,
        says=("pitch", "0 mm", "greater than 0"),
    ),
    Bad(
        name="a hole number that does not exist",
        make=lambda: board_shelf(pin_rows(small()).bay(1), hole=13, stock=BIRCH, name="shelf"),
        error=SizeError,
        part="pin rows, bay",
        value=13,
        limit=(1, 12),
        says=("hole", "13", "from 1 to 12"),
    ),
    Bad(
        name="a shelf wider than its bay",
        make=lambda: board_shelf(
            pin_rows(small()).bay(1), hole=3, stock=BIRCH, name="book shelf", length=781.0
        ),
        error=SizeError,
        part="book shelf",
        value=781.0,
        limit=(100.0, 776.8),
        says=("length", "781 mm", "776.8 mm", "bay"),
    ),
    Bad(
        name="a shelf that misses its back pins",
        make=lambda: board_shelf(
            pin_rows(small()).bay(1), hole=3, stock=BIRCH, name="book shelf", depth=240.0
        ),
        error=DesignError,
        part="book shelf",
        value=240.0,
        limit=251.4,
        says=("depth 240 mm", "251.4 mm"),
    ),
    Bad(
        name="a frame shelf without room for its panel",
        make=lambda: frame_shelf(
            pin_rows(small()).bay(1),
            hole=3,
            stock=BIRCH,
            panel=FramePanel(stock=steel_sheet(1.5), diameter=5, pitch=8),
            name="grille shelf",
            member=125.0,
        ),
        error=SizeError,
        part="grille shelf",
        value=125.0,
        limit=(60.0, 121.7),
        says=("member", "125 mm", "121.7 mm"),
    ),
    Bad(
        name="a lipping on an edge of no such name",
        make=lambda: board_shelf(
            pin_rows(small()).bay(1),
            hole=3,
            stock=BIRCH,
            name="book shelf",
            lipping={"nose": solid_wood("ash", 8, 690)},
        ),
        error=UnknownNameError,
        part="book shelf",
        value="nose",
        limit=("back", "front", "left", "right"),
        says=("edge", "'nose'", "back, front, left, right"),
    ),
    Bad(
        name="a bay that does not exist",
        make=lambda: small(dividers=1).bay(3),
        error=UnknownNameError,
        part="carcass",
        value=3,
        limit=(1, 2),
        says=("bay 3", "1 to 2"),
    ),
    Bad(
        name="a bay told by a name",
        make=lambda: small(dividers=1).bay("left"),  # type: ignore[arg-type]
        error=UnknownNameError,
        part="carcass",
        value="left",
        limit=(1, 2),
        says=("bay 'left'", "1 to 2"),
    ),
    Bad(
        name="a bay without pins",
        make=lambda: pin_rows(small(dividers=1)).bay(0),
        error=SizeError,
        part="pin rows",
        value=0,
        limit=(1, 2),
        says=("bay", "0", "from 1 to 2"),
    ),
    Bad(
        name="no room in the bays",
        make=lambda: small(dividers=10),
        error=DesignError,
        part="carcass",
        value=813.0,
        limit=871.2,
        says=("width 813 mm", "54.7 mm", "60 mm", "871.2 mm"),
    ),
    Bad(
        name="no room between base and top",
        make=lambda: small(height=94.0),
        error=DesignError,
        part="carcass",
        value=94.0,
        limit=95.2,
        says=("height 94 mm", "58.8 mm", "95.2 mm"),
    ),
    Bad(
        name="rails higher than the unit",
        make=lambda: small(height=219.0),
        error=DesignError,
        part="back rails",
        value=185.0,
        limit=183.8,
        says=("100 and 85 mm", "183.8 mm"),
    ),
    Bad(
        name="doors that cannot overlap",
        make=lambda: sliding_doors(small(layers=2), TRACKS, overlap=841.0),
        error=SizeError,
        part="sliding doors",
        value=841.0,
        limit=(10.0, 404.7),
        says=("overlap", "841 mm"),
    ),
    Bad(
        name="an overlap that is no number",
        make=lambda: sliding_doors(small(layers=2), TRACKS, overlap=math.nan),
        error=SizeError,
        part="sliding doors",
        value=math.nan,
        limit="finite",
        says=("overlap", "nan"),
    ),
    Bad(
        name="a finger pull that catches a finger",
        make=lambda: sliding_doors(small(layers=2), TRACKS, pull=16.0),
        error=SizeError,
        part="sliding doors",
        value=16.0,
        limit=(25.0, 60.0),
        says=("pull", "16 mm", "between 25 and 60 mm"),
    ),
    Bad(
        name="door grooves in a single top",
        make=lambda: sliding_doors(small(layers=1), TRACKS),
        error=DesignError,
        part="top",
        value=11.0,
        limit=8.8,
        says=("11 mm deep", "17.6 mm", "8.8 mm", "double the top"),
    ),
    Bad(
        name="a door that cannot be swung in",
        make=lambda: sliding_doors(
            carcass(
                width=813,
                height=231,
                depth=303,
                stock=BIRCH,
                top_layers=2,
                base_layers=2,
            ),
            replace(TRACKS, play=0.5),
        ),
        error=DesignError,
        part="sliding doors",
        value=0.5,
        limit=1.29,
        says=("track 2", "play of at least"),
    ),
    Bad(
        name="a bar too thick for its door",
        make=lambda: DoorTracks(stock=THIN, bar=11.0),
        error=SizeError,
        part="door tracks",
        value=11.0,
        limit=(4.0, 10.8),
        says=("bar", "11 mm", "between 4 and 10.8 mm", "11.8"),
    ),
    Bad(
        name="a bar that leaves a thin wall between grooves",
        make=lambda: DoorTracks(stock=THIN, bar=9.3),
        error=DesignError,
        part="door tracks",
        value=9.3,
        limit=8.8,
        says=("9.3 mm", "5.5 mm", "8.8 mm"),
    ),
    Bad(
        name="a cleat taller than the unit",
        make=lambda: hanging_cleat(small(behind=35.2), stock=BIRCH, height=593.0),
        error=SizeError,
        part="cleat",
        value=593.0,
        limit=(52.8, 254.3),
        says=("height", "593 mm", "between 52.8 and 254.3 mm"),
    ),
    Bad(
        name="a cleat without rails",
        make=lambda: hanging_cleat(
            carcass(width=813, height=587, depth=303, stock=BIRCH), stock=BIRCH
        ),
        error=DesignError,
        part="cleat",
        value=None,
        limit="back rails",
        says=("rails",),
    ),
    Bad(
        name="another space kept behind than the cleat is thick",
        make=lambda: hanging_cleat(small(behind=30.0), stock=BIRCH),
        error=DesignError,
        part="cleat",
        value=30.0,
        limit=35.2,
        says=("30 mm", "35.2 mm"),
    ),
    Bad(
        name="a cleat behind a unit that keeps space behind",
        make=lambda: hanging_cleat(small(behind=35.2), stock=BIRCH, kind=CleatKind.BEHIND),
        error=DesignError,
        part="cleat",
        value=35.2,
        limit=0.0,
        says=("35.2 mm", "behind=0"),
    ),
    Bad(
        name="a cleat of no board",
        make=lambda: hanging_cleat(small(behind=35.2), stock=BIRCH, layers=0),
        error=SizeError,
        part="cleat",
        value=0,
        limit=(1, 4),
        says=("layers", "0", "from 1 to 4"),
    ),
    Bad(
        name="a cleat too short for its wall screws",
        make=lambda: hanging_cleat(
            small(width=287.0, behind=35.2), stock=BIRCH, wall_screws=4, screws=3
        ),
        error=SizeError,
        part="cleat",
        value=4,
        limit=(2, 2),
        says=("wall screws", "4", "40 mm apart"),
    ),
    Bad(
        name="more screws than fit on the rail",
        make=lambda: Design(
            "narrow",
            (
                small(width=157.0, behind=35.2).component,
                hanging_cleat(
                    small(width=287.0, behind=35.2), stock=BIRCH, wall_screws=2, screws=3
                ),
            ),
        ).resolve(),
        error=DesignError,
        part="top rail",
        value=3,
        limit=1,
        says=("cleat, unit half", "3 screws", "121.3 mm long", "at most 1"),
    ),
    Bad(
        name="a screw that does not reach through",
        make=lambda: Design(
            "short screw",
            (
                small(behind=35.2).component,
                Component(
                    joints=(
                        Screwed(
                            through="top rail",
                            into="left side",
                            screw=Screw(diameter=4.5, length=21.0, head_diameter=9.0),
                            count=2,
                            inset=21.0,
                        ),
                    )
                ),
            ),
        ).resolve(),
        error=SizeError,
        part="top rail to left side",
        value=21.0,
        limit=(787.8, math.inf),
        says=("screw length", "21 mm", "787.8 mm"),
    ),
    Bad(
        name="a covering of another thickness",
        make=lambda: top_covering(small(covering=3.0), rubber_sheet(2.5)),
        error=DesignError,
        part="covering",
        value=3.0,
        limit=2.5,
        says=("2.5 mm", "3 mm", "covering=2.5"),
    ),
    Bad(
        name="an unknown edge",
        make=lambda: pill(small(), "top", name="air", length=91, width=30, left=211, bak=90),
        error=UnknownNameError,
        part="air",
        value="bak",
        limit=("back", "front", "left", "right"),
        says=("'bak'", "back, front, left, right"),
    ),
    Bad(
        name="a centre told twice along one axis",
        make=lambda: pill(small(), "top", name="air", length=91, width=30, left=211, right=90),
        error=UnknownNameError,
        part="air",
        value=("left", "right"),
        limit=("left or right", "front or back"),
        says=("left, right", "front and back"),
    ),
    Bad(
        name="an opening in a board that is not there",
        make=lambda: pill(small(), "lid", name="air", length=91, width=30, left=211, back=90),
        error=UnknownNameError,
        part="air",
        value="lid",
        limit=("base", "top"),
        says=("'lid'", "base, top"),
    ),
    Bad(
        name="an opening outside the unit",
        make=lambda: pill(small(), "top", name="air", length=91, width=30, left=911, back=90),
        error=SizeError,
        part="air",
        value=911.0,
        limit=(0.0, 813.0),
        says=("left", "911 mm", "813 mm"),
    ),
    Bad(
        name="an opening that breaks out of the top",
        make=lambda: Design(
            "open",
            (
                small().component,
                pill(small(), "top", name="air", length=91, width=30, left=211, back=11),
            ),
        ).resolve(),
        error=SizeError,
        part="top, air",
        value=11.0,
        limit=(15.0, 288.0),
        says=("11 mm", "between 15 and 288 mm"),
    ),
    Bad(
        name="feet of another height than their wood",
        make=lambda: feet(small(), stock=solid_wood("ash", 41, 690), height=38.0),
        error=SizeError,
        part="feet",
        value=38.0,
        limit=(41.0, 41.0),
        says=("height", "38 mm", "41 mm"),
    ),
    Bad(
        name="a plinth set back too far",
        make=lambda: plinth(small(), stock=BIRCH, height=87.0, setback=211.0),
        error=SizeError,
        part="plinth",
        value=211.0,
        limit=(0.0, 151.5),
        says=("setback", "211 mm", "151.5 mm"),
    ),
    Bad(
        name="a panel let in deeper than the sides are thick",
        make=lambda: Design(
            "deep",
            (
                carcass(
                    width=813,
                    height=587,
                    depth=303,
                    stock=BIRCH,
                    back=BackPanel(stock=birch_plywood(6.5, 6.3), inset=11.0, let_in=17.1),
                ).component,
            ),
        ).resolve(),
        error=SizeError,
        part="left side, housing for back",
        value=17.1,
        limit=(0.0, 16.6),
        says=("depth", "17.1 mm", "16.6 mm"),
    ),
    Bad(
        name="no parts",
        make=lambda: Design("empty", ()),
        error=DesignError,
        part="empty",
        value=None,
        limit=None,
        says=("no parts", "carcass"),
    ),
    Bad(
        name="a carcass in place of its component",
        make=lambda: Design("mixed", (small(),)),  # type: ignore[arg-type]
        error=DesignError,
        part="mixed",
        value="Carcass",
        limit="Component",
        says=("component 1", "Carcass", ".component"),
    ),
    Bad(
        name="two parts of one name",
        make=_doubled_design,
        error=DesignError,
        part="left side",
        value="left side",
        limit="distinct names",
        says=("two parts", "'left side'"),
    ),
    Bad(
        name="a joint with a part that is not there",
        make=lambda: Design(
            "loose",
            (small().component, Component(joints=(Butt(one="top", other="middle shelf"),))),
        ).resolve(),
        error=UnknownNameError,
        part="middle shelf",
        value="middle shelf",
        limit=("base", "bottom rail", "left side", "right side", "top", "top rail"),
        says=("'middle shelf'", "left side"),
    ),
    Bad(
        name="a housing in a board that is not reached",
        make=lambda: Design(
            "apart",
            (
                small().component,
                Component(joints=(Housing(board="top rail", into="base"),)),
            ),
        ).resolve(),
        error=DesignError,
        part="top rail",
        value="777.8, 17.6, -451.8",
        limit="an overlap on every axis",
        says=("base", "-451.8"),
    ),
    Bad(
        name="a housing for a board that lies flat",
        make=lambda: Design(
            "flat",
            (
                small().component,
                Component(joints=(Housing(board="left side", into="right side"),)),
            ),
        ).resolve(),
        error=DesignError,
        part="left side",
        value="left",
        limit="edge or end first",
        says=("right side", "lies flat"),
    ),
    Bad(
        name="a move that goes nowhere",
        make=lambda: Move(
            name="door slides",
            motion=Motion.SLIDE,
            parts=("door",),
            side=Side.RIGHT,
            low=0.0,
            high=0.0,
        ),
        error=DesignError,
        part="door slides",
        value=(0.0, 0.0),
        limit=0.0,
        says=("0 to 0 mm",),
    ),
    Bad(
        name="a name with a line break",
        make=lambda: Design("two\nlines", (small().component,)),
        error=SizeError,
        part="design",
        value="two\nlines",
        limit="one printable line",
        says=("name", "one line"),
    ),
)
