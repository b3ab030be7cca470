"""Every planted mistake is found, in every size, on every design; the designs are good."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from cabinet.checks.all import findings
from cabinet.findings import Severity, is_error
from tests.planted import carcass, hanging, shelves
from tests.planted import doors as sliding_doors
from tests.planted.designs import DESIGNS, good
from tests.planted.every import EVERY
from tests.planted.mistake import Check, Mistake

# Mistakes of making have a test of their own: some are made with the tools, not the unit.
MISTAKES = (
    *carcass.MISTAKES,
    *hanging.MISTAKES,
    *shelves.MISTAKES,
    *sliding_doors.MISTAKES,
)
CASES = [
    pytest.param(mistake, size, design, id=f"{mistake.kind}, {size:g}, {design}")
    for mistake in MISTAKES
    for size in mistake.sizes
    for design in mistake.designs
]


@pytest.mark.parametrize("name", DESIGNS)
def test_the_designs_are_good(name: str) -> None:
    """Before a mistake is planted there is no error, and nothing that is undecided."""
    found = findings(good(name))
    assert [f for f in found if is_error(f) or f.rule == "undecided"] == []


@cache
def _rules_before(check: Check, design: str) -> frozenset[str]:
    return frozenset(finding.rule for finding in check(good(design)))


@pytest.mark.parametrize(("mistake", "size", "design"), CASES)
def test_the_mistake_is_found(mistake: Mistake, size: float, design: str) -> None:
    """Its rule speaks, and did not speak before; it names parts and what to change."""
    unit = good(design)
    assert mistake.expected_rule not in _rules_before(mistake.check, design)
    spoiled = mistake.plant(unit, size)
    assert spoiled != unit
    found = [f for f in mistake.check(spoiled) if f.rule == mistake.expected_rule]
    assert found
    bodies = {part.name for part in spoiled.parts} | {item.name for item in spoiled.hardware}
    for finding in found:
        assert finding.severity in (Severity.ERROR, Severity.WARNING)
        assert finding.parts
        assert set(finding.parts) <= bodies
        assert ";" in finding.sentence or ", so " in finding.sentence


def test_kinds_are_told_apart() -> None:
    """Each kind once, in two sizes or on two designs at least."""
    kinds = Counter(mistake.kind for mistake in EVERY)
    assert max(kinds.values()) == 1
    assert all(len(m.sizes) * len(m.designs) >= 2 for m in EVERY)
    assert len(kinds) >= 60
