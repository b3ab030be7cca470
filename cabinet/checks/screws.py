"""Screws: they stay in the wood, meet no cut and no other metal, and are not seen.

Lengths in mm. Limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from cabinet.checks.bricks import Boxes, in_unit, part_bricks, together
from cabinet.checks.columns import Column, axis_gap, box_gap, box_gaps, first_in
from cabinet.design import Unit
from cabinet.features import (
    Bevel,
    BiscuitSlot,
    CutOut,
    Feature,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Rebate,
)
from cabinet.findings import Finding, Severity
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.hardware import BiscuitPiece, Hardware, Rod, Screw
from cabinet.joint import LEAST_THREAD
from cabinet.part import Board, Part

# Wood that is left before the tip of a screw and beside its thread.
LEAST_BEFORE_TIP = 2.0
# Wood between the thread of a screw and other metal.
LEAST_BESIDE = 1.0
# A hole nearer to a screw's axis than this is the screw's own.
OWN_HOLE = 0.5


def screws_in_wood(unit: Unit) -> Iterator[Finding]:
    """Screws whose tip or thread comes out of the boards that it holds."""
    parts = unit.by_name
    for screw, body in _screws(unit):
        if any(name not in parts for name in screw.inside):
            continue
        into = parts[screw.inside[-1]] if screw.inside else None
        if into is None:
            continue
        tip = screw.at.moved(screw.axis, body.length)
        left = (into.box.face(screw.axis) - tuple(tip)[screw.axis.axis]) * screw.axis.sign
        if left < LEAST_BEFORE_TIP:
            yield _out(screw, into, screw.axis, left, "tip", tip)
        if len(set(screw.inside)) > 1:
            yield from _grip(screw, into, tip)
        for side in Side:
            if side.axis == screw.axis.axis:
                continue
            for part in (parts[name] for name in screw.inside):
                beside = (part.box.face(side) - tuple(screw.at)[side.axis]) * side.sign
                if beside - body.diameter / 2 < LEAST_BEFORE_TIP:
                    yield _out(screw, part, side, beside - body.diameter / 2, "thread", tip)


def _grip(screw: Hardware, into: Part, tip: UnitPoint) -> Iterator[Finding]:
    """A screw that ends before it holds in the last board."""
    axis, sign = screw.axis.axis, screw.axis.sign
    held = (tuple(tip)[axis] - into.box.face(screw.axis.opposite)) * sign
    if held < LEAST_THREAD:
        yield Finding(
            rule="screw-grips-little",
            severity=Severity.ERROR,
            parts=(screw.name, into.name),
            where=tip,
            found=held,
            limit=LEAST_THREAD,
            sentence=f"{screw.name}: {max(held, 0.0):.1f} mm of it hold in {into.name}; at least "
            f"{LEAST_THREAD:g} mm must, so take a longer screw",
        )


def _screws(unit: Unit) -> Iterator[tuple[Hardware, Screw]]:
    for item in unit.hardware:
        if isinstance(item.body, Screw):
            yield item, item.body


def _out(
    screw: Hardware, part: Part, side: Side, left: float, what: str, where: UnitPoint
) -> Finding:
    says = f"comes {-left:.1f} mm out of" if left < 0 else f"leaves only {left:.1f} mm of wood in"
    change = "take a shorter screw" if what == "tip" else "move it inwards"
    return Finding(
        rule="screw-breaks-out",
        severity=Severity.ERROR,
        parts=(screw.name, part.name),
        where=where,
        found=left,
        limit=LEAST_BEFORE_TIP,
        sentence=f"{screw.name}: its {what} {says} {part.name} at the {side.value}; at least "
        f"{LEAST_BEFORE_TIP:g} mm must be left, so {change}",
    )


def screws_and_cuts(unit: Unit) -> Iterator[Finding]:
    """Screws that run into a groove, a row of holes or any other cut of a board they are in."""
    parts = unit.by_name
    for screw, body in _screws(unit):
        column = Column(screw.at, screw.axis, body.length, body.diameter / 2)
        for part in (parts[name] for name in screw.inside if name in parts):
            met = _first_cut(part, column)
            if met is not None:
                cut, box = met
                gap = box_gap(column, box) - column.radius
                yield Finding(
                    rule="screw-meets-cut",
                    severity=Severity.ERROR,
                    parts=(screw.name, part.name),
                    where=screw.at,
                    found=gap,
                    limit=0.0,
                    sentence=f"{screw.name} runs into {cut} of {part.name}, {-gap:.1f} mm deep; "
                    "move the screw or the cut",
                )


@lru_cache(maxsize=1024)
def _cuts(board: Board) -> tuple[tuple[Feature, ...], Boxes]:
    """The single cuts that a screw must not meet, and their boxes in the board's frame."""
    found: list[Feature] = []
    for feature in board.features:
        if isinstance(feature, HoleRow):
            found += feature.holes
        elif isinstance(feature, Groove | Rebate | Notch | CutOut | BiscuitSlot | Hole | Bevel):
            found.append(feature)
    boxes = [(box.low, box.high) for f in found for box in (f.box(board.size),)]
    return tuple(found), np.array(boxes, dtype=np.float64).reshape(-1, 2, 3)


def _first_cut(part: Part, column: Column) -> tuple[str, UnitBox] | None:
    """The first cut that a column meets, but for the hole that it is driven into."""
    features, local = _cuts(part.board)
    near = box_gaps(column, in_unit(part, local)) < column.radius - 1e-6
    for index in np.nonzero(near)[0].tolist():
        feature = features[index]
        box = part.feature_box(feature)
        if isinstance(feature, Hole):
            bore = _bore(part, feature, box)
            if _is_own(column, bore) or axis_gap(column, bore) >= column.radius + bore.radius:
                continue
        if isinstance(feature, Bevel) and not _in_bevel(part, feature, column):
            continue
        return feature.name, box
    return None


def _in_bevel(part: Part, bevel: Bevel, column: Column) -> bool:
    """Whether the end of a column lies in what a bevel takes away."""
    size = part.board.size
    slope = np.tan(np.radians(bevel.angle))
    for point in (column.start, column.start.moved(column.side, column.length)):
        place = tuple(part.placement.unit_to_board(point))
        edge, face = (
            place[s.axis] if s.sign < 0 else size.along[s.axis] - place[s.axis]
            for s in (bevel.edge, bevel.sharp)
        )
        if edge < (min(max(face, 0.0), size.thickness) - bevel.land) * slope:
            return True
    return False


def _bore(part: Part, hole: Hole, box: UnitBox) -> Column:
    side = part.side(hole.surface).opposite
    middle = [(a + b) / 2 for a, b in zip(box.low, box.high, strict=True)]
    middle[side.axis] = box.face(side.opposite)
    return Column(UnitPoint(*middle), side, box.size[side.axis], hole.diameter / 2)


def _is_own(column: Column, bore: Column) -> bool:
    if column.side.axis != bore.side.axis:
        return False
    off = [a - b for a, b in zip(column.start, bore.start, strict=True)]
    off[column.side.axis] = 0.0
    return float(np.linalg.norm(off)) < OWN_HOLE


def screws_and_metal(unit: Unit) -> Iterator[Finding]:
    """Screws that meet another screw, a pin, a bar or a biscuit."""
    order = sorted(unit.hardware, key=lambda item: (item.box.low.x, item.name))
    active: list[Hardware] = []
    for item in order:
        left = item.box.low.x - LEAST_BESIDE
        active = [other for other in active if other.box.high.x > left]
        for other in active:
            pair = (item, other) if isinstance(item.body, Screw) else (other, item)
            if (
                isinstance(pair[0].body, Screw)
                and max(-min(0.0, s) for s in item.box.overlap(other.box)) < LEAST_BESIDE
            ):
                yield from _crossed(*pair)
        active.append(item)


def _crossed(screw: Hardware, other: Hardware) -> Iterator[Finding]:
    one = _column(screw)
    assert one is not None  # noqa: S101 - a screw has a column
    two = _column(other)
    gap = box_gap(one, other.box) if two is None else axis_gap(one, two) - two.radius
    gap -= one.radius
    if gap < LEAST_BESIDE:
        says = f"they overlap by {-gap:.1f} mm" if gap < 0 else f"only {gap:.1f} mm lie between"
        yield Finding(
            rule="screw-meets-metal",
            severity=Severity.ERROR,
            parts=tuple(sorted((screw.name, other.name))),
            where=screw.at,
            found=gap,
            limit=LEAST_BESIDE,
            sentence=f"{screw.name} meets {other.name}: {says}; at least {LEAST_BESIDE:g} mm of "
            "wood, so move one of them",
        )


def _column(item: Hardware) -> Column | None:
    body = item.body
    if isinstance(body, BiscuitPiece):
        return None
    assert isinstance(body, Screw | Rod)  # noqa: S101 - these are all the others
    return Column(item.at, item.axis, body.length, body.diameter / 2)


def screws_seen(unit: Unit) -> Iterator[Finding]:
    """Heads on a face that shows, with nothing before them when the unit is done."""
    heads = [(screw, body) for screw, body in _screws(unit) if "wall" not in screw.inside]
    if not heads:
        return
    bricks = together(part_bricks(part) for part in unit.parts)
    far = max(unit.outline.size) * 2
    seen: dict[tuple[str, Side], list[tuple[Hardware, Screw]]] = {}
    for screw, body in heads:
        side = screw.axis.opposite
        host = next((unit.by_name[n] for n in screw.inside if n in unit.by_name), None)
        if host is None or host.surface(side) not in host.board.shows:
            continue
        # The head is hidden if anything stands before its middle.
        if first_in(Column(screw.at, side, far, body.core / 4), bricks.boxes) is None:
            seen.setdefault((host.name, side), []).append((screw, body))
    for (name, side), group in sorted(seen.items(), key=lambda pair: pair[0][0]):
        first, body = group[0]
        many = (
            f"{first.name} and {len(group) - 1} more: their heads"
            if len(group) > 1
            else (f"{first.name}: its head")
        )
        yield Finding(
            rule="screw-seen",
            severity=Severity.WARNING,
            parts=(name, *(screw.name for screw, _ in group)),
            where=first.at,
            found=float(len(group)),
            limit=0.0,
            sentence=f"{many} of {body.head_diameter:g} mm {'are' if len(group) > 1 else 'is'} seen on the {side.value} face of "
            f"{name}; drive from a hidden side, or plug the heads",
        )


__all__ = ["screws_and_cuts", "screws_and_metal", "screws_in_wood", "screws_seen"]
