"""Seconds of each drawn sheet, how many of them are its kernel views, and the ratio of the two.

A sheet should be no slower than its kernel views by more than half again: beyond them there is
only ink to be placed. All sheets are drawn one after another, as a job draws them, several times
over, and of each sheet the fastest counts. Every time starts with nothing kept; within it a text
that was measured for one sheet is known on the next, as in a job, but no view is. Beside it stands
what it takes only to make a sheet's finished marks once more, one by one, in their places:
whatever finds those places comes on top.

    python -m tests.benchmarks.sheets [--example NAME] [--times 3]
"""

from __future__ import annotations

import argparse
import gc
import math
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from types import ModuleType
from typing import Any

import drawings.job  # noqa: F401 - loads every module that draws
from cabinet.design import Unit
from drawings import part_sheet, projection, section
from drawings.arrangement import arrangement_sheet
from drawings.board_projection import board_cut, board_edges
from drawings.fitting import fitted, wrapped
from drawings.lettering import _measure, text_box
from drawings.pictorial import pictorial_sheet
from drawings.scene import scene
from drawings.section_planes import section_planes
from drawings.sheet import Sheet
from drawings.sheet_set import Imprint, item_sheet, sheet_numbers, title_blocks
from drawings.unit_section import across_sheet, behind_sheet
from drawings.view_paper import moved
from tests.benchmarks.job import asked_of

LIMIT = 1.5
IMPRINT = Imprint(owner="workshop", number="BENCH", creator="workshop")

# What is kept of views, and of texts.
_VIEWS = (part_sheet._set_out, board_edges, board_cut)
_TEXTS = (fitted, wrapped, _measure, text_box)


def modules() -> list[ModuleType]:
    """All modules that draw."""
    return [module for name, module in sys.modules.items() if name.startswith("drawings.")]


class Kernel:
    """Counts the seconds of hidden-line views and cuts, wherever they are asked for."""

    def __init__(self) -> None:
        self.seconds = 0.0
        self._depth = 0
        timed = {id(f): self._timed(f) for f in (projection.project, section.cut, section.section)}
        for module in modules():
            for name, value in list(vars(module).items()):
                if id(value) in timed:
                    setattr(module, name, timed[id(value)])

    def _timed(self, inner: Callable[..., Any]) -> Callable[..., Any]:
        def timed(*args: Any, **more: Any) -> Any:
            # One of them may ask another.
            self._depth += 1
            begun = time.process_time()
            try:
                return inner(*args, **more)
            finally:
                self._depth -= 1
                if self._depth == 0:
                    self.seconds += time.process_time() - begun

        return timed


def drawers(unit: Unit) -> Iterator[Callable[[], Sheet]]:
    """What draws each sheet that has views of solids."""
    made, planes = scene(unit), section_planes(unit)
    block = title_blocks(made, IMPRINT)
    yield lambda: arrangement_sheet(made, planes, block(1))
    yield lambda: pictorial_sheet(made, block(2), sheet_numbers(made))
    yield lambda: across_sheet(made, planes, block(3))
    yield lambda: behind_sheet(made, planes, block(4))
    for item, _, _ in made.items:
        yield lambda item=item: item_sheet(made, IMPRINT, item)  # type: ignore[misc]


def forget(kept: Iterable[Any]) -> None:
    """Empty what is kept."""
    for one in kept:
        one.cache_clear()


def seconds_of_marks(sheet: Sheet, times: int) -> float:
    """Least seconds in which all marks of a finished sheet are made anew."""
    least = []
    for _ in range(times):
        begun = time.process_time()
        for mark in sheet.marks:
            moved(mark, 1.0, 1.0)
        least.append(time.process_time() - begun)
    return min(least)


def main() -> None:
    """Draw each sheet and print what it took."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--example", default="greenhouse_wall_unit")
    parser.add_argument("--times", type=int, default=3)
    asked = parser.parse_args()
    kernel = Kernel()
    draws = tuple(drawers(asked_of(asked.example)[0].resolve()))
    sheets: dict[int, Sheet] = {}
    fastest, least = [math.inf] * len(draws), [math.inf] * len(draws)
    for _ in range(asked.times):
        forget(_TEXTS)
        gc.collect()
        for number, draw in enumerate(draws):
            forget(_VIEWS)
            kernel.seconds, begun = 0.0, time.process_time()
            sheets[number] = draw()
            fastest[number] = min(fastest[number], time.process_time() - begun)
            least[number] = min(least[number], kernel.seconds)
    total, views, slow = sum(fastest), sum(least), []
    print(f"{'sheet':32} seconds  kernel  ratio    marks")
    for number, (seconds, bare) in enumerate(zip(fastest, least, strict=True)):
        sheet = sheets[number]
        if seconds > LIMIT * bare:
            slow.append(sheet.title)
        marks = seconds_of_marks(sheet, 10 * asked.times)
        print(f"{sheet.title:32} {seconds:7.4f} {bare:7.4f} {seconds / bare:6.2f}  {marks:7.4f}")
    print(f"{'together':32} {total:7.3f} {views:7.3f} {total / views:6.2f}")
    print(f"over {LIMIT:g}: {', '.join(slow) or 'none'}")


if __name__ == "__main__":
    main()
