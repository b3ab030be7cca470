"""Every sheet of any unit is readable: no lettering collides, nothing runs off the paper."""

from __future__ import annotations

from hypothesis import given, settings

from cabinet.errors import CabinetError
from drawings.lint import lint_sheet
from drawings.paper import drawing_space
from drawings.scene import scene
from drawings.sheet_set import Imprint, sheets
from tests.strategies import MOST_PARTS, Recipe, wide_recipes

# As many as the ordinary suite has time for; ``python -m tests.benchmarks.lint_many`` does more.
UNITS = 2


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


@settings(max_examples=UNITS)
@given(wide_recipes())
def test_every_sheet_is_readable(recipe: Recipe) -> None:
    assert faults(recipe) == []
