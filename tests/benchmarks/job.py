"""Seconds of a whole job by stage, its peak memory, and its ratio to the kernel's own work.

The floor is the same solids, meshes and hidden-line views, made with bare kernel calls in the
same process, in the same directions that the job itself asked for and on the finished solids:
what the job leaves out of a view because it is surely hidden is given to the kernel there.

    python -m tests.benchmarks.job [--example NAME]
"""

from __future__ import annotations

import argparse
import functools
import gc
import runpy
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any
from unittest.mock import patch

BEGUN = time.perf_counter()

import cadquery as cq  # noqa: E402 - what importing costs is measured by itself
from OCP.BRepMesh import BRepMesh_IncrementalMesh  # noqa: E402
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt  # noqa: E402
from OCP.HLRAlgo import HLRAlgo_Projector  # noqa: E402
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape  # noqa: E402

import drawings.projection  # noqa: E402
import drawings.scene  # noqa: E402
import drawings.second_process  # noqa: E402
from cabinet.design import Design, Unit  # noqa: E402
from cabinet.solids import blank_solid, cutter  # noqa: E402
from drawings import write_job  # noqa: E402
from drawings.view_frame import ViewFrame  # noqa: E402

IMPORTED = time.perf_counter() - BEGUN
ROOT = Path(__file__).parents[2]

Asked = list[tuple[dict[str, cq.Shape], ViewFrame]]


def asked_of(name: str) -> tuple[Design, dict[str, Any]]:
    """The design of an example script, and what else the script asks of ``write_job``."""
    told: list[tuple[Design, dict[str, Any]]] = []
    with patch.object(drawings, "write_job", lambda design, _, **rest: told.append((design, rest))):
        runpy.run_path(str(ROOT / "examples" / f"{name}.py"), run_name="__main__")
    return told[0]


def forget() -> None:
    """Empty what functions of the project remember of earlier calls."""
    for kept in gc.get_objects():
        if isinstance(kept, functools._lru_cache_wrapper) and kept.__module__.startswith(
            ("cabinet.", "drawings.")
        ):
            kept.cache_clear()


def listening(asked: Asked) -> Callable[..., Any]:
    """The projection as it is, keeping what it is asked."""
    inner = drawings.projection._projected

    def projected(solids: Mapping[str, cq.Shape], frame: ViewFrame) -> Any:
        asked.append((dict(solids), frame))
        return inner(solids, frame)

    return projected


_WATCHER = """
import glob, os, sys, time
def share(pid):
    try:
        with open(f"/proc/{pid}/smaps_rollup") as told:
            return next(int(line.split()[1]) for line in told if line.startswith("Pss:"))
    except (OSError, StopIteration):
        return 0
def copies(pid):
    found = [pid]
    for path in glob.glob(f"/proc/{pid}/task/*/children"):
        try:
            with open(path) as told:
                found += told.read().split()
        except OSError:
            pass
    return found
most, parent = 0, sys.argv[1]
while True:
    now = sum(map(share, copies(parent)))
    if now == 0:
        break
    most = max(most, now)
    time.sleep(0.2)
print(most)
"""


def peak_memory(name: str) -> float:
    """The peak of memory in MB of the job, run once more in a process of its own.

    Asking the system for it holds up the process that is asked, so it is not done while a job
    is timed. Each page that the job and its copies share is counted once.
    """
    with tempfile.TemporaryDirectory() as folder:
        running = subprocess.Popen(
            [sys.executable, "-m", __spec__.name, "--example", name, "--only-run-in", folder],
            cwd=ROOT,
        )
        told = subprocess.run(
            [sys.executable, "-c", _WATCHER, str(running.pid)],
            stdout=subprocess.PIPE,
            text=True,
            check=True,
        )
        if running.wait() != 0:
            raise SystemExit("the job that was watched failed")
    return int(told.stdout) / 1024


def floor(unit: Unit, asked: Asked) -> dict[str, float]:
    """Seconds of the bare kernel calls."""
    seconds: dict[str, float] = {}
    begun = time.perf_counter()
    solids = []
    for board, _ in unit.boards:
        tools = [t for f in board.features if (t := cutter(f, board.size)) is not None]
        block = blank_solid(board.size)
        solids.append(block.cut(*tools) if tools else block)
    seconds["solids"] = time.perf_counter() - begun
    begun = time.perf_counter()
    for shapes, frame in asked:
        _hidden_lines(shapes, frame)
    seconds[f"{len(asked)} hidden-line views"] = time.perf_counter() - begun
    begun = time.perf_counter()
    for solid in solids:
        BRepMesh_IncrementalMesh(solid.wrapped, 0.1)
    seconds["meshes"] = time.perf_counter() - begun
    return seconds


def _hidden_lines(shapes: Mapping[str, cq.Shape], frame: ViewFrame) -> None:
    algorithm = HLRBRep_Algo()
    for shape in shapes.values():
        algorithm.Add(shape.wrapped)
    axes = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*frame.toward), gp_Dir(*frame.right))
    algorithm.Projector(HLRAlgo_Projector(axes))
    algorithm.Update()
    algorithm.Hide()
    found = HLRBRep_HLRToShape(algorithm)
    for shape in shapes.values():
        for reading in (
            found.VCompound,
            found.OutLineVCompound,
            found.HCompound,
            found.OutLineHCompound,
        ):
            reading(shape.wrapped)


def main() -> None:
    """Run the job once, then the floor, and print both."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--example", default="greenhouse_wall_unit")
    parser.add_argument("--only-run-in", metavar="FOLDER", help=argparse.SUPPRESS)
    asked_for = parser.parse_args()
    design, rest = asked_of(asked_for.example)
    if asked_for.only_run_in:
        write_job(design, Path(asked_for.only_run_in) / "bench.job", **rest, tell=None)
        return
    asked: Asked = []
    with tempfile.TemporaryDirectory() as folder:
        begun = time.perf_counter()
        job = write_job(design, Path(folder) / "bench.job", **rest, tell=None)
        whole = time.perf_counter() - begun
        # Once more in this process alone and from the beginning, to hear all that was asked of
        # the kernel, also by the copy.
        forget()
        drawings.projection._projected = listening(asked)
        drawings.second_process._can_copy = lambda: False
        drawings.scene.seen_part = lambda part, *_: part  # type: ignore[attr-defined]
        write_job(design, Path(folder) / "bench.job", **rest, tell=None)
    bare = floor(design.resolve(), asked)
    total = sum(bare.values())
    print(
        f"{design.name}: import {IMPORTED:.2f} s, job {whole:.2f} s, peak {peak_memory(asked_for.example):.0f} MB"
    )
    for name, seconds in job.seconds.items():
        print(f"  {name:28} {seconds:6.2f} s")
    print(f"floor {total:.2f} s: " + ", ".join(f"{n} {s:.2f} s" for n, s in bare.items()))
    print(f"ratio of the job to the floor {whole / total:.2f}")


if __name__ == "__main__":
    main()
