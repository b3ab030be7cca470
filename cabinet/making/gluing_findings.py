"""Findings on gluing: clamps too few, too short or too shallow, glue that sets too soon."""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.findings import Finding, Severity
from cabinet.making.glue_stage import GlueStage, GluingPlan


def gluing_findings(plan: GluingPlan) -> tuple[Finding, ...]:
    """What stands in the way of gluing: clamps that do not suffice, glue that sets first."""
    found = []
    for stage in plan.stages:
        names = stage.sets[0]
        if stage.sharing.too_short is not None:
            wanted = stage.sharing.too_short
            found.append(
                _warning(
                    "clamp-too-short",
                    names,
                    wanted,
                    None,
                    f"gluing stage {stage.number}, {stage.title}: clamps have to open "
                    f"{wanted:.0f} mm and no clamp does, nor two joined; get longer ones, or "
                    "wedges between blocks screwed on a board",
                )
            )
        elif stage.sharing.too_deep is not None:
            deep = stage.sharing.too_deep
            row = max((r for r in stage.rows if r.reach == deep), key=lambda r: r.opening)
            found.append(
                _warning(
                    "jaws-too-short",
                    row.parts,
                    deep,
                    None,
                    f"gluing stage {stage.number}, {stage.title}: jaws have to reach {deep:.0f} mm "
                    f"in from the nearest edge to press {' – '.join(row.parts)} and those of no "
                    "clamp that opens so far do; get deeper ones, screw the joint from a face that "
                    "is not seen, or press it with a stiff beam clamped beyond the edges",
                )
            )
        elif stage.sharing.lacking:
            have = stage.sharing.wanted - stage.sharing.lacking
            found.append(
                _warning(
                    "clamps-too-few",
                    names,
                    float(stage.sharing.wanted),
                    float(have),
                    f"gluing stage {stage.number}, {stage.title}: {stage.sharing.wanted} clamps "
                    f"are needed and only {have} that reach are there; borrow "
                    f"{stage.sharing.lacking}, or use screws in the waste or weights",
                )
            )
        found += list(_too_slow(stage))
    return tuple(found)


def _too_slow(stage: GlueStage) -> Iterator[Finding]:
    glue = stage.glue
    for minutes, limit, what in (
        (stage.open_minutes, glue.open_minutes, "glue lies open"),
        (stage.minutes, glue.closed_minutes, "it is from the first glue to the last clamp"),
    ):
        if minutes > limit:
            yield _warning(
                "glue-sets-first",
                stage.sets[0],
                minutes,
                limit,
                f"gluing stage {stage.number}, {stage.title}: one person needs about "
                f"{minutes:.0f} minutes while {what}, and {glue.name} allows {limit:g}; get a "
                "second pair of hands or a slower glue",
            )
            return


def _warning(
    rule: str, parts: tuple[str, ...], found: float, limit: float | None, sentence: str
) -> Finding:
    return Finding(
        rule=rule,
        severity=Severity.WARNING,
        parts=parts,
        where=None,
        found=found,
        limit=limit,
        sentence=sentence,
    )
