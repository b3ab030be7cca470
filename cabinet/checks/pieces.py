"""Bodies of a unit as unions of upright boxes, exact or on a stated safe side.

A board is a blank less its cutters. Where the cutters are boxes the union is exact. A round or
slanted cutter, and a round bar, is stepped: a *grown* body keeps at least all of the true body,
a *shrunk* one at most that, and the finer the steps the nearer both come to it. What a grown
body does not meet is clear for certain; what a shrunk body meets is hit for certain.
Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

from cabinet.board import BoardBox, BoardSize
from cabinet.checks.bodies import Body, boxed_features, is_block
from cabinet.features import Bevel, CutOut, Feature, Groove, Hole, Perforation
from cabinet.frame import UnitBox, UnitPoint
from cabinet.hardware import BiscuitPiece, Hardware, Screw
from cabinet.part import Board, Part

Span = tuple[float, float]
Piece = tuple[Span, Span, Span]
"""An upright box: low and high along each of three axes."""

# Thinner than this is no body but rounding, mm.
TRACE = 1e-6


def piece_of(box: UnitBox | BoardBox) -> Piece:
    """A box as a piece."""
    low, high = tuple(box.low), tuple(box.high)
    return (low[0], high[0]), (low[1], high[1]), (low[2], high[2])


def less(piece: Piece, taken: Piece) -> list[Piece]:
    """What is left of a piece when a box is taken out of it, in boxes that share nothing."""
    inner = [(max(a, c), min(b, d)) for (a, b), (c, d) in zip(piece, taken, strict=True)]
    if any(high - low <= TRACE for low, high in inner):
        return [piece]
    rest, left = list(piece), []
    for axis in range(3):
        low, high = rest[axis]
        left += [
            (*rest[:axis], span, *rest[axis + 1 :])
            for span in ((low, inner[axis][0]), (inner[axis][1], high))
            if span[1] - span[0] > TRACE
        ]
        rest[axis] = inner[axis]
    return left  # type: ignore[return-value]


# More round cutters than this in one place are not stepped: the answer stays undecided.
MOST_STEPPED = 6


def pieces(
    body: Body, *, is_grown: bool = True, fine: int = 0, within: Piece | None = None
) -> tuple[Piece, ...]:
    """A body in the unit as boxes.

    Args:
        body: Part or hardware in its place.
        is_grown: Keep at least all of the body; otherwise at most all of it.
        fine: Number of steps in which round and slanted shapes are taken; 0 leaves round
            cutters out of a grown body and takes their whole boxes out of a shrunk one.
        within: Where in the unit the answer matters: round cutters elsewhere stay out of it.
            None takes them all, but steps none.
    """
    if isinstance(body, Hardware):
        return tuple(_hardware_pieces(body, is_grown=is_grown, fine=fine))
    flips = body.placement.directions
    origin = tuple(body.placement.origin)
    found = []
    for piece in _board_pieces(body.board, is_grown, *_rounds(body, is_grown, fine, within)):
        spans: list[Span] = [(0.0, 0.0)] * 3
        for side, (low, high) in zip(flips, piece, strict=True):
            base = origin[side.axis]
            spans[side.axis] = (
                (base + low, base + high) if side.sign > 0 else (base - high, base - low)
            )
        found.append((spans[0], spans[1], spans[2]))
    return tuple(found)


def _rounds(
    part: Part,
    is_grown: bool,  # noqa: FBT001 - as in the cache's key
    fine: int,
    within: Piece | None,
) -> tuple[int, tuple[Feature, ...]]:
    """How finely round cutters are stepped, and which of them are taken out at all."""
    if is_grown and (not fine or within is None):
        return 0, ()
    round_ones = [
        (around, singles)
        for feature, (around, singles) in zip(
            part.board.features, boxed_features(part.board), strict=True
        )
        if not is_block(feature) and not isinstance(feature, Perforation)
    ]
    if within is None:
        return 0, tuple(single for _, singles in round_ones for _, single in singles)
    low, high = zip(*within, strict=True)
    place = piece_of(part.board_box(UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))))
    found = tuple(
        single
        for around, singles in round_ones
        if _overlap(piece_of(around), place)
        for own, single in singles
        if _overlap(piece_of(own), place)
    )
    if len(found) <= MOST_STEPPED:
        return fine, found
    return 0, () if is_grown else found


def _overlap(one: Piece, other: Piece) -> bool:
    return all(min(b, d) - max(a, c) > TRACE for (a, b), (c, d) in zip(one, other, strict=True))


@lru_cache(maxsize=4096)
def _board_pieces(
    board: Board,
    is_grown: bool,  # noqa: FBT001 - a key of the cache
    fine: int,
    rounds: tuple[Feature, ...],
) -> tuple[Piece, ...]:
    size = board.size
    found: list[Piece] = [((0.0, size.length), (0.0, size.width), (0.0, size.thickness))]
    for feature in (*(f for f in board.features if is_block(f)), *rounds):
        for taken in _taken(feature, size, is_grown=is_grown, fine=fine):
            found = [rest for piece in found for rest in less(piece, taken)]
    return tuple(found)


def _taken(feature: Feature, size: BoardSize, *, is_grown: bool, fine: int) -> Iterator[Piece]:
    """Boxes within what a feature takes away, for a grown body; else boxes around it."""
    box = piece_of(feature.box(size))
    if is_block(feature):
        yield box
    elif isinstance(feature, Hole) and fine:
        yield from _bored(feature, size, is_grown=is_grown, fine=fine)
    elif isinstance(feature, CutOut) and fine:
        yield from _rounded(box, feature.corner_radius, is_grown=is_grown, fine=fine)
    elif isinstance(feature, Bevel) and fine:
        yield from _stairs(feature, size, is_grown=is_grown, fine=fine)
    elif isinstance(feature, Groove) and is_grown:
        low, high = box[feature.run_axis]
        run = (low + feature.end_radius, high - feature.end_radius)
        yield (*box[: feature.run_axis], run, *box[feature.run_axis + 1 :])  # type: ignore[misc]
    elif not is_grown:
        yield box


def _bored(hole: Hole, size: BoardSize, *, is_grown: bool, fine: int) -> Iterator[Piece]:
    axis = hole.surface.axis
    box = piece_of(hole.box(size))
    wide = max(hole.diameter, hole.countersink) if not is_grown else hole.diameter
    first, second = (at.axis for at in hole.centre)
    middle = {at.axis: at.coordinate(size) for at in hole.centre}
    for along, across in disc(wide / 2, fine, is_within=is_grown):
        spans = list(box)
        spans[axis] = box[axis]
        spans[first] = (middle[first] + along[0], middle[first] + along[1])
        spans[second] = (middle[second] - across, middle[second] + across)
        yield spans[0], spans[1], spans[2]


def disc(radius: float, fine: int, *, is_within: bool) -> Iterator[tuple[Span, float]]:
    """Strips of a disc: span along one axis from its centre, half width along the other, mm."""
    for step in range(fine):
        low, high = (-radius + 2 * radius * n / fine for n in (step, step + 1))
        nearest = 0.0 if low <= 0 <= high else min(abs(low), abs(high))
        reach = max(abs(low), abs(high)) if is_within else nearest
        half = math.sqrt(max(radius**2 - reach**2, 0.0))
        if half > TRACE:
            yield (low, high), half


def _rounded(box: Piece, radius: float, *, is_grown: bool, fine: int) -> Iterator[Piece]:
    """A cut-out with round corners, in strips along the board's length."""
    (x0, x1), (y0, y1), z = box
    yield (x0 + radius, x1 - radius), (y0, y1), z
    for (low, high), half in disc(radius, fine, is_within=is_grown):
        # The strips of a disc about a corner's centre; the middle stretch joins both corners.
        across = (y0 + radius - half, y1 - radius + half)
        if high <= 0 or low < 0 < high:
            yield (x0 + radius + low, x0 + radius + min(high, 0.0)), across, z
        if low >= 0 or low < 0 < high:
            yield (x1 - radius + max(low, 0.0), x1 - radius + high), across, z


def _stairs(bevel: Bevel, size: BoardSize, *, is_grown: bool, fine: int) -> Iterator[Piece]:
    """The wedge of a bevel in steps through the board's thickness."""
    box = list(piece_of(bevel.box(size)))
    reach = bevel.reach(size.thickness)
    depth = size.thickness - bevel.land
    for step in range(fine):
        # Distances from the land; the wedge is widest at the far face.
        share = (step if is_grown else step + 1) / fine
        near, far = (bevel.land + depth * n / fine for n in (step, step + 1))
        wide = reach * share
        if wide <= TRACE:
            continue
        spans = list(box)
        spans[2] = (
            (near, far) if bevel.sharp.sign < 0 else (size.thickness - far, size.thickness - near)
        )
        edge = bevel.edge
        extent = size.along[edge.axis]
        spans[edge.axis] = (0.0, wide) if edge.sign < 0 else (extent - wide, extent)
        yield spans[0], spans[1], spans[2]


def _hardware_pieces(item: Hardware, *, is_grown: bool, fine: int) -> Iterator[Piece]:
    body, axis = item.body, item.axis.axis
    box = piece_of(item.box)
    if isinstance(body, BiscuitPiece):
        if is_grown:
            yield box
        return
    lengths: list[tuple[float, float, float]]
    if isinstance(body, Screw):
        head = (body.head_diameter - body.core) / 2
        lengths = [(0.0, head, body.head_diameter if is_grown else body.core)]
        lengths.append((head, body.length, body.core))
    else:
        lengths = [(0.0, body.length, body.diameter)]
    start = tuple(item.at)
    first, second = (a for a in range(3) if a != axis)
    for near, far, wide in lengths:
        ends = sorted(start[axis] + item.axis.sign * d for d in (near, far))
        strips = (
            disc(wide / 2, fine, is_within=not is_grown)
            if fine
            else [((-wide / 2, wide / 2), wide / 2)]
            if is_grown
            # The square within a disc.
            else [((-wide / 2 * math.sqrt(0.5), wide / 2 * math.sqrt(0.5)), wide / 2 * 0.7071)]
        )
        for along, across in strips:
            spans = list(box)
            spans[axis] = (ends[0], ends[1])
            spans[first] = (start[first] + along[0], start[first] + along[1])
            spans[second] = (start[second] - across, start[second] + across)
            yield spans[0], spans[1], spans[2]


def is_round(body: Body) -> bool:
    """Whether the boxes of a body are only a bound, because something in it is not square."""
    if isinstance(body, Hardware):
        return True
    return any(
        not is_block(feature) and not isinstance(feature, Perforation)
        for feature in body.board.features
    )


__all__ = [
    "TRACE",
    "Body",
    "Part",
    "Piece",
    "Span",
    "disc",
    "is_round",
    "less",
    "piece_of",
    "pieces",
]
