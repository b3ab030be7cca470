"""The best place: held to the rules and to a search by brute force."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from cabinet.errors import DesignError, UnknownNameError
from cabinet.frame import Side
from cabinet.site.room.best_place import best_place, cheapest
from cabinet.site.room.frame import WallPoint
from cabinet.site.room.keep_clear import Forbidden, Places, is_allowed, places_for
from cabinet.site.room.report import room_report
from cabinet.site.room.rules import room_findings
from cabinet.site.room.things import Mirror, Neighbour, Pipe, Sash, Socket, Switch, Window
from cabinet.site.room.wishes import Beside, Centred, InLine, PlaceWish, Pull
from tests.cabinet.site.room.rooms import room, setting
from tests.cabinet.site.units import hung

ROOM = room(
    Switch(name="switch", x=3700.0, z=1187.0),
    Socket(name="socket", x=1511.0, z=1700.0, cables=(Side.BOTTOM,)),
    Mirror(name="mirror", left=2900.0, bottom=1300.0, width=400.0, height=700.0),
    Window(
        name="window",
        left=230.0,
        bottom=900.0,
        width=600.0,
        height=1000.0,
        sash=Sash.HINGED_RIGHT,
        opens=105.0,
        sill=30.0,
        sill_ends=25.0,
    ),
    Neighbour(name="bench", left=900.0, bottom=0.0, width=1900.0, height=905.0, gap=400.0),
    Neighbour(name="beam", left=2000.0, bottom=2300.0, width=1200.0, height=120.0),
    Pipe(
        name="pipe",
        start=WallPoint(1700.0, 0.0),
        end=WallPoint(1700.0, 2000.0),
        diameter=22.0,
        stands_out=30.0,
    ),
    skirting=95.0,
)


def test_allowed_is_where_the_rules_are_silent() -> None:
    """At random places, both say the same; some are allowed and some are not."""
    unit, where = hung(), setting(ROOM, 1000.0, 1400.0, gap=20.0)
    places = places_for(unit, where)
    pick = random.Random(417)  # noqa: S311 - chances, not secrets
    allowed = 0
    for _ in range(80):
        at = WallPoint(pick.uniform(900.0, 2200.0), pick.uniform(1250.0, 1750.0))
        said = room_findings(room_report(unit, replace(where, at=at)))
        assert is_allowed(places, at) is (not said), (at, [f.rule for f in said])
        allowed += not said
    assert 8 < allowed < 72


def test_the_best_place_is_silent_and_no_grid_finds_a_better_one() -> None:
    """Above the bench, near the mirror, its top in line with the window's."""
    unit, where = hung(), setting(ROOM, 1000.0, 1400.0)
    wishes: list[PlaceWish] = [
        Beside(thing="mirror", side=Side.LEFT, gap=110.0, weight=2.0),
        InLine(edge=Side.TOP, at=1900.0),
        Centred(x=1850.0),
    ]
    found = best_place(unit, where, wishes)
    assert room_findings(room_report(unit, replace(where, at=found.at))) == ()
    places = places_for(unit, where)
    shape = where.outline(unit).moved(-1000.0, -1400.0)

    def cost(x: float, z: float) -> float:
        right, top, middle = x + shape.high.x, z + shape.high.z, x + shape.centre.x
        return 2 * abs(right - (2900.0 - 110.0)) + abs(top - 1900.0) + abs(middle - 1850.0)

    assert found.cost == pytest.approx(cost(found.at.x, found.at.z))
    grid = [
        cost(float(x), float(z))
        for x in range(0, 3000, 13)
        for z in range(0, 2000, 11)
        if is_allowed(places, WallPoint(float(x), float(z)))
    ]
    assert grid
    assert found.cost <= min(grid) + 1e-6


def test_the_best_place_is_silent_wherever_things_are() -> None:
    """Places that no rule is written for: a screw at the very edge of a zone is not within it."""
    unit = hung()
    pick = random.Random(5)  # noqa: S311 - chances, not secrets
    moved = 0
    for _ in range(60):
        x, z = pick.uniform(900.0, 2900.0), pick.uniform(1100.0, 1900.0)
        upright = WallPoint(pick.uniform(900.0, 2900.0), 0.0)
        where = setting(
            room(
                Switch(name="switch", x=x, z=z),
                Pipe(name="pipe", start=upright, end=upright.moved(0.0, 2400.0), diameter=22.0),
            ),
            1300.0,
            1400.0,
        )
        wishes = (Centred(x=x), InLine(edge=Side.TOP, at=z + 200.0))
        found = best_place(unit, where, wishes)
        said = room_findings(room_report(unit, replace(where, at=found.at)))
        assert said == (), found.at
        moved += found.cost > 1.0
    assert moved > 30


def test_exact_against_brute_force_on_made_up_rectangles() -> None:
    """Whole numbers everywhere, so a grid of whole numbers holds an optimum."""
    pick = random.Random(88)  # noqa: S311 - chances, not secrets
    some_free = 0
    for _ in range(40):
        forbidden = []
        for _ in range(pick.randrange(1, 7)):
            x, z = pick.randrange(-5, 25), pick.randrange(-5, 25)
            high = WallPoint(float(x + pick.randrange(2, 15)), float(z + pick.randrange(2, 15)))
            forbidden.append(Forbidden(why="made up", low=WallPoint(float(x), float(z)), high=high))
        places = Places(
            low=WallPoint(0.0, 0.0), high=WallPoint(20.0, 17.0), forbidden=tuple(forbidden)
        )
        pulls = [
            Pull(
                said="",
                axis=pick.randrange(2),
                target=float(pick.randrange(-4, 26)),
                weight=float(pick.randrange(1, 4)),
            )
            for _ in range(pick.randrange(1, 5))
        ]

        def cost(x: float, z: float, pulls: list[Pull] = pulls) -> float:
            return sum(p.weight * abs((x, z)[p.axis] - p.target) for p in pulls)

        best = min(
            (
                cost(float(x), float(z))
                for x in range(21)
                for z in range(18)
                if is_allowed(places, WallPoint(float(x), float(z)))
            ),
            default=None,
        )
        found = cheapest(places, pulls, WallPoint(3.0, 4.0))
        if best is None:
            assert found is None
            continue
        assert found is not None
        assert is_allowed(places, found)
        assert cost(found.x, found.z) == pytest.approx(best)
        some_free += 1
    assert some_free > 25


def test_without_wishes_it_stays() -> None:
    """A place that will do is kept; one that will not moves to the nearest that does."""
    unit = hung()
    good = setting(ROOM, 1900.0, 1400.0)
    assert best_place(unit, good, ()).at == good.at
    bad = setting(ROOM, 1900.0, 1250.0)
    assert best_place(unit, bad, ()).at == WallPoint(1900.0, 905.0 + 400.0)


def test_each_wish_pulls_its_own_edge() -> None:
    """On a bare wall all wishes are met exactly."""
    unit, where = hung(), setting(room(), 900.0, 1400.0)
    for wish, corner in (
        (InLine(edge=Side.LEFT, at=1117.0), WallPoint(1117.0, 1400.0)),
        (InLine(edge=Side.RIGHT, at=2500.0), WallPoint(2500.0 - 887.0, 1400.0)),
        (InLine(edge=Side.BOTTOM, at=1523.0), WallPoint(900.0, 1523.0)),
        (InLine(edge=Side.TOP, at=2023.0), WallPoint(900.0, 2023.0 - 613.0)),
        (Centred(x=1900.0), WallPoint(1900.0 - 443.5, 1400.0)),
    ):
        found = best_place(unit, where, (wish,))
        assert (found.at.x, found.at.z) == pytest.approx((corner.x, corner.z))
        assert found.cost == pytest.approx(0.0)


def test_what_cannot_be_is_said() -> None:
    """No room anywhere; a wish that names what is not there, or an edge that a wall has not."""
    unit = hung()
    low = setting(room(height=640.0 + 400.0), 900.0, 300.0)
    cramped = replace(
        low,
        room=room(Neighbour(name="boiler", left=100.0, bottom=300.0, width=3700.0, height=700.0)),
    )
    with pytest.raises(DesignError, match="no place on fern room wall"):
        best_place(unit, replace(cramped, gap=900.0), ())
    where = setting(ROOM, 1000.0, 1400.0)
    with pytest.raises(UnknownNameError, match="no 'clock'"):
        best_place(unit, where, (Beside(thing="clock", side=Side.LEFT),))
    with pytest.raises(UnknownNameError, match="no edge of a unit on a wall"):
        InLine(edge=Side.BACK, at=3.0)
