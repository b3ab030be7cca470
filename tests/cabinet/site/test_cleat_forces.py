"""The cleat as a body in equilibrium."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.errors import SizeError
from cabinet.site.cleat_forces import FRICTION, Hung, forces, simple_tilt


def hung(**more: float) -> Hung:
    """A unit on a cleat."""
    numbers = {
        "weight": 613.0,
        "centre": 154.0,
        "bevel": 19.2,
        "height": 531.0,
        "angle": 45.0,
        "bevel_above": 73.8,
        "screws_above": 27.3,
    }
    return Hung(**(numbers | more))


def test_tilt_of_the_common_example() -> None:
    """W 400 N, e 150 mm, h 500 mm gives 120 N.

    Source: common rule T = W e / h for cleats (encyclopedia article and forum thread on
    bevelled cleats), arithmetic recomputed.
    """
    assert simple_tilt(400.0, 150.0, 500.0) == pytest.approx(120.0)
    found = forces(hung(weight=400.0, centre=150.0, height=500.0, bevel=0.0))
    assert found.tilt == pytest.approx(120.0)


@given(
    st.floats(50, 3000),
    st.floats(30, 400),
    st.floats(1, 25),
    st.floats(200, 900),
    st.floats(20, 60),
)
def test_the_unit_is_in_equilibrium(
    weight: float, centre: float, bevel: float, height: float, angle: float
) -> None:
    """Without friction: forces and moments on the unit add up to nothing.

    On the unit act its weight, the bevel's normal force, the push of the foot and, if the bevel
    draws harder than the tilt needs, the wall's push on the unit half at the bevel's height.
    """
    on = forces(hung(weight=weight, centre=centre, bevel=bevel, height=height, angle=angle))
    up, inwards = on.down, on.out.high
    wall_at_top = inwards - on.tilt
    assert wall_at_top >= -1e-9
    assert up == pytest.approx(weight)
    if centre > bevel:
        # Moments about the bevel: weight turns the foot in, the foot pushes back.
        assert weight * (centre - bevel) == pytest.approx(on.tilt * height)
    normal = weight / math.cos(math.radians(angle))
    assert inwards == pytest.approx(max(normal * math.sin(math.radians(angle)), on.tilt))


def test_friction_only_helps() -> None:
    """The checks use none; the range says what friction would save."""
    on = forces(hung())
    assert FRICTION.low == 0.0
    assert on.out.low < on.out.likely < on.out.high == pytest.approx(613.0)
    phi = math.atan(FRICTION.high)
    assert on.out.low == pytest.approx(613.0 * math.tan(math.pi / 4 - phi))
    assert on.pull.high == pytest.approx((613.0 * 73.8 + 613.0 * 19.2) / 27.3)


def test_a_steeper_bevel_pushes_out_harder() -> None:
    """As said of steep bevels in the trade; and a deep unit pulls by its tilt alone."""
    outs = [forces(hung(angle=angle)).out.high for angle in (30.0, 45.0, 55.0)]
    assert outs == sorted(outs)
    deep = forces(hung(centre=700.0))
    assert deep.out.high == pytest.approx(deep.tilt) == pytest.approx(613 * 680.8 / 531)


def test_bad_numbers_are_refused() -> None:
    """A foot at the bevel's height holds nothing."""
    with pytest.raises(SizeError, match="height of the bevel over the foot"):
        hung(height=0.0)
    with pytest.raises(SizeError, match="angle"):
        hung(angle=80.0)
