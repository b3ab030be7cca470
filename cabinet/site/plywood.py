"""Bending stiffness and strength of all-birch plywood from its plies: the lamination rule.

Plies lie crosswise by turns, the faces along the length. Only plies whose grain runs with the
span carry: E = E_ply I_carrying / I_all, for both directions.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.errors import SizeError, UnknownNameError
from cabinet.quantity import whole

# A ply as it lies inside and as a sanded face, mm; modulus and strength along its grain, N/mm2.
# Across its grain a ply counts as nothing.
PLY = 1.4
FACE_PLY = 1.1
PLY_MODULUS = 17_500.0
PLY_STRENGTH = 70.0

# Nominal thickness -> number of plies (birch plywood data sheet with 1.4 mm veneers).
PLIES = {4.0: 3, 6.5: 5, 9.0: 7, 12.0: 9, 15.0: 11, 18.0: 13, 21.0: 15, 24.0: 17, 27.0: 19}
PLIES[30.0] = 21


@dataclass(frozen=True, slots=True, kw_only=True)
class Laminate:
    """A plywood in bending.

    Attributes:
        thickness: Mean thickness of the plies together, mm.
        along: Mean modulus for a span along the face grain, N/mm2.
        across: The same for a span across it.
        strength_along: Characteristic bending strength along the face grain, N/mm2.
        strength_across: The same across it.
    """

    thickness: float
    along: float
    across: float
    strength_along: float
    strength_across: float


def plies_of(nominal: float) -> int:
    """Number of plies of birch plywood by its nominal thickness, mm.

    Raises:
        UnknownNameError: a thickness that is not in the data sheet.
    """
    if nominal not in PLIES:
        raise UnknownNameError(
            f"birch plywood {nominal:g} mm: its plies are not known; the data sheet has "
            f"{', '.join(f'{t:g}' for t in PLIES)} mm",
            part="birch plywood",
            value=nominal,
            limit=tuple(PLIES),
        )
    return PLIES[nominal]


def birch_laminate(plies: int, layers: int = 1) -> Laminate:
    """Modulus and strength of all-birch plywood, or of several such boards glued together.

    E_along = E_ply I_par / I, E_across = E_ply I_cross / I, so both sum up to E_ply;
    f_along = f_ply I_par / I; f_across = f_ply (I_cross / I) (t / 2) / z, z being how far the
    outermost cross ply's outer side lies from the middle.

    Args:
        plies: Number of plies of one board, odd, 3 to 21.
        layers: Boards glued face to face, 1 to 4, their face grains alike.

    Raises:
        SizeError: an even number of plies, or one out of range.

    Source: Handbook of Finnish Plywood (2002/2007), Table 3-2, all-birch: the rule gives its
        forty printed values (table from memory).
    """
    whole("birch plywood", "plies", plies, 3, 21)
    if plies % 2 == 0:
        raise SizeError(
            f"birch plywood: {plies} plies; the number is odd, so that both faces run one way",
            part="birch plywood",
            value=plies,
            limit="odd",
        )
    whole("birch plywood", "layers", layers, 1, 4)
    sheet = [FACE_PLY, *[PLY] * (plies - 2), FACE_PLY]
    stack = [(t, i % 2 == 0) for _ in range(layers) for i, t in enumerate(sheet)]
    thickness = sum(t for t, _ in stack)
    second_moments = {True: 0.0, False: 0.0}
    z = -thickness / 2
    for ply, is_along in stack:
        second_moments[is_along] += ((z + ply) ** 3 - z**3) / 3
        z += ply
    whole_moment = thickness**3 / 12
    along, cross = second_moments[True] / whole_moment, second_moments[False] / whole_moment
    outer_cross = thickness / 2 - FACE_PLY
    return Laminate(
        thickness=thickness,
        along=PLY_MODULUS * along,
        across=PLY_MODULUS * cross,
        strength_along=PLY_STRENGTH * along,
        strength_across=PLY_STRENGTH * cross * (thickness / 2) / outer_cross,
    )
