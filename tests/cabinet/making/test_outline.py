"""Outlines with straight edges: what is refused, and exact areas."""

from __future__ import annotations

from fractions import Fraction

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from cabinet.errors import SizeError
from cabinet.making.guillotine import to_grid
from cabinet.making.outline import (
    Outline,
    Rect,
    Wood,
    area,
    bounds,
    checked_outline,
    clipped,
    clipped_area,
    cover,
    covers,
    l_shape,
    missing,
    overlap,
    rectangle,
)
from tests.cabinet.making.racks import luck_of

SLANTED: Outline = ((0.0, 0.0), (613.0, 0.0), (487.0, 287.0), (0.0, 287.0))
SQUARE_MM = 10**6


def test_an_outline_starts_at_its_lowest_corner_and_runs_counter_clockwise() -> None:
    told = checked_outline("x", "it", ((0, 287), (613, 287), (613, 0), (0, 0)))
    assert told == ((0.0, 0.0), (613.0, 0.0), (613.0, 287.0), (0.0, 287.0))


@pytest.mark.parametrize(
    ("corners", "says"),
    [
        (((0, 0), (613, 287)), "2 corners"),
        (((0, 0), (613, 287), (613, 0), (0, 287)), "edges 1 and 3"),
        (((0, 0), (100, 0), (50, 0), (50, 80)), "edges 1 and 2"),
        (((0, 0), (200, 0), (200, 90), (100, 0), (0, 90)), "edges 1 and 3"),
        (((0, 0), (100, 0), (100, 0), (0, 87)), "corners 2 and 3 of its outline lie in one place"),
        (((0, 0), (613, float("nan")), (0, 287)), "corner 2"),
    ],
)
def test_an_outline_that_meets_itself_is_refused(
    corners: tuple[tuple[float, float], ...], says: str
) -> None:
    with pytest.raises(SizeError, match=says) as caught:
        checked_outline("old board", "its outline", corners)
    assert str(caught.value).startswith("old board")


def test_areas_of_simple_shapes() -> None:
    assert area(rectangle(613, 287)) == 613 * 287 * SQUARE_MM
    assert area(l_shape(900, 500, (300, 200))) == (900 * 500 - 300 * 200) * SQUARE_MM
    assert area(SLANTED) == Fraction((613 + 487) * 287, 2) * SQUARE_MM


def test_clipped_areas_agree_with_a_library_for_polygons() -> None:
    luck = luck_of(11)
    for shape in (SLANTED, l_shape(900, 500, (300, 200)), rectangle(613, 287)):
        polygon = Polygon([(to_grid(x), to_grid(y)) for x, y in shape])
        for _ in range(40):
            x, y = luck.randint(-50, 500), luck.randint(-50, 300)
            rect = Rect(float(x), float(y), luck.randint(1, 400) + 0.5, luck.randint(1, 300) + 0.25)
            window = box(to_grid(rect.x), to_grid(rect.y), to_grid(rect.right), to_grid(rect.top))
            theirs = polygon.intersection(window).area
            assert float(clipped_area(shape, rect)) == pytest.approx(theirs, abs=2)
            assert Wood(shape).area(rect) == clipped_area(shape, rect)


def test_the_pieces_of_a_clipped_u() -> None:
    u_shape: Outline = (
        (0, 0),
        (500, 0),
        (500, 300),
        (400, 300),
        (400, 100),
        (120, 100),
        (120, 300),
        (0, 300),
    )
    pieces = clipped(u_shape, Rect(0.0, 150.0, 500.0, 100.0))
    assert [bounds(piece) for piece in pieces] == [
        Rect(0.0, 150.0, 120.0, 100.0),
        Rect(400.0, 150.0, 100.0, 100.0),
    ]


def test_cover_is_exact_for_upright_edges_and_on_the_safe_side_for_slanted_ones() -> None:
    shape = l_shape(900, 500, (300, 200))
    assert sum(r.length * r.width for r in cover(shape)) == 900 * 500 - 300 * 200
    assert missing(shape) == (Rect(600.0, 300.0, 300.0, 200.0),)
    gaps = missing(SLANTED)
    lost = sum(r.length * r.width for r in gaps)
    assert 126 * 287 / 2 <= lost <= 126 * 287 / 2 * 1.2
    for x, y in ((610.0, 200.0), (560.0, 250.0), (489.0, 286.0)):
        assert any(r.x <= x <= r.right and r.y <= y <= r.top for r in gaps)


@pytest.mark.parametrize("seed", range(25))
def test_nothing_of_a_slanted_outline_sticks_out_of_its_cover(seed: int) -> None:
    luck = luck_of(seed)
    length, width = luck.randint(3000, 14000) / 10, luck.randint(1500, 6500) / 10
    top_right = round(length * luck.uniform(0.1, 0.95), 1), width
    top_left = round(length * luck.uniform(0, 0.09), 1), round(width * luck.uniform(0.3, 0.99), 1)
    shape = checked_outline("x", "it", ((0.0, 0.0), (length, 0.0), top_right, top_left))
    polygon = Polygon([(to_grid(x), to_grid(y)) for x, y in shape])
    around = box(*polygon.bounds)
    for wanted, rects in ((polygon, cover(shape)), (around.difference(polygon), missing(shape))):
        hidden = unary_union(
            [box(to_grid(r.x), to_grid(r.y), to_grid(r.right), to_grid(r.top)) for r in rects]
        )
        assert wanted.difference(hidden).area < 1e-3


def test_covers_and_overlap() -> None:
    shape = l_shape(900, 500, (300, 200))
    assert covers(shape, rectangle(200, 100, (0, 400)))
    assert not covers(shape, rectangle(200, 100, (500, 400)))
    assert overlap(Rect(0, 0, 10, 10), Rect(10, 0, 5, 5)) is None
    assert overlap(Rect(0, 0, 10, 10), Rect(7, 4, 9, 17)) == Rect(7, 4, 3, 6)


def test_a_share_of_wood() -> None:
    wood = Wood(l_shape(900, 500, (300, 200)))
    assert wood.share(Rect(500.0, 300.0, 200.0, 100.0)) == pytest.approx(0.5)
    assert wood.fills(Rect(0.0, 0.0, 900.0, 300.0))
    assert not wood.fills(Rect(0.0, 0.0, 900.0, 301.0))
    assert not wood.is_in(Rect(600.0, 300.0, 300.0, 200.0))
