"""All sheets of a job, in their order, with their numbers and what each tells of the others."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from cabinet.errors import DesignError
from cabinet.features import Groove, Rebate
from cabinet.findings import Finding
from cabinet.joint import Butt, Track
from cabinet.joint.base import meeting
from cabinet.making.ripped import pair_of
from cabinet.part import Board, Part
from cabinet.wording import listed
from drawings.arrangement import arrangement_sheet
from drawings.changes_sheet import changes_sheets
from drawings.draft_stamp import draft_stamp
from drawings.hardware_sheet import hardware_sheet
from drawings.number import dimension_text
from drawings.part_notes import Surroundings
from drawings.part_sheet import part_sheet
from drawings.pictorial import pictorial_sheet
from drawings.revision import Revision, with_revision
from drawings.scene import Scene
from drawings.section_planes import section_planes
from drawings.sheet import Sheet
from drawings.title_block import TitleBlock, counted
from drawings.unit_section import across_sheet, behind_sheet

# Sheets that come before those of the parts: arrangement, parts, two sections, hardware.
_GENERAL = 5
GENERAL_TOLERANCE = "ISO 2768-c"


@dataclass(frozen=True, slots=True, kw_only=True)
class Imprint:
    """What the title block says on every sheet.

    Attributes:
        owner: Whose drawings they are.
        number: Number of the job; the sheet's number is added.
        creator: Who made them.
        approved_by: Who approved them, "" to be signed by hand.
        date: ISO 8601 date of issue, "" to be written by hand.
        revision: Index of the revision, "" for none.
    """

    owner: str
    number: str
    creator: str
    approved_by: str = ""
    date: str = ""
    revision: str = ""


def number_of(name: str) -> str:
    """A short job number from a unit's name: the initials of its words."""
    words = re.findall(r"[A-Za-z0-9]+", name)
    return "".join(word[0] for word in words[:6]).upper() or "UNIT"


def sheet_numbers(scene: Scene) -> dict[str, int]:
    """The number of the sheet on which each part is drawn, by the part's name."""
    return {part.name: _GENERAL + number for number, _, parts in scene.items for part in parts}


def _block(scene: Scene, imprint: Imprint, number: int) -> TitleBlock:
    """The title block of a sheet; how many there are is told when all are drawn."""
    return TitleBlock(
        legal_owner=imprint.owner,
        identification_number=f"{imprint.number}-{number:02d}",
        date_of_issue=imprint.date,
        sheet_number=number,
        sheet_count=number,
        title=scene.unit.name,
        approval_person=imprint.approved_by,
        creator=imprint.creator,
        document_type="part drawing",
        supplementary_title=scene.unit.name,
        revision=imprint.revision,
        general_tolerance=GENERAL_TOLERANCE,
    )


def title_blocks(scene: Scene, imprint: Imprint) -> Callable[[int], TitleBlock]:
    """Gives the title block of a sheet by its number.

    Args:
        scene: The unit with its solids.
        imprint: What the title blocks say.
    """
    return lambda number: _block(scene, imprint, number)


def whole_tasks(scene: Scene, imprint: Imprint) -> tuple[Callable[[], Sheet], ...]:
    """Draw, each when it is called, the sheets of the whole unit: arrangement, picture, sections.

    Args:
        scene: The unit with its solids.
        imprint: What the title blocks say.
    """
    planes = section_planes(scene.unit)
    return (
        lambda: arrangement_sheet(scene, planes, _block(scene, imprint, 1)),
        lambda: pictorial_sheet(scene, _block(scene, imprint, 2), sheet_numbers(scene)),
        lambda: across_sheet(scene, planes, _block(scene, imprint, 3)),
        lambda: behind_sheet(scene, planes, _block(scene, imprint, 4)),
    )


def part_tasks(scene: Scene, imprint: Imprint) -> tuple[Callable[[], Sheet], ...]:
    """Draw, each when it is called, one sheet for each distinct part.

    Args:
        scene: The unit with its solids.
        imprint: What the title blocks say.
    """
    return tuple(partial(item_sheet, scene, imprint, item) for item, _, _ in scene.items)


def list_sheet(scene: Scene, imprint: Imprint, findings: tuple[Finding, ...] = ()) -> Sheet:
    """The sheet of hardware and findings, the last of the whole unit's.

    Args:
        scene: The unit with its solids.
        imprint: What the title blocks say.
        findings: What the checks found.
    """
    return hardware_sheet(scene, _block(scene, imprint, _GENERAL), findings)


def item_sheet(scene: Scene, imprint: Imprint, item: int) -> Sheet:
    """The sheet of one distinct part.

    Args:
        scene: The unit with its solids.
        imprint: What the title block says.
        item: Item number of the part, from 1.
    """
    number, board, parts = scene.items[item - 1]
    return part_sheet(
        parts[0],
        block=_block(scene, imprint, _GENERAL + number),
        around=_surroundings(scene, board, parts, sheet_numbers(scene)),
        quantity=len(parts),
    )


def revised_sheets(
    scene: Scene, imprint: Imprint, drawn: Sequence[Sheet], revision: Revision
) -> tuple[Sheet, ...]:
    """The sheets with the letters of their revisions and, if anything differs, one of changes.

    Args:
        scene: The unit with its solids.
        imprint: What the title blocks say.
        drawn: The sheets.
        revision: What is different since the earlier job.
    """
    sheets = [with_revision(sheet, revision, imprint.date) for sheet in drawn]
    if revision.is_any:
        block = replace(_block(scene, imprint, len(drawn) + 1), revision=revision.letter)
        sheets += changes_sheets(revision, block)
    return tuple(sheets)


def finished(drawn: Sequence[Sheet], *, is_draft: bool = False) -> tuple[Sheet, ...]:
    """All sheets of a job in their order, each with their number and, of a draft, its stamp.

    Args:
        drawn: The sheets.
        is_draft: Stamp every sheet as not for making.
    """
    sheets = [
        replace(sheet, marks=counted(sheet.marks, sheet.number, len(drawn), sheet.size))
        for sheet in drawn
    ]
    return tuple(_stamped(sheet) for sheet in sheets) if is_draft else tuple(sheets)


def sheets(
    scene: Scene,
    imprint: Imprint,
    findings: tuple[Finding, ...] = (),
    *,
    is_draft: bool = False,
) -> tuple[Sheet, ...]:
    """The sheets of a unit and its parts, one after another.

    Args:
        scene: The unit with its solids.
        imprint: What the title blocks say.
        findings: What the checks found, for the sheet of hardware and findings.
        is_draft: Stamp every sheet as not for making.
    """
    drawn = (
        *(draw() for draw in whole_tasks(scene, imprint)),
        list_sheet(scene, imprint, findings),
        *(draw() for draw in part_tasks(scene, imprint)),
    )
    return finished(drawn, is_draft=is_draft)


def _surroundings(
    scene: Scene, board: Board, parts: tuple[Part, ...], numbers: dict[str, int]
) -> Surroundings:
    takes = {f.takes for f in board.features if isinstance(f, Groove | Rebate) and f.takes}
    met = {
        name for joint in scene.unit.joints if parts[0].name in joint.parts for name in joint.parts
    }
    mates = {
        part.role: part
        for part in reversed(scene.unit.parts)
        if part.role in takes and part.name in met
    }
    return Surroundings(
        mates=mates,
        sheets=numbers,
        boxes={part.name: part.box for part in scene.unit.parts},
        alike=tuple(part.name for part in parts),
        remarks=(
            *_mirror_remarks(scene, parts[0], numbers),
            *_track_remarks(scene, parts[0]),
            *_covering_remarks(parts[0]),
            *_glue_remarks(scene, parts[0], numbers),
        ),
        strip=pair_of(scene.unit, parts[0].name),
        item_name=scene.unit.item_names[parts[0].name],
    )


def _mirror_remarks(scene: Scene, part: Part, numbers: dict[str, int]) -> tuple[str, ...]:
    """A note on the sheet of a board that has a mirrored twin."""
    called, twin = scene.unit.item_names, scene.unit.other_hands.get(part.name)
    if twin is None:
        return ()
    return (
        f"This is the {called[part.name]}; the {called[twin]}, sheet {numbers[twin]}, is its "
        "mirror image: do not make two of one hand.",
    )


def _track_remarks(scene: Scene, part: Part) -> tuple[str, ...]:
    """On top and base: what runs in the door grooves."""
    mine = [j for j in scene.unit.joints if isinstance(j, Track) and j.board == part.name]
    if not mine:
        return ()
    one = mine[0]
    width, tongue, play = (dimension_text(v) for v in (one.tongue + one.play, one.tongue, one.play))
    bar = f" A round bar {dimension_text(one.bar)} lies on the floor." if one.bar else ""
    return (f"Door grooves: {width} wide for tongues {tongue} thick, play {play} in all.{bar}",)


def _covering_remarks(part: Part) -> tuple[str, ...]:
    """On a covering: it is made to size only when it is glued."""
    if not part.board.is_glued_on_oversize:
        return ()
    length, width = (dimension_text(v) for v in part.board.rough_size)
    return (
        f"Blank {length} × {width}. Glue it over the whole face, trim the edges with a "
        "bearing-guided cutter, open the holes from their middle with the bearing on those below.",
    )


def _glue_remarks(scene: Scene, part: Part, numbers: dict[str, int]) -> tuple[str, ...]:
    """What is glued flat to a part, and to which of its surfaces: no cut tells of it."""
    unit = scene.unit
    mates: dict[str, dict[str, None]] = {}
    for joint in unit.joints:
        if not isinstance(joint, Butt) or not joint.is_glued or part.name not in joint.parts:
            continue
        other = unit.by_name[joint.other if joint.one == part.name else joint.one]
        try:
            side, _ = meeting(part, other)
        except DesignError:
            continue  # a draft: the checks say that they do not touch
        told = f"the {unit.item_names[other.name]} (sheet {numbers[other.name]})"
        mates.setdefault(part.surface_name(part.surface(side)), {})[told] = None
    if not mates:
        return ()
    said = (f"{surface} to {listed(list(told))}" for surface, told in mates.items())
    return (f"Glued: {'; '.join(said)}.",)


def _stamped(sheet: Sheet) -> Sheet:
    return replace(sheet, marks=(*sheet.marks, draft_stamp(sheet.marks, sheet.size)))
