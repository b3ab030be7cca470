"""The sheet of findings: a ring at each place in both views, every sentence told."""

from __future__ import annotations

from functools import cache

import pytest

from cabinet.design import Design
from cabinet.findings import Finding, Severity
from cabinet.frame import UnitPoint
from drawings.findings_sheet import findings_sheets
from drawings.ground import texts
from drawings.lint import lint_sheet
from drawings.marks import Circle, Group, Mark
from drawings.paper import drawing_space
from drawings.scene import Scene, scene
from drawings.sheet import Sheet
from drawings.sheet_set import Imprint, title_blocks
from tests.strategies import small


@cache
def unit() -> Scene:
    """A small carcass, 813 wide, 587 high, 303 deep."""
    return scene(Design("Glaze cupboard", (small().component,)).resolve())


def finding(number: int, where: UnitPoint | None) -> Finding:
    """One finding of many."""
    return Finding(
        rule="clash",
        severity=Severity.ERROR,
        parts=("top", "left side"),
        where=where,
        found=float(number),
        limit=0.0,
        sentence=f"top and left side share {number} mm3; make the top shorter by 1.3",
    )


def drawn(*findings: Finding) -> tuple[Sheet, ...]:
    """The sheets of some findings."""
    block = title_blocks(unit(), Imprint(owner="o", number="GC", creator="c"))
    return findings_sheets(unit(), findings, block(9))


def rings(sheet: Sheet) -> list[list[Circle]]:
    """The rings, view by view."""

    def groups(marks: tuple[Mark, ...]) -> list[Group]:
        return [m for m in marks if isinstance(m, Group) and m.name == "findings"]

    return [[m for m in group.marks if isinstance(m, Circle)] for group in groups(sheet.marks)]


def test_nothing_found_is_no_sheet() -> None:
    """Silence where all is right."""
    assert drawn() == ()


def test_each_place_is_ringed_in_both_views() -> None:
    """Distances between rings are those in the unit, times the scale."""
    places = (UnitPoint(113.0, 20.0, 97.0), UnitPoint(613.0, 270.0, 487.0))
    (sheet,) = drawn(*(finding(i, place) for i, place in enumerate(places)))
    front, plan = rings(sheet)
    scale = 1 / int(sheet.views[0].scale.removeprefix("1:"))
    for one, across, down in ((front, 500.0, -390.0), (plan, 500.0, -250.0)):
        assert one[1].centre.x - one[0].centre.x == pytest.approx(across * scale, abs=0.01)
        assert one[1].centre.y - one[0].centre.y == pytest.approx(down * scale, abs=0.01)
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()


def test_one_ring_for_findings_in_one_place() -> None:
    """Their numbers stand beside it, and what has no place has no ring."""
    at = UnitPoint(113.0, 20.0, 97.0)
    (sheet,) = drawn(finding(1, at), finding(2, None), finding(3, at))
    assert [len(one) for one in rings(sheet)] == [1, 1]
    told = [text.text for mark in sheet.marks for text in texts(mark)]
    assert "1, 3" in told


def test_many_findings_go_on_on_further_sheets() -> None:
    """None is left out."""
    sheets = drawn(
        *(finding(i, UnitPoint(90.0 + 8 * i, 5.0 * i, 40.0 + 9 * i)) for i in range(1, 48))
    )
    assert [sheet.number for sheet in sheets] == list(range(9, 9 + len(sheets)))
    words = " ".join(text.text for sheet in sheets for m in sheet.marks for text in texts(m))
    assert all(f"share {number} mm3" in words for number in range(1, 48))
    assert len({sheet.name for sheet in sheets}) == len(sheets) > 1


def test_what_lies_beside_the_unit_has_no_ring() -> None:
    """A place on the wall far below the unit would be ringed in another view's room."""
    (sheet,) = drawn(finding(1, UnitPoint(313.0, 270.0, -190.0)))
    front, plan = rings(sheet)
    assert front == []
    assert len(plan) == 1
