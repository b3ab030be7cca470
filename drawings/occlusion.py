"""What cannot be seen in a square view of a unit because one board stands wholly before it.

Hidden-line removal costs the square of what it is given, so what is surely out of sight is left
out beforehand. A board hides what lies behind it if the view is square on its face, its outline
covers the other's whole, and no opening through it lies over the other; whatever this rule does
not prove hidden is drawn and left to the kernel.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from cabinet.checks.bodies import Body
from cabinet.features import CutOut, Hole, HoleRow, Notch
from cabinet.frame import BoardPoint, Side, UnitBox, UnitPoint
from cabinet.part import Part

_TOUCH = 1e-6


def out_of_sight(bodies: Iterable[Body], viewer: Side) -> frozenset[str]:
    """Names of the bodies that are surely hidden from a viewer who looks square on the unit.

    Args:
        bodies: Parts and hardware in the view.
        viewer: Side of the unit on which the viewer stands.
    """
    them = list(bodies)
    boxes = {body.name: body.box for body in them}
    screens = {
        body.name: _openings(body)
        for body in them
        if isinstance(body, Part) and body.placement.up.axis == viewer.axis
    }
    return frozenset(name for name in boxes if _is_screened(name, screens, boxes, viewer))


def _is_screened(
    name: str,
    screens: Mapping[str, tuple[UnitBox, ...]],
    boxes: Mapping[str, UnitBox],
    viewer: Side,
) -> bool:
    box = boxes[name]
    return any(
        screen != name
        and _is_before(boxes[screen], box, viewer)
        and _covers(boxes[screen], box, viewer)
        and not any(_overlaps(opening, box, viewer) for opening in openings)
        for screen, openings in screens.items()
    )


def _openings(part: Part) -> tuple[UnitBox, ...]:
    """Boxes around what goes through a board, in the unit."""
    size = part.board.size
    found = []
    for feature in part.board.features:
        is_through = isinstance(feature, CutOut | Notch) or (
            isinstance(feature, Hole | HoleRow)
            and feature.depth is None
            and feature.surface.axis == 2
        )
        if is_through:
            box = feature.box(size)
            ends = [part.placement.board_to_unit(BoardPoint(*p)) for p in (box.low, box.high)]
            pairs = [sorted(pair) for pair in zip(*ends, strict=True)]
            found.append(
                UnitBox(
                    low=UnitPoint(*(pair[0] for pair in pairs)),
                    high=UnitPoint(*(pair[1] for pair in pairs)),
                )
            )
    return tuple(found)


def _is_before(screen: UnitBox, other: UnitBox, viewer: Side) -> bool:
    """Whether the whole screen lies nearer to the viewer than anything of the other."""
    near = screen.face(viewer.opposite) * viewer.sign
    return near >= other.face(viewer) * viewer.sign - _TOUCH


def _covers(screen: UnitBox, other: UnitBox, viewer: Side) -> bool:
    return all(
        tuple(screen.low)[axis] <= tuple(other.low)[axis] + _TOUCH
        and tuple(screen.high)[axis] >= tuple(other.high)[axis] - _TOUCH
        for axis in range(3)
        if axis != viewer.axis
    )


def _overlaps(opening: UnitBox, other: UnitBox, viewer: Side) -> bool:
    spans = opening.overlap(other)
    return all(spans[axis] > -_TOUCH for axis in range(3) if axis != viewer.axis)
