"""Locked: the unit comes together by straight moves, and what is fitted last can be.

Found on the assembly's order: what does not come apart, and what can only go in before the glue
though it is meant to be taken in and out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import combinations

from cabinet.assembly import Assembly, Stage
from cabinet.checks.assembly import assembly, solved
from cabinet.checks.bodies import bodies, middle
from cabinet.checks.standing import standing, when
from cabinet.checks.ties import holds, rods
from cabinet.design import Unit
from cabinet.findings import Finding, Severity
from cabinet.frame import UnitBox
from cabinet.hardware import BiscuitPiece
from cabinet.motion import Motion
from cabinet.part import Part


def locks(unit: Unit) -> Iterator[Finding]:
    """Parts that lock each other, and parts that are shut in when the frame is glued."""
    order = assembly(unit)
    sure = solved(unit, at_least=True)
    for rule, locked in (("locked", order.locked), ("undecided", sure.locked)):
        parts = tuple(sorted(name for name in locked if name in unit.by_name))
        if parts:
            yield _locked(unit, rule, parts)
            break
    else:
        yield from _shut_in(unit, order)


def loose_parts(unit: Unit) -> Iterator[Finding]:
    """Parts that no joint, no bought piece and no move ties to anything."""
    tied = {name for joint in unit.joints if holds(joint) for name in joint.parts}
    tied |= {name for item in unit.hardware for name in item.inside}
    tied |= {name for move in unit.moves for name in move.parts}
    for part in unit.parts:
        if len(unit.parts) > 1 and part.name not in tied:
            size = " × ".join(f"{extent:.1f}" for extent in part.box.size)
            yield Finding(
                rule="held-by-nothing",
                severity=Severity.ERROR,
                parts=(part.name,),
                where=middle(part.box),
                found=None,
                limit=None,
                sentence=f"{part.name}, {size} mm, is joined to nothing and lies on no pins; give "
                "it a joint, or leave it out",
            )


def _locked(unit: Unit, rule: str, parts: tuple[str, ...]) -> Finding:
    boxes = [unit.by_name[name].box for name in parts]
    deep = max(_let_in(boxes), *_biscuits(unit, frozenset(parts)), 0.0)
    told = ", ".join(parts)
    is_sure = rule == "locked"
    says = (
        f"{told} lock each other, up to {deep:.1f} mm deep: none of them can be put in by a "
        "straight move while the others stand; let a groove run out at one end, or join one of "
        "them another way"
        if is_sure
        else f"{told} come apart only if the round cuts between them, up to {deep:.1f} mm deep, "
        "leave room, which boxes cannot tell; try it dry, or square these cuts"
    )
    return Finding(
        rule=rule,
        severity=Severity.ERROR if is_sure else Severity.UNDECIDED,
        parts=parts,
        where=middle(boxes[0]),
        found=deep,
        limit=0.0,
        sentence=says,
    )


def _let_in(boxes: list[UnitBox]) -> float:
    """How deep the deepest of these boxes is let into another, mm."""
    pairs = (one.overlap(other) for one, other in combinations(boxes, 2))
    return max((min(spans) for spans in pairs), default=0.0)


def _biscuits(unit: Unit, parts: frozenset[str]) -> list[float]:
    """How deep the biscuits between these parts sit in each, mm."""
    return [
        item.body.biscuit.width / 2
        for item in unit.hardware
        if isinstance(item.body, BiscuitPiece) and parts >= set(item.inside)
    ]


def _shut_in(unit: Unit, order: Assembly) -> Iterator[Finding]:
    """What moves in use, or is laid in last, but goes in only while the frame is open."""
    steps, items, parts = when(order), bodies(unit), unit.by_name
    moving = {
        name: m.name
        for m in unit.moves
        if m.motion in {Motion.LIFT, Motion.SLIDE, Motion.SHELF}
        for name in m.parts
    }
    bars = {rod.name for rod in rods(unit)}
    glued = _shut_with(order)
    # Of what moves as one, the largest part tells for all.
    largest = sorted((n for n in moving if n in parts), key=lambda n: (_bulk(parts[n]), n))
    for move in {moving[name]: name for name in largest}.values():
        yield from _too_early(parts, move, glued.get(move, frozenset()))
    for name in sorted(bars & set(steps)):
        step, _ = steps[name]
        if step.stage is Stage.GLUED:
            box = items[name].box
            long = max(box.size)
            yield Finding(
                rule="shut-in",
                severity=Severity.WARNING,
                parts=(name,),
                where=middle(box),
                found=long,
                limit=None,
                sentence=f"{name}, {long:.1f} mm long, can only be laid in before the frame is "
                "closed and never comes out again; make it shorter than the space between the "
                "boards beside it",
            )


def _bulk(part: Part) -> float:
    return math.prod(part.box.size)


def _shut_with(order: Assembly) -> dict[str, frozenset[str]]:
    """For each body that is not fitted last, what it hangs together with when the glue is dry."""
    found: dict[str, frozenset[str]] = {}
    for step, whole in standing(order):
        if step.stage is Stage.GLUED:
            found |= dict.fromkeys(whole, whole)
        elif step.stage is Stage.AFTER_FINISHING:
            for name in step.bodies:
                found.pop(name, None)
    return found


def _too_early(parts: Mapping[str, Part], name: str, beside: frozenset[str]) -> Iterator[Finding]:
    """A part that is shut in at the gluing although it moves in use."""
    groups = {parts[each].group for each in beside if each in parts}
    if not groups - {parts[name].group}:
        return
    box = parts[name].box
    size = " × ".join(f"{extent:.1f}" for extent in box.size)
    yield Finding(
        rule="shut-in",
        severity=Severity.ERROR,
        parts=(name,),
        where=middle(box),
        found=max(box.size),
        limit=None,
        sentence=f"{name}, {size} mm, can only be put in before the frame is glued and never comes "
        "out again; make it smaller than the opening, or leave a way open for it",
    )


__all__ = ["locks", "loose_parts"]
