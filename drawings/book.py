"""The job book: one page that holds the whole job and opens from disk without a network.

Its text, style and program lie in ``book_assets``; the 3D engine comes from an installed
package; nothing is fetched when it is read. A policy in the page lets no other program run
and nothing be loaded, whatever a part is called.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from cabinet.record import Record
from drawings.book_assembly import BookStep, book_assembly
from drawings.book_engine import engine_script
from drawings.book_front import front
from drawings.book_moves import BookMove, book_moves
from drawings.book_pieces import Piece, pieces
from drawings.book_sheets import BoundSheet, inlined
from drawings.book_steps import steps
from drawings.cautions import BLADES
from drawings.number import dimension_text
from drawings.scene import Scene
from drawings.sheet import Sheet

# In the order in which they stand in the one script of the page.
_PROGRAM = (
    "ticks.js",
    "sheets.js",
    "turntable.js",
    "model.js",
    "boxes.js",
    "crowd.js",
    "section.js",
    "places.js",
    "stage.js",
    "controls.js",
    "start.js",
)
_KEY_LENGTH = 16


def book_html(
    scene: Scene,
    sheets: tuple[Sheet, ...],
    bound: Mapping[int, BoundSheet],
    record: Record,
    glb: bytes,
) -> str:
    """The whole job as one HTML page.

    Args:
        scene: The unit, for the colours of its boards.
        sheets: All sheets.
        bound: Each sheet made ready for the page, by its number.
        record: The content of job.json.
        glb: The model, a node for every part and piece of hardware by its name.

    Returns:
        An HTML document; write it as UTF-8. The same arguments give the same text.

    Raises:
        KernelError: the installed package holds no 3D engine.
    """
    moves, told, order = book_moves(record), pieces(record), book_assembly(record)
    drawn = inlined(bound)
    engine, program = engine_script(), _program()
    page = _environment().get_template("page.html")
    return page.render(
        record=record,
        front=front(scene, record, moves),
        moves=moves,
        assembly=order,
        pieces=tuple(enumerate(told)),
        part_groups=grouped(told, are_parts=True),
        hardware_groups=grouped(told, are_parts=False),
        findings=book_findings(record, told),
        sheets=[(sheet, drawn.sheets[sheet.number]) for sheet in sheets],
        made_on=_made_on(record),
        dimensions=_dimensions(record),
        steps=steps(record),
        blade_caution=BLADES,
        length=dimension_text,
        policy=_policy(engine, program),
        style=Markup(_asset("book.css") + drawn.style),  # noqa: S704 - our own files
        svg=lambda one: Markup(one.markup),  # noqa: S704 - made by an XML writer
        engine=Markup(engine),  # noqa: S704 - the package's own file
        program=Markup(program),  # noqa: S704 - our own files
        data=json_block(book_data(record, told, moves, order)),
        glb=base64.b64encode(glb).decode("ascii"),
    )


def json_block(content: object) -> Markup:
    """Data for a script element: JSON in which no character can end the element."""
    text = json.dumps(content, ensure_ascii=True, allow_nan=False, separators=(",", ":"))
    for character in "<>&":
        text = text.replace(character, f"\\u{ord(character):04x}")
    return Markup(text)  # noqa: S704 - nothing is left in it that markup is made of


@cache
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("drawings", "book_assets"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def _asset(name: str) -> str:
    text = resources.files("drawings").joinpath("book_assets", name).read_text(encoding="utf-8")
    return text.replace("\r\n", "\n")


@cache
def _program() -> str:
    files = "\n".join(_asset(name) for name in _PROGRAM)
    return f'(() => {{\n"use strict";\n{files}\n}})();'


def _policy(*scripts: str) -> str:
    """Only these scripts run, and nothing is loaded (Content Security Policy, level 3)."""
    sums = (hashlib.sha256(f"\n{script}\n".encode()).digest() for script in scripts)
    allowed = " ".join(f"'sha256-{base64.b64encode(one).decode('ascii')}'" for one in sums)
    return (
        f"default-src 'none'; script-src {allowed}; style-src 'unsafe-inline'; img-src data:; "
        "base-uri 'none'; form-action 'none'"
    )


def _key(record: Record) -> str:
    """What ticks are kept under: they belong to this job in this state and to no other."""
    content = json.dumps(record, sort_keys=True, ensure_ascii=True).encode("ascii")
    return f"job book {record['number']} {hashlib.sha256(content).hexdigest()[:_KEY_LENGTH]}"


def book_data(
    record: Record,
    told: tuple[Piece, ...],
    moves: tuple[BookMove, ...],
    order: tuple[BookStep, ...],
) -> dict[str, Any]:
    """What the program of the page reads.

    Args:
        record: The content of job.json.
        told: What is told of each piece.
        moves: How pieces move in use.
        order: How they come together.
    """
    index = {piece.name: place for place, piece in enumerate(told)}
    titles = {sheet["number"]: sheet["title"] for sheet in record["sheets"]}
    return {
        "key": _key(record),
        "outline": record["outline"],
        "pieces": [
            {
                "name": piece.name,
                "mark": piece.mark,
                "facts": piece.facts,
                "sheet": piece.sheet,
                "sheetTitle": titles.get(piece.sheet),
            }
            for piece in told
        ],
        "moves": [
            {
                "pieces": [index[name] for name in move.names],
                "direction": move.direction,
                "low": move.low,
                "pitch": move.pitch,
                "settings": move.settings,
                "ahead": move.ahead,
                "astern": move.astern,
            }
            for move in moves
        ],
        "steps": [
            {
                "pieces": [index[name] for name in step.names],
                "direction": step.direction,
                "travel": step.travel,
                "words": step.words,
            }
            for step in order
        ],
        "findings": [
            {
                "where": finding["where"],
                "pieces": [index[name] for name in finding["parts"] if name in index],
            }
            for finding in record["findings"]
        ],
    }


def grouped(told: tuple[Piece, ...], *, are_parts: bool) -> dict[str, list[tuple[int, Piece]]]:
    """Parts or hardware by their groups, each piece with its place in the whole list."""
    groups: dict[str, list[tuple[int, Piece]]] = {}
    for place, piece in enumerate(told):
        if bool(piece.mark) is are_parts:
            groups.setdefault(piece.group, []).append((place, piece))
    return groups


def book_findings(
    record: Record, told: tuple[Piece, ...]
) -> list[tuple[Record, list[tuple[int, str]]]]:
    """Each finding with the pieces that it names, by their place in the list of pieces."""
    index = {piece.name: place for place, piece in enumerate(told)}
    return [
        (finding, [(index[name], name) for name in finding["parts"] if name in index])
        for finding in record["findings"]
    ]


def _made_on(record: Record) -> dict[int, list[tuple[int, str]]]:
    """For each sheet the parts that are made to it, numbered, for their ticks."""
    made: dict[int, list[tuple[int, str]]] = {}
    for place, part in enumerate(record["parts"]):
        if part["sheet"] is not None:
            made.setdefault(part["sheet"], []).append((place, part["name"]))
    return made


def _dimensions(record: Record) -> dict[int, list[tuple[str, str]]]:
    """For each sheet its dimensions in words, for those who hear the page."""
    return {
        told["sheet"]: [(one["title"], one["text"]) for one in told["dimensions"]]
        for told in record["dimensions"]
    }
