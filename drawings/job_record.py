"""The content of job.json: all that was computed, as plain data with a documented schema."""

from __future__ import annotations

from cabinet.assembly import Assembly
from cabinet.findings import Finding
from cabinet.making.cut_list import cut_list, cut_record
from cabinet.making.hardware_list import hardware_list
from cabinet.part import Part
from cabinet.record import (
    Record,
    assembly_record,
    blank_record,
    feature_record,
    finding_record,
    hardware_record,
    joint_record,
    move_record,
    placement_record,
    plain,
    surface_records,
)
from cabinet.site.weight import part_mass, unit_mass
from cabinet.solids import volume
from drawings.job_schema import SCHEMA, VERSION
from drawings.making_set import Making, making_record
from drawings.revision import Revision, revision_record
from drawings.scene import Scene
from drawings.sheet import Sheet
from drawings.site_set import Site, site_record


def job_record(
    scene: Scene,
    sheets: tuple[Sheet, ...],
    findings: tuple[Finding, ...],
    *,
    number: str,
    is_draft: bool,
    order: Assembly,
    plans: Making,
    site: Site,
    templates: tuple[str, ...] = (),
    revision: Revision | None = None,
) -> Record:
    """Everything about a job.

    Args:
        scene: The unit with its solids.
        sheets: All sheets.
        findings: All findings.
        number: Number of the job.
        is_draft: Whether the sheets are stamped as not for making.
        order: The order in which the unit comes together.
        plans: How it is made.
        site: What was computed about it in its place.
        templates: File names of the templates.
        revision: What is different since an earlier job; None if none was given.
    """
    unit = scene.unit
    mass = unit_mass(unit)
    sheet_of = {name: sheet for sheet in sheets for name in sheet.dimensions}
    numbers = scene.numbers
    firsts = {number: parts[0].name for number, _, parts in scene.items}
    return {
        "schema": SCHEMA,
        "version": VERSION,
        "name": unit.name,
        "number": number,
        "revision": "" if revision is None else revision.letter,
        "is_draft": is_draft,
        "lengths": "mm",
        "is_hung": unit.is_hung,
        "outline": {"low": plain(unit.outline.low), "high": plain(unit.outline.high)},
        "mass_kg": plain(mass.kilograms),
        "centre_of_mass": plain(mass.centre),
        "parts": [
            part_record(scene, part, numbers[part.name], sheet_of.get(firsts[numbers[part.name]]))
            for part in unit.parts
        ],
        "hardware": [hardware_record(item) for item in unit.hardware],
        "joints": [joint_record(joint) for joint in unit.joints],
        "moves": [move_record(move) for move in unit.moves],
        "assembly": assembly_record(order),
        "dimensions": [
            {"part": name, "sheet": sheet.number, **told}
            for sheet in sheets
            for name, told in sheet.dimensions.items()
        ],
        "findings": [finding_record(finding) for finding in findings],
        "cut_list": [cut_record(line) for line in cut_list(unit)],
        "hardware_list": [
            {"article": line.article, "count": line.count} for line in hardware_list(unit)
        ],
        **making_record(plans),
        "sheets": [
            {
                "number": sheet.number,
                "file": f"sheets/{sheet.file_name}",
                "title": sheet.title,
                "paper": sheet.size.name,
                "revision": ""
                if revision is None
                else revision.letters.get(sheet.number, revision.letter),
                "views": [view.record() for view in sheet.views],
            }
            for sheet in sheets
        ],
        "templates": list(templates),
        **site_record(site),
        "changes": None if revision is None else revision_record(revision),
    }


def part_record(scene: Scene, part: Part, item: int, sheet: Sheet | None) -> Record:
    """One part: its blank, features, datum, placement, volume and mass.

    Args:
        scene: The unit with its solids.
        part: The part.
        item: Number of its distinct board.
        sheet: The sheet on which it is drawn; None if it is on none.
    """
    mass = part_mass(part)
    return {
        "name": part.name,
        "role": part.role,
        "group": part.group,
        "item": item,
        "item_name": scene.unit.item_names[part.name],
        "sheet": None if sheet is None else sheet.number,
        "blank": blank_record(part),
        "features": [feature_record(part, feature) for feature in part.board.features],
        "datum": {
            "fence": part.surface_name(part.board.fence),
            "stop": part.surface_name(part.board.stop),
        },
        "shows": [part.surface_name(surface) for surface in part.board.shows],
        "placement": placement_record(part),
        "surfaces": surface_records(part),
        "box": {"low": plain(part.box.low), "high": plain(part.box.high)},
        "volume_mm3": plain(volume(part.board)),
        "solid_volume_mm3": plain(volume(part.board) + part.board.open_area * part.board.thickness),
        "mass_kg": plain(mass.kilograms),
        "centre_of_mass": plain(mass.centre),
    }
