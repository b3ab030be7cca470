"""Breaking and fitting of texts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.errors import SizeError
from drawings.fitting import ELLIPSIS, fitted, wrapped
from drawings.lettering import text_width

WORDS = st.lists(
    st.text(alphabet="abcdefghijklmnop0123456789", min_size=1, max_size=14), max_size=20
)


@given(WORDS, st.floats(min_value=4, max_value=90), st.booleans())
def test_lines_fit_and_nothing_is_lost(words: list[str], width: float, is_bold: bool) -> None:
    lines = wrapped(" ".join(words), width, 2.5, is_bold)
    assert all(text_width(line, 2.5, is_bold) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == "".join(words)


@given(WORDS)
def test_words_are_kept_whole_where_they_can_be(words: list[str]) -> None:
    width = max((text_width(word, 2.5) for word in words), default=1.0) + 0.001
    lines = wrapped(" ".join(words), width, 2.5)
    assert [word for line in lines for word in line.split()] == words


def test_a_line_is_filled_before_the_next_begins() -> None:
    width = text_width("grain along the", 2.5) + 0.001
    assert wrapped("grain along the length", width, 2.5) == ("grain along the", "length")


def test_blank_gives_no_line() -> None:
    assert wrapped("  ", 20, 2.5) == ()
    assert fitted("", width=20, tallest=3.5).lines == ()


@pytest.mark.parametrize("height", [7.0, 5.0, 3.5, 2.5])
def test_largest_height_of_the_series_that_fits(height: float) -> None:
    """ISO 3098-0: 2.5, 3.5, 5, 7."""
    width = text_width("left side", height) + 0.001
    fit = fitted("left side", width=width, tallest=7.0)
    assert (fit.height, fit.lines, fit.is_cut) == (height, ("left side",), False)


def test_then_two_lines_then_a_visible_cut() -> None:
    text = "birch plywood, measured on delivery"
    two = fitted(text, width=38, tallest=3.5)
    assert (two.height, len(two.lines), two.is_cut) == (2.5, 2, False)
    assert " ".join(two.lines) == text
    for width in range(11, 28):
        cut = fitted(text, width=width, tallest=3.5)
        assert cut.is_cut
        assert cut.lines[-1].endswith(ELLIPSIS)
        assert len(cut.lines) == 2
        assert all(text_width(line, 2.5) <= width for line in cut.lines)


@pytest.mark.parametrize("width", [0.0, -3.0, float("nan")])
def test_width_must_be_positive(width: float) -> None:
    with pytest.raises(SizeError):
        wrapped("a", width, 2.5)
