"""Data that passes between processes in great numbers, and should do so fast.

A frozen dataclass with slots is packed and unpacked field by field in Python. Told how it is
made, it is packed in a third of that time, and made anew with all its checks.
"""

from __future__ import annotations

import copyreg
from dataclasses import fields
from operator import attrgetter
from typing import Any, TypeVar, cast

T = TypeVar("T")


def made_anew(cls: type[T]) -> type[T]:
    """Class decorator for a dataclass of two fields or more: pickled as what it is made from."""
    values = attrgetter(*(field.name for field in fields(cast("Any", cls))))
    copyreg.pickle(cls, lambda one: (cls, values(one)))
    return cls
