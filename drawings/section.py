"""Solids cut by a plane: the cut faces, and what is seen behind them.

The plane is seen square on: it stands at right angles to the direction of view, and what lies
between it and the viewer is taken away.

A face that only lies in the plane is not cut: cut is where there was material on both sides.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import cadquery as cq
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepTools import BRepTools_WireExplorer
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.Standard import Standard_Failure
from OCP.TopAbs import TopAbs_Orientation

from cabinet.errors import KernelError
from cabinet.frame import Vector
from drawings.coincidence import without
from drawings.curves import ArcCurve, Curve, PolyCurve, Segment, ViewPoint, bounds, ends, sort_key
from drawings.projection import Projection, project
from drawings.tracing import curve_of
from drawings.view_frame import PLAN, ViewFrame

_MARGIN = 10.0
_IN_PLANE = 1e-6
# Outlines farther than this from what is seen cover nothing of it, mm.
_NEAR = 1.0

Loop = tuple[Curve, ...]
"""A closed loop: each curve begins where the one before it ended.

Segments and ``PolyCurve``s run along the loop. Arcs always turn counter-clockwise, so in a
loop that goes round one the other way, the arc's end comes first.
"""


@dataclass(frozen=True, slots=True)
class CutFace:
    """One cut face, in the view's frame.

    Attributes:
        outer: Its outline, counter-clockwise.
        inner: The outlines of the openings within it, clockwise.
    """

    outer: Loop
    inner: tuple[Loop, ...]

    @property
    def loops(self) -> tuple[Loop, ...]:
        """All its loops, the outer one first: what hatching needs."""
        return self.outer, *self.inner


@dataclass(frozen=True, slots=True)
class SectionCut:
    """One part in a section.

    Attributes:
        faces: What the plane cuts, ordered by geometry; empty if the part lies behind it.
        behind: What is seen of it besides the outlines of the cut faces.
    """

    faces: tuple[CutFace, ...]
    behind: Projection

    @property
    def loops(self) -> tuple[Loop, ...]:
        """The loops of all its cut faces."""
        return tuple(loop for face in self.faces for loop in face.loops)


def cut(
    name: str, solid: cq.Shape, plane_point: Vector, frame: ViewFrame, *, with_hidden: bool = False
) -> SectionCut | None:
    """Cut one solid, as ``section`` does; None if it lies wholly before the plane."""
    return section({name: solid}, plane_point, frame, with_hidden=with_hidden).get(name)


def section(
    solids: Mapping[str, cq.Shape],
    plane_point: Vector,
    frame: ViewFrame,
    *,
    with_hidden: bool = False,
) -> dict[str, SectionCut]:
    """Cut solids by the plane through a point and at right angles to the direction of view.

    Args:
        solids: Every solid in the frame of the model, under its part's name. Solids may touch.
        plane_point: A point of the plane, mm in the frame of the model.
        frame: From where the section is seen.
        with_hidden: Whether hidden edges behind the plane are kept. They are left out
            otherwise (Source: ISO 128-3: no hidden edges in sections unless essential).

    Returns:
        A cut for each part of which something is left, in the order given.

    Raises:
        KernelError: the kernel cannot cut a solid, or gives what cannot be right; ``part``
            names it.
    """
    height = frame.nearness(plane_point)
    into_view = _into_view(frame, height)
    rests: dict[str, cq.Shape] = {}
    faces: dict[str, tuple[CutFace, ...]] = {}
    for name, solid in solids.items():
        try:
            rest, caps = _parted(name, solid.moved(into_view))
            faces[name] = tuple(sorted((_cut_face(cap) for cap in caps), key=_face_key))
        except KernelError:
            raise
        except (Standard_Failure, RuntimeError, ValueError) as error:
            raise KernelError(
                f"{name}: the kernel cannot cut it ({error}); check that the solid is valid",
                part=name,
                limit="a valid solid",
            ) from error
        if rest is not None:
            rests[name] = rest
    cuts = [face for name in rests for face in faces[name]]
    return {
        name: SectionCut(
            faces[name],
            Projection(
                _beside(cuts, seen.visible),
                _beside(cuts, seen.hidden) if with_hidden else (),
            ),
        )
        for name, seen in project(rests, PLAN).items()
    }


def _beside(cuts: Sequence[CutFace], seen: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """Curves less what of them lies beneath the outlines of cut faces."""
    if not seen:
        return ()
    box = bounds(seen).grown(_NEAR)
    near = [face for face in cuts if bounds(face.outer).meets(box)]
    return without(seen, [curve for face in near for loop in face.loops for curve in loop])


def _into_view(frame: ViewFrame, height: float) -> cq.Location:
    """The move that brings the plane to z = 0, with u along X, v along Y, the viewer up Z."""
    origin = cq.Vector(*frame.toward) * height
    plane = cq.Plane(origin=origin, xDir=frame.right, normal=frame.toward)
    return cq.Location(plane).inverse


def _parted(name: str, solid: cq.Shape) -> tuple[cq.Shape | None, list[cq.Face]]:
    """What is left of a solid below z = 0, and the faces that the cut made."""
    box = solid.BoundingBox()
    if box.zmin >= -_IN_PLANE:
        return None, []
    if box.zmax <= _IN_PLANE:
        return solid, []
    plane = cq.Face.makePlane(
        box.ylen + 2 * _MARGIN, box.xlen + 2 * _MARGIN, (box.center.x, box.center.y, 0.0)
    )
    pieces = solid.split(plane).Solids()
    whole, parts = solid.Volume(), sum(piece.Volume() for piece in pieces)
    if abs(whole - parts) > 1e-6 * whole:
        raise KernelError(
            f"{name}: cut apart it has {parts:.1f} mm3 of {whole:.1f} mm3; "
            "check that the solid is valid",
            part=name,
            value=parts,
            limit=whole,
        )
    rests = [piece for piece in pieces if _lies_below(piece)]
    if not rests:
        return None, []
    rest = cq.Compound.makeCompound(rests)
    return rest, _caps(solid, rest)


def _caps(solid: cq.Shape, rest: cq.Shape) -> list[cq.Face]:
    caps = [face for face in rest.Faces() if _lies_in_plane(face)]
    # A face of the solid that lay in the plane already, such as a groove's floor, is no cut.
    old = [face for face in solid.Faces() if _lies_in_plane(face)]
    if not old:
        return caps
    return [piece for cap in caps for piece in cap.cut(*old).Faces()]


def _lies_below(piece: cq.Shape) -> bool:
    """Whether what the plane cut off lies below it, by a corner that is not in the plane."""
    for corner in piece.Vertices():
        height: float = BRep_Tool.Pnt_s(corner.wrapped).Z()
        if abs(height) > _IN_PLANE:
            return height < 0
    return piece.Center().z < 0


def _lies_in_plane(face: cq.Face) -> bool:
    """Whether a face is plane, lies in z = 0 and looks at the viewer."""
    surface = BRepAdaptor_Surface(face.wrapped, False)  # noqa: FBT003 - the plane, not its bounds
    if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_Plane:
        return False
    plane = surface.Plane()
    normal = plane.Axis().Direction().Z() * (1.0 if plane.Direct() else -1.0)
    is_turned = face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    is_level: bool = (-normal if is_turned else normal) > 1.0 - 1e-9
    height: float = plane.Location().Z()
    return is_level and abs(height) <= _IN_PLANE


# Loops


def _cut_face(cap: cq.Face) -> CutFace:
    outer = _loop(cap.outerWire(), is_counter_clockwise=True)
    inner = [_loop(wire, is_counter_clockwise=False) for wire in cap.innerWires()]
    return CutFace(outer, tuple(sorted(inner, key=_loop_key)))


def _loop(wire: cq.Wire, *, is_counter_clockwise: bool) -> Loop:
    """A wire in the plane z = 0 as a loop that runs the way asked for.

    It begins at the curve that comes first by geometry.
    """
    explorer = BRepTools_WireExplorer(wire.wrapped)
    curves: list[Curve] = []
    trail: list[ViewPoint] = []
    while explorer.More():
        curve = curve_of(explorer.Current())
        if curve is not None:
            vertex = BRep_Tool.Pnt_s(explorer.CurrentVertex())
            begin = ViewPoint(vertex.X(), vertex.Y())
            first, last = ends(curve)
            is_backwards = _gap(begin, last) < _gap(begin, first)
            curves.append(_reversed(curve) if is_backwards else curve)
            trail += _stations(curve)[:: -1 if is_backwards else 1]
        explorer.Next()
    loop = _in_line(curves)
    if (_turn(trail) > 0) != is_counter_clockwise:
        loop = tuple(_reversed(curve) for curve in loop[::-1])
    start = min(range(len(loop)), key=lambda index: sort_key(loop[index]))
    return loop[start:] + loop[:start]


def _stations(curve: Curve) -> list[ViewPoint]:
    """Points along a curve, enough to tell which way a loop turns."""
    if isinstance(curve, ArcCurve):
        return [curve.point_at(curve.start + k * (curve.end - curve.start) / 8) for k in range(9)]
    return list(curve.points if isinstance(curve, PolyCurve) else (curve.start, curve.end))


def _turn(trail: Sequence[ViewPoint]) -> float:
    """Twice the area within a closed trail in mm2, positive if it runs counter-clockwise."""
    pairs = zip(trail, [*trail[1:], *trail[:1]], strict=True)
    return sum(a.u * b.v - b.u * a.v for a, b in pairs)


def _reversed(curve: Curve) -> Curve:
    if isinstance(curve, Segment):
        return Segment(curve.end, curve.start)
    if isinstance(curve, PolyCurve):
        return PolyCurve(curve.points[::-1])
    return curve


def _gap(one: ViewPoint, other: ViewPoint) -> float:
    return math.hypot(one.u - other.u, one.v - other.v)


def _in_line(curves: Sequence[Curve]) -> Loop:
    """The loop with neighbouring segments that run on in one direction made one."""
    result: list[Curve] = []
    for curve in curves:
        if result and (longer := _run_on(result[-1], curve)) is not None:
            result[-1] = longer
        else:
            result.append(curve)
    if len(result) > 2 and (longer := _run_on(result[-1], result[0])) is not None:
        result = [longer, *result[1:-1]]
    return tuple(result)


def _run_on(one: Curve, other: Curve) -> Segment | None:
    if not isinstance(one, Segment) or not isinstance(other, Segment):
        return None
    (a, b), c = (one.start, one.end), other.end
    across = (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u)
    ahead = (b.u - a.u) * (c.u - b.u) + (b.v - a.v) * (c.v - b.v)
    reach = max(abs(c.u - a.u), abs(c.v - a.v))
    return Segment(a, c) if ahead > 0 and abs(across) <= 2.5e-4 * reach else None


def _loop_key(loop: Loop) -> tuple[tuple[int, tuple[float, ...]], ...]:
    return tuple(sort_key(curve) for curve in loop)


def _face_key(face: CutFace) -> tuple[float, ...]:
    box = bounds(face.outer)
    return box.left, box.bottom, box.right, box.top
