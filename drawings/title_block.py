"""The title block of a sheet: fields by ISO 7200, in a layout of our own.

180 mm wide in the lower right corner of the drawing space, which on an A4 is the whole foot.
The sizes of the fields hold what ISO 7200 recommends; a longer text gets smaller, then two
lines, and is cut visibly if nothing else helps. A date that nobody gave stays an empty field,
to be filled in by hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from msgspec import structs

from cabinet.errors import SizeError
from cabinet.quantity import named, whole
from drawings.fitting import FittedText, fitted
from drawings.marks import Circle, Group, Ink, Line, Mark, PaperBox, PaperPoint, Polyline, Text
from drawings.paper import SheetSize, drawing_space, style_for
from drawings.ruling import outline, rule
from drawings.style import BASELINE_SPACING, Style

WIDTH = 180.0
"""Width of the title block on all sheets, mm. Source: ISO 7200:2004."""

HEIGHT = 36.0
"""Height of the title block, mm; ISO 7200 leaves it free."""

_ROW = HEIGHT / 3
_INSET = 1.4  # from a field's left edge to its text, mm
_CAPTION_BASELINE = 3.3  # from a field's top, mm
_VALUE_BASELINE = 9.8  # of a value on one line, from a field's top, mm
_FIRST_OF_TWO_BASELINE = 7.0  # of a value on two lines, mm
_TITLE_HEIGHT = 7.0  # of a title that is short enough, mm
SHEET_OF = "sheet-of"
"""Class of the group that tells which sheet of how many this is."""

DATE_OF_ISSUE = "date-of-issue"
"""Class of the group that holds the date."""

REVISION_INDEX = "revision-index"
"""Class of the group that holds the index of the revision."""

_SYMBOL_HEIGHT = 2.5  # h of the projection symbol, mm; its circles are 2h

# Left edges of the four columns, mm from the block's left, and its right edge. Twenty
# characters need 38 mm at 2.5 mm, thirty need two lines of 43 mm, sixteen figures 33.6.
_PEOPLE, _SUBJECT, _MAKING, _NAME, _RIGHT = 0.0, 40.0, 83.0, 118.5, WIDTH


_DATE_END = _PEOPLE + 28.0
_NUMBER_END, _REVISION_END = _NAME + 33.6, _NAME + 42.8


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """What the title block says.

    The first eight are mandatory in ISO 7200; of these, ``date_of_issue`` and
    ``approval_person`` may be left blank here, to be filled in by hand.

    Attributes:
        legal_owner: Whose drawing it is.
        identification_number: Number of the drawing, 16 characters recommended.
        date_of_issue: ISO 8601, 10 characters; blank for an empty field.
        sheet_number: Which sheet this is, from 1.
        sheet_count: How many sheets there are.
        title: What is drawn, 25 characters recommended.
        approval_person: Who approved it, 20 characters; blank for an empty field.
        creator: Who made it, 20 characters.
        document_type: Part drawing, assembly drawing ..., 30 characters.
        supplementary_title: Which unit it belongs to, 25 characters.
        revision: Index of the revision, 2 characters.
        scale: Main scale with others in brackets, ``1:5 (1:1)``.
        material: Board and measured thickness.
        general_tolerance: Standard and class, ``ISO 2768-c``.
        pieces: How many are made of it, in words or figures.
    """

    legal_owner: str
    identification_number: str
    date_of_issue: str
    sheet_number: int
    sheet_count: int
    title: str
    approval_person: str
    creator: str
    document_type: str
    supplementary_title: str = ""
    revision: str = ""
    scale: str = ""
    material: str = ""
    general_tolerance: str = ""
    pieces: str = ""

    def __post_init__(self) -> None:
        owner = "title block"
        for name in (
            "legal_owner",
            "identification_number",
            "title",
            "creator",
            "document_type",
        ):
            named(owner, name, getattr(self, name))
        for name in (
            "date_of_issue",
            "approval_person",
            "supplementary_title",
            "revision",
            "scale",
            "material",
            "general_tolerance",
            "pieces",
        ):
            value = getattr(self, name)
            if not isinstance(value, str) or not value.isprintable():
                raise SizeError(
                    f"{owner}: {name} is {value!r}; it must be one line of text",
                    part=owner,
                    value=value,
                    limit="one printable line",
                )
        whole(owner, "sheet_count", self.sheet_count, 1, 9999)
        whole(owner, "sheet_number", self.sheet_number, 1, self.sheet_count, why="sheet_count")


def title_block_box(size: SheetSize) -> PaperBox:
    """Where the title block stands on a sheet, mm: the lower right of the drawing space."""
    space = drawing_space(size)
    return PaperBox(space.right - WIDTH, space.bottom - HEIGHT, space.right, space.bottom)


def title_block_marks(block: TitleBlock, size: SheetSize, style: Style) -> tuple[Mark, ...]:
    """The title block as one group ``title-block``.

    Raises:
        UnknownNameError: The drawing font lacks a letter of one of its texts.
    """
    box = title_block_box(size)
    fields = _fields(block, size)
    marks: list[Mark] = [outline(box, Ink.FRAME)]
    drawn = [_drawn(field, box, style.label_height) for field in fields]
    marks += [ruling for rulings, _ in drawn for ruling in rulings]
    marks += [text for _, texts in drawn for text in texts]
    marks.append(_date_of_issue(block.date_of_issue, size, style))
    marks.append(_revision_index(block.revision, size, style))
    marks.append(_sheet_of(block.sheet_number, block.sheet_count, size, style))
    marks += _title_texts(block, box)
    symbol_middle = PaperPoint(box.left + (_MAKING + _NAME) / 2, box.bottom - 4.3)
    marks += projection_symbol(symbol_middle)
    return (Group("title-block", tuple(marks)),)


@dataclass(frozen=True, slots=True)
class _Field:
    """One field: its edges in mm from the block's left, its row, its caption and value."""

    left: float
    right: float
    row: int
    caption: str
    value: str
    tallest: float = 3.5
    rows: int = 1

    def rulings(self, block: PaperBox) -> tuple[Line, ...]:
        """Its right edge and its foot, where these are not the block's own."""
        right, foot = block.left + self.right, block.top + (self.row + self.rows) * _ROW
        top = block.top + self.row * _ROW
        edges = []
        if self.right < WIDTH:
            edges.append(rule(right, top, right, foot, Ink.TABLE))
        if foot < block.bottom:
            edges.append(rule(block.left + self.left, foot, right, foot, Ink.TABLE))
        return tuple(edges)

    def texts(self, block: PaperBox, height: float) -> tuple[Text, ...]:
        """The caption, so many mm high, and below it the value on one line or two."""
        x, top = block.left + self.left + _INSET, block.top + self.row * _ROW
        caption = Text(PaperPoint(x, top + _CAPTION_BASELINE), self.caption, height)
        width = self.right - self.left - 2 * _INSET
        fit = fitted(self.value, width=width, tallest=self.tallest)
        first = _VALUE_BASELINE if len(fit.lines) < 2 else _FIRST_OF_TWO_BASELINE
        return (caption, *_lines(fit, PaperPoint(x, top + first)))


# Most fields say the same on all sheets of a job.
@lru_cache(maxsize=256)
def _drawn(
    field: _Field, block: PaperBox, height: float
) -> tuple[tuple[Line, ...], tuple[Text, ...]]:
    """A field's rulings and its texts, with a caption so many mm high."""
    return field.rulings(block), field.texts(block, height)


def _sheet_of(number: int, count: int, size: SheetSize, style: Style) -> Group:
    """The field that tells which sheet of how many this is, in a group of its own."""
    field = _Field(_REVISION_END, _RIGHT, 2, "sheet", f"{number} of {count}")
    return Group(SHEET_OF, field.texts(title_block_box(size), style.label_height))


def _date_of_issue(date: str, size: SheetSize, style: Style) -> Group:
    """The field with the date, in a group of its own: a new date alone is no new drawing."""
    field, box = _Field(_PEOPLE, _DATE_END, 2, "date of issue", date), title_block_box(size)
    rulings, texts = _drawn(field, box, style.label_height)
    return Group(DATE_OF_ISSUE, (*rulings, *texts))


def _revision_index(letter: str, size: SheetSize, style: Style) -> Group:
    """The field with the index of the revision, in a group of its own."""
    field = _Field(_NUMBER_END, _REVISION_END, 2, "rev.", letter, 5.0)
    box = title_block_box(size)
    rulings, texts = _drawn(field, box, style.label_height)
    return Group(REVISION_INDEX, (*rulings, *texts))


def counted(marks: Sequence[Mark], number: int, count: int, size: SheetSize) -> tuple[Mark, ...]:
    """A sheet's marks with the number of sheets in its title block, once all are drawn.

    Args:
        marks: All marks of the sheet.
        number: Which sheet it is.
        count: How many there are.
        size: Its paper.
    """
    return _with_field(marks, _sheet_of(number, count, size, style_for(size)))


def revised_marks(marks: Sequence[Mark], letter: str, size: SheetSize) -> tuple[Mark, ...]:
    """A sheet's marks with the index of its revision in the title block.

    Args:
        marks: All marks of the sheet.
        letter: The index, "" for a first issue.
        size: Its paper.
    """
    return _with_field(marks, _revision_index(letter, size, style_for(size)))


def _with_field(marks: Sequence[Mark], field: Group) -> tuple[Mark, ...]:
    """The marks with a field of the title block exchanged for another of its class."""

    def told(mark: Mark) -> Mark:
        if not isinstance(mark, Group) or mark.name != "title-block":
            return mark
        inner = tuple(
            field if isinstance(m, Group) and m.name == field.name else m for m in mark.marks
        )
        return structs.replace(mark, marks=inner)

    return tuple(told(mark) for mark in marks)


def _lines(fit: FittedText, at: PaperPoint, *, is_bold: bool = False) -> tuple[Text, ...]:
    """The lines of a fitted text, the first one's baseline starting at ``at``."""
    pitch = fit.height * BASELINE_SPACING
    return tuple(
        Text(at.moved(0.0, index * pitch), line, fit.height, is_bold=is_bold)
        for index, line in enumerate(fit.lines)
    )


def _fields(block: TitleBlock, size: SheetSize) -> tuple[_Field, ...]:
    scale_end = _MAKING + 21.6
    return (
        _Field(_PEOPLE, _SUBJECT, 0, "drawn by", block.creator),
        _Field(_PEOPLE, _SUBJECT, 1, "approved by", block.approval_person),
        _Field(_DATE_END, _SUBJECT, 2, "paper", size.name),
        _Field(_SUBJECT, _MAKING, 0, "legal owner", block.legal_owner),
        _Field(_SUBJECT, _MAKING, 1, "document type", block.document_type),
        _Field(_SUBJECT, _MAKING, 2, "material", block.material),
        _Field(_MAKING, scale_end, 0, "scale", block.scale),
        _Field(scale_end, _NAME, 0, "pieces", block.pieces),
        _Field(_MAKING, _NAME, 1, "general tolerance", block.general_tolerance),
        _Field(_MAKING, _NAME, 2, "dimensions in mm", ""),
        _Field(_NAME, _RIGHT, 0, "title", "", rows=2),
        _Field(_NAME, _NUMBER_END, 2, "number", block.identification_number, 5.0),
    )


def _title_texts(block: TitleBlock, box: PaperBox) -> tuple[Text, ...]:
    """The title, as large as it can be, and the supplementary title at the field's foot."""
    x, width = box.left + _NAME + _INSET, _RIGHT - _NAME - 2 * _INSET
    title = fitted(block.title, width=width, tallest=_TITLE_HEIGHT, is_bold=True)
    below = fitted(block.supplementary_title, width=width, tallest=3.5, most_lines=1)
    # Centred between the caption's foot and the supplementary title's head.
    rise = title.height * (1 + BASELINE_SPACING * (len(title.lines) - 1))
    middle = box.top + (_CAPTION_BASELINE + 21.0 - below.height) / 2
    first = PaperPoint(x, middle - rise / 2 + title.height)
    return (
        *_lines(title, first, is_bold=True),
        *_lines(below, PaperPoint(x, box.top + 21.0)),
    )


@lru_cache(maxsize=16)
def projection_symbol(middle: PaperPoint) -> tuple[Mark, ...]:
    """The symbol of first angle projection, as one group ``projection-symbol``.

    A frustum seen from the side, its small end to the left, and to the right of it what is
    seen from the left: two circles, both of them visible outlines. So the large end is next to
    the circles. Small end d = h, large end 2h, length 2h, line width h/10.
    Source: ISO 5456-2:1996 for the placing; proportions from memory of its annex.

    Args:
        middle: Middle of the whole symbol.
    """
    h = _SYMBOL_HEIGHT
    gap = 1.2 * h
    length = 2 * h + gap + 2 * h
    x, y = middle.x - length / 2, middle.y
    frustum = (
        PaperPoint(x, y - h / 2),
        PaperPoint(x + 2 * h, y - h),
        PaperPoint(x + 2 * h, y + h),
        PaperPoint(x, y + h / 2),
    )
    eye = PaperPoint(x + 2 * h + gap + h, y)
    over = 0.3 * h
    return (
        Group(
            "projection-symbol",
            (
                Polyline(frustum, Ink.NARROW, closed=True),
                Circle(eye, h / 2, Ink.NARROW),
                Circle(eye, h, Ink.NARROW),
                rule(x - over, y, x + 2 * h + over, y, Ink.CENTRE),
                rule(eye.x - h - over, y, eye.x + h + over, y, Ink.CENTRE),
                rule(eye.x, y - h - over, eye.x, y + h + over, Ink.CENTRE),
            ),
            title="First angle projection",
        ),
    )
