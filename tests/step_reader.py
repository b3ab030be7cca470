"""Another program's reader of STEP files, which leaves this process as it found it."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import ModuleType

import gmsh


@contextmanager
def step_reader() -> Iterator[ModuleType]:
    """Gmsh, begun and ended.

    It takes Python's handling of broken pipes away from the whole process, for good: a process
    that serves a page later on would then die as soon as a browser leaves.
    """
    pipes = signal.getsignal(signal.SIGPIPE)
    gmsh.initialize(["gmsh", "-nopopup"], readConfigFiles=False, interruptible=False)
    try:
        gmsh.option.setNumber("General.Terminal", 0)
        gmsh.option.setString("Geometry.OCCTargetUnit", "MM")
        yield gmsh
    finally:
        gmsh.finalize()
        signal.signal(signal.SIGPIPE, pipes)
