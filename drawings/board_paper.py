"""Where the places of a board lie on a view's paper."""

from __future__ import annotations

from cabinet.board import BoardBox, Surface
from cabinet.features import Feature
from cabinet.part import Board
from drawings.dimension_ink import Edge
from drawings.interruption import Interruption
from drawings.look import Look
from drawings.marks import PaperBox
from drawings.view_paper import ViewPaper


class BoardPaper:
    """A board seen one way at one scale; the blank's top left corner is (0, 0).

    Attributes:
        board: The board.
        look: From which side it is seen.
        paper: Scale and bounds of the view.
        outline: The outline of the blank, paper mm.
        breaks: The paper between the two lines of each break, from outline to outline.
    """

    def __init__(
        self, board: Board, look: Look, scale: float, interruption: Interruption | None = None
    ) -> None:
        self._size = board.size
        self._boxes: dict[Feature, PaperBox] = {}
        blank = BoardBox(low=(0.0, 0.0, 0.0), high=self._size.along)
        self.board = board
        self.look = look
        gaps_u, gaps_v = (
            interruption.seen(sign)
            if interruption is not None and interruption.axis == axis
            else ()
            for axis, sign in look.axes
        )
        self.paper = ViewPaper(bounds=look.bounds(blank), scale=scale, gaps_u=gaps_u, gaps_v=gaps_v)
        self.outline = self.paper.box
        box = self.outline
        self.breaks = (
            *(PaperBox(self.paper.x(a), box.top, self.paper.x(b), box.bottom) for a, b in gaps_u),
            *(PaperBox(box.left, self.paper.y(b), box.right, self.paper.y(a)) for a, b in gaps_v),
        )

    def feature_box(self, feature: Feature) -> PaperBox:
        """Where a feature's box is seen."""
        found = self._boxes.get(feature)
        if found is None:
            seen, paper = self.look.bounds(feature.box(self._size)), self.paper
            left, right = paper.x(seen.left), paper.x(seen.right)
            found = PaperBox(left, paper.y(seen.top), right, paper.y(seen.bottom))
            self._boxes[feature] = found
        return found

    def on_axis(self, axis: int, coordinate: float) -> float:
        """Paper x or y of a board coordinate."""
        if axis == self.look.right[0]:
            return self.paper.x(self.look.along(self.look.right, coordinate))
        return self.paper.y(self.look.along(self.look.up, coordinate))

    def edge_of(self, surface: Surface) -> Edge:
        """On which side of the view a surface of the board lies."""
        if surface.axis == self.look.right[0]:
            return Edge.RIGHT if surface.sign == self.look.right[1] else Edge.LEFT
        return Edge.ABOVE if surface.sign == self.look.up[1] else Edge.BELOW

    def base(self, edge: Edge) -> float:
        """Paper coordinate of the outline on a side."""
        match edge:
            case Edge.BELOW:
                return self.outline.bottom
            case Edge.ABOVE:
                return self.outline.top
            case Edge.LEFT:
                return self.outline.left
            case Edge.RIGHT:
                return self.outline.right

    def foot(self, box: PaperBox, edge: Edge) -> float:
        """How far inside the outline, from one side, a box is seen, mm; 0 if it touches."""
        match edge:
            case Edge.BELOW:
                inside = self.outline.bottom - box.bottom
            case Edge.ABOVE:
                inside = box.top - self.outline.top
            case Edge.LEFT:
                inside = box.left - self.outline.left
            case Edge.RIGHT:
                inside = self.outline.right - box.right
        return max(0.0, inside)
