"""How a sheet looks: line widths, dashes, lettering heights and distances, in paper mm.

One object holds all of it. Layout asks it for distances and heights, the writers for the
width and dashes of each ink, so that a look is changed in one place.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

from cabinet.errors import SizeError
from cabinet.quantity import finite, positive, within
from drawings.marks import Ink

LINE_WIDTHS = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)
"""Widths a line may have, mm. Source: ISO 128-2 (formerly ISO 128-20:1996), ratio 1:sqrt 2."""

LETTERING_HEIGHTS = (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0)
"""Heights that capitals may have, mm. Source: ISO 3098-0, ratio 1:sqrt 2."""

SMALLEST_HEIGHT = 2.5
"""Smallest lettering on our sheets, mm. Source: preferred smallest height for A4 to A3 by
ISO 3098 (from memory)."""

BASELINE_SPACING = 1.5
"""From baseline to baseline, in heights of capitals, without accents on capitals.
Source: ISO 3098-0, b2 = 15/10 h."""

# Dash, gap, dash, gap ... in line widths d. Source: ISO 128-2 (formerly ISO 128-20).
_DASHED = (12.0, 3.0)  # type 02
_LONG_DASH_DOT = (24.0, 3.0, 0.5, 3.0)  # type 04
_LONG_DASH_DOUBLE_DOT = (24.0, 3.0, 0.5, 3.0, 0.5, 3.0)  # type 05


@dataclass(frozen=True, slots=True, kw_only=True)
class LineStyle:
    """How one ink is drawn.

    Attributes:
        width: Width of the line, mm; 0 for an area without an outline.
        dashes: Dash, gap, dash, gap ... in mm; empty for a continuous line.
        is_filled: The inside of a closed shape is filled.
        grey: 0 is black, 1 is the white of the paper.
    """

    width: float
    dashes: tuple[float, ...] = ()
    is_filled: bool = False
    grey: float = 0.0

    def __post_init__(self) -> None:
        if finite("line style", "width", self.width) != 0:
            _one_of_series("line style", "width", self.width, LINE_WIDTHS)
        if len(self.dashes) % 2:
            raise SizeError(
                f"line style: {len(self.dashes)} dashes and gaps; each dash needs its gap",
                value=self.dashes,
                limit="an even count",
            )
        for dash in self.dashes:
            positive("line style", "dash", dash)
        within("line style", "grey", self.grey, 0.0, 1.0, unit="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """The look of one sheet; every length in paper mm.

    Attributes:
        name: What this look is for.
        wide: Width of wide lines; the line group is named after it.
        narrow: Width of narrow lines, half of ``wide``.
        frame_width: Width of the frame of the drawing space.
        grid_width: Width of the ticks of the grid of fields.
        figure_height: Height of all dimension figures on the sheet.
        note_height: Height of notes, tables and of what stands in the title block.
        label_height: Height of small captions.
        heading_height: Height of headings of views and tables.
        letter_height: Height of the letters of sections and details.
        arrow_length: Length of a dimension's arrow.
        arrow_angle: Angle between the two sides of an arrow, degrees.
        extension_gap: From the outline to the beginning of an extension line.
        extension_overshoot: How far an extension line runs past the dimension line.
        first_offset: From the outline to the first dimension line.
        pitch: From one dimension line to the next.
        text_gap: From the dimension line to the foot of its figures.
        text_clearance: Least distance of a text from other ink.
        line_gap: Least distance of parallel lines.
        arrows_inside_least: Shortest dimension line that has its arrows inside.
        centre_overshoot: How far a centre line runs past the outline.
        dot_diameter: Diameter of the dot that stands for an arrow where space lacks.
        cutting_arrow_length: Length of the arrows on a cutting plane.
    """

    name: str
    wide: float
    narrow: float
    frame_width: float
    grid_width: float
    figure_height: float
    note_height: float
    label_height: float
    heading_height: float
    letter_height: float
    arrow_length: float
    arrow_angle: float
    extension_gap: float
    extension_overshoot: float
    first_offset: float
    pitch: float
    text_gap: float
    text_clearance: float
    line_gap: float
    arrows_inside_least: float
    centre_overshoot: float
    dot_diameter: float
    cutting_arrow_length: float

    def __post_init__(self) -> None:
        owner = f"style {self.name!r}"
        for name in ("wide", "narrow", "frame_width", "grid_width"):
            _one_of_series(owner, name, getattr(self, name), LINE_WIDTHS)
        # ISO 128-2: wide and narrow are 2 : 1. In the rounded series 0.35 goes with 0.18.
        if not 1.9 <= self.wide / self.narrow <= 2.1:
            raise SizeError(
                f"{owner}: narrow is {self.narrow} mm; it must be half of wide, {self.wide} mm",
                part=owner,
                value=self.narrow,
                limit=self.wide / 2,
            )
        for name in ("figure", "note", "label", "heading", "letter"):
            height = getattr(self, f"{name}_height")
            _one_of_series(owner, f"{name}_height", height, LETTERING_HEIGHTS)
            within(owner, f"{name}_height", height, SMALLEST_HEIGHT, LETTERING_HEIGHTS[-1])
        for name in (
            "arrow_length",
            "extension_overshoot",
            "text_gap",
            "text_clearance",
            "arrows_inside_least",
            "centre_overshoot",
            "dot_diameter",
            "cutting_arrow_length",
        ):
            positive(owner, name, getattr(self, name))
        within(owner, "arrow_angle", self.arrow_angle, 15.0, 90.0, unit="degrees")
        within(owner, "extension_gap", self.extension_gap, 0.0, self.first_offset)
        least = self.figure_height + self.text_gap
        within(owner, "pitch", self.pitch, least, 4 * least, why="a figure must fit between")
        within(owner, "first_offset", self.first_offset, self.pitch, 5 * self.pitch)
        within(owner, "line_gap", self.line_gap, 0.7, 5.0, why="ISO 128-2")

    def line(self, ink: Ink) -> LineStyle:
        """Width, dashes and fill of one ink, mm."""
        return _lines(self)[ink]


def _one_of_series(owner: str, name: str, value: float, series: tuple[float, ...]) -> None:
    if positive(owner, name, value) not in series:
        raise SizeError(
            f"{owner}: {name} is {value} mm; it must be one of {', '.join(map(str, series))} mm",
            part=owner,
            value=value,
            limit=series,
        )


@lru_cache(maxsize=16)
def _lines(style: Style) -> Mapping[Ink, LineStyle]:
    """Which line each ink is. Source: ISO 128-2, numbers of the line types beside each."""
    wide, narrow = style.wide, style.narrow

    def dashed(width: float, pattern: tuple[float, ...]) -> LineStyle:
        return LineStyle(width=width, dashes=tuple(part * width for part in pattern))

    plain = LineStyle(width=narrow)
    return MappingProxyType(
        {
            Ink.VISIBLE: LineStyle(width=wide),  # 01.2
            Ink.HIDDEN: dashed(narrow, _DASHED),  # 02.1
            Ink.CUT: LineStyle(width=wide),  # 01.2
            Ink.HATCH: plain,  # 01.1
            Ink.CENTRE: dashed(narrow, _LONG_DASH_DOT),  # 04.1
            Ink.CUTTING_PLANE: dashed(wide, _LONG_DASH_DOT),  # 04.2
            Ink.PHANTOM: dashed(narrow, _LONG_DASH_DOUBLE_DOT),  # 05.1
            Ink.NARROW: plain,  # 01.1
            Ink.DIMENSION_LINE: plain,  # 01.1
            Ink.EXTENSION: plain,  # 01.1
            Ink.LEADER: plain,  # 01.1
            Ink.ARROW: LineStyle(width=0, is_filled=True),
            Ink.RING: plain,  # 01.1
            Ink.FRAME: LineStyle(width=style.frame_width),
            Ink.GRID: LineStyle(width=style.grid_width),
            Ink.TABLE: plain,
            Ink.PATTERN: plain,
            Ink.SOLID: LineStyle(width=0, is_filled=True),
            # Pale enough that black lettering and hatching stay plain on it.
            Ink.SHADE: LineStyle(width=0, is_filled=True, grey=0.91),
        }
    )


A3_STYLE = Style(
    name="A3",
    wide=0.5,  # ISO 128-2: group 0.5 is recommended for A4 to A2
    narrow=0.25,  # ISO 128-2: 2 : 1
    frame_width=0.7,  # ISO 5457:1999, 4.2 (from memory)
    grid_width=0.35,  # ISO 5457:1999, 4.4
    figure_height=3.5,  # ISO 3098 series; figures not below 3.5 (textbooks to ISO 129-1)
    note_height=2.5,  # ISO 3098 series
    label_height=2.5,
    heading_height=5.0,
    letter_height=5.0,  # one step (sqrt 2) above the figures: ISO 128-3, from memory
    arrow_length=3.5,  # as long as the figures are high; textbooks to ISO 129-1
    arrow_angle=15.0,  # ISO 129-1, filled arrow
    extension_gap=2.0,  # 8 x line width, ISO 129-1 (from memory)
    extension_overshoot=2.0,  # 8 x line width, ISO 129-1
    first_offset=10.0,  # textbooks: about 10 from the outline
    pitch=8.0,  # textbooks: 7 to 8
    text_gap=1.0,  # textbooks: about 1 above the line
    text_clearance=0.7,  # common practice, no source: not less than between lines
    line_gap=0.7,  # ISO 128-2: never below 0.7
    arrows_inside_least=8.75,  # textbook: arrows go outside below 2.5 arrow lengths
    centre_overshoot=3.0,  # textbooks: 2 to 3 (from memory)
    dot_diameter=0.75,  # textbook: 3 x line width
    cutting_arrow_length=5.25,  # textbook: 1.5 x the dimension arrows
)
"""The look of A3 sheets and larger."""

A4_STYLE = replace(
    A3_STYLE,
    name="A4",
    heading_height=3.5,
    pitch=7.0,  # textbooks: about 7; twice the height of the figures
)
"""The look of A4 sheets: as A3, with the dimension lines closer and smaller headings."""

DETAIL_STYLE = A4_STYLE
"""The look of enlarged details, on whatever sheet: they are small, so their lines lie closer."""
