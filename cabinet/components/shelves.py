"""Shelf-pin rows, and shelves that stand on pins: plain, lipped, or framed round a panel.

Lengths in mm in the unit's frame.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from cabinet.components.carcass import Bay, Carcass, require_carcass
from cabinet.components.lipping import lipped
from cabinet.design import Component
from cabinet.errors import DesignError
from cabinet.features import Biscuit, Pattern, Perforation
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Rod
from cabinet.joint import Biscuits, Housing, Joint, PinRows, Touch
from cabinet.joint.biscuits import BELOW_SLOT
from cabinet.motion import Motion, Move
from cabinet.part import Part, board_part
from cabinet.quantity import kind_of, positive, short_name, tenths, whole, within
from cabinet.stock import Stock, require_stock

# Line boring (published hole system of 32): 5 mm holes, pitch 32, front row 37 from the front.
PIN_DIAMETER = 5.0
PIN_PITCH = 32.0
ROW_INSET = 37.0
PIN_DEPTH = 12.0
# How far a pin stands out of the wood.
PIN_REACH = 8.0
# A pin hole stays this far from the far face (common practice).
PIN_FLOOR = 5.0
# A shelf is shorter than its bay by this in all (common practice: 2 to 3).
SHELF_PLAY = 2.4
# A shelf keeps this from the back and from whatever stands before it.
SHELF_BACK_PLAY = 2.0
# The lowest and highest pins stay this far from base and top, so that a hand goes in.
PIN_ROOM = 96.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BayPins:
    """The pins of one bay.

    Attributes:
        bay: The bay.
        front: Y of the front rows.
        back: Y of the back rows.
        heights: Z of the holes from below.
        depth: Depth of the holes.
    """

    bay: Bay
    front: float
    back: float
    heights: tuple[float, ...]
    depth: float

    def height(self, hole: int) -> float:
        """Z of a hole by its number, 1 at the bottom.

        Raises:
            DesignError: there is no hole of that number.
        """
        whole(f"pin rows, {self.bay.name}", "hole", hole, 1, len(self.heights))
        return self.heights[hole - 1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pins:
    """Pin rows of all bays and what shelves need to know of them."""

    component: Component
    bays: tuple[BayPins, ...]

    def bay(self, number: int) -> BayPins:
        """Pins of a bay by its number, 1 at the left (``SizeError`` if there is none)."""
        return self.bays[whole("pin rows", "bay", number, 1, len(self.bays)) - 1]


def pin_rows(
    carcass: Carcass,
    *,
    count: int | None = None,
    first: float = PIN_ROOM,
    pitch: float = PIN_PITCH,
) -> Pins:
    """Four rows of holes in each bay, facing rows from one datum.

    A divider too thin to be bored from both sides at one spot gets the rows of its right bay
    further back, so that shelves of both bays keep the same heights.

    Args:
        carcass: Where they go.
        count: Holes in a row; None for as many as leave ``first`` free above as well.
        first: Lowest hole above the base, mm.
        pitch: Centre to centre, mm.

    Raises:
        SizeError: more holes than fit.
    """
    height = require_carcass("pin rows", carcass).inner.size[2]
    positive("pin rows", "first hole above the base", first)
    positive("pin rows", "pitch", pitch)
    most = 1 + math.floor((height - first - PIN_DIAMETER) / pitch + 1e-9)
    even = 1 + math.floor((height - 2 * first) / pitch + 1e-9)
    holes = whole(
        "pin rows",
        "count",
        max(1, even) if count is None else count,
        1,
        most,
        why=f"holes at pitch {pitch:g} between base and top",
    )
    heights = tuple(carcass.inner.low.z + first + i * pitch for i in range(holes))
    thick = carcass.inner.low.x
    depth = min(PIN_DEPTH, math.floor(thick - PIN_FLOOR))
    is_through_thin = 2 * depth + PIN_FLOOR > thick
    bays, joints = [], []
    for index, bay in enumerate(carcass.bays):
        shift = pitch / 2 if is_through_thin and index % 2 == 1 else 0.0
        front = bay.space.low.y + ROW_INSET + shift
        back = bay.space.high.y - SHELF_BACK_PLAY - ROW_INSET - shift
        if back - front < PIN_PITCH:
            raise DesignError(
                f"pin rows, {bay.name}: {bay.space.size[1]:.1f} mm of depth leave "
                f"{back - front:.1f} mm between front and back row; at least {PIN_PITCH:g} mm",
                part=bay.name,
                value=back - front,
                limit=PIN_PITCH,
            )
        bays.append(BayPins(bay=bay, front=front, back=back, heights=heights, depth=depth))
        joints.append(
            PinRows(
                left=bay.left,
                right=bay.right,
                lines=(("front", front), ("back", back)),
                first=heights[0],
                count=holes,
                pitch=pitch,
                diameter=PIN_DIAMETER,
                depth=depth,
                label=f", {bay.name}" if len(carcass.bays) > 1 else "",
            )
        )
    return Pins(component=Component(joints=tuple(joints)), bays=tuple(bays))


def _pins(pins: BayPins, name: str, z: float) -> tuple[Hardware, ...]:
    """The four pins under a shelf."""
    space = pins.bay.space
    found = []
    for end, x, axis, board in (
        ("left", space.low.x + PIN_REACH, Side.LEFT, pins.bay.left),
        ("right", space.high.x - PIN_REACH, Side.RIGHT, pins.bay.right),
    ):
        for row, y in (("front", pins.front), ("back", pins.back)):
            found.append(
                Hardware(
                    name=f"pin {row} {end}, {name}",
                    article=f"shelf pin {PIN_DIAMETER:g} × {PIN_REACH + pins.depth:g}",
                    body=Rod(diameter=PIN_DIAMETER, length=PIN_REACH + pins.depth),
                    at=UnitPoint(x, y, z),
                    axis=axis,
                    inside=(board, name),
                )
            )
    return tuple(found)


def _in_their_holes(pins: BayPins, hardware: tuple[Hardware, ...]) -> tuple[Touch, ...]:
    """Each pin stands in the upright of its end, and not in the air beside it."""
    uprights = {Side.LEFT: pins.bay.left, Side.RIGHT: pins.bay.right}
    return tuple(Touch(one=uprights[pin.axis], other=pin.name) for pin in hardware)


def _moves(pins: BayPins, name: str, hole: int, parts: tuple[str, ...]) -> tuple[Move, ...]:
    if len(pins.heights) < 2:
        return ()
    here = pins.height(hole)
    return (
        Move(
            name=f"{name} by its pins",
            motion=Motion.SHELF,
            parts=parts,
            side=Side.TOP,
            low=pins.heights[0] - here,
            high=pins.heights[-1] - here,
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """The box that a shelf may fill: low corner, length and depth."""

    low: UnitPoint
    length: float
    depth: float


def _place(pins: BayPins, hole: int, depth: float | None, name: str) -> _Place:
    short_name("shelf", "name", name)
    kind_of(name, "pins", pins, BayPins, right="those of one bay, such as pin_rows(box).bay(1)")
    space = pins.bay.space
    room = space.size[1] - SHELF_BACK_PLAY
    deep = room if depth is None else within(name, "depth", depth, 2 * ROW_INSET, room)
    if space.low.y + deep < pins.back + PIN_DIAMETER:
        raise DesignError(
            f"{name}: depth {deep:g} mm does not reach over the back pins; at least "
            f"{pins.back + PIN_DIAMETER - space.low.y:.1f} mm",
            part=name,
            value=deep,
            limit=pins.back + PIN_DIAMETER - space.low.y,
        )
    length = tenths(pins.bay.least_width - SHELF_PLAY)
    play = (space.size[0] - length) / 2
    low = UnitPoint(space.low.x + play, space.low.y, pins.height(hole) + PIN_DIAMETER / 2)
    return _Place(low=low, length=length, depth=deep)


def board_shelf(
    pins: BayPins,
    *,
    hole: int,
    stock: Stock,
    name: str,
    depth: float | None = None,
    length: float | None = None,
    lipping: Mapping[str, Stock] | None = None,
) -> Component:
    """A plain shelf on four pins, with solid lippings on its edges if wanted.

    Args:
        pins: Pins of its bay.
        hole: Number of the holes that it stands on, 1 at the bottom.
        stock: Board.
        name: Its own name.
        depth: Front to back over its lippings, mm; None fills the bay.
        length: Left to right, mm; None derives it from the bay.
        lipping: Solid wood planed to the strip's thickness, by edge (``front`` ...); the board
            is that much smaller. None for none.

    Raises:
        SizeError: a shelf longer than its bay allows, or a depth out of range.
    """
    place = _place(pins, hole, depth, name)
    require_stock(name, "stock", stock)
    long = place.length
    if length is not None:
        long = within(
            name, "length", length, 100.0, pins.bay.space.size[0] - 1.0, why="its bay less 1"
        )
    plain = board_part(
        name=name,
        role="shelf",
        stock=stock,
        box_low=place.low,
        length=(Side.RIGHT, long),
        width=(Side.BACK, place.depth),
        fence=Side.FRONT,
        stop=Side.LEFT,
        shows=(Side.TOP, Side.FRONT, Side.BOTTOM),
        group="shelves",
    )
    parts, joints = lipped(plain, lipping) if lipping else ((plain,), ())
    hardware = _pins(pins, name, pins.height(hole))
    names = tuple(part.name for part in parts)
    return Component(
        parts=parts,
        joints=joints,
        hardware=hardware,
        moves=_moves(pins, name, hole, names + tuple(h.name for h in hardware)),
        proofs=(
            *(Touch(one=name, other=pin.name) for pin in hardware),
            *_in_their_holes(pins, hardware),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FramePanel:
    """The perforated panel of a frame shelf.

    Attributes:
        stock: Sheet.
        diameter: Diameter of its holes.
        pitch: Centre to centre.
        pattern: How they are set out.
    """

    stock: Stock
    diameter: float
    pitch: float
    pattern: Pattern = Pattern.STAGGERED

    def __post_init__(self) -> None:
        owner = "frame panel"
        require_stock(owner, "stock", self.stock)
        right = "a Pattern, Pattern.STAGGERED or Pattern.SQUARE"
        kind_of(owner, "pattern", self.pattern, Pattern, right=right)


# The panel lies in its groove with this room at each edge, and this across its thickness.
PANEL_EDGE_PLAY = 1.0
PANEL_PLAY = 0.5
# No narrower channel is cut for it: a saw blade's kerf (common practice, no source).
LEAST_CHANNEL = 2.2
PANEL_GROOVE = 8.0
# Lower wall of the groove above the frame's underside; the biscuits lie above the groove.
GROOVE_HEIGHT = 4.0
BISCUIT_FROM_TOP = 5.5
# A biscuit no. 0 has a slot 54 long: the member must be wider by wood on both sides.
MEMBER_WIDTH = 65.0
LEAST_MEMBER = 60.0
# Clear opening of the panel, at least: less is no window for air.
LEAST_PANEL = 40.0


def frame_shelf(
    pins: BayPins,
    *,
    hole: int,
    stock: Stock,
    panel: FramePanel,
    name: str,
    member: float = MEMBER_WIDTH,
    depth: float | None = None,
) -> Component:
    """A shelf of four members with biscuits at the corners and a panel in a groove all round.

    Args:
        pins: Pins of its bay.
        hole: Number of the holes that it stands on, 1 at the bottom.
        stock: Board for the members.
        panel: The perforated panel.
        name: Its own name.
        member: Width of the members, mm.
        depth: Front to back, mm; None fills the bay.

    Raises:
        SizeError: members too narrow or too thin for their biscuits and the panel's groove, or
            no room left for a panel.
        DesignError: a depth that does not reach over the back pins.
    """
    place = _place(pins, hole, depth, name)
    require_stock(name, "stock", stock)
    right = "FramePanel(stock=..., diameter=..., pitch=...)"
    kind_of(name, "panel", panel, FramePanel, right=right)
    within(
        name,
        "member",
        member,
        LEAST_MEMBER,
        (min(place.depth, place.length) - LEAST_PANEL) / 2,
        why="biscuits and panel",
    )
    low, long = place.low, place.length
    sheet_room = GROOVE_HEIGHT + panel.stock.measured + _panel_play(panel.stock)
    least = sheet_room + BELOW_SLOT + Biscuit.NO_0.thickness / 2 + BISCUIT_FROM_TOP
    why = f"the groove for a panel of {panel.stock.measured:g} lies below the biscuits"
    within(name, "thickness of the members", stock.measured, least, math.inf, why=why)
    inside = place.depth - 2 * member
    clear = min(inside, long - 2 * member)
    why = "the panel's clear opening"
    within(name, "pitch of the panel's holes", panel.pitch, 0.0, clear, why=why)
    rails = [
        ("front", Side.RIGHT, Side.BACK, low),
        ("back", Side.LEFT, Side.FRONT, low.moved(Side.BACK, place.depth - member)),
    ]
    ends = [
        ("left", Side.FRONT, Side.RIGHT, low.moved(Side.BACK, member)),
        (
            "right",
            Side.BACK,
            Side.LEFT,
            low.moved(Side.BACK, member).moved(Side.RIGHT, long - member),
        ),
    ]
    parts = []
    for role, group, size in (("frame rail", rails, long), ("frame end", ends, inside)):
        for where, along, across, corner in group:
            parts.append(
                board_part(
                    name=f"{name} {where}",
                    role=role,
                    stock=stock,
                    box_low=corner,
                    length=(along, size),
                    width=(across, member),
                    fence=across.opposite,
                    stop=along.opposite,
                    shows=(Side.TOP, Side.BOTTOM, across.opposite),
                    group="shelves",
                )
            )
    sheet = _panel_sheet(name, panel, place, member)
    joints: list[Joint] = [
        Housing(
            board=sheet.name,
            into=f"{name} {where}",
            play=_panel_play(panel.stock),
            deep=PANEL_EDGE_PLAY,
            is_glued=False,
            datum=Side.BOTTOM,
            runs_out=True,
        )
        for where in ("front", "back", "left", "right")
    ]
    joints += [
        Biscuits(
            one=f"{name} {end}",
            other=f"{name} {rail}",
            biscuit=Biscuit.NO_0,
            count=1,
            level=Side.TOP,
            height=BISCUIT_FROM_TOP,
        )
        for end in ("left", "right")
        for rail in ("front", "back")
    ]
    hardware = _pins(pins, f"{name} front", pins.height(hole))
    by_name = {part.name: part for part in (*parts, sheet)}
    names = (
        *by_name,
        *(item.name for joint in joints for item in joint.hardware(by_name)),
    )
    touching = tuple(
        Touch(one=f"{name} {'front' if ' front ' in pin.name else 'back'}", other=pin.name)
        for pin in hardware
    )
    return Component(
        parts=(*parts, sheet),
        joints=tuple(joints),
        hardware=hardware,
        moves=_moves(pins, name, hole, names + tuple(h.name for h in hardware)),
        proofs=(*touching, *_in_their_holes(pins, hardware)),
    )


def _panel_play(sheet: Stock) -> float:
    """What a panel leaves free of its groove in all: more for a sheet thinner than a blade."""
    return round(max(PANEL_PLAY, LEAST_CHANNEL - sheet.measured), 6)


def _panel_sheet(name: str, panel: FramePanel, place: _Place, member: float) -> Part:
    """The panel: clear opening plus twice the groove less twice the play."""
    reach = PANEL_GROOVE - PANEL_EDGE_PLAY
    inset = member - reach
    z = GROOVE_HEIGHT + _panel_play(panel.stock) / 2
    part = board_part(
        name=f"{name} panel",
        role="panel",
        stock=panel.stock,
        box_low=place.low.moved(Side.RIGHT, inset).moved(Side.BACK, inset).moved(Side.TOP, z),
        length=(Side.RIGHT, place.length - 2 * inset),
        width=(Side.BACK, place.depth - 2 * inset),
        fence=Side.FRONT,
        stop=Side.LEFT,
        shows=(Side.TOP, Side.BOTTOM),
        group="shelves",
    )
    return part.with_features(
        Perforation(
            name="perforation",
            diameter=panel.diameter,
            pitch=panel.pitch,
            pattern=panel.pattern,
        )
    )
