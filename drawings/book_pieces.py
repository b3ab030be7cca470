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
    boards = {line["item"]: line for line in record["cut_list"]}
    alike = Counter(part["item"] for part in record["parts"])
    bought = {line["article"]: line["count"] for line in record["hardware_list"]}
    parts = [_part(part, boards[part["item"]], alike[part["item"]]) for part in record["parts"]]
    hardware = [_hardware(item, bought[item["article"]]) for item in record["hardware"]]
    return (*parts, *hardware)


def mass_text(kilograms: float) -> str:
    """A mass with its unit: grams for what is light."""
    if kilograms < _LIGHT:
        return f"{number(kilograms * 1000, 0)} g"
    return f"{number(kilograms, 2 if kilograms < 10 else 1)} kg"


def size_text(*sizes: float) -> str:
    """Sizes as they stand on the drawings, with the unit: ``637 × 290 × 17.7 mm``."""
    return f"{' × '.join(dimension_text(size) for size in sizes)} mm"


def _part(part: Record, line: Record, alike: int) -> Piece:
    blank = part["blank"]
    finished, rough = blank["finished"], blank["rough"]
    facts = [
        ("Finished size", size_text(*(finished[key] for key in ("length", "width", "thickness")))),
        ("Mass", mass_text(part["mass_kg"])),
        ("Board", line["board"]),
        ("Grain", line["grain"]),
        ("Item", f"{part['item']}, {part['item_name']}"),
        ("Pieces alike", str(alike)),
        ("Blank", f"{rough['pieces']} of {size_text(rough['length'], rough['width'])}"),
    ]
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
