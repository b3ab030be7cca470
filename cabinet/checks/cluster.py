"""Clusters: parts that end as one rigid thing, built up from frames and what is applied to them.

Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from cabinet.assembly import Stage
from cabinet.checks.bricks import Bricks, part_bricks, together
from cabinet.checks.build import Draft, Piece, beginning, frame, merged, take_off
from cabinet.checks.takedown import Puzzle, Ways, in_the_way
from cabinet.checks.ties import Ties
from cabinet.design import Unit
from cabinet.frame import Side

APPLIED_WAYS: Ways = (Side.TOP, Side.BACK, Side.FRONT, Side.LEFT, Side.RIGHT, Side.BOTTOM)
LOOSE_WAYS: Ways = (Side.FRONT, Side.TOP, Side.LEFT, Side.RIGHT, Side.BACK, Side.BOTTOM)


@dataclass(frozen=True, slots=True)
class Site:
    """One unit while its order is worked out.

    Attributes:
        unit: The unit.
        ties: What ties its bodies.
        at_least: Whether bricks are never less than the parts, or never more.
        doubts: For each part those of which bricks cannot tell.
    """

    unit: Unit
    ties: Ties
    at_least: bool
    doubts: dict[str, frozenset[str]]

    def single(self, name: str) -> Piece:
        """One board with the biscuits that are put into it."""
        biscuits = self.ties.biscuits.get(name, ())
        part = self.ties.parts[name]
        boxes = [item.box for item in biscuits]
        bricks = part_bricks(part, boxes, at_least=self.at_least)
        doubts = self.doubts.get(name, frozenset()) if self.at_least else frozenset()
        return Piece(replace(bricks, doubts=doubts), (name, *(item.name for item in biscuits)))


@dataclass(slots=True, eq=False)
class Cluster:
    """Parts that end as one rigid thing, and the panels that lie dry in their grooves."""

    site: Site
    names: tuple[str, ...]
    frames: tuple[tuple[str, ...], ...]
    panels: tuple[str, ...]
    stuck: tuple[Piece, ...] = ()
    _known: Piece | None = None

    def piece(self, shut_in: Sequence[Piece] = ()) -> Piece:
        """The cluster built up.

        Args:
            shut_in: Pieces that can only go in before the frame is closed.
        """
        if shut_in or self._known is None:
            self._known = self._build([self.site.single(n) for n in self.frames[0]], shut_in)
        return self._known

    def _build(self, core: Sequence[Piece], shut_in: Sequence[Piece]) -> Piece:
        whole = together(piece.bricks for piece in core)
        panels = [self.site.single(name) for name in self.panels]
        fast = [p for p in panels if len(in_the_way(p.bricks, whole)) == len(Side)]
        goes = f"frame, {self.frames[0][0]}"
        built = frame([*core, *fast, *shut_in], self.site.ties.pairs, goes)
        self.stuck = built.stuck
        root = built.piece
        applied = [self._frame(names) for names in self.frames[1:]]
        down = take_off(root, applied, APPLIED_WAYS, lambda i: self._late(applied, i))
        if down.locked and not built.stuck:
            return self._with_inner(core, shut_in, [applied[i - 1] for i in down.locked])
        self.stuck += tuple(applied[i - 1] for i in down.locked)
        is_plain = len(core) == 1 and all(len(names) == 1 for names in self.frames)
        drafts = list(beginning(root, goes if is_plain and applied else ""))
        stands = root.bodies
        for removal in reversed(down.removals):
            members = [applied[i - 1] for i in removal.things]
            drafts += [d for p in members for d in p.drafts]
            bodies = tuple(b for p in members for b in p.bodies)
            key = goes if is_plain else self._go(bodies)
            stage = Stage.GLUED if is_plain else Stage.AFTER_GLUING
            side = removal.side.opposite
            drafts.append(Draft(bodies, stands, side, removal.travel, stage, key))
            stands += bodies
        drafts += self._panels_after([p for p in panels if p not in fast], whole, stands)
        every = [root, *applied, *(p for p in panels if p not in fast)]
        return merged(every, drafts if len(every) > 1 or root.drafts else ())

    def _with_inner(
        self, core: Sequence[Piece], shut_in: Sequence[Piece], inner: Sequence[Piece]
    ) -> Piece:
        """Build again with pieces put in before the frame is closed instead of after."""
        names = {body for piece in inner for body in piece.bodies}
        self.frames = tuple(f for f in self.frames if not set(f) <= names)
        return self._build([*core, *inner], shut_in)

    def _frame(self, names: Sequence[str]) -> Piece:
        singles = [self.site.single(name) for name in names]
        built = frame(singles, self.site.ties.pairs, f"frame, {names[0]}")
        self.stuck += built.stuck
        return built.piece

    def _late(self, applied: Sequence[Piece], index: int) -> tuple[float, ...]:
        """What is cut oversize and trimmed when it is glued comes off first: it went on last."""
        if index == 0:
            return (2.0,)
        part = self.site.ties.parts[applied[index - 1].bodies[0]]
        return (0.0 if part.board.oversize else 1.0,)

    def _go(self, bodies: Sequence[str]) -> str:
        """Alike pieces, such as feet, are glued on in one go."""
        parts, mine = self.site.ties.parts, set(bodies)
        is_glued = any(
            self.site.unit.joints[index].is_glued and not tied <= mine
            for name in bodies
            for index, tied in self.site.ties.joints.get(name, ())
        )
        return f"{self.names[0]}, {parts[bodies[0]].role}" if is_glued else ""

    def _panels_after(
        self, panels: Sequence[Piece], whole: Bricks, stands: tuple[str, ...]
    ) -> Iterator[Draft]:
        """Panels that lie in a rebate are laid in when all is finished."""
        for panel in panels:
            down = Puzzle([whole, panel.bricks], LOOSE_WAYS, lambda _: (), frozenset({0})).solve()
            removal = down.removals[0]
            yield Draft(
                panel.bodies, stands, removal.side.opposite, removal.travel, Stage.AFTER_FINISHING
            )


def clusters(site: Site) -> list[Cluster]:
    """All clusters of a unit, in the order of their parts."""
    hosts = _let_in(site.ties)
    found = []
    for names, frames in zip(site.ties.clusters, site.ties.frames, strict=True):
        if names[0] in hosts and len(names) == 1:
            continue
        panels = [panel for panel, host in hosts.items() if host in names]
        found.append(Cluster(site, names, frames, tuple(panels)))
    return found


def _let_in(ties: Ties) -> dict[str, str]:
    """For each single board that lies dry in grooves of one frame, a part of that frame."""
    cluster = {name: i for i, names in enumerate(ties.clusters) for name in names}
    hosts: dict[str, set[str]] = {}
    for board, into in ties.dry:
        if len(ties.clusters[cluster[board]]) == 1:
            hosts.setdefault(board, set()).add(into)
    return {
        board: min(into)
        for board, into in hosts.items()
        if len({cluster[name] for name in into}) == 1 and not into & set(hosts)
    }


__all__ = ["LOOSE_WAYS", "Cluster", "Site", "clusters"]
