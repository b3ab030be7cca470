"""A tall pantry cupboard for a shared kitchen: plain lipped shelves, a grooved back, a plinth."""

from cabinet import (
    BackPanel, Design, birch_plywood, board_shelf, carcass, pin_rows, plinth, poplar_plywood,
    solid_wood,
)
from drawings import write_job

poplar = poplar_plywood(nominal=18, measured=17.4)
ash = {"front": solid_wood("ash", measured=8, density_kg_m3=680)}

box = carcass(
    width=840, height=1780, depth=372, stock=poplar, dividers=1,
    back=BackPanel(stock=birch_plywood(nominal=6.5, measured=6.3), inset=12),
)
pins = pin_rows(box, first=160)
shelves = [
    board_shelf(pins.bay(bay), hole=hole, stock=poplar, name=f"{side} shelf {number}", lipping=ash)
    for bay, side, holes in ((1, "left", (8, 18, 28, 37)), (2, "right", (11, 25, 37)))
    for number, hole in enumerate(holes, start=1)
]
unit = Design(
    "Pantry cupboard",
    (box.component, pins.component, *shelves, plinth(box, stock=poplar, height=90)),
    is_hung=False,
)

if __name__ == "__main__":
    write_job(unit, "pantry_cupboard.job")
