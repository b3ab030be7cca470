"""What others count on and is not there is a finding, and no other check stumbles over it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.checks.all import findings
from cabinet.checks.left_out import left_out, what_is_there
from tests.planted.designs import ALL, good


@pytest.mark.parametrize("name", ALL)
def test_nothing_is_left_out_of_good_units(name: str) -> None:
    """And the unit is handed on as it is."""
    unit = good(name)
    assert list(left_out(unit)) == []
    assert what_is_there(unit) is unit


def test_every_body_may_be_left_out() -> None:
    """One after another: told by name if others count on it, and the checks go on."""
    unit = good("tool rack")
    for part in unit.parts:
        rest = replace(unit, parts=tuple(p for p in unit.parts if p != part))
        assert any(part.name in f.sentence for f in left_out(rest))
        there = what_is_there(rest)
        assert list(left_out(there)) == []
        assert part.name not in {name for joint in there.joints for name in joint.parts}


@pytest.mark.parametrize("name", ["top", "base", "left side", "spacer", "cleat, unit half"])
def test_all_checks_run_without_it(name: str) -> None:
    """No check raises."""
    unit = good("tool rack")
    rest = replace(unit, parts=tuple(p for p in unit.parts if p.name != name))
    found = findings(rest)
    assert any(f.rule == "left-out" and f.sentence.startswith(name) for f in found)


def test_a_bar_left_out() -> None:
    """A piece of hardware that a door stands on."""
    unit = good("seed cupboard")
    rest = replace(
        unit, hardware=tuple(i for i in unit.hardware if not i.name.startswith("runner, track 1"))
    )
    (finding,) = left_out(rest)
    assert finding.parts == ("left door",)
    assert "runner, track 1 is left out" in finding.sentence
