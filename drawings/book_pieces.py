"""What the book tells of each piece of a unit: parts first, then hardware."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from cabinet.record import Record
from drawings.number import dimension_text, number

_LIGHT = 0.1  # kg; below it, masses are told in grams


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece.

    Attributes:
        name: Its name, which is also that of its node in the model.
        group: Under which heading it is listed.
        mark: What is printed in front of it: its item number, or "" for hardware.
        facts: What is told of it, as pairs of a word and a value.
        sheet: Number of the sheet on which it is drawn, None if on none.
    """

    name: str
    group: str
    mark: str
    facts: tuple[tuple[str, str], ...]
    sheet: int | None


def pieces(record: Record) -> tuple[Piece, ...]:
    """All pieces of a unit, parts first.

    Args:
        record: The content of job.json.
    """
    lines = {name: line for line in record["cut_list"] for name in line["parts"]}
    alike = Counter(part["item"] for part in record["parts"])
    bought = {line["article"]: line["count"] for line in record["hardware_list"]}
    cut_from, settings = _cut_from(record), _settings(record)
    parts = []
    for part in record["parts"]:
        more = (
            ("Cut from", "; ".join(cut_from.get(part["name"], ()))),
            ("Set-ups", ", ".join(settings.get(part["name"], ()))),
        )
        parts.append(_part(part, lines[part["name"]], alike[part["item"]], more))
    hardware = [_hardware(item, bought[item["article"]]) for item in record["hardware"]]
    return (*parts, *hardware)


def _cut_from(record: Record) -> dict[str, list[str]]:
    """On which boards of the cut plan each part's blanks lie."""
    found: dict[str, list[str]] = {}
    for stock in record["cut_plan"]["stocks"]:
        for board in stock["boards"]:
            for part in dict.fromkeys(name for one in board["blanks"] for name in one["parts"]):
                found.setdefault(part, []).append(board["name"])
    return found


def _settings(record: Record) -> dict[str, list[str]]:
    """The numbers of the settings that each part is cut at."""
    found: dict[str, list[str]] = {}
    for setting in record["setups"]["settings"]:
        for part in dict.fromkeys(name for task in setting["tasks"] for name in task["parts"]):
            found.setdefault(part, []).append(str(setting["number"]))
    return found


def mass_text(kilograms: float) -> str:
    """A mass with its unit: grams for what is light."""
    if kilograms < _LIGHT:
        return f"{number(kilograms * 1000, 0)} g"
    return f"{number(kilograms, 2 if kilograms < 10 else 1)} kg"


def size_text(*sizes: float) -> str:
    """Sizes as they stand on the drawings, with the unit: ``637 × 290 × 17.7 mm``."""
    return f"{' × '.join(dimension_text(size) for size in sizes)} mm"


def _part(part: Record, line: Record, alike: int, more: tuple[tuple[str, str], ...]) -> Piece:
    blank = part["blank"]
    finished = blank["finished"]
    facts = [
        ("Finished size", size_text(*(finished[key] for key in ("length", "width", "thickness")))),
        ("Mass", mass_text(part["mass_kg"])),
        ("Board", line["board"]),
        ("Grain", line["grain"]),
        ("Item", f"{part['item']}, {part['item_name']}"),
        ("Pieces alike", str(alike)),
        ("Blank", f"{line['layers']} of {size_text(line['length'], line['width'])}"),
    ]
    facts += [fact for fact in more if fact[1]]
    return Piece(
        name=part["name"],
        group=part["group"],
        mark=str(part["item"]),
        facts=tuple(facts),
        sheet=part["sheet"],
    )


def _hardware(item: Record, count: int) -> Piece:
    facts = [("Article", item["article"]), ("Pieces alike", str(count))]
    if item["inside"]:
        facts.append(("Sits in", "; ".join(item["inside"])))
    return Piece(name=item["name"], group=item["article"], mark="", facts=tuple(facts), sheet=None)
