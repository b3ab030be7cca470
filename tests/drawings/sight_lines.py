"""The lines of a view found without the kernel's hidden-line removal.

Sharp edges are read from the solids and sampled, outlines of round surfaces follow from their
axes; where each is seen is decided by lines of sight against ``convex_bodies`` hard by its two
sides, and the places where that changes are found by halving. A place counts once, however many
lines run through it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.GeomAbs import GeomAbs_CurveType
from scipy.spatial import cKDTree  # type: ignore[import-untyped]

from drawings.curves import ArcCurve, Curve, PolyCurve, length
from drawings.view_frame import ViewFrame
from tests.drawings.convex_bodies import Body, Floats, Truths

# How far beside a line it is looked for, and how much nearer to the viewer, mm: for lines that
# are exact, and for those that the kernel knows only nearly.
_EXACT, _NEARLY = (1e-6, 1e-3), (1e-3, 0.05)
_HALVINGS = 12
_END = 2e-4
# How far apart stations lie at which places are compared, mm.
_STEP = 0.4
# Two carriers closer than this everywhere are one, mm.
_SAME = 4e-4
_LEVEL = 1e-9
_ABSENT, _HIDDEN, _SEEN = 0, 1, 2

Stretch = tuple[float, float]


@dataclass(frozen=True)
class Line:
    """A line of the view with what it is: ``centre + one cos t + two sin t``, or straight.

    Attributes:
        owner: Name of the body to which it belongs.
        at: Points (n, 3) at parameters (n,).
        ends: Parameters of its ends.
        shape: ("line",), ("conic", centre, one, two), or ("other",).
        wood: From the line to where its owner's material must lie for it to be there, mm.
        near: How far beside it and before it one looks, mm.
    """

    owner: str
    at: Callable[[Floats], Floats]
    ends: Stretch
    shape: tuple[object, ...]
    wood: Floats | None = None
    near: tuple[float, float] = _EXACT


def straight(owner: str, start: Floats, end: Floats) -> Line:
    """A straight line."""
    return Line(
        owner, lambda t: start + t[:, None] * (end - start), (0.0, 1.0), ("line", start, end)
    )


def conic(owner: str, centre: Floats, one: Floats, two: Floats, ends: Stretch) -> Line:
    """Part of a circle or an ellipse, by two half-axes square to each other in space."""

    def at(t: Floats) -> Floats:
        return np.asarray(centre + np.cos(t)[:, None] * one + np.sin(t)[:, None] * two)

    return Line(owner, at, ends, ("conic", centre, one, two))


def edge_lines(owner: str, solid: cq.Shape, body: Body, frame: ViewFrame) -> list[Line]:
    """The sharp edges of a solid as lines in the view's frame."""
    turn = rotation(frame)
    lines = [_edge_line(owner, edge, turn) for edge in solid.Edges()]
    return [line for line, sharp in zip(lines, _are_sharp(lines, body), strict=True) if sharp]


def rotation(frame: ViewFrame) -> Floats:
    """The turn from the model's frame to the view's."""
    return np.array([frame.right, frame.up, frame.toward])


def _edge_line(owner: str, edge: cq.Edge, turn: Floats) -> Line:
    adaptor = BRepAdaptor_Curve(edge.wrapped)
    ends = adaptor.FirstParameter(), adaptor.LastParameter()

    def vector(xyz: object) -> Floats:
        return turn @ np.array((xyz.X(), xyz.Y(), xyz.Z()))  # type: ignore[attr-defined]

    kind = adaptor.GetType()
    if kind == GeomAbs_CurveType.GeomAbs_Line:
        return straight(owner, vector(adaptor.Value(ends[0])), vector(adaptor.Value(ends[1])))
    if kind in (GeomAbs_CurveType.GeomAbs_Circle, GeomAbs_CurveType.GeomAbs_Ellipse):
        if kind == GeomAbs_CurveType.GeomAbs_Circle:
            round_ = adaptor.Circle()
            radii = round_.Radius(), round_.Radius()
        else:
            round_ = adaptor.Ellipse()
            radii = round_.MajorRadius(), round_.MinorRadius()
        place = round_.Position()
        one = radii[0] * vector(place.XDirection())
        two = radii[1] * vector(place.YDirection())
        return conic(owner, vector(round_.Location()), one, two, ends)
    known = np.linspace(*ends, 4001)
    points = np.array([vector(adaptor.Value(t)) for t in known])

    def at(t: Floats) -> Floats:
        return np.stack([np.interp(t, known, points[:, k]) for k in range(3)], axis=1)

    return Line(owner, at, ends, ("other",), near=_NEARLY)


def _are_sharp(lines: Sequence[Line], body: Body) -> Truths:
    """Whether the wood around the middle of each edge is anything but half of all there is."""
    if not lines:
        return np.zeros(0, dtype=bool)
    middles, along = (np.concatenate(x) for x in zip(*map(_middle, lines), strict=True))
    reach = np.array([line.near[1] for line in lines])
    share = _share(middles, along, reach, body, 60)
    close = np.flatnonzero(np.abs(share - 0.5) < 0.05)
    share[close] = _share(middles[close], along[close], reach[close], body, 720)
    return np.abs(share - 0.5) > 2e-3


def _middle(line: Line) -> tuple[Floats, Floats]:
    t = line.ends[0] + 0.4871 * (line.ends[1] - line.ends[0])
    step = 1e-2 * line.near[1] * (line.ends[1] - line.ends[0])
    a, b = line.at(np.array([t - step])), line.at(np.array([t + step]))
    return line.at(np.array([t])), (b - a) / np.linalg.norm(b - a)


def _share(middles: Floats, along: Floats, reach: Floats, body: Body, count: int) -> Floats:
    helper = np.eye(3)[np.abs(along).argmin(axis=1)]
    one = np.cross(along, helper)
    one /= np.linalg.norm(one, axis=1)[:, None]
    two = np.cross(along, one)
    turns = (np.arange(count) + 0.317) * 2 * math.pi / count
    ring = np.cos(turns)[:, None] * one[:, None] + np.sin(turns)[:, None] * two[:, None]
    points = middles[:, None] + reach[:, None, None] * ring
    held = body.holds(points.reshape(-1, 3)).reshape(len(middles), count)
    return np.asarray(held.mean(axis=1))


def contour_lines(owner: str, body: Body) -> list[Line]:
    """Outlines of the round surfaces of a body that lies in the view's frame."""
    lines = []
    for contour, side in body.contours():
        wood = side * 1e-4 * contour.outward
        lines.append(replace(straight(owner, *contour.ends), wood=wood))
    return lines


# What is seen of each


def told_apart(
    lines: Sequence[Line], bodies: Mapping[str, Body], pitch: float
) -> tuple[list[list[Stretch]], list[list[Stretch]]]:
    """Stretches of each line that are seen, and that are hidden."""
    grids = [_grid(line, pitch) for line in lines]
    where = np.concatenate([np.full(len(grid), k) for k, grid in enumerate(grids)])
    mids = np.concatenate(grids)
    seen_by = _Sight(lines, bodies)
    states = seen_by.states(where, mids)
    # Where neighbours differ, the change is found by halving.
    left = np.flatnonzero((where[1:] == where[:-1]) & (states[1:] != states[:-1]))
    low, high, owner = mids[left].copy(), mids[left + 1].copy(), where[left]
    before = states[left]
    for _ in range(_HALVINGS if len(left) else 0):
        middle = (low + high) / 2
        same = seen_by.states(owner, middle) == before
        low, high = np.where(same, middle, low), np.where(same, high, middle)
    changes = (low + high) / 2
    seen: list[list[Stretch]] = [[] for _ in lines]
    hidden: list[list[Stretch]] = [[] for _ in lines]
    firsts = np.flatnonzero(np.diff(where, prepend=-1))
    for k, line in enumerate(lines):
        mine = changes[owner == k].tolist()
        kinds = [states[firsts[k]], *states[left[owner == k] + 1]]
        cuts = [line.ends[0], *mine, line.ends[1]]
        for kind, stretch in zip(kinds, pairwise(cuts), strict=True):
            if kind != _ABSENT:
                (seen if kind == _SEEN else hidden)[k].append(stretch)
    return seen, hidden


def _grid(line: Line, pitch: float) -> Floats:
    """Middles of pieces of a line, about a pitch long in the view."""
    t = np.linspace(*line.ends, 33)
    flat = line.at(t)[:, :2]
    span = np.hypot(*np.diff(flat, axis=0).T).sum()
    count = max(1 if span < 1e-4 else 6, math.ceil(span / pitch))
    if line.shape[0] != "line":
        count = max(count, math.ceil(24 * (line.ends[1] - line.ends[0]) / (2 * math.pi)))
    # The first and the last lie hard by the ends, where short pieces come and go.
    shares = np.array([_END, *((np.arange(1, count - 1) + 0.5) / count), 1 - _END])
    if count < 2:
        shares = np.array([0.5])
    return line.ends[0] + shares * (line.ends[1] - line.ends[0])


class _Sight:
    """Looks for points of lines past the bodies of a view."""

    def __init__(self, lines: Sequence[Line], bodies: Mapping[str, Body]) -> None:
        self.lines = lines
        self.bodies = bodies
        self.near = np.array([line.near for line in lines])

    def states(self, where: Floats, t: Floats) -> Floats:
        """Absent, hidden or seen, for each place ``t`` of line ``where``."""
        points, ahead = np.empty((len(t), 3)), np.empty((len(t), 3))
        wood: dict[str, list[Floats]] = {}
        owned: dict[str, list[NDArray[np.int64]]] = {}
        bounds = np.flatnonzero(np.diff(where, prepend=-1, append=-1))
        for low, high in pairwise(bounds.tolist()):
            line = self.lines[int(where[low])]
            step = 1e-3 * line.near[1] * (line.ends[1] - line.ends[0])
            points[low:high] = line.at(t[low:high])
            ahead[low:high] = line.at(t[low:high] + step) - line.at(t[low:high] - step)
            if line.wood is not None:
                wood.setdefault(line.owner, []).append(points[low:high] + line.wood)
                owned.setdefault(line.owner, []).append(np.arange(low, high, dtype=np.int64))
        there = np.ones(len(t), dtype=bool)
        for owner, places in wood.items():
            held = self.bodies[owner].holds(np.concatenate(places))
            there[np.concatenate(owned[owner])] = held
        across = np.stack((-ahead[:, 1], ahead[:, 0]), axis=1)
        size = np.hypot(*across.T)
        across /= np.maximum(size, 1e-300)[:, None]
        aside, towards = self.near[where.astype(int)].T
        seen = np.zeros(len(t), dtype=bool)
        for side in (1.0, -1.0):
            beside = points.copy()
            beside[:, :2] += side * aside[:, None] * across
            beside[:, 2] += towards
            rest = np.flatnonzero(there & ~seen)
            seen[rest] = ~self._covered(beside[rest])
        return np.where(there, np.where(seen, _SEEN, _HIDDEN), _ABSENT)

    def _covered(self, points: Floats) -> Truths:
        result = np.zeros(len(points), dtype=bool)
        left = np.arange(len(points))
        for body in self.bodies.values():
            covered = body.covers(points[left])
            result[left[covered]] = True
            left = left[~covered]
        return result


# Each place once


@dataclass
class _Carrier:
    """A straight line or an ellipse of the view with the stretches that are inked on it."""

    shape: str
    origin: Floats
    frame: Floats
    inked: list[Stretch]

    def length(self, stretch: Stretch) -> float:
        """Length of one stretch, mm."""
        points = self.points(np.linspace(*stretch, 2 if self.shape == "line" else 400))
        return float(np.hypot(*np.diff(points, axis=0).T).sum())

    def points(self, t: Floats) -> Floats:
        """Points (n, 2) at parameters."""
        if self.shape == "line":
            return np.asarray(self.origin + t[:, None] * self.frame)
        return np.asarray(self.origin + np.stack((np.cos(t), np.sin(t)), axis=1) @ self.frame.T)

    def united(self) -> list[Stretch]:
        """The stretches, each place once."""
        result: list[Stretch] = []
        for low, high in sorted(self.inked):
            if result and low <= result[-1][1] + 1e-9:
                result[-1] = (result[-1][0], max(result[-1][1], high))
            else:
                result.append((low, high))
        return result


class Places:
    """The places of a view that lines take, each counted once."""

    def __init__(self) -> None:
        self._carriers: list[_Carrier] = []
        self._others: list[Floats] = []

    def add(self, line: Line, stretches: Iterable[Stretch]) -> None:
        """Ink some stretches of a line."""
        for stretch in stretches:
            kind = line.shape[0]
            if kind == "line":
                self._add_straight(line.at(np.array(stretch))[:, :2])
            elif kind == "conic":
                self._add_conic(line, stretch)
            else:
                self._add_other(line.at(np.linspace(*stretch, 400))[:, :2])

    def length(self) -> float:
        """How long they are together, mm."""
        return math.fsum(
            c.length(stretch) for c in self._carriers for stretch in c.united()
        ) + math.fsum(self._other_lengths())

    def stations(self, pitch: float) -> Floats:
        """Points (n, 2) all along, at most ``pitch`` mm apart."""
        found = []
        for carrier in self._carriers:
            for low, high in carrier.united():
                count = 2 + math.ceil(carrier.length((low, high)) / pitch)
                found.append(carrier.points(np.linspace(low, high, count)))
        return np.concatenate([*found, *self._others, np.empty((0, 2))])

    def _add_straight(self, ends: Floats) -> None:
        span = math.hypot(*(ends[1] - ends[0]))
        if span < _SAME:
            return
        for carrier in self._carriers:
            if carrier.shape != "line":
                continue
            away = ends - carrier.origin
            along = away @ carrier.frame
            if np.abs(away[:, 0] * carrier.frame[1] - away[:, 1] * carrier.frame[0]).max() < _SAME:
                carrier.inked.append((float(along.min()), float(along.max())))
                return
        self._carriers.append(_Carrier("line", ends[0], (ends[1] - ends[0]) / span, [(0.0, span)]))

    def _add_conic(self, line: Line, stretch: Stretch) -> None:
        _, centre, one, two = line.shape
        axes = np.stack((one[:2], two[:2]), axis=1)  # type: ignore[index]
        sizes = np.linalg.svd(axes, compute_uv=False)
        if sizes[1] < _SAME:
            points = line.at(np.linspace(*stretch, 3601))[:, :2]
            far = points - points[0]
            main = axes[:, np.hypot(*axes).argmax()]
            along = far @ main
            self._add_straight(points[[along.argmin(), along.argmax()]])
            return
        values, vectors = np.linalg.eigh(axes @ axes.T)
        frame = vectors @ np.diag(np.sqrt(values)) @ vectors.T
        turn = np.linalg.solve(frame, axes)
        start, end = (math.atan2(*(turn @ (math.cos(t), math.sin(t)))[::-1]) for t in stretch)
        sweep = stretch[1] - stretch[0]
        low = start if np.linalg.det(turn) > 0 else end
        self._ink_ellipse(centre[:2], frame, low % (2 * math.pi), sweep)  # type: ignore[index]

    def _ink_ellipse(self, centre: Floats, frame: Floats, low: float, sweep: float) -> None:
        home = next(
            (
                c
                for c in self._carriers
                if c.shape == "conic"
                and np.abs(c.origin - centre).max() < _SAME
                and np.abs(c.frame - frame).max() < _SAME
            ),
            None,
        )
        if home is None:
            home = _Carrier("conic", centre, frame, [])
            self._carriers.append(home)
        full = 2 * math.pi
        home.inked.append((low, min(low + sweep, full)))
        if low + sweep > full:
            home.inked.append((0.0, low + sweep - full))

    def _add_other(self, points: Floats) -> None:
        far = points - points[0]
        span = np.hypot(*far.T)
        main = far[span.argmax()] / max(span.max(), 1e-300)
        if np.abs(far[:, 0] * main[1] - far[:, 1] * main[0]).max() < _SAME:
            along = far @ main
            self._add_straight(points[[along.argmin(), along.argmax()]])
            return
        # Seen square on, a curve may fold back on itself.
        chords = np.diff(points, axis=0)
        folds = np.flatnonzero((chords[1:] * chords[:-1]).sum(axis=1) < 0) + 1
        for first, last in pairwise([0, *folds.tolist(), len(points) - 1]):
            self._others.append(points[first : last + 1])

    def _other_lengths(self) -> list[float]:
        """Lengths of what lies on nothing else."""
        known = [
            c.points(np.linspace(*stretch, 2 + math.ceil(c.length(stretch) / 0.05)))
            for c in self._carriers
            if c.shape == "conic" and self._others
            for stretch in c.united()
        ]
        lengths = []
        for points in self._others:
            middles = (points[1:] + points[:-1]) / 2
            taken = np.zeros(len(middles), dtype=bool)
            for other in known:
                taken |= _lie_on(middles, other)
            lengths.append(float(np.hypot(*np.diff(points, axis=0).T)[~taken].sum()))
            known.append(points)
        return lengths


def _lie_on(points: Floats, chain: Floats) -> Truths:
    start, along = chain[:-1], np.diff(chain, axis=0)
    away = points[:, None] - start
    share = np.clip((away * along).sum(2) / np.maximum((along**2).sum(1), 1e-30), 0, 1)
    return np.asarray(np.hypot(*np.moveaxis(away - share[..., None] * along, 2, 0)).min(1) < 1e-2)


@dataclass(frozen=True)
class Faults:
    """How a drawing differs from a view, as shares of the length that is seen.

    Attributes:
        longer: How much longer what is drawn as visible is; below 0 if it is shorter.
        lacking: What is seen and not drawn as visible.
        excess: What is drawn as visible and not seen.
    """

    longer: float
    lacking: float
    excess: float

    @property
    def worst(self) -> float:
        """The greatest of the three."""
        return max(abs(self.longer), self.lacking, self.excess)


@dataclass(frozen=True)
class View:
    """The lines of a view.

    Attributes:
        seen: The places of visible lines.
        all_lines: Those of all lines.
    """

    seen: Places
    all_lines: Places

    @property
    def hidden_length(self) -> float:
        """How long what is hidden and lies beneath nothing seen is together, mm."""
        return self.all_lines.length() - self.seen.length()

    def faults(self, visible: Iterable[Curve]) -> Faults:
        """How the visible lines of a drawing differ from what is seen.

        Lengths are compared exactly, places within 0.1 mm.
        """
        curves = tuple(visible)
        drawn, seen = _stations_of(curves), self.seen.stations(_STEP)
        apart = _STEP / 2 + 0.1
        return Faults(
            length(curves) / self.seen.length() - 1,
            float((cKDTree(drawn).query(seen)[0] > apart).mean()),
            float((cKDTree(seen).query(drawn)[0] > apart).mean()),
        )


def _stations_of(curves: Iterable[Curve]) -> Floats:
    found = []
    for curve in curves:
        if isinstance(curve, ArcCurve):
            turns = np.linspace(curve.start, curve.end, 90).tolist()
            points = tuple(curve.point_at(turn) for turn in turns)
        else:
            points = curve.points if isinstance(curve, PolyCurve) else (curve.start, curve.end)
        for a, b in pairwise(points):
            count = 2 + math.ceil(math.hypot(b.u - a.u, b.v - a.v) / _STEP)
            found.append(
                np.stack((np.linspace(a.u, b.u, count), np.linspace(a.v, b.v, count)), axis=1)
            )
    return np.concatenate(found)


def view_of(
    solids: Mapping[str, cq.Shape],
    bodies: Mapping[str, Body],
    frame: ViewFrame,
    *,
    pitch: float = 1.0,
) -> View:
    """All lines of a view.

    Args:
        solids: The solids whose edges are looked for, in the model's frame.
        bodies: The same as bodies, under the same names.
        frame: From where they are seen.
        pitch: How far apart lines are looked at, mm; what is seen for less of a line can be
            missed, unless it lies at its end.
    """
    turned = {name: body.moved(rotation(frame), np.zeros(3)) for name, body in bodies.items()}
    lines: list[Line] = []
    for name, solid in solids.items():
        lines += edge_lines(name, solid, turned[name], frame)
        lines += contour_lines(name, turned[name])
    seen, hidden = told_apart(lines, turned, pitch)
    visible, everything = Places(), Places()
    for line, shown, covered in zip(lines, seen, hidden, strict=True):
        visible.add(line, shown)
        everything.add(line, (*shown, *covered))
    return View(visible, everything)
