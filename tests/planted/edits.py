"""Small changes to a resolved unit, out of which mistakes are made."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from cabinet.design import Unit
from cabinet.features import Feature, Groove
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Rod
from cabinet.joint import Gap, Track
from cabinet.motion import Motion
from cabinet.part import Part, board_part
from cabinet.stock import birch_plywood
from tests.cabinet.checks.planted import shifted, with_board, with_feature, with_part


def resized(part: Part, side: Side, more: float) -> Part:
    """The part with one of its ends or edges moved out by so much; in if it is negative."""
    surface = part.surface(side)
    board = part.board
    if surface.axis == 0:
        longer = replace(board, length=board.length + more)
    else:
        longer = replace(board, width=board.width + more)
    made = with_board(part, longer)
    return shifted(made, side, more) if surface.sign < 0 else made


def with_hardware(unit: Unit, old: Hardware, new: Hardware) -> Unit:
    """The unit with one bought piece exchanged."""
    items = tuple(new if item == old else item for item in unit.hardware)
    assert items != unit.hardware
    return replace(unit, hardware=items)


def more_hardware(unit: Unit, *items: Hardware) -> Unit:
    """The unit with further bought pieces."""
    return replace(unit, hardware=unit.hardware + items)


def moved_body(unit: Unit, names: tuple[str, ...], side: Side, distance: float) -> Unit:
    """The unit with some of its bodies somewhere else."""
    parts = tuple(shifted(p, side, distance) if p.name in names else p for p in unit.parts)
    hardware = tuple(
        replace(item, at=item.at.moved(side, distance)) if item.name in names else item
        for item in unit.hardware
    )
    assert (parts, hardware) != (unit.parts, unit.hardware)
    return replace(unit, parts=parts, hardware=hardware)


def without(unit: Unit, name: str) -> Unit:
    """The unit with a part left out, and all that holds it or is to touch it."""
    gone = {item.name for item in unit.hardware if name in item.inside} | {name}
    proofs = tuple(
        proof
        for proof in unit.proofs
        if not gone
        & ({proof.inner, proof.outer} if isinstance(proof, Gap) else {proof.one, proof.other})
    )
    return replace(
        unit,
        parts=tuple(part for part in unit.parts if part.name != name),
        joints=tuple(joint for joint in unit.joints if name not in joint.parts),
        hardware=tuple(item for item in unit.hardware if item.name not in gone),
        proofs=proofs,
    )


def more_parts(unit: Unit, *parts: Part) -> Unit:
    """The unit with further boards."""
    return replace(unit, parts=unit.parts + parts)


def feature_of(part: Part, name: str) -> Feature:
    """The feature of a part whose name begins so."""
    return next(f for f in part.board.features if f.name.startswith(name))


def refeatured(unit: Unit, part: str, name: str, change: Callable[[Feature], Feature]) -> Unit:
    """The unit with one feature of a part changed."""
    made = unit.by_name[part]
    old = feature_of(made, name)
    return with_part(unit, with_feature(made, old, change(old)))


def unfeatured(unit: Unit, part: str, name: str) -> Unit:
    """The unit with one feature of a part forgotten."""
    made = unit.by_name[part]
    old = feature_of(made, name)
    left = tuple(f for f in made.board.features if f != old)
    return with_part(unit, with_board(made, replace(made.board, features=left)))


def doors_of(unit: Unit) -> list[Part]:
    """The sliding doors from left to right."""
    names = {joint.door for joint in unit.joints if isinstance(joint, Track)}
    return sorted((p for p in unit.parts if p.name in names), key=lambda p: p.box.low.x)


def rear_door(unit: Unit) -> Part:
    """The last of the doors in the rear track."""
    return max(doors_of(unit), key=lambda p: (p.box.low.y, p.box.low.x))


def front_door(unit: Unit) -> Part:
    """The first of the doors in the front track."""
    return min(doors_of(unit), key=lambda p: (p.box.low.y, p.box.low.x))


def door_groove(unit: Unit, board: str, door: Part) -> Groove:
    """The groove of a board in which a door runs."""
    made = unit.by_name[board]
    middle = door.box.high.y - 3.0
    for feature in made.board.features:
        if isinstance(feature, Groove) and feature.takes.startswith("tongue"):
            near = feature.near.distance
            if near <= middle - made.box.low.y <= near + feature.width:
                return feature
    raise AssertionError(f"{door.name} has no groove in {board}")


def with_door_groove(
    unit: Unit, board: str, door: Part, change: Callable[[Groove], Groove]
) -> Unit:
    """The unit with the groove of a door in a board changed."""
    old = door_groove(unit, board, door)
    return with_part(unit, with_feature(unit.by_name[board], old, change(old)))


def shelf_bodies(unit: Unit, index: int = 0) -> tuple[str, ...]:
    """Names of all that moves with a shelf."""
    moves = [move for move in unit.moves if move.motion is Motion.SHELF]
    return moves[index].parts


def plain_shelf(unit: Unit) -> Part:
    """A shelf that is one board."""
    return next(
        p
        for p in unit.parts
        if p.role == "shelf" and not any(q.name.startswith(f"{p.name} ") for q in unit.parts)
    )


def knob(
    door: Part, side: Side, from_edge: tuple[Side, float], length: float, diameter: float = 14.0
) -> Hardware:
    """A round pull that stands out of a door.

    Args:
        door: The door.
        side: Face that it stands out of.
        from_edge: Edge from which its middle is set out, and how far, mm.
        length: How far it stands out, mm.
        diameter: Its diameter, mm.
    """
    box = door.box
    edge, inset = from_edge
    x = box.face(edge) - edge.sign * inset
    z = (box.low.z + box.high.z) / 2 + 60.0
    return Hardware(
        name=f"pull of {door.name}",
        article="round pull",
        body=Rod(diameter=diameter, length=length),
        at=UnitPoint(x, box.face(side), z),
        axis=side,
        inside=(door.name,),
    )


def batten(
    name: str, low: tuple[float, float, float], size: tuple[float, float], thick: float = 12.0
) -> Part:
    """A board standing on edge: its length to the right, its width upwards, mm."""
    stock = birch_plywood(thick, thick)
    return board_part(
        name=name,
        role=name,
        stock=stock,
        box_low=UnitPoint(*low),
        length=(Side.RIGHT, size[0]),
        width=(Side.TOP, size[1]),
        fence=Side.BOTTOM,
        stop=Side.LEFT,
    )


def with_travel(unit: Unit, door: Part, more: float) -> Unit:
    """The unit with a door's slide to the right planned longer by so much."""
    moves = tuple(
        replace(move, high=move.high + more)
        if move.motion is Motion.SLIDE and door.name in move.parts
        else move
        for move in unit.moves
    )
    assert moves != unit.moves
    return replace(unit, moves=moves)


__all__ = [
    "batten",
    "door_groove",
    "doors_of",
    "feature_of",
    "front_door",
    "knob",
    "more_hardware",
    "more_parts",
    "moved_body",
    "plain_shelf",
    "rear_door",
    "refeatured",
    "resized",
    "shelf_bodies",
    "shifted",
    "unfeatured",
    "with_board",
    "with_door_groove",
    "with_feature",
    "with_hardware",
    "with_part",
    "with_travel",
    "without",
]
