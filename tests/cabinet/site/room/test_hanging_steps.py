"""The steps of hanging: heights that add up, in the order of the work, for one person alone."""

from __future__ import annotations

import json
import re

import pytest

from cabinet.components.cleat import CleatKind
from cabinet.site.report import site_report
from cabinet.site.room.hanging_steps import hanging_steps, heights_table, taken_out
from cabinet.site.room.record import hanging_record
from cabinet.site.room.report import RoomReport, room_report
from cabinet.site.room.room_wall import CornerReading, FaceReading, FloorReading
from cabinet.site.room.setting import Lead
from cabinet.site.room.tables import packing_table, screw_table, scribe_table, things_table
from cabinet.site.room.things import Socket
from tests.cabinet.site.room.rooms import MASONRY, room, setting
from tests.cabinet.site.units import closed, holds, hung, standing

FACE = tuple(
    FaceReading(x, z, gap)
    for x, z, gap in (
        (733.0, 1411.0, 20.0),
        (1620.0, 1411.0, 20.0),
        (733.0, 1888.0, 25.0),
        (1620.0, 1888.0, 25.0),
    )
)


def _report(*, people: int = 1, has_table: bool = False) -> RoomReport:
    where = setting(
        room(
            Socket(name="lamp socket", x=1033.0, z=1761.0),
            floor=(FloorReading(600.0, 1017.5), FloorReading(1700.0, 1013.0)),
            face=FACE,
            left_corner=(CornerReading(0.0, 700.0), CornerReading(2400.0, 694.0)),
        ),
        733.0,
        1411.0,
        Lead(through="air, top", socket="lamp socket", plug_depth=41.0),
    )
    unit = closed()
    lift = where.lift(people=people, has_table=has_table)
    site = site_report(unit, (holds(grate=5.0),), where.wall, lift=lift)
    return room_report(unit, where, site)


def test_the_order_of_the_work() -> None:
    """Line, cables, out with the loose, wall half, lead, lift, foot, lock, strip, back in."""
    steps = hanging_steps(_report())
    words = (
        "Mark the level line",
        "Trace cables",
        "Take out",
        "Strike the line",
        "Bore for 4 screws",
        "Pack behind",
        "Screw the wall half on",
        "Have the lead",
        "underside is",
        "Lock it",
        "Scribe strip at its left",
        "Put doors and shelves back",
    )
    places = [next(i for i, step in enumerate(steps) if word in step) for word in words]
    assert places == sorted(places)
    assert len(set(places)) == len(words)


def test_the_wall_halfs_height_by_hand() -> None:
    """Unit at 1411; wall half's edge at 613 - 2 x 17.6 - 87 + 32.2 in it; level line at 1013."""
    edge = 1411.0 + 613.0 - 35.2 - 87.0 + 32.2
    steps = " ".join(hanging_steps(_report()))
    assert f"{edge - 1013.0:.1f}".rstrip("0").rstrip(".") + " above the level line" in steps
    # Where the floor is 4.5 low, a rule standing on it reads so much more.
    row = next(row for row in heights_table(_report()).rows if row[0] == "600")
    assert float(row[2]) == pytest.approx(-4.5)
    assert float(row[3]) == pytest.approx(edge + 4.5)


def test_it_is_raised_by_the_bevel_and_a_little_more() -> None:
    """The cleat's thickness at 45 degrees and 8: 35.2 + 8 above where it hangs.

    Source: common practice, the bevel's height plus 5 to 10.
    """
    steps = " ".join(hanging_steps(_report()))
    assert f"its underside is {1411 + 35.2 + 8:g} above the floor" in steps


def test_alone_it_is_not_lifted_past_the_guidance() -> None:
    """To head height 10 kg for a man: told to get help, or to use the table.

    Source: HSE L23, figure 20.
    """
    alone = _report()
    assert alone.site is not None
    assert alone.site.lift is not None
    assert alone.site.lift.allowed == 10.0
    assert "Do not lift it alone" in " ".join(hanging_steps(alone))
    table = _report(has_table=True)
    steps = " ".join(hanging_steps(table))
    assert "Do not lift it alone" not in steps
    assert "lifting table" in steps
    out = taken_out(table)
    assert set(out) == {"left door", "right door", "grate"}


def test_packing_and_lock_in_words() -> None:
    """Five behind every screw; the lock's two screws with their places."""
    report = _report()
    steps = hanging_steps(report)
    packed = next(step for step in steps if step.startswith("Pack behind"))
    assert packed.count("5 at screw") == 4
    assert len(packing_table(report).rows) == 4
    lock = next(step for step in steps if step.startswith("Lock it"))
    assert re.search(r"2 screws 4 × 40 through the top rail", lock)


def test_every_table_and_the_record_hold_words_and_figures() -> None:
    """For the sheets and for the job file."""
    report = _report()
    for table in (
        screw_table(report),
        things_table(report),
        packing_table(report),
        scribe_table(report),
        heights_table(report),
    ):
        assert table.rows
        assert all(cell.strip() for row in table.rows for cell in row)
    record = hanging_record(report)
    text = json.dumps(record, allow_nan=False)
    assert record["at"] == [733.0, 1411.0]
    assert record["screws"][0]["into"] == "masonry"
    assert record["lift_room"]["needed"] == pytest.approx(43.2)
    assert "lamp socket" in text
    assert record["steps"] == list(hanging_steps(report))


def test_a_standing_unit_has_no_steps_of_hanging() -> None:
    """Its record holds its ties."""
    unit, where = standing(height=1613.0), setting(room(), 900.0, 45.0)
    report = room_report(unit, where, site_report(unit, (holds(shelf=5.0),), MASONRY))
    assert hanging_steps(report) == ()
    assert [s["name"] for s in hanging_record(report)["screws"]] == ["tie 1", "tie 2"]


def test_a_cleat_behind_the_unit_is_hung_likewise() -> None:
    """With a spacer at its foot; the lock goes through the rail into the wall half."""
    unit = hung(kind=CleatKind.BEHIND)
    report = room_report(unit, setting(room(), 733.0, 1411.0))
    assert any(step.startswith("Lock it") for step in hanging_steps(report))
