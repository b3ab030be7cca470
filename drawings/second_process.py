"""Work done in a copy of this process, on the machine's other core.

The kernel holds Python's lock while it works, so threads win nothing. A copy of the process has
all that was computed so far and needs only to hand back its result. Where a copy cannot be made
safely the work is done here, when its result is asked for; the result is the same.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import signal
import sys
import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TypeVar, cast

from OCP.OSD import OSD_ThreadPool

T = TypeVar("T")


@contextmanager
def beside(work: Callable[[], T]) -> Iterator[Callable[[], T]]:
    """Begin some work beside this process; within the block, call what it gives for the result.

    Args:
        work: What is to be done. Its result, and what it raises, must be plain enough to pickle.

    Yields:
        A function that waits for the result and returns it, or raises what ``work`` raised. On
        leaving the block, work that is not finished is stopped.
    """
    if not _can_copy():
        yield work
        return
    child, source = _begun(work)
    try:
        yield lambda: _result(source, work)
    finally:
        os.close(source)
        with contextlib.suppress(ProcessLookupError):
            os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)


def _can_copy() -> bool:
    """Only where forking is sound and of use: one thread of Python, a second core."""
    # Every thread of Python has a frame, also one that its module of threads was not told of.
    is_alone = len(sys._current_frames()) == 1  # noqa: SLF001 - documented, underscore and all
    is_sound = sys.platform.startswith("linux") and is_alone
    return is_sound and len(os.sched_getaffinity(0)) > 1


def _begun(work: Callable[[], object]) -> tuple[int, int]:
    """The copy's process number, and the end of the pipe from which its result is read."""
    source, sink = os.pipe()
    pool = OSD_ThreadPool.DefaultPool_s()
    threads = pool.NbThreads()
    # A copy has none of the kernel's helping threads and would wait for them for ever.
    pool.Init(1)
    try:
        with warnings.catch_warnings():
            # Newer releases of Python warn of the idle threads that numeric libraries keep.
            warnings.simplefilter("ignore", DeprecationWarning)
            child = os.fork()
        if child == 0:
            os.close(source)
            _deliver(work, sink)
    finally:
        pool.Init(threads)
    os.close(sink)
    return child, source


def _deliver(work: Callable[[], object], sink: int) -> None:
    """Do the work, write its outcome and end the copy without tidying what is not its own."""
    try:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        try:
            outcome: tuple[bool, object] = True, work()
        except Exception as error:  # noqa: BLE001 - raised again where the result is asked for
            outcome = False, error
        with os.fdopen(sink, "wb") as pipe:
            pickle.dump(outcome, pipe, protocol=pickle.HIGHEST_PROTOCOL)
    finally:
        os._exit(0)


def _result(source: int, work: Callable[[], T]) -> T:
    with os.fdopen(source, "rb", closefd=False) as pipe:
        told = pipe.read()
    try:
        is_done, outcome = pickle.loads(told)  # noqa: S301 - from our own copy
    except (EOFError, pickle.UnpicklingError):
        # The copy was ended from outside, for instance for want of memory: do it here.
        return work()
    if not is_done:
        raise cast("Exception", outcome)
    return cast("T", outcome)
