"""Checks on single numbers, shared by every class that refuses bad values when made.

Lengths are in millimetres and angles in degrees. NaN and infinity are refused first, because
every comparison with NaN is false and would slip past a plain ``if x < 0``. A bool is a
number to Python but not a length to anybody.
"""

from __future__ import annotations

import math
from collections.abc import Collection
from enum import Enum
from typing import TypeVar

from cabinet.errors import DesignError, SizeError, UnknownNameError

Range = tuple[float, float]
"""The least and the most."""

Member = TypeVar("Member", bound=Enum)

# A limit worked out from other sizes is off by this at most; a number at the limit passes.
ROUNDING = 1e-9


def written(value: float) -> str:
    """A length or an angle as people read it: at most three places, no trailing zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def tenths(value: float, *, up: bool = False) -> float:
    """A length that may be chosen freely, mm, brought to whole tenths, down unless ``up``.

    Saws and fences are set to tenths; what nobody can set is not asked for.
    """
    steps = value * 10
    whole_steps = math.ceil(steps - 1e-6) if up else math.floor(steps + 1e-6)
    return whole_steps / 10


def finite(owner: str, name: str, value: object, *, unit: str = "mm") -> float:
    """Return ``value`` as a float if it is a finite real number.

    Args:
        owner: The part or feature that has this number, for the message.
        name: What the number is, for the message.
        value: The number.
        unit: Unit for the message; "" for a pure number.

    Raises:
        SizeError: not a number, a bool, NaN or infinite.
    """
    # Sheets hold tens of thousands of numbers, so the usual case is told at once.
    if type(value) is float and math.isfinite(value):
        return value
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise SizeError(
            f"{owner}: {name} is {value!r}; it must be a finite number of {unit or 'no unit'}",
            part=owner,
            value=value,
            limit="finite",
        )
    return float(value)


def positive(owner: str, name: str, value: object, *, unit: str = "mm") -> float:
    """Return ``value`` if it is finite and greater than zero.

    Raises:
        SizeError: not finite, zero or negative.
    """
    number = finite(owner, name, value, unit=unit)
    if number <= 0:
        raise SizeError(
            f"{owner}: {name} is {written(number)} {unit}; it must be greater than 0",
            part=owner,
            value=number,
            limit=0.0,
        )
    return number


def within(
    owner: str,
    name: str,
    value: object,
    low: float,
    high: float,
    *,
    unit: str = "mm",
    why: str = "",
) -> float:
    """Return ``value`` if it lies in ``low``..``high``, ends included, but for rounding.

    Args:
        owner: The part or feature that has this number, for the message.
        name: What the number is, for the message.
        value: The number.
        low: Least value allowed.
        high: Greatest value allowed; may be infinite.
        unit: Unit for the message; "" for a pure number.
        why: What sets the limit, for the message (``half of the board's 17.7``).

    Raises:
        SizeError: not finite, or outside the range, or no value is within it.
    """
    number = finite(owner, name, value, unit=unit)
    if not low - ROUNDING <= number <= high + ROUNDING:
        reason = f" ({why})" if why else ""
        if high < low:
            raise SizeError(
                f"{owner}: {name} is {written(number)} {unit}, but no value fits: at least "
                f"{written(low)} is needed and at most {written(high)} {unit} there is{reason}",
                part=owner,
                value=number,
                limit=(low, high),
            )
        allowed = (
            f"at least {written(low)}"
            if math.isinf(high)
            else f"between {written(low)} and {written(high)}"
        )
        raise SizeError(
            f"{owner}: {name} is {written(number)} {unit}; it must be {allowed} {unit}{reason}",
            part=owner,
            value=number,
            limit=(low, high),
        )
    return number


def whole(owner: str, name: str, value: object, low: int, high: int, *, why: str = "") -> int:
    """Return ``value`` if it is a whole number in ``low``..``high``, ends included.

    Raises:
        SizeError: not a whole number, or outside the range.
    """
    if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
        reason = f" ({why})" if why else ""
        raise SizeError(
            f"{owner}: {name} is {value!r}; it must be a whole number from {low} to {high}{reason}",
            part=owner,
            value=value,
            limit=(low, high),
        )
    return value


def named(owner: str, name: str, value: object) -> str:
    """Return ``value`` if it can serve as a name: one printable line that is not blank.

    Raises:
        SizeError: not a string, blank, or with control characters in it.
    """
    if not isinstance(value, str) or not value.strip() or not value.isprintable():
        raise SizeError(
            f"{owner}: {name} is {value!r}; it must be one line of text that is not blank",
            part=owner,
            value=value,
            limit="one printable line",
        )
    return value


def one_of(owner: str, name: str, value: str, allowed: Collection[str]) -> str:
    """Return ``value`` if it is one of ``allowed``.

    Raises:
        UnknownNameError: it is none of them; the message lists those that exist.
    """
    if value not in allowed:
        raise UnknownNameError(
            f"{owner}: no {name} is called {value!r}; there are {', '.join(sorted(allowed))}",
            part=owner,
            value=value,
            limit=tuple(sorted(allowed)),
        )
    return value


def several(owner: str, name: str, value: object) -> None:
    """Refuse what is not several things in brackets: a single one needs a comma after it.

    Raises:
        DesignError: a single thing, or none at all.
    """
    if not isinstance(value, tuple | list):
        raise DesignError(
            f"{owner}: {name} is a single {type(value).__name__}; it must be in brackets with a "
            "comma after it, also if there is only one",
            part=owner,
            value=value,
            limit="several in brackets",
        )


def least_and_most(owner: str, name: str, value: object, *, unit: str) -> Range:
    """Return ``value`` if it is a range: two finite numbers, the least first, neither negative.

    Raises:
        SizeError: something else.
    """
    if not isinstance(value, tuple) or len(value) != 2:
        raise SizeError(
            f"{owner}: {name} is {value!r}; it must be two numbers, the least and the most",
            part=owner,
            value=value,
            limit="least and most",
        )
    low, high = (finite(owner, name, each, unit=unit) for each in value)
    if not 0 <= low <= high:
        raise SizeError(
            f"{owner}: {name} is {written(low)} to {written(high)}; the least comes first and "
            "neither is negative",
            part=owner,
            value=(low, high),
            limit="0 <= least <= most",
        )
    return low, high


def member(owner: str, name: str, value: object, allowed: type[Member]) -> Member:
    """Return ``value`` if it is a member of an enumeration.

    Raises:
        UnknownNameError: it is something else; the message lists the members.
    """
    if not isinstance(value, allowed):
        names = tuple(f"{allowed.__name__}.{each.name}" for each in allowed)
        raise UnknownNameError(
            f"{owner}: {name} is {value!r}; it must be one of {', '.join(names)}",
            part=owner,
            value=value,
            limit=names,
        )
    return value
