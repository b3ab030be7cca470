"""What the leader of a callout may point at, for each kind of feature, in paper mm."""

from __future__ import annotations

from functools import singledispatch

from cabinet.board import At
from cabinet.features import (
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Perforation,
)
from drawings.board_paper import BoardPaper
from drawings.layout import Target
from drawings.marks import PaperPoint

# Where along a trimmed edge a leader may point, as shares of it.
_TRIM_SHARES = (0.18, 0.35, 0.82)


@singledispatch
def targets_of(feature: Feature, at: BoardPaper) -> list[Target]:
    """What a leader may point at for a feature; any will do.

    Args:
        feature: The feature.
        at: The view's paper.
    """
    return [Target(at.feature_box(feature).middle)]


@targets_of.register
def _(feature: HoleRow, at: BoardPaper) -> list[Target]:
    radius = max(feature.diameter, feature.countersink) / 2 * at.paper.scale
    holes = (feature.holes[-1], feature.holes[0])
    return [Target(_centre(hole, at), radius) for hole in holes]


@targets_of.register
def _(feature: Hole, at: BoardPaper) -> list[Target]:
    radius = max(feature.diameter, feature.countersink) / 2 * at.paper.scale
    return [Target(_centre(feature, at), radius)]


def _centre(hole: Hole, at: BoardPaper) -> PaperPoint:
    """Where a hole is that is seen from the surface it is bored from."""
    size = at.board.size
    places = {one.axis: at.on_axis(one.axis, one.coordinate(size)) for one in hole.centre}
    return PaperPoint(places[at.look.right[0]], places[at.look.up[0]])


@targets_of.register
def _(feature: CutOut, at: BoardPaper) -> list[Target]:
    box, radius = at.feature_box(feature), feature.corner_radius * at.paper.scale
    return [
        Target(PaperPoint(x, y), radius)
        for x in (box.left + radius, box.right - radius)
        for y in (box.top + radius, box.bottom - radius)
    ]


@targets_of.register
def _(feature: Groove, at: BoardPaper) -> list[Target]:
    """The corners of its stopped ends."""
    stops = [stop for stop in (feature.start, feature.end) if stop is not None]
    return [target for stop in stops for target in _stop_targets(feature, stop, at)]


def _stop_targets(feature: Groove, stop: At, at: BoardPaper) -> list[Target]:
    box = at.feature_box(feature)
    if stop.axis == at.look.toward[0]:
        return []
    place = at.on_axis(stop.axis, stop.coordinate(at.board.size))
    if stop.axis == at.look.right[0]:
        return [Target(PaperPoint(place, y)) for y in (box.top, box.bottom)]
    return [Target(PaperPoint(x, place)) for x in (box.left, box.right)]


@targets_of.register
def _(feature: FlushTrim, at: BoardPaper) -> list[Target]:
    box = at.feature_box(feature)
    middle = box.middle
    if feature.edge.axis == at.look.right[0]:
        places = [PaperPoint(middle.x, box.top + s * box.height) for s in _TRIM_SHARES]
    else:
        places = [PaperPoint(box.left + s * box.width, middle.y) for s in _TRIM_SHARES]
    return [Target(place) for place in places]


@targets_of.register
def _(feature: BiscuitSlot, at: BoardPaper) -> list[Target]:
    """Both ends of its mouth."""
    box = at.feature_box(feature)
    is_level = box.width > box.height
    reach = (box.width if is_level else box.height) / 2
    dx, dy = (reach, 0.0) if is_level else (0.0, reach)
    middle = box.middle
    return [Target(middle.moved(dx, dy)), Target(middle.moved(-dx, -dy))]


@targets_of.register
def _(feature: Perforation, at: BoardPaper) -> list[Target]:
    """Places within its field, for a dot."""
    box = at.feature_box(feature)
    return [Target(box.middle.moved(k * box.width / 6, 0.0)) for k in (0, 1, -1)]
