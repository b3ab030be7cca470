"""Checks on single values, shared by every class that refuses bad ones when made.

Lengths are in millimetres and angles in degrees. NaN and infinity are refused first, because
every comparison with NaN is false and would slip past a plain ``if x < 0``. A bool is a
number to Python but not a length to anybody.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from enum import Enum
from typing import TypeVar

from cabinet.errors import KindError, SizeError, UnknownNameError

Range = tuple[float, float]
"""The least and the most."""

Member = TypeVar("Member", bound=Enum)
K = TypeVar("K")

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


# A cell of a list takes few lines, of which a longer word would need more, and a file is called
# after the name.
MOST_LETTERS = 120
MOST_IN_WORD = 40


def short_name(owner: str, name: str, value: object) -> str:
    """Return ``value`` if it can serve as a name on lists, sheets and files.

    Raises:
        SizeError: no name at all (``named``), or longer than a line of a list takes.
    """
    text = named(owner, name, value)
    longest = max(text.split(), key=len)
    for what, letters, most in (
        ("it has", len(text), MOST_LETTERS),
        (f"its word {longest[:MOST_IN_WORD]!r}... has", len(longest), MOST_IN_WORD),
    ):
        if letters > most:
            raise SizeError(
                f"{owner}: {name} is too long for a list: {what} {letters} letters; at most {most}",
                part=owner,
                value=text,
                limit=most,
            )
    return text


def kind_of(owner: str, name: str, value: object, kind: type[K], *, right: str) -> K:
    """Return ``value`` if it is of this kind.

    Args:
        owner: The part or feature that it is given to, for the message.
        name: What it is there, for the message.
        value: The value.
        kind: The class it must be of.
        right: What would be right, for the message (``a Stock, such as birch_plywood(18, 17.7)``).

    Raises:
        KindError: it is of another kind.
    """
    if not isinstance(value, kind):
        raise KindError(
            f"{owner}: {name} is {_shown(value)}; give {right}",
            part=str(owner),
            value=value,
            limit=right,
        )
    return value


def several(
    owner: str, name: str, values: Iterable[K], kind: type[K], *, right: str
) -> tuple[K, ...]:
    """Return ``values`` as a tuple if it is a tuple or list of this kind.

    Args:
        owner: What they are given to, for the message.
        name: What they are there, for the message.
        values: The values.
        kind: The class that each must be of.
        right: What each of them must be, for the message.

    Raises:
        KindError: it is no tuple or list, or something in it is of another kind.
    """
    return tuple(
        kind_of(owner, f"{name}, number {number},", value, kind, right=right)
        for number, value in enumerate(_listed(owner, name, values, right), start=1)
    )


def numbers(
    owner: str, name: str, values: object, *, count: int | None = None
) -> tuple[float, ...]:
    """Return ``values`` as finite numbers, mm.

    Args:
        owner: The part or feature that has them, for the message.
        name: What they are, for the message.
        values: A tuple or list.
        count: How many there must be; None for any number.

    Raises:
        KindError: it is no tuple or list, or not of that many.
        SizeError: one of them is no finite number.
    """
    right = "numbers of mm" if count is None else f"{count} numbers of mm"
    found = _listed(owner, name, values, right)
    if count is not None and len(found) != count:
        raise KindError(
            f"{owner}: {name} is {_shown(values)}; give {right}",
            part=str(owner),
            value=values,
            limit=right,
        )
    return tuple(finite(owner, name, value) for value in found)


def _listed(owner: str, name: str, values: object, right: str) -> Sequence[object]:
    if isinstance(values, tuple | list):
        return values
    raise KindError(
        f"{owner}: {name} is {_shown(values)}; give a tuple or list of {right}; a "
        "single one in brackets needs a comma after it",
        part=str(owner),
        value=values,
        limit=f"a tuple or list of {right}",
    )


# A whole carcass written out would bury what is wrong with it.
_MOST_SHOWN = 60


def _shown(value: object) -> str:
    """A value in a message: itself if it is short, else what it is."""
    text = repr(value)
    return text if len(text) <= _MOST_SHOWN else f"a {type(value).__name__}"


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
        KindError: it is something else; the message lists the members.
    """
    if not isinstance(value, allowed):
        names = tuple(f"{allowed.__name__}.{each.name}" for each in allowed)
        raise KindError(
            f"{owner}: {name} is {value!r}; it must be one of {', '.join(names)}",
            part=owner,
            value=value,
            limit=names,
        )
    return value
