"""The gluing plan: stages from the order of assembly, with glue, clamps, time and drying.

Doubled boards and a covering are stages of their own. A group of the assembly is glued in one
go if the glue stays open long enough for one person and the clamps suffice; otherwise in as few
goes as do, each dry before the next. How fast a person works is common practice, no source, and
the maker's to change. Lengths in mm, areas in mm2, minutes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise

from cabinet.assembly import Assembly, Stage, Step
from cabinet.board import Surface
from cabinet.design import Unit
from cabinet.features import FlushTrim
from cabinet.findings import Finding, Severity
from cabinet.frame import Side
from cabinet.hardware import Rod
from cabinet.joint import Housing
from cabinet.making.clamping import (
    CAUL,
    FACE,
    ClampRow,
    Sharing,
    along,
    cone,
    face_row,
    line_row,
    shared_out,
)
from cabinet.making.glue import CONTACT, PVA, Glue, Range
from cabinet.making.glue_lines import GlueLine, beside, clamp_rows, glue_lines
from cabinet.making.rough import rough_blanks
from cabinet.part import Part
from cabinet.quantity import positive, written
from cabinet.stock import Hatching
from cabinet.workshop import Workshop

# A panel thinner than this is held by its grooves, or pressed by weights or pins, and takes no
# clamps (common practice, no source).
THIN = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How fast one person works (common practice, no source).

    Attributes:
        spread: Area spread with glue in a second, mm2.
        joint: Seconds to bring a joint together and look at it.
        biscuit: Seconds for each biscuit.
        clamp: Seconds for each clamp.
        screw: Seconds for each screw.
    """

    spread: float = 3000.0
    joint: float = 15.0
    biscuit: float = 6.0
    clamp: float = 20.0
    screw: float = 10.0

    def __post_init__(self) -> None:
        for name in ("spread", "joint", "biscuit", "clamp", "screw"):
            positive("pace", name, getattr(self, name), unit="")


class Kind(Enum):
    """What a stage of gluing is."""

    DOUBLING = "doubling"
    GLUE_UP = "glue-up"
    APPLIED = "glued on"
    COVERING = "covering"


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueStage:
    """One go of gluing, or several alike ones.

    Attributes:
        number: In the order of the work, from 1.
        kind: What it is.
        title: What is glued.
        sets: For each of the alike goes the names of its parts.
        glue: With what.
        lines: The glued joints of one go; none for doubling.
        area: Glued area of one go, mm2.
        minutes: From the first spread to the last clamp, one go.
        open_minutes: The longest that spread glue lies open before its joint is closed.
        rows: Rows of clamps of one go.
        sharing: Clamps from the workshop for one go.
        screws: Screws that pull joints together in one go.
        steps: Numbers of the assembly's steps, of the first of alike goes.
        part: Which part of its group this is and how many there are, if it takes several goes.
        notes: What else to know, each a sentence.
    """

    number: int
    kind: Kind
    title: str
    sets: tuple[tuple[str, ...], ...]
    glue: Glue
    lines: tuple[GlueLine, ...]
    area: float
    minutes: float
    open_minutes: float
    rows: tuple[ClampRow, ...]
    sharing: Sharing
    screws: int
    steps: tuple[int, ...]
    notes: tuple[str, ...]
    part: tuple[int, int] = (1, 1)

    @property
    def times(self) -> int:
        """How many alike goes there are."""
        return len(self.sets)

    @property
    def grams(self) -> Range:
        """Glue for all alike goes together, least and most, g."""
        low, high = self.glue.grams(self.area * self.times)
        return low, high

    @property
    def force(self) -> Range | None:
        """What the glue maker's pressure over the whole face comes to, kN; None for joints."""
        if self.kind not in (Kind.DOUBLING, Kind.COVERING):
            return None
        low, high = self.glue.pressure
        return self.area * low / 1000, self.area * high / 1000

    @property
    def clamps(self) -> int:
        """Clamps of one go."""
        return sum(row.count for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class GluingPlan:
    """All stages of gluing.

    Attributes:
        stages: In the order of the work.
        pace: How fast it is thought to go.
    """

    stages: tuple[GlueStage, ...]
    pace: Pace

    def grams(self, glue: Glue) -> Range:
        """What is used of one glue in all, g."""
        them = [stage.grams for stage in self.stages if stage.glue == glue]
        return sum(low for low, _ in them), sum(high for _, high in them)

    @property
    def glues(self) -> tuple[Glue, ...]:
        """The glues that are used."""
        return tuple(dict.fromkeys(stage.glue for stage in self.stages))


def gluing_plan(
    unit: Unit,
    assembly: Assembly,
    workshop: Workshop,
    *,
    glue: Glue = PVA,
    soft_glue: Glue = CONTACT,
    pace: Pace | None = None,
) -> GluingPlan:
    """The stages of gluing of a unit.

    Args:
        unit: The resolved unit.
        assembly: The order in which it comes together.
        workshop: Its clamps.
        glue: For wood on wood.
        soft_glue: For a soft covering.
        pace: How fast one person works; None for the usual.
    """
    plan = _Plan(unit, assembly, workshop, glue, soft_glue, pace or Pace())
    stages = _alike([*plan.doublings(), *plan.goes()])
    return GluingPlan(
        stages=tuple(_numbered(stage, number) for number, stage in enumerate(stages, start=1)),
        pace=plan.pace,
    )


def _numbered(stage: GlueStage, number: int) -> GlueStage:
    return replace(stage, number=number)


def _alike(stages: Sequence[GlueStage]) -> list[GlueStage]:
    """Goes of equal work as one stage, in the place of the first."""
    found: dict[tuple[object, ...], GlueStage] = {}
    for stage in stages:
        shape = tuple(
            (line.title, round(line.area, 1), line.axis, line.screws) for line in stage.lines
        )
        rows = tuple((r.axis, r.count, round(r.opening, 2)) for r in stage.rows)
        extent = round(stage.area, 1), len(stage.sets[0])
        key = (stage.kind, stage.glue, shape, rows, extent, stage.part)
        known = found.get(key)
        if known is None:
            found[key] = stage
            continue
        title = " ".join(w for w in known.title.split() if w in stage.title.split())
        found[key] = replace(known, sets=(*known.sets, *stage.sets), title=title or known.title)
    return list(found.values())


@dataclass(frozen=True, slots=True)
class _Plan:
    unit: Unit
    assembly: Assembly
    workshop: Workshop
    glue: Glue
    soft_glue: Glue
    pace: Pace

    # Doubling

    def doublings(self) -> Iterator[GlueStage]:
        """One stage for each board of several layers."""
        for rough in rough_blanks(self.unit):
            board, length, width = rough.board, rough.length, rough.width
            if board.layers < 2:
                continue
            up = self.unit.by_name[rough.parts[0]].placement.up
            area = length * width * (board.layers - 1)
            layer = board.stock.measured
            rest = layer * (board.layers - 1)
            row = face_row(rough.parts, up.axis, (length, width), (layer, rest))
            minutes = (
                area / self.pace.spread
                + self.pace.joint * (board.layers - 1)
                + self.pace.clamp * row.count
            ) / 60
            yield GlueStage(
                number=1,
                kind=Kind.DOUBLING,
                title="doubling",
                sets=(rough.parts,),
                glue=self.glue,
                lines=(),
                area=area,
                minutes=minutes,
                open_minutes=(area / self.pace.spread + self.pace.joint) / 60,
                rows=(row,),
                sharing=shared_out((row,), self.workshop),
                screws=0,
                steps=(),
                notes=(
                    f"Spread one face evenly; {board.layers} blanks {length:.0f} × {width:.0f}, "
                    "the better faces outwards; two pins in the waste keep them from sliding.",
                ),
            )

    # Groups

    def goes(self) -> Iterator[GlueStage]:
        """The groups of the assembly, each in as few goes as clamps and time allow."""
        lines = glue_lines(self.unit)
        groups: dict[int, list[Step]] = {}
        for step in self.assembly.steps:
            if step.group:
                groups.setdefault(step.group, []).append(step)
        for steps in groups.values():
            closing = [s for s in steps if any(i in lines for i in s.joints)]
            if not closing:
                continue
            parts = self._split(steps, lines)
            for index, them in enumerate(parts):
                yield self._go(them, lines, index, len(parts))

    def _split(self, steps: Sequence[Step], lines: dict[int, GlueLine]) -> list[list[Step]]:
        """Consecutive steps in the fewest goes that can be done; a step alone stays one."""
        count = len(steps)
        best: list[tuple[int, int]] = [(0, 0)]
        for end in range(1, count + 1):
            choices = [
                (best[start][0] + 1, start)
                for start in range(end)
                if start == end - 1 or self._can_do(steps[start:end], lines)
            ]
            best.append(min(choices))
        cuts = [count]
        while cuts[-1]:
            cuts.append(best[cuts[-1]][1])
        bounds = cuts[::-1]
        parts = [list(steps[a:b]) for a, b in pairwise(bounds)]
        return _with_their_joints(parts, lines)

    def _can_do(self, steps: Sequence[Step], lines: dict[int, GlueLine]) -> bool:
        mine = [lines[i] for s in steps for i in s.joints if i in lines]
        if not mine:
            return True
        glue = self._glue_of(mine)
        rows = self._rows(mine, glue)
        if self._minutes(mine, rows) > glue.closed_minutes:
            return False
        return shared_out(rows, self.workshop).suffices

    def _go(
        self, steps: Sequence[Step], lines: dict[int, GlueLine], index: int, count: int
    ) -> GlueStage:
        mine = tuple(lines[i] for s in steps for i in s.joints if i in lines)
        glue = self._glue_of(mine)
        rows = self._rows(mine, glue)
        names = tuple(dict.fromkeys(name for line in mine for name in line.parts))
        kind = self._kind(mine, steps)
        title = self._title(kind, steps, names)
        if count > 1:
            title += f", go {index + 1} of {count}"
        open_time = max(
            (self._minutes([lines[i] for i in s.joints if i in lines], ()) for s in steps),
            default=0.0,
        )
        return GlueStage(
            number=1,
            kind=kind,
            title=title,
            sets=(names,),
            glue=glue,
            lines=mine,
            area=sum(line.area for line in mine),
            minutes=self._minutes(mine, rows),
            open_minutes=open_time,
            rows=rows,
            sharing=shared_out(rows, self.workshop),
            screws=sum(line.screws for line in mine),
            steps=tuple(s.number for s in steps),
            notes=tuple(self._notes(kind, steps, mine, index, count)),
            part=(index + 1, count),
        )

    def _covering(self, line: GlueLine) -> Part | None:
        """The covering of a glue line: glued on oversize and trimmed there."""
        for name in line.parts:
            part = self.unit.by_name[name]
            if part.board.oversize is not None and part.board.layers == 1:
                return part
        return None

    def _glue_of(self, lines: Sequence[GlueLine]) -> Glue:
        covering = next((c for line in lines if (c := self._covering(line)) is not None), None)
        if covering is not None and covering.board.stock.hatching is Hatching.SOFT:
            return self.soft_glue
        return self.glue

    def _kind(self, lines: Sequence[GlueLine], steps: Sequence[Step]) -> Kind:
        if any(self._covering(line) is not None for line in lines):
            return Kind.COVERING
        return Kind.GLUE_UP if steps[0].stage is Stage.GLUED else Kind.APPLIED

    def _title(self, kind: Kind, steps: Sequence[Step], names: Sequence[str]) -> str:
        parts, called = self.unit.by_name, self.unit.item_names
        groups = tuple(dict.fromkeys(parts[name].group for name in names))
        if kind is Kind.COVERING:
            return "covering"
        if kind is Kind.APPLIED:
            moved = [b for s in steps for b in s.bodies if b in parts]
            told = tuple(dict.fromkeys(called[name] for name in moved))
            onto = f" on to the {called[steps[0].onto[0]]}" if steps[0].onto else ""
            return f"{' and '.join(told[:2])}{onto}"
        boards = tuple(dict.fromkeys(called[name] for name in names))
        shared = _shared_words(names)
        if len(names) > 2 and (shared or groups[0]):
            most = Counter(parts[name].group for name in names).most_common(1)[0][0]
            return shared or most
        return " and ".join(boards[:3])

    def _rows(self, lines: Sequence[GlueLine], glue: Glue) -> tuple[ClampRow, ...]:
        """Rows of clamps; none for what screws pull together or grooves hold by themselves."""
        if not glue.is_pressed:
            return ()
        covering = next((c for line in lines if (c := self._covering(line)) is not None), None)
        if covering is not None:
            return (self._covering_row(covering, lines),)
        chains = list(clamp_rows([line for line in lines if self._needs_clamps(line)]))
        longer = [chain for chain in chains if along(chain[0].length) > 1]
        rows, shared = [], set()
        for chain in chains:
            host = self._host(chain, longer)
            if host is None:
                rows.append(chain)
            else:
                shared.add(host[0].index)
        return tuple(self._row(chain, is_shared=chain[0].index in shared) for chain in rows)

    def _needs_clamps(self, line: GlueLine) -> bool:
        return not line.screws and self._panel(line) is None

    def _panel(self, line: GlueLine) -> str | None:
        """The thin panel of a joint: its grooves hold it, weights or pins press it flat."""
        board = self.unit.by_name[line.parts[0]].board
        is_panel = board.thickness < THIN and min(board.length, board.width) >= FACE
        return line.parts[0] if is_panel and self._covering(line) is None else None

    def _host(
        self, chain: Sequence[GlueLine], longer: Sequence[Sequence[GlueLine]]
    ) -> Sequence[GlueLine] | None:
        """A longer row beside a short joint, near enough that its cauls press that as well."""
        if any(chain is other for other in longer):
            return None
        for other in longer:
            within = [
                gap is not None and gap <= cone(CAUL + self._outer_thickness(line, member)) / 2
                for line in chain
                for member in other
                if (gap := beside(line, member)) is not None
            ]
            if len(within) >= len(chain) and any(within):
                return other
        return None

    def _outer_thickness(self, line: GlueLine, member: GlueLine) -> float:
        """Of the part that both joints press on, along the axis in which they are pressed."""
        common = sorted(set(line.parts) & set(member.parts))
        return min(self.unit.by_name[name].box.size[line.axis] for name in common)

    def _covering_row(self, covering: Part, lines: Sequence[GlueLine]) -> ClampRow:
        axis = covering.placement.up.axis
        under = [n for line in lines for n in line.parts if n != covering.name]
        length, width = covering.board.rough_size
        below = max(lines, key=lambda line: line.area)
        host = next(n for n in below.parts if n != covering.name)
        thick = covering.board.thickness, self.unit.by_name[host].box.size[axis]
        names = (covering.name, *dict.fromkeys(under))
        return face_row(names, axis, (length, width), thick)

    def _row(self, chain: Sequence[GlueLine], *, is_shared: bool) -> ClampRow:
        axis = chain[0].axis
        names = tuple(dict.fromkeys(name for line in chain for name in line.parts))
        boxes = [self.unit.by_name[name].box for name in names]
        low = min(tuple(box.low)[axis] for box in boxes)
        high = max(tuple(box.high)[axis] for box in boxes)
        longest = max(chain, key=lambda line: (line.length, line.width))
        if longest.width >= FACE:
            thick = tuple(self.unit.by_name[name].box.size[axis] for name in longest.parts)
            return face_row(names, axis, (longest.length, longest.width), (thick[0], thick[1]))
        return line_row(names, axis, longest.length, high - low, is_shared=is_shared)

    def _minutes(self, lines: Sequence[GlueLine], rows: Sequence[ClampRow]) -> float:
        pace = self.pace
        seconds = sum(
            line.area / pace.spread
            + pace.joint
            + pace.biscuit * line.biscuits
            + pace.screw * line.screws
            for line in lines
        )
        return (seconds + pace.clamp * sum(row.count for row in rows)) / 60

    def _notes(
        self,
        kind: Kind,
        steps: Sequence[Step],
        lines: Sequence[GlueLine],
        index: int,
        count: int,
    ) -> Iterator[str]:
        parts = self.unit.by_name
        if count > 1 and index < count - 1:
            yield (
                "Let this go dry before the next; set the boards that are still to come dry in "
                "their places, so that it stays square."
            )
        for line in lines:
            if line.screws:
                yield self._screw_note(line)
        flat = [
            line
            for line in lines
            if self._panel(line) and not isinstance(self.unit.joints[line.index], Housing)
        ]
        for line in flat:
            yield (
                f"{line.parts[0]} on to the {line.parts[1]}: weights, or pins every 150, press it "
                "down; no clamps."
            )
        bars = {item.name for item in self.unit.hardware if isinstance(item.body, Rod)}
        for step in steps:
            loose = [name for name in step.bodies if name in bars]
            if loose and len(loose) == len(step.bodies):
                yield f"In its place before the next board closes it in: {', '.join(loose)}."
            dry = [
                name
                for name in step.bodies
                if name in parts
                and any(
                    not self.unit.joints[i].is_glued and name == self.unit.joints[i].parts[0]
                    for i in step.joints
                )
            ]
            if dry:
                yield f"Dry in its groove, without glue: {', '.join(dry)}."
        proud = sorted(
            {
                f"{name} ({', '.join(written(t.proud) for t in parts[name].board.trims)})"
                for line in lines
                for name in line.parts
                if any(isinstance(f, FlushTrim) for f in parts[name].board.features)
            }
        )
        if proud and kind is Kind.GLUE_UP:
            yield f"Proud by so much until it is trimmed, so pads inside of it: {'; '.join(proud)}."
        if kind is Kind.COVERING:
            yield from self._covering_notes(lines)

    def _screw_note(self, line: GlueLine) -> str:
        joint = self.unit.joints[line.index]
        through = self.unit.by_name[joint.parts[0]]
        other = self.unit.by_name[joint.parts[1]]
        away = next(
            side
            for side in Side
            if side.axis == line.axis
            and (through.box.face(side) - other.box.face(side)) * side.sign > 0
        )
        surface: Surface = through.surface(away)
        seen = "which is not seen"
        if surface in through.board.shows:
            seen = "which shows"
        elif surface in through.board.behind_doors:
            seen = "which is seen only with a door open"
        return (
            f"{line.title}: the screws pull {joint.parts[0]} and {joint.parts[1]} together, no "
            f"clamps; their heads lie in the {through.surface_name(surface)}, {seen}."
        )

    def _covering_notes(self, lines: Sequence[GlueLine]) -> Iterator[str]:
        covering = next(c for line in lines if (c := self._covering(line)) is not None)
        glue = self._glue_of(lines)
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
            f"Cut oversize by {written(covering.board.oversize or 0.0)} on every edge; trim it "
            "when dry."
        )


def _with_their_joints(parts: list[list[Step]], lines: dict[int, GlueLine]) -> list[list[Step]]:
    """Goes without a glued joint join the next one, or the last if none follows."""
    found: list[list[Step]] = []
    waiting: list[Step] = []
    for them in parts:
        waiting += them
        if any(i in lines for s in waiting for i in s.joints):
            found.append(waiting)
            waiting = []
    if waiting and found:
        found[-1] += waiting
    return found


def _shared_words(names: Sequence[str]) -> str:
    """The words with which all names begin (``left frame shelf``)."""
    split = [name.split() for name in names]
    shared = []
    for words in zip(*split, strict=False):
        if len(set(words)) > 1:
            break
        shared.append(words[0])
    return " ".join(shared)


def gluing_findings(plan: GluingPlan) -> tuple[Finding, ...]:
    """What stands in the way of gluing: clamps too few or too short, glue that sets first."""
    found = []
    for stage in plan.stages:
        names = stage.sets[0]
        if stage.sharing.too_short is not None:
            wanted = stage.sharing.too_short
            found.append(
                _warning(
                    "clamp-too-short",
                    names,
                    wanted,
                    None,
                    f"gluing stage {stage.number}, {stage.title}: clamps have to open "
                    f"{wanted:.0f} mm and no clamp does, nor two joined; get longer ones, or "
                    "wedges between blocks screwed on a board",
                )
            )
        elif stage.sharing.lacking:
            have = stage.sharing.wanted - stage.sharing.lacking
            found.append(
                _warning(
                    "clamps-too-few",
                    names,
                    float(stage.sharing.wanted),
                    float(have),
                    f"gluing stage {stage.number}, {stage.title}: {stage.sharing.wanted} clamps "
                    f"are needed and only {have} that reach are there; borrow "
                    f"{stage.sharing.lacking}, or use screws in the waste or weights",
                )
            )
        found += list(_too_slow(stage))
    return tuple(found)


def _too_slow(stage: GlueStage) -> Iterator[Finding]:
    glue = stage.glue
    for minutes, limit, what in (
        (stage.open_minutes, glue.open_minutes, "glue lies open"),
        (stage.minutes, glue.closed_minutes, "it is from the first glue to the last clamp"),
    ):
        if minutes > limit:
            yield _warning(
                "glue-sets-first",
                stage.sets[0],
                minutes,
                limit,
                f"gluing stage {stage.number}, {stage.title}: one person needs about "
                f"{minutes:.0f} minutes while {what}, and {glue.name} allows {limit:g}; get a "
                "second pair of hands or a slower glue",
            )
            return


def _warning(
    rule: str, parts: tuple[str, ...], found: float, limit: float | None, sentence: str
) -> Finding:
    return Finding(
        rule=rule,
        severity=Severity.WARNING,
        parts=parts,
        where=None,
        found=found,
        limit=limit,
        sentence=sentence,
    )


__all__ = [
    "GlueStage",
    "GluingPlan",
    "Kind",
    "Pace",
    "gluing_findings",
    "gluing_plan",
]
