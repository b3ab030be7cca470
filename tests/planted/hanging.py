"""Mistakes with the hanging cleat."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from cabinet.checks.clash import clashes
from cabinet.checks.hang import hangs
from cabinet.checks.outline import outlines
from cabinet.design import Unit
from cabinet.features import Bevel, Feature
from cabinet.frame import Side
from cabinet.motion import Motion
from tests.planted.designs import HUNG, HUNG_BEHIND
from tests.planted.edits import (
    batten,
    more_parts,
    moved_body,
    refeatured,
    resized,
    shifted,
    unfeatured,
    with_board,
    with_part,
    without,
)
from tests.planted.mistake import Mistake

UNIT_HALF = "cleat, unit half"
WALL_HALF = "cleat, wall half"
BEVEL = "hanging bevel"


def _bevel_changed(unit: Unit, half: str, **changes: object) -> Unit:
    def changed(feature: Feature) -> Feature:
        return replace(cast("Bevel", feature), **changes)  # type: ignore[arg-type]

    return refeatured(unit, half, BEVEL, changed)


def _bevel_of(unit: Unit, half: str) -> Bevel:
    features = unit.by_name[half].board.features
    return next(f for f in features if isinstance(f, Bevel))


def _unit_bevel_turned(unit: Unit, land: float) -> Unit:
    """Both bevels the same way: the unit's half is sharp away from the wall."""
    sharp = _bevel_of(unit, UNIT_HALF).sharp.opposite
    return _bevel_changed(unit, UNIT_HALF, sharp=sharp, land=land)


def _wall_bevel_turned(unit: Unit, land: float) -> Unit:
    """Both bevels the same way: the wall half is sharp towards the wall."""
    sharp = _bevel_of(unit, WALL_HALF).sharp.opposite
    return _bevel_changed(unit, WALL_HALF, sharp=sharp, land=land)


def _both_turned(unit: Unit, land: float) -> Unit:
    return _unit_bevel_turned(_wall_bevel_turned(unit, land), land)


def _wall_half_upside_down(unit: Unit, land: float) -> Unit:
    bevel = _bevel_of(unit, WALL_HALF)
    return _bevel_changed(unit, WALL_HALF, edge=bevel.edge.opposite, land=land)


def _unit_half_upside_down(unit: Unit, land: float) -> Unit:
    bevel = _bevel_of(unit, UNIT_HALF)
    return _bevel_changed(unit, UNIT_HALF, edge=bevel.edge.opposite, land=land)


def _other_angle(unit: Unit, angle: float) -> Unit:
    return _bevel_changed(unit, WALL_HALF, angle=angle)


def _other_angle_above(unit: Unit, angle: float) -> Unit:
    return _bevel_changed(unit, UNIT_HALF, angle=angle)


def _no_bevel(unit: Unit, which: float) -> Unit:
    return unfeatured(unit, (UNIT_HALF, WALL_HALF)[int(which)], BEVEL)


def _sharp_edge(unit: Unit, land: float) -> Unit:
    """The unit's half is not blunted, or too little, and reaches that much further down."""
    half = unit.by_name[UNIT_HALF]
    bevel = _bevel_of(unit, UNIT_HALF)
    longer = resized(half, Side.BOTTOM, bevel.land - land)
    return _bevel_changed(with_part(unit, longer), UNIT_HALF, land=land)


def _wall_names(unit: Unit) -> tuple[str, ...]:
    return next(move.parts for move in unit.moves if move.motion is Motion.DROP)


def _wall_half_lower(unit: Unit, down: float) -> Unit:
    return moved_body(unit, _wall_names(unit), Side.BOTTOM, down)


def _wall_half_higher(unit: Unit, up: float) -> Unit:
    return moved_body(unit, _wall_names(unit), Side.TOP, up)


def _small_lift(unit: Unit, lift: float) -> Unit:
    moves = tuple(
        replace(move, high=lift) if move.motion is Motion.DROP else move for move in unit.moves
    )
    return replace(unit, moves=moves)


def _batten_below(unit: Unit, gap: float) -> Unit:
    """A stiffening batten behind the unit, where the wall half must come from."""
    half = unit.by_name[WALL_HALF].box
    low = half.low.x + 40.0, half.low.y + 1.0, half.low.z - gap - 31.0
    return more_parts(unit, batten("batten", low, (half.size[0] - 80.0, 31.0)))


def _no_spacer(unit: Unit, which: float) -> Unit:
    made = without(unit, "spacer")
    return made if which < 1 else _no_lower_rail(made)


def _no_lower_rail(unit: Unit) -> Unit:
    return without(unit, "bottom rail")


def _thin_spacer(unit: Unit, less: float) -> Unit:
    """The spacer of a thinner board than the cleat."""
    spacer = unit.by_name["spacer"]
    stock = spacer.board.stock
    each = less / spacer.board.layers
    thin = replace(spacer.board, stock=replace(stock, measured=stock.measured - each))
    return with_part(unit, shifted(with_board(spacer, thin), Side.FRONT, less))


def _deep_sides(unit: Unit, more: float) -> Unit:
    """Sides cut deeper than the cleat's plane, so that they stand off the wall."""
    return _deeper(unit, more, "left side", "right side")


def _deeper(unit: Unit, more: float, *names: str) -> Unit:
    made = unit
    for name in names:
        made = with_part(made, resized(made.by_name[name], Side.BACK, more))
    return made


def _shallow_carcass(unit: Unit, less: float) -> Unit:
    return _deeper(unit, -less, "left side", "right side", "base")


def _thin_half(unit: Unit, less: float) -> Unit:
    half = unit.by_name[WALL_HALF]
    board = half.board
    stock = replace(board.stock, measured=board.stock.measured - less)
    return with_part(unit, with_board(half, replace(board, stock=stock)))


def _long_wall_half(unit: Unit, more: float) -> Unit:
    half = resized(unit.by_name[WALL_HALF], Side.RIGHT, more)
    return with_part(unit, half)


def _long_wall_half_both_ways(unit: Unit, more: float) -> Unit:
    half = resized(resized(unit.by_name[WALL_HALF], Side.RIGHT, more), Side.LEFT, more)
    return with_part(unit, half)


MISTAKES = (
    Mistake(
        kind="both bevels the same way: the unit's half turned",
        expected_rule="bevel-wrong-way",
        check=hangs,
        plant=_unit_bevel_turned,
        sizes=(0.0, 3.0),
        designs=HUNG,
    ),
    Mistake(
        kind="both bevels the same way: the wall half turned",
        expected_rule="bevel-wrong-way",
        check=hangs,
        plant=_wall_bevel_turned,
        sizes=(0.0, 2.0),
        designs=HUNG,
    ),
    Mistake(
        kind="both bevels turned: the unit slides off the wall",
        expected_rule="bevel-wrong-way",
        check=hangs,
        plant=_both_turned,
        sizes=(0.0, 3.0),
        designs=HUNG,
    ),
    Mistake(
        kind="the wall half upside down",
        expected_rule="bevel-wrong-way",
        check=hangs,
        plant=_wall_half_upside_down,
        sizes=(0.0, 2.0),
        designs=HUNG,
    ),
    Mistake(
        kind="the unit's half upside down",
        expected_rule="bevel-wrong-way",
        check=hangs,
        plant=_unit_half_upside_down,
        sizes=(0.0, 3.0),
        designs=HUNG,
    ),
    Mistake(
        kind="the wall half ripped at another angle",
        expected_rule="bevels-differ",
        check=hangs,
        plant=_other_angle,
        sizes=(44.0, 40.0, 30.0),
        designs=HUNG,
    ),
    Mistake(
        kind="the unit's half ripped at another angle",
        expected_rule="bevels-differ",
        check=hangs,
        plant=_other_angle_above,
        sizes=(44.0, 40.0, 50.0),
        designs=HUNG,
    ),
    Mistake(
        kind="a half without its bevel",
        expected_rule="cleat-alone",
        check=hangs,
        plant=_no_bevel,
        sizes=(0, 1),
        designs=HUNG,
    ),
    Mistake(
        kind="the unit's half not blunted, so that it stands on its edge",
        expected_rule="cleat-bottoms",
        check=hangs,
        plant=_sharp_edge,
        sizes=(0.0, 0.4, 0.9),
        designs=HUNG,
    ),
    Mistake(
        kind="the wall half set too low",
        expected_rule="cleat-bears-little",
        check=hangs,
        plant=_wall_half_lower,
        sizes=(0.3, 2.0, 7.0),
        designs=HUNG,
    ),
    Mistake(
        kind="the wall half set too high",
        expected_rule="cleat-bears-little",
        check=hangs,
        plant=_wall_half_higher,
        sizes=(0.3, 2.0, 7.0),
        designs=HUNG,
    ),
    Mistake(
        kind="the wall half of thinner board",
        expected_rule="cleat-bears-little",
        check=hangs,
        plant=_thin_half,
        sizes=(0.7, 2.0),
        designs=HUNG,
    ),
    Mistake(
        kind="a lift planned too small to pass over the cleat",
        expected_rule="cleat-caught",
        check=hangs,
        plant=_small_lift,
        sizes=(3.0, 11.0),
        designs=HUNG,
    ),
    Mistake(
        kind="a batten below, where the wall half must come from",
        expected_rule="cleat-caught",
        check=hangs,
        plant=_batten_below,
        sizes=(1.0, 9.0),
        designs=HUNG,
    ),
    Mistake(
        kind="the spacer forgotten",
        expected_rule="not-plumb",
        check=hangs,
        plant=_no_spacer,
        sizes=(0, 1),
        designs=HUNG_BEHIND,
    ),
    Mistake(
        kind="a spacer of another thickness than the cleat",
        expected_rule="not-plumb",
        check=hangs,
        plant=_thin_spacer,
        sizes=(0.7, 2.0),
        designs=HUNG_BEHIND,
    ),
    Mistake(
        kind="sides deeper than the cleat's plane",
        expected_rule="not-plumb",
        check=hangs,
        plant=_deep_sides,
        sizes=(0.7, 2.0, 11.0),
        designs=("seed cupboard",),
    ),
    Mistake(
        kind="sides and base shallower than the cleat's plane",
        expected_rule="not-plumb",
        check=hangs,
        plant=_shallow_carcass,
        sizes=(0.7, 2.0, 11.0),
        designs=("seed cupboard",),
    ),
    Mistake(
        kind="sides that stick out behind the unit",
        expected_rule="sticks-out",
        check=outlines,
        plant=_deep_sides,
        sizes=(0.7, 11.0),
        designs=("seed cupboard",),
    ),
    Mistake(
        kind="the wall half as long as the space between the sides",
        expected_rule="cleat-tight",
        check=hangs,
        plant=_long_wall_half_both_ways,
        sizes=(12.5, 15.4),
        designs=("seed cupboard",),
    ),
    Mistake(
        kind="the wall half longer than the space between the sides",
        expected_rule="clash",
        check=clashes,
        plant=_long_wall_half,
        sizes=(17.0, 41.0),
        designs=("seed cupboard",),
    ),
)
