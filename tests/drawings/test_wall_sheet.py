"""The wall elevation and the hanging plan: to scale, readable, with what must be told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest

from cabinet.components.cleat import CleatKind
from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.site.report import site_report
from cabinet.site.room.frame import WallPoint
from cabinet.site.room.report import RoomReport, room_report
from cabinet.site.room.room_wall import CornerReading, FaceReading, FloorReading
from cabinet.site.room.rules import room_findings
from cabinet.site.room.setting import Lead, Setting
from cabinet.site.room.things import Mirror, Neighbour, Pipe, Sash, Socket, Switch, Window
from cabinet.site.room.two_places import compare
from cabinet.site.walls import TimberStuds
from drawings.hanging_sheet import hanging_sheet
from drawings.lint import lint_sheet
from drawings.marks import Group, Ink, Line, Mark, Text
from drawings.paper import drawing_space
from drawings.sheet import Sheet
from drawings.title_block import TitleBlock
from drawings.wall_sheet import wall_sheet
from tests.cabinet.site.room.rooms import room, setting
from tests.cabinet.site.units import closed, holds, hung, standing

BLOCK = TitleBlock(
    legal_owner="The workshop",
    identification_number="T-31",
    date_of_issue="",
    sheet_number=31,
    sheet_count=31,
    title="x",
    approval_person="",
    creator="The workshop",
    document_type="x",
)
FACE = tuple(
    FaceReading(x, z, gap)
    for x, z, gap in (
        (700.0, 1420.0, 21.0),
        (1700.0, 1420.0, 24.5),
        (700.0, 1900.0, 25.0),
        (1700.0, 1900.0, 23.0),
    )
)
FULL = room(
    Window(
        name="yard window",
        left=2300.0,
        bottom=950.0,
        width=790.0,
        height=1080.0,
        sash=Sash.HINGED_LEFT,
        sill=28.0,
        sill_ends=40.0,
    ),
    Socket(name="lamp socket", x=1180.0, z=1761.0, width=146.0),
    Switch(name="light switch", x=3610.0, z=1187.0),
    Mirror(name="mirror", left=3200.0, bottom=1300.0, width=310.0, height=500.0),
    Neighbour(name="potting bench", left=420.0, bottom=0.0, width=1760.0, height=915.0),
    Pipe(
        name="water pipe",
        start=WallPoint(250.0, 0.0),
        end=WallPoint(250.0, 700.0),
        diameter=22.0,
        stands_out=40.0,
    ),
    skirting=95.0,
    floor=(FloorReading(600.0, 1016.0), FloorReading(1700.0, 1011.0)),
    face=FACE,
)
LEAD = Lead(through="air, top", socket="lamp socket", plug_depth=41.0)


def reported(unit: Unit, where: Setting) -> RoomReport:
    """With the strength under a little on the base."""
    lift = where.lift(has_table=True) if unit.is_hung else None
    site = site_report(unit, (holds(base=8.0),), where.wall, lift=lift)
    return room_report(unit, where, site)


@cache
def case(name: str) -> RoomReport:
    """Units of several sizes on several walls."""
    studs = TimberStuds(spacing=406.0, first=210.0)
    corner = (CornerReading(300.0, 4.0), CornerReading(1600.0, 0.0), CornerReading(2400.0, -6.0))
    match name:
        case "full":
            return reported(closed(), setting(FULL, 733.0, 1411.0, LEAD))
        case "studs":
            small = room(width=2213.0, build=studs, left_corner=corner)
            return reported(hung(width=613.0), setting(small, 37.0, 1463.0))
        case "long":
            sockets = (Socket(name=f"socket {i}", x=700.0 + i * 900, z=300.0) for i in range(7))
            wide = room(*sockets, width=7300.0)
            unit = hung(kind=CleatKind.BEHIND, width=1513.0)
            return reported(unit, setting(wide, 2777.0, 1533.0))
        case _:
            return reported(standing(height=1613.0), setting(room(build=studs), 1030.0, 45.0))


def groups(marks: tuple[Mark, ...], name: str) -> Iterator[Group]:
    """All groups of a name, however deep."""
    for mark in marks:
        if isinstance(mark, Group):
            if mark.name == name:
                yield mark
            yield from groups(mark.marks, name)


def words(marks: tuple[Mark, ...]) -> str:
    """Everything that is written."""
    said = []
    for mark in marks:
        if isinstance(mark, Text):
            said.append(mark.text)
        elif isinstance(mark, Group):
            said.append(words(mark.marks))
    return " ".join(said)


def sheets(report: RoomReport) -> Iterator[Sheet]:
    """Both sheets, or the one that a standing unit has."""
    yield wall_sheet(report, BLOCK)
    if report.cleat is not None:
        yield hanging_sheet(report, BLOCK)


@pytest.mark.parametrize("name", ["full", "studs", "long", "stands"])
def test_nothing_collides(name: str) -> None:
    """Every word can be read, and stays inside the frame."""
    for sheet in sheets(case(name)):
        assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()


@pytest.mark.parametrize("name", ["full", "studs", "long", "stands"])
def test_dimensions_are_true(name: str) -> None:
    """The paper length of each dimension line over the view's scale is its figure."""
    seen = 0
    for sheet in sheets(case(name)):
        for view in groups(sheet.marks, "view"):
            one, many = view.description.split(":")
            scale = float(one) / float(many)
            assert view.title in {each.title for each in sheet.views}
            for told in groups(view.marks, "dimension"):
                (line,) = (
                    m for m in told.marks if isinstance(m, Line) and m.ink is Ink.DIMENSION_LINE
                )
                (text,) = (m for m in told.marks if isinstance(m, Text))
                length = abs(line.end.x - line.start.x) + abs(line.end.y - line.start.y)
                assert length / scale == pytest.approx(float(text.text), abs=0.006)
                assert told.title
                seen += 1
    assert seen >= 8


def test_the_unit_stands_where_it_was_set() -> None:
    """Left side, underside and top on paper, from the wall's own outline, at the view's scale."""
    report = case("full")
    (view,) = groups(wall_sheet(report, BLOCK).marks, "view")
    scale = 1 / float(view.description.split(":")[1])
    wide = [m for m in view.marks if isinstance(m, Line) and m.ink is Ink.VISIBLE]
    left = min(m.start.x for m in wide)
    foot = max(m.start.y for m in wide)
    found = {
        (round((m.start.x - left) / scale, 3), round((m.end.x - left) / scale, 3))
        for m in wide
        if m.start.y == m.end.y and abs((foot - m.start.y) / scale - 1411.0) < 0.01
    }
    assert min(low for low, _ in found) == 733.0
    assert max(high for _, high in found) == 1620.0


def test_the_full_wall_is_clean() -> None:
    """So that what the sheets show is a good setting."""
    assert room_findings(case("full")) == ()


def test_what_is_told() -> None:
    """Level line, screws, things, zones, cautions; steps and lock on the plan."""
    report = case("full")
    wall, plan = (words(s.marks) for s in sheets(report))
    for word in (
        "level line",
        "wall screw 4",
        "lamp socket",
        "BS 7671",
        "licensed",
        "raised by 43",
    ):
        assert word in wall
    for word in ("Lock it", "Take out", "lifting table", "Height over the floor", "detector"):
        assert word in plan
    assert "Scribe strips" in words(hanging_sheet(case("studs"), BLOCK).marks)
    assert "tie 1" in words(wall_sheet(case("stands"), BLOCK).marks)


def test_zones_are_hatched_within_themselves() -> None:
    """No line of the hatching leaves its zones."""
    report = case("full")
    (view,) = groups(wall_sheet(report, BLOCK).marks, "view")
    scale = 1 / float(view.description.split(":")[1])
    wide = [m for m in view.marks if isinstance(m, Line) and m.ink is Ink.VISIBLE]
    left, foot = min(m.start.x for m in wide), max(m.start.y for m in wide)
    hatching = [m for m in view.marks if isinstance(m, Line) and m.ink is Ink.HATCH]
    assert len(hatching) > 50
    for line in hatching:
        x = ((line.start.x + line.end.x) / 2 - left) / scale
        z = (foot - (line.start.y + line.end.y) / 2) / scale
        assert any(
            zone.box.low.x - 0.1 <= x <= zone.box.high.x + 0.1
            and zone.box.low.z - 0.1 <= z <= zone.box.high.z + 0.1
            for zone in report.zones
        )


def test_two_places_side_by_side() -> None:
    """The earlier place's holes and the table of what changes, without a collision."""
    report = case("full")
    old = replace(report.setting, at=WallPoint(640.0, 1340.0))
    sheet = wall_sheet(report, BLOCK, compare(report.unit, old, report.setting))
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()
    said = words(sheet.marks)
    assert "Two places" in said
    assert "covered by the unit" in said


def test_without_a_cleat_there_is_no_plan() -> None:
    """An error that says so."""
    with pytest.raises(DesignError, match="no cleat"):
        hanging_sheet(case("stands"), BLOCK)


def test_a_wall_too_large_is_refused() -> None:
    """Forty metres do not fit at 1:100."""
    report = reported(hung(), setting(room(width=40_000.0), 733.0, 1411.0))
    with pytest.raises(DesignError, match="do not fit"):
        wall_sheet(report, BLOCK)


def test_more_things_flow_into_the_free_space() -> None:
    """Thirteen of them: no collision, every one in the table; far too many are refused."""

    def crowded(count: int) -> RoomReport:
        things = (Socket(name=f"socket {i}", x=420.0 + i * 171, z=300.0) for i in range(count))
        return reported(hung(), setting(room(*things, width=9000.0), 4200.0, 1411.0))

    sheet = wall_sheet(crowded(13), BLOCK)
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()
    assert "socket 12" in words(sheet.marks)
    with pytest.raises(DesignError, match="with 48 things on them"):
        wall_sheet(crowded(48), BLOCK)


def test_equal_reports_make_equal_sheets() -> None:
    """The same marks twice."""
    report = case("full")
    assert list(sheets(report)) == list(sheets(report))


def test_a_wall_that_needs_the_width_gets_it() -> None:
    """An elevation 250 wide with its dimensions has room beside a narrower column of tables."""
    wide = room(*FULL.things, width=3900.0, height=2600.0)
    sheet = wall_sheet(reported(closed(), setting(wide, 733.0, 1411.0, LEAD)), BLOCK)
    assert [view.scale for view in sheet.views] == ["1:20"]
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()
