"""What all features share: tolerances, spans on a board, and what is refused. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.board import AXIS_NAMES, At, BoardBox, BoardSize, Surface, require_inside
from cabinet.errors import SizeError
from cabinet.quantity import finite, within

# A cut never goes through by accident: what is meant to go through is a hole or a cut-out.
LEAST_FLOOR = 1.0


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Allowed deviations from a size, mm: ``lower`` and ``upper``, signed."""

    lower: float
    upper: float

    def __post_init__(self) -> None:
        finite("tolerance", "lower deviation", self.lower)
        finite("tolerance", "upper deviation", self.upper)
        if self.lower > self.upper:
            raise SizeError(
                f"tolerance: lower deviation {self.lower:g} mm is above the upper {self.upper:g}",
                value=self.lower,
                limit=self.upper,
            )


def span(at: At, extent: float, size: BoardSize) -> tuple[float, float]:
    """Low and high coordinate of what starts at a place and runs ``extent`` from its datum."""
    near = at.coordinate(size)
    far = near - at.datum.sign * extent
    return min(near, far), max(near, far)


def into(surface: Surface, depth: float, size: BoardSize) -> tuple[float, float]:
    """Low and high coordinate of a cut ``depth`` deep from a surface."""
    return span(At(surface, 0.0), depth, size)


def boxed(spans: dict[int, tuple[float, float]]) -> BoardBox:
    """The box that spans along all three axes make."""
    lows, highs = zip(*(spans[axis] for axis in range(3)), strict=True)
    return BoardBox(low=lows, high=highs)


def run_span(axis: int, start: At | None, end: At | None, size: BoardSize) -> tuple[float, float]:
    """Where a run along an axis begins and ends; None runs out of the board."""
    ends = [at.coordinate(size) for at in (start, end) if at is not None]
    low = start.coordinate(size) if start is not None else 0.0
    high = end.coordinate(size) if end is not None else size.along[axis]
    if len(ends) == 2:
        low, high = min(ends), max(ends)
    return low, high


def check_floor(owner: str, surface: Surface, depth: float, size: BoardSize) -> None:
    """Refuse a cut that leaves too little below it (``SizeError``); it starts at ``surface``."""
    extent = size.along[surface.axis]
    within(
        owner,
        f"depth from {surface.value}",
        depth,
        0.0,
        extent - LEAST_FLOOR,
        why=f"{LEAST_FLOOR:g} must be left of the board's {AXIS_NAMES[surface.axis]} {extent:g}",
    )


def check_run(
    owner: str,
    axis: int,
    start: At | None,
    end: At | None,
    size: BoardSize,
    *,
    least: float = 0.0,
) -> None:
    """Refuse a run along an axis that leaves the board or is no longer than ``least`` mm.

    Raises:
        SizeError: an end outside the board, or too short a run; the message names ``owner``.
    """
    for name, at in (("start", start), ("end", end)):
        if at is not None:
            require_inside(owner, name, at, size)
    low, high = run_span(axis, start, end, size)
    if high - low <= least:
        raise SizeError(
            f"{owner}: it runs from {low:g} to {high:g} mm; it must be longer than {least:g} mm",
            part=owner,
            value=high - low,
            limit=least,
        )
