"""What the page of a kept script reads of a unit: the part of job.json that needs no sheets."""

from __future__ import annotations

from cabinet.findings import Finding
from cabinet.making.cut_list import cut_list, cut_record
from cabinet.making.cut_record import cut_plan_record
from cabinet.making.hardware_list import hardware_list
from cabinet.making.making_record import set_ups_record
from cabinet.record import Record, finding_record, hardware_record, move_record, plain
from cabinet.site.weight import unit_mass
from cabinet.wording import capital
from drawings.job_record import part_record
from drawings.making_set import Making
from drawings.scene import Scene
from drawings.sheet_set import number_of, sheet_numbers


def kept_record(scene: Scene, findings: tuple[Finding, ...], plans: Making | None = None) -> Record:
    """A unit as plain data, in the shape of job.json; the sheets are those of the parts.

    Args:
        scene: The unit with its solids.
        findings: All findings.
        plans: How it is made; None while that is not worked out.
    """
    unit = scene.unit
    numbers, sheets = scene.numbers, sheet_numbers(scene)
    return {
        "name": unit.name,
        "number": number_of(unit.name),
        "outline": {"low": plain(unit.outline.low), "high": plain(unit.outline.high)},
        "mass_kg": plain(unit_mass(unit).kilograms),
        "parts": [
            part_record(scene, part, numbers[part.name], None) | {"sheet": sheets[part.name]}
            for part in unit.parts
        ],
        "hardware": [hardware_record(item) for item in unit.hardware],
        "moves": [move_record(move) for move in unit.moves],
        "findings": [finding_record(finding) for finding in findings],
        "cut_list": [cut_record(line) for line in cut_list(unit)],
        "hardware_list": [
            {"article": line.article, "count": line.count} for line in hardware_list(unit)
        ],
        "cut_plan": {"stocks": []} if plans is None else cut_plan_record(plans.cuts),
        "setups": {"settings": []} if plans is None else set_ups_record(plans.set_ups),
        "sheets": [
            {
                "number": sheets[parts[0].name],
                "title": capital(unit.item_names[parts[0].name]),
            }
            for _, _, parts in scene.items
        ],
    }
