"""Tasks shared out between this process and a copy of it, on the machine's other core.

The kernel holds Python's lock while it works, so threads win nothing. A copy of the process has
all that was computed so far and needs only to hand back its results. The copy begins at once,
and this process takes a hand when it asks for the results: each takes the next task that nobody
has begun. Where a copy cannot be made safely all is done here; the results are the same.
"""

from __future__ import annotations

import contextlib
import gc
import os
import pickle
import signal
import sys
import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TypeVar, cast

from OCP.OSD import OSD_ThreadPool

T = TypeVar("T")
Task = Callable[[], T]
Outcome = tuple[bool, T | Exception]

MOST_TASKS = 2048
"""Each task's number is two bytes, and the least that a pipe holds is a page of 4096 bytes."""


@contextmanager
def shared_out(tasks: Sequence[Task[T]]) -> Iterator[Callable[[], tuple[T, ...]]]:
    """Begin some tasks beside this process; within the block, call what it gives for the results.

    Args:
        tasks: What is to be done, the longest first, none needing another's result. Their
            results, and what they raise, must be plain enough to pickle. A task may be done
            twice, if the copy that did it is lost. More than ``MOST_TASKS`` are all done here.

    Yields:
        A function that lends a hand, waits for all and returns the results in the order of the
        tasks, or raises what the first of those that failed raised. On leaving the block,
        tasks that are not finished are stopped.
    """
    if len(tasks) > MOST_TASKS or not _can_copy():
        yield lambda: tuple(task() for task in tasks)
        return
    turns = _turns(len(tasks))
    with _one_thread_each():
        child, source = _begun(tasks, turns)
        try:
            yield lambda: _results(tasks, turns, source)
        finally:
            os.close(turns)
            os.close(source)
            with contextlib.suppress(ProcessLookupError):
                os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            gc.unfreeze()


@contextmanager
def _one_thread_each() -> Iterator[None]:
    """Within the block the kernel has no helping threads.

    A copy has none of them and would wait for them for ever; and with a process on every core
    they would only take turns.
    """
    pool = OSD_ThreadPool.DefaultPool_s()
    threads = pool.NbThreads()
    pool.Init(1)
    try:
        yield
    finally:
        pool.Init(threads)


def _can_copy() -> bool:
    """Only where forking is sound and of use: one thread of Python, a second core."""
    # Every thread of Python has a frame, also one that its module of threads was not told of.
    is_alone = len(sys._current_frames()) == 1  # noqa: SLF001 - documented, underscore and all
    is_sound = sys.platform.startswith("linux") and is_alone
    return is_sound and len(os.sched_getaffinity(0)) > 1


def _turns(count: int) -> int:
    """A pipe that holds the number of each task once; who reads a number does that task."""
    turns, sink = os.pipe()
    os.write(sink, b"".join(number.to_bytes(2, "big") for number in range(count)))
    os.close(sink)
    return turns


def _begun(tasks: Sequence[Task[T]], turns: int) -> tuple[int, int]:
    """The copy's process number, and the end of the pipe from which its outcomes are read."""
    source, sink = os.pipe()
    # What both know already needs no looking through for garbage, which would also give each
    # a copy of every page that it lies on. Source: Python's documentation of gc.freeze.
    gc.freeze()
    with warnings.catch_warnings():
        # Newer releases of Python warn of the idle threads that numeric libraries keep.
        warnings.simplefilter("ignore", DeprecationWarning)
        child = os.fork()
    if child == 0:
        os.close(source)
        _deliver(tasks, turns, sink)
    os.close(sink)
    return child, source


def _deliver(tasks: Sequence[Task[T]], turns: int, sink: int) -> None:
    """Do tasks, write their outcomes and end the copy without tidying what is not its own."""
    try:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        outcomes = _outcomes(tasks, turns)
        with os.fdopen(sink, "wb") as pipe:
            pickle.dump(outcomes, pipe, protocol=pickle.HIGHEST_PROTOCOL)
    finally:
        os._exit(0)


def _outcomes(tasks: Sequence[Task[T]], turns: int) -> dict[int, Outcome[T]]:
    """What came of each task that nobody else had begun."""
    outcomes: dict[int, Outcome[T]] = {}
    while turn := os.read(turns, 2):
        number = int.from_bytes(turn, "big")
        try:
            outcomes[number] = True, tasks[number]()
        except Exception as error:  # noqa: BLE001 - raised again where the results are asked for
            outcomes[number] = False, error
    return outcomes


def _results(tasks: Sequence[Task[T]], turns: int, source: int) -> tuple[T, ...]:
    outcomes = _outcomes(tasks, turns)
    with os.fdopen(source, "rb", closefd=False) as pipe:
        told = pipe.read()
    # If the copy was ended from outside, for instance for want of memory, it told nothing.
    with contextlib.suppress(EOFError, pickle.UnpicklingError), _no_search_for_garbage():
        outcomes |= pickle.loads(told)  # noqa: S301 - from our own copy
    return tuple(_result(outcomes, number, task) for number, task in enumerate(tasks))


@contextmanager
def _no_search_for_garbage() -> Iterator[None]:
    """What is being unpacked is none, and is much at once."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _result(outcomes: dict[int, Outcome[T]], number: int, task: Task[T]) -> T:
    if number not in outcomes:
        return task()
    is_done, outcome = outcomes[number]
    if not is_done:
        raise cast("Exception", outcome)
    return cast("T", outcome)
