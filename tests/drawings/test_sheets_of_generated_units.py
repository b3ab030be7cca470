"""Every sheet of any unit is readable: no lettering collides, nothing runs off the paper."""

from __future__ import annotations

from hypothesis import given, settings

from cabinet.errors import CabinetError
from drawings.lint import lint_sheet
from drawings.paper import drawing_space
from drawings.scene import scene
from drawings.sheet_set import Imprint, sheets
from tests.strategies import MOST_PARTS, Recipe, wide_recipes

# Two hundred in all, the same in every run; ``python -m tests.benchmarks.lint_many`` draws others.
NARROW_UNITS, WIDE_UNITS = 60, 40


def faults(recipe: Recipe) -> list[str]:
    """What is wrong with the sheets of a unit, in sentences."""
    unit = recipe.design().resolve()
    assert 299 < recipe.width < 2401
    assert len(unit.parts) <= MOST_PARTS
    try:
        drawn = sheets(scene(unit), Imprint(owner="workshop", number="GU", creator="workshop"))
    except CabinetError as error:
        return [f"{type(error).__name__}: {error}"]
    return [
        f"sheet {sheet.number}, {sheet.title}: {collision.sentence}"
        for sheet in drawn
        for collision in lint_sheet(sheet.marks, drawing_space(sheet.size))
    ]


class TestUpTo600:
    """Each range is a class, for classes are shared out among the test processes."""

    @settings(max_examples=NARROW_UNITS, derandomize=True)
    @given(wide_recipes(300, 600))
    def test_every_sheet_is_readable(self, recipe: Recipe) -> None:
        """One bay."""
        assert faults(recipe) == []


class TestUpTo1000:
    """Likewise."""

    @settings(max_examples=NARROW_UNITS, derandomize=True)
    @given(wide_recipes(600, 1000))
    def test_every_sheet_is_readable(self, recipe: Recipe) -> None:
        """One to three bays."""
        assert faults(recipe) == []


class TestUpTo1600:
    """Likewise."""

    @settings(max_examples=WIDE_UNITS, derandomize=True)
    @given(wide_recipes(1000, 1600))
    def test_every_sheet_is_readable(self, recipe: Recipe) -> None:
        """Two to five bays."""
        assert faults(recipe) == []


class TestUpTo2400:
    """Likewise."""

    @settings(max_examples=WIDE_UNITS, derandomize=True)
    @given(wide_recipes(1600, 2400))
    def test_every_sheet_is_readable(self, recipe: Recipe) -> None:
        """Two to seven bays, as wide as a board is long."""
        assert faults(recipe) == []
