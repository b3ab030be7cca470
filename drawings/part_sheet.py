"""The sheet from which one part is made: views, dimensions, notes, where it is in the unit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

from cabinet.board import Surface
from cabinet.errors import DesignError
from cabinet.features import BiscuitSlot, Groove, Rebate
from cabinet.frame import UnitBox
from cabinet.making.ripped import RippedPair
from cabinet.part import Board, Part
from cabinet.record import Record
from cabinet.stock import Grain, Hatching
from cabinet.wording import capital, listed
from drawings.block import Block
from drawings.board_ink import (
    NARROW_ROOM,
    WIDE_ROOM,
    BoardInk,
    callout_texts,
    thickness_text,
)
from drawings.clutter import NoRoom
from drawings.composition import (
    Composition,
    aligned,
    block_room,
    composed,
    is_too_large,
    notes_width,
)
from drawings.detail_ink import DetailInk, detail_title
from drawings.dimension import BoardDimensions, Dimension
from drawings.dimensioning import SurfaceNames, board_dimensions
from drawings.interruption import BREAK_ROOM, Interruption
from drawings.key import key_marks
from drawings.marks import Mark, PaperPoint
from drawings.notes import notes_marks
from drawings.number import dimension_text
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.plain_stretch import cuts_a_row, interruptions
from drawings.sheet import Sheet, SheetView, slug
from drawings.style import DETAIL_STYLE, Style
from drawings.title_block import TitleBlock, title_block_box, title_block_marks
from drawings.views import SCALES, BoardView, DetailView, Place, ViewPlan, plan_views, scale_text

# Views smaller than this, mm on paper, would be drawn larger if the sheet allows.
_LEAST_OUTLINE = 22.0
# At this scale and below a long board is hard to read; an interrupted view need not be larger
# than the other (common practice, no source).
_SMALL_SCALE, _AMPLE_SCALE = 0.1, 0.5
# For smaller paper alone only a long board is broken, and only if much of it is left out: so
# many times longer than wide, and so much of its length.
_LONG, _LEAST_SHARE = 4.0, 0.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What a part's sheet tells about the rest of the unit.

    Attributes:
        mates: Parts that go into this one's grooves and rebates, by name.
        sheets: Number of the sheet on which a part is drawn, by name.
        boxes: Every part's box in the unit, for the key; empty for no key.
        alike: Names of all parts made from this sheet; the part's own if empty.
        remarks: Further notes, such as which sheet shows the other hand.
        strip: The pair of which it is one half, if both are ripped out of one strip.
        item_name: What it is called on all lists; the part's own name if empty.
    """

    mates: Mapping[str, Part] = field(default_factory=dict)
    sheets: Mapping[str, int] = field(default_factory=dict)
    boxes: Mapping[str, UnitBox] = field(default_factory=dict)
    alike: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    strip: RippedPair | None = None
    item_name: str = ""


def surface_names(part: Part) -> dict[Surface, str]:
    """What the maker calls each surface of a part in the finished unit."""
    return {surface: part.surface_name(surface) for surface in Surface}


def part_sheet(
    part: Part,
    *,
    block: TitleBlock,
    around: Surroundings | None = None,
    quantity: int = 1,
    sizes: Sequence[SheetSize] = (SheetSize.A4, SheetSize.A3),
    larger: Sequence[SheetSize] = (SheetSize.A2, SheetSize.A1),
) -> Sheet:
    """One part's sheet: on the smallest paper that takes it at the largest scale.

    Args:
        part: The part.
        block: The title block; title, scale, material and pieces are filled in here.
        around: What is told about the rest of the unit.
        quantity: How many pieces are made.
        sizes: Papers that may be used, smallest first.
        larger: Papers for a part that fits on none of those at any scale.

    Raises:
        DesignError: the part fits on none of them at any scale of ISO 5455.
    """
    around = around or Surroundings()
    drawer = _PartSheet(part, block, around, quantity)
    setting = drawer.setting(tuple(sizes), tuple(larger))
    if setting is not None:
        return drawer.interrupted(setting.interruption, setting.scale).sheet(setting)
    raise DesignError(
        f"{part.name}: it fits on no sheet of {', '.join(s.name for s in (*sizes, *larger))} "
        "at 1:20",
        part=part.name,
    )


@dataclass(frozen=True, slots=True)
class _Setting:
    """All that a part's sheet says of itself, set out on a paper at a scale."""

    size: SheetSize
    scale: float
    found: Composition
    interruption: Interruption | None = None


@dataclass(frozen=True, slots=True)
class _Kept:
    """A part's drawer that is equal to another if both set out the same sheet.

    Where the part is in the unit, and what the other parts are like, shows only in the title
    block, in the notes and in the key, so a part whose neighbours change is not set out again.
    """

    board: Board
    names: tuple[tuple[Surface, str], ...]
    notes: tuple[str, ...]
    has_key: bool
    drawer: _PartSheet = field(compare=False, repr=False)


@lru_cache(maxsize=128)
def _set_out(
    kept: _Kept, sizes: tuple[SheetSize, ...], larger: tuple[SheetSize, ...]
) -> _Setting | None:
    drawer = kept.drawer
    plain = _plain(drawer, sizes, larger)
    if plain is not None and plain.interruption is not None:
        return plain
    return _easier_to_read(drawer, plain, sizes) or plain


def _plain(
    drawer: _PartSheet, sizes: tuple[SheetSize, ...], larger: tuple[SheetSize, ...]
) -> _Setting | None:
    """The largest scale on the smallest paper that takes all of the board, or nearly all.

    A long board that asks for larger paper is broken once instead, if much is left out.
    """
    for papers in (sizes, larger):
        for scale in SCALES:
            for number, size in enumerate(papers):
                if papers is sizes and _is_worth_a_break(drawer, size, scale):
                    for small in sizes[:number]:
                        broken = _broken(drawer, small, scale, _LEAST_SHARE)
                        if broken is not None:
                            return broken
                found = drawer.tried(size, scale)
                if found is not None:
                    return _Setting(size, scale, found)
    return None


def _is_worth_a_break(drawer: _PartSheet, size: SheetSize, scale: float) -> bool:
    """Whether a board is long and may stand on a paper at a scale at which it reads well."""
    long, wide = sorted((drawer.board.length, drawer.board.width), reverse=True)
    is_long = long >= _LONG * wide and not _is_poor(drawer.board, scale)
    return is_long and drawer.may_stand(size, scale)


def _easier_to_read(
    drawer: _PartSheet, plain: _Setting | None, sizes: tuple[SheetSize, ...]
) -> _Setting | None:
    """The board with plain stretches left out, if all of it is hard to read.

    What is hard to read is drawn larger, but no larger than is needed, or on smaller paper. One
    break is worth that and several are not, if all of it stands small but not tiny on ordinary
    paper.
    """
    board, fits = drawer.board, plain is not None and plain.size in sizes
    if plain is not None and fits and not _is_poor(board, plain.scale):
        return None
    most = 1 if plain is not None and fits and plain.scale > _SMALL_SCALE else None
    least = 0.0 if plain is None else plain.scale
    larger = [s for s in SCALES if least < s <= _AMPLE_SCALE]
    enough = [s for s in reversed(larger) if not _is_poor(board, s)]
    tries = [
        (size, scale, 0.0)
        for scale in (*enough, *(s for s in larger if s not in enough))
        for size in sizes
    ]
    if plain is not None:
        small = sizes[: sizes.index(plain.size)] if fits else sizes
        tries += [(size, plain.scale, _LEAST_SHARE if fits else 0.0) for size in small]
    for size, scale, share in tries:
        found = _broken(drawer, size, scale, share, most)
        if found is not None:
            return found
    return None


def _broken(
    drawer: _PartSheet, size: SheetSize, scale: float, least: float, most: int | None = 1
) -> _Setting | None:
    """A board with plain stretches left out.

    Args:
        drawer: The board's.
        size: On which paper.
        scale: At which scale.
        least: The least share of its length that must be left out to be worth it.
        most: How many breaks it may have; None for any number.
    """
    for interruption in drawer.interruptions(scale):
        if interruption.left_out < least * drawer.board.size.along[interruption.axis]:
            continue
        if most is not None and len(interruption.spans) > most:
            continue
        shorter = drawer.interrupted(interruption, scale)
        found = shorter.tried(size, scale) if shorter.has_clear_rings(scale) else None
        if found is not None:
            return _Setting(size, scale, found, interruption)
    return None


def _is_poor(board: Board, scale: float) -> bool:
    """Whether a board is hard to read at a scale."""
    return scale <= _SMALL_SCALE or min(board.length, board.width) * scale < _LEAST_OUTLINE


class _PartSheet:
    """One part about to be drawn: its dimensions, views and notes, before paper and scale."""

    def __init__(
        self,
        part: Part,
        block: TitleBlock,
        around: Surroundings,
        quantity: int,
        *,
        interruption: Interruption | None = None,
        scale: float = 1.0,
        dimensions: BoardDimensions | None = None,
    ) -> None:
        self.part = part
        self.board: Board = part.board
        self.block = block
        self.around = around
        self.quantity = quantity
        self.names: SurfaceNames = surface_names(part)
        self.dimensions = dimensions or board_dimensions(self.board, self.names)
        self.plan: ViewPlan = plan_views(self.board, self.dimensions, interruption, scale=scale)
        self._drawn_details: dict[tuple[str, float], Block] = {}

    def interrupted(self, interruption: Interruption | None, scale: float) -> _PartSheet:
        """The same with plain stretches left out of the views."""
        if interruption is None:
            return self
        return _PartSheet(
            self.part,
            self.block,
            self.around,
            self.quantity,
            interruption=interruption,
            scale=scale,
            dimensions=self.dimensions,
        )

    def interruptions(self, scale: float) -> Iterator[Interruption]:
        """What its views might leave out along its longer side at a scale, best first."""
        board = self.board
        axis = 0 if board.length >= board.width else 1
        rings = self.plan.rings(axis, scale, with_loose=False)
        return interruptions(board, self.dimensions.links, rings, axis=axis, scale=scale)

    def has_clear_rings(self, scale: float) -> bool:
        """Whether no ring round the place of a detail touches a break and its zigzags."""
        cut = self.plan.interruption
        room = BREAK_ROOM / scale
        return cut is None or not any(
            cut.crosses(cut.axis, low - room, high + room)
            for low, high in self.plan.rings(cut.axis, scale, with_loose=True)
        )

    def setting(
        self, sizes: tuple[SheetSize, ...], larger: tuple[SheetSize, ...]
    ) -> _Setting | None:
        """The largest scale on the smallest paper that takes it, None if it fits on none."""
        has_key = bool(self.around.boxes)
        names = tuple(self.names.items())
        return _set_out(_Kept(self.board, names, tuple(self.notes), has_key, self), sizes, larger)

    def may_stand(self, size: SheetSize, scale: float) -> bool:
        """Whether it is not known before drawing that a paper is too small at a scale."""
        return self._ready(size, scale) is not None

    def _ready(self, size: SheetSize, scale: float) -> tuple[list[BoardInk], list[Block]] | None:
        """Its views, still empty, and its details, if they may find room."""
        if not self._may_stand_bare(size, scale):
            return None
        try:
            details = [self._detail(detail, scale) for detail in self.plan.details]
        except NoRoom:
            return None
        inks = self._inks(size, scale)
        is_too_large = self._is_too_large([ink.least for ink in inks], details, size)
        return None if is_too_large else (inks, details)

    def _may_stand_bare(self, size: SheetSize, scale: float) -> bool:
        """Whether a paper and a scale are worth a thought."""
        space = drawing_space(size)
        length, width = self.plan.shown_size(self.board, scale)
        faces = 1 + sum(v.place is Place.SECOND_FACE for v in self.plan.others)
        if length > space.width - 30 or width * faces > space.height - 70:
            return False
        return scale <= 1 or max(length, width) / 2 <= 3 * _LEAST_OUTLINE

    def tried(self, size: SheetSize, scale: float) -> Composition | None:
        """What it shows set out at one scale on one paper, None if it does not fit."""
        ready = self._ready(size, scale)
        if ready is None:
            return None
        inks, details = ready
        try:
            for ink in inks:
                self._begin(ink)
        except NoRoom:
            return None
        # Callouts and headings only add to this.
        if self._is_too_large([ink.bare() for ink in inks], details, size):
            return None
        return self._composed(inks, details, size)

    def _is_too_large(
        self, views: Sequence[Block], details: Sequence[Block], size: SheetSize
    ) -> bool:
        """Whether what the views take at least surely does not fit on a paper."""
        title = title_block_box(size)
        return is_too_large(
            self._aligned(views).box,
            [detail.box for detail in details],
            self._notes_block(notes_width(title), style_for(size)).box,
            title=title,
            space=drawing_space(size),
        )

    def _composed(
        self, inks: Sequence[BoardInk], details: Sequence[Block], size: SheetSize
    ) -> Composition | None:
        """All set out, with wide room for callouts if it can be."""
        space, style = drawing_space(size), style_for(size)
        for room in (WIDE_ROOM, NARROW_ROOM):
            try:
                told = [ink.with_callouts(room, block_room(space)) for ink in inks]
                cluster = self._cluster(told)
            except NoRoom:
                continue
            found = composed(
                cluster,
                details,
                lambda width: self._notes_block(width, style),
                title=title_block_box(size),
                space=space,
                has_key=bool(self.around.boxes),
            )
            if found is not None:
                return found
            if not any(ink.reaches_far for ink in told):
                # With less room all would stand where it stands.
                break
        return None

    def sheet(self, setting: _Setting) -> Sheet:
        """The sheet, with frame, title block and key."""
        size, scale, found = setting.size, setting.scale, setting.found
        style = style_for(size)
        thickness = self.board.thickness
        detail_scales = sorted(
            {scale_text(d.scale(scale, thickness)) for d in self.plan.details}, reverse=True
        )
        others = f" ({', '.join(detail_scales)})" if detail_scales else ""
        title = capital(self.around.item_name or self.part.name)
        block = replace(
            self.block,
            title=title,
            scale=scale_text(scale) + others,
            material=self.board.stock.title,
            pieces=str(self.quantity),
        )
        marks: list[Mark] = [*frame_marks(size, style), *title_block_marks(block, size, style)]
        marks += found.cluster.marks
        for detail in found.details:
            marks += detail.marks
        marks += found.notes.marks
        if found.key is not None:
            shown = self.around.alike or (self.part.name,)
            marks += key_marks(self.around.boxes, shown, found.key)
        views = [
            SheetView(
                title=self._view_title(view),
                scale=scale_text(scale),
                interruption=self.plan.interruption_of(view),
            )
            for view in self.plan.views
        ]
        views += [
            SheetView(title=self._detail_title(d), scale=scale_text(d.scale(scale, thickness)))
            for d in self.plan.details
        ]
        return Sheet(
            number=block.sheet_number,
            name=slug(title),
            title=title,
            size=size,
            marks=tuple(marks),
            views=tuple(views),
            dimensions={self.part.name: self._told()},
        )

    def _told(self) -> dict[str, object]:
        """All that is told about the board, with the view in which each thing stands."""
        links: dict[Dimension, Record] = {
            link: {"view": self._view_title(self.plan.main), "text": thickness_text(link)}
            for link in self.plan.notes
        }
        callouts: dict[str, Record] = {}
        for view in self.plan.views:
            title = self._view_title(view)
            links |= {link: {"view": title} | self._scale_word(link) for link in view.links}
            callouts |= {
                callout.title: {"view": title, "text": text}
                for callout, text in callout_texts(view.callouts, self._additions(view))
            }
        for detail in self.plan.details:
            title = self._detail_title(detail)
            links |= {link: {"view": title} for link in detail.links}
            callouts |= {callout.title: {"view": title} for callout in detail.callouts}
        told = self.dimensions
        return {
            "dimensions": [link.record() | links[link] for link in told.links],
            "callouts": [c.record() | callouts[c.title] for c in told.callouts],
            "shapes": [shape.record() for shape in told.shapes],
        }

    def _scale_word(self, link: Dimension) -> Record:
        """What is told of a dimension whose line does not measure its value."""
        return {} if self.plan.is_to_scale(link) else {"is_to_scale": False}

    # Views

    def _aligned(self, blocks: Sequence[Block]) -> Block:
        """All views in their places round the main one, which comes first."""
        places = (
            "below" if view.place is Place.SECOND_FACE else view.place.value
            for view in self.plan.others
        )
        return aligned(blocks[0], list(zip(places, blocks[1:], strict=True)))

    def _cluster(self, told: Sequence[BoardInk]) -> Block:
        return self._aligned(
            [
                ink.block(
                    self._view_title(ink.view),
                    face_lines=self._face_lines(ink.view),
                    heading="" if ink.view.place is Place.MAIN else self._view_title(ink.view),
                )
                for ink in told
            ]
        )

    def _inks(self, size: SheetSize, scale: float) -> list[BoardInk]:
        """Its views on a paper at a scale, with nothing drawn yet."""
        cut, style = self.plan.interruption, style_for(size)
        return [
            BoardInk(self.board, view, scale, style, self.names, self._additions(view), cut)
            for view in self.plan.views
        ]

    def _begin(self, ink: BoardInk) -> None:
        is_main = ink.view.place is Place.MAIN
        details = self.plan.details if is_main else ()
        ink.begin(self._hints(ink.view), details, hides=self.plan.hides and is_main)

    def _additions(self, view: BoardView) -> dict[str, str]:
        """What the callouts of a second face leave to the first."""
        if view.place is not Place.SECOND_FACE:
            return {}
        main = self.names[self.plan.main.look.surface]
        found = {}
        for callout in view.callouts:
            words = self.plan.elsewhere(view, callout, self.dimensions)
            if words:
                found[callout.title] = f"{words} as on the {main}"
        return found

    def _view_title(self, view: BoardView) -> str:
        name = self.names[view.look.surface]
        if view.alike is not None:
            return f"{name}; {self.names[view.alike]} alike"
        if view.place is Place.SECOND_FACE:
            return f"{name}: turned over, {self.names[self.board.stop]} stays where it is"
        return name

    def _hints(self, view: BoardView) -> dict[Surface, str]:
        if view.place not in (Place.MAIN, Place.SECOND_FACE):
            return {}
        hints = dict.fromkeys((Surface.LOW, Surface.HIGH, Surface.START, Surface.END), "")
        hints[self.board.fence] = "fence"
        hints[self.board.stop] = "stop"
        return hints

    def _face_lines(self, view: BoardView) -> list[str]:
        if view.place not in (Place.MAIN, Place.SECOND_FACE):
            return []
        lines = [self.names[view.look.surface]]
        if view.place is Place.MAIN:
            lines += [thickness_text(link) for link in self.plan.notes]
        return lines

    def _detail(self, detail: DetailView, main_scale: float) -> Block:
        """A detail, which is the same on all papers and drawn once at each scale.

        Raises:
            NoRoom: something that must be told finds no free place at this scale.
        """
        scale = detail.scale(main_scale, self.board.thickness)
        key = detail.letter, scale
        if key not in self._drawn_details:
            ink = DetailInk(self.board, detail, scale, DETAIL_STYLE, self._caption(detail))
            self._drawn_details[key] = ink.block()
        return self._drawn_details[key]

    def _detail_title(self, detail: DetailView) -> str:
        return detail_title(detail, self._caption(detail))

    def _caption(self, detail: DetailView) -> str:
        slots = {f.name for f in self.board.features if isinstance(f, BiscuitSlot)}
        # The ring shows where it is; the name of a slot tells it in the board's own words.
        called = ("biscuit slot" if name in slots else name for name in detail.features)
        names = listed(tuple(dict.fromkeys(called)))
        count = len(detail.twins) + 1
        return names if count == 1 else f"{names}; {count} places alike"

    # Notes

    def _notes_block(self, width: float, style: Style) -> Block:
        placed = notes_marks(
            self.notes, at=PaperPoint(0.0, 0.0), width=width, style=style, heading=""
        )
        return Block(marks=placed.marks, box=placed.box, outline=placed.box)

    @cached_property
    def notes(self) -> list[str]:
        """What the sheet tells in words."""
        notes = [self._setting_note()]
        notes += self._blank_notes()
        notes += self._mate_notes()
        notes += self._show_note()
        notes += self._break_note()
        if self.board.stock.hatching is Hatching.METAL:
            notes.append("Edges are sharp until they are deburred.")
        names = self.around.alike
        if len(names) > 1:
            notes.append(f"{self.quantity} pieces: {listed(names)}.")
        return [*notes, *self.around.remarks]

    def _setting_note(self) -> str:
        fence, stop = self.names[self.board.fence], self.names[self.board.stop]
        face = self.names[self.plan.main.look.surface]
        note = f"Fence: {fence}. Stop: {stop}. Lies with the {face} up"
        if any(view.place is Place.SECOND_FACE for view in self.plan.others):
            other = self.names[self.plan.main.look.surface.opposite]
            return f"{note}, then turned over along its length for the {other}."
        return f"{note}."

    def _blank_notes(self) -> list[str]:
        board, notes = self.board, []
        size = f"{dimension_text(board.length)} × {dimension_text(board.width)}"
        count = {1: "One blank", 2: "Two blanks", 3: "Three blanks", 4: "Four blanks"}[board.layers]
        glued = ", glued face to face" if board.layers > 1 else ""
        pair = self.around.strip
        if pair is not None:
            rough = " × ".join(dimension_text(v) for v in pair.rough_size)
            other = next(p.name for p in pair.parts if p.name not in self.around.alike)
            notes.append(
                f"Out of one strip with the {other}: {count[0].lower()}{count[1:]} {rough}{glued}; "
                f"ripped at {pair.bevel.angle:g}°, then cut to {size}."
            )
        elif board.layers > 1:
            rough = " × ".join(dimension_text(v) for v in board.rough_size)
            notes.append(f"{count} {rough}{glued}, then cut to {size}.")
        if board.trims:
            ends = listed(
                [f"{self.names[trim.edge]} {dimension_text(trim.proud)}" for trim in board.trims]
            )
            finished = board.finished_size
            trimmed = f"{dimension_text(finished.length)} × {dimension_text(finished.width)}"
            notes.append(
                f"Proud when glued: {ends}; trimmed flush to {trimmed}. "
                "Dimensions start at the edges before trimming."
            )
        if board.grain is Grain.WIDTH:
            notes.append("The face grain runs across, along the width.")
        return notes

    def _mate_notes(self) -> list[str]:
        notes = []
        for feature in self.board.features:
            if not isinstance(feature, Groove | Rebate) or not feature.takes:
                continue
            note = f"{feature.name[:1].upper()}{feature.name[1:]} takes the {feature.takes}"
            mate = self.around.mates.get(feature.takes)
            called = feature.takes if mate is None else mate.name
            if called in self.around.sheets:
                note += f", sheet {self.around.sheets[called]}"
            if mate is not None:
                note += f"; follows from its measured {dimension_text(mate.board.thickness)}"
            notes.append(f"{note}.")
        return notes

    def _show_note(self) -> list[str]:
        """Which surfaces show, in one note: a line more would cost some boards their scale."""
        told = [
            f"{word}: {listed([self.names[one] for one in surfaces])}."
            for word, surfaces in (
                ("Shows", self.board.shows),
                ("Behind the doors", self.board.behind_doors),
            )
            if surfaces
        ]
        return [" ".join(told)] if told else []

    def _break_note(self) -> list[str]:
        """That interrupted views leave something out, and that their figures are true."""
        cut = self.plan.interruption
        if cut is None:
            return []
        what = "Plain length"
        if cuts_a_row(self.board, cut):
            what = "Plain length, and holes of the rows at the same pitch,"
        return [
            f"{what} is left out between the zigzag lines. Work to the figures; across a break "
            "the paper cannot be measured."
        ]
