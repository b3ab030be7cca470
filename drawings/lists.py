"""The lists as CSV (RFC 4180), so that any spreadsheet opens them."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from cabinet.making.cut_list import cut_list
from cabinet.making.hardware_list import hardware_list
from cabinet.site.weight import part_mass
from drawings.number import number
from drawings.scene import Scene

# A cell that begins so would be taken for a formula by a spreadsheet.
_FORMULA = ("=", "+", "-", "@")


def csv_text(heading: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Rows as CSV text with a heading; lines end as RFC 4180 says."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(heading)
    for row in rows:
        writer.writerow([f"'{cell}" if cell.startswith(_FORMULA) else cell for cell in row])
    return out.getvalue()


def parts_csv(scene: Scene, sheets: dict[str, int]) -> str:
    """Every part: finished sizes (first along the grain), board, mass, sheet."""
    numbers, names = scene.numbers, scene.unit.item_names
    rows = []
    for part in scene.unit.parts:
        size = part.board.finished_size
        rows.append(
            [
                str(numbers[part.name]),
                names[part.name],
                part.name,
                *(number(value, 1) for value in size.along),
                str(part.board.layers),
                part.board.stock.title,
                part.board.grain.value,
                number(part_mass(part).kilograms, 3),
                str(sheets[part.name]),
            ]
        )
    heading = [
        "item",
        "item name",
        "part",
        "length mm",
        "width mm",
        "thickness mm",
        "layers",
        "board",
        "grain",
        "mass kg",
        "sheet",
    ]
    return csv_text(heading, rows)


def cuts_csv(scene: Scene) -> str:
    """Every blank to cut."""
    rows = [
        [
            str(line.item),
            "; ".join(line.item_names),
            str(line.pieces),
            number(line.length, 1),
            number(line.width, 1),
            line.stock.title,
            line.grain,
        ]
        for line in cut_list(scene.unit)
    ]
    return csv_text(["item", "becomes", "pieces", "length mm", "width mm", "board", "grain"], rows)


def hardware_csv(scene: Scene) -> str:
    """Every article to buy."""
    rows = [[line.article, str(line.count)] for line in hardware_list(scene.unit)]
    return csv_text(["article", "count"], rows)
