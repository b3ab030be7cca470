"""Seconds of the proofs for 1, 4, 16 and 64 units side by side, and how they grow.

python -m tests.benchmarks.proofs [--example NAME] [--all]
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from typing import Any

from cabinet.checks.all import CHECKS
from cabinet.checks.bow import bows
from cabinet.checks.doors import doors
from cabinet.checks.fingers import finger_gaps
from cabinet.checks.hang import hangs
from cabinet.checks.lean import swing
from cabinet.checks.shelves import shelf_fits
from cabinet.checks.tolerance import stacks
from cabinet.design import Unit, around
from cabinet.frame import Side, UnitBox
from cabinet.hardware import Hardware
from cabinet.motion import Move
from cabinet.part import Part
from tests.examples import example_unit

COUNTS = (1, 4, 16, 64)
PROOFS: tuple[Callable[[Unit], Any], ...] = (
    doors,
    bows,
    finger_gaps,
    shelf_fits,
    stacks,
    hangs,
)


def _renamed(thing: Any, names: dict[str, str]) -> Any:
    """A joint, proof, move or piece with the names of bodies exchanged in all its fields."""
    if isinstance(thing, str):
        return names.get(thing, thing)
    if isinstance(thing, tuple):
        return tuple(_renamed(each, names) for each in thing)
    if is_dataclass(thing) and not isinstance(thing, type) and not hasattr(thing, "features"):
        changed = {f.name: _renamed(getattr(thing, f.name), names) for f in fields(thing)}
        return replace(thing, **changed)
    return thing


def _joint(joint: Any, names: dict[str, str]) -> Any:
    changed = {f.name: _renamed(getattr(joint, f.name), names) for f in fields(joint)}
    return replace(joint, **changed)


def side_by_side(unit: Unit, count: int) -> Unit:
    """Several of a unit in a row, a hand apart, as one unit.

    Args:
        unit: The unit.
        count: How many.
    """
    parts: list[Part] = []
    hardware: list[Hardware] = []
    joints: list[Any] = []
    moves: list[Move] = []
    proofs: list[Any] = []
    boxes: list[UnitBox] = []
    step = unit.outline.size[0] + 100.0
    bodies = [part.name for part in unit.parts] + [item.name for item in unit.hardware]
    for index in range(count):
        names = {name: f"{name}, unit {index + 1}" for name in bodies}
        off = index * step
        for part in unit.parts:
            origin = part.placement.origin.moved(Side.RIGHT, off)
            placement = replace(part.placement, origin=origin)
            parts.append(replace(part, name=names[part.name], placement=placement))
        for item in unit.hardware:
            inside = tuple(names.get(name, name) for name in item.inside)
            at = item.at.moved(Side.RIGHT, off)
            hardware.append(replace(item, name=names[item.name], at=at, inside=inside))
        joints += [_joint(joint, names) for joint in unit.joints]
        moves += [
            replace(m, name=f"{m.name}, {index + 1}", parts=tuple(names[p] for p in m.parts))
            for m in unit.moves
        ]
        proofs += [_renamed(proof, names) for proof in unit.proofs]
        low, high = (p.moved(Side.RIGHT, off) for p in (unit.outline.low, unit.outline.high))
        boxes.append(UnitBox(low=low, high=high))
    return replace(
        unit,
        outline=around(boxes),
        parts=tuple(parts),
        joints=tuple(joints),
        hardware=tuple(hardware),
        moves=tuple(moves),
        proofs=tuple(proofs),
    )


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--example", default="greenhouse_wall_unit")
    parser.add_argument("--all", action="store_true", help="every check, not only the motions")
    chosen = parser.parse_args()
    unit = example_unit(chosen.example)
    proofs = CHECKS if chosen.all else PROOFS
    print(f"{'units':>6}{'bodies':>8}{'seconds':>9}{'per unit':>10}  by proof")
    for count in COUNTS:
        many = side_by_side(unit, count)
        swing.cache_clear()
        spent: dict[str, float] = {}
        for proof in proofs:
            begun = time.perf_counter()
            found = list(proof(many))
            spent[proof.__name__] = time.perf_counter() - begun
            if found:
                raise SystemExit(f"{proof.__name__}: {found[0].sentence}")
        total = sum(spent.values())
        told = ", ".join(f"{name} {value:.2f}" for name, value in spent.items() if value >= 0.005)
        bodies = len(many.parts) + len(many.hardware)
        print(f"{count:6d}{bodies:8d}{total:9.2f}{total / count:10.3f}  {told}")


if __name__ == "__main__":
    main()
