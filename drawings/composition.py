"""Blocks set out on a sheet: views in the middle, details in a row, notes by the title block.

Places are found by trying: a block goes where it costs least among what stands already. Room
that is left over is shared out, so that a sheet breathes. Lengths are in paper mm.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drawings.block import Block
from drawings.marks import PaperBox

_Floats = NDArray[np.float64]

GAP = 9.0
"""Least distance between blocks."""

_EDGE = 5.0  # least distance of a block from the frame
_STEP = 3.0
_INSET = 2.0  # notes and key from the ends of the title block


KEY = 38.0
"""Side of the square that the picture of the unit takes."""

_NOTES_GAP = 4.0  # from the notes to the title block
_LEAST_NOTES = 90.0  # narrowest that notes are set beside the title block
_GRACE = 0.2  # what blocks may stand nearer to each other by rounding
_ROW_GAP = 26.0  # most that details in a row stand apart


@dataclass(frozen=True, slots=True, kw_only=True)
class Composition:
    """Where everything stands.

    Attributes:
        cluster: The views of the whole board, moved to their place.
        details: The details, moved to their places.
        notes: The notes, moved to their place.
        key: Where the picture of the unit goes; None if there is none.
    """

    cluster: Block
    details: tuple[Block, ...]
    notes: Block
    key: PaperBox | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cluster:
    """Views in their places beside each other, to be moved to their place on a sheet in one go.

    Attributes:
        views: Each view, and how far it stands from where it was drawn, right and down, mm.
        box: The paper that they cover, lettering included.
        outline: The outline of the main one.
    """

    views: tuple[tuple[Block, float, float], ...]
    box: PaperBox
    outline: PaperBox

    def moved(self, dx: float, dy: float) -> Block:
        """All of them as one block, moved by (dx, dy) mm."""
        blocks = [view.moved(x + dx, y + dy) for view, x, y in self.views]
        marks = tuple(mark for block in blocks for mark in block.marks)
        return Block(marks=marks, box=self.box.moved(dx, dy), outline=self.outline.moved(dx, dy))


def aligned(main: Block, others: Sequence[tuple[str, Block]], gap: float = GAP) -> Cluster:
    """Views put in their first-angle places round the main one.

    Args:
        main: The main view; it stays where it is.
        others: Place (``above``, ``below``, ``left``, ``right``) and view, in the order in
            which they are put; a second view in one place goes beyond the first.
        gap: Least distance between views.
    """
    box, views = main.box, [(main, 0.0, 0.0)]
    for place, view in others:
        dx = dy = 0.0
        match place:
            case "below":
                dy = box.bottom + gap - view.box.top
                dx = main.outline.left - view.outline.left
            case "above":
                dy = box.top - gap - view.box.bottom
                dx = main.outline.left - view.outline.left
            case "right":
                dx = box.right + gap - view.box.left
                dy = main.outline.top - view.outline.top
            case "left":
                dx = box.left - gap - view.box.right
                dy = main.outline.top - view.outline.top
        views.append((view, dx, dy))
        box = box.united(view.box.moved(dx, dy))
    return Cluster(views=tuple(views), box=box, outline=main.outline)


def block_room(space: PaperBox) -> PaperBox:
    """Where blocks may stand within a drawing space."""
    return space.grown(-_EDGE)


def notes_width(title: PaperBox) -> float:
    """How long the lines of notes above the title block can be, mm; nowhere are they longer."""
    return title.width - 2 * _INSET


class _Setting:
    """One drawing space, with what is to be set out in it."""

    def __init__(
        self,
        cluster: Cluster,
        details: Sequence[Block],
        notes: Callable[[float], Block],
        title: PaperBox,
        space: PaperBox,
        *,
        has_key: bool,
    ) -> None:
        self.cluster = cluster
        self.details = details
        self.notes = notes
        self.title = title
        self.space = space
        self.room = block_room(space)
        self.has_key = has_key

    def notes_above_title(self) -> Composition | None:
        """Notes and key above the title block; details in a row at its left, if it leaves room."""
        key_width = KEY + GAP if self.has_key else 0.0
        notes = self.notes(notes_width(self.title) - key_width)
        foot = self.title.top - _NOTES_GAP
        height = max(notes.box.height, KEY if self.has_key else 0.0)
        notes = _to(notes, self.title.left + _INSET, foot - notes.box.height)
        key = None
        if self.has_key:
            right = self.title.right - _INSET
            key = PaperBox(right - KEY, foot - KEY, right, foot)
        corner = PaperBox(self.title.left, foot - height, self.title.right, self.title.bottom)
        is_beside = self.title.left - self.room.left > 60.0
        right = corner.left - GAP if is_beside else self.room.right
        bottom = self.room.bottom - 2.0 if is_beside else corner.top - GAP
        row = _row([d.box for d in self.details], self.room.left, right, bottom)
        return self._finished(notes, key, [corner], row)

    def notes_beside_title(self) -> Composition | None:
        """Notes at the left of the title block; details and key in a row above both."""
        width = min(self.title.left - self.room.left - GAP, notes_width(self.title))
        if width < _LEAST_NOTES:
            return None
        notes = self.notes(width)
        top = self.title.bottom - notes.box.height - 2.0
        notes = _to(notes, self.room.left + 2.0, top)
        foot = min(self.title.top, notes.box.top) - GAP
        boxes = [d.box for d in self.details]
        if self.has_key:
            boxes.append(PaperBox(0.0, 0.0, KEY, KEY))
        row = _row(boxes, self.room.left, self.room.right, foot)
        if row is None:
            return None
        key = row.pop() if self.has_key else None
        taken = [self.title, notes.box] + ([key] if key else [])
        return self._finished(notes, key, taken, row)

    def scattered(self) -> Composition | None:
        """Notes above the title block, everything else wherever there is room."""
        notes = self.notes(notes_width(self.title))
        foot = self.title.top - _NOTES_GAP
        notes = _to(notes, self.title.left + _INSET, foot - notes.box.height)
        taken = [self.title, notes.box]
        box = self.cluster.box
        for toward in ((0.5, 0.0), (0.0, 0.0)):
            spot = _cheapest(box.width, box.height, self.room, taken, toward, (0.25, 1.0))
            if spot is None:
                return None
            found: list[PaperBox] = []
            for detail in self.details:
                place = _cheapest(
                    detail.box.width,
                    detail.box.height,
                    self.room,
                    [*taken, spot, *found],
                    (0.0, 1.0),
                    (0.45, 1.0),
                )
                if place is None:
                    break
                found.append(place)
            if len(found) < len(self.details):
                continue
            key = None
            if self.has_key:
                others = [*taken, spot, *found]
                key = _cheapest(KEY, KEY, self.room, others, (1.0, 0.0), (1.0, 1.0))
                if key is None:
                    continue
            return self._composition(notes, key, spot, found)
        return None

    def _finished(
        self,
        notes: Block,
        key: PaperBox | None,
        taken: list[PaperBox],
        row: list[PaperBox] | None,
    ) -> Composition | None:
        if row is None or any(s.overlaps(t, GAP - 0.1) for s in row for t in taken):
            return None
        box = self.cluster.box
        others = [*taken, *row]
        spot = _cheapest(box.width, box.height, self.room, others, (0.5, 0.0), (0.25, 1.0))
        if spot is None:
            return None
        return self._composition(notes, key, _eased(spot, others, self.room), row)

    def _composition(
        self, notes: Block, key: PaperBox | None, spot: PaperBox, row: list[PaperBox]
    ) -> Composition:
        return Composition(
            cluster=_to(self.cluster, spot.left, spot.top),
            details=tuple(_to(d, s.left, s.top) for d, s in zip(self.details, row, strict=True)),
            notes=notes,
            key=key,
        )


def _to(block: Block | Cluster, left: float, top: float) -> Block:
    return block.moved(left - block.box.left, top - block.box.top)


def _row(
    boxes: Sequence[PaperBox], left: float, right: float, bottom: float
) -> list[PaperBox] | None:
    """Boxes in a row with their headings level, spread over the width; None if too wide."""
    if not boxes:
        return []
    free = right - left - sum(box.width for box in boxes)
    between = len(boxes) - 1
    if free < between * GAP:
        return None
    gap = min(free / (between + 2), _ROW_GAP)
    gap = max(gap, GAP) if between else gap
    x = left + (free - gap * between) / 2
    top = bottom - max(box.height for box in boxes)
    found = []
    for box in boxes:
        found.append(PaperBox(x, top, x + box.width, top + box.height))
        x += box.width + gap
    return found


def _spots(width: float, height: float, room: PaperBox) -> tuple[_Floats, _Floats]:
    """Left and top of every spot tried, column by column; none if it is too large."""
    across, down = room.width - width, room.height - height
    if across < 0 or down < 0:
        return np.empty(0), np.empty(0)
    columns = max(1, int(across / _STEP) + 1)
    rows = max(1, int(down / _STEP) + 1)
    lefts = room.left + across * np.arange(columns + 1) / columns
    tops = room.top + down * np.arange(rows + 1) / rows
    return np.repeat(lefts, rows + 1), np.tile(tops, columns + 1)


def _cheapest(
    width: float,
    height: float,
    room: PaperBox,
    taken: Sequence[PaperBox],
    toward: tuple[float, float],
    weight: tuple[float, float],
) -> PaperBox | None:
    """The free spot whose own point of reference lies nearest to one of the room's.

    Args:
        width: Width of what is to be placed, mm.
        height: Its height, mm.
        room: Where it may stand.
        taken: What stands already.
        toward: Which point of the room is wanted, as shares of its free width and height.
        weight: How much a millimetre across and down counts.
    """
    left, top = _spots(width, height, room)
    goal_left = room.left + toward[0] * (room.width - width)
    goal_top = room.top + toward[1] * (room.height - height)
    cost = weight[0] * np.abs(left - goal_left) + weight[1] * np.abs(top - goal_top)
    for other in taken:
        meets = (
            (left < other.right + GAP)
            & (other.left < left + width + GAP)
            & (top < other.bottom + GAP)
            & (other.top < top + height + GAP)
        )
        cost[meets] = np.inf
    if not np.isfinite(cost).any():
        return None
    best = int(np.argmin(cost))
    x, y = float(left[best]), float(top[best])
    return PaperBox(x, y, x + width, y + height)


def composed(
    cluster: Cluster,
    details: Sequence[Block],
    notes: Callable[[float], Block],
    *,
    title: PaperBox,
    space: PaperBox,
    has_key: bool,
) -> Composition | None:
    """Set blocks out within a space; None if they do not fit.

    Args:
        cluster: The views of the whole board.
        details: The details, in the order of their letters.
        notes: Gives the notes, set within a width in mm.
        title: Where the title block stands.
        space: The drawing space.
        has_key: Whether a picture of the unit is wanted.
    """
    for with_key in (True, False) if has_key else (False,):
        setting = _Setting(cluster, details, notes, title, space, has_key=with_key)
        for attempt in (
            setting.notes_above_title,
            setting.notes_beside_title,
            setting.scattered,
        ):
            found = attempt()
            if found is not None:
                return found
    return None


def is_too_large(
    cluster: PaperBox,
    details: Sequence[PaperBox],
    notes: PaperBox,
    *,
    title: PaperBox,
    space: PaperBox,
) -> bool:
    """Whether blocks surely do not fit within a space.

    What cannot stand beside each other must stand one above the other.

    Args:
        cluster: What the views of the whole board take at least.
        details: What the details take at least.
        notes: What the notes take in a line as long as can be.
        title: Where the title block stands.
        space: The drawing space.
    """
    room = block_room(space)
    if cluster.width > room.width:
        return True
    column = [cluster]
    for box in sorted(details, key=lambda one: one.height, reverse=True):
        if all(box.width + GAP + other.width > room.width for other in column):
            column.append(box)
    narrowest = min(box.width for box in column)
    foot = room.bottom
    if title.left - room.left < narrowest + GAP:
        foot = title.top - GAP
        is_above_title = title.left - room.left - GAP < _LEAST_NOTES
        if is_above_title and narrowest + GAP + notes.width > room.width:
            foot = title.top - _NOTES_GAP - notes.height - GAP
    height = sum(box.height for box in column) + GAP * (len(column) - 1)
    return height > foot - room.top + _GRACE


def _eased(spot: PaperBox, others: Sequence[PaperBox], room: PaperBox) -> PaperBox:
    """The cluster moved down into the middle of the height that it has to itself."""
    below = [b.top - GAP for b in others if b.left < spot.right + GAP and b.right > spot.left - GAP]
    below = [y for y in below if y >= spot.bottom - 0.01]
    limit = min([*below, room.bottom])
    down = max(0.0, (limit - spot.bottom) / 2)
    return PaperBox(spot.left, spot.top + down, spot.right, spot.bottom + down)
