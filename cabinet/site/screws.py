"""One wood screw that is pulled: thread, head, and pull together with a sideways load.

Screws go into the faces of boards; into a plywood's edge they are refused. The least of the
ways to fail governs: with a thin board under the head that is often the head, not the thread.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.errors import DesignError
from cabinet.quantity import positive, within
from cabinet.site.service import GAMMA_CONNECTION, Duration, Kind, ServiceClass, kmod

# Plywood holds less than the formulas for solid wood say (Ahn et al., J. Korean Wood Sci.
# Technol. 49(1), 2021, abstract); how much less is common practice, no source.
PLYWOOD_SHARE = 0.7
# Thinnest and thickest screw of the code's formula, mm, and its least thread in diameters.
CODE_DIAMETERS = (6.0, 12.0)
CODE_THREAD = 6.0
_PSI_INCH = 4.448222 / 25.4  # lbf per inch in N/mm
_MM_PER_INCH = 25.4


def code_withdrawal(
    diameter: float, thread: float, density: float, *, angle: float = 90.0, count: float = 1
) -> float:
    """Characteristic withdrawal of screws from solid wood by the timber code, N.

    f_ax,k = 0.52 d^-0.5 l_ef^-0.1 rho_k^0.8;
    F_ax,Rk = n^0.9 f_ax,k d l_ef k_d / (1.2 cos2 a + sin2 a), k_d = min(d / 8, 1).

    Args:
        diameter: Outer thread diameter d, 6 to 12 mm.
        thread: Threaded length in the wood l_ef, at least 6 d, mm.
        density: Characteristic density rho_k, kg/m3.
        angle: Between screw and grain, 30 to 90 degrees.
        count: Screws that act together.

    Raises:
        SizeError: outside these ranges, in which the formula holds.

    Source: EN 1995-1-1:2004 + A1:2008, 8.7.2, equations 8.38 to 8.41, from memory; n_ef and
        k_d read in a public transcription.
    """
    within("screw", "diameter", diameter, *CODE_DIAMETERS, why="the code's formula")
    within("screw", "thread in the wood", thread, CODE_THREAD * diameter, math.inf, why="6 d")
    positive("screw", "density", density, unit="kg/m3")
    within("screw", "angle to the grain", angle, 30.0, 90.0, unit="degrees")
    strength = 0.52 * diameter**-0.5 * thread**-0.1 * density**0.8
    a = math.radians(angle)
    slant = 1.2 * math.cos(a) ** 2 + math.sin(a) ** 2
    return float(count**0.9 * strength * diameter * thread * min(diameter / 8, 1.0) / slant)


def allowable_withdrawal(diameter: float, thread: float, gravity: float) -> float:
    """Allowable withdrawal of one wood screw from side grain, N.

    F = 2850 G^2 D for each inch of thread, in lbf and inches. It is a working load, a tenth to
    a half of what pulls the screw out; no partial factors go on top.

    Args:
        diameter: Shank diameter D, 2 to 10 mm.
        thread: Thread in the wood, mm.
        gravity: Specific gravity G, oven-dry, 0.3 to 0.8.

    Raises:
        SizeError: outside these ranges.

    Source: Engineering ToolBox d_1815 (form of the NDS); the range is ours.
    """
    within("screw", "diameter", diameter, 2.0, 10.0)
    positive("screw", "thread in the wood", thread)
    within("screw", "specific gravity", gravity, 0.3, 0.8, unit="")
    per_inch = 2850 * gravity**2 * diameter / _MM_PER_INCH
    return per_inch * _PSI_INCH * thread


def ultimate_withdrawal(diameter: float, thread: float, gravity: float) -> float:
    """Greatest withdrawal of one wood screw from side grain in a test, N; not for design.

    p = 108.25 G^2 D L, N and mm.

    Args:
        diameter: Shank diameter D, mm.
        thread: Thread in the wood L, mm.
        gravity: Specific gravity G, 0.3 to 0.8.

    Source: USDA Wood Handbook ch. 8 (15,700 G^2 D L in pounds and inches).
    """
    within("screw", "specific gravity", gravity, 0.3, 0.8, unit="")
    return 108.25 * gravity**2 * positive("screw", "diameter", diameter) * thread


def head_pull_through(head: float, density: float) -> float:
    """Characteristic force that pulls a screw's head through a board, N.

    F_head,Rk = f_head d_h^2 with f_head = 70e-6 rho_k^2; the nail's value, cautious.

    Args:
        head: Diameter of the head d_h, mm.
        density: Characteristic density of the board, kg/m3.

    Raises:
        SizeError: not positive.

    Source: EN 1995-1-1, 8.3.2, as transcribed with a worked example in a public notebook.
    """
    positive("screw", "density", density, unit="kg/m3")
    return 70e-6 * density**2 * positive("screw", "head diameter", head) ** 2


def design_force(
    characteristic: float, service: ServiceClass, duration: Duration, kind: Kind = Kind.SOLID
) -> float:
    """Design resistance of a connection, k_mod F_Rk / 1.3, N.

    Source: EN 1995-1-1, equation 2.17 and Table 2.3.
    """
    return kmod(kind, service, duration) * characteristic / GAMMA_CONNECTION


def combined(pull: float, pull_strength: float, side: float, side_strength: float) -> float:
    """Use of a screw that is pulled and pushed sideways: (Fax/Rax)^2 + (Fv/Rv)^2, at most 1.

    Source: EN 1995-1-1, equation 8.28.
    """
    positive("screw", "strength against pull", pull_strength, unit="N")
    positive("screw", "strength sideways", side_strength, unit="N")
    return (pull / pull_strength) ** 2 + (side / side_strength) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """Where the thread of a screw holds.

    Attributes:
        kind: Solid wood or plywood.
        density_kg_m3: Characteristic density.
        thread: Thread in it, mm.
        is_edge: Whether the screw goes in along the plies or between them.

    Raises:
        DesignError: a screw into the edge of plywood.
        SizeError: no thread.
    """

    kind: Kind
    density_kg_m3: float
    thread: float
    is_edge: bool = False

    def __post_init__(self) -> None:
        positive("screw", "thread that holds", self.thread)
        positive("screw", "density", self.density_kg_m3, unit="kg/m3")
        if self.is_edge and self.kind is Kind.PLYWOOD:
            raise DesignError(
                f"screw: {self.thread:.1f} mm of thread in a plywood's edge split its plies and "
                "count for nothing; screw into a face",
                part="screw",
                value="edge",
                limit="face",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """What one screw holds against pull, N at design level, and which way it would fail."""

    thread: float
    head: float

    @property
    def least(self) -> float:
        """The lesser of the two."""
        return min(self.thread, self.head)

    @property
    def governs(self) -> str:
        """Which way it fails first."""
        return "its thread pulls out" if self.thread <= self.head else "its head pulls through"


def pull_strength(
    diameter: float,
    head: float,
    under_head: float,
    grip: Grip,
    service: ServiceClass,
    duration: Duration,
) -> Pull:
    """Design strength of one screw against pull.

    Screws of 6 to 12 mm with thread enough go by the code; thinner ones, for which its formula
    does not hold, by the allowable load, taken as it is. In plywood both are reduced.

    Args:
        diameter: Outer thread diameter, mm.
        head: Diameter of the head, mm.
        under_head: Characteristic density of the board under the head, kg/m3.
        grip: Where the thread holds.
        service: How damp the air is.
        duration: Of the load.

    Source: ``code_withdrawal``, ``allowable_withdrawal``, ``head_pull_through``.
    """
    in_code = CODE_DIAMETERS[0] <= diameter <= CODE_DIAMETERS[1]
    if in_code and grip.thread >= CODE_THREAD * diameter:
        characteristic = code_withdrawal(diameter, grip.thread, grip.density_kg_m3)
        thread = design_force(characteristic, service, duration)
    else:
        # The characteristic density is lower than the mean, so this is cautious.
        gravity = min(max(grip.density_kg_m3 / 1000, 0.3), 0.8)
        thread = allowable_withdrawal(diameter, grip.thread, gravity)
    if grip.kind is Kind.PLYWOOD:
        thread *= PLYWOOD_SHARE
    through = design_force(head_pull_through(head, under_head), service, duration)
    return Pull(thread=thread, head=through)
