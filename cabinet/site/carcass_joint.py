"""The joint between what hangs on the cleat and the rest of the carcass.

The cleat holds the rail and, through it, the top; sides and dividers hang on these two. What
ties them is sheared downwards: biscuits, and the glued ends of boards in their housings.

Glue in the end of a plywood board counts half, since half of its plies show end grain (common
practice, no source). A biscuit is compressed beech: f_v,k = 4 N/mm2 is that of the hardwood
classes of EN 338, from memory.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.joint import Biscuits, Housing
from cabinet.site.cleat_model import Cleat
from cabinet.site.service import GAMMA_CONNECTION, Kind, kmod
from cabinet.site.uses import UseCase

# Shear of a glued face along plywood's plies, characteristic, N/mm2: cautious, no source.
GLUE_SHEAR = 1.0
END_SHARE = 0.5
BISCUIT_SHEAR = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CarcassJoint:
    """What ties the sides and dividers to what hangs on the cleat.

    Attributes:
        held: Names of what hangs on the cleat.
        ties: Each pair of parts that is tied, with its characteristic shear strength, N.
    """

    held: tuple[str, ...]
    ties: tuple[tuple[str, str, float], ...]

    @property
    def strength(self) -> float:
        """All of them together, characteristic, N."""
        return sum(force for _, _, force in self.ties)


def biscuit_strength(length: float, thickness: float, count: int) -> float:
    """Characteristic shear strength of biscuits across their length, N.

    Args:
        length: Of a biscuit, mm.
        thickness: Of a biscuit, mm.
        count: How many.

    Source: area times f_v,k; see the file's head.
    """
    return BISCUIT_SHEAR * length * thickness * count


def _ties(unit: Unit, held: set[str], hanging: set[str]) -> Iterator[tuple[str, str, float]]:
    parts = unit.by_name
    for joint in unit.joints:
        pair = joint.parts
        if len(pair) != 2 or not (set(pair) & held and set(pair) & hanging):
            continue
        if isinstance(joint, Biscuits):
            size = joint.biscuit
            yield pair[0], pair[1], biscuit_strength(size.length, size.thickness, joint.count)
        elif isinstance(joint, Housing) and joint.is_glued:
            over = parts[joint.board].box.overlap(parts[joint.into].box)
            yield pair[0], pair[1], END_SHARE * GLUE_SHEAR * _sheared(over)


def _sheared(over: tuple[float, float, float]) -> float:
    """Area of a glued housing that a load downwards shears, mm2, from what two boards share.

    A board that ends in an upright side is sheared along the housing's floor; an upright board
    let into the one above it along both walls of its housing.
    """
    across, back, up = (max(each, 0.0) for each in over)
    return 2 * back * up if up == min(across, back, up) else back * up


def carcass_joint(unit: Unit, cleat: Cleat) -> CarcassJoint:
    """What ties sides and dividers to the rail and the top that hang on a cleat."""
    held = {cleat.rail.name, *(p.name for p in unit.parts if p.role == "top")}
    hanging = {p.name for p in unit.parts if p.role in {"side", "divider"}}
    return CarcassJoint(held=tuple(sorted(held)), ties=tuple(_ties(unit, held, hanging)))


def joint_share(joint: CarcassJoint, down: float, use: UseCase) -> float:
    """Use of that joint under a design weight, N; above 1 fails, infinite without any tie.

    Source: EN 1995-1-1, equation 2.17, for a connection.
    """
    factor = kmod(Kind.PLYWOOD, use.service, use.duration) / GAMMA_CONNECTION
    strength = joint.strength * factor
    return down / strength if strength else math.inf
