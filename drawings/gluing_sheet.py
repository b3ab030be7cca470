"""The sheets of gluing and finishing: one table a stage, then what is sanded and oiled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cabinet.making.consumables import Consumable
from cabinet.making.finishing import FinishingPlan, ShownFaces
from cabinet.making.glue_stage import GlueStage, GluingPlan, Kind
from cabinet.making.hardware_list import HardwareLine
from cabinet.quantity import Range
from drawings import cautions
from drawings.list_pages import list_pages
from drawings.list_piece import ListPiece
from drawings.marks import Anchor
from drawings.number import dimension_text, number
from drawings.setup_words import BOX
from drawings.sheet import Sheet
from drawings.table import Column
from drawings.title_block import TitleBlock

_FIRST = 19.0  # width of the column that names the rows, mm

_GENERAL = (
    (
        "Dry fit with all clamps set and opened to the sizes below, pads and cauls in place, "
        "before any glue; measure both diagonals."
    ),
    (
        "Spread, close, clamp from the middle outwards; enough pressure is a thin even line of "
        "squeezed-out glue. Pressures are a glue maker's guidance; opinions differ tenfold."
    ),
    (
        "Scrape squeezed-out glue off when it is like jelly, inside corners with a sharp stick; "
        "wipe faces that show once with a damp cloth. Tape beside the joint saves both."
    ),
    (
        "Clamps on a joint stand at most 300 apart and about 45 from its ends (a glue maker's "
        "guide); over a face cauls lie as close as a cone of 45° from each covers it (common "
        "practice)."
    ),
)


def gluing_sheets(plan: GluingPlan, block: TitleBlock) -> tuple[Sheet, ...]:
    """The stages of gluing in their order, each a table with boxes to tick.

    Args:
        plan: The stages.
        block: Title block of the first sheet.
    """
    pace = plan.pace
    timed = (
        f"Times are for one person: {pace.joint:g} s a joint, {pace.biscuit:g} a biscuit, "
        f"{pace.clamp:g} a clamp, {pace.screw:g} a screw (common practice). What takes longer than "
        "the glue allows, or more clamps than there are, is parted into goes."
    )
    pieces = [ListPiece(heading="Gluing", notes=(*_GENERAL, timed, cautions.SOLVENTS))]
    pieces += [_stage_piece(stage) for stage in plan.stages]
    glue_notes = tuple(_glue_note(glue.name, plan) for glue in plan.glues)
    if glue_notes:
        pieces.append(ListPiece(heading="Glues", notes=glue_notes))
    return list_pages(
        pieces, name="gluing", title="Gluing", document_type="gluing plan", block=block
    )


def _glue_note(name: str, plan: GluingPlan) -> str:
    glue = next(glue for glue in plan.glues if glue.name == name)
    low, high = plan.grams(glue)
    spread = _between(glue.spread, 0)
    return (
        f"{glue.name}: {_between((low, high), 0)} g in all at {spread} g/m² on "
        f"{'each of both faces' if glue.faces == 2 else 'one face'}; not below "
        f"{glue.least_celsius:g} °C; full strength after {glue.full_hours:g} h ({glue.source})."
    )


def _between(values: Range, places: int) -> str:
    low, high = number(values[0], places), number(values[1], places)
    return low if low == high else f"{low} to {high}"


def _stage_piece(stage: GlueStage) -> ListPiece:
    title = stage.title
    if stage.kind is Kind.DOUBLING:
        title = f"{title}, {'; '.join(' with '.join(names) for names in stage.sets)}"
    elif stage.times > 1:
        title = f"{title}, {stage.times} times"
    return ListPiece(
        heading=f"{stage.number}  {title}",
        columns=(Column(heading=stage.kind.value, width=_FIRST), Column(heading="what and how")),
        rows=tuple(_stage_rows(stage)),
    )


def _stage_rows(stage: GlueStage) -> Iterator[tuple[str, str]]:
    yield "boards", "; ".join(f"{BOX} {', '.join(names)}" for names in stage.sets)
    if stage.lines:
        told = (
            f"{BOX} {' – '.join(line.parts)} ({line.title}, {number(line.area / 100, 0)} cm²)"
            for line in stage.lines
        )
        yield "joints", "; ".join(told)
    yield "glue", _glue_words(stage)
    yield "time", _time_words(stage)
    if stage.rows:
        yield "clamps", _clamp_words(stage)
        cauls = [row for row in stage.rows if row.cauls]
        if cauls:
            yield (
                "cauls",
                "; ".join(
                    f"{row.cauls} × {number(row.caul_length, 0)} long on {' – '.join(row.parts)}"
                    for row in cauls
                )
                + "; 45 square, waxed, planed to a crown of about 1",
            )
    if stage.force is not None and stage.glue.is_pressed:
        pressure = _between(stage.glue.pressure, 2)
        each = stage.force[0] / stage.clamps, stage.force[1] / stage.clamps
        yield (
            "pressure",
            f"the glue's maker asks for {pressure} MPa over the face: "
            f"{_between(stage.force, 0)} kN in all, {_between(each, 1)} kN for each clamp",
        )
    if stage.screws:
        yield "screws", f"{stage.screws}, instead of clamps"
    yield "then", _drying(stage)
    for note in stage.notes:
        yield "note", note


def _glue_words(stage: GlueStage) -> str:
    once = stage.glue.grams(stage.area)
    each = " each time" if stage.times > 1 else ""
    return f"{stage.glue.name}, {_between(once, 0)} g{each} on {number(stage.area / 100, 0)} cm²"


def _time_words(stage: GlueStage) -> str:
    glue = stage.glue
    if not glue.is_pressed:
        return f"about {number(stage.minutes, 0)} min to spread, leave open and lay"
    return (
        f"about {number(stage.minutes, 0)} min to the last clamp, {glue.closed_minutes:g} allowed; "
        f"glue lies open {number(stage.open_minutes, 1)} min at most, {glue.open_minutes:g} "
        f"allowed; joints: {len(stage.lines) or 1}"
    )


# What any jaws reach is not worth telling, mm.
_SHALLOW = 50.0


def _clamp_words(stage: GlueStage) -> str:
    rows = "; ".join(
        f"{row.count} on {' – '.join(row.parts)}, opened {number(row.opening, 0)}"
        + (f", jaws {number(row.reach, 0)} deep" if row.reach >= _SHALLOW else "")
        for row in stage.rows
    )
    if stage.sharing.lacking:
        return f"{stage.clamps} in all, more than there are: {rows}"
    if not stage.sharing.suffices:
        return f"{stage.clamps} in all, and none that reaches: {rows}"
    taken: dict[tuple[float, ...], int] = {}
    for use in stage.sharing.uses:
        taken[use.openings] = taken.get(use.openings, 0) + use.count
    rack = ", ".join(
        f"{count} × {' + '.join(number(one, 0) for one in openings)}"
        f"{' joined' if len(openings) > 1 else ''}"
        for openings, count in taken.items()
    )
    return f"{rows}. From the rack: {rack}"


def _drying(stage: GlueStage) -> str:
    glue = stage.glue
    if not glue.is_pressed:
        return f"cut or trim after {_between(glue.machine_hours, 1)} h"
    return (
        f"{_between(glue.press_minutes, 0)} min in clamps, cut or plane after "
        f"{_between(glue.machine_hours, 1)} h"
    )


def finishing_sheets(
    plan: FinishingPlan,
    used: Sequence[Consumable],
    hardware: Sequence[HardwareLine],
    block: TitleBlock,
) -> tuple[Sheet, ...]:
    """Sanding, what is oiled, and what is used up.

    Args:
        plan: Sanding and finishing.
        used: What is used up.
        hardware: Bought pieces.
        block: Title block of the first sheet.
    """
    pieces = [
        ListPiece(heading="Sanding and finishing", notes=tuple(_finish_notes(plan))),
        ListPiece(
            heading="Sanding",
            columns=(
                Column(heading="material"),
                Column(heading="grit", width=18.0),
                Column(heading="at most off", width=22.0, anchor=Anchor.END),
                Column(heading="why"),
            ),
            rows=tuple(
                (
                    one.material,
                    ", ".join(map(str, one.grits)),
                    dimension_text(one.most_off),
                    one.why,
                )
                for one in plan.sanding
            ),
        ),
        _faces_piece(plan),
        ListPiece(
            heading="Used up",
            columns=(
                Column(heading="article"),
                Column(heading="amount", width=34.0, anchor=Anchor.END),
            ),
            rows=tuple((one.article, amount_text(one)) for one in used),
        ),
    ]
    if hardware:
        pieces.append(
            ListPiece(
                heading="Hardware",
                columns=(
                    Column(heading="article"),
                    Column(heading="count", width=34.0, anchor=Anchor.END),
                ),
                rows=tuple((line.article, str(line.count)) for line in hardware),
            )
        )
    return list_pages(
        pieces,
        name="finishing",
        title="Finishing",
        document_type="finishing plan",
        block=block,
    )


def amount_text(one: Consumable) -> str:
    """Amount of a consumable with its unit."""
    return f"{_between(one.amount, 2 if one.unit == 'l' else 0)} {one.unit}"


def _finish_notes(plan: FinishingPlan) -> Iterator[str]:
    finish = plan.finish
    yield (
        "Sand inside faces while the boards are flat, before gluing; break all arrises; sand "
        "edges that are trimmed flush last. Keep glued faces free of oil and dust."
    )
    if plan.wood_area:
        low, high = plan.litres
        yield (
            f"{finish.name.capitalize()}: {finish.coats} coats, "
            f"{_between((low, high), 2)} l in all on {number(plan.wood_area / 1e6, 2)} m² "
            f"({_between(finish.coverage, 0)} m²/l a coat, {finish.source}); next coat after "
            f"{_between(finish.between_hours, 0)} h, careful use after {finish.use_hours:g} h, "
            f"hard after {finish.cure_days:g} days; not below {finish.least_celsius:g} °C. Thin, "
            "what is not drawn in is wiped off."
        )
    if plan.metal_area:
        yield (
            f"Metal, {number(plan.metal_area / 1e6, 2)} m²: deburr, degrease, paint and let it dry "
            "before it goes in; apart from raw wood and oil."
        )
        yield cautions.METAL
    if finish.is_drying_oil:
        yield cautions.RAGS
    yield cautions.SOLVENTS
    yield "Sanding dust: drawn off at the tool, a filter on; no dry sweeping."


def _faces_piece(plan: FinishingPlan) -> ListPiece:
    is_closed = any(one.behind_doors for one in plan.shown)
    return ListPiece(
        heading="Faces that are seen" + (", some only with a door open" if is_closed else ""),
        columns=(
            Column(heading="item", width=11.0, anchor=Anchor.END),
            Column(heading="boards"),
            Column(heading="faces, m² of one board"),
            Column(heading="all, m²", width=19.0, anchor=Anchor.END),
        ),
        rows=tuple(
            (
                str(one.item),
                ", ".join(one.parts),
                ", ".join(_face_words(one, name, area) for name, area in one.faces),
                number(one.area / 1e6, 3),
            )
            for one in plan.shown
        ),
    )


def _face_words(one: ShownFaces, name: str, area: float) -> str:
    inside = " (behind doors)" if name in one.behind_doors else ""
    return f"{name}{inside} {number(area / 1e6, 3)}"


__all__ = ["amount_text", "finishing_sheets", "gluing_sheets"]
