"""The carcass: two sides, top, base and dividers, and the rails or panel at its back.

Sides run past the ends of top and base, which are let into rebates at the sides' ends; the
sides are left proud there and trimmed flush after gluing. Dividers are housed in top and base.
Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.design import Component
from cabinet.errors import DesignError, UnknownNameError
from cabinet.features import Biscuit, FlushTrim
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.joint import Biscuits, Butt, Crossing, Housing, Joint, Touch, biscuit_for, biscuit_room
from cabinet.part import Part, board_part
from cabinet.quantity import kind_of, positive, tenths, whole, within
from cabinet.stock import Grain, Stock, require_stock

# A housing takes about a third of the board's thickness (common practice: a quarter to a third,
# never more than half).
HOUSED_SHARE = 1 / 3
# Sides stand proud of top and base by this much until they are trimmed (common practice: 0.5-2).
PROUD = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rails:
    """Two rails across the back, with open space between them for air.

    Attributes:
        stock: Board that they are cut from.
        top: Height of the upper rail.
        bottom: Height of the lower rail; 0 for none.
        behind: Space kept clear between rails and wall, as deep as the cleat that hides there.
    """

    stock: Stock
    top: float
    bottom: float
    behind: float = 0.0

    def __post_init__(self) -> None:
        require_stock("back rails", "stock", self.stock)
        positive("back rails", "height of the upper rail", self.top)
        within("back rails", "height of the lower rail", self.bottom, 0.0, 10_000.0)
        within("back rails", "space behind", self.behind, 0.0, 200.0)


# A back panel's groove is wider than the panel by this; half of it is a tenth or two, so that
# the groove's fence is set to whole tenths (common practice, no source).
BACK_PLAY = 0.4


@dataclass(frozen=True, slots=True, kw_only=True)
class BackPanel:
    """A panel across the whole back, let into sides, top and base.

    Its grain stands upright, but runs level where the unit is wider than the stock's sheet.

    Attributes:
        stock: Sheet that it is cut from.
        inset: From the carcass's back edge to the panel's back face; 0 sets it in a rebate,
            more in a groove.
        let_in: How far it reaches into sides, top and base.
        behind: Space kept clear behind the back edge of top and base for a cleat.
    """

    stock: Stock
    inset: float = 0.0
    let_in: float = 6.0
    behind: float = 0.0

    def __post_init__(self) -> None:
        require_stock("back panel", "stock", self.stock)
        within("back panel", "inset", self.inset, 0.0, 200.0)
        positive("back panel", "let in", self.let_in)
        within("back panel", "space behind", self.behind, 0.0, 200.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """The clear space between two uprights.

    Attributes:
        name: ``left bay``, ``bay 2`` ...
        left: Name of the upright at its left.
        right: Name of the upright at its right.
        space: What shelves may use: between uprights, base and top, from behind the doors to
            the back.
        least_width: Clear width of the narrowest bay; they are equal but for a tenth or two,
            and what is cut to it fits in any.
    """

    name: str
    left: str
    right: str
    space: UnitBox
    least_width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Carcass:
    """A carcass and what other components need to know of it.

    Attributes:
        component: Its parts and joints.
        box: Its outer box, without covering, cleat or plinth.
        inner: Clear space between sides, top and base, front edge to back edge.
        bays: Its bays from left to right.
        covering: Thickness of a covering that will lie on the top.
        back: What closes or braces its back.
        back_face: Y of the back face of the rails or panel.
    """

    component: Component
    box: UnitBox
    inner: UnitBox
    bays: tuple[Bay, ...]
    covering: float
    back: Rails | BackPanel | None
    back_face: float

    def bay(self, number: int) -> Bay:
        """Bay by number, 1 at the left.

        Raises:
            UnknownNameError: there is no bay of that number.
        """
        is_whole = isinstance(number, int) and not isinstance(number, bool)
        if not is_whole or not 1 <= number <= len(self.bays):
            raise UnknownNameError(
                f"carcass: there is no bay {number!r}; bays are 1 to {len(self.bays)}",
                part="carcass",
                value=number,
                limit=(1, len(self.bays)),
            )
        return self.bays[number - 1]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """The numbers from which all parts of a carcass follow."""

    width: float
    height: float
    depth: float
    stock: Stock
    top_layers: int
    base_layers: int
    dividers: int
    setback: float
    back: Rails | BackPanel | None

    @property
    def thick(self) -> float:
        return self.stock.measured

    @property
    def let_in(self) -> float:
        return round(self.thick * HOUSED_SHARE, 0)

    @property
    def inner(self) -> UnitBox:
        return UnitBox(
            low=UnitPoint(self.thick, 0.0, self.thick * self.base_layers),
            high=UnitPoint(
                self.width - self.thick, self.depth, self.height - self.thick * self.top_layers
            ),
        )

    @property
    def back_face(self) -> float:
        if isinstance(self.back, Rails):
            return self.depth - self.back.behind
        if isinstance(self.back, BackPanel):
            return self.depth - self.back.behind - self.back.inset
        return self.depth

    @property
    def back_front(self) -> float:
        return self.back_face - (self.back.stock.measured if self.back else 0.0)

    @property
    def divider_lefts(self) -> tuple[float, ...]:
        inner = self.inner
        clear = inner.size[0] - self.dividers * self.thick
        bay = clear / (self.dividers + 1)
        # Set out to tenths from both sides towards the middle, so that a fence can be set.
        near = [tenths((i + 1) * bay + i * self.thick) for i in range((self.dividers + 1) // 2)]
        lefts = [inner.low.x + offset for offset in near]
        rights = [inner.high.x - self.thick - offset for offset in near[: self.dividers // 2]]
        return (*lefts, *reversed(rights))

    @property
    def divider_names(self) -> tuple[str, ...]:
        if self.dividers == 1:
            return ("divider",)
        return tuple(f"divider {i + 1}" for i in range(self.dividers))


def carcass(
    *,
    width: float,
    height: float,
    depth: float,
    stock: Stock,
    top_layers: int = 1,
    base_layers: int = 1,
    dividers: int = 0,
    setback: float = 0.0,
    back: Rails | BackPanel | None = None,
    covering: float = 0.0,
) -> Carcass:
    """A carcass from its overall sizes.

    Args:
        width: Over both sides, mm.
        height: From the underside of the base to the top of the covering, mm.
        depth: From the front edge to the back edge of the sides, mm.
        stock: Board for all of its parts.
        top_layers: Boards glued face to face for the top; 2 doubles it.
        base_layers: The same for the base.
        dividers: Upright boards between the sides, at equal distances.
        setback: Front edges of dividers and shelves lie this far behind the carcass's front.
        back: Rails or a panel at the back; None leaves it open.
        covering: Thickness of a covering to be glued on the top, mm.

    Raises:
        SizeError: sizes that are not positive or not finite.
        KindError: a stock or a back that is none.
        DesignError: sizes that leave no room inside.
    """
    for name, value in (("width", width), ("height", height), ("depth", depth)):
        positive("carcass", name, value)
    require_stock("carcass", "stock", stock)
    if back is not None:
        kind = Rails if isinstance(back, Rails) else BackPanel
        kind_of("carcass", "back", back, kind, right="Rails(...), BackPanel(...) or None")
    whole("carcass", "layers of the top", top_layers, 1, 4)
    whole("carcass", "layers of the base", base_layers, 1, 4)
    whole("carcass", "dividers", dividers, 0, 20)
    within("carcass", "setback", setback, 0.0, depth, why="its depth")
    within("carcass", "covering", covering, 0.0, height, why="its height")
    plan = _Plan(
        width=width,
        height=height - covering,
        depth=depth,
        stock=stock,
        top_layers=top_layers,
        base_layers=base_layers,
        dividers=dividers,
        setback=setback,
        back=back,
    )
    _refuse_cramped(plan)
    parts = (*_sides(plan), _flat(plan, "top"), _flat(plan, "base"), *_dividers(plan))
    back_parts, back_joints = _back(plan)
    return Carcass(
        component=Component(
            parts=parts + back_parts,
            joints=_frame_joints(plan) + back_joints,
            # The top is that much lower, so the covering must come.
            proofs=(Touch(one="covering", other="top"),) if covering else (),
            outline=(UnitBox(low=UnitPoint(0, 0, 0), high=UnitPoint(width, depth, height)),),
        ),
        box=UnitBox(low=UnitPoint(0, 0, 0), high=UnitPoint(width, depth, plan.height)),
        inner=plan.inner,
        bays=_bays(plan),
        covering=covering,
        back=back,
        back_face=plan.back_face,
    )


def require_carcass(owner: str, value: object) -> Carcass:
    """Return ``value`` if it is a carcass.

    Raises:
        KindError: it is something else.
    """
    right = "what carcass(...) returned, not its component"
    return kind_of(owner, "carcass", value, Carcass, right=right)


# Less than this between boards is no bay that a hand can work in, mm.
LEAST_BAY = 60.0


def _refuse_cramped(plan: _Plan) -> None:
    thick = plan.thick
    across = plan.width - (2 + plan.dividers) * thick
    rooms = (
        ("width", plan.width, across / (plan.dividers + 1), "each bay"),
        (
            "height",
            plan.height,
            plan.height - thick * (plan.top_layers + plan.base_layers),
            "between base and top",
        ),
        ("depth", plan.depth, plan.back_front - plan.setback, "between setback and back"),
    )
    for name, value, clear, where in rooms:
        if clear < LEAST_BAY:
            bays = plan.dividers + 1 if name == "width" else 1
            least = round(value + bays * (LEAST_BAY - clear), 6)
            raise DesignError(
                f"carcass: {name} {value:g} mm leaves {clear:.1f} mm {where}; at least "
                f"{LEAST_BAY:g} mm is needed there, so a {name} of at least {least:.1f} mm",
                part="carcass",
                value=value,
                limit=least,
            )
    if isinstance(plan.back, Rails):
        clear = plan.inner.size[2] - plan.back.top - plan.back.bottom
        if clear < 0:
            raise DesignError(
                f"back rails: {plan.back.top:g} and {plan.back.bottom:g} mm are higher than the "
                f"{plan.inner.size[2]:.1f} mm between base and top",
                part="back rails",
                value=plan.back.top + plan.back.bottom,
                limit=plan.inner.size[2],
            )


def _sides(plan: _Plan) -> tuple[Part, ...]:
    sides = []
    for name, x, across in (
        ("left side", 0.0, Side.FRONT),
        ("right side", plan.width - plan.thick, Side.BACK),
    ):
        side = board_part(
            name=name,
            role="side",
            stock=plan.stock,
            box_low=UnitPoint(x, 0.0, -PROUD),
            length=(Side.TOP, plan.height + 2 * PROUD),
            width=(across, plan.depth),
            fence=Side.FRONT,
            stop=Side.BOTTOM,
            shows=(Side.FRONT, Side.LEFT, Side.RIGHT, Side.TOP, Side.BOTTOM),
            group="carcass",
        )
        sides.append(
            side.with_features(
                FlushTrim(name="flush with base", edge=side.surface(Side.BOTTOM), proud=PROUD),
                FlushTrim(name="flush with top", edge=side.surface(Side.TOP), proud=PROUD),
            )
        )
    return tuple(sides)


def _flat(plan: _Plan, name: str) -> Part:
    """The top or the base, its inner face up as face A."""
    is_top = name == "top"
    layers = plan.top_layers if is_top else plan.base_layers
    z = plan.height - plan.thick * layers if is_top else 0.0
    return board_part(
        name=name,
        role=name,
        stock=plan.stock,
        box_low=UnitPoint(plan.thick - plan.let_in, 0.0, z),
        length=(Side.RIGHT, plan.width - 2 * (plan.thick - plan.let_in)),
        width=(Side.FRONT if is_top else Side.BACK, plan.depth),
        layers=layers,
        fence=Side.FRONT,
        stop=Side.LEFT,
        shows=(Side.FRONT, Side.TOP, Side.BOTTOM),
        group="carcass",
    )


def _dividers(plan: _Plan) -> tuple[Part, ...]:
    inner = plan.inner
    # Not left proud: between the rails there is no face for a trimming cutter's bearing.
    back = plan.back_face if isinstance(plan.back, Rails) else plan.back_front
    parts = []
    for name, x in zip(plan.divider_names, plan.divider_lefts, strict=True):
        part = board_part(
            name=name,
            role="divider",
            stock=plan.stock,
            box_low=UnitPoint(x, plan.setback, inner.low.z - plan.let_in),
            length=(Side.TOP, inner.size[2] + 2 * plan.let_in),
            width=(Side.BACK, back - plan.setback),
            fence=Side.FRONT,
            stop=Side.BOTTOM,
            shows=(Side.FRONT, Side.LEFT, Side.RIGHT),
            group="carcass",
        )
        parts.append(part)
    return tuple(parts)


def _frame_joints(plan: _Plan) -> tuple[Joint, ...]:
    joints: list[Joint] = [
        Housing(board=flat, into=side, play=0.0)
        for flat in ("top", "base")
        for side in ("left side", "right side")
    ]
    until = (Side.BACK, plan.back_front) if isinstance(plan.back, Rails) else None
    for name in plan.divider_names:
        for flat in ("top", "base"):
            is_cut_back = until is not None and not (
                flat == "base" and isinstance(plan.back, Rails) and not plan.back.bottom
            )
            joints.append(Housing(board=name, into=flat, until=until if is_cut_back else None))
    return tuple(joints)


def _back(plan: _Plan) -> tuple[tuple[Part, ...], tuple[Joint, ...]]:
    if isinstance(plan.back, Rails):
        return _rails(plan, plan.back)
    if isinstance(plan.back, BackPanel):
        return _panel(plan, plan.back)
    return (), ()


def _rails(plan: _Plan, rails: Rails) -> tuple[tuple[Part, ...], tuple[Joint, ...]]:
    inner = plan.inner
    parts: list[Part] = []
    joints: list[Joint] = []
    levels = [("top rail", inner.high.z - rails.top, rails.top, "top", Side.TOP)]
    if rails.bottom:
        levels.append(("bottom rail", inner.low.z, rails.bottom, "base", Side.BOTTOM))
    for name, z, height, flat, end in levels:
        parts.append(
            board_part(
                name=name,
                role="back rail",
                stock=rails.stock,
                box_low=UnitPoint(inner.low.x, plan.back_front, z),
                length=(Side.RIGHT, inner.size[0]),
                width=(Side.TOP, height),
                fence=end,
                stop=Side.LEFT,
                shows=(Side.FRONT, end.opposite),
                group="back",
            )
        )
        per_end = 2 if height >= 2 * biscuit_room(Biscuit.NO_20) else 1
        biscuit = biscuit_for(name, room=height / per_end, thick=plan.thick)
        joints += [
            Biscuits(one=name, other=side, biscuit=biscuit, count=per_end, level=Side.BACK)
            for side in ("left side", "right side")
        ]
        # An even number keeps the biscuits clear of a divider in the middle.
        count = 2 * max(1, round(inner.size[0] / 500))
        if inner.size[0] < count * biscuit_room(Biscuit.NO_0):
            count = 1
        layers = plan.top_layers if flat == "top" else plan.base_layers
        along = biscuit_for(name, room=inner.size[0] / count, thick=plan.thick * layers)
        joints.append(Biscuits(one=name, other=flat, biscuit=along, count=count, level=Side.BACK))
        joints += [
            Crossing(board=name, into=divider, edge=Side.BACK, to_end=end)
            for divider in plan.divider_names
        ]
    return tuple(parts), tuple(joints)


def _panel(plan: _Plan, panel: BackPanel) -> tuple[tuple[Part, ...], tuple[Joint, ...]]:
    inner, reach = plan.inner, panel.let_in
    # A millimetre all round keeps the panel from holding the carcass open when it is glued up.
    play = 0.5
    high, wide = (inner.size[axis] + 2 * (reach - play) for axis in (2, 0))
    part = board_part(
        name="back",
        role="back",
        stock=panel.stock,
        box_low=UnitPoint(inner.low.x - reach + play, plan.back_front, inner.low.z - reach + play),
        length=(Side.TOP, high),
        width=(Side.RIGHT, wide),
        grain=_back_grain(panel.stock, high, wide),
        fence=Side.LEFT,
        stop=Side.BOTTOM,
        shows=(Side.FRONT,),
        group="back",
    )
    joints: list[Joint] = [
        Housing(
            board="back",
            into=name,
            play=BACK_PLAY if panel.inset else 0.0,
            deep=play,
            is_glued=True,
            runs_out=True,
            datum=Side.BACK,
        )
        for name in ("left side", "right side", "top", "base")
    ]
    joints += [Butt(one="back", other=name) for name in plan.divider_names]
    return (part,), tuple(joints)


def _back_grain(stock: Stock, high: float, wide: float) -> Grain | None:
    """Upright grain, as a back shows best; level where a sheet is large enough at most so."""
    is_only_level = wide > stock.sheet_width and wide > high
    return Grain.WIDTH if stock.has_grain and is_only_level else None


def _bays(plan: _Plan) -> tuple[Bay, ...]:
    inner = plan.inner
    uprights = ["left side", *plan.divider_names, "right side"]
    lefts = [inner.low.x, *(x + plan.thick for x in plan.divider_lefts)]
    rights = [*plan.divider_lefts, inner.high.x]
    if plan.dividers == 0:
        names = ["bay"]
    elif plan.dividers == 1:
        names = ["left bay", "right bay"]
    else:
        names = [f"bay {i + 1}" for i in range(plan.dividers + 1)]
    least = min(right - left for left, right in zip(lefts, rights, strict=True))
    return tuple(
        Bay(
            name=name,
            left=left_name,
            right=right_name,
            least_width=least,
            space=UnitBox(
                low=UnitPoint(left, plan.setback, inner.low.z),
                high=UnitPoint(right, plan.back_front, inner.high.z),
            ),
        )
        for name, left_name, right_name, left, right in zip(
            names, uprights[:-1], uprights[1:], lefts, rights, strict=True
        )
    )
