"""The good units in which mistakes of making are planted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

from cabinet.components.carcass import Rails, carcass
from cabinet.components.cleat import hanging_cleat
from cabinet.components.covering import pill, top_covering
from cabinet.components.doors import DoorTracks, sliding_doors
from cabinet.components.shelves import board_shelf, pin_rows
from cabinet.design import Component, Design, Unit
from cabinet.stock import birch_plywood, rubber_sheet
from tests.examples import example_unit
from tests.planted.designs import good
from tests.strategies import Recipe

Make = Callable[[], Unit]


@cache
def greenhouse() -> Unit:
    """Hung, with doors, frame shelves, a covering with holes and a cleat."""
    return example_unit("greenhouse_wall_unit")


@cache
def pantry() -> Unit:
    """Standing, with a grooved back, lipped shelves and a plinth."""
    return example_unit("pantry_cupboard")


@cache
def rack() -> Unit:
    """Open, with rails and frame shelves, on feet."""
    return example_unit("pottery_drying_rack")


@cache
def behind() -> Unit:
    """Hung on a cleat behind it, with two dividers and two doors."""
    return (
        Recipe(
            nominal=18.0,
            measured=17.3,
            bay=317.0,
            inside=231.0,
            height=613.0,
            dividers=2,
            layers=2,
            doors=2,
            cleat="behind",
            covering=2.5,
            pills=(1,),
        )
        .design()
        .resolve()
    )


@cache
def tall() -> Unit:
    """Hung on a hidden cleat of two boards of 18, with four doors."""
    return (
        Recipe(
            nominal=18.0,
            measured=17.8,
            bay=411.0,
            inside=267.0,
            height=787.0,
            dividers=1,
            layers=2,
            doors=3,
            cleat="hidden",
            covering=3.0,
            pills=(2,),
        )
        .design()
        .resolve()
    )


@cache
def open_unit() -> Unit:
    """Hung, without doors, with three bays and a shelf in one."""
    stock = birch_plywood(18, 17.6)
    box = carcass(
        width=931,
        height=523,
        depth=287,
        stock=stock,
        dividers=2,
        setback=11.0,
        back=Rails(stock=stock, top=97, bottom=83, behind=2 * 17.6),
        covering=3.0,
    )
    pins = pin_rows(box)
    shelf = board_shelf(pins.bay(2), hole=3, stock=stock, name="shelf")
    return Design(
        "open",
        (
            box.component,
            pins.component,
            shelf,
            hanging_cleat(box, stock=stock, screws=5),
            top_covering(box, rubber_sheet(3)),
            pill(box, "top", name="air", length=91, width=34, left=231, back=90),
        ),
    ).resolve()


@cache
def small_doors() -> Unit:
    """Two doors and nothing else."""
    tracks = DoorTracks(stock=birch_plywood(12, 11.7), bar=8)
    box = carcass(
        width=713,
        height=467,
        depth=263,
        stock=birch_plywood(18, 17.4),
        top_layers=2,
        base_layers=2,
        setback=tracks.depth,
        back=Rails(stock=birch_plywood(18, 17.4), top=91, bottom=83),
    )
    return Design("doors", (box.component, sliding_doors(box, tracks))).resolve()


def with_component(unit: Unit, component: Component) -> Unit:
    """The unit with one more component standing beside it, resolved by itself."""
    more = Design("more", (component,)).resolve()
    return replace(
        unit,
        parts=unit.parts + more.parts,
        joints=unit.joints + more.joints,
        hardware=unit.hardware + more.hardware,
        proofs=unit.proofs + more.proofs,
    )


GOOD: dict[str, Make] = {
    "greenhouse unit": greenhouse,
    "pantry cupboard": pantry,
    "pottery rack": rack,
    "seed store": behind,
    "glaze store": tall,
    "brush shelf": open_unit,
    "peg box": small_doors,
}

HUNG = ("greenhouse unit", "seed store", "glaze store")
SCREWED = (*HUNG, "brush shelf")
DOORS = ("greenhouse unit", "seed store", "peg box")
COVERED = SCREWED
DIVIDED = SCREWED
STANDING = ("pantry cupboard", "pottery rack", "brush shelf")
CLOSED = ("pantry cupboard", "bottle store")
ALL = tuple(GOOD)


def good_unit(name: str) -> Unit:
    """A good unit by its name, of those here or those of the other mistakes."""
    return GOOD[name]() if name in GOOD else good(name)
