"""A number that is not known exactly: its least, its likely and its greatest value."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.errors import SizeError
from cabinet.quantity import finite, within


@dataclass(frozen=True, slots=True)
class Between:
    """A number with its range, in the unit of what it measures.

    Args:
        low: Least value.
        likely: Most likely value.
        high: Greatest value.

    Raises:
        SizeError: not finite, or not in this order.
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        for name in ("low", "likely", "high"):
            finite("range", name, getattr(self, name), unit="")
        if not self.low <= self.likely <= self.high:
            raise SizeError(
                f"range: {self.low:g}, {self.likely:g}, {self.high:g} are not in order; give the "
                "least, the likely and the greatest value",
                part="range",
                value=(self.low, self.likely, self.high),
                limit="low <= likely <= high",
            )

    def times(self, factor: float) -> Between:
        """The range of this number times a factor that is not negative (``SizeError``)."""
        within("range", "factor", factor, 0.0, float("inf"), unit="")
        return Between(self.low * factor, self.likely * factor, self.high * factor)

    def told(self, unit: str, places: int = 1) -> str:
        """The range as people read it: ``about 3.4 mm (3.0 to 3.9)``."""
        low, likely, high = (f"{v:.{places}f}" for v in (self.low, self.likely, self.high))
        return f"about {likely} {unit} ({low} to {high})"


def spread(likely: float, share: float) -> Between:
    """A range of ``share`` (0 to 1) of a positive number on either side of it."""
    within("range", "share", share, 0.0, 1.0, unit="")
    return Between(likely * (1 - share), likely, likely * (1 + share))
