"""All that leads from the rack to the finished unit: cuts, set-ups, gluing, finishing, quote."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from cabinet.assembly import Assembly
from cabinet.design import Unit
from cabinet.findings import Finding
from cabinet.making.consumables import Consumable, consumables
from cabinet.making.cut_board import JobCuts
from cabinet.making.cut_plan import cut_plan
from cabinet.making.cut_record import cut_plan_record
from cabinet.making.finishing import FinishingPlan, finishing_plan
from cabinet.making.glue_stage import GluingPlan
from cabinet.making.gluing import gluing_plan
from cabinet.making.gluing_findings import gluing_findings
from cabinet.making.hardware_list import HardwareLine, hardware_list
from cabinet.making.making_record import (
    finishing_record,
    gluing_record,
    quote_record,
    set_ups_record,
)
from cabinet.making.quote import Prices, Quote, Rates, StockLine, quote
from cabinet.making.rack import Rack
from cabinet.making.setting import SetUps
from cabinet.making.setups import set_up_findings, set_ups
from cabinet.record import Record
from cabinet.workshop import Workshop
from drawings.cut_csv import rack_csv, saw_cuts_csv, stock_used_csv
from drawings.cut_plan_sheet import cut_plan_sheets
from drawings.gluing_sheet import finishing_sheets, gluing_sheets
from drawings.making_lists import consumables_csv, gluing_csv, quote_csv, set_ups_csv
from drawings.patch_sheet import patch_sheets
from drawings.planned_sheet import PlannedSheet
from drawings.quote_sheet import quote_sheets
from drawings.setup_sheet import set_up_sheets
from drawings.sheet import Sheet
from drawings.tags_sheet import tags_sheets
from drawings.title_block import TitleBlock


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """How a unit is made, from the boards in the rack.

    Attributes:
        unit: The unit.
        workshop: The tools.
        cuts: The cut plan.
        set_ups: The operations, grouped by setting.
        gluing: The goes of gluing.
        finishing: Sanding and oil.
        used: What is used up.
        hardware: What is bought.
        quote: Hours and, with prices, costs.
    """

    unit: Unit
    workshop: Workshop
    cuts: JobCuts
    set_ups: SetUps
    gluing: GluingPlan
    finishing: FinishingPlan
    used: tuple[Consumable, ...]
    hardware: tuple[HardwareLine, ...]
    quote: Quote


def making(
    unit: Unit,
    order: Assembly,
    workshop: Workshop,
    rack: Rack | None,
    rates: Rates | None,
    prices: Prices | None,
) -> Making:
    """Plan the making of a unit.

    Args:
        unit: The unit.
        order: The order in which it comes together.
        workshop: The tools.
        rack: What there is and what can be bought; None for full sheets of the usual sizes.
        rates: Minutes that work takes; None for the usual ones.
        prices: The maker's prices; None for hours only.

    Raises:
        DesignError: a blank that is larger than every board, or too few sheets.
    """
    cuts = cut_plan(unit, rack, saw_tool=workshop.saw)
    settings = set_ups(unit, workshop)
    gluing = gluing_plan(unit, order, workshop)
    finishing = finishing_plan(unit)
    used = consumables(gluing, finishing)
    offer = quote(
        unit, settings, gluing, finishing, used, stock=_to_buy(cuts), rates=rates, prices=prices
    )
    return Making(
        unit=unit,
        workshop=workshop,
        cuts=cuts,
        set_ups=settings,
        gluing=gluing,
        finishing=finishing,
        used=used,
        hardware=hardware_list(unit),
        quote=offer,
    )


def _to_buy(cuts: JobCuts) -> tuple[StockLine, ...]:
    """Sheets to buy: what, how many, the price of one."""
    counts = Counter(
        (board.bought.stock.title, board.bought.price)
        for board in cuts.boards
        if board.bought is not None
    )
    return tuple((title, count, price) for (title, price), count in counts.items())


def making_findings(made: Making) -> tuple[Finding, ...]:
    """What the plans found that the maker won't like."""
    return (*set_up_findings(made.set_ups, made.workshop), *gluing_findings(made.gluing))


def making_sheets(
    made: Making, block: Callable[[int], TitleBlock], first: int
) -> tuple[Sheet, ...]:
    """Cut plan, patches, set-ups, gluing, finishing, quote and tags.

    Args:
        made: How the unit is made.
        block: Gives the title block of a sheet by its number.
        first: Number of the first of these sheets.
    """
    sheets: list[Sheet] = []

    def number() -> int:
        return first + len(sheets)

    sheets += _placed((*cut_plan_sheets(made.cuts), *patch_sheets(made.cuts)), block, number())
    sheets += set_up_sheets(made.set_ups, made.workshop, block(number()))
    sheets += gluing_sheets(made.gluing, block(number()))
    sheets += finishing_sheets(made.finishing, made.used, made.hardware, block(number()))
    sheets += quote_sheets(made.quote, block(number()))
    sheets += _placed(tags_sheets(made.cuts, made.unit), block, number())
    return tuple(sheets)


def _placed(
    planned: Iterable[PlannedSheet], block: Callable[[int], TitleBlock], first: int
) -> Iterator[Sheet]:
    for number, sheet in enumerate(planned, start=first):
        yield sheet.sheet(block(number))


def making_record(made: Making) -> Record:
    """The plans as plain data for job.json."""
    return {
        "cut_plan": cut_plan_record(made.cuts),
        "setups": set_ups_record(made.set_ups),
        "gluing": gluing_record(made.gluing),
        "finishing": finishing_record(made.finishing),
        "quote": quote_record(made.quote),
    }


def making_lists(made: Making) -> Iterator[tuple[str, str]]:
    """The plans as CSV: name of each file and its text."""
    yield "saw-cuts.csv", saw_cuts_csv(made.cuts)
    yield "stock.csv", stock_used_csv(made.cuts)
    yield "rack.csv", rack_csv(made.cuts)
    yield "setups.csv", set_ups_csv(made.set_ups, made.workshop)
    yield "gluing.csv", gluing_csv(made.gluing)
    yield "consumables.csv", consumables_csv(made.used, made.hardware)
    yield "quote.csv", quote_csv(made.quote)
