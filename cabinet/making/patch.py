"""Patches: old damage squared out to an even depth and closed with a plug of the same grain.

The recess is routed and its corners are cut square with a chisel; the plug is cut from a rest of
the same board, its face grain the way of the part's, thinned from its back until it stands proud,
glued, then planed and sanded flush. Sizes are common practice, no source. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from cabinet.board import Surface
from cabinet.making.blanks import Blank
from cabinet.making.lie import Place, laid_size, recess_depth, recess_of
from cabinet.making.outline import Rect, bounds, clipped_area, overlap
from cabinet.making.rack import Flaw, Leftover

# The plug stands this proud of the face until the glue is dry.
PROUD = 1.0
# Room round a plug where it is sawn out of a rest.
ROUND_A_PLUG = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """One patch on one blank.

    Attributes:
        blank: Name of the blank.
        item: Item number of its board.
        face: ``face A`` or ``face B`` of the part.
        flaw: What is taken out (``groove on face B`` of the leftover).
        why: Why it must go.
        length: Length of the blank, to which the patch is told.
        width: Its width.
        thickness: Its thickness.
        recess: The recess on the blank, x from ``end`` and y from ``edge``.
        end: The end from which the recess is told, as the maker calls it.
        edge: The edge from which it is told.
        depth: Its even depth.
        grain_along_length: Whether the face grain runs along the blank's length.
        plug: The plug: length and width in the directions of the recess, and thickness.
        source: What the plug is cut from, "" if no rest is large enough.
    """

    blank: str
    item: int
    face: str
    flaw: str
    why: str
    length: float
    width: float
    thickness: float
    recess: Rect
    end: str
    edge: str
    depth: float
    grain_along_length: bool
    plug: tuple[float, float, float]
    source: str


def patch_of(blank: Blank, place: Place, flaw: Flaw, why: str, rests: Iterable[Leftover]) -> Patch:
    """The patch for one flaw below a blank.

    Args:
        blank: The blank.
        place: How it lies on its leftover.
        flaw: The flaw, as it is on the leftover.
        why: Why it cannot stay.
        rests: What is left over, for the plug; laid with the grain along x.
    """
    on_board = overlap(recess_of(flaw), place.rect(blank))
    if on_board is None:
        raise AssertionError("a patch lies on its blank")
    recess = _on_blank(blank, place, on_board)
    deep = recess_depth(flaw)
    face = flaw.face.turned if place.way.is_flipped else flaw.face
    wanted = (on_board.length + ROUND_A_PLUG, on_board.width + ROUND_A_PLUG)
    source = next((rest.name for rest in rests if _holds_plug(rest, wanted)), "")
    return Patch(
        blank=blank.name,
        item=blank.item,
        face=face.value,
        flaw=flaw.title,
        why=why,
        length=blank.length,
        width=blank.width,
        thickness=blank.thickness,
        recess=recess,
        end=blank.called(Surface.START),
        edge=blank.called(Surface.LOW),
        depth=deep,
        grain_along_length=not place.way.is_turned,
        plug=(recess.length, recess.width, deep + PROUD),
        source=source,
    )


def _on_blank(blank: Blank, place: Place, rect: Rect) -> Rect:
    """A rectangle of the board in the blank's own frame: the way it lies, taken back."""
    x, y = rect.x - place.x, rect.y - place.y
    length, width = rect.length, rect.width
    long, wide = laid_size(blank, place.way)
    if place.way.is_reversed:
        x, y = long - x - length, wide - y - width
    if place.way.is_turned:
        x, y, length, width = y, blank.width - x - length, width, length
    if place.way.is_flipped:
        y = blank.width - y - width
    return Rect(round(x, 3) + 0.0, round(y, 3) + 0.0, round(length, 3), round(width, 3))


def _holds_plug(rest: Leftover, wanted: tuple[float, float]) -> bool:
    """Whether a sound corner of a rest is large enough for a plug of its grain."""
    around = bounds(rest.outline)
    if wanted[0] > around.length or wanted[1] > around.width:
        return False
    spots = [
        Rect(x, y, *wanted)
        for x in (around.x, around.right - wanted[0])
        for y in (around.y, around.top - wanted[1])
    ]
    return any(_is_sound(rest, spot) for spot in spots)


def _is_sound(rest: Leftover, spot: Rect) -> bool:
    marred = any(overlap(mark, spot) for flaw in rest.flaws for mark in flaw.spots)
    full = clipped_area(spot.outline, spot)
    return not marred and clipped_area(rest.outline, spot) == full
