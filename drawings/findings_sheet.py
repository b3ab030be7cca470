"""The sheet of findings: where in the unit each one is, ringed, and what to change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from cabinet.findings import Finding
from cabinet.frame import Side, UnitPoint
from drawings.arrangement import SCALES, unit_seen
from drawings.block import Block
from drawings.clutter import Clutter
from drawings.layout import Places, placed_label
from drawings.list_pages import list_pages, numbered
from drawings.list_piece import ListPiece
from drawings.marks import Anchor, Circle, Group, Ink, Mark, PaperBox, PaperPoint, Text
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.scene import Scene
from drawings.sheet import Sheet, SheetView
from drawings.style import Style
from drawings.table import Column, Placed, table_marks
from drawings.title_block import TitleBlock, title_block_box, title_block_marks
from drawings.unit_ink import UnitView, view_on_paper
from drawings.view_frame import FRONT, PLAN
from drawings.view_paper import ViewPaper
from drawings.views import scale_text

SIZE = SheetSize.A3

_RING = 4.0  # radius of a ring, mm
_NEAR = 3.0  # places nearer than this on paper share a ring, mm
_MARGIN = 8.0
_BETWEEN = 12.0  # from the front view to the plan, mm
_TABLE = 176.0  # width of the table, mm


def findings_sheets(
    scene: Scene, findings: Sequence[Finding], block: TitleBlock
) -> tuple[Sheet, ...]:
    """The findings with their places; none if nothing was found.

    Args:
        scene: The unit with its solids.
        findings: What the checks found.
        block: Title block of the first sheet; the others count on from it.
    """
    if not findings:
        return ()
    style = style_for(SIZE)
    rows = [_row(number, one) for number, one in enumerate(findings, start=1)]
    table, told = _table(rows, style)
    views = (
        unit_seen(scene, "front view, with the places of findings", FRONT, Side.FRONT),
        unit_seen(scene, "plan, with the places of findings", PLAN, Side.TOP),
    )
    scale = next((s for s in SCALES if _fits(views, s)), SCALES[-1])
    marks: list[Mark] = []
    for seen in _stacked(views, scale, findings, style):
        marks += seen.marks
    filled = replace(
        block,
        title="Findings",
        document_type="findings",
        scale=scale_text(scale),
        general_tolerance="",
    )
    first = Sheet(
        number=block.sheet_number,
        name="findings",
        title="Findings",
        size=SIZE,
        marks=(
            *frame_marks(SIZE, style),
            *title_block_marks(filled, SIZE, style),
            *marks,
            *table.marks,
        ),
        views=tuple(SheetView(title=view.title, scale=scale_text(scale)) for view in views),
    )
    return (first, *_rest(rows[told:], block))


def _rest(rows: Sequence[tuple[str, ...]], block: TitleBlock) -> tuple[Sheet, ...]:
    if not rows:
        return ()
    piece = ListPiece(heading="Findings, continued", columns=_COLUMNS, rows=tuple(rows))
    return list_pages(
        [piece],
        name="findings-continued",
        title="Findings, continued",
        document_type="findings",
        block=numbered(block, 1),
    )


_COLUMNS = (
    Column(heading="no.", width=9.0, anchor=Anchor.END),
    Column(heading="severity", width=21.0),
    Column(heading="rule", width=34.0),
    Column(heading="what to change"),
)


def _row(number: int, finding: Finding) -> tuple[str, ...]:
    return str(number), finding.severity.value, finding.rule, finding.sentence


def _table(rows: Sequence[tuple[str, ...]], style: Style) -> tuple[Placed, int]:
    """As many rows as stand above the title block, at least one."""
    space = drawing_space(SIZE)
    at = PaperPoint(space.right - _MARGIN - _TABLE, space.top + _MARGIN)
    foot = title_block_box(SIZE).top - 4.0
    for count in range(len(rows), 0, -1):
        placed = table_marks(
            _COLUMNS, rows[:count], at=at, width=_TABLE, style=style, title="Findings"
        )
        if placed.box.bottom <= foot or count == 1:
            return placed, count
    raise AssertionError("there is at least one row")


def _room() -> PaperBox:
    space = drawing_space(SIZE)
    right = space.right - 2 * _MARGIN - _TABLE
    return PaperBox(space.left + _MARGIN, space.top + _MARGIN, right, space.bottom - _MARGIN)


def _fits(views: Sequence[UnitView], scale: float) -> bool:
    room, title = _room(), title_block_box(SIZE)
    width = max(view.bounds.width for view in views) * scale + 4 * _RING
    height = sum(view.bounds.height for view in views) * scale + _BETWEEN + 8 * _RING
    # The title block is wider than the table is, so the views keep above it.
    return width <= room.width and height <= title.top - 4.0 - room.top


def _stacked(
    views: Sequence[UnitView], scale: float, findings: Sequence[Finding], style: Style
) -> list[Block]:
    """The views one below the other, each with its rings."""
    room = _room()
    y, blocks = room.top + 2 * _RING, []
    for view in views:
        seen = _ringed(view_on_paper(view, scale, style), view, scale, findings, style)
        x = room.left + (room.width - seen.outline.width) / 2
        blocks.append(seen.moved(x - seen.outline.left, y - seen.outline.top))
        y += seen.outline.height + _BETWEEN + 4 * _RING
    return blocks


def _ringed(
    block: Block, view: UnitView, scale: float, findings: Sequence[Finding], style: Style
) -> Block:
    """A view with a ring and the numbers of the findings at each of their places."""
    paper = ViewPaper(bounds=view.bounds, scale=scale)
    places: list[tuple[PaperPoint, list[str]]] = []
    for number, finding in enumerate(findings, start=1):
        if finding.where is None:
            continue
        at = paper.point(view.frame.model_to_view(_vector(finding.where)))
        if not paper.box.grown(_RING).contains(PaperBox(at.x, at.y, at.x, at.y)):
            # On the wall beside the unit: the wall elevation shows that place.
            continue
        near = next((n for p, n in places if abs(p.x - at.x) + abs(p.y - at.y) < _NEAR), None)
        if near is None:
            places.append((at, [str(number)]))
        else:
            near.append(str(number))
    rings = [Circle(at, _RING, Ink.RING) for at, _ in places]
    clutter = Clutter((*block.marks, *rings))
    labels = [_label(at, ", ".join(numbers), clutter, style) for at, numbers in places]
    group = Group("findings", (*rings, *labels), title="Places of the findings")
    return Block(marks=(*block.marks, group), box=block.box, outline=block.outline)


def _vector(point: UnitPoint) -> tuple[float, float, float]:
    return point.x, point.y, point.z


def _label(at: PaperPoint, text: str, clutter: Clutter, style: Style) -> Text:
    """The numbers beside a ring, further off where it is crowded."""
    height = style.figure_height
    tries = (
        Places(Text(at, text, height, anchor), np.array([(at.x + x, at.y + y)]))
        for off in (_RING + 1.5 * reach for reach in range(1, 14))
        for x, y, anchor in (
            (off, height / 2, Anchor.START),
            (-off, height / 2, Anchor.END),
            (0.0, -off, Anchor.MIDDLE),
            (0.0, off + height, Anchor.MIDDLE),
            (0.75 * off, -0.75 * off, Anchor.START),
            (0.75 * off, 0.75 * off + height, Anchor.START),
            (-0.75 * off, -0.75 * off, Anchor.END),
            (-0.75 * off, 0.75 * off + height, Anchor.END),
        )
    )
    placed = placed_label(tries, clutter, within=None, gap=0.8)
    # A place so crowded is told by its number all the same; the lint says so.
    return placed or Text(at.moved(0.0, height / 2), text, height, Anchor.MIDDLE)
