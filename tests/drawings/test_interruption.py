"""What an interrupted view leaves out, and where the rest stands on the paper."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.errors import SizeError
from drawings.break_line import break_line, without_breaks, zigzags
from drawings.interruption import BREAK_GAP, Interruption, Span, kept, shortened
from drawings.marks import Ink, Line, PaperBox, PaperPoint
from drawings.style import A3_STYLE


@st.composite
def spans(draw: st.DrawFn) -> tuple[Span, ...]:
    """Spans that follow each other, each longer than its gap on paper at 1:10."""
    places, at = [], draw(st.floats(1.0, 300.0))
    for _ in range(draw(st.integers(1, 3))):
        low = at + draw(st.floats(20.0, 400.0))
        at = low + draw(st.floats(300.0, 2000.0))
        places.append((low, at))
    return tuple(places)


@given(spans=spans(), scale=st.sampled_from((0.1, 0.2, 0.5)))
def test_places_keep_their_order_and_what_is_shown_its_scale(
    spans: tuple[Span, ...], scale: float
) -> None:
    """The map grows, is to scale between the breaks, and each break takes its gap."""
    end = spans[-1][1] + 217.3
    places = sorted({0.0, end, *(p for s in spans for p in (*s, sum(s) / 2, s[0] - 7.3))})
    paper = [shortened(place, spans, scale) for place in places]
    assert all(b > a for a, b in pairwise(paper))
    for low, high in spans:
        broken = shortened(high, spans, scale) - shortened(low, spans, scale)
        assert broken == pytest.approx(BREAK_GAP, abs=1e-9)
    for low, high in kept(spans, (0.0, end)):
        whole = shortened(high, spans, scale) - shortened(low, spans, scale)
        assert whole == pytest.approx((high - low) * scale, abs=1e-9)
    out = Interruption(0, spans).left_out
    assert paper[-1] == pytest.approx((end - out) * scale + len(spans) * BREAK_GAP, abs=1e-9)


@given(spans=spans())
def test_seen_from_behind_it_is_the_mirror_image(spans: tuple[Span, ...]) -> None:
    """Twice turned it is the same, and once turned it still ascends."""
    turned = Interruption(0, Interruption(0, spans).seen(-1))
    assert turned.seen(-1) == spans
    assert turned.left_out == pytest.approx(Interruption(0, spans).left_out)


def test_what_a_length_runs_over() -> None:
    """Only along its axis, and not where it ends at the break."""
    cut = Interruption(0, ((613.0, 1287.0),))
    assert cut.crosses(0, 100.0, 1400.0)
    assert cut.crosses(0, 1400.0, 100.0)
    assert not cut.crosses(0, 100.0, 613.0)
    assert not cut.crosses(1, 100.0, 1400.0)
    assert cut.hides(700.0)
    assert not cut.hides(613.0)


@pytest.mark.parametrize(
    ("axis", "wrong"),
    [
        (2, ((10.0, 20.0),)),
        (0, ()),
        (0, ((20.0, 10.0),)),
        (1, ((10.0, 30.0), (25.0, 40.0))),
        (0, ((10.0, math.inf),)),
    ],
)
def test_what_is_no_interruption_is_refused(axis: int, wrong: tuple[Span, ...]) -> None:
    """Another axis, nothing, turned round, over each other, without end."""
    with pytest.raises(SizeError, match="interruption"):
        Interruption(axis, wrong)


def test_zigzags_stand_clear_of_lines_that_end_at_the_break() -> None:
    """A groove that runs along ends at the break just where its middle is."""
    high = 61.0
    free = zigzags(0.0, high, (), A3_STYLE)
    moved = zigzags(0.0, high, (high / 2,), A3_STYLE)
    assert free == (high / 2,)
    assert abs(moved[0] - high / 2) >= 7 * A3_STYLE.narrow
    line = break_line(100.0, 0.0, high, free, A3_STYLE, is_upright=True)
    assert line.ink is Ink.NARROW
    assert max(abs(point.x - 100.0) for point in line.points) == 7 * A3_STYLE.narrow


def test_lines_leave_out_what_lies_in_a_break() -> None:
    """A level line is parted, one beside the break and one that ends before it are not."""
    gap = PaperBox(80.0, 10.0, 83.0, 40.0)
    level = Line(PaperPoint(20.0, 25.0), PaperPoint(140.0, 25.0), Ink.CENTRE)
    pieces = without_breaks(level, [gap])
    assert [(p.start.x, p.end.x) for p in pieces] == [(20.0, 80.0), (83.0, 140.0)]
    above = Line(PaperPoint(20.0, 5.0), PaperPoint(140.0, 5.0), Ink.CENTRE)
    before = Line(PaperPoint(20.0, 25.0), PaperPoint(79.0, 25.0), Ink.CENTRE)
    assert without_breaks(above, [gap]) == [above]
    assert without_breaks(before, [gap]) == [before]
