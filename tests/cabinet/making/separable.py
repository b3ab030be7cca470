"""Whether rectangles come apart by through cuts: judged from their places, not from a plan."""

from __future__ import annotations

from collections.abc import Sequence

Box = tuple[int, int, int, int]  # low x, low y, high x, high y


def _groups(boxes: Sequence[Box], axis: int, kerf: int) -> list[list[Box]]:
    """The boxes in order along an axis, parted wherever a strip of a kerf is free."""
    groups: list[list[Box]] = []
    reach = 0
    for box in sorted(boxes, key=lambda b: b[axis]):
        if not groups or box[axis] >= reach + kerf:
            groups.append([])
        groups[-1].append(box)
        reach = max(reach, box[axis + 2])
    return groups


def come_apart(boxes: Sequence[Box], kerf: int) -> bool:
    """Whether through cuts of this kerf free every box from every other."""
    if len(boxes) <= 1:
        return True
    for axis in (0, 1):
        groups = _groups(boxes, axis, kerf)
        if len(groups) > 1:
            return all(come_apart(group, kerf) for group in groups)
    return False
