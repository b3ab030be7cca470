"""The true cross-section of a board at any place along it, with its grooves and holes taken out.

What a feature takes away is its box; a bevel is taken as the wedge it is. A hole's box is a
little more than the hole, which errs on the safe side. Perforations are left to who uses the
sheet. All in the board's frame, mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from cabinet.board import BoardBox, BoardSize
from cabinet.errors import DesignError
from cabinet.features import Bevel, HoleRow, Perforation
from cabinet.part import Board
from cabinet.quantity import within

_SAME = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A cross-section.

    Attributes:
        axes: The two board axes that it spans.
        area: Its area, mm2.
        centroid: Board coordinates of its centroid along ``axes``, mm.
        second_moments: Integral of (distance from the centroid)^2 along each of ``axes``, mm4:
            the one that resists bending towards that axis.
        moduli: Each divided by the distance of its outermost fibre, mm3.
    """

    axes: tuple[int, int]
    area: float
    centroid: tuple[float, float]
    second_moments: tuple[float, float]
    moduli: tuple[float, float]

    def second_moment(self, load_axis: int) -> float:
        """Second moment of area against a load along a board axis, mm4."""
        return self.second_moments[self.axes.index(load_axis)]

    def modulus(self, load_axis: int) -> float:
        """Section modulus against a load along a board axis, mm3."""
        return self.moduli[self.axes.index(load_axis)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A length of a board over which its cross-section stays the same; places in mm."""

    start: float
    end: float
    section: Section


@dataclass(frozen=True, slots=True)
class _Piece:
    """Area, centroid and own second moments of a piece; a hole counts negative."""

    area: float
    centre: tuple[float, float]
    own: tuple[float, float]


def _boxes(board: Board, run: int) -> tuple[BoardBox, ...]:
    """What the features take away, as boxes; bevels that run along are left to ``_wedges``."""
    found: list[BoardBox] = []
    for feature in board.features:
        if isinstance(feature, Perforation) or _is_along(feature, run):
            continue
        singles = feature.holes if isinstance(feature, HoleRow) else (feature,)
        found += [single.box(board.size) for single in singles]
    return tuple(found)


def _is_along(feature: object, run: int) -> bool:
    return isinstance(feature, Bevel) and 3 - feature.edge.axis - 2 == run


def _wedges(board: Board, run: int, axes: tuple[int, int]) -> list[_Piece]:
    """The triangles that bevels along the run take from the section."""
    pieces = []
    for feature in board.features:
        if not isinstance(feature, Bevel) or not _is_along(feature, run):
            continue
        box = feature.box(board.size)
        legs = {axis: box.size[axis] for axis in axes}
        # The right angle lies in the corner between the bevelled edge and the face cut back.
        signs = {feature.edge.axis: feature.edge.sign, 2: feature.sharp.opposite.sign}
        centre = tuple(
            (box.high[axis] - legs[axis] / 3)
            if signs[axis] > 0
            else (box.low[axis] + legs[axis] / 3)
            for axis in axes
        )
        area = legs[axes[0]] * legs[axes[1]] / 2
        own = tuple(area * legs[axis] ** 2 / 18 for axis in axes)
        pieces.append(_Piece(-area, (centre[0], centre[1]), (-own[0], -own[1])))
    return pieces


def _cells(size: BoardSize, axes: tuple[int, int], cuts: list[BoardBox]) -> list[_Piece]:
    """The rectangles that are left of the full section, on the grid of all edges."""
    grid = []
    for axis in axes:
        edges = {0.0, size.along[axis]}
        for box in cuts:
            edges |= {min(max(v, 0.0), size.along[axis]) for v in (box.low[axis], box.high[axis])}
        grid.append(sorted(edges))
    pieces = []
    for u0, u1 in pairwise(grid[0]):
        for v0, v1 in pairwise(grid[1]):
            middle = (u0 + u1) / 2, (v0 + v1) / 2
            if any(
                all(box.low[a] < m < box.high[a] for a, m in zip(axes, middle, strict=True))
                for box in cuts
            ):
                continue
            area = (u1 - u0) * (v1 - v0)
            own = area * (u1 - u0) ** 2 / 12, area * (v1 - v0) ** 2 / 12
            pieces.append(_Piece(area, middle, own))
    return pieces


def section_at(board: Board, run: int, position: float) -> Section:
    """Cross-section at right angles to a board axis.

    A = sum A_i, c = sum A_i c_i / A, I = sum (I_i + A_i (c_i - c)^2), Z = I / e.

    Args:
        board: The board.
        run: Board axis along which it spans: 0 length, 1 width.
        position: Place along that axis, mm.

    Raises:
        SizeError: a place outside the board.
        DesignError: nothing is left of the board there.

    Source: parallel-axis theorem, any text on strength of materials.
    """
    within("board", "place of the section", position, 0.0, board.size.along[run])
    return _section(board, run, position, _boxes(board, run))


def _section(board: Board, run: int, position: float, boxes: Sequence[BoardBox]) -> Section:
    first, second = (axis for axis in range(3) if axis != run)
    axes = first, second
    cuts = [b for b in boxes if b.low[run] < position < b.high[run]]
    cells = _cells(board.size, axes, cuts)
    pieces = cells + (_wedges(board, run, axes) if cells else [])
    area = sum(piece.area for piece in pieces)
    if area <= _SAME:
        raise DesignError(
            f"board: nothing is left of it {position:.1f} mm along; move or shorten its cuts",
            part="board",
            value=area,
            limit=0.0,
        )
    centres, moments, moduli = [], [], []
    for i in range(2):
        centre = sum(p.area * p.centre[i] for p in pieces) / area
        moment = sum(p.own[i] + p.area * (p.centre[i] - centre) ** 2 for p in pieces)
        half = [((12 * p.own[i] / p.area) ** 0.5) / 2 for p in cells]
        low = min(p.centre[i] - h for p, h in zip(cells, half, strict=True))
        high = max(p.centre[i] + h for p, h in zip(cells, half, strict=True))
        centres.append(centre)
        moments.append(moment)
        moduli.append(moment / max(high - centre, centre - low))
    return Section(
        axes=axes,
        area=area,
        centroid=(centres[0], centres[1]),
        second_moments=(moments[0], moments[1]),
        moduli=(moduli[0], moduli[1]),
    )


# Every use of a shelf and every modulus bends the same boards, and boards are values.
@lru_cache(maxsize=512)
def stretches(board: Board, run: int) -> tuple[Stretch, ...]:
    """The board as stretches of equal cross-section, from one end to the other.

    Args:
        board: The board.
        run: Board axis along which it spans: 0 length, 1 width.

    Raises:
        DesignError: nothing is left of the board somewhere.
    """
    extent = board.size.along[run]
    edges = {0.0, extent}
    boxes = _boxes(board, run)
    for box in boxes:
        edges |= {v for v in (box.low[run], box.high[run]) if _SAME < v < extent - _SAME}
    found: list[Stretch] = []
    for start, end in pairwise(sorted(edges)):
        if end - start < _SAME:
            continue
        section = _section(board, run, (start + end) / 2, boxes)
        if found and found[-1].section == section:
            found[-1] = Stretch(start=found[-1].start, end=end, section=section)
        else:
            found.append(Stretch(start=start, end=end, section=section))
    return tuple(found)
