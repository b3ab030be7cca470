"""A board's views as ink: projected edges, centre lines, dimensions, callouts, names.

Each view is drawn on its own piece of paper, the top left corner of the board's blank at
(0, 0); the sheet moves it to its place. Lengths are in paper mm unless a name says otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from copy import copy

import numpy as np
from msgspec import structs

from cabinet.board import AXIS_NAMES, Surface
from cabinet.features import (
    BiscuitSlot,
    CutOut,
    Feature,
    Hole,
    HoleRow,
    Perforation,
)
from cabinet.part import Board
from cabinet.quantity import named
from cabinet.set_out import holes
from cabinet.stock import Grain
from drawings.block import Block
from drawings.board_paper import BoardPaper
from drawings.board_projection import board_edges
from drawings.break_line import break_line, without_breaks, zigzags
from drawings.clutter import NoRoom
from drawings.dimension import Callout, Dimension
from drawings.dimension_ink import Edge, Wanted, least_box, side_ink
from drawings.dimensioning import SurfaceNames
from drawings.drawn import Drawn
from drawings.edge_names import edge_names_beside, edge_names_within
from drawings.ground import texts
from drawings.interruption import BREAK_ROOM, Interruption
from drawings.layout import (
    Places,
    Target,
    free_spot,
    grain_marks,
    placed_callout,
    placed_label,
)
from drawings.leader_targets import targets_of
from drawings.lettering import text_box, text_width
from drawings.look import Look
from drawings.mark_clipping import clipped_marks
from drawings.marks import (
    Anchor,
    Circle,
    Group,
    Ink,
    Line,
    Mark,
    PaperBox,
    PaperPoint,
    Text,
)
from drawings.number import dimension_text
from drawings.style import Style
from drawings.views import BoardView, DetailView, Place, scale_text, worked_surface

WIDE_ROOM = 62.0
"""How far from the outline a callout may stand, mm."""

NARROW_ROOM = 14.0
"""The same where width is short."""

_GRAIN_LONG, _GRAIN_HIGH = 26.0, 5.5
_NARROW = 12.0  # a view lower than this has its names beside each other, mm
_NAMES_APART = 4.0  # from one of these to the next, mm
_SAME = 1e-6  # places nearer than this are one, mm
_CENTRE_OVER = 1.5  # from the outline of a hole seen round to the end of its centre line, mm
_SHOWN_HOLES = 5  # holes of a perforation drawn along each side of its corner


class BoardInk:
    """Draws one view of a whole board.

    Args:
        board: The board.
        view: Which view, with its dimensions and callouts.
        scale: Paper mm for one mm.
        style: The look.
        names: What the maker calls each surface.
        additions: By a callout's title, what is added to its text.
        interruption: What the view leaves out; None if it shows the whole board.
    """

    def __init__(
        self,
        board: Board,
        view: BoardView,
        scale: float,
        style: Style,
        names: SurfaceNames,
        additions: Mapping[str, str] | None = None,
        interruption: Interruption | None = None,
    ) -> None:
        self.additions = additions or {}
        self.board = board
        self.view = view
        self.scale = scale
        self.style = style
        self.names = names
        self.look: Look = view.look
        self.interruption = interruption
        self.at = BoardPaper(board, self.look, scale, interruption)
        self.paper = self.at.paper
        self.outline = self.at.outline
        self.drawn = Drawn()
        self.reaches_far = False
        self._by_name = {feature.name: feature for feature in board.features}
        self._sides: dict[Edge, list[Wanted]] = {}
        for link in view.links:
            edge = self.side_for(link)
            self._sides.setdefault(edge, []).append(self.wanted(link, edge))

    @property
    def least(self) -> Block:
        """The paper that the view takes at least, with nothing on it."""
        sides = {edge: [(w.start, w.end) for w in them] for edge, them in self._sides.items()}
        box = least_box(self.outline, sides, self.style)
        return Block(marks=(), box=box, outline=self.outline)

    def begin(
        self, hints: dict[Surface, str], details: Sequence[DetailView], *, hides: bool
    ) -> None:
        """Draw all but callouts and what is written in the places then left.

        Args:
            hints: Surfaces whose names stand in the view, with what is added to each.
            details: Details whose places are ringed in it.
            hides: Whether hidden edges are shown.

        Raises:
            NoRoom: something that must be told finds no free place at this scale.
        """
        self.edges(with_hidden=hides)
        self.trims()
        self.centre_lines(with_hidden=hides)
        self.perforations()
        self.breaks()
        self.dimensions()
        self.rings(details)
        self.surface_labels(hints)

    def add(self, *marks: Mark) -> None:
        """Draw marks, and keep their place from others."""
        self.drawn.add(marks)

    def add_lines(self, *lines: Line) -> None:
        """Draw what is shown of lines that lie level or upright."""
        self.add(*(shown for line in lines for shown in without_breaks(line, self.at.breaks)))

    # Ink

    def edges(self, *, with_hidden: bool) -> None:
        """Visible and, if wanted, hidden edges of the finished board."""
        seen = board_edges(self.board, self.look)
        self.add(*self.paper.marks(seen.visible, Ink.VISIBLE))
        if with_hidden:
            self.add(*self.paper.marks(seen.hidden, Ink.HIDDEN))

    def trims(self) -> None:
        """The outline before flush trims, where the strip is wide enough to be seen."""
        for trim in self.board.trims:
            if trim.edge.axis == self.look.toward[0]:
                continue
            if trim.proud * self.scale < self.style.line_gap:
                continue
            box = self.at.feature_box(trim)
            corners = [
                PaperPoint(box.left, box.top),
                PaperPoint(box.right, box.top),
                PaperPoint(box.right, box.bottom),
                PaperPoint(box.left, box.bottom),
            ]
            self.add_lines(
                *(
                    Line(a, b, Ink.PHANTOM)
                    for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
                )
            )

    def is_seen(self, feature: Feature) -> bool:
        """Whether a feature is worked from the side that the view shows."""
        surface = worked_surface(feature)
        return surface is None or surface is self.look.surface

    def centre_lines(self, *, with_hidden: bool) -> None:
        """Centre lines of holes, openings and slots."""
        found: list[Line] = []
        for feature in self.board.features:
            if self.is_seen(feature) and self.look.toward[0] in self._face_axes(feature):
                found += self._face_centres(feature)
            elif with_hidden or self.is_seen(feature):
                found += self._side_centre(feature)
        self.add_lines(*found)

    def _face_axes(self, feature: Feature) -> tuple[int, ...]:
        match feature:
            case Hole() | HoleRow():
                return (feature.surface.axis,)
            case CutOut():
                return (2,)
            case BiscuitSlot():
                return (feature.surface.axis,)
            case _:
                return ()

    def _face_centres(self, feature: Feature) -> Iterator[Line]:
        """The centre lines of a feature seen from the surface that it is worked from."""
        box = self.at.feature_box(feature)
        match feature:
            case HoleRow():
                is_level = self.look.right[0] == feature.first.axis
                yield _centre_line(box, _CENTRE_OVER, is_level=is_level)
                size, axis = self.board.size, feature.first.axis
                for hole in feature.holes:
                    place = self.at.on_axis(axis, hole.centre[0].coordinate(size))
                    yield _crossing_line(place, box, _CENTRE_OVER, is_level=not is_level)
            case Hole() | CutOut():
                yield _centre_line(box, _CENTRE_OVER, is_level=True)
                yield _centre_line(box, _CENTRE_OVER, is_level=False)
            case BiscuitSlot():
                is_level = feature.centre.axis != self.look.right[0]
                yield _centre_line(box, _CENTRE_OVER, is_level=is_level)

    def _side_centre(self, feature: Feature) -> Iterator[Line]:
        """The axis of a slot or hole that is seen from the side."""
        if not isinstance(feature, BiscuitSlot | Hole):
            return
        if feature.surface.is_face or feature.surface.axis == self.look.toward[0]:
            return
        is_level = feature.surface.axis == self.look.right[0]
        box = self.at.feature_box(feature)
        yield _centre_line(box, self.style.centre_overshoot, is_level=is_level)

    def breaks(self) -> None:
        """Where the view leaves something out, a pair of lines with zigzags."""
        for gap in self.at.breaks:
            is_upright = gap.top == self.outline.top and gap.bottom == self.outline.bottom
            low, high = (gap.top, gap.bottom) if is_upright else (gap.left, gap.right)
            turns = zigzags(low, high, self._ends_at(gap, is_upright=is_upright), self.style)
            places = (gap.left, gap.right) if is_upright else (gap.top, gap.bottom)
            lines = tuple(
                break_line(place, low, high, turns, self.style, is_upright=is_upright)
                for place in places
            )
            self.add(Group("break", lines))

    def _ends_at(self, gap: PaperBox, *, is_upright: bool) -> list[float]:
        """Where along a break other lines end at it, without the outline's own."""
        found = set()
        for mark in self.drawn.marks:
            if isinstance(mark, Line):
                for end in (mark.start, mark.end):
                    across, along = (end.x, end.y) if is_upright else (end.y, end.x)
                    limits = (gap.left, gap.right) if is_upright else (gap.top, gap.bottom)
                    if min(abs(across - limit) for limit in limits) < _SAME:
                        found.add(along)
        return sorted(found)

    def perforations(self) -> None:
        """A corner of the holes of a perforated sheet, cut where the edges cut them."""
        if self.look.toward[0] != 2:
            return
        for feature in self.board.features:
            if not isinstance(feature, Perforation):
                continue
            shown = 2 * _SHOWN_HOLES * feature.pitch
            near = [
                Circle(
                    PaperPoint(self.at.on_axis(0, x), self.at.on_axis(1, y)),
                    feature.diameter / 2 * self.scale,
                    Ink.PATTERN,
                )
                for x, y in holes(feature, self.board.size)
                if x < shown and y < shown / 2
            ]
            self.add(*clipped_marks(near, self.outline))

    # Dimensions

    def side_for(self, link: Dimension) -> Edge:
        """On which side of the view a dimension stands.

        The fence's edge takes lengths and the stop's end takes widths, as one sets them; what
        lies in the far half goes to the other side, so that its lines stay short.
        """
        is_level = link.axis == self.look.right[0]
        if self.view.place in (Place.ABOVE, Place.BELOW):
            outer = Edge.ABOVE if self.view.place is Place.ABOVE else Edge.BELOW
            return outer if is_level else Edge.LEFT
        if self.view.place in (Place.LEFT, Place.RIGHT):
            outer = Edge.LEFT if self.view.place is Place.LEFT else Edge.RIGHT
            return Edge.BELOW if is_level else outer
        datum = self.board.fence if is_level else self.board.stop
        home = self.at.edge_of(datum)
        feature = self._by_name.get(link.feature)
        if feature is None:
            return home
        far = self.at.edge_of(datum.opposite)
        box = self.at.feature_box(feature)
        near_foot, far_foot = self.at.foot(box, home), self.at.foot(box, far)
        return far if near_foot > far_foot + 12.0 else home

    def wanted(self, link: Dimension, edge: Edge) -> Wanted:
        """A dimension with its places on this paper."""
        feature = self._by_name.get(link.feature)
        foot = 0.0 if feature is None else self.at.foot(self.at.feature_box(feature), edge)
        extent = self.board.size.along[link.axis]
        feet = [
            0.0 if min(abs(c), abs(c - extent)) < 1e-6 else foot
            for c in (link.start.coordinate, link.end.coordinate)
        ]
        return Wanted(
            dimension=link,
            start=self.at.on_axis(link.axis, link.start.coordinate),
            end=self.at.on_axis(link.axis, link.end.coordinate),
            start_foot=feet[0],
            end_foot=feet[1],
        )

    def dimensions(self) -> None:
        """All dimensions of the view, side by side."""
        for edge in Edge:
            if edge in self._sides:
                drawn = side_ink(
                    edge, self.at.base(edge), self._sides[edge], self.style, self.drawn.clutter
                )
                self.add(*(self._told_true(group) for group in drawn.marks))
        # Extension lines may run over a break; nothing else that is placed after them may.
        for gap in self.at.breaks:
            self.drawn.clutter.block(gap)

    def _told_true(self, group: Group) -> Group:
        """A dimension, with its word if its line runs over a break and does not measure it.

        The line itself stays unbroken. Source: ISO 129-1, dimensions of interrupted views.
        """
        if self.interruption is None:
            return group
        link = next(link for link in self.view.links if link.title == group.title)
        ends = (link.start.coordinate, link.end.coordinate)
        is_over = self.interruption.crosses(link.axis, *ends)
        return structs.replace(group, is_not_to_scale=True) if is_over else group

    # Callouts

    def targets(self, callout: Callout) -> list[Target]:
        """What the leader of a callout may point at in this view.

        Raises:
            NoRoom: all of it lies in what the view leaves out.
        """
        found: list[Target] = []
        for name in callout.features:
            feature = self._by_name[name]
            if self.is_seen(feature):
                found += targets_of(feature, self.at)
        shown = [target for target in found if not self._is_left_out(target.centre)]
        if found and not shown:
            raise NoRoom(callout.title)
        return shown

    def _is_left_out(self, point: PaperPoint) -> bool:
        """Whether a place lies between the lines of a break, or so near that it may seem to."""
        spot = PaperBox(point.x, point.y, point.x, point.y)
        return any(gap.overlaps(spot, BREAK_ROOM) for gap in self.at.breaks)

    def with_callouts(self, room: float, space: PaperBox) -> BoardInk:
        """The same with the callouts of the view, each on a leader.

        Args:
            room: How far from the outline a callout may stand, mm.
            space: A box of the greatest size that the view may have.

        Raises:
            NoRoom: one finds no free place.
        """
        told = copy(self)
        told.drawn = self.drawn.copied()
        near = self.outline.grown(room)
        for callout, text in callout_texts(self.view.callouts, self.additions):
            box = told.box
            # Farther out it would make the view larger than the space.
            reach = PaperBox(
                box.right - space.width,
                box.bottom - space.height,
                box.left + space.width,
                box.top + space.height,
            )
            told.leader(text, callout, near.shared(reach))
        return told

    def leader(self, text: str, callout: Callout, within: PaperBox) -> None:
        """One text on a leader, within a box."""
        targets = self.targets(callout)
        if not targets:
            return
        is_field = isinstance(self._by_name[callout.features[0]], Perforation)
        group = placed_callout(
            text,
            callout.title,
            targets,
            self.drawn.clutter,
            self.style,
            home=self.outline,
            within=within,
            is_dotted=is_field,
        )
        self.drawn.add_placed(group)
        near = self.outline.grown(NARROW_ROOM)
        if not all(near.contains(text_box(line)) for line in texts(group)):
            self.reaches_far = True

    # Names

    def surface_labels(self, hints: dict[Surface, str]) -> None:
        """The name of each edge beside the view, inside the outline where it fits."""
        for surface, hint in hints.items():
            if surface.axis == self.look.toward[0]:
                continue
            text = named("edge", "name", self.names[surface])
            text = f"{text}, {hint}" if hint else text
            inside = edge_names_within(surface, text, self.at, self.style)
            label = placed_label(inside, self.drawn.clutter, within=self.outline, gap=0.9)
            if label is not None and self.outline.height < _NARROW:
                # Beside each other in a narrow strip two names would read as one.
                box = text_box(label)
                left, right = box.left - _NAMES_APART, box.right + _NAMES_APART
                self.drawn.clutter.block(PaperBox(left, box.top, right, box.bottom))
            if label is None:
                # Beside the board a name needs air, or it reads as part of a dimension.
                beside = edge_names_beside(surface, text, self.at, self.style)
                label = placed_label(beside, self.drawn.clutter, within=None, gap=1.5)
            if label is None:
                raise NoRoom(text)
            self.drawn.add_placed(label)

    def face_label(self, lines: Sequence[str]) -> None:
        """What face is seen, in free space near the middle of the view or above it."""
        style = self.style
        height = style.figure_height
        pitch = height * 1.5
        size = (
            max(text_width(line, height) for line in lines),
            height + pitch * (len(lines) - 1) + 1.0,
        )
        spot = self._quiet_spot(*size)
        first = PaperPoint((spot.left + spot.right) / 2, spot.top + height)
        self.add(
            *(
                Text(first.moved(0.0, index * pitch), line, height, Anchor.MIDDLE)
                for index, line in enumerate(lines)
            )
        )

    def grain(self) -> None:
        """The double arrow along the face grain."""
        if self.board.grain is Grain.NONE or self.look.toward[0] != 2:
            return
        axis = 0 if self.board.grain is Grain.LENGTH else 1
        is_level = axis == self.look.right[0]
        size = (_GRAIN_LONG, _GRAIN_HIGH) if is_level else (_GRAIN_HIGH, _GRAIN_LONG)
        spot = self._quiet_spot(*size)
        self.add(Group("grain", grain_marks(spot, self.style, is_level=is_level)))

    def _quiet_spot(self, width: float, height: float) -> PaperBox:
        """A free place on the board, with much air if it can be; else beside it.

        Beside it means away from the fence, where no dimension lines stand.
        """
        box = self.outline
        is_fence_up = self.at.edge_of(self.board.fence) is Edge.ABOVE
        near, far = (
            PaperBox(box.left, box.bottom, box.right, box.bottom + high)
            if is_fence_up
            else PaperBox(box.left, box.top - high, box.right, box.top)
            for high in (16.0, 40.0)
        )
        rooms = ((box, 5.0), (box, 3.0), (box, 1.5), (near, 1.5), (far, 1.5))
        for room, gap in rooms:
            spot = free_spot(width, height, self.drawn.clutter, within=room, gap=gap, step=3.0)
            if spot is not None:
                return spot
        raise NoRoom("what is written on the face")

    def rings(self, details: Sequence[DetailView]) -> None:
        """A ring round each place that a detail shows larger, with its letter."""
        if self.look.toward[0] != 2:
            return
        rings: list[PaperBox] = []
        places: list[tuple[str, PaperPoint, float]] = []
        for detail in details:
            radius = detail.ring_radius(self.scale)
            for across, up in (detail.centre, *detail.twins):
                at = PaperPoint(self.at.on_axis(0, across), self.at.on_axis(1, up))
                self.add(Circle(at, radius, Ink.RING))
                rings.append(PaperBox(at.x - radius, at.y - radius, at.x + radius, at.y + radius))
                places.append((detail.letter, at, radius))
        for ring in rings:
            self.drawn.clutter.block(ring)
        for letter, at, radius in places:
            self._ring_letter(letter, at, radius)

    def _ring_letter(self, letter: str, centre: PaperPoint, radius: float) -> None:
        height = self.style.letter_height
        half = text_width(letter, height) / 2
        reaches = radius + np.repeat(_RING_GAPS, len(_ROUND))
        dx, dy = np.tile(_ROUND.T, len(_RING_GAPS))
        x = centre.x + dx * (reaches + half)
        y = centre.y + dy * (reaches + height / 2) + height / 2
        places = Places(Text(centre, letter, height, Anchor.MIDDLE), np.stack([x, y], axis=1))
        label = placed_label([places], self.drawn.clutter, within=None, gap=0.7)
        if label is None:
            raise NoRoom(f"letter {letter}")
        self.drawn.add_placed(label)

    def heading(self, text: str) -> None:
        """What the view shows, above all that belongs to it."""
        box = self.box
        left = self.outline.left
        if self.view.place in (Place.LEFT, Place.RIGHT):
            middle = (self.outline.left + self.outline.right) / 2
            for index, line in enumerate(reversed(text.split("; "))):
                foot = box.top - 2.5 - index * 1.5 * self.style.note_height
                at = PaperPoint(middle, foot)
                self.add(Text(at, line, self.style.note_height, Anchor.MIDDLE))
            return
        self.add(Text(PaperPoint(left, box.top - 2.5), text, self.style.note_height))

    def bare(self) -> Block:
        """The paper that has been covered so far, with nothing on it."""
        return Block(marks=(), box=self.box, outline=self.outline)

    @property
    def box(self) -> PaperBox:
        """The paper that has been covered so far."""
        return self.drawn.box or self.outline

    def block(self, title: str, *, face_lines: Sequence[str] = (), heading: str = "") -> Block:
        """What has been drawn, as the group of a view, with what finds its place last.

        Args:
            title: What the view shows, in words.
            face_lines: What is written on the face.
            heading: What stands above the view; "" for nothing.

        Raises:
            NoRoom: what is written on the face, or the arrow of its grain, finds no free place.
        """
        if face_lines:
            self.face_label(face_lines)
        if self.view.place in (Place.MAIN, Place.SECOND_FACE):
            self.grain()
        if heading:
            self.heading(heading)
        marks = tuple(self.drawn.marks)
        group = Group("view", marks, title=title, description=scale_text(self.scale))
        return Block(marks=(group,), box=self.box, outline=self.outline)


_RING_GAPS = np.array([1.0, 3.0, 6.0, 10.0, 15.0])  # from a ring to its letter, mm
# Where a letter stands beside its ring, best first: across and down, as parts of the radius.
_ROUND = np.array(
    [
        (0.75, -0.75),
        (-0.75, -0.75),
        (0.75, 0.75),
        (-0.75, 0.75),
        (1.0, 0.0),
        (-1.0, 0.0),
        (0.0, -1.0),
        (0.0, 1.0),
    ]
)


def _centre_line(box: PaperBox, over: float, *, is_level: bool) -> Line:
    """The centre line of a box, so far over its edges."""
    middle = (box.top + box.bottom) / 2 if is_level else (box.left + box.right) / 2
    return _crossing_line(middle, box, over, is_level=is_level)


def _crossing_line(place: float, box: PaperBox, over: float, *, is_level: bool) -> Line:
    """A centre line at a place, right through a box and so far over its edges."""
    if is_level:
        ends = PaperPoint(box.left - over, place), PaperPoint(box.right + over, place)
    else:
        ends = PaperPoint(place, box.top - over), PaperPoint(place, box.bottom + over)
    return Line(*ends, Ink.CENTRE)


def callout_texts(
    callouts: Iterable[Callout], additions: Mapping[str, str]
) -> Iterator[tuple[Callout, str]]:
    """Callouts with what is printed: their text and what their view adds to it, by title."""
    for callout in callouts:
        added = additions.get(callout.title)
        yield callout, f"{callout.text}; {added}" if added else callout.text


def thickness_text(link: Dimension) -> str:
    """A dimension that no view shows, as it is noted: ``t = 17.7``. Source: ISO 129-1."""
    if link.axis != 2:
        return f"{AXIS_NAMES[link.axis]} {link.text}"
    return f"t = {dimension_text(link.value)}"
