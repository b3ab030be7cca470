"""Set-ups, gluing, what is used up and the quote as CSV (RFC 4180), for any spreadsheet."""

from __future__ import annotations

from collections.abc import Sequence

from cabinet.making.consumables import Consumable
from cabinet.making.glue_stage import GluingPlan
from cabinet.making.hardware_list import HardwareLine
from cabinet.making.quote import Quote
from cabinet.making.setting import SetUps
from cabinet.workshop import Workshop
from drawings.lists import csv_text
from drawings.number import number
from drawings.setup_words import figures, heading, rows


def set_ups_csv(made: SetUps, workshop: Workshop) -> str:
    """One line for each kind of cut at each setting, in the order of the work."""
    lines = []
    for setting in made.settings:
        told = "; ".join(f"{one.caption} {one.value}" for one in figures(setting, workshop))
        changed = ", ".join(change.value for change in setting.changes)
        lines += [
            [
                str(setting.number),
                setting.stand.phase.value,
                heading(setting),
                told,
                changed,
                row.boards,
                str(row.pieces),
                lies,
                cut,
            ]
            for row in rows(setting, workshop)
            for lies, cut in row.cuts
        ]
    return csv_text(
        ["setting", "when", "tool", "set", "changed", "boards", "pieces", "lies", "cuts"], lines
    )


def gluing_csv(plan: GluingPlan) -> str:
    """One line for each stage of gluing."""
    lines = [
        [
            str(stage.number),
            stage.kind.value,
            stage.title,
            "; ".join(", ".join(names) for names in stage.sets),
            str(stage.times),
            str(len(stage.lines)),
            number(stage.area / 100, 1),
            stage.glue.name,
            number(stage.grams[0], 0),
            number(stage.grams[1], 0),
            number(stage.minutes, 1),
            number(stage.glue.closed_minutes, 1),
            str(stage.clamps),
            number(max((row.opening for row in stage.rows), default=0.0), 0),
            "yes" if stage.sharing.suffices else "no",
        ]
        for stage in plan.stages
    ]
    return csv_text(
        [
            "stage",
            "kind",
            "title",
            "boards",
            "times",
            "joints",
            "area cm2",
            "glue",
            "least g",
            "most g",
            "minutes",
            "allowed minutes",
            "clamps",
            "widest opening mm",
            "clamps suffice",
        ],
        lines,
    )


def consumables_csv(used: Sequence[Consumable], hardware: Sequence[HardwareLine]) -> str:
    """All that is used up, then the hardware."""
    lines = [
        [one.article, number(one.amount[0], 3), number(one.amount[1], 3), one.unit] for one in used
    ]
    lines += [[line.article, str(line.count), str(line.count), "pieces"] for line in hardware]
    return csv_text(["article", "least", "most", "unit"], lines)


def quote_csv(made: Quote) -> str:
    """Hours, then costs where there are prices."""
    lines = [
        [line.title, line.basis, number(line.hours[0], 2), number(line.hours[1], 2), "h"]
        for line in made.work
    ]
    lines.append(["work in all", "", number(made.hours[0], 2), number(made.hours[1], 2), "h"])
    lines += [
        [
            line.title,
            line.basis,
            number(line.cost[0], 2),
            number(line.cost[1], 2),
            made.currency,
        ]
        for line in made.costs
    ]
    if made.total is not None:
        low, high = made.total
        lines.append(["cost in all", "", number(low, 2), number(high, 2), made.currency])
    lines += [[name, "no price given", "", "", ""] for name in made.unpriced]
    return csv_text(["what", "counted", "least", "most", "unit"], lines)
