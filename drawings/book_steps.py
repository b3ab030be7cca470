"""The work after the boards are made, as steps to tick, each with its caution."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.record import Record
from drawings.cautions import BLADES, METAL, RAGS, SOLVENTS, TIPPING, WALL, WEIGHTS
from drawings.number import number


@dataclass(frozen=True, slots=True)
class Step:
    """One step: what is ticked, and the cautions that stand before it."""

    title: str
    ticks: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]


def steps(record: Record) -> tuple[Step, ...]:
    """The steps that a unit needs, in the order of the work.

    Common practice, no source. Which step is needed follows from the parts and the plans.

    Args:
        record: The content of job.json.
    """
    return tuple(
        step
        for step in (*_set_ups(record), _metal(record), *_glue(record), _finish(), _place(record))
        if step is not None
    )


def _set_ups(record: Record) -> Iterator[Step]:
    """One tick for each setting, by the phase in which it is made."""
    phases: dict[str, list[tuple[str, str]]] = {}
    for setting in record["setups"]["settings"]:
        ticks = phases.setdefault(setting["phase"], [])
        ticks.append((f"setting-{setting['number']}", _setting_words(setting)))
    for phase, ticks in phases.items():
        yield Step(f"Set-ups, {phase}", tuple(ticks), (BLADES,))


def _setting_words(setting: Record) -> str:
    """``8: saw, fence 4, 8 deep: groove for panel (left frame shelf front …)``."""
    where = " and ".join(number(value, 1) for value in setting["position"])
    words = f"{setting['number']}: {setting['tool']}, {setting['guide']}"
    words += f" {where}" if where else ""
    if setting["depth"] is not None:
        words += f", {number(setting['depth'], 1)} deep"
    if setting["angle"]:
        words += f", tilted {number(setting['angle'], 1)}°"
    works = dict.fromkeys(task["operation"] for task in setting["tasks"])
    parts = dict.fromkeys(name for task in setting["tasks"] for name in task["parts"])
    return f"{words}: {', '.join(works)} ({', '.join(parts)})"


def _metal(record: Record) -> Step | None:
    metal = [p["name"] for p in record["parts"] if "steel" in p["blank"]["material"]]
    if not metal:
        return None
    ticks = tuple(
        (f"metal-{i}", f"{name}: deburred, degreased, painted, dry")
        for i, name in enumerate(metal, start=1)
    )
    return Step("Metal, apart from raw wood", ticks, (METAL, SOLVENTS))


def _glue(record: Record) -> Iterator[Step]:
    """One step for each go of gluing, dry fit first; then what is trimmed."""
    for stage in record["gluing"]["stages"]:
        mark = stage["number"]
        ticks = [(f"glue-{mark}-{i}", _boards(boards)) for i, boards in enumerate(stage["boards"])]
        clamps = "; ".join(
            f"{one['count']} on {' – '.join(one['boards'])} opened {number(one['opening'], 0)}"
            for one in stage["clamps"]
        )
        if clamps:
            ticks.insert(0, (f"clamps-{mark}", f"Together dry, clamps set: {clamps}"))
        yield Step(f"Gluing {mark}: {stage['title']}", tuple(ticks), (SOLVENTS,))
    trimmed = [
        p["name"]
        for p in record["parts"]
        if any(feature["kind"] == "FlushTrim" for feature in p["features"])
    ]
    if trimmed:
        ticks = [("trimmed", f"Trimmed flush: {'; '.join(trimmed)}")]
        yield Step("When the glue is dry", tuple(ticks), (BLADES,))


def _boards(names: list[str]) -> str:
    return f"Glued and wiped: {', '.join(names)}"


def _finish() -> Step:
    return Step(
        "Finish",
        (("sanded", "Sanded"), ("oiled", "Oiled or varnished, rags put away")),
        (RAGS, SOLVENTS),
    )


def _place(record: Record) -> Step:
    if record["is_hung"]:
        hang = (
            ("wall", "Wall looked through for cables, pipes and studs"),
            ("level", "Wall half level and screwed, fixings chosen for this wall"),
            ("hung", "Unit hung by two people, bearing on its whole length"),
            ("fitted", "Doors and shelves in"),
        )
        return Step("Hang", hang, (WALL, WEIGHTS))
    stand = (
        ("level", "Unit level and plumb"),
        ("tied", "Unit fixed to the wall"),
        ("fitted", "Doors and shelves in"),
    )
    return Step("Stand", stand, (TIPPING, WALL, WEIGHTS))
