"""A wall-hung unit for a community greenhouse.

Seed trays and hand tools go away damp, so air passes from the base through perforated shelves
to the top; leads of the propagator lamps drop through the top to a double socket behind it.
"""

from cabinet import (
    Design, DoorTracks, FramePanel, Rails, birch_plywood, board_shelf, carcass, frame_shelf,
    hanging_cleat, pill, pin_rows, plug_pill, rubber_sheet, sliding_doors, steel_sheet,
    top_covering,
)
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

if __name__ == "__main__":
    write_job(unit, "greenhouse_wall_unit.job")
