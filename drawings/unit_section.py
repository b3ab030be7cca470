"""Sections through the unit: A-A with its door grooves enlarged, and B-B behind the doors."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import pairwise

import numpy as np

from cabinet.checks.bodies import bodies
from cabinet.design import around
from cabinet.errors import DesignError
from cabinet.frame import BoardPoint, Side, UnitBox, UnitPoint, Vector
from cabinet.joint import Track
from cabinet.motion import Motion
from cabinet.part import Part
from cabinet.quantity import ROUNDING
from cabinet.stock import Hatching
from drawings.block import Block
from drawings.clipping import clipped
from drawings.clutter import Clutter, NoRoom
from drawings.coincidence import joined
from drawings.curves import Curve, Segment, ViewBounds, ViewPoint, bounds
from drawings.dimension_ink import Edge
from drawings.hatch import hatch
from drawings.hatch_legend import hatch_legend
from drawings.layout import Places, placed_label
from drawings.marks import Anchor, Circle, Group, Ink, Mark, PaperBox, PaperPoint, Text
from drawings.notes import notes_marks
from drawings.number import dimension_text
from drawings.occlusion import out_of_sight
from drawings.paper import SheetSize, drawing_space, frame_marks, style_for
from drawings.scene import Scene
from drawings.section import SectionCut, section
from drawings.section_planes import SectionPlanes
from drawings.sheet import Sheet, SheetView
from drawings.style import Style
from drawings.title_block import TitleBlock, title_block_box, title_block_marks
from drawings.unit_ink import UnitView, Wish, view_on_paper
from drawings.view_frame import FROM_LEFT, FRONT, ViewFrame
from drawings.view_paper import ViewPaper
from drawings.views import scale_text

SIZE = SheetSize.A3
SCALES = (1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50)
DETAIL_SCALES = (2.0, 1.0, 1 / 2)
# Closest hatching on paper, mm (ISO 128: never below 0.7; calmer here).
_LEAST_HATCH = 1.2
# Directions in which a ring's letter may stand.
_ROUND = np.array(
    [(math.cos(turn), math.sin(turn)) for turn in map(math.radians, range(0, 360, 15))]
)
_APART = 16.0
_MARGIN = 10.0


def across_sheet(scene: Scene, planes: SectionPlanes, block: TitleBlock) -> Sheet:
    """Section A-A, upright across the front, with details of the door grooves.

    Raises:
        DesignError: it does not fit on an A3.
    """
    cut = across_cut(scene, planes)
    view = replace(
        _view(scene, cut, FROM_LEFT, "section A–A"),
        wishes=_across_wishes(scene),
        letter="A",
    )
    details = _door_details(scene, view)
    return _fitted(scene, view, details, cut, block, "Section A–A", "section-a")


def behind_sheet(scene: Scene, planes: SectionPlanes, block: TitleBlock) -> Sheet:
    """Section B-B, behind the doors, seen from the front.

    Raises:
        DesignError: it does not fit on an A3.
    """
    cut = behind_cut(scene, planes)
    view = replace(
        _view(scene, cut, FRONT, "section B–B"), wishes=_behind_wishes(scene), letter="B"
    )
    return _fitted(scene, view, (), cut, block, "Section B–B", "section-b")


def across_cut(scene: Scene, planes: SectionPlanes) -> dict[str, SectionCut]:
    """What section A-A cuts and shows, by the names of the bodies."""
    return _cut(scene, planes.across, FROM_LEFT, Side.LEFT)


def behind_cut(scene: Scene, planes: SectionPlanes) -> dict[str, SectionCut]:
    """What section B-B cuts and shows, by the names of the bodies."""
    return _cut(scene, planes.behind, FRONT, Side.FRONT)


def _cut(scene: Scene, plane: float, frame: ViewFrame, viewer: Side) -> dict[str, SectionCut]:
    """What a plane square to the unit cuts, at a coordinate, and what is seen behind it."""
    point = [0.0, 0.0, 0.0]
    point[viewer.axis] = plane
    behind = [
        body
        for body in bodies(scene.unit).values()
        if body.box.face(viewer) * viewer.sign <= plane * viewer.sign
    ]
    hidden = out_of_sight(behind, viewer)
    return section(scene.seen_from(viewer, hidden, plane), (point[0], point[1], point[2]), frame)


def _view(scene: Scene, cut: Mapping[str, SectionCut], frame: ViewFrame, title: str) -> UnitView:
    outlines = joined(c for piece in cut.values() for loop in piece.loops for c in loop)
    behind = joined(c for piece in cut.values() for c in piece.behind.visible)
    return UnitView(
        title=title,
        frame=frame,
        bounds=bounds((*outlines, *behind)),
        curves=(
            (Ink.VISIBLE, behind),
            (Ink.CUT, outlines),
            (Ink.HATCH, ()),
            (Ink.NARROW, _glue_lines(scene, cut, frame)),
        ),
    )


def _glue_lines(scene: Scene, cut: Mapping[str, SectionCut], frame: ViewFrame) -> tuple[Curve, ...]:
    """Where two boards are glued face to face, within what is cut."""
    found: list[Curve] = []
    for name, part in scene.unit.by_name.items():
        if name not in cut or part.board.layers < 2:
            continue
        for layer in range(1, part.board.layers):
            level = BoardPoint(0.0, 0.0, layer * part.board.stock.measured)
            seen = frame.model_to_view(_vector(part.placement.board_to_unit(level)))
            up = part.placement.up.vector
            is_level = abs(sum(a * b for a, b in zip(up, frame.up, strict=True))) > 0.5
            # One hatch line that happens to be the glue line, so it keeps within the faces.
            angle, through = (0.0, seen.v) if is_level else (90.0, -seen.u)
            lines = hatch(cut[name].loops, angle, 1.0e5, through)
            found += lines
    return tuple(found)


def _vector(point: UnitPoint) -> Vector:
    return point.x, point.y, point.z


def _hatching(
    scene: Scene, cut: Mapping[str, SectionCut], view: UnitView, scale: float
) -> list[Curve]:
    """What a view shows of the cut faces' hatching.

    They are hatched by their material, neighbours told apart by the boards' own directions.
    """
    found: list[Curve] = []
    for part in _cut_parts(scene, cut):
        faces = [face for face in cut[part.name].faces if bounds(face.outer).meets(view.bounds)]
        loops = [loop for face in faces for loop in face.loops]
        for angle, spacing in _pattern(part, view.frame):
            apart = max(spacing, _LEAST_HATCH / scale)
            found += hatch(loops, angle, apart, apart / 2, view.bounds)
    return clipped(found, view.bounds)


def _cut_parts(scene: Scene, cut: Mapping[str, SectionCut]) -> list[Part]:
    """The parts whose cut faces are hatched."""
    parts = scene.unit.by_name
    return [parts[name] for name, piece in cut.items() if name in parts and piece.faces]


def _pattern(part: Part, frame: ViewFrame) -> tuple[tuple[float, float], ...]:
    """Angles in degrees and spacings in mm of a part's hatching in a view."""
    stock = part.board.stock
    up = part.placement.up.vector
    across = abs(up[0] * frame.right[0] + up[1] * frame.right[1] + up[2] * frame.right[2])
    match stock.hatching:
        case Hatching.BOARD:
            # At right angles to the faces, half the thickness apart (DIN 919 school practice).
            return ((0.0 if across > 0.5 else 90.0, stock.measured / 2),)
        case Hatching.SOLID_WOOD:
            return ((45.0, 3.0),)
        case Hatching.METAL:
            return ((45.0, 1.0),)
        case Hatching.SOFT:
            return ((45.0, 2.0), (135.0, 2.0))


def _inner(scene: Scene) -> UnitBox | None:
    """Clear space between sides, base and top, by the boxes of these parts."""
    parts = scene.unit.by_name
    if not {"left side", "right side", "top", "base"} <= set(parts):
        return None
    return UnitBox(
        low=UnitPoint(
            parts["left side"].box.high.x, parts["base"].box.low.y, parts["base"].box.high.z
        ),
        high=UnitPoint(
            parts["right side"].box.low.x, parts["base"].box.high.y, parts["top"].box.low.z
        ),
    )


def _across_wishes(scene: Scene) -> tuple[Wish, ...]:
    inner = _inner(scene)
    if inner is None:
        return ()
    parts = scene.unit.by_name
    base, top = parts["base"].box, parts["top"].box
    wishes = [
        Wish(edge=Edge.BELOW, axis=1, start=base.low.y, end=base.high.y, title="depth"),
        Wish(edge=Edge.RIGHT, axis=2, start=base.low.z, end=base.high.z, title="base thickness"),
        Wish(
            edge=Edge.RIGHT,
            axis=2,
            start=inner.low.z,
            end=inner.high.z,
            title="clear height between base and top",
        ),
        Wish(edge=Edge.RIGHT, axis=2, start=top.low.z, end=top.high.z, title="top thickness"),
    ]
    if "covering" in parts:
        cover = parts["covering"].box
        wishes.append(
            Wish(
                edge=Edge.RIGHT,
                axis=2,
                start=cover.low.z,
                end=cover.high.z,
                title="covering thickness",
            )
        )
    rails = [p for p in scene.unit.parts if p.role == "back rail"]
    wishes += [
        Wish(
            edge=Edge.LEFT, axis=2, start=p.box.low.z, end=p.box.high.z, title=f"height of {p.name}"
        )
        for p in rails
    ]
    return (*wishes, *_stand_wishes(scene, axis=1))


def _behind_wishes(scene: Scene) -> tuple[Wish, ...]:
    inner = _inner(scene)
    if inner is None:
        return ()
    uprights = sorted(
        (p for p in scene.unit.parts if p.role in ("side", "divider")), key=lambda p: p.box.low.x
    )
    wishes = [
        Wish(
            edge=Edge.BELOW,
            axis=0,
            start=a.box.high.x,
            end=b.box.low.x,
            title=f"clear width from {a.name} to {b.name}",
        )
        for a, b in pairwise(uprights)
    ]
    outline = scene.unit.outline
    wishes.append(
        Wish(
            edge=Edge.BELOW, axis=0, start=outline.low.x, end=outline.high.x, title="overall width"
        )
    )
    middle = (outline.low.x + outline.high.x) / 2
    told: set[tuple[Edge, float]] = set()
    for part in scene.unit.parts:
        if part.group != "shelves" or part.role not in ("shelf", "frame rail"):
            continue
        edge = Edge.LEFT if (part.box.low.x + part.box.high.x) / 2 < middle else Edge.RIGHT
        level = round(part.box.low.z, 3)
        if (edge, level) in told:
            continue
        told.add((edge, level))
        wishes.append(
            Wish(
                edge=edge,
                axis=2,
                start=inner.low.z,
                end=part.box.low.z,
                title=f"underside of {part.name} above the base",
            )
        )
    return (*wishes, *_stand_wishes(scene, axis=0))


def _stand_wishes(scene: Scene, *, axis: int) -> Iterator[Wish]:
    """How far a plinth or feet stand back from the carcass's edges: no joint places them."""
    stand = [part.box for part in scene.unit.parts if part.group in ("plinth", "feet")]
    if not stand:
        return
    box = around(stand)
    carcass = around(scene.unit.by_name[name].box for name in ("left side", "right side", "base"))
    for low, high, edge in (
        (carcass.low, box.low, ("left", "front")[axis]),
        (box.high, carcass.high, ("right", "back")[axis]),
    ):
        start, end = tuple(low)[axis], tuple(high)[axis]
        if end - start > ROUNDING:
            yield Wish(
                edge=Edge.BELOW,
                axis=axis,
                start=start,
                end=end,
                title=f"from the carcass's {edge} to what it stands on",
            )


# Details of the door grooves

_BESIDE, _INSIDE = 10.0, 16.0


def _door_details(scene: Scene, whole: UnitView) -> tuple[UnitView, ...]:
    """Enlarged details of the grooves in top and base, with the doors at rest in them."""
    tracks = [joint for joint in scene.unit.joints if isinstance(joint, Track)]
    inner = _inner(scene)
    if not tracks or inner is None:
        return ()
    details = []
    for letter, board in (("Y", "top"), ("Z", "base")):
        mine = [track for track in tracks if track.board == board]
        if mine:
            details.append(_door_detail(scene, whole, letter, board, mine))
    return tuple(details)


def _groove_spans(scene: Scene, board: str) -> list[tuple[float, float, float]]:
    """Y of the near wall, Y of the far wall and Z of the floor of each door groove."""
    part = scene.unit.by_name[board]
    spans = set()
    for feature in part.board.features:
        if feature.name.startswith("groove for door"):
            box = feature.box(part.board.size)
            ends = [
                part.placement.board_to_unit(BoardPoint(*point)) for point in (box.low, box.high)
            ]
            ys = sorted(round(e.y, 6) for e in ends)
            zs = sorted(round(e.z, 6) for e in ends)
            spans.add((ys[0], ys[1], zs[1] if board == "top" else zs[0]))
    return sorted(spans)


def _door_detail(
    scene: Scene, whole: UnitView, letter: str, board: str, tracks: list[Track]
) -> UnitView:
    part = scene.unit.by_name[board]
    box = part.box
    spans = _groove_spans(scene, board)
    is_top = board == "top"
    face = box.low.z if is_top else box.high.z
    front = box.low.y
    back = max(span[1] for span in spans) + _BESIDE
    low, high = (face - _INSIDE, box.high.z) if is_top else (box.low.z, face + _INSIDE)
    # Seen from the left, the front is at the right: u = -y.
    window = ViewBounds(-back, low, -front + 4.0, high)
    frame_lines = _frame(window)
    wishes = _groove_wishes(scene, board, spans, face, tracks)
    return UnitView(
        title=f"detail {letter}, door grooves in the {board}",
        frame=FROM_LEFT,
        bounds=window,
        curves=(
            *((ink, tuple(clipped(curves, window))) for ink, curves in whole.curves),
            (Ink.RING, frame_lines),
        ),
        wishes=wishes,
        letter=letter,
    )


def _frame(window: ViewBounds) -> tuple[Curve, ...]:
    corners = [
        ViewPoint(window.left, window.bottom),
        ViewPoint(window.right, window.bottom),
        ViewPoint(window.right, window.top),
        ViewPoint(window.left, window.top),
    ]
    return tuple(Segment(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))


def _groove_wishes(
    scene: Scene,
    board: str,
    spans: list[tuple[float, float, float]],
    face: float,
    tracks: list[Track],
) -> tuple[Wish, ...]:
    is_top = board == "top"
    level = Edge.ABOVE if is_top else Edge.BELOW
    front = scene.unit.by_name[board].box.low.y
    wishes: list[Wish] = []
    before = front
    for index, (near, far, _) in enumerate(spans, start=1):
        what = "front edge" if index == 1 else f"groove {index - 1}"
        wishes.append(
            Wish(
                edge=level,
                axis=1,
                start=before,
                end=near,
                title=f"{board}, {what} to groove {index}",
            )
        )
        wishes.append(
            Wish(edge=level, axis=1, start=near, end=far, title=f"{board}, groove {index} width")
        )
        before = far
    door = scene.unit.by_name[tracks[0].door].box
    tip = door.high.z if is_top else door.low.z
    wishes.append(
        Wish(edge=Edge.LEFT, axis=2, start=face, end=spans[0][2], title=f"{board}, groove depth")
    )
    wishes.append(
        Wish(
            edge=Edge.RIGHT,
            axis=2,
            start=face,
            end=tip,
            title=f"{board}, door in the groove when at rest",
        )
    )
    return tuple(wishes)


# On paper


def _fitted(
    scene: Scene,
    view: UnitView,
    details: tuple[UnitView, ...],
    cut: Mapping[str, SectionCut],
    block: TitleBlock,
    title: str,
    name: str,
) -> Sheet:
    style = style_for(SIZE)
    for scale in SCALES:
        for detail_scale in DETAIL_SCALES if details else DETAIL_SCALES[:1]:
            placed = _placed(scene, view, details, cut, (scale, detail_scale), style)
            if placed is not None:
                sheet = _sheet(
                    scene, view, details, placed, block, (title, name), (scale, detail_scale)
                )
                stocks = (part.board.stock for part in _cut_parts(scene, cut))
                legend = hatch_legend(stocks, sheet.marks, SIZE, scale)
                return sheet if legend is None else replace(sheet, marks=(*sheet.marks, legend))
    raise DesignError(f"{scene.unit.name}: {title} fits no A3 at 1:50", part=scene.unit.name)


def _hatched(scene: Scene, view: UnitView, cut: Mapping[str, SectionCut], scale: float) -> UnitView:
    """The view with its hatching set out for its scale."""
    lines = tuple(_hatching(scene, cut, view, scale))
    curves = tuple((ink, lines if ink is Ink.HATCH else those) for ink, those in view.curves)
    return replace(view, curves=curves)


def _placed(
    scene: Scene,
    view: UnitView,
    details: tuple[UnitView, ...],
    cut: Mapping[str, SectionCut],
    scales: tuple[float, float],
    style: Style,
) -> list[Block] | None:
    """Section and details side by side, None if they do not fit above the title block."""
    scale, detail_scale = scales
    space = drawing_space(SIZE)
    if not _could_fit(view, details, scales, space):
        return None
    blocks = [
        view_on_paper(
            _hatched(scene, view, cut, scale),
            scale,
            style,
            heading=view.title.replace("section ", ""),
        )
    ]
    for detail in details:
        heading = f"{detail.letter} ({scale_text(detail_scale)})"
        blocks.append(
            view_on_paper(
                _hatched(scene, detail, cut, detail_scale), detail_scale, style, heading=heading
            )
        )
    if details:
        blocks[0] = _ringed(blocks[0], view, details, scale, style)
    notes = _door_notes(scene, style) if details else None
    width = sum(b.box.width for b in blocks) + _APART * (len(blocks) - 1)
    if width > space.width - 2 * _MARGIN:
        return None
    spare = (space.width - 2 * _MARGIN - width) / (len(blocks) + 1)
    x = space.left + _MARGIN + spare
    title = title_block_box(SIZE)
    room = title.top - 6.0 - (space.top + _MARGIN)
    found = []
    for b in blocks:
        top = space.top + _MARGIN + max(0.0, (room - b.box.height) / 2)
        moved = b.moved(x - b.box.left, top - b.box.top)
        if not space.grown(-4.0).contains(moved.box) or moved.box.overlaps(title, 4.0):
            return None
        if notes is not None and moved.box.overlaps(notes.box, 4.0):
            return None
        found.append(moved)
        x += b.box.width + _APART + spare
    return [*found, notes] if notes is not None else found


def _could_fit(
    view: UnitView, details: tuple[UnitView, ...], scales: tuple[float, float], space: PaperBox
) -> bool:
    """Whether the bare outlines fit side by side; told before anything is hatched."""
    scale, detail_scale = scales
    width = view.bounds.width * scale + _APART * len(details)
    width += sum(detail.bounds.width for detail in details) * detail_scale
    height = max(
        view.bounds.height * scale, *(d.bounds.height * detail_scale for d in details), 0.0
    )
    room = space.grown(-_MARGIN)
    return width <= room.width and height <= room.height


def _door_notes(scene: Scene, style: Style) -> Block:
    """How the doors go in and what they run on, at the foot of the sheet."""
    tracks = [joint for joint in scene.unit.joints if isinstance(joint, Track)]
    bar = max(track.bar for track in tracks)
    lift = max(m.high for m in scene.unit.moves if m.motion is Motion.LIFT)
    texts = [
        f"The doors stand on round steel bars ⌀{dimension_text(bar)} that lie on the floors of "
        "the base's grooves.",
        f"To hang a door: head up into the top's groove, foot in over the base, down on to its "
        f"bar. It must rise {dimension_text(lift)} to come out again.",
        "Widths and depths of grooves stand with their tolerances on the sheets of top and base.",
    ]
    space, title = drawing_space(SIZE), title_block_box(SIZE)
    width = title.left - 12.0 - (space.left + 6.0)
    placed = notes_marks(
        texts, at=PaperPoint(space.left + 6.0, title.top), width=width, style=style
    )
    return Block(marks=placed.marks, box=placed.box, outline=placed.box)


def _ringed(
    block: Block, view: UnitView, details: tuple[UnitView, ...], scale: float, style: Style
) -> Block:
    """The section with a ring round the place of each detail, and its letter beside it."""
    clutter = Clutter(block.marks)
    marks: list[Mark] = []
    for detail in details:
        window = detail.bounds
        middle = ViewPoint((window.left + window.right) / 2, (window.bottom + window.top) / 2)
        at = ViewPaper(bounds=view.bounds, scale=scale).point(middle)
        radius = math.hypot(window.width, window.height) / 2 * scale
        ring = Circle(at, radius, Ink.RING)
        marks.append(ring)
        clutter.add((ring,))
        letter = placed_label(
            _round(at, radius, detail.letter, style), clutter, within=None, gap=style.text_clearance
        )
        if letter is None:
            raise NoRoom(f"letter of detail {detail.letter}")
        marks.append(letter)
    group = Group("detail-place", tuple(marks), title="places of the details")
    return replace(block, marks=(*block.marks, group))


def _round(at: PaperPoint, radius: float, letter: str, style: Style) -> Iterator[Places]:
    """Places for a letter round a ring, near ones first."""
    height = style.letter_height
    middle = np.array([at.x, at.y + height / 2])
    for away in (4.0, 6.0, 9.0, 13.0, 18.0, 25.0, 35.0):
        points = middle + (radius + away) * _ROUND
        yield Places(Text(at, letter, height, Anchor.MIDDLE), points)


def _sheet(
    scene: Scene,
    view: UnitView,
    details: tuple[UnitView, ...],
    blocks: list[Block],
    block: TitleBlock,
    names: tuple[str, str],
    scales: tuple[float, float],
) -> Sheet:
    title, name = names
    style = style_for(SIZE)
    scale = scale_text(scales[0]) + (f" ({scale_text(scales[1])})" if details else "")
    filled = replace(
        block,
        title=title,
        supplementary_title=scene.unit.name,
        scale=scale,
        document_type="section",
    )
    marks: list[Mark] = [*frame_marks(SIZE, style), *title_block_marks(filled, SIZE, style)]
    for placed in blocks:
        marks += placed.marks
    views = [SheetView(title=view.title, scale=scale_text(scales[0]))]
    views += [SheetView(title=d.title, scale=scale_text(scales[1])) for d in details]
    return Sheet(
        number=block.sheet_number,
        name=name,
        title=title,
        size=SIZE,
        marks=tuple(marks),
        views=tuple(views),
    )
