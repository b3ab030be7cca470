"""Which views a board needs, and which dimension stands in which of them.

The main view looks at the face that is worked; a second one at the other face only if that is
worked too; a view of an edge or an end only if there is something on it to be placed. What has
a shape in cross-section (groove, rebate, bevel, slot) is told in an enlarged detail, with its
width, depth and distance together where the shape shows best. Lengths are in mm.

Source: ISO 128-3 and textbooks to it: as few views as fix the shape, no dimensions to hidden
edges, what belongs together in one view, details lettered from the end of the alphabet.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum

from cabinet.board import BoardSize, Surface
from cabinet.errors import UnknownNameError
from cabinet.features import (
    Bevel,
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Perforation,
    Rebate,
)
from cabinet.part import Board
from drawings.dimension import BoardDimensions, Callout, Dimension
from drawings.dimensioning import NEAR_EDGE, profile_of
from drawings.interruption import Interruption, Span, kept, shortened
from drawings.look import FACE_A, FACE_B, Look

SCALES = (2.0, 1.0, 0.5, 0.2, 0.1, 0.05)
"""Scales of views. Source: ISO 5455:1979, 5.1, those that furniture needs."""

DETAIL_SCALES = (5.0, 2.0, 1.0, 0.5, 0.2)
"""Scales of details, larger than that of the view. Source: ISO 5455:1979, 5.1."""

# How much of the board a detail shows beside the shape, mm.
_BESIDE = 9.0
# Profiles with less than this between them share one detail, if it stays below the widest, mm.
_TOGETHER = 14.0
_WIDEST = 84.0
# Largest paper size of a detail's window, mm.
_DETAIL_WIDE, _DETAIL_HIGH = 84.0, 48.0
# Where along a run the cut may lie, as shares of it, best first: off the middle, where names
# stand, and not in one corner for runs along the length and across it.
_CUT_SHARES = (
    (0.9, 0.82, 0.74, 0.1, 0.18, 0.26, 0.66, 0.34, 0.58, 0.42, 0.5),
    (0.7, 0.62, 0.78, 0.3, 0.38, 0.86, 0.22, 0.5, 0.94, 0.06),
)

# Room for the ring that marks a detail, mm of the board.
_RING_ROOM = 12.0

# Radius of such a ring: least and most, mm on paper.
_LEAST_RING, _MOST_RING = 4.0, 11.0

# Coordinates nearer than this are one place, mm.
_SAME_PLACE = 1e-6

_LETTERS = "ZYXWVUTSRQPNMLKJHGFEDCBA"


def scale_text(scale: float) -> str:
    """A scale as it is written: ``2:1``, ``1:5``. Source: ISO 5455:1979, clause 3."""
    return f"{round(scale)}:1" if scale >= 1 else f"1:{round(1 / scale)}"


class Place(Enum):
    """Where a view stands beside the main one."""

    MAIN = "main"
    SECOND_FACE = "second face"
    BELOW = "below"
    ABOVE = "above"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardView:
    """A view of the whole board at the sheet's scale.

    Attributes:
        place: Where it stands.
        look: From which side the board is seen.
        links: Dimensions that stand in it.
        callouts: Callouts that stand in it.
        alike: The opposite surface if it looks the same and gets no view of its own.
    """

    place: Place
    look: Look
    links: tuple[Dimension, ...] = ()
    callouts: tuple[Callout, ...] = ()
    alike: Surface | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DetailView:
    """An enlarged piece of a cross-section.

    Attributes:
        letter: Its letter.
        features: Names of the features whose shape it shows.
        run_axis: Board axis at right angles to the cut, 0 or 1.
        plane: Board coordinate of the cut on that axis, mm.
        window: Low and high board coordinate on the other of the axes 0 and 1, mm.
        look: From which side it is seen; the face seen in the main view lies up.
        is_fixed: Whether it can be taken nowhere else along its run.
        twins: Centres, on axes 0 and 1, of further places that look the same, mm.
        links: Dimensions that stand in it.
        callouts: Callouts that stand in it.
    """

    letter: str
    features: tuple[str, ...]
    run_axis: int
    plane: float
    window: tuple[float, float]
    look: Look
    is_fixed: bool = False
    twins: tuple[tuple[float, float], ...] = ()
    links: tuple[Dimension, ...] = ()
    callouts: tuple[Callout, ...] = ()

    @property
    def cross_axis(self) -> int:
        """The board axis that is seen running to the right."""
        return 1 - self.run_axis

    @property
    def centre(self) -> tuple[float, float]:
        """Centre of its place in the main view, on axes 0 and 1, mm."""
        middle = sum(self.window) / 2
        return (self.plane, middle) if self.run_axis == 0 else (middle, self.plane)

    def ring_radius(self, main_scale: float) -> float:
        """Radius of the ring round its place in the main view, mm on paper."""
        return _ring_radius(self.window, main_scale)

    def scale(self, main_scale: float, thickness: float) -> float:
        """The largest scale at which it stays handy, above the main view's."""
        larger = [scale for scale in DETAIL_SCALES if scale > main_scale]
        width = self.window[1] - self.window[0]
        fitting = [
            scale
            for scale in larger
            if width * scale <= _DETAIL_WIDE and thickness * scale <= _DETAIL_HIGH
        ]
        return (fitting or larger[-1:] or DETAIL_SCALES[:1])[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class ViewPlan:
    """All views of a board.

    Attributes:
        main: The main view.
        others: Further views of the whole board.
        details: Enlarged cross-sections.
        notes: Dimensions that no view shows and a note tells: the thickness of a plain board.
        hides: Whether the main view shows hidden edges.
        interruption: What all views of the whole board leave out; None if they show all of it.
    """

    main: BoardView
    others: tuple[BoardView, ...]
    details: tuple[DetailView, ...]
    notes: tuple[Dimension, ...]
    hides: bool
    interruption: Interruption | None = None

    def is_to_scale(self, link: Dimension) -> bool:
        """Whether the line of a dimension in a view of the whole board measures its value."""
        ends = (end.coordinate for end in (link.start, link.end))
        return self.interruption is None or not self.interruption.crosses(link.axis, *ends)

    def interruption_of(self, view: BoardView) -> Interruption | None:
        """What one of the views leaves out: nothing if it looks along what is interrupted."""
        cut = self.interruption
        return cut if cut is not None and cut.axis in _seen(view) else None

    def shown_size(self, board: Board, scale: float) -> tuple[float, float]:
        """Length and width of the board in its main view, mm on paper."""
        gaps: list[tuple[Span, ...]] = [(), ()]
        if self.interruption is not None:
            gaps[self.interruption.axis] = self.interruption.spans
        return shortened(board.length, gaps[0], scale), shortened(board.width, gaps[1], scale)

    def rings(self, axis: int, scale: float, *, with_loose: bool) -> tuple[Span, ...]:
        """What the rings of details take along an axis, mm of the board.

        Args:
            axis: Board axis, 0 or 1.
            scale: Scale of the main view.
            with_loose: Count those too that could as well lie elsewhere along the axis.
        """
        return tuple(
            (centre[axis] - radius, centre[axis] + radius)
            for detail in self.details
            if with_loose or detail.is_fixed or detail.run_axis != axis
            for radius in (detail.ring_radius(scale) / scale,)
            for centre in (detail.centre, *detail.twins)
        )

    def elsewhere(self, view: BoardView, callout: Callout, dimensions: BoardDimensions) -> str:
        """What a callout must add because another view of the board places its features.

        Features of both faces can share a place on an axis; its dimension then stands in one
        of the two views only.
        """
        own = {end.key for link in view.links for pair in link.pairs for end in pair}
        own |= {end.key for d in self.details for ln in d.links for p in ln.pairs for end in p}
        axes = sorted(
            {
                node.axis
                for shape in dimensions.shapes
                if shape.feature in callout.features
                for _, node in shape.nodes
                if node.key not in own and node.axis in _seen(view)
            }
        )
        words = [("along the length", "across the width")[axis] for axis in axes if axis < 2]
        return " and ".join(words)

    @property
    def views(self) -> tuple[BoardView, ...]:
        """All views of the whole board, the main one first."""
        return self.main, *self.others


def worked_surface(feature: Feature) -> Surface | None:
    """The surface from which a feature is seen; None if it is the same from both faces."""
    match feature:
        case Groove() | HoleRow() | BiscuitSlot():
            return feature.surface
        case Hole():
            is_plain = feature.depth is None and not feature.countersink
            return None if is_plain and feature.surface.is_face else feature.surface
        case Rebate():
            return feature.face
        case Bevel():
            return feature.sharp.opposite
        case CutOut() | Notch() | FlushTrim() | Perforation():
            return None


def has_profile(feature: Feature) -> bool:
    """Whether a cross-section is where the shape of a feature shows best."""
    match feature:
        case Groove() | Rebate():
            return feature.run_axis != 2
        case Bevel():
            return True
        case Hole():
            return not feature.surface.is_face
        case HoleRow():
            return not feature.surface.is_face
        case BiscuitSlot():
            return not feature.surface.is_face and feature.height.axis == 2
        case _:
            return False


def _run_axis(feature: Feature) -> int:
    match feature:
        case Groove() | Rebate():
            return feature.run_axis
        case Bevel():
            return 1 - feature.edge.axis
        case Hole() | HoleRow():
            return 1 - feature.surface.axis
        case BiscuitSlot():
            return feature.centre.axis
        case _:
            raise UnknownNameError(f"{feature.name}: it has no cross-section", part=feature.name)


def _cut_span(feature: Feature, size: BoardSize) -> tuple[float, float]:
    """Between which coordinates of its run a cut shows the feature's full shape, mm."""
    run = _run_axis(feature)
    box = (feature.holes[0] if isinstance(feature, HoleRow) else feature).box(size)
    low, high = box.low[run], box.high[run]
    if isinstance(feature, Hole | HoleRow | BiscuitSlot):
        return (low + high) / 2, (low + high) / 2
    return low, high


@dataclass(slots=True)
class _Group:
    """Profiles that will share one detail."""

    run_axis: int
    features: list[Feature]
    span: tuple[float, float]
    window: tuple[float, float]


def _window(feature: Feature, size: BoardSize) -> tuple[float, float]:
    cross = 1 - _run_axis(feature)
    box = feature.box(size)
    extent = size.along[cross]
    low, high = box.low[cross], box.high[cross]
    # Datum edges that are near belong in the picture, with the distance from them.
    if low <= NEAR_EDGE:
        low = 0.0
    if extent - high <= NEAR_EDGE:
        high = extent
    return _padded(low, high, extent)


def _padded(low: float, high: float, extent: float) -> tuple[float, float]:
    low, high = low - _BESIDE, high + _BESIDE
    return (0.0 if low < _BESIDE else low), (extent if extent - high < _BESIDE else high)


def _groups(board: Board) -> tuple[list[_Group], list[tuple[Feature, Feature]]]:
    """Profiles by detail, and pairs (feature, the alike one that has the detail)."""
    groups: list[_Group] = []
    first: dict[str, Feature] = {}
    twins: list[tuple[Feature, Feature]] = []
    for feature in board.features:
        if not has_profile(feature):
            continue
        profile = profile_of(feature)
        if profile in first:
            twins.append((feature, first[profile]))
            continue
        first[profile] = feature
        window, span = _window(feature, board.size), _cut_span(feature, board.size)
        for group in groups:
            if _joins(group, feature, window, span):
                group.features.append(feature)
                group.window = _spanned(group.window, window)
                group.span = max(group.span[0], span[0]), min(group.span[1], span[1])
                break
        else:
            groups.append(_Group(_run_axis(feature), [feature], span, window))
    return groups, twins


def _spanned(one: tuple[float, float], other: tuple[float, float]) -> tuple[float, float]:
    return min(one[0], other[0]), max(one[1], other[1])


def _joins(
    group: _Group, feature: Feature, window: tuple[float, float], span: tuple[float, float]
) -> bool:
    if group.run_axis != _run_axis(feature):
        return False
    if max(group.span[0], span[0]) > min(group.span[1], span[1]):
        return False
    gap = max(group.window[0], window[0]) - min(group.window[1], window[1])
    low, high = _spanned(group.window, window)
    return gap < _TOGETHER and high - low <= _WIDEST


@dataclass(frozen=True, slots=True)
class _Shown:
    """What the views of the whole board show along their interrupted axis.

    Attributes:
        interruption: What they leave out.
        scale: Their scale.
    """

    interruption: Interruption
    scale: float

    def place(self, group: _Group, share: float) -> float | None:
        """The place at a share of what is shown of a run; None if its ring finds no room."""
        room = (_ring_radius(group.window, self.scale) + 1.0) / self.scale
        low, high = group.span
        spans = [(max(a, low), min(b, high)) for a, b in self.interruption.spans]
        pieces = kept(tuple((a, b) for a, b in spans if b > a), group.span)
        free = [(a + room, b - room) for a, b in pieces if b - a > 2 * room]
        rest = share * sum(b - a for a, b in free)
        for a, b in free:
            if rest <= b - a:
                return a + rest
            rest -= b - a
        return None


def _ring_radius(window: tuple[float, float], scale: float) -> float:
    width = (window[1] - window[0]) * scale
    return min(max(width / 2 + 1.0, _LEAST_RING), _MOST_RING)


def _plane(group: _Group, board: Board, shown: _Shown | None) -> float:
    """Where to cut: through all the group's shapes and, if it can be, through nothing else."""
    low, high = group.span
    if high - low < _SAME_PLACE:
        return low
    if shown is not None and shown.interruption.axis != group.run_axis:
        shown = None
    cross = 1 - group.run_axis
    others = [
        feature.box(board.size)
        for feature in board.features
        if feature not in group.features and not isinstance(feature, FlushTrim | Perforation)
    ]
    best = (low + high) / 2
    is_flipped = _datum(board, group.run_axis).sign > 0
    for nominal in _CUT_SHARES[group.run_axis]:
        share = 1 - nominal if is_flipped else nominal
        at = low + (high - low) * share if shown is None else shown.place(group, share)
        if at is None:
            break
        is_clear = not any(
            box.low[group.run_axis] - 1 < at < box.high[group.run_axis] + 1
            and box.low[cross] < group.window[1] + _RING_ROOM
            and box.high[cross] > group.window[0] - _RING_ROOM
            for box in others
        )
        if is_clear:
            return at
    return best


def _datum(board: Board, axis: int) -> Surface:
    return board.stop if axis == 0 else board.fence


def _centre(feature: Feature, size: BoardSize) -> tuple[float, float]:
    box = feature.box(size)
    return (box.low[0] + box.high[0]) / 2, (box.low[1] + box.high[1]) / 2


def _main_face(board: Board) -> tuple[Surface, bool]:
    """The face of the main view, and whether the other one is worked as well."""
    # A bevel is told in its detail and asks for no second face; alone, it leads.
    flat = [feature for feature in board.features if not isinstance(feature, Bevel)]
    faces = {worked_surface(feature) for feature in flat}
    if not faces & {Surface.A, Surface.B}:
        faces = {worked_surface(feature) for feature in board.features}
    is_a, is_b = Surface.A in faces, Surface.B in faces
    return (Surface.B if is_b and not is_a else Surface.A), is_a and is_b


def _edge_signature(surface: Surface, board: Board) -> frozenset[tuple[object, ...]]:
    """What is on an edge, wherever that edge is: equal for two ends that are alike."""
    found: set[tuple[object, ...]] = set()
    for feature in _on_edge(surface, board):
        box = feature.box(board.size)
        spans = tuple(
            (round(box.low[axis], 6), round(box.high[axis], 6))
            for axis in range(3)
            if axis != surface.axis
        )
        found.add((profile_of(feature), spans))
    return frozenset(found)


def _on_edge(surface: Surface, board: Board) -> list[Feature]:
    """What must be placed along an edge; a groove that runs through has its detail."""
    return [
        feature
        for feature in board.features
        if worked_surface(feature) is surface
        and (
            isinstance(feature, Hole | HoleRow | BiscuitSlot)
            or (isinstance(feature, Groove) and (feature.start or feature.end) is not None)
        )
    ]


def _edge_views(board: Board, main: Look) -> list[BoardView]:
    neighbours = {
        Place.BELOW: main.from_above,
        Place.ABOVE: main.from_below,
        Place.RIGHT: main.from_left,
        Place.LEFT: main.from_right,
    }
    views: list[BoardView] = []
    done: dict[frozenset[tuple[object, ...]], int] = {}
    for place, look in neighbours.items():
        signature = _edge_signature(look.surface, board)
        if not signature:
            continue
        twin = done.get(signature)
        if twin is not None and views[twin].look.surface.opposite is look.surface:
            views[twin] = replace(views[twin], alike=look.surface)
            continue
        done[signature] = len(views)
        views.append(BoardView(place=place, look=look))
    return views


def plan_views(
    board: Board,
    dimensions: BoardDimensions,
    interruption: Interruption | None = None,
    *,
    scale: float = 1.0,
) -> ViewPlan:
    """The views of a board with every dimension and callout in one of them.

    Args:
        board: The board.
        dimensions: What ``board_dimensions`` gave for it.
        interruption: What the views leave out; details of what runs on are taken beside it.
        scale: Scale of the views, which says how much of the board a ring takes; without an
            interruption it does not matter.
    """
    face, has_second = _main_face(board)
    main_look, other_look = (FACE_A, FACE_B) if face is Surface.A else (FACE_B, FACE_A)
    views = [BoardView(place=Place.MAIN, look=main_look)]
    if has_second:
        views.append(BoardView(place=Place.SECOND_FACE, look=other_look))
    views += _edge_views(board, main_look)
    shown = None if interruption is None else _Shown(interruption, scale)
    details = _details(board, 1 if face is Surface.A else -1, shown)
    by_name = {feature.name: feature for feature in board.features}
    links: dict[int, list[Dimension]] = {}
    notes: list[Dimension] = []
    for link in dimensions.links:
        index = _home_of_link(link, by_name.get(link.feature), views, details)
        if index is None:
            notes.append(link)
        else:
            links.setdefault(index, []).append(link)
    callouts: dict[int, list[Callout]] = {}
    for callout in dimensions.callouts:
        index = _home_of_callout(by_name[callout.features[0]], views, details)
        callouts.setdefault(index, []).append(callout)
    count = len(views)
    full = [
        replace(view, links=tuple(links.get(i, ())), callouts=tuple(callouts.get(i, ())))
        for i, view in enumerate(views)
    ]
    enlarged = tuple(
        replace(
            detail,
            links=tuple(links.get(count + i, ())),
            callouts=tuple(callouts.get(count + i, ())),
        )
        for i, detail in enumerate(details)
    )
    # What the main view does not show from its own side appears as hidden edges in it.
    is_elsewhere = any(
        surface not in {None, face} for surface in map(worked_surface, board.features)
    )
    return ViewPlan(
        main=full[0],
        others=tuple(full[1:]),
        details=enlarged,
        notes=tuple(notes),
        hides=is_elsewhere and not has_second,
        interruption=interruption,
    )


def _details(board: Board, up: int, shown: _Shown | None) -> list[DetailView]:
    groups, twins = _groups(board)
    details = []
    for letter, group in zip(_LETTERS, groups, strict=False):
        cross = 1 - group.run_axis
        plane = _plane(group, board, shown)
        places = []
        for feature, original in twins:
            if original in group.features:
                centre = list(_centre(feature, board.size))
                if not isinstance(feature, Hole | HoleRow | BiscuitSlot):
                    centre[group.run_axis] = plane
                places.append((centre[0], centre[1]))
        details.append(
            DetailView(
                letter=letter,
                features=tuple(feature.name for feature in group.features),
                run_axis=group.run_axis,
                plane=plane,
                window=group.window,
                look=Look((cross, 1), (2, up)),
                is_fixed=group.span[1] - group.span[0] < _SAME_PLACE,
                twins=tuple(places),
            )
        )
    return details


def _shows(detail: DetailView, link: Dimension) -> bool:
    if link.axis == detail.run_axis:
        return False
    if link.axis == 2:
        return True
    low, high = detail.window
    ends = (link.start.coordinate, link.end.coordinate)
    return all(low - 1e-6 <= end <= high + 1e-6 for end in ends)


def _home_of_link(
    link: Dimension, feature: Feature | None, views: list[BoardView], details: list[DetailView]
) -> int | None:
    """Index among views and then details; None if only a note can tell it."""
    if feature is None:
        if link.axis != 2:
            return 0
        if details:
            return len(views)
        return next((i for i, v in enumerate(views) if link.axis in _seen(v)), None)
    for index, detail in enumerate(details):
        if feature.name in detail.features and _shows(detail, link):
            return len(views) + index
    surface = worked_surface(feature)
    for index, view in enumerate(views):
        if link.axis in _seen(view) and surface in {view.look.surface, view.alike}:
            return index
    return next((i for i, v in enumerate(views) if link.axis in _seen(v)), None)


def _seen(view: BoardView) -> tuple[int, int]:
    return view.look.right[0], view.look.up[0]


def _home_of_callout(feature: Feature, views: list[BoardView], details: list[DetailView]) -> int:
    if isinstance(feature, Bevel | BiscuitSlot):
        for index, detail in enumerate(details):
            if feature.name in detail.features:
                return len(views) + index
    surface = worked_surface(feature)
    for index, view in enumerate(views):
        if surface is not None and surface in {view.look.surface, view.alike}:
            return index
    return 0
