"""Cutting instances made by published recipes, and jobs for property tests.

Berkey and Wang (J. Oper. Res. Soc. 38(5), 1987, pp. 423-429), classes I to VI: both sides whole
numbers, uniform from 1 to the first number, square bins of the second. Martello and Vigo
(Management Science 44(3), 1998, pp. 388-399), classes VII to X: bins of 100 x 100, four types of
pieces, 70 % of one type and 10 % of each other. Both recipes are from memory, and only they are
used: the instances are our own.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

BERKEY_WANG = {1: (10, 10), 2: (10, 30), 3: (35, 40), 4: (35, 100), 5: (100, 100), 6: (100, 300)}
MARTELLO_VIGO = {7: "wide", 8: "tall", 9: "large", 10: "small"}


@dataclass(frozen=True, slots=True)
class Instance:
    """Whole-number sizes (width, height) of pieces, and the side of the square bins."""

    sizes: tuple[tuple[int, int], ...]
    side: int


def _typed(kind: str, luck: random.Random, side: int) -> tuple[int, int]:
    long = luck.randint(2 * side // 3, side)
    short = luck.randint(1, side // 2)
    if kind == "wide":
        return long, short
    if kind == "tall":
        return short, long
    low, high = (side // 2, side) if kind == "large" else (1, side // 2)
    return luck.randint(low, high), luck.randint(low, high)


def instance(recipe: int, number: int, seed: int) -> Instance:
    """An instance of class ``recipe`` (1 to 10) with ``number`` pieces."""
    luck = random.Random(1000 * recipe + seed)  # noqa: S311 - no secret
    if recipe in BERKEY_WANG:
        most, side = BERKEY_WANG[recipe]
        sizes = [(luck.randint(1, most), luck.randint(1, most)) for _ in range(number)]
        return Instance(tuple(sizes), side)
    main = MARTELLO_VIGO[recipe]
    kinds = [main] * 6 + sorted(MARTELLO_VIGO.values())
    return Instance(tuple(_typed(luck.choice(kinds), luck, 100) for _ in range(number)), 100)
