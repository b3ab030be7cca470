"""Mistakes with the carcass: housings, sides of two hands, rails, openings."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from cabinet.board import At
from cabinet.checks.clash import clashes
from cabinet.checks.contact import contacts, fits
from cabinet.checks.left_out import left_out
from cabinet.checks.level import levels
from cabinet.checks.openings import openings
from cabinet.checks.outline import outlines
from cabinet.checks.tolerance import stacks
from cabinet.checks.wood import webs
from cabinet.design import Unit
from cabinet.features import BiscuitSlot, CutOut, Feature, Groove, Rebate
from cabinet.frame import Side
from cabinet.hardware import Rod
from cabinet.part import Part
from tests.planted.designs import ALL, HUNG
from tests.planted.edits import (
    feature_of,
    refeatured,
    resized,
    shifted,
    with_board,
    with_feature,
    with_part,
)
from tests.planted.mistake import Mistake

DIVIDED = ("seed cupboard", "bottle store", "glaze cabinet")
RAILED = ("seed cupboard", "glaze cabinet", "tool rack")


def _housing(unit: Unit, board: str = "top") -> Groove:
    return cast("Groove", feature_of(unit.by_name[board], "housing for divider"))


def _housing_changed(unit: Unit, board: str, **changes: object) -> Unit:
    old = _housing(unit, board)
    new = replace(old, **changes)  # type: ignore[arg-type]
    return with_part(unit, with_feature(unit.by_name[board], old, new))


def _housing_shallow(unit: Unit, less: float) -> Unit:
    return _housing_changed(unit, "top", depth=_housing(unit).depth - less)


def _housing_deep(unit: Unit, more: float) -> Unit:
    return _housing_changed(unit, "base", depth=_housing(unit, "base").depth + more)


def _housing_nominal(unit: Unit, more: float) -> Unit:
    """Cut to the nominal thickness and the play, not to the measured one."""
    nominal = unit.by_name["top"].board.stock.nominal
    return _housing_changed(unit, "base", width=nominal + more)


def _housing_tight(unit: Unit, play: float) -> Unit:
    measured = unit.by_name["top"].board.stock.measured
    old = _housing(unit, "base")
    near = old.near.beyond((old.width - measured - play) / 2)
    return _housing_changed(unit, "base", width=measured + play, near=near)


def _housing_off(unit: Unit, off: float) -> Unit:
    return _housing_changed(unit, "top", near=_housing(unit).near.beyond(off))


def _divider(unit: Unit) -> Part:
    return next(p for p in unit.parts if p.role == "divider")


def _divider_off(unit: Unit, off: float) -> Unit:
    return with_part(unit, shifted(_divider(unit), Side.RIGHT, off))


def _divider_long(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(_divider(unit), Side.TOP, more))


def _divider_short(unit: Unit, less: float) -> Unit:
    return with_part(unit, resized(_divider(unit), Side.TOP, -less))


def _thick_divider(unit: Unit, more: float) -> Unit:
    divider = _divider(unit)
    stock = replace(divider.board.stock, measured=divider.board.stock.measured + more)
    return with_part(unit, with_board(divider, replace(divider.board, stock=stock)))


def _two_left_sides(unit: Unit, which: float) -> Unit:
    """A side made twice the same hand: its far side is plain where the rows should be."""
    names = ("left side", "right side")
    kept, spoiled = names[int(which)], names[1 - int(which)]
    board = unit.by_name[kept].board
    return with_part(unit, with_board(unit.by_name[spoiled], board))


def _long_base(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(unit.by_name["base"], Side.FRONT, more))


def _high_side(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(unit.by_name["right side"], Side.TOP, more))


def _wide_top(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(unit.by_name["top"], Side.RIGHT, more))


def _narrow_top(unit: Unit, less: float) -> Unit:
    return with_part(unit, resized(unit.by_name["top"], Side.RIGHT, -less))


def _rebate_deep(unit: Unit, left: float) -> Unit:
    side = unit.by_name["left side"]
    rebate = next(f for f in side.board.features if isinstance(f, Rebate))
    deeper = replace(rebate, depth=side.board.thickness - left)
    return with_part(unit, with_feature(side, rebate, deeper))


def _rebate_narrow(unit: Unit, less: float) -> Unit:
    side = unit.by_name["left side"]
    rebate = next(f for f in side.board.features if isinstance(f, Rebate))
    return with_part(unit, with_feature(side, rebate, replace(rebate, width=rebate.width - less)))


def _long_rail(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(unit.by_name["top rail"], Side.RIGHT, more))


def _short_rail(unit: Unit, less: float) -> Unit:
    return with_part(unit, resized(unit.by_name["top rail"], Side.RIGHT, -less))


def _slot_off(unit: Unit, off: float) -> Unit:
    rail = unit.by_name["top rail"]
    slot = next(f for f in rail.board.features if isinstance(f, BiscuitSlot))
    moved = replace(slot, height=At(slot.height.datum, slot.height.distance + off))
    return with_part(unit, with_feature(rail, slot, moved))


def _opening_over_a_housing(unit: Unit, off: float) -> Unit:
    """A hole for a lead cut where a divider is housed, or next to it."""
    divider = _divider(unit)
    base = unit.by_name["base"]
    x = (divider.box.low.x + divider.box.high.x) / 2 + off
    opening = CutOut(
        name="hole for a lead",
        centre=(base.at(Side.LEFT, x), base.at(Side.FRONT, divider.box.low.y + 61.0)),
        length=31.0,
        width=31.0,
        corner_radius=15.5,
    )
    return with_part(unit, base.with_features(opening))


def _opening_at_the_edge(unit: Unit, left: float) -> Unit:
    base = unit.by_name["base"]
    opening = CutOut(
        name="hole for a lead",
        centre=(
            base.at(Side.LEFT, base.box.low.x + 97.0),
            base.at(Side.BACK, base.box.high.y - left - 15.5),
        ),
        length=31.0,
        width=31.0,
        corner_radius=15.5,
    )
    return with_part(unit, base.with_features(opening))


def _opening_over_a_rail(unit: Unit, over: float) -> Unit:
    """A hole for a lead in the top, cut so far over the rail or what hangs behind it."""
    top, rail = unit.by_name["top"], unit.by_name["top rail"]
    opening = CutOut(
        name="hole for a lead",
        centre=(
            top.at(Side.LEFT, top.box.low.x + 97.0),
            top.at(Side.FRONT, rail.box.low.y - 15.5 + over),
        ),
        length=31.0,
        width=31.0,
        corner_radius=15.5,
    )
    return with_part(unit, top.with_features(opening))


def _back_too_wide(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(unit.by_name["back"], Side.RIGHT, more))


def _back_groove_off(unit: Unit, off: float) -> Unit:
    def moved(feature: Feature) -> Feature:
        groove = cast("Groove", feature)
        return replace(groove, near=groove.near.beyond(off))

    return refeatured(unit, "left side", "housing for back", moved)


def _back_groove_tight(unit: Unit, play: float) -> Unit:
    back = unit.by_name["back"]

    def tight(feature: Feature) -> Feature:
        groove = cast("Groove", feature)
        width = back.board.thickness + play
        return replace(groove, width=width, near=groove.near.beyond((groove.width - width) / 2))

    return refeatured(unit, "left side", "housing for back", tight)


def _part_left_out(unit: Unit, which: float) -> Unit:
    name = ("base", "right side", "top")[int(which)]
    return replace(unit, parts=tuple(p for p in unit.parts if p.name != name))


def _piece_left_out(unit: Unit, which: float) -> Unit:
    pins = [item for item in unit.hardware if isinstance(item.body, Rod)]
    gone = pins[int(which)]
    return replace(unit, hardware=tuple(item for item in unit.hardware if item != gone))


MISTAKES = (
    Mistake(
        kind="a part left out that others are joined to",
        expected_rule="left-out",
        check=left_out,
        plant=_part_left_out,
        sizes=(0, 1, 2),
        designs=ALL,
    ),
    Mistake(
        kind="a pin or a bar left out",
        expected_rule="left-out",
        check=left_out,
        plant=_piece_left_out,
        sizes=(0, 3),
        designs=ALL,
    ),
    Mistake(
        kind="a housing too shallow",
        expected_rule="clash",
        check=clashes,
        plant=_housing_shallow,
        sizes=(0.3, 1.0),
        designs=DIVIDED,
    ),
    Mistake(
        kind="a housing too deep",
        expected_rule="fit",
        check=fits,
        plant=_housing_deep,
        sizes=(0.3, 1.0),
        designs=DIVIDED,
    ),
    Mistake(
        kind="a housing cut to the nominal thickness",
        expected_rule="fit",
        check=fits,
        plant=_housing_nominal,
        sizes=(0.0, 0.2),
        designs=DIVIDED,
    ),
    Mistake(
        kind="a housing that the thickest place of its board does not enter",
        expected_rule="does-not-close",
        check=stacks,
        plant=_housing_tight,
        sizes=(0.05, 0.0, -0.2),
        designs=DIVIDED,
    ),
    Mistake(
        kind="a housing not opposite the other one",
        expected_rule="fit",
        check=fits,
        plant=_housing_off,
        sizes=(0.05, 1.0),
        designs=DIVIDED,
    ),
    Mistake(
        kind="a divider set out of its housings",
        expected_rule="fit",
        check=fits,
        plant=_divider_off,
        sizes=(0.05, 1.0),
        designs=DIVIDED,
    ),
    Mistake(
        kind="a divider too long",
        expected_rule="clash",
        check=clashes,
        plant=_divider_long,
        sizes=(0.3, 1.0),
        designs=DIVIDED,
    ),
    Mistake(
        kind="a divider too short",
        expected_rule="fit",
        check=fits,
        plant=_divider_short,
        sizes=(0.3, 1.0),
        designs=DIVIDED,
    ),
    Mistake(
        kind="nominal used for measured: the divider's board is thicker than its housings",
        expected_rule="clash",
        check=clashes,
        plant=_thick_divider,
        sizes=(0.3, 0.7),
        designs=DIVIDED,
    ),
    Mistake(
        kind="mirrored side made twice the same hand",
        expected_rule="rows-not-level",
        check=levels,
        plant=_two_left_sides,
        sizes=(0, 1),
        designs=ALL,
    ),
    Mistake(
        kind="a base that sticks out at the front",
        expected_rule="sticks-out",
        check=outlines,
        plant=_long_base,
        sizes=(0.3, 4.0),
        designs=ALL,
    ),
    Mistake(
        kind="a side left higher than its flush trim takes off",
        expected_rule="sticks-out",
        check=outlines,
        plant=_high_side,
        sizes=(4.0, 9.0),
        designs=ALL,
    ),
    Mistake(
        kind="a top too wide for its rebates",
        expected_rule="clash",
        check=clashes,
        plant=_wide_top,
        sizes=(0.3, 2.0),
        designs=ALL,
    ),
    Mistake(
        kind="a top too narrow for its rebates",
        expected_rule="fit",
        check=fits,
        plant=_narrow_top,
        sizes=(0.3, 2.0),
        designs=ALL,
    ),
    Mistake(
        kind="a rebate that leaves next to nothing of the side",
        expected_rule="thin-web",
        check=webs,
        plant=_rebate_deep,
        sizes=(1.2, 2.6),
        designs=ALL,
    ),
    Mistake(
        kind="a rebate narrower than the board that it takes",
        expected_rule="clash",
        check=clashes,
        plant=_rebate_narrow,
        sizes=(0.2, 1.0),
        designs=ALL,
    ),
    Mistake(
        kind="a rail too long for the sides",
        expected_rule="clash",
        check=clashes,
        plant=_long_rail,
        sizes=(0.2, 1.0),
        designs=RAILED,
    ),
    Mistake(
        kind="a rail that does not reach the side",
        expected_rule="no-contact",
        check=contacts,
        plant=_short_rail,
        sizes=(0.2, 1.0),
        designs=RAILED,
    ),
    Mistake(
        kind="a biscuit slot cut from the other face",
        expected_rule="clash",
        check=clashes,
        plant=_slot_off,
        sizes=(-0.5, -2.0),
        designs=RAILED,
    ),
    Mistake(
        kind="an opening over a housing",
        expected_rule="thin-web",
        check=webs,
        plant=_opening_over_a_housing,
        sizes=(0.0, 11.0, 26.0),
        designs=DIVIDED,
    ),
    Mistake(
        kind="an opening too near to the edge",
        expected_rule="thin-web",
        check=webs,
        plant=_opening_at_the_edge,
        sizes=(0.6, 2.7),
        designs=ALL,
    ),
    Mistake(
        kind="an opening over a rail",
        expected_rule="opening-blocked",
        check=openings,
        plant=_opening_over_a_rail,
        sizes=(0.4, 3.0, 14.0),
        designs=HUNG,
    ),
    Mistake(
        kind="a back too wide for its grooves",
        expected_rule="clash",
        check=clashes,
        plant=_back_too_wide,
        sizes=(0.7, 2.0),
        designs=("bottle store",),
    ),
    Mistake(
        kind="a groove for the back not in line with the others",
        expected_rule="fit",
        check=fits,
        plant=_back_groove_off,
        sizes=(0.3, 1.0),
        designs=("bottle store",),
    ),
    Mistake(
        kind="a groove for the back that its thickest place does not enter",
        expected_rule="does-not-close",
        check=stacks,
        plant=_back_groove_tight,
        sizes=(0.04, -0.1),
        designs=("bottle store",),
    ),
)
