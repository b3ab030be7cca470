"""Boards, their features and hardware as CadQuery solids: the only file that builds them.

A board's solid is in the board's frame and finished: flush trims are taken off. Every cutter
reaches a little past the surface from which it cuts, so that no face of a cutter lies in a
face of the board. Equal boards share one solid; nobody may change it.
"""

from __future__ import annotations

import io
import math
from dataclasses import dataclass
from functools import lru_cache, singledispatch

import cadquery as cq
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

from cabinet.board import At, BoardBox, BoardSize
from cabinet.errors import KernelError
from cabinet.features import (
    BISCUIT_BLADE_RADIUS,
    Bevel,
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Perforation,
    Rebate,
)
from cabinet.frame import Placement, Side
from cabinet.hardware import BiscuitPiece, Body, Hardware, Rod, Screw
from cabinet.part import Board, Part

# How far a cutter reaches past the surface that it enters by, mm.
PAST = 1.0

Numbers = tuple[float, float, float]


def _extended(box: BoardBox, size: BoardSize) -> BoardBox:
    """The box with every side that lies in or past the board's surface moved out by PAST."""
    low = tuple(a - PAST if a <= 1e-9 else a for a in box.low)
    high = tuple(
        b + PAST if b >= extent - 1e-9 else b
        for b, extent in zip(box.high, size.along, strict=True)
    )
    return BoardBox(low=low, high=high)  # type: ignore[arg-type]


def _block(box: BoardBox) -> cq.Shape:
    return cq.Solid.makeBox(*box.size, cq.Vector(*box.low))


def _axis_vector(axis: int, sign: float = 1.0) -> cq.Vector:
    parts = [0.0, 0.0, 0.0]
    parts[axis] = sign
    return cq.Vector(*parts)


def _rounded_block(box: BoardBox, axis: int, radii: tuple[float, float, float, float]) -> cq.Shape:
    """A block with round edges along ``axis``.

    Args:
        box: The block.
        axis: Board axis along which the round edges run.
        radii: Radii of the four corners, in the plane of the other two axes (u before v), at
            (low u, low v), (high u, low v), (high u, high v), (low u, high v).
    """
    u, v = (a for a in range(3) if a != axis)
    corners = [
        (box.low[u], box.low[v]),
        (box.high[u], box.low[v]),
        (box.high[u], box.high[v]),
        (box.low[u], box.high[v]),
    ]
    inward = [(1, 1), (-1, 1), (-1, -1), (1, -1)]

    def at(point: tuple[float, float]) -> cq.Vector:
        place = [0.0, 0.0, 0.0]
        place[axis], place[u], place[v] = box.low[axis], point[0], point[1]
        return cq.Vector(*place)

    edges: list[cq.Edge] = []
    ends: list[tuple[tuple[float, float], tuple[float, float]]] = []
    for index, ((x, y), (sx, sy), r) in enumerate(zip(corners, inward, radii, strict=True)):
        along_v = (x, y + sy * r)
        along_u = (x + sx * r, y)
        first, second = (along_v, along_u) if index % 2 == 0 else (along_u, along_v)
        ends.append((first, second))
        if r > 0:
            bend = r * (1 - math.sqrt(0.5))
            edges.append(
                cq.Edge.makeThreePointArc(at(first), at((x + sx * bend, y + sy * bend)), at(second))
            )
    for (_, leave), (arrive, _) in zip(ends, ends[1:] + ends[:1], strict=True):
        if math.dist(leave, arrive) > 1e-9:
            edges.append(cq.Edge.makeLine(at(leave), at(arrive)))
    wire = cq.Wire.assembleEdges(cq.Wire.combine(edges)[0].Edges())
    return cq.Solid.extrudeLinear(wire, [], _axis_vector(axis, box.size[axis]))


@singledispatch
def cutter(feature: Feature, size: BoardSize) -> cq.Shape | None:  # noqa: ARG001 - size is for those registered below
    """The body that a feature takes away from a board, in the board's frame.

    Args:
        feature: The feature.
        size: Sizes of its board, mm.

    Returns:
        The body, or None for a feature that takes nothing from the solid.
    """
    raise KernelError(f"no solid is known for a {type(feature).__name__}", value=feature)


@cutter.register
def _(feature: Groove, size: BoardSize) -> cq.Shape | None:
    box = _extended(feature.box(size), size)
    if feature.end_radius == 0:
        return _block(box)
    run = feature.run_axis
    raw = feature.box(size)
    stopped_low = raw.low[run] > 1e-9
    stopped_high = raw.high[run] < size.along[run] - 1e-9
    r = feature.end_radius
    u = next(a for a in range(3) if a != feature.surface.axis)
    low, high = (r if stopped_low else 0.0), (r if stopped_high else 0.0)
    radii = (low, high, high, low) if run == u else (low, low, high, high)
    return _rounded_block(box, feature.surface.axis, radii)


@cutter.register
def _(feature: Rebate, size: BoardSize) -> cq.Shape | None:
    return _block(_extended(feature.box(size), size))


@cutter.register
def _(feature: Notch, size: BoardSize) -> cq.Shape | None:
    return _block(_extended(feature.box(size), size))


@cutter.register
def _(feature: Bevel, size: BoardSize) -> cq.Shape | None:
    slope = math.tan(math.radians(feature.angle))
    past = size.thickness + PAST
    # (distance from the edge into the board, distance from the sharp face)
    corners = [
        (-PAST, feature.land - PAST / slope),
        ((past - feature.land) * slope, past),
        (-PAST, past),
    ]
    run = 3 - feature.edge.axis - feature.sharp.axis
    points = []
    for from_edge, from_face in corners:
        place = [0.0, 0.0, 0.0]
        place[feature.edge.axis] = At(feature.edge, from_edge).coordinate(size)
        place[2] = At(feature.sharp, from_face).coordinate(size)
        place[run] = -PAST
        points.append(cq.Vector(*place))
    wire = cq.Wire.makePolygon(points, close=True)
    length = size.along[run] + 2 * PAST
    return cq.Solid.extrudeLinear(wire, [], _axis_vector(run, length))


@cutter.register
def _(feature: Hole, size: BoardSize) -> cq.Shape | None:
    place = [0.0, 0.0, 0.0]
    for at in feature.centre:
        place[at.axis] = at.coordinate(size)
    axis = feature.surface.axis
    place[axis] = At(feature.surface, -PAST).coordinate(size)
    inward = _axis_vector(axis, -feature.surface.sign)
    extent = size.along[axis]
    depth = PAST + (feature.depth if feature.depth is not None else extent + PAST)
    narrow, wide = feature.diameter / 2, feature.countersink / 2
    if wide == 0:
        return cq.Solid.makeCylinder(narrow, depth, cq.Vector(*place), inward)
    cone = wide + PAST, PAST + wide - narrow
    return _coned_cylinder(narrow, depth, cone, cq.Vector(*place), inward)


def _coned_cylinder(
    radius: float, length: float, cone: tuple[float, float], base: cq.Vector, way: cq.Vector
) -> cq.Shape:
    """A round bar with a cone about its beginning, turned from one outline.

    Args:
        radius: Of the bar.
        length: Of the bar, cone and all; the cone is no longer.
        cone: Radius of the cone at the beginning, and how far on it has that of the bar.
        base: Middle of the beginning.
        way: Direction of the axis.
    """
    wide, reach = cone
    across = cq.Plane(base, normal=way).xDir
    corners = [(0.0, 0.0), (wide, 0.0), (radius, reach), (radius, length), (0.0, length)]
    outline = [base + across * r + way * z for r, z in dict.fromkeys(corners)]
    return cq.Solid.revolve(cq.Wire.makePolygon(outline, close=True), [], 360.0, base, base + way)


@cutter.register
def _(feature: HoleRow, size: BoardSize) -> cq.Shape | None:
    return cq.Compound.makeCompound([b for h in feature.holes if (b := cutter(h, size))])


@cutter.register
def _(feature: CutOut, size: BoardSize) -> cq.Shape | None:
    r = feature.corner_radius
    return _rounded_block(_extended(feature.box(size), size), 2, (r, r, r, r))


@cutter.register
def _(feature: BiscuitSlot, size: BoardSize) -> cq.Shape | None:
    depth = feature.biscuit.slot_depth
    place = [0.0, 0.0, 0.0]
    place[feature.surface.axis] = At(feature.surface, depth - BISCUIT_BLADE_RADIUS).coordinate(size)
    place[feature.centre.axis] = feature.centre.coordinate(size)
    axis = feature.height.axis
    place[axis] = feature.height.coordinate(size) - feature.biscuit.thickness / 2
    return cq.Solid.makeCylinder(
        BISCUIT_BLADE_RADIUS, feature.biscuit.thickness, cq.Vector(*place), _axis_vector(axis)
    )


@cutter.register
def _(feature: FlushTrim, size: BoardSize) -> cq.Shape | None:
    return _block(_extended(feature.box(size), size))


@cutter.register
def _(_feature: Perforation, _size: BoardSize) -> cq.Shape | None:
    return None


def blank_solid(size: BoardSize) -> cq.Shape:
    """A plain block with its low corner at the board's origin."""
    return cq.Solid.makeBox(*size.along)


def solid(board: Board) -> cq.Shape:
    """The finished solid of a board, in the board's frame.

    Raises:
        KernelError: the kernel failed, or gave a solid that is invalid, in several pieces,
            or of a volume that the cuts cannot have left.
    """
    return _made(board).solid


@dataclass(frozen=True, slots=True)
class _Made:
    """A finished board's solid, its volume in mm3 and the centre of that in mm."""

    solid: cq.Shape
    volume: float
    centre: Numbers


@dataclass(frozen=True, slots=True)
class PackedSolid:
    """A finished board's solid as another process can take it over.

    Attributes:
        content: The solid in the kernel's own binary form.
        volume: Its volume, mm3.
        centre: The centre of that, mm, in the board's frame.
    """

    content: bytes
    volume: float
    centre: Numbers


def packed(part: Part) -> PackedSolid:
    """The solid of a part's board, made here, for another process to take over.

    Raises:
        KernelError: as for ``part_solid``.
    """
    part_solid(part)
    made = _made(part.board)
    stream = io.BytesIO()
    made.solid.exportBin(stream)
    return PackedSolid(stream.getvalue(), made.volume, made.centre)


def take_over(board: Board, solid: PackedSolid) -> None:
    """Take a board's solid that another process made; nothing is done where it is known."""
    _handed_over[board] = solid
    _made(board)
    _handed_over.pop(board, None)


_handed_over: dict[Board, PackedSolid] = {}


def _unpacked(solid: PackedSolid) -> _Made:
    shape = cq.Shape.importBin(io.BytesIO(solid.content))
    return _Made(shape, solid.volume, solid.centre)


@lru_cache(maxsize=4096)
def _made(board: Board) -> _Made:
    if (known := _handed_over.pop(board, None)) is not None:
        return _unpacked(known)
    size = board.size
    cutters = [body for f in board.features if (body := cutter(f, size)) is not None]
    block = blank_solid(size)
    if not cutters:
        return _measured(block)
    try:
        result = block.cut(*cutters).clean()
    except Exception as error:
        raise KernelError(f"the kernel could not cut the features: {error}") from error
    solids = result.Solids()
    if len(solids) != 1:
        raise KernelError(
            f"the cuts leave {len(solids)} pieces where one board should be left",
            value=len(solids),
            limit=1,
        )
    made = _measured(solids[0])
    most = math.prod(size.along)
    # No cutter takes more than the box around it.
    least = most - sum(math.prod(f.box(size).size) for f in board.features)
    if not made.solid.isValid() or not least - 1.0 <= made.volume < most:
        raise KernelError(
            f"the kernel gave a solid of {made.volume:.1f} mm3, which these cuts cannot leave",
            value=made.volume,
            limit=(least, most),
        )
    return made


def _measured(shape: cq.Shape) -> _Made:
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape.wrapped, properties)
    centre = properties.CentreOfMass()
    return _Made(shape, properties.Mass(), (centre.X(), centre.Y(), centre.Z()))


def location(placement: Placement) -> cq.Location:
    """The kernel's location of a board placed in the unit."""
    along, _, up = (cq.Vector(*side.vector) for side in placement.directions)
    return cq.Location(cq.Plane(cq.Vector(*placement.origin), along, up))


def part_solid(part: Part) -> cq.Shape:
    """The finished solid of a part in its place in the unit.

    Raises:
        KernelError: as for ``solid``; the message names the part.
    """
    try:
        return solid(part.board).located(location(part.placement))
    except KernelError as error:
        raise KernelError(
            f"{part.name}: {error}", part=part.name, value=error.value, limit=error.limit
        ) from error


@lru_cache(maxsize=1024)
def hardware_shape(body: Body, axis: Side) -> cq.Shape:
    """The solid of a kind of hardware that begins at the origin and points along ``axis``.

    Equal pieces share it; nobody may change it.
    """
    base, direction = cq.Vector(0, 0, 0), cq.Vector(*axis.vector)
    if isinstance(body, Rod):
        return cq.Solid.makeCylinder(body.diameter / 2, body.length, base, direction)
    if isinstance(body, Screw):
        head = body.head_diameter / 2
        cone = head, head - body.core / 2
        return _coned_cylinder(body.core / 2, body.length, cone, base, direction)
    return _biscuit_solid(body, axis)


def _biscuit_solid(piece: BiscuitPiece, axis: Side) -> cq.Shape:
    """A lens about the origin: two arcs through the tips and the middle of its width."""
    biscuit = piece.biscuit
    out = cq.Vector(*axis.vector) * (biscuit.width / 2)
    along = cq.Vector(*piece.along.vector) * (biscuit.length / 2)
    normal = cq.Vector(*axis.cross(piece.along).vector) * biscuit.thickness
    low = normal * -0.5
    edges = [
        cq.Edge.makeThreePointArc(low - along, low + out, low + along),
        cq.Edge.makeThreePointArc(low + along, low - out, low - along),
    ]
    return cq.Solid.extrudeLinear(cq.Wire.assembleEdges(edges), [], normal)


def hardware_location(item: Hardware) -> cq.Location:
    """Where the shape of a piece of hardware lies in the unit."""
    return cq.Location(cq.Vector(*item.at))


def hardware_solid(item: Hardware) -> cq.Shape:
    """The solid of a piece of hardware in its place in the unit."""
    return hardware_shape(item.body, item.axis).moved(hardware_location(item))


def volume(board: Board) -> float:
    """Volume of the finished board in mm3, the holes of a perforation taken off."""
    return _made(board).volume - board.open_area * board.thickness


def centre_of_mass(board: Board) -> Numbers:
    """Centre of the finished board's volume in the board's frame, mm."""
    return _made(board).centre


__all__ = [
    "blank_solid",
    "centre_of_mass",
    "cutter",
    "hardware_location",
    "hardware_shape",
    "hardware_solid",
    "location",
    "part_solid",
    "solid",
    "volume",
]
