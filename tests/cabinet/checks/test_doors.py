"""Doors just inside and just outside each limit, and what their findings say."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from cabinet.checks.doors import (
    LEAST_ABOVE,
    LEAST_BELOW,
    LEAST_OVERLAP,
    LEAST_SHOULDER,
    MOST_BARE,
    MOST_OFFSET,
    MOST_SLIT,
    _swung,
    doors,
    leaning,
)
from cabinet.checks.lean import Outcome
from cabinet.checks.sliding import sliding
from cabinet.checks.sweep import Space
from cabinet.components.doors import sliding_doors
from cabinet.design import Design, Unit
from cabinet.findings import Finding, Severity
from cabinet.frame import Side
from tests.planted import doors as planted
from tests.planted.designs import WITH_DOORS, good
from tests.planted.edits import doors_of, knob, more_hardware
from tests.strategies import TRACKS, small

SEED = "seed cupboard"


def ruled(unit: Unit, rule: str) -> list[Finding]:
    """Findings of one rule."""
    return [finding for finding in doors(unit) if finding.rule == rule]


@pytest.mark.parametrize("name", WITH_DOORS)
def test_good_doors_are_silent(name: str) -> None:
    """Two, three and four doors."""
    assert list(doors(good(name))) == []


@pytest.mark.parametrize(
    ("plant", "limit", "rule"),
    [
        # The door stands 6 in the top, 3 in the base, its shoulder 0.8 clear.
        (planted._shorter, 6.0 - LEAST_ABOVE, "door-loose"),
        (planted._high_runner, 3.0 - LEAST_BELOW, "door-hops"),
        (planted._lower_rebate_less, 0.8 - LEAST_SHOULDER, "door-drags"),
        (planted._top_groove_off, MOST_OFFSET, "grooves-not-opposite"),
        (planted._slit, MOST_SLIT, "door-slit"),
        # It needs a lift of 4 and has 5.
        (planted._higher, 1.0, "door-cannot-rise"),
        (planted._short_bar, MOST_BARE, "door-uncarried"),
    ],
)
def test_just_inside_and_just_outside(
    plant: Callable[[Unit, float], Unit], limit: float, rule: str
) -> None:
    """A trace within the limit is silent, a trace beyond it speaks."""
    slack = 0.02 if rule != "door-uncarried" else 2.0
    unit = good(SEED)
    if rule == "door-uncarried":
        bar = next(item for item in unit.hardware if item.name.startswith("runner"))
        door = doors_of(unit)[0]
        travel = next(d for g in sliding(unit, Space(unit)) for d in g).high
        limit = bar.box.high.x - (door.box.high.x + travel) + MOST_BARE
    assert ruled(plant(unit, limit - slack), rule) == []
    (finding, *_) = ruled(plant(unit, limit + slack), rule)
    assert finding.where is not None
    assert ";" in finding.sentence


def test_overlap_at_its_limit() -> None:
    """Ten millimetres are enough, less is not."""
    unit = good(SEED)
    assert ruled(planted._overlap_to(unit, LEAST_OVERLAP + 0.02), "door-overlap") == []
    (finding,) = ruled(planted._overlap_to(unit, LEAST_OVERLAP - 0.1), "door-overlap")
    assert finding.found == pytest.approx(LEAST_OVERLAP - 0.1)


def test_the_lift_that_is_missing_is_told() -> None:
    """The groove is deepened by what the sentence says, and the door rises."""
    unit = planted._top_groove_to(good(SEED), 8.3)
    (finding,) = ruled(unit, "door-cannot-rise")
    assert finding.found == pytest.approx(8.3 - 6.0, abs=0.02)
    assert finding.limit == pytest.approx(4.0)
    assert "1.7 mm" in finding.sentence
    assert ruled(planted._top_groove_to(good(SEED), 8.3 + 1.75), "door-cannot-rise") == []


def test_a_pull_as_deep_as_the_gap_passes() -> None:
    """Doors pass with 3 between: a pull of 2.9 passes, one of 3.1 does not."""
    door = doors_of(good(SEED))[1]
    for length, is_free in ((2.9, True), (3.1, False)):
        pull = knob(door, Side.FRONT, (Side.RIGHT, 83.0), length)
        found = ruled(more_hardware(good(SEED), pull), "doors-collide")
        assert (found == []) == is_free
        if found:
            assert set(found[0].parts) == {"left door", "right door", pull.name}


def test_a_pull_hits_only_where_it_comes() -> None:
    """A pull that no travel brings to the neighbour is no finding, however long it is."""
    unit = good("glaze cabinet")
    doors_there = doors_of(unit)
    # On the outer face of a front door nothing slides.
    pull = knob(doors_there[0], Side.FRONT, (Side.LEFT, 97.0), 31.0)
    assert ruled(more_hardware(unit, pull), "doors-collide") == []


@pytest.mark.parametrize("count", [3, 4])
def test_doors_of_one_track_limit_each_other(count: int) -> None:
    """The component's moves leave no overlap; a millimetre more is a finding."""
    box = small(width=1387.0, layers=2)
    unit = Design(
        "doors", (box.component, sliding_doors(box, TRACKS, count=count, overlap=31.0))
    ).resolve()
    assert ruled(unit, "doors-in-one-track") == []
    (group,) = sliding(unit, Space(unit))
    first, third = group[0], group[2]
    assert first.shares_track(third)
    # Both pushed to the right they touch; the door between them runs in the other track.
    assert first.span[1] + first.high == pytest.approx(third.span[0] + third.high)
    longer = planted._travel_past_the_neighbour(unit, 1.0)
    (finding,) = ruled(longer, "doors-in-one-track")
    assert finding.found == pytest.approx(1.0)


def test_a_door_that_does_not_reach_the_top_does_not_crash() -> None:
    """Without any engagement the finding says so."""
    unit = planted._shorter(good(SEED), 9.0)
    assert ruled(unit, "door-loose")


def test_what_is_too_near_is_undecided() -> None:
    """What the search leaves open is told with its reason; it neither passes nor forbids."""
    unit = good(SEED)
    space = Space(unit)
    door = next(d for group in sliding(unit, space) for d in group)
    (finding,) = _swung(door, leaning(door, space), Outcome(None, 0.03))
    assert finding.rule == "undecided"
    assert finding.severity is Severity.UNDECIDED
    assert "too near to tell" in finding.sentence
