"""What has been drawn on a piece of paper so far, and the paper that it covers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import copy

from drawings.clutter import Clutter
from drawings.ground import Ground
from drawings.marks import Mark, PaperBox


class Drawn:
    """Marks in the order in which they were drawn.

    Attributes:
        marks: What has been drawn.
        clutter: Where it stands, so that what is drawn next runs into nothing.
        box: The paper that it covers, lettering included, mm; None while there is nothing.
    """

    def __init__(self) -> None:
        self.marks: list[Mark] = []
        self.clutter = Clutter()
        self.box: PaperBox | None = None

    def copied(self) -> Drawn:
        """The same, to which other things may be added."""
        other = copy(self)
        other.marks, other.clutter = list(self.marks), self.clutter.copied()
        return other

    def add(self, marks: Iterable[Mark]) -> None:
        """Draw marks, and keep their place from others."""
        them = tuple(marks)
        ground = Ground(them)
        self.clutter.take(ground)
        self._cover(them, ground)

    def add_placed(self, mark: Mark) -> None:
        """Draw a mark that stands among the clutter already."""
        self._cover((mark,), Ground((mark,)))

    def _cover(self, marks: Sequence[Mark], ground: Ground) -> None:
        self.marks += marks
        more = ground.box
        self.box = self.box.united(more) if self.box and more else self.box or more
