"""What is seen of a unit, held against lines of sight: rays from a face to who stands before it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from cabinet import (
    BackPanel,
    Design,
    DoorTracks,
    Rails,
    birch_plywood,
    board_shelf,
    carcass,
    pin_rows,
    rubber_sheet,
    sliding_doors,
    top_covering,
)
from cabinet.board import Surface
from cabinet.components.carcass import Carcass
from cabinet.components.stand import plinth
from cabinet.design import Component, Unit
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.joint import Track
from cabinet.part import Part, board_part
from cabinet.seen import closed_spaces, past_the_doors
from tests.examples import example_unit

BIRCH = birch_plywood(nominal=18, measured=17.7)
TRACKS = DoorTracks(stock=birch_plywood(nominal=12, measured=11.9), bar=8)


def unit_of(*, has_doors: bool, dividers: int = 1, count: int = 2, setback: float = 60.0) -> Unit:
    """One carcass of unround sizes with a shelf, with doors or without."""
    box = carcass(
        width=1013,
        height=587,
        depth=331,
        stock=BIRCH,
        top_layers=2,
        base_layers=2,
        dividers=dividers,
        setback=setback,
        back=Rails(stock=BIRCH, top=100, bottom=80),
    )
    pins = pin_rows(box)
    shelf = board_shelf(pins.bay(1), hole=5, stock=BIRCH, name="shelf")
    doors = (sliding_doors(box, TRACKS, count=count),) if has_doors else ()
    return Design("rack", (box.component, pins.component, shelf, *doors)).resolve()


def names(part: Part, surfaces: tuple[Surface, ...]) -> set[str]:
    return {part.side(surface).value for surface in surfaces}


def shows(unit: Unit, part: str) -> set[str]:
    return names(unit.by_name[part], unit.by_name[part].board.shows)


def behind(unit: Unit, part: str) -> set[str]:
    return names(unit.by_name[part], unit.by_name[part].board.behind_doors)


@pytest.mark.parametrize(
    ("part", "inside", "outside"),
    [
        ("left side", {"right"}, {"left", "front", "top", "bottom"}),
        ("right side", {"left"}, {"right", "front", "top", "bottom"}),
        ("top", {"bottom"}, {"top", "front"}),
        ("base", {"top"}, {"bottom", "front"}),
        ("divider", {"left", "right", "front"}, set()),
        ("top rail", {"front", "bottom"}, set()),
        ("shelf", {"top", "bottom", "front"}, set()),
    ],
)
def test_doors_hide_the_inside_and_without_them_it_shows(
    part: str, inside: set[str], outside: set[str]
) -> None:
    closed, without = unit_of(has_doors=True), unit_of(has_doors=False)
    assert (shows(closed, part), behind(closed, part)) == (outside, inside)
    assert (shows(without, part), behind(without, part)) == (outside | inside, set())


def test_doors_themselves_show() -> None:
    unit = unit_of(has_doors=True)
    assert shows(unit, "left door") == {"front", "back", "left", "right"}
    assert behind(unit, "left door") == set()


def test_a_door_hides_no_more_than_it_covers() -> None:
    unit = unit_of(has_doors=True)
    # The right door is gone: what it covered shows again, what the left one covers does not.
    joints = tuple(j for j in unit.joints if not (isinstance(j, Track) and j.door == "right door"))
    box = _carcass()
    whole = Component(
        parts=tuple(p for p in _plain(box) if p.name != "right door"), joints=joints, moves=()
    )
    half = Design("half", (whole,)).resolve()
    assert "right" in behind(half, "left side")
    assert "left" in shows(half, "right side")
    assert "bottom" in shows(half, "top")


def _carcass() -> Carcass:
    return carcass(
        width=1013,
        height=587,
        depth=331,
        stock=BIRCH,
        top_layers=2,
        base_layers=2,
        dividers=1,
        setback=60,
        back=Rails(stock=BIRCH, top=100, bottom=80),
    )


def _plain(box: Carcass) -> tuple[Part, ...]:
    pins = pin_rows(box)
    shelf = board_shelf(pins.bay(1), hole=5, stock=BIRCH, name="shelf")
    return (*box.component.parts, *shelf.parts, *sliding_doors(box, TRACKS).parts)


def test_a_covering_hides_what_is_below_it() -> None:
    mat = rubber_sheet(3)
    plain = carcass(width=713, height=587, depth=331, stock=BIRCH)
    covered = carcass(width=713, height=587, depth=331, stock=BIRCH, covering=mat.measured)
    without = Design("plain", (plain.component,)).resolve()
    unit = Design("covered", (covered.component, top_covering(covered, mat))).resolve()
    assert "top" in shows(without, "top")
    assert "top" not in shows(unit, "top") | behind(unit, "top")
    assert shows(unit, "covering") == {"top", "front", "left", "right"}
    for side in ("left side", "right side"):
        assert "top" not in shows(unit, side)


def test_what_is_only_partly_covered_shows() -> None:
    box = carcass(width=713, height=587, depth=331, stock=BIRCH)
    block = board_part(
        name="block",
        role="block",
        stock=BIRCH,
        box_low=UnitPoint(100, 100, 587),
        length=(Side.RIGHT, 300),
        width=(Side.BACK, 120),
        fence=Side.FRONT,
        stop=Side.LEFT,
    )
    unit = Design("block on top", (box.component, Component(parts=(block,)))).resolve()
    assert "top" in shows(unit, "top")


def test_only_what_lies_before_the_rearmost_door_is_seen_past_the_doors() -> None:
    unit = unit_of(has_doors=True)
    closed = closed_spaces(unit.by_name, unit.joints)
    (one,) = closed
    # Lip 10, the front groove, and the rear door's face: a pitch of 11.9 + 3 further back.
    rear = max(unit.by_name[name].box.low.y for name in ("left door", "right door"))
    assert one.behind == rear
    front = min(unit.by_name[name].box.low.y for name in ("left door", "right door"))
    assert rear - front == pytest.approx(14.9)
    ((surface, box),) = past_the_doors(unit.by_name["left side"], closed)
    assert unit.by_name["left side"].side(surface) is Side.RIGHT
    assert (box.low.y, box.high.y) == (0.0, rear)
    assert list(past_the_doors(unit.by_name["divider"], closed)) == []
    assert list(past_the_doors(unit.by_name["shelf"], closed)) == []
    without = unit_of(has_doors=False)
    assert closed_spaces(without.by_name, without.joints) == ()


Floats = NDArray[np.float64]


def _rays(count: int = 400) -> Floats:
    """Directions to eyes before the unit, from below its foot to above its head."""
    luck = np.random.default_rng(11)
    across = np.radians(luck.uniform(-75, 75, count))
    up = np.radians(luck.uniform(-60, 60, count))
    return np.stack([np.sin(across) * np.cos(up), -np.cos(across) * np.cos(up), np.sin(up)], axis=1)


def _share_seen(point: Floats, normal: Floats, boxes: Floats) -> float:
    """Share of the rays that leave the face which meet nothing."""
    rays = _rays()
    rays = rays[rays @ normal > 0.02]
    if not len(rays):
        return math.nan
    with np.errstate(divide="ignore", invalid="ignore"):
        a = (boxes[None, :, 0] - point) / rays[:, None]
        b = (boxes[None, :, 1] - point) / rays[:, None]
    near, far = np.minimum(a, b).max(axis=2), np.maximum(a, b).min(axis=2)
    hits = (near < far) & (far > 0)
    return 1.0 - float(hits.any(axis=1).mean())


def _boxes(unit: Unit) -> Floats:
    return np.array([[[*p.box.low], [*p.box.high]] for p in unit.parts], dtype=np.float64)


def _points(box: UnitBox, side: Side) -> list[Floats]:
    low, high = np.array([*box.low]), np.array([*box.high])
    found = []
    for s in (0.13, 0.37, 0.61, 0.89):
        for t in (0.21, 0.47, 0.83):
            shares = [s, t]
            at = np.array(
                [
                    box.face(side) + side.sign * 0.01
                    if axis == side.axis
                    else low[axis] + shares.pop() * (high[axis] - low[axis])
                    for axis in range(3)
                ]
            )
            found.append(at)
    return found


@pytest.mark.parametrize("count", [2, 3])
@pytest.mark.parametrize("dividers", [0, 1, 2])
def test_no_line_of_sight_reaches_what_is_called_behind_doors(dividers: int, count: int) -> None:
    unit = unit_of(has_doors=True, dividers=dividers, count=count)
    boxes = _boxes(unit)
    (closed,) = closed_spaces(unit.by_name, unit.joints)
    judged = 0
    for part in unit.parts:
        for surface in part.board.behind_doors:
            side = part.side(surface)
            for point in _points(part.box, side):
                if point[1] < closed.behind:
                    continue
                seen = _share_seen(point, np.array(side.vector), boxes)
                if not math.isnan(seen):
                    judged += 1
                    # A ray in fifty may slip through the 0.8 mm below a door or between two.
                    assert seen < 0.02, (part.name, side, point)
    assert judged > 60


@pytest.mark.parametrize("name", ["pantry_cupboard", "pottery_drying_rack"])
def test_the_inside_of_an_open_unit_is_in_sight(name: str) -> None:
    unit = example_unit(name)
    boxes = _boxes(unit)
    assert not any(part.board.behind_doors for part in unit.parts)
    for side_name, inner in (("left side", Side.RIGHT), ("right side", Side.LEFT)):
        part = unit.by_name[side_name]
        assert part.surface(inner) in part.board.shows
        seen = [_share_seen(at, np.array(inner.vector), boxes) for at in _points(part.box, inner)]
        assert sum(share > 0.05 for share in seen) > len(seen) / 2


def test_a_panel_at_the_back_is_behind_the_doors_too() -> None:
    def made(*, has_doors: bool) -> Design:
        box = carcass(
            width=913,
            height=587,
            depth=331,
            stock=BIRCH,
            top_layers=2,
            base_layers=2,
            setback=60,
            back=BackPanel(stock=birch_plywood(nominal=6.5, measured=6.3), inset=12),
        )
        doors = (sliding_doors(box, TRACKS),) if has_doors else ()
        return Design("cupboard", (box.component, *doors, plinth(box, stock=BIRCH, height=90)))

    assert behind(made(has_doors=True).resolve(), "back") == {"front"}
    assert shows(made(has_doors=False).resolve(), "back") == {"front"}
