"""Two places side by side: what moves, and what becomes of the old holes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.site.room.frame import WallPoint
from cabinet.site.room.things import Socket
from cabinet.site.room.two_places import LEAST_APART, compare, comparison_table, holes_table
from tests.cabinet.site.room.rooms import room, setting
from tests.cabinet.site.units import hung

ROOM = room(Socket(name="socket", x=2500.0, z=1130.0))


def test_old_holes() -> None:
    """Covered where the unit still hangs before them, in sight where it has gone."""
    unit, here = hung(), setting(ROOM, 733.0, 1411.0)
    right = compare(unit, here, replace(here, at=WallPoint(733.0 + 317.0, 1411.0)))
    assert right.moved == (317.0, 0.0)
    # Screws at 113, 333, 554 and 774 in the unit: the first one is left of its new side.
    assert [hole.is_covered for hole in right.old_holes] == [False, True, True, True]
    assert right.old_holes[0].said == "stays in sight: fill and paint"
    assert right.old_holes[1].said == "covered by the unit"
    for x, word in ((21.0, "21 mm from a new hole"), (0.0, "used again")):
        moved = compare(unit, here, replace(here, at=WallPoint(733.0 + x, 1411.0)))
        assert all(word in hole.said for hole in moved.old_holes)
    far = compare(unit, here, replace(here, at=WallPoint(733.0, 1411.0 + LEAST_APART)))
    assert all(h.said == "covered by the unit" for h in far.old_holes)


def test_tables() -> None:
    """Sizes, gaps and findings of both, side by side."""
    unit, here = hung(), setting(ROOM, 733.0, 1411.0)
    both = compare(unit, here, replace(here, at=WallPoint(1933.0, 1081.0)))
    rows = {row[0]: row[1:] for row in comparison_table(both).rows}
    assert rows["left side at x"] == ("733", "1933", "1200")
    assert rows["underside above the floor"] == ("1411", "1081", "-330")
    gap = 2500.0 - 43.0 - (733.0 + 887.0)
    assert rows["gap to socket"][0] == f"{gap:.0f}"
    assert rows["gap to socket"][1] == "behind it"
    assert rows["findings"][0] == "none"
    assert "traps-socket" in rows["findings"][1]
    holes = holes_table(both).rows
    assert len(holes) == 4
    assert float(holes[0][0]) == pytest.approx(733.0 + 113.1)
