"""The sheet from which one part is made: views, dimensions, notes, where it is in the unit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

from cabinet.board import Surface
from cabinet.errors import DesignError
from cabinet.features import BiscuitSlot
from cabinet.part import Board, Part
from cabinet.record import Record
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
    Cluster,
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
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.part_notes import Surroundings, part_notes
from drawings.part_setting import LEAST_OUTLINE, Setting, best_setting
from drawings.plain_stretch import interruptions
from drawings.sheet import Sheet, SheetView, slug
from drawings.style import DETAIL_STYLE, Style
from drawings.title_block import TitleBlock, title_block_box, title_block_marks
from drawings.views import BoardView, DetailView, Place, ViewPlan, plan_views, scale_text


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
        if setting.interruption is not None:
            drawer = drawer.interrupted(setting.interruption, setting.scale)
        return drawer.sheet(setting)
    raise DesignError(
        f"{part.name}: it fits on no sheet of {', '.join(s.name for s in (*sizes, *larger))} "
        "at 1:20",
        part=part.name,
    )


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
) -> Setting | None:
    return best_setting(kept.drawer, sizes, larger)


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
        of: _PartSheet | None = None,
    ) -> None:
        self.part = part
        self.board: Board = part.board
        self.block = block
        self.around = around
        self.quantity = quantity
        self.names: SurfaceNames = surface_names(part)
        self.dimensions: BoardDimensions = (
            of.dimensions if of else board_dimensions(self.board, self.names)
        )
        self.plan: ViewPlan = plan_views(self.board, self.dimensions, interruption, scale=scale)
        self.drawn_details: dict[tuple[DetailView, float], Block] = of.drawn_details if of else {}
        self._set_notes: dict[tuple[float, str], Block] = {}

    def interrupted(self, interruption: Interruption, scale: float) -> _PartSheet:
        """The same with plain stretches left out of the views."""
        return _PartSheet(
            self.part,
            self.block,
            self.around,
            self.quantity,
            interruption=interruption,
            scale=scale,
            of=self,
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
    ) -> Setting | None:
        """The largest scale on the smallest paper that takes it, None if it fits on none."""
        has_key = bool(self.around.boxes)
        names = tuple(self.names.items())
        return _set_out(_Kept(self.board, names, self.notes, has_key, self), sizes, larger)

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
        return scale <= 1 or max(length, width) / 2 <= 3 * LEAST_OUTLINE

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

    def sheet(self, setting: Setting) -> Sheet:
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

    def _aligned(self, blocks: Sequence[Block]) -> Cluster:
        """All views in their places round the main one, which comes first."""
        places = (
            "below" if view.place is Place.SECOND_FACE else view.place.value
            for view in self.plan.others
        )
        return aligned(blocks[0], list(zip(places, blocks[1:], strict=True)))

    def _cluster(self, told: Sequence[BoardInk]) -> Cluster:
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
        """A detail, drawn once at each scale: it is the same on all papers, broken view or not.

        Raises:
            NoRoom: something that must be told finds no free place at this scale.
        """
        scale = detail.scale(main_scale, self.board.thickness)
        key = detail, scale
        if key not in self.drawn_details:
            ink = DetailInk(self.board, detail, scale, DETAIL_STYLE, self._caption(detail))
            self.drawn_details[key] = ink.block()
        return self.drawn_details[key]

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
        """The notes in lines of a width, which are set once for each."""
        key = width, style.name
        if key not in self._set_notes:
            placed = notes_marks(
                self.notes, at=PaperPoint(0.0, 0.0), width=width, style=style, heading=""
            )
            self._set_notes[key] = Block(marks=placed.marks, box=placed.box, outline=placed.box)
        return self._set_notes[key]

    @cached_property
    def notes(self) -> tuple[str, ...]:
        """What the sheet tells in words."""
        return part_notes(self.part, self.plan, self.names, self.around, self.quantity)
