"""Walls as data, and the studs behind a cleat."""

from __future__ import annotations

import pytest

from cabinet.errors import SizeError, UnknownNameError
from cabinet.site.walls import HollowWall, SolidMasonry, TimberStuds, require_wall


def test_studs_behind_a_length() -> None:
    """A 600 mm cleat at 600 mm centres may catch just one stud.

    Source: carpentry pages of squotipedia.co.uk (400 and 600 mm centres).
    """
    assert TimberStuds(spacing=600.0).certain(600.0) == 1
    assert TimberStuds(spacing=600.0).certain(599.0) == 0
    assert TimberStuds(spacing=406.0).certain(1133.0) == 2
    found = TimberStuds(spacing=400.0, first=113.0).centres(80.0, 1120.0)
    assert found == pytest.approx((113.0, 513.0, 913.0))
    before = TimberStuds(spacing=400.0, first=913.0).centres(80.0, 1120.0)
    assert before == pytest.approx(found)
    assert TimberStuds(spacing=400.0).centres(0.0, 2000.0) == ()


def test_certain_is_certain() -> None:
    """Wherever the first stud is, at least that many lie behind the length."""
    for first in range(0, 610, 7):
        studs = TimberStuds(spacing=610.0, first=float(first))
        assert len(studs.centres(90.0, 1400.0)) >= studs.certain(1310.0) == 2


@pytest.mark.parametrize("wall", [None, "brick", 600])
def test_an_unknown_wall_is_refused(wall: object) -> None:
    """The message lists the kinds."""
    with pytest.raises(UnknownNameError, match="unknown wall") as caught:
        require_wall("unit", wall)
    assert "SolidMasonry" in str(caught.value)
    assert caught.value.part == "unit"


def test_bad_walls_are_refused() -> None:
    """Each with its number."""
    with pytest.raises(SizeError, match="spacing"):
        TimberStuds(spacing=20.0)
    with pytest.raises(SizeError, match="pull of an anchor"):
        SolidMasonry(anchor_pull=0.0, anchor_shear=500.0)
    with pytest.raises(SizeError, match="rating"):
        HollowWall(anchor_rating=-8.0)
