"""Seconds from the save of a script to its news on the page's side, for a unit of 20 parts.

The floor is what no program can avoid: the changed boards' solids and meshes, made with bare
kernel calls. Each change is made several times, each time to a size not seen before.

    python -m tests.benchmarks.redraw [--times 3]
"""

from __future__ import annotations

import argparse
import json
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from statistics import median
from typing import Any

from OCP.BRepMesh import BRepMesh_IncrementalMesh

from cabinet.design import Unit
from cabinet.part import Board
from cabinet.solids import blank_solid, cutter
from drawings.kept_drawn import KeptDrawn
from drawings.kept_script import Told, told_by

# A tall cupboard for yarn with 20 parts.
SCRIPT = """
from cabinet import (
    BackPanel, Design, birch_plywood, board_shelf, carcass, pin_rows, plinth, poplar_plywood,
)

poplar = poplar_plywood(nominal=18, measured=17.4)
box = carcass(
    width={width}, height=1783, depth=367, stock=poplar, dividers=1,
    back=BackPanel(stock=birch_plywood(nominal=6.5, measured=6.3), inset=12),
)
pins = pin_rows(box, first=160)
shelves = [
    board_shelf(pins.bay(bay), hole=hole, stock=poplar, name=f"{{side}} shelf {{number}}")
    for bay, side, holes in ((1, "left", (6, 13, 20, 27, 34)), (2, "right", (9, 18, 26, 35)))
    for number, hole in enumerate(holes, start=1)
]
one = board_shelf(
    pins.bay(2), hole=3, stock=poplar_plywood(nominal=18, measured={measured}), name="low shelf",
)
unit = Design(
    "Yarn cupboard",
    (box.component, pins.component, *shelves, one, plinth(box, stock=poplar, height=87)),
    is_hung=False,
)
"""


# What is there when the page is told of each phase.
STAGES = (("model", "checks"), ("findings", "sheets"), ("part sheets", "plans"), ("plans", "drawn"))


class Heard:
    """What the server tells a page, read as a page reads it."""

    def __init__(self, answer: HTTPResponse) -> None:
        self._answer = answer

    def until(self, phase: str) -> dict[str, Any]:
        """The state when it comes to be of a phase."""
        for slot, content in self._news():
            if slot == "mistake" and content is not None:
                raise SystemExit(f"the unit of the benchmark is refused: {content}")
            if slot == "state" and content["phase"] == phase:
                state: dict[str, Any] = content
                return state
        raise SystemExit("the server ended")

    def _news(self) -> Iterator[tuple[str, Any]]:
        while line := self._answer.readline():
            if line.startswith(b"data: "):
                told = json.loads(line[6:])
                yield told["slot"], told["content"]


def written(script: Path, *, width: float = 843, measured: float = 17.4) -> None:
    """Save the script with these sizes."""
    script.write_text(SCRIPT.format(width=width, measured=measured), encoding="utf-8")


def resolved(script: Path) -> Unit:
    """The unit that the script makes."""
    told = told_by(script)
    if not isinstance(told, Told):
        raise SystemExit(f"the unit of the benchmark is refused: {told}")
    return told.design.resolve()


def floor(boards: set[Board]) -> float:
    """Seconds of the bare kernel calls for some boards."""
    begun = time.perf_counter()
    for board in boards:
        tools = [t for f in board.features if (t := cutter(f, board.size)) is not None]
        block = blank_solid(board.size)
        solid = block.cut(*tools) if tools else block
        BRepMesh_IncrementalMesh(solid.wrapped, 0.1)
    return time.perf_counter() - begun


def measured(script: Path, heard: Heard, sizes: list[dict[str, float]], what: str) -> None:
    """Save the script with one size after another and print what the page is told when."""
    stages: dict[str, list[float]] = {name: [] for name, _ in STAGES}
    bare = []
    boards = {part.board for part in resolved(script).parts}
    for size in sizes:
        written(script, **size)
        begun = time.perf_counter()
        for name, phase in STAGES:
            heard.until(phase)
            stages[name].append(time.perf_counter() - begun)
        unit = resolved(script)
        now = {part.board for part in unit.parts}
        bare.append(floor(now - boards))
        changed, boards = len(now - boards), now
    print(f"{what}: {len(unit.parts)} parts, {changed} distinct boards changed")
    for name, seconds in stages.items():
        ratio = median(seconds) / median(bare)
        print(
            f"  {name:12} {median(seconds):6.2f} s after the save (median of {len(seconds)}, "
            f"{min(seconds):.2f} to {max(seconds):.2f}), {ratio:.1f} times the kernel's own work"
        )
    print(f"  {'floor':12} {median(bare):6.3f} s for solids and meshes of the changed boards")


def main() -> None:
    """Keep the script drawn, save it again and again, and print the times."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--times", type=int, default=3)
    times = range(1, parser.parse_args().times + 1)
    with tempfile.TemporaryDirectory() as folder:
        script = Path(folder) / "yarn_cupboard.py"
        written(script)
        with KeptDrawn(script, tell=None) as kept:
            port = int(kept.address.rstrip("/").rpartition(":")[2])
            with closing(HTTPConnection("127.0.0.1", port)) as connection:
                connection.request("GET", "/news")
                with connection.getresponse() as answer:
                    heard = Heard(answer)
                    begun = time.perf_counter()
                    heard.until("drawn")
                    print(f"first drawing, with the start: {time.perf_counter() - begun:.2f} s")
                    one = [{"measured": 17.4 - i / 10} for i in times]
                    measured(script, heard, one, "one part")
                    whole = [{"width": 843 - 7.0 * i} for i in times]
                    measured(script, heard, whole, "the whole width")


if __name__ == "__main__":
    main()
