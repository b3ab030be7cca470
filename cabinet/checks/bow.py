"""Bow: a bent door in a straight groove, and what its belly comes near.

A strip bent by f over its length needs f more than its thickness between two straight walls.
Held at head and foot, the middle of the door bellies out by the sagitta over the opening's
height, to the side away from its hollow, and that side must have the room. The measured bow is
data of the sheet (``Stock.bow_per_metre``). Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from cabinet.checks.bodies import middle
from cabinet.checks.sliding import Door, groove_of, sliding, tongue_of
from cabinet.checks.sweep import Space
from cabinet.design import Unit
from cabinet.findings import Finding, Severity
from cabinet.frame import Side

# What a bent door keeps in its groove, and what its belly keeps to what it passes, at least.
LEAST_LEFT = 0.1
# Farther away than this nothing is looked for, mm.
FAR = 40.0


def bows(unit: Unit) -> Iterator[Finding]:
    """Doors that bind in their grooves, or run only with the hollow to one side."""
    space = Space(unit)
    for group in sliding(unit, space):
        for door in group:
            if door.part.board.stock.bow_per_metre:
                yield from _in_groove(door)
                yield from _belly(door, group, space)


def play_in(door: Door, side: Side) -> float | None:
    """Play of a door's tongue in its groove above or below, in all, mm; None if it has none."""
    guide = door.top if side is Side.TOP else door.base
    _, (front, back), _ = tongue_of(door.part, side)
    groove = groove_of(guide, (front + back) / 2, side.opposite)
    return None if groove is None else (groove[1][1] - groove[1][0]) - (back - front)


def _in_groove(door: Door) -> Iterator[Finding]:
    width = door.part.box.size[0]
    bow = door.part.board.stock.bow(width)
    for side, guide in ((Side.TOP, door.top), (Side.BOTTOM, door.base)):
        play = play_in(door, side)
        if play is not None and bow > play - LEAST_LEFT:
            yield Finding(
                rule="door-binds",
                severity=Severity.ERROR,
                parts=(door.name, guide.name),
                where=middle(door.part.box),
                found=bow,
                limit=play - LEAST_LEFT,
                sentence=f"{door.name} is bowed by {bow:.2f} mm over its {width:.0f} mm, but its "
                f"tongue has only {play:.2f} mm of play in the groove of {guide.name}, so it "
                f"binds; give {bow + LEAST_LEFT:.1f} mm of play or take a flatter sheet",
            )
            return


def _belly(door: Door, group: tuple[Door, ...], space: Space) -> Iterator[Finding]:
    bow = door.part.board.stock.bow(door.opening)
    room = {side: _room(door, group, space, side) for side in (Side.FRONT, Side.BACK)}
    tight = [side for side in room if bow > room[side] - LEAST_LEFT]
    if not tight:
        return
    least = min(room.values())
    told = (
        f"{door.name} is bowed by {bow:.2f} mm over the {door.opening:.0f} mm between its grooves"
    )
    if len(tight) == 2:
        yield Finding(
            rule="door-binds",
            severity=Severity.ERROR,
            parts=(door.name,),
            where=middle(door.part.box),
            found=bow,
            limit=least,
            sentence=f"{told} and rubs whichever way its hollow looks ({room[Side.FRONT]:.1f} mm "
            f"are free in front, {room[Side.BACK]:.1f} mm behind); take a flatter sheet",
        )
        return
    # The belly is on the far side of the hollow, so the hollow looks to the tight side.
    yield Finding(
        rule="door-hollow",
        severity=Severity.WARNING,
        parts=(door.name,),
        where=middle(door.part.box),
        found=bow,
        limit=least,
        sentence=f"{told} and runs only with its hollow to the {tight[0].value}, where just "
        f"{least:.1f} mm are free; mark that side before you cut the rebates",
    )


def _room(door: Door, group: tuple[Door, ...], space: Space, side: Side) -> float:
    """What the middle of a door may belly out to one side, worst case of play and neighbours."""
    own = max(play_in(door, end) or 0.0 for end in (Side.TOP, Side.BOTTOM)) / 2
    # The groove holds head and foot; what is looked for is what the middle meets.
    guides = space.carried((door.top.name, door.base.name))
    doors = {name: other for other in group for name in other.names}
    least = math.inf
    swept = space.stops(door.names, side, 0.0, FAR, ignoring=guides)
    for hit in swept:
        other = doors.get(hit.other)
        # A neighbour may lie over to this side in its groove, and belly out to it as well.
        theirs = 0.0
        if other is not None:
            theirs = max(play_in(other, end) or 0.0 for end in (Side.TOP, Side.BOTTOM)) / 2
            theirs += other.part.board.stock.bow(other.opening)
        least = min(least, hit.travel - own - theirs)
    return least
