"""Fingers: pulls that hold one fast or that none gets at, and gaps that close beside them.

Source: EN 14749:2016, 5.2.1, as read in a test report: between parts that move against each
other a gap keeps to 8 mm or less, or 25 mm or more, in any position. Doors themselves are
exempt; the distance between handles and other parts is not. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.checks.bodies import Body, middle
from cabinet.checks.pieces import Span
from cabinet.checks.sliding import Door, sliding
from cabinet.checks.sweep import TOUCH, Space
from cabinet.design import Unit
from cabinet.features import Hole
from cabinet.findings import Finding, Severity
from cabinet.frame import UnitPoint
from cabinet.hardware import Hardware
from cabinet.part import Part

MOST_CLOSED = 8.0
LEAST_OPEN = 25.0
# Beyond this a gap is no gap any more, mm.
FAR = 400.0


def finger_gaps(unit: Unit) -> Iterator[Finding]:
    """Pulls that are neither wide nor narrow enough, and gaps that close beside them."""
    space = Space(unit)
    for group in sliding(unit, space):
        for door in group:
            yield from _bored(door)
            yield from _covered(door, group)
            for name in door.names:
                item = space.items[name]
                if isinstance(item, Hardware):
                    yield from _beside(door, item, group, space)


def _bored(door: Door) -> Iterator[Finding]:
    for feature in door.part.board.features:
        if not isinstance(feature, Hole) or not feature.surface.is_face:
            continue
        if MOST_CLOSED < feature.diameter < LEAST_OPEN and len(door.names) == 1:
            box = door.part.box
            yield Finding(
                rule="finger-trap",
                severity=Severity.ERROR,
                parts=(door.name,),
                where=middle(box),
                found=feature.diameter,
                limit=LEAST_OPEN,
                sentence=f"{door.name}: its {feature.name} of {feature.diameter:g} mm holds a "
                f"finger fast; bore {LEAST_OPEN:g} mm or more",
            )


def _covered(door: Door, group: tuple[Door, ...]) -> Iterator[Finding]:
    """Closed, a bored pull is not hidden by the door that lies over it."""
    box = door.part.box
    for feature in door.part.board.features:
        if not isinstance(feature, Hole) or not feature.surface.is_face:
            continue
        low, high = _span(door.part, feature)
        for other in group:
            over = min(other.span[1], high) - max(other.span[0], low)
            if other.front < door.front and over > TOUCH:
                yield Finding(
                    rule="pull-covered",
                    severity=Severity.ERROR,
                    parts=(door.name, other.name),
                    where=middle(box),
                    found=over,
                    limit=0.0,
                    sentence=f"{door.name}: {over:.1f} mm of its {feature.name} of "
                    f"{feature.diameter:g} mm lie behind {other.name} when both are closed; move "
                    "it towards what is seen of the door",
                )


def _span(part: Part, hole: Hole) -> Span:
    """X of a bored hole in the unit."""
    box = part.feature_box(hole)
    return box.low.x, box.high.x


def _beside(door: Door, pull: Hardware, group: tuple[Door, ...], space: Space) -> Iterator[Finding]:
    box = space.boxes[pull.name]
    swept = (box[0][0] + door.low - FAR, box[0][1] + door.high + FAR), box[1], box[2]
    owners = {name: other for other in group for name in other.names}
    for body in space.near(swept):
        if body.name in door.names:
            continue
        other = owners.get(body.name)
        gap = _gap(box[0], space.boxes[body.name][0], door, other)
        if gap is not None and gap[0] < LEAST_OPEN - TOUCH and gap[1] > MOST_CLOSED + TOUCH:
            yield _trap(pull, body, gap)


def _gap(mine: Span, theirs: Span, door: Door, other: Door | None) -> Span | None:
    """Least and greatest gap along the slide between a pull and a body, over all travel."""
    low, high = (other.low, other.high) if other is not None else (0.0, 0.0)
    # Doors of one track come no nearer to each other than edge to edge.
    is_held = other is not None and other.shares_track(door)
    if theirs[0] >= mine[1]:
        rest = theirs[0] - mine[1]
        between = other.span[0] - door.span[1] if other is not None and is_held else rest
        return max(rest - min(door.high - low, between), 0.0), rest - door.low + high
    if theirs[1] <= mine[0]:
        rest = mine[0] - theirs[1]
        between = door.span[0] - other.span[1] if other is not None and is_held else rest
        return max(rest - min(high - door.low, between), 0.0), rest + door.high - low
    return None


def _trap(pull: Hardware, body: Body, gap: Span) -> Finding:
    where = UnitPoint(*((a + b) / 2 for a, b in zip(pull.box.low, pull.box.high, strict=True)))
    return Finding(
        rule="finger-trap",
        severity=Severity.ERROR,
        parts=(pull.name, body.name),
        where=where,
        found=gap[0],
        limit=LEAST_OPEN,
        sentence=f"{pull.name} closes to {gap[0]:.1f} mm from {body.name} when its door slides, which "
        f"holds a finger fast; keep {LEAST_OPEN:g} mm or more, or never more than "
        f"{MOST_CLOSED:g} mm",
    )
