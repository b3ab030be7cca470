"""What is used up: glue, discs, finish and rags, each with how much of it.

Amounts are least and most; buy by the most. Counts of discs and rags are common practice, no
source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.making.finishing import FinishingPlan
from cabinet.making.glue_stage import GluingPlan
from cabinet.quantity import Range

# Rags for one coat: two for each of these areas, m2 (common practice, no source).
_RAG_AREA = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Consumable:
    """One thing that is used up.

    Attributes:
        article: What it is.
        amount: Least and most.
        unit: What the amount counts (``g``, ``l``, ``pieces``).
    """

    article: str
    amount: Range
    unit: str


def consumables(gluing: GluingPlan, finishing: FinishingPlan) -> tuple[Consumable, ...]:
    """All that is used up for a unit, beside its boards and its hardware."""
    found = [
        Consumable(article=glue.name, amount=gluing.grams(glue), unit="g") for glue in gluing.glues
    ]
    if finishing.discs:
        discs = float(finishing.discs)
        found.append(
            Consumable(article="sanding disc, 150 across", amount=(discs, discs), unit="pieces")
        )
    if finishing.wood_area:
        finish = finishing.finish
        found.append(Consumable(article=finish.name, amount=finishing.litres, unit="l"))
        rags = float(2 * finish.coats * math.ceil(finishing.wood_area / 1e6 / _RAG_AREA))
        found.append(Consumable(article="lint-free rag", amount=(rags, rags), unit="pieces"))
    return tuple(found)
