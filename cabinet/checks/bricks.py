"""A body as bricks: upright boxes that together fill it, for exact questions of what is in the way.

A board less cutters that are boxes is a set of boxes, found on the grid that all faces make.
Round and slanted cutters are left standing, so that the bricks are never less than the board (of
openings and round-ended grooves what is square within them is cut); or, to be sure of what is in
the way, they are taken for their whole box, so that the bricks are never more. Lengths in mm in
the unit's frame.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np
from numpy.typing import NDArray

from cabinet.board import BoardBox
from cabinet.features import (
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    HoleRow,
    Notch,
    Perforation,
    Rebate,
)
from cabinet.frame import Side, UnitBox
from cabinet.part import Board, Part

Boxes = NDArray[np.float64]
"""An array of shape (n, 2, 3): low and high corner of each brick, mm."""

# Faces nearer than this are one, mm: coordinates are rounded to a millionth.
SAME_FACE = 1e-4


@dataclass(frozen=True, slots=True, eq=False)
class Bricks:
    """The bricks of one rigid thing.

    Attributes:
        names: Names of the bodies that it is made of.
        boxes: Their bricks, mm in the unit; shape (n, 2, 3).
        owners: For each brick, which of the names it belongs to; shape (n,).
        doubts: Names of bodies that reach into a round cut of it, about which bricks cannot tell.
    """

    names: tuple[str, ...]
    boxes: Boxes
    owners: NDArray[np.intp]
    doubts: frozenset[str] = frozenset()

    @property
    def low(self) -> NDArray[np.float64]:
        """Low corner of the box around all, mm; shape (3,)."""
        return np.asarray(self.boxes[:, 0].min(axis=0))

    @property
    def high(self) -> NDArray[np.float64]:
        """High corner of the box around all, mm; shape (3,)."""
        return np.asarray(self.boxes[:, 1].max(axis=0))

    def face(self, side: Side) -> float:
        """Coordinate of the outermost face that looks to a side, mm."""
        return float((self.high if side.sign > 0 else self.low)[side.axis])

    def without(self, names: Iterable[str]) -> Bricks:
        """The same less some of its bodies."""
        left = set(names)
        keeps = np.array([name not in left for name in self.names])[self.owners]
        return Bricks(self.names, self.boxes[keeps], self.owners[keeps], self.doubts)


def together(things: Iterable[Bricks]) -> Bricks:
    """Several things as one rigid one."""
    them = list(things)
    names: list[str] = []
    owners = []
    for thing in them:
        owners.append(thing.owners + len(names))
        names += thing.names
    return Bricks(
        tuple(names),
        np.concatenate([t.boxes for t in them]),
        np.concatenate(owners),
        frozenset().union(*(t.doubts for t in them)),
    )


def part_bricks(part: Part, extra: Iterable[UnitBox] = (), *, at_least: bool = True) -> Bricks:
    """The bricks of a part in its place.

    Args:
        part: The part.
        extra: Boxes that are fixed to it, such as its biscuits.
        at_least: Never less than the part; False for never more.
    """
    placed = in_unit(part, board_bricks(part.board, at_least))
    more = [box_array(box) for box in extra]
    boxes = np.concatenate([placed, *more]) if more else placed
    return Bricks((part.name,), boxes, np.zeros(len(boxes), dtype=np.intp))


def in_unit(part: Part, local: Boxes) -> Boxes:
    """Boxes of a part's board, placed in the unit."""
    placed = np.empty_like(local)
    for axis, side in enumerate(part.placement.directions):
        origin = tuple(part.placement.origin)[side.axis]
        span = origin + side.sign * local[:, :, axis]
        placed[:, :, side.axis] = np.sort(span, axis=1)
    return placed


def box_array(box: UnitBox) -> Boxes:
    """One box as an array of shape (1, 2, 3)."""
    return np.array([[tuple(box.low), tuple(box.high)]], dtype=np.float64)


@lru_cache(maxsize=4096)
def board_bricks(board: Board, at_least: bool) -> Boxes:  # noqa: FBT001 - the key of a cache
    """The bricks of a board in its own frame; see the module for ``at_least``."""
    size = board.size.along
    whole = BoardBox(low=(0.0, 0.0, 0.0), high=size)
    cuts = [cut for f in board.features for cut in _cuts(f, board, at_least)]
    marks = [
        _merged(
            {whole.low[a], whole.high[a], *(c.low[a] for c in cuts), *(c.high[a] for c in cuts)},
            size[a],
        )
        for a in range(3)
    ]
    filled = np.ones([len(m) - 1 for m in marks], dtype=bool)
    for cut in cuts:
        spans = [
            slice(
                int(np.searchsorted(marks[a], cut.low[a] - SAME_FACE)),
                int(np.searchsorted(marks[a], cut.high[a] - SAME_FACE)),
            )
            for a in range(3)
        ]
        filled[spans[0], spans[1], spans[2]] = False
    return _largest_boxes(filled, marks)


def _merged(values: set[float], extent: float) -> NDArray[np.float64]:
    """Sorted coordinates within the board, those of one face once."""
    found: list[float] = []
    for value in sorted(min(max(v, 0.0), extent) for v in values):
        if not found or value - found[-1] > SAME_FACE:
            found.append(value)
    return np.array(found)


def _largest_boxes(filled: NDArray[np.bool_], marks: list[NDArray[np.float64]]) -> Boxes:
    """Filled cells of a grid joined to boxes, first along the length, then across, then up."""
    left = filled.copy()
    boxes = []
    for i, j, k in product(*(range(n) for n in left.shape)):
        if not left[i, j, k]:
            continue
        i2, j2, k2 = i + 1, j + 1, k + 1
        while i2 < left.shape[0] and left[i2, j, k]:
            i2 += 1
        while j2 < left.shape[1] and left[i:i2, j2, k].all():
            j2 += 1
        while k2 < left.shape[2] and left[i:i2, j:j2, k2].all():
            k2 += 1
        left[i:i2, j:j2, k:k2] = False
        ends = ((i, i2), (j, j2), (k, k2))
        boxes.append(
            [
                [marks[a][e[0]] for a, e in enumerate(ends)],
                [marks[a][e[1]] for a, e in enumerate(ends)],
            ]
        )
    return np.array(boxes, dtype=np.float64).reshape(-1, 2, 3)


def _cuts(feature: Feature, board: Board, at_least: bool) -> tuple[BoardBox, ...]:  # noqa: FBT001
    """The boxes that a feature surely takes away, or all that it may take."""
    if isinstance(feature, Perforation):
        return ()
    box = feature.box(board.size)
    if at_least and not isinstance(feature, Rebate | Notch | FlushTrim | BiscuitSlot):
        return _surely_cut(feature, box, board)
    # A biscuit lies within its slot, so for whatever moves there the slot is its box.
    if isinstance(feature, HoleRow):
        return tuple(hole.box(board.size) for hole in feature.holes)
    return (box,)


def _surely_cut(feature: Feature, box: BoardBox, board: Board) -> tuple[BoardBox, ...]:
    """Boxes that lie within a cut that may be round; none for holes and bevels."""
    if isinstance(feature, CutOut):
        return _within_corners(feature, box)
    if isinstance(feature, Groove):
        return _round_ended(feature, box, board) if feature.end_radius > 0 else (box,)
    return ()


def _within_corners(opening: CutOut, box: BoardBox) -> tuple[BoardBox, ...]:
    """The two boxes that lie within an opening with round corners; one within a pill."""
    r = opening.corner_radius
    pairs = []
    for axis in range(2):
        low, high = list(box.low), list(box.high)
        low[axis] += r
        high[axis] -= r
        pairs.append((low, high))
    return tuple(
        BoardBox(low=(lo[0], lo[1], lo[2]), high=(hi[0], hi[1], hi[2]))
        for lo, hi in pairs
        if all(b - a > SAME_FACE for a, b in zip(lo, hi, strict=True))
    )


def _round_ended(groove: Groove, box: BoardBox, board: Board) -> tuple[BoardBox, ...]:
    """The two boxes that lie within a groove with round corners at its stopped ends."""
    run, across, r = groove.run_axis, groove.near.axis, groove.end_radius
    short_low, short_high = list(box.low), list(box.high)
    if box.low[run] > SAME_FACE:
        short_low[run] += r
    if box.high[run] < board.size.along[run] - SAME_FACE:
        short_high[run] -= r
    thin_low, thin_high = list(box.low), list(box.high)
    thin_low[across] += r
    thin_high[across] -= r
    pairs = ((short_low, short_high), (thin_low, thin_high))
    return tuple(
        BoardBox(low=(lo[0], lo[1], lo[2]), high=(hi[0], hi[1], hi[2]))
        for lo, hi in pairs
        if all(b - a > SAME_FACE for a, b in zip(lo, hi, strict=True))
    )


__all__ = ["Boxes", "Bricks", "board_bricks", "box_array", "in_unit", "part_bricks", "together"]
