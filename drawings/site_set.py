"""The unit in its place: loads, hanging, the wall with all that is on it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.findings import Finding
from cabinet.record import Record, plain
from cabinet.site.checks import report_findings
from cabinet.site.lift import Lift
from cabinet.site.report import SiteReport, site_report
from cabinet.site.room.record import hanging_record
from cabinet.site.room.report import RoomReport, room_report
from cabinet.site.room.rules import room_findings
from cabinet.site.room.setting import Setting
from cabinet.site.room.two_places import TwoPlaces, compare
from cabinet.site.tables import site_tables
from cabinet.site.uses import UseCase
from cabinet.site.walls import Wall
from drawings.hanging_sheet import hanging_sheet
from drawings.loads_sheet import loads_sheets
from drawings.sheet import Sheet
from drawings.title_block import TitleBlock
from drawings.wall_sheet import wall_sheet


@dataclass(frozen=True, slots=True)
class Where:
    """Where a unit goes and what for, as the maker tells it.

    Attributes:
        uses: What it is used for.
        wall: The wall alone; None if ``setting`` tells of it or none is known.
        setting: Its place on a wall with what is there.
        moved_from: Another place to compare that one with.
        lift: How it is lifted to its place.

    Raises:
        DesignError: the wall is told twice, or there is a place to compare with but no place.
    """

    uses: tuple[UseCase, ...] = ()
    wall: Wall | None = None
    setting: Setting | None = None
    moved_from: Setting | None = None
    lift: Lift | None = None

    def __post_init__(self) -> None:
        if self.wall is not None and self.setting is not None:
            raise DesignError(
                "place: the wall is given twice, by itself and with the place; give the place only",
                part="place",
            )
        if self.moved_from is not None and self.setting is None:
            raise DesignError(
                "place: there is a place to move from but none to move to; give both",
                part="place",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """What was computed about a unit in its place.

    Attributes:
        loads: Strength, hanging, air; None if no use was given.
        room: The wall and what is on it; None if no place was given.
        places: The place compared with another; None if there is no other.
    """

    loads: SiteReport | None
    room: RoomReport | None
    places: TwoPlaces | None


def site_of(unit: Unit, where: Where) -> Site:
    """Compute a unit in its place.

    Raises:
        DesignError: loads or a place that do not belong to the unit or its wall.
    """
    wall = where.wall if where.setting is None else where.setting.wall
    loads = site_report(unit, where.uses, wall, lift=where.lift) if where.uses else None
    room = None if where.setting is None else room_report(unit, where.setting, loads)
    both = (
        None
        if where.moved_from is None or where.setting is None
        else compare(unit, where.moved_from, where.setting)
    )
    return Site(loads=loads, room=room, places=both)


def site_findings(site: Site) -> Iterator[Finding]:
    """What is wrong with a unit in its place."""
    if site.loads is not None:
        yield from report_findings(site.loads)
    if site.room is not None:
        yield from room_findings(site.room)


def site_sheets(site: Site, block: Callable[[int], TitleBlock], first: int) -> tuple[Sheet, ...]:
    """The sheets of loads, of the wall, and of hanging, as far as there are any.

    Args:
        site: What was computed.
        block: Gives the title block of a sheet by its number.
        first: Number of the first of these sheets.
    """
    sheets: list[Sheet] = []
    if site.room is not None:
        sheets.append(wall_sheet(site.room, block(first), site.places))
        if site.room.cleat is not None:
            sheets.append(hanging_sheet(site.room, block(first + len(sheets))))
    if site.loads is not None:
        sheets += loads_sheets(site.loads, block(first + len(sheets)))
    return tuple(sheets)


def site_record(site: Site) -> Record:
    """The unit in its place as plain data for job.json."""
    return {
        "loads": None if site.loads is None else _loads(site.loads),
        "hanging": None if site.room is None else hanging_record(site.room),
    }


def _loads(report: SiteReport) -> Record:
    return {
        "uses": [plain(use) for use in report.uses],
        "wall": None
        if report.wall is None
        else {"kind": type(report.wall).__name__, **plain(report.wall)},
        "tables": [plain(table) for table in site_tables(report)],
        "assumptions": list(report.assumptions),
    }
