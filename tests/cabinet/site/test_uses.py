"""Uses refuse loads without a place or a size."""

from __future__ import annotations

import math

import pytest

from cabinet.errors import DesignError, KindError, SizeError
from cabinet.site.service import Duration, ServiceClass
from cabinet.site.uses import AreaLoad, SpotLoad, SpreadLoad, UseCase, newtons


def test_weights() -> None:
    """Kilograms by standard gravity, pressure by the area: 718 Pa on 1200 x 287 mm."""
    assert newtons(SpreadLoad(place="shelf", kilograms=10.0), 1.0) == pytest.approx(98.0665)
    area = newtons(AreaLoad(place="shelf", pressure=718.0), 1200.0 * 287.0)
    assert area == pytest.approx(247.28, abs=0.01)
    assert newtons(SpotLoad(place="shelf", kilograms=2.0), 1.0) == pytest.approx(19.6133)


@pytest.mark.parametrize("place", ["", "  ", "a\nb"])
def test_a_load_without_a_place_is_refused(place: str) -> None:
    """Whatever its kind."""
    with pytest.raises(SizeError, match="place"):
        SpreadLoad(place=place, kilograms=3.0)
    with pytest.raises(SizeError, match="place"):
        AreaLoad(place=place, pressure=300.0)
    with pytest.raises(SizeError, match="place"):
        SpotLoad(place=place, kilograms=3.0)


@pytest.mark.parametrize("size", [0.0, -4.0, math.nan, math.inf, True, 1e6])
def test_a_load_without_a_size_is_refused(size: float) -> None:
    """Nothing, less than nothing, and slips of the pen."""
    with pytest.raises(SizeError, match="load on base"):
        SpreadLoad(place="base", kilograms=size)
    with pytest.raises(SizeError, match="load on base"):
        AreaLoad(place="base", pressure=size)
    with pytest.raises(SizeError, match="load on base"):
        SpotLoad(place="base", kilograms=1.0, from_left=size if size != 0.0 else -1.0)


def test_uses_refuse_what_is_no_load_and_no_duration() -> None:
    """And damp air goes with damp things."""
    with pytest.raises(DesignError, match="is no load"):
        UseCase(name="full", loads=("thirty kilograms",))  # type: ignore[arg-type]
    with pytest.raises(KindError, match="duration"):
        UseCase(name="full", duration="long")  # type: ignore[arg-type]
    with pytest.raises(SizeError, match="name"):
        UseCase(name=" ")
    assert UseCase(name="full", duration=Duration.SHORT).service is ServiceClass.DRY
    assert UseCase(name="wet", is_damp=True).service is ServiceClass.DAMP
