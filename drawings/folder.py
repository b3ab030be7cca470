"""The job folder is written all at once or not at all.

Everything goes into a fresh folder beside the target, which then takes the target's name. A run
that fails or is interrupted leaves what was there; a folder that is not a job folder is never
replaced, and what the maker has put into a job folder (notes, a photograph) is carried over.
"""

from __future__ import annotations

import json
import shutil
import signal
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from cabinet.errors import FolderError
from drawings.job_schema import SCHEMA

# The file by which a job folder is known.
MARK = "job.json"
# What a run writes besides the sheets and templates that its record names.
_ALWAYS = frozenset({MARK, "job.pdf", "book.html", "model/unit.step", "model/unit.glb"})
_BY_PLACE = (("lists", ".csv"), ("model/parts", ".step"))


def check_target(target: Path) -> None:
    """Refuse a target that cannot become a job folder, before anything is computed.

    Raises:
        FolderError: a file, a folder with other things in it, or a parent that is missing.
    """
    try:
        _check_target(target)
    except FolderError:
        raise
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise _refused(target, f"it is no name for a folder ({why}); name another") from error


def _check_target(target: Path) -> None:
    if "\0" in str(target):
        raise _refused(target, "it has a null character in it; name another")
    if target.exists() and not target.is_dir():
        raise _refused(target, "there is a file of that name; name a folder")
    if target.is_dir() and any(target.iterdir()):
        if not (target / MARK).is_file():
            raise _refused(
                target,
                f"it holds other things and no {MARK}; name a new folder or an earlier job's",
            )
        if _record(target) is None:
            raise _refused(
                target,
                f"its {MARK} is not of a job, so other things may be in it; name a new folder or "
                "an earlier job's",
            )
    if not target.parent.is_dir():
        raise _refused(target, f"there is no folder {target.parent}; make it first")


def _record(target: Path) -> dict[str, Any] | None:
    """What the earlier run says of itself; None if no run wrote it."""
    try:
        record = json.loads((target / MARK).read_text(encoding="utf-8"))
    except ValueError:
        return None
    return record if isinstance(record, dict) and record.get("schema") == SCHEMA else None


def _makers_own(target: Path) -> tuple[Path, ...]:
    """What is in an earlier job folder that no run wrote, relative to it, in order."""
    record = _record(target) or {}
    written = {*_ALWAYS, *record.get("templates", ())}
    written |= {sheet["file"] for sheet in record.get("sheets", ())}
    own = []
    for path in sorted(target.rglob("*")):
        inner = path.relative_to(target)
        by_place = (inner.parent.as_posix(), inner.suffix) in _BY_PLACE
        is_empty = path.is_dir() and not path.is_symlink() and not any(path.iterdir())
        if is_empty or (not by_place and inner.as_posix() not in written and not _is_folder(path)):
            own.append(inner)
    return tuple(own)


def _is_folder(path: Path) -> bool:
    return path.is_dir() and not path.is_symlink()


def _carry_over(target: Path, fresh: Path) -> None:
    """Copy what the maker put into the earlier folder; the folder itself stays as it is."""
    for inner in _makers_own(target):
        place = fresh / inner
        if _is_folder(target / inner):
            place.mkdir(parents=True, exist_ok=True)
            continue
        if place.exists():
            raise _refused(
                target, f"{inner} in it is not of the earlier run, but this one writes it; move it"
            )
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(target / inner, place, follow_symlinks=False)


@contextmanager
def written_at_once(target: Path) -> Iterator[Path]:
    """A fresh folder to write into; it takes the target's name when the block ends well.

    Raises:
        FolderError: the folder cannot be made, written or renamed; the earlier one is as it
            was.
    """
    check_target(target)
    try:
        fresh = Path(tempfile.mkdtemp(prefix=f".{target.name}.", dir=target.parent))
        # The system makes it private; a job folder is as readable as any other.
        fresh.chmod(0o755)
    except OSError as error:
        raise _refused(target, f"no folder can be made beside it ({error.strerror})") from error
    try:
        with _told_to_end():
            yield fresh
            _take_name(fresh, target)
    except OSError as error:
        if isinstance(error, FolderError):
            raise
        raise _refused(target, f"it cannot be written ({error.strerror})") from error
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


@contextmanager
def _told_to_end() -> Iterator[None]:
    """Let a run that is told to end, or whose terminal is closed, tidy up as after Ctrl-C.

    By default such a signal ends the process on the spot, and the fresh folder would be left.
    """
    ends = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    is_ours = threading.current_thread() is threading.main_thread()
    taken = [end for end in ends if is_ours and signal.getsignal(end) is signal.SIG_DFL]
    for end in taken:
        signal.signal(end, _end)
    try:
        yield
    finally:
        for end in taken:
            signal.signal(end, signal.SIG_DFL)


def _end(number: int, frame: object) -> None:  # noqa: ARG001 - the form of a handler
    raise SystemExit(128 + number)


def _take_name(fresh: Path, target: Path) -> None:
    if not target.exists():
        fresh.rename(target)
        return
    _carry_over(target, fresh)
    old = Path(tempfile.mkdtemp(prefix=f".{target.name}.old.", dir=target.parent))
    try:
        target.rename(old / "job")
        try:
            fresh.rename(target)
        except OSError:
            (old / "job").rename(target)
            raise
    finally:
        shutil.rmtree(old, ignore_errors=True)


def _refused(target: Path, why: str) -> FolderError:
    return FolderError(f"job folder {target}: {why}", part=str(target), value=str(target))
