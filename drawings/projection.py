"""Solids seen from one direction: their visible and hidden edges as curves of a view.

Sharp edges and outlines are drawn. Smooth edges, where one face runs into the next without a
corner, are not (Source: ISO 128-3, imaginary intersections are left out or drawn narrow).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

import cadquery as cq
from OCP.BRepLib import BRepLib
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.Standard import Standard_Failure
from OCP.TopoDS import TopoDS_Edge, TopoDS_Shape

from cabinet.errors import KernelError
from drawings.coincidence import joined, without
from drawings.curves import Curve
from drawings.exact_fit import redrawn
from drawings.tracing import curve_of, edges_of
from drawings.view_frame import ViewFrame

# Faces that meet at less than this from straight on run into each other, in radians.
_SMOOTH = 1e-6


@dataclass(frozen=True, slots=True)
class Projection:
    """What is seen of one part, each place once and ordered by geometry.

    Attributes:
        visible: Visible edges and outlines.
        hidden: Hidden ones, less what lies beneath the visible ones.
    """

    visible: tuple[Curve, ...]
    hidden: tuple[Curve, ...]


def project(solids: Mapping[str, cq.Shape], frame: ViewFrame) -> dict[str, Projection]:
    """Project solids that hide each other, mm.

    Faces may touch, plane ones and round ones (a 5 mm pin in a 5 mm bore).

    A part's hidden edges may lie beneath the visible ones of another part; ``merged`` clears
    that for the view as a whole.

    Args:
        solids: Every solid in the frame of the model, under its part's name.
        frame: From where they are seen.

    Returns:
        A projection for each name, in the order given.

    Raises:
        KernelError: the kernel cannot project a solid; ``part`` names it.
    """
    try:
        return _projected(solids, frame)
    except (Standard_Failure, RuntimeError, ValueError) as error:
        parts = _culprits(solids, frame)
        raise KernelError(
            f"{parts}: the kernel cannot project it ({error}); check that the solid is valid",
            part=parts,
            limit="a valid solid",
        ) from error


def merged(projections: Iterable[Projection]) -> Projection:
    """One projection of many parts of a view, with every place drawn once.

    Where a visible edge of one part lies on a hidden one of another, the visible one stays.
    """
    parts = tuple(projections)
    visible = joined(curve for part in parts for curve in part.visible)
    return Projection(visible, without((c for part in parts for c in part.hidden), visible))


def _projected(solids: Mapping[str, cq.Shape], frame: ViewFrame) -> dict[str, Projection]:
    if not solids:
        return {}
    algorithm = HLRBRep_Algo()
    for solid in solids.values():
        # Asked for the edges of an empty shape, the algorithm would give those of all shapes.
        if solid.wrapped is None or solid.wrapped.IsNull():
            raise ValueError("its shape is empty")
        # The kernel draws an edge between faces that run into each other unless that is noted.
        BRepLib.EncodeRegularity_s(solid.wrapped, _SMOOTH)
        algorithm.Add(solid.wrapped)
    axes = gp_Ax2(gp_Pnt(0.0, 0.0, 0.0), gp_Dir(*frame.toward), gp_Dir(*frame.right))
    algorithm.Projector(HLRAlgo_Projector(axes))
    algorithm.Update()
    algorithm.Hide()
    corrected = redrawn(algorithm, [solid.wrapped for solid in solids.values()], frame.toward)
    found = HLRBRep_HLRToShape(algorithm)
    result: dict[str, Projection] = {}
    for index, (name, solid) in enumerate(solids.items()):
        shown, covered = corrected.get(index) or (
            _edges(solid, (found.VCompound, found.OutLineVCompound)),
            _edges(solid, (found.HCompound, found.OutLineHCompound)),
        )
        visible = joined(_curves(shown))
        result[name] = Projection(visible, without(_curves(covered), visible))
    return result


def _edges(
    solid: cq.Shape, readings: Iterable[Callable[[TopoDS_Shape], TopoDS_Shape | None]]
) -> list[TopoDS_Edge]:
    found = (reading(solid.wrapped) for reading in readings)
    return [edge for edges in found if edges and not edges.IsNull() for edge in edges_of(edges)]


def _curves(edges: Iterable[TopoDS_Edge]) -> list[Curve]:
    result: list[Curve] = []
    for edge in edges:
        # The algorithm leaves its edges with curves in the plane only.
        BRepLib.BuildCurves3d_s(edge)
        if (curve := curve_of(edge)) is not None:
            result.append(curve)
    return result


def _culprits(solids: Mapping[str, cq.Shape], frame: ViewFrame) -> str:
    """The parts that fail on their own; all of them if they fail only together."""
    failing: list[str] = []
    for name, solid in solids.items():
        try:
            _projected({name: solid}, frame)
        except (Standard_Failure, RuntimeError, ValueError):
            failing.append(name)
    return ", ".join(failing or solids)
