"""What is different since an earlier job: by part, by sheet and by cut, under one letter."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from cabinet.design import Unit
from cabinet.making.cut_list import cut_list, cut_record
from cabinet.making.earlier import piece_of
from cabinet.making.hardware_list import hardware_list
from cabinet.making.rework import Change, Fate, compared
from cabinet.record import Record
from drawings.clutter import sheet_clutter
from drawings.earlier_job import EarlierJob
from drawings.layout import free_spot
from drawings.marks import Group, Mark, PaperPoint
from drawings.number import dimension_text
from drawings.paper import SheetSize, drawing_space, style_for
from drawings.sheet import Sheet
from drawings.sheet_svg import sheet_svg
from drawings.table import Column, table_marks
from drawings.title_block import DATE_OF_ISSUE, REVISION_INDEX, SHEET_OF, revised_marks

# I and O are left out, for they read as figures (common practice, no source).
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
TABLE = "revision-table"
"""Class of the group that holds a sheet's table of revisions."""

_WIDTHS = (120.0, 96.0, 76.0)  # of the table that are tried, mm
_CLEAR = 2.5  # from the table to anything else, mm
_STEP = 3.0  # how finely a free place is looked for, mm
# The key shows the rest of the unit, which this sheet does not tell of.
_VOLATILE = re.compile(
    rf'<g class="(?:{SHEET_OF}|{REVISION_INDEX}|{DATE_OF_ISSUE}|{TABLE}|key)"[^>]*>(?:(?!<g\b).)*?</g>',
    re.DOTALL,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """All that is different since an earlier job.

    Attributes:
        letter: Index of the revision; the earlier one's if nothing is different.
        earlier: The earlier job's index, "" for a first issue.
        changes: What becomes of every part, in the order of the parts.
        sheets: Titles of the sheets that are different, by number.
        letters: Every sheet's index, by number.
        cuts: What is different in the list of blanks, one sentence each.
        other: What else is different, one sentence each.
    """

    letter: str
    earlier: str
    changes: tuple[Change, ...]
    sheets: Mapping[int, str]
    letters: Mapping[int, str]
    cuts: tuple[str, ...]
    other: tuple[str, ...]

    @property
    def is_any(self) -> bool:
        """Whether anything is different."""
        return self.letter != self.earlier

    def of(self, fate: Fate) -> tuple[Change, ...]:
        """The changes with one fate."""
        return tuple(change for change in self.changes if change.fate is fate)


def next_letter(letter: str) -> str:
    """The index after another: A after none, B after A, AA after Z."""
    if not letter:
        return LETTERS[0]
    place = LETTERS.index(letter[-1]) + 1
    if place < len(LETTERS):
        return letter[:-1] + LETTERS[place]
    return next_letter(letter[:-1]) + LETTERS[0]


def revised(
    earlier: EarlierJob, unit: Unit, drawn: Sequence[Sheet], plans: Record, hanging: Record | None
) -> Revision:
    """Compare a job with an earlier one.

    Args:
        earlier: The earlier job.
        unit: The unit now.
        drawn: The sheets now, without a revision.
        plans: The plans for making it as they will stand in job.json.
        hanging: The unit on its wall as it will stand there; None without a wall.
    """
    changes = _changes(earlier, unit)
    sheets = {
        sheet.number: sheet.title
        for sheet in drawn
        if _lasting(earlier.svgs.get(sheet.name, "")) != _lasting(sheet_svg(sheet))
    }
    cuts = tuple(_cuts(earlier.record["cut_list"], [cut_record(c) for c in cut_list(unit)]))
    other = (
        *_bought(earlier.record, unit),
        *_outline(earlier.record, unit),
        *_settings(earlier.record["setups"], plans["setups"]),
        *_hanging(earlier.record["hanging"], hanging),
    )
    is_any = bool(sheets or cuts or other) or any(c.fate is not Fate.SAME for c in changes)
    letter = next_letter(earlier.revision) if is_any else earlier.revision
    letters = {
        sheet.number: letter if sheet.number in sheets else earlier.letters.get(sheet.name, "")
        for sheet in drawn
    }
    return Revision(
        letter=letter,
        earlier=earlier.revision,
        changes=changes,
        sheets=sheets,
        letters=letters,
        cuts=cuts,
        other=other,
    )


def _changes(earlier: EarlierJob, unit: Unit) -> tuple[Change, ...]:
    now = {part.name: piece_of(part) for part in unit.parts}
    dropped = [name for name in earlier.pieces if name not in now]
    return tuple(compared(earlier.pieces.get(name), now.get(name)) for name in (*now, *dropped))


def _lasting(svg: str) -> str:
    """A sheet without what changes on every sheet when the set does."""
    lines = _VOLATILE.sub("", svg).splitlines()
    return "\n".join(line for line in lines if line.strip())


def _cuts(was: list[Record], now: list[Record]) -> Iterable[str]:
    """Blanks that are different, each by the parts that are cut from it."""
    old, new = _by_part(was), _by_part(now)
    for parts in dict.fromkeys((*new, *old)):
        before, after = old.get(parts), new.get(parts)
        if before == after:
            continue
        if before is None:
            yield f"{', '.join(parts)}: cut {after}"
        elif after is None:
            yield f"{', '.join(parts)}: not cut any more ({before})"
        else:
            yield f"{', '.join(parts)}: cut {after} instead of {before}"


def _by_part(lines: list[Record]) -> dict[tuple[str, ...], str]:
    return {
        tuple(line["parts"]): f"{line['pieces']} of {dimension_text(line['length'])} × "
        f"{dimension_text(line['width'])} from {line['board']}"
        for line in lines
    }


def _bought(was: Record, unit: Unit) -> Iterable[str]:
    """What is bought in another number."""
    old = {line["article"]: line["count"] for line in was["hardware_list"]}
    new = {line.article: line.count for line in hardware_list(unit)}
    for article in dict.fromkeys((*new, *old)):
        if old.get(article, 0) != new.get(article, 0):
            yield f"hardware: {new.get(article, 0)} × {article} instead of {old.get(article, 0)}"


def _settings(was: Record, now: Record) -> Iterable[str]:
    """Set-ups that are no longer made, and new ones, by what is set and what is cut."""
    old, new = (
        {_set(setting): setting["number"] for setting in record["settings"]}
        for record in (was, now)
    )
    for told, number in new.items():
        if told not in old:
            yield f"set-up {number} is new or cuts other boards: {told}"
    for told, number in old.items():
        if told not in new:
            yield f"set-up {number} of before is not made as it was: {told}"


def _set(setting: Record) -> str:
    """Everything about a setting but its number."""
    where = ", ".join(dimension_text(value) for value in setting["position"])
    depth = "" if setting["depth"] is None else f", {dimension_text(setting['depth'])} deep"
    parts = dict.fromkeys(name for task in setting["tasks"] for name in task["parts"])
    works = dict.fromkeys(task["operation"] for task in setting["tasks"])
    return (
        f"{setting['tool']}, {setting['guide']} {where}{depth}: {', '.join(works)} "
        f"({', '.join(parts)})"
    )


def _hanging(was: Record | None, now: Record | None) -> Iterable[str]:
    """Another place on the wall, with what that does to its screws."""
    if was is None or now is None or was["at"] == now["at"]:
        return
    ways = (("to the right", "to the left"), ("up", "down"))
    for (ahead, astern), before, after in zip(ways, was["at"], now["at"], strict=True):
        if before != after:
            way = ahead if after > before else astern
            yield f"on the wall: {dimension_text(abs(after - before))} further {way}"
    places = ", ".join(
        f"{dimension_text(x)} from the left and {dimension_text(z)} above the floor"
        for x, z in (screw["at"] for screw in now["screws"])
    )
    if places:
        yield f"its wall screws are now at {places}; stop the old holes"


def _outline(was: Record, unit: Unit) -> Iterable[str]:
    """Another size over all."""
    boxes = (
        (was["outline"]["low"], was["outline"]["high"]),
        (tuple(unit.outline.low), tuple(unit.outline.high)),
    )
    before, after = (
        " × ".join(dimension_text(high - low) for low, high in zip(*box, strict=True))
        for box in boxes
    )
    if before != after:
        yield f"overall width, depth, height: {after} instead of {before}"


def revision_record(revision: Revision) -> Record:
    """The revision as plain data for job.json."""
    return {
        "letter": revision.letter,
        "earlier": revision.earlier,
        "parts": [
            {"part": change.part, "fate": change.fate.value, "steps": list(change.steps)}
            for change in revision.changes
        ],
        "sheets": [{"number": number, "title": title} for number, title in revision.sheets.items()],
        "cuts": list(revision.cuts),
        "other": list(revision.other),
    }


# On the sheets


def with_revision(sheet: Sheet, revision: Revision, date: str) -> Sheet:
    """A sheet with its index in the title block and, if it is different, with its table.

    The table goes where the sheet is free; a full sheet bears its letter only, and the sheet
    of changes tells the rest.

    Args:
        sheet: The sheet.
        revision: What is different.
        date: Date of issue, "" to be written by hand.
    """
    letter = revision.letters[sheet.number]
    marks = revised_marks(sheet.marks, letter, sheet.size)
    if sheet.number in revision.sheets:
        table = _table(marks, sheet.size, (letter, _told(sheet, revision), date))
        marks = (*marks, table) if table is not None else marks
    return replace(sheet, marks=marks)


def _told(sheet: Sheet, revision: Revision) -> str:
    """In a few words what is different on a sheet."""
    steps = [
        step
        for change in revision.changes
        if change.part in sheet.dimensions
        for step in (change.steps or (change.fate.value,))
    ]
    if not steps:
        return "see the sheet of changes"
    rest = f"; and {len(steps) - 1} more on the sheet of changes" if len(steps) > 1 else ""
    return steps[0] + rest


def _table(marks: Sequence[Mark], size: SheetSize, row: tuple[str, str, str]) -> Group | None:
    style, clutter = style_for(size), sheet_clutter(marks)
    columns = (
        Column(heading="rev.", width=10.0),
        Column(heading="what is different"),
        Column(heading="date", width=22.0),
    )
    for width in _WIDTHS:
        tried = table_marks(columns, (row,), at=PaperPoint(0.0, 0.0), width=width, style=style)
        room = drawing_space(size).grown(-_CLEAR)
        spot = free_spot(
            tried.box.width, tried.box.height, clutter, within=room, gap=_CLEAR, step=_STEP
        )
        if spot is not None:
            at = PaperPoint(spot.left, spot.top)
            placed = table_marks(columns, (row,), at=at, width=width, style=style)
            inner = [m for mark in placed.marks for m in _flat(mark)]
            return Group(TABLE, tuple(inner), title=f"Revision {row[0]}")
    return None


def _flat(mark: Mark) -> tuple[Mark, ...]:
    """A group's marks, so that no group stands within the table's own."""
    if isinstance(mark, Group):
        return tuple(m for inner in mark.marks for m in _flat(inner))
    return (mark,)
