"""Places: clusters that stand in one place, the largest and what is fitted into it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from cabinet.assembly import Stage
from cabinet.checks.bricks import Bricks
from cabinet.checks.build import Draft, Piece, beginning
from cabinet.checks.cluster import LOOSE_WAYS, Cluster, Site
from cabinet.checks.rods import rod_drafts, rods_in
from cabinet.checks.takedown import TOUCH, Puzzle, Removal, TakeDown, in_the_way
from cabinet.checks.ties import Ties, connected, moved_by
from cabinet.frame import Side
from cabinet.motion import Motion


@dataclass(slots=True)
class Place:
    """Clusters that stand in one place: the largest, and what is fitted into it."""

    site: Site
    clusters: Sequence[Cluster]
    locked: tuple[str, ...] = ()

    def drafts(self) -> list[Draft]:
        """The steps of all that stands here."""
        main = max(self.clusters, key=lambda c: _bulk(c.piece().bricks))
        loose = [cluster for cluster in self.clusters if cluster is not main]
        rank = self._ranks(loose)
        pieces = [cluster.piece() for cluster in loose]
        shut: list[Piece] = [
            rod for rod, way in rods_in(main.piece(), self.site.ties) if way is None
        ]
        if shut:
            main.piece(shut)
        root = main.piece()
        down = self._down(root, pieces, rank)
        if down.locked:
            shut += [pieces[i - 1] for i in down.locked]
            loose = [c for i, c in enumerate(loose, start=1) if i not in down.locked]
            pieces, rank = [c.piece() for c in loose], self._ranks(loose)
            root = main.piece(shut)
            down = self._down(root, pieces, rank)
        stuck = [p for c in self.clusters for p in c.stuck]
        stuck += [pieces[i - 1] for i in down.locked]
        self.locked = tuple(body for p in stuck for body in p.bodies)
        drafts = [*beginning(root, ""), *(d for p in pieces for d in p.drafts)]
        drafts += self._fitted(root, pieces, down.removals)
        return drafts

    def _down(self, root: Piece, pieces: Sequence[Piece], rank: Sequence[float]) -> TakeDown:
        things = [root.bricks, *(p.bricks for p in pieces)]

        lifted = moved_by(self.site.unit, Motion.LIFT) & set(self.site.ties.tracks)

        def between(one: int, other: int) -> frozenset[Side]:
            name = pieces[one - 1].bodies[0] if one else ""
            guides = self.site.ties.tracks.get(name, frozenset())
            if other or name not in lifted:
                return in_the_way(things[one], things[other])
            # Lifted and swung, a door goes out square to its face, past the boards that guide it.
            across = self.site.ties.parts[name].placement.up.axis
            beside = frozenset(side for side in Side if side.axis != across)
            return beside | in_the_way(things[one], root.bricks.without(guides))

        def key(index: int) -> tuple[float, ...]:
            high = things[index].high
            return (rank[index], -round(float(high[2]), 3), -round(float(high[0]), 3))

        return Puzzle(things, LOOSE_WAYS, key, frozenset({0}), between).solve()

    def _ranks(self, loose: Sequence[Cluster]) -> list[float]:
        """Doors come off before what stands behind them."""
        doors = moved_by(self.site.unit, Motion.LIFT) | moved_by(self.site.unit, Motion.SLIDE)
        return [2.0, *(0.0 if set(c.names) & doors else 1.0 for c in loose)]

    def _fitted(
        self, root: Piece, pieces: Sequence[Piece], removals: Sequence[Removal]
    ) -> Iterator[Draft]:
        """Bars first, then each shelf behind its pins, then doors."""
        stands = root.bodies
        waiting = [(p, way) for p, way in rods_in(root, self.site.ties) if way is not None]
        carried = {b for p in pieces for b in p.bodies}
        hardware = self.site.ties.hardware
        for members in (None, *reversed(removals)):
            bodies = () if members is None else self._bodies(pieces, members)
            now = [
                (rod, way)
                for rod, way in waiting
                if not (held := set(hardware[rod.bodies[0]].inside) & carried) or held & set(bodies)
            ]
            waiting = [pair for pair in waiting if pair not in now]
            for draft in rod_drafts(now, hardware, stands):
                yield draft
                stands += draft.bodies
            if members is not None:
                side = members.side.opposite
                yield Draft(bodies, stands, side, members.travel, Stage.AFTER_FINISHING)
                stands += bodies

    @staticmethod
    def _bodies(pieces: Sequence[Piece], removal: Removal) -> tuple[str, ...]:
        return tuple(b for i in removal.things for b in pieces[i - 1].bodies)


def _bulk(bricks: Bricks) -> float:
    return float(np.prod(bricks.boxes[:, 1] - bricks.boxes[:, 0], axis=1).sum())


def neighbourhoods(clusters: Sequence[Cluster], tied: Ties) -> Iterator[list[Cluster]]:
    """Clusters whose boxes reach into each other or that guide each other."""
    by_first = {cluster.names[0]: cluster for cluster in clusters}
    first = {name: c.names[0] for c in clusters for name in c.names}
    pairs = [
        (first[door], first[board])
        for door, boards in sorted(tied.tracks.items())
        for board in sorted(boards)
    ]
    waiting = sorted(clusters, key=lambda c: float(c.piece().bricks.low[0]))
    active: list[Cluster] = []
    for cluster in waiting:
        low, high = cluster.piece().bricks.low, cluster.piece().bricks.high
        active = [c for c in active if c.piece().bricks.high[0] > low[0]]
        for other in active:
            box = other.piece().bricks
            if (np.minimum(high, box.high) - np.maximum(low, box.low) > TOUCH).all():
                pairs.append((cluster.names[0], other.names[0]))
        active.append(cluster)
    for names in connected(by_first, pairs):
        yield [by_first[name] for name in names]


__all__ = ["Place", "neighbourhoods"]
