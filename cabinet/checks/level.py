"""Level: facing rows of shelf-pin holes lie at the same heights and depths in the unit."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from cabinet.design import Unit
from cabinet.features import HoleRow
from cabinet.findings import Finding, Severity
from cabinet.frame import BoardPoint, UnitPoint
from cabinet.joint import PinRows
from cabinet.part import Part

# More than this between facing holes and a shelf rocks on its pins (common practice), mm.
MOST_OFF = 0.2


# Rows are asked for by every shelf that may stand in them, and parts are values.
@lru_cache(maxsize=1024)
def holes_in_unit(part: Part, name: str) -> tuple[UnitPoint, ...]:
    """Where the holes of a row lie in the unit, on the surface that they are bored from."""
    size = part.board.size
    for feature in part.board.features:
        if isinstance(feature, HoleRow) and feature.name == name:
            points = []
            for hole in feature.holes:
                place = [0.0, 0.0, 0.0]
                for at in hole.centre:
                    place[at.axis] = at.coordinate(size)
                if feature.surface.sign > 0:
                    place[feature.surface.axis] = size.along[feature.surface.axis]
                points.append(part.placement.board_to_unit(BoardPoint(*place)))
            return tuple(sorted(points, key=lambda p: (p.z, p.y)))
    return ()


def levels(unit: Unit) -> Iterator[Finding]:
    """Facing rows that are not level, or do not face each other."""
    parts = unit.by_name
    for joint in unit.joints:
        if isinstance(joint, PinRows):
            for row, _ in joint.lines:
                yield from _row(
                    parts[joint.left], parts[joint.right], f"{row} pin row{joint.label}"
                )


def _row(left: Part, right: Part, name: str) -> Iterator[Finding]:
    one, other = holes_in_unit(left, name), holes_in_unit(right, name)
    if len(one) != len(other) or not one:
        yield _finding(
            left,
            right,
            name,
            None,
            float(abs(len(one) - len(other))),
            f"{len(one)} holes face {len(other)}",
        )
        return
    for a, b in zip(one, other, strict=True):
        off = max(abs(a.z - b.z), abs(a.y - b.y))
        if off > MOST_OFF:
            yield _finding(left, right, name, a, off, f"facing holes are {off:.1f} mm off")
            return


def _finding(
    left: Part, right: Part, name: str, where: UnitPoint | None, found: float, says: str
) -> Finding:
    return Finding(
        rule="rows-not-level",
        severity=Severity.ERROR,
        parts=(left.name, right.name),
        where=where,
        found=found,
        limit=MOST_OFF,
        sentence=f"{left.name} and {right.name}, {name}: {says}; bore both rows from the same "
        "end with the same jig",
    )
