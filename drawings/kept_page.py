"""The page that shows a kept script: one HTML document that asks only its own server."""

from __future__ import annotations

import base64
import hashlib
from functools import cache
from importlib import resources

from markupsafe import Markup

from drawings.book_engine import engine_script
from drawings.kept_drawing import environment

# In the order in which they stand in the one script of the page: the book's view, then ours.
_PROGRAM = (
    ("book_assets", "turntable.js"),
    ("book_assets", "model.js"),
    ("book_assets", "boxes.js"),
    ("book_assets", "crowd.js"),
    ("book_assets", "section.js"),
    ("book_assets", "places.js"),
    ("book_assets", "stage.js"),
    ("book_assets", "controls.js"),
    ("kept_assets", "news.js"),
)


@cache
def kept_page() -> tuple[str, str]:
    """The document, and the policy under which it is shown.

    Only the page's own scripts run, and nothing is loaded but from the server that gave the
    page (Content Security Policy, level 3).

    Raises:
        KernelError: the installed package holds no 3D engine.
    """
    engine, program = engine_script(), _program()
    sums = (hashlib.sha256(f"\n{script}\n".encode()).digest() for script in (engine, program))
    allowed = " ".join(f"'sha256-{base64.b64encode(one).decode('ascii')}'" for one in sums)
    policy = (
        f"default-src 'none'; script-src {allowed}; style-src 'unsafe-inline'; "
        "img-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'"
    )
    style = _asset("book_assets", "book.css") + _asset("kept_assets", "kept.css")
    page = (
        environment()
        .get_template("page.html")
        .render(
            policy=policy,
            style=Markup(style),  # noqa: S704 - our own files
            engine=Markup(engine),  # noqa: S704 - the package's own file
            program=Markup(program),  # noqa: S704 - our own files
        )
    )
    return page, policy


def _asset(folder: str, name: str) -> str:
    text = resources.files("drawings").joinpath(folder, name).read_text(encoding="utf-8")
    return text.replace("\r\n", "\n")


def _program() -> str:
    files = "\n".join(_asset(folder, name) for folder, name in _PROGRAM)
    return f'(() => {{\n"use strict";\n{files}\n}})();'
