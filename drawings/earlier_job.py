"""An earlier job folder, read back before anything is written over it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from cabinet.errors import DesignError, FolderError
from cabinet.making.earlier import CutPiece, piece_from_record
from cabinet.record import Record
from drawings.job_input import path_of
from drawings.job_schema import SCHEMA, VERSION

_COMPARED = ("cut_list", "hardware_list", "outline", "setups", "hanging")


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierJob:
    """What an earlier run wrote.

    Attributes:
        record: The content of its job.json.
        pieces: Its parts as they may lie on the bench, by name.
        svgs: Its sheets as SVG text, by the name in their files.
    """

    record: Record
    pieces: Mapping[str, CutPiece]
    svgs: Mapping[str, str]

    @property
    def revision(self) -> str:
        """The letter of the whole job, "" for a first issue."""
        letter: str = self.record["revision"]
        return letter

    @property
    def letters(self) -> dict[str, str]:
        """The letter of each sheet, by the name in its file."""
        return {_name(sheet["file"]): sheet["revision"] for sheet in self.record["sheets"]}


def earlier_job(folder: str | Path, name: str) -> EarlierJob:
    """Read an earlier job.

    Args:
        folder: Its job folder.
        name: Name of the design that it must be a job of.

    Raises:
        KindError: the folder is no path.
        FolderError: the folder is not there, or is no job folder, or cannot be read.
        DesignError: it is a job of another design, or of another version of this program.
    """
    path = path_of(name, "earlier", folder).absolute()
    record = _record(path)
    if (record.get("schema"), record.get("version")) != (SCHEMA, VERSION):
        raise DesignError(
            f"earlier job {path}: it is {record.get('schema')!r} version "
            f"{record.get('version')!r}; only {SCHEMA!r} version {VERSION} can be compared, so "
            "run the earlier script again with this version",
            part=str(path),
            value=record.get("version"),
            limit=VERSION,
        )
    if record.get("name") != name:
        raise DesignError(
            f"earlier job {path}: it is a job of {record.get('name')!r}; it must be one of {name!r}",
            part=str(path),
            value=record.get("name"),
            limit=name,
        )
    try:
        pieces = {part["name"]: piece_from_record(part) for part in record["parts"]}
        svgs = {
            _name(sheet["file"]): (path / sheet["file"]).read_text(encoding="utf-8")
            for sheet in record["sheets"]
        }
        job = EarlierJob(record=record, pieces=pieces, svgs=svgs)
        # What is read later is asked for now, while it can still be told plainly.
        _ = job.revision, job.letters, [record[key] for key in _COMPARED]
    except OSError as error:
        raise _unreadable(path, f"a sheet cannot be read ({error.strerror})") from error
    except (KeyError, TypeError, AttributeError) as error:
        raise _unreadable(path, f"its job.json lacks {error}") from error
    return job


def _record(path: Path) -> dict[str, Any]:
    if not path.is_dir():
        raise _unreadable(path, "there is no such folder; name one that an earlier run wrote")
    try:
        record = json.loads((path / "job.json").read_text(encoding="utf-8"))
    except OSError as error:
        raise _unreadable(path, f"its job.json cannot be read ({error.strerror})") from error
    except ValueError as error:
        raise _unreadable(path, f"its job.json is no JSON ({error})") from error
    if not isinstance(record, dict):
        raise _unreadable(path, "its job.json holds no job")
    return record


def _unreadable(path: Path, why: str) -> FolderError:
    return FolderError(f"earlier job {path}: {why}", part=str(path), value=str(path))


def _name(file: str) -> str:
    """``left-side`` of ``sheets/06-left-side.svg``: what stays when sheets are renumbered."""
    return Path(file).stem.partition("-")[2]
