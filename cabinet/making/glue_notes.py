"""What else to know of a go of gluing, each a sentence. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cabinet.assembly import Step
from cabinet.design import Unit
from cabinet.frame import Side
from cabinet.hardware import Rod
from cabinet.joint import Housing
from cabinet.making.clamping import ClampRow
from cabinet.making.glue import Glue
from cabinet.making.glue_lines import GlueLine
from cabinet.making.glue_stage import Kind
from cabinet.making.pressing import Pressing
from cabinet.part import Part
from cabinet.quantity import written


def notes(
    pressing: Pressing,
    kind: Kind,
    steps: Sequence[Step],
    lines: Sequence[GlueLine],
    glue: Glue,
    rows: Sequence[ClampRow],
    *,
    is_last: bool,
) -> Iterator[str]:
    """The notes of one go.

    Args:
        pressing: The unit's joints as they are pressed.
        kind: What the go is.
        steps: Its steps of the assembly.
        lines: Its glued joints.
        glue: With what.
        rows: Its rows of clamps.
        is_last: Whether no other go of its group follows.
    """
    unit = pressing.unit
    if not is_last:
        yield (
            "Let this go dry before the next; set the boards that are still to come dry in "
            "their places, so that it stays square."
        )
    for line in lines:
        if line.screws:
            yield _screwed(unit, line)
    for line in lines:
        if pressing.panel(line) and not isinstance(unit.joints[line.index], Housing):
            yield (
                f"{line.parts[0]} on to the {line.parts[1]}: weights, or pins every 150, press it "
                "down; no clamps."
            )
    for step in steps:
        yield from _laid_in(unit, step)
    yield from _bridged(rows)
    proud = sorted({told for line in lines for told in _proud(unit, line)})
    if proud and kind is Kind.GLUE_UP:
        yield f"Proud by so much until it is trimmed, so pads inside of it: {'; '.join(proud)}."
    covering = pressing.covering(lines)
    if covering is not None:
        yield from _covered(covering, glue)


def _bridged(rows: Sequence[ClampRow]) -> Iterator[str]:
    """The joints whose middle no jaws reach."""
    for row in rows:
        if row.is_bridged:
            yield (
                f"{' – '.join(row.parts)}: the middle lies deeper than the jaws of clamps that "
                "open so far reach, so crowned cauls carry the pressure in from both ends."
            )


def _laid_in(unit: Unit, step: Step) -> Iterator[str]:
    """Bars, and panels without glue, that a step brings."""
    bars = {item.name for item in unit.hardware if isinstance(item.body, Rod)}
    loose = [name for name in step.bodies if name in bars]
    if loose and len(loose) == len(step.bodies):
        yield f"In its place before the next board closes it in: {', '.join(loose)}."
    joints = [unit.joints[index] for index in step.joints]
    unglued = {joint.parts[0] for joint in joints if not joint.is_glued}
    dry = [name for name in step.bodies if name in unglued and name in unit.by_name]
    if dry:
        yield f"Dry in its groove, without glue: {', '.join(dry)}."


def _proud(unit: Unit, line: GlueLine) -> Iterator[str]:
    """The parts of a joint that are left proud, with by how much."""
    for name in line.parts:
        trims = unit.by_name[name].board.trims
        if trims:
            yield f"{name} ({', '.join(written(trim.proud) for trim in trims)})"


def _screwed(unit: Unit, line: GlueLine) -> str:
    """Which parts the screws pull together, and where their heads lie."""
    joint = unit.joints[line.index]
    through, other = (unit.by_name[name] for name in joint.parts)
    away = next(
        side
        for side in Side
        if side.axis == line.axis
        and (through.box.face(side) - other.box.face(side)) * side.sign > 0
    )
    surface = through.surface(away)
    seen = "which is not seen"
    if surface in through.board.shows:
        seen = "which shows"
    elif surface in through.board.behind_doors:
        seen = "which is seen only with a door open"
    return (
        f"{line.title}: the screws pull {joint.parts[0]} and {joint.parts[1]} together, no "
        f"clamps; their heads lie in the {through.surface_name(surface)}, {seen}."
    )


def _covered(covering: Part, glue: Glue) -> Iterator[str]:
    """How a covering is pressed, and how much larger it is cut."""
    if glue.is_pressed:
        yield "Even pressure over the whole face: crowned cauls from the middle outwards."
    else:
        low, high = glue.wait_minutes
        yield (
            f"Both faces, leave them open {low:g} to {high:g} minutes until they no longer "
            "string; it holds at once, no second chance: lay it on battens, draw these out "
            "from the middle, and roll hard from the middle outwards."
        )
    yield (
        f"Cut oversize by {written(covering.board.oversize or 0.0)} on every edge; trim it when dry."
    )


__all__ = ["notes"]
