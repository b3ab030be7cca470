"""What the README promises is run here: its script, its commands, its picture."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

from tests.planted.every import EVERY

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")


def blocks(language: str) -> list[str]:
    """The fenced blocks of one language."""
    fenced = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    return [text for kind, text in fenced if kind == language]


def test_scripts_run_and_leave_a_job_folder(tmp_path: Path) -> None:
    """One after another, as one who reads from the top would run them."""
    script = "\n".join(blocks("python"))
    subprocess.run([sys.executable, "-c", script], cwd=tmp_path, check=True, capture_output=True)
    record = json.loads((tmp_path / "tool_cupboard.job" / "job.json").read_text("utf-8"))
    # The last of them takes boards from the rack.
    boards = [b for stock in record["cut_plan"]["stocks"] for b in stock["boards"]]
    assert any(board["is_leftover"] for board in boards)


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
        assert (ROOT / target.partition("#")[0]).is_file(), target


def test_every_rule_has_its_line_in_the_guide() -> None:
    """What a planted mistake raises can be looked up: a line in one, an entry in the other."""
    guide = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    entries = (ROOT / "cabinet" / "RULES.md").read_text("utf-8")
    headings = re.findall(r"^### (\S+)$", entries, re.MULTILINE)
    rules = {mistake.expected_rule for mistake in EVERY}
    assert len(rules) > 50
    assert {rule for rule in rules if f"`{rule}`" not in guide} == set()
    assert len(headings) == len(set(headings))
    assert rules - set(headings) == set()


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
