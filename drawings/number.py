"""How numbers are written: one formatter for files, one for the figures on a drawing."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache

from cabinet.quantity import finite, whole

# A digital caliper shows this, and halves of tenths need it; no saw follows further.
_PRINTED_STEP = Decimal("0.01")


# Sheets and PDF, and lines that meet, tell the same places. True is no length, though it is 1.
@lru_cache(maxsize=2**15, typed=True)
def number(value: float, places: int = 3) -> str:
    """A number as it stands in a file: fixed places, no exponent, no trailing zeros.

    Args:
        value: The number, in any unit.
        places: Places after the decimal point at most, 0 to 9.

    Returns:
        For example ``0.3``, ``-12.125`` or ``0``, never ``-0``.

    Raises:
        SizeError: ``value`` is NaN, infinite or no number; ``places`` is out of range.
    """
    whole("number", "places", places, 0, 9)
    text = f"{finite('number', 'value', value, unit=''):.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


# The figures of a unit are few and are told again and again.
@lru_cache(maxsize=4096, typed=True)
def dimension_text(value: float) -> str:
    """A length in mm as it is printed on a drawing: to 0.01 mm, with a decimal point.

    Zeros at the end are cut: 17.7, and 8.85 for its half. Halves are rounded up, as one does
    by hand: 17.625 is printed as 17.63. No unit is written (ISO 129-1), and a value below 1
    keeps its leading zero.

    Raises:
        SizeError: ``value`` is NaN, infinite or no number.
    """
    # Six places first: a kernel's 17.649999999 means 17.65.
    exact = Decimal(number(value, 6))
    return number(float(exact.quantize(_PRINTED_STEP, rounding=ROUND_HALF_UP)), 2)
