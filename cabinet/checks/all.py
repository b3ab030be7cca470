"""All checks in one call."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from cabinet.checks.bow import bows
from cabinet.checks.clash import clashes
from cabinet.checks.contact import contacts, fits
from cabinet.checks.cutters import cutters
from cabinet.checks.doors import doors
from cabinet.checks.fingers import finger_gaps
from cabinet.checks.hang import hangs
from cabinet.checks.left_out import left_out, what_is_there
from cabinet.checks.level import levels
from cabinet.checks.locked import locks, loose_parts
from cabinet.checks.openings import openings
from cabinet.checks.outline import outlines
from cabinet.checks.reach import reach
from cabinet.checks.sawing import sawing
from cabinet.checks.screws import screws_and_cuts, screws_and_metal, screws_in_wood, screws_seen
from cabinet.checks.shelves import shelf_fits
from cabinet.checks.tolerance import stacks
from cabinet.checks.trims import trims
from cabinet.checks.wood import webs
from cabinet.design import Unit
from cabinet.findings import Finding, ordered
from cabinet.workshop import Workshop

Check = Callable[[Unit], Iterator[Finding]]
ToolCheck = Callable[[Unit, Workshop], Iterator[Finding]]

CHECKS: tuple[Check, ...] = (
    webs,
    clashes,
    contacts,
    fits,
    levels,
    openings,
    outlines,
    locks,
    loose_parts,
    screws_in_wood,
    screws_and_cuts,
    screws_and_metal,
    screws_seen,
    doors,
    bows,
    finger_gaps,
    shelf_fits,
    stacks,
    hangs,
)
# What depends on the workshop's tools.
TOOL_CHECKS: tuple[ToolCheck, ...] = (reach, cutters, sawing, trims)


def findings(unit: Unit, workshop: Workshop | None = None) -> tuple[Finding, ...]:
    """Everything that the checks find in a unit, errors first.

    Args:
        unit: The resolved unit.
        workshop: The tools; None for those of a small workshop.
    """
    tools = Workshop() if workshop is None else workshop
    # What counts on a body that is left out cannot be asked about.
    there = what_is_there(unit)
    found = list(left_out(unit))
    found += [finding for check in CHECKS for finding in check(there)]
    found += [finding for check in TOOL_CHECKS for finding in check(there, tools)]
    return ordered(found)
