"""Trims: what is left proud or oversize is trimmed by a cutter whose bearing has a face to run on.

The router stands on one face of the board that is trimmed, its cutter reaches through the board,
and the bearing at its tip runs on a face that lies flush beyond. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from cabinet.checks.assembly import assembly
from cabinet.checks.bodies import middle
from cabinet.checks.bricks import Boxes, part_bricks
from cabinet.checks.standing import standing
from cabinet.design import Unit
from cabinet.features import CutOut
from cabinet.findings import Finding, Severity
from cabinet.frame import Side, UnitBox, UnitPoint, side_along
from cabinet.joint import Butt
from cabinet.part import Part
from cabinet.workshop import Router, Workshop

# Faces that differ by less are flush; a bearing dips no deeper into a gap this wide (12.7 mm
# bearing: 0.2 mm), mm.
FLUSH = 0.05
MOST_GAP = 3.0
# What stands beside the router's base higher than this is in its way, mm.
STANDS_ABOVE = 0.5
# An opening and the one below it are one within this, mm.
SAME_HOLE = 0.3

Spans = list[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class _Edge:
    """An edge to be trimmed.

    Attributes:
        part: The part.
        side: Side to which the edge looks.
        guide: Side to which the bearing stands out of the board.
        others: Bricks of all else that stands when it is trimmed.
    """

    part: Part
    side: Side
    guide: Side
    others: Boxes

    @property
    def run(self) -> int:
        """Unit axis along which it runs."""
        return 3 - self.side.axis - self.guide.axis


def trims(unit: Unit, workshop: Workshop) -> Iterator[Finding]:
    """Edges that cannot be trimmed flush, and holes that cannot be cut, by a guided cutter.

    Args:
        unit: The resolved unit.
        workshop: The tools.
    """
    proud = [part for part in unit.parts if part.board.trims]
    laid = list(_laid(unit))
    if not proud and not laid:
        return
    present = _present(unit)
    for part in proud:
        others = _others(unit, part, present)
        for trim in part.board.trims:
            side = part.side(trim.edge)
            across = part.placement.up.axis
            ways = [_Edge(part, side, side_along(across, sign), others) for sign in (-1, 1)]
            yield from _best(ways, workshop.router, trim.proud)
    for part, below in laid:
        down = _towards(part, below[0])
        others = _others(unit, part, present)
        for side in Side:
            if side.axis != down.axis:
                edge = _Edge(part, side, down, others)
                yield from _best([edge], workshop.router, part.board.oversize or 0.0)
        yield from _openings(part, below, workshop.router)


def _present(unit: Unit) -> dict[str, frozenset[str]]:
    """For each part all that stands when the gluing that it belongs to is done."""
    found: dict[str, frozenset[str]] = {}
    group: dict[str, int] = {}
    for step, whole in standing(assembly(unit)):
        for name in step.bodies:
            group.setdefault(name, step.group)
        for name in whole:
            if step.group and group.get(name) == step.group:
                found[name] = whole
    return found


def _others(unit: Unit, part: Part, present: dict[str, frozenset[str]]) -> Boxes:
    names = present.get(part.name, frozenset())
    boxes = [
        part_bricks(p, at_least=False).boxes
        for p in unit.parts
        if p.name in names and p.name != part.name
    ]
    return np.concatenate(boxes) if boxes else np.empty((0, 2, 3))


def _laid(unit: Unit) -> Iterator[tuple[Part, tuple[Part, ...]]]:
    """Sheets glued flat on others and trimmed there, with what they lie on."""
    parts = unit.by_name
    for part in unit.parts:
        if part.board.oversize is None or part.board.layers > 1:
            continue
        below = [
            parts[other]
            for joint in unit.joints
            if isinstance(joint, Butt) and joint.is_glued and part.name in joint.parts
            for other in joint.parts
            if other != part.name
        ]
        if below:
            yield part, tuple(below)


def _towards(part: Part, other: Part) -> Side:
    """The face side of a part that looks to another one."""
    up = part.placement.up
    middles = [tuple(middle(p.box))[up.axis] for p in (part, other)]
    return side_along(up.axis, 1 if middles[1] > middles[0] else -1)


def _best(ways: list[_Edge], router: Router, proud: float) -> Iterator[Finding]:
    """What is wrong by the way that is least wrong; nothing if one way works."""
    found = [_wrong(edge, router, proud) for edge in ways]
    if all(found):
        rank = {"trim-blocked": 0, "trim-cutter-short": 1, "trim-unguided": 2}
        yield min((f for f in found if f), key=lambda f: (rank[f.rule], -(f.found or 0.0)))


def _wrong(edge: _Edge, router: Router, proud: float) -> Finding | None:
    part, box = edge.part, edge.part.box
    where = part.surface_name(part.surface(edge.side))
    size = box.size[edge.run]
    bare = _bare(edge, router)
    if bare:
        long = sum(high - low for low, high in bare)
        return _finding(
            "trim-unguided",
            edge,
            (long, MOST_GAP),
            f"{part.name}: its {where} stands {proud:g} mm over, but along {long:.1f} of "
            f"{size:.1f} mm no face {router.bearing_height:g} mm wide lies flush beside it for the "
            "cutter's bearing; make a face flush there, or do not leave this edge proud",
        )
    thick = box.size[edge.guide.axis]
    if thick > router.bearing_length:
        return _finding(
            "trim-cutter-short",
            edge,
            (thick, router.bearing_length),
            f"{part.name}: its {where} is {thick:.1f} mm thick but the bearing-guided cutter is "
            f"{router.bearing_length:g} mm long; take a longer cutter, or cut this edge to size "
            "before it is glued",
        )
    inside = _in_the_way(edge, router)
    if inside > 0:
        return _finding(
            "trim-blocked",
            edge,
            (inside, 0.0),
            f"{part.name}: beside its {where} something stands up to {inside:.1f} mm within the "
            f"router's base of {router.base:g} mm; trim this edge before that part is on",
        )
    return None


def _finding(rule: str, edge: _Edge, values: tuple[float, float], sentence: str) -> Finding:
    box = edge.part.box
    place = list(middle(box))
    place[edge.side.axis] = box.face(edge.side)
    return Finding(
        rule=rule,
        severity=Severity.ERROR,
        parts=(edge.part.name,),
        where=UnitPoint(*place),
        found=values[0],
        limit=values[1],
        sentence=sentence,
    )


def _bare(edge: _Edge, router: Router) -> Spans:
    """Stretches of the edge beside which no face lies flush."""
    box, level = edge.part.box, edge.part.box.face(edge.side)
    start = box.face(edge.guide)
    near, far = sorted((start, start + edge.guide.sign * router.bearing_height))
    mine = _at_level(part_bricks(edge.part).boxes, edge.side, level)
    faces = _at_level(edge.others, edge.side, level)
    across = edge.guide.axis
    needed = _joined([(b[0, edge.run], b[1, edge.run]) for b in mine])
    marks = {near, far, *faces[:, :, across].ravel().tolist()}
    inside = sorted(mark for mark in marks if near <= mark <= far)
    bare: Spans = []
    # The bearing is as wide as its height: all of that must lie on a face, in one piece or more.
    for low, high in pairwise(inside):
        if high - low <= FLUSH:
            continue
        covers = (faces[:, 0, across] <= low + FLUSH) & (faces[:, 1, across] >= high - FLUSH)
        held = _joined([(b[0, edge.run], b[1, edge.run]) for b in faces[covers]])
        bare += _less(needed, held)
    return [span for span in _joined(bare) if span[1] - span[0] > MOST_GAP]


def _at_level(boxes: Boxes, side: Side, level: float) -> Boxes:
    index = 1 if side.sign > 0 else 0
    is_flush = np.abs(boxes[:, index, side.axis] - level) < FLUSH
    return np.asarray(boxes[is_flush])


def _joined(spans: Spans) -> Spans:
    found: Spans = []
    for low, high in sorted((float(low), float(high)) for low, high in spans):
        if found and low <= found[-1][1] + FLUSH:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def _less(spans: Spans, others: Spans) -> Spans:
    """What of some stretches is not covered by others."""
    left = spans
    for low, high in others:
        cut: Spans = []
        for a, b in left:
            if high <= a or low >= b:
                cut.append((a, b))
                continue
            if low > a:
                cut.append((a, low))
            if high < b:
                cut.append((high, b))
        left = cut
    return left


def _in_the_way(edge: _Edge, router: Router) -> float:
    """How far something stands up where the router's base goes, mm."""
    box, up = edge.part.box, edge.guide.opposite
    floor = box.face(up)
    low, high = list(box.low), list(box.high)
    level = box.face(edge.side)
    low[edge.side.axis], high[edge.side.axis] = level - router.base / 2, level + router.base / 2
    base = np.array([low, high])
    beside = [axis for axis in range(3) if axis != up.axis]
    laps = np.minimum(edge.others[:, 1], base[1]) - np.maximum(edge.others[:, 0], base[0])
    is_beside = (laps[:, beside] > STANDS_ABOVE).all(axis=1)
    index = 1 if up.sign > 0 else 0
    above = (edge.others[:, index, up.axis] - floor) * up.sign
    high_ones = above[is_beside & (above > STANDS_ABOVE)]
    return float(high_ones.max(initial=0.0))


def _openings(part: Part, below: tuple[Part, ...], router: Router) -> Iterator[Finding]:
    """Openings of a sheet, each cut along the one in the board below."""
    for opening in (f for f in part.board.features if isinstance(f, CutOut)):
        box = part.feature_box(opening)
        under = [(b, c, b.feature_box(c)) for b in below for c in _cut_outs(b)]
        off = [_off(part, box, other) for _, _, other in under]
        near = min(off, default=float("inf"))
        if near > SAME_HOLE:
            told = f"{near:.1f} mm off" if near < max(box.size) else "not there"
            yield _hole(
                "hole-unguided",
                part,
                box,
                (near, SAME_HOLE),
                f"{part.name}: below {opening.name}, {opening.length:g} × {opening.width:g} mm, the "
                f"opening is {told}, so the cutter's bearing has no edge to run along; cut the same "
                "opening in the board below",
            )
            continue
        least = router.bearing_diameter / 2
        if opening.corner_radius < least - 1e-6:
            yield _hole(
                "hole-too-tight",
                part,
                box,
                (opening.corner_radius, least),
                f"{part.name}: {opening.name} has corners of {opening.corner_radius:g} mm radius, "
                f"which the bearing-guided cutter of {router.bearing_diameter:g} mm does not reach; "
                f"give it {least:g} mm at least",
            )
        host = under[off.index(near)][0]
        yield from _through(part, opening.name, box, host, router)


def _through(part: Part, name: str, box: UnitBox, host: Part, router: Router) -> Iterator[Finding]:
    """Whether the cutter reaches through a sheet, and its bearing has the board below to run on."""
    thick, below = part.board.thickness, host.board.thickness
    if thick > router.bearing_length:
        yield _hole(
            "trim-cutter-short",
            part,
            box,
            (thick, router.bearing_length),
            f"{part.name}: {name} goes through {thick:.1f} mm but the bearing-guided cutter is "
            f"{router.bearing_length:g} mm long; cut it before it is glued",
        )
    elif below < router.bearing_height:
        yield _hole(
            "trim-cutter-short",
            part,
            box,
            (below, router.bearing_height),
            f"{part.name}: {name} is to be cut along the one in {host.name}, whose edge of "
            f"{below:.1f} mm is less than the {router.bearing_height:g} mm that the bearing runs "
            "on; cut it before it is glued",
        )


def _cut_outs(part: Part) -> list[CutOut]:
    return [feature for feature in part.board.features if isinstance(feature, CutOut)]


def _off(part: Part, one: UnitBox, other: UnitBox) -> float:
    """How far the edges of two openings differ across the face, mm."""
    axes = [axis for axis in range(3) if axis != part.placement.up.axis]
    pairs = ((one.low, other.low), (one.high, other.high))
    return max(abs(tuple(a)[axis] - tuple(b)[axis]) for a, b in pairs for axis in axes)


def _hole(
    rule: str, part: Part, box: UnitBox, values: tuple[float, float], sentence: str
) -> Finding:
    return Finding(
        rule=rule,
        severity=Severity.ERROR,
        parts=(part.name,),
        where=middle(box),
        found=values[0] if np.isfinite(values[0]) else None,
        limit=values[1],
        sentence=sentence,
    )


__all__ = ["trims"]
