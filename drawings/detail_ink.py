"""An enlarged piece of a board's cross-section as ink: cut outline, hatching, dimensions.

The piece is cut from the section of the real solid. Where it ends within the board, its border
is a break line. Lengths are in paper mm unless a name says otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from cabinet.board import Surface
from cabinet.features import Bevel, BiscuitSlot, Feature, FlushTrim, Hole, HoleRow
from cabinet.part import Board
from cabinet.stock import Hatching
from drawings.block import Block
from drawings.board_projection import board_cut
from drawings.curves import ArcCurve, Curve, PolyCurve, Segment, ViewBounds, ViewPoint
from drawings.dimension import Dimension
from drawings.dimension_ink import Edge, Wanted, side_ink
from drawings.drawn import Drawn
from drawings.hatch import hatch
from drawings.layout import Target, placed_callout
from drawings.marks import Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.style import Style
from drawings.view_paper import ViewPaper
from drawings.views import DetailView, scale_text, worked_surface

_ON_BORDER = 1e-6
_BREAK_DEPTH = 1.2  # how far a break line's zigzag reaches to either side, mm
_ROOM = 45.0  # how far from the outline a callout may stand, mm

# Paper mm between the lines of one direction, by kind of material; a board's hatch follows
# its thickness instead.
_SPACING = {Hatching.SOLID_WOOD: 3.0, Hatching.METAL: 1.5, Hatching.SOFT: 2.5}
_ANGLES = {
    Hatching.SOLID_WOOD: (45.0,),
    Hatching.METAL: (45.0,),
    Hatching.SOFT: (45.0, 135.0),
}
_LEAST_SPACING = 1.5
"""Least distance of hatch lines, mm; ISO 128-3 asks for 0.7, a calm sheet for more."""


def _points(curve: Curve) -> list[ViewPoint]:
    if isinstance(curve, Segment):
        return [curve.start, curve.end]
    if isinstance(curve, PolyCurve):
        return list(curve.points)
    steps = max(4, math.ceil((curve.end - curve.start) / 10.0))
    return [
        curve.point_at(curve.start + (curve.end - curve.start) * i / steps)
        for i in range(steps + 1)
    ]


def _corners(loop: Sequence[Curve]) -> list[ViewPoint]:
    """A closed loop's corners in order; arcs as chords of 10 degrees."""
    trail: list[ViewPoint] = []
    for index, curve in enumerate(loop):
        points = _points(curve)
        if isinstance(curve, ArcCurve) and index > 0 and _far(trail[-1], points[0]):
            points.reverse()
        elif isinstance(curve, ArcCurve) and index == 0 and len(loop) > 1:
            following = _points(loop[1])
            if not _far(points[0], following[0]):
                points.reverse()
        trail += points[:-1]
    return trail


def _far(one: ViewPoint, other: ViewPoint) -> bool:
    return math.hypot(one.u - other.u, one.v - other.v) > 1e-3


def _clipped(corners: Sequence[ViewPoint], low: float, high: float) -> list[ViewPoint]:
    """A closed outline between two upright borders (Sutherland-Hodgman)."""
    result = list(corners)
    for border, sign in ((low, 1.0), (high, -1.0)):
        source, result = result, []
        for a, b in zip(source, source[1:] + source[:1], strict=True):
            inside_a = (a.u - border) * sign >= -_ON_BORDER
            inside_b = (b.u - border) * sign >= -_ON_BORDER
            if inside_a:
                result.append(a)
            if inside_a != inside_b:
                share = (border - a.u) / (b.u - a.u)
                result.append(ViewPoint(border, a.v + share * (b.v - a.v)))
    return result


class DetailInk:
    """Draws one detail.

    Args:
        board: The board.
        detail: Which piece, with its dimensions and callouts.
        scale: Paper mm for one mm.
        style: The look.
        caption: What it shows, in words.
    """

    def __init__(
        self, board: Board, detail: DetailView, scale: float, style: Style, caption: str
    ) -> None:
        self.board = board
        self.detail = detail
        self.scale = scale
        self.style = style
        self.caption = caption
        self.look = detail.look
        low, high = detail.window
        sign = self.look.up[1]
        extent = board.thickness
        bounds = ViewBounds(low, min(0.0, sign * extent), high, max(0.0, sign * extent))
        self.paper = ViewPaper(bounds=bounds, scale=scale)
        self.outline = self.paper.box
        self.drawn = Drawn()
        self._corners: list[ViewPoint] = []
        self._by_name = {feature.name: feature for feature in board.features}
        self._sides: dict[Edge, list[Dimension]] = {}
        for link in detail.links:
            self._sides.setdefault(self._side_for(link), []).append(link)

    def add(self, *marks: Mark) -> None:
        """Draw marks, and keep their place from others."""
        self.drawn.add(marks)

    def section(self) -> None:
        """The cut face within the window, hatched by the kind of material."""
        found = board_cut(self.board, self.look, self.detail.plane)
        if found is None:
            return
        low, high = self.detail.window
        outlines = [_clipped(_corners(loop), low, high) for loop in found.loops]
        outlines = [outline for outline in outlines if len(outline) > 2]
        self._corners = [corner for outline in outlines for corner in outline]
        closed = [
            [
                Segment(a, b)
                for a, b in zip(outline, outline[1:] + outline[:1], strict=True)
                if _far(a, b)
            ]
            for outline in outlines
        ]
        sides = [self._side(side.start, side.end) for outline in closed for side in outline]
        self.add(*sides, *self.paper.marks(self._hatch(closed), Ink.HATCH))
        self._glue_lines(closed)
        self._blank_outline()

    def _side(self, a: ViewPoint, b: ViewPoint) -> Mark:
        extent = self.board.size.along[self.detail.cross_axis]
        for border in self.detail.window:
            is_here = abs(a.u - border) < 1e-4 and abs(b.u - border) < 1e-4
            if is_here and 1e-4 < border < extent - 1e-4:
                return self._break(a, b)
        return Line(self.paper.point(a), self.paper.point(b), Ink.CUT)

    def _break(self, a: ViewPoint, b: ViewPoint) -> Polyline:
        """A straight line with one zigzag in its middle. Source: ISO 128-2, type 01.1."""
        start, end = self.paper.point(a), self.paper.point(b)
        middle = (start.y + end.y) / 2
        down = 1.0 if end.y > start.y else -1.0
        x = start.x
        points = [
            start,
            PaperPoint(x, middle - down * 2 * _BREAK_DEPTH),
            PaperPoint(x + _BREAK_DEPTH, middle - down * _BREAK_DEPTH * 0.8),
            PaperPoint(x - _BREAK_DEPTH, middle + down * _BREAK_DEPTH * 0.8),
            PaperPoint(x, middle + down * 2 * _BREAK_DEPTH),
            end,
        ]
        if abs(end.y - start.y) < 5 * _BREAK_DEPTH:
            points = [start, end]
        return Polyline(tuple(points), Ink.NARROW)

    def _hatch(self, loops: list[list[Segment]]) -> list[Segment]:
        if not loops:
            return []
        kind = self.board.stock.hatching
        if kind is Hatching.BOARD:
            # Trade-school practice for panels (DIN 919 drawings): at right angles to the faces,
            # spaced at about half the thickness.
            spacing = max(self.board.stock.measured / 2, _LEAST_SPACING / self.scale)
            return list(hatch(loops, 90.0, spacing, spacing / 2))
        spacing = _SPACING[kind] / self.scale
        return [segment for angle in _ANGLES[kind] for segment in hatch(loops, angle, spacing)]

    def _glue_lines(self, loops: list[list[Segment]]) -> None:
        """Where two boards are glued face to face."""
        for layer in range(1, self.board.layers):
            level = layer * self.board.stock.measured * self.look.up[1]
            spans = [
                sorted((s.start.u, s.end.u)) for loop in loops for s in _level_cut(loop, level)
            ]
            for left, right in spans:
                a, b = ViewPoint(left, level), ViewPoint(right, level)
                self.add(self.paper.mark(Segment(a, b), Ink.NARROW))

    def _blank_outline(self) -> None:
        """The strip that is trimmed flush after gluing, as it stands before."""
        for trim in self.board.trims:
            if trim.edge.axis != self.detail.cross_axis:
                continue
            edge = 0.0 if trim.edge.sign < 0 else self.board.size.along[trim.edge.axis]
            if not self.detail.window[0] - 1e-6 <= edge <= self.detail.window[1] + 1e-6:
                continue
            x = self.paper.x(edge)
            reach = trim.proud * self.scale * (-trim.edge.sign)
            top, bottom = self._trim_span(trim)
            self.add(
                Line(PaperPoint(x + reach, top), PaperPoint(x, top), Ink.PHANTOM),
                Line(PaperPoint(x, top), PaperPoint(x, bottom), Ink.PHANTOM),
                Line(PaperPoint(x, bottom), PaperPoint(x + reach, bottom), Ink.PHANTOM),
            )

    def _trim_span(self, trim: FlushTrim) -> tuple[float, float]:
        """Top and bottom of the strip's end: what rebates along that edge have left of it."""
        top, bottom = self.outline.top, self.outline.bottom
        for feature in self.board.features:
            box = self._feature_box(feature)
            is_here = (
                worked_surface(feature) is not None and getattr(feature, "edge", None) is trim.edge
            )
            if not is_here:
                continue
            if box.top <= top + 0.01:
                top = box.bottom
            elif box.bottom >= bottom - 0.01:
                bottom = box.top
        return top, bottom

    def centre_lines(self) -> None:
        """Centre lines of slots and holes cut lengthwise."""
        over = self.style.centre_overshoot
        for name in self.detail.features:
            feature = self._by_name[name]
            if not isinstance(feature, BiscuitSlot | Hole | HoleRow):
                continue
            box = self._feature_box(feature)
            y = (box.top + box.bottom) / 2
            self.add(
                Line(PaperPoint(box.left - over, y), PaperPoint(box.right + over, y), Ink.CENTRE)
            )

    def _feature_box(self, feature: Feature) -> PaperBox:
        seen = self.look.bounds(feature.box(self.board.size))
        return PaperBox(
            self.paper.x(seen.left),
            self.paper.y(seen.top),
            self.paper.x(seen.right),
            self.paper.y(seen.bottom),
        )

    def dimensions(self) -> None:
        """Width and place above or below, depths and thickness beside the shape."""
        box = self.outline
        bases = {
            Edge.BELOW: box.bottom,
            Edge.ABOVE: box.top,
            Edge.LEFT: box.left,
            Edge.RIGHT: box.right,
        }
        for edge in Edge:
            if edge in self._sides:
                wanted = [self._wanted(link, edge) for link in self._sides[edge]]
                drawn = side_ink(edge, bases[edge], wanted, self.style, self.drawn.clutter)
                self.add(*drawn.marks)

    def _side_for(self, link: Dimension) -> Edge:
        feature = self._by_name.get(link.feature)
        box = self.outline
        if feature is None:
            if link.axis != 2:
                return Edge.BELOW
            extent = self.board.size.along[self.detail.cross_axis]
            low, high = self.detail.window
            is_right_edge = high >= extent - 1e-6 and low > 1e-6
            # Thickness stands where the board really ends, depths on the other side if they can.
            return Edge.RIGHT if is_right_edge else Edge.LEFT
        shape = self._feature_box(feature)
        if link.axis == 2:
            middle = (shape.left + shape.right) / 2
            return Edge.LEFT if middle < (box.left + box.right) / 2 else Edge.RIGHT
        surface = worked_surface(feature)
        up = Surface.A if self.look.up[1] > 0 else Surface.B
        if surface is not None and surface.is_face:
            return Edge.ABOVE if surface is up else Edge.BELOW
        middle = (shape.top + shape.bottom) / 2
        return Edge.ABOVE if middle <= (box.top + box.bottom) / 2 else Edge.BELOW

    def _wanted(self, link: Dimension, edge: Edge) -> Wanted:
        feature = self._by_name.get(link.feature)
        extent = self.board.size.along[link.axis]
        foot = 0.0
        if feature is not None:
            shape, box = self._feature_box(feature), self.outline
            foot = max(
                0.0,
                {
                    Edge.BELOW: box.bottom - shape.bottom,
                    Edge.ABOVE: shape.top - box.top,
                    Edge.LEFT: shape.left - box.left,
                    Edge.RIGHT: box.right - shape.right,
                }[edge],
            )
        feet = [
            self._edge_foot(link.axis, c, edge) if min(abs(c), abs(c - extent)) < 1e-6 else foot
            for c in (link.start.coordinate, link.end.coordinate)
        ]
        return Wanted(
            dimension=link,
            start=self._on_axis(link.axis, link.start.coordinate),
            end=self._on_axis(link.axis, link.end.coordinate),
            start_foot=feet[0],
            end_foot=feet[1],
        )

    def _edge_foot(self, axis: int, coordinate: float, edge: Edge) -> float:
        """How far inside the outline the board's own edge is met: a bevel takes some away."""
        surface = next(s for s in Surface if s.axis == axis and (s.sign > 0) == (coordinate > 1e-6))
        slack = 1e-4 + sum(trim.proud for trim in self.board.trims if trim.edge is surface)
        at = self._on_axis(axis, coordinate)
        box = self.outline
        found = []
        for corner in self._corners:
            point = self.paper.point(corner)
            along, out = {
                Edge.BELOW: (point.x, box.bottom - point.y),
                Edge.ABOVE: (point.x, point.y - box.top),
                Edge.LEFT: (point.y, point.x - box.left),
                Edge.RIGHT: (point.y, box.right - point.x),
            }[edge]
            if abs(along - at) <= slack * self.scale:
                found.append(out)
        return max(0.0, min(found, default=0.0))

    def _on_axis(self, axis: int, coordinate: float) -> float:
        if axis == self.look.right[0]:
            return self.paper.x(coordinate * self.look.right[1])
        return self.paper.y(coordinate * self.look.up[1])

    def callouts(self) -> None:
        """Angles of bevels at the sawn face, sizes of slots at their floor."""
        for callout in self.detail.callouts:
            targets = [
                Target(point)
                for name in callout.features
                if name in self.detail.features
                for point in self._target_points(self._by_name[name])
            ]
            if not targets:
                continue
            group = placed_callout(
                callout.text,
                callout.title,
                targets,
                self.drawn.clutter,
                self.style,
                home=self.outline.grown(_ROOM),
                within=self.outline.grown(_ROOM),
            )
            self.drawn.add_placed(group)

    def _target_points(self, feature: Feature) -> list[PaperPoint]:
        if isinstance(feature, Bevel):
            return self._bevel_points(feature)
        box = self._feature_box(feature)
        middle = self.outline.left + self.outline.width / 2
        inner = box.right if (box.left + box.right) / 2 < middle else box.left
        return [PaperPoint(inner, box.top + share * box.height) for share in (0.25, 0.75)]

    def _bevel_points(self, feature: Bevel) -> list[PaperPoint]:
        """Points on the sawn face."""
        thick, reach = self.board.thickness, feature.reach(self.board.thickness)
        extent = self.board.size.along[feature.edge.axis]
        found = []
        for share in (0.5, 0.35, 0.65):
            across = share * reach
            across = across if feature.edge.sign < 0 else extent - across
            depth = feature.land + share * (thick - feature.land)
            level = thick - depth if feature.sharp is Surface.A else depth
            found.append(
                PaperPoint(self._on_axis(feature.edge.axis, across), self._on_axis(2, level))
            )
        return found

    def heading(self) -> None:
        """Letter and scale above the detail, and what it shows."""
        style = self.style
        box = self.drawn.box or self.outline
        text = f"{self.detail.letter} ({scale_text(self.scale)})"
        left = self.outline.left
        caption_foot = box.top - 2.5
        self.add(
            Text(PaperPoint(left, caption_foot), self.caption, style.note_height),
            Text(
                PaperPoint(left, caption_foot - style.note_height - 1.8),
                text,
                style.letter_height,
            ),
        )

    def block(self) -> Block:
        """The detail, complete, as the group of a view.

        Raises:
            NoRoom: something that must be told finds no free place at this scale.
        """
        self.section()
        self.centre_lines()
        self.dimensions()
        self.callouts()
        self.heading()
        group = Group(
            "view",
            tuple(self.drawn.marks),
            title=detail_title(self.detail, self.caption),
            description=scale_text(self.scale),
        )
        box = self.drawn.box or self.outline
        return Block(marks=(group,), box=box, outline=self.outline)


def _level_cut(loop: Sequence[Segment], level: float) -> list[Segment]:
    """The pieces within a closed outline of the level line at ``level``, mm."""
    crossings = sorted(
        s.start.u + (level - s.start.v) / (s.end.v - s.start.v) * (s.end.u - s.start.u)
        for s in loop
        if (s.start.v > level) != (s.end.v > level)
    )
    pairs = list(pairwise(crossings))[::2]
    return [Segment(ViewPoint(a, level), ViewPoint(b, level)) for a, b in pairs if b - a > 1e-3]


def detail_title(detail: DetailView, caption: str) -> str:
    """What a detail is called in the file of its sheet and in the job's record."""
    return f"detail {detail.letter}, {caption}"
