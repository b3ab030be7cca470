"""The hanging cleat: which way it is bevelled, where it bears, and how it is lifted off."""

from __future__ import annotations

import pytest

from cabinet.components.carcass import Carcass
from cabinet.components.cleat import CleatKind, hanging_cleat
from cabinet.design import Design, Unit
from cabinet.features import Bevel
from cabinet.frame import BoardPoint, Side
from cabinet.hardware import Screw
from cabinet.motion import Motion
from cabinet.part import Part
from cabinet.solids import part_solid
from tests.strategies import BIRCH, small


def hung(kind: CleatKind = CleatKind.HIDDEN, layers: int = 2) -> tuple[Carcass, Unit]:
    """A small unit with its cleat."""
    box = small(behind=17.6 * layers if kind is CleatKind.HIDDEN else 0.0)
    cleat = hanging_cleat(
        box, stock=BIRCH, layers=layers, height=97.0, kind=kind, screws=4, wall_screws=3
    )
    return box, Design("hung", (box.component, cleat)).resolve()


def sharp_edge(part: Part) -> tuple[float, float]:
    """Y and Z of the arris that the bevel leaves on its sharp face."""
    (bevel,) = (f for f in part.board.features if isinstance(f, Bevel))
    size = part.board.size
    place = [0.0, 0.0, 0.0]
    for surface in (bevel.edge, bevel.sharp):
        place[surface.axis] = 0.0 if surface.sign < 0 else size.along[surface.axis]
    point = part.placement.board_to_unit(BoardPoint(*place))
    return point.y, point.z


@pytest.mark.parametrize("layers", [1, 2])
@pytest.mark.parametrize("kind", CleatKind, ids=lambda kind: kind.name)
def test_the_bevel_is_the_right_way_round(kind: CleatKind, layers: int) -> None:
    """Wall half: sharp edge up and away from the wall. Unit half: down and towards it."""
    _, unit = hung(kind, layers)
    wall, own = unit.by_name["cleat, wall half"], unit.by_name["cleat, unit half"]
    y, z = sharp_edge(wall)
    assert (y, z) == pytest.approx((wall.blank_box.low.y, wall.blank_box.high.z))
    y, z = sharp_edge(own)
    assert (y, z) == pytest.approx((own.blank_box.high.y, own.blank_box.low.z))


@pytest.mark.parametrize("kind", CleatKind, ids=lambda kind: kind.name)
def test_the_halves_bear_on_the_bevel_only(kind: CleatKind) -> None:
    """At 45 degrees both bevels lie in one plane, and below the blunted edge stays room.

    Points of the unit half's bevel: (back - land, bottom) and forward, up by 45 degrees.
    Points of the wall half's: (front, top) and back, down by 45 degrees.
    """
    _, unit = hung(kind)
    wall, own = unit.by_name["cleat, wall half"], unit.by_name["cleat, unit half"]
    # z + y is constant along a line that falls to the back by 45 degrees.
    on_own = own.blank_box.high.y - 3.0 + own.blank_box.low.z
    on_wall = wall.blank_box.low.y + wall.blank_box.high.z
    assert on_own == pytest.approx(on_wall)
    # The V's bottom is where the wall half's bevel meets the wall.
    bottom = wall.blank_box.high.z - wall.blank_box.size[1]
    assert 2.0 <= own.blank_box.low.z - bottom <= 3.0


def test_the_halves_touch_and_share_nothing() -> None:
    """On the solids: no volume is shared, and the distance is none."""
    _, unit = hung()
    wall, own = (part_solid(unit.by_name[f"cleat, {half} half"]) for half in ("wall", "unit"))
    assert wall.distance(own) == pytest.approx(0.0, abs=1e-6)
    assert wall.intersect(own).Volume() == pytest.approx(0.0, abs=1e-3)


def test_the_unit_is_raised_by_the_bevel_and_more() -> None:
    """By the cleat's thickness at 45 degrees and 5 to 10 (common practice, no source)."""
    _, unit = hung()
    (move,) = (m for m in unit.moves if m.motion is Motion.DROP)
    assert 35.2 + 5 <= move.high <= 35.2 + 10
    # Lowered as far, the wall half is clear of the unit half.
    wall, own = unit.by_name["cleat, wall half"], unit.by_name["cleat, unit half"]
    assert wall.blank_box.high.z - move.high < own.blank_box.low.z


def test_the_wall_half_is_shorter_and_in_the_middle() -> None:
    """By 20 to 50, so that it can be slid sideways to its place."""
    _, unit = hung()
    wall, own = unit.by_name["cleat, wall half"], unit.by_name["cleat, unit half"]
    assert 20 <= own.board.length - wall.board.length <= 50
    assert wall.box.low.x - own.box.low.x == pytest.approx(own.box.high.x - wall.box.high.x)


def test_hidden_it_fills_the_space_behind_the_rails() -> None:
    """Its back is the wall, flush with the sides."""
    box, unit = hung()
    assert unit.by_name["cleat, wall half"].box.high.y == pytest.approx(box.box.high.y)
    assert unit.by_name["cleat, unit half"].box.low.y == pytest.approx(
        unit.by_name["top rail"].box.high.y
    )


def test_behind_the_unit_a_spacer_keeps_it_plumb() -> None:
    """A strip as thick as the cleat at the foot."""
    box, unit = hung(CleatKind.BEHIND)
    spacer, wall = unit.by_name["spacer"], unit.by_name["cleat, wall half"]
    assert spacer.box.low.y == pytest.approx(box.box.high.y)
    assert spacer.box.high.y == pytest.approx(wall.box.high.y)
    assert spacer.box.high.z < wall.box.low.z


@pytest.mark.parametrize("layers", [1, 2])
def test_screws_hold_and_do_not_come_out(layers: int) -> None:
    """From the rail into the unit half: at least 10 in, at least 3 before its back."""
    _, unit = hung(layers=layers)
    screws = [item for item in unit.hardware if item.name.startswith("screw ")]
    assert len(screws) == 4
    own = unit.by_name["cleat, unit half"].box
    for item in screws:
        assert isinstance(item.body, Screw)
        tip = item.at.moved(item.axis, item.body.length)
        assert item.axis is Side.BACK
        assert tip.y - own.low.y >= 10
        assert own.high.y - tip.y >= 3


def test_wall_screws_go_through_full_thickness() -> None:
    """Below the bevel, through the wall half, into the wall."""
    _, unit = hung()
    wall = unit.by_name["cleat, wall half"]
    screws = [item for item in unit.hardware if item.name.startswith("wall screw")]
    assert len(screws) == 3
    for item in screws:
        assert item.box.high.z < wall.blank_box.high.z - 35.2
        assert item.box.high.y > wall.box.high.y
        assert "wall" in item.inside
