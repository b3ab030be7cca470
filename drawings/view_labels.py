"""Lettering on a view: within what it names where there is room, otherwise on a leader."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from msgspec import structs

from drawings.block import Block
from drawings.clutter import Clutter, NoRoom
from drawings.curves import ViewBounds, ViewPoint
from drawings.ground import marks_box
from drawings.layout import Target, free_spot, placed_callout
from drawings.lettering import text_box, text_width
from drawings.marks import Anchor, Group, Mark, PaperBox, PaperPoint, Text
from drawings.style import Style
from drawings.unit_ink import UnitView, view_on_paper
from drawings.view_paper import ViewPaper

# Lettering may stand so far outside the view's outline, mm.
_OUTSIDE = 30.0
# Between lettering and what stands round it, mm.
_CLEAR = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class ViewLabel:
    """What is written about something in a view.

    Attributes:
        text: What is written.
        at: Where a leader may point, in the view; any will do.
        inside: Where the text may stand without a leader; None for nowhere.
    """

    text: str
    at: tuple[ViewPoint, ...]
    inside: ViewBounds | None = None


def labelled(
    view: UnitView,
    labels: Iterable[ViewLabel],
    scale: float,
    style: Style,
    *,
    may_omit: bool = False,
) -> Block:
    """A view on paper with its lettering in free places, within the view's own group.

    Args:
        view: The view.
        labels: What is written, the most important first.
        scale: Paper mm for one mm.
        style: Distances and heights.
        may_omit: Leave out a label that finds no free place.

    Raises:
        NoRoom: a label or a dimension finds no free place.
    """
    drawn = view_on_paper(view, scale, style)
    paper = ViewPaper(bounds=view.bounds, scale=scale)
    clutter = Clutter(drawn.marks)
    notes: list[Mark] = []
    for label in labels:
        try:
            notes.append(_placed(label, paper, clutter, style))
        except NoRoom:
            if not may_omit:
                raise
    marks = tuple(
        structs.replace(mark, marks=(*mark.marks, *notes))
        if isinstance(mark, Group) and mark.name == "view"
        else mark
        for mark in drawn.marks
    )
    return Block(marks=marks, box=marks_box(marks) or drawn.box, outline=drawn.outline)


def _placed(label: ViewLabel, paper: ViewPaper, clutter: Clutter, style: Style) -> Mark:
    if label.inside is not None:
        corner = paper.point(ViewPoint(label.inside.left, label.inside.top))
        width = label.inside.width * paper.scale
        height = label.inside.height * paper.scale
        box = PaperBox(corner.x, corner.y, corner.x + width, corner.y + height)
        text = _inside(label.text, box, clutter, style)
        if text is not None:
            return text
    targets = [Target(paper.point(at)) for at in label.at]
    return placed_callout(
        label.text,
        label.text,
        targets,
        clutter,
        style,
        home=paper.box,
        within=paper.box.grown(_OUTSIDE),
    )


def _inside(text: str, box: PaperBox, clutter: Clutter, style: Style) -> Mark | None:
    """The text in free space within a box; None if there is none."""
    height = style.figure_height
    width = text_width(text, height)
    spot = free_spot(width, 1.4 * height, clutter, within=box.grown(-_CLEAR), gap=_CLEAR, step=1.0)
    if spot is None:
        return None
    at = PaperPoint((spot.left + spot.right) / 2, spot.bottom - 0.3 * height)
    mark = Text(at, text, height, Anchor.MIDDLE)
    clutter.block(text_box(mark))
    return Group("note", (mark,), title=text)
