"""A wall as data: what it refuses, and how heights are read from the level line."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.errors import CabinetError, DesignError, SizeError, UnknownNameError
from cabinet.frame import Side
from cabinet.site.report import site_report
from cabinet.site.room.frame import WallBox, WallPoint, wall_box
from cabinet.site.room.report import room_report
from cabinet.site.room.room_wall import FaceReading, FloorReading
from cabinet.site.room.things import Mirror, Neighbour, Pipe, Socket, Switch, Window
from cabinet.site.walls import TimberStuds
from tests.cabinet.site.room.rooms import MASONRY, room, setting
from tests.cabinet.site.units import holds, hung


def test_boxes_on_a_wall() -> None:
    """Sharing an edge is not covering."""
    box = wall_box(113.0, 287.0, 613.0, 176.0)
    assert box.centre == WallPoint(419.5, 375.0)
    assert (box.width, box.height) == (613.0, 176.0)
    beside = box.moved(613.0, 0.0)
    assert not box.covers(beside)
    assert box.covers(box.moved(612.9, 175.9))
    assert box.overlap(box.moved(700.0, 20.0)) == (-87.0, 156.0)
    with pytest.raises(SizeError, match="width"):
        WallBox(low=WallPoint(5.0, 0.0), high=WallPoint(5.0, 9.0))


@pytest.mark.parametrize(
    "thing",
    [
        Mirror(name="mirror", left=3500.0, bottom=900.0, width=400.0, height=700.0),
        Socket(name="socket", x=20.0, z=300.0),
        Switch(name="switch", x=300.0, z=2450.0),
        Window(name="window", left=100.0, bottom=-5.0, width=700.0, height=900.0),
        Neighbour(name="bench", left=-10.0, bottom=0.0, width=700.0, height=900.0),
        Pipe(name="pipe", start=WallPoint(200, 0), end=WallPoint(200, 2600), diameter=22.0),
    ],
)
def test_a_thing_outside_the_wall_is_refused(thing: Mirror) -> None:
    """One error that names the thing and the wall's size."""
    with pytest.raises(SizeError, match="outside the wall of 3871 x 2467") as caught:
        room(thing)
    assert caught.value.part == thing.name


def test_other_bad_walls_are_refused() -> None:
    """Each with one clear error."""
    socket = Socket(name="socket", x=700.0, z=300.0)
    with pytest.raises(DesignError, match="two things are called 'socket'"):
        room(socket, replace(socket, x=900.0))
    with pytest.raises(UnknownNameError, match="unknown wall"):
        room(build="brick")  # type: ignore[arg-type]
    with pytest.raises(DesignError, match="nothing that a wall can hold"):
        room("picture")  # type: ignore[arg-type]
    with pytest.raises(SizeError, match="place of a reading"):
        room(floor=(FloorReading(4000.0, 1013.0),))
    with pytest.raises(SizeError, match="cables run front"):
        Socket(name="socket", x=700.0, z=300.0, cables=(Side.FRONT,))
    with pytest.raises(SizeError, match="upright or level"):
        Pipe(name="pipe", start=WallPoint(0, 0), end=WallPoint(200, 90), diameter=22.0)
    with pytest.raises(SizeError, match="gap"):
        FaceReading(100.0, 200.0, float("nan"))


def test_loads_without_a_place_and_a_missing_density_are_one_error_each() -> None:
    """Bad input of this area never passes."""
    with pytest.raises(CabinetError, match="no place 'loft'"):
        site_report(hung(), (holds(loft=4.0),), MASONRY)
    with pytest.raises(CabinetError, match="density"):
        replace(hung().parts[0].board.stock, density_kg_m3=float("nan"))


def test_the_floor_is_read_from_the_level_line() -> None:
    """1017 below the line is 4 below the mark; straight between; level beyond the readings."""
    where = room(floor=(FloorReading(1700.0, 1010.0), FloorReading(500.0, 1017.0)))
    assert where.floor_level(500.0) == pytest.approx(-4.0)
    assert where.floor_level(1700.0) == pytest.approx(3.0)
    assert where.floor_level(800.0) == pytest.approx(-4.0 + 7.0 * 300 / 1200)
    assert where.floor_level(0.0) == pytest.approx(-4.0)
    assert where.floor_level(3000.0) == pytest.approx(3.0)
    assert room().floor_level(17.0) == 0.0


def test_one_fact_about_the_studs() -> None:
    """They are told along the wall; the unit sees them from its own corner."""
    where = setting(room(build=TimberStuds(spacing=406.0, first=210.0)), 733.0, 1411.0)
    wall = where.wall
    assert isinstance(wall, TimberStuds)
    assert wall.first == pytest.approx(210.0 - 733.0)
    seen = wall.centres(0.0, 887.0)
    along = where.room.build.centres(733.0, 733.0 + 887.0)  # type: ignore[union-attr]
    assert [x + 733.0 for x in seen] == pytest.approx(along)
    assert setting(room(), 733.0, 1411.0).wall == MASONRY


def test_strength_for_another_wall_is_refused() -> None:
    """The report on hanging and that on strength must speak of one wall."""
    unit, where = hung(), setting(room(), 733.0, 1411.0)
    other = site_report(unit, (holds(shelf=8.0),), TimberStuds(spacing=400.0, first=17.0))
    with pytest.raises(DesignError, match="another wall"):
        room_report(unit, where, other)


def test_a_point_of_the_unit_on_the_wall() -> None:
    """X and Z are moved by the unit's corner; what the unit covers is its outline."""
    unit, where = hung(), setting(room(), 733.0, 1411.0)
    outline = where.outline(unit)
    assert outline == wall_box(733.0, 1411.0, 887.0, 613.0)
    assert where.lift(people=2).to == 1411.0
