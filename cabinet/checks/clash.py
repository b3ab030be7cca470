"""Clash: no two bodies share volume. Boxes prune, the kernel decides."""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.checks.bodies import bodies, middle, near_pairs, shared_volume
from cabinet.design import Unit
from cabinet.findings import Finding, Severity

# Bodies that share less than this are taken to touch, mm3: far below what a saw can leave, far
# above the kernel's own error on boards a few metres long.
LEAST_CLASH = 0.05


def clashes(unit: Unit) -> Iterator[Finding]:
    """Every pair of parts or hardware that share volume."""
    for pair in near_pairs(bodies(unit)):
        volume = shared_volume(pair.one, pair.other)
        if volume > LEAST_CLASH:
            one, other = sorted((pair.one.name, pair.other.name))
            size = " × ".join(f"{extent:.1f}" for extent in pair.box.size)
            yield Finding(
                rule="clash",
                severity=Severity.ERROR,
                parts=(one, other),
                where=middle(pair.box),
                found=volume,
                limit=LEAST_CLASH,
                sentence=f"{one} and {other} take the same place: they share {volume:.1f} mm3 "
                f"within {size} mm; move one of them or cut it back",
            )
