"""Ruled lines and upright boxes as marks, from bare numbers in paper mm."""

from __future__ import annotations

from drawings.marks import Ink, Line, PaperBox, PaperPoint, Polyline


def rule(x1: float, y1: float, x2: float, y2: float, ink: Ink) -> Line:
    """A straight line from (x1, y1) to (x2, y2), mm."""
    return Line(PaperPoint(x1, y1), PaperPoint(x2, y2), ink)


def outline(box: PaperBox, ink: Ink) -> Polyline:
    """The four sides of a box; filled if the ink fills closed shapes."""
    corners = (
        PaperPoint(box.left, box.top),
        PaperPoint(box.right, box.top),
        PaperPoint(box.right, box.bottom),
        PaperPoint(box.left, box.bottom),
    )
    return Polyline(corners, ink, closed=True)
