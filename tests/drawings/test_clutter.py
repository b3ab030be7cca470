"""What stands on the paper, asked for many places at once and for one at a time."""

from __future__ import annotations

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point
from shapely.geometry import box as shapely_box

from drawings.clutter import Clutter
from drawings.ground import Ground
from drawings.layout import (
    _BUSY_COST,
    _CROSSING_COST,
    _LEADER_GAP,
    _OUTSIDE_COST,
    _ROUND_TIP,
    _SHELF_GAP,
    _TEXT_GAP,
    Target,
    _cheapest,
    _Leaders,
    free_spot,
)
from drawings.marks import Circle, Ink, Line, Mark, PaperBox, PaperPoint, Text
from drawings.style import A3_STYLE

lengths = st.floats(3, 97).map(lambda value: round(value, 2))
points = st.builds(PaperPoint, lengths, lengths)
marks = st.one_of(
    st.builds(Line, points, points, st.just(Ink.VISIBLE)),
    st.builds(Circle, points, st.floats(1, 23), st.just(Ink.VISIBLE)),
    st.builds(Text, points, st.sampled_from(["613", "left side"]), st.just(3.5)),
)
boxes = st.builds(
    lambda at, width, height: PaperBox(at.x, at.y, at.x + width, at.y + height),
    points,
    st.floats(0.5, 31),
    st.floats(0.5, 17),
)


def rows_of(some: list[PaperBox]) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Boxes as rows."""
    return np.array([(box.left, box.top, box.right, box.bottom) for box in some])


def pieces(crowd: list[Mark]) -> list[list[float]]:
    """The straight pieces of marks, chords included."""
    ground = Ground(crowd)
    return [*map(list, ground.lines), *(row for many in ground.chords() for row in many.tolist())]


@given(st.lists(marks, max_size=9), st.lists(boxes, min_size=1, max_size=7), st.floats(0, 3))
def test_many_boxes_are_told_as_each_by_itself(
    crowd: list[Mark], some: list[PaperBox], gap: float
) -> None:
    clutter = Clutter(crowd)
    rows = rows_of(some)
    assert clutter.are_hit(rows, gap).tolist() == [clutter.lines_hit(box, gap) for box in some]
    assert clutter.are_free(rows, gap).tolist() == [clutter.is_free(box, gap) for box in some]


@given(st.lists(marks, max_size=9), st.lists(st.tuples(points, points), min_size=1, max_size=7))
def test_many_lines_are_told_as_each_by_itself(
    crowd: list[Mark], lines: list[tuple[PaperPoint, PaperPoint]]
) -> None:
    clutter = Clutter(crowd)
    starts, ends = (np.array([(line[k].x, line[k].y) for line in lines]) for k in (0, 1))
    single = [clutter.crossings(start, end) for start, end in lines]
    assert clutter.are_crossed(starts, ends).tolist() == single


@given(st.lists(marks, max_size=9), st.lists(boxes, min_size=1, max_size=7), st.floats(0, 3))
def test_lines_hit_boxes_as_geometry_has_it(
    crowd: list[Mark], some: list[PaperBox], gap: float
) -> None:
    """Held to shapely; what comes within a thousandth of touching may go either way."""
    clutter = Clutter(crowd)
    lines = [LineString([one[:2], one[2:]]) for one in pieces(crowd)]
    for box, count in zip(some, clutter.are_hit(rows_of(some), gap).tolist(), strict=True):
        inner, outer = (
            shapely_box(*rows_of([box.grown(gap + more)])[0].tolist()) for more in (-1e-3, 1e-3)
        )
        assert sum(map(inner.intersects, lines)) <= count <= sum(map(outer.intersects, lines))


@given(st.lists(marks, max_size=9), st.lists(points, min_size=1, max_size=3), st.floats(0, 360))
def test_lines_that_run_on_cross_as_those_that_end(
    crowd: list[Mark], starts: list[PaperPoint], degrees: float
) -> None:
    clutter = Clutter(crowd)
    distances = np.array([3.0, 11.5, 29.0, 83.0])
    begin = np.array([(start.x, start.y) for start in starts])
    way = np.array([(math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))])
    toward = np.repeat(way, len(starts), axis=0)
    found = clutter.crossed_at_least(begin, toward, distances)
    edges = [LineString([one[:2], one[2:]]) for one in pieces(crowd)]
    for number, distance in enumerate(distances):
        ends = begin + distance * toward
        assert (found[:, number] <= clutter.are_crossed(begin, ends)).all()
        for row, (a, b) in enumerate(zip(begin.tolist(), ends.tolist(), strict=True)):
            line = LineString([a, b])
            just = sum(_only_just(line, edge) for edge in edges)
            crossed = sum(line.crosses(edge) for edge in edges)
            assert crossed - just <= found[row, number] <= crossed + just


def _only_just(one: LineString, other: LineString) -> bool:
    """Whether an end of either lies as good as on the other."""
    ends = [(line, Point(at)) for line, rest in ((one, other), (other, one)) for at in rest.coords]
    return any(line.distance(at) < 1e-3 for line, at in ends)


@given(st.lists(marks, max_size=7), st.floats(1, 23), st.floats(1, 9), st.floats(0, 3))
def test_a_grid_of_boxes_is_told_as_each_by_itself(
    crowd: list[Mark], width: float, height: float, gap: float
) -> None:
    clutter = Clutter(crowd)
    lefts, tops = np.arange(0.0, 90.0, 7.0), np.arange(5.0, 90.0, 11.0)
    may, must = clutter.grid_free(lefts, tops, width, height, gap)
    for (column, row), is_open in np.ndenumerate(may):
        left, top = float(lefts[column]), float(tops[row])
        is_free = clutter.is_free(PaperBox(left, top, left + width, top + height), gap)
        assert bool(must[column, row]) <= is_free <= bool(is_open)


@given(st.lists(marks, max_size=7), boxes, st.sampled_from([1.0, 3.0]))
def test_a_free_spot_is_the_nearest_of_all(crowd: list[Mark], box: PaperBox, step: float) -> None:
    clutter = Clutter(crowd)
    width, height, gap = 4.3, 2.1, 0.7
    found = free_spot(width, height, clutter, within=box, gap=gap, step=step)
    across, down = box.width - width, box.height - height
    if across < 0 or down < 0:
        assert found is None
        return
    places = [
        (math.hypot(dx, 1.6 * dy), dx, dy)
        for dx in range(-40, 41)
        for dy in range(-40, 41)
        if abs(dx) * step <= across / 2 and abs(dy) * step <= down / 2
    ]
    free = []
    for away, dx, dy in places:
        left, top = box.left + across / 2 + step * dx, box.top + down / 2 + step * dy
        spot = PaperBox(left, top, left + width, top + height)
        if clutter.is_free(spot, gap):
            free.append((away, dx, dy, spot))
    assert found == (min(free, key=lambda one: one[:3])[3] if free else None)


@given(st.lists(marks, max_size=5), st.lists(marks, max_size=5), boxes)
def test_what_is_added_later_counts_as_what_was_there(
    first: list[Mark], later: list[Mark], box: PaperBox
) -> None:
    grown, whole = Clutter(first), Clutter([*first, *later])
    grown.is_free(box, 0.5)
    grown.add(later)
    assert grown.lines_hit(box, 0.5) == whole.lines_hit(box, 0.5)
    assert grown.boxes_hit(box, 0.5) == whole.boxes_hit(box, 0.5)


def test_room_for_lines_grows() -> None:
    clutter = Clutter()
    for number in range(211):
        clutter.add([Line(PaperPoint(0, number), PaperPoint(7, number), Ink.VISIBLE)])
        assert clutter.crossings(PaperPoint(3, -0.5), PaperPoint(3, 300)) == number + 1


def cheapest(leaders: _Leaders, clutter: Clutter, home: PaperBox, within: PaperBox) -> int | None:
    """The leader that costs least, each of them looked at by itself and to the end."""
    found = []
    for row, (left, top, right, bottom) in enumerate(leaders.boxes.T.tolist()):
        box = PaperBox(left, top, right, bottom)
        leader = leaders.leader(row)
        tip, bend, shelf = leader.tip, leader.bend, leader.shelf
        is_over = any(
            clutter.run_over_text(np.array([(a.x, a.y)]), np.array([(b.x, b.y)]), gap).any()
            for a, b, gap in ((tip, bend, _LEADER_GAP), (bend, shelf, _SHELF_GAP))
        )
        if not _holds(within, box) or is_over or not clutter.is_free(box, _TEXT_GAP):
            continue
        alone = leaders.costs[row] + (0.0 if _holds(home, box) else _OUTSIDE_COST)
        round_tip = PaperBox(tip.x, tip.y, tip.x, tip.y).grown(_ROUND_TIP)
        crossed = clutter.crossings(tip, bend) + clutter.crossings(bend, shelf)
        busy = alone + _BUSY_COST * clutter.lines_hit(round_tip, 0.0)
        found.append((busy + _CROSSING_COST * crossed, alone, row))
    return min(found)[2] if found else None


def _holds(room: PaperBox, box: PaperBox) -> bool:
    return (
        room.left <= box.left
        and room.top <= box.top
        and box.right <= room.right
        and box.bottom <= room.bottom
    )


@settings(max_examples=12)
@given(st.lists(marks, max_size=14), st.lists(points, min_size=1, max_size=2), st.floats(0, 60))
def test_a_callout_takes_the_cheapest_of_all_leaders(
    crowd: list[Mark], places: list[PaperPoint], more: float
) -> None:
    home = PaperBox(0, 0, 100, 100)
    within = home.grown(more)
    forms = [("4 holes ⌀35, 13 deep",), ("4 holes ⌀35,", "13 deep")]
    leaders = _Leaders(forms, [Target(at, 3.5) for at in places], A3_STYLE)
    clutter = Clutter(crowd)
    assert _cheapest(leaders, clutter, home=home, within=within) == cheapest(
        leaders, clutter, home, within
    )
