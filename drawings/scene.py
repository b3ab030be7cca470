"""A unit as the drawings need it: solids in place, item numbers, colours.

Built once for a job and read by every sheet and export, so that nothing is made twice.
"""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass
from functools import partial

import cadquery as cq

from cabinet.design import Unit
from cabinet.frame import Side
from cabinet.hardware import Hardware, Rod
from cabinet.part import Board, Part
from cabinet.solids import hardware_solid, packed, part_solid, take_over
from cabinet.stock import Colour
from drawings.enclosed import seen_part
from drawings.second_process import shared_out

METAL: Colour = (0.62, 0.64, 0.67)
BEECH: Colour = (0.86, 0.72, 0.52)


@dataclass(frozen=True, slots=True)
class Scene:
    """A resolved unit with its solids.

    Attributes:
        unit: The unit.
        parts: Solids of the parts in place, by name, in the order of the parts.
        hardware: Solids of the hardware in place, by name.
    """

    unit: Unit
    parts: Mapping[str, cq.Shape]
    hardware: Mapping[str, cq.Shape]

    @property
    def items(self) -> tuple[tuple[int, Board, tuple[Part, ...]], ...]:
        """Distinct boards with their item numbers, from 1, and the parts made to each."""
        return tuple(
            (number, board, parts)
            for number, (board, parts) in enumerate(self.unit.boards, start=1)
        )

    @property
    def numbers(self) -> dict[str, int]:
        """Item number of each part by its name."""
        return {part.name: number for number, _, parts in self.items for part in parts}

    def seen_from(
        self, viewer: Side, hidden: Container[str], plane: float | None = None
    ) -> dict[str, cq.Shape]:
        """Solids of parts and bars for a square view, without rows of holes that it hides.

        Args:
            viewer: Side of the unit on which the viewer stands.
            hidden: Names of what is surely out of sight; it is left out.
            plane: Where a section cuts the unit, mm along the axis of ``viewer``; None for a
                view of the whole.
        """
        solids = {}
        for part in self.unit.parts:
            if part.name not in hidden:
                seen = seen_part(part, viewer, plane)
                solids[part.name] = self.parts[part.name] if seen is part else part_solid(seen)
        return solids | {name: rod for name, rod in self.rods.items() if name not in hidden}

    @property
    def rods(self) -> dict[str, cq.Shape]:
        """Bars and pins, the only hardware that is seen in views."""
        return {
            item.name: self.hardware[item.name]
            for item in self.unit.hardware
            if isinstance(item.body, Rod)
        }


def scene(unit: Unit) -> Scene:
    """Build all solids of a unit; those that were made before are not made again.

    Raises:
        KernelError: the kernel failed; the message names the part.
    """
    return Scene(
        unit=unit,
        parts={part.name: part_solid(part) for part in unit.parts},
        hardware={item.name: hardware_solid(item) for item in unit.hardware},
    )


def solids_shared_out(unit: Unit) -> None:
    """Make the solid of every distinct board, some of them in a copy of this process.

    Raises:
        KernelError: the kernel failed; the message names the part.
    """
    # The more features a board has, the longer it takes, and the longest come first.
    by_work = sorted(unit.boards, key=lambda item: len(item[0].features), reverse=True)
    with shared_out([partial(packed, parts[0]) for _, parts in by_work]) as done:
        for (board, _), solid in zip(by_work, done(), strict=True):
            take_over(board, solid)


def hardware_colour(item: Hardware) -> Colour:
    """Colour of a piece of hardware for pictures."""
    return BEECH if "biscuit" in item.article else METAL
