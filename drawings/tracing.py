"""Edges of the kernel that lie in the plane z = 0 of a view, read as curves."""

from __future__ import annotations

import math
from collections.abc import Iterator

from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.GCPnts import GCPnts_TangentialDeflection
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Shape

from drawings.coincidence import GRID, SHORTEST, snapped
from drawings.curves import CHORD_ERROR, FULL_TURN, ArcCurve, Curve, PolyCurve, Segment, ViewPoint

# The kernel's sampling keeps to a deflection only nearly; half of it is safe.
_DEFLECTION = CHORD_ERROR / 2
_CHORD_TURN = math.radians(20.0)
_ANGLE_PLACES = 6


def edges_of(shape: TopoDS_Shape) -> Iterator[TopoDS_Edge]:
    """The edges of a shape in the kernel's order, which means nothing."""
    explorer = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_EDGE)
    while explorer.More():
        yield TopoDS.Edge_s(explorer.Current())
        explorer.Next()


def curve_of(edge: TopoDS_Edge) -> Curve | None:
    """The curve of an edge in the plane z = 0, snapped to the grid of views.

    Straight lines and circles stay what they are; anything else is flattened to chords at
    most ``CHORD_ERROR`` mm off. A segment and a ``PolyCurve`` run along the edge's curve,
    whatever the edge's orientation.

    Returns:
        None if the edge is shorter than what rounding leaves.
    """
    adaptor = BRepAdaptor_Curve(edge)
    kind = adaptor.GetType()
    if kind == GeomAbs_CurveType.GeomAbs_Line:
        start = _point(adaptor, adaptor.FirstParameter())
        end = _point(adaptor, adaptor.LastParameter())
        return _segment(start, end)
    if kind == GeomAbs_CurveType.GeomAbs_Circle:
        return _arc(adaptor)
    return _flattened(adaptor)


def _point(adaptor: BRepAdaptor_Curve, parameter: float) -> ViewPoint:
    point = adaptor.Value(parameter)
    return snapped(point.X(), point.Y())


def _segment(start: ViewPoint, end: ViewPoint) -> Segment | None:
    if math.hypot(end.u - start.u, end.v - start.v) < SHORTEST:
        return None
    return Segment(start, end)


def _arc(adaptor: BRepAdaptor_Curve) -> ArcCurve | None:
    circle = adaptor.Circle()
    first, last = adaptor.FirstParameter(), adaptor.LastParameter()
    sweep = round(math.degrees(last - first), _ANGLE_PLACES)
    radius = snapped(circle.Radius(), 0.0).u
    if math.radians(sweep) * radius < SHORTEST:
        return None
    location = circle.Location()
    centre = snapped(location.X(), location.Y())
    if sweep >= FULL_TURN:
        return ArcCurve(centre, radius, 0.0, FULL_TURN)
    is_counter_clockwise = circle.Axis().Direction().Z() > 0
    begin = adaptor.Value(first if is_counter_clockwise else last)
    angle = math.degrees(math.atan2(begin.Y() - location.Y(), begin.X() - location.X()))
    start = round(angle % FULL_TURN, _ANGLE_PLACES) % FULL_TURN
    return ArcCurve(centre, radius, start, start + sweep)


def _flattened(adaptor: BRepAdaptor_Curve) -> Segment | PolyCurve | None:
    sampled = GCPnts_TangentialDeflection(adaptor, _CHORD_TURN, _DEFLECTION)
    points: list[ViewPoint] = []
    for index in range(1, sampled.NbPoints() + 1):
        place = sampled.Value(index)
        point = snapped(place.X(), place.Y())
        if not points or point != points[-1]:
            points.append(point)
    if len(points) < 2:
        return None
    straight = _straightened(points)
    if straight is not None:
        return _segment(*straight)
    return PolyCurve(tuple(points))


def _straightened(points: list[ViewPoint]) -> tuple[ViewPoint, ViewPoint] | None:
    """The ends of the line that all points lie on: a circle seen from its edge, for one."""
    first = points[0]
    far = max(points, key=lambda p: (p.u - first.u) ** 2 + (p.v - first.v) ** 2)
    span = math.hypot(far.u - first.u, far.v - first.v)
    du, dv = (far.u - first.u) / span, (far.v - first.v) / span
    for point in points:
        if abs((point.v - first.v) * du - (point.u - first.u) * dv) > 2 * GRID:
            return None
    along = [(p.u - first.u) * du + (p.v - first.v) * dv for p in points]
    return points[along.index(min(along))], points[along.index(max(along))]
