"""Clamps for a glue-up: how many along each row, how long, and whether the workshop has them.

Spacing: 8 to 12 in (200 to 300 mm) apart, 1.5 to 2 in (38 to 50 mm) from the ends (a glue
maker's guide, read). Over a face each clamp presses a cone that widens at 45 degrees from under
its caul to the glue (common practice, no authoritative source). Lengths in mm.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement

from cabinet.workshop import Workshop

MOST_APART = 300.0
FROM_END = 45.0
# Up to this length one clamp in the middle closes a joint (common practice, no source).
SINGLE = 150.0
# A batten of this thickness lies under the clamps of long rows and faces; a pad under others
# (common practice, no source).
CAUL = 45.0
PAD = 10.0
# Joints whose both sizes are at least this are pressed over the face (common practice, no
# source).
FACE = 100.0
# Two clamps hooked into each other lose this of their openings (common practice, no source).
JOINING = 100.0
# Below so many ways of sharing out the clamps all of them are tried.
_MOST_STATES = 40_000


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampRow:
    """Clamps that close one row of joints.

    Attributes:
        parts: Names of the parts that are pressed together.
        axis: Unit axis along which they press.
        count: How many.
        opening: How wide each must open, cauls or pads included.
        cauls: How many cauls lie under them, on both sides together.
        caul_length: Length of each caul; 0 if there are none.
    """

    parts: tuple[str, ...]
    axis: int
    count: int
    opening: float
    cauls: int = 0
    caul_length: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampUse:
    """Equal clamps taken from the rack.

    Attributes:
        count: How many places they close.
        openings: Opening of the clamp, or of the two that are joined, mm.
        opening: How wide they have to open.
    """

    count: int
    openings: tuple[float, ...]
    opening: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sharing:
    """What became of asking the workshop for clamps.

    Attributes:
        uses: Clamps taken; empty if they do not suffice.
        wanted: How many places have to be closed.
        lacking: How many places are left without a clamp.
        too_short: The widest opening that no clamp reaches, nor two joined; None if all reach.
    """

    uses: tuple[ClampUse, ...]
    wanted: int
    lacking: int = 0
    too_short: float | None = None

    @property
    def suffices(self) -> bool:
        """Whether every place gets its clamp."""
        return self.lacking == 0 and self.too_short is None


def along(length: float, apart: float = MOST_APART) -> int:
    """How many clamps a row of a length takes."""
    if length <= SINGLE:
        return 1
    return 1 + math.ceil((length - 2 * FROM_END) / apart - 1e-9)


def cone(above: float) -> float:
    """How far apart cauls may lie over a face, mm.

    Each presses its own width and, at 45 degrees, what lies between clamp and glue on each side.

    Args:
        above: Thickness of caul and board between clamp and glue, mm.
    """
    return min(MOST_APART, CAUL + 2 * above)


def face_row(
    parts: tuple[str, ...],
    axis: int,
    size: tuple[float, float],
    thicknesses: tuple[float, float],
) -> ClampRow:
    """Clamps and crowned cauls over a face.

    Args:
        parts: What is pressed together.
        axis: Unit axis along which they press.
        size: Length and width of the face.
        thicknesses: Of what lies on either side of the glue; the thinner one counts.
    """
    long, short = max(size), min(size)
    apart = cone(CAUL + min(thicknesses))
    places = along(long, apart)
    # Across the face a crowned caul carries the pressure inwards from a clamp at either end.
    across = 1 if short <= apart else 2
    return ClampRow(
        parts=parts,
        axis=axis,
        count=places * across,
        opening=sum(thicknesses) + 2 * CAUL,
        cauls=2 * places if across > 1 else 2,
        caul_length=short if across > 1 else long,
    )


def line_row(
    parts: tuple[str, ...], axis: int, length: float, extent: float, *, is_shared: bool = False
) -> ClampRow:
    """Clamps along a joint.

    Args:
        parts: What is pressed together.
        axis: Unit axis along which they press.
        length: Of the joint.
        extent: Of all that lies between the jaws.
        is_shared: Whether cauls carry the pressure to a short joint beside it as well.
    """
    count = along(length)
    has_cauls = count > 3 or is_shared
    return ClampRow(
        parts=parts,
        axis=axis,
        count=count,
        opening=extent + 2 * (CAUL if has_cauls else PAD),
        cauls=2 if has_cauls else 0,
        caul_length=length if has_cauls else 0.0,
    )


def shared_out(rows: Sequence[ClampRow], workshop: Workshop) -> Sharing:
    """Clamps of the workshop for all rows at once: the shortest that reach, two joined if none.

    Every way of sharing them out is tried while these are few, so that ``lacking`` is not due
    to a bad choice.
    """
    rack: Counter[float] = Counter()
    for clamp in workshop.clamps:
        rack[clamp.opening] += clamp.count
    sizes = tuple(sorted(rack))
    wanted = sorted((row.opening for row in rows for _ in range(row.count)), reverse=True)
    ways = {opening: _ways(opening, sizes) for opening in set(wanted)}
    unreached = [opening for opening, them in ways.items() if not them]
    if unreached:
        return Sharing(uses=(), wanted=len(wanted), too_short=max(unreached))
    stock = tuple(rack[size] for size in sizes)
    states = len(wanted) * math.prod(count + 1 for count in stock)
    chosen = _greedy(wanted, ways, sizes, stock)
    if None in chosen and states <= _MOST_STATES:
        chosen = _searched(wanted, ways, sizes, stock) or chosen
    lacking = chosen.count(None)
    if lacking:
        return Sharing(uses=(), wanted=len(wanted), lacking=lacking)
    counted = Counter(
        (way, opening) for way, opening in zip(chosen, wanted, strict=True) if way is not None
    )
    uses = tuple(
        ClampUse(count=count, openings=way, opening=opening)
        for (way, opening), count in sorted(counted.items(), key=lambda one: one[0])
    )
    return Sharing(uses=uses, wanted=len(wanted))


Way = tuple[float, ...]


def _ways(opening: float, sizes: tuple[float, ...]) -> tuple[Way, ...]:
    """Clamps that reach an opening: single ones, the shortest first, then two joined."""
    single = tuple((size,) for size in sizes if size >= opening)
    pairs = combinations_with_replacement(sizes, 2)
    fits = [pair for pair in pairs if sum(pair) - JOINING >= opening]
    return (*single, *sorted(fits, key=sum))


def _taken(way: Way, sizes: tuple[float, ...], left: tuple[int, ...]) -> tuple[int, ...] | None:
    after = list(left)
    for size in way:
        after[sizes.index(size)] -= 1
    return None if min(after) < 0 else tuple(after)


def _greedy(
    wanted: Sequence[float],
    ways: dict[float, tuple[Way, ...]],
    sizes: tuple[float, ...],
    stock: tuple[int, ...],
) -> list[Way | None]:
    left = stock
    chosen: list[Way | None] = []
    for opening in wanted:
        pick = None
        for way in ways[opening]:
            after = _taken(way, sizes, left)
            if after is not None:
                pick, left = way, after
                break
        chosen.append(pick)
    return chosen


def _searched(
    wanted: Sequence[float],
    ways: dict[float, tuple[Way, ...]],
    sizes: tuple[float, ...],
    stock: tuple[int, ...],
) -> list[Way | None] | None:
    """All ways of sharing out, each state seen once; None if none suffices."""
    dead: set[tuple[int, tuple[int, ...]]] = set()

    def from_here(index: int, left: tuple[int, ...]) -> list[Way | None] | None:
        if index == len(wanted):
            return []
        if (index, left) in dead:
            return None
        for way in ways[wanted[index]]:
            after = _taken(way, sizes, left)
            if after is not None:
                rest = from_here(index + 1, after)
                if rest is not None:
                    return [way, *rest]
        dead.add((index, left))
        return None

    return from_here(0, stock)
