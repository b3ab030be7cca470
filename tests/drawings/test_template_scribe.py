"""The scribe strip at true size: its line lies where the wall was read."""

from __future__ import annotations

import pytest

from cabinet.frame import Side
from cabinet.site.room.frame import wall_box
from cabinet.site.room.room_wall import CornerReading
from cabinet.site.room.scribe import ScribeStrip, scribe_strips
from drawings.ground import texts
from drawings.lint import lint_sheet
from drawings.marks import Group, Ink, Line, Mark, PaperBox, Polyline
from drawings.paper import MARGIN
from drawings.template_scribe import ScribeMotif, scribe_templates
from drawings.templates import Template, _template
from drawings.tile_grid import Orientation, TileGrid
from tests.cabinet.site.room.rooms import room


def strip() -> ScribeStrip:
    """Left of a unit 613 high, to a corner read at three heights."""
    corner = (CornerReading(1200.0, 4.0), CornerReading(1700.0, -2.5), CornerReading(2300.0, 5.0))
    outline = wall_box(43.0, 1411.0, 887.0, 613.0)
    (found,) = scribe_strips(room(left_corner=corner), outline, is_hung=True)
    return found


def template() -> Template:
    """Its template."""
    (motif,) = scribe_templates((strip(),))
    return _template(motif, motif.name, "Glaze cupboard")


def test_the_cut_line_is_true() -> None:
    """Along and across, each corner of the line is a reading; nothing is scaled."""
    motif = ScribeMotif(strip())
    width, height = motif.size
    grid = TileGrid(orientation=Orientation.LYING, width=width, height=height)
    shapes = motif.ink(grid).shapes
    (line,) = (m for m in shapes if isinstance(m, Polyline) and m.ink is Ink.CUT)
    (straight,) = (m for m in shapes if isinstance(m, Line) and m.ink is Ink.VISIBLE)
    told = [c for p in line.points for c in (p.x - straight.start.x, straight.start.y - p.y)]
    assert told == pytest.approx([c for point in strip().line for c in point])


def test_every_sheet_is_readable() -> None:
    """Nothing collides, and each sheet says which edge is the straight one."""
    sheets = template().tiles
    assert len(sheets) > 1
    for tile in sheets:
        space = PaperBox(0, 0, tile.width, tile.height).grown(-MARGIN)
        assert lint_sheet(tile.marks, space) == ()
        words = [text.text for mark in tile.marks for text in texts(mark)]
        assert "straight edge: against the unit" in words


def test_its_dimension_is_as_long_as_its_figure() -> None:
    """The width at the lower end."""

    def dimensions(marks: tuple[Mark, ...]) -> list[Group]:
        inner = [g for m in marks if isinstance(m, Group) for g in (m, *dimensions(m.marks))]
        return [g for g in inner if g.name == "dimension"]

    found = [g for tile in template().tiles for g in dimensions(tile.marks)]
    told = [float(t.text) for g in found if "lower" in g.title for t in texts(g)]
    assert told == [round(strip().line[0][1], 1)]


@pytest.mark.parametrize(("side", "words"), [(Side.RIGHT, "right"), (Side.BOTTOM, "below")])
def test_it_says_where_it_goes(side: Side, words: str) -> None:
    """Right of the unit and below it as well."""
    other = ScribeStrip(side=side, start=0.0, length=97.0, blank=41.0, line=((0, 31), (97, 35)))
    assert words in ScribeMotif(other).title
