"""A script run afresh: what it tells, and how its mistakes are told."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

import drawings
import drawings.job
from drawings.kept_script import Mistake, Told, modules_beside, told_by
from tests.drawings.kept_scripts import SCRIPT, write_script, write_sizes


@pytest.fixture(autouse=True)
def beside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As when a script is run by hand: its own folder is looked in first."""
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    monkeypatch.delitem(sys.modules, "sizes", raising=False)


def mistake(script: Path) -> Mistake:
    found = told_by(script)
    assert isinstance(found, Mistake)
    return found


def told(script: Path) -> Told:
    found = told_by(script)
    assert isinstance(found, Told), found
    return found


def test_a_module_beside_is_read_again(tmp_path: Path) -> None:
    script = write_script(tmp_path, width=613)
    assert told(script).design.resolve().outline.size[0] == pytest.approx(613)
    assert modules_beside(script) == {"sizes": tmp_path / "sizes.py"}
    write_sizes(tmp_path, width=597)
    assert told(script).design.resolve().outline.size[0] == pytest.approx(597)


def test_what_write_job_is_asked_for_is_heard_and_nothing_written(tmp_path: Path) -> None:
    script = write_script(tmp_path)
    lines = [
        "from drawings import write_job",
        "from cabinet.workshop import Workshop",
        "job = write_job(unit, 'twine.job', workshop=Workshop(), as_draft=True)",
        "assert not job.files",
        "other = Design('Other', unit.components)",
    ]
    script.write_text(SCRIPT + "\n".join(lines), encoding="utf-8")
    own = drawings.write_job
    heard = told(script)
    assert heard.design.name == "Twine box"
    assert heard.workshop is not None
    assert not (tmp_path / "twine.job").exists()
    assert drawings.write_job is own is drawings.job.write_job


def test_the_last_design_that_has_a_name_is_drawn(tmp_path: Path) -> None:
    script = write_script(tmp_path)
    script.write_text(SCRIPT + "other = Design('Other', unit.components)\n", encoding="utf-8")
    assert told(script).design.name == "Other"


MISTAKES = [
    pytest.param("width = = 3", "cannot be read", "invalid syntax", 2, id="syntax"),
    pytest.param("shelf = 3 / 0", "ZeroDivisionError", "division by zero", 2, id="any error"),
    pytest.param("raise KeyError()", "KeyError", "KeyError", 2, id="an error without words"),
    pytest.param("raise SystemExit(7)", "ended itself", "7", 0, id="it ends itself"),
    pytest.param("import no_such_module_here", "ModuleNotFound", "no_such", 2, id="no module"),
    pytest.param(
        "from cabinet import birch_plywood\nbirch_plywood(nominal=18, measured=-1)",
        "No unit",
        "-1",
        3,
        id="a size that is none",
    ),
    pytest.param("x = 1", "nothing to draw", "Design", 0, id="no design"),
]


@pytest.mark.parametrize(("text", "title", "sentence", "line"), MISTAKES)
def test_a_mistake_is_told_with_its_place(
    tmp_path: Path, text: str, title: str, sentence: str, line: int
) -> None:
    script = tmp_path / "bad.py"
    script.write_text(f"# bad\n{text}\n", encoding="utf-8")
    found = mistake(script)
    assert title in found.title
    assert sentence in " ".join(found.sentences)
    if line:
        assert found.place == f"bad.py, line {line}"
        assert found.code == text.splitlines()[line - 2]


def test_a_mistake_in_a_module_beside_is_told_there(tmp_path: Path) -> None:
    script = write_script(tmp_path)
    (tmp_path / "sizes.py").write_text("WIDTH = 613\nHOLE = [][4]\n", encoding="utf-8")
    found = mistake(script)
    assert found.title == "The script stops: IndexError"
    assert (found.place, found.code) == ("sizes.py, line 2", "HOLE = [][4]")
