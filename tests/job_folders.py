"""A small job folder, written once for all tests that read what a job holds."""

from __future__ import annotations

import json
import tempfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from cabinet import (
    Design,
    DoorTracks,
    Rails,
    birch_plywood,
    board_shelf,
    carcass,
    hanging_cleat,
    pin_rows,
    sliding_doors,
)
from cabinet.record import Record
from drawings.book import book_html
from drawings.book_sheets import bound_sheet
from drawings.job import write_job
from drawings.paper import SheetSize
from drawings.scene import Scene
from drawings.sheet import Sheet


def seed_box() -> Design:
    """A small hung unit with two sliding doors and a shelf: a seed box, of unround sizes."""
    birch = birch_plywood(nominal=18, measured=17.6)
    tracks = DoorTracks(stock=birch_plywood(nominal=12, measured=11.8), bar=8)
    box = carcass(
        width=613,
        height=487,
        depth=243,
        stock=birch,
        top_layers=2,
        base_layers=2,
        dividers=0,
        setback=tracks.depth,
        back=Rails(stock=birch, top=97, bottom=83, behind=2 * birch.measured),
    )
    pins = pin_rows(box)
    shelf = board_shelf(pins.bay(1), hole=3, stock=birch, name="seed shelf")
    doors = sliding_doors(box, tracks, overlap=31)
    cleat = hanging_cleat(box, stock=birch, height=80)
    return Design("Seed box", (box.component, doors, pins.component, shelf, cleat))


@dataclass(frozen=True, slots=True)
class BookParts:
    """What a book is made from, as a job folder holds it."""

    scene: Scene
    sheets: tuple[Sheet, ...]
    svgs: dict[int, str]
    record: Record
    glb: bytes

    def book(self, record: Record | None = None, svgs: dict[int, str] | None = None) -> str:
        """The book, with another record or other sheets if they are given."""
        titles = {sheet.number: sheet.title for sheet in self.sheets}
        bound = {
            number: bound_sheet(number, titles[number], svg)
            for number, svg in (svgs or self.svgs).items()
        }
        return book_html(self.scene, self.sheets, bound, record or self.record, self.glb)


@cache
def seed_box_folder() -> Path:
    """The job folder of the seed box, written by the program as its user would."""
    folder = Path(tempfile.mkdtemp(prefix="seed-box-")) / "seed_box.job"
    write_job(seed_box(), folder, tell=None)
    return folder


@cache
def seed_box_parts() -> BookParts:
    """What its book was made from, read back from the folder."""
    folder = seed_box_folder()
    record = json.loads((folder / "job.json").read_text(encoding="utf-8"))
    return BookParts(
        scene=Scene(unit=seed_box().resolve(), parts={}, hardware={}),
        sheets=tuple(
            Sheet(
                number=told["number"],
                name="sheet",
                title=told["title"],
                size=SheetSize[told["paper"]],
                marks=(),
            )
            for told in record["sheets"]
        ),
        svgs={
            told["number"]: (folder / told["file"]).read_text(encoding="utf-8")
            for told in record["sheets"]
        },
        record=record,
        glb=(folder / "model" / "unit.glb").read_bytes(),
    )


def planted_findings() -> list[Record]:
    """Findings of every severity: with a place, with a part only, and with neither."""
    return [
        {
            "rule": "planted lift",
            "severity": "error",
            "parts": ["left door"],
            "where": [153.0, 14.0, 451.8],
            "found": 3.1,
            "limit": 9.4,
            "sentence": "The left door rises 3.1 mm; it needs 9.4 mm: deepen the top groove.",
        },
        {
            "rule": "planted reach",
            "severity": "warning",
            "parts": ["seed shelf"],
            "where": None,
            "found": 1.0,
            "limit": 2.0,
            "sentence": "The shelf is tight by 1 mm: shorten it.",
        },
        {
            "rule": "planted air",
            "severity": "note",
            "parts": [],
            "where": None,
            "found": None,
            "limit": None,
            "sentence": "No air passes the back.",
        },
    ]
