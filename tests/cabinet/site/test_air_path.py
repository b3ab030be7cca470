"""The way of air through real units, areas worked by hand."""

from __future__ import annotations

import math

import pytest
import shapely

from cabinet.features import Perforation
from cabinet.site.air_path import air_paths
from cabinet.site.carriers import carriers
from cabinet.site.plan_area import Rectangle, free_area
from tests.cabinet.lattice import clipped
from tests.cabinet.site.units import closed
from tests.examples import example_unit


def test_free_area() -> None:
    """Covers may overlap each other and stick out."""
    whole = Rectangle(0.0, 613.0, 0.0, 287.0)
    covers = (Rectangle(-50, 100, -50, 90), Rectangle(60, 200, 40, 300))
    by_hand = 613 * 287 - 100 * 90 - 140 * 247 + 40 * 50
    assert free_area(whole, covers) == pytest.approx(by_hand)
    assert free_area(whole, ()) == pytest.approx(613 * 287)


def test_openings_of_the_example() -> None:
    """The left bay's base has one pill of 160 x 30: its rectangle less four corners."""
    unit = example_unit("greenhouse_wall_unit")
    left, right = air_paths(unit, carriers(unit))
    by_hand = 160 * 30 - (4 - math.pi) * 15**2
    assert left.places[0].area == pytest.approx(by_hand)
    assert right.places[0].area == pytest.approx(by_hand)
    assert [p.name for p in right.places] == [
        "openings in the base",
        "past tool shelf",
        "past right frame shelf",
        "openings in the top",
    ]
    assert left.throat is not None
    assert left.throat.name == "openings in the base"
    assert left.area < min(place.area for place in left.places)
    assert left.flow.low < left.flow.likely < left.flow.high


def test_past_a_plain_shelf_by_hand() -> None:
    """Behind the rear door to the wall, less the shelf and the divider's part behind it."""
    unit = example_unit("greenhouse_wall_unit")
    right = air_paths(unit, carriers(unit))[1]
    box, shelf = unit.by_name["divider"].box, unit.by_name["tool shelf"].box
    rear, front_door = unit.by_name["right door"].box, unit.by_name["left door"].box
    x0, x1 = box.high.x, unit.by_name["right side"].box.low.x
    under_front = front_door.high.x - x0
    depth = unit.outline.high.y - rear.high.y
    assert rear.low.x < x0 < front_door.high.x
    by_hand = (x1 - x0) * depth - shelf.size[0] * shelf.size[1]
    assert under_front > 0
    assert right.places[1].area == pytest.approx(by_hand, rel=1e-6)


def test_a_frame_covers_the_holes_in_its_groove() -> None:
    """Air passes what is left round the shelf, and the holes that the members leave clear."""
    unit = closed()
    panel = unit.by_name["grate panel"]
    (perforation,) = (f for f in panel.board.features if isinstance(f, Perforation))
    # The panel lies 7 deep in its groove, and its length runs left to right.
    size = panel.board.size
    clear = shapely.box(7.0, 7.0, size.length - 7.0, size.width - 7.0)
    through = clipped(perforation, size, clear)
    assert through < clipped(perforation, size, shapely.box(0.0, 0.0, size.length, size.width))
    (path,) = air_paths(unit, carriers(unit))
    (past,) = (place for place in path.places if place.name == "past grate")
    box = {name: unit.by_name[f"grate {name}"].box for name in ("front", "back", "left", "right")}
    shelf = (box["right"].high.x - box["left"].low.x) * (box["back"].high.y - box["front"].low.y)
    inner = unit.by_name["right side"].box.low.x - unit.by_name["left side"].box.high.x
    doors = unit.by_name["left door"].box, unit.by_name["right door"].box
    back = unit.outline.high.y
    left_end = unit.by_name["left side"].box.high.x
    covers = [Rectangle(d.low.x, d.high.x, unit.outline.low.y, d.high.y) for d in doors]
    bay = Rectangle(left_end, left_end + inner, unit.outline.low.y, back)
    assert past.area == pytest.approx(free_area(bay, covers) - shelf + through, rel=1e-5)


def test_an_opening_left_out_shuts_the_way() -> None:
    """Whichever it is; the throat is named."""
    for kept, missing in (("top", "openings in the base"), ("base", "openings in the top")):
        path = air_paths(closed(openings=(kept,)), carriers(closed(openings=(kept,))))[0]
        assert path.area == 0.0
        assert path.throat is not None
        assert path.throat.name == missing
        assert path.flow.high == 0.0


def test_units_without_doors_are_open() -> None:
    """Air passes freely."""
    unit = example_unit("pottery_drying_rack")
    paths = air_paths(unit, carriers(unit))
    assert [path.is_open for path in paths] == [True]
    assert paths[0].throat is None
