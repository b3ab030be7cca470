"""What ties the bodies of a unit: which parts are glued into one, which only lie in each other.

Parts that hold each other by housing, biscuits or notch make a frame and are glued in one go.
What is glued or screwed flat on to a frame is applied to it when the frame is dry.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from cabinet.design import Unit
from cabinet.hardware import BiscuitPiece, Hardware, Rod, Screw
from cabinet.joint import Biscuits, Butt, Crossing, Housing, Joint, Screwed, Track
from cabinet.motion import Motion
from cabinet.part import Part

Item = TypeVar("Item")

# Joints that hold parts to each other; the others only mark or open them.
HOLDING = (Housing, Biscuits, Crossing, Butt, Screwed, Track)


@dataclass(frozen=True, slots=True)
class Ties:
    """The ties of a unit, worked out once.

    Attributes:
        parts: The parts by name.
        hardware: The bought pieces by name.
        rods: For each part the pins and bars that sit in it.
        joints: For each part its joints that hold, each by its index and its parts.
        clusters: Names of the parts that end as one rigid thing, in the order of the parts.
        frames: For each cluster its frames, the largest first.
        pairs: For each body the sets of bodies that are joined or sit in each other with it.
        dry: Pairs of parts of which one lies dry in a groove or rebate of the other.
        tracks: For each door, the boards that guide it.
        wall: Names of the parts that go on the wall before the unit.
        biscuits: For each part, the biscuits that are put into it first.
    """

    parts: Mapping[str, Part]
    hardware: dict[str, Hardware]
    rods: dict[str, tuple[Hardware, ...]]
    joints: dict[str, tuple[tuple[int, frozenset[str]], ...]]
    clusters: tuple[tuple[str, ...], ...]
    frames: tuple[tuple[tuple[str, ...], ...], ...]
    pairs: dict[str, tuple[tuple[str, ...], ...]]
    dry: tuple[tuple[str, str], ...]
    tracks: dict[str, frozenset[str]]
    wall: frozenset[str]
    biscuits: dict[str, tuple[Hardware, ...]]


def ties(unit: Unit) -> Ties:
    """Work out what ties the bodies of a unit."""
    names = [part.name for part in unit.parts]
    held = [j for j in unit.joints if isinstance(j, HOLDING) and len(set(j.parts)) > 1]
    fixed = [j.parts for j in held if j.is_glued or isinstance(j, Screwed)]
    locking = [j.parts for j in held if j.is_glued and isinstance(j, Housing | Biscuits | Crossing)]
    clusters = connected(names, fixed)
    lock_of: dict[str, list[tuple[str, ...]]] = {}
    for pair in locking:
        lock_of.setdefault(pair[0], []).append(pair)
    size = {p.name: p.board.length * p.board.width * p.board.thickness for p in unit.parts}
    frames = tuple(
        tuple(
            sorted(
                connected(cluster, [pair for n in cluster for pair in lock_of.get(n, ())]),
                key=lambda frame: -sum(size[name] for name in frame),
            )
        )
        for cluster in clusters
    )
    tracks: dict[str, frozenset[str]] = {}
    for joint in held:
        if isinstance(joint, Track):
            tracks[joint.door] = tracks.get(joint.door, frozenset()) | {joint.board}
    return Ties(
        parts=unit.by_name,
        hardware={item.name: item for item in unit.hardware},
        rods=_grouped((item.inside[0], item) for item in rods(unit) if item.inside),
        joints=_joints(unit),
        clusters=clusters,
        frames=frames,
        pairs=_pairs(held, unit.hardware),
        dry=tuple((j.board, j.into) for j in held if isinstance(j, Housing) and not j.is_glued),
        tracks=tracks,
        wall=_on_the_wall(unit),
        biscuits=_biscuits(unit),
    )


def _grouped(items: Iterable[tuple[str, Item]]) -> dict[str, tuple[Item, ...]]:
    """Items by name, each name's in their order."""
    found: dict[str, list[Item]] = {}
    for name, item in items:
        found.setdefault(name, []).append(item)
    return {name: tuple(them) for name, them in found.items()}


def _joints(unit: Unit) -> dict[str, tuple[tuple[int, frozenset[str]], ...]]:
    return _grouped(
        (name, (index, frozenset(joint.parts)))
        for index, joint in enumerate(unit.joints)
        if holds(joint)
        for name in dict.fromkeys(joint.parts)
    )


def _pairs(
    joints: Iterable[Joint], hardware: Iterable[Hardware]
) -> dict[str, tuple[tuple[str, ...], ...]]:
    pairs = [*(j.parts for j in joints), *((item.name, *item.inside) for item in hardware)]
    return _grouped((name, pair) for pair in pairs for name in dict.fromkeys(pair))


def connected(
    names: Iterable[str], pairs: Iterable[tuple[str, ...]]
) -> tuple[tuple[str, ...], ...]:
    """The sets of names that pairs connect, each and all in the order of the names."""
    order = list(names)
    group = {name: name for name in order}

    def root(name: str) -> str:
        while group[name] != name:
            group[name] = group[group[name]]
            name = group[name]
        return name

    for pair in pairs:
        for other in pair[1:]:
            group[root(other)] = root(pair[0])
    found: dict[str, list[str]] = {}
    for name in order:
        found.setdefault(root(name), []).append(name)
    return tuple(tuple(members) for members in found.values())


def _on_the_wall(unit: Unit) -> frozenset[str]:
    parts = unit.by_name
    dropped = [m for m in unit.moves if m.motion is Motion.DROP]
    return frozenset(name for move in dropped for name in move.parts if name in parts)


def _biscuits(unit: Unit) -> dict[str, tuple[Hardware, ...]]:
    parts = unit.by_name
    found: dict[str, tuple[Hardware, ...]] = {}
    for item in unit.hardware:
        if isinstance(item.body, BiscuitPiece):
            host = next((name for name in item.inside if name in parts), None)
            if host is not None:
                found[host] = (*found.get(host, ()), item)
    return found


def moved_by(unit: Unit, motion: Motion) -> frozenset[str]:
    """Names of all bodies that make such a move."""
    return frozenset(n for m in unit.moves if m.motion is motion for n in m.parts)


def screws(unit: Unit) -> tuple[Hardware, ...]:
    """All screws of a unit."""
    return tuple(item for item in unit.hardware if isinstance(item.body, Screw))


def rods(unit: Unit) -> tuple[Hardware, ...]:
    """All pins and bars of a unit."""
    return tuple(item for item in unit.hardware if isinstance(item.body, Rod))


def holds(joint: Joint) -> bool:
    """Whether a joint holds parts to each other."""
    return isinstance(joint, HOLDING)
