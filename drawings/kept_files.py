"""When files are saved: their stamps, read again and again."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

Stamp = tuple[int, int] | None
"""Time of the last change in ns and length in bytes; None where there is no file."""


def stamps(files: Iterable[Path]) -> Mapping[Path, Stamp]:
    """The stamp of each file."""
    return {file: _stamp(file) for file in files}


def _stamp(file: Path) -> Stamp:
    try:
        told = file.stat()
    except OSError:
        return None
    return told.st_mtime_ns, told.st_size
