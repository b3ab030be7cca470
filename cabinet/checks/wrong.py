"""What a check found in one place of the unit: an error, or what it could not settle."""

from __future__ import annotations

from cabinet.findings import Finding, Severity
from cabinet.frame import UnitPoint


def wrong(
    rule: str,
    parts: tuple[str, ...],
    where: UnitPoint,
    found: float | None,
    limit: float | None,
    sentence: str,
) -> Finding:
    """A finding of severity error.

    Args:
        rule: Name of the rule.
        parts: Names of the bodies concerned.
        where: Where in the unit.
        found: What was found, mm unless the sentence says otherwise.
        limit: What it is held against.
        sentence: What is wrong, with sizes, and what to change.
    """
    return Finding(
        rule=rule,
        severity=Severity.ERROR,
        parts=parts,
        where=where,
        found=found,
        limit=limit,
        sentence=sentence,
    )


def undecided(parts: tuple[str, ...], where: UnitPoint | None, why: str) -> Finding:
    """What a check could not settle, with its reason."""
    return Finding(
        rule="undecided",
        severity=Severity.UNDECIDED,
        parts=parts,
        where=where,
        found=None,
        limit=None,
        sentence=why,
    )
