"""How a blank lies on a board, and what that means for the flaws below it.

A blank may lie as it is, turned end for end, flipped on to its other face, and, if it shows no
grain, turned by a quarter. Rules are those of ``allowance.RULES``. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from cabinet.board import BoardBox
from cabinet.making.allowance import BEYOND_A_FLAW, LEAST_BETWEEN, KeepOut
from cabinet.making.blanks import Blank
from cabinet.making.outline import Rect, bounds, overlap
from cabinet.making.rack import Flaw, FlawFace, FlawKind, Leftover
from cabinet.stock import Grain

# All of these: common practice, no source. A flaw may be as deep as this share of the board ...
DEEPEST = 1 / 2
# ... and as this where it runs over more than LONG of the part's length or width.
DEEPEST_IF_LONG = 1 / 3
LONG = 1 / 2
# A patch reaches this far beyond the flaw on each side, and this much deeper.
BEYOND_PATCH = 2.0
DEEPER_PATCH = 1.0
# Wood left below a patch's floor.
BELOW_PATCH = 3.0


@dataclass(frozen=True, slots=True, order=True)
class Way:
    """How a blank lies.

    Attributes:
        is_turned: By a quarter, so that its length lies across the board.
        is_flipped: Its face A lies on the board's face B.
        is_reversed: Turned by half: its start lies where its far end would.
    """

    is_turned: bool = False
    is_flipped: bool = False
    is_reversed: bool = False

    @property
    def words(self) -> str:
        """What is done with it, in words; "" if nothing is."""
        told = (
            ("turned by a quarter", self.is_turned),
            ("flipped", self.is_flipped),
            ("turned end for end", self.is_reversed),
        )
        return ", ".join(word for word, is_so in told if is_so)


def ways(blank: Blank) -> tuple[Way, ...]:
    """Every way in which a blank may lie on a board whose grain runs along its length."""
    turns = {Grain.LENGTH: (False,), Grain.WIDTH: (True,), Grain.NONE: (False, True)}[blank.grain]
    return tuple(
        Way(turned, flipped, back)
        for turned in turns
        for flipped in (False, True)
        for back in (False, True)
    )


def laid_size(blank: Blank, way: Way) -> tuple[float, float]:
    """Its sizes along the board's length and width."""
    return (blank.width, blank.length) if way.is_turned else (blank.length, blank.width)


def laid_box(blank: Blank, way: Way, box: BoardBox) -> BoardBox:
    """A box of the blank as it lies, from the low corner of where the blank lies and face B."""
    (x0, y0, z0), (x1, y1, z1) = box.low, box.high
    if way.is_flipped:
        y0, y1 = blank.width - y1, blank.width - y0
        z0, z1 = blank.thickness - z1, blank.thickness - z0
    if way.is_turned:
        x0, x1, y0, y1 = blank.width - y1, blank.width - y0, x0, x1
    if way.is_reversed:
        length, width = laid_size(blank, way)
        x0, x1, y0, y1 = length - x1, length - x0, width - y1, width - y0
    return BoardBox(low=(x0, y0, z0), high=(x1, y1, z1))


@dataclass(frozen=True, slots=True)
class Place:
    """Where and how a blank lies on a board.

    Attributes:
        x: Low coordinate along the board's length.
        y: Low coordinate along its width.
        way: How it lies.
    """

    x: float
    y: float
    way: Way = Way()

    def rect(self, blank: Blank) -> Rect:
        """What it covers."""
        return Rect(self.x, self.y, *laid_size(blank, self.way))


class Fate(Enum):
    """What becomes of a flaw below a blank."""

    HIDDEN = "allowed: hidden, and in nothing's way"
    FILLED = "filled: seen only while a door is open, and in nothing's way"
    GONE = "cut away"
    PATCH = "patched"
    FORBIDDEN = "forbidden"


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one flaw means for a blank that lies over it.

    Attributes:
        flaw: The flaw, as it is on the board.
        fate: What becomes of it.
        why: The reason, in words.
    """

    flaw: Flaw
    fate: Fate
    why: str


def depths(flaw: Flaw, thickness: float) -> tuple[float, float]:
    """From where to where a flaw goes, from face B up."""
    deep = min(flaw.deep(thickness), thickness)
    return (0.0, deep) if flaw.face is FlawFace.B else (thickness - deep, thickness)


def are_near(low: float, high: float, box: BoardBox) -> bool:
    """Whether less than the least wood is left between a flaw's depths and a box."""
    return max(box.low[2] - high, low - box.high[2]) < LEAST_BETWEEN - 1e-9


def reach(box: BoardBox, size: tuple[float, float]) -> Rect:
    """Where a flaw may be that is cut away with a box: without limit beyond the blank."""
    far = 1e5
    low = [-far if v <= 0 else v + BEYOND_A_FLAW for v in box.low[:2]]
    high = [
        far if v >= most else v - BEYOND_A_FLAW for v, most in zip(box.high[:2], size, strict=True)
    ]
    return Rect(low[0], low[1], max(high[0] - low[0], 0.0), max(high[1] - low[1], 0.0))


def covers_depths(box: BoardBox, low: float, high: float) -> bool:
    """Whether a box that is cut away takes all of a flaw's depth."""
    return box.low[2] <= low + 1e-9 and box.high[2] >= high - 1e-9


def verdicts(blank: Blank, place: Place, board: Leftover) -> tuple[Verdict, ...]:
    """What becomes of every flaw of a board below a blank.

    Args:
        blank: The blank.
        place: Where and how it lies.
        board: The leftover, its grain along x.
    """
    rect = place.rect(blank)
    met = [flaw for flaw in board.flaws if any(overlap(spot, rect) for spot in flaw.spots)]
    return tuple(_verdict(blank, place, flaw, met) for flaw in met)


def _verdict(blank: Blank, place: Place, flaw: Flaw, met: list[Flaw]) -> Verdict:
    rect = place.rect(blank)
    low, high = depths(flaw, blank.thickness)
    size = laid_size(blank, place.way)
    away = [(laid_box(blank, place.way, cut.box), cut.what) for cut in blank.cut_away]
    left: list[Rect] = []
    gone: list[str] = []
    for spot in flaw.spots:
        inside = overlap(spot, rect)
        if inside is None:
            continue
        by = next(
            (
                what
                for box, what in away
                if covers_depths(box, low, high)
                and reach(box, size).holds(
                    Rect(spot.x - place.x, spot.y - place.y, spot.length, spot.width)
                )
            ),
            None,
        )
        if by is not None:
            gone.append(by)
            continue
        # What lies in the oversize goes with it, piece by piece.
        left.append(inside)
    if not left:
        return Verdict(flaw, Fate.GONE, f"cut away with: {gone[0]}" if gone else "cut away")
    against = list(_against(blank, place, left, low, high))
    weak = _weak(blank, place, flaw, met)
    if not against and weak is None:
        return _in_nothings_way(blank, place.way, flaw)
    why = weak or f"{against[0].what}: {against[0].need.value}"
    if is_patchable(flaw, blank.thickness) and not any(
        not keep.need.is_curable for keep in _against_patch(blank, place, flaw)
    ):
        return Verdict(flaw, Fate.PATCH, why)
    return Verdict(flaw, Fate.FORBIDDEN, why)


def _in_nothings_way(blank: Blank, way: Way, flaw: Flaw) -> Verdict:
    """A flaw that may stay: behind doors it is filled, elsewhere nobody sees it."""
    face = flaw.face.turned if way.is_flipped else flaw.face
    if all(face.value != surface.value for surface in blank.behind_doors):
        why = f"on the part's {face.value}, which is not seen there; in nothing's way"
        return Verdict(flaw, Fate.HIDDEN, why)
    work = "it may stay" if flaw.kind is FlawKind.STAIN else "fill it flush and sand it"
    why = f"on the part's {face.value}, which is seen only while a door is open; {work}"
    return Verdict(flaw, Fate.FILLED, why)


def _against(
    blank: Blank, place: Place, spots: list[Rect], low: float, high: float
) -> Iterator[KeepOut]:
    """The places that need sound wood and do not get it."""
    for keep in blank.keep_outs:
        box = laid_box(blank, place.way, keep.box)
        if not are_near(low, high, box):
            continue
        where = Rect(
            place.x + box.low[0],
            place.y + box.low[1],
            box.high[0] - box.low[0],
            box.high[1] - box.low[1],
        )
        if any(overlap(spot, where) for spot in spots):
            yield keep


def _against_patch(blank: Blank, place: Place, flaw: Flaw) -> Iterator[KeepOut]:
    recess = recess_of(flaw)
    low, high = recess_depths(flaw, blank.thickness)
    yield from _against(blank, place, [recess], low, high)


def _weak(blank: Blank, place: Place, flaw: Flaw, met: list[Flaw]) -> str | None:
    """Why the part would be too weak; None if it would not."""
    rect = place.rect(blank)
    around = overlap(bounds(flaw.outline), rect)
    deep = min(flaw.deep(blank.thickness), blank.thickness)
    if around is None or deep == 0:
        return None
    is_long = around.length > LONG * rect.length or around.width > LONG * rect.width
    most = blank.thickness * (DEEPEST_IF_LONG if is_long else DEEPEST)
    if deep > most + 1e-9:
        share = "a third" if is_long else "half"
        return f"{deep:g} mm deep, more than {share} of the board's {blank.thickness:g}"
    for other in met:
        both = overlap(bounds(other.outline), around)
        if other is flaw or other.face is flaw.face or both is None:
            continue
        if deep + other.deep(blank.thickness) > blank.thickness * DEEPEST + 1e-9:
            return "it meets a flaw on the other face, together deeper than half of the board"
    return None


def is_patchable(flaw: Flaw, thickness: float) -> bool:
    """Whether a recess of even depth takes the flaw out and leaves a floor below."""
    if flaw.face is FlawFace.THROUGH:
        return False
    return recess_depth(flaw) <= thickness - BELOW_PATCH


def recess_of(flaw: Flaw) -> Rect:
    """The squared-out recess of a patch on the board: whole millimetres, a little larger."""
    around = bounds(flaw.outline)
    x = math.floor(around.x - BEYOND_PATCH)
    y = math.floor(around.y - BEYOND_PATCH)
    right = math.ceil(around.right + BEYOND_PATCH)
    top = math.ceil(around.top + BEYOND_PATCH)
    return Rect(float(x), float(y), float(right - x), float(top - y))


def recess_depth(flaw: Flaw) -> float:
    """Its even depth: to half a millimetre, deeper than the flaw; a stain is only skin deep."""
    deep = 2.0 if flaw.kind is FlawKind.STAIN else (flaw.depth or 0.0)
    return max(3.0, math.ceil((deep + DEEPER_PATCH) * 2) / 2)


def recess_depths(flaw: Flaw, thickness: float) -> tuple[float, float]:
    """From where to where the recess goes, from face B up."""
    deep = recess_depth(flaw)
    return (0.0, deep) if flaw.face is FlawFace.B else (thickness - deep, thickness)
