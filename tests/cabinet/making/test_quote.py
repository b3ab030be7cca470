"""Hours add up from counted work; nothing is priced that has no price of the maker's own."""

from __future__ import annotations

import pytest

from cabinet.checks.assembly import assembly
from cabinet.errors import SizeError
from cabinet.making.consumables import consumables
from cabinet.making.finishing import finishing_plan
from cabinet.making.gluing import gluing_plan
from cabinet.making.making_record import (
    finishing_record,
    gluing_record,
    quote_record,
    set_ups_record,
)
from cabinet.making.quote import Prices, Quote, Rates, StockLine, quote
from cabinet.making.setups import set_ups
from cabinet.workshop import Workshop
from tests.examples import example_unit

SHOP = Workshop()


def quoted(
    *,
    stock: tuple[StockLine, ...] = (),
    rates: Rates | None = None,
    prices: Prices | None = None,
) -> Quote:
    unit = example_unit("greenhouse_wall_unit")
    gluing = gluing_plan(unit, assembly(unit), SHOP)
    finishing = finishing_plan(unit)
    return quote(
        unit,
        set_ups(unit, SHOP),
        gluing,
        finishing,
        consumables(gluing, finishing),
        stock=stock,
        rates=rates,
        prices=prices,
    )


def test_without_prices_only_hours_are_told() -> None:
    made = quoted(stock=(("birch plywood 18", 2, 81.7),), rates=Rates(hour=(31.0, 37.0)))
    assert made.total is None
    assert made.costs == ()
    assert 0 < made.hours[0] < made.hours[1]
    assert set(quote_record(made)) == {"work", "hours", "waiting_hours"}


def test_hours_follow_counts_and_minutes() -> None:
    nothing = (0.0, 0.0)
    rates = Rates(
        blank=(3.0, 7.0),
        setting=nothing,
        routed=nothing,
        opening=nothing,
        slot=nothing,
        hole=nothing,
        by_hand=nothing,
        go=nothing,
        sanding=nothing,
        coat=nothing,
        piece=nothing,
        hanging=nothing,
    )
    made = quoted(rates=rates)
    unit = example_unit("greenhouse_wall_unit")
    # The cleat's halves, two layers each, come out of one strip of two blanks.
    blanks = sum(part.board.layers for part in unit.parts) - 2
    (sawing, *others) = made.work
    assert sawing.hours == pytest.approx((blanks * 3.0 / 60, blanks * 7.0 / 60))
    # Wet glue takes its time whatever the rates.
    assert [line.title for line in others] == ["glue"]


def test_costs_are_counts_times_the_makers_own_prices() -> None:
    unit = example_unit("greenhouse_wall_unit")
    biscuits = sum(1 for item in unit.hardware if item.article == "biscuit no. 20")
    prices = Prices(currency="crowns", each=(("biscuit no. 20", 0.7), ("hardwax oil", 317.0)))
    made = quoted(
        stock=(("birch plywood 18", 2, 817.3), ("steel sheet 1.5", 1, None)),
        rates=Rates(hour=(310.0, 370.0)),
        prices=prices,
    )
    costs = {line.title: line.cost for line in made.costs}
    assert costs["birch plywood 18"] == pytest.approx((2 * 817.3, 2 * 817.3))
    assert costs["biscuit no. 20"] == pytest.approx((biscuits * 0.7, biscuits * 0.7))
    assert costs["work"] == pytest.approx((made.hours[0] * 310.0, made.hours[1] * 370.0))
    assert made.total == pytest.approx(
        (sum(c[0] for c in costs.values()), sum(c[1] for c in costs.values()))
    )
    assert "steel sheet 1.5" in made.unpriced
    assert "shelf pin 5 × 20" in made.unpriced
    assert quote_record(made)["currency"] == "crowns"


def test_work_without_a_price_is_named_and_left_out() -> None:
    made = quoted(prices=Prices(currency="crowns", each=(("biscuit no. 20", 0.7),)))
    assert "hours of work" in made.unpriced
    assert [line.title for line in made.costs] == ["biscuit no. 20"]


def test_bad_numbers_are_refused() -> None:
    with pytest.raises(SizeError, match="least comes first"):
        Rates(blank=(7.0, 3.0))
    with pytest.raises(SizeError, match="negative"):
        Prices(currency="crowns", each=(("pin", -0.1),))


def test_the_records_hold_plain_data_of_all_stages_and_settings() -> None:
    unit = example_unit("pottery_drying_rack")
    made = set_ups(unit, SHOP)
    gluing = gluing_plan(unit, assembly(unit), SHOP)
    assert len(set_ups_record(made)["settings"]) == len(made.settings)
    assert len(gluing_record(gluing)["stages"]) == len(gluing.stages)
    assert finishing_record(finishing_plan(unit))["coats"] == 2
