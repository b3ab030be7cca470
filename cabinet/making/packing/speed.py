"""The search compiled to machine code; the only file that knows numba.

Loading numba and the compiled code takes about a second, compiling it the first time on a machine
some twenty (it is kept beside the code or in the user's cache). So nothing here is done before it
is asked for, and the search runs in plain Python until then, with the same results.
"""

from __future__ import annotations

import sys
import types
from collections.abc import Callable
from functools import cache
from pathlib import Path

from cabinet.making.packing import kernel

# Processor time for loading what is kept, and for compiling it, s (measured).
LOADING = 0.8
COMPILING = 20.0

Kernel = dict[str, Callable[..., bool]]


@cache
def plain() -> Kernel:
    """The kernel's functions as they stand, for lists."""
    return {
        name: thing
        for name, thing in vars(kernel).items()
        if isinstance(thing, types.FunctionType) and thing.__module__ == kernel.__name__
    }


def is_loaded() -> bool:
    """Whether the compiled functions have been asked for before, so that they cost nothing."""
    return compiled.cache_info().currsize > 0


def patience() -> float:
    """After how much processor time in plain Python the compiled functions should be loaded, s.

    As long as loading takes: then no more than twice the time is spent that would have been
    with the outcome known. Where nothing seems to be kept they would have to be compiled first.
    """
    source = Path(kernel.__file__)
    version = f"py{sys.version_info.major}{sys.version_info.minor}"
    kept = source.parent.glob(f"__pycache__/{source.stem}.search-*.{version}.nbi")
    written = source.stat().st_mtime
    return LOADING if any(each.stat().st_mtime > written for each in kept) else COMPILING


@cache
def compiled() -> Kernel | None:
    """The kernel's functions for arrays of 64-bit integers, or None if they cannot be compiled.

    numba comes with CadQuery; where it does not, the plain functions do the same, slowly.
    """
    try:
        import numba  # noqa: PLC0415 - a second of loading that small jobs never need
    except ImportError:
        return None
    space = dict(vars(kernel))
    made: Kernel = {}
    functions = plain()
    for name, function in {**functions, "assign": functions["assign_each"]}.items():
        # A copy, whose callees are looked up among the compiled ones.
        again = types.FunctionType(
            function.__code__,
            space,
            name,
            function.__defaults__,
        )
        again.__module__ = kernel.__name__
        made[name] = space[name] = _compile(numba, again)
    return made


def _compile(numba: types.ModuleType, function: types.FunctionType) -> Callable[..., bool]:
    # A call hands over some 150 numbers, all that two tuples of arrays are made of, and counts who
    # holds each array. Written out where it is called, and without counting (nothing is made or
    # given back in here; numba's guide to extending it does so too), it takes a quarter of the time.
    options = {"error_model": "numpy", "forceinline": True, "_nrt": False}
    try:
        return numba.njit(cache=True, **options)(function)  # type: ignore[no-any-return]
    except RuntimeError:
        # No folder can be written to: compile again in every process.
        return numba.njit(**options)(function)  # type: ignore[no-any-return]
