"""Tags to cut out and tape on each blank as it comes off the saw.

Each says what the blank is, which face lies up, which edges are the datum, and what comes next.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.board import Surface
from cabinet.design import Unit
from cabinet.features import Bevel, BiscuitSlot, CutOut, Groove, Hole, HoleRow, Notch, Rebate
from cabinet.joint import Housing
from cabinet.making.cut_board import JobCuts, LaidBlank
from cabinet.making.lie import Fate, Verdict
from cabinet.making.rack import FlawKind
from cabinet.part import Part
from cabinet.stock import Hatching
from cabinet.wording import listed
from drawings.cut_words import as_sawn, labels
from drawings.fitting import fitted
from drawings.lettering import text_width
from drawings.marks import Group, Ink, Mark, PaperBox, PaperPoint, Text
from drawings.number import dimension_text
from drawings.paper import SheetSize, drawing_space
from drawings.planned_sheet import PlannedSheet
from drawings.ruling import outline
from drawings.title_block import title_block_box

_SIZE = SheetSize.A4
_COLUMNS, _ROWS = 2, 6
_INSET = 3.0
_PAD = 2.5  # from a tag's edge to its lettering, mm
_ITEM, _NAME, _SMALL = 7.0, 3.5, 2.5  # heights of a tag's lettering, mm
_ITEM_SHARE = 0.28  # of a tag's width that its item number takes at most

# What is done to a board, in the order in which it is mostly done.
_WORK: tuple[tuple[type, str], ...] = (
    (Rebate, "rebates"),
    (Groove, "grooves"),
    (BiscuitSlot, "slots"),
    (HoleRow, "rows of holes"),
    (Hole, "holes"),
    (CutOut, "cut-outs"),
    (Notch, "notches"),
    (Bevel, "bevel"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tag:
    """A tag: its blank, what that is called, the board it comes off, what comes next."""

    laid: LaidBlank
    item: str
    board: str
    work: str


def tags_sheets(plan: JobCuts, unit: Unit) -> tuple[PlannedSheet, ...]:
    """Tags for every blank, in the order in which they come off the saw.

    Args:
        plan: The plan.
        unit: The unit that it is for.
    """
    names = labels(plan)
    tags = [
        _Tag(
            laid=laid,
            item=names[laid.blank.name],
            board=f"board {number}" + ("" if board.bought is not None else f", {board.name}"),
            work=", ".join(_steps(laid, unit)),
        )
        for number, board in enumerate(plan.boards, start=1)
        for laid in as_sawn(board)
    ]
    per = _COLUMNS * _ROWS
    pages = [tags[k : k + per] for k in range(0, len(tags), per)]
    return tuple(
        PlannedSheet(
            name=f"tags-{number}",
            title=f"Tags for blanks, {number}",
            document_type="tags to cut out",
            size=_SIZE,
            marks=tuple(_page(page)),
        )
        for number, page in enumerate(pages, start=1)
    )


def _steps(laid: LaidBlank, unit: Unit) -> Iterator[str]:
    """What is done to a blank from now on."""
    blank = laid.blank
    if any(verdict.fate is Fate.PATCH for verdict in laid.verdicts):
        yield "patch"
    if any(_is_filled(verdict) for verdict in laid.verdicts):
        yield "fill the old damage flush"
    if blank.layers > 1:
        yield "glue to the other layer" if blank.layers == 2 else "glue to the other layers"
    part = unit.by_name[blank.parts[0]]
    if blank.is_oversize and not part.board.is_glued_on_oversize:
        yield f"cut to {dimension_text(blank.finished[0])} × {dimension_text(blank.finished[1])}"
    if len(blank.parts) > 1:
        yield f"rip at the bevel into {' and '.join(map(str, blank.items))}"
    else:
        yield next_work(part, unit)


def _is_filled(verdict: Verdict) -> bool:
    return verdict.fate is Fate.FILLED and verdict.flaw.kind is not FlawKind.STAIN


def next_work(part: Part, unit: Unit) -> str:
    """What is done to a part next: its cuts; without any, what comes then.

    Args:
        part: The part.
        unit: The unit that it belongs to.
    """
    if part.board.is_glued_on_oversize:
        holes = any(isinstance(f, Hole | CutOut) for f in part.board.features)
        return f"glue on oversize, trim{', open the holes' if holes else ''}"
    words = [word for kind, word in _WORK if any(isinstance(f, kind) for f in part.board.features)]
    if words:
        return ", ".join(words)
    if part.board.stock.hatching is Hatching.METAL:
        return "deburr, paint"
    if any(isinstance(j, Housing) and part.name in j.parts for j in unit.joints):
        return "sand, glue up"
    mates = _glued_to(part, unit)
    return f"glue to the {listed(mates)}, sand and finish" if mates else "sand and finish"


def _glued_to(part: Part, unit: Unit) -> list[str]:
    """What the boards are called to which a part is glued."""
    return list(
        dict.fromkeys(
            unit.item_names[name]
            for joint in unit.joints
            if joint.is_glued and part.name in joint.parts
            for name in joint.parts
            if name != part.name
        )
    )


def _page(tags: list[_Tag]) -> Iterator[Mark]:
    space = drawing_space(_SIZE).grown(-_INSET)
    foot = title_block_box(_SIZE).top - _INSET
    width, height = space.width / _COLUMNS, (foot - space.top) / _ROWS
    for k, tag in enumerate(tags):
        column, row = k % _COLUMNS, k // _COLUMNS
        left, top = space.left + column * width, space.top + row * height
        box = PaperBox(left, top, left + width, top + height)
        yield Group(
            "tag",
            (outline(box, Ink.HIDDEN), *_texts(tag, box)),
            title=tag.laid.blank.name,
        )


def _texts(tag: _Tag, box: PaperBox) -> Iterator[Text]:
    """What a tag says: a large item number with the name and size, then smaller lines."""
    blank, item = tag.laid.blank, tag.item
    left, y = box.left + _PAD, box.top + _PAD
    tall = fitted(item, width=box.width * _ITEM_SHARE, tallest=_ITEM, most_lines=1, is_bold=True)
    yield Text(PaperPoint(left, y + _ITEM), item, tall.height, is_bold=True)
    beside = left + text_width(item, tall.height, is_bold=True) + 3.0
    size = f"{dimension_text(blank.length)} × {dimension_text(blank.width)}"
    room = box.right - _PAD - beside
    for line, is_bold in ((blank.item_name, True), (f"{size}, {tag.board}", False)):
        told = fitted(line, width=room, tallest=_NAME, most_lines=1, is_bold=is_bold)
        y += _NAME
        yield from (
            Text(PaperPoint(beside, y), text, told.height, is_bold=is_bold) for text in told.lines
        )
        y += _NAME * 0.7
    y += 1.5
    becomes = (
        []
        if blank.item_name == blank.name
        else [(f"for the {blank.name}, its edges called as on its sheet", False)]
    )
    small: list[tuple[str, float, bool]] = []
    for line, is_bold in (
        *becomes,
        (f"on face A, the {blank.called(Surface.A)}", False),
        (
            f"fence at the {blank.called(blank.fence)}, stop at the {blank.called(blank.stop)}",
            False,
        ),
        (f"next: {tag.work}", True),
    ):
        told = fitted(line, width=box.width - 2 * _PAD, tallest=_SMALL, is_bold=is_bold)
        small += [(text, told.height, is_bold) for text in told.lines]
    # Many lines stand closer, so that the last stays in its own tag.
    step = min(_SMALL * 1.75, (box.bottom - _PAD - y) / len(small))
    for k, (text, height, is_bold) in enumerate(small):
        yield Text(PaperPoint(left, y + _SMALL + k * step), text, height, is_bold=is_bold)
