"""Where the sections of a unit are taken, found from its parts and joints.

A-A stands upright across the front, through the doors where they overlap, clear of dividers,
pins and screws. B-B stands upright behind the doors, through dividers and shelves.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.hardware import Rod
from cabinet.part import Part

# Candidates are tried at this distance from each other, mm.
_STEP = 0.5
# A plane keeps this from what it should not cut, mm.
_CLEAR = 0.4
# B-B is taken this far behind the front of the shelves or dividers, mm.
_BEHIND_FRONT = 20.0


@dataclass(frozen=True, slots=True)
class SectionPlanes:
    """Unit coordinates of the two planes: X of A-A and Y of B-B, mm."""

    across: float
    behind: float


def section_planes(unit: Unit) -> SectionPlanes:
    """Choose the planes of both sections."""
    return SectionPlanes(_across(unit), _behind(unit))


def _across(unit: Unit) -> float:
    low, high = _range(unit)
    spans = _spans(unit)
    count = max(1, int((high - low) / _STEP))
    spots = [low + (high - low) * (i + 0.5) / count for i in range(count)]
    middle = (low + high) / 2
    # The most room to uprights and hardware first, then the nearest to the middle.
    return max(spots, key=lambda x: (min(_room(spans, x), 5.0), -abs(x - middle)))


def _range(unit: Unit) -> tuple[float, float]:
    """Where the plane may lie: the first overlap of doors, or the left part of the inside."""
    doors = sorted((p for p in unit.parts if p.group == "doors"), key=lambda p: p.box.low.x)
    if len(doors) > 1:
        return doors[1].box.low.x + _CLEAR, doors[0].box.high.x - _CLEAR
    box = unit.outline
    width = box.size[0]
    return box.low.x + 0.15 * width, box.low.x + 0.45 * width


def _spans(unit: Unit) -> list[tuple[float, float]]:
    """From where to where, along X, uprights and the hardware that lies across them reach."""
    spans = [(p.box.low.x, p.box.high.x) for p in unit.parts if _is_upright(p)]
    for item in unit.hardware:
        box = item.box
        if not isinstance(item.body, Rod) or box.size[0] < 100.0:
            spans.append((box.low.x, box.high.x))
    return spans


def _room(spans: list[tuple[float, float]], x: float) -> float:
    """Distance of a plane at x from the nearest span; negative within one."""
    return min((_outside(x, a, b) for a, b in spans), default=5.0)


def _is_upright(part: Part) -> bool:
    return part.placement.up.axis == 0


def _outside(x: float, low: float, high: float) -> float:
    return max(low - x, x - high)


def _behind(unit: Unit) -> float:
    fronts = [p.box.low.y for p in unit.parts if p.group == "shelves"]
    if not fronts:
        fronts = [p.box.low.y for p in unit.parts if p.role == "divider"]
    if not fronts:
        box = unit.outline
        return box.low.y + 0.35 * box.size[1]
    return min(fronts) + _BEHIND_FRONT
