"""The lock against a knock from below: where its screws go, worked out by hand."""

from __future__ import annotations

import pytest

from cabinet.components.cleat import CleatKind
from cabinet.design import Unit
from cabinet.site.cleat_model import Cleat, cleat_of
from cabinet.site.lock import BEFORE_BEVEL, FROM_EDGE, LEAST_HOLD, lock_lacks, lock_of
from tests.cabinet.site.units import hung


def cleat(unit: Unit) -> Cleat:
    """The unit's cleat, which it has."""
    found = cleat_of(unit)
    assert found is not None
    return found


def test_the_lock_by_hand() -> None:
    """Rail from 495.4 up, so its screws at 511.4; the wall half ends at 540.6.

    Behind the rail's back the bevel is 540.6 - 511.4 = 29.2 away at 45 degrees, and 3 stay: a
    screw of 17.6 + 26.2 at most, so 40 long, holds with 22.4.
    """
    lock = lock_of(cleat(hung()))
    assert lock is not None
    assert lock.level == pytest.approx(613.0 - 17.6 - 100.0 + FROM_EDGE)
    assert lock.screw.length == 40.0
    assert lock.hold == pytest.approx(22.4)
    assert lock.rail == "top rail"
    half = hung().by_name["cleat, wall half"].box
    assert all(half.low.x < x < half.high.x for x in lock.places)
    assert lock_lacks(cleat(hung())) == 0.0


@pytest.mark.parametrize("kind", list(CleatKind))
@pytest.mark.parametrize("width", [613.0, 887.0, 1613.0])
def test_its_tip_stays_before_the_bevel(kind: CleatKind, width: float) -> None:
    """And within the wall half."""
    found = cleat(hung(kind=kind, width=width))
    lock = lock_of(found)
    assert lock is not None
    to_bevel = found.wall_half.box.high.z - lock.level
    assert LEAST_HOLD <= lock.hold <= to_bevel - BEFORE_BEVEL + 1e-9
    assert lock.hold <= found.wall_half.board.thickness - BEFORE_BEVEL + 1e-9
    assert lock.level > found.wall_half.box.low.z


def test_a_low_rail_takes_none_and_what_it_lacks_is_enough() -> None:
    """At 66 it ends above; made higher by what lacks, it locks; a little less does not."""
    low = cleat(hung(rail=66.0))
    assert lock_of(low) is None
    lacks = lock_lacks(low)
    assert lacks > 0
    assert lock_of(cleat(hung(rail=66.0 + lacks + 1.0))) is not None
    assert lock_of(cleat(hung(rail=66.0 + lacks - 1.0))) is None
