"""The report as tables of words and figures, for sheets, lists and the book."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.errors import SizeError
from cabinet.site.limits import WOODWORK
from cabinet.site.report import SiteReport
from cabinet.site.service import STANDARD_GRAVITY

Row = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteTable:
    """A table; every row has as many cells as there are columns (``SizeError``)."""

    title: str
    columns: Row
    rows: tuple[Row, ...]

    def __post_init__(self) -> None:
        for row in self.rows:
            if len(row) != len(self.columns):
                raise SizeError(
                    f"{self.title}: a row has {len(row)} cells; it must have {len(self.columns)}",
                    part=self.title,
                    value=len(row),
                    limit=len(self.columns),
                )


def _share(value: float | None) -> str:
    return "-" if value is None or math.isinf(value) else f"{100 * value:.0f} %"


def _shelves(report: SiteReport) -> SiteTable:
    rows = [
        (
            check.name,
            check.use,
            f"{check.span:.0f}",
            f"{check.load / STANDARD_GRAVITY:.1f}",
            f"{check.sag.likely:.1f} ({check.sag.low:.1f}-{check.sag.high:.1f})",
            f"{check.lasting_sag.likely:.1f} "
            f"({check.lasting_sag.low:.1f}-{check.lasting_sag.high:.1f})",
            f"{WOODWORK.allowed(check.span):.1f}",
            _share(check.stress / check.strength),
            _share(None if check.pin is None else check.pin.greatest),
        )
        for check in report.held
    ]
    return SiteTable(
        title="Shelves, top and base",
        columns=(
            "board",
            "use",
            "span mm",
            "load kg",
            "sag mm",
            "sag after years mm",
            "span/144 mm",
            "bending",
            "pins",
        ),
        rows=tuple(rows),
    )


def _hanging(report: SiteReport) -> SiteTable:
    rows = []
    for check in report.hanging:
        on, one = check.forces, check.fixing
        rows.append(
            (
                check.use,
                f"{check.mass:.0f}",
                f"{on.down:.0f}",
                f"{on.pull.likely:.0f} ({on.pull.low:.0f}-{on.pull.high:.0f})",
                f"{on.tilt:.0f}",
                "-" if one is None else f"{one.pull:.0f}",
                "-" if one is None else f"{one.side:.0f}",
                _share(check.screws_used),
                "-" if check.needed is None else str(check.needed),
                ", ".join(f"{x:.0f}" for x in check.plan.places) or "-",
            )
        )
    return SiteTable(
        title="On the wall, design loads",
        columns=(
            "use",
            "mass kg",
            "weight N",
            "pull on screws N",
            "push at foot N",
            "screw outwards N",
            "screw down N",
            "used",
            "screws needed",
            "places X mm",
        ),
        rows=tuple(rows),
    )


def _tipping(report: SiteReport) -> SiteTable:
    rows = [
        (
            check.state,
            f"{check.mass:.0f}",
            f"{check.back:.0f}",
            f"{check.holding / 1000:.0f}",
            f"{max(check.pull, check.climb) / 1000:.0f}",
            f"{check.margin:.2f}",
            f"{check.tie:.0f}",
        )
        for check in report.tipping
    ]
    return SiteTable(
        title="Tipping forwards (common practice, no source)",
        columns=("state", "mass kg", "centre mm", "holds N m", "tips N m", "margin", "tie N"),
        rows=tuple(rows),
    )


def _air(report: SiteReport) -> SiteTable:
    rows = []
    for path in report.air:
        throat = path.throat
        rows.append(
            (
                path.bay,
                "open" if throat is None else f"{path.area / 100:.0f}",
                "-" if throat is None else f"{throat.name}, {throat.area / 100:.0f} cm2",
                "-"
                if throat is None
                else f"{path.flow.likely:.1f} ({path.flow.low:.1f}-{path.flow.high:.1f})",
            )
        )
    return SiteTable(
        title="Air, 1 to 5 K warmer than the room",
        columns=("bay", "free cm2", "throat", "flow m3/h"),
        rows=tuple(rows),
    )


def site_tables(report: SiteReport) -> tuple[SiteTable, ...]:
    """The tables that have rows: shelves, wall, tipping, air."""
    tables = (_shelves(report), _hanging(report), _tipping(report), _air(report))
    return tuple(table for table in tables if table.rows)
