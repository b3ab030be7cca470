"""What is bought, by article and count."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from cabinet.design import Unit


@dataclass(frozen=True, slots=True)
class HardwareLine:
    """One article and how many of it a unit needs."""

    article: str
    count: int


def hardware_list(unit: Unit) -> tuple[HardwareLine, ...]:
    """All bought pieces of a unit, by article."""
    counts = Counter(item.article for item in unit.hardware)
    return tuple(HardwareLine(article, counts[article]) for article in sorted(counts))
