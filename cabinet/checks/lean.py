"""A rigid door that leans with its head in a groove and swings its foot in over the base.

Seen from the end the door and all about it are rectangles. Leaning by an angle a, the door's
lowest corner, the one at the back of its foot, keeps a hair above the base, which is as low as
it can be and needs the least of the groove above; what is left free is how far front or back
its head lies. For each stretch of the angle the places of the head that are blocked are found,
widened by as much as any point of the door can move within the stretch. A way through what is
left is a way for certain. If at one angle nothing at all is left, there is none for certain.
Neither depends on how the stretches are chosen; if they decide nothing they are halved.
Lengths in mm, angles in radians.

For a plain tongue there is a closed form, ``groove_needed`` in ``components.doors``: the tests
hold the two to each other and both to the kernel's solids.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from cabinet.checks.pieces import Span
from cabinet.checks.sweep import united

Numbers = NDArray[np.float64]
Rectangle = tuple[Span, Span]
"""Low and high along Y and along Z."""

# The leaning foot keeps this above the base, mm: as good as nothing, but not nothing.
HAIR = 0.05
# Stretches of the angle, and how many more are tried before the case is left undecided.
STRETCHES = (48, 384, 3072)
# The head may lie this far behind its place at rest, mm: farther back is another groove.
BEHIND = 20.0
# Long pieces are cut here, because near its ends a door moves less than in the middle, mm.
END_PIECE = 40.0


@dataclass(frozen=True, slots=True)
class Leaning:
    """What a door that is lifted and leant out meets.

    Attributes:
        door: Rectangles of the door at rest.
        about: Rectangles of what stands about it.
        base: Z of the base's face, over which the foot must go.
        front: Y of the front edge of top and base.
    """

    door: tuple[Rectangle, ...]
    about: tuple[Rectangle, ...]
    base: float
    front: float

    @property
    def back(self) -> float:
        """Y of the door's back at rest."""
        return max(y[1] for y, _ in self.door)

    @property
    def foot(self) -> float:
        """Z of the door's foot at rest."""
        return min(z[0] for _, z in self.door)

    @property
    def height(self) -> float:
        """Height of the door over all."""
        return max(z[1] for _, z in self.door) - self.foot

    @property
    def top(self) -> float:
        """Z of the lowest thing above the middle of the door: the top's face."""
        middle = self.foot + self.height / 2
        return min((z[0] for _, z in self.about if z[0] > middle), default=math.inf)

    @property
    def steepest(self) -> float:
        """More than the lean at which the foot is in front of the base."""
        reach = self.back - self.front + 4.0
        return math.asin(min(0.999, reach / self.height))


@dataclass(frozen=True, slots=True)
class Outcome:
    """Whether a door swings in.

    Attributes:
        swings: True or False for certain; None if it is too near to tell.
        angle: Lean at which the foot comes free, or at which it is caught.
        lack: How much more room across the head would let it through, mm; 0 if it swings.
    """

    swings: bool | None
    angle: float
    lack: float = 0.0


@lru_cache(maxsize=256)
def swing(case: Leaning) -> Outcome:
    """Whether the foot of a lifted door can be swung out over the base and the door taken down.

    Going in is the same way back.
    """
    outcome = Outcome(None, 0.0)
    for count in STRETCHES:
        outcome = _attempt(case, count)
        if outcome.swings is not None:
            return outcome
    return outcome


@dataclass(frozen=True, slots=True)
class _Stretches:
    """What is blocked in each stretch of the lean: on the way, and on the way down and out."""

    middles: Numbers
    onward: list[list[Span]]
    leaving: list[list[Span]]


def _stretches(case: Leaning, middles: Numbers, half: float) -> _Stretches:
    return _Stretches(
        middles,
        _blocked(case, middles, half),
        _blocked(case, middles, half, is_leaving=True),
    )


def _attempt(case: Leaning, count: int) -> Outcome:
    edges = np.linspace(0.0, case.steepest, count + 1)
    half = float(edges[1] - edges[0]) / 2
    middles = edges[:-1] + half
    blocked = _stretches(case, middles, half)
    found, angle = _chain(case, blocked)
    if found:
        return Outcome(True, angle)  # noqa: FBT003 - the field says it
    # With less blocked than ever is within a stretch, what is still shut is shut for certain.
    found, angle = _chain(case, _stretches(case, middles, -half))
    if found:
        return Outcome(None, angle)
    return Outcome(False, angle, _lack(case, blocked))  # noqa: FBT003


def _chain(case: Leaning, blocked: _Stretches, ease: float = 0.0) -> tuple[bool, float]:
    """Follow the places of the head from stretch to stretch of the lean.

    Args:
        case: The door and what is about it.
        blocked: What is blocked in each stretch.
        ease: What is blocked draws back by this in all, mm.

    Returns:
        Whether the door gets out, and the angle at which it does or is caught.
    """
    reached: list[Span] = [(case.back, case.back)]
    for index, angle in enumerate(blocked.middles):
        free = _free(_eased(blocked.onward[index], ease), case)
        onward = [span for span in free if any(_overlap(span, r) for r in reached)]
        if not onward:
            return False, float(angle)
        reached = onward
        for span in _free(_eased(blocked.leaving[index], ease), case):
            if any(_overlap(span, r) for r in reached):
                return True, float(angle)
    return False, float(blocked.middles[-1])


def _overlap(one: Span, other: Span) -> bool:
    return min(one[1], other[1]) >= max(one[0], other[0])


def _free(blocked: Sequence[Span], case: Leaning) -> list[Span]:
    """What the blocked places leave of where the head may be, between front and back."""
    free, low = [], case.front
    for start, end in blocked:
        if start > low:
            free.append((low, start))
        low = max(low, end)
    if low < case.back + BEHIND:
        free.append((low, case.back + BEHIND))
    return free


def _eased(blocked: list[Span], ease: float) -> tuple[Span, ...]:
    return united((a + ease / 2, b - ease / 2) for a, b in blocked if b - a > ease)


def _lack(case: Leaning, blocked: _Stretches) -> float:
    """How much all that is blocked must draw back until there is a way, to a hundredth."""
    low, high = 0.0, 40.0
    while high - low > 0.01:
        more = (low + high) / 2
        low, high = (low, more) if _chain(case, blocked, more)[0] else (more, high)
    return high


def _blocked(
    case: Leaning, angles: Numbers, half: float, *, is_leaving: bool = False
) -> list[list[Span]]:
    """For each stretch of the angle, the places of the door's back top corner that are blocked.

    Args:
        case: The door and what is about it.
        angles: Middles of the stretches.
        half: Half a stretch; 0 for the single angles, negative for what is blocked at every
            angle of a stretch.
        is_leaving: Whether the door goes on down along its own length, out of the groove.
    """
    found: list[list[Span]] = [[] for _ in angles]
    steepest = float(angles[-1]) + abs(half)
    for piece in _split(case):
        y, z = _corners(piece, case, is_leaving=is_leaving)
        across, up = _turned(y, z, angles, case)
        # How far a point of the piece can move within half a stretch, across and up.
        slack_y = half * float(np.max(np.abs(y) * math.sin(steepest) + np.abs(case.height - z)))
        slack_z = half * float(np.max(np.abs(y) + np.abs(z) * math.sin(steepest)))
        ends_z = float(up.min()) - abs(slack_z), float(up.max()) + abs(slack_z)
        ends_y = float(across.min()) - abs(slack_y), float(across.max()) + abs(slack_y)
        for (y0, y1), (z0, z1) in case.about:
            if z1 <= ends_z[0] or z0 >= ends_z[1]:
                continue
            if y0 - ends_y[1] > case.back + BEHIND or y1 - ends_y[0] < case.front:
                continue
            low, high = _extents(across, up, z0 - slack_z, z1 + slack_z)
            for index in np.flatnonzero(high >= low):
                span = (y0 - high[index] - slack_y, y1 - low[index] + slack_y)
                if span[1] > span[0]:
                    found[index].append((float(span[0]), float(span[1])))
    return found


def _split(case: Leaning) -> list[Rectangle]:
    found: list[Rectangle] = []
    for y, (low, high) in case.door:
        marks = [low, case.foot + END_PIECE, case.foot + case.height - END_PIECE, high]
        marks = sorted(m for m in marks if low <= m <= high)
        found += [(y, (a, b)) for a, b in pairwise(marks) if b > a]
    return found


def _corners(piece: Rectangle, case: Leaning, *, is_leaving: bool) -> tuple[Numbers, Numbers]:
    """Corners of a piece from the door's lowest corner, going round."""
    (y0, y1), (z0, z1) = piece
    more = case.height + case.foot - case.base + 5.0 - (case.top - case.base) if is_leaving else 0.0
    more = more if math.isfinite(more) else 5.0
    low = z0 - case.foot - max(more, 5.0 if is_leaving else 0.0)
    high = z1 - case.foot
    y = np.array([y0, y1, y1, y0]) - case.back
    return y, np.array([low, low, high, high])


def _turned(y: Numbers, z: Numbers, angles: Numbers, case: Leaning) -> tuple[Numbers, Numbers]:
    """Corners by angle: across from the door's back top corner, and up in the unit."""
    sine, cosine = np.sin(angles), np.cos(angles)
    across = np.outer(y, cosine) + np.outer(z - case.height, sine)
    up = case.base + HAIR - np.outer(y, sine) + np.outer(z, cosine)
    return across, up


def _extents(y: Numbers, z: Numbers, low: float, high: float) -> tuple[Numbers, Numbers]:
    """Least and greatest Y of four-cornered pieces between two heights; empty if crossed."""
    least = np.full(y.shape[1], math.inf)
    most = np.full(y.shape[1], -math.inf)
    for corner in range(4):
        a, b = corner, (corner + 1) % 4
        inside = (z[a] > low) & (z[a] < high)
        least = np.where(inside, np.minimum(least, y[a]), least)
        most = np.where(inside, np.maximum(most, y[a]), most)
        rise = z[b] - z[a]
        for line in (low, high):
            crosses = (z[a] - line) * (z[b] - line) < 0
            share = (line - z[a]) / np.where(crosses, rise, 1.0)
            at = y[a] + share * (y[b] - y[a])
            least = np.where(crosses, np.minimum(least, at), least)
            most = np.where(crosses, np.maximum(most, at), most)
    return least, most
