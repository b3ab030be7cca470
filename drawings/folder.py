"""The job folder is written all at once or not at all.

Everything goes into a fresh folder beside the target, which then takes the target's name. A run
that fails or is interrupted leaves what was there; a folder that is not a job folder is never
replaced.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from cabinet.errors import FolderError

# The file by which a job folder is known.
MARK = "job.json"


def check_target(target: Path) -> None:
    """Refuse a target that cannot become a job folder, before anything is computed.

    Raises:
        FolderError: a file, a folder with other things in it, or a parent that is missing.
    """
    if target.exists() and not target.is_dir():
        raise _refused(target, "there is a file of that name; name a folder")
    if target.is_dir() and not (target / MARK).is_file() and any(target.iterdir()):
        raise _refused(
            target, f"it holds other things and no {MARK}; name a new folder or an earlier job's"
        )
    if not target.parent.is_dir():
        raise _refused(target, f"there is no folder {target.parent}; make it first")


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
        yield fresh
        _take_name(fresh, target)
    except OSError as error:
        if isinstance(error, FolderError):
            raise
        raise _refused(target, f"it cannot be written ({error.strerror})") from error
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _take_name(fresh: Path, target: Path) -> None:
    if not target.exists():
        fresh.rename(target)
        return
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
