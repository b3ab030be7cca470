"""The space swept by a straight move, decided exactly where all is square.

A body is a union of boxes, so moved along an axis it is one at every place of the move. Two
boxes that overlap across the move share volume for one open interval of travel; the union of
these intervals is all of the travel at which the two bodies are in each other's way. No place
between two samples can be missed. Round shapes are boxed on the safe side first and stepped
finer until the answer is certain (``pieces``); what stays within the finest step is undecided.
Lengths in mm.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass

from cabinet.checks.bodies import Body, bodies
from cabinet.checks.pieces import Piece, Span, is_round, piece_of, pieces
from cabinet.design import Unit
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import BiscuitPiece, Hardware
from cabinet.part import Part

# Bodies that reach less than this into each other touch, mm: what sizes cut to tenths leave.
TOUCH = 0.01
# Steps of round shapes: boxes first, then finer for those that boxes cannot decide.
FINENESS = (0, 12, 60)


@dataclass(frozen=True, slots=True)
class Hit:
    """Where a straight move is stopped.

    Attributes:
        mover: Name of the body that moves.
        other: Name of the body in its way.
        travel: Travel from the place shown at which they meet, mm, signed.
        where: A place there, in the unit.
        is_certain: Whether they do meet; otherwise they come too near to tell.
    """

    mover: str
    other: str
    travel: float
    where: UnitPoint
    is_certain: bool


def united(spans: Iterable[Span]) -> tuple[Span, ...]:
    """The union of intervals, in order."""
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return tuple(found)


def meetings(
    one: Sequence[Piece], other: Sequence[Piece], axis: int
) -> Iterator[tuple[Span, Piece]]:
    """Intervals of travel of ``one`` along an axis at which a box of it is in one of ``other``.

    Yields:
        The interval, and the box of ``other`` that is met.
    """
    across = [a for a in range(3) if a != axis]
    for mine in one:
        for theirs in other:
            if all(
                min(mine[a][1], theirs[a][1]) - max(mine[a][0], theirs[a][0]) > TOUCH
                for a in across
            ):
                low = theirs[axis][0] - mine[axis][1] + TOUCH
                high = theirs[axis][1] - mine[axis][0] - TOUCH
                if high > low:
                    yield (low, high), theirs


def blocked(one: Sequence[Piece], other: Sequence[Piece], axis: int) -> tuple[Span, ...]:
    """All travel of ``one`` along an axis at which it shares volume with ``other``, mm."""
    return united(span for span, _ in meetings(one, other, axis))


def _first(
    one: Sequence[Piece], other: Sequence[Piece], axis: int, low: float, high: float
) -> tuple[float, Piece] | None:
    """The travel nearest to 0 within low..high at which they meet, and the box that is met."""
    best: tuple[float, Piece] | None = None
    for (start, end), theirs in meetings(one, other, axis):
        if start < high and end > low:
            # Where they touch, a trace before they share volume.
            travel = 0.0
            if start > 0:
                travel = max(start - TOUCH, 0.0)
            elif end < 0:
                travel = min(end + TOUCH, 0.0)
            travel = min(max(travel, low), high)
            if best is None or abs(travel) < abs(best[0]):
                best = travel, theirs
    return best


def meet(one: Body, other: Body, axis: int, low: float, high: float) -> Hit | None:
    """Where a straight move of one body is stopped by another; None if it is free.

    Args:
        one: Body that moves.
        other: Body that stays.
        axis: Axis of the unit along which it moves.
        low: Least travel, mm.
        high: Greatest travel, mm.
    """
    is_exact = not is_round(one) and not is_round(other)
    nearest: tuple[float, Piece] = (0.0, piece_of(other.box))
    for fine in FINENESS:
        mine, theirs = _places(one, other, axis, low, high)
        grown = _first(
            pieces(one, fine=fine, within=mine),
            pieces(other, fine=fine, within=theirs),
            axis,
            low,
            high,
        )
        if grown is None:
            return None
        nearest = grown
        shrunk = (
            grown
            if is_exact
            else _first(
                pieces(one, is_grown=False, fine=fine, within=mine),
                pieces(other, is_grown=False, fine=fine, within=theirs),
                axis,
                low,
                high,
            )
        )
        if shrunk is not None:
            # The nearest travel is that of the grown bodies: never later than the true one.
            return _hit(one, other, nearest[0], shrunk[1], is_certain=True)
    return _hit(one, other, *nearest, is_certain=False)


def _places(
    one: Body, other: Body, axis: int, low: float, high: float
) -> tuple[Piece | None, Piece | None]:
    """Where in each body the other may come during the move, in the unit."""
    mine, theirs = piece_of(one.box), piece_of(other.box)
    return _reached(mine, theirs, axis, -high, -low), _reached(theirs, mine, axis, low, high)


def _reached(body: Piece, mover: Piece, axis: int, low: float, high: float) -> Piece | None:
    swept = list(mover)
    swept[axis] = mover[axis][0] + low, mover[axis][1] + high
    spans = [(max(a, c), min(b, d)) for (a, b), (c, d) in zip(body, swept, strict=True)]
    return None if any(b - a <= TOUCH for a, b in spans) else (spans[0], spans[1], spans[2])


def _hit(one: Body, other: Body, travel: float, met: Piece, *, is_certain: bool) -> Hit:
    where = UnitPoint(*((low + high) / 2 for low, high in met))
    return Hit(one.name, other.name, travel, where, is_certain)


def is_hidden(body: Body) -> bool:
    """Whether a body lies within wood that is asked about itself: a biscuit."""
    return isinstance(body, Hardware) and isinstance(body.body, BiscuitPiece)


class Space:
    """The bodies of a unit, found by place along X.

    Attributes:
        items: All bodies by name.
    """

    def __init__(self, unit: Unit) -> None:
        self.items: dict[str, Body] = bodies(unit)
        self.boxes: dict[str, Piece] = {
            name: piece_of(body.box) for name, body in self.items.items()
        }
        # Long bodies would make every search long, so bodies are kept by the size of their span.
        self._rows: dict[int, list[tuple[float, str]]] = {}
        for name, box in self.boxes.items():
            wide = box[0][1] - box[0][0]
            self._rows.setdefault(int(wide).bit_length(), []).append((box[0][0], name))
        for row in self._rows.values():
            row.sort()
        self._grown: dict[str, tuple[Piece, ...]] = {}
        self._inside: dict[str, list[Hardware]] = {}
        for body in self.items.values():
            if isinstance(body, Hardware):
                for name in body.inside:
                    self._inside.setdefault(name, []).append(body)

    def near(self, box: Piece) -> Iterator[Body]:
        """Bodies whose boxes meet a box, by name within each size."""
        for size, row in self._rows.items():
            widest = float(2**size)
            start = bisect_right(row, (box[0][0] - widest, ""))
            for low, name in row[start:]:
                if low >= box[0][1]:
                    break
                theirs = self.boxes[name]
                if all(
                    min(a[1], b[1]) - max(a[0], b[0]) > TOUCH
                    for a, b in zip(box, theirs, strict=True)
                ):
                    yield self.items[name]

    def carried(self, names: Iterable[str]) -> tuple[str, ...]:
        """Names of bodies that move together: those given and the hardware that sits in them."""
        moving = tuple(name for name in names if name in self.items)
        more: list[str] = []
        for name in moving:
            for item in self._inside.get(name, ()):
                holds = [part for part in item.inside if isinstance(self.items.get(part), Part)]
                is_new = item.name not in moving and item.name not in more
                if is_new and all(part in moving for part in holds):
                    more.append(item.name)
        return (*moving, *more)

    def grown(self, name: str) -> tuple[Piece, ...]:
        """The boxes of a body, round cutters left out of it; worked out once."""
        if name not in self._grown:
            self._grown[name] = pieces(self.items[name])
        return self._grown[name]

    def meet(self, one: str, other: str, axis: int, low: float, high: float) -> Hit | None:
        """As ``meet`` for two bodies by name; what their boxes alone decide is decided first."""
        if _first(self.grown(one), self.grown(other), axis, low, high) is None:
            return None
        return meet(self.items[one], self.items[other], axis, low, high)

    def stops(
        self,
        names: Sequence[str],
        side: Side,
        low: float,
        high: float,
        *,
        ignoring: Container[str] = (),
    ) -> Iterator[Hit]:
        """What stops a straight move of some bodies, each pair once.

        Args:
            names: Names of the bodies that move together.
            side: Direction in which travel counts as positive.
            low: Least travel, mm.
            high: Greatest travel, mm.
            ignoring: Names of bodies that are out of the way.
        """
        axis, sign = side.axis, side.sign
        ends = (low, high) if sign > 0 else (-high, -low)
        own = set(names)
        for name in names:
            if is_hidden(self.items[name]):
                continue
            swept = list(self.boxes[name])
            swept[axis] = (swept[axis][0] + ends[0], swept[axis][1] + ends[1])
            for other in self.near((swept[0], swept[1], swept[2])):
                if other.name in own or other.name in ignoring or is_hidden(other):
                    continue
                hit = self.meet(name, other.name, axis, *ends)
                if hit is not None:
                    yield Hit(hit.mover, hit.other, sign * hit.travel, hit.where, hit.is_certain)
