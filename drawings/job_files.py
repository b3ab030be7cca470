"""The files of a job folder, from what was computed and drawn."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from cabinet.record import Record
from cabinet.solids import solid
from drawings.book_sheets import BoundSheet, bound_sheet
from drawings.exports import write_part_step, write_unit_glb, write_unit_step
from drawings.lists import cuts_csv, hardware_csv, parts_csv
from drawings.making_set import Making, making_lists
from drawings.paper import style_for
from drawings.pdf import Page, write_pdf
from drawings.placed_solids import placed_solids
from drawings.scene import Scene
from drawings.sheet import Sheet, slug
from drawings.sheet_set import sheet_numbers
from drawings.sheet_svg import sheet_svg
from drawings.templates import template_page, template_svg
from drawings.tile import Tile

# Largest distance between the GLB's triangles and the solids, mm.
MESH_TOLERANCE = 0.1


def write_sheet(sheet: Sheet, fresh: Path) -> BoundSheet:
    """Write a sheet as SVG; gives it as the book takes it."""
    text = sheet_svg(sheet)
    write_text(fresh / "sheets" / sheet.file_name, text)
    return bound_sheet(sheet.number, sheet.title, text)


def write_tiles(tiles: tuple[Tile, ...], fresh: Path) -> None:
    """Write the pages of the templates as SVG."""
    for tile in tiles:
        write_text(fresh / "templates" / tile.file_name, template_svg(tile))


def write_job_pdf(
    name: str, drawn: tuple[Sheet, ...], tiles: tuple[Tile, ...], fresh: Path
) -> None:
    """Write sheets and templates of a unit of that name as one PDF."""
    pages = [*(_page(sheet) for sheet in drawn), *(template_page(tile) for tile in tiles)]
    write_pdf(pages, fresh / "job.pdf", title=name)


def write_lists(made: Scene, plans: Making, record: Record, fresh: Path) -> None:
    """Write all lists as CSV, and job.json."""
    numbers = sheet_numbers(made)
    write_text(fresh / "lists" / "parts.csv", parts_csv(made, numbers))
    write_text(fresh / "lists" / "cuts.csv", cuts_csv(made))
    write_text(fresh / "lists" / "hardware.csv", hardware_csv(made))
    for name, content in making_lists(plans):
        write_text(fresh / "lists" / name, content)
    text = json.dumps(record, indent=1, ensure_ascii=False, allow_nan=False)
    write_text(fresh / "job.json", text + "\n")


def _page(sheet: Sheet) -> Page:
    return Page(
        title=f"{sheet.number} {sheet.title}",
        width=sheet.size.width,
        height=sheet.size.height,
        marks=sheet.marks,
        style=style_for(sheet.size),
    )


def model_tasks(made: Scene, folder: Path) -> tuple[Callable[[], None], ...]:
    """Write, each when it is called, the unit as GLB, as STEP, and each distinct part as STEP."""
    # A task may be begun a second time, if the copy of this process that began it was lost.
    (folder / "parts").mkdir(parents=True, exist_ok=True)
    unit = made.unit
    items = placed_solids(unit)

    def glb() -> None:
        write_unit_glb(items, folder / "unit.glb", unit_name=unit.name, tolerance=MESH_TOLERANCE)

    def step() -> None:
        write_unit_step(items, folder / "unit.step", unit_name=unit.name)

    def parts() -> None:
        for number, board, alike in made.items:
            name = unit.item_names[alike[0].name]
            path = folder / "parts" / f"{number:02d}-{slug(name)}.step"
            write_part_step(name, solid(board), board.stock.colour, path)

    return glb, step, parts


def write_text(path: Path, text: str) -> None:
    """Write a text as UTF-8, with its folder if that is not there."""
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(text.encode("utf-8"))
