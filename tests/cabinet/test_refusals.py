"""Bad inputs, each wrong in exactly one way: what is raised, and what it tells the maker."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest

from cabinet.errors import CabinetError, DesignError, SizeError, UnknownNameError
from tests.strategies import BAD, Bad

# What a caller who does not know this project would expect to catch.
BUILTINS: dict[type[CabinetError], type[Exception]] = {
    SizeError: ValueError,
    DesignError: ValueError,
    UnknownNameError: LookupError,
}


def same(found: object, expected: object) -> bool:
    """Whether two values kept on an error are equal, numbers to a millionth."""
    if isinstance(expected, bool) or isinstance(found, bool):
        return found is expected
    if isinstance(expected, float | int) and isinstance(found, float | int):
        both_nan = math.isnan(expected) and math.isnan(found)
        return both_nan or found == expected or math.isclose(found, expected, abs_tol=1e-6)
    if isinstance(expected, tuple) and isinstance(found, Sequence):
        return len(found) == len(expected) and all(
            same(a, b) for a, b in zip(found, expected, strict=True)
        )
    return found == expected


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.name)
def test_one_wrong_number_is_refused_by_name(bad: Bad) -> None:
    """The class, its builtin, the fields, and a message with part, value and what is right."""
    with pytest.raises(CabinetError) as caught:
        bad.make()
    error = caught.value
    assert type(error) is bad.error
    assert isinstance(error, BUILTINS[bad.error])
    assert error.part == bad.part
    assert same(error.value, bad.value), error.value
    assert same(error.limit, bad.limit), error.limit
    message = str(error)
    for piece in (bad.part, *bad.says):
        assert piece in message
    assert "\n" not in message.replace(str(bad.value), "")


def test_names_of_bad_inputs_are_distinct() -> None:
    """Two of one name would hide each other in a report."""
    names = [bad.name for bad in BAD]
    assert len(names) == len(set(names))


def test_comparison_of_kept_values_can_fail() -> None:
    """The comparer tells a bool from a number, and numbers a hundredth apart."""
    assert same(math.nan, math.nan)
    assert same((0.0, 8.8 + 1e-12), (0.0, 8.8))
    truth: object = True
    assert not same(1, truth)
    assert not same(8.81, 8.8)
    assert not same((1, 2), (1, 3))
    assert not same("left", 3)
