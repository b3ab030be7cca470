"""Mistakes with sliding doors."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import cast

from cabinet.checks.bow import bows
from cabinet.checks.clash import clashes
from cabinet.checks.contact import fits
from cabinet.checks.doors import doors
from cabinet.checks.fingers import finger_gaps
from cabinet.checks.tolerance import stacks
from cabinet.design import Unit
from cabinet.features import Feature, Groove, Hole, Rebate
from cabinet.frame import Side
from cabinet.hardware import Rod
from cabinet.part import Part
from tests.planted.designs import WITH_DOORS
from tests.planted.edits import (
    door_groove,
    doors_of,
    feature_of,
    front_door,
    knob,
    more_hardware,
    moved_body,
    plain_shelf,
    rear_door,
    refeatured,
    resized,
    shelf_bodies,
    shifted,
    unfeatured,
    with_board,
    with_door_groove,
    with_hardware,
    with_part,
    with_travel,
)
from tests.planted.mistake import Mistake

ANY = WITH_DOORS


def _top_groove_to(unit: Unit, depth: float) -> Unit:
    return with_door_groove(unit, "top", rear_door(unit), lambda g: replace(g, depth=depth))


def _upper_rebate_to(unit: Unit, width: float) -> Unit:
    def shorter(feature: Feature) -> Feature:
        return replace(cast("Rebate", feature), width=width)

    return refeatured(unit, front_door(unit).name, "top tongue", shorter)


def _groove_moved(unit: Unit, board: str, off: float) -> Unit:
    return with_door_groove(
        unit, board, rear_door(unit), lambda g: replace(g, near=g.near.beyond(off))
    )


def _top_groove_off(unit: Unit, off: float) -> Unit:
    return _groove_moved(unit, "top", off)


def _base_groove_off(unit: Unit, off: float) -> Unit:
    return _groove_moved(unit, "base", -off)


def _wide_groove(unit: Unit, more: float) -> Unit:
    return with_door_groove(
        unit, "base", front_door(unit), lambda g: replace(g, width=g.width + more)
    )


def _tight_groove(unit: Unit, less: float) -> Unit:
    """Both walls nearer, so that upright the door still runs."""

    def narrower(groove: Groove) -> Groove:
        return replace(groove, near=groove.near.beyond(less / 2), width=groove.width - less)

    return with_door_groove(unit, "top", rear_door(unit), narrower)


def _no_groove(unit: Unit, board: float) -> Unit:
    name = ("top", "base")[int(board)]
    return unfeatured(unit, name, door_groove(unit, name, rear_door(unit)).name)


def _higher(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(front_door(unit), Side.TOP, more))


def _shorter(unit: Unit, less: float) -> Unit:
    return with_part(unit, resized(rear_door(unit), Side.TOP, -less))


def _low_sides(unit: Unit, less: float) -> Unit:
    """The opening came out higher than the doors were cut for: top and its grooves too high."""
    return moved_body(unit, ("top",), Side.TOP, less)


def _upside_down(unit: Unit, which: float) -> Unit:
    door = doors_of(unit)[int(which)]
    upper = cast("Rebate", feature_of(door, "top tongue"))
    lower = cast("Rebate", feature_of(door, "bottom tongue"))
    swapped = tuple(
        replace(f, width=lower.width)
        if f == upper
        else replace(f, width=upper.width)
        if f == lower
        else f
        for f in door.board.features
    )
    return with_part(unit, with_board(door, replace(door.board, features=swapped)))


def _high_runner(unit: Unit, up: float) -> Unit:
    """The lower groove is too shallow, so bar and door stand higher."""
    made = unit
    for door in (front_door(unit), rear_door(unit)):
        made = with_door_groove(made, "base", door, lambda g: replace(g, depth=g.depth - up))
    names = [item.name for item in unit.hardware if item.name.startswith("runner")]
    return moved_body(made, (*names, *(d.name for d in doors_of(unit))), Side.TOP, up)


def _shallow_under_bar(unit: Unit, less: float) -> Unit:
    return with_door_groove(
        unit, "base", front_door(unit), lambda g: replace(g, depth=g.depth - less)
    )


def _thick_bar(unit: Unit, more: float) -> Unit:
    bar = next(item for item in unit.hardware if item.name.startswith("runner"))
    body = cast("Rod", bar.body)
    return with_hardware(unit, bar, replace(bar, body=replace(body, diameter=8 + more)))


def _lower_rebate_less(unit: Unit, less: float) -> Unit:
    def narrower(feature: Feature) -> Feature:
        rebate = cast("Rebate", feature)
        return replace(rebate, width=rebate.width - less)

    return refeatured(unit, rear_door(unit).name, "bottom tongue", narrower)


def _short_bar(unit: Unit, less: float) -> Unit:
    bar = next(item for item in unit.hardware if item.name.startswith("runner"))
    body = cast("Rod", bar.body)
    return with_hardware(unit, bar, replace(bar, body=replace(body, length=body.length - less)))


def _stopped_groove(unit: Unit, less: float) -> Unit:
    """An upper groove that stops before the end of the slide."""
    top = unit.by_name["top"]
    door = front_door(unit)
    end = top.at(Side.LEFT, unit.by_name["right side"].box.low.x - less)
    is_end = top.placement.along is Side.RIGHT

    def stopped(groove: Groove) -> Groove:
        return replace(groove, end=end) if is_end else replace(groove, start=end)

    return with_door_groove(unit, "top", door, stopped)


def _overlap_to(unit: Unit, overlap: float) -> Unit:
    """All inner edges drawn back until neighbours lie over each other by so much."""
    made = unit
    them = doors_of(unit)
    for one, other in pairwise(them):
        over = one.box.high.x - other.box.low.x - overlap
        made = with_part(made, resized(made.by_name[one.name], Side.RIGHT, -over / 2))
        made = with_part(made, resized(made.by_name[other.name], Side.LEFT, -over / 2))
    return made


def _slit(unit: Unit, wide: float) -> Unit:
    return with_part(unit, resized(doors_of(unit)[0], Side.LEFT, -wide))


def _pull_into_the_front_door(unit: Unit, length: float) -> Unit:
    door = doors_of(unit)[1]
    pull = knob(door, Side.FRONT, (Side.RIGHT, door.box.size[0] / 2 - 10), length)
    return more_hardware(unit, pull)


def _pull_into_the_rear_door(unit: Unit, length: float) -> Unit:
    door = doors_of(unit)[0]
    return more_hardware(unit, knob(door, Side.BACK, (Side.LEFT, 61.0), length))


def _pull_into_what_is_behind(unit: Unit, length: float) -> Unit:
    door = doors_of(unit)[1]
    return more_hardware(unit, knob(door, Side.BACK, (Side.LEFT, 83.0), length))


def _pull_at_the_side(unit: Unit, gap: float) -> Unit:
    door = doors_of(unit)[0]
    # Deep within the front edges, so that the side stands beside it.
    return more_hardware(unit, knob(door, Side.FRONT, (Side.LEFT, gap + 7.0), 5.0))


def _pull_behind_the_neighbour(unit: Unit, behind: float) -> Unit:
    """The pull of the rear door set out from its hidden edge."""
    door = rear_door(unit)
    front = max(
        (d for d in doors_of(unit) if d.box.low.y < door.box.low.y - 1.0),
        key=lambda d: min(d.box.high.x, door.box.high.x) - max(d.box.low.x, door.box.low.x),
    )
    is_left = front.box.low.x < door.box.low.x
    edge = front.box.high.x if is_left else front.box.low.x
    x = edge + (15.0 - behind) * (1 if is_left else -1)

    def moved(feature: Feature) -> Feature:
        hole = cast("Hole", feature)
        centre = tuple(
            door.at(door.side(at.datum), x) if at.axis == 1 else at for at in hole.centre
        )
        return replace(hole, centre=(centre[0], centre[1]))

    return refeatured(unit, door.name, "finger pull", moved)


def _small_finger_pull(unit: Unit, diameter: float) -> Unit:
    def smaller(feature: Feature) -> Feature:
        return replace(cast("Hole", feature), diameter=diameter)

    return refeatured(unit, doors_of(unit)[0].name, "finger pull", smaller)


def _divider_forward(unit: Unit, more: float) -> Unit:
    name = next(p.name for p in unit.parts if p.role == "divider")
    return with_part(unit, resized(unit.by_name[name], Side.FRONT, more))


def _shelf_forward(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(plain_shelf(unit), Side.FRONT, more))


def _shelf_pushed_forward(unit: Unit, more: float) -> Unit:
    return moved_body(unit, shelf_bodies(unit), Side.FRONT, more)


def _tracks_nearer(unit: Unit, less: float) -> Unit:
    """The rear grooves, their bar and doors set out too near to the front ones."""
    rear = rear_door(unit)
    made = unit
    for board in ("top", "base"):
        made = with_door_groove(made, board, rear, lambda g: replace(g, near=g.near.beyond(-less)))
    names = [d.name for d in doors_of(unit) if abs(d.box.low.y - rear.box.low.y) < 1.0]
    bars = [item.name for item in unit.hardware if item.name == "runner, track 2"]
    return moved_body(made, (*names, *bars), Side.FRONT, less)


def _travel_past_the_side(unit: Unit, more: float) -> Unit:
    return with_travel(unit, doors_of(unit)[-1], more)


def _travel_past_the_neighbour(unit: Unit, more: float) -> Unit:
    return with_travel(unit, doors_of(unit)[0], more)


def _bowed(unit: Unit, bow: float) -> Unit:
    made = unit
    for door in doors_of(unit):
        stock = replace(door.board.stock, bow_per_metre=bow)
        made = with_part(made, with_board(door, replace(door.board, stock=stock)))
    return made


def _thicker_sheet(unit: Unit, more: float) -> Unit:
    """The rebates were set for the measured sheet, but a nominal one came."""
    door = front_door(unit)
    stock = replace(door.board.stock, measured=door.board.stock.measured + more)
    return with_part(unit, with_board(door, replace(door.board, stock=stock)))


def _door_sideways(unit: Unit, off: float) -> Unit:
    return with_part(unit, shifted(_outer(unit), Side.LEFT, -off))


def _outer(unit: Unit) -> Part:
    return doors_of(unit)[0]


MISTAKES = (
    Mistake(
        kind="the top groove as shallow as the bottom one",
        expected_rule="door-cannot-rise",
        check=doors,
        plant=_top_groove_to,
        sizes=(9.6, 8.3, 6.4),
        designs=ANY,
    ),
    Mistake(
        kind="the upper tongue without the lift: its shoulder meets the top",
        expected_rule="door-cannot-rise",
        check=doors,
        plant=_upper_rebate_to,
        sizes=(9.6, 8.3, 6.4),
        designs=ANY,
    ),
    Mistake(
        kind="a door cut too high",
        expected_rule="door-cannot-rise",
        check=doors,
        plant=_higher,
        sizes=(1.3, 2.7, 4.4),
        designs=ANY,
    ),
    Mistake(
        kind="a door with its tongues the wrong way up",
        expected_rule="door-cannot-rise",
        check=doors,
        plant=_upside_down,
        sizes=(0, 1),
        designs=ANY,
    ),
    Mistake(
        kind="a door cut too short",
        expected_rule="door-loose",
        check=doors,
        plant=_shorter,
        sizes=(2.2, 3.7, 6.6),
        designs=ANY,
    ),
    Mistake(
        kind="sides cut too long for the doors",
        expected_rule="door-loose",
        check=doors,
        plant=_low_sides,
        sizes=(2.2, 3.9),
        designs=ANY,
    ),
    Mistake(
        kind="a groove in the top that does not lie opposite the one in the base",
        expected_rule="grooves-not-opposite",
        check=doors,
        plant=_top_groove_off,
        sizes=(0.4, 1.0, 2.3),
        designs=ANY,
    ),
    Mistake(
        kind="a groove in the base that does not lie opposite the one in the top",
        expected_rule="grooves-not-opposite",
        check=doors,
        plant=_base_groove_off,
        sizes=(0.4, 1.0, 2.3),
        designs=ANY,
    ),
    Mistake(
        kind="a lower groove cut with too wide a cutter",
        expected_rule="fit",
        check=fits,
        plant=_wide_groove,
        sizes=(0.6, 2.0),
        designs=ANY,
    ),
    Mistake(
        kind="an upper groove too narrow for a leaning tongue",
        expected_rule="door-jams",
        check=doors,
        plant=_tight_groove,
        sizes=(0.7, 0.85, 0.97),
        designs=ANY,
    ),
    Mistake(
        kind="a groove for a door forgotten",
        expected_rule="door-no-groove",
        check=doors,
        plant=_no_groove,
        sizes=(0, 1),
        designs=ANY,
    ),
    Mistake(
        kind="a lower groove so shallow that bar and door stand too high",
        expected_rule="door-hops",
        check=doors,
        plant=_high_runner,
        sizes=(1.2, 1.8),
        designs=ANY,
    ),
    Mistake(
        kind="a lower groove shallower than its bar needs",
        expected_rule="clash",
        check=clashes,
        plant=_shallow_under_bar,
        sizes=(0.7, 2.1),
        designs=ANY,
    ),
    Mistake(
        kind="a bar thicker than its groove",
        expected_rule="clash",
        check=clashes,
        plant=_thick_bar,
        sizes=(1.0, 2.0),
        designs=ANY,
    ),
    Mistake(
        kind="a lower rebate too narrow: the shoulder drags on the base",
        expected_rule="door-drags",
        check=doors,
        plant=_lower_rebate_less,
        sizes=(0.6, 0.75, 1.6),
        designs=ANY,
    ),
    Mistake(
        kind="a lower rebate a little narrow: its clearance is within the tolerances",
        expected_rule="tolerance-chain",
        check=stacks,
        plant=_lower_rebate_less,
        sizes=(0.33, 0.45),
        designs=ANY,
    ),
    Mistake(
        kind="a bar too short for the slide",
        expected_rule="door-uncarried",
        check=doors,
        plant=_short_bar,
        sizes=(47.0, 211.0),
        designs=ANY,
    ),
    Mistake(
        kind="a groove that stops before the end of the slide",
        expected_rule="door-blocked",
        check=doors,
        plant=_stopped_groove,
        sizes=(7.0, 61.0),
        designs=("seed cupboard",),
    ),
    Mistake(
        kind="doors without an overlap",
        expected_rule="door-overlap",
        check=doors,
        plant=_overlap_to,
        sizes=(8.0, 0.0, -7.0),
        designs=ANY,
    ),
    Mistake(
        kind="a door too narrow to reach its side",
        expected_rule="door-slit",
        check=doors,
        plant=_slit,
        sizes=(2.7, 6.1, 23.0),
        designs=ANY,
    ),
    Mistake(
        kind="a door hung away from its side",
        expected_rule="door-slit",
        check=doors,
        plant=_door_sideways,
        sizes=(2.7, 7.0),
        designs=ANY,
    ),
    Mistake(
        kind="a pull that hits the neighbouring door",
        expected_rule="doors-collide",
        check=doors,
        plant=_pull_into_the_front_door,
        sizes=(3.4, 11.0, 23.0),
        designs=ANY,
    ),
    Mistake(
        kind="a pull through to the back that hits the door behind",
        expected_rule="doors-collide",
        check=doors,
        plant=_pull_into_the_rear_door,
        sizes=(3.4, 9.0),
        designs=ANY,
    ),
    Mistake(
        kind="a pull through to the back that hits a divider",
        expected_rule="door-blocked",
        check=doors,
        plant=_pull_into_what_is_behind,
        sizes=(7.0, 19.0),
        designs=ANY,
    ),
    Mistake(
        kind="a pull too near to the side",
        expected_rule="finger-trap",
        check=finger_gaps,
        plant=_pull_at_the_side,
        sizes=(9.0, 15.0, 23.5),
        designs=ANY,
    ),
    Mistake(
        kind="a finger pull set out from the edge that is hidden",
        expected_rule="pull-covered",
        check=finger_gaps,
        plant=_pull_behind_the_neighbour,
        sizes=(1.0, 9.0),
        designs=ANY,
    ),
    Mistake(
        kind="a finger pull bored too small",
        expected_rule="finger-trap",
        check=finger_gaps,
        plant=_small_finger_pull,
        sizes=(9.0, 16.0, 24.0),
        designs=ANY,
    ),
    Mistake(
        kind="a divider not set back behind the doors",
        expected_rule="door-blocked",
        check=doors,
        plant=_divider_forward,
        sizes=(5.0, 13.0, 32.0),
        designs=ANY,
    ),
    Mistake(
        kind="a shelf too deep for the doors",
        expected_rule="door-blocked",
        check=doors,
        plant=_shelf_forward,
        sizes=(5.0, 13.0),
        designs=("seed cupboard", "bottle store", "glaze cabinet"),
    ),
    Mistake(
        kind="a shelf that stands too far to the front",
        expected_rule="door-blocked",
        check=doors,
        plant=_shelf_pushed_forward,
        sizes=(5.0, 11.0),
        designs=ANY,
    ),
    Mistake(
        kind="tracks too near to each other: the doors rub",
        expected_rule="doors-collide",
        check=doors,
        plant=_tracks_nearer,
        sizes=(3.2, 4.1),
        designs=ANY,
    ),
    Mistake(
        kind="tracks a little near: the tolerances let the doors rub",
        expected_rule="tolerance-chain",
        check=stacks,
        plant=_tracks_nearer,
        sizes=(1.6, 2.3),
        designs=ANY,
    ),
    Mistake(
        kind="a slide planned past the side",
        expected_rule="door-blocked",
        check=doors,
        plant=_travel_past_the_side,
        sizes=(1.0, 37.0),
        designs=ANY,
    ),
    Mistake(
        kind="a slide planned through the other door of its track",
        expected_rule="doors-in-one-track",
        check=doors,
        plant=_travel_past_the_neighbour,
        sizes=(3.0, 211.0),
        designs=("bottle store", "glaze cabinet"),
    ),
    Mistake(
        kind="doors of a bowed sheet in straight grooves",
        expected_rule="door-binds",
        check=bows,
        plant=_bowed,
        sizes=(14.0, 23.0),
        designs=ANY,
    ),
    Mistake(
        kind="tall doors of a bowed sheet, their hollow not marked",
        expected_rule="door-hollow",
        check=bows,
        plant=_bowed,
        sizes=(3.1, 4.0),
        designs=("glaze cabinet",),
    ),
    Mistake(
        kind="doors rebated for the measured sheet, but a thicker one came",
        expected_rule="fit",
        check=fits,
        plant=_thicker_sheet,
        sizes=(0.2, 0.4),
        designs=ANY,
    ),
)
