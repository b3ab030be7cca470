"""A straight beam on any supports, its stiffness changing from stretch to stretch.

Loads are uniform over parts of it or stand at points. Within a stretch of equal stiffness all
is a polynomial, which is integrated exactly: there is no mesh. Deflections and loads are
positive downwards, moments positive where the underside is stretched. mm and N.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from cabinet.errors import DesignError, SizeError
from cabinet.quantity import finite, positive, within

_SAME = 1e-9
Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stiffness:
    """Stiffness of a stretch.

    Attributes:
        start: Where it begins, mm.
        end: Where it ends, mm.
        bending: E I, N mm2.
        shear: G A', N; infinite to leave the shear part out.
    """

    start: float
    end: float
    bending: float
    shear: float = math.inf

    def __post_init__(self) -> None:
        finite("beam", "start of a stretch", self.start)
        positive("beam", "length of a stretch", self.end - self.start)
        positive("beam", "bending stiffness", self.bending, unit="N mm2")
        if not math.isinf(self.shear):
            positive("beam", "shear stiffness", self.shear, unit="N")


@dataclass(frozen=True, slots=True)
class Support:
    """A support that does not give way; clamped, the beam does not turn there either."""

    at: float
    is_clamped: bool = False


@dataclass(frozen=True, slots=True)
class PointLoad:
    """A force in N at a place."""

    at: float
    force: float


@dataclass(frozen=True, slots=True)
class LineLoad:
    """A uniform load in N/mm over a part of the beam."""

    start: float
    end: float
    intensity: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A beam from 0 to the end of its last stretch.

    Raises:
        SizeError: stretches that do not join, or a support or load that lies off the beam.
    """

    stretches: tuple[Stiffness, ...]
    supports: tuple[Support, ...]
    points: tuple[PointLoad, ...] = ()
    lines: tuple[LineLoad, ...] = ()

    def __post_init__(self) -> None:
        joints = [0.0, *(s.end for s in self.stretches)]
        starts = [s.start for s in self.stretches]
        if not starts or any(abs(a - b) > 1e-6 for a, b in zip(joints, starts, strict=False)):
            raise SizeError("beam: its stretches must begin at 0 and join each other", part="beam")
        places = [("support", s.at) for s in self.supports]
        places += [("load", p.at) for p in self.points]
        places += [("load", v) for line in self.lines for v in (line.start, line.end)]
        for name, at in places:
            within("beam", f"place of a {name}", at, 0.0, self.length)
        for point in self.points:
            finite("beam", "force", point.force, unit="N")
        for line in self.lines:
            finite("beam", "intensity", line.intensity, unit="N/mm")
            positive("beam", "length of a load", line.end - line.start)

    @property
    def length(self) -> float:
        """Length over all, mm."""
        return self.stretches[-1].end


@dataclass(frozen=True, slots=True)
class _Piece:
    """Between two nodes: state at its start, its load and its stiffness."""

    start: float
    length: float
    deflection: float
    slope: float
    moment: float
    shear: float
    load: float
    bending: float
    shear_stiffness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """A beam under its loads.

    Attributes:
        reactions: Upward force of each support in the order of the supports, N.
        clamping: Moment of each clamped support in that order, N mm.
        pieces: The solution between the nodes.
    """

    reactions: tuple[float, ...]
    clamping: tuple[float, ...]
    pieces: tuple[_Piece, ...]

    def _piece(self, at: float) -> tuple[_Piece, float]:
        for piece in self.pieces:
            if at <= piece.start + piece.length + _SAME:
                return piece, min(max(at - piece.start, 0.0), piece.length)
        last = self.pieces[-1]
        return last, within("beam", "place", at - last.start, 0.0, last.length)

    def deflection(self, at: float) -> float:
        """Deflection at a place, mm downwards."""
        piece, s = self._piece(at)
        return float(np.polyval(_deflection(piece), s))

    def moment(self, at: float) -> float:
        """Bending moment at a place, N mm."""
        piece, s = self._piece(at)
        return piece.moment + piece.shear * s - piece.load * s**2 / 2

    def greatest_deflection(self) -> tuple[float, float]:
        """Place and size of the greatest deflection up or down, mm; the size has its sign."""
        found = []
        for piece in self.pieces:
            shape = _deflection(piece)
            spots = [
                0.0,
                piece.length,
                *_inner_roots(np.asarray(np.polyder(shape), float), piece.length),
            ]
            found += [(piece.start + s, float(np.polyval(shape, s))) for s in spots]
        return max(found, key=lambda pair: abs(pair[1]))

    def greatest_moment(self, start: float = 0.0, end: float = math.inf) -> tuple[float, float]:
        """Place in mm and size in N mm of the greatest moment between two places, signed."""
        found = []
        for piece in self.pieces:
            low = max(start - piece.start, 0.0)
            high = min(end - piece.start, piece.length)
            if high < low:
                continue
            spots = [low, high]
            if piece.load and low < piece.shear / piece.load < high:
                spots.append(piece.shear / piece.load)
            found += [
                (piece.start + s, piece.moment + piece.shear * s - piece.load * s**2 / 2)
                for s in spots
            ]
        return max(found, key=lambda pair: abs(pair[1]))


def _deflection(piece: _Piece) -> Vector:
    """Coefficients of the deflection over a piece, highest power first."""
    ei, ga = piece.bending, piece.shear_stiffness
    m, v, q = piece.moment, piece.shear, piece.load
    return np.array(
        [
            q / (24 * ei),
            -v / (6 * ei),
            -m / (2 * ei) - q / (2 * ga),
            piece.slope + v / ga,
            piece.deflection,
        ]
    )


def _inner_roots(shape: Vector, length: float) -> list[float]:
    trimmed = np.trim_zeros(shape, "f")
    if len(trimmed) < 2:
        return []
    roots = np.roots(trimmed)
    return [float(r.real) for r in roots if abs(r.imag) < 1e-9 and 0 < r.real < length]


def _nodes(beam: Beam) -> list[float]:
    places = {0.0, beam.length}
    places |= {s.start for s in beam.stretches} | {s.at for s in beam.supports}
    places |= {p.at for p in beam.points}
    places |= {v for line in beam.lines for v in (line.start, line.end)}
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > 1e-7:
            kept.append(place)
    return kept


def _at(node: float, place: float) -> bool:
    return abs(node - place) <= 1e-7


class _Marched:
    """The state (deflection, slope, moment, shear) marched along, affine in the unknowns.

    Unknowns are deflection and slope at the left end, one reaction for each support and one
    moment for each clamp. Lengths are scaled by the beam's and stiffness by its first, so that
    the equations stay well conditioned.
    """

    def __init__(self, beam: Beam) -> None:
        self.beam = beam
        self.scale = beam.length
        self.stiff = beam.stretches[0].bending
        self.clamps = [i for i, s in enumerate(beam.supports) if s.is_clamped]
        self.count = 2 + len(beam.supports) + len(self.clamps)
        self.rows: list[Vector] = []
        self.starts: list[tuple[float, float, list[Vector], float, Stiffness]] = []

    def _unit(self, index: int) -> Vector:
        row = np.zeros(self.count + 1)
        row[index] = 1.0
        return row

    def _jump(self, node: float, state: list[Vector]) -> None:
        """Supports and point loads at a node."""
        for i, support in enumerate(self.beam.supports):
            if not _at(node, support.at):
                continue
            self.rows.append(state[0].copy())
            state[3] = state[3] + self._unit(2 + i)
            if support.is_clamped:
                self.rows.append(state[1].copy())
                clamp = 2 + len(self.beam.supports) + self.clamps.index(i)
                state[2] = state[2] + self._unit(clamp)
        for point in self.beam.points:
            if _at(node, point.at):
                state[3] = state[3] - point.force * self._unit(self.count)

    def _load(self, start: float, end: float) -> float:
        middle = (start + end) / 2
        return sum(q.intensity for q in self.beam.lines if q.start < middle < q.end)

    def _stretch(self, start: float, end: float) -> Stiffness:
        middle = (start + end) / 2
        return next(s for s in self.beam.stretches if s.start <= middle <= s.end)

    def march(self) -> None:
        """From the left end to the right, collecting the conditions of the supports."""
        nodes = _nodes(self.beam)
        zero = np.zeros(self.count + 1)
        state = [self._unit(0), self._unit(1), zero, zero]
        for start, end in pairwise(nodes):
            self._jump(start, state)
            stretch = self._stretch(start, end)
            load = self._load(start, end)
            self.starts.append((start, end - start, list(state), load, stretch))
            state = self._over(state, (end - start) / self.scale, load, stretch)
        self._jump(nodes[-1], state)
        self.rows += [state[2], state[3]]

    def _over(self, state: list[Vector], s: float, load: float, stretch: Stiffness) -> list[Vector]:
        ei = stretch.bending / self.stiff
        ga = stretch.shear * self.scale**2 / self.stiff
        q = load * self.scale * self._unit(self.count)
        w, turn, m, v = state
        return [
            w
            + turn * s
            - (m * s**2 / 2 + v * s**3 / 6 - q * s**4 / 24) / ei
            + (v * s - q * s**2 / 2) / ga,
            turn - (m * s + v * s**2 / 2 - q * s**3 / 6) / ei,
            m + v * s - q * s**2 / 2,
            v - q * s,
        ]


def solve(beam: Beam) -> Bent:
    """Reactions, moments and deflections of a beam.

    E I phi' = -M, w' = phi + V / (G A'), M' = V, V' = -q, with w = 0 at every support and
    phi = 0 at every clamp. Small deflections, linear elastic; plane sections stay plane.

    Raises:
        DesignError: the supports do not hold the beam.

    Source: Timoshenko beam theory; method of initial parameters, any text on structures.
    """
    marched = _Marched(beam)
    marched.march()
    table = np.vstack(marched.rows)
    matrix, right = table[:, :-1], -table[:, -1]
    if table.shape[0] != marched.count or np.linalg.cond(matrix) > 1e13:
        raise DesignError(
            f"beam: {len(beam.supports)} supports do not hold it; give it two, or one that is "
            "clamped, none of them twice in one place",
            part="beam",
            value=len(beam.supports),
            limit=2,
        )
    known = np.append(np.linalg.solve(matrix, right), 1.0)
    length, stiff = marched.scale, marched.stiff
    pieces = tuple(
        _Piece(
            start=start,
            length=extent,
            deflection=float(state[0] @ known) * length**3 / stiff,
            slope=float(state[1] @ known) * length**2 / stiff,
            moment=float(state[2] @ known) * length,
            shear=float(state[3] @ known),
            load=load,
            bending=stretch.bending,
            shear_stiffness=stretch.shear,
        )
        for start, extent, state, load, stretch in marched.starts
    )
    count = len(beam.supports)
    return Bent(
        reactions=tuple(float(r) for r in known[2 : 2 + count]),
        clamping=tuple(float(c) * length for c in known[2 + count : -1]),
        pieces=pieces,
    )
