"""What a set-up's block says: its large figures and the rows of boards to tick off."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from cabinet.board import At, surface_at
from cabinet.making.operation import Guide, Operation, Tool, Work
from cabinet.making.setting import Setting, Task
from cabinet.part import Part
from cabinet.workshop import GuideBush, Workshop
from drawings.number import dimension_text

BOX = "\N{BALLOT BOX}"
_HUNDREDTH = re.compile(r"\.\d\d")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One number to be set, large.

    Attributes:
        letter: The letter by which the sketch shows it, "" if it does not.
        caption: What it is.
        value: The number as it is read from the bench.
        is_main: Whether it is a distance or a depth, which are read most.
    """

    letter: str
    caption: str
    value: str
    is_main: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Boards that are cut alike at one setting.

    Attributes:
        pieces: How many.
        boards: What they are called on the lists, with how many there are of each.
        cuts: In their order: what lies up and what runs on the fence, "" where neither matters,
            and what is cut where.
    """

    pieces: int
    boards: str
    cuts: tuple[tuple[str, str], ...]

    @property
    def sentences(self) -> tuple[str, ...]:
        """Each cut with the way the board lies for it."""
        return tuple(f"{lies}: {cut}" if lies else cut for lies, cut in self.cuts)


def heading(setting: Setting) -> str:
    """Tool and guide of a setting."""
    stand = setting.stand
    if stand.tool is Tool.HAND:
        return "Saw and chisel, to the marks"
    if _work(setting) is Work.COUNTERSINK:
        return "Drill, countersink"
    if _work(setting) is Work.BEVEL:
        return "Saw, tilted, fence"
    return f"{stand.tool.value.capitalize()}, {stand.guide.value}"


def _work(setting: Setting) -> Work:
    return setting.tasks[0].operation.work


def reach(workshop: Workshop, cutter: float) -> float:
    """From a straight-edge to the nearer side of the cutter, mm."""
    return (workshop.router.base - cutter) / 2


def bush_with(workshop: Workshop, cutter: float) -> GuideBush:
    """The workshop's guide bush with the cutter of a setting, which tight corners may ask for."""
    return replace(workshop.router.bush, cutter=cutter)


def figures(setting: Setting, workshop: Workshop) -> tuple[Figure, ...]:
    """All that is set on the tool, the distance first."""
    return (*_distances(setting, workshop), *_depth(setting), *_cutter(setting, workshop))


def _distances(setting: Setting, workshop: Workshop) -> Iterator[Figure]:
    stand, work = setting.stand, _work(setting)
    if stand.guide is Guide.STRAIGHT_EDGE:
        value = dimension_text(reach(workshop, stand.cutter))
        yield Figure(letter="a", caption="straight-edge to cutter", value=value)
    elif stand.guide is Guide.TEMPLATE:
        offset = bush_with(workshop, stand.cutter).offset
        yield Figure(letter="a", caption="template to cut", value=dimension_text(offset))
        long, short, _ = stand.position
        size = " × ".join(dimension_text(side + 2 * offset) for side in (long, short))
        yield Figure(letter="", caption="opening of the template", value=size, is_main=False)
    elif stand.guide is Guide.JIG:
        line, first, pitch = (dimension_text(value) for value in stand.position)
        yield Figure(letter="a", caption="edge to the row", value=line)
        yield Figure(letter="", caption=f"end to first hole; pitch {pitch}", value=first)
    elif stand.guide is Guide.FENCE:
        distance = stand.position[0]
        if work is Work.REBATE:
            distance += setting.tasks[0].operation.swath
            caption = "fence to far side of cutter"
        elif work in (Work.SLOT, Work.BORE):
            caption = "fence to middle"
        else:
            caption = f"fence to {'blade' if stand.tool is Tool.SAW else 'cutter'}"
        yield Figure(letter="a", caption=caption, value=dimension_text(distance))


def _depth(setting: Setting) -> Iterator[Figure]:
    stand, work = setting.stand, _work(setting)
    if work is Work.COUNTERSINK:
        wide = dimension_text(setting.tasks[0].operation.size[0])
        yield Figure(letter="b", caption="countersink to a diameter of", value=f"⌀{wide}")
    elif stand.depth is not None:
        yield Figure(letter="b", caption="depth", value=dimension_text(stand.depth))
    elif stand.tool is not Tool.HAND and stand.guide is not Guide.BEARING:
        yield Figure(letter="", caption="depth", value="through", is_main=False)
    if stand.angle and work is Work.BEVEL:
        yield Figure(letter="c", caption="tilt off square", value=f"{stand.angle:g}°")


def _cutter(setting: Setting, workshop: Workshop) -> Iterator[Figure]:
    tool, work, cutter = setting.stand.tool, _work(setting), setting.stand.cutter
    if not cutter or work is Work.COUNTERSINK:
        return
    if tool is Tool.SAW:
        yield Figure(letter="", caption="kerf", value=dimension_text(cutter), is_main=False)
    elif tool is Tool.BISCUIT_JOINTER:
        yield Figure(letter="", caption="blade", value=dimension_text(cutter), is_main=False)
    else:
        what = "drill" if tool in (Tool.DRILL, Tool.PILLAR_DRILL) else "cutter"
        if setting.stand.guide is Guide.BEARING:
            what = "cutter with a bearing"
        elif setting.stand.guide is Guide.TEMPLATE:
            what = f"cutter, in a bush ⌀{dimension_text(workshop.router.bush.diameter)}"
        yield Figure(letter="", caption=what, value=f"⌀{dimension_text(cutter)}", is_main=False)


def rows(setting: Setting, workshop: Workshop) -> tuple[Row, ...]:
    """Boards in the order in which they are cut; those that are cut alike in one row.

    Edges and faces are named as on the board's sheet, which draws its first part.
    """
    found: dict[tuple[str, str, str], list[Task]] = {}
    pieces: dict[str, int] = {}
    for task in setting.tasks:
        pieces[task.item_name] = task.pieces
        part = task.parts[0]
        key = task.item_name, _lies(part, task.operation), _cut_key(part, task)
        found.setdefault(key, []).append(task)
    told: dict[str, dict[str, list[str]]] = {}
    for (name, lies, _), tasks in found.items():
        ways = told.setdefault(name, {})
        ways.setdefault(lies, []).append(_told(tasks[0].parts[0], tasks, workshop))
    alike: dict[tuple[tuple[str, str], ...], list[str]] = {}
    for name, ways in told.items():
        cuts = tuple((lies, "; ".join(dict.fromkeys(them))) for lies, them in ways.items())
        alike.setdefault(cuts, []).append(name)
    return tuple(
        Row(
            pieces=sum(pieces[name] for name in names),
            boards="; ".join(_counted(name, pieces[name]) for name in names),
            cuts=cuts,
        )
        for cuts, names in alike.items()
    )


def _counted(name: str, pieces: int) -> str:
    return name if pieces == 1 else f"{pieces} × {name}"


def _lies(part: Part, one: Operation) -> str:
    up, fence = part.surface_name(one.face), part.surface_name(one.reference)
    if one.guide is Guide.BEARING or one.work is Work.NOTCH:
        return ""
    if one.guide is Guide.FENCE:
        return f"{up} up, {fence} to the fence"
    return f"{up} up, from the {fence}"


def _cut_key(part: Part, task: Task) -> str:
    """Slots and holes of one line share a row; other cuts have one each."""
    one = task.operation
    stop = part.surface_name(one.stop) if one.stop is not None else ""
    if one.work is Work.SLOT:
        return f"slot {stop}"
    return f"{one.name} {stop}"


def _told(part: Part, tasks: list[Task], workshop: Workshop) -> str:
    """What is cut on a part and where, as it is marked out."""
    first = tasks[0]
    one = first.operation
    places = sorted({place for task in tasks for place in task.operation.places})
    stop = part.surface_name(one.stop) if one.stop is not None else ""
    edge = part.surface_name(one.reference)
    allowance = dimension_text(one.allowance)
    told = f"{one.name}{_run(part, one)}{_pass(first)}{_edge_marks(part, one, workshop)}"
    match one.work:
        case Work.SLOT:
            told = f"{_many(len(places), 'slot')} at {_listed(places)} from the {stop}"
        case Work.BORE if one.guide is Guide.JIG:
            told = f"{one.name}: {len(places)} holes, first from the {stop}"
        case Work.BORE | Work.COUNTERSINK:
            told = f"{one.name}: {_listed(places)} from the {stop}"
        case Work.OPENING if one.guide is Guide.BEARING:
            told = f"{one.name}: from its middle outwards, bearing on the opening below"
        case Work.OPENING:
            across = dimension_text(one.passes[0])
            told = f"{one.name}: centre {_listed(places)} from the {stop}, {across} from the {edge}"
        case Work.NOTCH:
            long, deep = (dimension_text(value) for value in one.size)
            told = (
                f"{one.name}: {long} along the {edge}, {_listed(places)} from the {stop}, "
                f"{deep} deep"
            )
        case Work.TRIM:
            proud = dimension_text(one.depth or 0.0)
            told = f"{part.surface_name(one.face)}, {proud} proud: {one.name}"
        case Work.TO_SIZE if one.guide is Guide.BEARING:
            told = f"{one.name}: trim what stands over ({allowance})"
        case Work.TO_SIZE:
            # What is ripped out of a strip has the strip's trued edge.
            is_true = bool(first.strip) and not first.becomes
            told = f"{one.name}: {'' if is_true else f'first true the {edge}, '}{allowance} off"
        case _:
            pass
    return told


def _many(count: int, what: str) -> str:
    return what if count == 1 else f"{count} {what}s"


def _listed(values: list[float]) -> str:
    return ", ".join(dimension_text(value) for value in values)


def _pass(task: Task) -> str:
    count = len(task.operation.passes)
    if count < 2 or task.operation.guide is Guide.STRAIGHT_EDGE:
        return ""
    return f", pass {task.number} of {count}"


def _run(part: Part, one: Operation) -> str:
    """Where a stopped cut begins and ends."""
    if one.start is None and one.end is None:
        return ""
    corner = f", ends R{dimension_text(one.corner)}" if one.corner else ", ends squared"
    if one.start is not None and one.end is not None:
        told = f"from {_from(part, one.start)} to {_from(part, one.end)}"
        if one.start.datum is one.end.datum:
            told = f"from {dimension_text(one.start.distance)} to {_from(part, one.end)}"
        return f", {told}{corner}"
    open_end = surface_at(one.run_axis, -1 if one.start is None else 1)
    stop = one.start if one.start is not None else one.end
    return (
        f", out at the {part.surface_name(open_end)}, stopped {_from(part, stop)}{corner}"
        if stop is not None
        else ""
    )


def _from(part: Part, at: At) -> str:
    return f"{dimension_text(at.distance)} from the {part.surface_name(at.datum)}"


def _edge_marks(part: Part, one: Operation, workshop: Workshop) -> str:
    """Where the straight-edge is clamped for each pass."""
    if one.guide is not Guide.STRAIGHT_EDGE:
        return ""
    away = reach(workshop, one.cutter)
    marks = [place - away for place in one.passes]
    edge = part.surface_name(one.reference)
    if min(marks) < 0:
        marks = [place + one.swath + away for place in one.passes]
    return f": straight-edge {' and '.join(map(dimension_text, marks))} from the {edge}"


def is_fine(setting: Setting, workshop: Workshop) -> bool:
    """Whether a figure that is set, or a place that is marked, is told to a hundredth."""
    told = [one.value for one in figures(setting, workshop)]
    told += [sentence for row in rows(setting, workshop) for sentence in row.sentences]
    return any(_HUNDREDTH.search(text) for text in told)


def tests_first(setting: Setting) -> bool:
    """Whether a test cut in an offcut comes first: whatever is set by a fence or a depth."""
    return setting.stand.tool is not Tool.HAND and _work(setting) is not Work.TO_SIZE
