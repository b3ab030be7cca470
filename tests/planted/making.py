"""Planted mistakes of making: order, screws, cutters, saw, trimming."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from cabinet.board import At, Surface
from cabinet.checks.cutters import cutters
from cabinet.checks.locked import locks, loose_parts
from cabinet.checks.reach import reach
from cabinet.checks.sawing import sawing
from cabinet.checks.screws import screws_and_cuts, screws_and_metal, screws_in_wood, screws_seen
from cabinet.checks.trims import trims
from cabinet.components.carcass import carcass
from cabinet.design import Component, Design, Unit
from cabinet.features import (
    Bevel,
    Biscuit,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    Rebate,
)
from cabinet.findings import Finding
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import BiscuitPiece, Hardware, Rod, Screw
from cabinet.joint import Biscuits, Butt
from cabinet.motion import Motion
from cabinet.part import Part, board_part
from cabinet.stock import birch_plywood, solid_wood
from cabinet.workshop import Router, Saw, Workshop
from tests.cabinet.checks.planted import with_board, with_feature, with_part
from tests.planted.good_units import (
    ALL,
    CLOSED,
    COVERED,
    DIVIDED,
    DOORS,
    HUNG,
    SCREWED,
    STANDING,
    with_component,
)
from tests.planted.mistake import Check, Mistake

BIRCH = birch_plywood(18, 17.6)
TOOLS = Workshop()


def _with_tools(
    check: Callable[[Unit, Workshop], Iterator[Finding]], workshop: Workshop = TOOLS
) -> Check:
    return lambda unit: check(unit, workshop)


def _added(unit: Unit, name: str, *features: Feature) -> Unit:
    part = unit.by_name[name]
    return with_part(unit, part.with_features(*features))


def _with_hardware(unit: Unit, old: Hardware, new: Hardware) -> Unit:
    return replace(unit, hardware=tuple(new if h == old else h for h in unit.hardware))


def _rail_screws(unit: Unit) -> list[Hardware]:
    return [h for h in unit.hardware if isinstance(h.body, Screw) and "top rail" in h.inside]


def _rail_screw(unit: Unit) -> Hardware:
    return _rail_screws(unit)[1]


def _more(unit: Unit, *items: Hardware) -> Unit:
    return replace(unit, hardware=unit.hardware + items)


def _groove(
    part: Part,
    side: Side,
    near: tuple[Side, float],
    width: float,
    depth: float,
    *,
    end: At | None = None,
) -> Groove:
    return Groove(
        name="planted groove",
        surface=part.surface(side),
        near=At(part.surface(near[0]), near[1]),
        width=width,
        depth=depth,
        end=end,
    )


def _nothing(unit: Unit, size: float) -> Unit:
    """The unit as it is: it is the workshop that is wrong."""
    del size
    return unit


# Screws.


def _groove_on_the_screws(unit: Unit, size: float) -> Unit:
    """A groove for a light strip along the rail, where the cleat's screws go."""
    rail, screw = unit.by_name["top rail"], _rail_screw(unit)
    below = screw.at.z - rail.box.low.z
    return _added(unit, "top rail", _groove(rail, Side.FRONT, (Side.BOTTOM, below - 2), size, 5.0))


def _hole_beside_a_screw(unit: Unit, size: float) -> Unit:
    """A hole for a lead through the rail, bored into a screw."""
    rail, screw = unit.by_name["top rail"], _rail_screw(unit)
    hole = Hole(
        name="lead",
        surface=rail.surface(Side.FRONT),
        centre=(rail.at(Side.LEFT, screw.at.x + size), rail.at(Side.BOTTOM, screw.at.z - 1.0)),
        diameter=2 * size,
    )
    return _added(unit, "top rail", hole)


def _screw_into_a_slot(unit: Unit, size: float) -> Unit:
    """A screw moved to a biscuit's place."""
    screw = _rail_screw(unit)
    biscuit = next(
        h
        for h in unit.hardware
        if isinstance(h.body, BiscuitPiece) and h.inside == ("top rail", "top")
    )
    place = UnitPoint(biscuit.at.x + size, screw.at.y, biscuit.at.z - size)
    return _with_hardware(unit, screw, replace(screw, at=place))


def _crossing_screw(unit: Unit, size: float) -> Unit:
    """Another screw driven up through the rail across one of the cleat's."""
    screw = _rail_screw(unit)
    rail = unit.by_name["top rail"].box
    middle = (rail.low.y + rail.high.y) / 2
    other = Hardware(
        name="screw from below",
        article="countersunk wood screw 4 × 70",
        body=Screw(diameter=4.0, length=70.0, head_diameter=8.0),
        at=UnitPoint(screw.at.x + size, middle, rail.low.z),
        axis=Side.TOP,
        inside=("top rail",),
    )
    return _more(unit, other)


def _screw_into_a_pin(unit: Unit, size: float) -> Unit:
    """A screw through the side at a shelf pin."""
    pin = next(h for h in unit.hardware if isinstance(h.body, Rod) and h.inside[0] == "left side")
    screw = Hardware(
        name="screw at the pin",
        article="countersunk wood screw 4 × 30",
        body=Screw(diameter=4.0, length=30.0, head_diameter=8.0),
        at=UnitPoint(0.0, pin.at.y + size, pin.at.z),
        axis=Side.RIGHT,
        inside=("left side",),
    )
    return _more(unit, screw)


def _long_screws(unit: Unit, size: float) -> Unit:
    """A longer screw than the boards take."""
    for screw in _rail_screws(unit):
        assert isinstance(screw.body, Screw)
        into = unit.by_name[screw.inside[-1]].box
        deep = into.face(screw.axis) - screw.at.y
        unit = _with_hardware(
            unit, screw, replace(screw, body=replace(screw.body, length=deep + size))
        )
    return unit


def _short_screws(unit: Unit, size: float) -> Unit:
    """Screws that hardly come through the rail."""
    for screw in _rail_screws(unit):
        assert isinstance(screw.body, Screw)
        grip = unit.by_name["top rail"].box.size[screw.axis.axis]
        short = replace(screw.body, length=grip + size)
        unit = _with_hardware(unit, screw, replace(screw, body=short))
    return unit


def _screw_at_the_edge(unit: Unit, size: float) -> Unit:
    """A line of screws so near to the rail's lower edge that the thread comes out."""
    low = unit.by_name["top rail"].box.low.z
    for screw in _rail_screws(unit):
        assert isinstance(screw.body, Screw)
        place = replace(screw.at, z=low + screw.body.diameter / 2 + size)
        unit = _with_hardware(unit, screw, replace(screw, at=place))
    return unit


def _seen_screw(unit: Unit, size: float) -> Unit:
    """A screw through the side from outside."""
    side, base = unit.by_name["left side"].box, unit.by_name["base"].box
    screw = Hardware(
        name="screw from outside",
        article="countersunk wood screw 4 × 50",
        body=Screw(diameter=4.0, length=50.0, head_diameter=8.0),
        at=UnitPoint(side.low.x, side.high.y * size, (base.low.z + base.high.z) / 2),
        axis=Side.RIGHT,
        inside=("left side", "base"),
    )
    return _more(unit, screw)


def _screw_beside_a_divider(unit: Unit, size: float) -> Unit:
    """A screw of the cleat so near to a divider that no driver stands behind it."""
    divider = next(p for p in unit.parts if p.role == "divider").box
    screw = _rail_screw(unit)
    place = replace(screw.at, x=divider.high.x + size)
    return _with_hardware(unit, screw, replace(screw, at=place))


def _screw_in_a_narrow_bay(unit: Unit, size: float) -> Unit:
    """Sides screwed from inside a bay in which no driver fits."""
    thick = unit.by_name["left side"].board.thickness
    stock = unit.by_name["left side"].board.stock
    box = carcass(width=2 * size + 3 * thick, height=587, depth=303, stock=stock, dividers=1)
    narrow = Design("narrow", (box.component,)).resolve()
    screw = Hardware(
        name="screw from inside",
        article="countersunk wood screw 4 × 50",
        body=Screw(diameter=4.0, length=50.0, head_diameter=8.0),
        at=UnitPoint(thick, 151.0, 293.0),
        axis=Side.LEFT,
        inside=("left side", "divider"),
    )
    return _more(narrow, screw)


# Order.


def _covering_each_other(unit: Unit, size: float) -> Unit:
    """A box for a kettle beside the unit: each board of a corner covers the next one's edge."""
    return with_component(unit, _locked_corner(size, UnitPoint(-900.0, 0.0, 0.0)))


def _locked_corner(size: float, at: UnitPoint) -> Component:
    thick = BIRCH.measured
    x, y, z = at
    # cheek: across X, its front edge on the cap's back face; cap: across Y, its lower edge on
    # the floor; floor: level, its left end on the cheek's right face.
    cheek = board_part(
        name="cheek",
        role="cheek",
        stock=BIRCH,
        box_low=UnitPoint(x, y + thick, z),
        length=(Side.TOP, size),
        width=(Side.BACK, size),
        fence=Side.FRONT,
        stop=Side.BOTTOM,
    )
    cap = board_part(
        name="cap",
        role="cap",
        stock=BIRCH,
        box_low=UnitPoint(x, y, z + thick),
        length=(Side.RIGHT, size),
        width=(Side.TOP, size - thick),
        fence=Side.BOTTOM,
        stop=Side.LEFT,
    )
    floor = board_part(
        name="floor",
        role="floor",
        stock=BIRCH,
        box_low=UnitPoint(x + thick, y, z),
        length=(Side.RIGHT, size),
        width=(Side.BACK, size),
        fence=Side.FRONT,
        stop=Side.LEFT,
    )
    joints = (
        Biscuits(one="cheek", other="cap", biscuit=Biscuit.NO_0, count=1, level=Side.LEFT),
        Biscuits(one="cap", other="floor", biscuit=Biscuit.NO_0, count=1, level=Side.FRONT),
        Biscuits(one="floor", other="cheek", biscuit=Biscuit.NO_0, count=1, level=Side.BOTTOM),
    )
    return Component(parts=(cheek, cap, floor), joints=joints)


def _closed_slot(unit: Unit, size: float) -> Unit:
    """A T-shaped tongue in a slot that is closed at its mouth, in two boards beside the unit."""
    at = UnitPoint(-900.0, 0.0, 0.0)
    slotted = board_part(
        name="slotted",
        role="slotted",
        stock=BIRCH,
        box_low=at,
        length=(Side.RIGHT, 613.0),
        width=(Side.BACK, 287.0),
        fence=Side.FRONT,
        stop=Side.LEFT,
    )
    neck = Groove(
        name="neck",
        surface=Surface.A,
        near=At(Surface.LOW, 140.0),
        width=8.0,
        depth=6.0,
        start=At(Surface.START, 200.0),
        end=At(Surface.START, 200.0 + size),
    )
    hollow = Groove(
        name="hollow",
        surface=Surface.START,
        near=At(Surface.B, 6.0),
        width=5.6,
        depth=200.0 + size,
        start=At(Surface.LOW, 136.0),
        end=At(Surface.LOW, 152.0),
    )
    tongue = board_part(
        name="tongue",
        role="tongue",
        stock=birch_plywood(15, 16.0),
        box_low=UnitPoint(at.x + 200.0, 136.0, 6.0),
        length=(Side.TOP, 211.0),
        width=(Side.RIGHT, size),
        fence=Side.LEFT,
        stop=Side.BOTTOM,
    )
    necks = [
        Groove(
            name=f"neck {side.value}",
            surface=tongue.surface(side),
            near=At(tongue.surface(Side.BOTTOM), 5.6),
            width=6.0,
            depth=4.0,
        )
        for side in (Side.FRONT, Side.BACK)
    ]
    parts = (slotted.with_features(neck, hollow), tongue.with_features(*necks))
    return with_component(unit, Component(parts=parts))


def _doors_that_do_not_rise(unit: Unit, size: float) -> Unit:
    """Doors that only slide: nobody thought of lifting them in."""
    del size
    return replace(unit, moves=tuple(m for m in unit.moves if m.motion is not Motion.LIFT))


def _part_without_a_joint(unit: Unit, size: float) -> Unit:
    """A batten that nobody fixes."""
    batten = board_part(
        name="batten",
        role="batten",
        stock=BIRCH,
        box_low=UnitPoint(31.0, 97.0, 211.0),
        length=(Side.RIGHT, size),
        width=(Side.TOP, 43.0),
        fence=Side.BOTTOM,
        stop=Side.LEFT,
    )
    return with_component(unit, Component(parts=(batten,)))


def _long_bar(unit: Unit, size: float) -> Unit:
    """A runner cut longer than the clear width."""
    bar = next(h for h in unit.hardware if h.name.startswith("runner"))
    assert isinstance(bar.body, Rod)
    longer = replace(
        bar,
        body=replace(bar.body, length=bar.body.length + 2 * size),
        at=bar.at.moved(Side.LEFT, size),
    )
    return _with_hardware(unit, bar, longer)


def _closed_bay(unit: Unit, size: float) -> Unit:
    """A fixed front glued over the bays, behind which the shelves are shut in."""
    left, right = unit.by_name["left side"].box, unit.by_name["right side"].box
    top, base = unit.by_name["top"].box, unit.by_name["base"].box
    front = board_part(
        name="fixed front",
        role="fixed front",
        stock=BIRCH,
        box_low=UnitPoint(left.low.x, -BIRCH.measured, base.low.z),
        length=(Side.RIGHT, right.high.x - left.low.x),
        width=(Side.TOP, top.high.z - base.low.z - size),
        fence=Side.BOTTOM,
        stop=Side.LEFT,
    )
    more = Component(parts=(front,))
    beside = with_component(unit, more)
    joints = tuple(Butt(one="fixed front", other=name) for name in ("left side", "right side"))
    return replace(beside, joints=beside.joints + joints)


# Cutters and saw.


def _panel_groove(unit: Unit, size: float) -> Unit:
    """A groove narrower than the saw's blade and every cutter."""
    side = unit.by_name["left side"]
    groove = _groove(side, Side.RIGHT, (Side.FRONT, 83.0), size, 5.0)
    return _added(unit, "left side", groove)


def _deep_groove(unit: Unit, size: float) -> Unit:
    """A stopped groove in a front edge, deeper than the router plunges."""
    side = unit.by_name["left side"]
    stop = At(side.surface(Side.TOP), 211.0)
    groove = _groove(side, Side.FRONT, (Side.LEFT, 6.0), 6.0, size, end=stop)
    return _added(unit, "left side", groove)


def _groove_in_an_end(unit: Unit, size: float) -> Unit:
    """A stopped groove in the top end of a side, where a router tips."""
    side = unit.by_name["left side"]
    stop = At(side.surface(Side.BACK), 97.0)
    groove = _groove(side, Side.TOP, (Side.LEFT, 6.0), size, 9.0, end=stop)
    return _added(unit, "left side", groove)


def _groove_in_a_strip(unit: Unit, size: float) -> Unit:
    """A stopped groove in the face of a narrow strip."""
    strip = board_part(
        name="strip",
        role="strip",
        stock=BIRCH,
        box_low=UnitPoint(-900.0, 0.0, 0.0),
        length=(Side.RIGHT, 613.0),
        width=(Side.BACK, size),
        fence=Side.FRONT,
        stop=Side.LEFT,
    )
    stop = At(strip.surface(Side.RIGHT), 97.0)
    made = strip.with_features(_groove(strip, Side.TOP, (Side.FRONT, 11.0), 6.0, 6.0, end=stop))
    return with_component(unit, Component(parts=(made,)))


def _tight_opening(unit: Unit, size: float) -> Unit:
    """An opening with corners tighter than the cutter in the guide bush leaves."""
    side = unit.by_name["left side"]
    opening = CutOut(
        name="planted opening",
        centre=(At(side.surface(Side.BOTTOM), 251.0), At(side.surface(Side.FRONT), 131.0)),
        length=61.0,
        width=43.0,
        corner_radius=size,
    )
    return _added(unit, "left side", opening)


def _tight_groove_end(unit: Unit, size: float) -> Unit:
    """Round corners of a stopped groove, tighter than the smallest cutter."""
    side = unit.by_name["left side"]
    stop = At(side.surface(Side.TOP), 211.0)
    groove = replace(
        _groove(side, Side.RIGHT, (Side.FRONT, 83.0), 9.0, 5.0, end=stop), end_radius=size
    )
    return _added(unit, "left side", groove)


def _stopped_rebate(unit: Unit, size: float) -> Unit:
    """A rebate stopped before its end, where the cutter leaves it round."""
    side = unit.by_name["left side"]
    rebate = next(
        f for f in side.board.features if isinstance(f, Rebate) and f.takes in {"top", "base"}
    )
    stop = At(side.surface(Side.BACK), size)
    is_low = side.surface(Side.BACK).sign < 0
    stopped = replace(rebate, start=stop) if is_low else replace(rebate, end=stop)
    return with_part(unit, with_feature(side, rebate, stopped))


def _housings(unit: Unit) -> list[tuple[Part, Groove]]:
    return [
        (part, f)
        for part in unit.parts
        for f in part.board.features
        if isinstance(f, Groove) and f.takes == "divider" and (f.start or f.end)
    ]


def _round_housing(unit: Unit, size: float) -> Unit:
    """A stopped housing left round, with a square divider to go in."""
    part, groove = _housings(unit)[0]
    return with_part(unit, with_feature(part, groove, replace(groove, end_radius=size)))


def _bevel_of(unit: Unit, name: str) -> tuple[Part, Bevel]:
    part = unit.by_name[name]
    return part, next(f for f in part.board.features if isinstance(f, Bevel))


def _steep_bevel(unit: Unit, size: float) -> Unit:
    """A bevel steeper than the saw tilts."""
    part, bevel = _bevel_of(unit, "cleat, unit half")
    return with_part(unit, with_feature(part, bevel, replace(bevel, angle=size)))


def _deep_bevel(unit: Unit, size: float) -> Unit:
    """A cleat thicker than the tilted saw cuts."""
    part, _ = _bevel_of(unit, "cleat, wall half")
    stock = birch_plywood(21, size / 2)
    return with_part(unit, with_board(part, replace(part.board, stock=stock, layers=2)))


def _thick_board(unit: Unit, size: float) -> Unit:
    """A foot thicker than the saw is deep."""
    foot = board_part(
        name="block",
        role="block",
        stock=solid_wood("ash", size, 690),
        box_low=UnitPoint(-900.0, 0.0, 0.0),
        length=(Side.RIGHT, 131.0),
        width=(Side.BACK, 97.0),
        fence=Side.FRONT,
        stop=Side.LEFT,
    )
    return with_component(unit, Component(parts=(foot,)))


# Trimming.


def _proud_divider(unit: Unit, size: float) -> Unit:
    """A divider left proud of the rails, where no face lies beside it between them."""
    part = next(p for p in unit.parts if p.role == "divider")
    board = replace(part.board, width=part.board.width + size)
    trim = FlushTrim(name="planted trim", edge=part.surface(Side.BACK), proud=size)
    board = replace(board, features=(*board.features, trim))
    return with_part(unit, with_board(part, board))


def _trims(unit: Unit) -> tuple[Part, FlushTrim]:
    part = unit.by_name["left side"]
    return part, next(t for t in part.board.trims if part.side(t.edge) is Side.TOP)


def _not_flush(unit: Unit, size: float) -> Unit:
    """A side whose end is trimmed to another height than the top's."""
    part, trim = _trims(unit)
    return with_part(unit, with_feature(part, trim, replace(trim, proud=size)))


def _thick_side(unit: Unit, size: float) -> Unit:
    """Sides thicker than the bearing-guided cutter is long."""
    part = unit.by_name["left side"]
    stock = birch_plywood(30, size)
    board = replace(part.board, stock=stock, layers=1)
    made = replace(part, board=board)
    # Its inner face stays where it was.
    off = made.box.high.x - part.box.high.x
    place = replace(made.placement, origin=made.placement.origin.moved(Side.LEFT, off))
    return with_part(unit, replace(made, placement=place))


def _block_beside_the_trim(unit: Unit, size: float) -> Unit:
    """A handle block glued on with biscuits near the end that is to be trimmed."""
    side = unit.by_name["left side"].box
    handle = board_part(
        name="handle",
        role="handle",
        stock=BIRCH,
        box_low=UnitPoint(side.low.x - 53.0, 67.0, side.high.z - size - BIRCH.measured),
        length=(Side.BACK, 97.0),
        width=(Side.LEFT, 53.0),
        fence=Side.RIGHT,
        stop=Side.FRONT,
    )
    beside = with_component(unit, Component(parts=(handle,)))
    joint = Biscuits(
        one="handle", other="left side", biscuit=Biscuit.NO_0, count=1, level=Side.BOTTOM
    )
    return replace(beside, joints=(*beside.joints, joint))


def _wide_covering(unit: Unit, size: float) -> Unit:
    """A covering that stands over the carcass when it is trimmed."""
    part = unit.by_name["covering"]
    board = replace(part.board, length=part.board.length + size)
    return with_part(unit, with_board(part, board))


def _covering_opening(unit: Unit) -> tuple[Part, CutOut]:
    part = unit.by_name["covering"]
    return part, next(f for f in part.board.features if isinstance(f, CutOut))


def _opening_off(unit: Unit, size: float) -> Unit:
    """An opening in the covering that is not over the one in the top."""
    part, opening = _covering_opening(unit)
    first, second = opening.centre
    moved = replace(opening, centre=(replace(first, distance=first.distance + size), second))
    return with_part(unit, with_feature(part, opening, moved))


def _opening_without(unit: Unit, size: float) -> Unit:
    """An opening in the covering with none in the top."""
    _, opening = _covering_opening(unit)
    top = unit.by_name["top"]
    del size
    board = replace(
        top.board, features=tuple(f for f in top.board.features if f.name != opening.name)
    )
    return with_part(unit, with_board(top, board))


def _tight_covering(unit: Unit, size: float) -> Unit:
    """A pill too narrow for the bearing-guided cutter, through top and covering."""
    _, opening = _covering_opening(unit)
    for name in ("top", "covering"):
        part = unit.by_name[name]
        old = next(f for f in part.board.features if f.name == opening.name)
        assert isinstance(old, CutOut)
        unit = with_part(unit, with_feature(part, old, replace(old, corner_radius=size)))
    return unit


MISTAKES: tuple[Mistake, ...] = (
    Mistake(
        kind="boards that cover each other's edges in a ring",
        expected_rule="locked",
        plant=_covering_each_other,
        sizes=(173.0, 287.0, 411.0),
        designs=STANDING,
        check=locks,
    ),
    Mistake(
        kind="a tongue in a slot that is closed at its mouth",
        expected_rule="locked",
        check=locks,
        plant=_closed_slot,
        sizes=(61.0, 97.0, 173.0),
        designs=STANDING,
    ),
    Mistake(
        kind="doors that are never lifted",
        expected_rule="shut-in",
        check=locks,
        plant=_doors_that_do_not_rise,
        sizes=(0.0,),
        designs=DOORS,
    ),
    Mistake(
        kind="a part without a joint",
        expected_rule="held-by-nothing",
        check=loose_parts,
        plant=_part_without_a_joint,
        sizes=(131.0, 173.0, 211.0),
        designs=ALL,
    ),
    Mistake(
        kind="a runner longer than the clear width",
        expected_rule="shut-in",
        plant=_long_bar,
        sizes=(1.0, 3.0, 6.0),
        designs=DOORS,
        check=locks,
    ),
    Mistake(
        kind="shelves behind a glued front",
        expected_rule="shut-in",
        plant=_closed_bay,
        sizes=(0.0, 11.0, 29.0),
        designs=CLOSED,
        check=locks,
    ),
    Mistake(
        kind="a groove along a line of screws",
        expected_rule="screw-meets-cut",
        plant=_groove_on_the_screws,
        sizes=(3.0, 6.0, 9.0),
        designs=SCREWED,
        check=screws_and_cuts,
    ),
    Mistake(
        kind="a hole for a lead bored into a screw",
        expected_rule="screw-meets-cut",
        plant=_hole_beside_a_screw,
        sizes=(3.0, 5.0, 9.0),
        designs=SCREWED,
        check=screws_and_cuts,
    ),
    Mistake(
        kind="a screw driven into a biscuit's slot",
        expected_rule="screw-meets-cut",
        plant=_screw_into_a_slot,
        sizes=(0.0, 3.0, 7.0),
        designs=SCREWED,
        check=screws_and_cuts,
    ),
    Mistake(
        kind="a screw driven into a biscuit",
        expected_rule="screw-meets-metal",
        plant=_screw_into_a_slot,
        sizes=(0.0, 3.0, 7.0),
        designs=SCREWED,
        check=screws_and_metal,
    ),
    Mistake(
        kind="two screws that cross",
        expected_rule="screw-meets-metal",
        plant=_crossing_screw,
        sizes=(0.0, 2.0, 4.0),
        designs=SCREWED,
        check=screws_and_metal,
    ),
    Mistake(
        kind="a screw driven at a shelf pin",
        expected_rule="screw-meets-metal",
        plant=_screw_into_a_pin,
        sizes=(0.0, 2.0, 5.0),
        designs=("pantry cupboard", "pottery rack", "greenhouse unit"),
        check=screws_and_metal,
    ),
    Mistake(
        kind="a screw longer than the boards are thick",
        expected_rule="screw-breaks-out",
        plant=_long_screws,
        sizes=(-1.0, 0.0, 6.0),
        designs=SCREWED,
        check=screws_in_wood,
    ),
    Mistake(
        kind="a screw too short to hold",
        expected_rule="screw-grips-little",
        plant=_short_screws,
        sizes=(-5.0, 2.0, 9.0),
        designs=SCREWED,
        check=screws_in_wood,
    ),
    Mistake(
        kind="a screw at the very edge",
        expected_rule="screw-breaks-out",
        plant=_screw_at_the_edge,
        sizes=(-3.0, 0.0, 1.5),
        designs=SCREWED,
        check=screws_in_wood,
    ),
    Mistake(
        kind="a screw through the side from outside",
        expected_rule="screw-seen",
        plant=_seen_screw,
        sizes=(0.2, 0.5, 0.8),
        designs=ALL,
        check=screws_seen,
    ),
    Mistake(
        kind="a screw beside a divider",
        expected_rule="out-of-reach",
        plant=_screw_beside_a_divider,
        sizes=(5.0, 12.0, 17.0),
        designs=SCREWED,
        check=_with_tools(reach),
    ),
    Mistake(
        kind="a screw in a bay too narrow for a driver",
        expected_rule="out-of-reach",
        plant=_screw_in_a_narrow_bay,
        sizes=(61.0, 83.0, 109.0),
        designs=STANDING,
        check=_with_tools(reach),
    ),
    Mistake(
        kind="a groove narrower than blade and cutters",
        expected_rule="no-cutter",
        plant=_panel_groove,
        sizes=(1.2, 1.7, 2.1),
        designs=ALL,
        check=_with_tools(cutters),
    ),
    Mistake(
        kind="a groove deeper than the router plunges",
        expected_rule="cut-too-deep",
        plant=_deep_groove,
        sizes=(60.5, 71.0, 113.0),
        designs=ALL,
        check=_with_tools(cutters),
    ),
    Mistake(
        kind="a groove in the end of a long board",
        expected_rule="router-tips",
        plant=_groove_in_an_end,
        sizes=(4.0, 5.0, 6.0),
        designs=ALL,
        check=_with_tools(cutters),
    ),
    Mistake(
        kind="a groove in a narrow strip",
        expected_rule="router-tips",
        plant=_groove_in_a_strip,
        sizes=(31.0, 47.0, 59.0),
        designs=ALL,
        check=_with_tools(cutters),
    ),
    Mistake(
        kind="an opening with tight corners",
        expected_rule="corner-too-tight",
        plant=_tight_opening,
        sizes=(1.0, 3.0, 4.5),
        designs=ALL,
        check=_with_tools(cutters),
    ),
    Mistake(
        kind="a groove with tight corners",
        expected_rule="corner-too-tight",
        plant=_tight_groove_end,
        sizes=(0.5, 1.2, 1.9),
        designs=ALL,
        check=_with_tools(cutters),
    ),
    Mistake(
        kind="a rebate that stops before the end",
        expected_rule="square-corner",
        plant=_stopped_rebate,
        sizes=(11.0, 23.0, 41.0),
        designs=ALL,
        check=_with_tools(cutters),
    ),
    Mistake(
        kind="a stopped housing left round",
        expected_rule="stopped-short",
        plant=_round_housing,
        sizes=(2.0, 4.0, 8.0),
        designs=DIVIDED,
        check=_with_tools(cutters),
    ),
    Mistake(
        kind="a chisel wider than the groove that it squares",
        expected_rule="chisel-too-wide",
        plant=_nothing,
        sizes=(0.0,),
        designs=DIVIDED,
        check=_with_tools(cutters, Workshop(square_chisel=25.0)),
    ),
    Mistake(
        kind="a bevel steeper than the saw tilts",
        expected_rule="bevel-too-steep",
        plant=_steep_bevel,
        sizes=(47.5, 51.0, 57.0),
        designs=SCREWED,
        check=_with_tools(sawing),
    ),
    Mistake(
        kind="a bevel deeper than the saw cuts",
        expected_rule="bevel-too-deep",
        plant=_deep_bevel,
        sizes=(40.3, 42.0, 47.0),
        designs=SCREWED,
        check=_with_tools(sawing),
    ),
    Mistake(
        kind="a block thicker than the saw is deep",
        expected_rule="saw-too-shallow",
        plant=_thick_board,
        sizes=(55.5, 67.0, 113.0),
        designs=ALL,
        check=_with_tools(sawing),
    ),
    Mistake(
        kind="a divider left proud between rails",
        expected_rule="trim-unguided",
        plant=_proud_divider,
        sizes=(0.5, 1.0, 2.0),
        designs=DIVIDED,
        check=_with_tools(trims),
    ),
    Mistake(
        kind="a side trimmed to another height than its top",
        expected_rule="trim-unguided",
        plant=_not_flush,
        sizes=(0.2, 0.7, 1.8),
        designs=ALL,
        check=_with_tools(trims),
    ),
    Mistake(
        kind="a side thicker than the cutter is long",
        expected_rule="trim-cutter-short",
        plant=_thick_side,
        sizes=(25.3, 29.0, 33.0),
        designs=ALL,
        check=_with_tools(trims),
    ),
    Mistake(
        kind="a block glued on where the router's base must go",
        expected_rule="trim-blocked",
        plant=_block_beside_the_trim,
        sizes=(3.0, 19.0, 53.0),
        designs=STANDING,
        check=_with_tools(trims),
    ),
    Mistake(
        kind="a covering that stands over",
        expected_rule="trim-unguided",
        plant=_wide_covering,
        sizes=(0.5, 3.0, 9.0),
        designs=COVERED,
        check=_with_tools(trims),
    ),
    Mistake(
        kind="an opening in the covering beside the one in the top",
        expected_rule="hole-unguided",
        plant=_opening_off,
        sizes=(0.5, 3.0, 17.0),
        designs=COVERED,
        check=_with_tools(trims),
    ),
    Mistake(
        kind="an opening in the covering with none below",
        expected_rule="hole-unguided",
        plant=_opening_without,
        sizes=(0.0,),
        designs=COVERED,
        check=_with_tools(trims),
    ),
    Mistake(
        kind="an opening too tight for the guided cutter",
        expected_rule="hole-too-tight",
        plant=_tight_covering,
        sizes=(2.0, 5.0, 6.3),
        designs=COVERED,
        check=_with_tools(trims),
    ),
    Mistake(
        kind="a covering thicker than the guided cutter reaches through its opening",
        expected_rule="trim-cutter-short",
        plant=_nothing,
        sizes=(0.0,),
        designs=COVERED,
        check=_with_tools(trims, Workshop(router=Router(bearing_length=2.0))),
    ),
    Mistake(
        kind="a saw that is not deep enough for the cleat",
        expected_rule="bevel-too-deep",
        plant=_nothing,
        sizes=(0.0,),
        designs=HUNG,
        check=_with_tools(sawing, Workshop(saw=Saw(depth=40.0, bevel_depth=28.0))),
    ),
)
