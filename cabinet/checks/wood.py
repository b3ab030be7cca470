"""Wood left: features keep a least web between each other and to the board's surfaces.

Surfaces are those of the finished board: what is trimmed flush is no wood that is left.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import cadquery as cq

from cabinet.board import BoardBox, BoardSize, Surface, surface_at
from cabinet.checks.bodies import board_middle
from cabinet.design import Unit
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
from cabinet.findings import Finding, Severity
from cabinet.part import Part
from cabinet.solids import blank_solid, cutter

# Thinner wood breaks out under the cutter (common practice, no source).
LEAST_WEB = 3.0
# Runs may cross each other unless that cuts the board through; a hole, slot or cut-out must meet
# nothing.
_RUNS = (Groove, Rebate, Notch, Bevel, FlushTrim)
_FIELDS = (Perforation, FlushTrim)


def webs(unit: Unit) -> Iterator[Finding]:
    """Thin webs and features that run into each other, once for each distinct board."""
    for _, parts in unit.boards:
        if not _is_thin(parts[0]):
            yield from _between(parts[0])
            yield from _within_rows(parts[0])
            yield from _to_surfaces(parts[0])


def _singles(feature: Feature) -> tuple[Feature, ...]:
    return feature.holes if isinstance(feature, HoleRow) else (feature,)


def _between(part: Part) -> Iterator[Finding]:
    size = part.board.size
    features = [f for f in part.board.features if not isinstance(f, _FIELDS)]
    for one, other in combinations(features, 2):
        if isinstance(one, _RUNS) and isinstance(other, _RUNS):
            gap = one.box(size).gap(other.box(size))
            if gap < LEAST_WEB and (gap > 1e-6 or _meet_head_on(one, other)):
                yield _thin(part, one, other, gap)
            continue
        if one.box(size).gap(other.box(size)) >= LEAST_WEB:
            continue
        gap = min(_gap(part, a, b) for a in _singles(one) for b in _singles(other))
        if gap < LEAST_WEB - 1e-6:
            yield _thin(part, one, other, gap)


def _meet_head_on(one: Feature, other: Feature) -> bool:
    """Whether two runs come from opposite surfaces: where these cross, the board is cut through."""
    return any(surface.opposite in _entries(other) for surface in _entries(one))


def _entries(feature: Feature) -> tuple[Surface, ...]:
    """The surfaces by which a run is cut."""
    if isinstance(feature, Groove):
        return (feature.surface,)
    if isinstance(feature, Rebate):
        return feature.face, feature.edge
    return (feature.edge,) if isinstance(feature, Notch) else ()


def _within_rows(part: Part) -> Iterator[Finding]:
    """Rows whose neighbouring holes leave too little between them."""
    for feature in part.board.features:
        if isinstance(feature, HoleRow) and feature.count > 1:
            gap = feature.pitch - max(feature.diameter, feature.countersink)
            if gap < LEAST_WEB - 1e-6:
                first, second = feature.holes[:2]
                yield _thin(part, first, second, max(gap, 0.0))


def _gap(part: Part, one: Feature, other: Feature) -> float:
    """Wood between two features: the boxes' gap if that is enough, else the kernel's."""
    size = part.board.size
    rough = one.box(size).gap(other.box(size))
    if rough >= LEAST_WEB:
        return rough
    first, second = _taken(one, size), _taken(other, size)
    if first is None or second is None:
        return LEAST_WEB
    return float(first.distance(second))


def _taken(feature: Feature, size: BoardSize) -> cq.Shape | None:
    """What a feature takes from the board itself: its cutter reaches past the surfaces."""
    tool = cutter(feature, size)
    return None if tool is None else tool.intersect(blank_solid(size))


def _thin(part: Part, one: Feature, other: Feature, gap: float) -> Finding:
    says = (
        f"{one.name} and {other.name} run into each other"
        if gap <= 1e-6
        else f"only {gap:.1f} mm of wood are left between {one.name} and {other.name}"
    )
    return Finding(
        rule="thin-web",
        severity=Severity.ERROR,
        parts=(part.name,),
        where=board_middle(part, one.box(part.board.size)),
        found=gap,
        limit=LEAST_WEB,
        sentence=f"{part.name}: {says}; at least {LEAST_WEB:g} mm must be left, so move one",
    )


def _to_surfaces(part: Part) -> Iterator[Finding]:
    size = part.board.size
    proud = {trim.edge: trim.proud for trim in part.board.trims}
    for feature in part.board.features:
        if isinstance(feature, (*_FIELDS, Bevel)):
            continue
        box = feature.box(size)
        entry = _entry_axis(feature)
        for axis in range(3):
            for sign in (-1, 1):
                left = box.low[axis] if sign < 0 else size.along[axis] - box.high[axis]
                left -= proud.get(surface_at(axis, sign), 0.0)
                # Where a cut may run out, no wood is meant to be left.
                may_run_out = entry is None or axis == entry
                if left < LEAST_WEB and not (may_run_out and left <= 1e-6):
                    yield _shallow(part, feature, box, (axis, sign), left)


def _entry_axis(feature: Feature) -> int | None:
    """The axis along which a hole, slot or cut-out may run out; None for any."""
    if isinstance(feature, Hole | HoleRow | BiscuitSlot):
        return feature.surface.axis
    return 2 if isinstance(feature, CutOut) else None


def _is_thin(part: Part) -> bool:
    """Whether it is a sheet of metal or a covering, which has no web to break out."""
    return part.board.thickness < LEAST_WEB


def _shallow(
    part: Part, feature: Feature, box: BoardBox, where: tuple[int, int], left: float
) -> Finding:
    name = part.surface_name(surface_at(*where))
    what = "hole" if isinstance(feature, Hole | HoleRow | BiscuitSlot | CutOut) else "cut"
    return Finding(
        rule="thin-web",
        severity=Severity.ERROR,
        parts=(part.name,),
        where=board_middle(part, box),
        found=left,
        limit=LEAST_WEB,
        sentence=f"{part.name}: {feature.name} leaves {left:.1f} mm to the {name}; at least "
        f"{LEAST_WEB:g} mm must be left, so move the {what} or make it shallower",
    )
