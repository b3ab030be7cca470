"""A view of the whole unit on paper: its curves and the dimensions that are wished for it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from drawings.block import Block
from drawings.clutter import Clutter
from drawings.curves import Curve, ViewBounds
from drawings.dimension import Dimension, Node
from drawings.dimension_ink import Edge, Wanted, side_ink
from drawings.ground import marks_box
from drawings.marks import Anchor, Group, Ink, Mark, PaperPoint, Text
from drawings.style import Style
from drawings.view_frame import ViewFrame
from drawings.view_paper import ViewPaper
from drawings.views import scale_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """A dimension wished for a view of the unit.

    Attributes:
        edge: Side of the view on which it stands.
        axis: Unit axis: 0 for X, 1 for Y, 2 for Z.
        start: Unit coordinate that it is told from, mm.
        end: Unit coordinate that it tells, mm.
        title: What it measures, in words.
        foot: How far inside the outline the places are seen, mm of the unit.
    """

    edge: Edge
    axis: int
    start: float
    end: float
    title: str
    foot: float = 0.0

    @property
    def dimension(self) -> Dimension:
        """The same as data."""
        return Dimension(
            start=Node(axis=self.axis, coordinate=self.start, what="unit"),
            end=Node(axis=self.axis, coordinate=self.end, what=self.title),
            title=self.title,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitView:
    """What a view of the unit holds, before it is on paper.

    Attributes:
        title: What is seen, in words.
        frame: From where.
        bounds: The part of the view that is drawn, mm.
        curves: Curves with their ink.
        wishes: Dimensions wished for it.
        letter: Letter of a section or a detail, "" for a plain view.
    """

    title: str
    frame: ViewFrame
    bounds: ViewBounds
    curves: tuple[tuple[Ink, tuple[Curve, ...]], ...]
    wishes: tuple[Wish, ...] = ()
    letter: str = ""


def view_on_paper(
    view: UnitView,
    scale: float,
    style: Style,
    *,
    heading: str = "",
    beside: Sequence[Mark] = (),
) -> Block:
    """Put a view on paper at a scale.

    Args:
        view: The view.
        scale: Paper mm for one mm of the unit.
        style: Distances and heights.
        heading: Stands above the view; "" for none.
        beside: What else stands at the view, such as cutting planes; dimensions keep clear of it.

    Returns:
        The block; its outline is the view's bounds, its top left corner at (0, 0).
    """
    paper = ViewPaper(bounds=view.bounds, scale=scale)
    marks: list[Mark] = []
    for ink, curves in view.curves:
        marks += paper.marks(curves, ink)
    clutter = Clutter((*marks, *beside))
    told: list[Mark] = []
    for edge in Edge:
        groups = _told(view, edge, paper, style, clutter)
        clutter.add(groups)
        told += groups
    group: list[Mark] = [
        Group("view", (*marks, *told), title=view.title, description=scale_text(scale)),
        *beside,
    ]
    if heading:
        top = min((box.top for box in [marks_box(group)] if box is not None), default=0.0)
        at = PaperPoint(paper.box.width / 2, top - style.letter_height * 0.6)
        group.append(Text(at, heading, style.letter_height, Anchor.MIDDLE))
    box = marks_box(group) or paper.box
    return Block(marks=tuple(group), box=box.united(paper.box), outline=paper.box)


def _told(
    view: UnitView, edge: Edge, paper: ViewPaper, style: Style, clutter: Clutter
) -> tuple[Mark, ...]:
    wishes = [wish for wish in view.wishes if wish.edge is edge]
    if not wishes:
        return ()
    box = paper.box
    base = {
        Edge.BELOW: box.bottom,
        Edge.ABOVE: box.top,
        Edge.LEFT: box.left,
        Edge.RIGHT: box.right,
    }[edge]
    wanted = []
    for wish in wishes:
        start, end = (_along(view.frame, paper, wish, c) for c in (wish.start, wish.end))
        foot = wish.foot * paper.scale
        wanted.append(
            Wanted(dimension=wish.dimension, start=start, end=end, start_foot=foot, end_foot=foot)
        )
    return side_ink(edge, base, wanted, style, clutter).marks


def _along(frame: ViewFrame, paper: ViewPaper, wish: Wish, coordinate: float) -> float:
    """Paper coordinate, along the side, of a unit coordinate."""
    if wish.edge.is_upright:
        return paper.x(coordinate * frame.right[wish.axis])
    return paper.y(coordinate * frame.up[wish.axis])


def box_of(frame: ViewFrame, corners: Iterable[Sequence[float]]) -> ViewBounds:
    """The rectangle in which points of the unit are seen, mm."""
    seen = [frame.model_to_view((c[0], c[1], c[2])) for c in corners]
    return ViewBounds(
        min(p.u for p in seen),
        min(p.v for p in seen),
        max(p.u for p in seen),
        max(p.v for p in seen),
    )
