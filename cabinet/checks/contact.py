"""Contact and fit: what is declared to touch touches, and what is to have a clearance has it.

Both are measured on the solids by moving one body. Two bodies touch if a hair's move makes
them share volume; a clearance is as stated if a hair less leaves the body free and a hair more
brings it against the other.
"""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.checks.bodies import Body, bodies, middle, share_volume, shared_volume
from cabinet.checks.clash import LEAST_CLASH
from cabinet.design import Unit
from cabinet.findings import Finding, Severity
from cabinet.frame import side_along
from cabinet.joint import Gap, Touch

# Bodies nearer than this touch, and a clearance is as stated within it, mm.
HAIR = 0.02


def contacts(unit: Unit) -> Iterator[Finding]:
    """Bodies that are declared to touch but do not."""
    items = bodies(unit)
    for proof in unit.proofs:
        if isinstance(proof, Touch) and not _touch(items[proof.one], items[proof.other]):
            one, other = items[proof.one], items[proof.other]
            spans = one.box.overlap(other.box)
            apart = sum(min(span, 0.0) ** 2 for span in spans) ** 0.5
            told = f"are {apart:.2f} mm apart" if apart > HAIR else "their surfaces do not meet"
            yield Finding(
                rule="no-contact",
                severity=Severity.ERROR,
                parts=(proof.one, proof.other),
                where=middle(one.box),
                found=float(apart),
                limit=HAIR,
                sentence=f"{proof.one} and {proof.other} should touch but {told}; correct the "
                "size or the place of one of them",
            )


def _touch(one: Body, other: Body) -> bool:
    """Whether a hair's move in some direction makes the two share volume."""
    spans = one.box.overlap(other.box)
    if any(span < -HAIR for span in spans):
        return False
    axes = sorted(range(3), key=lambda axis: abs(spans[axis]))
    return any(
        share_volume(one, other, side_along(axis, sign), HAIR) for axis in axes for sign in (-1, 1)
    )


def fits(unit: Unit) -> Iterator[Finding]:
    """Clearances that are not as stated."""
    items = bodies(unit)
    for proof in unit.proofs:
        if not isinstance(proof, Gap):
            continue
        inner, outer = items[proof.inner], items[proof.outer]
        tight = shared_volume(inner, outer, proof.side, proof.gap - HAIR) > LEAST_CLASH
        loose = shared_volume(inner, outer, proof.side, proof.gap + HAIR) <= LEAST_CLASH
        if tight or loose:
            yield Finding(
                rule="fit",
                severity=Severity.ERROR,
                parts=(proof.inner, proof.outer),
                where=middle(inner.box),
                found=None,
                limit=proof.gap,
                sentence=f"{proof.inner} should have {proof.gap:.2f} mm towards the "
                f"{proof.side.value} in {proof.outer} but has {'less' if tight else 'more'}; "
                "correct the groove or the board that goes in",
            )
