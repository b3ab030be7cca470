"""All checks in one call."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from cabinet.checks.clash import clashes
from cabinet.checks.contact import contacts, fits
from cabinet.checks.level import levels
from cabinet.checks.outline import outlines
from cabinet.checks.wood import webs
from cabinet.design import Unit
from cabinet.findings import Finding, ordered

Check = Callable[[Unit], Iterator[Finding]]

CHECKS: tuple[Check, ...] = (webs, clashes, contacts, fits, levels, outlines)


def findings(unit: Unit) -> tuple[Finding, ...]:
    """Everything that the checks find in a unit, errors first."""
    return ordered(finding for check in CHECKS for finding in check(unit))
