"""Leaving out what is out of sight changes no visible line."""

from __future__ import annotations

import pytest

from cabinet.checks.bodies import bodies
from cabinet.frame import Side
from drawings.curves import length
from drawings.occlusion import out_of_sight
from drawings.projection import merged, project
from drawings.scene import scene
from drawings.view_frame import FROM_LEFT, FRONT, PLAN, ViewFrame
from tests.golden import example

VIEWS = [(FRONT, Side.FRONT), (PLAN, Side.TOP), (FROM_LEFT, Side.LEFT)]


@pytest.mark.parametrize("name", ["greenhouse_wall_unit", "pantry_cupboard"])
@pytest.mark.parametrize(("frame", "viewer"), VIEWS, ids=["front", "plan", "left"])
def test_visible_lines_stay(name: str, frame: ViewFrame, viewer: Side) -> None:
    unit = example(name).resolve()
    made = scene(unit)
    solids = {**made.parts, **made.rods}
    hidden = out_of_sight(bodies(unit).values(), viewer)
    whole = merged(project(solids, frame).values()).visible
    fewer = merged(project({n: s for n, s in solids.items() if n not in hidden}, frame).values())
    assert length(fewer.visible) == pytest.approx(length(whole), abs=0.01)
    assert hidden & set(solids)


def test_what_shows_through_an_opening_is_kept() -> None:
    unit = example("greenhouse_wall_unit").resolve()
    hidden = out_of_sight(bodies(unit).values(), Side.FRONT)
    # The right frame shelf is seen through the right door's finger pull.
    assert "right frame shelf front" not in hidden
    assert "left frame shelf front" in hidden
