"""The shelves of a unit as the checks see them: what moves with one, its pins, its room.

Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container
from dataclasses import dataclass

from cabinet.checks.level import holes_in_unit
from cabinet.checks.pieces import Span
from cabinet.checks.sweep import Space, united
from cabinet.design import Unit
from cabinet.features import HoleRow
from cabinet.frame import Side
from cabinet.hardware import Hardware, Rod
from cabinet.motion import Motion
from cabinet.part import Part

# Nothing further away at a shelf's ends is its bay, mm.
FAR = 60.0
# A pin and a hole nearer than this are in one row, mm.
IN_ROW = 1.0


@dataclass(frozen=True, slots=True)
class Shelf:
    """A shelf in its place.

    Attributes:
        name: What the maker calls it.
        parts: Names of its boards and of what is glued into them.
        pins: The pins under it.
        x: From end to end.
        y: From front to back.
        z: Underside and upper side.
        left: Room between its left end and what stands there; None if nothing does.
        right: The same at its right end.
        heights: How far up or down, from where it is shown, its pins can be set.
        bearing: How much of an end is left on its pin when the shelf is pushed the other way;
            None if it has no pins, or nothing stands at one of its ends.
    """

    name: str
    parts: tuple[str, ...]
    pins: tuple[Hardware, ...]
    x: Span
    y: Span
    z: Span
    left: float | None
    right: float | None
    heights: tuple[float, ...]
    bearing: float | None


def shelves_of(unit: Unit, space: Space) -> tuple[Shelf, ...]:
    """All shelves that stand on pins."""
    pins: dict[str, list[Hardware]] = defaultdict(list)
    for item in unit.hardware:
        if isinstance(item.body, Rod) and len(item.inside) == 2:
            pins[item.inside[1]].append(item)
    moved: dict[str, tuple[str, ...]] = {}
    titles: dict[str, str] = {}
    stands_on = {pin.name: name for name, under in pins.items() for pin in under}
    for move in unit.moves:
        if move.motion is Motion.SHELF:
            for name in {stands_on[part] for part in move.parts if part in stands_on}:
                moved[name] = move.parts
                titles[name] = move.name.removesuffix(" by its pins")
    groups = []
    for name, under in pins.items():
        members = moved.get(name) or tuple(
            part.name
            for part in unit.parts
            if part.name == name or part.name.startswith(f"{name} ")
        )
        boards = [n for n in members if isinstance(space.items.get(n), Part)]
        if boards:
            groups.append((titles.get(name, name), space.carried(boards), tuple(under)))
    everyone = {n for _, members, under in groups for n in (*members, *(p.name for p in under))}
    return tuple(_shelf(space, everyone, *group) for group in groups)


def _shelf(
    space: Space,
    everyone: Container[str],
    name: str,
    members: tuple[str, ...],
    pins: tuple[Hardware, ...],
) -> Shelf:
    boxes = [space.boxes[member] for member in members]
    spans = [(min(b[a][0] for b in boxes), max(b[a][1] for b in boxes)) for a in range(3)]
    room = {
        side: min(
            (hit.travel for hit in space.stops(members, side, 0.0, FAR, ignoring=everyone)),
            default=None,
        )
        for side in (Side.LEFT, Side.RIGHT)
    }
    return Shelf(
        name=name,
        parts=members,
        pins=pins,
        x=spans[0],
        y=spans[1],
        z=spans[2],
        left=room[Side.LEFT],
        right=room[Side.RIGHT],
        heights=_heights(space, pins),
        bearing=_bearing(space, members, pins, room[Side.LEFT], room[Side.RIGHT]),
    )


def _bearing(
    space: Space,
    members: tuple[str, ...],
    pins: tuple[Hardware, ...],
    left: float | None,
    right: float | None,
) -> float | None:
    if left is None or right is None or not pins:
        return None
    found = []
    for pin in pins:
        box = space.boxes[pin.name]
        # A lipped end lies on its pin with its lipping and its board.
        lies = united(
            (max(mine[0][0], box[0][0]), min(mine[0][1], box[0][1]))
            for mine in (space.boxes[name] for name in members)
            if mine[1][0] < box[1][1]
            and mine[1][1] > box[1][0]
            and mine[2][0] < box[2][1] + 1.0
            and min(mine[0][1], box[0][1]) > max(mine[0][0], box[0][0])
        )
        away = right if pin.axis is Side.LEFT else left
        found.append(sum(high - low for low, high in lies) - away)
    return min(found)


def _heights(space: Space, pins: tuple[Hardware, ...]) -> tuple[float, ...]:
    """Heights, from where it is, at which there is a hole for every one of its pins."""
    common: set[float] | None = None
    for pin in pins:
        board = space.items.get(pin.inside[0])
        if not isinstance(board, Part):
            continue
        faces = pin.axis.opposite
        steps = {
            round(point.z - pin.at.z, 1)
            for feature in board.board.features
            if isinstance(feature, HoleRow) and board.side(feature.surface) is faces
            for point in holes_in_unit(board, feature.name)
            if abs(point.y - pin.at.y) < IN_ROW
        }
        common = steps if common is None else common & steps
    return tuple(sorted(common or ()))
