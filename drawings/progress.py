"""Progress by stage, told while a job is computed."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO


class Progress:
    """Tells each stage as it begins and keeps its seconds.

    Args:
        stream: Where it is told; None for silence.
    """

    def __init__(self, stream: TextIO | None = sys.stderr) -> None:
        self._stream = stream
        self.seconds: dict[str, float] = {}

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        """One stage of the work."""
        begun = time.perf_counter()
        self._tell(f"  {name} ...")
        try:
            yield
        finally:
            took = time.perf_counter() - begun
            self.seconds[name] = self.seconds.get(name, 0.0) + took
            self._tell(f" {took:.1f} s\n")

    @property
    def total(self) -> float:
        """Seconds of all stages."""
        return sum(self.seconds.values())

    def say(self, text: str) -> None:
        """One line of its own."""
        self._tell(text + "\n")

    def _tell(self, text: str) -> None:
        if self._stream is not None:
            self._stream.write(text)
            self._stream.flush()
