"""What a planted mistake is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.findings import Finding

Check = Callable[[Unit], Iterator[Finding]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One kind of mistake.

    Attributes:
        kind: What slipped, in a maker's words.
        expected_rule: Rule that must speak.
        check: The check that speaks it.
        plant: Makes the mistake, of a size, on a resolved unit.
        sizes: Sizes in which it is planted, mm unless the kind says otherwise.
        designs: Names of the good designs on which it is planted (``designs.DESIGNS``).
    """

    kind: str
    expected_rule: str
    check: Check
    plant: Callable[[Unit, float], Unit]
    sizes: tuple[float, ...]
    designs: tuple[str, ...]
