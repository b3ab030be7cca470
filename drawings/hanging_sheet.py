"""The hanging plan: the cleat with its sizes, the steps for one person, packing, cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from cabinet.errors import DesignError
from cabinet.site.cleat_model import Cleat
from cabinet.site.room.hanging_steps import hanging_steps, heights_table
from cabinet.site.room.report import RoomReport
from cabinet.site.room.tables import packing_table, ready_table, scribe_table
from drawings import cautions
from drawings.block import Block
from drawings.cleat_view import section_labels, section_view, wall_half_view
from drawings.clutter import NoRoom
from drawings.ground import marks_box
from drawings.list_flow import GAP, set_where_there_is_room
from drawings.list_piece import ListPiece
from drawings.marks import Mark, PaperBox, PaperPoint, Text
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.sheet import Sheet, SheetView
from drawings.style import Style
from drawings.table import Column
from drawings.title_block import TitleBlock, title_block_box, title_block_marks
from drawings.unit_ink import UnitView
from drawings.view_labels import ViewLabel, labelled
from drawings.views import scale_text

SIZE = SheetSize.A3
_MARGIN = 8.0
# Width of the column with the steps, mm.
_COLUMN = 142.0
# Tables narrower than this read badly, mm.
_LEAST_TABLE = 80.0
_SECTION_SCALES = (1 / 2, 1 / 5)
_STRIP_SCALES = (1 / 5, 1 / 10, 1 / 20)


def hanging_sheet(report: RoomReport, block: TitleBlock) -> Sheet:
    """How a unit with a cleat is hung.

    Args:
        report: What was computed about the unit in its setting.
        block: Title block; title, scale and document type are filled in here.

    Raises:
        DesignError: the unit has no cleat, or the sheet does not hold it all.
    """
    cleat, style = report.cleat, style_for(SIZE)
    if cleat is None:
        raise DesignError(
            f"{report.unit.name}: it has no cleat, so there is no plan for hanging it",
            part=report.unit.name,
            limit="a cleat",
        )
    space, title = drawing_space(SIZE), title_block_box(SIZE)
    inside = space.grown(-_MARGIN)
    steps = PaperBox(inside.right - _COLUMN, inside.top, inside.right, title.top - GAP)
    figures = PaperBox(inside.left, inside.top, steps.left - GAP, inside.bottom)
    told = set_where_there_is_room(_steps(report), (steps,), style)
    drawn = _figures(report, cleat, figures, style)
    if told is None or drawn is None:
        raise DesignError(
            f"{report.unit.name}: the plan for hanging it is more than an A3 holds",
            part=report.unit.name,
        )
    marks, views, free = drawn
    rest = PaperBox(free.left, free.top, free.right, title.top - GAP)
    under = PaperBox(inside.left, _foot(marks) + GAP, title.left - GAP, inside.bottom)
    tables = set_where_there_is_room(_tables(report), (rest, under), style)
    if tables is None:
        raise DesignError(
            f"{report.unit.name}: packing and scribe strips are more than an A3 holds; measure "
            "the wall in fewer places",
            part=report.unit.name,
        )
    filled = replace(
        block,
        title="Hanging",
        scale=scale_text(views[0][1]),
        document_type="hanging plan",
        general_tolerance="",
    )
    return Sheet(
        number=block.sheet_number,
        name="hanging-plan",
        title="Hanging plan",
        size=SIZE,
        marks=(
            *frame_marks(SIZE, style),
            *title_block_marks(filled, SIZE, style),
            *marks,
            *told,
            *tables,
        ),
        views=tuple(SheetView(title=name, scale=scale_text(scale)) for name, scale in views),
    )


def _foot(marks: Sequence[Mark]) -> float:
    """Lowest ink of some marks, mm from the sheet's top."""
    box = marks_box(marks)
    return 0.0 if box is None else box.bottom


def _steps(report: RoomReport) -> list[ListPiece]:
    return [
        ListPiece(
            heading="Before you begin", notes=(cautions.CABLES, cautions.WALL, cautions.LIFTING)
        ),
        ListPiece(heading="Steps", notes=hanging_steps(report)),
    ]


def _tables(report: RoomReport) -> list[ListPiece]:
    tables = (
        ready_table(report),
        heights_table(report),
        packing_table(report),
        scribe_table(report),
    )
    return [
        ListPiece(
            heading=table.title,
            columns=tuple(Column(heading=heading) for heading in table.columns),
            rows=table.rows,
        )
        for table in tables
        if table.rows
    ]


def _figures(
    report: RoomReport, cleat: Cleat, within: PaperBox, style: Style
) -> tuple[tuple[Mark, ...], list[tuple[str, float]], PaperBox] | None:
    """The wall half above, the section below it, and what is free beside that."""
    strip = _largest([(wall_half_view(cleat), (), scale) for scale in _STRIP_SCALES], within, style)
    labels = tuple(section_labels(report, cleat))
    section = _largest(
        [(section_view(report, cleat, scale), labels, scale) for scale in _SECTION_SCALES],
        within,
        style,
    )
    if strip is None or section is None:
        return None
    marks: list[Mark] = []
    y = within.top
    free = within
    views = []
    for title, block, scale in (strip, section):
        heading = f"{title[0].upper()}{title[1:]}, {scale_text(scale)}"
        marks.append(
            Text(
                PaperPoint(within.left, y + style.heading_height),
                heading,
                style.heading_height,
                is_bold=True,
            )
        )
        free = PaperBox(within.left, y, within.right, within.bottom)
        y += style.heading_height + 4.0
        placed = block.moved(within.left - block.box.left, y - block.box.top)
        marks += placed.marks
        free = PaperBox(placed.box.right + 2 * GAP, free.top, free.right, free.bottom)
        y = placed.box.bottom + GAP
        views.append((title, scale))
    if y - GAP > within.bottom or free.width < _LEAST_TABLE:
        return None
    return tuple(marks), views, free


def _largest(
    views: Sequence[tuple[UnitView, tuple[ViewLabel, ...], float]], within: PaperBox, style: Style
) -> tuple[str, Block, float] | None:
    """The first view that fits, with its title and scale."""
    for view, labels, scale in views:
        try:
            block = labelled(view, labels, scale, style)
        except NoRoom:
            continue
        if block.box.width <= within.width and block.box.height <= within.height * 0.6:
            return view.title, block, scale
    return None
