"""From a design to its job folder, in one call."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from cabinet.checks.all import findings as all_findings
from cabinet.design import Design
from cabinet.findings import Finding, FindingsError, Severity, is_error, ordered
from cabinet.record import Record
from cabinet.site.checks import report_findings
from cabinet.site.lifting import Lift
from cabinet.site.report import site_report
from cabinet.site.uses import UseCase
from cabinet.site.walls import Wall
from cabinet.solids import hardware_location, hardware_shape, location, solid
from drawings.book import book_html
from drawings.earlier_job import earlier_job
from drawings.exports import PlacedSolid, write_part_step, write_unit_glb, write_unit_step
from drawings.folder import check_target, written_at_once
from drawings.job_record import job_record
from drawings.lint import lint_sheet
from drawings.lists import cuts_csv, hardware_csv, parts_csv
from drawings.paper import drawing_space, style_for
from drawings.pdf import Page, write_pdf
from drawings.progress import Progress
from drawings.revision import revised
from drawings.router_setup import RouterSetup
from drawings.scene import Scene, hardware_colour, item_name, scene
from drawings.second_process import beside
from drawings.sheet import Sheet, slug
from drawings.sheet_set import (
    Imprint,
    finished,
    general_sheets,
    number_of,
    part_sheets,
    revised_sheets,
    sheet_numbers,
    site_sheets,
)
from drawings.sheet_svg import sheet_svg
from drawings.templates import template_page, template_svg, templates
from drawings.tile import Tile

DEFAULT_ROUTER = RouterSetup()

# Largest distance between the GLB's triangles and the solids, mm.
MESH_TOLERANCE = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What a run wrote.

    Attributes:
        folder: The job folder.
        files: Every file in it, relative to it, in order.
        findings: What the checks found.
        seconds: Seconds of each stage.
    """

    folder: Path
    files: tuple[str, ...]
    findings: tuple[Finding, ...]
    seconds: dict[str, float]


def write_job(
    design: Design,
    folder: str | Path,
    *,
    owner: str = "The workshop",
    creator: str = "The workshop",
    date: str = "",
    uses: Sequence[UseCase] = (),
    wall: Wall | None = None,
    lift: Lift | None = None,
    router: RouterSetup = DEFAULT_ROUTER,
    earlier: str | Path | None = None,
    as_draft: bool = False,
    tell: TextIO | None = sys.stderr,
) -> Job:
    """Compute everything about a design and write its job folder, all at once or not at all.

    Args:
        design: The design.
        folder: Path of the job folder; an earlier job of that name is replaced, anything else
            is left alone.
        owner: Legal owner, for the title blocks.
        creator: Who made the drawings.
        date: Date of issue, ISO 8601; blank to be written by hand (files carry no clock).
        uses: What the unit is used for; with at least one, strength, hanging and air are
            checked, and a sheet of loads is written.
        wall: The wall it hangs on or is tied to; a unit that hangs needs one with its uses.
        lift: How it is lifted to its place; None leaves that out.
        router: Guide bush and cutter for which the templates of cut-outs are made.
        earlier: An earlier job folder of the same design, which may be the one that is written
            over: what is different is told by part, sheet and cut, under a revision letter.
        as_draft: Write sheets in spite of errors, each stamped as not for making.
        tell: Where progress and the result are told; None for silence.

    Returns:
        What was written.

    Raises:
        FindingsError: the checks found errors and no draft was asked for; it holds them all.
        DesignError, SizeError, UnknownNameError: the design cannot be resolved, or ``earlier``
            is a job of another design or version.
        KernelError: the kernel failed; the message names the part.
        FolderError: the folder cannot be written; what was there is as it was.
    """
    target = Path(folder).absolute()
    check_target(target)
    before = None if earlier is None else earlier_job(earlier, design.name)
    progress = Progress(tell)
    progress.say(design.name)
    with progress.stage("parts and joints"):
        unit = design.resolve()
    with progress.stage("solids"):
        made = scene(unit)
    imprint = Imprint(owner=owner, number=number_of(design.name), creator=creator, date=date)
    with (
        written_at_once(target) as fresh,
        beside(lambda: part_sheets(made, imprint)) as parts_drawn,
        beside(lambda: _write_models(made, fresh / "model")) as models_written,
    ):
        with progress.stage("checks"):
            found = all_findings(unit)
            report = site_report(unit, tuple(uses), wall, lift=lift) if uses else None
            if report is not None:
                found = ordered((*found, *report_findings(report)))
        if any(is_error(finding) for finding in found) and not as_draft:
            raise FindingsError(design.name, found)
        with progress.stage("sheets"):
            placed = () if report is None else site_sheets(made, imprint, report)
            general = general_sheets(made, imprint, found)
            drawn = (*general, *parts_drawn(), *placed)
        with progress.stage("templates"):
            patterns = templates(unit, router=router)
            tiles = tuple(tile for pattern in patterns for tile in pattern.tiles)
        revision = None
        if before is not None:
            with progress.stage("comparison with the earlier job"):
                revision = revised(before, unit, drawn)
                drawn = revised_sheets(made, imprint, drawn, revision)
        drawn = finished(drawn, is_draft=as_draft)
        with progress.stage("lint of the sheets"):
            found = ordered((*found, *collisions(drawn)))
        record = job_record(
            made,
            drawn,
            found,
            number=imprint.number,
            is_draft=as_draft,
            templates=tuple(f"templates/{tile.file_name}" for tile in tiles),
            report=report,
            revision=revision,
        )
        svgs = _write_sheets(made, drawn, tiles, fresh, progress)
        with progress.stage("STEP and GLB"):
            models_written()
        _write_lists(made, record, fresh, progress)
        with progress.stage("book"):
            glb = (fresh / "model" / "unit.glb").read_bytes()
            _write_text(fresh / "book.html", book_html(made, drawn, svgs, record, glb))
        files = tuple(sorted(str(p.relative_to(fresh)) for p in fresh.rglob("*") if p.is_file()))
    job = Job(folder=target, files=files, findings=found, seconds=dict(progress.seconds))
    _tell(job, progress)
    return job


def collisions(drawn: Sequence[Sheet]) -> tuple[Finding, ...]:
    """A warning for each sheet on which lettering collides.

    That is a fault of this program, not of the design, so the sheet is written all the same
    and the maker told where to look twice.
    """
    found = []
    for sheet in drawn:
        there = lint_sheet(sheet.marks, drawing_space(sheet.size))
        if there:
            found.append(
                Finding(
                    rule="sheet-crowded",
                    severity=Severity.WARNING,
                    parts=(),
                    where=None,
                    found=float(len(there)),
                    limit=0.0,
                    sentence=f"sheet {sheet.number}, {sheet.title}: {there[0].sentence}; read "
                    "that place twice, and report it as a fault of the program",
                )
            )
    return tuple(found)


def _write_sheets(
    made: Scene, drawn: tuple[Sheet, ...], tiles: tuple[Tile, ...], fresh: Path, progress: Progress
) -> dict[int, str]:
    """Write sheets and templates as SVG and PDF; gives each sheet's SVG by its number."""
    with progress.stage("SVG"):
        svgs = {sheet.number: sheet_svg(sheet) for sheet in drawn}
        for sheet in drawn:
            _write_text(fresh / "sheets" / sheet.file_name, svgs[sheet.number])
        for tile in tiles:
            _write_text(fresh / "templates" / tile.file_name, template_svg(tile))
    with progress.stage("PDF"):
        pages = [*(_page(sheet) for sheet in drawn), *(template_page(tile) for tile in tiles)]
        write_pdf(pages, fresh / "job.pdf", title=made.unit.name)
    return svgs


def _write_lists(made: Scene, record: Record, fresh: Path, progress: Progress) -> None:
    with progress.stage("lists"):
        numbers = sheet_numbers(made)
        _write_text(fresh / "lists" / "parts.csv", parts_csv(made, numbers))
        _write_text(fresh / "lists" / "cuts.csv", cuts_csv(made))
        _write_text(fresh / "lists" / "hardware.csv", hardware_csv(made))
        text = json.dumps(record, indent=1, ensure_ascii=False, allow_nan=False)
        _write_text(fresh / "job.json", text + "\n")


def _page(sheet: Sheet) -> Page:
    return Page(
        title=f"{sheet.number} {sheet.title}",
        width=sheet.size.width,
        height=sheet.size.height,
        marks=sheet.marks,
        style=style_for(sheet.size),
    )


def _write_models(made: Scene, folder: Path) -> None:
    # It may be begun a second time, if the copy of this process that began it was lost.
    (folder / "parts").mkdir(parents=True, exist_ok=True)
    unit = made.unit
    items = [
        PlacedSolid(
            name=part.name,
            solid=solid(part.board),
            location=location(part.placement),
            colour=part.board.stock.colour,
        )
        for part in unit.parts
    ]
    items += [
        PlacedSolid(
            name=item.name,
            solid=hardware_shape(item.body, item.axis),
            location=hardware_location(item),
            colour=hardware_colour(item),
        )
        for item in unit.hardware
    ]
    write_unit_step(items, folder / "unit.step", unit_name=unit.name)
    write_unit_glb(items, folder / "unit.glb", unit_name=unit.name, tolerance=MESH_TOLERANCE)
    for number, board, parts in made.items:
        name = item_name(parts)
        path = folder / "parts" / f"{number:02d}-{slug(name)}.step"
        write_part_step(name, solid(board), board.stock.colour, path)


def _write_text(path: Path, text: str) -> None:
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(text.encode("utf-8"))


def _tell(job: Job, progress: Progress) -> None:
    progress.say(f"{job.folder}")
    for name in job.files:
        progress.say(f"  {name}")
    if job.findings:
        progress.say("findings")
        for finding in job.findings:
            progress.say(f"  {finding.severity.value}, {finding.rule}: {finding.sentence}")
    else:
        progress.say("findings: none")
    progress.say(f"{sum(job.seconds.values()):.1f} s")
