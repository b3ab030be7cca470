"""Where wall screws go: kept where they are good, otherwise into studs and clear of cables."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.components.cleat import LEAST_WALL_PITCH, WALL_SCREW_FROM_END
from cabinet.errors import SizeError
from cabinet.features import Hole
from cabinet.frame import Side
from cabinet.site.cleat_model import cleat_of
from cabinet.site.room.cable_zones import cable_zones
from cabinet.site.room.frame import WallPoint
from cabinet.site.room.screw_places import FROM_PIPE, ScrewPlan, pipes_near, screw_plan
from cabinet.site.room.setting import Setting
from cabinet.site.room.things import Pipe, Socket
from cabinet.site.walls import HollowWall, TimberStuds
from tests.cabinet.site.room.rooms import room, setting
from tests.cabinet.site.units import hung


def planned(where: Setting, needed: int | None = None, **sizes: float) -> ScrewPlan:
    """The screws of the hung unit."""
    cleat = cleat_of(hung(**sizes))
    assert cleat is not None
    return screw_plan(where, cleat, cable_zones(where.room), needed)


def test_good_screws_are_kept() -> None:
    """On clear masonry: as designed, each with its place on cleat and wall."""
    plan = planned(setting(room(), 733.0, 1411.0))
    assert [p.on_cleat for p in plan.designed] == pytest.approx([80.0, 300.2, 520.4, 740.6])
    assert plan.proposed == tuple(p.on_cleat for p in plan.designed)
    first = plan.designed[0]
    # The wall half begins 33.1 to the right of the unit's left side.
    assert first.at.x == pytest.approx(733.0 + 33.1 + 80.0, abs=0.11)
    # Its line: the middle of the full thickness, 90 less 35.2 high, above the lower edge.
    low = 613.0 - 17.6 - 87.0 + 32.2 - 90.0
    assert first.at.z == pytest.approx(1411.0 + low + (90.0 - 35.2) / 2)
    assert first.into == "masonry"
    assert (
        planned(setting(room(build=HollowWall(anchor_rating=20.0)), 733.0, 1411.0)).designed[0].into
        == "hollow wall"
    )


def test_a_screw_in_a_zone_moves_as_little_as_can_be() -> None:
    """Out of the band of an 86 mm plate to its nearer edge; the others stay."""
    where = setting(room(Socket(name="socket", x=733.0 + 33.1 + 90.0, z=313.0)), 733.0, 1411.0)
    plan = planned(where)
    assert plan.proposed is not None
    # Band from 47 to 133 on the cleat and the screw's radius: 44 would be too near to the end.
    assert plan.proposed[0] == pytest.approx(136.0, abs=1.0)
    assert plan.proposed[1:] == pytest.approx((300.2, 520.4, 740.6))
    for x in plan.proposed:
        assert not 44.0 < x < 136.0 - 1e-6


def test_screws_go_into_the_middles_of_studs() -> None:
    """Studs at 300 from 811 along the wall: the cleat, 60 from its ends, catches two of them."""
    where = setting(room(build=TimberStuds(spacing=300.0, first=811.0)), 733.0, 1411.0)
    plan = planned(where)
    assert plan.proposed is not None
    on_wall = [733.0 + 33.1 + x for x in plan.proposed]
    assert on_wall == pytest.approx([1111.0, 1411.0], abs=0.1)
    moved = planned(where, width=1213.0)
    assert moved.proposed is not None
    assert [733.0 + 33.1 + x for x in moved.proposed] == pytest.approx(
        [1111.0, 1411.0, 1711.0], abs=0.1
    )


def test_more_screws_are_put_far_from_the_others() -> None:
    """The loads ask for six: two more, at least the pitch apart."""
    plan = planned(setting(room(), 733.0, 1411.0), needed=6)
    assert plan.proposed is not None
    assert len(plan.proposed) == 6
    gaps = [b - a for a, b in zip(plan.proposed, plan.proposed[1:], strict=False)]
    assert min(gaps) > 2 * LEAST_WALL_PITCH
    assert set(plan.proposed) >= {p.on_cleat for p in plan.designed}


def test_no_place_at_all() -> None:
    """A band at the height of the screws leaves none along the cleat."""
    low = setting(room(), 733.0, 1411.0)
    level = planned(low).designed[0].at.z
    socket = Socket(name="socket", x=3000.0, z=level)
    plan = planned(replace(low, room=room(socket)))
    assert plan.proposed is None
    traced = replace(socket, cables=(Side.BOTTOM, Side.TOP))
    assert planned(replace(low, room=room(traced))).proposed is not None


def test_pipes_are_kept_from() -> None:
    """50 mm from the pipe's side and the screw's radius."""
    pipe = Pipe(name="pipe", start=WallPoint(900, 0), end=WallPoint(900, 2000), diameter=15.0)
    where = setting(room(pipe), 733.0, 1411.0)
    edge = 900.0 + 7.5 + FROM_PIPE + 3.0
    assert pipes_near(where, WallPoint(edge - 0.1, 700.0), 3.0) == ("pipe",)
    assert pipes_near(where, WallPoint(edge + 0.1, 700.0), 3.0) == ()
    assert pipes_near(where, WallPoint(900.0, 2060.0), 3.0) == ()


def test_the_cleat_takes_places_of_its_own() -> None:
    """A hole and a screw at each, told from the left end of the wall half."""
    unit = hung(places=(617.3, 91.0, 340.5))
    half = unit.by_name["cleat, wall half"]
    holes = [f for f in half.board.features if isinstance(f, Hole)]
    assert len(holes) == 3
    screws = sorted(item.at.x - half.box.low.x for item in unit.hardware if "wall" in item.inside)
    assert screws == pytest.approx([91.0, 340.5, 617.3])


@pytest.mark.parametrize(
    "places",
    [
        (WALL_SCREW_FROM_END - 0.1, 400.0),
        (90.0, 90.0 + LEAST_WALL_PITCH - 0.1),
        (90.0, 821.0 - WALL_SCREW_FROM_END),
        (90.0,),
        (90.0, float("nan")),
    ],
)
def test_bad_places_are_refused(places: tuple[float, ...]) -> None:
    """Too near to an end or to each other, a single screw, no number."""
    with pytest.raises(SizeError, match="cleat"):
        hung(places=places)
