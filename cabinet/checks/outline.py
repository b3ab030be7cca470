"""Outline: nothing sticks out of the box that the components declare for the unit."""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.checks.bodies import Body, bodies, middle
from cabinet.design import Unit
from cabinet.findings import Finding, Severity
from cabinet.frame import Side
from cabinet.hardware import Hardware

MOST_OUT = 0.01


def outlines(unit: Unit) -> Iterator[Finding]:
    """Parts and hardware that stick out; what goes into the wall may."""
    for body in bodies(unit).values():
        if _is_in_wall(body):
            continue
        for side in Side:
            out = (body.box.face(side) - unit.outline.face(side)) * side.sign
            if out > MOST_OUT:
                yield Finding(
                    rule="sticks-out",
                    severity=Severity.ERROR,
                    parts=(body.name,),
                    where=middle(body.box),
                    found=out,
                    limit=MOST_OUT,
                    sentence=f"{body.name} sticks out {out:.1f} mm at the {side.value} of the "
                    "unit; correct its size or its place",
                )


def _is_in_wall(body: Body) -> bool:
    return isinstance(body, Hardware) and "wall" in body.inside
