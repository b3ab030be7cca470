"""Two bevelled boards that are ripped out of one strip at one setting of the tilt.

A cleat's halves lie one above the other as they hang, and the bevels meet. So both come out of
one strip: glued up if it is doubled, cut to size as one, then ripped at the bevel's angle with
its near edge on the fence, which parts the halves and finishes the lower one. The upper one is
then ripped in its turn, its own full edge on the fence; that takes off what the blade left over.
So no size hangs on how wide the blade cuts, which nobody knows to a tenth, and the strip has room
for the widest blade there is. What is blunted is ripped square after that, and the shorter half
is cut to its length. The grain runs on, and one tilt serves both (common practice, no source).
Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace

from cabinet.board import At, Surface
from cabinet.design import Unit
from cabinet.features import Bevel, Feature
from cabinet.joint import Proof, Touch
from cabinet.part import DOUBLING_ALLOWANCE, Board, Part
from cabinet.quantity import tenths
from cabinet.workshop import MOST_KERF

# Halves whose lengths differ by more are cut apart: the wall half is 20 to 50 shorter (common
# practice, no source).
MOST_SHORTER = 50.0
# Bevels that are this near to one plane meet.
_SAME_PLANE = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class RippedPair:
    """Two boards out of one strip.

    Attributes:
        below: The one whose far edge is bevelled.
        above: The one whose near edge is; it lies beyond the cut, at the strip's far edge.
    """

    below: Part
    above: Part

    @property
    def parts(self) -> tuple[Part, Part]:
        """Both, from the strip's near edge."""
        return self.below, self.above

    @property
    def name(self) -> str:
        """What the strip is called: what both names begin with."""
        return f"{self.below.name.split(',')[0].strip()} strip"

    @property
    def bevel(self) -> Bevel:
        """The bevel of the lower half, to which the saw is set."""
        return _bevel(self.below.board)

    @property
    def length(self) -> float:
        """Length of the strip."""
        return max(part.board.length for part in self.parts)

    @property
    def allowance(self) -> float:
        """By how much each of its blanks is first cut larger at every edge and end."""
        return DOUBLING_ALLOWANCE if self.below.board.layers > 1 else 0.0

    @property
    def rough_size(self) -> tuple[float, float]:
        """Length and width of each of its blanks as it is first cut."""
        return self.length + 2 * self.allowance, self.width + 2 * self.allowance

    @property
    def width(self) -> float:
        """Width of the strip when it is cut to size as one: whole tenths, for the fence."""
        askew = MOST_KERF / math.cos(self._angle)
        return tenths(self._between + askew + self.above.board.width, up=True)

    @property
    def starts_above(self) -> float:
        """From the strip's near edge to where the upper half's full face begins, blunted."""
        return self.width - self.above.board.width

    @property
    def strip(self) -> Part:
        """The strip as a part, where it would stand, cut to size as one."""
        board = self.below.board
        plain = Board(
            stock=board.stock,
            length=self.length,
            width=self.width,
            layers=board.layers,
            grain=board.grain,
            fence=self.bevel.edge.opposite,
            stop=board.stop,
        )
        return replace(self.below, name=self.name, role="strip", board=plain)

    @property
    def _angle(self) -> float:
        return math.radians(self.bevel.angle)

    @property
    def _between(self) -> float:
        """From the strip's near edge to the upper half's full face if the saw took nothing."""
        slope = math.tan(self._angle)
        lands = self.bevel.land + _bevel(self.above.board).land
        return self.below.board.width + (lands - self.below.board.thickness) * slope


def ripped_pairs(unit: Unit) -> tuple[RippedPair, ...]:
    """All pairs of a unit that come out of one strip each, in the order of its parts."""
    return tuple(pair for proof in unit.proofs for pair in _pairs(unit, proof))


def pair_of(unit: Unit, name: str) -> RippedPair | None:
    """The pair to which a part belongs; None if it has a blank of its own."""
    touching = (p for p in unit.proofs if isinstance(p, Touch) and name in {p.one, p.other})
    return next((pair for proof in touching for pair in _pairs(unit, proof)), None)


def _pairs(unit: Unit, proof: Proof) -> Iterator[RippedPair]:
    """The pair that two touching parts make, if they come out of one strip."""
    parts = unit.by_name
    if isinstance(proof, Touch) and proof.one in parts and proof.other in parts:
        one, other = parts[proof.one], parts[proof.other]
        for below, above in ((one, other), (other, one)):
            if _mate(below, above):
                yield RippedPair(below=below, above=above)


def _mate(below: Part, above: Part) -> bool:
    """Whether two parts come out of one strip, the first from its near edge."""
    one, other = below.board, above.board
    mine, its = ([f for f in board.features if isinstance(f, Bevel)] for board in (one, other))
    return (
        len(mine) == len(its) == 1
        and (mine[0].edge, its[0].edge) == (Surface.HIGH, Surface.LOW)
        and mine[0].sharp is its[0].sharp.opposite
        and mine[0].angle == its[0].angle
        and (one.stock, one.layers, one.grain) == (other.stock, other.layers, other.grain)
        and abs(one.length - other.length) <= MOST_SHORTER
        and one.stop is other.stop
        and _directions(below) == _directions(above)
        and abs(_plane(below) - _plane(above)) < _SAME_PLANE
        and not any(_is_told_from(f, bevel) for f, bevel in _others(one, other))
    )


def _directions(part: Part) -> tuple[object, ...]:
    return part.placement.along, part.placement.across


def _bevel(board: Board) -> Bevel:
    return next(f for f in board.features if isinstance(f, Bevel))


def _plane(part: Part) -> float:
    """Where the plane of a part's bevel meets the level of its face B, across the part, mm."""
    board, bevel = part.board, _bevel(part.board)
    slope = math.tan(math.radians(bevel.angle))
    # From the full edge the plane leans in from the sharp face; the land is outside it.
    into = bevel.land if bevel.sharp is Surface.B else bevel.land - board.thickness
    place = into * slope * bevel.edge.sign
    place += board.width if bevel.edge is Surface.HIGH else 0.0
    across = part.placement.across
    return tuple(part.placement.origin)[across.axis] * across.sign + place


def _others(*boards: Board) -> Iterator[tuple[Feature, Bevel]]:
    for board in boards:
        for feature in board.features:
            if not isinstance(feature, Bevel):
                yield feature, _bevel(board)


def _is_told_from(feature: Feature, bevel: Bevel) -> bool:
    """Whether a feature is told from the edge that the tilted cut makes."""
    told: list[object] = []
    for field in fields(feature):
        value = getattr(feature, field.name)
        told += value if isinstance(value, tuple) else [value]
    return any(
        value is bevel.edge or (isinstance(value, At) and value.datum is bevel.edge)
        for value in told
    )


__all__ = ["RippedPair", "pair_of", "ripped_pairs"]
