"""Imports go one way, and the data does not load the kernel."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


def run(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run this Python afresh in a folder, which is the only place that it looks for packages."""
    return subprocess.run(
        [sys.executable, *arguments],
        cwd=folder,
        env=os.environ | {"PYTHONPATH": str(folder)},
        capture_output=True,
        text=True,
        check=False,
    )


def contracts(folder: Path) -> subprocess.CompletedProcess[str]:
    """Hold the packages of a folder to the contracts in its pyproject.toml."""
    command = "from importlinter.cli import lint_imports_command as main; main()"
    return run(folder, "-c", command, "--no-cache")


def test_imports_go_one_way() -> None:
    """Every contract is kept."""
    result = contracts(ROOT)
    assert result.returncode == 0, result.stdout
    assert "0 broken" in result.stdout


PLANTED = [
    pytest.param(
        "cabinet/board.py",
        "from drawings import marks",
        "cabinet is not allowed to import drawings",
        id="the model imports the drawings",
    ),
    pytest.param(
        "cabinet/frame.py",
        "from cabinet import part",
        "cabinet.frame is not allowed to import cabinet.part",
        id="data imports what is made of it",
    ),
    pytest.param(
        "cabinet/components/doors.py",
        "def late() -> None:\n    from cabinet import solids",
        "cabinet.components is not allowed to import cadquery",
        id="a component loads the kernel through others, within a function",
    ),
    pytest.param(
        "drawings/table.py",
        "import cadquery",
        "drawings.table -> cadquery",
        id="another file of the drawings imports the kernel",
    ),
    pytest.param(
        "cabinet/utils.py",
        "",
        "- cabinet.utils",
        id="a module that nobody has placed",
    ),
]


@pytest.mark.parametrize(("file", "line", "told"), PLANTED)
def test_a_planted_wrong_import_is_found(tmp_path: Path, file: str, line: str, told: str) -> None:
    """The contracts can fail: each wrong import, added to a copy of the tree, breaks one."""
    leave = shutil.ignore_patterns("__pycache__")
    for package in ("cabinet", "drawings"):
        shutil.copytree(ROOT / package, tmp_path / package, ignore=leave)
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    with (tmp_path / file).open("a", encoding="utf-8") as text:
        text.write(f"\n{line}\n")
    result = contracts(tmp_path)
    assert result.returncode != 0
    assert told in " ".join(result.stdout.split()), result.stdout


KERNEL = "print(sorted({'cadquery', 'OCP'} & set(sys.modules)))"
RESOLVED = f"""
import runpy, sys, types
drawings = types.ModuleType("drawings")
drawings.write_job = None
sys.modules["drawings"] = drawings
unit = runpy.run_path(sys.argv[1])["unit"].resolve()
print(len(unit.parts))
{KERNEL}
"""


def test_the_data_does_not_load_the_kernel() -> None:
    """``import cabinet`` in a fresh process; the kernel costs a second and a half."""
    result = run(ROOT, "-c", f"import cabinet, sys; {KERNEL}")
    assert result.stdout.split("\n")[:1] == ["[]"], result.stderr


@pytest.mark.parametrize(
    "example", sorted((ROOT / "examples").glob("*.py")), ids=lambda path: path.stem
)
def test_resolving_a_design_does_not_load_the_kernel(example: Path) -> None:
    """Each example up to its parts with all features, in a fresh process."""
    result = run(ROOT, "-c", RESOLVED, str(example))
    parts, loaded = result.stdout.split("\n")[:2]
    assert int(parts) > 3, result.stderr
    assert loaded == "[]"


def test_the_kernel_is_noticed_when_it_is_loaded() -> None:
    """The proof of the proof: solids do load it."""
    result = run(ROOT, "-c", f"import cabinet.solids, sys; {KERNEL}")
    assert result.stdout.split("\n")[:1] == ["['OCP', 'cadquery']"], result.stderr
