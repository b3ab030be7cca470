"""The general arrangement: front view, plan and view from the left, with overall sizes.

First-angle places (ISO 5456-2): the plan below the front view, the view from the left at its
right. A plan that shows nothing but straight joints is left out where the others can then be
drawn larger (ISO 128-3: no more views than are needed). Hidden edges are left out here; what
lies behind doors and under the top is shown by the sections.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product

from cabinet.checks.bodies import bodies
from cabinet.design import around
from cabinet.errors import DesignError
from cabinet.frame import Side, UnitBox
from cabinet.motion import Motion
from cabinet.quantity import ROUNDING
from drawings import cautions
from drawings.block import Block
from drawings.clutter import NoRoom
from drawings.coincidence import without
from drawings.curves import Curve, Segment, ViewPoint
from drawings.cutting_plane import upright_plane
from drawings.dimension_ink import Edge
from drawings.marks import Ink, Mark, PaperPoint
from drawings.notes import notes_marks
from drawings.occlusion import out_of_sight
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.projection import merged, project
from drawings.scene import Scene
from drawings.section_planes import SectionPlanes
from drawings.sheet import Sheet, SheetView
from drawings.style import Style
from drawings.title_block import TitleBlock, title_block_box, title_block_marks
from drawings.unit_ink import UnitView, Wish, box_of, view_on_paper
from drawings.view_frame import FROM_LEFT, FRONT, PLAN, ViewFrame
from drawings.view_paper import ViewPaper
from drawings.views import scale_text

SIZE = SheetSize.A3
SCALES = (1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50)
# Between the views, beside what their dimensions take, mm.
_APART = 14.0
# Left free inside the frame, mm.
_MARGIN = 8.0
# Notes narrower than this read badly, mm.
_LEAST_NOTES = 80.0


def unit_box(scene: Scene) -> UnitBox:
    """The box around everything that is made."""
    return around(part.box for part in scene.unit.parts)


def arrangement_sheet(scene: Scene, planes: SectionPlanes, block: TitleBlock) -> Sheet:
    """The sheet of the general arrangement, at the largest scale that fits an A3.

    Args:
        scene: The unit with its solids.
        planes: Where the sections are taken, to be marked.
        block: Title block; title, scale and document type are filled in here.

    Raises:
        DesignError: the unit is too large for an A3 at 1:50.
    """
    style = style_for(SIZE)
    seen = _seen(scene)
    for scale in SCALES:
        for views in (seen, _without_plan(seen)) if _is_plain(seen.plan) else (seen,):
            blocks = _placed(planes, views, scale, style)
            notes = None if blocks is None else _notes(scene, style, blocks)
            if blocks is not None and notes is not None:
                return _sheet(scene, block, views.all, (*blocks, notes), scale, style)
    raise DesignError(f"{scene.unit.name}: it does not fit on an A3 at 1:50", part=scene.unit.name)


@dataclass(frozen=True, slots=True)
class _Views:
    """The views, each with the dimensions that it tells."""

    front: UnitView
    left: UnitView
    plan: UnitView | None

    @property
    def all(self) -> tuple[UnitView, ...]:
        return tuple(v for v in (self.front, self.plan, self.left) if v is not None)


def _is_plain(plan: UnitView | None) -> bool:
    """Whether a plan shows straight lines along the unit's edges only: joints, no openings."""
    return plan is not None and all(
        isinstance(curve, Segment)
        and min(abs(curve.start.u - curve.end.u), abs(curve.start.v - curve.end.v)) < ROUNDING
        for _, curves in plan.curves
        for curve in curves
    )


def _without_plan(views: _Views) -> _Views:
    """The other views, which take over what the plan told."""
    wishes = () if views.plan is None else views.plan.wishes
    below = {wish.axis: replace(wish, edge=Edge.BELOW) for wish in wishes}
    return _Views(
        front=replace(views.front, wishes=(*views.front.wishes, below[0])),
        left=replace(views.left, wishes=(*views.left.wishes, below[1])),
        plan=None,
    )


def _seen(scene: Scene) -> _Views:
    box = unit_box(scene)
    low, high = box.low, box.high
    front = unit_seen(scene, "front view", FRONT, Side.FRONT)
    plan = unit_seen(scene, "plan", PLAN, Side.TOP)
    left = unit_seen(scene, "view from the left", FROM_LEFT, Side.LEFT)
    return _Views(
        front=replace(
            front,
            curves=(*front.curves, (Ink.PHANTOM, _far_ends(scene, front))),
            wishes=(
                Wish(edge=Edge.LEFT, axis=2, start=low.z, end=high.z, title="overall height"),
                *_stand(box),
            ),
        ),
        plan=replace(
            plan,
            wishes=(
                Wish(edge=Edge.LEFT, axis=1, start=low.y, end=high.y, title="overall depth"),
                Wish(edge=Edge.BELOW, axis=0, start=low.x, end=high.x, title="overall width"),
            ),
        ),
        left=left,
    )


def _stand(box: UnitBox) -> tuple[Wish, ...]:
    """Height of what the carcass stands on, if it stands on anything."""
    if box.low.z >= 0:
        return ()
    return (Wish(edge=Edge.LEFT, axis=2, start=box.low.z, end=0.0, title="floor to carcass"),)


def unit_seen(scene: Scene, title: str, frame: ViewFrame, viewer: Side) -> UnitView:
    """The whole unit as it is seen from outside, without dimensions.

    Args:
        scene: The unit with its solids.
        title: What the view is called.
        frame: From where it is seen.
        viewer: The side on which the viewer stands.
    """
    box = unit_box(scene)
    hidden = out_of_sight(bodies(scene.unit).values(), viewer)
    whole = merged(project(scene.seen_from(viewer, hidden), frame).values())
    return UnitView(
        title=title,
        frame=frame,
        bounds=box_of(frame, product(*zip(box.low, box.high, strict=True))),
        curves=((Ink.VISIBLE, whole.visible),),
    )


def _far_ends(scene: Scene, view: UnitView) -> tuple[Curve, ...]:
    """Outlines of the sliding doors at the other end of their travel."""
    outlines: list[Curve] = []
    parts = scene.unit.by_name
    for move in scene.unit.moves:
        if move.motion is not Motion.SLIDE:
            continue
        travel = move.high if move.high > -move.low else move.low
        for name in move.parts:
            box = parts[name].box
            left, right = box.low.x + travel, box.high.x + travel
            corners = [
                ViewPoint(u, v)
                for u, v in (
                    (left, box.low.z),
                    (right, box.low.z),
                    (right, box.high.z),
                    (left, box.high.z),
                )
            ]
            outlines += [
                Segment(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
            ]
    uprights = [c for c in outlines if isinstance(c, Segment) and c.start.u == c.end.u]
    seen = next(curves for ink, curves in view.curves if ink is Ink.VISIBLE)
    return without(uprights, seen)


def _placed(
    planes: SectionPlanes,
    views: _Views,
    scale: float,
    style: Style,
) -> tuple[Block, ...] | None:
    """The blocks in their places, None if they do not fit clear of the title block."""
    space = drawing_space(SIZE)
    try:
        front = _marked(views.front, planes.across, "A", scale, style, is_seen_to_right=True)
        left = _marked(views.left, -planes.behind, "B", scale, style, is_seen_to_right=False)
    except NoRoom:
        return None
    blocks = [front, left.moved(front.box.right + _APART - left.box.left, 0.0)]
    if views.plan is not None:
        plan = view_on_paper(views.plan, scale, style)
        blocks.insert(1, plan.moved(0.0, front.box.bottom + _APART - plan.box.top))
    least_x, least_y = min(b.box.left for b in blocks), min(b.box.top for b in blocks)
    width = max(b.box.right for b in blocks) - least_x
    height = max(b.box.bottom for b in blocks) - least_y
    slack = space.width - 2 * _MARGIN - width, space.height - 2 * _MARGIN - height
    if min(slack) < 0:
        return None
    dx = space.left + _MARGIN + min(slack[0] / 2, 40.0) - least_x
    title = title_block_box(SIZE)
    # Room to breathe above, unless that pushes the lowest view on to the title block.
    free = title.top - 4.0 - (space.top + _MARGIN + height)
    dy = space.top + _MARGIN + min(max(free, 0.0) / 2, 20.0) - least_y
    placed = tuple(block.moved(dx, dy) for block in blocks)
    return None if any(block.box.overlaps(title, 4.0) for block in placed) else placed


def _marked(
    view: UnitView, at: float, letter: str, scale: float, style: Style, *, is_seen_to_right: bool
) -> Block:
    """A view with the place of a section marked on it, at a place along u in mm.

    Raises:
        NoRoom: a dimension cannot keep clear of the mark.
    """
    paper = ViewPaper(bounds=view.bounds, scale=scale)
    plane = upright_plane(
        paper.x(at),
        paper.box.top,
        paper.box.bottom,
        letter,
        style,
        is_seen_to_right=is_seen_to_right,
    )
    return view_on_paper(view, scale, style, beside=(plane,))


def _sheet(
    scene: Scene,
    block: TitleBlock,
    views: tuple[UnitView, ...],
    blocks: tuple[Block, ...],
    scale: float,
    style: Style,
) -> Sheet:
    filled = replace(
        block,
        title=scene.unit.name,
        supplementary_title="",
        scale=scale_text(scale),
        document_type="general arrangement",
    )
    marks: list[Mark] = [*frame_marks(SIZE, style), *title_block_marks(filled, SIZE, style)]
    for placed in blocks:
        marks += placed.marks
    return Sheet(
        number=block.sheet_number,
        name="general-arrangement",
        title="General arrangement",
        size=SIZE,
        marks=tuple(marks),
        views=tuple(SheetView(title=view.title, scale=scale_text(scale)) for view in views),
    )


def _notes(scene: Scene, style: Style, blocks: tuple[Block, ...]) -> Block | None:
    """Notes on the title block, as wide as it or beside a view; None if there is no room."""
    title = title_block_box(SIZE)
    beside = {max(title.left, block.box.right + _MARGIN) for block in blocks}
    for left in sorted({title.left} | beside):
        width = title.right - 4.0 - left
        if width < _LEAST_NOTES:
            continue
        placed = notes_marks(
            _note_texts(scene), at=PaperPoint(left, title.top), width=width, style=style
        )
        block = Block(marks=placed.marks, box=placed.box, outline=placed.box)
        block = block.moved(0.0, title.top - 5.0 - placed.box.bottom)
        if not any(block.box.overlaps(other.box, 4.0) for other in blocks):
            return block
    return None


def _note_texts(scene: Scene) -> list[str]:
    notes = ["Sizes hold for the finished unit. Boards: see the parts list and the part sheets."]
    if scene.unit.is_hung:
        notes.append(f"Hung on its cleat. {cautions.WALL}")
    else:
        notes.append(cautions.TIPPING)
    if any(move.motion is Motion.SLIDE for move in scene.unit.moves):
        notes.append("Long-dash double-dot lines: doors at the other end of their travel.")
    return notes
