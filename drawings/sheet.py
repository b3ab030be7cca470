"""A finished sheet as data: what is on it, ready for any writer."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from cabinet.quantity import named, whole
from drawings.interruption import Interruption
from drawings.marks import Mark
from drawings.paper import SheetSize


def slug(name: str) -> str:
    """A name as it stands in a file name: small letters, digits and hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "sheet"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetView:
    """One view on a sheet.

    Attributes:
        title: What it shows.
        scale: At what scale (``1:5``).
        interruption: What it leaves out; None if nothing.
    """

    title: str
    scale: str
    interruption: Interruption | None = None

    def record(self) -> dict[str, object]:
        """The view as plain data."""
        told: dict[str, object] = {"title": self.title, "scale": self.scale}
        if self.interruption is not None:
            told["interruption"] = self.interruption.record()
        return told


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet.

    Attributes:
        number: Its number in the set, from 1.
        name: Short name for its file, made of small letters, digits and hyphens.
        title: What it shows.
        size: Size of the paper.
        marks: All that is drawn, frame and title block included, mm on the sheet.
        views: The views on it.
        dimensions: For each part drawn, all that is told about it as plain data.

    Raises:
        SizeError: a blank name or title, or a number that is not a whole number from 1.
    """

    number: int
    name: str
    title: str
    size: SheetSize
    marks: tuple[Mark, ...]
    views: tuple[SheetView, ...] = ()
    dimensions: dict[str, dict[str, object]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        whole("sheet", "number", self.number, 1, 9999)
        named("sheet", "name", self.name)
        named("sheet", "title", self.title)

    @property
    def file_name(self) -> str:
        """Name of its file, by number and name (``03-left-side.svg``)."""
        return f"{self.number:02d}-{self.name}.svg"
