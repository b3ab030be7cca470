"""The book of many of a unit side by side, to see how it bears up."""

from __future__ import annotations

from pathlib import Path

from cabinet.design import Design
from cabinet.record import Record, plain
from drawings.book import book_html
from drawings.exports import unit_glb
from drawings.placed_solids import placed_solids
from drawings.scene import scene
from tests.benchmarks.proofs import side_by_side


def book_of_many(design: Design, record: Record, count: int, folder: Path) -> Path:
    """The book of many units side by side, without sheets: its model and its list of pieces."""
    unit = side_by_side(design.resolve(), count)
    glb = unit_glb(placed_solids(unit), unit_name="many", tolerance=0.1)
    ends = [f", unit {index + 1}" for index in range(count)]
    record = record | {
        "parts": [p | {"name": p["name"] + end} for end in ends for p in record["parts"]],
        "hardware": [h | {"name": h["name"] + end} for end in ends for h in record["hardware"]],
        "cut_list": [
            line | {"parts": [name + end for end in ends for name in line["parts"]]}
            for line in record["cut_list"]
        ],
        "moves": [],
        "assembly": {"steps": [], "locked": []},
        "outline": {"low": plain(unit.outline.low), "high": plain(unit.outline.high)},
    }
    path = folder / "many.html"
    text = book_html(scene(design.resolve()), (), {}, record, glb)
    path.write_text(text, "utf-8")
    return path
