"""Findings on a unit on its wall and in use, in one call."""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.design import Unit
from cabinet.findings import Finding, Severity, ordered
from cabinet.frame import UnitPoint
from cabinet.joint import Screwed
from cabinet.site.hanging_findings import hanging_findings
from cabinet.site.lift import Lift
from cabinet.site.materials import elastic
from cabinet.site.report import SiteReport, site_report
from cabinet.site.service import Kind
from cabinet.site.shelf_findings import shelf_findings
from cabinet.site.uses import UseCase
from cabinet.site.walls import Wall

# A bay in which damp things dry needs at least this much for air, mm2 (common practice, no
# source: a round hole of 25 mm).
LEAST_AIR = 500.0


def report_findings(report: SiteReport) -> tuple[Finding, ...]:
    """Everything that a report gives rise to, errors first."""
    found = [
        *shelf_findings(report),
        *hanging_findings(report),
        *_edge_screws(report.unit),
        *_tipping(report),
        *_lifting(report),
        *_air(report),
    ]
    return ordered(found)


def site_findings(
    unit: Unit,
    uses: tuple[UseCase, ...],
    wall: Wall | None = None,
    *,
    lift: Lift | None = None,
) -> tuple[Finding, ...]:
    """Everything that is found about a unit on its wall and in use, errors first.

    Args:
        unit: The unit, resolved.
        uses: What it is used for; the worst counts.
        wall: The wall it hangs on; for a standing unit the wall it is tied to, or None.
        lift: How it is lifted to its place; None leaves that out.

    Raises:
        UnknownNameError: no known wall, place or material; see ``site_report``.
        DesignError: what cannot be checked; see ``site_report``.
    """
    return report_findings(site_report(unit, uses, wall, lift=lift))


def _edge_screws(unit: Unit) -> Iterator[Finding]:
    """Screws whose thread runs into the edge of plywood."""
    for joint in unit.joints:
        if not isinstance(joint, Screwed):
            continue
        into = unit.by_name[joint.into]
        screws = [h for h in unit.hardware if set(h.inside) == set(joint.parts)]
        kind = elastic(into.board.stock).kind
        axes = {screw.axis.axis for screw in screws}
        if kind is Kind.PLYWOOD and axes - {into.placement.up.axis}:
            yield Finding(
                rule="screw-in-edge",
                severity=Severity.ERROR,
                parts=joint.parts,
                where=screws[0].at,
                found=float(len(screws)),
                limit=0.0,
                sentence=f"{joint.through} to {joint.into}: {len(screws)} screws go into the edge "
                "of plywood, where their thread counts for nothing; screw into a face, or use "
                "biscuits and glue",
            )


def _tipping(report: SiteReport) -> Iterator[Finding]:
    """Silent where a wall is given whose two ties hold it; the sheets then tell of them."""
    if not report.tipping:
        return
    worst = min(report.tipping, key=lambda check: check.margin)
    if worst.margin >= 1:
        return
    unit, tie = report.unit, report.anti_tip
    if tie is not None and tie.share <= 1:
        return
    top = UnitPoint(
        (unit.outline.low.x + unit.outline.high.x) / 2, unit.outline.high.y, unit.outline.high.z
    )
    said = (
        f"{unit.name}, {worst.state}: {worst.mass:.0f} kg hold it with {worst.holding / 1000:.0f} "
        f"N m, a child's pull or climb tips it with {worst.tips / 1000:.0f} N m "
        "(common practice, no source)"
    )
    if tie is None:
        yield Finding(
            rule="tips-over",
            severity=Severity.WARNING,
            parts=(unit.name,),
            where=top,
            found=worst.margin,
            limit=1.0,
            sentence=f"{said}; tie its top to the wall for at least {worst.tie:.0f} N, and say "
            "what the wall is",
        )
        return
    yield Finding(
        rule="tie-weak",
        severity=Severity.ERROR,
        parts=(unit.name,),
        where=top,
        found=tie.pull,
        limit=tie.holds,
        sentence=f"{said}; each of {tie.count} ties at its top is pulled with {tie.pull:.0f} N and "
        f"holds {tie.holds:.0f} N in this wall: reach studs or masonry with stronger fixings",
    )


def _lifting(report: SiteReport) -> Iterator[Finding]:
    lift = report.lift
    if lift is None or lift.is_light:
        return
    name = report.unit.name
    if lift.bare <= lift.allowed and lift.loose:
        remedy = f"take doors and shelves out first, which leaves {lift.bare:.1f} kg"
    else:
        without = f"even without doors and shelves it is {lift.bare:.1f} kg: " if lift.loose else ""
        remedy = f"{without}get help, or a prop or lifting table under it"
    yield Finding(
        rule="heavy-lift",
        severity=Severity.WARNING,
        parts=(name, *lift.loose),
        where=None,
        found=lift.mass,
        limit=lift.allowed,
        sentence=f"{name}: about {lift.mass:.1f} kg are lifted to {lift.hands:.0f} mm, past "
        f"{lift.zone.title}, where the guidance has {lift.allowed:.1f} kg (HSE filter value, no "
        f"legal limit); {remedy}",
    )


def _air(report: SiteReport) -> Iterator[Finding]:
    damp = [use.name for use in report.uses if use.is_damp]
    if not damp:
        return
    for path in report.air:
        throat = path.throat
        if throat is None or path.area >= LEAST_AIR:
            continue
        box = report.unit.outline
        says = (
            f"no air passes {throat.name}"
            if throat.area <= 0
            else f"air passes through {path.area / 100:.1f} cm² in all, least at {throat.name}"
        )
        yield Finding(
            rule="no-air",
            severity=Severity.ERROR,
            parts=(report.unit.name,),
            where=UnitPoint(
                (box.low.x + box.high.x) / 2, (box.low.y + box.high.y) / 2, throat.level
            ),
            found=path.area,
            limit=LEAST_AIR,
            sentence=f"{report.unit.name}, {path.bay}, use {damp[0]!r}: damp things would be shut "
            f"in, {says}; open at least {LEAST_AIR / 100:.0f} cm² all the way from base to top",
        )
