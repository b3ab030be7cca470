"""Findings on a hung unit: wall screws, cleat, rail, foot, lift-off."""

from __future__ import annotations

import math
from collections.abc import Iterator

from cabinet.findings import Finding, Severity
from cabinet.frame import UnitPoint
from cabinet.site.cleat_model import Cleat
from cabinet.site.hanging import HangingCheck
from cabinet.site.lock import lock_lacks, lock_of
from cabinet.site.report import SiteReport
from cabinet.site.wall_fixings import FROM_EDGE, length_needed, plan
from cabinet.site.walls import HollowWall, TimberStuds, Wall


def hanging_findings(report: SiteReport) -> Iterator[Finding]:
    """Everything about how a hung unit is held, the worst use of each kind."""
    if not report.unit.is_hung:
        return
    if report.cleat is None:
        yield _plain(
            report,
            "nothing-hangs-it",
            Severity.ERROR,
            (report.unit.name,),
            f"{report.unit.name}: it hangs on a wall but has no cleat; add a hanging cleat, or say "
            "that it stands",
        )
        return
    if report.cleat.foot is None:
        yield _plain(
            report,
            "no-foot",
            Severity.ERROR,
            (report.cleat.unit_half.name,),
            f"{report.cleat.unit_half.name}: nothing below it bears on the wall, so the unit leans in "
            f"by the cleat's {report.cleat.unit_half.board.thickness:.1f} mm; add a spacer of that "
            "thickness at the foot",
        )
        return
    yield from _screws(report, report.cleat)
    yield from _wall(report, report.cleat)
    yield from _halves(report, report.cleat)
    yield from _rail(report, report.cleat)
    yield from _carcass(report, report.cleat)
    yield from _lift_off(report, report.cleat)


def _plain(
    report: SiteReport,
    rule: str,
    severity: Severity,
    parts: tuple[str, ...],
    sentence: str,
    numbers: tuple[float | None, float | None] = (None, None),
) -> Finding:
    return _at_cleat(report.cleat, rule, severity, parts, sentence, numbers)


def _at_cleat(
    cleat: Cleat | None,
    rule: str,
    severity: Severity,
    parts: tuple[str, ...],
    sentence: str,
    numbers: tuple[float | None, float | None],
) -> Finding:
    where = None
    if cleat is not None:
        box = cleat.wall_half.box
        where = UnitPoint((box.low.x + box.high.x) / 2, box.low.y, cleat.screw_level)
    return Finding(
        rule=rule,
        severity=severity,
        parts=parts,
        where=where,
        found=numbers[0],
        limit=numbers[1],
        sentence=sentence,
    )


def _places(places: tuple[float, ...]) -> str:
    return ", ".join(f"{x:.0f}" for x in places)


def _studs(count: int) -> str:
    return "1 stud" if count == 1 else f"{count} studs"


def _forces_said(check: HangingCheck) -> str:
    on = check.forces
    return (
        f"use {check.use!r}: {check.mass:.0f} kg give a design weight of {on.down:.0f} N and a pull "
        f"of {on.pull.high:.0f} N on all wall screws (from {on.pull.low:.0f} N with friction)"
    )


def _in_wood(check: HangingCheck) -> bool:
    """Whether the screws of a check hold in studs rather than wherever they are."""
    return check.fixing is not None and check.fixing.power == 2


# A cleat has one line of screws, so a stud takes one.
_MORE_HOLD = (
    "make unit and cleat longer, have a board let into the studs behind it by whoever builds the "
    "wall, or hang less on it"
)


def _remedy(check: HangingCheck) -> str:
    plan = check.plan
    if check.needed is None:
        return "no number of these screws will do: choose another fixing or hang less on it"
    remedy = f"{check.needed} are needed"
    if _in_wood(check) and plan.is_found:
        remedy += (
            f"; behind the cleat: {_studs(plan.count)} at X {_places(plan.places) or '-'}: "
            + ("bore there" if plan.count >= check.needed else _MORE_HOLD)
        )
    elif _in_wood(check):
        remedy += (
            f"; {_studs(plan.count)} at least must lie behind the cleat: find them and say where "
            f"the first is, or {_MORE_HOLD}"
        )
    else:
        remedy += ": add screws or take stronger anchors"
    return remedy


def _screws(report: SiteReport, cleat: Cleat) -> Iterator[Finding]:
    worst = max(report.hanging, key=lambda c: c.screws_used)
    wall = cleat.wall_half.name
    if worst.fixing is None and report.wall is not None:
        need = length_needed(cleat, report.wall)
        yield _plain(
            report,
            "screw-too-short",
            Severity.ERROR,
            (wall,),
            f"{wall}: wall screws {cleat.screw.length:g} mm long are too short: through "
            f"{cleat.wall_half.board.thickness:.1f} mm of cleat and what covers the wall, and then "
            f"to hold, they must be {need:.0f} mm at least",
            (cleat.screw.length, need),
        )
        return
    one, plan = worst.fixing, worst.plan
    if one is None or worst.screws_used <= 1:
        return
    have = len(plan.holding) if plan.is_found else plan.count
    used = (
        "no screw holds"
        if math.isinf(worst.screws_used)
        else (f"each of {have} is used {100 * worst.screws_used:.0f} %")
    )
    yield _plain(
        report,
        "screws-too-few",
        Severity.ERROR,
        (wall,),
        f"{wall}, {_forces_said(worst)}; one screw holds {one.pull:.0f} N outwards ({one.governs} "
        f"first) and {one.side:.0f} N downwards, so {used}: {_remedy(worst)} (safety: "
        f"{one.safety})",
        (float(have), None if worst.needed is None else float(worst.needed)),
    )


def _wall(report: SiteReport, cleat: Cleat) -> Iterator[Finding]:
    name = cleat.wall_half.name
    if isinstance(report.wall, HollowWall):
        yield _plain(
            report,
            "hollow-wall",
            Severity.WARNING,
            (name,),
            f"{name}: a hollow wall with anchors of {report.wall.anchor_rating:g} kg, of which half "
            "is taken; such ratings are makers' statements and no design values: reach studs or "
            "masonry instead",
        )
    if report.wall is not None:
        yield from studs_missed(cleat, report.wall)
    edge, least = report.hanging[0].edge, FROM_EDGE * cleat.screw.diameter
    if edge < least - 1e-6:
        yield _plain(
            report,
            "screw-near-edge",
            Severity.WARNING,
            (name,),
            f"{name}: the wall screws lie {edge:.1f} mm from an edge of its full thickness; at "
            f"least {least:.1f} mm (4 diameters): make the cleat {2 * (least - edge):.0f} mm higher",
            (edge, least),
        )


def studs_missed(cleat: Cleat, wall: Wall) -> Iterator[Finding]:
    """Wall screws that hit no stud, or of which nobody knows; nothing in other walls.

    Args:
        cleat: The cleat with its screws.
        wall: The wall, its first stud told as X of the unit.
    """
    name, fixed = cleat.wall_half.name, plan(cleat, wall)
    if isinstance(wall, TimberStuds) and not fixed.is_found:
        yield _at_cleat(
            cleat,
            "studs-not-found",
            Severity.WARNING,
            (name,),
            f"{name}: where the studs are is not known, so of {len(cleat.screws)} screws none is "
            f"sure to hit one; {_studs(fixed.count)} at least must lie behind it. Find them and "
            "give the first one's place",
            (0.0, float(len(cleat.screws))),
        )
    if isinstance(wall, TimberStuds) and fixed.is_found and fixed.missing:
        yield _at_cleat(
            cleat,
            "screw-misses",
            Severity.WARNING,
            (name,),
            f"{name}: wall screws at X {_places(fixed.missing)} miss the studs; bore at "
            f"{_places(fixed.places) or 'none, for no stud lies behind the cleat'} instead",
            (float(len(fixed.holding)), float(len(cleat.screws))),
        )


def _halves(report: SiteReport, cleat: Cleat) -> Iterator[Finding]:
    ways = []
    for check in report.hanging:
        if check.wall_half_share is not None:
            ways.append((check.wall_half_share, cleat.wall_half, "from screw to screw", check))
        if math.isfinite(check.wall_half_across):
            ways.append((check.wall_half_across, cleat.wall_half, "above its screws", check))
        ways.append((check.unit_half_share, cleat.unit_half, "below its rail", check))
    share, part, place, check = max(ways, key=lambda way: way[0])
    if share <= 1:
        return
    thick = part.board.thickness
    yield _plain(
        report,
        "cleat-weak",
        Severity.ERROR,
        (part.name,),
        f"{part.name}, {_forces_said(check)}; {thick:.1f} mm thick it is bent {place} {share:.1f} "
        f"times its design strength: make it at least {thick * math.sqrt(share):.0f} mm thick, or "
        "put screws closer",
        (thick, thick * math.sqrt(share)),
    )


def _rail(report: SiteReport, cleat: Cleat) -> Iterator[Finding]:
    worst = max(report.hanging, key=lambda c: min(c.rail_screws, c.rail_glue))
    used = min(worst.rail_screws, worst.rail_glue)
    if used <= 1:
        return
    count = cleat.joint.count
    need = math.ceil(count * math.sqrt(worst.rail_screws))
    yield _plain(
        report,
        "cleat-joint-weak",
        Severity.ERROR,
        cleat.joint.parts,
        f"{cleat.rail.name} to {cleat.unit_half.name}, {_forces_said(worst)}; its {count} screws "
        f"alone are used {100 * worst.rail_screws:.0f} %: {need} are needed, or glue over the "
        "whole face",
        (float(count), float(need)),
    )


def _carcass(report: SiteReport, cleat: Cleat) -> Iterator[Finding]:
    worst = max(report.hanging, key=lambda c: c.carcass_share)
    share = worst.carcass_share
    if share <= 1:
        return
    used = (
        "nothing ties them" if math.isinf(share) else f"their joints are used {100 * share:.0f} %"
    )
    yield _plain(
        report,
        "carcass-joint-weak",
        Severity.ERROR,
        (cleat.rail.name,),
        f"{cleat.rail.name}, {_forces_said(worst)}; sides and dividers hang on it and on the top, "
        f"and {used}: glue the top into its housings, or give the rail more or larger biscuits",
        (share, 1.0),
    )


def _lift_off(report: SiteReport, cleat: Cleat) -> Iterator[Finding]:
    """A knock from below: silent where a lock can be put in, which the sheets then tell."""
    if lock_of(cleat) is not None:
        return
    check, rail = report.hanging[0], cleat.rail
    yield _plain(
        report,
        "lifts-off",
        Severity.WARNING,
        (report.unit.name,),
        f"{report.unit.name}: empty, an upward push of {check.lift:.0f} N at its front edge turns "
        f"it on its cleat, and raised by {check.engaged:.0f} mm it comes off; {rail.name}, "
        f"{rail.box.size[2]:.0f} mm high, does not reach down before the wall half enough for lock "
        f"screws: make it at least {rail.box.size[2] + lock_lacks(cleat):.0f} mm high",
        (rail.box.size[2], rail.box.size[2] + lock_lacks(cleat)),
    )
