"""Operations that share a setting, over all parts, and the order that changes least.

A setting is one stand of one tool: its cutter, its guide with its distance, its depth, its tilt.
What is cut at one stand is cut on all parts while it stands. Where a feature is told from and
what it is called do not matter; only the distance from the edge on the fence does.

A change is anything that has to be touched between one setting and the next of the same tool, a
tool being left as it is set while another one works. Putting in another cutter also sets its
depth and its fence anew. Lengths in mm, angles in degrees.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise, permutations, product

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.findings import Finding, Severity
from cabinet.making.operation import Guide, Operation, Phase, Tool, Work
from cabinet.making.operations import operations
from cabinet.making.rip_tasks import half_operations, own_operations, strip_operations
from cabinet.making.ripped import RippedPair, ripped_pairs
from cabinet.making.shortest_path import Path, shortest_path
from cabinet.part import Board, Part
from cabinet.quantity import written
from cabinet.workshop import Workshop

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
# Guides that are carried to each place on the work, so that they are set by its marks.
_BY_MARKS = (Guide.STRAIGHT_EDGE, Guide.MARKS, Guide.BEARING)


class Change(Enum):
    """What is touched between two settings."""

    TOOL = "tool"
    CUTTER = "cutter"
    GUIDE = "fence or guide"
    DEPTH = "depth"
    ANGLE = "tilt"


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One pass of an operation on all parts that are made to one board.

    Attributes:
        item: Number of the board, as in the lists.
        item_name: What it is called there; of a strip its own name.
        parts: The parts, in the order of the unit.
        operation: The operation.
        number: Which of its passes this is, from 1.
        strip: Name of the strip that is worked on or that the boards came out of, "" if none.
        becomes: Of a strip, the names of the two parts that are ripped out of it.
    """

    item: int
    item_name: str
    parts: tuple[Part, ...]
    operation: Operation
    number: int = 1
    strip: str = ""
    becomes: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the unit's parts that it is for."""
        return self.becomes or tuple(part.name for part in self.parts)

    @property
    def pieces(self) -> int:
        """How many boards are cut."""
        return len(self.parts)

    @property
    def distance(self) -> float | None:
        """From the fence to the cutter in this pass, mm; None where nothing is measured."""
        passes = self.operation.passes
        return passes[self.number - 1] if passes else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """How a tool stands.

    Attributes:
        phase: When it is used so.
        tool: The tool.
        guide: What leads it.
        cutter: Diameter or thickness of its cutter, mm.
        position: Where the guide stands: for a fence its distance; for a hole jig its distance
            from the edge, the first hole's from the end, and the pitch; for a template the long
            and the short size and the corner radius of its opening; () for what goes by marks.
        depth: From the face, mm; None goes through.
        angle: Tilt of the saw, degrees.
    """

    phase: Phase
    tool: Tool
    guide: Guide
    cutter: float
    position: tuple[float, ...]
    depth: float | None
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A stand with all that is cut at it.

    Attributes:
        number: In the order of the work, from 1.
        stand: How the tool stands.
        tasks: What is cut, in the order of the boards.
        changes: What is touched to come here from this tool's setting before; the tool itself
            if another one was in hand.
    """

    number: int
    stand: Stand
    tasks: tuple[Task, ...]
    changes: tuple[Change, ...]

    @property
    def cuts(self) -> int:
        """How many cuts or holes are made at this setting."""
        return sum(t.pieces * max(1, len(t.operation.places)) for t in self.tasks)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUps:
    """All settings of a job in their order.

    Attributes:
        settings: In the order of the work.
        changes: How often each thing is changed, first settings of a tool not counted.
        bound: No order of these settings has fewer changes than this.
    """

    settings: tuple[Setting, ...]
    changes: tuple[tuple[Change, int], ...]
    bound: int

    @property
    def total(self) -> int:
        """All changes."""
        return sum(count for _, count in self.changes)

    @property
    def is_proven(self) -> bool:
        """Whether no order has fewer changes."""
        return self.total == self.bound


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
    return _ordered(tasks)


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


def stand(task: Task) -> Stand:
    """How the tool stands for a task."""
    one = task.operation
    position: tuple[float, ...] = ()
    if one.guide is Guide.FENCE:
        position = (task.distance or 0.0,)
    elif one.guide is Guide.JIG:
        pitch = one.places[1] - one.places[0]
        position = (one.passes[0], one.places[0], pitch)
    elif one.guide is Guide.TEMPLATE:
        short, long = sorted(one.size)
        position = (long, short, one.corner)
    depth = None if one.work is Work.TRIM else one.depth
    return Stand(
        phase=one.phase,
        tool=one.tool,
        guide=one.guide,
        cutter=round(one.cutter, 3),
        position=tuple(round(value, 3) for value in position),
        depth=None if depth is None else round(depth, 3),
        angle=one.angle if one.work is Work.BEVEL else 0.0,
    )


def changes_between(one: Stand, other: Stand) -> tuple[Change, ...]:
    """What is touched on a tool to bring it from one stand to another."""
    is_on_bearing = one.guide is Guide.BEARING, other.guide is Guide.BEARING
    if one.cutter != other.cutter or is_on_bearing[0] is not is_on_bearing[1]:
        found = [Change.CUTTER, Change.GUIDE, Change.DEPTH]
    else:
        found = []
        if (one.guide, one.position) != (other.guide, other.position):
            found.append(Change.GUIDE)
        if one.depth != other.depth:
            found.append(Change.DEPTH)
    if one.angle != other.angle:
        found.append(Change.ANGLE)
    return tuple(found)


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


def _ordered(tasks: Sequence[Task]) -> SetUps:
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


__all__ = [
    "Change",
    "SetUps",
    "Setting",
    "Stand",
    "Task",
    "changes_between",
    "set_up_findings",
    "set_ups",
]
