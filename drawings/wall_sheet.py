"""The sheet of the wall: its elevation to scale with the unit in place, and its wall screws."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from cabinet.errors import DesignError
from cabinet.site.room.report import RoomReport
from cabinet.site.room.tables import screw_table, things_table
from cabinet.site.room.two_places import TwoPlaces, comparison_table, holes_table
from drawings import cautions
from drawings.clutter import NoRoom
from drawings.list_flow import GAP, set_where_there_is_room
from drawings.list_piece import ListPiece
from drawings.marks import Mark, PaperBox
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.sheet import Sheet, SheetView
from drawings.site_piece import site_piece
from drawings.style import Style
from drawings.title_block import TitleBlock, title_block_box, title_block_marks
from drawings.view_labels import labelled
from drawings.views import scale_text
from drawings.wall_view import legend, wall_labels, wall_view

SIZE = SheetSize.A3
SCALES = (1 / 10, 1 / 20, 1 / 50, 1 / 100)
_MARGIN = 8.0
# Widths of the column of tables and notes beside the elevation, the best first, mm.
_COLUMNS = (132.0, 108.0)


def wall_sheet(report: RoomReport, block: TitleBlock, places: TwoPlaces | None = None) -> Sheet:
    """The wall elevation at the largest scale that fits an A3.

    Args:
        report: What was computed about the unit in its setting.
        block: Title block; title, scale and document type are filled in here.
        places: An earlier place of the unit beside this one; None for none.

    Raises:
        DesignError: the wall is too large for an A3 at 1:100, or has too many things on it.
    """
    style, room = style_for(SIZE), report.setting.room
    # Where things crowd, the table tells of those whose names find no room in the elevation.
    for may_omit, scale, column in product((False, True), SCALES, _COLUMNS):
        marks = _at_scale(report, places, scale, style, column, may_omit=may_omit)
        if marks is not None:
            filled = replace(
                block,
                title="On the wall",
                scale=scale_text(scale),
                document_type="wall elevation",
                general_tolerance="",
            )
            return Sheet(
                number=block.sheet_number,
                name="wall-elevation",
                title="Wall elevation",
                size=SIZE,
                marks=(
                    *frame_marks(SIZE, style),
                    *title_block_marks(filled, SIZE, style),
                    *marks,
                ),
                views=(SheetView(title=f"{room.name}, elevation", scale=scale_text(scale)),),
            )
    raise DesignError(
        f"{room.name}: {room.width:g} x {room.height:g} mm with {len(room.things)} things on them "
        "do not fit an A3 at 1:100; tell of the part of the wall round the unit",
        part=room.name,
        value=(room.width, room.height),
    )


def _at_scale(
    report: RoomReport,
    places: TwoPlaces | None,
    scale: float,
    style: Style,
    column: float,
    *,
    may_omit: bool,
) -> tuple[Mark, ...] | None:
    """View, tables and notes; None if they do not fit at that scale."""
    space, title = drawing_space(SIZE), title_block_box(SIZE)
    inside = space.grown(-_MARGIN)
    beside = PaperBox(inside.right - column, inside.top, inside.right, title.top - GAP)
    side = beside.left - GAP - inside.left
    pieces = _pieces(report, places)
    # Lettering takes long to place, so what cannot fit whatever the view is told first.
    if report.setting.room.width * scale > side or not set_where_there_is_room(
        pieces, (beside, PaperBox(inside.left, inside.top, title.left - GAP, inside.bottom)), style
    ):
        return None
    try:
        view = wall_view(report, scale, () if places is None else places.old_holes)
        drawn = labelled(view, wall_labels(report, scale), scale, style, may_omit=may_omit)
    except NoRoom:
        return None
    box = drawn.box
    if box.width > side or box.height > inside.height:
        return None
    placed = drawn.moved(inside.left - box.left + (side - box.width) / 2, inside.top - box.top)
    if placed.box.overlaps(title, GAP):
        return None
    below = PaperBox(inside.left, placed.box.bottom + GAP, title.left - GAP, inside.bottom)
    lists = set_where_there_is_room(pieces, (beside, below), style)
    return None if lists is None else (*placed.marks, *lists)


def _pieces(report: RoomReport, places: TwoPlaces | None) -> list[ListPiece]:
    notes = [
        "Heights from the level line, places from the wall's left end. z counts from the finished "
        "floor at the mark of the level line.",
        *legend(report),
        *(() if places is None else ("Small rings: holes of the earlier place.",)),
        cautions.CABLES,
        cautions.WALL,
    ]
    tables = [screw_table(report)]
    if places is not None:
        tables.append(holes_table(places))
    pieces = [site_piece(table) for table in tables if table.rows]
    pieces.append(ListPiece(heading="Notes", notes=tuple(notes)))
    after = [things_table(report)]
    if places is not None:
        after.append(comparison_table(places))
    return pieces + [site_piece(table) for table in after if table.rows]
