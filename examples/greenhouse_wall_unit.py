"""A wall-hung unit for a community greenhouse.

Seed trays and hand tools go away damp, so air passes from the base through perforated shelves
to the top; leads of the propagator lamps drop through the top to a double socket behind it.
"""

from cabinet import (
    Design, DoorTracks, FramePanel, Rails, birch_plywood, board_shelf, carcass, frame_shelf,
    hanging_cleat, pill, pin_rows, plug_pill, rubber_sheet, sliding_doors, steel_sheet,
    top_covering,
)
from cabinet.site.room import (
    FaceReading, FloorReading, Lead, Neighbour, RoomWall, Sash, Setting, Socket, Switch, WallPoint,
    Window,
)
from cabinet.site.uses import SpreadLoad, UseCase
from cabinet.site.walls import SolidMasonry
from drawings import write_job

birch = birch_plywood(nominal=18, measured=17.7)
mat = rubber_sheet(3)
grille = FramePanel(stock=steel_sheet(1.5), diameter=5, pitch=8)
tracks = DoorTracks(stock=birch_plywood(nominal=12, measured=11.9), bar=8)

box = carcass(
    width=1200, height=640, depth=290, stock=birch, top_layers=2, base_layers=2, dividers=1,
    setback=tracks.depth, back=Rails(stock=birch, top=100, bottom=80, behind=2 * birch.measured),
    covering=mat.measured,
)
pins = pin_rows(box)
unit = Design(
    "Greenhouse wall unit",
    (
        box.component,
        sliding_doors(box, tracks, overlap=40),
        pins.component,
        frame_shelf(pins.bay(1), hole=5, stock=birch, panel=grille, name="left frame shelf"),
        frame_shelf(pins.bay(2), hole=7, stock=birch, panel=grille, name="right frame shelf"),
        board_shelf(pins.bay(2), hole=2, stock=birch, name="tool shelf"),
        hanging_cleat(box, stock=birch, height=90),
        top_covering(box, mat),
        pill(box, "top", name="air, left", length=120, width=30, left=200, back=90),
        plug_pill(box, "top", name="leads and plug", plug=(56, 38), left=440, back=90),
        pill(box, "top", name="air, right", length=120, width=30, right=300, back=90),
        pill(box, "top", name="air, right end", length=30, width=110, right=70, front=130),
        pill(box, "base", name="air below, left", length=160, width=30, left=200, back=90),
        pill(box, "base", name="air below, right", length=160, width=30, right=300, back=90),
    ),
)

# Where it hangs: places are mm along the wall and above the floor, as read on the spot.
room = RoomWall(
    name="potting-room wall", width=3460, height=2480, datum=1000, skirting=95, skirting_thick=15,
    build=SolidMasonry(anchor_pull=1900, anchor_shear=2300),
    things=(
        Window(name="yard window", left=2310, bottom=1060, width=790, height=1080, sill=28,
               sill_ends=40, sash=Sash.HINGED_LEFT, opens=100),
        Socket(name="lamp socket", x=890, z=1720, width=146),
        Socket(name="bench socket", x=1940, z=1130, width=146),
        Switch(name="light switch", x=3310, z=1180),
        Neighbour(name="potting bench", left=420, bottom=0, width=1760, height=915, gap=450),
    ),
    floor=(FloorReading(300, 1002), FloorReading(1700, 1000)),
    face=tuple(
        FaceReading(x, z, gap)
        for x, z, gap in (
            (600, 1430, 24), (1190, 1430, 21), (1780, 1430, 23.5),
            (600, 1915, 22), (1190, 1915, 19), (1780, 1915, 21),
        )
    ),
)
lamps = Lead(through="leads and plug", socket="lamp socket", plug=(56, 38), plug_depth=48)
place = Setting(room=room, at=WallPoint(590, 1430), gap=60, leads=(lamps,))
stored = {"left frame shelf": 9, "right frame shelf": 9, "tool shelf": 12, "base": 10}
trays = UseCase(
    name="seed trays and tools", is_damp=True,
    loads=tuple(SpreadLoad(place=where, kilograms=kg) for where, kg in stored.items()),
)

if __name__ == "__main__":
    write_job(
        unit, "greenhouse_wall_unit.job",
        uses=[trays], place=place, lift=place.lift(has_table=True),
    )
