"""Cost and time for a quote, as a range, by the maker's own prices and rates.

Hours follow from counted operations, gluing goes and areas, times the minutes in ``Rates``,
whose defaults are common practice, no source, for one person with hand-held machines. Drying is
waiting, not work, and is told apart. Nothing is priced that the maker gave no price for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

from cabinet.design import Unit
from cabinet.errors import KindError, SizeError
from cabinet.hardware import Screw
from cabinet.making.consumables import Consumable
from cabinet.making.cut_list import cut_list
from cabinet.making.finishing import FinishingPlan
from cabinet.making.glue_stage import GluingPlan, Kind
from cabinet.making.hardware_list import hardware_list
from cabinet.making.operation import Guide, Tool, Work
from cabinet.making.setting import Setting, SetUps
from cabinet.quantity import Range, finite, least_and_most, named, several


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """Minutes that work takes, least and most (common practice, no source).

    Attributes:
        blank: To saw one blank.
        setting: To make one setting, its test cut included.
        routed: For one routed or sawn cut on one board.
        opening: For one opening cut to a template, drilling and sawing out included.
        slot: For one biscuit slot.
        hole: For one hole.
        by_hand: For one notch sawn and chiselled.
        go: To set out clamps, dry fit, wipe and check one go of gluing, beside the time with
            wet glue.
        sanding: For a square metre.
        coat: For a square metre of one coat.
        piece: To fit one piece of hardware.
        hanging: To hang or to set up the unit.
        hour: What an hour costs, in the maker's currency; None for no price.

    Raises:
        SizeError: what is no pair of finite numbers, the least first, neither negative.
    """

    blank: Range = (2.0, 4.0)
    setting: Range = (4.0, 10.0)
    routed: Range = (1.0, 2.5)
    opening: Range = (8.0, 15.0)
    slot: Range = (0.5, 1.0)
    hole: Range = (0.3, 0.6)
    by_hand: Range = (8.0, 15.0)
    go: Range = (15.0, 30.0)
    sanding: Range = (8.0, 16.0)
    coat: Range = (5.0, 10.0)
    piece: Range = (0.5, 1.5)
    hanging: Range = (60.0, 120.0)
    hour: Range | None = None

    def __post_init__(self) -> None:
        for field in fields(self):
            value = getattr(self, field.name)
            if value is not None or field.name != "hour":
                least_and_most("rates", field.name.replace("_", " "), value, unit="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """The maker's own prices.

    Attributes:
        currency: How amounts are marked.
        each: Article, as in the lists, with the price of one piece, or of one gram or litre.

    Raises:
        SizeError: a blank name, or a price that is negative or no finite number.
    """

    currency: str
    each: tuple[tuple[str, float], ...] = ()

    def __post_init__(self) -> None:
        named("prices", "currency", self.currency)
        right = 'articles with their prices, such as (("shelf pin 5 × 20", 0.12),)'
        for priced in several("prices", "each", self.each, tuple, right=right):
            if len(priced) != 2:
                raise KindError(
                    f"prices: {priced!r} is no article with its price; give {right}",
                    part="prices",
                    value=priced,
                    limit=right,
                )
        for article, price in self.each:
            named("prices", "article", article)
            if finite(article, "price", price, unit=self.currency) < 0:
                raise SizeError(
                    f"{article}: its price is {price:g}; it must not be negative",
                    part=article,
                    value=price,
                    limit=0.0,
                )

    def of(self, article: str) -> float | None:
        """The price of an article; None if the maker gave none."""
        return dict(self.each).get(article)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkLine:
    """One kind of work.

    Attributes:
        title: What is done.
        basis: What it is counted by.
        hours: Least and most.
    """

    title: str
    basis: str
    hours: Range


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """Something bought or worked.

    Attributes:
        title: What it is.
        basis: How much of it.
        cost: Least and most, in the maker's currency.
    """

    title: str
    basis: str
    cost: Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """Time and, with prices, cost.

    Attributes:
        work: Hours by kind of work.
        waiting: Hours of drying, one go after another, least and most; not work.
        currency: How amounts are marked; "" without prices.
        costs: What has a price.
        unpriced: What the maker gave no price for.
    """

    work: tuple[WorkLine, ...]
    waiting: Range
    currency: str = ""
    costs: tuple[CostLine, ...] = ()
    unpriced: tuple[str, ...] = ()

    @property
    def hours(self) -> Range:
        """All work, least and most."""
        return _sum([line.hours for line in self.work])

    @property
    def total(self) -> Range | None:
        """All that has a price; None if nothing has."""
        return _sum([line.cost for line in self.costs]) if self.costs else None


StockLine = tuple[str, int, float | None]


def quote(
    unit: Unit,
    made: SetUps,
    gluing: GluingPlan,
    finishing: FinishingPlan,
    used: Sequence[Consumable],
    *,
    stock: Sequence[StockLine] = (),
    rates: Rates | None = None,
    prices: Prices | None = None,
) -> Quote:
    """Hours and costs of a unit.

    Args:
        unit: The resolved unit.
        made: Its set-ups.
        gluing: Its gluing.
        finishing: Its finishing.
        used: What is used up.
        stock: Sheets to buy: title, count, and the price of one, None if not known.
        rates: Minutes and the price of an hour; None for the usual minutes and no price.
        prices: The maker's prices; None for none: then only hours are told.
    """
    known = rates or Rates()
    work = tuple(_work(unit, made, gluing, finishing, known))
    waiting = _waiting(gluing, finishing)
    if prices is None:
        return Quote(work=work, waiting=waiting)
    costs: list[CostLine] = []
    unpriced: list[str] = []
    for title, count, price in stock:
        _price(costs, unpriced, title, f"{count}", price, (count, count))
    for line in hardware_list(unit):
        each = prices.of(line.article)
        _price(costs, unpriced, line.article, f"{line.count}", each, (line.count, line.count))
    for one in used:
        low, high = one.amount
        places = 2 if one.unit == "l" else 0
        told = f"{low:.{places}f}" if low == high else f"{low:.{places}f} to {high:.{places}f}"
        _price(
            costs, unpriced, one.article, f"{told} {one.unit}", prices.of(one.article), one.amount
        )
    hours = _sum([line.hours for line in work])
    if known.hour is None:
        unpriced.append("hours of work")
    else:
        cost = hours[0] * known.hour[0], hours[1] * known.hour[1]
        basis = f"{hours[0]:.1f} to {hours[1]:.1f} h"
        costs.append(CostLine(title="work", basis=basis, cost=cost))
    return Quote(
        work=work,
        waiting=waiting,
        currency=prices.currency,
        costs=tuple(costs),
        unpriced=tuple(unpriced),
    )


def _price(
    costs: list[CostLine],
    unpriced: list[str],
    title: str,
    basis: str,
    each: float | None,
    amount: Range,
) -> None:
    if each is None:
        unpriced.append(title)
        return
    costs.append(CostLine(title=title, basis=basis, cost=(amount[0] * each, amount[1] * each)))


def _sum(ranges: Sequence[Range]) -> Range:
    return sum(low for low, _ in ranges), sum(high for _, high in ranges)


def _line(title: str, basis: str, count: float, minutes: Range, more: Range = (0, 0)) -> WorkLine:
    low, high = ((count * each + extra) / 60 for each, extra in zip(minutes, more, strict=True))
    return WorkLine(title=title, basis=basis, hours=(low, high))


def _minutes_of(setting: Setting, rates: Rates) -> Range:
    """What one cut or hole takes at a setting."""
    stand, work = setting.stand, setting.tasks[0].operation.work
    if work in (Work.BORE, Work.COUNTERSINK):
        return rates.hole
    if work is Work.SLOT:
        return rates.slot
    if stand.guide is Guide.TEMPLATE:
        return rates.opening
    return rates.by_hand if stand.tool is Tool.HAND else rates.routed


def _work(
    unit: Unit, made: SetUps, gluing: GluingPlan, finishing: FinishingPlan, rates: Rates
) -> list[WorkLine]:
    pieces = sum(line.pieces for line in cut_list(unit))
    cuts = sum(setting.cuts for setting in made.settings)
    each = [(setting.cuts, _minutes_of(setting, rates)) for setting in made.settings]
    cutting = (
        sum(count * low for count, (low, _) in each) / 60,
        sum(count * high for count, (_, high) in each) / 60,
    )
    goes = sum(stage.times for stage in gluing.stages)
    wet = sum(stage.minutes * stage.times for stage in gluing.stages)
    area = finishing.wood_area / 1e6
    coats = finishing.finish.coats
    fitted = sum(1 for item in unit.hardware if isinstance(item.body, Screw))
    other = len(unit.hardware) - fitted
    found = [
        _line("saw the blanks", f"{pieces} blanks", pieces, rates.blank),
        _line("set up", f"{len(made.settings)} settings", len(made.settings), rates.setting),
        WorkLine(title="cuts, holes and slots", basis=f"{cuts} of them", hours=cutting),
        _line("glue", f"{goes} goes", goes, rates.go, (wet, 1.5 * wet)),
        _line("sand", f"{area:.1f} m²", area, rates.sanding),
        _line("finish", f"{area:.1f} m², {coats} coats", area * coats, rates.coat),
        _line("fit the hardware", f"{fitted + other} pieces", fitted + other, rates.piece),
        _line("hang" if unit.is_hung else "set up on site", "once", 1, rates.hanging),
    ]
    return [line for line in found if line.hours[1] > 0]


def _waiting(gluing: GluingPlan, finishing: FinishingPlan) -> Range:
    """Drying if one go waits for the other; alike doublings and frames may dry side by side."""
    low = high = 0.0
    for stage in gluing.stages:
        if stage.kind is Kind.COVERING and not stage.glue.is_pressed:
            low, high = low + stage.glue.machine_hours[0], high + stage.glue.machine_hours[1]
            continue
        low += stage.glue.press_minutes[0] / 60
        high += stage.glue.machine_hours[1]
    coats = finishing.finish.coats - 1
    low += coats * finishing.finish.between_hours[0] + finishing.finish.use_hours
    high += coats * finishing.finish.between_hours[1] + finishing.finish.use_hours
    return low, high


__all__ = ["CostLine", "Prices", "Quote", "Rates", "WorkLine", "quote"]
