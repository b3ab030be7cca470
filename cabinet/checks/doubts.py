"""Doubts: parts that reach into a round or slanted cut of another, where bricks cannot tell."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from cabinet.checks.bricks import Boxes, box_array, part_bricks
from cabinet.checks.takedown import TOUCH
from cabinet.design import Unit
from cabinet.features import Bevel, CutOut, Feature, Groove
from cabinet.part import Part


def doubts(unit: Unit) -> dict[str, frozenset[str]]:
    """For each part with round or slanted cuts, the parts that reach into what bricks keep there.

    Holes are left out: what goes into a hole goes along its axis.
    """
    found: dict[str, frozenset[str]] = {}
    boxes = np.array([[tuple(p.box.low), tuple(p.box.high)] for p in unit.parts])
    for part in unit.parts:
        cuts = [part.feature_box(f) for f in part.board.features if _is_doubtful(f)]
        near = {int(i) for cut in cuts for i in np.nonzero(_reach(boxes, box_array(cut)[0]))[0]}
        others = [unit.parts[i] for i in sorted(near) if unit.parts[i] is not part]
        inside = {
            other.name
            for other in others
            if _lap(part, other, at_least=True) and not _lap(part, other, at_least=False)
        }
        if inside:
            found[part.name] = frozenset(inside)
    return found


def _reach(boxes: Boxes, room: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which boxes reach into a room."""
    laps = np.minimum(boxes[:, 1], room[1]) - np.maximum(boxes[:, 0], room[0])
    return np.asarray((laps > TOUCH).all(axis=1))


def _is_doubtful(feature: Feature) -> bool:
    is_round = isinstance(feature, Groove) and feature.end_radius > 0
    return is_round or isinstance(feature, CutOut | Bevel)


def _lap(part: Part, other: Part, *, at_least: bool) -> bool:
    """Whether the bricks of two parts share volume as they lie."""
    one = part_bricks(part, at_least=at_least).boxes
    two = part_bricks(other, at_least=at_least).boxes
    low = np.maximum(one[:, None, 0], two[None, :, 0])
    high = np.minimum(one[:, None, 1], two[None, :, 1])
    return bool((high - low > TOUCH).all(axis=2).any())


__all__ = ["doubts"]
