"""Bodies of a unit for the checks, and the volume that two of them share.

A part is a blank less its cutters, so what two parts share is the box that their blanks share
less the cutters of both. Where all cutters that reach this box are boxes themselves, the
volume is plain arithmetic and exact; where one is round or slanted, the kernel decides on that
small piece. Equal pieces, such as the pins of all shelves, are decided once.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from enum import Enum
from functools import lru_cache
from itertools import pairwise, product

import cadquery as cq

from cabinet.board import BoardBox
from cabinet.checks.swallowed import is_swallowed
from cabinet.design import Unit
from cabinet.errors import KernelError
from cabinet.features import (
    BiscuitSlot,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Perforation,
    Rebate,
)
from cabinet.frame import BoardPoint, Side, UnitBox, UnitPoint
from cabinet.hardware import BiscuitPiece, Hardware, Screw
from cabinet.part import Board, Part
from cabinet.quantity import ROUNDING
from cabinet.solids import PAST, cutter, hardware_solid, location

Body = Part | Hardware


def bodies(unit: Unit) -> dict[str, Body]:
    """All parts and hardware of a unit by name."""
    found: dict[str, Body] = {part.name: part for part in unit.parts}
    found |= {item.name: item for item in unit.hardware}
    return found


def _meets(one: BoardBox, other: BoardBox) -> bool:
    pairs = zip(one.low, one.high, other.low, other.high, strict=True)
    return all(min(a1, b1) - max(a0, b0) > 1e-9 for a0, a1, b0, b1 in pairs)


def _cuts_in(part: Part, box: UnitBox) -> tuple[Feature, ...]:
    """The single features whose boxes reach into a box of the unit."""
    wanted = part.board_box(box)
    return tuple(
        single
        for around, singles in boxed_features(part.board)
        if _meets(around, wanted)
        for own, single in singles
        if _meets(own, wanted)
    )


# Every pair that a board is in asks for them, and boards are values.
@lru_cache(maxsize=1024)
def boxed_features(
    board: Board,
) -> tuple[tuple[BoardBox, tuple[tuple[BoardBox, Feature], ...]], ...]:
    """Each feature's box, with the single features in it and the box of each."""
    found = []
    for feature in board.features:
        singles = feature.holes if isinstance(feature, HoleRow) else (feature,)
        boxed = tuple((single.box(board.size), single) for single in singles)
        found.append((feature.box(board.size), boxed))
    return tuple(found)


def is_block(feature: object) -> bool:
    """Whether what a feature takes away is exactly its box."""
    if isinstance(feature, Groove):
        return feature.end_radius == 0
    return isinstance(feature, Rebate | Notch | FlushTrim)


def common(one: UnitBox, other: UnitBox, least: float = 1e-6) -> UnitBox | None:
    """The box that two boxes share; None if it is thinner than ``least`` mm anywhere."""
    low = [max(a, b) for a, b in zip(one.low, other.low, strict=True)]
    high = [min(a, b) for a, b in zip(one.high, other.high, strict=True)]
    if any(b - a <= least for a, b in zip(low, high, strict=True)):
        return None
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


def shifted(box: UnitBox, side: Side, distance: float) -> UnitBox:
    """A box moved in a direction, mm."""
    return UnitBox(low=box.low.moved(side, distance), high=box.high.moved(side, distance))


@dataclass(frozen=True, slots=True)
class _Question:
    """What two bodies share when the first is moved: a box, less cutters, within hardware."""

    both: UnitBox
    side: Side
    blocks: tuple[UnitBox, ...]
    cuts: tuple[tuple[Part, Feature, float], ...]
    metal: tuple[tuple[Hardware, float], ...]


def _question(one: Body, other: Body, side: Side, distance: float) -> _Question | None:
    both = common(shifted(one.box, side, distance), other.box)
    if both is None:
        return None
    blocks: list[UnitBox] = []
    cuts: list[tuple[Part, Feature, float]] = []
    metal: list[tuple[Hardware, float]] = []
    for body, moved in ((one, distance), (other, 0.0)):
        if isinstance(body, Hardware):
            metal.append((body, moved))
            continue
        for feature in _cuts_in(body, shifted(both, side, -moved)):
            if isinstance(feature, Perforation):
                continue  # the solid stays a plain sheet
            if is_block(feature):
                blocks.append(shifted(body.feature_box(feature), side, moved))
            else:
                cuts.append((body, feature, moved))
    return _Question(both, side, tuple(blocks), tuple(cuts), tuple(metal))


def shared_volume(one: Body, other: Body, side: Side = Side.RIGHT, distance: float = 0.0) -> float:
    """Volume that two bodies share when the first is moved, mm3.

    Args:
        one: Body that is moved.
        other: Body that stays.
        side: Direction of the move.
        distance: Length of the move, mm.

    Raises:
        KernelError: the kernel failed; the message names both bodies.
    """
    asked = _question(one, other, side, distance)
    if asked is None:
        return 0.0
    left = _box_less_boxes(asked.both, asked.blocks)
    if left <= 1e-9:
        return 0.0
    if not asked.cuts and not asked.metal:
        return left
    if _is_taken_in(asked):
        return 0.0
    try:
        return _by_kernel(asked)
    except Exception as error:
        raise KernelError(
            f"{one.name} and {other.name}: the kernel could not tell what they share: {error}",
            part=one.name,
        ) from error


def share_volume(one: Body, other: Body, side: Side, distance: float) -> bool:
    """Whether two bodies share any volume at all when the first is moved.

    Two parts that share some even with every round cutter taken for its whole box share some
    for certain, and the kernel need not be asked.
    """
    asked = _question(one, other, side, distance)
    if asked is None:
        return False
    if not asked.metal:
        boxes = [shifted(p.feature_box(f), side, moved) for p, f, moved in asked.cuts]
        if _box_less_boxes(asked.both, (*asked.blocks, *boxes)) > 1e-6:
            return True
    return shared_volume(one, other, side, distance) > 1e-6


def _box_less_boxes(box: UnitBox, blocks: Sequence[UnitBox]) -> float:
    """Volume of a box less the union of others, by the grid that all their faces make, mm3."""
    inside = [block for b in blocks if (block := common(b, box, 0.0)) is not None]
    grids = []
    for axis in range(3):
        marks = {tuple(box.low)[axis], tuple(box.high)[axis]}
        marks |= {tuple(point)[axis] for b in inside for point in (b.low, b.high)}
        grids.append(list(pairwise(sorted(marks))))
    total = 0.0
    for cell in product(*grids):
        middle_of = [(a + b) / 2 for a, b in cell]
        if not any(
            all(a <= m <= b for a, m, b in zip(i.low, middle_of, i.high, strict=True))
            for i in inside
        ):
            total += math.prod(b - a for a, b in cell)
    return total


def _relative(box: UnitBox, origin: UnitPoint) -> tuple[float, ...]:
    # Rounded so that the same question in another corner of the unit has the same key.
    ends = (*box.low, *box.high)
    return tuple(round(a - b, 5) + 0.0 for a, b in zip(ends, (*origin, *origin), strict=True))


# A hole that is filled is opened by this all round, mm: far less than any fit.
EASE = 1e-3

# Volumes by question: the pins of all shelves ask the same one.
_KNOWN: dict[tuple[object, ...], float] = {}


def _by_kernel(asked: _Question) -> float:
    """Ask the kernel, about equal pieces only once."""
    both, side = asked.both, asked.side
    inside = [block for b in asked.blocks if (block := common(b, both)) is not None]
    key = (
        tuple(round(extent, 5) for extent in both.size),
        tuple(_relative(block, both.low) for block in inside),
        tuple(_cut_key(part, f, side, moved, both) for part, f, moved in asked.cuts),
        tuple(
            (item.body, item.axis, _relative(shifted(item.box, side, moved), both.low))
            for item, moved in asked.metal
        ),
    )
    if key not in _KNOWN:
        way = cq.Vector(*side.vector)
        tools: list[cq.Shape] = [_box_solid(block) for block in inside]
        for part, feature, moved in asked.cuts:
            tool = cutter(_eased(part, feature, moved, asked), part.board.size)
            if tool is not None:
                place = cq.Location(way * moved) * location(part.placement)
                tools.append(tool.moved(place))
        solid = _box_solid(_roomy(asked))
        for item, moved in asked.metal:
            solid = solid.intersect(hardware_solid(item).moved(cq.Location(way * moved)))
        is_left = bool(solid.Solids())
        if is_left and tools:
            solid = solid.cut(*tools)
        _KNOWN[key] = float(solid.Volume()) if is_left else 0.0
    return _KNOWN[key]


def _is_taken_in(asked: _Question) -> bool:
    """Whether one of the cuts takes in all of a single piece of hardware."""
    if len(asked.metal) != 1:
        return False
    ((item, its_move),) = asked.metal
    at = item.at.moved(asked.side, its_move)
    reach = tuple(asked.both.low)[item.axis.axis], tuple(asked.both.high)[item.axis.axis]
    return any(
        is_swallowed(
            item.body,
            at,
            item.axis,
            (
                feature,
                shifted(part.feature_box(feature), asked.side, moved),
                part.side(feature.surface),
            ),
            reach,
        )
        for part, feature, moved in asked.cuts
        if isinstance(feature, Hole | BiscuitSlot)
    )


def _eased(part: Part, feature: Feature, moved: float, asked: _Question) -> Feature:
    """The feature, or a hole opened by a hair if a screw or pin fills it to the last micrometre.

    Two cylinders on one axis with one diameter, but for rounding, are the question that the
    kernel gets wrong: it may keep the whole screw as if there were no hole. So may two cones,
    those of a head and of the countersink in which it sits.
    """
    if not isinstance(feature, Hole):
        return feature
    hole = shifted(part.feature_box(feature), asked.side, moved)
    axis = part.side(feature.surface).axis
    for item, its_move in asked.metal:
        body = item.body
        if isinstance(body, BiscuitPiece) or item.axis.axis != axis:
            continue
        bar = shifted(item.box, asked.side, its_move)
        off = [a - b for a, b in zip(middle(bar), middle(hole), strict=True)]
        off[axis] = 0.0
        core = body.core if isinstance(body, Screw) else body.diameter
        is_filled = abs(core - feature.diameter) < EASE
        proud = bar.face(item.axis.opposite) - hole.face(part.side(feature.surface))
        is_sunk = feature.countersink > 0 and abs(proud) < EASE
        if math.hypot(*off) < EASE and (is_filled or is_sunk):
            return replace(
                feature,
                diameter=feature.diameter + (2 * EASE if is_filled else 0.0),
                countersink=feature.countersink + (2 * EASE if is_sunk else 0.0),
            )
    return feature


def _roomy(asked: _Question) -> UnitBox:
    """The box of the question, moved out by PAST wherever a piece of metal ends in its face.

    Nothing more of the metal comes into it, and no face of it touches a round one along a
    line, which costs the kernel twice the time.
    """
    low, high = list(asked.both.low), list(asked.both.high)
    for item, moved in asked.metal:
        bar = shifted(item.box, asked.side, moved)
        for axis, (first, last) in enumerate(zip(bar.low, bar.high, strict=True)):
            if first >= tuple(asked.both.low)[axis] - ROUNDING:
                low[axis] = first - PAST
            if last <= tuple(asked.both.high)[axis] + ROUNDING:
                high[axis] = last + PAST
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


def _box_solid(box: UnitBox) -> cq.Shape:
    return cq.Solid.makeBox(*box.size, cq.Vector(*box.low))


def _cut_key(
    part: Part, feature: Feature, side: Side, moved: float, both: UnitBox
) -> tuple[object, ...]:
    """What tells one cutter from another, wherever its board and its datum are."""
    box = part.feature_box(feature)
    plain = tuple(
        value
        for f in fields(feature)
        if isinstance(value := getattr(feature, f.name), float | int | Enum | None)
    )
    turned = part.placement.along, part.placement.across
    return type(feature), plain, turned, _relative(shifted(box, side, moved), both.low)


@dataclass(frozen=True, slots=True)
class Pair:
    """Two bodies whose boxes overlap, and the box that they share."""

    one: Body
    other: Body
    box: UnitBox


def near_pairs(items: dict[str, Body]) -> Iterator[Pair]:
    """Pairs of bodies whose boxes overlap, found by a sweep along X."""
    waiting = sorted(items.values(), key=lambda body: (body.box.low.x, body.name))
    active: list[Body] = []
    for body in waiting:
        left = body.box.low.x
        active = [other for other in active if other.box.high.x > left]
        for other in active:
            both = common(other.box, body.box)
            if both is not None:
                yield Pair(other, body, both)
        active.append(body)


def middle(box: UnitBox) -> UnitPoint:
    """The centre of a box."""
    return UnitPoint(*((a + b) / 2 for a, b in zip(box.low, box.high, strict=True)))


def board_middle(part: Part, box: BoardBox) -> UnitPoint:
    """The centre of a box of a board, in the unit."""
    return part.placement.board_to_unit(
        BoardPoint(*((a + b) / 2 for a, b in zip(box.low, box.high, strict=True)))
    )
