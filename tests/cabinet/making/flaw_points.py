"""The rules for flaws once more, point by point and from the parts' own data.

Nothing of the plan's allowances, boxes or verdicts is used: points within a flaw are carried on to
the part by the corners of the blank, and asked there.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from cabinet.board import BoardBox, BoardSize
from cabinet.features import FlushTrim, Perforation
from cabinet.making.cut_board import CutBoard, LaidBlank
from cabinet.making.rack import Flaw, FlawFace
from cabinet.part import Board

STEP = 3.1


def points_in(outline: tuple[tuple[float, float], ...]) -> Iterator[tuple[float, float]]:
    """Points within an outline, on a grid that starts a little inside."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    y = min(ys) + 0.05
    while y < max(ys):
        x = min(xs) + 0.05
        while x < max(xs):
            if _is_inside(x, y, outline):
                yield x, y
            x += STEP
        y += STEP


def _is_inside(x: float, y: float, outline: tuple[tuple[float, float], ...]) -> bool:
    inside = False
    for a, b in pairwise([*outline, outline[0]]):
        if (a[1] > y) != (b[1] > y) and x < a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]):
            inside = not inside
    return inside


def on_blank(laid: LaidBlank, x: float, y: float) -> tuple[float, float]:
    """A point of the board in the blank's frame: length and width from its rough corner.

    Undone in the order: half turn, quarter turn, flip about the long axis.
    """
    way, rect = laid.place.way, laid.rect
    dx, dy = x - rect.x, y - rect.y
    if way.is_reversed:
        dx, dy = rect.length - dx, rect.width - dy
    if way.is_turned:
        dx, dy = dy, laid.blank.width - dx
    if way.is_flipped:
        dy = laid.blank.width - dy
    return dx, dy


def faults(board: CutBoard, laid: LaidBlank, part: Board) -> Iterator[str]:
    """What is wrong with the flaws below a blank that is not patched, in words."""
    patched = {v.flaw for v in laid.verdicts if v.fate.name == "PATCH"}
    for flaw in board.board.flaws:
        if flaw not in patched:
            yield from set(_faults(flaw, laid, part))


def _faults(flaw: Flaw, laid: LaidBlank, part: Board) -> Iterator[str]:
    blank = laid.blank
    margin_x = (blank.length - part.length) / 2
    margin_y = (blank.width - part.width) / 2
    below = (blank.layer - 1) * blank.thickness
    for x, y in points_in(flaw.outline):
        rect = laid.rect
        if not (rect.x < x < rect.right and rect.y < y < rect.top):
            continue
        u, v = on_blank(laid, x, y)
        u, v = u - margin_x, v - margin_y
        if not (0 < u < part.length and 0 < v < part.width):
            continue
        low, high = _depths(flaw, laid)
        if _is_cut_away(part, u, v, low + below, high + below):
            continue
        if flaw.face is FlawFace.THROUGH:
            yield f"{flaw.title} goes through {blank.name}"
            continue
        if (flaw.depth or 0.0) > blank.thickness / 2:
            yield f"{flaw.title} is deeper than half of {blank.name}"
        is_on_a = (flaw.face is FlawFace.A) != laid.place.way.is_flipped
        if _face_counts(part, blank.layer, blank.layers, is_on_a=is_on_a):
            yield f"{flaw.title} is on a face of {blank.name} that shows or is glued"
        yield from _near_edges(part, u, v, flaw, blank.name)
        yield from _near_features(part, u, v, low + below, high + below, flaw, blank.name)


def _depths(flaw: Flaw, laid: LaidBlank) -> tuple[float, float]:
    thick, deep = laid.blank.thickness, flaw.deep(laid.blank.thickness)
    is_on_a = (flaw.face is FlawFace.A) != laid.place.way.is_flipped
    return (thick - deep, thick) if is_on_a else (0.0, deep)


def _face_counts(part: Board, layer: int, layers: int, *, is_on_a: bool) -> bool:
    if is_on_a:
        return layer < layers or any(s.value == "face A" for s in part.shows)
    return layer > 1 or any(s.value == "face B" for s in part.shows)


def _near_edges(part: Board, u: float, v: float, flaw: Flaw, name: str) -> Iterator[str]:
    distance = {
        "start end": u,
        "far end": part.length - u,
        "near edge": v,
        "far edge": part.width - v,
    }
    for surface in (*part.shows, *part.behind_doors):
        if distance.get(surface.value, 9.0) < 5.0 - 0.06:
            yield f"{flaw.title} is nearer than 5 mm to the {surface.value} of {name}"


def _gap(box: BoardBox, u: float, v: float) -> float:
    """How far a point lies outside a box, the larger of both directions (square corners)."""
    return max(box.low[0] - u, u - box.high[0], box.low[1] - v, v - box.high[1])


def _near_features(
    part: Board, u: float, v: float, low: float, high: float, flaw: Flaw, name: str
) -> Iterator[str]:
    size: BoardSize = part.size
    for feature in part.features:
        if isinstance(feature, FlushTrim | Perforation):
            continue
        box = feature.box(size)
        apart = max(box.low[2] - high, low - box.high[2])
        if _gap(box, u, v) < 5.0 - 0.06 and apart < 3.0 - 1e-6:
            yield f"{flaw.title} is too near to {feature.name} of {name}"


def _is_cut_away(part: Board, u: float, v: float, low: float, high: float) -> bool:
    for feature in part.features:
        box = feature.box(part.size)
        is_deep = box.low[2] <= low + 1e-6 and box.high[2] >= high - 1e-6
        if is_deep and _gap(box, u, v) <= 0:
            return True
    return False
