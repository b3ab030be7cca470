"""Findings on shelves, top and base, from the report: sag, bending, pins, frames."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import groupby

from cabinet.findings import Finding, Severity
from cabinet.frame import UnitPoint
from cabinet.site.limits import CABINET_TEST, VISIBLE, WOODWORK, SagLimit
from cabinet.site.report import SiteReport
from cabinet.site.service import STANDARD_GRAVITY
from cabinet.site.shelf_check import FrameCheck, HeldCheck
from cabinet.site.uses import UseCase


def shelf_findings(report: SiteReport) -> Iterator[Finding]:
    """Everything about what carries loads, the worst use of each board."""
    by_name = {use.name: use for use in report.uses}
    for _, group in groupby(report.held, key=lambda check: check.name):
        checks = tuple(group)
        yield from _sag(report, checks, by_name)
        yield from _bending(report, checks)
        yield from _pins(report, checks)
    for _, frames in groupby(report.frames, key=lambda check: check.name):
        yield from _frame(report, tuple(frames))


def _at(report: SiteReport, name: str, x: float | None = None) -> UnitPoint:
    box = report.unit.by_name[name].box
    middle = (box.low.x + box.high.x) / 2
    return UnitPoint(middle if x is None else x, (box.low.y + box.high.y) / 2, box.high.z)


def _needed(span: float, sag: float, limit: SagLimit) -> str:
    """What to change: a shorter span, or a thicker board, under the same load.

    The sag goes with the span's third power, what a limit allows with the span or not at all, and
    stiffness with the third power of the thickness.
    """
    by_share = span * math.sqrt(span / limit.divisor / sag)
    longest = min(by_share, span * (limit.most / sag) ** (1 / 3))
    thicker = (sag / limit.allowed(span)) ** (1 / 3) - 1
    return (
        f"make the span {math.floor(longest):.0f} mm at most, or the board "
        f"{math.ceil(100 * thicker):.0f} % thicker, or put less on it"
    )


def _sag_said(check: HeldCheck, limit: SagLimit, sag: float, told: str) -> str:
    return (
        f"{check.name}, use {check.use!r}: over {check.span:.0f} mm and under "
        f"{check.load / STANDARD_GRAVITY:.1f} kg it sags {told}; {limit.name} allows "
        f"{limit.allowed(check.span):.1f} mm: {_needed(check.span, sag, limit)}"
    )


def _sag(
    report: SiteReport, checks: tuple[HeldCheck, ...], uses: dict[str, UseCase]
) -> Iterator[Finding]:
    """One finding at most: the worst of the limits that are passed."""
    worst = max(checks, key=lambda c: c.sag.likely)
    lasting = max(checks, key=lambda c: c.lasting_sag.likely)
    shown = [c for c in checks if uses[c.use].is_on_show]
    seen = max(shown, key=lambda c: c.lasting_sag.likely, default=None)
    found: tuple[Severity, HeldCheck, SagLimit, float, str] | None = None
    if worst.sag.likely > WOODWORK.allowed(worst.span):
        said = worst.sag.told("mm")
        found = Severity.ERROR, worst, WOODWORK, worst.sag.likely, said
    elif worst.sag.likely > CABINET_TEST.allowed(worst.span):
        said = worst.sag.told("mm")
        found = Severity.WARNING, worst, CABINET_TEST, worst.sag.likely, said
    elif lasting.lasting_sag.likely > WOODWORK.allowed(lasting.span):
        said = f"{lasting.lasting_sag.told('mm')} after some years"
        found = Severity.WARNING, lasting, WOODWORK, lasting.lasting_sag.likely, said
    elif seen is not None and seen.lasting_sag.likely > VISIBLE.allowed(seen.span):
        said = f"{seen.lasting_sag.told('mm')} after some years, on show"
        found = Severity.NOTE, seen, VISIBLE, seen.lasting_sag.likely, said
    if found is None:
        return
    severity, check, limit, value, said = found
    yield Finding(
        rule="shelf-sags",
        severity=severity,
        parts=(check.name,),
        where=_at(report, check.name),
        found=value,
        limit=limit.allowed(check.span),
        sentence=_sag_said(check, limit, value, said),
    )


def _bending(report: SiteReport, checks: tuple[HeldCheck, ...]) -> Iterator[Finding]:
    worst = max(checks, key=lambda c: c.stress / c.strength)
    if worst.stress <= worst.strength:
        return
    yield Finding(
        rule="shelf-breaks",
        severity=Severity.ERROR,
        parts=(worst.name,),
        where=_at(report, worst.name, worst.place),
        found=worst.stress,
        limit=worst.strength,
        sentence=f"{worst.name}, use {worst.use!r}: bending gives {worst.stress:.1f} N/mm2 at "
        f"X {worst.place:.0f} but {worst.strength:.1f} N/mm2 is its design strength; shorten the "
        f"span of {worst.span:.0f} mm, take a thicker board, or put less on it",
    )


def _pins(report: SiteReport, checks: tuple[HeldCheck, ...]) -> Iterator[Finding]:
    with_pins = [(c, c.pin) for c in checks if c.pin is not None]
    if not with_pins:
        return
    check, pin = max(with_pins, key=lambda pair: pair[1].greatest)
    if pin.greatest <= 1:
        return
    ways = {
        "the hole is crushed": pin.hole_share,
        "the shelf is dented": pin.shelf_share,
        "the pin bends": pin.steel_share,
    }
    way = max(ways, key=lambda name: ways[name])
    yield Finding(
        rule="pin-overloaded",
        severity=Severity.ERROR,
        parts=(check.name,),
        where=_at(report, check.name),
        found=pin.greatest,
        limit=1.0,
        sentence=f"{check.name}, use {check.use!r}: a design force of {pin.force:.0f} N on one pin "
        f"is {pin.greatest:.1f} times what it holds, {way}; put at most "
        f"{100 / pin.greatest:.0f} % of the load there, or take thicker pins or a cleat under it",
    )


def _worst_frame(
    frames: tuple[FrameCheck, ...], share: Callable[[FrameCheck], float]
) -> tuple[FrameCheck, float]:
    worst = max(frames, key=share)
    return worst, share(worst)


def _frame(report: SiteReport, frames: tuple[FrameCheck, ...]) -> Iterator[Finding]:
    panel = f"{frames[0].name} panel"
    worst, share = _worst_frame(frames, lambda f: f.panel_share)
    sagging, sag = _worst_frame(frames, lambda f: f.panel_sag.likely)
    if share > 1:
        yield Finding(
            rule="panel-weak",
            severity=Severity.ERROR,
            parts=(panel,),
            where=_at(report, panel),
            found=share,
            limit=1.0,
            sentence=f"{panel}, use {worst.use!r}: over {worst.opening:.0f} mm it is bent "
            f"{share:.1f} times its design strength; take a thicker sheet or smaller holes",
        )
    elif sag > WOODWORK.allowed(sagging.opening):
        yield Finding(
            rule="panel-weak",
            severity=Severity.WARNING,
            parts=(panel,),
            where=_at(report, panel),
            found=sag,
            limit=WOODWORK.allowed(sagging.opening),
            sentence=f"{panel}, use {sagging.use!r}: over {sagging.opening:.0f} mm it sags "
            f"{sagging.panel_sag.told('mm')}; {WOODWORK.name} allows "
            f"{WOODWORK.allowed(sagging.opening):.1f} mm: take a thicker sheet",
        )
    corner, used = _worst_frame(
        frames,
        lambda f: f.corner_force / f.corner_strength if f.corner_strength else float("inf"),
    )
    if used > 1:
        yield Finding(
            rule="corner-weak",
            severity=Severity.ERROR,
            parts=(frames[0].name,),
            where=_at(report, panel),
            found=corner.corner_force,
            limit=corner.corner_strength,
            sentence=f"{corner.name}, use {corner.use!r}: {corner.corner_force:.0f} N go through "
            f"one corner but its biscuits carry {corner.corner_strength:.0f} N; add or enlarge "
            "biscuits",
        )
