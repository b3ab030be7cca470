"""No false alarm: all checks on many generated good units; errors, and seconds by check.

python -m tests.benchmarks.good_units [--count 500] [--seed 11] [--wide]
"""

from __future__ import annotations

import argparse
import time
from collections import Counter

from hypothesis import HealthCheck, Phase, given, seed, settings

from cabinet.checks.all import CHECKS, TOOL_CHECKS
from cabinet.findings import Finding, is_error
from cabinet.workshop import Workshop
from tests.strategies import Recipe, recipes, wide_recipes


def main() -> None:
    """Check and print; the exit code is 1 if any good unit has an error or is undecided."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=500)
    parser.add_argument("--seed", type=int, default=11)
    parser.add_argument("--wide", action="store_true", help="units of up to sixty parts")
    chosen = parser.parse_args()
    rules: Counter[str] = Counter()
    spent: dict[str, float] = {}
    wrong: list[tuple[Finding, Recipe]] = []
    tools = Workshop()
    done = 0

    @settings(
        max_examples=chosen.count,
        database=None,
        deadline=None,
        phases=(Phase.generate,),
        suppress_health_check=list(HealthCheck),
    )
    @seed(chosen.seed)
    @given(recipe=wide_recipes() if chosen.wide else recipes())
    def check(recipe: Recipe) -> None:
        nonlocal done
        done += 1
        unit = recipe.design().resolve()
        named = [(each.__name__, each(unit)) for each in CHECKS]
        named += [(each.__name__, each(unit, tools)) for each in TOOL_CHECKS]
        for name, findings in named:
            begun = time.perf_counter()
            for finding in findings:
                rules[f"{finding.severity.value} {finding.rule}"] += 1
                if is_error(finding) or finding.rule == "undecided":
                    wrong.append((finding, recipe))
            spent[name] = spent.get(name, 0.0) + time.perf_counter() - begun

    check()
    print(f"{done} units, {len(wrong)} errors or undecided")
    print("findings: " + (", ".join(f"{r} {n}" for r, n in sorted(rules.items())) or "none"))
    print(
        "seconds: "
        + ", ".join(f"{n} {s:.1f}" for n, s in sorted(spent.items(), key=lambda item: -item[1]))
    )
    for finding, recipe in wrong[:10]:
        print(f"{finding.rule}: {finding.sentence}\n    {recipe}")
    raise SystemExit(1 if wrong else 0)


if __name__ == "__main__":
    main()
