"""The sheets of the cut plan: one drawing for each board, and what is left when all is cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from cabinet.making.cut_board import CutBoard, JobCuts, LaidBlank
from cabinet.making.outline import rectangle, sizes_text
from cabinet.making.rack import Flaw, FlawFace, FlawKind
from drawings import cautions
from drawings.cut_board_ink import (
    BoardPaperPlace,
    board_ink,
    flaw_labels,
    flaw_marks,
)
from drawings.cut_list_sheet import cut_pieces
from drawings.cut_words import as_sawn, board_title, labels, short_name, short_rest, way_words
from drawings.fitting import fitted
from drawings.list_flow import flowed
from drawings.list_pages import filled
from drawings.list_piece import ListPiece
from drawings.marks import Anchor, Group, Ink, Line, Mark, PaperBox, PaperPoint, Text
from drawings.number import dimension_text
from drawings.paper import SheetSize, drawing_space, style_for
from drawings.planned_sheet import PlannedSheet
from drawings.ruling import outline
from drawings.sheet import slug
from drawings.style import Style
from drawings.table import Column
from drawings.title_block import title_block_box
from drawings.views import scale_text

# Scales that are tried, larger first (ISO 5455).
_SCALES = (1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50)
_SIZE = SheetSize.A3
_INSET = 5.0  # from the frame, mm
_HEADING = 9.0  # height of the heading of the drawing, mm
_AROUND = 11.0  # round a board, for numbers of cuts, mm
_KEY = 9.0  # height of the key of lines below a drawing, mm
_COLUMN = 102.0  # width of the tables beside a drawing, mm
_LEAST_BELOW = 4.0  # from the key to the frame, mm
_BETWEEN = 6.0  # between a drawing and its tables, mm


def cut_plan_sheets(plan: JobCuts) -> tuple[PlannedSheet, ...]:
    """All sheets of a cut plan: each board, then the lists by cut with what is left.

    Args:
        plan: The plan.
    """
    names = labels(plan)
    made = [_board_sheet(board, names, number) for number, board in enumerate(plan.boards, start=1)]
    over = [piece for _, left in made for piece in left]
    return (*(sheet for sheet, _ in made), *_list_sheets(plan, over))


@dataclass(frozen=True, slots=True)
class _Try:
    """A board at a scale, its tables beside it or below."""

    scale: float
    is_beside: bool

    def room(self, board: CutBoard) -> tuple[PaperBox, tuple[PaperBox, ...]] | None:
        """Where the drawing stands, and the areas for tables; None if it is too large."""
        space = drawing_space(_SIZE).grown(-_INSET)
        block = title_block_box(_SIZE)
        long, wide = (value * self.scale for value in board.size)
        right = space.right - (_COLUMN + _BETWEEN if self.is_beside else 0.0)
        foot = space.top + _HEADING + wide + 2 * _AROUND + _KEY
        if space.left + long + 2 * _AROUND > right or foot > space.bottom - _LEAST_BELOW:
            return None
        if right > block.left and foot > block.top - 2.0:
            return None
        drawing = PaperBox(space.left, space.top, right, foot)
        below = PaperBox(space.left, foot + 3.0, block.left - _BETWEEN, space.bottom)
        if self.is_beside:
            column = PaperBox(right + _BETWEEN, space.top, space.right, block.top - _BETWEEN)
            between = PaperBox(block.left, foot + 3.0, right, block.top - _BETWEEN)
            return drawing, (column, *_large((below, between)))
        other = PaperBox(block.left, foot + 3.0, space.right, block.top - _BETWEEN)
        return drawing, _large((below, other))


def _large(areas: tuple[PaperBox, ...]) -> tuple[PaperBox, ...]:
    """The areas in which a table is worth beginning."""
    return tuple(area for area in areas if area.width >= 60.0 and area.height >= 22.0)


def _board_sheet(
    board: CutBoard, names: Mapping[str, str], number: int
) -> tuple[PlannedSheet, tuple[ListPiece, ...]]:
    """The sheet at the largest scale at which its tables find room, and what found none."""
    first: tuple[PlannedSheet, tuple[ListPiece, ...]] | None = None
    for scale in _SCALES:
        for is_beside in (True, False):
            room = _Try(scale, is_beside).room(board)
            if room is None:
                continue
            made = _drawn(board, names, number, scale, *room)
            if not made[1]:
                return made
            if first is None:
                first = made
    if first is None:
        raise AssertionError("the smallest scale shows boards of 18 m")
    return first


def _drawn(
    board: CutBoard,
    names: Mapping[str, str],
    number: int,
    scale: float,
    room: PaperBox,
    areas: tuple[PaperBox, ...],
) -> tuple[PlannedSheet, tuple[ListPiece, ...]]:
    style = style_for(_SIZE)
    long, wide = (value * scale for value in board.size)
    left = room.left + (room.width - long) / 2
    bottom = room.top + _HEADING + _AROUND + wide
    place = BoardPaperPlace(corner=PaperPoint(left, bottom), scale=scale)
    lettering = PaperBox(room.left, room.top + _HEADING, room.right, bottom + _AROUND)
    ink = board_ink(board, names, place, lettering, style)
    title = f"Board {number}: {board_title(board)}"
    told = fitted(title, width=room.width, tallest=style.heading_height, is_bold=True)
    heading = [
        Text(
            PaperPoint(room.left, room.top + told.height * (1 + 1.4 * k)),
            line,
            told.height,
            is_bold=True,
        )
        for k, line in enumerate(told.lines)
    ]
    key = _key(board, PaperBox(room.left, bottom + _AROUND, room.right, room.bottom), style)
    tables, over = flowed(list(_tables(board, names, ink.untold)), areas, style)
    sheet = PlannedSheet(
        # Numbered over all stocks: sheet 1 of one board is not sheet 1 of another.
        name=f"cut-plan-{number}-" + slug(short_name(board))[:40].strip("-"),
        title=f"Cut plan {number}, {short_name(board)}",
        document_type="cut plan",
        size=_SIZE,
        marks=(Group("view", (*heading, *ink.marks), title=title), *key, *tables),
        material=board.board.stock.title,
        scale=scale_text(scale),
    )
    return sheet, over


def _tables(board: CutBoard, names: Mapping[str, str], untold: list[str]) -> Iterator[ListPiece]:
    yield ListPiece(
        heading="Parts on this board",
        columns=(
            Column(heading="no.", width=17.0 if max(map(len, names.values())) > 4 else 11.0),
            Column(heading="part"),
            Column(heading="cut to, mm", width=29.0),
            Column(heading="lies" if board.board.flaws else "shows", width=22.0),
        ),
        rows=tuple(_part_row(board, names[laid.blank.name], laid) for laid in _in_order(board)),
    )
    if board.board.flaws:
        yield ListPiece(
            heading="Old damage",
            columns=(
                Column(heading="no.", width=9.0),
                Column(heading="what", width=32.0),
                Column(heading="what becomes of it"),
            ),
            rows=tuple(_flaw_rows(board, names)),
        )
    kept = tuple(
        (short_rest(piece), sizes_text(piece.outline), _flaw_count(len(piece.flaws)))
        for piece in board.kept
    )
    if kept:
        yield ListPiece(
            heading="Back on the rack",
            columns=(
                Column(heading="what"),
                Column(heading="size, mm"),
                Column(heading="flaws"),
            ),
            rows=kept,
        )
    yield ListPiece(heading="Notes", notes=tuple(_notes(board, untold)))


def _flaw_count(count: int) -> str:
    return "none" if count == 0 else str(count)


def _in_order(board: CutBoard) -> list[LaidBlank]:
    return sorted(as_sawn(board), key=lambda laid: laid.blank.item)


def _part_row(board: CutBoard, label: str, laid: LaidBlank) -> tuple[str, ...]:
    blank = laid.blank
    size = f"{dimension_text(blank.length)} × {dimension_text(blank.width)}"
    return label, blank.item_name, size, way_words(board, laid)


def _flaw_rows(board: CutBoard, blanks: Mapping[str, str]) -> Iterator[tuple[str, ...]]:
    names = flaw_labels(board)
    for flaw, name in names.items():
        fates = [
            f"{verdict.fate.value.split(':')[0]} in {blanks[laid.blank.name]} ({verdict.why})"
            for laid in board.laid
            for verdict in laid.verdicts
            if verdict.flaw == flaw
        ]
        deep = f", {dimension_text(flaw.depth)} deep" if flaw.depth is not None else ""
        yield name, flaw.title + deep, "; ".join(fates) or "in no part"


def _notes(board: CutBoard, untold: list[str]) -> Iterator[str]:
    trim = (
        f" The edges are trimmed by {dimension_text(board.trim)} first, kerf included."
        if board.trim
        else ""
    )
    yield (
        f"Kerf {dimension_text(board.kerf)}. Cut in the order of the rings; the list by cut has "
        f"the fence's distances.{trim}"
    )
    if any(laid.blank.behind_doors for laid in board.laid):
        yield (
            "Inside: a face that is seen only while a door is open; old damage there is filled "
            "flush, a stain may stay."
        )
    yield from dict.fromkeys(laid.blank.pattern for laid in _in_order(board) if laid.blank.pattern)
    if board.bought is None:
        yield "The leftover lies with face A up, as it is drawn, its grain along the arrow."
    if untold:
        yield f"No room on the drawing for: {', '.join(untold)}; see the list by cut."
    yield cautions.BLADES


def _key(board: CutBoard, box: PaperBox, style: Style) -> list[Mark]:
    """The key of lines: only what this drawing has."""
    entries: list[tuple[str, str]] = [("cut", "cut, in order")]
    faces = {flaw.face.value for flaw in board.board.flaws}
    for face, word in (
        ("face A", "flaw on face A"),
        ("face B", "flaw on face B"),
        ("through", "flaw through"),
    ):
        if face in faces:
            entries.append((face, word))
    if board.kept:
        entries.append(("keep", "rest to keep"))
    if any(not rest.kept for rest in board.rests):
        entries.append(("offcut", "offcut"))
    marks: list[Mark] = []
    x = box.left
    for kind, word in entries:
        sample = PaperBox(x, box.top + 2.0, x + 9.0, box.top + 6.5)
        marks += _sample(kind, sample)
        text = Text(
            PaperPoint(sample.right + 1.8, sample.bottom - 0.8),
            word,
            style.note_height,
            Anchor.START,
        )
        marks.append(text)
        x = sample.right + 1.8 + 0.62 * style.note_height * len(word) + 8.0
    return [Group("key", tuple(marks), title="key")]


def _sample(kind: str, box: PaperBox) -> list[Mark]:
    middle = (box.top + box.bottom) / 2
    if kind == "cut":
        return [Line(PaperPoint(box.left, middle), PaperPoint(box.right, middle), Ink.NARROW)]
    if kind == "keep":
        return [outline(box, Ink.SHADE), outline(box, Ink.NARROW)]
    if kind == "offcut":
        slash = Line(PaperPoint(box.left, box.bottom), PaperPoint(box.right, box.top), Ink.NARROW)
        return [outline(box, Ink.NARROW), slash]
    return list(_flaw_sample(kind, box))


def _flaw_sample(kind: str, box: PaperBox) -> Iterator[Mark]:
    face = next(f for f in FlawFace if f.value == kind)
    sample = Flaw(kind=FlawKind.STAIN, face=face, outline=rectangle(box.width, box.height))
    place = BoardPaperPlace(corner=PaperPoint(box.left, box.bottom), scale=1.0)
    yield from flaw_marks(sample, place)


def _list_sheets(plan: JobCuts, over: list[ListPiece]) -> Iterator[PlannedSheet]:
    """The lists by cut on as many sheets as they need."""
    for number, marks in enumerate(filled([*cut_pieces(plan), *over], _SIZE), start=1):
        yield PlannedSheet(
            name=f"cuts-{number}",
            title=f"List by cut, {number}",
            document_type="cut plan",
            size=_SIZE,
            marks=marks,
        )
