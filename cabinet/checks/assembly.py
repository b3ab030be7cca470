"""The order in which a unit comes together, found once and read by all that follow.

The finished solids are taken apart in thought, and the way back is the order of the work: frames
that hold each other by housings, biscuits or notches first, each glued in one go (doubled boards
are doubled before); what is glued or screwed flat on to them when they are dry and trimmed; then,
after finishing, bars, pins, shelves and doors; on the wall last. What was put together before
moves as one, so its bodies are named again in the step that adds it. A door is hung by lifting
and swinging, which has a proof of its own; here it goes in from the front as its moves allow.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from cabinet.assembly import Assembly, Stage, Step
from cabinet.checks.build import Draft, at_stage, beginning
from cabinet.checks.cluster import Cluster, Site, clusters
from cabinet.checks.doubts import doubts
from cabinet.checks.fitting import Place, neighbourhoods
from cabinet.checks.ties import Ties, rods, screws, ties
from cabinet.design import Unit
from cabinet.frame import Side
from cabinet.hardware import Hardware
from cabinet.joint import Touch
from cabinet.motion import Motion

_STAGES = tuple(Stage)


def assembly(unit: Unit) -> Assembly:
    """The order in which a unit comes together; ``locked`` names what does not.

    Args:
        unit: The resolved unit. Equal units are worked out once.
    """
    sure = solved(unit, at_least=True)
    return sure if not sure.locked else solved(unit, at_least=False)


@lru_cache(maxsize=16)
def solved(unit: Unit, *, at_least: bool) -> Assembly:
    """The order, with round cuts left out, or with each taken for its whole box.

    Args:
        unit: The resolved unit.
        at_least: Leave out what round and slanted cuts take away, so that what comes apart does
            so for certain; False takes their whole boxes away, so that what is locked is so
            for certain.
    """
    return _Order(Site(unit, ties(unit), at_least, doubts(unit))).assembly()


@dataclass(slots=True)
class _Order:
    """The order of one unit while it is worked out."""

    site: Site

    @property
    def unit(self) -> Unit:
        return self.site.unit

    @property
    def ties(self) -> Ties:
        return self.site.ties

    def assembly(self) -> Assembly:
        drafts: list[Draft] = []
        locked: list[str] = []
        every = clusters(self.site)
        wall = [c for c in every if self.ties.wall & set(c.names)]
        others = [c for c in every if c not in wall]
        for place in neighbourhoods(others, self.ties):
            made = Place(self.site, place)
            drafts += made.drafts()
            locked += made.locked
        drafts += self._hung(wall, [body for c in others for body in c.piece().bodies])
        drafts = list(self._with_screws(drafts))
        drafts += self._left_over(drafts)
        ordered = sorted(drafts, key=lambda d: _STAGES.index(d.stage))
        order = [part.name for part in self.unit.parts]
        names = sorted(set(locked), key=lambda n: order.index(n) if n in order else len(order))
        return Assembly(steps=tuple(self._steps(ordered)), locked=tuple(names))

    def _hung(self, wall: Sequence[Cluster], bodies: Sequence[str]) -> list[Draft]:
        """The wall half goes up first, then the unit is dropped on to it."""
        if not wall:
            return []
        made = [cluster.piece() for cluster in wall]
        drafts = [d for p in made for d in beginning(p, "")]
        names = tuple(body for p in made for body in p.bodies)
        screwed = [s.name for s in screws(self.unit) if set(s.inside) & set(names)]
        loose = [rod.name for rod in rods(self.unit)]
        held = [s.name for s in screws(self.unit) if s.name not in screwed]
        drop = next(m for m in self.unit.moves if m.motion is Motion.DROP)
        drafts.append(
            Draft((*bodies, *loose, *held), (*names, *screwed), drop.side, drop.high, Stage.ON_SITE)
        )
        return [at_stage(draft, Stage.ON_SITE) for draft in drafts]

    def _with_screws(self, drafts: Iterable[Draft]) -> Iterator[Draft]:
        """Screws go in as soon as all boards that they hold lie together."""
        waiting: dict[tuple[tuple[str, ...], Side], list[Hardware]] = {}
        for screw in screws(self.unit):
            waiting.setdefault((screw.inside, screw.axis), []).append(screw)
        holding: dict[str, list[tuple[tuple[str, ...], Side]]] = {}
        for key in waiting:
            for name in key[0]:
                holding.setdefault(name, []).append(key)
        for draft in drafts:
            yield draft
            stands = {*draft.bodies, *draft.standing}
            for key in dict.fromkeys(k for body in draft.bodies for k in holding.get(body, ())):
                held = {name for name in key[0] if name in self.ties.parts}
                if key in waiting and held <= stands:
                    yield self._driven(draft, key[0], waiting.pop(key))

    def _left_over(self, drafts: Sequence[Draft]) -> Iterator[Draft]:
        """Bought pieces that sit in no frame, such as the pull of a door, each on its part."""
        brought = {body for draft in drafts for body in draft.bodies}
        for item in self.unit.hardware:
            if item.name not in brought:
                held = tuple(name for name in item.inside if name in self.ties.parts)
                side = item.axis if held else None
                far = max(item.box.size) if held else 0.0
                yield Draft((item.name,), held, side, far, Stage.AFTER_FINISHING)

    def _driven(self, draft: Draft, inside: tuple[str, ...], group: list[Hardware]) -> Draft:
        tied = (
            index
            for name in inside
            for index, parts in self.ties.joints.get(name, ())
            if parts >= set(inside)
        )
        is_glued = any(self.unit.joints[index].is_glued for index in tied)
        length = max(max(s.box.size) for s in group)
        return Draft(
            tuple(screw.name for screw in group),
            (*draft.standing, *draft.bodies),
            group[0].axis,
            length,
            draft.stage,
            draft.goes if is_glued else "",
        )

    def _steps(self, drafts: Sequence[Draft]) -> Iterator[Step]:
        order = {part.name: i for i, part in enumerate(self.unit.parts)}
        touched = _touched(self.unit)
        carried = _carried(self.unit)
        goes: dict[str, int] = {}
        for number, draft in enumerate(drafts, start=1):
            moving, stands = set(draft.bodies), set(draft.standing)
            closed = {
                i
                for name in draft.bodies
                for i, tied in self.ties.joints.get(name, ())
                if tied <= moving | stands and tied & stands
            }
            onto = {n for i in closed for n in self.unit.joints[i].parts if n in stands}
            beside = (touched, carried)
            onto |= {
                name
                for body in draft.bodies
                for names in beside
                for name in names.get(body, ())
                if name in stands
            }
            if draft.goes:
                goes.setdefault(draft.goes, len(goes) + 1)
            yield Step(
                number=number,
                bodies=draft.bodies,
                onto=tuple(sorted(onto, key=lambda n: order[n])),
                side=draft.side,
                travel=draft.travel,
                stage=draft.stage,
                joints=tuple(sorted(closed)),
                group=goes.get(draft.goes, 0),
            )


def _carried(unit: Unit) -> dict[str, set[str]]:
    """For each body the parts that bought pieces tie it to."""
    parts = unit.by_name
    found: dict[str, set[str]] = {}
    for item in unit.hardware:
        held = {name for name in item.inside if name in parts}
        for name in (item.name, *held):
            found.setdefault(name, set()).update(held - {name})
    return found


def _touched(unit: Unit) -> dict[str, set[str]]:
    """For each body the parts that it is declared to touch."""
    parts = unit.by_name
    found: dict[str, set[str]] = {}
    for proof in unit.proofs:
        if isinstance(proof, Touch):
            for one, other in ((proof.one, proof.other), (proof.other, proof.one)):
                if other in parts:
                    found.setdefault(one, set()).add(other)
    return found


__all__ = ["assembly", "solved"]
