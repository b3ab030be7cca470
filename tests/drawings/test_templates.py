"""Templates at true size: sizes, sheets laid together again, lettering, bytes."""

from __future__ import annotations

import math
import runpy
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cabinet.design import Unit
from cabinet.errors import DesignError, SizeError
from cabinet.features import CutOut, HoleRow
from cabinet.workshop import GuideBush
from drawings.lint import lint_sheet
from drawings.marks import Arc, Circle, Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.paper import MARGIN
from drawings.pdf import write_pdf
from drawings.ruling import rule
from drawings.style import SMALLEST_HEIGHT
from drawings.template_corner import CornerTemplate, StoppedGroove
from drawings.template_cut_out import CutOutPlace, CutOutTemplate, cut_out_templates
from drawings.template_hole import HoleTemplate
from drawings.template_motif import Motif
from drawings.template_pin_rows import PinRowJig, PinRowPlace, pin_row_jigs
from drawings.template_wall_screws import WallScrewStrip, wall_screw_strips
from drawings.templates import Template, _template, template_page, template_svg, templates
from drawings.tile import Tile
from drawings.tile_grid import Orientation, TileGrid

ROOT = Path(__file__).parents[2]
NS = "{http://www.w3.org/2000/svg}"


@cache
def unit() -> Unit:
    """The unit of the example script."""
    script = runpy.run_path(str(ROOT / "examples" / "greenhouse_wall_unit.py"))
    found = script["unit"].resolve()
    assert isinstance(found, Unit)
    return found


@cache
def made() -> tuple[Template, ...]:
    return templates(unit())


def sheets() -> list[Tile]:
    return [tile for template in made() for tile in template.tiles]


def basin(bush: GuideBush) -> CutOutTemplate:
    """An opening larger than a sheet both ways."""
    place = CutOutPlace(
        part="top",
        name="basin",
        along="613 from left end",
        across="287.4 from front edge",
        lies="left to right",
    )
    return CutOutTemplate(
        length=413.0,
        width=287.4,
        corner_radius=61.5,
        bush=bush,
        places=(place,),
        followed=(),
        thickest=17.6,
    )


def jig(*firsts: float, count: int = 13) -> PinRowJig:
    places = tuple(
        PinRowPlace(
            part=f"side {index}",
            face="right face",
            row="front pin row",
            first=first,
            line=37.3,
            edge="front edge",
            count=count,
            depth=11.0,
        )
        for index, first in enumerate(firsts)
    )
    return PinRowJig(end="top end", pitch=31.7, diameter=5.2, places=places)


def groups(marks: Iterable[Mark], name: str) -> Iterator[Group]:
    for mark in marks:
        if isinstance(mark, Group):
            if mark.name == name:
                yield mark
            yield from groups(mark.marks, name)


def texts(marks: Iterable[Mark]) -> Iterator[Text]:
    for mark in marks:
        if isinstance(mark, Text):
            yield mark
        elif isinstance(mark, Group):
            yield from texts(mark.marks)


def line_length(line: Line) -> float:
    return math.hypot(line.end.x - line.start.x, line.end.y - line.start.y)


# Sheets laid together again


def crosses(tile: Tile) -> dict[str, PaperPoint]:
    """Middle of each register cross of a sheet, by its title."""
    found = {}
    for group in groups(tile.marks, "register-mark"):
        level, upright = group.marks
        assert isinstance(level, Line)
        assert isinstance(upright, Line)
        assert upright.start.x == pytest.approx((level.start.x + level.end.x) / 2, abs=1e-9)
        found[group.title] = PaperPoint(upright.start.x, level.start.y)
    return found


def laid(tiles: Iterable[Tile]) -> list[tuple[Tile, float, float]]:
    """Each sheet that has crosses, with how it is moved so that they lie on the first one's.

    Every cross that two sheets share must coincide, not only the one by which they are laid.
    """
    waiting = [tile for tile in tiles if crosses(tile)]
    placed = [(waiting.pop(0), 0.0, 0.0)]
    table = crosses(placed[0][0])
    while waiting:
        tile = next(t for t in waiting if crosses(t).keys() & table.keys())
        waiting.remove(tile)
        own = crosses(tile)
        shared = sorted(own.keys() & table.keys())
        assert len(shared) >= 2
        dx, dy = table[shared[0]].x - own[shared[0]].x, table[shared[0]].y - own[shared[0]].y
        for title, point in own.items():
            there = table.setdefault(title, point.moved(dx, dy))
            assert (there.x, there.y) == pytest.approx((point.x + dx, point.y + dy), abs=1e-9)
        placed.append((tile, dx, dy))
    return placed


def spans_of(mark: Mark, dx: float, dy: float) -> Iterator[tuple[tuple[object, ...], list[float]]]:
    """What a piece lies on (its straight line or its circle), and from where to where."""
    match mark:
        case Line():
            a, b = sorted(((mark.start.x, mark.start.y), (mark.end.x, mark.end.y)))
            if a == b:
                return
            turn = math.atan2(b[1] - a[1], b[0] - a[0])
            ux, uy = math.cos(turn), math.sin(turn)
            off = -uy * (a[0] + dx) + ux * (a[1] + dy)
            ends = [ux * (p[0] + dx) + uy * (p[1] + dy) for p in (a, b)]
            yield ("line", mark.ink, round(turn, 6), round(off, 4) + 0.0), ends
        case Arc():
            key = "arc", mark.ink, round(mark.centre.x + dx, 4), round(mark.centre.y + dy, 4)
            start = mark.start % 360.0
            end = start + mark.end - mark.start
            for low, high in ((start, min(end, 360.0)), (0.0, end - 360.0)):
                if high > low:
                    ends = [math.radians(a) * mark.radius for a in (low, high)]
                    yield (*key, round(mark.radius, 6)), ends
        case Circle():
            yield from spans_of(Arc(mark.centre, mark.radius, 0.0, 360.0, mark.ink), dx, dy)
        case Polyline():
            ring = (*mark.points, mark.points[0]) if mark.closed else mark.points
            for start_point, end_point in pairwise(ring):
                yield from spans_of(Line(start_point, end_point, mark.ink), dx, dy)


def covered(pieces: Iterable[tuple[tuple[object, ...], list[float]]]) -> dict[object, float]:
    """Length that is drawn on each line and circle, what is drawn twice counted once."""
    by_place: dict[object, list[list[float]]] = {}
    for key, ends in pieces:
        by_place.setdefault(key, []).append(ends)
    total: dict[object, float] = {}
    for place, them in by_place.items():
        reach, length = -math.inf, 0.0
        for low, high in sorted(them):
            length += max(0.0, high - max(low, reach))
            reach = max(reach, high)
        total[place] = length
    return total


def shapes(tile: Tile) -> list[Mark]:
    """Lines and curves of the template itself, without dimensions and the check bar."""
    views = [group for group in groups(tile.marks, "view") if group.title == tile.title]
    return [m for view in views for m in view.marks if isinstance(m, Line | Arc | Circle)]


def strip() -> WallScrewStrip:
    (found,) = wall_screw_strips(unit())
    return found


@pytest.mark.parametrize(
    "motif",
    [
        basin(GuideBush(diameter=15.0, cutter=9.0)),
        basin(GuideBush()),
        jig(132.4, 101.9),
        jig(17.3, count=29),
        WallScrewStrip(
            part="batten",
            length=913.7,
            height=87.3,
            screws=((41.3, 30.1), (267.0, 30.1), (871.9, 30.1)),
            diameter=6.5,
            article="wall screw",
            above=61.0,
            left=17.0,
            is_bevelled=False,
        ),
    ],
    ids=["basin, small bush", "basin", "jig", "long jig", "wall strip"],
)
def test_sheets_laid_by_their_crosses_make_up_the_whole(motif: Motif) -> None:
    template = _template(motif, motif.name, "test")
    width, height = motif.size
    grid = TileGrid(orientation=template.tiles[0].orientation, width=width, height=height)
    assert len(grid.places) > 1
    whole = covered(
        piece for mark in motif.ink(grid).shapes for piece in spans_of(mark, MARGIN, MARGIN)
    )
    again = covered(
        piece
        for tile, dx, dy in laid(template.tiles)
        for mark in shapes(tile)
        for piece in spans_of(mark, dx, dy)
    )
    assert again.keys() == whole.keys()
    for key, length in whole.items():
        assert again[key] == pytest.approx(length, abs=1e-3), key


def test_the_strip_of_the_example_is_as_long_as_the_part() -> None:
    (template,) = (t for t in made() if t.name.startswith("wall-strip"))
    edges = covered(
        piece
        for tile, dx, dy in laid(template.tiles)
        for mark in shapes(tile)
        if isinstance(mark, Line) and mark.ink is Ink.VISIBLE
        for piece in spans_of(mark, dx, dy)
    )
    part = unit().by_name["cleat, wall half"]
    assert max(edges.values()) == pytest.approx(part.box.size[0], abs=1e-6)


def test_sheets_on_one_table_keep_the_pitch() -> None:
    """Centres of holes on different sheets, once these are laid, stand at the pitch."""
    (template,) = (t for t in made() if t.name.startswith("shelf-pin-jig"))
    centres = sorted(
        {
            (round(mark.centre.x + dx, 6), round(mark.centre.y + dy, 6))
            for tile, dx, dy in laid(template.tiles)
            for mark in shapes(tile)
            if isinstance(mark, Circle)
        }
    )
    assert len(centres) == 12
    steps = [b[0] - a[0] for a, b in pairwise(centres)]
    assert steps == pytest.approx([32.0] * 11, abs=1e-6)


# Sizes


def extent(marks: Iterable[Mark], ink: Ink) -> tuple[float, float]:
    """Width and height over all lines and arcs of an ink."""
    xs: list[float] = []
    ys: list[float] = []
    for mark in marks:
        if isinstance(mark, Line) and mark.ink is ink:
            xs += [mark.start.x, mark.end.x]
            ys += [mark.start.y, mark.end.y]
        elif isinstance(mark, Arc) and mark.ink is ink:
            for angle in (mark.start, mark.end):
                xs.append(mark.centre.x + mark.radius * math.cos(math.radians(angle)))
                ys.append(mark.centre.y + mark.radius * math.sin(math.radians(angle)))
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize(("bush", "cutter", "offset"), [(30.0, 10.0, 10.0), (15.0, 9.0, 3.0)])
def test_openings_are_true_and_the_template_is_larger_by_the_offset(
    bush: float, cutter: float, offset: float
) -> None:
    """Offsets of the published examples: 30 bush, 10 cutter, 10 mm; 15/9, 3 mm."""
    motif = basin(GuideBush(diameter=bush, cutter=cutter))
    width, height = motif.size
    grid = TileGrid(orientation=Orientation.LYING, width=width, height=height)
    drawn = motif.ink(grid).shapes
    finished = extent(drawn, Ink.VISIBLE)
    assert finished == pytest.approx((413.0, 287.4), abs=1e-9)
    cut = extent(drawn, Ink.NARROW)
    assert cut == pytest.approx((413.0 + 2 * offset, 287.4 + 2 * offset), abs=1e-9)
    assert extent(drawn, Ink.HIDDEN) == pytest.approx((408.0, 282.4), abs=1e-9)
    radii = {m.ink: m.radius for m in drawn if isinstance(m, Arc)}
    assert radii == pytest.approx(
        {Ink.VISIBLE: 61.5, Ink.NARROW: 61.5 + offset, Ink.HIDDEN: 59.0}, abs=1e-9
    )


def test_each_distinct_opening_has_one_template() -> None:
    sizes = {
        (*sorted((f.length, f.width)), f.corner_radius)
        for part in unit().parts
        for f in part.board.features
        if isinstance(f, CutOut)
    }
    found = cut_out_templates(unit(), GuideBush())
    assert len(found) == len(sizes) == 4
    places = [(p.part, p.name) for t in found for p in (*t.places, *t.followed)]
    assert len(places) == len(set(places)) == 10
    assert {p.part for t in found for p in t.followed} == {"covering"}
    assert "covering" not in {p.part for t in found for p in t.places}


def test_centres_are_told_from_the_datum_edges() -> None:
    (plug,) = (
        p for t in found_places() for p in t if p.name == "leads and plug" and p.part == "top"
    )
    # 440 and 90 from the carcass's edges; the top lies between sides of 17.7 with rebates of 6.
    assert plug.along == "428.3 from left end"
    assert plug.across == "90 from back edge"
    assert plug.lies == "left to right"


def found_places() -> list[tuple[CutOutPlace, ...]]:
    return [t.places for t in cut_out_templates(unit(), GuideBush())]


def test_packing_brings_every_row_to_its_own_first_hole() -> None:
    for found in (*pin_row_jigs(unit()), jig(132.4, 101.9, 117.3)):
        for place in found.places:
            assert found.packing(place) >= 0
            assert found.first - found.packing(place) == pytest.approx(place.first, abs=1e-6)
    (real,) = pin_row_jigs(unit())
    assert len(real.places) == 8
    assert {p.part: real.packing(p) for p in real.places} == pytest.approx(
        {"left side": 0.0, "right side": 0.0, "divider": 30.4}
    )


def test_wall_screws_lie_where_the_holes_of_the_part_are() -> None:
    found = strip()
    part = unit().by_name[found.part]
    (row,) = (f for f in part.board.features if isinstance(f, HoleRow))
    holes = [h.box(part.board.size) for h in row.holes]
    xs = [(box.low[0] + box.high[0]) / 2 for box in holes]
    assert [x for x, _ in found.screws] == pytest.approx(xs, abs=1e-6)
    assert found.above == pytest.approx(unit().outline.high.z - part.box.high.z)


def test_dimension_lines_are_as_long_as_their_figures() -> None:
    count = 0
    for tile in sheets():
        for group in groups(tile.marks, "dimension"):
            (line,) = (
                m for m in group.marks if isinstance(m, Line) and m.ink is Ink.DIMENSION_LINE
            )
            (text,) = texts((group,))
            # Figures are printed to 0.1.
            assert float(text.text) == pytest.approx(line_length(line), abs=0.0501)
            count += 1
    assert count > 2 * len(sheets())


def test_each_view_is_at_true_size() -> None:
    for tile in sheets():
        views = list(groups(tile.marks, "view"))
        assert {view.description for view in views} == {"1:1"}
        assert {view.title for view in views} <= {tile.title, "Check bar"}


# What stands on every sheet


def test_every_sheet_is_readable_and_can_be_checked() -> None:
    assert len(sheets()) >= 14
    for tile in sheets():
        require_readable(tile)


def require_clear(tile: Tile) -> None:
    space = PaperBox(0, 0, tile.width, tile.height).grown(-MARGIN)
    assert lint_sheet(tile.marks, space) == ()


def require_readable(tile: Tile) -> None:
    require_clear(tile)
    assert all(text.height >= SMALLEST_HEIGHT for text in texts(tile.marks))
    words = {text.text for text in texts(tile.marks)}
    assert {f"sheet {tile.label}", "Greenhouse wall unit"} <= words
    assert any("100 %" in word for word in words)
    (bar,) = (g for g in groups(tile.marks, "view") if g.title == "Check bar")
    (line,) = (
        m
        for group in groups((bar,), "dimension")
        for m in group.marks
        if isinstance(m, Line) and m.ink is Ink.DIMENSION_LINE
    )
    assert line_length(line) == 100.0


@pytest.mark.parametrize("bush", [GuideBush(), GuideBush(diameter=15.0, cutter=9.0)])
def test_an_opening_larger_than_a_sheet_is_readable(bush: GuideBush) -> None:
    motif = basin(bush)
    template = _template(motif, motif.name, "test")
    for tile in template.tiles:
        require_clear(tile)


def test_a_jig_for_many_rows_keeps_all_of_them() -> None:
    """More rows than one sheet holds: the table goes on, each row stands once."""
    motif = jig(*(100.3 + index for index in range(61)))
    template = _template(motif, motif.name, "test")
    words = [text.text for tile in template.tiles for text in texts(tile.marks)]
    for place in motif.places:
        assert words.count(f"{place.part}, right face") == 1
    titles = [word for word in words if word.startswith("Rows to bore")]
    assert len(titles) > 1
    assert titles[0] == "Rows to bore (goes on)"
    assert titles[-1] == "Rows to bore, continued"
    assert all(title.endswith("(goes on)") for title in titles[:-1])
    for tile in template.tiles:
        require_clear(tile)


@pytest.mark.parametrize("first", [9.3, 18.9, 61.0, 255.0, 291.7])
def test_a_jig_is_readable_wherever_its_first_hole_is(first: float) -> None:
    motif = jig(first, count=9)
    for tile in _template(motif, motif.name, "test").tiles:
        require_clear(tile)


def test_chisel_guides_of_many_widths_are_readable_and_true() -> None:
    widths = (6.3, 9.2, 11.9, 17.9, 24.1)
    grooves = tuple(
        StoppedGroove(
            part=f"board {index}",
            name="housing",
            face="top face",
            width=width,
            depth=6.1,
            stops=("37.3 from front edge",),
        )
        for index, width in enumerate(widths)
    )
    motif = CornerTemplate(grooves=grooves)
    template = _template(motif, motif.name, "test")
    printed = set()
    for tile in template.tiles:
        require_clear(tile)
        printed |= {text.text for g in groups(tile.marks, "dimension") for text in texts((g,))}
    assert {"6.3", "9.2", "11.9", "17.9", "24.1"} <= printed


def test_cautions_stand_on_every_sheet_of_the_wall_strip() -> None:
    (template,) = (t for t in made() if t.name.startswith("wall-strip"))
    for tile in template.tiles:
        assert any("Cables or pipes" in text.text for text in texts(tile.marks))
    words = " ".join(t.text for tile in template.tiles for t in texts(tile.marks))
    for caution in ("local codes", "licensed person", "studs or masonry"):
        assert caution in words


# Order, names, bytes


def test_templates_are_sorted_and_named_once() -> None:
    names = [template.name for template in made()]
    assert names == sorted(set(names))
    files = [tile.file_name for tile in sheets()]
    assert len(files) == len(set(files))


def test_files_are_in_true_millimetres() -> None:
    for tile in sheets():
        root = ET.fromstring(template_svg(tile).encode())
        sizes = sorted((root.get("width"), root.get("height")), key=str)
        assert sizes == ["210mm", "297mm"]
        assert root.get("viewBox") == f"0 0 {tile.width:g} {tile.height:g}"
        marks = {g.get("class") for g in root.iter(f"{NS}g")}
        assert {"view", "dimension"} <= marks


def test_pages_go_into_a_pdf(tmp_path: Path) -> None:
    path = tmp_path / "templates.pdf"
    write_pdf([template_page(tile) for tile in sheets()], path)
    assert path.read_bytes().startswith(b"%PDF")


# Bad input


def test_a_cutter_too_thick_for_the_corners_is_refused() -> None:
    with pytest.raises(SizeError, match="air") as caught:
        templates(unit(), bush=GuideBush(diameter=40.0, cutter=31.0))
    assert caught.value.value == 31.0
    assert caught.value.limit == pytest.approx(30.0)


def test_bad_templates_are_refused() -> None:
    good = basin(GuideBush())
    with pytest.raises(SizeError, match="longer size"):
        replace(good, length=280.0)
    with pytest.raises(SizeError, match="saw"):
        replace(good, length=11.0, width=5.0, corner_radius=5.0)
    with pytest.raises(SizeError, match="no rows"):
        PinRowJig(end="top end", pitch=32.0, diameter=5.0, places=())
    with pytest.raises(SizeError, match="pitch"):
        replace(jig(100.0), pitch=math.nan)
    with pytest.raises(SizeError, match="no stopped grooves"):
        CornerTemplate(grooves=())
    with pytest.raises(SizeError, match="no screw"):
        replace(strip(), screws=())
    with pytest.raises(SizeError, match="finger pull"):
        HoleTemplate(hole="finger pull", diameter=31.0, inset=15.5, places=())


def test_bad_sheets_are_refused() -> None:
    tile = sheets()[0]
    with pytest.raises(SizeError):
        replace(tile, number=tile.count + 1)
    with pytest.raises(SizeError):
        replace(tile, title=" ")
    with pytest.raises(DesignError):
        Template(name="jig", title="Jig", tiles=(replace(tile, number=2, count=2),))


def test_a_line_that_is_missing_on_one_sheet_is_noticed() -> None:
    """The comparison itself: a shortened line must not pass as covered."""
    whole = covered(spans_of(rule(10, 20, 213, 20, Ink.VISIBLE), 0, 0))
    pieces = [
        *spans_of(rule(10, 20, 113, 20, Ink.VISIBLE), 0, 0),
        *spans_of(rule(114, 20, 213, 20, Ink.VISIBLE), 0, 0),
    ]
    assert covered(pieces).keys() == whole.keys()
    assert covered(pieces) != pytest.approx(whole, abs=1e-3)
