"""Doors: they go in and come out, stay in, cover the opening, and slide past everything.

Straight moves are decided by intervals of travel (``sweep``), the swing of the foot over the
base by a certified search over the lean (``lean``). Lengths in mm.

A door that can be lifted out can be knocked out. It cannot fall out if a knock that lifts it
by less than its foot is engaged leaves the foot in its groove, and if the head, which the knock
only pushes further in, is deep enough in its own at rest that no sag, bow or shrinking frees
it. So both are held to a least engagement (common practice, no source): 4 above, 2 below.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise

from cabinet.checks.lean import Leaning, Outcome, Rectangle, swing
from cabinet.checks.pieces import Piece, pieces
from cabinet.checks.sliding import Door, groove_of, shoulder_of, sliding, tongue_of
from cabinet.checks.sweep import TOUCH, Hit, Space
from cabinet.checks.wrong import undecided, wrong
from cabinet.components.doors import groove_needed
from cabinet.design import Unit
from cabinet.findings import Finding
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware

# A lifted door's foot clears the base's face by this (common practice).
FOOT_CLEAR = 1.0
# Least engagement at rest, above and below (common practice: at least 4 to 5 above).
LEAST_ABOVE = 4.0
LEAST_BELOW = 2.0
# The lower shoulder hangs clear of the base by this at least, or the door drags.
LEAST_SHOULDER = 0.3
# Closed doors lie over each other by this at least (common practice: 20 to 50).
LEAST_OVERLAP = 10.0
# A closed door leaves no wider slit at the side than this (common practice).
MOST_SLIT = 2.0
# A door slides no further beyond the end of its bar than this, or it tips (common practice).
MOST_BARE = 20.0
# The grooves above and below lie opposite each other within this, or the door leans.
MOST_OFFSET = 0.2


def doors(unit: Unit) -> Iterator[Finding]:
    """All that can be wrong with sliding doors."""
    space = Space(unit)
    for group in sliding(unit, space):
        for door in group:
            others = [other for other in group if other is not door]
            yield from _engaged(door)
            yield from _opposite(door)
            yield from _carried(door, space)
            yield from _goes_in(door, others, space)
            yield from _slides(door, others, space)
        for one, other in combinations(group, 2):
            if one.shares_track(other):
                yield from _in_one_track(one, other)
            else:
                yield from _past(one, other, space)
        yield from _closed(group, space)


def _end(door: Door, side: Side) -> UnitPoint:
    """The middle of a door's head or foot."""
    box = door.part.box
    return UnitPoint((box.low.x + box.high.x) / 2, (box.low.y + box.high.y) / 2, box.face(side))


def _engaged(door: Door) -> Iterator[Finding]:
    above, below = door.engaged_above, door.engaged_below
    if above < LEAST_ABOVE - TOUCH:
        yield wrong(
            "door-loose",
            (door.name, door.top.name),
            _end(door, Side.TOP),
            above,
            LEAST_ABOVE,
            f"{door.name} stands only {above:.1f} mm in the groove of {door.top.name}; at least "
            f"{LEAST_ABOVE:g} mm, so make the door {LEAST_ABOVE - above:.1f} mm higher and the "
            "upper groove deeper",
        )
    if below < LEAST_BELOW - TOUCH:
        yield wrong(
            "door-hops",
            (door.name, door.base.name),
            _end(door, Side.BOTTOM),
            below,
            LEAST_BELOW,
            f"{door.name} stands only {below:.1f} mm in the groove of {door.base.name}, so a "
            f"knock lifts it out; at least {LEAST_BELOW:g} mm, so make the lower groove deeper",
        )
    shoulder = shoulder_of(door.part, Side.BOTTOM)
    if shoulder is not None and shoulder - door.floor < LEAST_SHOULDER - TOUCH:
        clear = shoulder - door.floor
        yield wrong(
            "door-drags",
            (door.name, door.base.name),
            _end(door, Side.BOTTOM),
            clear,
            LEAST_SHOULDER,
            f"{door.name}: its lower shoulder is {clear:.1f} mm above {door.base.name}; at least "
            f"{LEAST_SHOULDER:g} mm, so cut the rebate for the lower tongue wider",
        )


def _opposite(door: Door) -> Iterator[Finding]:
    middles = []
    for board, side in ((door.top, Side.TOP), (door.base, Side.BOTTOM)):
        _, (front, back), _ = tongue_of(door.part, side)
        groove = groove_of(board, (front + back) / 2, side.opposite)
        if groove is None:
            yield wrong(
                "door-no-groove",
                (door.name, board.name),
                _end(door, side),
                None,
                None,
                f"{door.name} has no groove in {board.name} at its {side.value}; cut one there",
            )
            return
        middles.append((groove[1][0] + groove[1][1]) / 2)
    off = abs(middles[0] - middles[1])
    if off > MOST_OFFSET:
        yield wrong(
            "grooves-not-opposite",
            (door.base.name, door.name, door.top.name),
            _end(door, Side.TOP),
            off,
            MOST_OFFSET,
            f"{door.name}: its groove in {door.top.name} lies {off:.1f} mm off the one in "
            f"{door.base.name}; at most {MOST_OFFSET:g} mm, so cut both from the front edge with "
            "one setting of the fence",
        )


def _carried(door: Door, space: Space) -> Iterator[Finding]:
    """The bar lies under the door wherever it slides."""
    foot = tongue_of(door.part, Side.BOTTOM)
    below: Piece = (foot[0], foot[1], (foot[2][0] - 1.0, foot[2][0]))
    for body in space.near(below):
        if not isinstance(body, Hardware) or body.axis.axis != 0:
            continue
        bar = space.boxes[body.name][0]
        ends = door.span[0] + door.low, door.span[1] + door.high
        for side, bare in ((Side.LEFT, bar[0] - ends[0]), (Side.RIGHT, ends[1] - bar[1])):
            if bare > MOST_BARE:
                yield wrong(
                    "door-uncarried",
                    (door.name, body.name),
                    _end(door, Side.BOTTOM),
                    bare,
                    MOST_BARE,
                    f"{door.name} slides {bare:.1f} mm beyond the {side.value} end of "
                    f"{body.name}; at most {MOST_BARE:g} mm, so take a longer bar",
                )


def _out_of_the_way(door: Door, others: list[Door]) -> tuple[str, ...]:
    """Names of doors that go in after this one: those in its track and those in front."""
    return tuple(
        name
        for other in others
        if other.shares_track(door) or other.front < door.front
        for name in other.names
    )


def _goes_in(door: Door, others: list[Door], space: Space) -> Iterator[Finding]:
    absent = _out_of_the_way(door, others)
    need = door.engaged_below + FOOT_CLEAR
    if need > 0:
        hits = sorted(
            space.stops(door.names, Side.TOP, 0.0, need, ignoring=absent),
            key=lambda hit: (hit.travel, hit.other),
        )
        if hits:
            yield _caught(door, hits[0], need)
            if hits[0].travel < door.engaged_below + TOUCH or not hits[0].is_certain:
                return
    case = leaning(door, space, absent)
    yield from _swung(door, case, swing(case))


def _caught(door: Door, hit: Hit, need: float) -> Finding:
    says = (
        f"{door.name} can be lifted only {hit.travel:.1f} mm before it meets {hit.other}; to lift "
        f"its foot over {door.base.name} it must rise {need:.1f} mm, so deepen the upper groove "
        f"and the rebate of the upper tongue by {need - hit.travel:.1f} mm"
    )
    if not hit.is_certain:
        return undecided((door.name, hit.other), hit.where, f"{says}; too near to be certain")
    where = hit.where
    return wrong("door-cannot-rise", (door.name, hit.other), where, hit.travel, need, says)


def leaning(door: Door, space: Space, absent: tuple[str, ...] = ()) -> Leaning:
    """A door and what stands about it, as seen from its end.

    Args:
        door: The door at rest.
        space: The unit's bodies.
        absent: Names of bodies that are not yet there.
    """
    mine = [piece for name in door.names for piece in pieces(space.items[name])]
    left = min(piece[0][0] for piece in mine)
    right = max(piece[0][1] for piece in mine)
    box = door.part.box
    reach = (
        (left, right),
        (min(door.top.box.low.y, door.base.box.low.y) - 200.0, box.high.y + 40.0),
        (door.base.box.low.z - 10.0, door.top.box.high.z + 10.0),
    )
    out = {*door.names, *absent}
    about = {
        _seen(piece)
        for body in space.near(reach)
        if body.name not in out
        for piece in space.grown(body.name)
        if _meets(piece, reach)
    }
    return Leaning(
        door=tuple(sorted({_seen(piece) for piece in mine})),
        about=tuple(sorted(about)),
        base=door.floor,
        front=min(door.top.box.low.y, door.base.box.low.y),
    )


def _seen(piece: Piece) -> Rectangle:
    """A piece as seen from the end, rounded so that equal cases are decided once."""
    (y0, y1), (z0, z1) = piece[1], piece[2]
    return (round(y0, 6), round(y1, 6)), (round(z0, 6), round(z1, 6))


def _meets(one: Piece, other: Piece) -> bool:
    return all(min(a[1], b[1]) - max(a[0], b[0]) > TOUCH for a, b in zip(one, other, strict=True))


def _swung(door: Door, case: Leaning, outcome: Outcome) -> Iterator[Finding]:
    if outcome.swings:
        return
    parts = door.name, door.top.name
    where = _end(door, Side.TOP)
    degrees = math.degrees(outcome.angle)
    if outcome.swings is None:
        yield undecided(
            parts,
            where,
            f"{door.name}: whether its foot swings in over {door.base.name} is too near to tell; "
            "give its grooves 0.1 mm more play",
        )
        return
    (_, (front, back), _) = tongue_of(door.part, Side.TOP)
    need = groove_needed(back - front, case.height, door.opening, outcome.angle)
    yield wrong(
        "door-jams",
        parts,
        where,
        outcome.lack,
        0.0,
        f"{door.name} cannot be swung in: leaning by {degrees:.1f} degrees its head is caught in "
        f"{door.top.name}, where its tongue of {back - front:.1f} mm fills {need:.2f} mm of the "
        f"groove; give {outcome.lack:.2f} mm more play in the upper groove",
    )


def _slides(door: Door, others: list[Door], space: Space) -> Iterator[Finding]:
    ignoring = [name for other in others for name in other.names]
    if door.low >= door.high:
        return
    hits = space.stops(door.names, Side.RIGHT, door.low, door.high, ignoring=ignoring)
    for hit in sorted(hits, key=lambda hit: (abs(hit.travel), hit.other)):
        way = "right" if hit.travel >= 0 else "left"
        wanted = door.high if hit.travel >= 0 else -door.low
        mover = f"{door.name}" if hit.mover == door.name else f"{door.name} with {hit.mover}"
        says = (
            f"{mover} slides only {abs(hit.travel):.1f} of {wanted:.1f} mm to the {way} before it "
            f"meets {hit.other}; set {hit.other} back or make it smaller"
        )
        parts = tuple(dict.fromkeys((door.name, hit.mover, hit.other)))
        if not hit.is_certain:
            yield undecided(parts, hit.where, f"{says}; too near to be certain")
            continue
        yield wrong("door-blocked", parts, hit.where, abs(hit.travel), wanted, says)


def _past(one: Door, other: Door, space: Space) -> Iterator[Finding]:
    """Doors of different tracks, each anywhere in its travel."""
    low, high = one.low - other.high, one.high - other.low
    for mine in one.names:
        for theirs in other.names:
            first, second = space.boxes[mine], space.boxes[theirs]
            if any(
                min(first[a][1], second[a][1]) - max(first[a][0], second[a][0]) <= TOUCH
                for a in (1, 2)
            ):
                continue
            hit = space.meet(mine, theirs, 0, low, high)
            if hit is None:
                continue
            deep = min(first[1][1], second[1][1]) - max(first[1][0], second[1][0])
            says = (
                f"{mine} and {theirs} run into each other when {one.name} and {other.name} slide "
                f"past each other: they overlap by {deep:.1f} mm from front to back; set the "
                "grooves further apart or make what stands out shallower"
            )
            parts = tuple(dict.fromkeys((one.name, other.name, mine, theirs)))
            if hit.is_certain:
                yield wrong("doors-collide", parts, hit.where, deep, 0.0, says)
            else:
                yield undecided(parts, hit.where, f"{says}; too near to be certain")


def _in_one_track(one: Door, other: Door) -> Iterator[Finding]:
    """Doors of one track limit each other: pushed to one end, both must find room there."""
    gap = other.span[0] - one.span[1]
    for end, mine, theirs in (
        ("right", one.high, other.high),
        ("left", one.low, other.low),
    ):
        left = gap + theirs - mine
        if left < -0.05:
            yield wrong(
                "doors-in-one-track",
                (one.name, other.name),
                _end(one if end == "right" else other, Side.BOTTOM),
                -left,
                0.0,
                f"{one.name} and {other.name} run in one track: pushed to the {end} end of their "
                f"travel they would overlap by {-left:.1f} mm; shorten the travel of the one "
                "behind",
            )


def _closed(group: tuple[Door, ...], space: Space) -> Iterator[Finding]:
    """Closed doors cover the opening."""
    for one, other in pairwise(group):
        over = one.span[1] - other.span[0]
        if over < LEAST_OVERLAP - TOUCH:
            yield wrong(
                "door-overlap",
                (one.name, other.name),
                UnitPoint(one.span[1], one.front, (one.floor + one.ceiling) / 2),
                over,
                LEAST_OVERLAP,
                f"{one.name} and {other.name} lie over each other by {over:.1f} mm when closed; "
                f"at least {LEAST_OVERLAP:g} mm (usual are 20 to 50), so make them wider",
            )
    names = [name for door in group for name in door.names]
    for door, sign, side in ((group[0], -1, Side.LEFT), (group[-1], 1, Side.RIGHT)):
        ends = (-2 * MOST_SLIT, 0.0) if sign < 0 else (0.0, 2 * MOST_SLIT)
        hits = space.stops((door.name,), Side.RIGHT, *ends, ignoring=names)
        slit = min((abs(hit.travel) for hit in hits), default=math.inf)
        if slit > MOST_SLIT:
            told = f"{slit:.1f} mm" if math.isfinite(slit) else f"over {2 * MOST_SLIT:g} mm"
            box = door.part.box
            yield wrong(
                "door-slit",
                (door.name,),
                UnitPoint(box.face(side), door.front, (box.low.z + box.high.z) / 2),
                slit if math.isfinite(slit) else None,
                MOST_SLIT,
                f"{door.name} leaves a slit of {told} at the {side.value} when closed; at most "
                f"{MOST_SLIT:g} mm, so make it wider or move it to the {side.value}",
            )
