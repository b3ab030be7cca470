"""Boards of the model as a beam: stiffness from their true sections, stress from its moments."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from cabinet.frame import Side
from cabinet.part import Part
from cabinet.site.beam import Bent, Stiffness
from cabinet.site.beam_table import SHEAR_AREA_SHARE
from cabinet.site.materials import Elastic, elastic
from cabinet.site.ranges import Between
from cabinet.site.section_properties import Section, stretches
from cabinet.site.service import Duration, ServiceClass, design_strength
from cabinet.stock import Grain


@dataclass(frozen=True, slots=True)
class Fibre:
    """A part's modulus and strength for a span in one direction, N/mm2."""

    modulus: Between
    strength: float
    material: Elastic


def fibre(part: Part, run: int) -> Fibre:
    """Modulus and strength of a part that spans along a board axis.

    Raises:
        UnknownNameError: an unknown material.
    """
    board = part.board
    known = elastic(board.stock, board.layers)
    if board.grain is Grain.NONE:
        is_along = known.along.likely <= known.across.likely
    else:
        is_along = (board.grain is Grain.LENGTH) == (run == 0)
    if is_along:
        return Fibre(known.along, known.strength_along, known)
    return Fibre(known.across, known.strength_across, known)


def softened(spans: Iterable[Stiffness], softer: float) -> tuple[Stiffness, ...]:
    """Stretches of equal stiffness with a share of the likely modulus."""
    return tuple(
        replace(span, bending=softer * span.bending, shear=softer * span.shear) for span in spans
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardBeam:
    """Parts that bend together along X under a load along ``load``.

    They are glued to each other along their length; each bends about its own middle, so what
    they gain as one body is left out.

    Attributes:
        parts: The parts.
        load: Unit direction of the load.
    """

    parts: tuple[Part, ...]
    load: Side = Side.BOTTOM

    @property
    def left(self) -> float:
        """X of its left end."""
        return self.parts[0].blank_box.low.x

    @property
    def length(self) -> float:
        """Length along X, mm."""
        # A trace of rounding in the box would leave a last stretch without a board in it.
        return round(self.parts[0].blank_box.size[0], 6)

    def _edges(self) -> list[float]:
        edges = {0.0, self.length}
        for part in self.parts:
            run, sign = part.placement.board_axis(Side.RIGHT)
            extent = part.board.size.along[run]
            offset = part.blank_box.low.x - self.left
            for stretch in stretches(part.board, run):
                for at in (stretch.start, stretch.end):
                    edges.add(round(offset + (at if sign > 0 else extent - at), 6))
        return sorted(edge for edge in edges if 0 <= edge <= self.length)

    def _section(self, part: Part, at: float) -> Section | None:
        run, sign = part.placement.board_axis(Side.RIGHT)
        extent = part.board.size.along[run]
        place = at + self.left - part.blank_box.low.x
        own = place if sign > 0 else extent - place
        there = (s for s in stretches(part.board, run) if s.start < own < s.end)
        return next((stretch.section for stretch in there), None)

    def _stiff(self, part: Part, at: float) -> tuple[float, float]:
        """E I with the likely modulus and G A' of one part at a place."""
        section = self._section(part, at)
        if section is None:
            return 0.0, 0.0
        run = part.placement.board_axis(Side.RIGHT)[0]
        known = fibre(part, run)
        axis = part.placement.board_axis(self.load)[0]
        bending = known.modulus.likely * section.second_moment(axis)
        shear = known.material.shear_modulus
        return bending, math.inf if shear is None else shear * section.area * SHEAR_AREA_SHARE

    def spans(self) -> tuple[Stiffness, ...]:
        """Its stretches of equal stiffness, with the likely modulus."""
        found = []
        for start, end in pairwise(self._edges()):
            each = [self._stiff(part, (start + end) / 2) for part in self.parts]
            found.append(
                Stiffness(
                    start=start,
                    end=end,
                    bending=sum(b for b, _ in each),
                    shear=sum(s for _, s in each),
                )
            )
        return tuple(found)

    @property
    def moduli(self) -> tuple[float, float]:
        """The least and the greatest modulus as shares of the likely one."""
        run = self.parts[0].placement.board_axis(Side.RIGHT)[0]
        known = fibre(self.parts[0], run).modulus
        return known.low / known.likely, known.high / known.likely

    def stress(
        self, bent: Bent, service: ServiceClass, duration: Duration
    ) -> tuple[float, float, float]:
        """Where bending comes nearest to the strength: stress, strength in N/mm2, and X.

        sigma = M E_i I_i / (sum E I) / Z_i for each part over each stretch.

        Args:
            bent: The beam under its design loads.
            service: How damp the air is.
            duration: Of the load.
        """
        found = []
        for start, end in pairwise(self._edges()):
            middle = (start + end) / 2
            stiff = [self._stiff(part, middle)[0] for part in self.parts]
            place, moment = bent.greatest_moment(start, end)
            for part, own in zip(self.parts, stiff, strict=True):
                section = self._section(part, middle)
                if section is None:
                    continue
                run = part.placement.board_axis(Side.RIGHT)[0]
                axis = part.placement.board_axis(self.load)[0]
                known = fibre(part, run)
                stress = abs(moment) * own / sum(stiff) / section.modulus(axis)
                limit = design_strength(known.strength, known.material.kind, service, duration)
                found.append((stress, limit, self.left + place))
        return max(found, key=lambda each: each[0] / each[1])
