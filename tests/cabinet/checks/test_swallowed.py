"""Whether a cut takes in a piece whole, held to a dense set of the piece's own points."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from cabinet.board import At, BoardSize, Surface
from cabinet.checks.swallowed import is_swallowed
from cabinet.features import BISCUIT_BLADE_RADIUS, Biscuit, BiscuitSlot, Hole
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.hardware import BiscuitPiece, Rod, Screw

# The board lies in the unit as it is, and all is bored or plunged into it from above.
SIZE = BoardSize(length=300.0, width=200.0, thickness=40.0)
MIDDLE = (150.0, 100.0)
NEAR = 1e-6


def box_of(feature: Hole | BiscuitSlot) -> UnitBox:
    box = feature.box(SIZE)
    return UnitBox(low=UnitPoint(*box.low), high=UnitPoint(*box.high))


def hole(diameter: float, depth: float | None, countersink: float = 0.0) -> Hole:
    places = At(Surface.START, MIDDLE[0]), At(Surface.LOW, MIDDLE[1])
    return Hole(
        name="hole",
        surface=Surface.A,
        centre=places,
        diameter=diameter,
        depth=depth,
        countersink=countersink,
    )


def is_round_inside(
    bored: Hole, profile: list[tuple[float, float]], off: float, reach: tuple[float, float]
) -> bool | None:
    """Whether rings of a piece, (height, radius), lie in the bore; None if it is too close."""
    rooms = []
    for height, radius in profile:
        if not reach[0] <= height <= reach[1]:
            continue
        deep = SIZE.thickness - height
        if bored.depth is not None:
            rooms.append(bored.depth - deep)
        wide = max(bored.diameter / 2, bored.countersink / 2 - deep)
        rooms.append(wide - radius - off)
    least = min(rooms)
    return None if abs(least) < NEAR else least > 0


half_mm = st.integers(0, 40).map(lambda n: n / 4)


@given(
    bore=st.integers(8, 48).map(lambda n: n / 4),
    bar=st.integers(8, 48).map(lambda n: n / 4),
    depth=st.one_of(st.none(), st.integers(8, 120).map(lambda n: n / 4)),
    low=st.integers(-20, 150).map(lambda n: n / 4),
    off=st.integers(0, 12).map(lambda n: n / 4),
)
def test_bar_in_a_bore(
    bore: float, bar: float, depth: float | None, low: float, off: float
) -> None:
    bored = hole(bore, depth)
    rod = Rod(diameter=bar, length=30.0)
    reach = max(low, 0.0), min(low + 30.0, SIZE.thickness)
    profile = [(reach[0] + k * (reach[1] - reach[0]) / 50, bar / 2) for k in range(51)]
    told = is_swallowed(
        rod,
        UnitPoint(MIDDLE[0] + off, MIDDLE[1], low + 30.0),
        Side.BOTTOM,
        (bored, box_of(bored), Side.TOP),
        reach,
    )
    truth = is_round_inside(bored, profile, off, reach)
    assert truth is None or told is truth


@given(
    bore=st.integers(8, 32).map(lambda n: n / 4),
    sunk=st.integers(0, 32).map(lambda n: n / 4),
    head=st.integers(16, 48).map(lambda n: n / 4),
    proud=st.integers(-16, 16).map(lambda n: n / 4),
    off=st.integers(0, 4).map(lambda n: n / 4),
)
def test_screw_in_its_hole(bore: float, sunk: float, head: float, proud: float, off: float) -> None:
    bored = hole(bore, None, bore + sunk if sunk else 0.0)
    screw = Screw(diameter=4.0, length=70.0, head_diameter=head)
    top = SIZE.thickness + proud
    reach = 0.0, min(top, SIZE.thickness)
    heights = [reach[0] + k * (reach[1] - reach[0]) / 400 for k in range(401)]
    profile = [(z, max(screw.core / 2, head / 2 - (top - z))) for z in heights]
    told = is_swallowed(
        screw,
        UnitPoint(MIDDLE[0], MIDDLE[1] + off, top),
        Side.BOTTOM,
        (bored, box_of(bored), Side.TOP),
        reach,
    )
    truth = is_round_inside(bored, profile, off, reach)
    assert truth is None or told is truth


@given(
    made=st.sampled_from(Biscuit),
    put_in=st.sampled_from(Biscuit),
    aside=st.integers(-40, 40).map(lambda n: n / 4),
    deeper=st.integers(-16, 16).map(lambda n: n / 4),
    higher=st.integers(-2, 2).map(lambda n: n / 4),
)
def test_biscuit_in_its_slot(
    made: Biscuit, put_in: Biscuit, aside: float, deeper: float, higher: float
) -> None:
    slot = BiscuitSlot(
        name="slot",
        surface=Surface.END,
        centre=At(Surface.LOW, MIDDLE[1]),
        height=At(Surface.A, 15.0),
        biscuit=made,
    )
    middle = UnitPoint(SIZE.length - deeper, MIDDLE[1] + aside, 25.0 + higher)
    told = is_swallowed(
        BiscuitPiece(biscuit=put_in, along=Side.BACK),
        middle,
        Side.LEFT,
        (slot, box_of(slot), Side.RIGHT),
        (0.0, SIZE.length),
    )
    a, b = put_in.length / 2, put_in.width / 2
    radius = (a * a + b * b) / (2 * b)
    angle = math.asin(a / radius)
    blade = SIZE.length - made.slot_depth + BISCUIT_BLADE_RADIUS, MIDDLE[1]
    far = 0.0
    for k in range(-600, 601):
        turn = angle * k / 600
        for side in (1.0, -1.0):
            x = middle.x + side * (radius * math.cos(turn) - radius + b)
            y = middle.y + radius * math.sin(turn)
            far = max(far, math.hypot(x - blade[0], y - blade[1]))
    room = BISCUIT_BLADE_RADIUS - far
    is_level = abs(higher) <= (made.thickness - put_in.thickness) / 2 + NEAR
    assert abs(room) < 1e-4 or told is (room > 0 and is_level)
