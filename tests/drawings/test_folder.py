"""The job folder: what may be replaced, what is carried over, what is left when a run ends early."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from cabinet.errors import FolderError
from drawings.folder import check_target, written_at_once
from drawings.job_schema import SCHEMA


def earlier(folder: Path) -> Path:
    """A folder as a run leaves it, in little."""
    record = {
        "schema": SCHEMA,
        "sheets": [{"file": "sheets/01-plan.svg"}],
        "templates": ["templates/jig-1-of-1.svg"],
    }
    for name in (
        "job.pdf",
        "book.html",
        "sheets/01-plan.svg",
        "templates/jig-1-of-1.svg",
        "lists/parts.csv",
        "model/unit.glb",
        "model/parts/01-base.step",
    ):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text("old")
    (folder / "job.json").write_text(json.dumps(record))
    return folder


def content(folder: Path) -> dict[str, str]:
    """Every file with what is in it."""
    files = (p for p in folder.rglob("*") if p.is_file())
    return {p.relative_to(folder).as_posix(): p.read_text() for p in files}


def run_over(target: Path, name: str = "sheets/01-front.svg") -> None:
    """A run that writes one file."""
    with written_at_once(target) as fresh:
        (fresh / name).parent.mkdir(parents=True)
        (fresh / name).write_text("new")


def test_what_the_maker_put_there_is_carried_over(tmp_path: Path) -> None:
    """Notes, photographs among the sheets, an empty folder, a link; nothing of the old job."""
    target = earlier(tmp_path / "x.job")
    (target / "notes.txt").write_text("oil twice")
    (target / "sheets" / "02-photo.jpg").write_text("bench")
    (target / "for the client").mkdir()
    (target / "rack").symlink_to(tmp_path / "elsewhere")
    run_over(target)
    assert content(target) == {
        "notes.txt": "oil twice",
        "sheets/02-photo.jpg": "bench",
        "sheets/01-front.svg": "new",
    }
    assert (target / "for the client").is_dir()
    assert (target / "rack").readlink() == tmp_path / "elsewhere"
    assert [p.name for p in tmp_path.iterdir()] == ["x.job"]


def test_own_file_in_the_way_is_not_written_over(tmp_path: Path) -> None:
    """It is named, and everything is as it was."""
    target = earlier(tmp_path / "x.job")
    (target / "sheets" / "07-mine.svg").write_text("mine")
    before = content(target)
    with pytest.raises(FolderError, match=r"sheets/07-mine\.svg"):
        run_over(target, "sheets/07-mine.svg")
    assert content(target) == before
    assert [p.name for p in tmp_path.iterdir()] == ["x.job"]


@pytest.mark.parametrize("text", ['{"mine": 1}', "[]", "{broken", "\x00"])
def test_job_json_of_something_else_protects_its_folder(tmp_path: Path, text: str) -> None:
    """Another program's file of that name is no licence to replace the folder."""
    target = tmp_path / "own"
    target.mkdir()
    (target / "job.json").write_text(text)
    (target / "letter.txt").write_text("a letter")
    before = content(target)
    with pytest.raises(FolderError, match="not of a job"):
        run_over(target)
    assert content(target) == before


@pytest.mark.parametrize("name", ["x" * 300, "a\0b"])
def test_a_name_that_no_folder_can_have(tmp_path: Path, name: str) -> None:
    """Refused before anything is computed."""
    with pytest.raises(FolderError, match="name another"):
        check_target(tmp_path / name)


SCRIPT = """
import sys, time
from pathlib import Path
from drawings.folder import written_at_once
with written_at_once(Path(sys.argv[1])) as fresh:
    (fresh / "job.pdf").write_text("half")
    print("writing", flush=True)
    time.sleep(60)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="POSIX signals")
@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_a_run_that_is_told_to_end_leaves_nothing_half_written(tmp_path: Path, name: str) -> None:
    """Ctrl-C, a plain kill, and a terminal that is closed."""
    target = earlier(tmp_path / "x.job")
    before = content(target)
    root = Path(__file__).parents[2]
    with subprocess.Popen(
        [sys.executable, "-c", SCRIPT, str(target)],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": str(root)},
    ) as run:
        assert run.stdout is not None
        assert run.stdout.readline() == b"writing\n"
        began = time.monotonic()
        run.send_signal(getattr(signal, name))
        assert run.wait(timeout=30) != 0
    assert time.monotonic() - began < 30
    assert content(target) == before
    assert [p.name for p in tmp_path.iterdir()] == ["x.job"]
