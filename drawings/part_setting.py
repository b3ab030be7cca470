"""On which paper and at which scale a part is drawn, all of it or with plain stretches left out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from cabinet.part import Board
from drawings.composition import Composition
from drawings.interruption import Interruption
from drawings.paper import SheetSize
from drawings.views import SCALES

LEAST_OUTLINE = 22.0
"""Views smaller than this, mm on paper, would be drawn larger if the sheet allows."""

# At this scale and below a long board is hard to read; an interrupted view need not be larger
# than the other (common practice, no source).
_SMALL_SCALE, _AMPLE_SCALE = 0.1, 0.5
# For smaller paper alone only a long board is broken, and only if much of it is left out: so
# many times longer than wide, and so much of its length.
_LONG, _LEAST_SHARE = 4.0, 0.4


@dataclass(frozen=True, slots=True)
class Setting:
    """All that a part's sheet says of itself, set out on a paper at a scale."""

    size: SheetSize
    scale: float
    found: Composition
    interruption: Interruption | None = None


class Drawer(Protocol):
    """What draws a part when it is asked to, on a paper at a scale."""

    @property
    def board(self) -> Board:
        """What is drawn."""

    def tried(self, size: SheetSize, scale: float) -> Composition | None:
        """All that is shown set out, None if it does not fit."""

    def may_stand(self, size: SheetSize, scale: float) -> bool:
        """Whether it is not known before drawing that a paper is too small at a scale."""

    def interruptions(self, scale: float) -> Iterator[Interruption]:
        """What its views might leave out along its longer side at a scale, best first."""

    def interrupted(self, interruption: Interruption, scale: float) -> Drawer:
        """The same with plain stretches left out of the views."""

    def has_clear_rings(self, scale: float) -> bool:
        """Whether no ring round the place of a detail touches a break and its zigzags."""


def best_setting(
    drawer: Drawer, sizes: tuple[SheetSize, ...], larger: tuple[SheetSize, ...]
) -> Setting | None:
    """The paper and the scale that make the best sheet; None if it fits on no paper.

    Args:
        drawer: Draws the part.
        sizes: Papers that may be used, smallest first.
        larger: Papers for a part that fits on none of those at any scale.
    """
    plain = _plain(drawer, sizes, larger)
    if plain is not None and plain.interruption is not None:
        return plain
    return _easier_to_read(drawer, plain, sizes) or plain


def _plain(
    drawer: Drawer, sizes: tuple[SheetSize, ...], larger: tuple[SheetSize, ...]
) -> Setting | None:
    """The largest scale on the smallest paper that takes all of the board, or nearly all.

    A long board that asks for larger paper is broken once instead, if much is left out.
    """
    for papers in (sizes, larger):
        for scale in SCALES:
            for number, size in enumerate(papers):
                smaller = sizes[:number] if papers is sizes else ()
                if smaller and _is_worth_a_break(drawer, size, scale):
                    for small in smaller:
                        broken = _broken(drawer, small, scale, _LEAST_SHARE)
                        if broken is not None:
                            return broken
                found = drawer.tried(size, scale)
                if found is not None:
                    return Setting(size, scale, found)
    return None


def _is_worth_a_break(drawer: Drawer, size: SheetSize, scale: float) -> bool:
    """Whether a board is long and may stand on a paper at a scale at which it reads well."""
    long, wide = sorted((drawer.board.length, drawer.board.width), reverse=True)
    is_long = long >= _LONG * wide and not _is_poor(drawer.board, scale)
    return is_long and drawer.may_stand(size, scale)


def _easier_to_read(
    drawer: Drawer, plain: Setting | None, sizes: tuple[SheetSize, ...]
) -> Setting | None:
    """The board with plain stretches left out, if all of it is hard to read.

    What is hard to read is drawn larger, but no larger than is needed, or on smaller paper. One
    break is worth that and several are not, if all of it stands small but not tiny on ordinary
    paper.
    """
    board, fits = drawer.board, plain is not None and plain.size in sizes
    if plain is not None and fits and not _is_poor(board, plain.scale):
        return None
    most = 1 if plain is not None and fits and plain.scale > _SMALL_SCALE else None
    least = 0.0 if plain is None else plain.scale
    larger = [s for s in SCALES if least < s <= _AMPLE_SCALE]
    enough = [s for s in reversed(larger) if not _is_poor(board, s)]
    tries = [
        (size, scale, 0.0)
        for scale in (*enough, *(s for s in larger if s not in enough))
        for size in sizes
    ]
    if plain is not None:
        small = sizes[: sizes.index(plain.size)] if fits else sizes
        tries += [(size, plain.scale, _LEAST_SHARE if fits else 0.0) for size in small]
    for size, scale, share in tries:
        found = _broken(drawer, size, scale, share, most)
        if found is not None:
            return found
    return None


def _broken(
    drawer: Drawer, size: SheetSize, scale: float, least: float, most: int | None = 1
) -> Setting | None:
    """A board with plain stretches left out.

    Args:
        drawer: The board's.
        size: On which paper.
        scale: At which scale.
        least: The least share of its length that must be left out to be worth it.
        most: How many breaks it may have; None for any number.
    """
    for interruption in drawer.interruptions(scale):
        if interruption.left_out < least * drawer.board.size.along[interruption.axis]:
            continue
        if most is not None and len(interruption.spans) > most:
            continue
        shorter = drawer.interrupted(interruption, scale)
        found = shorter.tried(size, scale) if shorter.has_clear_rings(scale) else None
        if found is not None:
            return Setting(size, scale, found, interruption)
    return None


def _is_poor(board: Board, scale: float) -> bool:
    """Whether a board is hard to read at a scale."""
    return scale <= _SMALL_SCALE or min(board.length, board.width) * scale < LEAST_OUTLINE
