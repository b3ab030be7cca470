"""From a design to its job folder, in one call."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TextIO

from cabinet.assembly import Assembly
from cabinet.checks.all import findings as all_findings
from cabinet.checks.assembly import assembly
from cabinet.design import Design, Unit
from cabinet.findings import Finding, FindingsError, Severity, is_error, ordered
from cabinet.making.quote import Prices, Rates
from cabinet.making.rack import Rack
from cabinet.quantity import several
from cabinet.site.lift import Lift
from cabinet.site.room.setting import Setting
from cabinet.site.uses import UseCase
from cabinet.site.walls import Wall
from cabinet.workshop import Workshop
from drawings.book import book_html
from drawings.book_sheets import BoundSheet
from drawings.earlier_job import earlier_job
from drawings.findings_sheet import findings_sheets
from drawings.folder import check_target, written_at_once
from drawings.job_files import (
    model_tasks,
    write_job_pdf,
    write_lists,
    write_sheet,
    write_text,
    write_tiles,
)
from drawings.job_input import check_input, path_of
from drawings.job_record import job_record
from drawings.lint import lint_sheet
from drawings.making_set import (
    Making,
    making,
    making_findings,
    making_record,
    making_sheets,
)
from drawings.paper import drawing_space
from drawings.progress import Progress
from drawings.revision import revised
from drawings.scene import Scene, scene, solids_shared_out
from drawings.second_process import shared_out
from drawings.sheet import Sheet
from drawings.sheet_set import (
    Imprint,
    finished,
    list_sheet,
    number_of,
    part_tasks,
    revised_sheets,
    title_blocks,
    whole_tasks,
)
from drawings.site_set import Site, Where, site_findings, site_of, site_record, site_sheets
from drawings.templates import templates
from drawings.tile import Tile

DEFAULT_WORKSHOP = Workshop()
"""The tools of a small workshop."""


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
    place: Setting | None = None,
    moved_from: Setting | None = None,
    lift: Lift | None = None,
    workshop: Workshop = DEFAULT_WORKSHOP,
    rack: Rack | None = None,
    rates: Rates | None = None,
    prices: Prices | None = None,
    earlier: str | Path | None = None,
    as_draft: bool = False,
    tell: TextIO | None = sys.stderr,
) -> Job:
    """Compute everything about a design and write its job folder, all at once or not at all.

    Args:
        design: The design.
        folder: Path of the job folder; an earlier job of that name is replaced, but for what
            the maker has put into it; any other folder is left alone.
        owner: Legal owner, for the title blocks.
        creator: Who made the drawings.
        date: Date of issue, ISO 8601; blank to be written by hand (files carry no clock).
        uses: What the unit is used for; with at least one, strength, hanging and air are
            checked, and a sheet of loads is written.
        wall: The wall it hangs on or is tied to; a unit that hangs needs one with its uses,
            unless ``place`` tells of it.
        place: Where it hangs or stands, among windows, sockets and what else is on the wall;
            with it the wall is drawn and everything on it is checked.
        moved_from: Another place on a wall, to be compared with ``place``.
        lift: How it is lifted to its place; None leaves that out.
        workshop: The tools there are.
        rack: Leftovers and sheets to buy; None for full sheets of the usual sizes.
        rates: Minutes that work takes; None for the usual ones.
        prices: The maker's own prices; None for hours only.
        earlier: An earlier job folder of the same design, which may be the one that is written
            over: what is different is told by part, sheet and cut, under a revision letter.
        as_draft: Write sheets in spite of errors, each stamped as not for making.
        tell: Where progress and the result are told; None for silence.

    Returns:
        What was written.

    Raises:
        FindingsError: the checks found errors and no draft was asked for; it holds them all.
        KindError: something is of another kind than is asked for.
        DesignError, SizeError, UnknownNameError: the design cannot be resolved, or ``earlier``
            is a job of another design or version.
        KernelError: the kernel failed; the message names the part.
        FolderError: the folder cannot be written; what was there is as it was.
    """
    check_input(
        design,
        {
            "owner": owner,
            "creator": creator,
            "date": date,
            "wall": wall,
            "place": place,
            "moved_from": moved_from,
            "lift": lift,
            "workshop": workshop,
            "rack": rack,
            "rates": rates,
            "prices": prices,
            "as_draft": as_draft,
        },
    )
    uses = several(design.name, "uses", uses, UseCase, right="UseCase(name=..., loads=...)")
    target = path_of(design.name, "folder", folder).absolute()
    check_target(target)
    before = None if earlier is None else earlier_job(earlier, design.name)
    progress = Progress(tell)
    progress.say(design.name)
    with progress.stage("parts and joints"):
        unit = design.resolve()
    with progress.stage("solids"):
        solids_shared_out(unit)
        made = scene(unit)
    imprint = Imprint(owner=owner, number=number_of(design.name), creator=creator, date=date)
    with written_at_once(target) as fresh:
        # The sheets of the whole unit take longest, then the models, so they come first.
        tasks = (
            *whole_tasks(made, imprint),
            *model_tasks(made, fresh / "model"),
            *part_tasks(made, imprint),
        )
        with shared_out(tasks) as done:
            known = _computed(
                unit, workshop, Where(tuple(uses), wall, place, moved_from, lift), progress
            )
            _refuse_errors(design.name, known.findings, as_draft=as_draft)
            with progress.stage("plans for cutting, setting up and gluing"):
                plans = making(unit, known.order, workshop, rack, rates, prices)
                found = ordered((*known.findings, *making_findings(plans)))
            _refuse_errors(design.name, found, as_draft=as_draft)
            with progress.stage("templates"):
                tiles = _tiles(unit, workshop, known.site)
            with progress.stage("sheets, STEP and GLB"):
                drawn = _in_order(
                    made,
                    imprint,
                    known.site,
                    plans,
                    found,
                    lambda: [sheet for sheet in done() if sheet is not None],
                )
        revision = None
        if before is not None:
            with progress.stage("comparison with the earlier job"):
                revision = revised(
                    before, unit, drawn, making_record(plans), site_record(known.site)["hanging"]
                )
                drawn = revised_sheets(made, imprint, drawn, revision)
        drawn = finished(drawn, is_draft=as_draft)
        writing: tuple[Callable[[], BoundSheet | None], ...] = (
            lambda: write_job_pdf(unit.name, drawn, tiles, fresh),
            lambda: write_tiles(tiles, fresh),
            *(partial(write_sheet, sheet, fresh) for sheet in drawn),
        )
        with shared_out(writing) as written:
            with progress.stage("lint of the sheets"):
                found = ordered((*found, *collisions(drawn)))
            with progress.stage("lists"):
                record = job_record(
                    made,
                    drawn,
                    found,
                    number=imprint.number,
                    is_draft=as_draft,
                    templates=tuple(f"templates/{tile.file_name}" for tile in tiles),
                    order=known.order,
                    plans=plans,
                    site=known.site,
                    revision=revision,
                )
                write_lists(made, plans, record, fresh)
            with progress.stage("SVG and PDF"):
                bound = [sheet for sheet in written() if sheet is not None]
            with progress.stage("book"):
                by_number = {sheet.number: one for sheet, one in zip(drawn, bound, strict=True)}
                glb = (fresh / "model" / "unit.glb").read_bytes()
                write_text(fresh / "book.html", book_html(made, drawn, by_number, record, glb))
        files = tuple(sorted(str(p.relative_to(fresh)) for p in fresh.rglob("*") if p.is_file()))
    job = Job(folder=target, files=files, findings=found, seconds=dict(progress.seconds))
    _tell(job, progress)
    return job


@dataclass(frozen=True, slots=True, kw_only=True)
class _Computed:
    """What is known of a unit before anything is drawn."""

    findings: tuple[Finding, ...]
    order: Assembly
    site: Site


def _computed(unit: Unit, workshop: Workshop, place: Where, progress: Progress) -> _Computed:
    with progress.stage("checks"):
        found = all_findings(unit, workshop)
        order = assembly(unit)
    with progress.stage("loads and the wall"):
        site = site_of(unit, place)
        found = ordered((*found, *site_findings(site)))
    return _Computed(findings=found, order=order, site=site)


def _tiles(unit: Unit, workshop: Workshop, site: Site) -> tuple[Tile, ...]:
    patterns = templates(
        unit,
        bush=workshop.router.bush,
        scribes=() if site.room is None else site.room.scribes,
    )
    return tuple(tile for pattern in patterns for tile in pattern.tiles)


def _in_order(
    made: Scene,
    imprint: Imprint,
    site: Site,
    plans: Making,
    found: tuple[Finding, ...],
    drawn_beside: Callable[[], Sequence[Sheet]],
) -> tuple[Sheet, ...]:
    """All sheets; ``drawn_beside`` is asked last for those of the whole unit and of the parts."""
    block = title_blocks(made, imprint)
    lists = list_sheet(made, imprint, found)
    after = lists.number + len(made.items) + 1
    plain = list(site_sheets(site, block, after))
    plain += making_sheets(plans, block, after + len(plain))
    plain += findings_sheets(made, found, block(after + len(plain)))
    beside = drawn_beside()
    whole, parts = beside[: lists.number - 1], beside[lists.number - 1 :]
    return (*whole, lists, *parts, *plain)


def _refuse_errors(name: str, found: tuple[Finding, ...], *, as_draft: bool) -> None:
    if any(is_error(finding) for finding in found) and not as_draft:
        raise FindingsError(name, found)


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
