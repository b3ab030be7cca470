"""Work beside this process: its result, its errors, and what happens when the copy is lost."""

from __future__ import annotations

import _thread
import os
import signal
import sys
import time

import cadquery as cq
import pytest

from cabinet.errors import DesignError
from drawings import second_process
from drawings.second_process import beside

pytestmark = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="processes are copied on Linux only"
)


@pytest.fixture(params=[True, False], ids=["copied", "here"])
def can_copy(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> bool:
    """Both ways of working."""
    is_copied = bool(request.param)
    monkeypatch.setattr(second_process, "_can_copy", lambda: is_copied)
    return is_copied


def test_the_result_comes_back(can_copy: bool) -> None:
    """The work is done elsewhere and its result is the same."""
    with beside(lambda: (os.getpid(), ["plank"] * 70_000)) as result:
        process, planks = result()
    assert (process != os.getpid()) is can_copy
    assert planks == ["plank"] * 70_000


def _refuse() -> None:
    raise DesignError("plinth: too long", part="plinth", value=613.0, limit=587.0)


@pytest.mark.usefixtures("can_copy")
def test_what_it_raises_is_raised_here() -> None:
    """An error keeps its kind and what it tells."""
    with beside(_refuse) as result, pytest.raises(DesignError, match="plinth") as caught:
        result()
    assert (caught.value.part, caught.value.value, caught.value.limit) == ("plinth", 613.0, 587.0)


def test_a_lost_copy_is_made_good(monkeypatch: pytest.MonkeyPatch) -> None:
    """If the system ends the copy, the work is done here."""
    monkeypatch.setattr(second_process, "_can_copy", lambda: True)
    here = os.getpid()

    def work() -> str:
        if os.getpid() != here:
            os.kill(os.getpid(), signal.SIGKILL)
        return "done here"

    with beside(work) as result:
        assert result() == "done here"


def test_work_that_nobody_waits_for_is_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leaving the block does not wait for the work."""
    monkeypatch.setattr(second_process, "_can_copy", lambda: True)
    begun = time.monotonic()
    with beside(lambda: time.sleep(600.0)):
        pass
    assert time.monotonic() - begun < 60.0


def test_the_kernel_works_in_the_copy(monkeypatch: pytest.MonkeyPatch) -> None:
    """A boolean that runs on the kernel's own threads does not wait for them for ever."""
    monkeypatch.setattr(second_process, "_can_copy", lambda: True)

    def volume() -> float:
        block = cq.Solid.makeBox(613.0, 287.0, 17.6)
        return block.cut(cq.Solid.makeBox(100.0, 40.0, 50.0)).Volume()

    expected = volume()
    with beside(volume) as result:
        assert result() == pytest.approx(expected, rel=1e-12)


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
