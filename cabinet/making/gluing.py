"""The gluing plan: stages from the order of assembly, with glue, clamps, time and drying.

Doubled boards and a covering are stages of their own. A group of the assembly is glued in one
go if the glue stays open long enough for one person and the clamps suffice; otherwise in as few
goes as do, each dry before the next. How fast a person works is common practice, no source, and
the maker's to change. Lengths in mm, areas in mm2, minutes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cabinet.assembly import Assembly, Stage, Step
from cabinet.design import Unit
from cabinet.making.clamping import ClampRow, face_row, shared_out
from cabinet.making.glue import CONTACT, PVA, Glue
from cabinet.making.glue_lines import GlueLine, glue_lines
from cabinet.making.glue_notes import notes
from cabinet.making.glue_stage import GlueStage, GluingPlan, Kind, Pace
from cabinet.making.pressing import Pressing
from cabinet.making.rough import Rough, rough_blanks
from cabinet.stock import Hatching
from cabinet.workshop import Workshop


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
    plan = _Plan(
        Pressing(unit, workshop.clamps), assembly, workshop, glue, soft_glue, pace or Pace()
    )
    stages = _alike([*plan.doublings(), *plan.goes()])
    return GluingPlan(
        stages=tuple(replace(stage, number=at) for at, stage in enumerate(stages, start=1)),
        pace=plan.pace,
    )


def _alike(stages: Sequence[GlueStage]) -> list[GlueStage]:
    """Goes of equal work as one stage, in the place of the first."""
    found: dict[tuple[object, ...], GlueStage] = {}
    for stage in stages:
        shape = tuple(
            (line.title, round(line.area, 1), line.axis, line.screws) for line in stage.lines
        )
        rows = tuple((r.axis, r.count, round(r.opening, 2), round(r.reach, 2)) for r in stage.rows)
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
    pressing: Pressing
    assembly: Assembly
    workshop: Workshop
    glue: Glue
    soft_glue: Glue
    pace: Pace

    @property
    def unit(self) -> Unit:
        return self.pressing.unit

    # Doubling

    def doublings(self) -> Iterator[GlueStage]:
        """One stage for each board of several layers."""
        for rough in rough_blanks(self.unit):
            if rough.board.layers > 1:
                yield self._doubling(rough)

    def _doubling(self, rough: Rough) -> GlueStage:
        joints, layer = rough.board.layers - 1, rough.board.stock.measured
        area = rough.length * rough.width * joints
        up = self.unit.by_name[rough.parts[0]].placement.up
        size = rough.length, rough.width
        row = face_row(rough.parts, up.axis, size, (layer, layer * joints))
        spread = area * self.glue.faces / self.pace.spread
        return GlueStage(
            number=1,
            kind=Kind.DOUBLING,
            title="doubling",
            sets=(rough.parts,),
            glue=self.glue,
            lines=(),
            area=area,
            minutes=(spread + self.pace.joint * joints + self.pace.clamp * row.count) / 60,
            open_minutes=(spread + self.pace.joint) / 60,
            rows=(row,),
            sharing=shared_out((row,), self.workshop),
            screws=0,
            steps=(),
            notes=(
                f"Spread one face evenly; {joints + 1} blanks {size[0]:.0f} × {size[1]:.0f}, the "
                "better faces outwards; two pins in the waste keep them from sliding.",
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
                standing = self._standing([step for part in parts[: index + 1] for step in part])
                yield self._go(them, lines, standing, index, len(parts))

    def _split(self, steps: Sequence[Step], lines: dict[int, GlueLine]) -> list[list[Step]]:
        """Consecutive steps in the fewest goes that can be done; a step alone stays one."""
        count = len(steps)
        best: list[tuple[int, int]] = [(0, 0)]
        for end in range(1, count + 1):
            choices = [
                (best[start][0] + 1, start)
                for start in range(end)
                if start == end - 1
                or self._can_do(steps[start:end], lines, self._standing(steps[:end]))
            ]
            best.append(min(choices))
        cuts = [count]
        while cuts[-1]:
            cuts.append(best[cuts[-1]][1])
        bounds = cuts[::-1]
        parts = [list(steps[a:b]) for a, b in pairwise(bounds)]
        return _with_their_joints(parts, lines)

    def _standing(self, steps: Sequence[Step]) -> set[str]:
        """The parts that stand together after some steps of a group, earlier groups with them."""
        last = max(step.number for step in steps)
        together = [{*s.bodies, *s.onto} for s in self.assembly.steps if s.number <= last]
        found: set[str] = set().union(*({*s.bodies, *s.onto} for s in steps))
        while grown := [them for them in together if them & found and not them <= found]:
            found = found.union(*grown)
        return found & set(self.unit.by_name)

    def _can_do(
        self, steps: Sequence[Step], lines: dict[int, GlueLine], standing: Collection[str]
    ) -> bool:
        mine = [lines[i] for s in steps for i in s.joints if i in lines]
        if not mine:
            return True
        glue = self._glue_of(mine)
        rows = self.pressing.rows(mine, glue, standing)
        if self._minutes(mine, rows, glue) > glue.closed_minutes:
            return False
        return shared_out(rows, self.workshop).suffices

    def _go(
        self,
        steps: Sequence[Step],
        lines: dict[int, GlueLine],
        standing: Collection[str],
        index: int,
        count: int,
    ) -> GlueStage:
        mine = tuple(lines[i] for s in steps for i in s.joints if i in lines)
        glue = self._glue_of(mine)
        rows = self.pressing.rows(mine, glue, standing)
        names = tuple(dict.fromkeys(name for line in mine for name in line.parts))
        kind = self._kind(mine, steps)
        title = self._title(kind, steps, names)
        if count > 1:
            title += f", go {index + 1} of {count}"
        closed = [[lines[i] for i in s.joints if i in lines] for s in steps]
        open_time = max((self._minutes(them, (), glue) for them in closed if them), default=0.0)
        return GlueStage(
            number=1,
            kind=kind,
            title=title,
            sets=(names,),
            glue=glue,
            lines=mine,
            area=sum(line.area for line in mine),
            minutes=self._minutes(mine, rows, glue),
            open_minutes=open_time,
            rows=rows,
            sharing=shared_out(rows, self.workshop),
            screws=sum(line.screws for line in mine),
            steps=tuple(s.number for s in steps),
            notes=tuple(
                notes(self.pressing, kind, steps, mine, glue, rows, is_last=index == count - 1)
            ),
            part=(index + 1, count),
        )

    def _glue_of(self, lines: Sequence[GlueLine]) -> Glue:
        covering = self.pressing.covering(lines)
        if covering is not None and covering.board.stock.hatching is Hatching.SOFT:
            return self.soft_glue
        return self.glue

    def _kind(self, lines: Sequence[GlueLine], steps: Sequence[Step]) -> Kind:
        if self.pressing.covering(lines) is not None:
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

    def _minutes(self, lines: Sequence[GlueLine], rows: Sequence[ClampRow], glue: Glue) -> float:
        """From the first spread to the last clamp; what must air first waits as short as it may."""
        pace = self.pace
        seconds = 60 * glue.wait_minutes[0] + sum(
            line.area * glue.faces / pace.spread
            + pace.joint
            + pace.biscuit * line.biscuits
            + pace.screw * line.screws
            for line in lines
        )
        return (seconds + pace.clamp * sum(row.count for row in rows)) / 60


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


__all__ = ["gluing_plan"]
