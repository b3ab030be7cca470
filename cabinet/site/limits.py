"""How far a shelf may sag: published limits side by side, and the longest span within one."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.quantity import named, positive


@dataclass(frozen=True, slots=True, kw_only=True)
class SagLimit:
    """A limit on the deflection between supports.

    Attributes:
        name: What it is called in a sentence.
        divisor: Deflection is at most span / divisor.
        most: And at most this, mm.
        source: Where it comes from.
    """

    name: str
    divisor: float
    source: str
    most: float = math.inf

    def __post_init__(self) -> None:
        named("limit", "name", self.name)
        positive(self.name, "divisor", self.divisor, unit="")
        if not math.isinf(self.most):
            positive(self.name, "greatest sag", self.most)

    def allowed(self, span: float) -> float:
        """Greatest deflection over a span, mm."""
        return min(positive(self.name, "span", span) / self.divisor, self.most)

    def longest_span(self, bending: float, intensity: float) -> float:
        """Longest simply supported span of a uniform beam within the limit, mm.

        L = (384 E I / (5 w n))^(1/3), and L = (384 E I m / (5 w))^(1/4) for a greatest sag m.
        Bending only; a uniform beam.

        Args:
            bending: E I, N mm2.
            intensity: Uniform load w, N/mm.

        Source: delta = 5 w L^4 / (384 E I), any text on strength of materials.
        """
        whole = 384 * positive(self.name, "bending stiffness", bending, unit="N mm2")
        whole /= 5 * positive(self.name, "load", intensity, unit="N/mm")
        by_share: float = (whole / self.divisor) ** (1 / 3)
        if math.isinf(self.most):
            return by_share
        return float(min(by_share, (whole * self.most) ** 0.25))


WOODWORK = SagLimit(
    name="span/144",
    divisor=144,
    source="Architectural Woodwork Standards, edition 1 (2009), section 10, adjustable shelves",
)
# 1/16 in for each foot and at most 1/4 in, under 718 Pa for seven days.
CABINET_TEST = SagLimit(
    name="span/192, at most 6.4 mm",
    divisor=192,
    most=6.4,
    source="ANSI/KCMA A161.1, shelves and bottoms, as summarised by a trade page",
)
# 0.02 in for each foot: where the eye begins to see it.
VISIBLE = SagLimit(
    name="span/600, what the eye sees", divisor=600, source="rule of thumb, from memory"
)
