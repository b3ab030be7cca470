"""The search compiled to machine code; the only file that knows numba."""

from __future__ import annotations
import types
from functools import cache
from typing import Any
from cabinet.making.packing import kernel


@cache
def compiled() -> Any:
    import numba

    names = {"__name__": kernel.__name__, "__file__": kernel.__file__}
    space = dict(vars(kernel))
    for name, thing in vars(kernel).items():
        if isinstance(thing, types.FunctionType) and thing.__module__ == kernel.__name__:
            again = types.FunctionType(thing.__code__, space, name, thing.__defaults__)
            again.__module__ = kernel.__name__
            space[name] = numba.njit(cache=True, error_model="numpy")(again)
    return space
