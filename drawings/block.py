"""Something drawn together with the paper that it takes, to be moved to its place on a sheet."""

from __future__ import annotations

from dataclasses import dataclass

from drawings.marks import Mark, PaperBox
from drawings.view_paper import moved


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Something drawn, with the paper that it takes.

    Attributes:
        marks: What is drawn.
        box: The paper that it covers, lettering included.
        outline: The board's own outline, by which neighbouring views are aligned.
    """

    marks: tuple[Mark, ...]
    box: PaperBox
    outline: PaperBox

    def moved(self, dx: float, dy: float) -> Block:
        """The block moved by (dx, dy) mm."""
        return Block(
            marks=tuple(moved(mark, dx, dy) for mark in self.marks),
            box=self.box.moved(dx, dy),
            outline=self.outline.moved(dx, dy),
        )
