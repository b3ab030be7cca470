"""The carcass: sizes that follow, and bays."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from cabinet.components.carcass import BackPanel, carcass
from cabinet.design import Design, Unit, around
from cabinet.features import Groove, Notch, Rebate
from cabinet.frame import Side
from cabinet.stock import birch_plywood
from tests.strategies import BIRCH, Recipe, recipes, small


def resolved(**numbers: float) -> Unit:
    """A small carcass by itself."""
    return Design("carcass", (small(**numbers).component,)).resolve()  # type: ignore[arg-type]


def test_overall_sizes_are_those_asked_for() -> None:
    """Over the finished parts, the covering's place left free above."""
    box = around(part.box for part in resolved(covering=2.5, dividers=2).parts)
    assert tuple(box.low) == pytest.approx((0, 0, 0))
    assert tuple(box.high) == pytest.approx((813, 303, 587 - 2.5))


def test_clear_sizes_follow_from_the_measured_board() -> None:
    """813 - 2 * 17.6 between the sides; a doubled top and base take 4 * 17.6 of the height."""
    inner = small(layers=2).inner
    assert inner.size == pytest.approx((813 - 2 * 17.6, 303, 587 - 4 * 17.6))


def test_sides_are_proud_until_trimmed() -> None:
    """A millimetre at each end, which the finished length has not."""
    side = resolved().by_name["left side"]
    assert side.board.length == pytest.approx(589)
    assert side.board.finished_size.length == pytest.approx(587)
    assert [trim.proud for trim in side.board.trims] == [1.0, 1.0]


def test_a_housing_takes_a_third_and_never_more_than_half() -> None:
    """Housing depth about 1/4 to 1/3 of the board, never more than 1/2.

    Source: a woodworkers' forum on plywood carcasses, "dado depth" (18 mm: 6 normal, 9 limit).
    """
    for measured in (14.4, 17.6, 20.3):
        stock = birch_plywood({14.4: 15, 17.6: 18, 20.3: 21}[measured], measured)
        box = carcass(width=813, height=587, depth=303, stock=stock, dividers=1)
        unit = Design("c", (box.component,)).resolve()
        cuts = [
            feature.depth
            for part in unit.parts
            for feature in part.board.features
            if isinstance(feature, Groove | Rebate)
        ]
        assert cuts
        assert all(measured / 4 <= depth <= measured / 2 for depth in cuts)


def test_the_base_lies_opposite_the_top() -> None:
    """Grooves for the divider lie at the same place of the unit in both."""
    unit = resolved(dividers=1)
    places = []
    for name in ("top", "base"):
        part = unit.by_name[name]
        (groove,) = (f for f in part.board.features if isinstance(f, Groove))
        x = groove.near.coordinate(part.board.size)
        side = part.side(groove.near.datum)
        # From the same side of the unit, the same distance.
        places.append((side, groove.near.distance, groove.width))
        assert x >= 0
    assert places[0] == places[1]
    assert places[0][0] is Side.LEFT


@pytest.mark.parametrize("dividers", range(5))
def test_bays_share_the_clear_width(dividers: int) -> None:
    """Bays equal to two tenths; with the boards between them they make the inner width."""
    box = small(dividers=dividers)
    widths = [bay.space.size[0] for bay in box.bays]
    assert len(widths) == dividers + 1
    # Dividers are set out to tenths, from both sides alike.
    assert max(widths) - min(widths) < 0.2 + 1e-9
    assert [bay.least_width for bay in box.bays] == [min(widths)] * len(widths)
    if dividers % 2 == 0:
        assert widths == pytest.approx(widths[::-1])
    assert sum(widths) + dividers * 17.6 == pytest.approx(box.inner.size[0])
    assert box.bays[0].left == "left side"
    assert box.bays[-1].right == "right side"
    assert [bay.right for bay in box.bays[:-1]] == [bay.left for bay in box.bays[1:]]
    assert [box.bay(n + 1) for n in range(dividers + 1)] == list(box.bays)


def test_dividers_are_notched_for_the_rails() -> None:
    """As deep as the rail is thick, as long as the rail is high; the divider ends flush."""
    unit = resolved(dividers=1)
    divider = unit.by_name["divider"]
    notches = [f for f in divider.board.features if isinstance(f, Notch)]
    # Rails of 100 and 85, and the housed ends of the divider (6 at each end).
    assert sorted(notch.length for notch in notches) == pytest.approx([85 + 6, 100 + 6])
    assert [notch.depth for notch in notches] == pytest.approx([17.6] * 2)


def test_panel_in_a_rebate_or_a_groove() -> None:
    """At the back edge a rebate, further in a groove, as wide as the panel and its play."""
    sheet = birch_plywood(6.5, 6.3)
    for inset, kind in ((0.0, Rebate), (11.5, Groove)):
        box = carcass(
            width=813, height=587, depth=303, stock=BIRCH, back=BackPanel(stock=sheet, inset=inset)
        )
        unit = Design("c", (box.component,)).resolve()
        cuts = [
            f
            for f in unit.by_name["top"].board.features
            if isinstance(f, Groove | Rebate) and f.takes == "back"
        ]
        assert [type(cut) for cut in cuts] == [kind]
        assert cuts[0].width == pytest.approx(6.3 + (0.2 + 0.2 if inset else 0.0))
        assert cuts[0].depth == pytest.approx(6.0)
        back = unit.by_name["back"]
        # Let in by 6 all round, half a millimetre short.
        assert back.board.width == pytest.approx(813 - 2 * 17.6 + 2 * 5.5)
        assert back.board.length == pytest.approx(587 - 2 * 17.6 + 2 * 5.5)


@settings(max_examples=25)
@given(recipe=recipes())
def test_measured_again_the_unit_is_as_large(recipe: Recipe) -> None:
    """17.4, then 17.7: the outside stays, the clear width shrinks, grooves follow."""
    thicker = replace(recipe, measured=recipe.measured + 0.3)
    one, other = recipe.box(), thicker.box()
    before, after = recipe.design().resolve(), thicker.design().resolve()
    names = [part.name for part in before.parts if part.group in {"carcass", "covering"}]
    boxes = [around(unit.by_name[name].box for name in names) for unit in (before, after)]
    assert boxes[0].size == pytest.approx(boxes[1].size, abs=1e-6)
    assert boxes[0].size == pytest.approx((recipe.width, recipe.depth, recipe.height))
    assert one.inner.size[0] - other.inner.size[0] == pytest.approx(2 * 0.3)
    assert one.inner.size[2] - other.inner.size[2] == pytest.approx(2 * recipe.layers * 0.3)
    for part in before.parts:
        again = after.by_name[part.name]
        for feature, same in zip(part.board.features, again.board.features, strict=True):
            if isinstance(feature, Groove) and feature.takes == "divider":
                assert isinstance(same, Groove)
                assert same.width - feature.width == pytest.approx(0.3)
            if isinstance(feature, Groove) and feature.takes in {"back", "tongue of door"}:
                assert isinstance(same, Groove)
                assert feature.width == pytest.approx(same.width)
                assert feature.depth == pytest.approx(same.depth)
