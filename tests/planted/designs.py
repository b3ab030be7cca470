"""Good designs on which mistakes are planted: invented, and unlike each other."""

from __future__ import annotations

from functools import cache

from cabinet.design import Unit
from tests.strategies import Recipe, Shelf

DESIGNS: dict[str, Recipe] = {
    # Two doors over two bays, a frame shelf and a plain one, hung on a hidden cleat.
    "seed cupboard": Recipe(
        nominal=18.0,
        measured=17.6,
        bay=487.0,
        inside=231.0,
        height=613.0,
        dividers=1,
        layers=2,
        doors=2,
        overlap=37.0,
        door_measured=11.8,
        shelves=(
            Shelf(bay=1, hole=5, kind="frame shelf"),
            Shelf(bay=2, hole=7, kind="shelf"),
        ),
        cleat="hidden",
        covering=3.0,
    ),
    # Three doors over three bays, a grooved back, on a plinth.
    "bottle store": Recipe(
        nominal=21.0,
        measured=20.3,
        bay=316.0,
        inside=287.0,
        height=731.0,
        dividers=2,
        layers=2,
        back="grooved panel",
        doors=3,
        overlap=29.0,
        door_measured=12.0,
        shelves=(
            Shelf(bay=1, hole=9, kind="lipped shelf"),
            Shelf(bay=3, hole=4, kind="shelf"),
        ),
        stand="plinth",
    ),
    # Four narrow, tall doors, hung on a cleat behind the unit with its spacer.
    "glaze cabinet": Recipe(
        nominal=18.0,
        measured=17.3,
        bay=439.0,
        inside=219.0,
        height=811.0,
        dividers=1,
        layers=2,
        doors=4,
        overlap=33.0,
        door_measured=11.7,
        shelves=(Shelf(bay=2, hole=11, kind="shelf"),),
        cleat="behind",
    ),
    # Open, one bay, hung on a cleat behind it.
    "tool rack": Recipe(
        nominal=18.0,
        measured=17.9,
        bay=613.0,
        inside=243.0,
        height=541.0,
        layers=1,
        shelves=(Shelf(bay=1, hole=6, kind="lipped shelf"),),
        cleat="behind",
        cleat_layers=1,
    ),
}

WITH_DOORS = ("seed cupboard", "bottle store", "glaze cabinet")
HUNG = ("seed cupboard", "glaze cabinet", "tool rack")
HUNG_BEHIND = ("glaze cabinet", "tool rack")
ALL = tuple(DESIGNS)


@cache
def good(name: str) -> Unit:
    """A good design, resolved."""
    return DESIGNS[name].design().resolve()
