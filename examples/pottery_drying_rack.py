"""An open drying rack for a pottery: no doors, frame shelves of perforated steel, on feet.

Pots stand on the panels to dry, so air must pass through every shelf and out at the back.
"""

from cabinet import (
    Design, FramePanel, Leftover, Rack, Rails, birch_plywood, carcass, feet, flaw, frame_shelf,
    l_shape, pill, pin_rows, solid_wood, steel_sheet,
)
from drawings import write_job

birch = birch_plywood(nominal=21, measured=20.6)
rail = birch_plywood(nominal=18, measured=17.6)
grille = FramePanel(stock=steel_sheet(2), diameter=8, pitch=12)

box = carcass(
    width=980, height=1240, depth=424, stock=birch, back=Rails(stock=rail, top=120, bottom=120),
)
pins = pin_rows(box)
shelves = [
    frame_shelf(pins.bay(1), hole=hole, stock=birch, panel=grille, name=f"shelf {number}",
                member=75)
    for number, hole in enumerate((4, 13, 22, 31), start=1)
]
unit = Design(
    "Pottery drying rack",
    (
        box.component, pins.component, *shelves,
        pill(box, "top", name="steam outlet", length=360, width=40, left=490, back=120),
        feet(box, stock=solid_wood("oak", measured=45, density_kg_m3=700), height=45, size=80),
    ),
    is_hung=False,
)

# What stands against the workshop's wall: old benches and shelves, some of them grooved.
rack = Rack(leftovers=(
    Leftover(
        name="glaze bench", stock=birch, outline=l_shape(1490, 910, missing=(520, 380)),
        flaws=(
            flaw("groove", "face B", at=(0, 233), length=1490, width=9, depth=7),
            flaw("stain", "face A", at=(1180, 60), length=140, width=110),
        ),
    ),
    Leftover(
        name="old shelf", stock=rail, outline=((0, 0), (1120, 0), (1120, 287), (0, 287)),
        flaws=(flaw("hole", "through", at=(31, 139), length=9, width=9),),
    ),
))

if __name__ == "__main__":
    write_job(unit, "pottery_drying_rack.job", rack=rack)
