"""Cutters: the workshop can cut every groove, rebate and opening, and what sits there fits.

Looked at on single boards before they are glued: width against the cutters and the saw's kerf,
depth against the plunge, round corners against the cutter's radius and what sits in them, and
whether the router's base has something to stand on. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from cabinet.board import BoardBox
from cabinet.checks.bodies import board_middle
from cabinet.checks.bricks import box_array, part_bricks
from cabinet.checks.takedown import TOUCH
from cabinet.design import Unit
from cabinet.features import CutOut, Groove, Rebate
from cabinet.findings import Finding, Severity
from cabinet.frame import Side
from cabinet.part import Part
from cabinet.workshop import Workshop

# A base with less of a board below it than this share of its width tips (common practice).
LEAST_UNDER_BASE = 0.4
# A board that stands higher than this on its other end cannot be routed on its end safely.
MOST_ON_END = 400.0
SLACK = 1e-6
# The corner of a board gives by this when it is pressed home (common practice), mm.
GIVES = 0.05


def cutters(unit: Unit, workshop: Workshop) -> Iterator[Finding]:
    """Cuts that no tool of the workshop makes, or that leave no room for what sits in them.

    Args:
        unit: The resolved unit.
        workshop: The tools.
    """
    for board, parts in unit.boards:
        part = parts[0]
        for feature in board.features:
            if isinstance(feature, Groove):
                yield from _groove(part, feature, workshop)
                yield from _ends(unit, parts, feature, workshop)
            elif isinstance(feature, Rebate):
                yield from _rebate(part, feature, workshop)
            elif isinstance(feature, CutOut):
                yield from _opening(part, feature, workshop)


def _finding(
    rule: str,
    part: Part,
    box: BoardBox,
    values: tuple[float, float],
    sentence: str,
    severity: Severity = Severity.ERROR,
) -> Finding:
    return Finding(
        rule=rule,
        severity=severity,
        parts=(part.name,),
        where=board_middle(part, box),
        found=values[0],
        limit=values[1],
        sentence=f"{part.name}: {sentence}",
    )


def _groove(part: Part, groove: Groove, workshop: Workshop) -> Iterator[Finding]:
    board, router = part.board, workshop.router
    box = groove.box(board.size)
    least = min(router.cutters)
    if groove.runs_out and workshop.saws_groove(groove.width, groove.most_width, groove.depth):
        return
    if groove.width < least - SLACK:
        kerf = f" and the saw's kerf is {workshop.saw.kerf:g} mm" if groove.runs_out else ""
        yield _finding(
            "no-cutter",
            part,
            box,
            (groove.width, least),
            f"{groove.name} is {groove.width:g} mm wide but the smallest cutter is {least:g} mm"
            f"{kerf}; widen the groove, or buy a cutter for it",
        )
    elif groove.depth > router.depth + SLACK:
        yield _too_deep(part, box, groove.name, groove.depth, router.depth)
    if 0 < groove.end_radius < least / 2 - SLACK:
        yield _finding(
            "corner-too-tight",
            part,
            box,
            (groove.end_radius, least / 2),
            f"{groove.name} has corners of {groove.end_radius:g} mm radius but the smallest cutter "
            f"leaves {least / 2:g} mm; give it that radius, or square the corners",
        )
    yield from _stands(part, groove, box, workshop)


def _stands(part: Part, groove: Groove, box: BoardBox, workshop: Workshop) -> Iterator[Finding]:
    """Whether the router's base has enough below it beside a routed groove."""
    board, base = part.board, workshop.router.base
    extents = [board.size.along[a] for a in range(3) if a != groove.surface.axis]
    across = board.size.along[groove.near.axis]
    if groove.surface.axis == 0 and board.length > MOST_ON_END:
        says = (
            f"{groove.name} lies in an end of {min(extents):.1f} mm of a board {board.length:.1f} "
            f"mm long, where the router's base of {base:g} mm tips"
        )
        limit = MOST_ON_END
        found = board.length
    elif groove.surface.is_face and across < LEAST_UNDER_BASE * base:
        says = (
            f"{groove.name} lies on a face only {across:.1f} mm wide, where the router's base of "
            f"{base:g} mm tips"
        )
        found, limit = across, LEAST_UNDER_BASE * base
    else:
        return
    yield _finding(
        "router-tips",
        part,
        box,
        (found, limit),
        f"{says}; clamp boards of one height beside it, or join it another way",
        Severity.WARNING,
    )


def _too_deep(part: Part, box: BoardBox, name: str, depth: float, most: float) -> Finding:
    return _finding(
        "cut-too-deep",
        part,
        box,
        (depth, most),
        f"{name} is {depth:.1f} mm deep but the router plunges {most:g} mm; make it shallower, or "
        "cut the boards before they are doubled",
    )


def _rebate(part: Part, rebate: Rebate, workshop: Workshop) -> Iterator[Finding]:
    most = workshop.router.depth
    if (rebate.start is not None or rebate.end is not None) and rebate.takes:
        yield _finding(
            "square-corner",
            part,
            rebate.box(part.board.size),
            (0.0, min(workshop.router.cutters) / 2),
            f"{rebate.name}, {rebate.width:g} × {rebate.depth:g} mm, stops before the end, where the "
            f"cutter leaves a round corner; square it with a chisel, or notch the {rebate.takes}",
            Severity.NOTE,
        )
    # It is cut from the face or from the edge, whichever is less deep.
    deep = min(rebate.depth, rebate.width)
    if deep > most:
        yield _too_deep(part, rebate.box(part.board.size), rebate.name, deep, most)


def _opening(part: Part, opening: CutOut, workshop: Workshop) -> Iterator[Finding]:
    board, router = part.board, workshop.router
    box = opening.box(board.size)
    if board.thickness > router.depth:
        yield _too_deep(part, box, opening.name, board.thickness, router.depth)
    least = router.bush.cutter / 2
    if opening.corner_radius < least - SLACK:
        yield _finding(
            "corner-too-tight",
            part,
            box,
            (opening.corner_radius, least),
            f"{opening.name} has corners of {opening.corner_radius:g} mm radius but the cutter of "
            f"{router.bush.cutter:g} mm in the guide bush leaves {least:g} mm; give it that radius",
        )


def _ends(
    unit: Unit, parts: tuple[Part, ...], groove: Groove, workshop: Workshop
) -> Iterator[Finding]:
    """Stopped ends against the square board that sits in them."""
    if not groove.takes or groove.runs_out:
        return
    takers = [p for p in unit.parts if p.role == groove.takes]
    if not takers:
        return
    for part in parts:
        for side, play, beside in _room(part, groove, takers):
            yield from _end(part, groove, workshop, (side, play, beside))


def _room(part: Part, groove: Groove, takers: list[Part]) -> Iterator[tuple[Side, float, float]]:
    """For each stopped end: which way it looks, room past the board there, play beside it."""
    box = part.feature_box(groove)
    channel = box_array(box)[0]
    size = part.board.size
    local = groove.box(size)
    run = part.placement.directions[groove.run_axis]
    across = part.placement.directions[groove.near.axis].axis
    for taker in takers:
        boxes = part_bricks(taker).boxes
        laps = np.minimum(boxes[:, 1], channel[1]) - np.maximum(boxes[:, 0], channel[0])
        inside = boxes[(laps > TOUCH).all(axis=1)]
        if not len(inside):
            continue
        low, high = inside[:, 0].min(axis=0), inside[:, 1].max(axis=0)
        beside = min(low[across] - channel[0][across], channel[1][across] - high[across])
        for end, is_stopped in (
            (-1, local.low[groove.run_axis] > SLACK),
            (1, local.high[groove.run_axis] < size.along[groove.run_axis] - SLACK),
        ):
            side = run if end > 0 else run.opposite
            axis = side.axis
            reach = high[axis] if side.sign > 0 else low[axis]
            wall = channel[1][axis] if side.sign > 0 else channel[0][axis]
            # A board that goes on past the end is notched there and is not stopped by it.
            if is_stopped and (wall - reach) * side.sign > -TOUCH:
                yield side, max(float((wall - reach) * side.sign), 0.0), max(float(beside), 0.0)


def needed_past(radius: float, beside: float) -> float:
    """Room that a square board needs before the round end of a groove, mm.

    Its corner, ``beside`` from the wall, must stay inside the corner's arc:
    r - sqrt(r2 - (r - p)2).

    Args:
        radius: Radius of the groove's corner, mm.
        beside: Play between the board and the groove's wall, mm.
    """
    off = max(radius - beside, 0.0)
    return radius - math.sqrt(max(radius**2 - off**2, 0.0))


def _end(
    part: Part, groove: Groove, workshop: Workshop, room: tuple[Side, float, float]
) -> Iterator[Finding]:
    side, past, beside = room
    box = groove.box(part.board.size)
    if groove.end_radius > 0:
        need = needed_past(groove.end_radius, beside)
        corner = math.hypot(
            max(groove.end_radius - beside, 0.0), max(groove.end_radius - past, 0.0)
        )
        if corner > groove.end_radius + GIVES:
            yield _finding(
                "stopped-short",
                part,
                box,
                (past, need),
                f"{groove.name} stops {past:.1f} mm past {groove.takes} at the {side.value}, but "
                f"its corners of {groove.end_radius:g} mm radius need {need:.1f} mm; run the groove "
                "on, notch the board, or square the corners with a chisel",
            )
        return
    least = min(workshop.router.cutters) / 2
    if past < needed_past(least, beside) - 1e-3 and workshop.square_chisel > groove.width + SLACK:
        yield _finding(
            "chisel-too-wide",
            part,
            box,
            (workshop.square_chisel, groove.width),
            f"{groove.name} is {groove.width:g} mm wide and its end at the {side.value} is to be "
            f"squared, but the chisel is {workshop.square_chisel:g} mm; run the groove on by "
            f"{needed_past(least, beside):.1f} mm, or take a narrower chisel",
            Severity.WARNING,
        )


__all__ = ["cutters", "needed_past"]
