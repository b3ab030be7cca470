"""The bevelled hanging cleat: one half in the unit, the other on the wall.

Both halves are ripped at 45 degrees. The wall half has its sharp edge up and away from the
wall, the unit's half down and towards it, so the weight slides the unit down the bevel against
the wall. They bear on the bevel only: the unit's half is blunted so that its edge stays clear.
Lengths in mm in the unit's frame.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from cabinet.components.carcass import Carcass, Rails, require_carcass
from cabinet.design import Component, together
from cabinet.errors import DesignError
from cabinet.features import Bevel, Hole, HoleRow
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.hardware import Hardware, Screw
from cabinet.joint import Butt, Joint, Screwed, Touch
from cabinet.motion import Motion, Move
from cabinet.part import Part, board_part
from cabinet.quantity import kind_of, numbers, positive, tenths, whole, within
from cabinet.stock import Stock, require_stock

# The unit half's sharp edge stays this far above the bottom of the V (common practice: 2 to 3).
BLUNT = 3.0
# The wall half is shorter, so that the unit can be slid sideways to its place (20 to 50).
SHORTER = 30.0
# The unit half stands this clear of each side.
END_PLAY = 0.5
# To hang it, the unit is raised by the bevel's height and this more (common practice: 5 to 10;
# the check lets it pass from 5).
LIFT_MORE = 8.0
# Outer screws from the cleat's ends, as near to the first as dividers allow (common practice).
SCREW_INSET, LEAST_INSET, MOST_INSET = 60, 40, 121
# A driver's body beside a divider: half its width and a hair, a large one or else a small one.
DRIVER_ROOM = (32.0, 22.0)
# Lengths of the screws from rails into cleat and spacer, the longest that fits is taken.
SCREW_LENGTHS = (45.0, 40.0, 35.0, 30.0, 25.0)
# Wood left before the tip of a screw.
BEFORE_TIP = 4.0
# Screws nearer to each other than this split the cleat (common practice, no source).
LEAST_WALL_PITCH = 40.0
# From the ends of the wall half: ten diameters (EN 1995-1-1 Table 8.6, from memory).
WALL_SCREW_FROM_END = 60.0
WALL_SCREW = Screw(diameter=6.0, length=100.0, head_diameter=12.0)


class CleatKind(Enum):
    """Where the cleat is."""

    HIDDEN = "between sides that run back to the wall"
    BEHIND = "behind the unit, with a spacer at the foot"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    kind: CleatKind
    low_x: float
    length: float
    front: float
    top: float
    thick: float


def hanging_cleat(
    carcass: Carcass,
    *,
    stock: Stock,
    layers: int = 2,
    height: float = 90.0,
    kind: CleatKind = CleatKind.HIDDEN,
    screws: int = 6,
    wall_screws: int = 4,
    wall_screw_places: Sequence[float] = (),
) -> Component:
    """A cleat for a carcass with a rail at its back.

    Args:
        carcass: The unit; it needs back rails, to which the unit half is glued and screwed.
        stock: Board.
        layers: Boards glued face to face; 2 doubles it.
        height: Of each half, to its sharp edge (the unit half is blunted), mm.
        kind: Hidden between the sides, or behind the unit.
        screws: From the rail into the unit half.
        wall_screws: Through the wall half, at equal distances.
        wall_screw_places: Each screw's place from the left end of the wall half, mm, where studs
            or cables ask for others; then ``wall_screws`` does not count.

    Raises:
        SizeError: a height that is not positive or higher than the unit, or screws too near to
            each other or to an end.
        DesignError: no rails, or too little space kept behind them.
    """
    require_carcass("cleat", carcass)
    require_stock("cleat", "stock", stock)
    kind_of("cleat", "kind", kind, CleatKind, right="CleatKind.HIDDEN or CleatKind.BEHIND")
    positive("cleat", "height", height)
    whole("cleat", "layers", layers, 1, 4)
    whole("cleat", "screws", screws, 1, 40)
    whole("cleat", "wall screws", wall_screws, 2, 40)
    places = numbers("cleat", "wall_screw_places", wall_screw_places)
    thick = stock.measured * layers
    if not isinstance(carcass.back, Rails):
        raise DesignError(
            "cleat: the carcass has no back rails to fix it to; give the carcass Rails",
            part="cleat",
            limit="back rails",
        )
    # Both halves lie one above the other, and the unit must be able to rise over the wall half.
    room = carcass.inner.size[2] - thick - LIFT_MORE
    within("cleat", "height", height, 1.5 * thick, room / 2, why="two halves and the lift")
    plan = _plan(carcass, carcass.back, thick, kind)
    component = _halves(stock, layers, plan, height, wall_screws, places)
    rail = Screwed(
        through="top rail",
        into="cleat, unit half",
        screw=_unit_screw(carcass.back, thick),
        count=screws,
        inset=_inset(carcass, plan, screws),
        offset=min(height, carcass.back.top) / 3,
        offset_from=Side.TOP,
    )
    joints: list[Joint] = [rail]
    if kind is CleatKind.HIDDEN:
        joints.append(Butt(one="cleat, unit half", other="top"))
    if kind is CleatKind.HIDDEN:
        return together(component, Component(joints=tuple(joints)))
    low, high = carcass.box.low, carcass.box.high
    behind = UnitBox(
        low=UnitPoint(low.x, high.y, low.z), high=UnitPoint(high.x, high.y + thick, high.z)
    )
    return together(
        component,
        Component(joints=tuple(joints), outline=(behind,)),
        _spacer(carcass, stock, layers, plan),
    )


def _inset(carcass: Carcass, plan: _Plan, count: int) -> float:
    """From the ends of the cleat to its outer screws, so that a driver gets behind each one."""
    low = max(plan.low_x, carcass.inner.low.x)
    high = min(plan.low_x + plan.length, carcass.inner.high.x)
    dividers = [(one.space.high.x, other.space.low.x) for one, other in pairwise(carcass.bays)]
    for room in DRIVER_ROOM:
        for inset in sorted(range(LEAST_INSET, MOST_INSET), key=lambda x: abs(x - SCREW_INSET)):
            pitch = tenths((high - low - 2 * inset) / max(count - 1, 1))
            places = [low + inset + i * pitch for i in range(count)]
            if pitch > 0 and all(
                place < left - room or place > right + room
                for place in places
                for left, right in dividers
            ):
                return float(inset)
    return float(SCREW_INSET)


def _unit_screw(rails: Rails, thick: float) -> Screw:
    """The longest screw through a rail that stays within a cleat or spacer behind it."""
    most = rails.stock.measured + thick - BEFORE_TIP
    length = next((each for each in SCREW_LENGTHS if each <= most), SCREW_LENGTHS[-1])
    return Screw(diameter=5.0, length=length, head_diameter=10.0)


def _plan(carcass: Carcass, rails: Rails, thick: float, kind: CleatKind) -> _Plan:
    inner, box = carcass.inner, carcass.box
    if kind is CleatKind.HIDDEN:
        if abs(rails.behind - thick) > 1e-6:
            raise DesignError(
                f"cleat: it is {thick:g} mm thick but {rails.behind:g} mm are kept behind the "
                f"rails; give the rails behind={thick:g}",
                part="cleat",
                value=rails.behind,
                limit=thick,
            )
        return _Plan(
            kind=kind,
            low_x=inner.low.x + END_PLAY,
            length=inner.size[0] - 2 * END_PLAY,
            front=carcass.back_face,
            top=inner.high.z,
            thick=thick,
        )
    if rails.behind:
        raise DesignError(
            f"cleat: behind the unit it stands flat against its back, but {rails.behind:g} mm "
            "are kept behind the rails; give the rails behind=0",
            part="cleat",
            value=rails.behind,
            limit=0.0,
        )
    return _Plan(
        kind=kind,
        low_x=box.low.x + SHORTER,
        length=box.size[0] - 2 * SHORTER,
        front=box.high.y,
        top=inner.high.z,
        thick=thick,
    )


def _halves(
    stock: Stock,
    layers: int,
    plan: _Plan,
    height: float,
    wall_screws: int,
    places: tuple[float, ...],
) -> Component:
    unit_height = height - BLUNT
    unit_half = _half(
        stock,
        layers,
        "unit half",
        plan,
        (plan.low_x, plan.length),
        (plan.top - unit_height, unit_height),
    )
    bevelled = unit_half.with_features(
        Bevel(
            name="hanging bevel",
            edge=unit_half.surface(Side.BOTTOM),
            sharp=unit_half.surface(Side.BACK),
            land=BLUNT,
        )
    )
    # The bevels coincide: the wall half's sharp edge meets the unit half's bevel at its front.
    wall_top = plan.top - unit_height + plan.thick - BLUNT
    wall_half = _half(
        stock,
        layers,
        "wall half",
        plan,
        (plan.low_x + SHORTER / 2, plan.length - SHORTER),
        (wall_top - height, height),
    )
    bevel = Bevel(
        name="hanging bevel",
        edge=wall_half.surface(Side.TOP),
        sharp=wall_half.surface(Side.FRONT),
    )
    holes, hardware = _wall_screws(wall_half, plan, wall_top - height, wall_screws, places)
    wall_half = wall_half.with_features(bevel, *holes)
    made = [part.name for part in (bevelled, wall_half)]
    return Component(
        parts=(bevelled, wall_half),
        hardware=hardware,
        moves=(
            Move(
                name="unit drops on to its cleat",
                motion=Motion.DROP,
                parts=(wall_half.name, *(screw.name for screw in hardware)),
                # Seen from the unit, the wall half comes up from below.
                side=Side.BOTTOM,
                low=0.0,
                high=plan.thick + LIFT_MORE,
            ),
        ),
        proofs=(Touch(one=made[0], other=made[1]),),
    )


def _half(
    stock: Stock,
    layers: int,
    which: str,
    plan: _Plan,
    x: tuple[float, float],
    z: tuple[float, float],
) -> Part:
    is_wall = which == "wall half"
    return board_part(
        name=f"cleat, {which}",
        role=f"cleat, {which}",
        stock=stock,
        box_low=UnitPoint(x[0], plan.front, z[0]),
        length=(Side.RIGHT, x[1]),
        width=(Side.TOP, z[1]),
        layers=layers,
        fence=Side.BOTTOM if is_wall else Side.TOP,
        stop=Side.LEFT,
        group="wall" if is_wall else "cleat",
    )


def _wall_screws(
    wall_half: Part, plan: _Plan, bottom: float, count: int, places: tuple[float, ...]
) -> tuple[tuple[HoleRow | Hole, ...], tuple[Hardware, ...]]:
    """Holes and screws through the part of the wall half that has its full thickness."""
    inset = 80.0
    box = wall_half.blank_box
    full = box.size[2] - plan.thick
    line = bottom + full / 2
    holes: tuple[HoleRow | Hole, ...]
    if places:
        _refuse_crowded(wall_half, places)
        holes = tuple(
            Hole(
                name=f"wall screw hole {i + 1}",
                surface=wall_half.surface(Side.FRONT),
                centre=(
                    wall_half.at(Side.LEFT, box.low.x + place),
                    wall_half.at(Side.BOTTOM, line),
                ),
                diameter=WALL_SCREW.clearance,
                countersink=WALL_SCREW.head_diameter,
            )
            for i, place in enumerate(sorted(places))
        )
    else:
        most = 1 + math.floor((box.size[0] - 2 * inset) / LEAST_WALL_PITCH)
        whole("cleat", "wall screws", count, 2, most, why=f"{LEAST_WALL_PITCH:g} mm apart at least")
        pitch = tenths((box.size[0] - 2 * inset) / (count - 1))
        places = tuple(inset + i * pitch for i in range(count))
        holes = (
            HoleRow(
                name="wall screw holes",
                surface=wall_half.surface(Side.FRONT),
                first=wall_half.at(Side.LEFT, box.low.x + inset),
                line=wall_half.at(Side.BOTTOM, line),
                count=count,
                pitch=pitch,
                diameter=WALL_SCREW.clearance,
                depth=None,
                countersink=WALL_SCREW.head_diameter,
            ),
        )
    screws = tuple(
        Hardware(
            name=f"wall screw {i + 1}",
            article=f"wall screw {WALL_SCREW.diameter:g} × {WALL_SCREW.length:g}, "
            "with a fixing chosen for the wall",
            body=WALL_SCREW,
            at=UnitPoint(box.low.x + place, plan.front, line),
            axis=Side.BACK,
            inside=(wall_half.name, "wall"),
        )
        for i, place in enumerate(sorted(places))
    )
    return holes, screws


def _refuse_crowded(wall_half: Part, places: tuple[float, ...]) -> None:
    """Refuse screws too near to each other or to an end of the wall half (``SizeError``)."""
    length = wall_half.blank_box.size[0]
    whole("cleat", "wall screws", len(places), 2, 40)
    for place in places:
        within(
            "cleat",
            "place of a wall screw from the left end of the wall half",
            place,
            WALL_SCREW_FROM_END,
            length - WALL_SCREW_FROM_END,
            why=f"{WALL_SCREW_FROM_END:g} mm from its ends at least",
        )
    for one, other in pairwise(sorted(places)):
        within(
            "cleat",
            "distance of two wall screws",
            other - one,
            LEAST_WALL_PITCH,
            math.inf,
            why="nearer ones split it",
        )


SPACER_HEIGHT = 60.0
SPACER_SCREWS = 4


def _spacer(carcass: Carcass, stock: Stock, layers: int, plan: _Plan) -> Component:
    """A strip as thick as the cleat at the foot, so that the unit hangs plumb."""
    rails = carcass.back
    if not isinstance(rails, Rails) or rails.bottom <= 0:
        raise DesignError(
            "cleat: a cleat behind the unit needs a spacer at the foot, and the spacer a lower "
            "rail to be fixed to; give the rails a bottom height",
            part="spacer",
            limit="a lower rail",
        )
    height = min(SPACER_HEIGHT, rails.bottom)
    part = board_part(
        name="spacer",
        role="spacer",
        stock=stock,
        box_low=UnitPoint(plan.low_x, plan.front, carcass.inner.low.z),
        length=(Side.RIGHT, plan.length),
        width=(Side.TOP, height),
        layers=layers,
        fence=Side.BOTTOM,
        stop=Side.LEFT,
        group="cleat",
    )
    joint = Screwed(
        through="bottom rail",
        into="spacer",
        screw=_unit_screw(rails, plan.thick),
        count=SPACER_SCREWS,
        inset=_inset(carcass, plan, SPACER_SCREWS),
    )
    return Component(parts=(part,), joints=(joint,))
