"""Openings: what lies on the boards closes none of them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.checks.openings import BEFORE, openings
from cabinet.components.carcass import Rails, carcass
from cabinet.components.cleat import hanging_cleat
from cabinet.components.covering import pill, top_covering
from cabinet.design import Component, Design, Unit
from cabinet.findings import Finding, Severity
from cabinet.frame import Side, UnitPoint
from cabinet.joint import Opening
from cabinet.stock import birch_plywood, rubber_sheet
from tests.cabinet.checks.planted import block, blocks, shifted

STOCK = birch_plywood(18, 17.3)
# Cleat of two boards, then the rail: so far in from the back the space below the top is taken.
TAKEN = 3 * 17.3
WIDE = 23.0


def hung(back: float, *, covering: float = 0.0) -> Unit:
    """A unit of 713 by 431 by 287 on a hidden cleat, a pill of 97 by 23 in its top."""
    rails = Rails(stock=STOCK, top=97, bottom=83, behind=2 * 17.3)
    box = carcass(width=713, height=431, depth=287, stock=STOCK, back=rails, covering=covering)
    cover = (top_covering(box, rubber_sheet(covering)),) if covering else ()
    hole = pill(box, "top", name="air", length=97, width=WIDE, left=301, back=back)
    return Design("U", (box.component, hanging_cleat(box, stock=STOCK), hole, *cover)).resolve()


def test_an_opening_beside_the_rail_is_free_and_one_over_it_is_not() -> None:
    """A millimetre of rail below the opening is told, with its size and its place."""
    assert list(openings(hung(TAKEN + WIDE / 2))) == []
    (found,) = openings(hung(TAKEN + WIDE / 2 - 1.0))
    assert found.rule == "opening-closed"
    assert found.severity is Severity.ERROR
    assert found.parts == ("top", "top rail")
    assert found.found == pytest.approx(1.0 / WIDE)
    assert "97.0 × 1.0 mm" in found.sentence
    assert found.where is not None
    assert found.where.y == pytest.approx(287 - TAKEN + 0.5)


def test_an_opening_over_the_cleat_is_closed_whole() -> None:
    """The cleat is hidden by the top, so nobody sees it until the unit is glued."""
    (found,) = openings(hung(WIDE / 2 + 3.0))
    assert found.parts == ("top", "cleat, unit half")
    assert found.found == pytest.approx(1.0)


def on_a_top(*, through: tuple[str, ...], gap: float = 0.0) -> list[Finding]:
    """A top with an opening, a covering that lies on it, and a board below it or farther down."""
    top = block("top", (0, 0, 300), (613, 287))
    cover = block("covering", (0, 0, 317.6), (613, 287))
    below = shifted(block("below", (201, 97, 282.4), (97, 53)), Side.BOTTOM, gap)
    opening = Opening(
        name="air",
        through=through,
        centre=UnitPoint(251.0, 111.0, 0.0),
        size=(61.0, 37.0),
        corner_radius=18.5,
        told_from=(Side.LEFT, Side.FRONT),
    )
    unit = blocks(top, cover, below)
    return list(openings(replace(unit, joints=(opening,))))


def test_a_covering_that_was_left_whole_is_told() -> None:
    """It goes through the top alone; the covering above closes it."""
    found = on_a_top(through=("top",), gap=BEFORE + 1.0)
    assert [f.parts for f in found] == [("top", "covering")]
    assert on_a_top(through=("top", "covering"), gap=BEFORE + 1.0) == []


def test_what_stands_off_the_board_leaves_a_way() -> None:
    """Nearer than 10 mm it closes the opening."""
    both = ("top", "covering")
    assert on_a_top(through=both, gap=BEFORE) == []
    (found,) = on_a_top(through=both, gap=BEFORE - 1.0)
    assert found.parts == ("top", "covering", "below")
    # 61 by 37 about 251, 111: 220.5 to 281.5 and 92.5 to 129.5; the board has 201 to 298, 97 up.
    assert found.found == pytest.approx((61.0 * 32.5) / (61.0 * 37.0))


def test_a_plinth_closes_an_opening_in_the_base() -> None:
    """An opening in a base is looked at from both its faces."""
    base = block("base", (0, 0, 60), (613, 287))
    rail = block("plinth", (0, 41, 42.4), (613, 53))
    opening = Opening(
        name="air below",
        through=("base",),
        centre=UnitPoint(151.0, 71.0, 0.0),
        size=(91.0, 31.0),
        corner_radius=15.5,
        told_from=(Side.LEFT, Side.FRONT),
    )
    unit = Design("b", (Component(parts=(base, rail), joints=(opening,)),)).resolve()
    assert [f.parts for f in openings(unit)] == [("base", "plinth")]


def test_round_ends_pass_where_corners_would_not() -> None:
    """Before a pill's half round end a part may stand that its box would reach."""
    cover = block("top", (0, 0, 300), (613, 287))
    opening = Opening(
        name="air",
        through=("top",),
        centre=UnitPoint(251.0, 111.0, 0.0),
        size=(100.0, 40.0),
        corner_radius=20.0,
        told_from=(Side.LEFT, Side.FRONT),
    )
    # The middle of the right end's arc is 281, 111. The corner of the board lies 19 or 21 from it.
    for reach, count in ((19.0, 1), (21.0, 0)):
        off = reach / 2**0.5
        corner = block("block", (281 + off, 111 + off, 282.4), (400, 90))
        unit = blocks(cover, corner)
        assert len(list(openings(replace(unit, joints=(opening,))))) == count


def test_the_shortest_way_out_is_told() -> None:
    """By the box of the part that lies over the opening."""
    (found,) = openings(hung(TAKEN + WIDE / 2 - 1.0))
    assert "move the opening 1.0 mm to the front" in found.sentence
