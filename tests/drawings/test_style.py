"""The look of a sheet against the series and proportions of the standards."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from itertools import pairwise

import pytest

from cabinet.errors import SizeError
from drawings.marks import Ink
from drawings.style import A3_STYLE, A4_STYLE, LineStyle, Style

STYLES = pytest.mark.parametrize("style", [A3_STYLE, A4_STYLE], ids=lambda style: style.name)

# ISO 128-2 (formerly ISO 128-20:1996), mm.
WIDTHS = {0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0}

# ISO 3098-0 (NF EN ISO 3098-0, table of heights h), mm.
HEIGHTS = {1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0}


@STYLES
def test_all_widths_are_of_the_series(style: Style) -> None:
    """ISO 128-2: series of widths."""
    used = {style.line(ink).width for ink in Ink} - {0}
    assert used <= WIDTHS


@STYLES
def test_line_group_half_a_millimetre(style: Style) -> None:
    """ISO 128-2: group 0.5 has wide 0.5 and narrow 0.25, recommended for A4 to A2."""
    wide = {Ink.VISIBLE, Ink.CUT, Ink.CUTTING_PLANE}
    narrow = {
        Ink.HIDDEN,
        Ink.CENTRE,
        Ink.PHANTOM,
        Ink.HATCH,
        Ink.DIMENSION_LINE,
        Ink.EXTENSION,
        Ink.LEADER,
    }
    assert {style.line(ink).width for ink in wide} == {0.5}
    assert {style.line(ink).width for ink in narrow} == {0.25}


@STYLES
@pytest.mark.parametrize(
    ("ink", "expected"),
    [
        # Dashed: 12 d, 3 d.
        (Ink.HIDDEN, (3.0, 0.75)),
        # Long-dash dot: 24 d, 3 d, at most 0.5 d, 3 d; printed for d = 0.25 and d = 0.5.
        (Ink.CENTRE, (6.0, 0.75, 0.125, 0.75)),
        (Ink.CUTTING_PLANE, (12.0, 1.5, 0.25, 1.5)),
        # Long-dash double-dot.
        (Ink.PHANTOM, (6.0, 0.75, 0.125, 0.75, 0.125, 0.75)),
    ],
)
def test_dashes(style: Style, ink: Ink, expected: tuple[float, ...]) -> None:
    """ISO 128-2 (formerly EN ISO 128-20), lengths of the line elements in line widths d."""
    assert style.line(ink).dashes == pytest.approx(expected)


@STYLES
def test_other_lines_are_continuous(style: Style) -> None:
    """ISO 128-2, types 01.1 and 01.2."""
    dashed = {Ink.HIDDEN, Ink.CENTRE, Ink.CUTTING_PLANE, Ink.PHANTOM}
    assert {ink for ink in Ink if style.line(ink).dashes} == dashed


@STYLES
def test_lettering_heights(style: Style) -> None:
    """ISO 3098-0 series; dimension figures not below 3.5 mm, notes not below 2.5 mm.

    The 3.5 is printed in Westermann, ISBN 978-3-7100-2443-6, p. 24; the 2.5 is from memory.
    """
    names = [field.name for field in fields(Style) if field.name.endswith("_height")]
    assert len(names) == 5
    assert {getattr(style, name) for name in names} <= HEIGHTS
    assert min(getattr(style, name) for name in names) >= 2.5
    assert style.figure_height == 3.5


@STYLES
def test_arrow_is_as_long_as_figures_are_high(style: Style) -> None:
    """ISBN 978-3-7100-2443-6, p. 23: filled, 15 degrees, so its width is 0.263 of its length."""
    assert style.arrow_length == style.figure_height
    assert 2 * math.tan(math.radians(style.arrow_angle / 2)) == pytest.approx(0.263, abs=0.0005)


@STYLES
def test_dimension_lines_keep_their_distance(style: Style) -> None:
    """ISBN 978-3-7100-2443-6, p. 23: overshoot 2; twice the height of figures from any line."""
    assert style.extension_overshoot == 2.0
    assert style.first_offset == 10.0
    assert 7.0 <= style.pitch <= 8.0
    assert style.pitch >= 2 * style.figure_height
    assert style.text_gap == 1.0


@STYLES
def test_lines_are_never_nearer_than(style: Style) -> None:
    """ISO 128:1982 as summed up for ISO 128-20: parallel lines 0.7 mm apart at least."""
    assert style.line_gap >= 0.7


def test_filled_inks_have_no_outline() -> None:
    for ink in (Ink.ARROW, Ink.SOLID, Ink.SHADE):
        assert A3_STYLE.line(ink).is_filled
        assert A3_STYLE.line(ink).width == 0
    assert not A3_STYLE.line(Ink.VISIBLE).is_filled


@pytest.mark.parametrize(
    "change",
    [
        {"wide": 0.6},
        {"narrow": 0.35},
        {"frame_width": 0.0},
        {"grid_width": math.nan},
        {"figure_height": 3.6},
        {"note_height": 1.8},
        {"label_height": 2.0},
        {"heading_height": -5.0},
        {"letter_height": True},
        {"arrow_length": 0.0},
        {"arrow_angle": 14.0},
        {"extension_gap": -0.1},
        {"extension_overshoot": math.inf},
        {"first_offset": 3.0},
        {"pitch": 4.4},
        {"text_gap": 0.0},
        {"text_clearance": -1.0},
        {"line_gap": 0.6},
        {"arrows_inside_least": 0.0},
        {"centre_overshoot": 0.0},
        {"dot_diameter": 0.0},
        {"cutting_arrow_length": math.nan},
    ],
    ids=lambda change: next(iter(change)),
)
def test_a_bad_number_is_refused(change: dict[str, float]) -> None:
    with pytest.raises(SizeError):
        replace(A3_STYLE, **change)  # type: ignore[arg-type]


@pytest.mark.parametrize("change", [{"width": 0.4}, {"dashes": (3.0,)}, {"dashes": (3.0, 0.0)}])
def test_a_bad_line_is_refused(change: dict[str, object]) -> None:
    with pytest.raises(SizeError):
        LineStyle(**{"width": 0.25, **change})  # type: ignore[arg-type]


def test_series_grow_by_the_square_root_of_two() -> None:
    """ISO 128-2 and ISO 3098-0 both name the ratio 1 : sqrt 2; the series are rounded."""
    for series in (WIDTHS, HEIGHTS):
        for small, large in pairwise(sorted(series)):
            assert large / small == pytest.approx(math.sqrt(2), abs=0.04)
