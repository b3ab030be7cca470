"""Bodies as plain arithmetic: a convex blank less convex cutters, and what a line of sight meets.

Nothing here knows the kernel or ``cabinet.solids``: a board's feature is read again from its
data. All lines of sight are parallel to z of the view's frame and run towards the viewer, so
that a convex piece meets each of them in at most one stretch.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from cabinet.board import At, BoardBox, BoardSize, Surface
from cabinet.features import (
    BISCUIT_BLADE_RADIUS,
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
from cabinet.frame import Side
from cabinet.hardware import Hardware, Rod
from cabinet.part import Board, Part

Floats = NDArray[np.float64]
Truths = NDArray[np.bool_]

_FAR = 1e5
_LEVEL = 1e-9
# A stretch of material shorter than this many mm is an error of rounding.
_LEAST = 1e-7


@dataclass(frozen=True)
class Contour:
    """A straight line along which a round surface turns away from the viewer, mm.

    Attributes:
        ends: Its two ends, shape (2, 3).
        outward: Unit normal that points out of the convex piece.
    """

    ends: Floats
    outward: Floats


class Convex(Protocol):
    """A convex piece in a frame of its own or of a view, mm."""

    def moved(self, turn: Floats, shift: Floats) -> Convex:
        """The same after ``turn @ p + shift``."""

    def stretch(self, points: Floats) -> tuple[Floats, Floats]:
        """Where lines along +z from the points (n, 3) enter and leave; enter > leave: a miss."""

    def bounds(self) -> Floats:
        """Low and high corner, shape (2, 3), of an upright box around it."""

    def contours(self) -> list[Contour]:
        """Its outlines seen along z."""


@dataclass(frozen=True)
class Slabs:
    """All points for which ``normals @ p <= limits``; ``corners`` (n, 3) if they are known."""

    normals: Floats
    limits: Floats
    corners: Floats | None = None

    @classmethod
    def box(cls, low: Sequence[float], high: Sequence[float]) -> Slabs:
        """An upright box."""
        sides = np.vstack((np.eye(3), -np.eye(3)))
        corners = np.array(list(product(*zip(low, high, strict=True))))
        return cls(sides, np.array([*high, *(-x for x in low)]), corners)

    def moved(self, turn: Floats, shift: Floats) -> Slabs:
        """The same after ``turn @ p + shift``."""
        normals = self.normals @ turn.T
        corners = None if self.corners is None else self.corners @ turn.T + shift
        return Slabs(normals, self.limits + normals @ shift, corners)

    def stretch(self, points: Floats) -> tuple[Floats, Floats]:
        """Where lines along +z enter and leave."""
        enter, leave = np.full(len(points), -np.inf), np.full(len(points), np.inf)
        for normal, limit in zip(self.normals, self.limits, strict=True):
            room = limit - points @ normal
            if abs(normal[2]) < _LEVEL:
                enter = np.where(room < 0, np.inf, enter)
            elif normal[2] > 0:
                leave = np.minimum(leave, room / normal[2])
            else:
                enter = np.maximum(enter, room / normal[2])
        return enter, leave

    def bounds(self) -> Floats:
        """A box around its corners; everything if they are not known."""
        if self.corners is None:
            return np.array([[-np.inf] * 3, [np.inf] * 3])
        return np.array([self.corners.min(axis=0), self.corners.max(axis=0)])

    def contours(self) -> list[Contour]:
        """None: it has no round surface."""
        return []


@dataclass(frozen=True)
class Round:
    """A cylinder, or a cone that is cut off before its tip.

    Its radius is ``radius + slope * h`` at ``h`` mm along the axis, for 0 <= h <= length.
    ``spread`` limits where its surface counts as such: only normals for which all of
    ``spread @ normal >= 0`` give outlines (a rounded corner is a quarter of a cylinder).
    """

    start: Floats
    axis: Floats
    length: float
    radius: float
    slope: float = 0.0
    spread: Floats | None = None

    def moved(self, turn: Floats, shift: Floats) -> Round:
        """The same after ``turn @ p + shift``."""
        spread = None if self.spread is None else self.spread @ turn.T
        start = turn @ self.start + shift
        return Round(start, turn @ self.axis, self.length, self.radius, self.slope, spread)

    def stretch(self, points: Floats) -> tuple[Floats, Floats]:
        """Where lines along +z enter and leave."""
        rise = self.axis[2]
        away = points - self.start
        along = away @ self.axis
        across = away - along[:, None] * self.axis
        sight = np.array([0.0, 0.0, 1.0]) - rise * self.axis
        radius = self.radius + self.slope * along
        # |across + t sight|^2 - (radius + t slope rise)^2 <= 0
        square = sight @ sight - (self.slope * rise) ** 2
        half = across @ sight - radius * self.slope * rise
        rest = (across**2).sum(axis=1) - radius**2
        enter, leave = _where_below(square, half, rest, radius, self.slope * rise)
        ends = Slabs(np.vstack((self.axis, -self.axis)), np.array([self.length, 0.0]))
        ends = Slabs(ends.normals, ends.limits + ends.normals @ self.start)
        first, last = ends.stretch(points)
        return np.maximum(enter, first), np.minimum(leave, last)

    def bounds(self) -> Floats:
        """A box around it."""
        ends = self.start + np.outer((0.0, self.length), self.axis)
        most = max(self.radius, self.radius + self.slope * self.length)
        reach = most * np.sqrt(np.maximum(1 - self.axis**2, 0))
        return np.array([ends.min(axis=0) - reach, ends.max(axis=0) + reach])

    def contours(self) -> list[Contour]:
        """The lines along which its normal is square to z."""
        sideways = np.cross(self.axis, (0.0, 0.0, 1.0))
        level = math.hypot(*sideways)
        if level < _LEVEL:
            return []
        # The outward normal at a turn is (spoke - slope * axis) / |..|; its z must vanish.
        sideways /= level
        upright = np.cross(sideways, self.axis)
        lift = self.slope * self.axis[2] / upright[2]
        if abs(lift) >= 1:
            return []
        found = []
        for sign in (1.0, -1.0):
            spoke = lift * upright + sign * math.sqrt(1 - lift**2) * sideways
            if self.spread is not None and (self.spread @ spoke < -_LEVEL).any():
                continue
            far = self.radius + self.slope * self.length
            ends = np.array(
                [
                    self.start + self.radius * spoke,
                    self.start + self.length * self.axis + far * spoke,
                ]
            )
            outward = spoke - self.slope * self.axis
            found.append(Contour(ends, outward / np.linalg.norm(outward)))
        return found


def _where_below(
    square: float, half: Floats, rest: Floats, radius: Floats, growth: float
) -> tuple[Floats, Floats]:
    """Where ``square t^2 + 2 half t + rest <= 0`` and the radius is not negative."""
    none = np.full(len(half), np.inf), np.full(len(half), -np.inf)
    if abs(square) < _LEVEL**2 and abs(growth) < _LEVEL:
        inside = rest <= 0
        return np.where(inside, -np.inf, np.inf), np.where(inside, np.inf, -np.inf)
    under = half**2 - square * rest
    root = np.sqrt(np.maximum(under, 0.0))
    with np.errstate(divide="ignore", invalid="ignore"):
        one, two = (-half - root) / square, (-half + root) / square
    low, high = np.minimum(one, two), np.maximum(one, two)
    if square > 0:
        return np.where(under >= 0, low, none[0]), np.where(under >= 0, high, none[1])
    # The line runs within both halves of the double cone; only one has a positive radius.
    return (high, np.full(len(half), np.inf)) if growth > 0 else (np.full(len(half), -np.inf), low)


@dataclass(frozen=True)
class Joined:
    """A convex piece put together from convex pieces that cover it."""

    pieces: tuple[Convex, ...]

    def moved(self, turn: Floats, shift: Floats) -> Joined:
        """The same after ``turn @ p + shift``."""
        return Joined(tuple(piece.moved(turn, shift) for piece in self.pieces))

    def stretch(self, points: Floats) -> tuple[Floats, Floats]:
        """Where lines along +z enter and leave."""
        enter, leave = np.full(len(points), np.inf), np.full(len(points), -np.inf)
        for piece in self.pieces:
            first, last = piece.stretch(points)
            is_met = first < last
            enter = np.where(is_met, np.minimum(enter, first), enter)
            leave = np.where(is_met, np.maximum(leave, last), leave)
        return enter, leave

    def bounds(self) -> Floats:
        """A box around it."""
        boxes = np.array([piece.bounds() for piece in self.pieces])
        return np.array([boxes[:, 0].min(axis=0), boxes[:, 1].max(axis=0)])

    def contours(self) -> list[Contour]:
        """Its outlines seen along z."""
        return [line for piece in self.pieces for line in piece.contours()]


@dataclass(frozen=True)
class Body:
    """What is left of a convex blank.

    Attributes:
        blank: The blank.
        cutters: What is taken away from it.
    """

    blank: Convex
    cutters: tuple[Convex, ...] = ()

    def moved(self, turn: Floats, shift: Floats) -> Body:
        """The same after ``turn @ p + shift``."""
        cutters = tuple(cutter.moved(turn, shift) for cutter in self.cutters)
        return Body(self.blank.moved(turn, shift), cutters)

    def contours(self) -> list[tuple[Contour, float]]:
        """Outlines of its round surfaces, and on which side of each the material would lie."""
        return [
            *((line, -1.0) for line in self.blank.contours()),
            *((line, 1.0) for cutter in self.cutters for line in cutter.contours()),
        ]

    def holds(self, points: Floats) -> Truths:
        """Whether each point lies within the material."""
        enter, leave = self.blank.stretch(points)
        result = (enter < 0) & (leave > 0)
        for cutter in self.cutters:
            some = np.flatnonzero(result & _within(points, cutter.bounds()))
            if len(some):
                enter, leave = cutter.stretch(points[some])
                result[some] = ~((enter < 0) & (leave > 0))
        return result

    def covers(self, points: Floats) -> Truths:
        """Whether there is material between each point and the viewer."""
        result = np.zeros(len(points), dtype=bool)
        box = self.blank.bounds()
        near = np.flatnonzero(_within(points, box) & (points[:, 2] < box[1, 2]))
        enter, leave = self.blank.stretch(points[near])
        enter = np.maximum(enter, 0.0)
        is_met = leave > enter + _LEAST
        near, enter, leave = near[is_met], enter[is_met, None], leave[is_met, None]
        result[near] = self._is_left(points[near], enter, leave) if self.cutters else True
        return result

    def _is_left(self, points: Floats, enter: Floats, leave: Floats) -> Truths:
        """Whether the cutters leave anything of a stretch of each line of sight."""
        count = np.zeros(len(points), dtype=int)
        cuts = np.tile(enter[:, :, None], (1, 4, 2))
        for cutter in self.cutters:
            box = cutter.bounds()
            near = np.flatnonzero(_within(points, box) & (points[:, 2] < box[1, 2]))
            first, last = cutter.stretch(points[near])
            first, last = np.maximum(first, enter[near, 0]), np.minimum(last, leave[near, 0])
            is_met = first < last
            near = near[is_met]
            if not len(near):
                continue
            if count[near].max() == cuts.shape[1]:
                cuts = np.concatenate((cuts, np.tile(enter[:, :, None], (1, 4, 2))), axis=1)
            cuts[near, count[near]] = np.stack((first[is_met], last[is_met]), axis=1)
            count[near] += 1
        order = np.argsort(cuts[..., 0], axis=1)
        first = np.take_along_axis(cuts[..., 0], order, 1)
        last = np.take_along_axis(cuts[..., 1], order, 1)
        reached = np.maximum.accumulate(np.hstack((enter, last)), axis=1)
        return np.asarray(((np.hstack((first, leave)) - reached) > _LEAST).any(axis=1))


def _within(points: Floats, box: Floats) -> Truths:
    u, v = points[:, 0], points[:, 1]
    return np.asarray((u >= box[0, 0]) & (u <= box[1, 0]) & (v >= box[0, 1]) & (v <= box[1, 1]))


# Boards and bars by their data


def board_body(board: Board) -> Body:
    """A finished board in its own frame."""
    size = board.size
    cutters = tuple(piece for f in board.features for piece in _cutters(f, size))
    return Body(Slabs.box((0.0, 0.0, 0.0), size.along), cutters)


def part_body(part: Part) -> Body:
    """A part in its place in the unit."""
    turn = np.array([side.vector for side in part.placement.directions]).T
    return board_body(part.board).moved(turn, np.array(tuple(part.placement.origin)))


def rod(start: Sequence[float], axis: Sequence[float], length: float, diameter: float) -> Body:
    """A round bar."""
    return Body(Round(np.array(start), np.array(axis), length, diameter / 2))


def rod_body(item: Hardware) -> Body:
    """A bar or pin in its place in the unit."""
    if not isinstance(item.body, Rod):
        raise TypeError(f"{item.name} is no bar")
    axis: Side = item.axis
    return rod(tuple(item.at), axis.vector, item.body.length, item.body.diameter)


def _cutters(feature: Feature, size: BoardSize) -> Iterator[Convex]:
    match feature:
        case Rebate() | Notch() | FlushTrim():
            yield Slabs.box(*_opened(feature.box(size), size))
        case Groove():
            yield _grooved(feature, size)
        case CutOut():
            low, high = _opened(feature.box(size), size)
            r = feature.corner_radius
            yield pillow(low, high, 2, (r, r, r, r))
        case Hole():
            yield from _bored(feature, size)
        case HoleRow():
            for hole in feature.holes:
                yield from _bored(hole, size)
        case BiscuitSlot():
            yield _slotted(feature, size)
        case Bevel():
            yield _bevelled(feature, size)
        case Perforation():
            pass  # its holes are bought with the sheet and no part of the solid


def _opened(box: BoardBox, size: BoardSize) -> tuple[list[float], list[float]]:
    """Corners of a box whose sides in the board's surface are moved far out."""
    low = [-_FAR if a <= _LEVEL else a for a in box.low]
    high = [_FAR if b >= full - _LEVEL else b for b, full in zip(box.high, size.along, strict=True)]
    return low, high


def pillow(
    low: Sequence[float], high: Sequence[float], axis: int, radii: Sequence[float]
) -> Convex:
    """A block with rounded edges along an axis.

    Args:
        low: Its low corner, mm.
        high: Its high corner, mm.
        axis: Along which the rounded edges run.
        radii: Their radii, mm, at (low, low), (high, low), (high, high), (low, high) of the
            other two axes.
    """
    u, v = (a for a in range(3) if a != axis)
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    normals, limits = list(np.vstack((np.eye(3), -np.eye(3)))), [*high, *(-x for x in low)]
    pieces: list[Convex] = []
    run = np.eye(3)[axis]
    for (su, sv), r in zip(signs, radii, strict=True):
        if r == 0:
            continue
        corner = np.zeros(3)
        corner[u], corner[v] = (high[u] if su > 0 else low[u]), (high[v] if sv > 0 else low[v])
        spread = np.zeros((2, 3))
        spread[0, u], spread[1, v] = su, sv
        centre = corner - r * spread.sum(axis=0)
        begun = centre.copy()
        begun[axis] = low[axis]
        pieces.append(Round(begun, run, high[axis] - low[axis], r, spread=spread))
        # The flat cut that leaves the square corner to the cylinder.
        slant = spread.sum(axis=0)
        normals.append(slant)
        limits.append(float(slant @ centre) + r)
    core = Slabs(np.array(normals), np.array(limits), Slabs.box(low, high).corners)
    return Joined((core, *pieces)) if pieces else core


def _grooved(feature: Groove, size: BoardSize) -> Convex:
    box = feature.box(size)
    low, high = _opened(box, size)
    if feature.end_radius == 0:
        return Slabs.box(low, high)
    run, axis = feature.run_axis, feature.surface.axis
    first = feature.end_radius if low[run] > -_FAR else 0.0
    last = feature.end_radius if high[run] < _FAR else 0.0
    u = next(a for a in range(3) if a != axis)
    radii = (first, last, last, first) if run == u else (first, first, last, last)
    return pillow(low, high, axis, radii)


def _inward(surface: Surface) -> Floats:
    return np.asarray(-surface.sign * np.eye(3)[surface.axis])


def _bored(hole: Hole, size: BoardSize) -> list[Convex]:
    place = np.zeros(3)
    for at in (*hole.centre, At(hole.surface, 0.0)):
        place[at.axis] = at.coordinate(size)
    inward, out = _inward(hole.surface), 50.0
    deep = out + (hole.depth if hole.depth is not None else 2 * size.along[hole.surface.axis])
    pieces: list[Convex] = [Round(place - out * inward, inward, deep, hole.diameter / 2)]
    if hole.countersink:
        wide, narrow = hole.countersink / 2, hole.diameter / 2
        # One millimetre of air above the surface, in which the cone goes on.
        pieces.append(Round(place - inward, inward, 1 + wide - narrow, wide + 1, slope=-1.0))
    return pieces


def _slotted(slot: BiscuitSlot, size: BoardSize) -> Convex:
    thickness = slot.biscuit.thickness
    place = np.zeros(3)
    for at in (
        slot.centre,
        slot.height,
        At(slot.surface, slot.biscuit.slot_depth - BISCUIT_BLADE_RADIUS),
    ):
        place[at.axis] = at.coordinate(size)
    up = np.eye(3)[slot.height.axis]
    return Round(place - thickness / 2 * up, up, thickness, BISCUIT_BLADE_RADIUS)


def _bevelled(bevel: Bevel, size: BoardSize) -> Convex:
    # Taken away: from_face >= land + from_edge / tan(angle).
    steep = 1 / math.tan(math.radians(bevel.angle))
    edge, face = _inward(bevel.edge), _inward(bevel.sharp)
    origin = np.zeros(3)
    for at in (At(bevel.edge, 0.0), At(bevel.sharp, 0.0)):
        origin[at.axis] = at.coordinate(size)
    normal = steep * edge - face
    return Slabs(normal[None], np.array([normal @ origin - bevel.land]))
