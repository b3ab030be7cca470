"""Lines that lie in another body's round face, which the kernel draws though the body hides them.

Whether a line is hidden by a face changes, for the kernel, where the two cross in the view. The
rim of a bore that a bar fits exactly never crosses the outline of the bar: it only touches it,
and lies in the face itself. So the kernel keeps the whole rim, also the half behind the bar.

What is missing is certain: where the face looks away from the viewer, the line of sight from the
line enters the body at once. This is asked of the lines that lie in a round face of another body,
and taken from what the algorithm shows of them. Only a face around its body can hide what lies
in it: from the wall of a bore a line of sight leaves by some other face, which the kernel sees.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from OCP.Bnd import Bnd_Box
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepClass import BRepClass_FaceClassifier
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.gp import gp_Cylinder, gp_Pnt2d
from OCP.HLRBRep import HLRBRep, HLRBRep_Algo, HLRBRep_Curve, HLRBRep_FaceIterator
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum, TopAbs_State
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Face, TopoDS_Shape

from cabinet.frame import Vector
from drawings.coincidence import Interval, less

# How far from a face a line may lie to lie in it, mm.
_IN_FACE = 1e-6
# A face looks away from the viewer if the sine of its slope to the line of sight is beyond this.
_EDGE_ON = 1e-6
# How far before a line, mm, and how far beside it, radians, it is asked what lies there.
_BEFORE, _ASIDE = 1e-4, 1e-6
_STATIONS = 16
_HALVINGS = 24

# A shorter stretch of a line is an error of rounding, in the parameter of its curve.
_LEAST = 1e-9

Floats = NDArray[np.float64]
Truths = NDArray[np.bool_]

DrawnEdges = tuple[list[TopoDS_Edge], list[TopoDS_Edge]]
"""Visible and hidden edges of a shape in the plane of the view, with curves in it only."""


@dataclass(frozen=True, slots=True)
class _RoundFace:
    """A cylindrical face of a body that lies within the cylinder.

    Attributes:
        owner: Place of its body in the order.
        face: The kernel's face.
        axes: Rows: the surface's directions x and y, from which its turns are told, and its
            axis; unit vectors.
        origin: A point of the axis, mm.
        radius: Radius in mm.
        start: Turn at which the face begins, radians.
        low: Low corner of a box around the face, mm.
        high: High corner.
    """

    owner: int
    face: TopoDS_Face
    axes: Floats
    origin: Floats
    radius: float
    start: float
    low: Floats
    high: Floats

    def holds(self, points: Floats) -> Truths:
        """Whether points (..., 3) all lie in the surface of which it is a part: one for each row."""
        across = (points - self.origin) @ self.axes[:2].T
        gaps = np.abs(np.sqrt((across**2).sum(axis=-1)) - self.radius)
        held: Truths = (gaps <= _IN_FACE).all(axis=-1)
        return held

    def looks_away(self, points: Floats, toward: Vector) -> bool:
        """Whether at one of some points (n, 3) in it the face looks away from the viewer."""
        across = (points - self.origin) @ self.axes[:2].T
        facing = across @ (self.axes[:2] @ np.array(toward))
        return bool(facing.min() < -_EDGE_ON * self.radius)

    def is_entered(self, point: Vector, toward: Vector) -> bool:
        """Whether a line of sight from a point in the surface enters the body through the face."""
        at, sight = self.axes @ (np.array(point) - self.origin), self.axes @ np.array(toward)
        if at[:2] @ sight[:2] >= -_EDGE_ON * self.radius:
            return False
        # What lies a little further on beneath the face, and to both sides, is the body.
        x, y, along = (at + _BEFORE * sight).tolist()
        turn = (math.atan2(y, x) - self.start) % math.tau + self.start
        classifier = BRepClass_FaceClassifier()
        for aside in (-_ASIDE, _ASIDE):
            beside = (turn + aside - self.start) % math.tau + self.start
            classifier.Perform(self.face, gp_Pnt2d(beside, along), _IN_FACE)
            if classifier.State() != TopAbs_State.TopAbs_IN:
                return False
        return True


@dataclass
class _Line:
    """A line of a shape.

    Attributes:
        curve: Where it runs.
        seen: The same in the view.
        ends: Parameters of its ends.
        visible: The stretches of it that are seen.
    """

    curve: BRepAdaptor_Curve
    seen: HLRBRep_Curve
    ends: Interval
    visible: list[Interval]

    @cached_property
    def points(self) -> Floats:
        """Some points of it, shape (n, 3), mm."""
        low, high = self.ends
        places = [self.curve.Value(low + share * (high - low)) for share in (0, 0.31, 0.62, 1)]
        return np.array([(place.X(), place.Y(), place.Z()) for place in places])


def redrawn(
    algorithm: HLRBRep_Algo, shapes: Sequence[TopoDS_Shape], toward: Vector
) -> dict[int, DrawnEdges]:
    """The shapes of which a finished algorithm shows what is hidden, as they are seen.

    Args:
        algorithm: The algorithm, after it has hidden what it can.
        shapes: Its shapes, in the order in which they were added.
        toward: Unit direction towards the viewer.

    Returns:
        Edges by the place of their shape in the order; empty in nearly all views.
    """
    if len(shapes) < 2:
        return {}
    lines: dict[int, list[_Line]] = {}
    places: dict[int, Floats] = {}
    touched: set[int] = set()
    for face, other in _neighbours(shapes):
        if other not in lines:
            lines[other] = list(_lines(algorithm, other))
            places[other] = np.array([line.points for line in lines[other]])
        for number in np.flatnonzero(face.holds(places[other])).tolist():
            line = lines[other][number]
            covered = list(_entered(line, face, toward)) if line.visible else []
            if covered:
                line.visible = less(line.visible, covered, _LEAST)
                touched.add(other)
    return {index: _drawn(lines[index]) for index in touched}


def _drawn(lines: Iterable[_Line]) -> DrawnEdges:
    visible: list[TopoDS_Edge] = []
    hidden: list[TopoDS_Edge] = []
    for line in lines:
        covered = less([line.ends], line.visible, _LEAST)
        visible += [HLRBRep.MakeEdge_s(line.seen, *stretch) for stretch in line.visible]
        hidden += [HLRBRep.MakeEdge_s(line.seen, *stretch) for stretch in covered]
    return visible, hidden


def _lines(algorithm: HLRBRep_Algo, index: int) -> Iterator[_Line]:
    """The lines of a shape, with what the algorithm shows of each."""
    data = algorithm.DataStructure()
    entries, edges = data.EDataArray(), data.EdgeMap()
    for number in sorted(_numbers(algorithm, index)):
        entry = entries.Value(number)
        if entry.Vertical():  # seen as a point
            continue
        status = entry.Status()
        count = status.NbVisiblePart() if not status.AllHidden() else 0
        parts = [status.VisiblePart(part, 0.0, 0.0) for part in range(1, count + 1)]
        curve = BRepAdaptor_Curve(TopoDS.Edge_s(edges.FindKey(number)))
        yield _Line(curve, entry.Geometry(), status.Bounds(0.0, 0.0), parts)


def _numbers(algorithm: HLRBRep_Algo, index: int) -> set[int]:
    """The edges of a shape that are drawn: smooth ones only where they are its outline."""
    data = algorithm.DataStructure()
    entries, faces = data.EDataArray(), data.FDataArray()
    *_, first, last = algorithm.ShapeBounds(index + 1).Bounds()
    found: set[int] = set()
    for face in range(first, last + 1):
        around = HLRBRep_FaceIterator()
        around.InitEdge(faces.Value(face))
        while around.MoreEdge():
            number = around.Edge()
            if around.OutLine() or not entries.Value(number).Rg1Line():
                found.add(number)
            around.NextEdge()
    return found


def _neighbours(shapes: Sequence[TopoDS_Shape]) -> Iterator[tuple[_RoundFace, int]]:
    """Round faces, each with the other shapes whose boxes it touches."""
    faces = [face for owner, shape in enumerate(shapes) for face in _round_faces(owner, shape)]
    if not faces:
        return
    boxes = np.array([_box(shape) for shape in shapes])
    for face in faces:
        touched = (boxes[:, 0] <= face.high).all(axis=1) & (boxes[:, 1] >= face.low).all(axis=1)
        for other in np.flatnonzero(touched).tolist():
            if other != face.owner:
                yield face, other


def _box(shape: TopoDS_Shape) -> tuple[Vector, Vector]:
    box = Bnd_Box()
    BRepBndLib.Add_s(shape, box, False)  # noqa: FBT003 - the kernel takes it in this place
    x, y, z, *high = box.Get()
    return (x, y, z), (high[0], high[1], high[2])


def _round_faces(owner: int, shape: TopoDS_Shape) -> Iterator[_RoundFace]:
    explorer = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_FACE)
    while explorer.More():
        face = TopoDS.Face_s(explorer.Current())
        surface = BRepAdaptor_Surface(face)
        if surface.GetType() == GeomAbs_SurfaceType.GeomAbs_Cylinder:
            cylinder = surface.Cylinder()
            # The surface's own normal points outwards if its directions are right-handed.
            is_forward = face.Orientation() == TopAbs_Orientation.TopAbs_FORWARD
            if cylinder.Direct() == is_forward:
                yield _round_face(owner, face, surface, cylinder)
        explorer.Next()


def _round_face(
    owner: int, face: TopoDS_Face, surface: BRepAdaptor_Surface, cylinder: gp_Cylinder
) -> _RoundFace:
    place, radius = cylinder.Position(), cylinder.Radius()
    directions = place.XDirection(), place.YDirection(), place.Direction()
    axes = np.array([(d.X(), d.Y(), d.Z()) for d in directions])
    origin = np.array((place.Location().X(), place.Location().Y(), place.Location().Z()))
    ends = origin + np.outer((surface.FirstVParameter(), surface.LastVParameter()), axes[2])
    reach = radius * np.sqrt(np.maximum(1.0 - axes[2] ** 2, 0.0)) + _IN_FACE
    return _RoundFace(
        owner=owner,
        face=face,
        axes=axes,
        origin=origin,
        radius=radius,
        start=surface.FirstUParameter(),
        low=ends.min(axis=0) - reach,
        high=ends.max(axis=0) + reach,
    )


def _entered(line: _Line, face: _RoundFace, toward: Vector) -> Iterator[Interval]:
    """Stretches of a line in a face from which lines of sight enter the face's body at once."""
    if not face.looks_away(line.points, toward):
        return

    def enters(parameter: float) -> bool:
        place = line.curve.Value(parameter)
        return face.is_entered((place.X(), place.Y(), place.Z()), toward)

    first, last = line.ends
    stations = [first + (k + 0.5) / _STATIONS * (last - first) for k in range(_STATIONS)]
    answers = [enters(station) for station in stations]
    begun = first
    for k, answer in enumerate(answers):
        is_last = k == _STATIONS - 1
        if is_last or answers[k + 1] != answer:
            end = last if is_last else _change(enters, stations[k], stations[k + 1], before=answer)
            if answer:
                yield begun, end
            begun = end


def _change(enters: Callable[[float], bool], low: float, high: float, *, before: bool) -> float:
    """Where an answer changes between two parameters."""
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if enters(middle) == before:
            low = middle
        else:
            high = middle
    return (low + high) / 2
