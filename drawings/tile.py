"""One sheet of a template: its piece of the drawing, register crosses, check bar and name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.quantity import named, whole
from drawings.clutter import Clutter
from drawings.fitting import fitted
from drawings.ground import marks_box
from drawings.lettering import text_box
from drawings.mark_clipping import clipped_marks
from drawings.marks import Anchor, Group, Ink, Mark, PaperBox, PaperPoint, Text
from drawings.number import number
from drawings.paper import MARGIN
from drawings.ruling import rule
from drawings.template_motif import TrueInk
from drawings.template_style import LOUD_HEIGHT, TEMPLATE_STYLE
from drawings.tile_grid import FOOT, OVERLAP, Orientation, TileGrid
from drawings.view_paper import moved

CHECK_LENGTH = 100.0
"""Length of the bar by which the print is checked, mm."""

SCALE = "1:1"

_CROSS = 4.0  # half of a register cross, mm
_TICK = 2.0  # half of the ticks at the ends of the check bar, mm
_INSET = 4.0  # from the sheet's window to what stands in the band at its foot, mm
_LABEL_STEP = 4.0  # from one place tried for a seam's words to the next, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One finished sheet of A4 at true size.

    Attributes:
        template: Short name of the template, for files.
        title: What the template is.
        number: Its number within the template, from 1.
        count: How many sheets the template has.
        orientation: Whether the sheet lies or stands.
        marks: All that is drawn, mm on the sheet.

    Raises:
        SizeError: a blank name, or a number outside 1 to ``count``.
    """

    template: str
    title: str
    number: int
    count: int
    orientation: Orientation
    marks: tuple[Mark, ...]

    def __post_init__(self) -> None:
        named("tile", "template", self.template)
        named("tile", "title", self.title)
        whole(self.title, "number of sheets", self.count, 1, 999)
        whole(self.title, "number of the sheet", self.number, 1, self.count)

    @property
    def width(self) -> float:
        """Width of the paper, mm."""
        return self.orientation.width

    @property
    def height(self) -> float:
        """Height of the paper, mm."""
        return self.orientation.height

    @property
    def label(self) -> str:
        """Which sheet of how many (``2 of 5``)."""
        return f"{self.number} of {self.count}"

    @property
    def full_title(self) -> str:
        """Title with the sheet's number, for outlines of files."""
        return f"{self.title}, {self.label}" if self.count > 1 else self.title

    @property
    def file_name(self) -> str:
        """Name of its file (``shelf-pin-jig-2-of-2.svg``)."""
        return f"{self.template}-{self.number}-of-{self.count}.svg"


def drawing_marks(
    ink: TrueInk, grid: TileGrid, column: int, row: int, *, title: str
) -> tuple[Mark, ...]:
    """What one tile shows of a drawing, with seams and crosses, mm on the sheet.

    Args:
        ink: The whole drawing.
        grid: The sheets.
        column: Column of the tile, from 0.
        row: Row of the tile, from 0.
        title: What the template is.
    """
    window, own = grid.window(column, row), grid.own(column, row)
    uncut = tuple(
        mark for mark in ink.uncut if (box := marks_box((mark,))) is not None and own.contains(box)
    )
    inside = (*clipped_marks(ink.shapes, window), *uncut)
    crosses = tuple(_cross(n, point) for n, point in grid.crosses_of(column, row))
    seams = tuple(rule(*ends, Ink.PHANTOM) for ends, _ in _seams(grid, column, row))
    taken = Clutter((*inside, *crosses, *seams))
    words = tuple(_seam_words(text, strip, taken) for _, (text, strip) in _seams(grid, column, row))
    view = Group("view", inside, title=title, description=SCALE)
    dx, dy = MARGIN - window.left, MARGIN - window.top
    marks: tuple[Mark, ...] = (view, *crosses, *seams, *words)
    return tuple(moved(mark, dx, dy) for mark in marks)


def _cross(count: int, at: PaperPoint) -> Group:
    marks: tuple[Mark, ...] = (
        rule(at.x - _CROSS, at.y, at.x + _CROSS, at.y, Ink.NARROW),
        rule(at.x, at.y - _CROSS, at.x, at.y + _CROSS, Ink.NARROW),
    )
    return Group("register-mark", marks, title=f"register cross {count}")


_Seam = tuple[tuple[float, float, float, float], tuple[str, PaperBox]]


def _seams(grid: TileGrid, column: int, row: int) -> Iterator[_Seam]:
    """Ends of each seam on a tile, with the words for it and the strip beyond it."""
    window, half = grid.window(column, row), OVERLAP / 2
    here = grid.places.index((column, row))
    top, bottom = window.top, window.bottom
    if column:
        x = window.left + half
        yield (x, top, x, bottom), (_trim(here), PaperBox(window.left, top, x, bottom))
    if column < grid.columns - 1:
        x = window.right - half
        on = here + 1
        yield (x, top, x, bottom), (_under(on), PaperBox(x, top, window.right, bottom))
    left, right = window.left, window.right
    if row:
        y = window.top + half
        above = here - grid.columns
        yield (left, y, right, y), (_trim(above + 1), PaperBox(left, window.top, right, y))
    if row < grid.rows - 1:
        y = window.bottom - half
        below = here + grid.columns
        yield (left, y, right, y), (_under(below), PaperBox(left, y, right, window.bottom))


def _trim(under: int) -> str:
    return f"trim here, lay over sheet {under}"


def _under(index: int) -> str:
    return f"sheet {index + 1} lies over this"


def _seam_words(words: str, strip: PaperBox, taken: Clutter) -> Text:
    """The words for a seam, in the strip beyond it where nothing else stands."""
    height = TEMPLATE_STYLE.label_height
    is_upright = strip.width > strip.height
    along = strip.width if is_upright else strip.height
    text = Text(PaperPoint(0.0, 0.0), words, height, Anchor.MIDDLE, is_upright=is_upright)
    half = text_box(text).width / 2 if is_upright else text_box(text).height / 2
    spots = []
    step = half + 2.0
    while step < along - half - 2.0:
        spots.append(step)
        step += _LABEL_STEP
    placed = [_along(text, strip, spot) for spot in reversed(spots)]
    for spot in placed:
        if taken.is_free(text_box(spot), 0.3):
            return spot
    # Something runs through it everywhere: the place that it meets least.
    return min(placed, key=lambda t: taken.lines_hit(text_box(t), 0.3))


def _along(text: Text, strip: PaperBox, spot: float) -> Text:
    """The text centred in the strip, ``spot`` mm from its left or upper end."""
    if strip.width > strip.height:
        middle = (strip.top + strip.bottom + text.height) / 2
        at = PaperPoint(strip.left + spot, middle)
    else:
        at = PaperPoint((strip.left + strip.right + text.height) / 2, strip.top + spot)
    return Text(at, text.text, text.height, Anchor.MIDDLE, is_upright=text.is_upright)


def foot_marks(
    orientation: Orientation, *, title: str, unit_name: str, label: str
) -> tuple[Mark, ...]:
    """The band at the foot of a tile: check bar at the left, names at the right, mm on the sheet.

    Args:
        orientation: How the sheet lies.
        title: What the template is.
        unit_name: The unit that it is for.
        label: Which sheet of how many.
    """
    left, right = MARGIN, orientation.width - MARGIN
    bottom = orientation.height - MARGIN
    top = bottom - FOOT
    bar_end = left + _INSET + CHECK_LENGTH
    words_left = bar_end + 2 * _INSET
    return (
        rule(left, top, right, top, Ink.FRAME),
        _check_bar(left + _INSET, top + 8.0),
        _check_words(left + _INSET, top + 14.5),
        *_names(words_left, right, top, (title, unit_name, label)),
    )


def _check_bar(x: float, y: float) -> Group:
    end = x + CHECK_LENGTH
    marks: tuple[Mark, ...] = (
        rule(x, y, end, y, Ink.DIMENSION_LINE),
        rule(x, y - _TICK, x, y + _TICK, Ink.VISIBLE),
        rule(end, y - _TICK, end, y + _TICK, Ink.VISIBLE),
        Text(
            PaperPoint((x + end) / 2, y - 1.0),
            number(CHECK_LENGTH),
            TEMPLATE_STYLE.figure_height,
            Anchor.MIDDLE,
        ),
    )
    bar = Group("dimension", marks, title="check bar, from tick to tick")
    return Group("view", (bar,), title="Check bar", description=SCALE)


def _check_words(x: float, y: float) -> Group:
    style = TEMPLATE_STYLE
    lines = (
        f"Print at 100 %: this bar measures {number(CHECK_LENGTH)} mm.",
        "If it does not, do not use the sheet.",
    )
    texts = tuple(
        Text(PaperPoint(x, y + 5.0 * index), line, style.figure_height, is_bold=index == 0)
        for index, line in enumerate(lines)
    )
    return Group("notes", texts)


def _names(left: float, right: float, top: float, names: tuple[str, str, str]) -> Iterator[Mark]:
    title, unit_name, label = names
    style = TEMPLATE_STYLE
    sheet = Text(
        PaperPoint(right - 1.0, top + 20.0), f"sheet {label}", LOUD_HEIGHT, Anchor.END, is_bold=True
    )
    yield sheet
    head = fitted(title, width=right - left - 1.0, tallest=LOUD_HEIGHT, is_bold=True)
    baseline = top + 2.0 + head.height
    for line in head.lines:
        yield Text(PaperPoint(left, baseline), line, head.height, is_bold=True)
        baseline += head.height * 1.5
    under = fitted(unit_name, width=right - left - 1.0, tallest=style.figure_height, most_lines=1)
    for line in under.lines:
        yield Text(PaperPoint(left, top + 13.5), line, under.height)
