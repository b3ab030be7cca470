"""Lint of all sheets of many generated units, more than the ordinary suite has time for.

Prints one line for each unit and in the end how many were drawn and which were at fault.

    python -m tests.benchmarks.lint_many [--units 200] [--seed 0] [--minutes 60]
"""

from __future__ import annotations

import argparse
import sys
import time

from hypothesis import HealthCheck, Phase, given, seed, settings

from cabinet.errors import CabinetError
from tests.drawings.test_sheets_of_generated_units import faults
from tests.strategies import Recipe, wide_recipes


def main() -> int:
    """Draw and lint; the number of units at fault is the exit code, at most 1."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--units", type=int, default=200)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--minutes", type=float, default=60.0, help="start no unit after these")
    asked = parser.parse_args()
    begun = time.perf_counter()
    found: dict[Recipe, list[str]] = {}

    @seed(asked.seed)
    @settings(
        max_examples=2 * asked.units,  # some are drawn twice
        phases=[Phase.generate],
        database=None,
        deadline=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(wide_recipes())
    def draw_one(recipe: Recipe) -> None:
        since = time.perf_counter()
        if recipe in found or len(found) == asked.units or since - begun > 60 * asked.minutes:
            return
        try:
            found[recipe] = faults(recipe)
        except CabinetError as error:
            found[recipe] = [f"no unit: {type(error).__name__}: {error}"]
        took = time.perf_counter() - since
        print(f"{len(found):4d}  {recipe.width:6.1f} wide  {took:5.1f} s", *found[recipe], sep="  ")
        if found[recipe]:
            print(f"      {recipe}")
        sys.stdout.flush()

    draw_one()
    bad = sum(1 for sentences in found.values() if sentences)
    widths = sorted(recipe.width for recipe in found)
    print(
        f"{len(found)} units drawn, {widths[0]:g} to {widths[-1]:g} wide, "
        f"{bad} with faults, {time.perf_counter() - begun:.0f} s"
    )
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
