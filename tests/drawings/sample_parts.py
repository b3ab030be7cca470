"""Parts that between them have every feature, for the tests of their sheets; sizes invented."""

from __future__ import annotations

from cabinet.board import At, Surface
from cabinet.features import (
    Bevel,
    Biscuit,
    BiscuitSlot,
    CutOut,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Pattern,
    Perforation,
    Rebate,
    Tolerance,
)
from cabinet.frame import Side, UnitPoint
from cabinet.part import Part, board_part
from cabinet.stock import birch_plywood, rubber_sheet, steel_sheet

PLY = birch_plywood(18, 17.7)
ORIGIN = UnitPoint(0, 0, 0)


def side() -> Part:
    """Rebates at both ends, a groove, two pin rows, both ends trimmed flush."""
    return board_part(
        name="left side",
        role="side",
        stock=PLY,
        box_low=ORIGIN,
        length=(Side.BOTTOM, 604.6),
        width=(Side.BACK, 284),
        fence=Side.FRONT,
        stop=Side.TOP,
        shows=(Side.LEFT, Side.FRONT),
        features=(
            Rebate(
                name="rebate for top",
                edge=Surface.START,
                face=Surface.A,
                width=18.7,
                depth=9.2,
                takes="top",
            ),
            Rebate(name="rebate for base", edge=Surface.END, face=Surface.A, width=18.7, depth=9.2),
            Groove(
                name="groove for back",
                surface=Surface.A,
                near=At(Surface.HIGH, 20),
                width=6.2,
                depth=6,
                width_tolerance=Tolerance(0, 0.2),
            ),
            *(
                HoleRow(
                    name=f"{name} pin row",
                    surface=Surface.A,
                    first=At(Surface.START, 142.3),
                    line=At(Surface.LOW, line),
                    count=10,
                    pitch=32,
                    diameter=5,
                    depth=12,
                )
                for name, line in (("front", 37), ("back", 221))
            ),
            FlushTrim(name="flush with top", edge=Surface.START, proud=1),
            FlushTrim(name="flush with base", edge=Surface.END, proud=1),
        ),
    )


def doubled_top() -> Part:
    """Two door grooves, openings both ways, a stopped housing, slots in both ends."""
    slots = (
        BiscuitSlot(
            name=f"slot {end} {place}",
            surface=surface,
            centre=centre,
            height=At(Surface.B, 17.7),
            biscuit=Biscuit.NO_20,
        )
        for end, surface in (("left", Surface.START), ("right", Surface.END))
        for place, centre in (("front", At(Surface.LOW, 88)), ("back", At(Surface.HIGH, 62)))
    )
    return board_part(
        name="top",
        role="top",
        stock=PLY,
        box_low=ORIGIN,
        layers=2,
        length=(Side.RIGHT, 1176.6),
        width=(Side.BACK, 290),
        fence=Side.FRONT,
        stop=Side.LEFT,
        shows=(Side.TOP, Side.FRONT),
        features=(
            Groove(
                name="front door groove",
                surface=Surface.B,
                near=At(Surface.LOW, 12),
                width=10.5,
                depth=17,
            ),
            Groove(
                name="rear door groove",
                surface=Surface.B,
                near=At(Surface.LOW, 33.5),
                width=11.3,
                depth=17,
            ),
            CutOut(
                name="left cable opening",
                centre=(At(Surface.START, 203), At(Surface.HIGH, 61)),
                length=120,
                width=28,
                corner_radius=14,
            ),
            CutOut(
                name="right cable opening",
                centre=(At(Surface.END, 203), At(Surface.HIGH, 61)),
                length=120,
                width=28,
                corner_radius=14,
            ),
            CutOut(
                name="air opening",
                centre=(At(Surface.START, 613), At(Surface.HIGH, 92)),
                length=28,
                width=90,
                corner_radius=14,
            ),
            Groove(
                name="housing for divider",
                surface=Surface.B,
                near=At(Surface.START, 571.3),
                width=17.9,
                depth=6,
                start=At(Surface.LOW, 58),
                takes="divider",
            ),
            *slots,
        ),
    )


def door() -> Part:
    """Tongues at two ends from one face, a through hole."""
    return board_part(
        name="front door",
        role="door",
        stock=birch_plywood(15, 14.6),
        box_low=ORIGIN,
        length=(Side.TOP, 521.4),
        width=(Side.LEFT, 598.5),
        fence=Side.RIGHT,
        stop=Side.BOTTOM,
        shows=(Side.FRONT,),
        features=(
            Rebate(name="lower tongue", edge=Surface.START, face=Surface.A, width=7.4, depth=5.1),
            Rebate(name="upper tongue", edge=Surface.END, face=Surface.A, width=15.2, depth=5.1),
            Hole(
                name="finger pull",
                surface=Surface.A,
                centre=(At(Surface.START, 260.7), At(Surface.LOW, 48)),
                diameter=30,
            ),
        ),
    )


def rail() -> Part:
    """A groove in an edge, told from the lower face; slots in the other edge and the ends."""
    slots = (
        BiscuitSlot(
            name=name,
            surface=surface,
            centre=centre,
            height=At(Surface.A, 6.2),
            biscuit=Biscuit.NO_0,
        )
        for name, surface, centre in (
            ("left slot", Surface.START, At(Surface.LOW, 31)),
            ("right slot", Surface.END, At(Surface.LOW, 31)),
            ("left edge slot", Surface.LOW, At(Surface.START, 71)),
            ("right edge slot", Surface.LOW, At(Surface.END, 71)),
        )
    )
    return board_part(
        name="frame shelf front",
        role="frame shelf member",
        stock=birch_plywood(21, 20.6),
        box_low=ORIGIN,
        length=(Side.RIGHT, 553),
        width=(Side.BACK, 62),
        fence=Side.FRONT,
        stop=Side.LEFT,
        features=(
            Groove(
                name="groove for panel",
                surface=Surface.HIGH,
                near=At(Surface.B, 6.3),
                width=4.3,
                depth=9,
            ),
            *slots,
        ),
    )


def cleat() -> Part:
    """A bevel with a land along its whole length, countersunk holes."""
    return board_part(
        name="cleat, unit half",
        role="cleat",
        stock=PLY,
        box_low=ORIGIN,
        length=(Side.RIGHT, 1103),
        width=(Side.TOP, 87),
        fence=Side.TOP,
        stop=Side.LEFT,
        features=(
            Bevel(name="bevel", edge=Surface.LOW, sharp=Surface.B, angle=45, land=2.5),
            *(
                Hole(
                    name=f"screw {index}",
                    surface=Surface.A,
                    centre=(At(Surface.START, x), At(Surface.HIGH, 31)),
                    diameter=4.5,
                    countersink=9,
                )
                for index, x in enumerate((83, 396, 707, 1020), start=1)
            ),
        ),
    )


def divider() -> Part:
    """Notched at two corners; rows of holes on both faces, half a pitch apart."""
    return board_part(
        name="divider",
        role="divider",
        stock=PLY,
        box_low=ORIGIN,
        length=(Side.BOTTOM, 547.2),
        width=(Side.BACK, 231),
        fence=Side.FRONT,
        stop=Side.TOP,
        shows=(Side.FRONT,),
        features=(
            Notch(
                name="notch for rail",
                edge=Surface.HIGH,
                near=At(Surface.START, 0),
                length=63,
                depth=18.2,
            ),
            Notch(
                name="notch for cleat",
                edge=Surface.HIGH,
                near=At(Surface.END, 0),
                length=88,
                depth=18.2,
            ),
            *(
                HoleRow(
                    name=f"{face} {name} row",
                    surface=surface,
                    first=At(Surface.START, first),
                    line=At(Surface.LOW, line),
                    count=11,
                    pitch=32,
                    diameter=5,
                    depth=11,
                )
                for face, surface, first in (
                    ("right", Surface.A, 97),
                    ("left", Surface.B, 113),
                )
                for name, line in (("front", 37), ("back", 168))
            ),
        ),
    )


def steel_panel() -> Part:
    """A perforated sheet."""
    return board_part(
        name="vent panel",
        role="panel",
        stock=steel_sheet(1.5),
        box_low=ORIGIN,
        length=(Side.RIGHT, 487),
        width=(Side.BACK, 213),
        fence=Side.FRONT,
        stop=Side.LEFT,
        features=(Perforation(name="perforation", diameter=5, pitch=8, pattern=Pattern.STAGGERED),),
    )


def shelf() -> Part:
    """Nothing but a board."""
    return board_part(
        name="shelf",
        role="shelf",
        stock=PLY,
        box_low=ORIGIN,
        length=(Side.RIGHT, 561.7),
        width=(Side.BACK, 214),
        fence=Side.FRONT,
        stop=Side.LEFT,
        shows=(Side.TOP, Side.FRONT),
    )


def covering() -> Part:
    """Rubber with openings, one told from the far end."""
    return board_part(
        name="covering",
        role="covering",
        stock=rubber_sheet(2),
        box_low=ORIGIN,
        length=(Side.RIGHT, 1190),
        width=(Side.BACK, 303),
        fence=Side.FRONT,
        stop=Side.LEFT,
        features=(
            *(
                CutOut(
                    name=f"{name} opening",
                    centre=(At(end, 210), At(Surface.HIGH, 67)),
                    length=116,
                    width=24,
                    corner_radius=12,
                )
                for name, end in (("left", Surface.START), ("right", Surface.END))
            ),
            CutOut(
                name="tray",
                centre=(At(Surface.START, 595), At(Surface.LOW, 141)),
                length=213,
                width=87,
                corner_radius=8,
            ),
        ),
    )


def tiny() -> Part:
    """As small as parts get."""
    return board_part(
        name="stop block",
        role="block",
        stock=PLY,
        box_low=ORIGIN,
        length=(Side.RIGHT, 40),
        width=(Side.BACK, 30),
        fence=Side.FRONT,
        stop=Side.LEFT,
        features=(
            Hole(
                name="screw",
                surface=Surface.A,
                centre=(At(Surface.START, 17), At(Surface.LOW, 13)),
                diameter=4.5,
                countersink=9,
            ),
        ),
    )


def plinth() -> Part:
    """Long and narrow, with more holes than single dimension lines should tell."""
    return board_part(
        name="plinth",
        role="plinth",
        stock=PLY,
        box_low=ORIGIN,
        length=(Side.RIGHT, 2400),
        width=(Side.TOP, 80),
        fence=Side.BOTTOM,
        stop=Side.LEFT,
        features=tuple(
            Hole(
                name=f"screw {index}",
                surface=Surface.A,
                centre=(At(Surface.START, x), At(Surface.LOW, 43)),
                diameter=4.5,
                countersink=9,
            )
            for index, x in enumerate((61, 417, 809, 1203, 1597, 1989, 2339), start=1)
        ),
    )


SAMPLES = (
    side,
    doubled_top,
    door,
    rail,
    cleat,
    divider,
    steel_panel,
    shelf,
    covering,
    tiny,
    plinth,
)
