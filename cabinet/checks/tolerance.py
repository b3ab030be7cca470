"""Fits under tolerance: chains of sizes, their worst case and their root sum square.

Every size has a tolerance from the way it is made. What is to run keeps its clearance at every
corner of the tolerances' box, which for a chain of sizes is the nominal clearance less the sum
of all tolerances. What is glued is drawn together by clamps, so there the root of the sum of
squares decides. Nominal clearances are measured on the solids. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields

from cabinet.checks.bodies import middle
from cabinet.checks.bow import play_in
from cabinet.checks.doors import LEAST_ABOVE, LEAST_BELOW
from cabinet.checks.shelving import Shelf, shelves_of
from cabinet.checks.sliding import Door, shoulder_of, sliding
from cabinet.checks.sweep import Space
from cabinet.design import Unit
from cabinet.features import Groove
from cabinet.findings import Finding, Severity
from cabinet.frame import Side, UnitPoint
from cabinet.joint import Housing
from cabinet.part import Part
from cabinet.quantity import within

# Least clearances in the worst case (common practice, no source); a door's engagements are those
# of ``checks.doors``.
LEAST_PLAY = 0.3
LEAST_SHOULDER = 0.2
LEAST_RISE = 0.3
LEAST_BETWEEN = 0.2
LEAST_SHELF = 1.2
LEAST_BEARING = 3.0
# Clamps draw a dry joint together by this much (common practice, no source).
DRAWN = 0.5
# Higher than this nobody lifts a door, mm.
MOST_RISE = 40.0

Link = tuple[str, float]
"""A size by its name, with its tolerance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Accuracy:
    """How near to its size each operation comes, plus or minus, mm (common practice, no source).

    Attributes:
        thickness: Of a measured board, from place to place.
        cut: Of a length or width sawn to a stop or a fence.
        place: Of a groove, rebate or housing, from its fence.
        depth: Of a groove or rebate.
        bar: Of a drawn steel bar.

    Raises:
        SizeError: a tolerance that is negative, not finite or above 3 mm.
    """

    thickness: float = 0.1
    cut: float = 0.2
    place: float = 0.2
    depth: float = 0.1
    bar: float = 0.05

    def __post_init__(self) -> None:
        for field in fields(self):
            within("accuracy", field.name, getattr(self, field.name), 0.0, 3.0)


@dataclass(frozen=True, slots=True)
class Chain:
    """A clearance and the sizes that eat into it.

    Attributes:
        nominal: Clearance if every size is met.
        links: Each size by its name, with its tolerance.
    """

    nominal: float
    links: tuple[Link, ...]

    @property
    def worst(self) -> float:
        """Clearance if all sizes are off the wrong way."""
        return self.nominal - sum(tolerance for _, tolerance in self.links)

    @property
    def likely(self) -> float:
        """Clearance less the root of the sum of squares."""
        return self.nominal - math.hypot(*(tolerance for _, tolerance in self.links))

    @property
    def told(self) -> str:
        """The chain in words."""
        links = ", ".join(f"{name} ±{tolerance:g}" for name, tolerance in self.links if tolerance)
        return f"{self.nominal:.2f} mm less {links}"


def stacks(unit: Unit, accuracy: Accuracy | None = None) -> Iterator[Finding]:
    """Chains of sizes that eat a clearance or keep a joint from closing.

    Args:
        unit: The unit.
        accuracy: What the workshop's operations hold; None for a usual one.
    """
    held = accuracy if accuracy is not None else Accuracy()
    space = Space(unit)
    for group in sliding(unit, space):
        for door in group:
            yield from _door(door, group, held, space)
        yield from _past(group, held)
    for shelf in shelves_of(unit, space):
        yield from _shelf(shelf, held)
    yield from _housings(unit, held)


def _eaten(
    chain: Chain, least: float, parts: tuple[str, ...], where: UnitPoint, what: str, change: str
) -> Iterator[Finding]:
    if chain.worst < least - 1e-6:
        yield Finding(
            rule="tolerance-chain",
            severity=Severity.ERROR,
            parts=parts,
            where=where,
            found=chain.worst,
            limit=least,
            sentence=f"{what} shrinks to {chain.worst:.2f} mm in the worst case ({chain.told}; "
            f"likely {chain.likely:.2f}); at least {least:g} mm must be left, so {change}",
        )


def _door(door: Door, group: tuple[Door, ...], held: Accuracy, space: Space) -> Iterator[Finding]:
    yield from _engaged(door, held)
    yield from _running(door, held)
    yield from _lifted(door, group, held, space)


def _level(held: Accuracy) -> tuple[Link, ...]:
    """What a door's foot stands on."""
    return ("depth of the lower groove", held.depth), ("bar", held.bar)


def _heights(held: Accuracy) -> tuple[Link, ...]:
    return ("height of the door", held.cut), ("height of the opening", held.cut)


def _engaged(door: Door, held: Accuracy) -> Iterator[Finding]:
    """What head and foot stand in their grooves, and the shoulder above the base."""
    where, name = middle(door.part.box), door.name
    yield from _eaten(
        Chain(door.engaged_above, (*_heights(held), *_level(held))),
        LEAST_ABOVE,
        (name, door.top.name),
        where,
        f"{name}: what its head stands in the groove of {door.top.name}",
        "make the door higher and the upper groove deeper",
    )
    yield from _eaten(
        Chain(door.engaged_below, _level(held)),
        LEAST_BELOW,
        (name, door.base.name),
        where,
        f"{name}: what its foot stands in the groove of {door.base.name}",
        "make the lower groove deeper",
    )
    shoulder = shoulder_of(door.part, Side.BOTTOM)
    if shoulder is not None:
        links = ("width of the lower rebate", held.cut), *_level(held)
        yield from _eaten(
            Chain(shoulder - door.floor, links),
            LEAST_SHOULDER,
            (name, door.base.name),
            where,
            f"{name}: the clearance of its lower shoulder above {door.base.name}",
            "cut the rebate of the lower tongue wider",
        )


def _running(door: Door, held: Accuracy) -> Iterator[Finding]:
    """The play of a door's tongues in their grooves."""
    for side, guide in ((Side.TOP, door.top), (Side.BOTTOM, door.base)):
        play = play_in(door, side)
        if play is not None:
            bow = door.part.board.stock.bow(door.part.box.size[0])
            links = (("thickness of the door", held.thickness), ("bow of the door", bow))
            yield from _eaten(
                Chain(play, links),
                LEAST_PLAY if not bow else 0.0,
                (door.name, guide.name),
                middle(door.part.box),
                f"{door.name}: the play of its tongue in {guide.name}",
                "open the groove or thin the tongue",
            )


def _lifted(door: Door, group: tuple[Door, ...], held: Accuracy, space: Space) -> Iterator[Finding]:
    """What a lifted door's foot clears the base by."""
    rise = MOST_RISE
    names = [each for other in group for each in other.names]
    for hit in space.stops(door.names, Side.TOP, 0.0, rise, ignoring=names):
        rise = min(rise, hit.travel)
    links = (
        *_heights(held),
        ("depth of the upper groove", held.depth),
        ("width of the upper rebate", held.cut),
    )
    yield from _eaten(
        Chain(rise - door.engaged_below, links),
        LEAST_RISE,
        (door.name, door.top.name),
        middle(door.part.box),
        f"{door.name}: what its foot clears {door.base.name} by when it is lifted",
        "cut the upper groove and the rebate of the upper tongue deeper",
    )


def _past(group: tuple[Door, ...], held: Accuracy) -> Iterator[Finding]:
    """Doors that pass each other, each leaning towards the other in its groove."""
    for one in group:
        for other in group:
            gap = other.front - one.part.box.high.y
            if one.shares_track(other) or not 0 <= gap < 30.0:
                continue
            plays = [
                max(play_in(d, s) or 0.0 for s in (Side.TOP, Side.BOTTOM)) for d in (one, other)
            ]
            links = (
                (f"place of the groove of {one.name}", held.place),
                (f"place of the groove of {other.name}", held.place),
                ("thickness of the doors", held.thickness),
            )
            yield from _eaten(
                Chain(gap - sum(plays) / 2, links),
                LEAST_BETWEEN,
                (one.name, other.name),
                middle(one.part.box),
                f"{one.name} and {other.name}: what they pass each other by",
                "set the grooves further apart",
            )


def _shelf(shelf: Shelf, held: Accuracy) -> Iterator[Finding]:
    if shelf.left is None or shelf.right is None:
        return
    play = shelf.left + shelf.right
    bay = (
        ("length of the shelf", held.cut),
        ("places of the uprights", held.place),
        ("their thickness", held.thickness),
    )
    where = UnitPoint((shelf.x[0] + shelf.x[1]) / 2, (shelf.y[0] + shelf.y[1]) / 2, shelf.z[0])
    yield from _eaten(
        Chain(play, bay),
        LEAST_SHELF,
        (shelf.parts[0],),
        where,
        f"{shelf.name}: its play in the bay",
        "cut it shorter (usual is 2 to 3 mm less than the bay)",
    )
    if shelf.bearing is not None:
        yield from _eaten(
            Chain(shelf.bearing, bay),
            LEAST_BEARING,
            (shelf.parts[0],),
            where,
            f"{shelf.name}: what it bears on its pins, pushed to one side",
            "cut it longer or take longer pins",
        )


def _housings(unit: Unit, held: Accuracy) -> Iterator[Finding]:
    """Boards in their grooves: the dry fit closes."""
    parts = unit.by_name
    ends: dict[tuple[str, int], list[tuple[Part, Groove]]] = {}
    for joint in unit.joints:
        if not isinstance(joint, Housing):
            continue
        board, into = parts[joint.board], parts[joint.into]
        groove = _groove_for(board, into)
        if groove is None:
            continue
        across = board.placement.up.axis
        play = groove.width - board.board.thickness
        lower = groove.width_tolerance.lower if groove.width_tolerance is not None else 0.0
        chain = Chain(
            play, ((f"thickness of {board.name}", held.thickness), ("width of the groove", -lower))
        )
        if chain.worst < -1e-6:
            yield _open(
                chain, (board.name, into.name), middle(board.box), "does not go into its groove"
            )
        axis = into.side(groove.surface).axis
        if axis != across:
            ends.setdefault((board.name, axis), []).append((into, groove))
    for (name, axis), found in sorted(ends.items()):
        if len(found) == 2:
            yield from _between(parts[name], axis, found, held)


def _between(
    board: Part, axis: int, found: list[tuple[Part, Groove]], held: Accuracy
) -> Iterator[Finding]:
    """A board with both ends in grooves must not hold the two others apart."""
    floors = [
        into.box.face(side := into.side(groove.surface)) - side.sign * groove.depth
        for into, groove in found
    ]
    room = abs(floors[0] - floors[1]) - board.blank_box.size[axis]
    chain = Chain(
        room + DRAWN,
        (
            (f"size of {board.name}", held.cut),
            ("distance of the two grooves", held.cut),
            ("depth of one groove", held.depth),
            ("depth of the other", held.depth),
        ),
    )
    if chain.likely < -1e-6:
        names = tuple(sorted(into.name for into, _ in found))
        yield _open(chain, (board.name, *names), middle(board.box), "holds its joints open")


def _open(chain: Chain, parts: tuple[str, ...], where: UnitPoint, says: str) -> Finding:
    return Finding(
        rule="does-not-close",
        severity=Severity.ERROR,
        parts=parts,
        where=where,
        found=chain.likely,
        limit=0.0,
        sentence=f"{parts[0]} {says} in {' and '.join(parts[1:])} ({chain.told}: worst "
        f"{chain.worst:.2f}, likely {chain.likely:.2f} mm); cut the groove to the measured board "
        "plus 0.1 to 0.3",
    )


def _groove_for(board: Part, into: Part) -> Groove | None:
    """The groove of ``into`` that a board's edge or end lies in."""
    reach = into.board_box(board.blank_box)
    size = into.board.size
    for feature in into.board.features:
        if isinstance(feature, Groove):
            box = feature.box(size)
            pairs = zip(reach.low, reach.high, box.low, box.high, strict=True)
            is_thick = into.placement.directions[feature.near.axis].axis == board.placement.up.axis
            if is_thick and all(min(b, d) - max(a, c) > 0.05 for a, b, c, d in pairs):
                return feature
    return None


__all__ = ["Accuracy", "Chain", "stacks"]
