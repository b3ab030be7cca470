"""Shelves: there is a way in, they stand on every pair of holes, and a hand gets in above.

A shelf is pushed in level above its pins if nothing narrows the bay's front. If something does,
it is tilted, one end up, until it is narrow enough to pass, and turned level behind it; then
it needs the room of its diagonal within the bay. Straight moves are decided by intervals of
travel (``sweep``), the tilt by its closed form. Lengths in mm, angles in radians.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.checks.bodies import Body
from cabinet.checks.columns import Column, gap_between
from cabinet.checks.level import holes_in_unit
from cabinet.checks.pieces import Piece, Span
from cabinet.checks.shelving import Shelf, shelves_of
from cabinet.checks.sliding import Door, sliding
from cabinet.checks.sweep import TOUCH, Space, united
from cabinet.checks.wrong import undecided
from cabinet.design import Unit
from cabinet.features import HoleRow
from cabinet.findings import Finding, Severity
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Screw
from cabinet.joint import PinRows
from cabinet.part import Part

# Less than this above a shelf and no hand gets in (common practice, no source).
LEAST_HEADROOM = 60.0
# A tilted shelf keeps this in all to what it passes.
PASSING = 1.0
# Wood between a pin's hole and a screw, at least (as between other cuts).
LEAST_WEB = 3.0


def tilted_width(length: float, thickness: float, angle: float) -> float:
    """Width that a shelf takes when one end is raised, mm: L cos a + t sin a."""
    return length * math.cos(angle) + thickness * math.sin(angle)


def tilted_height(length: float, thickness: float, angle: float) -> float:
    """Height that it takes then, mm: L sin a + t cos a."""
    return length * math.sin(angle) + thickness * math.cos(angle)


def turning_width(length: float, thickness: float) -> float:
    """Width that it needs to be turned level, mm: its diagonal, the most that any tilt takes."""
    return math.hypot(length, thickness)


def least_tilt(length: float, thickness: float, width: float) -> float:
    """Least tilt beyond its diagonal at which a shelf passes a width.

    L cos a + t sin a = w has the solution a = atan(t / L) + acos(w / sqrt(L2 + t2)).

    Args:
        length: Length of the shelf, mm.
        thickness: Its thickness over all, mm.
        width: Clear width, mm.
    """
    diagonal = turning_width(length, thickness)
    if width >= diagonal:
        return 0.0
    return math.atan2(thickness, length) + math.acos(max(width, 0.0) / diagonal)


@dataclass(frozen=True, slots=True)
class WayIn:
    """How a shelf gets in.

    Attributes:
        shelf: Name of the shelf.
        doors: ``none``, ``left`` or ``right`` (all doors pushed there), or ``out``.
        tilt: How far one end is raised to pass, radians; 0 is level.
    """

    shelf: str
    doors: str
    tilt: float


def ways_in(unit: Unit) -> tuple[WayIn, ...]:
    """How each shelf of a unit gets in, past the doors if that can be, with them out if not."""
    space = Space(unit)
    groups = sliding(unit, space)
    found = []
    for shelf in shelves_of(unit, space):
        way = _way(shelf, groups, unit, space)
        if way is not None:
            found.append(way)
    return tuple(found)


def shelf_fits(unit: Unit) -> Iterator[Finding]:
    """All that can be wrong with shelves on pins."""
    space = Space(unit)
    groups = sliding(unit, space)
    shelves = shelves_of(unit, space)
    everyone = {n for s in shelves for n in (*s.parts, *(pin.name for pin in s.pins))}
    for shelf in shelves:
        yield from _heights(shelf, everyone, space)
        yield from _headroom(shelf, space)
        if _way(shelf, groups, unit, space) is None:
            yield _shut_out(shelf)
    yield from _pins(unit)


def _where(shelf: Shelf) -> UnitPoint:
    return UnitPoint(*((a + b) / 2 for a, b in (shelf.x, shelf.y, shelf.z)))


def _finding(
    rule: str,
    parts: tuple[str, ...],
    where: UnitPoint,
    found: float,
    limit: float,
    sentence: str,
    severity: Severity = Severity.ERROR,
) -> Finding:
    return Finding(
        rule=rule,
        severity=severity,
        parts=parts,
        where=where,
        found=found,
        limit=limit,
        sentence=sentence,
    )


def _heights(shelf: Shelf, everyone: set[str], space: Space) -> Iterator[Finding]:
    """It stands at every height for which there are holes."""
    if not shelf.heights:
        return
    low, high = shelf.heights[0], shelf.heights[-1]
    hits = list(space.stops(shelf.parts, Side.TOP, min(low, 0), max(high, 0), ignoring=everyone))
    for number, height in enumerate(shelf.heights, start=1):
        if abs(height) < 0.05:
            continue
        for hit in hits:
            at = space.meet(hit.mover, hit.other, 2, height, height)
            if at is None:
                continue
            says = (
                f"{shelf.name} cannot stand on hole {number}, {abs(height):.0f} mm "
                f"{'higher' if height > 0 else 'lower'} than shown: it meets {hit.other} there; "
                "leave that hole out or make the shelf smaller"
            )
            if at.is_certain:
                yield _finding(
                    "shelf-height",
                    (hit.mover, hit.other),
                    at.where,
                    height,
                    0.0,
                    says,
                    Severity.WARNING,
                )
            else:
                yield undecided((hit.mover, hit.other), at.where, f"{says}; too near to tell")
            break


def _headroom(shelf: Shelf, space: Space) -> Iterator[Finding]:
    own = [pin.name for pin in shelf.pins]
    above = [
        hit
        for hit in space.stops(shelf.parts, Side.TOP, 0.0, LEAST_HEADROOM, ignoring=own)
        if hit.travel > TOUCH
    ]
    if above:
        hit = min(above, key=lambda h: (h.travel, h.other))
        yield _finding(
            "no-headroom",
            (shelf.parts[0], hit.other),
            _where(shelf),
            hit.travel,
            LEAST_HEADROOM,
            f"{shelf.name} has only {hit.travel:.0f} mm above it to {hit.other}; a hand needs "
            f"{LEAST_HEADROOM:g} mm, so set one of them on other holes",
        )


def _way(
    shelf: Shelf, groups: tuple[tuple[Door, ...], ...], unit: Unit, space: Space
) -> WayIn | None:
    """The easiest way in: past parked doors, else with the doors out; None if there is none."""
    # Doors guided by boards above and below this shelf.
    doors = [
        door
        for group in groups
        if group[0].top.box.low.x < shelf.x[1] and group[0].top.box.high.x > shelf.x[0]
        for door in group
    ]
    out = {*shelf.parts, *(pin.name for pin in shelf.pins)}
    out |= {name for door in doors for name in door.names}
    front = min(unit.outline.low.y, shelf.y[0]) - 1.0
    # Pins and other shelves go in afterwards.
    fixed = {
        hit.other: space.boxes[hit.other]
        for hit in space.stops(shelf.parts, Side.FRONT, 0.0, shelf.y[1] - front, ignoring=out)
        if not _is_loose(space.items[hit.other])
    }
    spans = [box[0] for box in fixed.values()]
    if fixed and _passes_higher(shelf, front, [box[2] for box in fixed.values()], out, space):
        spans = []
    crossing = [door for door in doors if _before(door, shelf)]
    above = _free_above(shelf, out, unit, space)
    for where, covered in _parkings(crossing):
        tilt = _tilt(shelf, [*spans, *covered], above)
        if tilt is not None:
            return WayIn(shelf.name, where, tilt)
    return None


def _passes_higher(
    shelf: Shelf, front: float, blocked: list[Span], out: set[str], space: Space
) -> bool:
    """Whether it passes above or below what stands before it, and is then moved to its height."""
    thickness = shelf.z[1] - shelf.z[0]
    for low in (*(high for _, high in blocked), *(low - thickness for low, _ in blocked)):
        reach: Piece = (shelf.x, (front, shelf.y[1]), (low, low + thickness))
        met = [
            body
            for body in space.near(reach)
            if body.name not in out
            and not _is_loose(body)
            and _reaches(space.grown(body.name), reach)
        ]
        if not met:
            return True
    return False


def _reaches(them: tuple[Piece, ...], reach: Piece) -> bool:
    return any(
        all(min(a[1], b[1]) - max(a[0], b[0]) > TOUCH for a, b in zip(piece, reach, strict=True))
        for piece in them
    )


def _is_loose(body: Body) -> bool:
    """Whether it is a shelf's pin or a shelf, which goes in afterwards."""
    if isinstance(body, Hardware):
        return len(body.inside) == 2 and not isinstance(body.body, Screw)
    return body.group == "shelves"


def _before(door: Door, shelf: Shelf) -> bool:
    box = door.part.box
    return box.low.y < shelf.y[1] and box.low.z < shelf.z[1] and box.high.z > shelf.z[0]


def _parkings(doors: list[Door]) -> Iterator[tuple[str, list[Span]]]:
    """Where doors can be parked, and the spans along X that they then cover."""
    if not doors:
        yield "none", []
        return
    for where in ("left", "right"):
        yield (
            where,
            [
                (
                    door.span[0] + (door.low if where == "left" else door.high),
                    door.span[1] + (door.low if where == "left" else door.high),
                )
                for door in doors
            ],
        )
    yield "out", []


def _free_above(shelf: Shelf, out: set[str], unit: Unit, space: Space) -> float:
    """Height from a shelf's underside to what stands above it, other shelves left out."""
    most = unit.outline.high.z - shelf.z[1]
    for hit in space.stops(shelf.parts, Side.TOP, 0.0, max(most, 1.0), ignoring=out):
        if not _is_loose(space.items[hit.other]):
            most = min(most, hit.travel)
    return most + shelf.z[1] - shelf.z[0]


def _tilt(shelf: Shelf, covered: list[Span], above: float) -> float | None:
    """The tilt at which a shelf passes what is left of its bay's front; None if it cannot.

    Args:
        shelf: The shelf, its low end on its pins.
        covered: What stands before the bay, along X.
        above: Height that its other end can be raised in, from its underside, mm.
    """
    left = shelf.left if shelf.left is not None else 0.0
    right = shelf.right if shelf.right is not None else 0.0
    bay = shelf.x[0] - left, shelf.x[1] + right
    free, at = 0.0, bay[0]
    for low, high in united(covered):
        free, at = max(free, min(low, bay[1]) - at), max(at, high)
    free = max(free, bay[1] - at)
    length, thickness = shelf.x[1] - shelf.x[0], shelf.z[1] - shelf.z[0]
    wide = bay[1] - bay[0]
    if free >= wide - TOUCH:
        return 0.0 if length <= wide - 2 * TOUCH else None
    angle = least_tilt(length, thickness, free - PASSING)
    rises = tilted_height(length, thickness, angle) <= above
    turns = turning_width(length, thickness) <= wide
    return angle if rises and turns else None


def _shut_out(shelf: Shelf) -> Finding:
    length, thickness = shelf.x[1] - shelf.x[0], shelf.z[1] - shelf.z[0]
    room = length + (shelf.left or 0.0) + (shelf.right or 0.0)
    return _finding(
        "shelf-shut-out",
        (shelf.parts[0],),
        _where(shelf),
        turning_width(length, thickness),
        room,
        f"{shelf.name}, {length:.1f} long and {turning_width(length, thickness):.1f} mm over its "
        f"diagonal, cannot be brought into its bay of {room:.1f} mm; cut it shorter or clear the "
        "front of the bay",
    )


def _pins(unit: Unit) -> Iterator[Finding]:
    """Pins at every height against the screws in the same board."""
    parts = unit.by_name
    screws: dict[str, list[Hardware]] = {}
    for item in unit.hardware:
        if isinstance(item.body, Screw):
            for name in item.inside:
                screws.setdefault(name, []).append(item)
    boards = {name for joint in unit.joints if isinstance(joint, PinRows) for name in joint.parts}
    for name in sorted(boards & set(screws)):
        part = parts[name]
        for feature in part.board.features:
            if isinstance(feature, HoleRow) and "pin row" in feature.name:
                yield from _row(part, feature, screws[name])


def _row(part: Part, row: HoleRow, screws: list[Hardware]) -> Iterator[Finding]:
    inwards = part.side(row.surface).opposite
    depth = row.depth if row.depth is not None else part.board.thickness
    for point in holes_in_unit(part, row.name):
        hole = Column(point, inwards, depth, row.diameter / 2)
        for screw in screws:
            gap = min(gap_between(hole, column) for column in _thread_and_head(screw))
            if gap < LEAST_WEB - TOUCH:
                says = f"comes {gap:.1f} mm near" if gap > 0 else f"runs {-gap:.1f} mm into"
                yield _finding(
                    "pin-meets-screw",
                    (part.name, screw.name),
                    point,
                    gap,
                    LEAST_WEB,
                    f"{part.name}: a hole of its {row.name} {says} {screw.name}; at least "
                    f"{LEAST_WEB:g} mm must be left, so move the screw",
                )
                return


def _thread_and_head(item: Hardware) -> Iterator[Column]:
    """A screw as two columns; its head, a cone, is taken for as wide as it is at most."""
    body = item.body
    if isinstance(body, Screw):
        yield Column(item.at, item.axis, body.length, body.diameter / 2)
        head = (body.head_diameter - body.core) / 2
        yield Column(item.at, item.axis, head, body.head_diameter / 2)
