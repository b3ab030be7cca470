"""Two places of a unit side by side: what moves, and what becomes of the holes of the first."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.quantity import written
from cabinet.site.report import SiteReport
from cabinet.site.room.frame import WallPoint
from cabinet.site.room.report import RoomReport, room_report
from cabinet.site.room.rules import room_findings
from cabinet.site.room.setting import Setting
from cabinet.site.tables import SiteTable

# New holes nearer to an old one than this break out into it (common practice, no source).
LEAST_APART = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OldHole:
    """A hole of the first place once the unit has moved.

    Attributes:
        at: On the wall.
        is_covered: Whether the unit hides it at its second place.
        nearest: Distance to the nearest new hole, mm; infinite without any.
    """

    at: WallPoint
    is_covered: bool
    nearest: float

    @property
    def said(self) -> str:
        """What is to be done with it."""
        if self.nearest <= 1.0:
            return "used again"
        if self.nearest < LEAST_APART:
            return f"{self.nearest:.0f} mm from a new hole: fill it first, or move that one"
        return "covered by the unit" if self.is_covered else "stays in sight: fill and paint"


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoPlaces:
    """A unit at two places.

    Attributes:
        one: At the first.
        other: At the second.
        old_holes: What becomes of the first place's holes.
    """

    one: RoomReport
    other: RoomReport
    old_holes: tuple[OldHole, ...]

    @property
    def moved(self) -> tuple[float, float]:
        """How far it moves to the right and up, mm."""
        here, there = self.one.setting.at, self.other.setting.at
        return there.x - here.x, there.z - here.z


def compare(
    unit: Unit,
    one: Setting,
    other: Setting,
    sites: tuple[SiteReport | None, SiteReport | None] = (None, None),
) -> TwoPlaces:
    """A unit at two places on a wall.

    Args:
        unit: The unit, resolved.
        one: The first place, where it may have been hung once.
        other: The second.
        sites: Its strength at each, if it is known.
    """
    here, there = room_report(unit, one, sites[0]), room_report(unit, other, sites[1])
    new = [p.at for p in there.screws.designed] if there.screws is not None else []
    holes = []
    for place in here.screws.designed if here.screws is not None else ():
        at, box = place.at, there.outline
        distances = [((at.x - n.x) ** 2 + (at.z - n.z) ** 2) ** 0.5 for n in new]
        holes.append(
            OldHole(
                at=at,
                is_covered=box.low.x <= at.x <= box.high.x and box.low.z <= at.z <= box.high.z,
                nearest=min(distances, default=float("inf")),
            )
        )
    return TwoPlaces(one=here, other=there, old_holes=tuple(holes))


def comparison_table(both: TwoPlaces) -> SiteTable:
    """The two places side by side."""
    one, other = both.one, both.other

    def row(what: str, a: float, b: float) -> tuple[str, ...]:
        return (what, written(round(a, 1)), written(round(b, 1)), written(round(b - a, 1)))

    rows = [
        row("left side at x", one.outline.low.x, other.outline.low.x),
        row("underside above the floor", one.outline.low.z, other.outline.low.z),
        row("top above the floor", one.outline.high.z, other.outline.high.z),
    ]
    for thing in one.setting.room.things:
        gaps = []
        for report in (one, other):
            across, up = report.outline.overlap(thing.box)
            gaps.append(max(-across, -up))
        said = [f"{g:.0f}" if g >= 0 else "behind it" for g in gaps]
        rows.append((f"gap to {thing.name}", said[0], said[1], f"{gaps[1] - gaps[0]:.0f}"))
    rules = [", ".join(f.rule for f in room_findings(r)) or "none" for r in (one, other)]
    rows.append(("findings", rules[0], rules[1], "-"))
    return SiteTable(
        title="Two places", columns=("what", "first", "second", "change"), rows=tuple(rows)
    )


def holes_table(both: TwoPlaces) -> SiteTable:
    """The holes of the first place, and what becomes of them."""
    rows = [(written(round(h.at.x, 1)), written(round(h.at.z, 1)), h.said) for h in both.old_holes]
    return SiteTable(
        title="Old holes", columns=("x", "above the floor", "what becomes of it"), rows=tuple(rows)
    )
