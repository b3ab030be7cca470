"""Ranges keep their order."""

from __future__ import annotations

import math

import pytest

from cabinet.errors import SizeError
from cabinet.site.ranges import Between, spread


def test_times_and_told() -> None:
    """A factor goes over all three."""
    found = spread(40.0, 0.1).times(0.5)
    assert (found.low, found.likely, found.high) == pytest.approx((18.0, 20.0, 22.0))
    assert Between(1.24, 2.0, 3.1).told("mm") == "about 2.0 mm (1.2 to 3.1)"


def test_disorder_is_refused() -> None:
    """Also what is no number, and a factor below nothing."""
    for values in ((2.0, 1.0, 3.0), (1.0, 3.0, 2.0), (1.0, math.nan, 2.0)):
        with pytest.raises(SizeError, match="range"):
            Between(*values)
    with pytest.raises(SizeError, match="factor"):
        Between(1.0, 2.0, 3.0).times(-1.0)
