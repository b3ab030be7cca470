"""Nothing sticks out of the box that the components declare."""

from __future__ import annotations

import pytest

from cabinet.checks.outline import MOST_OUT, outlines
from cabinet.frame import Side
from tests.cabinet.checks.planted import a_unit, shifted, with_part
from tests.strategies import Recipe


@pytest.mark.parametrize("side", Side)
def test_just_inside_and_just_outside(side: Side) -> None:
    """Moved by less than a hundredth it is silent, by more it is told, and which way."""
    # Each of these lies at the outline on its side.
    name = {Side.LEFT: "left side", Side.RIGHT: "right side"}.get(
        side, {Side.TOP: "top", Side.BOTTOM: "base"}.get(side, "top")
    )
    unit = a_unit()
    for distance, count in ((MOST_OUT - 0.002, 0), (MOST_OUT + 0.002, 1), (4.3, 1)):
        found = list(outlines(with_part(unit, shifted(unit.by_name[name], side, distance))))
        assert len(found) == count
        for finding in found:
            assert finding.parts == (name,)
            assert finding.found == pytest.approx(distance)
            assert side.value in finding.sentence


def test_what_goes_into_the_wall_may() -> None:
    """Wall screws reach past the back."""
    recipe = Recipe(nominal=18, measured=17.6, bay=413, inside=211, height=587, cleat="hidden")
    unit = recipe.design().resolve()
    screws = [item for item in unit.hardware if item.name.startswith("wall screw")]
    assert all(item.box.high.y > unit.outline.high.y for item in screws)
    assert list(outlines(unit)) == []
