"""Set-ups, gluing, finishing and quote as plain data for the job file."""

from __future__ import annotations

from cabinet.making.finishing import FinishingPlan
from cabinet.making.glue_stage import GlueStage, GluingPlan
from cabinet.making.quote import Quote
from cabinet.making.setting import Setting, SetUps, Task
from cabinet.record import Record, plain


def set_ups_record(made: SetUps) -> Record:
    """All settings in their order, what is cut at each, the changes and their proof."""
    return {
        "changes": {change.value: count for change, count in made.changes},
        "total": made.total,
        "bound": made.bound,
        "is_proven": made.is_proven,
        "settings": [_setting(one) for one in made.settings],
    }


def _setting(one: Setting) -> Record:
    stand = one.stand
    return {
        "number": one.number,
        "phase": stand.phase.value,
        "tool": stand.tool.value,
        "guide": stand.guide.value,
        "cutter": plain(stand.cutter),
        "position": plain(stand.position),
        "depth": plain(stand.depth),
        "angle": plain(stand.angle),
        "changed": [change.value for change in one.changes],
        "tasks": [_task(task) for task in one.tasks],
    }


def _task(task: Task) -> Record:
    operation = task.operation
    part = task.parts[0]
    return {
        "item": task.item,
        "parts": list(task.names),
        "operation": operation.name,
        "work": operation.work.value,
        "pass": task.number,
        "passes": max(1, len(operation.passes)),
        "face_up": part.surface_name(operation.face),
        "to_the_fence": part.surface_name(operation.reference),
        "places": plain(operation.places),
    }


def gluing_record(plan: GluingPlan) -> Record:
    """All stages of gluing."""
    return {"stages": [_stage(stage) for stage in plan.stages]}


def _stage(stage: GlueStage) -> Record:
    return {
        "number": stage.number,
        "kind": stage.kind.value,
        "title": stage.title,
        "boards": [list(names) for names in stage.sets],
        "joints": [line.index for line in stage.lines],
        "steps": list(stage.steps),
        "glue": stage.glue.name,
        "area_mm2": plain(stage.area),
        "grams": plain(stage.grams),
        "minutes": plain(stage.minutes),
        "open_minutes": plain(stage.open_minutes),
        "allowed_minutes": plain(stage.glue.closed_minutes),
        "clamps": [
            {
                "boards": list(row.parts),
                "count": row.count,
                "opening": plain(row.opening),
                "reach": plain(row.reach),
                "cauls": row.cauls,
                "caul_length": plain(row.caul_length),
            }
            for row in stage.rows
        ],
        "clamps_suffice": stage.sharing.suffices,
        "screws": stage.screws,
        "notes": list(stage.notes),
    }


def finishing_record(plan: FinishingPlan) -> Record:
    """What shows, how it is sanded, and the finish."""
    return {
        "finish": plan.finish.name,
        "coats": plan.finish.coats,
        "wood_area_mm2": plain(plan.wood_area),
        "metal_area_mm2": plain(plan.metal_area),
        "litres": plain(plan.litres),
        "sanding": [plain(one) for one in plan.sanding],
        "faces": [
            {
                "item": one.item,
                "parts": list(one.parts),
                "faces": [{"name": name, "area_mm2": plain(area)} for name, area in one.faces],
            }
            for one in plan.shown
        ],
    }


def quote_record(made: Quote) -> Record:
    """Hours and, with prices, costs; ranges are least and most."""
    record: Record = {
        "work": [plain(line) for line in made.work],
        "hours": plain(made.hours),
        "waiting_hours": plain(made.waiting),
    }
    if made.total is not None:
        record |= {
            "currency": made.currency,
            "costs": [plain(line) for line in made.costs],
            "total": plain(made.total),
            "unpriced": list(made.unpriced),
        }
    return record
