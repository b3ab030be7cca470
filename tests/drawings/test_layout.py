"""Dimensions, callouts and names on paper."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.features import Tolerance
from drawings.clutter import Clutter, NoRoom
from drawings.dimension import Dimension, Node, Repeat
from drawings.dimension_ink import (
    RUNNING_LEAST,
    Edge,
    SideInk,
    Wanted,
    arrow,
    least_reach,
    side_ink,
)
from drawings.ground import Ground, marks_box, texts
from drawings.layout import (
    Places,
    Target,
    _forms,
    _may_part,
    _narrow_forms,
    free_spot,
    placed_callout,
    placed_label,
)
from drawings.lettering import text_box, text_width
from drawings.lint import lint_sheet
from drawings.marks import Anchor, Group, Ink, Line, PaperBox, PaperPoint, Polyline, Text
from drawings.style import A3_STYLE

STYLE = A3_STYLE


def link(value: float, title: str = "width", start: float = 0.0) -> Dimension:
    """A plain dimension of a length."""
    return Dimension(
        start=Node(axis=0, coordinate=start, what="edge"),
        end=Node(axis=0, coordinate=start + value, what="place"),
        title=title,
    )


def laid(*spans: tuple[float, float], scale: float = 1.0, edge: Edge = Edge.BELOW) -> SideInk:
    """Dimensions from spans, laid out on one side of a view."""
    wanted = [
        Wanted(
            dimension=link(abs(end - start), f"{start:g} to {end:g}", min(start, end)),
            start=start * scale,
            end=end * scale,
        )
        for start, end in spans
    ]
    return side_ink(edge, 100.0, wanted, STYLE, Clutter())


def line_of(group: Group) -> Line:
    """The one dimension line of a group."""
    lines = [m for m in group.marks if isinstance(m, Line) and m.ink is Ink.DIMENSION_LINE]
    assert len(lines) == 1
    return lines[0]


def text_of(group: Group) -> Text:
    """The one figure of a group."""
    found = texts(group)
    assert len(found) == 1
    return found[0]


def tips(group: Group) -> list[PaperPoint]:
    """Tips of its arrows."""
    arrows = [m for m in group.marks if isinstance(m, Polyline) and m.ink is Ink.ARROW]
    return [mark.points[0] for mark in arrows]


def is_arrow_inside(group: Group) -> bool:
    """Whether the first arrow lies between the ends of the line."""
    line = line_of(group)
    mark = next(m for m in group.marks if isinstance(m, Polyline) and m.ink is Ink.ARROW)
    back = mark.points[1]
    return min(line.start.x, line.end.x) < back.x < max(line.start.x, line.end.x)


def test_first_line_and_pitch() -> None:
    """Source: school textbooks on ISO 129-1: first line about 10 from the outline, then 7 to 8."""
    drawn = laid((0, 43), (0, 97), (0, 213))
    assert [line_of(group).start.y for group in drawn.marks] == [110.0, 118.0, 126.0]


def test_smaller_dimensions_stand_inside() -> None:
    """Source: Westermann 978-3-7100-2824-3, p. 54: smaller dimensions nearer the outline."""
    drawn = laid((0, 213), (0, 43), (0, 97), (97, 140))
    by_line = sorted(drawn.marks, key=lambda group: line_of(group).start.y)
    lengths = [abs(line_of(g).end.x - line_of(g).start.x) for g in by_line]
    assert lengths == sorted(lengths)


def test_chains_share_a_lane() -> None:
    """Chains share a lane."""
    drawn = laid((0, 43), (43, 113))
    assert {line_of(group).start.y for group in drawn.marks} == {110.0}


@pytest.mark.parametrize(("length", "is_inside"), [(8.7, False), (8.8, True), (43, True)])
def test_arrows_go_outside_below_two_and_a_half_arrow_lengths(
    *, length: float, is_inside: bool
) -> None:
    """Source: Westermann 978-3-7100-2443-6, p. 24: outside below 2.5 arrow lengths (8.75)."""
    drawn = side_ink(
        Edge.BELOW,
        0.0,
        [Wanted(dimension=link(7), start=0.0, end=length)],
        STYLE,
        Clutter(),
    )
    assert is_arrow_inside(drawn.marks[0]) is is_inside


@pytest.mark.parametrize("length", [0.3, 1.0, 2.7, 4.4, 6.1, 9.3, 21.7])
@pytest.mark.parametrize("edge", Edge)
def test_any_length_has_a_form(length: float, edge: Edge) -> None:
    """Any length has a form."""
    drawn = laid((13, 13 + length), edge=edge)
    group = drawn.marks[0]
    line = line_of(group)
    paper = math.hypot(line.end.x - line.start.x, line.end.y - line.start.y)
    assert paper == pytest.approx(length)
    assert len(tips(group)) == 2
    box = text_box(text_of(group))
    assert Clutter([line]).is_free(box, 0.5)
    assert lint_sheet(drawn.marks, PaperBox(-400, -400, 800, 800)) == ()


def test_a_figure_that_does_not_fit_stands_beside_its_arrow() -> None:
    """A figure that does not fit stands beside its arrow."""
    group = laid((13, 15.3)).marks[0]
    box = text_box(text_of(group))
    assert box.left > 15.3 + STYLE.arrow_length
    inside = laid((13, 63)).marks[0]
    assert text_of(inside).at.x == pytest.approx(38)


def test_figures_read_from_below_or_from_the_right() -> None:
    """Source: ISO 129-1: above the line; vertical ones are read from the right."""
    level = laid((0, 43)).marks[0]
    assert text_of(level).is_upright
    assert text_box(text_of(level)).bottom < line_of(level).start.y
    for edge in (Edge.LEFT, Edge.RIGHT):
        upright = laid((0, 43), edge=edge).marks[0]
        assert not text_of(upright).is_upright
        assert text_box(text_of(upright)).right < line_of(upright).start.x


def test_extension_lines_start_off_the_outline_and_overshoot() -> None:
    """Source: ISO 129-1 (from memory): about 8 line widths, 2 mm, each."""
    group = laid((0, 43)).marks[0]
    extension = next(m for m in group.marks if isinstance(m, Line) and m.ink is Ink.EXTENSION)
    assert extension.start.y == 102.0
    assert extension.end.y == 112.0


@pytest.mark.parametrize("edge", Edge)
def test_what_hangs_below_a_figure_keeps_clear_of_the_arrows(edge: Edge) -> None:
    """Brackets and strokes touch no arrow, whether they only just fit between them or not."""
    housing = replace(link(17.8), tolerance=Tolerance(upper=0.2, lower=0.0))
    holes = replace(link(288.0), repeat=Repeat(9, 32.0))
    for told in (housing, holes):
        between = text_width(told.text, STYLE.figure_height) + 2 * STYLE.arrow_length
        for more in np.arange(-3.0, 9.0, 0.1).tolist():
            wanted = Wanted(dimension=told, start=31.0, end=31.0 + between + more)
            drawn = side_ink(edge, 100.0, [wanted], STYLE, Clutter())
            assert lint_sheet(drawn.marks, PaperBox(-400, -400, 800, 800)) == ()


@given(
    st.lists(
        st.tuples(st.integers(0, 40), st.integers(1, 40)).map(lambda p: (7.0 * p[0], 9.0 * p[1])),
        min_size=1,
        max_size=9,
        unique=True,
    ),
    st.sampled_from(Edge),
)
def test_dimensions_reach_at_least_as_far_as_is_told_before(
    spans: list[tuple[float, float]], edge: Edge
) -> None:
    """What is told before anything is drawn is never too much."""
    ends = [(start, start + length) for start, length in spans]
    assert least_reach(ends, STYLE) <= laid(*ends, edge=edge).reach + 1e-9


def test_what_overlaps_lies_in_lanes_of_its_own() -> None:
    """Each lane more reaches farther out by a pitch; what only meets can share one."""
    one = STYLE.first_offset + STYLE.extension_overshoot
    assert least_reach([(0.0, 31.0)], STYLE) == one
    assert least_reach([(0.0, 31.0), (31.0, 97.0)], STYLE) == one
    assert least_reach([(0.0, 31.0), (97.0, 0.0)], STYLE) == one + STYLE.pitch
    assert least_reach([(0.0, 31.0), (97.0, 0.0), (23.0, 97.0)], STYLE) == one + 2 * STYLE.pitch
    running = [(0.0, 31.0 + 13.0 * number) for number in range(RUNNING_LEAST)]
    assert least_reach(running, STYLE) == one


def test_an_extension_line_comes_from_the_place_itself() -> None:
    """An extension line comes from the place itself."""
    wanted = Wanted(dimension=link(43), start=0.0, end=43.0, end_foot=31.0)
    group = side_ink(Edge.BELOW, 100.0, [wanted], STYLE, Clutter()).marks[0]
    starts = [m.start.y for m in group.marks if isinstance(m, Line) and m.ink is Ink.EXTENSION]
    assert starts == [102.0, 71.0]


def test_many_places_from_one_datum_make_a_running_scale() -> None:
    """Many places from one datum make a running scale."""
    places = [17.0 + 23.0 * k for k in range(RUNNING_LEAST)]
    drawn = laid(*((0.0, place) for place in places), (0.0, 311.0))
    heights = [line_of(group).start.y for group in drawn.marks]
    assert len(set(heights)) == 2
    for group in drawn.marks:
        line = line_of(group)
        a, b = (float(v) for v in group.title.split(" to "))
        assert abs(line.end.x - line.start.x) == pytest.approx(b - a)
    assert lint_sheet(drawn.marks, PaperBox(-100, -100, 800, 800)) == ()


def test_places_too_near_for_a_running_scale_get_lines() -> None:
    """Places too near for a running scale get lines."""
    places = [17.0 + 2.0 * k for k in range(RUNNING_LEAST)]
    drawn = laid(*((0.0, place) for place in places))
    assert len({line_of(group).start.y for group in drawn.marks}) == RUNNING_LEAST


@given(
    st.lists(
        st.tuples(st.integers(0, 300), st.integers(1, 120)), min_size=1, max_size=9, unique=True
    ),
    st.sampled_from([1.0, 0.5, 0.2, 2.0]),
    st.sampled_from(Edge),
)
def test_any_dimensions_are_readable(
    spans: list[tuple[int, int]], scale: float, edge: Edge
) -> None:
    """Any dimensions are readable."""
    drawn = laid(*((a, a + length) for a, length in spans), scale=scale, edge=edge)
    assert len(drawn.marks) == len(spans)
    assert lint_sheet(drawn.marks, PaperBox(-900, -900, 1800, 1800)) == ()
    for group in drawn.marks:
        line = line_of(group)
        paper = math.hypot(line.end.x - line.start.x, line.end.y - line.start.y)
        a, b = (float(v) for v in group.title.split(" to "))
        assert paper / scale == pytest.approx(b - a)


def test_the_repeat_of_a_step_is_printed() -> None:
    """The repeat of a step is printed."""
    steps = Dimension(
        start=Node(axis=0, coordinate=31, what="first"),
        end=Node(axis=0, coordinate=319, what="last"),
        title="pitch",
        repeat=Repeat(9, 32),
    )
    wanted = Wanted(dimension=steps, start=31.0, end=319.0)
    group = side_ink(Edge.ABOVE, 0.0, [wanted], STYLE, Clutter()).marks[0]
    assert text_of(group).text == "9 × 32 (= 288)"


def test_arrows_are_filled_and_as_long_as_figures_are_high() -> None:
    """Source: Westermann 978-3-7100-2443-6, p. 23: 15 degrees, length = height of figures."""
    mark = arrow(PaperPoint(20, 30), 0.0, STYLE)
    tip, one, other = mark.points
    assert (tip.x, tip.y) == (20, 30)
    assert tip.x - one.x == pytest.approx(3.5)
    width = abs(one.y - other.y)
    assert width == pytest.approx(2 * 3.5 * math.tan(math.radians(7.5)))


def test_a_callout_avoids_what_stands_already() -> None:
    """A callout avoids what stands already."""
    outline = PaperBox(0, 0, 120, 80)
    crowd = [Line(PaperPoint(60, y), PaperPoint(120, y), Ink.VISIBLE) for y in range(0, 81, 4)]
    clutter = Clutter(crowd)
    target = Target(PaperPoint(58, 40), 2.0)
    group = placed_callout(
        "⌀5, 12 deep", "hole", [target], clutter, STYLE, home=outline, within=outline
    )
    box = text_box(texts(group)[0])
    assert box.right < 60
    assert Clutter(crowd).is_free(box, 1.0)


def test_a_long_callout_is_broken_where_width_lacks() -> None:
    """A long callout is broken where width lacks."""
    room = PaperBox(0, 0, 60, 90)
    text = "4 × slot for biscuit no. 20, 4 wide, 12 deep"
    assert text_width(text, STYLE.figure_height) > 60
    group = placed_callout(
        text, "slot", [Target(PaperPoint(4, 40))], Clutter(), STYLE, home=room, within=room
    )
    lines = texts(group)
    assert len(lines) > 1
    assert " ".join(line.text for line in lines) == text


PATTERN = (
    "⌀5, pitch 8, staggered at 60 degrees (R5T8), rows along the length, "
    "first lines 1.2 from the left end, 5.15 from the front edge"
)


def test_a_long_text_beside_a_small_part_takes_more_lines() -> None:
    """Where three lines are too wide, four to six are tried."""
    room = PaperBox(0, 0, 84, 90)
    target = Target(PaperPoint(4, 40))
    assert min(max(text_width(line, 3.5) for line in form) for form in _forms(PATTERN, STYLE)) > 84
    group = placed_callout(PATTERN, "pattern", [target], Clutter(), STYLE, home=room, within=room)
    lines = [line.text for line in texts(group)]
    assert 4 <= len(lines) <= 6
    assert " ".join(lines) == PATTERN


@given(st.lists(st.sampled_from(["2", "×", "slot", "no.", "20,", "12 deep", "to"]), min_size=1))
def test_narrow_lines_are_no_wider_than_they_must_be(words: list[str]) -> None:
    """Held to every way there is to break so many words."""
    text = " ".join(words[:10])
    words = text.split()
    free = [at for at in range(1, len(words)) if _may_part(words[at - 1], words[at])]
    for form in _narrow_forms(text, STYLE):
        assert " ".join(form) == text
        ways = [
            max(text_width(" ".join(words[a:b]), 3.5) for a, b in pairwise((0, *at, len(words))))
            for at in combinations(free, len(form) - 1)
        ]
        assert max(text_width(line, 3.5) for line in form) == pytest.approx(min(ways), abs=0.02)


def test_no_room_is_said_and_not_passed_over() -> None:
    """No room is said and not passed over."""
    room = PaperBox(0, 0, 9, 9)
    with pytest.raises(NoRoom):
        placed_callout(
            "opening", "o", [Target(PaperPoint(4, 4))], Clutter(), STYLE, home=room, within=room
        )


def test_a_label_takes_the_first_free_place() -> None:
    """A label takes the first free place."""
    clutter = Clutter([Line(PaperPoint(0, 9), PaperPoint(50, 9), Ink.VISIBLE)])
    text = Text(PaperPoint(0, 0), "front edge", 2.5, Anchor.MIDDLE)
    places = Places(text, np.array([(20.0, 10.0), (20.0, 17.0)]))
    found = placed_label([places], clutter, within=None, gap=0.9)
    assert found == text.put(PaperPoint(20.0, 17.0))
    assert placed_label([places], clutter, within=None, gap=0.9) is None


def test_a_free_spot_is_near_the_middle() -> None:
    """A free spot is near the middle."""
    room = PaperBox(0, 0, 90, 60)
    spot = free_spot(20, 10, Clutter(), within=room, gap=1, step=3)
    assert spot is not None
    assert (spot.left + spot.right) / 2 == pytest.approx(45, abs=3)
    assert free_spot(95, 10, Clutter(), within=room, gap=1, step=3) is None


def test_clutter_knows_a_line_that_passes_a_corner() -> None:
    """Clutter knows a line that passes a corner."""
    clutter = Clutter([Line(PaperPoint(0, 0), PaperPoint(30, 30), Ink.VISIBLE)])
    assert clutter.is_free(PaperBox(16, 1, 25, 10), 0.5)
    assert not clutter.is_free(PaperBox(8, 5, 25, 10), 0.5)
    assert clutter.crossings(PaperPoint(0, 20), PaperPoint(20, 0)) == 1
    assert clutter.crossings(PaperPoint(5, 0), PaperPoint(35, 29)) == 0


def test_a_group_is_measured_with_its_lettering() -> None:
    """A group is measured with its lettering."""
    group = Group("note", (Text(PaperPoint(10, 20), "W", 3.5),))
    box = marks_box([group])
    assert box is not None
    assert box.left == 10
    assert Ground([group]).lines == []
    assert marks_box([]) is None


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("4 × slot for biscuit no. 20, 4 wide, 12 deep", "4 × slot for biscuit no. 20,"),
        ("2 × 45 × ⌀5, 11 deep", "2 × 45 × ⌀5,"),
        ("opening 84 × 61", "opening"),
    ],
)
def test_a_callout_is_broken_where_it_is_read(text: str, wanted: str) -> None:
    """Never beside a times sign, nor between ``no.`` and its number; best after a comma."""
    forms = _forms(text, A3_STYLE)
    assert forms[0] == (text,)
    assert len(forms) > 1
    assert forms[1][0] == wanted
    for lines in forms:
        assert " ".join(lines) == text
        assert not any(line.endswith(("×", "no.")) or line.startswith("×") for line in lines)
