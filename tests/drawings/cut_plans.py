"""Cut plans and title blocks for the tests of their sheets; everything in them is invented."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from cabinet.design import Unit
from cabinet.frame import Side
from cabinet.making.cut_board import JobCuts
from cabinet.making.cut_plan import cut_plan
from cabinet.making.outline import l_shape, rectangle
from cabinet.making.rack import Leftover, Rack, SheetToBuy, flaw
from cabinet.stock import birch_plywood
from drawings.lint import lint_sheet
from drawings.marks import Group, Mark, Text
from drawings.paper import drawing_space
from drawings.planned_sheet import PlannedSheet
from drawings.title_block import TitleBlock
from tests.cabinet.making.racks import BIRCH, panel, unit_of
from tests.examples import example_unit

GREENHOUSE_BIRCH = birch_plywood(nominal=18, measured=17.7)
RACK = Rack(
    leftovers=(
        Leftover(
            name="old bench side",
            stock=GREENHOUSE_BIRCH,
            outline=l_shape(1500, 640, (600, 250)),
            flaws=(
                flaw("groove", "face B", at=(0, 300), length=900, width=8, depth=5),
                flaw("hole", "through", at=(700, 100), length=35, width=35),
                flaw("stain", "face A", at=(60, 500), length=90, width=60),
            ),
        ),
        Leftover(
            name="slanted panel",
            stock=GREENHOUSE_BIRCH,
            outline=((0, 0), (1300, 0), (1150, 420), (0, 420)),
            flaws=(flaw("breakout", "face B", at=(0, 150), length=40, width=30, depth=4),),
        ),
    ),
    sheets=(SheetToBuy(stock=GREENHOUSE_BIRCH, price=71.5),),
)


@cache
def greenhouse_plan() -> JobCuts:
    """The greenhouse unit from two leftovers with old damage and new sheets."""
    return cut_plan(example_unit("greenhouse_wall_unit"), RACK, rounds=25)


@cache
def patched() -> tuple[JobCuts, Unit]:
    """One panel that both faces show, from a leftover with a hole in the middle."""
    unit = unit_of(panel(shows=(Side.TOP, Side.BOTTOM)))
    hole = flaw("hole", "face A", at=(100, 50), length=30, width=20, depth=4)
    board = Leftover(name="old lid", stock=BIRCH, outline=rectangle(620, 290), flaws=(hole,))
    return cut_plan(unit, Rack(leftovers=(board,)), rounds=25), unit


def block(number: int, count: int) -> TitleBlock:
    """A title block."""
    return TitleBlock(
        legal_owner="The workshop",
        identification_number=f"X-{number:02d}",
        date_of_issue="",
        sheet_number=number,
        sheet_count=count,
        title="x",
        approval_person="",
        creator="The workshop",
        document_type="x",
    )


def texts(marks: Sequence[Mark]) -> list[Text]:
    """All lettering."""
    found: list[Text] = []
    for mark in marks:
        if isinstance(mark, Text):
            found.append(mark)
        elif isinstance(mark, Group):
            found += texts(mark.marks)
    return found


def groups(marks: Sequence[Mark], name: str) -> list[Group]:
    """All groups of one name, however deep."""
    found = []
    for mark in marks:
        if isinstance(mark, Group):
            found += [mark] if mark.name == name else groups(mark.marks, name)
    return found


def check_sheets(planned: Sequence[PlannedSheet]) -> None:
    """Every sheet is readable and its file has a name of its own."""
    sheets = [each.sheet(block(k, len(planned))) for k, each in enumerate(planned, start=1)]
    for sheet in sheets:
        found = lint_sheet(sheet.marks, drawing_space(sheet.size))
        assert found == (), f"{sheet.name}: {found[0].sentence if found else ''}"
    assert len({sheet.file_name for sheet in sheets}) == len(sheets)
