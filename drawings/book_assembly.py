"""The order of putting together as the book shows it: which pieces, which way, in what words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from cabinet.record import Record
from cabinet.wording import listed
from drawings.book_moves import DIRECTIONS

_MOST_NAMES = 3  # told one by one; of more, only how many


@dataclass(frozen=True, slots=True, kw_only=True)
class BookStep:
    """One step of the order.

    Attributes:
        names: Names of the pieces that are brought.
        direction: Unit vector of their way, in the frame of the unit; zero for none.
        travel: Length of their way, mm.
        words: What is done, in words.
    """

    names: tuple[str, ...]
    direction: tuple[int, int, int]
    travel: float
    words: str


def book_assembly(record: Record) -> tuple[BookStep, ...]:
    """All steps, in the order in which the unit was proved to come together.

    Args:
        record: The content of job.json.
    """
    articles = {item["name"]: item["article"] for item in record["hardware"]}
    made: set[str] = set()
    steps: list[BookStep] = []
    for _, stage in groupby(record["assembly"]["steps"], lambda step: step["stage"]):
        in_stage = list(stage)
        for step in in_stage:
            is_all = len(made) > _MOST_NAMES and made <= set(step["bodies"])
            steps.append(_step(step, articles, is_all=is_all))
        made |= {name for step in in_stage for name in step["bodies"]}
    return tuple(steps)


def _step(step: Record, articles: Mapping[str, str], *, is_all: bool) -> BookStep:
    side = step["direction"]
    return BookStep(
        names=tuple(step["bodies"]),
        direction=(0, 0, 0) if side is None else DIRECTIONS[side],
        travel=step["travel"],
        words=_words(step, articles, is_all=is_all),
    )


def _words(step: Record, articles: Mapping[str, str], *, is_all: bool) -> str:
    """``glued: divider with 2 × biscuit no. 20, moved down, to base and bottom rail``."""
    names = [name for name in step["bodies"] if name not in articles]
    counts = Counter(articles[name] for name in step["bodies"] if name in articles)
    bought = [f"{count} × {article}" for article, count in counts.items()]
    what = "all that is put together" if is_all else _listed(names or bought)
    if names and bought and not is_all:
        what += f" with {_listed(bought)}"
    if step["direction"] is None:
        return f"{step['stage']}: lay out {what}"
    onto = f", to {_listed(step['onto'])}" if step["onto"] else ""
    return f"{step['stage']}: {what}, {_WAYS[step['direction']]}{onto}"


_WAYS = {
    "left": "moved to the left",
    "right": "moved to the right",
    "front": "moved to the front",
    "back": "moved to the back",
    "bottom": "moved down",
    "top": "moved up",
}


def _listed(names: list[str]) -> str:
    if len(names) > _MOST_NAMES:
        return f"{names[0]} and {len(names) - 1} others"
    return listed(names)
