"""What the README promises is run here: its script, its commands, its picture."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")


def blocks(language: str) -> list[str]:
    """The fenced blocks of one language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def test_script_runs_and_leaves_a_job_folder(tmp_path: Path) -> None:
    (script,) = blocks("python")
    subprocess.run([sys.executable, "-c", script], cwd=tmp_path, check=True, capture_output=True)
    assert (tmp_path / "tool_cupboard.job" / "job.json").is_file()


def test_commands_name_what_is_there() -> None:
    commands = [line for block in blocks("") for line in block.splitlines()]
    assert commands == [
        "python -m pip install -e . && python examples/greenhouse_wall_unit.py",
        'python -m pip install -e ".[dev]" && python -m pytest',
    ]
    assert (ROOT / "examples" / "greenhouse_wall_unit.py").is_file()
    # CI installs and tests with the very commands of the README.
    script = (ROOT / ".ci" / "run").read_text("utf-8")
    assert 'pip install -q -e ".[dev]"' in script
    assert re.search(r"^python -m pytest$", script, re.MULTILINE)


def test_linked_files_exist() -> None:
    for target in re.findall(r"\]\(([^)]+)\)", README):
        assert (ROOT / target).is_file(), target


def test_top_level_is_kept_tidy() -> None:
    listed = subprocess.run(
        ["git", "ls-files"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    tops = {line.split("/")[0] for line in listed.stdout.splitlines()}
    allowed = {
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "pyproject.toml",
        "cabinet",
        "drawings",
        "tests",
        "examples",
    }
    assert {top for top in tops if not top.startswith(".")} <= allowed
