"""Holes of perforated panels, held to each hole cut out of the panel by an independent library."""

from __future__ import annotations

import math

import pytest
import shapely

from cabinet.board import BoardBox, BoardSize
from cabinet.features import Pattern, Perforation
from cabinet.set_out import holes, lie, open_area, spacings
from tests.cabinet.lattice import clipped, disc
from tests.cabinet.making.racks import luck_of


def field(diameter: float, pitch: float, pattern: Pattern = Pattern.STAGGERED) -> Perforation:
    return Perforation(name="holes", diameter=diameter, pitch=pitch, pattern=pattern)


def random_panel(seed: int) -> tuple[Perforation, BoardSize]:
    luck = luck_of(seed)
    diameter = luck.randint(20, 180) / 10
    perforation = field(diameter, diameter * luck.uniform(1.06, 3.0), luck.choice(list(Pattern)))
    size = BoardSize(luck.randint(300, 4000) / 10, luck.randint(300, 2500) / 10, 1.5)
    return perforation, size


@pytest.mark.parametrize("seed", range(24))
def test_open_area_is_that_of_every_hole_cut_out_of_the_panel(seed: int) -> None:
    perforation, size = random_panel(seed)
    whole = shapely.box(0.0, 0.0, size.length, size.width)
    expected = clipped(perforation, size, whole)
    assert open_area(perforation, size) == pytest.approx(expected, rel=1e-5)


@pytest.mark.parametrize("seed", range(100, 116))
def test_open_area_within_a_window(seed: int) -> None:
    """What a frame leaves clear of a panel cuts through holes anywhere."""
    perforation, size = random_panel(seed)
    luck = luck_of(seed)
    xs = sorted(luck.uniform(0.0, size.length) for _ in range(2))
    ys = sorted(luck.uniform(0.0, size.width) for _ in range(2))
    window = BoardBox(low=(xs[0], ys[0], 0.0), high=(xs[1], ys[1], size.thickness))
    expected = clipped(perforation, size, shapely.box(xs[0], ys[0], xs[1], ys[1]))
    assert open_area(perforation, size, window) == pytest.approx(expected, rel=1e-4, abs=1e-2)


@pytest.mark.parametrize("seed", range(8))
def test_the_other_way_to_begin_differs_by_a_hole_or_two(seed: int) -> None:
    """Half a pitch further the lines lie alike; how many holes fall on the panel is nearly so."""
    perforation, size = random_panel(seed)
    perforation = field(perforation.diameter, perforation.pitch)
    whole = shapely.box(0.0, 0.0, size.length, size.width)
    other = clipped(perforation, size, whole, moved=perforation.pitch / 2)
    hole = math.pi * perforation.diameter**2 / 4
    assert abs(open_area(perforation, size) - other) <= 2 * hole


@pytest.mark.parametrize("pattern", Pattern)
@pytest.mark.parametrize(("diameter", "pitch"), [(5.0, 8.0), (10.0, 15.0), (3.0, 3.2)])
def test_a_large_panel_reaches_the_closed_form(
    pattern: Pattern, diameter: float, pitch: float
) -> None:
    """The open share is one hole to the area of the lattice's cell that belongs to it.

    Derived: a triangular lattice has one hole in each rhombus of side p and 60 degrees, of area
    p2 sin 60 = p2 sqrt 3 / 2. So the share is (pi d2 / 4) / (p2 sqrt 3 / 2) = pi d2 /
    (2 sqrt 3 p2). A square lattice has one in p2: pi d2 / (4 p2).
    """
    perforation = field(diameter, pitch, pattern)
    cell = pitch**2 * (math.sqrt(3) / 2 if pattern is Pattern.STAGGERED else 1.0)
    share = math.pi * diameter**2 / 4 / cell
    if pattern is Pattern.STAGGERED:
        assert share == pytest.approx(math.pi * diameter**2 / (2 * math.sqrt(3) * pitch**2))
    assert perforation.open_share == pytest.approx(share)
    # A panel of whole lines has exactly as many cells as holes, wherever it begins.
    along, across = spacings(perforation)
    exact = BoardSize(60 * along, 44 * across, 1.5)
    assert open_area(perforation, exact) / (exact.length * exact.width) == pytest.approx(share)
    # Any other differs by no more than what stands within a pitch of its rim.
    size = BoardSize(1203.7, 1097.1, 1.5)
    rim = 2 * (size.length + size.width) * pitch
    expected = share * size.length * size.width
    assert open_area(perforation, size) == pytest.approx(expected, abs=share * rim)


def test_by_hand() -> None:
    # Square, pitch 10, holes of 4 on 40 by 30: half of each is 2 and 1.5 lines, so that cuts lie
    # on lines or halfway, and halfway is farther: 4 by 3 whole holes.
    plain = open_area(field(4, 10, Pattern.SQUARE), BoardSize(40.0, 30.0, 1.5))
    assert plain == pytest.approx(12 * math.pi * 4)
    # Staggered, pitch 8, holes of 5: lines across the length stand 4 apart, so the ends of a panel
    # 40 long, cut halfway between two, run 0.5 into the holes of the lines on both sides of them.
    perforation, size = field(5, 8), BoardSize(40.0, 4 * 8 * math.sqrt(3) / 2, 1.5)
    assert lie(perforation, size).along.rim == pytest.approx(-0.5)
    xs = {round(x, 6) for x, _ in holes(perforation, size)}
    assert xs == {-2.0 + 4 * k for k in range(12)}
    # Ten lines of two holes; what the ends cut off them stands in from beyond.
    assert open_area(perforation, size) == pytest.approx(20 * math.pi * 2.5**2)


@pytest.mark.parametrize("seed", range(12))
def test_every_hole_that_is_drawn_reaches_into_the_panel(seed: int) -> None:
    perforation, size = random_panel(seed)
    whole = shapely.box(0.0, 0.0, size.length, size.width)
    centres = holes(perforation, size)
    assert len(set(centres)) == len(centres)
    areas = [disc(x, y, perforation.diameter / 2).intersection(whole).area for x, y in centres]
    assert sum(areas) == pytest.approx(open_area(perforation, size), rel=1e-5)
    radius = perforation.diameter / 2
    assert all(shapely.Point(x, y).distance(whole) < radius for x, y in centres)
