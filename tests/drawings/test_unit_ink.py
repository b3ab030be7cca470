"""A view of the unit on paper: its figures keep clear of what else stands at it."""

from __future__ import annotations

import numpy as np
import pytest

from drawings.clutter import NoRoom
from drawings.curves import ViewBounds
from drawings.cutting_plane import upright_plane
from drawings.dimension_ink import Edge
from drawings.lint import lint_sheet
from drawings.marks import PaperBox
from drawings.style import A3_STYLE
from drawings.unit_ink import UnitView, Wish, view_on_paper
from drawings.view_frame import FRONT


@pytest.mark.parametrize("width", [310.0, 1000.0, 1730.0])
def test_a_figure_keeps_clear_of_a_cutting_plane(width: float) -> None:
    """Wherever the plane is, its letter and arrows and the overall width are apart."""
    view = UnitView(
        title="front view",
        frame=FRONT,
        bounds=ViewBounds(0.0, 0.0, width, 480.0),
        curves=(),
        wishes=(Wish(edge=Edge.BELOW, axis=0, start=0.0, end=width, title="overall width"),),
    )
    drawn = 0
    for share in np.arange(0.02, 1.0, 0.02).tolist():
        x = share * width / 10
        plane = upright_plane(x, 0.0, 48.0, "A", A3_STYLE, is_seen_to_right=True)
        try:
            block = view_on_paper(view, 0.1, A3_STYLE, beside=(plane,))
        except NoRoom:
            continue  # the sheet is then drawn at another scale
        drawn += 1
        assert plane in block.marks
        assert lint_sheet(block.marks, PaperBox(-90, -90, 300, 300)) == ()
    assert drawn > 30
