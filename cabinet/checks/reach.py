"""Reach: a driver and its bit get behind every screw at the step at which it is driven.

Behind the head stand first the bit and then the driver's body, as far back as the screw's own
length while it still stands out of its hole. What is in the way is decided on the bricks of all
that stands at that step. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.checks.assembly import assembly
from cabinet.checks.bricks import Bricks, part_bricks, together
from cabinet.checks.columns import Column, first_in
from cabinet.checks.standing import when
from cabinet.design import Unit
from cabinet.findings import Finding, Severity
from cabinet.hardware import Hardware, Screw
from cabinet.workshop import Driver, Workshop

# A screw stands in its pilot hole by this before the driver turns it (common practice, no source).
STARTED = 5.0


def reach(unit: Unit, workshop: Workshop) -> Iterator[Finding]:
    """Screws behind which no driver of the workshop gets.

    Args:
        unit: The resolved unit.
        workshop: The tools.
    """
    found = [item for item in unit.hardware if isinstance(item.body, Screw)]
    if not found:
        return
    steps, known = when(assembly(unit)), unit.by_name
    bricks: dict[frozenset[str], Bricks] = {}
    for screw in found:
        present = steps[screw.name][1]
        if present not in bricks:
            names = sorted(name for name in present if name in known)
            if not names:
                continue
            bricks[present] = together(part_bricks(known[name]) for name in names)
        finding = _stopped(screw, bricks[present], workshop)
        if finding is not None:
            yield finding


def _stopped(screw: Hardware, others: Bricks, workshop: Workshop) -> Finding | None:
    """What keeps every driver out, told of the one that lacks least."""
    worst: tuple[float, float, float, Driver, str] | None = None
    for driver in workshop.drivers:
        stop = _first_stop(screw, others, driver)
        if stop is None:
            return None
        needed, free, name = stop
        lack = (needed - free, needed, free, driver, name)
        worst = lack if worst is None or lack[:3] < worst[:3] else worst
    assert worst is not None  # noqa: S101 - a workshop has at least one driver
    _, needed, free, driver, name = worst
    return Finding(
        rule="out-of-reach",
        severity=Severity.ERROR,
        parts=(screw.name, name),
        where=screw.at,
        found=free,
        limit=needed,
        sentence=f"{screw.name}: no driver gets behind it, {name} stands {free:.1f} mm behind its "
        f"head where the {driver.name} needs {needed:g} mm free, {driver.diameter:g} mm wide; "
        "move the screw, drive it from the other side or before that board is on",
    )


def _first_stop(screw: Hardware, others: Bricks, driver: Driver) -> tuple[float, float, str] | None:
    """Length needed behind the head, length that is free, and what stands there."""
    back, length = screw.axis.opposite, max(screw.box.size[screw.axis.axis] - STARTED, 0.0)
    needed = driver.length + length
    body_at = screw.at.moved(back, driver.bit_length)
    columns = (
        (Column(screw.at, back, needed, driver.bit_diameter / 2), 0.0),
        (Column(body_at, back, needed - driver.bit_length, driver.diameter / 2), driver.bit_length),
    )
    stops = []
    for column, offset in columns:
        met = first_in(column, others.boxes)
        if met is not None:
            stops.append((offset + met[1], others.names[others.owners[met[0]]]))
    if not stops:
        return None
    free, name = min(stops)
    return needed, free, name


__all__ = ["reach"]
