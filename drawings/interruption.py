"""A view with plain stretches left out: which of a board's places stand where on the paper.

Source: ISO 128-3, interrupted views: only those portions of a long object need be shown that
define it; they are drawn close to each other, and their limits are lines of the kind for
interrupted views (here continuous narrow with zigzags, ISO 128-2, one kind on a drawing).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from cabinet.board import AXIS_NAMES
from cabinet.errors import SizeError
from cabinet.quantity import finite

Span = tuple[float, float]
"""Low and high coordinate on one axis, mm."""

BREAK_GAP = 3.0
"""Between the two lines of a break, mm on paper. The standard says "close to each other"
(ISO 128-3); the figure is common practice, no source."""

BREAK_ROOM = 2.5
"""From the lines of a break, whose zigzags stand out by 7 line widths, to what is told, mm."""


@dataclass(frozen=True, slots=True)
class Interruption:
    """What a board's views leave out along one of its axes.

    Attributes:
        axis: Board axis, 0 along the length, 1 across the width.
        spans: What is left out, ascending and apart, board coordinates in mm.

    Raises:
        SizeError: the axis is not 0 or 1, nothing is left out, or the spans are not ascending.
    """

    axis: int
    spans: tuple[Span, ...]

    def __post_init__(self) -> None:
        if self.axis not in (0, 1):
            raise SizeError(
                f"interruption: axis {self.axis}; it must be 0 or 1", value=self.axis, limit=(0, 1)
            )
        if not self.spans:
            raise SizeError("interruption: nothing is left out", value=0, limit=1)
        places = [finite("interruption", "place", place) for span in self.spans for place in span]
        if any(high <= low for low, high in pairwise(places)):
            raise SizeError(
                f"interruption: {self.spans} do not follow each other", value=self.spans
            )

    @property
    def left_out(self) -> float:
        """All that is left out, mm."""
        return math.fsum(high - low for low, high in self.spans)

    def crosses(self, axis: int, one: float, other: float) -> bool:
        """Whether a length between two board coordinates on an axis runs over a break."""
        low, high = min(one, other), max(one, other)
        return axis == self.axis and any(a < high and low < b for a, b in self.spans)

    def hides(self, coordinate: float) -> bool:
        """Whether a board coordinate on its axis lies within what is left out."""
        return any(low < coordinate < high for low, high in self.spans)

    def seen(self, sign: int) -> tuple[Span, ...]:
        """The spans in view coordinates, where the axis is seen running one way or the other.

        Args:
            sign: +1 if the axis runs with the view's, -1 if against it.
        """
        if sign > 0:
            return self.spans
        return tuple((-high, -low) for low, high in reversed(self.spans))

    def record(self) -> dict[str, object]:
        """The interruption as plain data."""
        return {
            "axis": AXIS_NAMES[self.axis],
            "left_out": [[round(low, 6), round(high, 6)] for low, high in self.spans],
            "gap": BREAK_GAP,
        }


def shortened(distance: float, spans: tuple[Span, ...], scale: float) -> float:
    """How far on paper from where a view begins, mm: it grows with the distance, without a jump.

    What is left out takes ``BREAK_GAP`` for each span; all else is to scale.

    Args:
        distance: From where the view begins, mm of the model.
        spans: What is left out, in the same measure, ascending.
        scale: Paper mm for one mm of the model.
    """
    paper = distance * scale
    for low, high in spans:
        passed = min(max(distance - low, 0.0), high - low)
        paper += passed * (BREAK_GAP / (high - low) - scale)
    return paper


def kept(spans: tuple[Span, ...], extent: Span) -> tuple[Span, ...]:
    """What of an extent is shown, ascending.

    Args:
        spans: What is left out, ascending, within the extent.
        extent: The whole.
    """
    places = (extent[0], *(place for span in spans for place in span), extent[1])
    return tuple((places[i], places[i + 1]) for i in range(0, len(places), 2))
