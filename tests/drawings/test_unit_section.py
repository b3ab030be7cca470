"""Sections of a whole unit: what stands behind a board that hides it is not drawn."""

from __future__ import annotations

from cabinet.frame import Side
from drawings.curves import Segment
from drawings.scene import scene
from drawings.section_planes import section_planes
from drawings.unit_section import across_cut
from tests.examples import example_unit

SIDES = (Side.BOTTOM, Side.TOP)


def test_shelves_beyond_the_divider_do_not_show_at_its_pin_holes() -> None:
    """A shelf of the other bay stands with its underside in line with the rim of a hole."""
    unit = example_unit("pantry_cupboard")
    made = scene(unit)
    cut = across_cut(made, section_planes(unit))
    beyond = {name for name in unit.by_name if name.startswith("right shelf")}
    assert beyond
    assert not beyond & set(cut)
    levels = {unit.by_name[name].box.face(side) for name in beyond for side in SIDES}
    seen = [
        curve
        for piece in cut.values()
        for curve in piece.behind.visible
        if isinstance(curve, Segment) and abs(curve.start.v - curve.end.v) < 1e-6
    ]
    assert seen
    assert not [c for c in seen if any(abs(c.start.v - level) < 1e-6 for level in levels)]
