"""What is to be read beside a template: tables, numbered notes and a key of its lines."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Protocol

from cabinet.errors import SizeError
from drawings.fitting import wrapped
from drawings.marks import Group, Ink, Mark, PaperBox, PaperPoint, Text
from drawings.notes import notes_marks
from drawings.ruling import rule
from drawings.style import BASELINE_SPACING, Style
from drawings.table import Column, Placed, table_marks

_ORIGIN = PaperPoint(0.0, 0.0)
_SAMPLE = 18.0  # length of a line in the key, mm
_SAMPLE_GAP = 3.0  # from it to its meaning, mm
_GOES_ON, _CONTINUED = " (goes on)", ", continued"


class Words(Protocol):
    """Something to be read beside the drawing."""

    def placed(self, at: PaperPoint, width: float, style: Style) -> Placed:
        """Its marks in the given width, mm, from the top left corner down."""

    def split(self, room: float, width: float, style: Style) -> tuple[Words | None, Words | None]:
        """What fits into ``room`` mm of height, and what is left over."""


def _all_or_none(
    words: Words, room: float, width: float, style: Style
) -> tuple[Words | None, Words | None]:
    fits = words.placed(_ORIGIN, width, style).box.height <= room
    return (words, None) if fits else (None, words)


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """A table.

    Attributes:
        title: Stands above it.
        columns: From the left to the right.
        rows: From the top down, one text for each column.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]

    def placed(self, at: PaperPoint, width: float, style: Style) -> Placed:
        """The table as marks."""
        return table_marks(
            self.columns, self.rows, at=at, width=width, style=style, title=self.title
        )

    def split(self, room: float, width: float, style: Style) -> tuple[Words | None, Words | None]:
        """As many rows as fit, and a table of the others under the same headings.

        Each title says that there is more: a maker may have only one of the sheets in hand.
        """
        if _height(self, width, style) <= room:
            return self, None
        title = self.title.removesuffix(_CONTINUED)
        for count in range(len(self.rows) - 1, 0, -1):
            part = replace(self, title=f"{self.title}{_GOES_ON}", rows=self.rows[:count])
            if _height(part, width, style) <= room:
                return part, replace(self, title=f"{title}{_CONTINUED}", rows=self.rows[count:])
        return None, self


def _height(listing: Listing, width: float, style: Style) -> float:
    try:
        return listing.placed(_ORIGIN, width, style).box.height
    except SizeError:
        # Its longest words need more than this width.
        return math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """Numbered notes; they are short and stand together."""

    notes: tuple[str, ...]
    heading: str = "How to use it"

    def placed(self, at: PaperPoint, width: float, style: Style) -> Placed:
        """The notes as marks."""
        return notes_marks(self.notes, at=at, width=width, style=style, heading=self.heading)

    def split(self, room: float, width: float, style: Style) -> tuple[Words | None, Words | None]:
        """All of the notes or none."""
        return _all_or_none(self, room, width, style)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineKey:
    """What the lines of the template are: the ink of each and its meaning."""

    lines: tuple[tuple[Ink, str], ...]

    def placed(self, at: PaperPoint, width: float, style: Style) -> Placed:
        """A sample of each line with its meaning beside it."""
        height = style.note_height
        x, baseline = at.x + _SAMPLE + _SAMPLE_GAP, at.y + height
        marks: list[Mark] = []
        for ink, meaning in self.lines:
            middle = baseline - height / 2
            marks.append(rule(at.x, middle, at.x + _SAMPLE, middle, ink))
            for line in wrapped(meaning, at.x + width - x, height):
                marks.append(Text(PaperPoint(x, baseline), line, height))
                baseline += height * BASELINE_SPACING
        foot = baseline - height * (BASELINE_SPACING - 0.3)
        box = PaperBox(at.x, at.y, at.x + width, foot)
        return Placed((Group("key", tuple(marks), title="What the lines are"),), box)

    def split(self, room: float, width: float, style: Style) -> tuple[Words | None, Words | None]:
        """All of the key or none."""
        return _all_or_none(self, room, width, style)
