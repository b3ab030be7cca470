"""The 3D engine of the job book, taken from an installed package when a book is written.

three.js (MIT licence) and its glTF loader, as the offline page of trimesh holds them. Why this
one stands in DEVELOPERS.md. Nothing of it is copied into this project.
"""

from __future__ import annotations

import io
import zipfile
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from cabinet.errors import KernelError

PACKAGE = "trimesh"
_ARCHIVE = ("resources", "templates", "viewer.zip")
_PAGE = "viewer.html.template"

# The page is one script: the engine, its loader, then the page's own program.
_BEGIN = "<script>"
_LOADER_ENDS = "THREE.GLTFLoader=GLTFLoader;})();"


@cache
def engine_script() -> str:
    """The engine as one classic script that makes the global ``THREE``; lines end with LF.

    Raises:
        KernelError: the installed package no longer ships the page, or it is another page.
    """
    page = _page()
    begin = page.find(_BEGIN)
    end = page.find(_LOADER_ENDS)
    if begin < 0 or end < begin:
        raise _missing(f"{_PAGE} no longer ends its loader as this program knows it")
    script = page[begin + len(_BEGIN) : end + len(_LOADER_ENDS)]
    if "</script" in script.lower():
        raise _missing(f"{_PAGE} now holds the engine in several scripts")
    return script.strip()


def _page() -> str:
    try:
        archive = _home().joinpath(*_ARCHIVE).read_bytes()
        with zipfile.ZipFile(io.BytesIO(archive)) as opened:
            text = opened.read(_PAGE).decode("utf-8")
    except (OSError, ImportError, KeyError, zipfile.BadZipFile, UnicodeDecodeError) as error:
        raise _missing(f"{'/'.join(_ARCHIVE)} cannot be read ({error})") from error
    # A browser reads CR LF as LF, and the script's checksum is taken of what it reads.
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _home() -> Path:
    """The folder of the package, which is not imported: that takes most of a second."""
    spec = find_spec(PACKAGE)
    if spec is None or not spec.submodule_search_locations:
        raise ImportError(f"no package {PACKAGE} is installed")
    return Path(next(iter(spec.submodule_search_locations)))


def _missing(why: str) -> KernelError:
    return KernelError(
        f"job book: the 3D engine is not where the package {PACKAGE} had it: {why}; install "
        f"a release of {PACKAGE} that ships its offline page, such as 5.2.0",
        part="book.html",
        value=PACKAGE,
        limit="/".join((*_ARCHIVE, _PAGE)),
    )
