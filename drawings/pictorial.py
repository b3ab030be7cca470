"""The unit taken apart, seen pictorially, with item numbers, and the list of its parts.

True isometric directions (ISO 5456-3). Parts are moved apart along the unit's axes by what they
are, so that each one shows; the picture is not to be measured, so it is as large as its room
and not at a standard scale.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import cadquery as cq

from cabinet.errors import DesignError
from cabinet.frame import Side
from cabinet.part import Part
from drawings.block import Block
from drawings.clutter import Clutter, NoRoom
from drawings.curves import ArcCurve, Curve, PolyCurve, Segment, bounds
from drawings.ground import marks_box
from drawings.layout import Target, placed_callout
from drawings.marks import Anchor, Group, Ink, Mark, PaperBox, PaperPoint
from drawings.number import dimension_text
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.projection import Projection, project
from drawings.scene import Scene
from drawings.sheet import Sheet, SheetView
from drawings.style import Style
from drawings.table import Column, Placed, table_marks
from drawings.title_block import TitleBlock, title_block_box, title_block_marks
from drawings.view_frame import ISOMETRIC
from drawings.view_paper import ViewPaper

SIZE = SheetSize.A3
# From half the size of the unit to a fiftieth, each a tenth smaller than the one before.
_SIZES = tuple(0.5 * 0.9**step for step in range(32))
_NO_SCALE = "not to scale"

# How far each kind of part is moved, as shares of the unit's size along that axis.
_APART: dict[str, tuple[tuple[Side, float], ...]] = {
    "left side": ((Side.LEFT, 0.18),),
    "right side": ((Side.RIGHT, 0.14),),
    "top": ((Side.TOP, 0.30),),
    "base": ((Side.BOTTOM, 0.30),),
    "covering": ((Side.TOP, 0.45),),
    "doors": ((Side.FRONT, 1.9),),
    "shelves": ((Side.FRONT, 1.0),),
    "back": ((Side.BACK, 0.5),),
    "cleat": ((Side.BACK, 0.9),),
    "wall": ((Side.BACK, 1.3),),
    "plinth": ((Side.BOTTOM, 0.45),),
    "feet": ((Side.BOTTOM, 0.45),),
    "panel": ((Side.FRONT, 1.0), (Side.TOP, 0.14)),
    "front lipping": ((Side.FRONT, 1.25),),
    "back lipping": ((Side.FRONT, 0.75),),
    "left lipping": ((Side.FRONT, 1.0), (Side.LEFT, 0.04)),
    "right lipping": ((Side.FRONT, 1.0), (Side.RIGHT, 0.04)),
}

# Doors that still hide a part are also lowered, by these shares of the unit's height.
_LOWERED = (0.0, 0.6, 1.1)


def pictorial_sheet(scene: Scene, block: TitleBlock, sheets: Mapping[str, int]) -> Sheet:
    """The exploded picture with item numbers beside the parts list.

    Args:
        scene: The unit with its solids.
        block: Title block; title, scale and document type are filled in here.
        sheets: Number of the sheet on which each part is drawn, by its name.
    """
    style = style_for(SIZE)
    listed = _parts_list(scene, sheets, style)
    seen = _seen(scene)
    space = drawing_space(SIZE)
    room = PaperBox(space.left + 4, space.top + 4, listed.box.left - 8, space.bottom - 4)
    picture = _picture_that_fits(scene, seen, room, style)
    filled = replace(
        block,
        title="Parts and where they go",
        supplementary_title=scene.unit.name,
        scale=_NO_SCALE,
        document_type="pictorial view and parts list",
    )
    marks = (
        *frame_marks(SIZE, style),
        *title_block_marks(filled, SIZE, style),
        *picture,
        *listed.marks,
    )
    return Sheet(
        number=block.sheet_number,
        name="parts",
        title="Parts and where they go",
        size=SIZE,
        marks=marks,
        views=(SheetView(title="exploded pictorial view", scale=_NO_SCALE),),
    )


def _seen(scene: Scene) -> Mapping[str, Projection]:
    """The parts moved apart so far that something is seen of every item."""
    seen: Mapping[str, Projection] = {}
    for lowered in _LOWERED:
        seen = project(_exploded(scene, lowered), ISOMETRIC)
        if all(any(_longest(seen[p.name].visible) for p in parts) for *_, parts in scene.items):
            break
    return seen


def _shift(scene: Scene, part: Part, lowered: float) -> cq.Vector:
    moves = next((_APART[key] for key in (part.name, part.role, part.group) if key in _APART), ())
    size = scene.unit.outline.size
    shift = cq.Vector(0, 0, -lowered * size[2] if part.group == "doors" else 0)
    for side, share in moves:
        shift += cq.Vector(*side.vector) * (share * size[side.axis])
    return shift


def _exploded(scene: Scene, lowered: float) -> dict[str, cq.Shape]:
    return {
        part.name: scene.parts[part.name].moved(cq.Location(_shift(scene, part, lowered)))
        for part in scene.unit.parts
    }


def _picture_that_fits(
    scene: Scene, seen: Mapping[str, Projection], room: PaperBox, style: Style
) -> list[Mark]:
    """The picture as large as it and all its numbers fit the room."""
    whole = bounds(curve for p in seen.values() for curve in p.visible)
    for scale in _SIZES:
        if whole.width * scale > room.width - 8 or whole.height * scale > room.height - 12:
            continue
        try:
            return _picture(scene, seen, room, scale, style)
        except NoRoom:
            continue
    raise DesignError(
        f"{scene.unit.name}: its exploded picture fits no A3 at a fiftieth of its size",
        part=scene.unit.name,
    )


def _picture(
    scene: Scene, seen: Mapping[str, Projection], room: PaperBox, scale: float, style: Style
) -> list[Mark]:
    whole = bounds(curve for p in seen.values() for curve in p.visible)
    paper = ViewPaper(bounds=whole, scale=scale)
    dx = room.left + (room.width - paper.box.width) / 2
    dy = room.top + (room.height - paper.box.height) / 2
    marks = [mark for p in seen.values() for mark in paper.marks(p.visible, Ink.NARROW)]
    view = Group("view", tuple(marks), title="exploded pictorial view", description=_NO_SCALE)
    block = Block(marks=(view,), box=marks_box((view,)) or room, outline=paper.box).moved(dx, dy)
    clutter = Clutter(block.marks)
    numbers: list[Mark] = []
    for number, _, parts in scene.items:
        name, targets = _best_target(parts, seen, paper, dx, dy)
        numbers.append(
            placed_callout(
                str(number),
                f"item {number}, {name}",
                targets,
                clutter,
                style,
                home=room,
                within=room,
            )
        )
    return [*block.marks, *numbers]


def _best_target(
    parts: tuple[Part, ...],
    seen: Mapping[str, Projection],
    paper: ViewPaper,
    dx: float,
    dy: float,
) -> tuple[str, list[Target]]:
    """The part of this item that shows longest edges, and points along them."""
    shown = max(parts, key=lambda part: _longest(seen[part.name].visible))
    curves = sorted(seen[shown.name].visible, key=_length, reverse=True)[:3]
    targets = []
    for curve in curves:
        for share in (0.5, 0.25, 0.75):
            point = _point_on(curve, share)
            if point is not None:
                targets.append(Target(PaperPoint(paper.x(point[0]) + dx, paper.y(point[1]) + dy)))
    return shown.name, targets


def _length(curve: Curve) -> float:
    if isinstance(curve, Segment):
        a, b = curve.start, curve.end
        return float(((a.u - b.u) ** 2 + (a.v - b.v) ** 2) ** 0.5)
    return 0.0


def _longest(curves: tuple[Curve, ...]) -> float:
    return max((_length(curve) for curve in curves), default=0.0)


def _point_on(curve: Curve, share: float) -> tuple[float, float] | None:
    if isinstance(curve, ArcCurve | PolyCurve):
        return None
    a, b = curve.start, curve.end
    return a.u + (b.u - a.u) * share, a.v + (b.v - a.v) * share


def _parts_list(scene: Scene, sheets: Mapping[str, int], style: Style) -> Placed:
    """The list of parts, standing on the title block."""
    columns = (
        Column(heading="no.", width=10.0, anchor=Anchor.END),
        Column(heading="part"),
        Column(heading="pcs", width=9.0, anchor=Anchor.END),
        Column(heading="length × width × thickness", width=46.0),
        Column(heading="board", width=57.0),
        Column(heading="sheet", width=13.0, anchor=Anchor.END),
    )
    rows, names = [], scene.unit.item_names
    for number, board, parts in scene.items:
        size = board.finished_size
        sizes = " × ".join(dimension_text(v) for v in size.along)
        stock = f"{board.layers} × {board.stock.title}" if board.layers > 1 else board.stock.title
        sheet = str(sheets[parts[0].name]) if parts[0].name in sheets else ""
        rows.append((str(number), names[parts[0].name], str(len(parts)), sizes, stock, sheet))
    title = title_block_box(SIZE)
    at = PaperPoint(title.left, 0.0)
    flat = table_marks(
        columns,
        rows,
        at=at,
        width=title.width,
        style=style,
        title="Parts (first size along the grain, finished)",
    )
    top = title.top - 4.0 - flat.box.height
    return table_marks(
        columns,
        rows,
        at=PaperPoint(title.left, top),
        width=title.width,
        style=style,
        title="Parts (first size along the grain, finished)",
    )
