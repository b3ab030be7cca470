"""The order of settings that changes least, with its proof.

Phases follow each other, each takes up each of its tools once, and a tool its cutters one by one.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise, permutations, product

from cabinet.errors import DesignError
from cabinet.making.operation import Guide, Phase, Tool, Work
from cabinet.making.setting import Change, Setting, SetUps, Stand, Task, changes_between, stand
from cabinet.making.shortest_path import Path, shortest_path
from cabinet.quantity import written

_PHASES = tuple(Phase)
# Which tool is taken first where the order does not matter: long straight cuts, then holes.
_TOOLS = (
    Tool.SAW,
    Tool.ROUTER,
    Tool.BISCUIT_JOINTER,
    Tool.DRILL,
    Tool.PILLAR_DRILL,
    Tool.HAND,
)


def in_order(tasks: Sequence[Task]) -> SetUps:
    """The settings of all tasks in the order with the fewest changes.

    Raises:
        DesignError: cuts that each have to come before the other.
    """
    groups: dict[Stand, list[Task]] = {}
    for task in tasks:
        groups.setdefault(stand(task), []).append(task)
    stands = sorted(groups, key=_natural)
    index = {one: number for number, one in enumerate(stands)}
    before = {
        (index[a], index[b])
        for a, b in product(stands, repeat=2)
        if a != b and _goes_before(a, b, groups)
    }
    bound, paths = 0, {}
    for tool in dict.fromkeys(one.tool for one in stands):
        paths[tool] = _tool_path(
            [i for i, one in enumerate(stands) if one.tool is tool], stands, before
        )
        bound += paths[tool].bound
    sequence, switches = _tool_order(stands, before)
    bound += switches
    settings: list[Setting] = []
    last: dict[Tool, Stand] = {}
    for phase, tool in sequence:
        for place in paths[tool].order:
            here = stands[place]
            if here.phase is not phase:
                continue
            touched = changes_between(last[tool], here) if tool in last else ()
            if settings and settings[-1].stand.tool is not tool:
                touched = (Change.TOOL, *touched)
            last[tool] = here
            settings.append(
                Setting(
                    number=len(settings) + 1,
                    stand=here,
                    tasks=tuple(groups[here]),
                    changes=touched,
                )
            )
    counts = Counter(change for one in settings for change in one.changes)
    return SetUps(
        settings=tuple(settings),
        changes=tuple((change, counts[change]) for change in Change),
        bound=bound,
    )


def _before(first: Task, second: Task) -> bool:
    """Whether the first has to come first: the second cuts into an edge that it is told from."""
    one, other = first.operation, second.operation
    if first.strip and first.strip == second.strip:
        return _in_strip(first) < _in_strip(second)
    if first.item != second.item or one is other:
        return False
    if other.work is Work.BEVEL and one.work is not Work.BEVEL:
        taken = other.reference.opposite
    elif other.work is Work.NOTCH and one.work not in (Work.NOTCH, Work.BEVEL):
        taken = other.reference
    else:
        # A countersink follows its hole.
        return other.work is Work.COUNTERSINK and one.work is Work.BORE and one.name == other.name
    ends = [at.datum for at in (one.start, one.end) if at is not None]
    return taken in (one.reference, one.stop, *ends)


def _in_strip(task: Task) -> int:
    """A strip is cut to size, then ripped; then its boards are ripped, and cut to their sizes."""
    is_bevel = task.operation.work is Work.BEVEL
    return int(is_bevel) if task.becomes else 3 - int(is_bevel)


def _natural(one: Stand) -> tuple[object, ...]:
    """Phases, tools and cutters in the order of the bench, then shallow and near cuts first."""
    return (
        _PHASES.index(one.phase),
        _TOOLS.index(one.tool),
        -one.cutter,
        one.guide.value,
        one.angle,
        one.depth if one.depth is not None else 1e9,
        one.position,
    )


def _goes_before(one: Stand, other: Stand, groups: dict[Stand, list[Task]]) -> bool:
    if one.phase is not other.phase:
        return _PHASES.index(one.phase) < _PHASES.index(other.phase)
    return any(_before(a, b) for a in groups[one] for b in groups[other])


def _tool_path(
    places: Sequence[int], stands: Sequence[Stand], before: set[tuple[int, int]]
) -> Path:
    """The settings of one tool in their best order, cutter by cutter.

    Another cutter costs three changes and no change within a cutter costs more than that, so an
    order that takes a cutter up twice is never better.
    """
    blocks: dict[tuple[object, ...], list[int]] = {}
    for place in places:
        one = stands[place]
        blocks.setdefault((one.cutter, one.guide is Guide.BEARING), []).append(place)
    order: list[int] = []
    bound = 0
    for block in _block_order(list(blocks.values()), stands, before):
        path = shortest_path(
            len(block),
            lambda a, b, block=block: len(  # type: ignore[misc]
                changes_between(stands[block[a]], stands[block[b]])
            ),
            {(block.index(a), block.index(b)) for a, b in before if a in block and b in block},
        )
        entry = 0
        if order:
            entry = min(len(changes_between(stands[a], stands[b])) for a in order for b in block)
        bound += path.bound + entry
        order += [block[i] for i in path.order]
    cost = sum(len(changes_between(stands[a], stands[b])) for a, b in pairwise(order))
    return Path(order=tuple(order), cost=cost, bound=bound)


def _block_order(
    blocks: list[list[int]], stands: Sequence[Stand], before: set[tuple[int, int]]
) -> list[list[int]]:
    """Blocks so that what must come first does; otherwise as they are."""
    left, found = list(blocks), []
    while left:
        ready = next(
            (
                block
                for block in left
                if not any(
                    a in other and b in block
                    for other in left
                    if other is not block
                    for a, b in before
                )
            ),
            None,
        )
        if ready is None:
            cutters = tuple(stands[block[0]].cutter for block in left)
            raise DesignError(
                f"set-ups: of the cutters {', '.join(map(written, cutters))} mm each would have to "
                "be used before another; tell a cut from an edge that no other cut takes away",
                part="set-ups",
                value=cutters,
                limit="an order",
            )
        left.remove(ready)
        found.append(ready)
    return found


def _tool_order(
    stands: Sequence[Stand], before: set[tuple[int, int]]
) -> tuple[list[tuple[Phase, Tool]], int]:
    """Phases with their tools, each tool once in a phase, and the number of tool changes.

    Each phase takes each of its tools up at least once, so the least number is found by trying
    the orders of every phase and joining them where one tool ends one phase and begins the next.
    """
    best: dict[Tool | None, tuple[int, list[tuple[Phase, Tool]]]] = {None: (-1, [])}
    for phase in _PHASES:
        tools = sorted({s.tool for s in stands if s.phase is phase}, key=_TOOLS.index)
        if not tools:
            continue
        bans = {
            (stands[a].tool, stands[b].tool)
            for a, b in before
            if stands[a].phase is phase is stands[b].phase and stands[a].tool is not stands[b].tool
        }
        found: dict[Tool | None, tuple[int, list[tuple[Phase, Tool]]]] = {}
        for order in permutations(tools):
            if any(order.index(a) > order.index(b) for a, b in bans):
                continue
            for last, (count, done) in best.items():
                cost = count + len(order) - (last is order[0])
                if order[-1] not in found or cost < found[order[-1]][0]:
                    found[order[-1]] = (cost, [*done, *((phase, tool) for tool in order)])
        if not found:
            names = tuple(tool.value for tool in tools)
            raise DesignError(
                f"set-ups, {phase.value}: of {', '.join(names)} each would have to be used before "
                "another; tell a cut from an edge that no other cut takes away",
                part="set-ups",
                value=names,
                limit="an order",
            )
        best = found
    count, sequence = min(best.values(), key=lambda one: one[0])
    return sequence, max(0, count)


__all__ = ["in_order"]
