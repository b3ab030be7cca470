"""What marks cover of the paper."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st
from shapely import hausdorff_distance, total_bounds
from shapely.geometry import LineString, MultiLineString
from shapely.geometry import box as shapely_box

from drawings.ground import Ground, marks_box, texts
from drawings.lettering import text_box
from drawings.marks import Arc, Circle, Group, Ink, Line, Mark, PaperPoint, Polyline, Text

lengths = st.floats(-97, 97).map(lambda value: round(value, 2))
points = st.builds(PaperPoint, lengths, lengths)
inks = st.sampled_from([Ink.VISIBLE, Ink.SHADE])
marks = st.recursive(
    st.one_of(
        st.builds(Line, points, points, st.just(Ink.VISIBLE)),
        st.builds(Circle, points, st.floats(0.2, 23), st.just(Ink.VISIBLE)),
        st.builds(
            lambda at, radius, start, turn: Arc(at, radius, start, start + turn, Ink.VISIBLE),
            points,
            st.floats(0.2, 23),
            st.floats(-180, 180),
            st.floats(1, 359),
        ),
        st.builds(
            Polyline, st.lists(points, min_size=2, max_size=5).map(tuple), inks, st.booleans()
        ),
        st.builds(Text, points, st.sampled_from(["613", "left side"]), st.just(3.5)),
    ),
    lambda inner: st.builds(Group, st.just("view"), st.lists(inner, max_size=4).map(tuple)),
    max_leaves=9,
)


def geometry(mark: Mark) -> list[LineString]:
    """The lines of a mark, arcs by a chord for each degree."""
    match mark:
        case Line():
            return [LineString([(mark.start.x, mark.start.y), (mark.end.x, mark.end.y)])]
        case Polyline():
            corners = [(p.x, p.y) for p in mark.points]
            return [LineString([*corners, corners[0]] if mark.closed else corners)]
        case Circle():
            return [_arc(mark, 0.0, 360.0)]
        case Arc():
            return [_arc(mark, mark.start, mark.end)]
        case Group():
            return [line for inner in mark.marks for line in geometry(inner)]
        case _:
            return []


def _arc(mark: Circle | Arc, start: float, end: float) -> LineString:
    turns = [math.radians(start + (end - start) * i / 360) for i in range(361)]
    x, y, r = mark.centre.x, mark.centre.y, mark.radius
    return LineString([(x + r * math.cos(a), y + r * math.sin(a)) for a in turns])


@given(st.lists(marks, min_size=1, max_size=5))
def test_the_box_is_that_of_all_marks(some: list[Mark]) -> None:
    """Held to shapely, where arcs are chords of a degree, which reach a little less."""
    lines = [line for mark in some for line in geometry(mark)]
    letters = [text_box(text) for mark in some for text in texts(mark)]
    boxes = [shapely_box(b.left, b.top, b.right, b.bottom) for b in letters]
    found = marks_box(some)
    if not lines and not boxes:
        assert found is None
        return
    assert found is not None
    sides = (found.left, found.top, found.right, found.bottom)
    for side, wanted in zip(sides, total_bounds([*lines, *boxes]).tolist(), strict=True):
        assert abs(side - wanted) <= 0.002


@given(st.lists(marks, max_size=5))
def test_pieces_are_the_lines_and_chords_of_all_but_shades(some: list[Mark]) -> None:
    """Nowhere farther from the marks than a chord may be, nor the marks from them."""

    def unshaded(mark: Mark) -> list[LineString]:
        if isinstance(mark, Group):
            return [line for inner in mark.marks for line in unshaded(inner)]
        is_shade = isinstance(mark, Polyline) and mark.ink is Ink.SHADE
        return [] if is_shade else geometry(mark)

    ground = Ground(some)
    told = [*ground.lines, *(tuple(row) for many in ground.chords() for row in many.tolist())]
    wanted = [line for mark in some for line in unshaded(mark)]
    if not wanted:
        assert told == []
        return
    found = MultiLineString([(row[:2], row[2:]) for row in told])
    assert hausdorff_distance(found, MultiLineString(wanted)) <= 0.1 + 1e-6


def test_chords_meet_end_to_end_on_the_arc() -> None:
    """No more of them than their distance from it asks for; the ends are those of the arc."""
    (found,) = Ground([Arc(PaperPoint(31, 17), 13.0, 20.0, 173.0, Ink.VISIBLE)]).chords()
    rows = found.tolist()
    assert [one[2:] for one in rows[:-1]] == [other[:2] for other in rows[1:]]
    assert all(math.isclose(math.hypot(x - 31, y - 17), 13.0) for x, y, _, _ in rows)
    ends = (rows[0][:2], rows[-1][2:])
    for (x, y), degrees in zip(ends, (20.0, 173.0), strict=True):
        assert math.isclose(x, 31 + 13 * math.cos(math.radians(degrees)))
        assert math.isclose(y, 17 + 13 * math.sin(math.radians(degrees)))
    sagitta = 13.0 * (1 - math.cos(math.radians(153 / len(rows) / 2)))
    assert sagitta <= 0.1 < 13.0 * (1 - math.cos(math.radians(153 / (len(rows) - 1) / 2)))
