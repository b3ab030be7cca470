"""Findings: order, errors, and the exception that carries them."""

from __future__ import annotations

import itertools

import pytest

from cabinet.errors import SizeError
from cabinet.findings import Finding, FindingsError, Severity, is_error, ordered
from cabinet.frame import UnitPoint


def a_finding(
    rule: str = "clash",
    severity: Severity = Severity.ERROR,
    parts: tuple[str, ...] = ("base", "top"),
    where: UnitPoint | None = None,
) -> Finding:
    """A finding for these tests."""
    return Finding(
        rule=rule,
        severity=severity,
        parts=parts,
        where=where,
        found=1.0,
        limit=0.5,
        sentence=f"{' and '.join(parts)} clash; move one",
    )


def test_worst_first_whatever_the_order() -> None:
    """Errors, warnings, notes; then rule, parts and place."""
    wanted = (
        a_finding(rule="clash", parts=("a",)),
        a_finding(rule="clash", parts=("b",), where=UnitPoint(0, 0, 1)),
        a_finding(rule="clash", parts=("b",), where=UnitPoint(0, 0, 2)),
        a_finding(rule="fit", parts=("a",)),
        a_finding(rule="air", severity=Severity.WARNING),
        a_finding(rule="air", severity=Severity.NOTE),
    )
    assert all(ordered(mixed) == wanted for mixed in itertools.permutations(wanted))


@pytest.mark.parametrize(
    ("severity", "expected"),
    [
        (Severity.ERROR, True),
        (Severity.UNDECIDED, False),
        (Severity.WARNING, False),
        (Severity.NOTE, False),
    ],
)
def test_only_errors_forbid_sheets(severity: Severity, *, expected: bool) -> None:
    """What is undecided is told, and the maker goes on."""
    assert is_error(a_finding(severity=severity)) is expected


def test_the_exception_has_all_and_tells_errors() -> None:
    """Every finding is kept; the message has the errors, each with its rule and sentence."""
    found = (a_finding(), a_finding(rule="air", severity=Severity.NOTE))
    error = FindingsError("wall unit", found)
    assert error.findings == found
    assert (error.part, error.value, error.limit) == ("wall unit", 1, 0)
    assert "wall unit: 1 error must be put right" in str(error)
    assert "\n  clash: base and top clash; move one" in str(error)
    assert "air" not in str(error)


def test_a_finding_says_something() -> None:
    """No rule without a name, no finding without a sentence."""
    with pytest.raises(SizeError):
        a_finding(rule="")
    with pytest.raises(SizeError):
        Finding(
            rule="clash",
            severity=Severity.ERROR,
            parts=(),
            where=None,
            found=None,
            limit=None,
            sentence=" ",
        )
