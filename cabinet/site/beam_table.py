"""Closed forms for the deflection of uniform beams: delta = kb W L^3/(E I) + ks W L/(G A')."""

from __future__ import annotations

import math
from enum import Enum

from cabinet.quantity import positive

# A' of a rectangle is 5/6 of its area (from memory; Wood Handbook ch. 9 has the same factor).
SHEAR_AREA_SHARE = 5 / 6


class Case(Enum):
    """Supports and load, and where the deflection is told; kb and ks for the total load W.

    Source: USDA Wood Handbook FPL-GTR-190 (2010), Table 9-1.
    """

    SIMPLE_UNIFORM = ("simply supported, uniform load, at mid span", 5 / 384, 1 / 8)
    CLAMPED_UNIFORM = ("both ends clamped, uniform load, at mid span", 1 / 384, 1 / 8)
    SIMPLE_MIDDLE = ("simply supported, load at mid span, there", 1 / 48, 1 / 4)
    CLAMPED_MIDDLE = ("both ends clamped, load at mid span, there", 1 / 192, 1 / 4)
    SIMPLE_QUARTERS = ("simply supported, two quarter-point loads, at mid span", 11 / 768, 1 / 8)
    CANTILEVER_UNIFORM = ("cantilever, uniform load, at the free end", 1 / 8, 1 / 2)
    CANTILEVER_END = ("cantilever, load at the free end, there", 1 / 3, 1.0)

    @property
    def bending_factor(self) -> float:
        """The factor kb of the bending part."""
        return self.value[1]

    @property
    def shear_factor(self) -> float:
        """The factor ks of the shear part."""
        return self.value[2]


def deflection(
    case: Case, load: float, span: float, bending: float, shear: float = math.inf
) -> float:
    """Deflection of a uniform beam, mm.

    delta = kb W L^3 / (E I) + ks W L / (G A'). Small deflections, linear elastic.

    Args:
        case: Supports, load and place.
        load: Total load W, N.
        span: L, mm.
        bending: E I, N mm2.
        shear: G A', N; infinite to leave the shear part out.

    Raises:
        SizeError: a span or a stiffness that is not positive.

    Source: USDA Wood Handbook FPL-GTR-190 (2010), equation 9-2 and Table 9-1.
    """
    positive("beam", "span", span)
    positive("beam", "bending stiffness", bending, unit="N mm2")
    bent = case.bending_factor * load * span**3 / bending
    return bent + case.shear_factor * load * span / shear
