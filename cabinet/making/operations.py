"""A board's features read as operations: the third reading beside solids and dimensions.

Which tool does a cut follows from the cut itself and from the tools that there are. Of the
straight cutters the widest that needs the fewest passes is taken, and over all boards together
as few different ones as that allows, so that the cutter is changed seldom. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import singledispatchmethod
from itertools import combinations

from cabinet.board import At, Surface
from cabinet.errors import DesignError
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
from cabinet.making.operation import Guide, Operation, Phase, Tool, Work, sawn_to_size
from cabinet.part import Board
from cabinet.quantity import written
from cabinet.workshop import Workshop

# A router's fence reaches this far from the edge; beyond it a straight-edge is clamped on
# (common practice, no source).
FENCE_REACH = 200.0
# From the pillar drill's post to its bit (common practice for bench drills, no source).
DRILL_REACH = 150.0
# Rows closer than this are bored through a jig; others are marked (common practice, no source).
JIG_PITCH = 64.0

_SAME = 1e-6


def operations(boards: Iterable[Board], workshop: Workshop) -> dict[Board, tuple[Operation, ...]]:
    """Every operation on every distinct board.

    Args:
        boards: The boards of a job; the straight cutters are chosen for all of them together.
        workshop: The tools that there are.

    Raises:
        DesignError: a feature of a kind that has no reading here.
    """
    distinct = tuple(dict.fromkeys(boards))
    cutters = fewest_cutters(
        (_fitting(f, workshop) for b in distinct for f in b.features), workshop.router.cutters
    )
    return {board: _Reading(board, workshop, cutters).operations() for board in distinct}


def fewest_cutters(
    wanted: Iterable[tuple[float, ...]], cutters: Sequence[float]
) -> tuple[float, ...]:
    """The smallest set of cutters with one that fits each cut; of equal sets the widest cutters.

    Args:
        wanted: For each cut the diameters that do it in the fewest passes; none for a cut that
            is not routed along a fence.
        cutters: All diameters that there are, mm.
    """
    needs = {frozenset(them) for them in wanted if them}
    for count in range(len(cutters) + 1):
        fits = [
            chosen
            for chosen in combinations(sorted(cutters, reverse=True), count)
            if all(need & set(chosen) for need in needs)
        ]
        if fits:
            return max(fits, key=sum)
    lacking = sorted({d for need in needs if not need & set(cutters) for d in need})
    raise DesignError(
        f"set-ups: a cut asks for a cutter of {' or '.join(map(written, lacking))} mm and the "
        f"workshop has {', '.join(map(written, sorted(cutters)))}",
        part="set-ups",
        value=tuple(lacking),
        limit=tuple(sorted(cutters)),
    )


def _least_passes(width: float, cutters: Iterable[float]) -> tuple[float, ...]:
    """Of these cutters those that need the fewest passes for a width."""
    passes = {cutter: _count(width, cutter) for cutter in cutters}
    least = min(passes.values(), default=0)
    return tuple(cutter for cutter, count in passes.items() if count == least)


def _count(width: float, cutter: float) -> int:
    return max(1, math.ceil(width / cutter - _SAME))


def _fitting(feature: Feature, workshop: Workshop) -> tuple[float, ...]:
    """Straight cutters that do a groove or a rebate in the fewest passes; none for others."""
    cutters = workshop.router.cutters
    if isinstance(feature, Rebate):
        return _least_passes(feature.width, cutters)
    if isinstance(feature, Groove) and not _is_sawn(feature, workshop):
        fitting = [cutter for cutter in cutters if cutter <= feature.width + _SAME]
        if feature.end_radius:
            fitting = [c for c in fitting if abs(c - 2 * feature.end_radius) < _SAME]
        return _least_passes(feature.width, fitting)
    return ()


def _is_sawn(groove: Groove, workshop: Workshop) -> bool:
    return groove.runs_out and workshop.saws_groove(groove.width, groove.most_width, groove.depth)


@dataclass(frozen=True, slots=True)
class _Reading:
    """One board being read with the cutters chosen for the whole job."""

    board: Board
    workshop: Workshop
    cutters: tuple[float, ...]

    def operations(self) -> tuple[Operation, ...]:
        found = list(self._to_size())
        for feature in self.board.features:
            found += self.read(feature)
        return tuple(found)

    @property
    def _is_trimmed_on(self) -> bool:
        """Whether the board is glued on oversize and trimmed there: a covering."""
        return self.board.layers == 1 and self.board.oversize is not None

    def _to_size(self) -> Iterable[Operation]:
        """The cuts that bring an oversize blank to its size, one for each way across it."""
        more, board = self.board.margins, self.board
        for axis, reference in ((1, board.fence), (0, board.stop)):
            extent = board.size.along[axis]
            # Where only one side is larger, it is a bevel's, and sawn with the bevel.
            allowance = min(more[reference], more[reference.opposite])
            if allowance <= _SAME:
                continue
            sawn = sawn_to_size(reference, extent, allowance, self.workshop.saw.kerf)
            if not self._is_trimmed_on:
                yield sawn
                continue
            yield replace(
                sawn,
                tool=Tool.ROUTER,
                guide=Guide.BEARING,
                phase=Phase.GLUED,
                cutter=self.workshop.router.bearing_diameter,
            )

    @singledispatchmethod
    def read(self, feature: Feature) -> tuple[Operation, ...]:
        raise DesignError(
            f"{feature.name}: no operation is known for a {type(feature).__name__}; it must be a "
            "kind of feature that this file reads",
            part=feature.name,
            value=type(feature).__name__,
            limit="a kind of feature with a reading",
        )

    def _pick(self, feature: Groove | Rebate) -> float:
        """The chosen cutter for a cut; its own width where the workshop has none."""
        fitting = set(_fitting(feature, self.workshop)) & set(self.cutters)
        if fitting:
            return max(fitting)
        radius = feature.end_radius if isinstance(feature, Groove) else 0.0
        return 2 * radius if radius else feature.width

    @read.register
    def _(self, feature: Groove) -> tuple[Operation, ...]:
        is_sawn = _is_sawn(feature, self.workshop)
        cutter = self.workshop.saw.kerf if is_sawn else self._pick(feature)
        swath = min(cutter, feature.width)
        count = _count(feature.width, swath)
        step = (feature.width - swath) / (count - 1) if count > 1 else 0.0
        near = feature.near.distance
        is_far = near + feature.width > FENCE_REACH and not is_sawn
        return (
            Operation(
                name=feature.name,
                work=Work.GROOVE,
                tool=Tool.SAW if is_sawn else Tool.ROUTER,
                guide=Guide.STRAIGHT_EDGE if is_far else Guide.FENCE,
                phase=Phase.FLAT,
                face=feature.surface,
                reference=feature.near.datum,
                cutter=cutter,
                swath=swath,
                passes=tuple(round(near + index * step, 6) for index in range(count)),
                depth=feature.depth,
                start=feature.start,
                end=feature.end,
                corner=feature.end_radius,
            ),
        )

    @read.register
    def _(self, feature: Rebate) -> tuple[Operation, ...]:
        cutter = self._pick(feature)
        count = _count(feature.width, cutter)
        return (
            Operation(
                name=feature.name,
                work=Work.REBATE,
                tool=Tool.ROUTER,
                guide=Guide.FENCE,
                phase=Phase.FLAT,
                face=feature.face,
                reference=feature.edge,
                cutter=cutter,
                swath=cutter,
                # From the edge inwards, so that the router always stands on whole wood.
                passes=tuple(
                    round(feature.width - cutter * (index + 1), 6) for index in range(count)
                )[::-1],
                depth=feature.depth,
                start=feature.start,
                end=feature.end,
            ),
        )

    @read.register
    def _(self, feature: Bevel) -> tuple[Operation, ...]:
        size = self.board.size
        left = size.along[feature.edge.axis] - feature.reach(size.thickness)
        return (
            Operation(
                name=feature.name,
                work=Work.BEVEL,
                tool=Tool.SAW,
                guide=Guide.FENCE,
                phase=Phase.FLAT,
                face=feature.sharp.opposite,
                reference=feature.edge.opposite,
                cutter=self.workshop.saw.kerf,
                passes=(round(left, 6),),
                angle=feature.angle,
            ),
        )

    @read.register
    def _(self, feature: Hole) -> tuple[Operation, ...]:
        stop, line = sorted(feature.centre, key=lambda at: at.axis)
        return self._bored(feature, stop.datum, (stop.distance,), line, is_close=False)

    @read.register
    def _(self, feature: HoleRow) -> tuple[Operation, ...]:
        places = tuple(
            round(feature.first.distance + index * feature.pitch, 6)
            for index in range(feature.count)
        )
        is_close = feature.count > 2 and feature.pitch <= JIG_PITCH
        return self._bored(feature, feature.first.datum, places, feature.line, is_close=is_close)

    def _bored(
        self,
        feature: Hole | HoleRow,
        stop: Surface,
        places: tuple[float, ...],
        line: At,
        *,
        is_close: bool,
    ) -> tuple[Operation, ...]:
        """Bored through a jig, on the pillar drill along its fence, or by hand on marks."""
        tool, guide = Tool.DRILL, Guide.MARKS
        if is_close and not feature.countersink:
            guide = Guide.JIG
        elif feature.surface.is_face and line.distance <= DRILL_REACH:
            tool, guide = Tool.PILLAR_DRILL, Guide.FENCE
        bore = Operation(
            name=feature.name,
            work=Work.BORE,
            tool=tool,
            guide=guide,
            phase=Phase.FLAT,
            face=feature.surface,
            reference=line.datum,
            cutter=feature.diameter,
            passes=(line.distance,),
            depth=feature.depth,
            stop=stop,
            places=places,
        )
        sunk = (feature.countersink - feature.diameter) / 2
        if sunk <= _SAME:
            return (bore,)
        return (
            bore,
            Operation(
                name=feature.name,
                work=Work.COUNTERSINK,
                tool=Tool.DRILL,
                guide=Guide.MARKS,
                phase=Phase.FLAT,
                face=feature.surface,
                reference=line.datum,
                # One countersink bit serves every hole; its depth makes the diameter.
                cutter=0.0,
                passes=(line.distance,),
                depth=sunk,
                angle=90.0,
                stop=stop,
                places=places,
                size=(feature.countersink,),
            ),
        )

    @read.register
    def _(self, feature: CutOut) -> tuple[Operation, ...]:
        along, across = sorted(feature.centre, key=lambda at: at.axis)
        router, is_on = self.workshop.router, self._is_trimmed_on
        cutter = router.bush.cutter
        if is_on:
            cutter = router.bearing_diameter
        elif cutter > 2 * feature.corner_radius + _SAME:
            smaller = [c for c in router.cutters if c <= 2 * feature.corner_radius + _SAME]
            cutter = max(smaller, default=2 * feature.corner_radius)
        return (
            Operation(
                name=feature.name,
                work=Work.OPENING,
                tool=Tool.ROUTER,
                guide=Guide.BEARING if is_on else Guide.TEMPLATE,
                phase=Phase.GLUED if is_on else Phase.FLAT,
                face=Surface.A,
                reference=across.datum,
                cutter=cutter,
                passes=(across.distance,),
                stop=along.datum,
                places=(along.distance,),
                corner=feature.corner_radius,
                size=(feature.length, feature.width),
            ),
        )

    @read.register
    def _(self, feature: Notch) -> tuple[Operation, ...]:
        return (
            Operation(
                name=feature.name,
                work=Work.NOTCH,
                tool=Tool.HAND,
                guide=Guide.MARKS,
                phase=Phase.FLAT,
                face=Surface.A,
                reference=feature.edge,
                stop=feature.near.datum,
                places=(feature.near.distance,),
                size=(feature.length, feature.depth),
            ),
        )

    @read.register
    def _(self, feature: BiscuitSlot) -> tuple[Operation, ...]:
        return (
            Operation(
                name=feature.name,
                work=Work.SLOT,
                tool=Tool.BISCUIT_JOINTER,
                guide=Guide.FENCE,
                phase=Phase.FLAT,
                face=feature.surface,
                reference=feature.height.datum,
                cutter=feature.biscuit.thickness,
                passes=(feature.height.distance,),
                depth=feature.biscuit.slot_depth,
                stop=feature.centre.datum,
                places=(feature.centre.distance,),
            ),
        )

    @read.register
    def _(self, feature: FlushTrim) -> tuple[Operation, ...]:
        return (
            Operation(
                name=feature.name,
                work=Work.TRIM,
                tool=Tool.ROUTER,
                guide=Guide.BEARING,
                phase=Phase.GLUED,
                face=feature.edge,
                reference=Surface.A,
                cutter=self.workshop.router.bearing_diameter,
                depth=feature.proud,
            ),
        )

    @read.register
    def _(self, feature: Perforation) -> tuple[Operation, ...]:
        return (
            Operation(
                name=f"{feature.name} {feature.designation}",
                work=Work.BOUGHT,
                tool=Tool.NONE,
                guide=Guide.MARKS,
                phase=Phase.FLAT,
                face=Surface.A,
                reference=self.board.fence,
                stop=self.board.stop,
                cutter=float(feature.diameter),
            ),
        )


__all__ = ["Guide", "Operation", "Phase", "Tool", "Work", "fewest_cutters", "operations"]
