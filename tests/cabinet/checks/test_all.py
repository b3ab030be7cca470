"""Good units stay silent; planted mistakes are found, each under its rule."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings

from cabinet.checks.all import findings
from cabinet.design import Unit
from cabinet.features import Groove, HoleRow, Rebate
from cabinet.findings import Severity
from cabinet.frame import Side
from cabinet.hardware import Rod
from tests.cabinet.checks.planted import (
    a_unit,
    shifted,
    with_board,
    with_feature,
    with_part,
)
from tests.examples import EXAMPLES, example_unit
from tests.strategies import Recipe, recipes


@settings(max_examples=25)
@given(recipe=recipes())
def test_good_units_are_silent(recipe: Recipe) -> None:
    """Hung and standing, with doors, shelves, cleats, openings: nothing that forbids making."""
    found = findings(recipe.design().resolve())
    # Screws in an open unit are seen, and not every saw bevels two boards of 21 at once.
    assert {f.rule for f in found} <= {"screw-seen", "bevel-too-deep"}
    assert {f.severity for f in found} <= {Severity.WARNING}


@pytest.mark.parametrize("name", sorted(path.stem for path in EXAMPLES.glob("*.py")))
def test_examples_are_silent(name: str) -> None:
    """Nothing is wrong with an example."""
    assert findings(example_unit(name)) == ()


def _groove_of(unit: Unit, name: str) -> Groove:
    return next(f for f in unit.by_name[name].board.features if isinstance(f, Groove))


def _shallow_housing(unit: Unit) -> Unit:
    top = unit.by_name["top"]
    groove = _groove_of(unit, "top")
    return with_part(unit, with_feature(top, groove, replace(groove, depth=groove.depth - 0.3)))


def _deep_housing(unit: Unit) -> Unit:
    top = unit.by_name["top"]
    groove = _groove_of(unit, "top")
    return with_part(unit, with_feature(top, groove, replace(groove, depth=groove.depth + 0.3)))


def _nominal_housing(unit: Unit) -> Unit:
    base = unit.by_name["base"]
    groove = _groove_of(unit, "base")
    return with_part(unit, with_feature(base, groove, replace(groove, width=18.2)))


def _long_shelf(unit: Unit) -> Unit:
    shelf = unit.by_name["shelf"]
    longer = replace(shelf.board, length=shelf.board.length + 2.6)
    return with_part(unit, with_board(shelf, longer))


def _shelf_off_its_pins(unit: Unit) -> Unit:
    return with_part(unit, shifted(unit.by_name["shelf"], Side.TOP, 0.4))


def _row_from_the_other_end(unit: Unit) -> Unit:
    side = unit.by_name["left side"]
    row = next(
        f for f in side.board.features if isinstance(f, HoleRow) and f.name.startswith("front")
    )
    turned = replace(row, first=replace(row.first, datum=row.first.datum.opposite))
    return with_part(unit, with_feature(side, row, turned))


def _two_left_sides(unit: Unit) -> Unit:
    left, right = unit.by_name["left side"], unit.by_name["right side"]
    return with_part(unit, with_board(right, left.board))


def _long_base(unit: Unit) -> Unit:
    base = unit.by_name["base"]
    return with_part(unit, shifted(base, Side.FRONT, 4.0))


def _pin_out_of_its_hole(unit: Unit) -> Unit:
    pin = next(item for item in unit.hardware if isinstance(item.body, Rod))
    assert isinstance(pin.body, Rod)
    thick = replace(pin, body=replace(pin.body, diameter=6.0))
    return replace(unit, hardware=tuple(thick if h == pin else h for h in unit.hardware))


def _thin_rebate(unit: Unit) -> Unit:
    side = unit.by_name["left side"]
    rebate = next(f for f in side.board.features if isinstance(f, Rebate))
    return with_part(unit, with_feature(side, rebate, replace(rebate, depth=15.6)))


PLANTED: dict[str, tuple[Callable[[Unit], Unit], str]] = {
    "a housing too shallow": (_shallow_housing, "clash"),
    "a housing too deep": (_deep_housing, "fit"),
    "a housing to the nominal thickness": (_nominal_housing, "fit"),
    "a shelf too long by its play": (_long_shelf, "clash"),
    "a shelf that does not lie on its pins": (_shelf_off_its_pins, "no-contact"),
    "a row bored from the other end": (_row_from_the_other_end, "rows-not-level"),
    "two left sides": (_two_left_sides, "rows-not-level"),
    "a base too far to the front": (_long_base, "sticks-out"),
    "a pin thicker than its hole": (_pin_out_of_its_hole, "clash"),
    "a rebate that leaves next to nothing": (_thin_rebate, "thin-web"),
}


def test_the_unit_of_the_planted_mistakes_is_good() -> None:
    """Before they are planted, nothing is found."""
    assert findings(a_unit()) == ()


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_mistake_is_found(name: str) -> None:
    """Its rule speaks, names parts, and says what to change."""
    plant, rule = PLANTED[name]
    found = findings(plant(a_unit()))
    assert rule in {f.rule for f in found if f.severity is Severity.ERROR}
    names = {part.name for part in a_unit().parts} | {item.name for item in a_unit().hardware}
    for finding in found:
        assert finding.parts
        assert set(finding.parts) <= names
        assert all(part in finding.sentence for part in finding.parts)
        assert ";" in finding.sentence or "correct" in finding.sentence


def test_findings_are_in_one_order() -> None:
    """The same on every run, whichever check speaks first."""
    unit = _shelf_off_its_pins(_two_left_sides(_deep_housing(_long_base(a_unit()))))
    found = findings(unit)
    errors = [f.rule for f in found if f.severity is Severity.ERROR]
    assert {"fit", "no-contact", "rows-not-level", "sticks-out"} <= set(errors)
    assert errors == sorted(errors)
    mixed = replace(unit, parts=unit.parts[::-1], proofs=unit.proofs[::-1])
    assert findings(mixed) == found


def test_every_rule_of_volume_and_wood_has_a_planted_mistake() -> None:
    """The rules of the first checks; those of making and use have a corpus of their own."""
    planted = {rule for _, rule in PLANTED.values()}
    assert planted == {
        "clash",
        "fit",
        "no-contact",
        "rows-not-level",
        "sticks-out",
        "thin-web",
    }
