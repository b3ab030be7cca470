"""What carries loads in a unit, and where it is held."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.errors import DesignError, UnknownNameError
from cabinet.site.carriers import carriers, require_places
from cabinet.site.uses import SpotLoad, UseCase
from tests.cabinet.site.units import hung, standing
from tests.examples import example_unit

EXPECTED = {
    "greenhouse_wall_unit": {"tool shelf", "left frame shelf", "right frame shelf", "top", "base"},
    "pottery_drying_rack": {*(f"shelf {i}" for i in range(1, 5)), "top", "base"},
    "pantry_cupboard": {
        *(f"left shelf {i}" for i in range(1, 5)),
        *(f"right shelf {i}" for i in range(1, 4)),
        "top",
        "base",
    },
}


@pytest.mark.parametrize("name", sorted(EXPECTED))
def test_every_shelf_of_the_examples_is_found(name: str) -> None:
    """By its parts and pins, once each."""
    found = [carrier.name for carrier in carriers(example_unit(name))]
    assert sorted(found) == sorted(EXPECTED[name])


def test_a_shelf_stands_on_its_four_pins() -> None:
    """Bearing in the middle of what lies on each pin: 1.2 of play, then to the pin's tip."""
    unit = hung()
    shelf = next(c for c in carriers(unit) if c.name == "shelf").held[0]
    assert len(shelf.pins) == 4
    left, right = shelf.supports
    assert left == pytest.approx(17.6 + (1.2 + 8.0) / 2)
    assert right == pytest.approx(887 - left)


def test_a_lipping_helps_and_a_frame_has_two_rails() -> None:
    """What is glued along a shelf bends with it; each rail takes half."""
    lipped = next(c for c in carriers(example_unit("pantry_cupboard")) if "left" in c.name)
    assert [part.role for part in lipped.held[0].parts] == ["shelf", "front lipping"]
    frame = next(c for c in carriers(example_unit("pottery_drying_rack")) if c.panel is not None)
    assert [held.share for held in frame.held] == [0.5, 0.5]
    assert len(frame.ends) == 2
    assert all(len(held.pins) == 2 for held in frame.held)


def test_strips_at_the_ends_lie_on_the_pins() -> None:
    """A shelf lipped all round is held at the same places as a plain one."""
    plain = next(c for c in carriers(standing()) if c.name == "shelf")
    lipped = next(c for c in carriers(standing(is_lipped=True)) if c.name == "shelf")
    assert lipped.held[0].supports == pytest.approx(plain.held[0].supports)
    assert lipped.size == pytest.approx(plain.size)
    assert len(lipped.parts) == 5
    assert len(lipped.held[0].parts) == 3


def test_dividers_hold_the_base_only_if_something_holds_them() -> None:
    """Laid into a hung unit's rail it does; on feet only the feet do; on a plinth the rim does."""
    by_name = {c.name: c for c in carriers(example_unit("greenhouse_wall_unit"))}
    assert len(by_name["base"].held[0].supports) == 3
    rack = {c.name: c for c in carriers(example_unit("pottery_drying_rack"))}
    assert rack["base"].held[0].supports == pytest.approx((70.0, 910.0))
    pantry = {c.name: c for c in carriers(example_unit("pantry_cupboard"))}
    assert pantry["base"].held == ()
    assert len(pantry["top"].held[0].supports) == 3


def test_a_shelf_without_pins_is_refused() -> None:
    """It cannot be loaded."""
    unit = standing()
    bare = replace(unit, hardware=tuple(h for h in unit.hardware if "pin" not in h.article))
    with pytest.raises(DesignError, match="put pins under it"):
        carriers(bare)


def test_loads_need_a_place_that_exists() -> None:
    """The message lists those that do; a spot must lie on its shelf."""
    known = carriers(standing())
    with pytest.raises(UnknownNameError, match="no place 'attic'") as caught:
        require_places(UseCase(name="full", loads=(SpotLoad(place="attic", kilograms=3),)), known)
    assert caught.value.limit == ("base", "shelf", "top")
    spot = SpotLoad(place="shelf", kilograms=3, from_left=850.0)
    with pytest.raises(DesignError, match="850 mm from the left"):
        require_places(UseCase(name="full", loads=(spot,)), known)
