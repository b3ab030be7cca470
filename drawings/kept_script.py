"""A maker's script run afresh, and the design that it makes.

The script is run as it is by hand, with every module beside it read again. ``write_job`` and
``keep_drawn`` only listen meanwhile: nothing is written, and what a job would be told of uses
and wall is known.
"""

from __future__ import annotations

import inspect
import linecache
import os
import runpy
import sys
import traceback
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from cabinet.design import Design
from cabinet.errors import CabinetError
from cabinet.making.rack import Rack
from cabinet.workshop import Workshop
from drawings.job import Job, write_job
from drawings.site_set import Where

NOWHERE = Where()
"""Of a unit whose place is not told."""

# Where a script may take the two calls from that only listen.
_WRITING = (("drawings", "write_job"), ("drawings.job", "write_job"))
_KEEPING = (("drawings", "keep_drawn"), ("drawings.kept_drawn", "keep_drawn"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a script tells of its unit.

    Attributes:
        design: The design.
        where: Where the unit goes and what for, as ``write_job`` is told.
        workshop: The tools, as ``write_job`` is told; None for those of a small workshop.
        rack: The boards there are, as ``write_job`` is told; None for sheets of usual sizes.
    """

    design: Design
    where: Where = NOWHERE
    workshop: Workshop | None = None
    rack: Rack | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """Why a script gives no unit.

    Attributes:
        title: What kind of thing is wrong.
        sentences: What is wrong, a sentence each.
        place: File and line in which it is, "" if it is in none.
        code: The line itself, "" if there is none.
    """

    title: str
    sentences: tuple[str, ...]
    place: str = ""
    code: str = ""


def told_by(script: Path) -> Told | Mistake:
    """Run a script and give the design that it makes, or the mistake that keeps it from it.

    The design is the one that it asks ``write_job`` for, else the last that it gives a name.

    Args:
        script: The script.
    """
    _forget_modules(script)
    asked: list[Told] = []
    try:
        with _listening(asked):
            names = runpy.run_path(str(script), run_name="__main__")
    except SystemExit as end:
        if asked:
            return asked[-1]
        return Mistake(title="The script ended itself", sentences=(f"sys.exit({end.code!r})",))
    except Exception as error:  # noqa: BLE001 - whatever a script raises is told
        return mistake_of(error, script)
    if asked:
        return asked[-1]
    designs = [value for value in names.values() if isinstance(value, Design)]
    if designs:
        return Told(design=designs[-1])
    return Mistake(
        title="There is nothing to draw",
        sentences=("The script makes no Design; give one a name, such as unit = Design(...).",),
        place=script.name,
    )


def modules_beside(script: Path) -> dict[str, Path]:
    """The modules that are loaded from the folder of a script or below, by name."""
    files = (
        (name, getattr(module, "__file__", None)) for name, module in sorted(sys.modules.items())
    )
    return {
        name: Path(file)
        for name, file in files
        if file and name != "__main__" and _is_beside(file, script)
    }


def _is_beside(file: str, script: Path) -> bool:
    """Whether a file of Python is the maker's own: in the script's folder, and not installed."""
    # Plain text first: there are thousands of modules, and few are the maker's.
    if not file.startswith(f"{script.parent}{os.sep}"):
        return False
    path, own = Path(file), Path(__file__).parent
    is_ours = path.is_relative_to(own) or path.is_relative_to(own.with_name("cabinet"))
    return not is_ours and not path.is_relative_to(sys.prefix) and "site-packages" not in path.parts


def mistake_of(error: BaseException, script: Path, *, is_ours: bool = False) -> Mistake:
    """What an error says, and the line of the maker's own files in which it came up.

    Args:
        error: The error.
        script: The script.
        is_ours: Whether the script was done by then, so that the fault is this program's.
    """
    linecache.checkcache()
    sentences = tuple(str(error).splitlines()) or (type(error).__name__,)
    if isinstance(error, SyntaxError):
        place = f"{Path(error.filename or script).name}, line {error.lineno}"
        return Mistake(
            title="The script cannot be read",
            sentences=(error.msg,),
            place=place,
            code=(error.text or "").strip(),
        )
    if isinstance(error, CabinetError):
        title = "No unit can be made from this"
    elif is_ours:
        title = f"A fault of this program: {type(error).__name__}"
    else:
        title = f"The script stops: {type(error).__name__}"
    for frame in reversed(traceback.extract_tb(error.__traceback__)):
        if _is_beside(frame.filename, script):
            return Mistake(
                title=title,
                sentences=sentences,
                place=f"{Path(frame.filename).name}, line {frame.lineno}",
                code=frame.line or "",
            )
    return Mistake(title=title, sentences=sentences)


def _forget_modules(script: Path) -> None:
    for name in modules_beside(script):
        del sys.modules[name]


@contextmanager
def _listening(asked: list[Told]) -> Iterator[None]:
    """Within this, ``write_job`` keeps what it is asked for and ``keep_drawn`` does nothing."""
    signature = inspect.signature(write_job)

    def listen(*given: Any, **named: Any) -> Job:  # noqa: ANN401 - as write_job takes them
        bound = signature.bind(*given, **named)
        bound.apply_defaults()
        taken = bound.arguments
        if isinstance(taken["design"], Design):
            asked.append(
                Told(
                    design=taken["design"],
                    where=Where(
                        uses=tuple(taken["uses"]),
                        wall=taken["wall"],
                        setting=taken["place"],
                        lift=taken["lift"],
                    ),
                    workshop=taken["workshop"],
                    rack=taken["rack"],
                )
            )
        return Job(folder=Path(taken["folder"]), files=(), findings=(), seconds={})

    def keep(*_given: object, **_named: object) -> None:
        return None

    with ExitStack() as stack:
        for place, stand in ((_WRITING, listen), (_KEEPING, keep)):
            for module, name in place:
                stack.enter_context(_standing_in(module, name, stand))
        yield


@contextmanager
def _standing_in(module: str, name: str, stand: Callable[..., object]) -> Iterator[None]:
    """Within this, a module's function is another; a module that is not loaded needs none."""
    loaded = sys.modules.get(module)
    if loaded is None:
        yield
        return
    own = getattr(loaded, name)
    setattr(loaded, name, stand)
    try:
        yield
    finally:
        setattr(loaded, name, own)
