"""Leaves what the kernel's module holds out of Python's search for garbage.

It holds so many objects, all for as long as the process runs, that looking through them takes a
fifth of a second at each full search, of which importing this package made two, and a whole
second when a script ends. Nothing is gained by it: the end of the process frees them anyway.
Source: Python's documentation of ``gc.freeze``.
"""

from __future__ import annotations

import atexit
import gc

import cadquery  # noqa: F401 - it must be there to be left out

gc.freeze()
atexit.register(gc.freeze)
