"""Work beside this process: its result, its errors, and what happens when the copy is lost."""

from __future__ import annotations

import _thread
import os
import signal
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import cadquery as cq
import pytest

from cabinet.errors import DesignError
from drawings import second_process
from drawings.second_process import MOST_TASKS, shared_out

pytestmark = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="processes are copied on Linux only"
)


@pytest.fixture(params=[True, False], ids=["copied", "here"])
def can_copy(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> bool:
    """Both ways of working."""
    is_copied = bool(request.param)
    monkeypatch.setattr(second_process, "_can_copy", lambda: is_copied)
    return is_copied


def _waited_for(sign: Path) -> None:
    """Return when a file is there, as the copy's sign that it has begun."""
    until = time.monotonic() + 60.0
    while not sign.exists():
        assert time.monotonic() < until, "the copy did nothing for a minute"
        time.sleep(0.01)


def test_the_results_come_back(can_copy: bool, tmp_path: Path) -> None:
    """The tasks are done, some elsewhere, and their results come in their order."""
    here = os.getpid()

    def task(number: int) -> tuple[int, int, list[str]]:
        (tmp_path / f"{number}").touch(exist_ok=False)
        if os.getpid() != here:
            (tmp_path / "copy").touch()
        return number, os.getpid(), ["plank"] * 70_000

    with shared_out([partial(task, number) for number in range(7)]) as results:
        if can_copy:
            _waited_for(tmp_path / "copy")
        done = results()
    assert [number for number, _, _ in done] == list(range(7))
    assert all(planks == ["plank"] * 70_000 for _, _, planks in done)
    assert any(process != here for _, process, _ in done) is can_copy


@pytest.mark.usefixtures("can_copy")
def test_no_task_gives_no_result() -> None:
    """Nothing to do is done."""
    nothing: list[Callable[[], None]] = []
    with shared_out(nothing) as results:
        assert results() == ()


def test_more_tasks_than_can_be_told_are_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a pipe might not hold all the turns, no copy is made."""
    monkeypatch.setattr(second_process, "_can_copy", lambda: True)
    for count in (MOST_TASKS, MOST_TASKS + 1):
        with shared_out([partial(pow, number, 2) for number in range(count)]) as results:
            assert results() == tuple(number * number for number in range(count))
    with shared_out([os.getpid] * (MOST_TASKS + 1)) as results:
        assert set(results()) == {os.getpid()}


def _refuse() -> None:
    raise DesignError("plinth: too long", part="plinth", value=613.0, limit=587.0)


@pytest.mark.usefixtures("can_copy")
def test_what_it_raises_is_raised_here() -> None:
    """An error keeps its kind and what it tells."""
    with shared_out([_refuse]) as results, pytest.raises(DesignError, match="plinth") as caught:
        results()
    assert (caught.value.part, caught.value.value, caught.value.limit) == ("plinth", 613.0, 587.0)


def test_a_lost_copy_is_made_good(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """If the system ends the copy, the work is done here."""
    monkeypatch.setattr(second_process, "_can_copy", lambda: True)
    here = os.getpid()

    def work() -> str:
        if os.getpid() != here:
            (tmp_path / "copy").touch()
            os.kill(os.getpid(), signal.SIGKILL)
        return "done here"

    with shared_out([work, work]) as results:
        _waited_for(tmp_path / "copy")
        assert results() == ("done here", "done here")


def test_work_that_nobody_waits_for_is_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leaving the block does not wait for the work."""
    monkeypatch.setattr(second_process, "_can_copy", lambda: True)
    begun = time.monotonic()
    with shared_out([lambda: time.sleep(600.0)]):
        pass
    assert time.monotonic() - begun < 60.0


def test_the_kernel_works_in_the_copy(monkeypatch: pytest.MonkeyPatch) -> None:
    """A boolean that runs on the kernel's own threads does not wait for them for ever."""
    monkeypatch.setattr(second_process, "_can_copy", lambda: True)

    def volume() -> float:
        block = cq.Solid.makeBox(613.0, 287.0, 17.6)
        return block.cut(cq.Solid.makeBox(100.0, 40.0, 50.0)).Volume()

    expected = volume()
    with shared_out([volume, volume]) as results:
        assert results() == pytest.approx((expected, expected), rel=1e-12)


def test_no_copy_is_made_beside_a_thread() -> None:
    """Not even beside one that Python's module of threads was not told of."""
    begun, end = _thread.allocate_lock(), _thread.allocate_lock()
    begun.acquire()
    end.acquire()

    def wait() -> None:
        begun.release()
        end.acquire()

    _thread.start_new_thread(wait, ())
    begun.acquire()
    try:
        assert not second_process._can_copy()
    finally:
        end.release()
