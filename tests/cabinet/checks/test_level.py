"""Facing rows of pin holes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.checks.level import MOST_OFF, levels
from cabinet.design import Unit
from cabinet.features import HoleRow
from tests.cabinet.checks.planted import a_unit, with_board, with_feature, with_part


def front_row(unit: Unit) -> HoleRow:
    """The front row of the left side."""
    board = unit.by_name["left side"].board
    return next(f for f in board.features if isinstance(f, HoleRow) and f.name.startswith("front"))


@pytest.mark.parametrize("axis", ["first", "line"])
@pytest.mark.parametrize(("off", "count"), [(MOST_OFF - 0.02, 0), (MOST_OFF + 0.02, 1)])
def test_just_inside_and_just_outside(axis: str, off: float, count: int) -> None:
    """A row too high, or too far back: 0.2 between facing holes is the most."""
    unit = a_unit()
    row = front_row(unit)
    at = getattr(row, axis)
    moved = replace(row, **{axis: at.beyond(off)})
    found = list(levels(with_part(unit, with_feature(unit.by_name["left side"], row, moved))))
    assert len(found) == count
    if found:
        assert found[0].parts == ("left side", "divider")
        assert found[0].found == pytest.approx(off)


def test_a_hole_less() -> None:
    """Twelve holes face eleven."""
    unit = a_unit()
    row = front_row(unit)
    fewer = replace(row, count=row.count - 1)
    (finding,) = levels(with_part(unit, with_feature(unit.by_name["left side"], row, fewer)))
    assert f"{row.count - 1} holes face {row.count}" in finding.sentence


def test_no_rows_at_all() -> None:
    """Rows that are missing in both boards are not level."""
    unit = a_unit()
    for name in ("left side", "divider"):
        board = unit.by_name[name].board
        kept = tuple(f for f in board.features if not isinstance(f, HoleRow))
        unit = with_part(unit, with_board(unit.by_name[name], replace(board, features=kept)))
    # Front and back row of the left bay face nothing, and so do those of the right bay.
    assert len(list(levels(unit))) == 4
