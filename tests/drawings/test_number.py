"""Numbers as files and as drawings have them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.errors import SizeError
from drawings.number import dimension_text, number


@pytest.mark.parametrize(
    ("value", "places", "expected"),
    [
        (0.1 + 0.2, 3, "0.3"),
        (1e-7, 3, "0"),
        (-1e-7, 3, "0"),
        (-0.0, 3, "0"),
        (613, 3, "613"),
        (1200.0, 0, "1200"),
        (-12.125, 3, "-12.125"),
        (1e15, 3, "1000000000000000"),
        (17.6249, 2, "17.62"),
    ],
)
def test_fixed_places_without_exponent_or_trailing_zeros(
    value: float, places: int, expected: str
) -> None:
    assert number(value, places) == expected


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, True, "3"])
def test_what_is_no_finite_number_is_refused(value: float) -> None:
    with pytest.raises(SizeError):
        number(value)
    with pytest.raises(SizeError):
        dimension_text(value)


@pytest.mark.parametrize("places", [-1, 10, 2.0])
def test_places_must_be_a_whole_number_in_range(places: int) -> None:
    with pytest.raises(SizeError):
        number(17.6, places)


@given(st.floats(min_value=-1e6, max_value=1e6))
def test_reads_back_within_half_a_step(value: float) -> None:
    text = number(value)
    assert abs(float(text) - value) <= 0.0005 + 1e-9
    assert "e" not in text
    assert text != "-0"


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (604.6, "604.6"),
        (613.0, "613"),
        # Half of 17.7, as a digital caliper shows it.
        (8.85, "8.85"),
        # A kernel's 17.625 is often a hair below it, and a maker rounds halves up.
        (17.625, "17.63"),
        (17.624999999, "17.63"),
        (17.6249, "17.62"),
        (0.3, "0.3"),
        (-0.004, "0"),
        (-2.555, "-2.56"),
    ],
)
def test_dimension_is_printed_to_a_hundredth_with_a_point(value: float, expected: str) -> None:
    assert dimension_text(value) == expected
