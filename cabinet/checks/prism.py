"""Convex outlines in Y and Z that run along X, such as boards with a bevel, and how they meet.

Moved down, two convex outlines are in each other's way for one interval of travel, which their
corners give exactly. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.checks.bodies import Body
from cabinet.checks.pieces import Piece, Span, pieces
from cabinet.checks.sweep import TOUCH
from cabinet.features import Bevel
from cabinet.hardware import Hardware
from cabinet.part import Part

# Steps in which a round bar is taken.
STEPS = 8

Corner = tuple[float, float]
"""Y and Z in the unit."""


@dataclass(frozen=True, slots=True)
class Prism:
    """A convex outline in Y and Z that runs along X.

    Attributes:
        x: From end to end.
        corners: Going round.
    """

    x: Span
    corners: tuple[Corner, ...]


def level_bevel(part: Part) -> Bevel | None:
    """Its bevel along a level edge."""
    return next(
        (f for f in part.board.features if isinstance(f, Bevel) and part.side(f.edge).axis == 2),
        None,
    )


def outlines(body: Body) -> tuple[Prism, ...]:
    """A part or a piece of hardware as convex outlines, a round one in steps on the safe side."""
    if isinstance(body, Hardware):
        return tuple(_upright(piece) for piece in pieces(body, fine=STEPS))
    return outline(body)


def _upright(piece: Piece) -> Prism:
    x, y, z = piece
    return Prism(x, ((y[0], z[0]), (y[1], z[0]), (y[1], z[1]), (y[0], z[1])))


def outline(part: Part) -> tuple[Prism, ...]:
    """A part as convex outlines along X; a bevelled one as a single outline, else its boxes."""
    bevel = level_bevel(part)
    if bevel is None or part.side(bevel.sharp).axis != 1:
        return tuple(_upright(piece) for piece in pieces(part))
    box = part.box
    edge, sharp = part.side(bevel.edge), part.side(bevel.sharp)
    blunt = sharp.opposite
    y_sharp, y_blunt = box.face(sharp), box.face(blunt)
    z_edge, z_far = box.face(edge), box.face(edge.opposite)
    y_land = y_sharp - sharp.sign * bevel.land
    z_cut = z_edge - edge.sign * bevel.reach(part.board.thickness)
    return (
        Prism(
            (box.low.x, box.high.x),
            (
                (y_sharp, z_far),
                (y_sharp, z_edge),
                (y_land, z_edge),
                (y_blunt, z_cut),
                (y_blunt, z_far),
            ),
        ),
    )


def travel_down(one: Prism, other: Prism) -> Span | None:
    """Travel of one outline downwards at which it shares volume with another; None for none.

    Over every Y that both have, one lies over the other from ``low`` to ``high``; both bounds
    are reached at a corner, because the outlines are convex.
    """
    if min(one.x[1], other.x[1]) - max(one.x[0], other.x[0]) <= TOUCH:
        return None
    first, second = _extent(one), _extent(other)
    low, high = max(first[0], second[0]), min(first[1], second[1])
    if high - low <= TOUCH:
        return None
    marks = {low, high}
    marks |= {y for prism in (one, other) for y, _ in prism.corners if low < y < high}
    bounds = []
    for y in marks:
        mine, theirs = _heights(one, y), _heights(other, y)
        bounds.append((mine[0] - theirs[1], mine[1] - theirs[0]))
    least, most = min(b[0] for b in bounds), max(b[1] for b in bounds)
    return (least + TOUCH, most - TOUCH) if most - least > 2 * TOUCH else None


def _extent(prism: Prism) -> Span:
    return min(y for y, _ in prism.corners), max(y for y, _ in prism.corners)


def _heights(prism: Prism, y: float) -> Span:
    """Lowest and highest point of a convex outline at a distance from front to back."""
    found: list[float] = []
    for (y0, z0), (y1, z1) in zip(
        prism.corners, prism.corners[1:] + prism.corners[:1], strict=True
    ):
        if min(y0, y1) - 1e-9 <= y <= max(y0, y1) + 1e-9:
            if abs(y1 - y0) < 1e-9:
                found += [z0, z1]
            else:
                found.append(z0 + (y - y0) / (y1 - y0) * (z1 - z0))
    return min(found), max(found)
