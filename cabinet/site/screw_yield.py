"""One screw that is pushed sideways: wood crushed, screw tilted or bent, with or without a gap.

A gap, such as the plasterboard between a cleat and a stud, carries nothing and makes the screw
bend more. Friction and the pull of the screw are left out, which errs on the safe side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.quantity import positive, within

# Tensile strength of a common wood screw's steel, N/mm2, from memory.
SCREW_STEEL = 540.0
# Effective diameter of a thread is 1.1 times its core (EN 1995-1-1, 8.7.1, from memory).
CORE_SHARE = 1.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One of the two boards that a screw ties.

    Attributes:
        depth: How deep the screw is in it, mm.
        embedment: Characteristic pressure at which the screw sinks into it, N/mm2.
    """

    depth: float
    embedment: float

    def __post_init__(self) -> None:
        positive("screw", "depth in a board", self.depth)
        positive("screw", "embedment strength", self.embedment, unit="N/mm2")


def yield_moment(diameter: float, steel: float = SCREW_STEEL) -> float:
    """Moment at which a screw bends for good, N mm: M_y,Rk = 0.3 f_u d_ef^2.6.

    Args:
        diameter: Effective diameter d_ef, mm.
        steel: Tensile strength f_u, N/mm2.

    Source: EN 1995-1-1, equation 8.30.
    """
    return float(0.3 * positive("screw", "steel", steel, unit="N/mm2") * diameter**2.6)


def _solve(a: float, b: float, c: float) -> float:
    """The positive root of a P^2 + b P + c = 0."""
    return (-b + math.sqrt(b * b - 4 * a * c)) / (2 * a)


def yield_modes(
    first: Member, second: Member, diameter: float, moment: float, gap: float = 0.0
) -> dict[str, float]:
    """Characteristic sideways strength of one screw in single shear, N, for each way to fail.

    With q = f_h d in each board: q1 t1; q2 t2; both crushed, the screw tilted; bent in the
    second, tilted in the first; bent in the first, tilted in the second; bent in both,
    (1/q1 + 1/q2) P^2 / 2 + g P - 2 M = 0. Each is the equilibrium of the screw with its gap.

    Args:
        first: Board under the head.
        second: Board that takes the thread.
        diameter: Effective diameter, mm.
        moment: Yield moment of the screw, N mm.
        gap: Between the boards, carrying nothing, mm.

    Raises:
        SizeError: a negative gap, or sizes that are not positive.

    Source: yield theory with a gap (form of AWC Technical Report 12, from memory, derived anew
        here); without a gap EN 1995-1-1, equation 8.6, less its factors 1.05 and 1.15.
    """
    within("screw", "gap", gap, 0.0, 60.0)
    positive("screw", "diameter", diameter)
    q1, q2 = first.embedment * diameter, second.embedment * diameter
    t1, t2 = first.depth, second.depth
    return {
        "first board crushed": q1 * t1,
        "second board crushed": q2 * t2,
        "tilted": _solve(
            1 / (4 * q1) + 1 / (4 * q2),
            t1 / 2 + gap + t2 / 2,
            -q1 * t1**2 / 4 - q2 * t2**2 / 4,
        ),
        "bent in the second board": _solve(
            1 / (4 * q1) + 1 / (2 * q2), t1 / 2 + gap, -q1 * t1**2 / 4 - moment
        ),
        "bent in the first board": _solve(
            1 / (2 * q1) + 1 / (4 * q2), gap + t2 / 2, -moment - q2 * t2**2 / 4
        ),
        "bent in both": _solve(1 / (2 * q1) + 1 / (2 * q2), gap, -2 * moment),
    }


def sideways_strength(
    first: Member, second: Member, core: float, gap: float = 0.0, steel: float = SCREW_STEEL
) -> float:
    """Characteristic sideways strength of one screw, N: the least of its ways to fail.

    Args:
        first: Board under the head.
        second: Board that takes the thread.
        core: Core diameter of the thread, mm.
        gap: Between the boards, mm.
        steel: Tensile strength of the screw, N/mm2.

    Source: ``yield_modes``.
    """
    effective = CORE_SHARE * core
    moment = yield_moment(effective, steel)
    return min(yield_modes(first, second, effective, moment, gap).values())
