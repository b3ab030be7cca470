"""Checks on single numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.errors import SizeError, UnknownNameError
from cabinet.quantity import (
    finite,
    named,
    one_of,
    positive,
    short_name,
    whole,
    within,
    written,
)

NOT_NUMBERS = [math.nan, math.inf, -math.inf, True, False, "12", None, 3 + 0j, [1.0]]


@pytest.mark.parametrize("value", NOT_NUMBERS, ids=repr)
def test_what_is_no_length_is_refused_first(value: object) -> None:
    """NaN slips past every comparison, and a bool is a number only to Python."""
    for check in (finite, positive):
        with pytest.raises(SizeError) as caught:
            check("top", "width", value)
        assert caught.value.part == "top"
        assert "top: width is " in str(caught.value)
    with pytest.raises(SizeError):
        within("top", "width", value, -1e9, 1e9)


@pytest.mark.parametrize("value", [0, -0.0, -1e-12, -613.0])
def test_positive_refuses_zero_and_less(value: float) -> None:
    """The limit is kept."""
    with pytest.raises(SizeError) as caught:
        positive("top", "width", value)
    assert caught.value.limit == 0.0


@given(st.floats(min_value=1e-9, max_value=1e9))
def test_good_numbers_pass_unchanged(value: float) -> None:
    """What is right is handed back."""
    assert finite("a", "b", value) == positive("a", "b", value) == value
    assert within("a", "b", value, value, value) == value


def test_within_has_its_ends() -> None:
    """Both ends are allowed, a hair beyond is not, and the message tells the range and why."""
    assert within("base", "depth", 8.8, 1.5, 8.8) == 8.8
    assert within("base", "depth", 1.5, 1.5, 8.8) == 1.5
    for value in (8.8000001, 1.4999999):
        with pytest.raises(SizeError) as caught:
            within("base", "depth", value, 1.5, 8.8, why="half of 17.6")
        assert caught.value.limit == (1.5, 8.8)
        assert "between 1.5 and 8.8 mm (half of 17.6)" in str(caught.value)


def test_within_without_an_upper_end() -> None:
    """An infinite end is not printed as one."""
    with pytest.raises(SizeError, match="it must be at least 5 mm"):
        within("row", "pitch", 4.0, 5.0, math.inf)


def test_within_an_empty_range_says_that_nothing_fits() -> None:
    """No value would be right, so none is recommended."""
    with pytest.raises(SizeError, match=r"no value fits: at least 60 .* at most 41\.5 mm"):
        within("shelf", "member", 65.0, 60.0, 41.5)


@pytest.mark.parametrize("value", [2.0, True, "2", 0, 8])
def test_whole_numbers(value: object) -> None:
    """A float is no count, however round."""
    with pytest.raises(SizeError) as caught:
        whole("row", "count", value, 1, 7, why="holes that fit")
    assert caught.value.limit == (1, 7)
    assert "from 1 to 7 (holes that fit)" in str(caught.value)


def test_whole_numbers_have_their_ends() -> None:
    """Both ends are allowed."""
    assert [whole("row", "count", n, 1, 7) for n in (1, 4, 7)] == [1, 4, 7]


@pytest.mark.parametrize("value", ["", "  ", "two\nlines", "tab\t", 3, None])
def test_names_are_one_printable_line(value: object) -> None:
    """A name stands on a sheet and in a file name."""
    with pytest.raises(SizeError):
        named("part", "name", value)


def test_one_of_lists_what_exists() -> None:
    """The message lists the names, sorted."""
    assert one_of("pill", "edge", "left", ("right", "left")) == "left"
    with pytest.raises(UnknownNameError, match="there are left, right") as caught:
        one_of("pill", "edge", "links", ("right", "left"))
    assert caught.value.value == "links"


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (18.0, "18"),
        (17.65, "17.65"),
        (-0.0001, "0"),
        (0.0, "0"),
        (1200.0, "1200"),
        (2 / 3, "0.667"),
    ],
)
def test_written(value: float, text: str) -> None:
    """At most three places, no trailing zeros, no minus nought."""
    assert written(value) == text


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("x" * 41, "41 letters; at most 40"),
        ("word " * 24 + "end", "123 letters; at most 120"),
        ("", "one line"),
        (None, "one line"),
    ],
)
def test_names_too_long_for_a_list_are_refused(name: object, says: str) -> None:
    """They would stop the run later, within a table or as the name of a file."""
    with pytest.raises(SizeError, match=says):
        short_name("shelf", "name", name)
    assert short_name("shelf", "name", "x" * 40) == "x" * 40
    assert short_name("shelf", "name", "word " * 24) == "word " * 24
