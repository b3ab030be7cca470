"""A unit on its cleat: what is read from the model, and what the numbers do."""

from __future__ import annotations

import math

import pytest

from cabinet.components.cleat import CleatKind
from cabinet.design import Unit
from cabinet.site.carriers import carriers
from cabinet.site.cleat_model import Cleat, cleat_of
from cabinet.site.hanging import HangingCheck, check_hanging
from cabinet.site.loaded import design_weight, loaded_mass
from cabinet.site.plywood import birch_laminate
from cabinet.site.uses import UseCase
from cabinet.site.wall_fixings import used
from cabinet.site.walls import SolidMasonry, TimberStuds, Wall
from cabinet.site.weight import unit_mass
from tests.cabinet.site.units import holds, hung

MASONRY = SolidMasonry(anchor_pull=1300.0, anchor_shear=1700.0)
G = 9.80665


def cleat(unit: Unit) -> Cleat:
    """The unit's cleat, which it has."""
    found = cleat_of(unit)
    assert found is not None
    return found


def check(unit: Unit, wall: Wall = MASONRY, use: UseCase | None = None) -> HangingCheck:
    """A unit under 20 kg, or another use."""
    found = check_hanging(unit, use or holds(shelf=20.0), wall, carriers(unit))
    assert found is not None
    return found


def test_the_cleat_is_read_from_the_model() -> None:
    """Thickness 35.2, blunted by 3: the contact is 32.2 high, its middle 19.1 from the wall."""
    found = cleat(hung())
    assert found.wall == pytest.approx(287.0)
    assert found.angle == 45.0
    assert found.engaged == pytest.approx(32.2)
    assert found.bevel_out == pytest.approx((3 + 35.2) / 2)
    assert found.bevel_level == pytest.approx(613 - 17.6 - 87 + 16.1)
    assert found.foot == 0.0
    assert found.full_height == pytest.approx(90 - 35.2)
    behind = cleat(hung(kind=CleatKind.BEHIND))
    assert behind.wall == pytest.approx(287 + 35.2)
    assert behind.foot == pytest.approx(17.6 + 30)


def test_weight_and_tilt_by_hand() -> None:
    """Design weight 1.35 own + 1.5 x 20 kg; the foot's push by moments about the bevel."""
    unit = hung()
    known = carriers(unit)
    use = holds(shelf=20.0)
    own = unit_mass(unit)
    weight, y = design_weight(unit, use, known)
    assert weight == pytest.approx((1.35 * own.kilograms + 1.5 * 20) * G)
    assert loaded_mass(unit, use, known).kilograms == pytest.approx(own.kilograms + 20)
    found = check(unit)
    arm = (287 - y) - 19.1
    height = 613 - 17.6 - 87 + 16.1
    assert found.forces.tilt == pytest.approx(weight * arm / height, rel=1e-4)
    assert found.forces.out.high == pytest.approx(weight)


def test_the_lever_ends_at_the_spacer() -> None:
    """Behind the unit the foot is the spacer's middle, 47.6 up, and the wall 35.2 further back."""
    unit = hung(kind=CleatKind.BEHIND)
    weight, y = design_weight(unit, holds(shelf=20.0), carriers(unit))
    arm = (287 + 35.2 - y) - 19.1
    height = (613 - 17.6 - 87 + 16.1) - 47.6
    assert check(unit).forces.tilt == pytest.approx(weight * arm / height, rel=1e-4)


def test_bending_of_the_wall_half_above_its_screws_by_hand() -> None:
    """A strip as wide as the head and twice the rise, 35.2 thick, across the grain."""
    found = check(hung())
    on = found.forces
    rise = (90.0 - 35.2) / 2 + 35.2 - 32.2 / 2
    moment = (on.out.high * rise + on.down * abs(19.1 - 17.6)) / 4
    stress = moment / ((12.0 + 2 * rise) * 35.2**2 / 6)
    strength = 0.7 * birch_laminate(13, layers=2).strength_across / 1.2
    assert found.wall_half_across == pytest.approx(stress / strength, rel=1e-6)


def test_more_screws_are_used_less_and_the_number_needed_is_the_least() -> None:
    """One fewer would not hold."""
    two, four = check(hung(wall_screws=2)), check(hung(wall_screws=4))
    assert two.screws_used > four.screws_used
    assert two.needed == four.needed
    assert four.fixing is not None
    assert four.needed is not None
    assert used(four.forces, four.fixing, four.needed) <= 1
    assert four.needed == 2 or used(four.forces, four.fixing, four.needed - 1) > 1


def test_screws_count_only_where_they_hit_a_stud() -> None:
    """Within 7 mm of a 38 mm stud's middle: half of it less two diameters."""
    unit = hung()
    xs = sorted(item.at.x for item in cleat(unit).screws)
    pitch = xs[1] - xs[0]
    right = check(unit, TimberStuds(spacing=pitch, first=xs[0]))
    assert right.plan.missing == ()
    assert right.plan.places == pytest.approx(tuple(xs))
    near = check(unit, TimberStuds(spacing=pitch, first=xs[0] + 6.9))
    assert near.plan.missing == ()
    off = check(unit, TimberStuds(spacing=pitch, first=xs[0] + 7.1))
    assert off.plan.holding == ()
    assert math.isinf(off.screws_used)
    assert len(off.plan.places) == 4


def test_a_stud_takes_one_screw_however_high_the_cleat() -> None:
    """A cleat has one line of screws; while no stud is found, those behind it for sure count."""
    unknown = check(hung(height=115.0), TimberStuds(spacing=400.0))
    assert unknown.plan.count == 1
    found = check(hung(height=115.0), TimberStuds(spacing=400.0, first=113.0))
    assert unknown.fixing is not None
    one = used(unknown.forces, unknown.fixing, 1)
    assert unknown.screws_used == pytest.approx(one)
    assert len(found.plan.holding) <= found.plan.count


def test_a_screw_that_is_too_short_holds_nothing() -> None:
    """100 long through 35.2 of cleat: 36 in the stud or 40 in masonry must be left."""
    for wall, is_enough in (
        (TimberStuds(spacing=400, first=113, board=28.7), True),
        (TimberStuds(spacing=400, first=113, board=28.9), False),
        (SolidMasonry(anchor_pull=900, anchor_shear=900, plaster=24.7), True),
        (SolidMasonry(anchor_pull=900, anchor_shear=900, plaster=24.9), False),
    ):
        found = check(hung(), wall)
        assert (found.fixing is not None) is is_enough
        assert (found.needed is not None) is is_enough


def test_rail_and_halves() -> None:
    """Nothing of the unit half hangs below its rail; glue takes less than the screws would."""
    found = check(hung())
    assert found.unit_half_share == 0.0
    assert 0 < found.rail_glue < found.rail_screws < 1
    fewer = check(hung(rail_screws=3))
    assert fewer.rail_screws == pytest.approx(4 * found.rail_screws, rel=2e-3)
    thin = check(hung(layers=1))
    assert thin.wall_half_across > 2 * found.wall_half_across


def test_the_push_that_lifts_it_off() -> None:
    """Moments of the empty unit about its bevel."""
    unit = hung()
    own = unit_mass(unit)
    by_hand = own.kilograms * G * (287 - 19.1 - own.centre.y) / (287 - 19.1)
    assert check(unit).lift == pytest.approx(by_hand)


def test_without_a_cleat_there_is_nothing_to_check() -> None:
    """The findings say so."""
    unit = hung(has_cleat=False)
    assert cleat_of(unit) is None
    assert check_hanging(unit, holds(shelf=20.0), MASONRY, carriers(unit)) is None


def test_the_use_of_the_screws_is_a_range() -> None:
    """Friction, a tenth of the weight and a fifth of the wall's strength, by hand for anchors."""
    found = check(hung())
    on, one, use = found.forces, found.fixing, found.screws_range
    assert one is not None
    assert use is not None
    count = 4
    highest = 1.1 * (on.pull.high / count**0.9 / one.pull + on.down / count / one.side) / 0.8
    lowest = 0.9 * (on.pull.low / count**0.9 / one.pull + on.down / count / one.side) / 1.2
    assert use.high == pytest.approx(highest)
    assert use.low == pytest.approx(lowest)
    assert use.low < use.likely < found.screws_used < use.high
    studs = check(hung(), TimberStuds(spacing=220.2, first=113.1)).screws_range
    assert studs is not None
    assert studs.low < studs.likely < studs.high
