"""The work after the boards are made, as steps to tick, each with its caution."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.record import Record
from drawings.cautions import METAL, RAGS, SOLVENTS, TIPPING, WALL, WEIGHTS


@dataclass(frozen=True, slots=True)
class Step:
    """One step: what is ticked, and the cautions that stand before it."""

    title: str
    ticks: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]


def steps(record: Record) -> tuple[Step, ...]:
    """The steps that a unit needs, in the order of the work.

    Common practice, no source. Which step is needed follows from the parts and joints.

    Args:
        record: The content of job.json.
    """
    return tuple(
        step
        for step in (_metal(record), _glue(record), _finish(), _place(record))
        if step is not None
    )


def _metal(record: Record) -> Step | None:
    metal = [p["name"] for p in record["parts"] if "steel" in p["blank"]["material"]]
    if not metal:
        return None
    ticks = tuple(
        (f"metal-{i}", f"{name}: deburred, degreased, painted, dry")
        for i, name in enumerate(metal, start=1)
    )
    return Step("Metal, apart from raw wood", ticks, (METAL, SOLVENTS))


def _glue(record: Record) -> Step | None:
    doubled = [p["name"] for p in record["parts"] if p["blank"]["layers"] > 1]
    trimmed = [
        p["name"]
        for p in record["parts"]
        if any(feature["kind"] == "FlushTrim" for feature in p["features"])
    ]
    ticks: list[tuple[str, str]] = []
    if doubled:
        ticks.append(("doubled", f"Doubled and cut to size: {'; '.join(doubled)}"))
    if any(joint["is_glued"] for joint in record["joints"]):
        ticks.append(("dry", "Put together dry, with every clamp set and the driver tried"))
        ticks.append(("glued", "Glued and square: diagonals compared"))
    if trimmed:
        ticks.append(("trimmed", f"Trimmed flush: {'; '.join(trimmed)}"))
    return Step("Glue", tuple(ticks), (SOLVENTS,)) if ticks else None


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
