"""The cuts of a unit as tasks, over all parts and the strips that some come out of, in settings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from cabinet.design import Unit
from cabinet.findings import Finding, Severity
from cabinet.making.operation import Guide, Operation, Tool, Work
from cabinet.making.operations import operations
from cabinet.making.rip_tasks import half_operations, own_operations, strip_operations
from cabinet.making.ripped import RippedPair, ripped_pairs
from cabinet.making.setting import SetUps, Task
from cabinet.making.setup_order import in_order
from cabinet.part import Board
from cabinet.quantity import written
from cabinet.workshop import Workshop

# Guides that are carried to each place on the work, so that they are set by its marks.
_BY_MARKS = (Guide.STRAIGHT_EDGE, Guide.MARKS, Guide.BEARING)


def set_ups(unit: Unit, workshop: Workshop) -> SetUps:
    """The settings of a unit in the order with the fewest changes.

    Args:
        unit: The resolved unit.
        workshop: The tools that there are.

    Raises:
        DesignError: cuts on one board that each have to come before the other.
    """
    made = operations((board for board, _ in unit.boards), workshop)
    pairs = ripped_pairs(unit)
    halves = {part.board for pair in pairs for part in pair.parts}
    names = unit.item_names
    items = {board: item for item, (board, _) in enumerate(unit.boards, start=1)}
    tasks = [
        Task(
            item=items[board],
            item_name=names[parts[0].name],
            parts=parts,
            operation=one,
            number=number,
        )
        for board, parts in unit.boards
        for one in (own_operations(made[board]) if board in halves else made[board])
        if one.tool is not Tool.NONE
        for number in range(1, max(1, _stands(one)) + 1)
    ]
    for pair in pairs:
        tasks += _of_strip(pair, items, names, made, workshop.saw.kerf)
    return in_order(tasks)


def _of_strip(
    pair: RippedPair,
    items: Mapping[Board, int],
    names: Mapping[str, str],
    made: Mapping[Board, Sequence[Operation]],
    kerf: float,
) -> Iterator[Task]:
    """The cuts on a strip, then those that bring its two boards to their sizes."""
    bevels = {
        part.name: next(one for one in made[part.board] if one.work is Work.BEVEL)
        for part in pair.parts
    }
    strip, becomes = pair.strip, tuple(part.name for part in pair.parts)
    for one in strip_operations(pair, bevels[pair.below.name], kerf):
        yield Task(
            item=items[pair.below.board],
            item_name=strip.name,
            parts=(strip,),
            operation=one,
            strip=strip.name,
            becomes=becomes,
        )
    for part in pair.parts:
        for one in half_operations(pair, part, bevels[part.name], kerf):
            yield Task(
                item=items[part.board],
                item_name=names[part.name],
                parts=(part,),
                operation=one,
                strip=strip.name,
            )


def _stands(one: Operation) -> int:
    """Passes that need a stand of their own; a straight-edge is moved at every board anyhow."""
    return 1 if one.guide in _BY_MARKS else len(one.passes)


def set_up_findings(made: SetUps, workshop: Workshop | None = None) -> tuple[Finding, ...]:
    """A warning for stopped ends of a radius that no cutter of the workshop leaves.

    A groove narrower than every cutter, or a corner tighter than all of them, is told by the
    checks of the cutters.

    Args:
        made: The set-ups.
        workshop: The tools; None for the usual ones.
    """
    cutters = (workshop or Workshop()).router.cutters
    wanted: dict[float, list[str]] = {}
    for setting in made.settings:
        for task in setting.tasks:
            one = task.operation
            is_left = any(abs(one.corner - cutter / 2) < 1e-6 for cutter in cutters)
            if one.work is Work.GROOVE and one.corner > min(cutters) / 2 and not is_left:
                wanted.setdefault(one.corner, []).append(f"{task.item_name}, {one.name}")
    return tuple(
        Finding(
            rule="no-such-radius",
            severity=Severity.WARNING,
            parts=(),
            where=None,
            found=radius,
            limit=max(c / 2 for c in cutters if c / 2 < radius),
            sentence=f"{'; '.join(dict.fromkeys(names))}: its stopped ends have a radius of "
            f"{written(radius)} mm and no cutter leaves that; draw "
            f"{written(max(c / 2 for c in cutters if c / 2 < radius))} mm, or square them",
        )
        for radius, names in sorted(wanted.items())
    )


__all__ = ["set_up_findings", "set_ups"]
