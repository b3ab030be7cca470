"""A sheet that is laid out before its number in the set is known."""

from __future__ import annotations

from dataclasses import dataclass, replace

from drawings.marks import Mark
from drawings.paper import SheetSize, frame_marks, style_for
from drawings.sheet import Sheet, SheetView
from drawings.title_block import TitleBlock, title_block_marks


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedSheet:
    """A sheet without its title block.

    Attributes:
        name: Short name for its file.
        title: What it shows.
        document_type: What kind of document it is.
        size: Paper.
        marks: What is drawn, frame and title block excepted.
        material: For the title block, "" for none.
        scale: Of its view, "" for none.
    """

    name: str
    title: str
    document_type: str
    size: SheetSize
    marks: tuple[Mark, ...]
    material: str = ""
    scale: str = ""

    def sheet(self, block: TitleBlock) -> Sheet:
        """The sheet with its frame and title block.

        Args:
            block: Title block with number and count; title, kind, scale and material are
                filled in here.
        """
        style = style_for(self.size)
        filled = replace(
            block,
            title=self.title,
            document_type=self.document_type,
            general_tolerance="",
            material=self.material,
            scale=self.scale,
        )
        views = (SheetView(title=self.title, scale=self.scale),) if self.scale else ()
        return Sheet(
            number=block.sheet_number,
            name=self.name,
            title=self.title,
            size=self.size,
            marks=(
                *frame_marks(self.size, style),
                *title_block_marks(filled, self.size, style),
                *self.marks,
            ),
            views=views,
        )
