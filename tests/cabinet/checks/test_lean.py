"""A leaning door: the certified search, the closed form and the kernel's solids agree."""

from __future__ import annotations

import math

import cadquery as cq
import pytest

from cabinet.checks.doors import leaning
from cabinet.checks.lean import HAIR, Leaning, Rectangle, swing
from cabinet.checks.sliding import Door, sliding
from cabinet.checks.sweep import Space
from cabinet.components.doors import groove_needed
from cabinet.design import Unit
from cabinet.solids import part_solid
from tests.planted.designs import good
from tests.planted.doors import MISTAKES

TONGUE, BODY = 7.0, 11.8
ABOVE, BELOW = 6.0, 3.0


def case(opening: float, lip: float, groove: float, *, deep: float = 31.0) -> Leaning:
    """A door with a tongue of 7 in an upper groove, its base at Z 0, its front edge at Y 0.

    The shoulders are far away, so that only the tongue decides.
    """
    back = lip + (groove + TONGUE) / 2
    height = opening + ABOVE + BELOW
    foot = -BELOW
    front = back - TONGUE
    depth = 303.0
    door: tuple[Rectangle, ...] = (
        ((back - BODY, back), (foot + 4.0, foot + height - 27.0)),
        ((front, back), (foot, foot + 4.0)),
        ((front, back), (foot + height - 27.0, foot + height)),
    )
    about: tuple[Rectangle, ...] = (
        ((0.0, lip), (opening, opening + 60.0)),
        ((lip + groove, depth), (opening, opening + 60.0)),
        ((lip, lip + groove), (opening + deep, opening + 60.0)),
        ((0.0, lip), (-35.0, 0.0)),
        ((lip + groove, depth), (-35.0, 0.0)),
    )
    return Leaning(door=door, about=about, base=0.0, front=0.0)


def least_groove(opening: float, lip: float) -> float:
    """The narrowest groove by the closed form.

    The head keeps to the front wall, so its back corner is at lip + need(a), and the foot comes
    free when this equals H sin a; up to there the groove must be as wide as what is needed.
    """
    height, clear = opening + ABOVE + BELOW, opening - HAIR

    def beyond(angle: float) -> float:
        return lip + groove_needed(TONGUE, height, clear, angle) - height * math.sin(angle)

    free, steep = 1e-6, 1.0
    while steep - free > 1e-9:
        middle = (free + steep) / 2
        free, steep = (middle, steep) if beyond(middle) > 0 else (free, middle)
    return max(
        groove_needed(TONGUE, height, clear, free * step / 4000)
        for step in range(4001)
        if height * math.cos(free * step / 4000) > clear - TONGUE
    )


@pytest.mark.parametrize("opening", [137.0, 233.0, 516.6, 1187.0, 1913.0])
@pytest.mark.parametrize("lip", [10.0, 24.8, 39.6])
def test_closed_form_and_search_find_one_groove(opening: float, lip: float) -> None:
    """A hair above the closed form it goes in, a hair below it does not."""
    least = least_groove(opening, lip)
    assert least > TONGUE
    assert swing(case(opening, lip, least + 0.02)).swings is True
    caught = swing(case(opening, lip, least - 0.02))
    assert caught.swings is False
    assert caught.lack > 0


def test_exactly_at_the_limit_nothing_is_claimed_wrongly() -> None:
    """Within a ten-thousandth of the closed form the answer is open, or one of the two."""
    least = least_groove(516.6, 24.8)
    assert swing(case(516.6, 24.8, least + 0.0001)).swings in {True, None}
    assert swing(case(516.6, 24.8, least - 0.0001)).swings in {False, None}


def test_the_lack_is_what_is_missing() -> None:
    """A groove wider by what is lacking lets the door in; by half of it, not."""
    caught = swing(case(311.0, 24.8, 7.2))
    assert caught.swings is False
    assert swing(case(311.0, 24.8, 7.2 + caught.lack + 0.05)).swings is True
    assert swing(case(311.0, 24.8, 7.2 + caught.lack / 2)).swings is False


def test_a_shallow_groove_stops_the_head() -> None:
    """The head is sqrt(H2 + t2) - h deep at most; less depth and it does not swing."""
    height = 516.6 + ABOVE + BELOW
    deepest = math.hypot(height, TONGUE) - 516.6
    assert swing(case(516.6, 24.8, 8.0, deep=deepest + HAIR + 0.02)).swings is True
    assert swing(case(516.6, 24.8, 8.0, deep=deepest + HAIR - 0.03)).swings is False


def _door(unit: Unit, name: str) -> tuple[Door, Leaning, Space]:
    space = Space(unit)
    (group,) = sliding(unit, space)
    door = next(d for d in group if d.name == name)
    absent = tuple(
        n
        for other in group
        if other is not door and other.front <= door.front + 1.5
        for n in other.names
    )
    return door, leaning(door, space, absent), space


def _leant(door: Door, case_: Leaning, angle: float, head: float) -> cq.Shape:
    """The door's solid, its foot a hair above the base, its back top corner at Y ``head``."""
    solid = part_solid(door.part)
    x = door.part.box.low.x
    turned = solid.rotate(
        cq.Vector(x, case_.back, case_.foot),
        cq.Vector(x + 1, case_.back, case_.foot),
        -math.degrees(angle),
    )
    return turned.translate(
        cq.Vector(
            0,
            head - (case_.back + case_.height * math.sin(angle)),
            case_.base + HAIR - case_.foot,
        )
    )


@pytest.mark.parametrize(
    ("design", "name"),
    [
        ("seed cupboard", "left door"),
        ("seed cupboard", "right door"),
        ("bottle store", "middle door"),
    ],
)
def test_the_way_in_is_free_on_the_solids(design: str, name: str) -> None:
    """The door's solid, leaning more and more with its head in the middle of what is free."""
    unit = good(design)
    door, seen, _ = _door(unit, name)
    outcome = swing(seen)
    assert outcome.swings
    boards = [part_solid(door.top), part_solid(door.base)]
    tongue = 7.0
    groove_back = seen.back + 0.5
    for step in range(13):
        angle = outcome.angle * step / 12
        need = groove_needed(tongue, seen.height, door.opening - HAIR, angle)
        head = groove_back - (8.0 - need) / 2
        leant = _leant(door, seen, angle, head)
        for board in boards:
            assert leant.intersect(board).Volume() < 0.05


def test_a_door_that_jams_jams_on_the_solids() -> None:
    """At the lean where it is caught, every place of the head runs into the top."""
    narrow = next(m for m in MISTAKES if m.expected_rule == "door-jams")
    unit = narrow.plant(good("seed cupboard"), 0.85)
    door, seen, _ = _door(unit, "right door")
    outcome = swing(seen)
    assert outcome.swings is False
    top = part_solid(door.top)
    # A little further on, where the search's stretch has its end at the latest.
    for step in range(-6, 7):
        leant = _leant(door, seen, outcome.angle * 1.6, seen.back + step / 6)
        assert leant.intersect(top).Volume() > 0.5
