"""Projected edges and cross-sections of boards, kept by content: equal boards share them."""

from __future__ import annotations

from functools import lru_cache

from cabinet.part import Board
from cabinet.solids import solid
from drawings.look import Look
from drawings.projection import Projection, project
from drawings.section import SectionCut, cut


@lru_cache(maxsize=512)
def board_edges(board: Board, look: Look) -> Projection:
    """Visible and hidden edges of a finished board, mm in the look's view.

    Raises:
        KernelError: the kernel cannot project it.
    """
    return project({"board": solid(board)}, look.frame)["board"]


@lru_cache(maxsize=512)
def board_cut(board: Board, look: Look, plane: float) -> SectionCut | None:
    """A finished board cut square to the look's direction at a board coordinate, mm.

    Raises:
        KernelError: the kernel cannot cut it.
    """
    point = [0.0, 0.0, 0.0]
    point[look.toward[0]] = plane
    return cut("board", solid(board), (point[0], point[1], point[2]), look.frame)
