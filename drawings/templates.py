"""The templates of a unit, each as sheets of A4 at true size.

Every template is laid out on lying and on standing sheets, with its words below or beside the
drawing, and the way that takes the fewest sheets is kept.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.quantity import named
from cabinet.site.room.scribe import ScribeStrip
from cabinet.workshop import GuideBush
from drawings.marks import Mark, PaperBox, PaperPoint
from drawings.paper import MARGIN
from drawings.pdf import Page
from drawings.style import Style
from drawings.svg import svg_document
from drawings.template_corner import corner_templates
from drawings.template_cut_out import cut_out_templates
from drawings.template_hole import hole_templates
from drawings.template_motif import Motif
from drawings.template_panel import panel_templates
from drawings.template_pin_rows import pin_row_jigs
from drawings.template_scribe import scribe_templates
from drawings.template_style import LARGE_WORDS, TEMPLATE_STYLE
from drawings.template_wall_screws import wall_screw_strips
from drawings.template_words import Words
from drawings.tile import Tile, drawing_marks, foot_marks
from drawings.tile_grid import Orientation, TileGrid

_GAP = 4.0  # between the drawing and words, and from words to words, mm
_EDGE = 3.0  # from the window's edge to words, mm
_LEAST_BESIDE = 120.0  # all words stand beside a drawing only in this width, mm
_LEAST_WIDTH = 65.0  # words anywhere need this width, mm

_DEFAULT_BUSH = GuideBush()


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """One template, ready for any writer.

    Attributes:
        name: Short name for files.
        title: What it is.
        tiles: Its sheets, at least one, in the order of their numbers.
    """

    name: str
    title: str
    tiles: tuple[Tile, ...]

    def __post_init__(self) -> None:
        named("template", "name", self.name)
        named("template", "title", self.title)
        if [tile.number for tile in self.tiles] != list(range(1, len(self.tiles) + 1)):
            raise DesignError(f"{self.title}: its sheets are not numbered from 1", part=self.title)


def templates(
    unit: Unit,
    *,
    bush: GuideBush = _DEFAULT_BUSH,
    scribes: Sequence[ScribeStrip] = (),
) -> tuple[Template, ...]:
    """All templates that a unit needs, sorted by name.

    Args:
        unit: The resolved unit.
        bush: Guide bush and cutter with which openings are cut.
        scribes: Strips that are cut to a crooked wall or floor.

    Raises:
        SizeError: an opening with corners that the router's cutter cannot leave.
    """
    motifs: list[Motif] = [
        *cut_out_templates(unit, bush),
        *pin_row_jigs(unit),
        *hole_templates(unit),
        *corner_templates(unit),
        *panel_templates(unit),
        *wall_screw_strips(unit),
        *scribe_templates(scribes),
    ]
    made: list[Template] = []
    times: dict[str, int] = {}
    for motif in sorted(motifs, key=lambda m: (m.name, m.title)):
        times[motif.name] = times.get(motif.name, 0) + 1
        count = times[motif.name]
        # Sizes that differ by less than is printed would have one name.
        name = motif.name if count == 1 else f"{motif.name}-{count}"
        made.append(_template(motif, name, unit.name))
    return tuple(made)


def template_svg(tile: Tile) -> str:
    """One sheet as the text of an SVG file in true millimetres; the same sheet, the same bytes."""
    return svg_document(
        title=tile.full_title,
        width=tile.width,
        height=tile.height,
        marks=tile.marks,
        style=TEMPLATE_STYLE,
    )


def template_page(tile: Tile) -> Page:
    """One sheet as a page of a PDF file."""
    return Page(
        title=tile.full_title,
        width=tile.width,
        height=tile.height,
        marks=tile.marks,
        style=TEMPLATE_STYLE,
    )


def _template(motif: Motif, name: str, unit_name: str) -> Template:
    layout = _fewest_sheets(motif)
    grid, orientation = layout.grid, layout.grid.orientation
    ink = motif.ink(grid)
    drawn = [drawing_marks(ink, grid, *place, title=motif.title) for place in grid.places]
    sheets = [(*marks, *words) for marks, words in zip_longest(drawn, layout.words, fillvalue=())]
    tiles = []
    for index, marks in enumerate(sheets, start=1):
        label = f"{index} of {len(sheets)}"
        foot = foot_marks(orientation, title=motif.title, unit_name=unit_name, label=label)
        tiles.append(
            Tile(
                template=name,
                title=motif.title,
                number=index,
                count=len(sheets),
                orientation=orientation,
                marks=(*marks, *foot),
            )
        )
    return Template(name=name, title=motif.title, tiles=tuple(tiles))


@dataclass(frozen=True, slots=True)
class _Layout:
    """How the drawing is divided over sheets, and the words that stand on each."""

    grid: TileGrid
    words: list[tuple[Mark, ...]]

    @property
    def count(self) -> int:
        return max(len(self.grid.places), len(self.words))


def _fewest_sheets(motif: Motif) -> _Layout:
    """The layout on the fewest sheets; of several, the one that is best to read.

    How many there are follows from the size of the drawing and from the words, so that nothing
    is drawn for it; and where the drawing alone takes as many, the words need not be set.
    """
    width, height = motif.size
    best: _Layout | None = None
    for style in (LARGE_WORDS, TEMPLATE_STYLE):
        for orientation in Orientation:
            grid = TileGrid(orientation=orientation, width=width, height=height)
            for rooms in _rooms(grid):
                if best is not None and len(grid.places) >= best.count:
                    break
                layout = _Layout(grid, _flowed(motif.words, rooms, orientation, style))
                if best is None or layout.count < best.count:
                    best = layout
    if best is None:
        raise AssertionError("a style, an orientation and a room are always tried")
    return best


_Rooms = list[list[PaperBox]]


def _rooms(grid: TileGrid) -> Iterator[_Rooms]:
    """Free paper on each sheet of the drawing, mm on the sheet: several ways of using it."""
    first = grid.own(0, 0)
    beside_left = grid.width + _EDGE
    below_top = grid.height + _GAP
    beside = PaperBox(beside_left, _EDGE, first.right - _EDGE, first.bottom - _EDGE)
    if grid.columns == 1 and grid.rows == 1 and beside.width >= _LEAST_BESIDE:
        yield [[_on_sheet(beside, first)]]
    rooms: _Rooms = []
    for column, row in grid.places:
        own = grid.own(column, row)
        below = PaperBox(own.left + _EDGE, below_top, own.right - _EDGE, own.bottom - _EDGE)
        is_last = row == grid.rows - 1
        rooms.append([_on_sheet(below, grid.window(column, row))] if is_last else [])
    yield rooms
    if grid.columns == 1 and grid.rows == 1:
        corner = PaperBox(beside_left, _EDGE, first.right - _EDGE, grid.height)
        yield [[*rooms[0], _on_sheet(corner, first)]]


def _on_sheet(box: PaperBox, window: PaperBox) -> PaperBox:
    dx, dy = MARGIN - window.left, MARGIN - window.top
    return PaperBox(box.left + dx, box.top + dy, box.right + dx, box.bottom + dy)


def _flowed(
    words: tuple[Words, ...], rooms: _Rooms, orientation: Orientation, style: Style
) -> list[tuple[Mark, ...]]:
    """Words for each sheet: set into the rooms beside the drawing, then on sheets of their own.

    Raises:
        DesignError: something does not even fit on a sheet of its own.
    """
    wide, high = orientation.window
    window = PaperBox(0.0, 0.0, wide, high)
    page = _on_sheet(window.grown(-_EDGE), window)
    sheets: list[tuple[Mark, ...]] = []
    waiting = list(words)
    while waiting:
        is_page = len(sheets) >= len(rooms)
        marks: list[Mark] = []
        for room in [page] if is_page else rooms[len(sheets)]:
            more, waiting = _set(waiting, room, style)
            marks += more
        if is_page and not marks:
            raise DesignError("template: words do not fit on a sheet of their own")
        sheets.append(tuple(marks))
    return sheets


def _set(words: list[Words], room: PaperBox, style: Style) -> tuple[list[Mark], list[Words]]:
    """As many of the words as a room takes, as marks, and those left over."""
    marks: list[Mark] = []
    if room.width < _LEAST_WIDTH:
        return marks, words
    top = room.top
    for index, item in enumerate(words):
        fits, rest = item.split(room.bottom - top, room.width, style)
        if fits is not None:
            placed = fits.placed(PaperPoint(room.left, top), room.width, style)
            marks += placed.marks
            top = placed.box.bottom + _GAP
        if rest is not None:
            return marks, [rest, *words[index + 1 :]]
    return marks, []
