"""Room that a sash and a lift need, held to a sash turned step by step."""

from __future__ import annotations

import math

import pytest

from cabinet.site.room.swing import FREE, lift_room, sash_room
from cabinet.site.room.things import Neighbour, Sash, Socket, Window
from tests.cabinet.site.room.rooms import room, setting
from tests.cabinet.site.units import hung, standing


def _window(width: float, opens: float, sash: Sash = Sash.HINGED_LEFT) -> Window:
    return Window(
        name="window", left=1700.0, bottom=900.0, width=width, height=1000.0, sash=sash, opens=opens
    )


def _turned(width: float, opens: float, depth: float) -> float:
    """How far a sash, turned open in small steps, reaches past its hinge nearer than a depth."""
    reach = 0.0
    for step in range(1501):
        angle = math.radians(opens * step / 1500)
        for along in (width * i / 200 for i in range(201)):
            if along * math.sin(angle) <= depth:
                reach = max(reach, -along * math.cos(angle))
    return reach


@pytest.mark.parametrize(
    ("width", "opens", "depth"),
    [(613.0, 97.0, 287.0), (613.0, 113.0, 287.0), (420.0, 151.0, 287.0), (790.0, 135.0, 176.0)],
)
def test_a_sash_turned_step_by_step_agrees(width: float, opens: float, depth: float) -> None:
    """Beside the hinges it reaches as far as is kept free, less what fingers need."""
    swept = sash_room(_window(width, opens), depth)
    assert swept is not None
    kept = 1700.0 - swept.low.x - FREE
    # Steps of along (width / 200) and of the angle leave it a little short.
    assert kept == pytest.approx(_turned(width, opens, depth), abs=width / 200 * 1.5 + 0.5)
    assert swept.high.x == 1700.0 + width


def test_which_side_and_which_sash() -> None:
    """Mirrored with its hinges; flat on the wall at 180; none if it slides or is fixed."""
    right = sash_room(_window(613.0, 113.0, Sash.HINGED_RIGHT), 287.0)
    left = sash_room(_window(613.0, 113.0), 287.0)
    assert right is not None
    assert left is not None
    assert right.high.x - 2313.0 == pytest.approx(1700.0 - left.low.x)
    flat = sash_room(_window(613.0, 180.0), 287.0)
    assert flat is not None
    assert 1700.0 - flat.low.x == pytest.approx(613.0 + FREE)
    for sash in (Sash.SLIDES, Sash.FIXED):
        assert sash_room(_window(613.0, 113.0, sash), 287.0) is None


def test_room_to_lift() -> None:
    """To the ceiling, or to what stands out above; a socket's plate does not count."""
    unit = hung()
    free = lift_room(unit, setting(room(), 733.0, 1411.0))
    assert free is not None
    assert free.under == "the ceiling"
    assert free.free == pytest.approx(2467.0 - 1411.0 - 613.0)
    # The bevel's height at 45 degrees is the cleat's 35.2; common practice adds 5 to 10, here 8.
    assert free.needed == pytest.approx(35.2 + 8.0)
    beam = Neighbour(name="beam", left=1000.0, bottom=2100.0, width=99.0, height=80.0)
    plate = Socket(name="socket", x=1100.0, z=2080.0)
    under = lift_room(unit, setting(room(beam, plate), 733.0, 1411.0))
    assert under is not None
    assert under.under == "beam"
    assert under.free == pytest.approx(2100.0 - 2024.0)
    beside = Neighbour(name="beam", left=1700.0, bottom=2100.0, width=99.0, height=80.0)
    past = lift_room(unit, setting(room(beside), 733.0, 1411.0))
    assert past is not None
    assert past.under == "the ceiling"
    assert lift_room(standing(), setting(room(), 733.0, 45.0)) is None
