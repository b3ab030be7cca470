"""The way of air through a closed unit, bay by bay: in at the base, past the shelves, out at the top.

Openings in the base and the top count as far as nothing stands over them; a shelf lets pass
what is left round it and through its perforations. Gaps round doors and plug holes' leads are
left out of account. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from cabinet.design import Unit
from cabinet.features import CutOut
from cabinet.frame import UnitBox, UnitPoint
from cabinet.part import Part
from cabinet.site.air_flow import series_area, stack_flow
from cabinet.site.carriers import Carrier
from cabinet.site.plan_area import Rectangle, free_area
from cabinet.site.ranges import Between

# Air in a cupboard is warmer than the room by this, K (common practice, no source).
WARMER = Between(1.0, 2.0, 5.0)
_HOUR = 3600.0


@dataclass(frozen=True, slots=True)
class Narrow:
    """A place that the air must pass, its free area in mm2, and the height where it is."""

    name: str
    area: float
    level: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AirPath:
    """The way of air through one bay.

    Attributes:
        bay: Between which uprights.
        is_open: Whether the bay has no doors or no back, so that air passes freely.
        places: What the air must pass, from below.
        area: Area that all of them together let through, mm2.
        flow: Flow of air that is 1 to 5 K warmer than the room, m3/h.
    """

    bay: str
    is_open: bool
    places: tuple[Narrow, ...]
    area: float
    flow: Between

    @property
    def throat(self) -> Narrow | None:
        """The narrowest place; None where the bay is open."""
        return min(self.places, key=lambda place: place.area, default=None)


def _plan(box: UnitBox) -> Rectangle:
    return Rectangle(box.low.x, box.high.x, box.low.y, box.high.y)


def _cover(unit: Unit, part: Part) -> Rectangle:
    """A part seen from above; behind a back and before a door there is no inside."""
    plan = _plan(part.box)
    if part.group == "doors":
        return Rectangle(plan.x0, plan.x1, unit.outline.low.y, plan.y1)
    if part.group == "back":
        return Rectangle(plan.x0, plan.x1, plan.y0, unit.outline.high.y)
    return plan


def _covers_at(unit: Unit, level: float) -> list[Rectangle]:
    """Everything that is cut by a level."""
    return [_cover(unit, p) for p in unit.parts if p.box.low.z < level < p.box.high.z]


def _goes_on(unit: Unit, flat: Part, cut: CutOut, hole: Rectangle) -> bool:
    """Whether nothing that lies on the board closes the opening again."""
    for part in unit.parts:
        is_beyond = abs(part.box.low.z - flat.box.high.z) < 0.5
        if part.group != "covering" or not is_beyond or hole.within(_plan(part.box)).area <= 0:
            continue
        names = {f.name for f in part.board.features if isinstance(f, CutOut)}
        if cut.name not in names:
            return False
    return True


def _openings(unit: Unit, flat: Part, bay: Rectangle) -> float:
    """Free area of the openings of top or base within a bay."""
    is_top = flat.role == "top"
    if not is_top and any(part.group == "plinth" for part in unit.parts):
        # A plinth closes the space below.
        return 0.0
    level = flat.box.low.z - 1.0 if is_top else flat.box.high.z + 1.0
    covers = _covers_at(unit, level)
    free = 0.0
    for cut in flat.board.features:
        if not isinstance(cut, CutOut):
            continue
        hole = _plan(flat.feature_box(cut))
        if is_top and not _goes_on(unit, flat, cut, hole):
            continue
        inside = hole.within(bay)
        if inside.area > 0:
            # Its round corners are left out in proportion.
            free += free_area(inside, covers) * cut.area / hole.area
    return free


def _past(unit: Unit, shelf: Carrier, bay: Rectangle) -> Narrow:
    """What a shelf leaves free."""
    level = shelf.parts[0].box.low.z + shelf.parts[0].box.size[2] / 2
    own = {part.name for part in shelf.parts}
    others = [
        _cover(unit, p)
        for p in unit.parts
        if p.name not in own and p.box.low.z < level < p.box.high.z
    ]
    around = free_area(bay, [*others, *(_plan(part.box) for part in shelf.parts)])
    through = sum(_through(shelf, part, bay) for part in shelf.parts)
    return Narrow(f"past {shelf.name}", around + through, level)


def _through(shelf: Carrier, part: Part, bay: Rectangle) -> float:
    """Area of a part's perforations that its frame leaves clear, within a bay."""
    clear = shelf.opening if part is shelf.panel else None
    seen = (clear or _plan(part.box)).within(bay)
    if seen.area <= 0:
        return 0.0
    low, high = part.box.low, part.box.high
    column = UnitBox(
        low=UnitPoint(seen.x0, seen.y0, low.z), high=UnitPoint(seen.x1, seen.y1, high.z)
    )
    return part.board.open_area_within(part.board_box(column))


def _bays(unit: Unit) -> list[tuple[str, Rectangle]]:
    uprights = [p for p in unit.parts if p.role in {"side", "divider"}]
    uprights.sort(key=lambda part: part.box.low.x)
    sides = [p.box for p in uprights if p.role == "side"]
    front = min((b.low.y for b in sides), default=unit.outline.low.y)
    back = max((b.high.y for b in sides), default=unit.outline.high.y)
    found = []
    for left, right in pairwise(uprights):
        space = Rectangle(left.box.high.x, right.box.low.x, front, back)
        found.append((f"between {left.name} and {right.name}", space))
    return found


def _is_open(unit: Unit) -> bool:
    """No doors, or standing with neither back panel nor wall close behind."""
    if not any(part.group == "doors" for part in unit.parts):
        return True
    has_panel = any(part.role == "back" for part in unit.parts)
    return not unit.is_hung and not has_panel


def air_paths(unit: Unit, known: tuple[Carrier, ...]) -> tuple[AirPath, ...]:
    """The way of air through each bay of a unit, doors shut.

    Source: ``series_area`` and ``stack_flow``.
    """
    is_open = _is_open(unit)
    by_role = {part.role: part for part in unit.parts}
    base, top = by_role.get("base"), by_role.get("top")
    paths = []
    for name, bay in _bays(unit):
        if is_open or base is None or top is None:
            zero = Between(0.0, 0.0, 0.0)
            paths.append(AirPath(bay=name, is_open=True, places=(), area=0.0, flow=zero))
            continue
        shelves = [
            c
            for c in known
            if c.parts[0].group == "shelves" and bay.x0 < c.left + c.size[0] / 2 < bay.x1
        ]
        places = [Narrow("openings in the base", _openings(unit, base, bay), base.box.high.z)]
        places += sorted((_past(unit, s, bay) for s in shelves), key=lambda p: p.level)
        places.append(Narrow("openings in the top", _openings(unit, top, bay), top.box.low.z))
        area = series_area(place.area for place in places)
        height = top.box.high.z - base.box.low.z
        flows = [_HOUR * stack_flow(area, height, dt) for dt in (WARMER.low, WARMER.likely)]
        flows.append(_HOUR * stack_flow(area, height, WARMER.high))
        paths.append(
            AirPath(
                bay=name,
                is_open=False,
                places=tuple(places),
                area=area,
                flow=Between(flows[0], flows[1], flows[2]),
            )
        )
    return tuple(paths)
