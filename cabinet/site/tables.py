"""The report as tables of words and figures, for sheets, lists and the book."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.errors import SizeError
from cabinet.site.limits import WOODWORK
from cabinet.site.lock import lock_of
from cabinet.site.ranges import Between
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


def _between(value: Between | None) -> str:
    """A range of shares in brackets, "" for none."""
    return "" if value is None else f" ({100 * value.low:.0f}-{100 * value.high:.0f})"


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
                _share(check.screws_used) + _between(check.screws_range),
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


def _cleat(report: SiteReport) -> SiteTable:
    """Each share is of the design strength; 100 % is the limit."""
    rows = [
        (
            check.use,
            _share(check.wall_half_share),
            _share(check.wall_half_across),
            _share(check.unit_half_share),
            _share(check.rail_screws),
            _share(check.rail_glue),
            _share(check.carcass_share),
        )
        for check in report.hanging
    ]
    return SiteTable(
        title="Cleat and carcass, share of the strength",
        columns=(
            "use",
            "wall half, screw to screw",
            "wall half, above screws",
            "unit half, below rail",
            "rail screws alone",
            "rail glue alone",
            "sides on rail and top",
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
            f"{check.tips / 1000:.0f}",
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


def _fastened(report: SiteReport) -> SiteTable:
    """What keeps a unit where it is: the lock of a hung one, the ties of a standing one."""
    rows = []
    lock = None if report.cleat is None else lock_of(report.cleat)
    if lock is not None and report.hanging:
        check = report.hanging[0]
        rows.append(
            (
                "lock against a knock from below",
                f"{check.lift:.0f} N at the front edge turn it, empty",
                f"{len(lock.places)} screws {lock.screw.diameter:g} × {lock.screw.length:g} from "
                f"the {lock.rail} into the wall half",
                f"X {', '.join(f'{x:.0f}' for x in lock.places)}, Z {lock.level:.0f}",
            )
        )
    tie = report.anti_tip
    if tie is not None:
        rows.append(
            (
                "ties against tipping",
                f"{tie.pull:.0f} N each, of {tie.holds:.0f} N that one holds",
                f"{tie.count} brackets at the top",
                f"X {', '.join(f'{x:.0f}' for x in tie.places)}, Z {tie.level:.0f}",
            )
        )
    return SiteTable(
        title="Fastened", columns=("what", "against", "with", "where"), rows=tuple(rows)
    )


def _air(report: SiteReport) -> SiteTable:
    rows = []
    for path in report.air:
        throat = path.throat
        rows.append(
            (
                path.bay,
                "open" if throat is None else f"{path.area / 100:.0f}",
                "-" if throat is None else f"{throat.name}, {throat.area / 100:.0f} cm²",
                "-"
                if throat is None
                else f"{path.flow.likely:.1f} ({path.flow.low:.1f}-{path.flow.high:.1f})",
            )
        )
    return SiteTable(
        title="Air, 1 to 5 K warmer than the room",
        columns=("bay", "free cm²", "throat", "flow m³/h"),
        rows=tuple(rows),
    )


def site_tables(report: SiteReport) -> tuple[SiteTable, ...]:
    """The tables that have rows: shelves, wall, tipping, fastening, air."""
    tables = (
        _shelves(report),
        _hanging(report),
        _cleat(report),
        _tipping(report),
        _fastened(report),
        _air(report),
    )
    return tuple(table for table in tables if table.rows)
