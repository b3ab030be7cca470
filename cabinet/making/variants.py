"""What can these leftovers become: variants of a design that the rack yields, best first.

A design is a function of its numbers. Every combination of the given values is tried, from the
middle of the ranges outwards, checked by a callable that is handed in, and planned on the rack.
Nothing here builds solids; a check that does is the caller's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from cabinet.design import Design, Unit
from cabinet.errors import CabinetError, KindError, SizeError
from cabinet.findings import Finding, is_error
from cabinet.making.cut_board import JobCuts
from cabinet.making.cut_plan import cut_plan
from cabinet.making.rack import Rack
from cabinet.quantity import finite, kind_of, positive, whole, within
from cabinet.workshop import Saw

Check = Callable[[Unit], Sequence[Finding]]
Values = dict[str, float]

# Combinations that are tried if the caller sets no other limit.
MOST_TRIED = 200
# Rounds of the search for one variant: enough to tell them apart (measured on the examples).
ROUNDS_FOR_A_VARIANT = 60


def steps(low: float, high: float, step: float) -> tuple[float, ...]:
    """Values from low to high, both included, at a step (``width 900 to 1300 by 50``).

    Raises:
        SizeError: numbers that are not finite, a step that is not positive, or high below low.
    """
    finite("range", "low end", low)
    positive("range", "step", step)
    within("range", "high end", high, low, float("inf"))
    count = int((high - low) / step + 1e-9) + 1
    found = [round(low + k * step, 6) for k in range(count)]
    if found[-1] < high - 1e-9:
        found.append(high)
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """One variant.

    Attributes:
        values: Its numbers, by name.
        unit: The unit that they make.
        plan: How it is cut.
        findings: What the check found.
    """

    values: tuple[tuple[str, float], ...]
    unit: Unit
    plan: JobCuts
    findings: tuple[Finding, ...]

    @property
    def is_sound(self) -> bool:
        """Whether nothing that was found forbids making it."""
        return not any(is_error(finding) for finding in self.findings)

    @property
    def needs_nothing(self) -> bool:
        """Whether it comes from the leftovers alone."""
        return self.plan.new_sheets == 0

    @property
    def used_area(self) -> float:
        """Area of its blanks, m2."""
        return (
            sum(
                laid.blank.length * laid.blank.width
                for board in self.plan.boards
                for laid in board.laid
            )
            / 1e6
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Variants:
    """What a search found.

    Attributes:
        best_first: The variants: sound ones that need no new material, then the cheapest; those
            with errors last.
        refused: Values that make no unit or cannot be cut, with the reason.
        tried: How many combinations were tried.
        possible: How many there are.
    """

    best_first: tuple[Variant, ...]
    refused: tuple[tuple[tuple[tuple[str, float], ...], str], ...]
    tried: int
    possible: int


def variants(
    make_design: Callable[..., Design | Unit],
    ranges: Mapping[str, Sequence[float]],
    rack: Rack,
    *,
    check: Check | None = None,
    saw_tool: Saw | None = None,
    seed: int = 1,
    most: int = MOST_TRIED,
    rounds: int = ROUNDS_FOR_A_VARIANT,
    progress: Callable[[Variant], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Variants:
    """Try the combinations of some numbers of a design on a rack.

    Args:
        make_design: Makes the design from the numbers, by name.
        ranges: The values of each number, as ``steps`` gives them.
        rack: What there is and what can be bought.
        check: Says what is wrong with a unit; None for no check.
        saw_tool: The saw, for its kerf; None for a usual one.
        seed: For the search of each plan.
        most: How many combinations are tried at most, those in the middle of the ranges first.
        rounds: How long each plan is searched for.
        progress: Called with every variant as it is found.
        stop: Asked between variants; True ends the search with what there is.

    Raises:
        KindError: no function, no values by name, or no rack.
        SizeError: no range, a range without values, or a number of combinations that is none.
    """
    whole("variants", "number to try", most, 1, 1_000_000)
    kind_of("variants", "rack", rack, Rack, right="Rack(leftovers=..., sheets=...)")
    _require_ranges(make_design, ranges)
    for name, given in ranges.items():
        if not given:
            raise SizeError(
                f"variants: {name} has no values; give at least one",
                part=name,
                value=0,
                limit=1,
            )
    if not ranges:
        raise SizeError(
            "variants: no number has a range; give at least one", part="variants", value=0, limit=1
        )
    found: list[Variant] = []
    refused: list[tuple[tuple[tuple[str, float], ...], str]] = []
    tried = 0
    for values in _in_order(ranges, most):
        if stop is not None and stop():
            break
        tried += 1
        told = tuple(values.items())
        try:
            made = make_design(**values)
            right = "a function that returns a Design"
            if not isinstance(made, Unit):
                made = kind_of("variants", "what it makes", made, Design, right=right).resolve()
            unit = made
            findings = tuple(check(unit)) if check is not None else ()
            plan = cut_plan(unit, rack, saw_tool=saw_tool, seed=seed, rounds=rounds)
        except CabinetError as error:
            refused.append((told, str(error)))
            continue
        variant = Variant(values=told, unit=unit, plan=plan, findings=findings)
        found.append(variant)
        if progress is not None:
            progress(variant)
    # A price and an area cannot be held against each other.
    is_priced = all(variant.plan.price is not None for variant in found)
    return Variants(
        best_first=tuple(sorted(found, key=lambda one: _worth(one, is_priced=is_priced))),
        refused=tuple(refused),
        tried=tried,
        possible=_possible(ranges),
    )


def _require_ranges(make_design: object, ranges: object) -> None:
    right = 'a function of the numbers, and their values by name, such as {"width": (700, 720)}'
    if not callable(make_design) or not isinstance(ranges, Mapping):
        wrong = ranges if callable(make_design) else make_design
        raise KindError(
            f"variants: {type(wrong).__name__} is given; give {right}",
            part="variants",
            value=wrong,
            limit=right,
        )
    for name, values in ranges.items():
        if isinstance(values, str) or not isinstance(values, Sequence):
            raise KindError(
                f"variants: {name} has {values!r}; give its values, such as steps(600, 800, 20)",
                part=str(name),
                value=values,
                limit="several values",
            )


def _possible(ranges: Mapping[str, Sequence[float]]) -> int:
    count = 1
    for values in ranges.values():
        count *= len(values)
    return count


def _in_order(ranges: Mapping[str, Sequence[float]], most: int) -> Iterator[Values]:
    """Combinations, those nearest to the middle of all ranges first."""
    names = list(ranges)
    places = [range(len(ranges[name])) for name in names]

    def off_middle(combination: tuple[int, ...]) -> tuple[float, tuple[int, ...]]:
        off = [
            abs(k - (len(place) - 1) / 2) / max(len(place) - 1, 1)
            for k, place in zip(combination, places, strict=True)
        ]
        return sum(off), combination

    for combination in sorted(product(*places), key=off_middle)[:most]:
        yield {name: ranges[name][k] for name, k in zip(names, combination, strict=True)}


def _worth(variant: Variant, *, is_priced: bool) -> tuple[object, ...]:
    """Sound before faulty; no new material first; then cheapest; then the fullest use.

    Without a price for every variant the area that is bought stands for it.
    """
    plan = variant.plan
    return (
        not variant.is_sound,
        plan.new_sheets > 0,
        plan.price if is_priced else plan.new_area,
        plan.new_sheets,
        len(variant.findings),
        len(plan.patches),
        -round(variant.used_area, 6),
        variant.values,
    )
