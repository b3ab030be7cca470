"""Wall screws that miss the studs are told of with a place alone, before any load is told."""

from __future__ import annotations

import pytest

from cabinet import Design, Rails, birch_plywood, carcass, hanging_cleat
from cabinet.components.cleat import END_PLAY, SHORTER
from cabinet.findings import Severity
from cabinet.site.room import RoomWall, Setting, WallPoint
from cabinet.site.room.report import room_report
from cabinet.site.room.rules import room_findings
from cabinet.site.walls import SolidMasonry, TimberStuds, Wall

BOARD = birch_plywood(nominal=18, measured=17.7)


def told(build: Wall, places: tuple[float, ...] = ()) -> list[tuple[str, Severity]]:
    """What is found about a unit 1000 wide at x 400 on a wall of this build."""
    box = carcass(
        width=1000,
        height=600,
        depth=260,
        stock=BOARD,
        back=Rails(stock=BOARD, top=100, bottom=80, behind=2 * BOARD.measured),
    )
    cleat = hanging_cleat(box, stock=BOARD, wall_screw_places=places)
    unit = Design("Score cupboard", (box.component, cleat)).resolve()
    room = RoomWall(name="wall", width=3000, height=2500, datum=1000, build=build)
    report = room_report(unit, Setting(room=room, at=WallPoint(400, 1300)), None)
    return [(finding.rule, finding.severity) for finding in room_findings(report)]


@pytest.mark.parametrize(
    ("build", "rules"),
    [
        (TimberStuds(spacing=600, first=520), ["screw-misses"]),
        (TimberStuds(spacing=400), ["studs-not-found"]),
        (SolidMasonry(anchor_pull=1900, anchor_shear=2300), []),
    ],
    ids=["beside the studs", "studs unknown", "masonry"],
)
def test_screws_beside_the_studs_are_told_of(build: Wall, rules: list[str]) -> None:
    """Silent where a screw holds anywhere."""
    assert told(build) == [(rule, Severity.WARNING) for rule in rules]


def test_screws_in_the_studs_are_not() -> None:
    """Studs at 520 and 920 of the wall; the wall half begins at 433.2."""
    build = TimberStuds(spacing=400, first=520)
    left = 400 + BOARD.measured + END_PLAY + SHORTER / 2
    assert told(build, (520 - left, 920 - left)) == []
