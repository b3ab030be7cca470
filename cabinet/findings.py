"""Findings: what the checks computed and the maker won't like.

A finding is not an error: an error means that something could not be computed. All findings
are collected; nothing stops at the first.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from cabinet.errors import DesignError
from cabinet.frame import UnitPoint
from cabinet.quantity import named


class Severity(Enum):
    """How bad it is, the worst first.

    An error must be put right before anything is cut. Undecided is what a check could not
    settle: it is told under that word and never as if all were well, but the maker may try it
    dry and go on.
    """

    ERROR = "error"
    UNDECIDED = "undecided"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One finding.

    Attributes:
        rule: Short stable name of the rule.
        severity: How bad it is.
        parts: Names of the parts and hardware concerned.
        where: Where it is in the unit; None if it has no one place.
        found: The value found, mm unless the sentence says otherwise; None if there is none.
        limit: The value that it is held against.
        sentence: One sentence with the sizes in it that says what to change.
    """

    rule: str
    severity: Severity
    parts: tuple[str, ...]
    where: UnitPoint | None
    found: float | None
    limit: float | None
    sentence: str

    def __post_init__(self) -> None:
        named("finding", "rule", self.rule)
        named(self.rule, "sentence", self.sentence)


def is_error(finding: Finding) -> bool:
    """Whether a finding forbids making sheets."""
    return finding.severity is Severity.ERROR


_ORDER = {severity: index for index, severity in enumerate(Severity)}


def ordered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Errors first, then by rule, parts and place; the same on every run."""
    return tuple(
        sorted(
            findings,
            key=lambda f: (
                _ORDER[f.severity],
                f.rule,
                f.parts,
                tuple(f.where) if f.where is not None else (),
                f.sentence,
            ),
        )
    )


class FindingsError(DesignError):
    """The design has errors, so no sheets for making are written.

    Attributes:
        findings: Every finding, not only the errors.
    """

    def __init__(self, name: str, findings: tuple[Finding, ...]) -> None:
        errors = [finding for finding in findings if is_error(finding)]
        told = "".join(f"\n  {f.rule}: {f.sentence}" for f in errors)
        super().__init__(
            f"{name}: {len(errors)} {'error' if len(errors) == 1 else 'errors'} must be put "
            f"right before anything is cut{told}",
            part=name,
            value=len(errors),
            limit=0,
        )
        self.findings = findings
