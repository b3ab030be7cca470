"""The sheet of what is bought, with the findings and the cautions of the job."""

from __future__ import annotations

from dataclasses import replace

from cabinet.findings import Finding
from cabinet.making.cut_list import cut_list
from cabinet.making.hardware_list import hardware_list
from cabinet.site.weight import unit_mass
from drawings.marks import Anchor, Mark, PaperPoint
from drawings.notes import notes_marks
from drawings.number import dimension_text, number
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.scene import Scene
from drawings.sheet import Sheet
from drawings.table import Column, table_marks
from drawings.title_block import TitleBlock, title_block_box, title_block_marks

SIZES = (SheetSize.A4, SheetSize.A3)
_INSET = 6.0
_GAP = 7.0

CAUTIONS = (
    "Blades and cutters: guards on, dust drawn off, eyes, ears and lungs protected; unplug before "
    "changing a cutter.",
    "Rags wet with drying oil can catch fire by themselves: dry them singly outdoors, or keep "
    "them under water in a closed metal can.",
    "All weights are computed from densities; weigh what you lift.",
)
HUNG_CAUTION = (
    "Before drilling the wall: find cables and pipes, and follow local codes. Choose the fixings "
    "for the wall you have; ask a licensed person where in doubt."
)
STANDING_CAUTION = "Fix the unit to the wall so that it cannot tip, where a child can reach it."


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


def _laid_out(scene: Scene, findings: tuple[Finding, ...]) -> tuple[SheetSize, list[Mark]]:
    """The lists on the smaller paper that takes them; the larger one sets them in two columns."""
    for size in SIZES:
        space, title = drawing_space(size), title_block_box(size)
        foot = title.top - _GAP
        width = space.width - 2 * _INSET
        if size is SIZES[-1]:
            width = (space.width - 2 * _INSET - 2 * _GAP) / 2
        columns = _columns(scene, findings, size, width, foot)
        if columns is not None:
            return size, columns
    raise AssertionError("two columns of an A3 hold every list that fits the tables")


def _columns(
    scene: Scene, findings: tuple[Finding, ...], size: SheetSize, width: float, foot: float
) -> list[Mark] | None:
    space = drawing_space(size)
    is_last = size is SIZES[-1]
    x, y = space.left + _INSET, space.top + _INSET
    marks: list[Mark] = []
    for piece in _pieces(scene, findings, width, size):
        placed = piece(PaperPoint(x, y))
        if placed.box.bottom > foot and y > space.top + _INSET:
            if not is_last or x > space.left + _INSET:
                return None if not is_last else [*marks, *placed.marks]
            x, y = x + width + 2 * _GAP, space.top + _INSET
            placed = piece(PaperPoint(x, y))
        marks += placed.marks
        y = placed.box.bottom + _GAP
    return marks


def _pieces(scene: Scene, findings: tuple[Finding, ...], width: float, size: SheetSize):  # type: ignore[no-untyped-def]
    """Functions that put each list at a place, in their order."""
    style = style_for(size)
    unit = scene.unit
    blanks = [
        (
            str(line.item),
            ", ".join(dict.fromkeys(line.parts)) if len(line.parts) < 3
            else f"{line.parts[0]} and {len(line.parts) - 1} alike",
            str(line.pieces),
            f"{dimension_text(line.length)} × {dimension_text(line.width)}",
            line.stock.title,
        )
        for line in cut_list(unit)
    ]
    bought = [(line.article, str(line.count)) for line in hardware_list(unit)]
    mass = unit_mass(unit)
    notes = [
        f"Mass of the empty unit as it is lifted: {number(mass.kilograms, 1)} kg, its centre "
        f"{dimension_text(mass.centre.y)} mm behind the front and {dimension_text(mass.centre.z)} "
        "mm above the underside of the carcass.",
        HUNG_CAUTION if unit.is_hung else STANDING_CAUTION,
        *CAUTIONS,
    ]
    told = [f"{f.severity.value}: {f.sentence}" for f in findings]
    pieces = [
        lambda at: table_marks(
            (
                Column(heading="no.", width=10.0, anchor=Anchor.END),
                Column(heading="becomes"),
                Column(heading="pcs", width=10.0, anchor=Anchor.END),
                Column(heading="cut to, mm", width=30.0),
                Column(heading="board", width=57.0),
            ),
            blanks, at=at, width=width, style=style,
            title="Blanks to cut (doubled parts oversize, first size along the grain)",
        ),
    ]
    if bought:
        pieces.append(
            lambda at: table_marks(
                (Column(heading="hardware"),
                 Column(heading="count", width=16.0, anchor=Anchor.END)),
                bought, at=at, width=width, style=style, title="Hardware to buy",
            )
        )
    if told:
        pieces.append(
            lambda at: notes_marks(told, at=at, width=width, style=style, heading="Findings")
        )
    pieces.append(
        lambda at: notes_marks(notes, at=at, width=width, style=style, heading="Mind")
    )
    return pieces
