"""The sheet of what is bought, with the findings and the cautions of the job."""

from __future__ import annotations

from dataclasses import replace

from cabinet.errors import DesignError
from cabinet.findings import Finding
from cabinet.making.cut_list import CutLine, cut_list
from cabinet.making.hardware_list import hardware_list
from cabinet.site.weight import unit_mass
from cabinet.stock import Hatching
from drawings import cautions
from drawings.list_pages import SIZES, filled
from drawings.list_piece import ListPiece
from drawings.marks import Anchor, Mark
from drawings.number import dimension_text, number
from drawings.paper import SheetSize, frame_marks, style_for
from drawings.scene import Scene
from drawings.sheet import Sheet
from drawings.table import Column
from drawings.title_block import TitleBlock, title_block_marks


def hardware_sheet(scene: Scene, block: TitleBlock, findings: tuple[Finding, ...]) -> Sheet:
    """Blanks, hardware, mass, findings and cautions on one sheet.

    Args:
        scene: The unit.
        block: Title block; title and document type are filled in here.
        findings: What the checks found.
    """
    size, marks = _laid_out(scene, findings)
    style = style_for(size)
    filled = replace(
        block,
        title="Blanks and hardware",
        document_type="lists and cautions",
        general_tolerance="",
    )
    return Sheet(
        number=block.sheet_number,
        name="blanks-and-hardware",
        title="Blanks and hardware",
        size=size,
        marks=(*frame_marks(size, style), *title_block_marks(filled, size, style), *marks),
    )


def _laid_out(scene: Scene, findings: tuple[Finding, ...]) -> tuple[SheetSize, tuple[Mark, ...]]:
    """The lists in one column on the smaller paper, else in two on the larger.

    Raises:
        DesignError: there are more of them than two columns hold.
    """
    told = [f"{finding.severity.value}: {finding.sentence}" for finding in findings]
    for count in range(len(told), -1, -1):
        rest = len(told) - count
        more = [f"and {rest} more, in job.json and in the book"] if rest else []
        pieces = _pieces(scene, (*told[:count], *more))
        for size in SIZES:
            pages = filled(pieces, size)
            if len(pages) == 1:
                return size, pages[0]
    raise DesignError(
        f"{scene.unit.name}: the lists of {len(scene.items)} blanks and of the hardware are more "
        "than an A3 holds; split the unit in two designs",
        part=scene.unit.name,
        value=len(scene.items),
    )


def _pieces(scene: Scene, told: tuple[str, ...]) -> list[ListPiece]:
    """What stands on the sheet, in its order."""
    unit = scene.unit
    pieces = [
        ListPiece(
            heading="Blanks to cut",
            columns=(
                Column(heading="no.", width=10.0, anchor=Anchor.END),
                Column(heading="becomes"),
                Column(heading="pcs", width=10.0, anchor=Anchor.END),
                Column(heading="cut to, mm", width=30.0),
                Column(heading="board", width=57.0),
            ),
            rows=tuple(_blank_row(line) for line in cut_list(unit)),
        )
    ]
    bought = tuple((line.article, str(line.count)) for line in hardware_list(unit))
    if bought:
        pieces.append(
            ListPiece(
                heading="Hardware to buy",
                columns=(
                    Column(heading="hardware"),
                    Column(heading="count", width=16.0, anchor=Anchor.END),
                ),
                rows=bought,
            )
        )
    if told:
        pieces.append(ListPiece(heading="Findings", notes=told))
    pieces.append(ListPiece(heading="Mind", notes=_cautions(scene)))
    return pieces


def _blank_row(line: CutLine) -> tuple[str, ...]:
    sizes = f"{dimension_text(line.length)} × {dimension_text(line.width)}"
    return str(line.item), "; ".join(line.item_names), str(line.pieces), sizes, line.stock.title


def _cautions(scene: Scene) -> tuple[str, ...]:
    mass = unit_mass(scene.unit)
    return (
        "The first size of a blank runs along its grain. Blanks of doubled parts and coverings "
        "are oversize; they are cut to size when they are glued.",
        f"Mass of the empty unit as it is lifted: {number(mass.kilograms, 1)} kg, its centre "
        f"{number(mass.centre.y, 0)} mm behind the front and {number(mass.centre.z, 0)} "
        "mm above the underside of the carcass.",
        cautions.WALL if scene.unit.is_hung else cautions.TIPPING,
        cautions.BLADES,
        cautions.SOLVENTS,
        cautions.RAGS,
        *((cautions.METAL,) if _has_metal(scene) else ()),
        cautions.WEIGHTS,
    )


def _has_metal(scene: Scene) -> bool:
    return any(p.board.stock.hatching is Hatching.METAL for p in scene.unit.parts)
