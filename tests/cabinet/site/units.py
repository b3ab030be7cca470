"""Units for the checks on the wall and in use, in which one thing at a time can go wrong."""

from __future__ import annotations

from functools import cache

from cabinet.components.carcass import BackPanel, Carcass, Rails, carcass
from cabinet.components.cleat import CleatKind, hanging_cleat
from cabinet.components.covering import pill
from cabinet.components.doors import DoorTracks, sliding_doors
from cabinet.components.shelves import FramePanel, board_shelf, frame_shelf, pin_rows
from cabinet.components.stand import feet
from cabinet.design import Component, Design, Unit
from cabinet.site.uses import SpreadLoad, UseCase
from cabinet.stock import Stock, birch_plywood, solid_wood, steel_sheet

BIRCH = birch_plywood(nominal=18, measured=17.6)
THIN = birch_plywood(nominal=12, measured=11.9)


def holds(name: str = "stored", *, is_damp: bool = False, **kilograms: float) -> UseCase:
    """A use from masses by place; underscores stand for spaces."""
    loads = tuple(
        SpreadLoad(place=place.replace("_", " "), kilograms=mass)
        for place, mass in kilograms.items()
    )
    return UseCase(name=name, loads=loads, is_damp=is_damp)


@cache
def hung(
    *,
    width: float = 887.0,
    cleat: Stock = BIRCH,
    layers: int = 2,
    height: float = 90.0,
    kind: CleatKind = CleatKind.HIDDEN,
    wall_screws: int = 4,
    rail_screws: int = 6,
    rail: float = 100.0,
    places: tuple[float, ...] = (),
    has_cleat: bool = True,
) -> Unit:
    """An open hung unit 887 x 613 x 287 with one shelf."""
    thick = cleat.measured * layers
    is_hidden = kind is CleatKind.HIDDEN
    box = carcass(
        width=width,
        height=613,
        depth=287,
        stock=BIRCH,
        back=Rails(stock=BIRCH, top=rail, bottom=80, behind=thick if is_hidden else 0.0),
    )
    pins = pin_rows(box)
    parts = [box.component, pins.component]
    parts.append(board_shelf(pins.bay(1), hole=6, stock=BIRCH, name="shelf"))
    if has_cleat:
        parts.append(
            hanging_cleat(
                box,
                stock=cleat,
                layers=layers,
                height=height,
                kind=kind,
                screws=rail_screws,
                wall_screws=wall_screws,
                wall_screw_places=places,
            )
        )
    return Design("Seed shelf", tuple(parts)).resolve()


@cache
def standing(
    *,
    width: float = 887.0,
    shelf: Stock = BIRCH,
    depth: float = 372.0,
    height: float = 713.0,
    is_lipped: bool = False,
) -> Unit:
    """A standing unit with a grooved back, feet and one shelf."""
    box = carcass(
        width=width,
        height=height,
        depth=depth,
        stock=BIRCH,
        back=BackPanel(stock=birch_plywood(nominal=6.5, measured=6.3), inset=12),
    )
    pins = pin_rows(box)
    foot = solid_wood("oak", measured=45, density_kg_m3=700)
    ash = solid_wood("ash", measured=8, density_kg_m3=680)
    lipping = dict.fromkeys(("front", "back", "left", "right"), ash) if is_lipped else None
    parts = (
        box.component,
        pins.component,
        board_shelf(pins.bay(1), hole=6, stock=shelf, name="shelf", lipping=lipping),
        feet(box, stock=foot, height=45),
    )
    return Design("Bread cupboard", parts, is_hung=False).resolve()


@cache
def framed(*, panel: Stock, depth: float = 424.0) -> Unit:
    """A standing unit with a frame shelf round a perforated panel."""
    box = carcass(
        width=887,
        height=713,
        depth=depth,
        stock=BIRCH,
        back=Rails(stock=BIRCH, top=100, bottom=80),
    )
    pins = pin_rows(box)
    grille = FramePanel(stock=panel, diameter=8, pitch=12)
    shelf = frame_shelf(pins.bay(1), hole=6, stock=BIRCH, panel=grille, name="grate")
    foot = solid_wood("oak", measured=45, density_kg_m3=700)
    parts = (box.component, pins.component, shelf, feet(box, stock=foot, height=45))
    return Design("Clay rack", parts, is_hung=False).resolve()


@cache
def closed(*, openings: tuple[str, ...] = ("base", "top"), size: float = 120.0) -> Unit:
    """A hung unit with doors and one frame shelf, open for air where it is said."""
    tracks = DoorTracks(stock=THIN, bar=8)
    box = closed_box(tracks)
    pins = pin_rows(box)
    grille = FramePanel(stock=steel_sheet(1.5), diameter=5, pitch=8)
    parts: list[Component] = [
        box.component,
        sliding_doors(box, tracks, overlap=40),
        pins.component,
        frame_shelf(pins.bay(1), hole=6, stock=BIRCH, panel=grille, name="grate"),
        hanging_cleat(box, stock=BIRCH, height=90),
    ]
    for place in openings:
        name = f"air, {place}"
        parts.append(pill(box, place, name=name, length=size, width=30, left=400, back=110))
    return Design("Herb dryer", tuple(parts)).resolve()


def closed_box(tracks: DoorTracks) -> Carcass:
    """The carcass of the closed unit."""
    return carcass(
        width=887,
        height=613,
        depth=287,
        stock=BIRCH,
        top_layers=2,
        base_layers=2,
        setback=tracks.depth,
        back=Rails(stock=BIRCH, top=100, bottom=80, behind=2 * BIRCH.measured),
    )
