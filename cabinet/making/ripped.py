"""Two bevelled boards that are ripped out of one strip by one tilted cut.

A cleat's halves lie one above the other as they hang, and the bevels meet. So both come out of
one strip: glued up if it is doubled, cut to size as one, then ripped once at the bevel's angle.
The kerf lies between the bevels; what is blunted is ripped square after that, and the shorter
half is cut to its length. So the grain runs on and one setting of the tilt serves both (common
practice, no source). Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace

from cabinet.board import At, Surface
from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.features import Bevel, Feature
from cabinet.joint import Touch
from cabinet.part import DOUBLING_ALLOWANCE, TILTED_CUT, Board, Part
from cabinet.quantity import written

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
        above: The one whose near edge is; it lies beyond the kerf.
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
    def rough_size(self) -> tuple[float, float]:
        """Length and width of each of its blanks as it is first cut."""
        more = 2 * (DOUBLING_ALLOWANCE if self.below.board.layers > 1 else 0.0)
        return self.length + more, self._between + TILTED_CUT + self.above.board.width + more

    def width(self, kerf: float) -> float:
        """Width of the strip when it is cut to size as one.

        Args:
            kerf: Width of the saw's cut.

        Raises:
            DesignError: the kerf is wider than the blank has room for.
        """
        wide = self.starts_above(kerf) + self.above.board.width
        rough = self.rough_size[1]
        if wide > rough + 1e-6:
            most = (rough - wide) * math.cos(self._angle) + kerf
            raise DesignError(
                f"{self.name}: a kerf of {written(kerf)} mm needs a strip {wide:.1f} mm wide and "
                f"its blank has {rough:.1f}; at most {most:.1f} mm",
                part=self.name,
                value=kerf,
                limit=most,
            )
        return round(wide, 6)

    def starts_above(self, kerf: float) -> float:
        """From the strip's near edge to where the upper half's full face begins, blunted."""
        return self._between + kerf / math.cos(self._angle)

    def strip(self, kerf: float) -> Part:
        """The strip as a part, where it would stand, cut to size as one."""
        board = self.below.board
        plain = Board(
            stock=board.stock,
            length=self.length,
            width=self.width(kerf),
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
    parts = unit.by_name
    found = []
    for proof in unit.proofs:
        if isinstance(proof, Touch) and proof.one in parts and proof.other in parts:
            one, other = parts[proof.one], parts[proof.other]
            found += [
                RippedPair(below=a, above=b) for a, b in ((one, other), (other, one)) if _mate(a, b)
            ]
    return tuple(found)


def pair_of(unit: Unit, name: str) -> RippedPair | None:
    """The pair to which a part belongs; None if it has a blank of its own."""
    return next(
        (pair for pair in ripped_pairs(unit) if any(part.name == name for part in pair.parts)),
        None,
    )


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
