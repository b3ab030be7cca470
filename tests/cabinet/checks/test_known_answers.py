"""What is kept from one drawing to the next is what would be found afresh."""

from __future__ import annotations

import pytest

from cabinet.checks import bodies, level
from cabinet.checks.all import findings
from cabinet.design import Unit
from cabinet.features import HoleRow, hole
from tests.examples import example_design, example_unit
from tests.job_folders import seed_box

EXAMPLES = ("greenhouse_wall_unit",)


def forgotten() -> None:
    """As in a process that has checked nothing yet."""
    hole._holes_of.cache_clear()
    bodies.boxed_features.cache_clear()
    level.holes_in_unit.cache_clear()
    bodies._KNOWN.clear()


def rows(unit: Unit) -> list[HoleRow]:
    """All rows of holes of a unit."""
    return [f for part in unit.parts for f in part.board.features if isinstance(f, HoleRow)]


@pytest.mark.parametrize("name", EXAMPLES)
def test_findings_are_the_same_with_answers_from_another_unit(name: str) -> None:
    forgotten()
    fresh = findings(example_unit(name))
    forgotten()
    findings(seed_box().resolve())
    assert findings(example_unit(name)) == fresh
    # Once more, with a unit that is equal and not the same.
    assert findings(example_design(name).resolve()) == fresh


def test_holes_of_equal_rows_are_equal_and_those_of_others_are_not() -> None:
    one, again = rows(seed_box().resolve()), rows(seed_box().resolve())
    assert one == again
    assert len(one) > 1
    kept = [row.holes for row in one]
    forgotten()
    assert kept == [row.holes for row in again]
    assert [len(holes) for holes in kept] == [row.count for row in one]
    size = seed_box().resolve().parts[0].board.size
    for row in one:
        boxes = [hole.box(size) for hole in row.holes]
        for axis in range(3):
            low, high = (min(b.low[axis] for b in boxes), max(b.high[axis] for b in boxes))
            around = row.box(size)
            assert (around.low[axis], around.high[axis]) == pytest.approx((low, high), abs=1e-9)


def test_what_reaches_into_a_place_is_found_without_what_is_kept() -> None:
    """Each single feature, by its own box and no other."""
    unit = seed_box().resolve()
    for part in unit.parts:
        kept = bodies.boxed_features(part.board)
        assert len(kept) == len(part.board.features)
        for feature, (around, singles) in zip(part.board.features, kept, strict=True):
            assert around == feature.box(part.board.size)
            assert [own for own, _ in singles] == [s.box(part.board.size) for _, s in singles]
            alone = feature.holes if isinstance(feature, HoleRow) else (feature,)
            assert tuple(single for _, single in singles) == alone
