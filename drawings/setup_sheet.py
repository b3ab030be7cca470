"""The set-up sheets for the bench: one block a setting, in the order with the fewest changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cabinet.making.operation import Guide, Phase
from cabinet.making.setting import Change, Setting, SetUps
from cabinet.workshop import Workshop
from drawings import cautions
from drawings.fitting import fitted, wrapped
from drawings.lettering import text_width
from drawings.list_pages import numbered
from drawings.marks import Anchor, Group, Ink, Mark, PaperBox, PaperPoint, Text
from drawings.notes import notes_marks
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.ruling import outline, rule
from drawings.setup_sketch import sketch
from drawings.setup_words import BOX, Figure, Row, figures, heading, is_fine, rows, tests_first
from drawings.sheet import Sheet
from drawings.style import BASELINE_SPACING, Style
from drawings.title_block import TitleBlock, title_block_box, title_block_marks

_SIZE = SheetSize.A3
_COLUMNS = 2
_INSET = 5.0
_GUTTER = 8.0
_GAP = 3.0  # between two blocks, mm
_HEAD = 7.5  # height of a block's heading, mm
_SKETCH = (58.0, 35.0)
_TALLEST = 50.0  # of a sketch in a tall block, mm
_FIGURES = 36.0  # width of the large figures, mm
_LARGE = (10.0, 7.0, 5.0, 3.5)  # heights of the main figures, the first that fits, mm
_SMALL = (5.0, 3.5, 2.5)  # the same for the others, mm
_PAD = 1.6

# How a guide is called where it was moved, short enough for a block's heading.
_SHORT = {
    Guide.FENCE: "fence",
    Guide.STRAIGHT_EDGE: "straight-edge",
    Guide.TEMPLATE: "template",
    Guide.JIG: "jig",
    Guide.BEARING: "bearing",
    Guide.MARKS: "marks",
}

_FINE = (
    "Fences, stops and depths are set to a tenth. A second decimal comes of a thickness measured to "
    "a hundredth, or of the middle between two edges: set the tenth beside it that the test cut fits."
)
_NOTES = (
    (
        "Measure the board before the first cut; every distance here follows from its measured "
        "thickness."
    ),
    (
        "Order of the blocks: what has to come first, then the fewest changes. A tool stays as it "
        "is set while another one works."
    ),
    (
        "A test cut in an offcut of the same board comes before each setting's first part; try "
        "the part that goes in."
    ),
    (
        "Straight-edge: its face lies at the marked distance, the router's base runs along it. "
        "Saw with a guard and a riving knife; pieces shorter than 300 are held in a sled or on a "
        "longer carrier board, never by hand."
    ),
    (
        "Rout in steps no deeper than the cutter is thick, against the turn of the cutter; a waste "
        "board under whatever goes through. All of a board's slots and holes from the end or edge "
        "that is named, which is marked on it."
    ),
    cautions.BLADES,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Block:
    """One setting laid out from the top left corner of its own paper."""

    setting: Setting
    workshop: Workshop
    width: float
    style: Style

    @property
    def _rows(self) -> tuple[Row, ...]:
        return rows(self.setting, self.workshop)

    @property
    def _columns(self) -> tuple[float, float, float]:
        """Left edges of sketch, figures and rows, mm from the block's left."""
        return 0.0, _SKETCH[0], _SKETCH[0] + _FIGURES

    @property
    def height(self) -> float:
        """Height of the block, mm."""
        return _HEAD + max(_SKETCH[1], self._figures_height, self._rows_height)

    @property
    def _pitch(self) -> float:
        return self.style.note_height * BASELINE_SPACING

    def _row_lines(self, row: Row) -> list[tuple[str, bool]]:
        """Lines of a row, the boards' names in the heavier cut."""
        room = self.width - self._columns[2] - 2 * _PAD
        height = self.style.note_height
        boxes = BOX * row.pieces if row.pieces <= 10 else f"{BOX} {row.pieces} pieces"
        lines = [
            (line, True) for line in wrapped(f"{boxes} {row.boards}", room, height, is_bold=True)
        ]
        for text in row.sentences:
            lines += [(line, False) for line in wrapped(text, room, height)]
        return lines

    @property
    def _rows_height(self) -> float:
        total = 2 * _PAD
        if tests_first(self.setting):
            total += self._pitch + 1.0
        return total + sum(len(self._row_lines(r)) * self._pitch + 1.4 for r in self._rows)

    @property
    def _figures_height(self) -> float:
        total = 2 * _PAD
        for one in figures(self.setting, self.workshop):
            total += self._caption_lines(one.caption) * self._pitch + self._large(one) + 2.4
        return total

    def _caption_lines(self, caption: str) -> int:
        room = _FIGURES - 2 * _PAD - 5.0
        return len(wrapped(caption, room, self.style.note_height))

    def _large(self, one: Figure) -> float:
        room = _FIGURES - 2 * _PAD - 5.0
        heights = _LARGE if one.is_main else _SMALL
        fits = (h for h in heights if text_width(one.value, h, is_bold=True) <= room)
        return next(fits, heights[-1])

    def marks(self, left: float, top: float) -> Group:
        """The block with its top left corner there."""
        setting, style = self.setting, self.style
        box = PaperBox(left, top, left + self.width, top + self.height)
        body = top + _HEAD
        found: list[Mark] = [
            outline(PaperBox(left, top, box.right, body), Ink.SHADE),
            outline(box, Ink.TABLE),
            rule(left, body, box.right, body, Ink.TABLE),
            *self._heading(left, top),
        ]
        edges = [left + offset for offset in self._columns]
        found += [rule(x, body, x, box.bottom, Ink.TABLE) for x in edges[1:]]
        space = PaperBox(left, body, edges[1], body + min(_TALLEST, box.bottom - body))
        found.append(sketch(setting, self.workshop, space, style))
        found += self._figures(edges[1], body)
        found += self._row_marks(edges[2], body)
        return Group("table", tuple(found), title=f"set-up {setting.number}")

    def _heading(self, left: float, top: float) -> list[Text]:
        setting, style = self.setting, self.style
        base = top + _HEAD - 1.9
        title = f"{setting.number}  {heading(setting)}"
        changed = ", ".join(
            _SHORT[setting.stand.guide] if change is Change.GUIDE else change.value
            for change in setting.changes
            if change is not Change.TOOL
        )
        told = f"changed: {changed}" if changed else ""
        if Change.TOOL in setting.changes or not setting.changes:
            told = f"tool in hand; {told}" if told else "tool in hand"
        if setting.stand.phase is not Phase.FLAT:
            told = f"{setting.stand.phase.value}; {told}"
        height = style.heading_height
        room = self.width - 2 * _PAD - text_width(title, height, is_bold=True) - 6.0
        if text_width(told, style.note_height) > room:
            # Beside a long heading, what is changed stands without the word.
            told = told.removeprefix("changed: ")
        fit = fitted(told, width=room, tallest=style.note_height, most_lines=1)
        found = [Text(PaperPoint(left + _PAD, base), title, height, is_bold=True)]
        for line in fit.lines:
            end = PaperPoint(left + self.width - _PAD, base)
            found.append(Text(end, line, fit.height, Anchor.END))
        return found

    def _figures(self, left: float, top: float) -> list[Text]:
        found = []
        y = top + _PAD
        height = self.style.note_height
        for one in figures(self.setting, self.workshop):
            room = _FIGURES - 2 * _PAD - 5.0
            if one.letter:
                at = PaperPoint(left + _PAD, y + self.style.figure_height)
                found.append(Text(at, one.letter, self.style.figure_height))
            for line in wrapped(one.caption, room, height):
                y += self._pitch
                found.append(Text(PaperPoint(left + _PAD + 5.0, y), line, height))
            large = self._large(one)
            y += large + 1.6
            found.append(Text(PaperPoint(left + _PAD + 5.0, y), one.value, large, is_bold=True))
            y += 0.8
        return found

    def _row_marks(self, left: float, top: float) -> list[Text]:
        height = self.style.note_height
        found = []
        y = top + _PAD
        if tests_first(self.setting):
            y += self._pitch
            found.append(Text(PaperPoint(left + _PAD, y), f"{BOX} test cut in an offcut", height))
            y += 1.0
        for row in self._rows:
            for line, is_bold in self._row_lines(row):
                y += self._pitch
                found.append(Text(PaperPoint(left + _PAD, y), line, height, is_bold=is_bold))
            y += 1.4
        return found


def set_up_sheets(made: SetUps, workshop: Workshop, block: TitleBlock) -> tuple[Sheet, ...]:
    """The settings as blocks on as many sheets as they need.

    Args:
        made: The settings in their order.
        workshop: The tools that they are for.
        block: Title block of the first sheet; number and sheet number count on from it, title
            and document type are filled in here.

    Raises:
        SizeError: a setting with more boards than a whole column holds.
    """
    style = style_for(_SIZE)
    space = drawing_space(_SIZE)
    width = (space.width - 2 * _INSET - _GUTTER) / _COLUMNS
    pages: list[list[Mark]] = [[]]
    column, y = 0, space.top + _INSET
    for group in _summary(made, workshop, space.left + _INSET, y, width, style):
        pages[0].append(group.marks)
        y = group.foot + _GAP
    for one in _blocks(made, workshop, width, style):
        if y + one.height > _foot(column) + 0.01:
            column += 1
            if column == _COLUMNS:
                pages.append([])
                column = 0
            y = space.top + _INSET
        x = space.left + _INSET + column * (width + _GUTTER)
        pages[-1].append(one.marks(x, y))
        y += one.height + _GAP
    return tuple(
        _sheet(numbered(block, index), marks, index, len(pages))
        for index, marks in enumerate(pages)
    )


def _foot(column: int) -> float:
    """Where a column ends: the last one above the title block."""
    if column == _COLUMNS - 1:
        return title_block_box(_SIZE).top - _GAP
    return drawing_space(_SIZE).bottom - _INSET


def _blocks(made: SetUps, workshop: Workshop, width: float, style: Style) -> list[_Block]:
    return [
        _Block(setting=setting, workshop=workshop, width=width, style=style)
        for setting in made.settings
    ]


@dataclass(frozen=True, slots=True)
class _Placed:
    marks: Group
    foot: float


def _summary(
    made: SetUps, workshop: Workshop, left: float, top: float, width: float, style: Style
) -> Sequence[_Placed]:
    """What the order costs, and how to use the sheets."""
    counted = ", ".join(f"{count} × {change.value}" for change, count in made.changes if count)
    proof = (
        "no order of these settings has fewer"
        if made.is_proven
        else f"no order has fewer than {made.bound}"
    )
    notes = (
        f"{len(made.settings)} settings, {made.total} changes between them ({counted}): {proof}.",
        *((_FINE,) if any(is_fine(one, workshop) for one in made.settings) else ()),
        *_NOTES,
    )
    placed = notes_marks(
        notes, at=PaperPoint(left, top), width=width, style=style, heading="Set-ups"
    )
    return (_Placed(Group("notes", placed.marks, title="Set-ups"), placed.box.bottom),)


def _sheet(block: TitleBlock, marks: Sequence[Mark], index: int, count: int) -> Sheet:
    style = style_for(_SIZE)
    title = "Set-ups" if count == 1 else f"Set-ups, {index + 1} of {count}"
    filled = replace(block, title=title, document_type="set-up sheet", general_tolerance="")
    return Sheet(
        number=block.sheet_number,
        name="set-ups" if count == 1 else f"set-ups-{index + 1}",
        title=title,
        size=_SIZE,
        marks=(*frame_marks(_SIZE, style), *title_block_marks(filled, _SIZE, style), *marks),
    )


__all__ = ["set_up_sheets"]
