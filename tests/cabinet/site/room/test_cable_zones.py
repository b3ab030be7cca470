"""Cable zones: the published distances, and the ways a traced cable runs."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.frame import Side
from cabinet.site.room.cable_zones import cable_zones, zones_at
from cabinet.site.room.frame import WallPoint
from cabinet.site.room.things import Socket, Switch
from tests.cabinet.site.room.rooms import room

SOCKET = Socket(name="socket", x=1511.0, z=313.0, width=146.0)


def _names(x: float, z: float, radius: float = 3.0) -> set[str]:
    where = room(SOCKET, Switch(name="switch", x=2700.0, z=1187.0))
    return {zone.name for zone in zones_at(cable_zones(where), WallPoint(x, z), radius)}


def test_the_published_zones() -> None:
    """Within 150 mm of the top, within 150 of a corner, in line with an accessory.

    Source: BS 7671:2018, 522.6.202, as quoted from the On-Site Guide 7.3.2 on owelectric.co.uk
        and the-regs.co.uk. The radius of the screw counts as well, here 3 mm.
    """
    assert _names(1900.0, 2467.0 - 150.0 + 3.1 - 6.2) == set()
    assert _names(1900.0, 2467.0 - 152.9) == {"the top 150 mm of the wall"}
    assert _names(153.1, 1500.0) == set()
    assert _names(152.9, 1500.0) == {"150 mm from the wall's left corner"}
    assert _names(3871.0 - 152.9, 1500.0) == {"150 mm from the wall's right corner"}
    assert _names(3871.0 - 153.1, 1500.0) == set()


@pytest.mark.parametrize(
    ("across", "name"), [(75.9, {"above and below the socket"}), (76.1, set())]
)
def test_in_line_upright_with_the_plate(across: float, name: set[str]) -> None:
    """Half of 146 and the radius 3, at any height, on both sides."""
    for z in (90.0, 900.0, 2200.0):
        assert _names(1511.0 + across, z) == name
        assert _names(1511.0 - across, z) == name


@pytest.mark.parametrize(("up", "name"), [(45.9, {"level with the switch"}), (46.1, set())])
def test_in_line_level_with_the_plate(up: float, name: set[str]) -> None:
    """Half of 86 and the radius 3, all along the wall."""
    for x in (400.0, 2000.0, 3500.0):
        assert _names(x, 1187.0 + up) == name
        assert _names(x, 1187.0 - up) == name


def test_a_traced_cable_leaves_the_other_ways_free() -> None:
    """From the floor up to the socket: nothing above it and nothing beside it."""
    where = room(replace(SOCKET, cables=(Side.BOTTOM,)))
    zones = cable_zones(where)
    assert {z.name for z in zones_at(zones, WallPoint(1511.0, 100.0), 3.0)} == {
        "above and below the socket"
    }
    assert zones_at(zones, WallPoint(1511.0, 900.0), 3.0) == ()
    assert zones_at(zones, WallPoint(1900.0, 313.0), 3.0) == ()
