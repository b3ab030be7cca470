"""Hanging: the unit is lifted over its cleat, lowered on to it, and then hangs plumb.

Seen from the end each half of a cleat is a convex outline: a board with a bevel (``prism``).
Lengths in mm, angles in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.checks.bodies import middle
from cabinet.checks.pieces import Span
from cabinet.checks.prism import Corner, Prism, level_bevel, outline, outlines, travel_down
from cabinet.checks.sweep import TOUCH, Space
from cabinet.checks.wrong import wrong
from cabinet.design import Unit
from cabinet.findings import Finding
from cabinet.frame import Side
from cabinet.motion import Motion
from cabinet.part import Part

# Raised to hang, the unit keeps this above the wall half (common practice: 5 to 10).
LEAST_OVER = 5.0
# Bevels differ by no more than this, degrees, and lie in one plane within this, mm.
MOST_TILT = 0.5
MOST_APART = 0.1
# Share of the bevel that bears, at least, and room below the unit half's sharp edge.
LEAST_BEARING = 0.8
LEAST_BELOW = 1.0
# The unit can be slid along the wall half by this at least (common practice: 20 to 50).
LEAST_SIDEWAYS = 10.0
# The unit stands off the wall at its foot as it does at its cleat, within this.
MOST_OFF_PLUMB = 0.5
# What hangs on a cleat is looked for above and below it, and this far beside it, mm.
FAR = 10_000.0
BESIDE = 60.0


@dataclass(frozen=True, slots=True)
class _Slope:
    """The bevelled face of a half: where it begins and ends, and how it looks."""

    front: Corner
    back: Corner

    @property
    def angle(self) -> float:
        """Its rise towards the wall, degrees from level; negative if it falls."""
        return math.degrees(math.atan2(self.back[1] - self.front[1], self.back[0] - self.front[0]))

    def at(self, y: float) -> float:
        """Z of its plane at a distance from front to back."""
        share = (y - self.front[0]) / (self.back[0] - self.front[0])
        return self.front[1] + share * (self.back[1] - self.front[1])


def hangs(unit: Unit) -> Iterator[Finding]:
    """All that keeps a unit from hanging on its cleat."""
    space = Space(unit)
    for move in unit.moves:
        if move.motion is not Motion.DROP:
            continue
        on_wall = [n for n in move.parts if n in space.items]
        walls = [body for n in on_wall if isinstance(body := space.items[n], Part)]
        for wall_half in walls:
            yield from _hung(wall_half, tuple(on_wall), space, move.high)


def _hung(
    wall_half: Part,
    on_wall: tuple[str, ...],
    space: Space,
    lift: float,
) -> Iterator[Finding]:
    unit_half = _mate(wall_half, on_wall, space)
    if unit_half is None:
        yield wrong(
            "cleat-alone",
            (wall_half.name,),
            middle(wall_half.box),
            None,
            None,
            f"{wall_half.name} has no half in the unit that lies on its bevel; bevel both halves",
        )
        return
    yield from _bevels(wall_half, unit_half)
    yield from _sideways(wall_half, (*on_wall, unit_half.name), space)
    yield from _lifted(wall_half, on_wall, space, lift)
    yield from _plumb(wall_half, on_wall, space)


def _above(wall_half: Part, on_wall: tuple[str, ...], space: Space) -> list[Part]:
    """The parts that hang on a wall half: those over its width, whatever their height."""
    box = wall_half.box
    # Sides beside a hidden cleat belong to what hangs on it.
    column = (box.low.x - BESIDE, box.high.x + BESIDE), (-FAR, FAR), (-FAR, FAR)
    return [
        body for body in space.near(column) if isinstance(body, Part) and body.name not in on_wall
    ]


def _mate(wall_half: Part, on_wall: tuple[str, ...], space: Space) -> Part | None:
    """The part of the unit with a bevel that is nearest to the wall half."""
    if level_bevel(wall_half) is None:
        return None
    others = [p for p in _above(wall_half, on_wall, space) if level_bevel(p) is not None]
    own = middle(wall_half.box)
    return min(others, key=lambda p: (math.dist(middle(p.box), own), p.name), default=None)


def _slope(part: Part) -> _Slope | None:
    bevel = level_bevel(part)
    if bevel is None or part.side(bevel.sharp).axis != 1:
        return None
    corners = outline(part)[0].corners
    ends = sorted((corners[2], corners[3]))
    return _Slope(ends[0], ends[1])


def _bevels(wall_half: Part, unit_half: Part) -> Iterator[Finding]:
    parts = wall_half.name, unit_half.name
    where = middle(wall_half.box)
    ways = (
        (wall_half, Side.TOP, Side.FRONT, "up and away from the wall"),
        (unit_half, Side.BOTTOM, Side.BACK, "down and towards the wall"),
    )
    is_wrong = False
    for part, edge, sharp, way in ways:
        bevel = level_bevel(part)
        if bevel is None:
            continue
        if part.side(bevel.edge) is not edge or part.side(bevel.sharp) is not sharp:
            is_wrong = True
            yield wrong(
                "bevel-wrong-way",
                (part.name,),
                middle(part.box),
                None,
                None,
                f"{part.name}: its sharp edge looks {part.side(bevel.edge).value} at the "
                f"{part.side(bevel.sharp).value}; it must look {way}, or the unit slides off, so "
                "turn the bevel over",
            )
    mine, theirs = _slope(wall_half), _slope(unit_half)
    if is_wrong or mine is None or theirs is None:
        return
    off = abs(mine.angle - theirs.angle)
    if off > MOST_TILT:
        yield wrong(
            "bevels-differ",
            parts,
            where,
            off,
            MOST_TILT,
            f"{wall_half.name} and {unit_half.name}: their bevels of {abs(mine.angle):.1f} and "
            f"{abs(theirs.angle):.1f} degrees differ by {off:.1f}; at most {MOST_TILT:g}, so rip "
            "both with one setting of the saw",
        )
        return
    yield from _bearing(wall_half, unit_half, mine, theirs)


def _bearing(wall_half: Part, unit_half: Part, mine: _Slope, theirs: _Slope) -> Iterator[Finding]:
    parts = wall_half.name, unit_half.name
    where = middle(wall_half.box)
    low, high = max(mine.front[0], theirs.front[0]), min(mine.back[0], theirs.back[0])
    whole = min(mine.back[0] - mine.front[0], theirs.back[0] - theirs.front[0])
    share = max(high - low, 0.0) / whole
    between = (low + high) / 2
    apart = (theirs.at(between) - mine.at(between)) * math.cos(math.radians(mine.angle))
    if share < LEAST_BEARING or abs(apart) > MOST_APART:
        yield wrong(
            "cleat-bears-little",
            parts,
            where,
            share,
            LEAST_BEARING,
            f"{wall_half.name} and {unit_half.name} bear on {share * 100:.0f} % of their bevel and "
            f"are {abs(apart):.1f} mm apart there; at least {LEAST_BEARING * 100:.0f} % must "
            "touch, so give both one thickness and set one of them to the other",
        )
        return
    tip = min(z for _, z in outline(unit_half)[0].corners)
    # The bottom of the V that the wall half's bevel makes with the wall.
    below = tip - mine.at(wall_half.box.high.y)
    if below < LEAST_BELOW:
        yield wrong(
            "cleat-bottoms",
            parts,
            where,
            below,
            LEAST_BELOW,
            f"{unit_half.name}: its sharp edge is {below:.1f} mm above the bottom of the V, so it "
            f"may stand there and not on the bevel; at least {LEAST_BELOW:g} mm (usual are 2 to "
            "3), so blunt the edge",
        )


def _sideways(wall_half: Part, with_it: tuple[str, ...], space: Space) -> Iterator[Finding]:
    """The wall half is shorter than its place, so that the unit can be slid along it."""
    room = 0.0
    for side in (Side.LEFT, Side.RIGHT):
        hits = space.stops((wall_half.name,), side, 0.0, LEAST_SIDEWAYS, ignoring=with_it)
        room += min((hit.travel for hit in hits), default=LEAST_SIDEWAYS)
    if room < LEAST_SIDEWAYS - TOUCH:
        yield wrong(
            "cleat-tight",
            (wall_half.name,),
            middle(wall_half.box),
            room,
            LEAST_SIDEWAYS,
            f"{wall_half.name} has only {room:.1f} mm beside it, so the unit cannot be slid to "
            f"its place; at least {LEAST_SIDEWAYS:g} mm (usual are 20 to 50), so cut it shorter",
        )


def _lifted(
    wall_half: Part,
    on_wall: tuple[str, ...],
    space: Space,
    lift: float,
) -> Iterator[Finding]:
    """Seen from the unit the wall half comes from the wall, below its place, and rises."""
    mine = _prisms(on_wall, space)
    about = [
        (body.name, prism)
        for body in space.near(_column(space, on_wall, lift))
        if body.name not in on_wall
        for prism in outlines(body)
    ]
    down: list[tuple[float, str]] = []
    for _, prism in mine:
        for name, other in about:
            span = travel_down(prism, other)
            if span is not None and span[1] > TOUCH and span[0] < lift - TOUCH:
                down.append((max(span[0], 0.0), name))
    if down:
        travel, name = min(down)
        yield wrong(
            "cleat-caught",
            (wall_half.name, name),
            middle(wall_half.box),
            travel,
            lift,
            f"the unit cannot be lowered on to {wall_half.name}: {name} is in the way "
            f"{travel:.1f} mm before it hangs; clear the way or make the half that meets it lower",
        )
        return
    need = _needed(mine, about)
    if need > lift - LEAST_OVER + TOUCH:
        yield wrong(
            "cleat-caught",
            (wall_half.name,),
            middle(wall_half.box),
            lift,
            need + LEAST_OVER,
            f"raised by {lift:.1f} mm the unit does not pass over {wall_half.name}; it must rise "
            f"{need + LEAST_OVER:.1f} mm, so plan that lift",
        )


def _prisms(names: tuple[str, ...], space: Space) -> list[tuple[str, Prism]]:
    """Outlines of what is on the wall; what is within the wall does not meet the unit."""
    return [
        (name, prism)
        for name in names
        if isinstance(body := space.items[name], Part)
        for prism in outline(body)
    ]


def _column(space: Space, on_wall: tuple[str, ...], lift: float) -> tuple[Span, Span, Span]:
    boxes = [space.boxes[name] for name in on_wall if isinstance(space.items[name], Part)]
    x = min(b[0][0] for b in boxes), max(b[0][1] for b in boxes)
    y = min(b[1][0] for b in boxes), max(b[1][1] for b in boxes) + 500.0
    z = min(b[2][0] for b in boxes) - lift - 200.0, max(b[2][1] for b in boxes) + 1.0
    return x, y, z


def _needed(mine: list[tuple[str, Prism]], about: list[tuple[str, Prism]]) -> float:
    """Least lift at which nothing of the unit that is behind the cleat's front meets it."""
    need = 0.0
    for _, prism in mine:
        front = min(y for y, _ in prism.corners)
        for _, other in about:
            # Pushed to the wall, the unit's body passes over the wall half with all that
            # reaches further back than the half's front.
            if max(y for y, _ in other.corners) <= front + TOUCH:
                continue
            top = max(z for _, z in prism.corners)
            low = min(z for _, z in other.corners)
            high = max(z for _, z in other.corners)
            if min(prism.x[1], other.x[1]) - max(prism.x[0], other.x[0]) <= TOUCH:
                continue
            bottom = min(z for _, z in prism.corners)
            if high > bottom and low < top:
                need = max(need, top - low)
    return need


def _plumb(wall_half: Part, on_wall: tuple[str, ...], space: Space) -> Iterator[Finding]:
    """At its foot the unit stands off the wall as far as at its cleat."""
    wall = wall_half.box.high.y
    mine = _above(wall_half, on_wall, space)
    if not mine:
        return
    low = min(p.box.low.z for p in mine)
    foot = [p for p in mine if p.box.low.z < low + (wall_half.box.low.z - low) * 0.6]
    if not foot:
        return
    rear = max(foot, key=lambda p: (p.box.high.y, p.name))
    gap = wall - rear.box.high.y
    height = max(middle(wall_half.box).z - low, 1.0)
    if abs(gap) > MOST_OFF_PLUMB:
        lean = math.degrees(math.atan2(abs(gap), height))
        says = (
            f"nothing keeps the foot off the wall: {rear.name} ends {gap:.1f} mm before it"
            if gap > 0
            else f"{rear.name} stands {-gap:.1f} mm behind the plane of the wall"
        )
        yield wrong(
            "not-plumb",
            (rear.name, wall_half.name),
            middle(rear.box),
            gap,
            MOST_OFF_PLUMB,
            f"{wall_half.name}: {says}, so the unit leans by {lean:.1f} degrees; fix a spacer as "
            "thick as the cleat at the foot",
        )
