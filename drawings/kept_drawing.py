"""One drawing of a script that was saved: model, findings, part sheets, then how it is made.

Parts are values, so what did not change is not computed again: equal boards have their solids,
meshes and settings of sheets from the drawing before.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import ChoiceLoader, Environment, PackageLoader, StrictUndefined

from cabinet.checks.all import findings as all_findings
from cabinet.checks.assembly import assembly
from cabinet.design import Unit
from cabinet.findings import Finding, is_error, ordered
from cabinet.part import Board
from cabinet.record import Record
from cabinet.workshop import Workshop
from drawings.book import book_data, book_findings, grouped
from drawings.book_moves import book_moves
from drawings.book_pieces import mass_text, pieces, size_text
from drawings.exports import unit_glb
from drawings.job_files import MESH_TOLERANCE
from drawings.kept_record import kept_record
from drawings.kept_script import Mistake, Told, mistake_of, modules_beside, told_by
from drawings.making_set import Making, making, making_findings
from drawings.placed_solids import placed_solids
from drawings.scene import Scene, scene
from drawings.sheet import Sheet
from drawings.sheet_set import Imprint, item_sheet, number_of, sheet_numbers
from drawings.sheet_svg import sheet_svg
from drawings.site_set import site_findings, site_of

Message = dict[str, Any]
"""What is told of a drawing as it goes on: its ``kind`` and plain data."""

_KEY_LENGTH = 20
# Pieces of the page that are made anew with each model.
_REMADE = ("marks", "side", "findings")


@dataclass(slots=True)
class Drawer:
    """Draws one script again and again.

    Attributes:
        script: The script.
        tell: What is done with each message.
        is_overtaken: Whether the script was saved once more, so that a drawing may be left.
    """

    script: Path
    tell: Callable[[Message], None]
    is_overtaken: Callable[[], bool] = lambda: False
    _boards: frozenset[Board] = field(default_factory=frozenset, init=False)
    _sheets: dict[int, Sheet] = field(default_factory=dict, init=False)

    def draw(self) -> None:
        """Run the script and draw what it makes; the last message tells how it ended."""
        told = told_by(self.script)
        files = (self.script, *modules_beside(self.script).values())
        self.tell(
            {
                "kind": "read",
                "files": [str(file) for file in files],
                "is_refused": isinstance(told, Mistake),
            }
        )
        mistake = told if isinstance(told, Mistake) else self._tried(told)
        if mistake is not None:
            self.tell({"kind": "mistake", **asdict(mistake)})
        self.tell({"kind": "end"})

    def _tried(self, told: Told) -> Mistake | None:
        try:
            return self._drawn(told)
        except Exception as error:  # noqa: BLE001 - a fault of ours is told as well
            return mistake_of(error, self.script, is_ours=True)

    def _drawn(self, told: Told) -> Mistake | None:
        unit = told.design.resolve()
        made = scene(unit)
        glb = unit_glb(placed_solids(unit), unit_name=unit.name, tolerance=MESH_TOLERANCE)
        self.tell({"kind": "model", "glb": glb, **_shown(made, None), "key": key_of(glb)})
        if self.is_overtaken():
            return None
        found = _found(unit, told)
        mistake = _refused(found)
        self.tell({"kind": "checked", "is_good": mistake is None, **_shown(made, found)})
        if mistake is not None:
            return mistake
        numbers = set(sheet_numbers(made).values())
        self._sheets = {n: sheet for n, sheet in self._sheets.items() if n in numbers}
        for item in self._by_change(made):
            if self.is_overtaken():
                return None
            self._tell_sheet(item_sheet(made, imprint_of(unit), item))
        self._boards = frozenset(board for _, board, _ in made.items)
        self.tell({"kind": "sheeted"})
        if self.is_overtaken():
            return None
        plans = _plans(unit, told)
        found = ordered((*found, *making_findings(plans)))
        self.tell({"kind": "planned", **_shown(made, found, plans)})
        return _refused(found)

    def _by_change(self, made: Scene) -> Iterator[int]:
        """Item numbers: first those of boards that the drawing before had not."""
        items = [(board in self._boards, item) for item, board, _ in made.items]
        return (item for _, item in sorted(items))

    def _tell_sheet(self, sheet: Sheet) -> None:
        message = {"number": sheet.number, "title": sheet.title, "paper": sheet.size.name}
        if self._sheets.get(sheet.number) != sheet:
            self._sheets[sheet.number] = sheet
            message["svg"] = sheet_svg(sheet)
        self.tell({"kind": "sheet"} | message)


def imprint_of(unit: Unit) -> Imprint:
    """The title block of a sheet that is only looked at while designing."""
    return Imprint(owner="The workshop", number=number_of(unit.name), creator="The workshop")


def key_of(content: bytes) -> str:
    """A name for content that is the same for equal content only."""
    return hashlib.sha256(content).hexdigest()[:_KEY_LENGTH]


def _found(unit: Unit, told: Told) -> tuple[Finding, ...]:
    site = site_of(unit, told.where)
    return ordered((*all_findings(unit, told.workshop), *site_findings(site)))


def _refused(found: tuple[Finding, ...]) -> Mistake | None:
    errors = [finding for finding in found if is_error(finding)]
    if not errors:
        return None
    count = f"{len(errors)} {'error' if len(errors) == 1 else 'errors'}"
    return Mistake(
        title=f"{count} must be put right before anything is cut",
        sentences=tuple(finding.sentence for finding in errors),
    )


def _plans(unit: Unit, told: Told) -> Making:
    workshop = told.workshop or Workshop()
    return making(unit, assembly(unit), workshop, told.rack, rates=None, prices=None)


def _shown(made: Scene, found: tuple[Finding, ...] | None, plans: Making | None = None) -> Message:
    """What the page shows of a model and what its program reads; None for what is to come."""
    record = kept_record(made, found or (), plans)
    told, moves = pieces(record), book_moves(record)
    shown = {
        "moves": moves,
        "part_groups": grouped(told, are_parts=True),
        "hardware_groups": grouped(told, are_parts=False),
        "findings": book_findings(record, told),
        "is_checked": found is not None,
        "is_planned": plans is not None,
    }
    return {
        "name": made.unit.name,
        "summary": _summary(record),
        "data": book_data(record, told, moves, ()),
        "html": {
            name: environment().get_template(f"{name}.html").render(shown) for name in _REMADE
        },
        "sheets": [[sheet["number"], sheet["title"]] for sheet in record["sheets"]],
    }


def _summary(record: Record) -> str:
    low, high = record["outline"]["low"], record["outline"]["high"]
    width, depth, height = (far - near for near, far in zip(low, high, strict=True))
    count = len(record["parts"])
    return (
        f"{size_text(width, height, depth)}, {mass_text(record['mass_kg'])}, "
        f"{count} {'part' if count == 1 else 'parts'}"
    )


@cache
def environment() -> Environment:
    """The templates of the page, with escaping always on."""
    return Environment(
        # What both pages have stands with the book.
        loader=ChoiceLoader(
            [PackageLoader("drawings", "kept_assets"), PackageLoader("drawings", "book_assets")]
        ),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
