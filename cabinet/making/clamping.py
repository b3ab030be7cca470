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

from cabinet.quantity import ROUNDING
from cabinet.workshop import Clamp, Workshop

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
# The longest joint into which crowned cauls carry the pressure from their ends (common practice,
# no source).
LONGEST_CAUL = 900.0
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
        reach: How deep their jaws must reach.
        is_bridged: Whether crowned cauls carry the pressure to where no jaws reach.
    """

    parts: tuple[str, ...]
    axis: int
    count: int
    opening: float
    cauls: int = 0
    caul_length: float = 0.0
    reach: float = 0.0
    is_bridged: bool = False


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
        too_deep: The deepest place that the jaws of no clamp of that opening reach; None if all.
    """

    uses: tuple[ClampUse, ...]
    wanted: int
    lacking: int = 0
    too_short: float | None = None
    too_deep: float | None = None

    @property
    def suffices(self) -> bool:
        """Whether every place gets its clamp."""
        return self.lacking == 0 and self.too_short is None and self.too_deep is None


def along(length: float, apart: float = MOST_APART) -> int:
    """How many clamps a row of a length takes."""
    if length <= SINGLE:
        return 1
    return 1 + math.ceil((length - 2 * FROM_END) / apart - 1e-9)


def places_along(length: float) -> tuple[float, ...]:
    """Where the clamps of a row stand, from the beginning of the joint."""
    count = along(length)
    if count == 1:
        return (length / 2,)
    apart = (length - 2 * FROM_END) / (count - 1)
    return tuple(FROM_END + apart * number for number in range(count))


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
    parts: tuple[str, ...],
    axis: int,
    length: float,
    extent: float,
    *,
    is_shared: bool = False,
    reaches: Sequence[float] = (0.0,),
    clamps: Sequence[Clamp] = (),
) -> ClampRow:
    """Clamps along a joint.

    Args:
        parts: What is pressed together.
        axis: Unit axis along which they press.
        length: Of the joint.
        extent: Of all that lies between the jaws.
        is_shared: Whether cauls carry the pressure to a short joint beside it as well.
        reaches: How deep jaws must reach at each place of a clamp, from one end to the other.
        clamps: The clamps that there are.
    """
    count = along(length)
    ends = reaches[0], reaches[-1]
    has_cauls = count > 3 or is_shared
    opening, with_cauls = (extent + 2 * under for under in (CAUL if has_cauls else PAD, CAUL))
    kinds = tuple(_rack(clamps))
    is_bridged = (
        length <= LONGEST_CAUL
        and _is_too_deep((opening, max(reaches)), kinds)
        and bool(_ways((with_cauls, max(ends)), kinds))
    )
    if is_bridged:
        count, reaches, has_cauls, opening = 2, ends, True, with_cauls
    return ClampRow(
        parts=parts,
        axis=axis,
        count=count,
        opening=opening,
        cauls=2 if has_cauls else 0,
        caul_length=length if has_cauls else 0.0,
        reach=max(reaches),
        is_bridged=is_bridged,
    )


_Kind = tuple[float, float]
"""Opening and reach of equal clamps."""

Way = tuple[_Kind, ...]
"""What closes one place: a clamp, or two that are joined."""


def shared_out(rows: Sequence[ClampRow], workshop: Workshop) -> Sharing:
    """Clamps of the workshop for all rows at once: the shortest that reach, two joined if none.

    Every way of sharing them out is tried while these are few, so that ``lacking`` is not due
    to a bad choice.
    """
    rack = _rack(workshop.clamps)
    kinds = tuple(rack)
    wanted = sorted(
        ((row.opening, row.reach) for row in rows for _ in range(row.count)), reverse=True
    )
    ways = {place: _ways(place, kinds) for place in set(wanted)}
    too_deep = [reach for opening, reach in ways if _is_too_deep((opening, reach), kinds)]
    too_short = [opening for opening, _ in ways if not _ways((opening, 0.0), kinds)]
    if too_short:
        return Sharing(uses=(), wanted=len(wanted), too_short=max(too_short))
    if too_deep:
        return Sharing(uses=(), wanted=len(wanted), too_deep=max(too_deep))
    stock = tuple(rack.values())
    states = len(wanted) * math.prod(count + 1 for count in stock)
    chosen = _greedy(wanted, ways, kinds, stock)
    if None in chosen and states <= _MOST_STATES:
        chosen = _searched(wanted, ways, kinds, stock) or chosen
    lacking = chosen.count(None)
    if lacking:
        return Sharing(uses=(), wanted=len(wanted), lacking=lacking)
    counted = Counter(
        (tuple(opening for opening, _ in way), place[0])
        for way, place in zip(chosen, wanted, strict=True)
        if way is not None
    )
    uses = tuple(
        ClampUse(count=count, openings=openings, opening=opening)
        for (openings, opening), count in sorted(counted.items(), key=lambda one: one[0])
    )
    return Sharing(uses=uses, wanted=len(wanted))


def _rack(clamps: Sequence[Clamp]) -> dict[_Kind, int]:
    """How many clamps of each kind there are, the shortest first."""
    rack: Counter[_Kind] = Counter()
    for clamp in clamps:
        rack[clamp.opening, clamp.reach] += clamp.count
    return dict(sorted(rack.items()))


def _is_too_deep(place: _Kind, kinds: tuple[_Kind, ...]) -> bool:
    """Whether clamps open far enough for a place and their jaws do not reach it."""
    return bool(_ways((place[0], 0.0), kinds)) and not _ways(place, kinds)


def _ways(place: _Kind, kinds: tuple[_Kind, ...]) -> tuple[Way, ...]:
    """Clamps that reach a place: single ones, the shortest first, then two joined."""
    opening, reach = place
    deep = [kind for kind in kinds if kind[1] >= reach - ROUNDING]
    single = tuple((kind,) for kind in deep if kind[0] >= opening)
    pairs = combinations_with_replacement(deep, 2)
    fits = [pair for pair in pairs if _joined(pair) >= opening]
    return (*single, *sorted(fits, key=_joined))


def _joined(pair: tuple[_Kind, _Kind]) -> float:
    return pair[0][0] + pair[1][0] - JOINING


def _taken(way: Way, kinds: tuple[_Kind, ...], left: tuple[int, ...]) -> tuple[int, ...] | None:
    after = list(left)
    for kind in way:
        after[kinds.index(kind)] -= 1
    return None if min(after) < 0 else tuple(after)


def _greedy(
    wanted: Sequence[_Kind],
    ways: dict[_Kind, tuple[Way, ...]],
    kinds: tuple[_Kind, ...],
    stock: tuple[int, ...],
) -> list[Way | None]:
    left = stock
    chosen: list[Way | None] = []
    for place in wanted:
        pick = None
        for way in ways[place]:
            after = _taken(way, kinds, left)
            if after is not None:
                pick, left = way, after
                break
        chosen.append(pick)
    return chosen


def _searched(
    wanted: Sequence[_Kind],
    ways: dict[_Kind, tuple[Way, ...]],
    kinds: tuple[_Kind, ...],
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
            after = _taken(way, kinds, left)
            if after is not None:
                rest = from_here(index + 1, after)
                if rest is not None:
                    return [way, *rest]
        dead.add((index, left))
        return None

    return from_here(0, stock)
