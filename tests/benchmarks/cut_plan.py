"""Cut plans of instances in a file, written so that anyone can replay them.

``python -m tests.benchmarks.cut_plan --instances FILE --seconds S [--rotate] --out FILE``

An instance has a ``bin`` (width, height) and either ``items`` (width, height, count), all of
which are cut from as few sheets as possible, or ``pieces`` (width, height), of which any number
is cut from one sheet so that their area is largest. There is no kerf. The code is compiled
before the first clock starts; one core is used. Seconds are those of the processor, so that what
else the machine is doing makes no difference.
"""

from __future__ import annotations

import argparse
import json
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from cabinet.making.guillotine import Axis, Node, Piece, Sheet, to_grid
from cabinet.making.packing.goal import Goal
from cabinet.making.packing.one_sheet import fullest_sheet
from cabinet.making.packing.solve import plan_cuts

Instance = dict[str, Any]

# Rounds that no run on a clock comes to the end of.
ENDLESS = 10**9


def plain(size: float) -> float:
    """A whole number as an int, so that it is written as it was read."""
    return int(size) if size == int(size) else size


def node_as_data(node: Node) -> dict[str, Any]:
    """A node of the out file."""
    data: dict[str, Any] = {"size": [plain(node.length), plain(node.width)]}
    if node.piece:
        data["piece"] = int(node.piece.split("/")[0])
    if node.axis is not None:
        data["cut"] = "x" if node.axis is Axis.LENGTH else "y"
        data["parts"] = [node_as_data(part) for part in node.parts]
    return data


def few_sheets(instance: Instance, seconds: float, *, rotate: bool) -> tuple[bool, list[Node]]:
    """Cut all items from as few sheets as possible; return whether proven, and the sheets."""
    pieces = [
        Piece(name=f"{k}/{copy}", length=item[0], width=item[1], may_turn=rotate)
        for k, item in enumerate(instance["items"])
        for copy in range(item[2] if len(item) > 2 else 1)
    ]
    length, width = instance["bin"]
    answer = plan_cuts(
        pieces,
        [Sheet(name="sheet", length=length, width=width)],
        kerf=0.0,
        rounds=ENDLESS,
        seconds=seconds,
        clock=time.process_time,
        largest_rest=False,
    )
    return answer.is_proven, [cuts.root for cuts in answer.plan.sheets]


def full_sheet(instance: Instance, *, rotate: bool) -> tuple[bool, list[Node]]:
    """Cut pieces without number from one sheet; the answer is exact."""
    kinds = instance["pieces"]
    fullest = fullest_sheet(
        [str(k) for k in range(len(kinds))],
        [(to_grid(kind[0]), to_grid(kind[1])) for kind in kinds],
        [rotate] * len(kinds),
        (to_grid(instance["bin"][0]), to_grid(instance["bin"][1])),
        0,
    )
    return True, [fullest.root]


def run(instances: Sequence[Instance], seconds: float, *, rotate: bool) -> list[dict[str, Any]]:
    """Solve instance after instance; ``seconds`` is the most for each."""
    results = []
    for instance in instances:
        started = time.process_time()
        if "items" in instance:
            proven, sheets = few_sheets(instance, seconds, rotate=rotate)
        else:
            proven, sheets = full_sheet(instance, rotate=rotate)
        spent = time.process_time() - started
        results.append(
            {
                "name": instance["name"],
                "seconds": round(spent, 3),
                "proven": proven,
                "bins": [node_as_data(sheet) for sheet in sheets],
            }
        )
        print(f"{instance['name']}: {len(sheets)} in {spent:.2f} s", flush=True)
    return results


def main() -> None:
    """Read the instances, solve them, write the plans."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--instances", type=Path, required=True)
    parser.add_argument("--seconds", type=float, required=True)
    parser.add_argument("--rotate", action="store_true")
    parser.add_argument("--out", type=Path, required=True)
    given = parser.parse_args()
    instances = json.loads(given.instances.read_text())["instances"]
    warm_up()
    results = run(instances, given.seconds, rotate=given.rotate)
    given.out.write_text(json.dumps({"instances": results}) + "\n")
    total = sum(len(result["bins"]) for result in results)
    print(f"sheets: {total}, proven: {sum(r['proven'] for r in results)}")


def warm_up() -> None:
    """Compile the search, or load what was compiled before."""
    goal = Goal([(3, 2), (3, 2)], [True, True], [(4, 3)], 0)
    if goal.compile():
        goal.fill(0, 0)
        goal.advance(1)


if __name__ == "__main__":
    main()
