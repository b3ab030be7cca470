"""Solids in files for other programs: STEP for exact shape, GLB for looking at.

STEP: ISO 10303-21, schema AP214, millimetres. GLB: glTF 2.0, metres, Y up.
The same solids give the same bytes: no clock, and no counter that outlives a file.
"""

from __future__ import annotations

import json
import struct
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.BRep import BRep_Builder, BRep_Tool
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy, BRepBuilderAPI_Transform
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.gp import gp_Pnt
from OCP.Graphic3d import Graphic3d_TypeOfBackfacingModel
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_Static
from OCP.Message import Message_ProgressRange
from OCP.Poly import Poly_Triangle, Poly_Triangulation
from OCP.Quantity import Quantity_Color, Quantity_ColorRGBA, Quantity_TypeOfColor
from OCP.RWGltf import RWGltf_CafWriter
from OCP.RWMesh import RWMesh_CoordinateSystem, RWMesh_NameFormat
from OCP.Standard import Standard_Failure
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_StepModelType
from OCP.TCollection import (
    TCollection_AsciiString,
    TCollection_ExtendedString,
    TCollection_HAsciiString,
)
from OCP.TColStd import TColStd_IndexedDataMapOfStringString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_Orientation
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Face, TopoDS_Shape
from OCP.XCAFApp import XCAFApp_Application
from OCP.XCAFDoc import (
    XCAFDoc_ColorType,
    XCAFDoc_DocumentTool,
    XCAFDoc_VisMaterial,
    XCAFDoc_VisMaterialPBR,
)

from cabinet.errors import DesignError, FolderError, KernelError
from cabinet.quantity import named, positive, within
from drawings.step_text import settled

Colour = tuple[float, float, float]
"""Red, green and blue from 0 to 1, as screens take them (sRGB, IEC 61966-2-1)."""

TIME_STAMP = "2000-01-01T00:00:00"
"""The time in every STEP header: fixed, since a clock would make equal models differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedSolid:
    """A solid of the unit at its place.

    Attributes:
        name: Name of this piece, unlike any other's in the unit.
        solid: Its shape in its own frame, mm. Pieces that hold the same object are written
            once and shown at each of their places.
        location: Where its own frame lies in the unit's.
        colour: Its colour.
    """

    name: str
    solid: cq.Shape
    location: cq.Location
    colour: Colour

    def __post_init__(self) -> None:
        named("placed solid", "name", self.name)
        for channel, value in zip(("red", "green", "blue"), self.colour, strict=True):
            within(self.name, channel, value, 0.0, 1.0, unit="")


# STEP


def write_unit_step(items: Sequence[PlacedSolid], path: Path, *, unit_name: str) -> None:
    """Write a unit as a STEP assembly, mm, with a product for each distinct solid.

    A product bears the name of the first piece that has its solid; every piece's own name
    stands at its place in the assembly.

    Args:
        items: The pieces; pieces that share a solid and a colour share a product.
        path: The file to write.
        unit_name: Name of the assembly.

    Raises:
        DesignError: there is no piece, or two have one name.
        KernelError: the kernel cannot translate the unit.
        FolderError: the file cannot be written.
    """
    named("STEP file", "unit's name", unit_name)
    groups = _by_solid(items)
    document = _new_document()
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    labels: dict[str, TDF_Label] = {}
    for group in groups:
        label = _add_product(document, group[0].name, group[0].solid, group[0].colour)
        labels |= {item.name: label for item in group}
    assembly = shapes.NewShape()
    _set_name(assembly, unit_name)
    for item in items:
        # A product is written in its bare frame, so a place that the shape has itself is added.
        place = item.location.wrapped.Multiplied(_single(item.name, item.solid).Location())
        _set_name(shapes.AddComponent(assembly, labels[item.name], place), item.name)
    shapes.UpdateAssemblies()
    _write_bytes(path, _step_bytes(document, unit_name))


def write_part_step(name: str, solid: cq.Shape, colour: Colour, path: Path) -> None:
    """Write one part as a STEP file, mm, in its own frame.

    Raises:
        SizeError: the name is blank or the colour is none.
        KernelError: the kernel cannot translate the part.
        FolderError: the file cannot be written.
    """
    item = PlacedSolid(name=name, solid=solid, location=cq.Location(), colour=colour)
    document = _new_document()
    _add_product(document, item.name, item.solid, item.colour, keeps_place=True)
    _write_bytes(path, _step_bytes(document, name))


def _by_solid(items: Sequence[PlacedSolid]) -> list[list[PlacedSolid]]:
    """The items in groups that share one solid and one colour, in the order given."""
    if not items:
        raise DesignError("export: there is no piece to write; there must be at least 1", value=0)
    groups: dict[tuple[int, Colour], list[PlacedSolid]] = {}
    names: set[str] = set()
    for item in items:
        if item.name in names:
            raise DesignError(
                f"{item.name}: two pieces have this name; every piece must have its own",
                part=item.name,
                value=item.name,
            )
        names.add(item.name)
        groups.setdefault((id(item.solid), item.colour), []).append(item)
    return list(groups.values())


def _new_document() -> TDocStd_Document:
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    return document


def _add_product(
    document: TDocStd_Document,
    name: str,
    solid: cq.Shape,
    colour: Colour,
    *,
    keeps_place: bool = False,
) -> TDF_Label:
    single = _single(name, solid)
    shape = single.Located(TopLoc_Location())
    if keeps_place:
        # Moved for good: a shape that only refers to a place becomes an assembly of one.
        move = single.Location().Transformation()
        shape = BRepBuilderAPI_Transform(shape, move, theCopyGeom=True).Shape()
    label = XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).AddShape(shape, makeAssembly=False)
    _set_name(label, name)
    XCAFDoc_DocumentTool.ColorTool_s(document.Main()).SetColor(
        label,
        Quantity_Color(*colour, Quantity_TypeOfColor.Quantity_TOC_sRGB),
        XCAFDoc_ColorType.XCAFDoc_ColorSurf,
    )
    return label


def _single(name: str, solid: cq.Shape) -> TopoDS_Shape:
    """The shape without a compound around it, which STEP would make an assembly of its own."""
    if solid.wrapped is None or solid.wrapped.IsNull():
        raise KernelError(f"{name}: its solid is empty; there must be a shape to write", part=name)
    if isinstance(solid, cq.Solid):
        return solid.wrapped
    solids = solid.Solids()
    return solids[0].wrapped if len(solids) == 1 else solid.wrapped


def _set_name(label: TDF_Label, name: str) -> None:
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name, isMultiByte=True))


def _step_bytes(document: TDocStd_Document, name: str) -> bytes:
    writer = STEPCAFControl_Writer()
    # These switches belong to the whole process, so each is set whenever a file is written;
    # and after the first writer is made, since that sets them all to what they are at first.
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    # Planes and cylinders need no second curves; without them a file is half as long.
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 0)
    writer.SetColorMode(theColorMode=True)
    writer.SetNameMode(theNameMode=True)
    try:
        if not writer.Transfer(document, STEPControl_StepModelType.STEPControl_AsIs):
            raise KernelError(f"{name}: the kernel cannot translate it to STEP", part=name)
        header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
        header.SetName(TCollection_HAsciiString(name))
        header.SetTimeStamp(TCollection_HAsciiString(TIME_STAMP))
        header.SetAuthorValue(1, TCollection_HAsciiString(""))
        header.SetOrganizationValue(1, TCollection_HAsciiString(""))
        with tempfile.TemporaryDirectory() as folder:
            raw = Path(folder) / "raw.step"
            if writer.Write(str(raw)) != IFSelect_ReturnStatus.IFSelect_RetDone:
                raise KernelError(f"{name}: the kernel cannot write it as STEP", part=name)
            return settled(raw.read_bytes())
    except Standard_Failure as error:
        raise KernelError(
            f"{name}: the kernel cannot translate it to STEP ({error})", part=name
        ) from error


# GLB


def write_unit_glb(
    items: Sequence[PlacedSolid], path: Path, *, unit_name: str, tolerance: float
) -> None:
    """Write a unit as a GLB file; its content is that of ``unit_glb``.

    Args:
        items: The pieces.
        path: The file to write.
        unit_name: Name of the node that holds all the pieces.
        tolerance: Largest distance between a mesh and its solid, mm.

    Raises:
        SizeError, DesignError, KernelError: as for ``unit_glb``.
        FolderError: the file cannot be written.
    """
    _write_bytes(path, unit_glb(items, unit_name=unit_name, tolerance=tolerance))


def unit_glb(items: Sequence[PlacedSolid], *, unit_name: str, tolerance: float) -> bytes:
    """A unit as a GLB: metres, Y up, one mesh for each distinct solid.

    Meshes are closed: neighbouring triangles share their corners. No normals are written, so
    a viewer shades every triangle flat (Source: glTF 2.0, Meshes: flat normals where none are
    given), which is right for boards.

    Args:
        items: The pieces; each is a node of its name, those that share a solid share a mesh.
        unit_name: Name of the node that holds all the pieces.
        tolerance: Largest distance between a mesh and its solid, mm.

    Raises:
        SizeError: ``tolerance`` is not positive.
        DesignError: there is no piece, two have one name, or one has the unit's.
        KernelError: a solid cannot be meshed, or its mesh is not closed; ``part`` names it.
    """
    named("GLB file", "unit's name", unit_name)
    positive("GLB file", "tolerance", tolerance)
    groups = _by_solid(items)
    if any(item.name == unit_name for item in items):
        raise DesignError(
            f"{unit_name}: a piece has the unit's own name; it must have another", part=unit_name
        )
    document = _new_document()
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    whole, unit = shapes.NewShape(), shapes.NewShape()
    _set_name(whole, _SCENE)
    _set_name(unit, unit_name)
    looks = {
        colour: _add_material(document, colour)
        for colour in dict.fromkeys(item.colour for item in items)
    }
    labels: dict[str, TDF_Label] = {}
    for group in groups:
        label = _add_mesh(document, group[0], tolerance, looks[group[0].colour])
        labels |= dict.fromkeys((item.name for item in group), label)
    for item in items:
        place = item.location.wrapped
        _set_name(shapes.AddComponent(unit, labels[item.name], place), item.name)
    _set_name(shapes.AddComponent(whole, unit, _UPRIGHT), unit_name)
    shapes.UpdateAssemblies()
    return _glb_bytes(document, unit_name)


_SCENE = "scene"
_METRES = 1e-3
_ROUGHNESS = 0.8
# From one chord to the next, as the kernel has it by itself, radians: small holes stay round.
_MOST_TURN = 0.5
_MERGE_PLACES = 4

# The unit's X, Y (to the back), Z (up) become glTF's X, -Z, Y: its front looks along +Z.
# Source: glTF 2.0, Coordinate System and Units.
_UPRIGHT = cq.Location((0, 0, 0), (1, 0, 0), -90).wrapped


def _add_mesh(
    document: TDocStd_Document, item: PlacedSolid, tolerance: float, look: TDF_Label
) -> TDF_Label:
    """Add the mesh of a piece's solid, as a face that has triangles and nothing else."""
    try:
        corners, triangles = _closed_mesh(item.solid, tolerance)
    except KernelError as error:
        raise KernelError(
            f"{item.name}: {error}", part=item.name, value=error.value, limit=error.limit
        ) from error
    mesh = Poly_Triangulation(len(corners), len(triangles), False)  # noqa: FBT003 - no normals
    for index, corner in enumerate(corners.tolist(), start=1):
        mesh.SetNode(index, gp_Pnt(*corner))
    for index, triangle in enumerate((triangles + 1).tolist(), start=1):
        mesh.SetTriangle(index, Poly_Triangle(*triangle))
    face = TopoDS_Face()
    BRep_Builder().MakeFace(face, mesh)
    label = XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).AddShape(face, makeAssembly=False)
    _set_name(label, item.name)
    XCAFDoc_DocumentTool.VisMaterialTool_s(document.Main()).SetShapeMaterial(label, look)
    return label


def _add_material(document: TDocStd_Document, colour: Colour) -> TDF_Label:
    """Add a dull material of a colour, which glTF wants in linear light."""
    look = XCAFDoc_VisMaterialPBR()
    linear = Quantity_Color(*colour, Quantity_TypeOfColor.Quantity_TOC_sRGB)
    look.BaseColor = Quantity_ColorRGBA(linear)
    look.Metallic, look.Roughness, look.IsDefined = 0.0, _ROUGHNESS, True
    material = XCAFDoc_VisMaterial()
    material.SetPbrMaterial(look)
    material.SetFaceCulling(
        Graphic3d_TypeOfBackfacingModel.Graphic3d_TypeOfBackfacingModel_BackCulled
    )
    tool = XCAFDoc_DocumentTool.VisMaterialTool_s(document.Main())
    name = "colour " + " ".join(f"{channel:.4f}" for channel in colour)
    return tool.AddMaterial(material, TCollection_AsciiString(name))


def _glb_bytes(document: TDocStd_Document, name: str) -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        raw = Path(folder) / "raw.glb"
        writer = RWGltf_CafWriter(TCollection_AsciiString(str(raw)), True)  # noqa: FBT003
        writer.SetNodeNameFormat(RWMesh_NameFormat.RWMesh_NameFormat_Instance)
        writer.SetMeshNameFormat(RWMesh_NameFormat.RWMesh_NameFormat_Product)
        # Only the unit of length: the node of the unit stands it upright.
        lengths = writer.ChangeCoordinateSystemConverter()
        lengths.SetInputLengthUnit(_METRES)
        lengths.SetInputCoordinateSystem(_AS_IT_IS)
        lengths.SetOutputCoordinateSystem(_AS_IT_IS)
        told = TColStd_IndexedDataMapOfStringString()
        try:
            is_written = writer.Perform(document, told, Message_ProgressRange())
        except Standard_Failure as error:
            raise KernelError(
                f"{name}: the kernel cannot write it as GLB ({error})", part=name
            ) from error
        if not is_written:
            raise KernelError(f"{name}: the kernel cannot write it as GLB", part=name)
        return _with_shared_meshes(raw.read_bytes())


def _with_shared_meshes(content: bytes) -> bytes:
    """A GLB in which nodes that show the same triangles share one mesh.

    The kernel writes a mesh for every node. Source: glTF 2.0, GLB File Format: a header of
    three numbers, then chunks, each with its length and kind before it; JSON is the first.
    """
    begin = 20
    (size,) = struct.unpack_from("<I", content, 12)
    tree = json.loads(content[begin : begin + size])
    kinds: dict[str, int] = {}
    told = [kinds.setdefault(json.dumps(mesh), len(kinds)) for mesh in tree["meshes"]]
    tree["meshes"] = [json.loads(mesh) for mesh in kinds]
    for node in tree["nodes"]:
        if "mesh" in node:
            node["mesh"] = told[node["mesh"]]
    text = json.dumps(tree, ensure_ascii=False, separators=(",", ":")).encode()
    text += b" " * (-len(text) % 4)
    rest = content[begin + size :]
    magic, version = struct.unpack_from("<4sI", content)
    total = begin + len(text) + len(rest)
    return struct.pack("<4sIII4s", magic, version, total, len(text), b"JSON") + text + rest


_AS_IT_IS = RWMesh_CoordinateSystem.RWMesh_CoordinateSystem_glTF


@lru_cache(maxsize=512)
def _closed_mesh(
    solid: cq.Shape, tolerance: float
) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Corners (n, 3) in mm and triangles (m, 3) of a solid; nobody may change them.

    Shapes are equal if they are one shape of the kernel in one place, and solids are shared by
    equal boards, so an equal board is meshed once.

    Raises:
        KernelError: the solid cannot be meshed, or its mesh is not closed.
    """
    try:
        # A copy without triangles: those left on a shape by an earlier meshing, finer or
        # coarser, would be taken over, and the file would depend on what ran before.
        bare = cq.Shape.cast(
            BRepBuilderAPI_Copy(solid.wrapped, copyGeom=True, copyMesh=False).Shape()
        )
        BRepMesh_IncrementalMesh(bare.wrapped, tolerance, False, _MOST_TURN)  # noqa: FBT003 - in mm
        loose, triangles = _triangles(bare)
    except (Standard_Failure, RuntimeError, ValueError) as error:
        raise KernelError(f"the kernel cannot mesh it ({error})") from error
    # The kernel meshes face by face; corners of neighbouring faces are the same but for noise.
    _, kept, merged = np.unique(
        np.round(loose, _MERGE_PLACES), axis=0, return_index=True, return_inverse=True
    )
    faces = merged.reshape(-1)[triangles]
    # A sliver whose corners were merged has no area and closes nothing.
    faces = faces[(faces != np.roll(faces, 1, axis=1)).all(axis=1)]
    places = loose[kept]
    if not _is_closed(faces, len(places)):
        raise KernelError(
            "its mesh has gaps; check that the solid is closed", limit="a closed mesh"
        )
    for array in (places, faces):
        array.setflags(write=False)
    return places, faces


def _is_closed(triangles: NDArray[np.int64], corners: int) -> bool:
    """Whether every edge of some triangles (m, 3) is run through once each way."""
    starts, ends = triangles.ravel(), np.roll(triangles, -1, axis=1).ravel()
    one_way, other_way = np.sort(starts * corners + ends), np.sort(ends * corners + starts)
    return bool((one_way == other_way).all() and (np.diff(one_way) > 0).all())


def _triangles(meshed: cq.Shape) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Corners (n, 3) in mm and triangles (m, 3) of a meshed shape, face by face.

    Read without the library's vector for each corner, which takes longer than the meshing.
    """
    corners: list[tuple[float, float, float]] = []
    triangles: list[tuple[int, int, int]] = []
    for face in meshed.Faces():
        place = TopLoc_Location()
        found = BRep_Tool.Triangulation_s(face.wrapped, place)
        first = len(corners) - 1
        move = place.Transformation()
        nodes = map(found.Node, range(1, found.NbNodes() + 1))
        if place.IsIdentity():
            corners += [(node.X(), node.Y(), node.Z()) for node in nodes]
        else:
            moved = (node.Transformed(move) for node in nodes)
            corners += [(node.X(), node.Y(), node.Z()) for node in moved]
        is_turned = face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
        for triangle in map(found.Triangle, range(1, found.NbTriangles() + 1)):
            a, b, c = triangle.Get()
            end = (c, b) if is_turned else (b, c)
            triangles.append((a + first, end[0] + first, end[1] + first))
    return (
        np.array(corners, dtype=np.float64).reshape(-1, 3),
        np.array(triangles, dtype=np.int64).reshape(-1, 3),
    )


def _write_bytes(path: Path, content: bytes) -> None:
    try:
        path.write_bytes(content)
    except OSError as error:
        raise FolderError(
            f"{path.name}: cannot be written ({error.strerror}); the folder must exist and be "
            "writable",
            part=path.name,
        ) from error
