"""Left out: what joints, proofs, moves and hardware count on is there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace

from cabinet.checks.bodies import bodies, middle
from cabinet.design import Unit
from cabinet.findings import Finding, Severity
from cabinet.joint import Gap, Proof

# Hardware may sit in what is no body of the unit.
ELSEWHERE = frozenset({"wall"})


def left_out(unit: Unit) -> Iterator[Finding]:
    """Bodies that others count on but that are not in the unit, each once."""
    items = bodies(unit)
    wanted: dict[str, set[str]] = defaultdict(set)
    groups: list[tuple[str, ...]] = [joint.parts for joint in unit.joints]
    groups += [_of(proof) for proof in unit.proofs]
    groups += [move.parts for move in unit.moves]
    groups += [(item.name, *item.inside) for item in unit.hardware]
    for names in groups:
        for name in names:
            if name not in items and name not in ELSEWHERE:
                wanted[name] |= {other for other in names if other in items}
    for name, by in sorted(wanted.items()):
        others = tuple(sorted(by))
        counts = "counts" if len(others) < 2 else "count"
        told = " and ".join(others[:2]) if others else "the design"
        yield Finding(
            rule="left-out",
            severity=Severity.ERROR,
            parts=others,
            where=middle(items[others[0]].box) if others else None,
            found=None,
            limit=None,
            sentence=f"{name} is left out, but {told} {counts} on it; add it, or take out what "
            "belongs to it",
        )


def what_is_there(unit: Unit) -> Unit:
    """The unit without what counts on bodies that are left out; itself if none is."""
    items = set(bodies(unit))
    hardware = tuple(
        item for item in unit.hardware if all(n in items or n in ELSEWHERE for n in item.inside)
    )
    items -= {item.name for item in unit.hardware} - {item.name for item in hardware}

    def is_whole(names: tuple[str, ...]) -> bool:
        return all(name in items for name in names)

    joints = tuple(joint for joint in unit.joints if is_whole(joint.parts))
    proofs = tuple(proof for proof in unit.proofs if is_whole(_of(proof)))
    # What is left of a group still moves.
    moves = tuple(
        move if is_whole(move.parts) else replace(move, parts=left)
        for move in unit.moves
        if (left := tuple(name for name in move.parts if name in items))
    )
    kept = joints, proofs, moves, hardware
    if kept == (unit.joints, unit.proofs, unit.moves, unit.hardware):
        return unit
    return replace(unit, joints=joints, proofs=proofs, moves=moves, hardware=hardware)


def _of(proof: Proof) -> tuple[str, str]:
    if isinstance(proof, Gap):
        return proof.inner, proof.outer
    return proof.one, proof.other
