"""All planted mistakes: those of every room's file that has ``MISTAKES``."""

from __future__ import annotations

import importlib
import pkgutil

import tests.planted
from tests.planted.mistake import Mistake


def _gathered() -> tuple[Mistake, ...]:
    names = sorted(module.name for module in pkgutil.iter_modules(tests.planted.__path__))
    found: list[Mistake] = []
    for name in names:
        if not name.startswith("test_") and name != "every":
            module = importlib.import_module(f"tests.planted.{name}")
            found += getattr(module, "MISTAKES", ())
    return tuple(found)


EVERY = _gathered()
