"""Ruled tables as marks: headings, columns of set or free width, long cells wrapped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from cabinet.errors import SizeError
from cabinet.quantity import named, positive
from drawings.fitting import wrapped
from drawings.lettering import text_width
from drawings.marks import Anchor, Group, Ink, Mark, PaperBox, PaperPoint, Text
from drawings.number import number
from drawings.ruling import outline, rule
from drawings.style import BASELINE_SPACING, Style

_INSET = 1.2  # from a column's edge to its text, mm
_ROUNDING = 0.001  # mm
_LEAST_COLUMN = 18.0  # below this a column of broken words cannot be read, mm
_PAD = 0.6  # above and below the capitals of a row, in their heights


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table.

    Attributes:
        heading: What stands above it.
        width: Its width, mm; None shares with its like what the others leave.
        anchor: START for words, END for figures that are compared, MIDDLE for single signs.
    """

    heading: str
    width: float | None = None
    anchor: Anchor = Anchor.START

    def __post_init__(self) -> None:
        named("table column", "heading", self.heading)
        if self.width is not None:
            positive(f"table column {self.heading!r}", "width", self.width)


@dataclass(frozen=True, slots=True)
class Placed:
    """Marks and the paper they take.

    Attributes:
        marks: What is drawn.
        box: The paper used, mm.
    """

    marks: tuple[Mark, ...]
    box: PaperBox


def table_marks(
    columns: Sequence[Column],
    rows: Sequence[Sequence[str]],
    *,
    at: PaperPoint,
    width: float,
    style: Style,
    title: str = "",
) -> Placed:
    """A ruled table as one group ``table``.

    Args:
        columns: From the left to the right.
        rows: From the top down; each has one text for each column, "" for an empty cell.
        at: Top left corner of the table, or of its title.
        width: Width of the whole table, mm.
        style: Heights of the lettering.
        title: Stands above the table; "" for none.

    Returns:
        The marks and the paper they take, title included.

    Raises:
        SizeError: A row has too many or too few cells, or the columns need more width.
        UnknownNameError: The drawing font lacks a letter.
    """
    positive("table", "width", width)
    if not columns:
        raise SizeError("table: there are no columns; there must be at least one", limit=1)
    for index, row in enumerate(rows):
        if len(row) != len(columns):
            raise SizeError(
                f"table {title!r}: row {index + 1} has {len(row)} cells; it must have "
                f"{len(columns)}, one for each column",
                part=title,
                value=len(row),
                limit=len(columns),
            )
    edges = _column_edges(columns, rows, at.x, width, style)
    marks: list[Mark] = []
    top = at.y
    if title:
        top += style.heading_height
        marks.append(Text(PaperPoint(at.x, top), title, style.heading_height, is_bold=True))
        top += style.note_height
    heads = tuple(column.heading for column in columns)
    foot = _row_foot(heads, edges, top, style, is_heading=True)
    marks.append(outline(PaperBox(edges[0], top, edges[-1], foot), Ink.SHADE))
    marks += _row_texts(heads, columns, edges, top, style, is_heading=True)
    for row in rows:
        marks.append(rule(edges[0], foot, edges[-1], foot, Ink.TABLE))
        marks += _row_texts(row, columns, edges, foot, style)
        foot = _row_foot(row, edges, foot, style)
    marks += [rule(x, top, x, foot, Ink.TABLE) for x in edges[1:-1]]
    marks.append(outline(PaperBox(edges[0], top, edges[-1], foot), Ink.TABLE))
    box = PaperBox(at.x, at.y, at.x + width, foot)
    return Placed((Group("table", tuple(marks), title=title),), box)


def _column_edges(
    columns: Sequence[Column],
    rows: Sequence[Sequence[str]],
    left: float,
    width: float,
    style: Style,
) -> tuple[float, ...]:
    """Left edge of each column and the right edge of the last, mm.

    Columns without a width share the rest: each gets what its longest word needs, the widest
    only what is there, so that their longest words are broken; then those
    whose cells are nearly in one line get what they lack before those that must wrap anyhow;
    what is over at last is spread evenly.
    """
    free = [index for index, column in enumerate(columns) if column.width is None]
    widths = [column.width or 0.0 for column in columns]
    lacking: dict[int, float] = {}
    for index in free:
        cells = [columns[index].heading, *(row[index] for row in rows)]
        words = [word for cell in cells for word in cell.split()]
        widths[index] = max(_natural(word, style) for word in words)
        lacking[index] = max(_natural(cell, style) for cell in cells) - widths[index]
    rest = width - sum(widths)
    if rest < -_ROUNDING and free:
        most = _level([widths[index] for index in free], rest + sum(widths[i] for i in free))
        for index in free:
            widths[index] = min(widths[index], most)
        rest = width - sum(widths)
    if rest < -_ROUNDING or (rest > _ROUNDING and not free):
        raise SizeError(
            f"table: its columns take {number(sum(widths), 1)} mm; it is "
            f"{number(width, 1)} mm wide",
            value=width,
            limit=sum(widths),
        )
    for count, index in enumerate(sorted(free, key=lambda index: (lacking[index], index))):
        share = min(lacking[index], rest / (len(free) - count))
        widths[index] += share
        rest -= share
    for index in free:
        widths[index] += rest / len(free)
    return tuple(accumulate(widths, initial=left))


def _level(widths: Sequence[float], room: float) -> float:
    """The most that a column may take for several to fit, mm, not below what a few letters need.

    Only the widest give way; their long words are broken where the line ends.
    """
    most = 0.0
    for count, width in enumerate(sorted(widths)):
        most = room / (len(widths) - count)
        if width >= most:
            break
        room -= width
    return max(most, _LEAST_COLUMN)


def _natural(text: str, style: Style) -> float:
    # Bold, the wider of the two, so that a heading never needs more.
    return text_width(text, style.note_height, is_bold=True) + 2 * _INSET


def _cell_lines(
    text: str, left: float, right: float, style: Style, *, is_heading: bool
) -> tuple[str, ...]:
    # The edges are sums of widths measured for just these texts.
    width = right - left - 2 * _INSET + _ROUNDING
    return wrapped(text, width, style.note_height, is_heading)


def _row_foot(
    row: Sequence[str],
    edges: Sequence[float],
    top: float,
    style: Style,
    *,
    is_heading: bool = False,
) -> float:
    """Where a row that begins at ``top`` ends, mm: its tallest cell and the air around it."""
    most = max(
        len(_cell_lines(cell, left, right, style, is_heading=is_heading))
        for cell, (left, right) in zip(row, pairwise(edges), strict=True)
    )
    return top + style.note_height * (1 + 2 * _PAD + BASELINE_SPACING * max(0, most - 1))


def _row_texts(
    row: Sequence[str],
    columns: Sequence[Column],
    edges: Sequence[float],
    top: float,
    style: Style,
    *,
    is_heading: bool = False,
) -> list[Text]:
    height = style.note_height
    texts = []
    for cell, column, (left, right) in zip(row, columns, pairwise(edges), strict=True):
        x = {
            Anchor.START: left + _INSET,
            Anchor.MIDDLE: (left + right) / 2,
            Anchor.END: right - _INSET,
        }[column.anchor]
        lines = _cell_lines(cell, left, right, style, is_heading=is_heading)
        for index, line in enumerate(lines):
            y = top + height * (1 + _PAD + BASELINE_SPACING * index)
            texts.append(Text(PaperPoint(x, y), line, height, column.anchor, is_bold=is_heading))
    return texts
