"""Exports read back by other readers: STEP by gmsh, GLB by its bytes and by trimesh."""

from __future__ import annotations

import json
import math
import os
import re
import struct
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

import cadquery as cq
import numpy as np
import pytest
import trimesh

from cabinet.errors import DesignError, FolderError, KernelError, SizeError
from drawings.exports import (
    TIME_STAMP,
    PlacedSolid,
    write_part_step,
    write_unit_glb,
    write_unit_step,
)
from tests.step_reader import step_reader

BEECH, GREY = (0.82, 0.61, 0.33), (0.2, 0.21, 0.25)


def board() -> cq.Shape:
    """613 x 287 x 17.6 with a stopped groove and a row of three bores."""
    solid: cq.Shape = cq.Solid.makeBox(613, 287, 17.6).cut(
        cq.Solid.makeBox(500, 8.3, 9, cq.Vector(41, 200, 11.4))
    )
    for x in (37, 69, 101):
        solid = solid.cut(cq.Solid.makeCylinder(2.5, 11.3, cq.Vector(x, 53.7, 6.3)))
    return solid


def board_volume() -> float:
    """Worked out by hand, mm3."""
    return 613 * 287 * 17.6 - 500 * 8.3 * 6.2 - 3 * math.pi * 2.5**2 * 11.3


def unit() -> list[PlacedSolid]:
    """Two equal boards that share a shape, a back with an accent, and a cleat with a bevel."""
    shared = board()
    corners = [(0, 0, 0), (0, 17.6, 17.6), (0, 17.6, 90), (0, 0, 90)]
    profile = cq.Wire.makePolygon([cq.Vector(*corner) for corner in corners], close=True)
    cleat = cq.Solid.extrudeLinear(profile, [], cq.Vector(577.8, 0, 0))
    return [
        PlacedSolid(name="base", solid=shared, location=cq.Location(), colour=BEECH),
        PlacedSolid(
            name="top",
            solid=shared,
            location=cq.Location(cq.Vector(0, 287, 499), cq.Vector(1, 0, 0), 180),
            colour=BEECH,
        ),
        PlacedSolid(
            name="Rückwand",
            solid=cq.Solid.makeBox(613, 6.3, 460),
            location=cq.Location(cq.Vector(0, 280.7, 17.6)),
            colour=GREY,
        ),
        PlacedSolid(
            name="tirant é",
            solid=cleat,
            location=cq.Location(cq.Vector(17.6, 262, 380)),
            colour=BEECH,
        ),
    ]


# Volumes and the box around the unit, worked out by hand, mm.
BACK_VOLUME = 613 * 6.3 * 460
CLEAT_VOLUME = 577.8 * (17.6 * 90 - 17.6**2 / 2)


@pytest.fixture(scope="module")
def step(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("step") / "unit.step"
    write_unit_step(unit(), path, unit_name="Hängeschrank")
    return path


@pytest.fixture(scope="module")
def glb(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("glb") / "unit.glb"
    write_unit_glb(unit(), path, unit_name="Hängeschrank", tolerance=0.1)
    return path


@pytest.fixture
def reader() -> Iterator[ModuleType]:
    with step_reader() as begun:
        yield begun


def volumes(reader: ModuleType, path: Path) -> list[float]:
    found = reader.model.occ.importShapes(str(path))
    return sorted(reader.model.occ.getMass(*tag) for tag in found if tag[0] == 3)


# STEP


def test_another_reader_finds_every_volume_at_its_place(step: Path, reader: ModuleType) -> None:
    expected = sorted([board_volume(), board_volume(), BACK_VOLUME, CLEAT_VOLUME])
    assert volumes(reader, step) == pytest.approx(expected, rel=1e-6)
    reader.model.occ.synchronize()
    around = [reader.model.getBoundingBox(3, tag) for _, tag in reader.model.getEntities(3)]
    low = np.min([box[:3] for box in around], axis=0)
    high = np.max([box[3:] for box in around], axis=0)
    # gmsh puts a margin of 1e-7 of the size around a box.
    assert low == pytest.approx((0, 0, 0), abs=1e-3)
    assert high == pytest.approx((613, 287, 499), abs=1e-3)


def test_step_header(step: Path) -> None:
    # ISO 10303-21: first and last token; FILE_DESCRIPTION, FILE_NAME, FILE_SCHEMA in order;
    # edition 2 has '2;1'. AP214 is AUTOMOTIVE_DESIGN. Strings beyond ASCII: \X2\ .. \X0\.
    text = step.read_bytes().decode("ascii")
    assert text.startswith("ISO-10303-21;\nHEADER;\n")
    assert text.rstrip().endswith("END-ISO-10303-21;")
    header = re.match(
        r"ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION\(\('[^']*'\),'2;1'\);\n"
        r"FILE_NAME\('([^']*)','([^']*)',\('([^']*)'\),\('([^']*)'\),\s*"
        r"'[^']*','[^']*','[^']*'\);\nFILE_SCHEMA\(\('AUTOMOTIVE_DESIGN [^']*'\)\);\nENDSEC;",
        text,
    )
    assert header is not None
    assert header[1] == "H\\X2\\00E4\\X0\\ngeschrank"
    assert header[2] == TIME_STAMP
    assert re.search(r"SI_UNIT\(\.MILLI\.,\.METRE\.\)", text)


def test_step_names_products_and_places(step: Path) -> None:
    text = step.read_bytes().decode("ascii")
    # U+00FC and U+00E9 (Unicode, Latin-1 Supplement).
    back, cleat = "R\\X2\\00FC\\X0\\ckwand", "tirant \\X2\\00E9\\X0\\"
    products = re.findall(r"= PRODUCT\('([^']*)'", text)
    assert products == ["H\\X2\\00E4\\X0\\ngeschrank", "base", back, cleat]
    places = re.findall(r"NEXT_ASSEMBLY_USAGE_OCCURRENCE\('([^']*)','([^']*)'", text)
    assert places == [("1", "base"), ("2", "top"), ("3", back), ("4", cleat)]
    assert len(re.findall(r"= MANIFOLD_SOLID_BREP\(", text)) == 3


def test_step_colours(step: Path) -> None:
    text = step.read_bytes().decode("ascii")
    found = re.findall(r"COLOUR_RGB\('',([^,]*),([^,]*),([^)]*)\)", text)
    colours = sorted(tuple(float(channel) for channel in colour) for colour in found)
    assert len(colours) == 2
    assert np.array(colours) == pytest.approx(np.array([GREY, BEECH]), abs=1e-6)
    assert len(re.findall(r"STYLED_ITEM\(", text)) == 3


def test_every_reference_leads_to_a_statement(step: Path) -> None:
    text = re.sub(r"'(?:[^']|'')*'", "''", step.read_bytes().decode("ascii"))
    numbers = [int(n) for n in re.findall(r"^#([0-9]+) =", text, flags=re.MULTILINE)]
    assert numbers == sorted(set(numbers))
    assert {int(n) for n in re.findall(r"#([0-9]+)", text)} == set(numbers)


def test_a_part_is_in_its_own_frame(tmp_path: Path, reader: ModuleType) -> None:
    path = tmp_path / "part.step"
    write_part_step("l'étagère", board(), BEECH, path)
    assert volumes(reader, path) == pytest.approx([board_volume()], rel=1e-6)
    text = path.read_bytes().decode("ascii")
    assert re.findall(r"= PRODUCT\('((?:[^']|'')*)'", text) == [
        "l''\\X2\\00E9\\X0\\tag\\X2\\00E8\\X0\\re"
    ]
    assert "NEXT_ASSEMBLY_USAGE_OCCURRENCE" not in text
    assert len(re.findall(r"COLOUR_RGB", text)) == 1


@pytest.mark.parametrize("is_unit", [False, True])
def test_a_shape_that_was_moved_keeps_its_place(
    tmp_path: Path, reader: ModuleType, *, is_unit: bool
) -> None:
    moved = cq.Solid.makeBox(613, 287, 17.6).moved(cq.Location(cq.Vector(100, 20, 3)))
    path = tmp_path / "moved.step"
    if is_unit:
        place = cq.Location(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), 90)
        item = PlacedSolid(name="base", solid=moved, location=place, colour=BEECH)
        write_unit_step([item], path, unit_name="unit")
        expected = (-307.0, 100.0, 3.0, -20.0, 713.0, 20.6)  # (x, y) goes to (-y, x).
    else:
        write_part_step("base", moved, BEECH, path)
        expected = (100.0, 20.0, 3.0, 713.0, 307.0, 20.6)
    ((_, tag),) = reader.model.occ.importShapes(str(path))
    assert reader.model.occ.getBoundingBox(3, tag) == pytest.approx(expected, abs=1e-3)


# GLB


def chunks(content: bytes) -> tuple[dict[str, Any], bytes]:
    """The two chunks of a GLB, after the checks of glTF 2.0, GLB File Format."""
    magic, version, total = struct.unpack_from("<III", content)
    assert (magic, version, total) == (0x46546C67, 2, len(content))
    size, kind = struct.unpack_from("<II", content, 12)
    assert kind == 0x4E4F534A
    assert size % 4 == 0
    tree = json.loads(content[20 : 20 + size].decode("utf-8"))
    second, binary_kind = struct.unpack_from("<II", content, 20 + size)
    assert binary_kind == 0x004E4942
    assert second % 4 == 0
    assert 28 + size + second == len(content)
    assert second - 3 <= tree["buffers"][0]["byteLength"] <= second
    return tree, content[28 + size :]


def test_glb_names_meshes_and_nodes(glb: Path) -> None:
    tree, _ = chunks(glb.read_bytes())
    assert tree["asset"]["version"] == "2.0"
    assert [mesh["name"] for mesh in tree["meshes"]] == ["base", "Rückwand", "tirant é"]
    nodes = {node["name"]: node for node in tree["nodes"]}
    assert {"base", "top", "Rückwand", "tirant é", "Hängeschrank"} <= set(nodes)
    assert nodes["base"]["mesh"] == nodes["top"]["mesh"] == 0
    children = {tree["nodes"][child]["name"] for child in nodes["Hängeschrank"]["children"]}
    assert children == {"base", "top", "Rückwand", "tirant é"}


@pytest.mark.parametrize(
    ("radius", "tolerance"), [(3.0, 0.1), (60.0, 0.1), (250.0, 0.1), (250.0, 1.0)]
)
def test_round_faces_keep_the_tolerance(tmp_path: Path, radius: float, tolerance: float) -> None:
    """The height of a chord of an angle is r (1 - cos(angle / 2)), in any tables book."""
    disc = cq.Solid.makeCylinder(radius, 18.0)
    item = PlacedSolid(name="disc", solid=disc, location=cq.Location(), colour=BEECH)
    path = tmp_path / "disc.glb"
    write_unit_glb([item], path, unit_name="unit", tolerance=tolerance)
    (mesh,) = trimesh.load_scene(path).geometry.values()
    corners = np.asarray(mesh.vertices) * 1e3
    rim = corners[np.hypot(corners[:, 0], corners[:, 1]) > radius / 2]
    angles = np.unique(np.round(np.arctan2(rim[:, 1], rim[:, 0]), 6))
    widest = max(np.diff(angles).max(), 2 * math.pi - (angles[-1] - angles[0]))
    assert radius * (1 - math.cos(widest / 2)) <= tolerance + 1e-3
    assert len(angles) >= 12


def test_glb_has_corners_only_and_their_bounds(glb: Path) -> None:
    # glTF 2.0: POSITION has min and max; without NORMAL, viewers use flat normals.
    tree, _ = chunks(glb.read_bytes())
    for mesh in tree["meshes"]:
        (primitive,) = mesh["primitives"]
        assert set(primitive["attributes"]) == {"POSITION"}
        accessor = tree["accessors"][primitive["attributes"]["POSITION"]]
        assert len(accessor["min"]) == len(accessor["max"]) == 3
    back = tree["accessors"][tree["meshes"][1]["primitives"][0]["attributes"]["POSITION"]]
    assert back["count"] == 8
    assert back["max"] == pytest.approx((0.613, 0.0063, 0.46), abs=1e-7)


def test_glb_colours_are_linear(glb: Path) -> None:
    tree, _ = chunks(glb.read_bytes())
    found = [material["pbrMetallicRoughness"]["baseColorFactor"] for material in tree["materials"]]
    # IEC 61966-2-1: linear = ((c + 0.055) / 1.055) ** 2.4 for c above 0.04045.
    expected = [[((c + 0.055) / 1.055) ** 2.4 for c in colour] + [1.0] for colour in (BEECH, GREY)]
    assert np.array(sorted(found)) == pytest.approx(np.array(sorted(expected)), abs=1e-6)
    by_mesh = [mesh["primitives"][0]["material"] for mesh in tree["meshes"]]
    assert by_mesh[0] == by_mesh[2] != by_mesh[1]


def test_glb_read_back(glb: Path) -> None:
    scene = trimesh.load_scene(glb)
    assert all(mesh.is_watertight for mesh in scene.geometry.values())
    # Seen along +Z its front looks at you and Y is up (glTF 2.0, Coordinate System and Units):
    # the unit's X, Z, -Y, in metres.
    assert scene.bounds == pytest.approx(
        np.array([[0.0, 0.0, -0.287], [0.613, 0.499, 0.0]]), abs=1e-6
    )
    # The mesh's bores are polygons within 0.1 mm of the circle: too little is cut away, by at
    # most the strip of 0.1 mm around three bores.
    strip = 3 * 2 * math.pi * 2.5 * 11.3 * 0.1
    volume = scene.geometry["base"].volume * 1e9
    assert board_volume() - 1 < volume < board_volume() + strip + 1
    assert scene.geometry["Rückwand"].volume * 1e9 == pytest.approx(BACK_VOLUME, rel=1e-5)
    assert scene.geometry["tirant é"].volume * 1e9 == pytest.approx(CLEAT_VOLUME, rel=1e-5)
    assert len(scene.geometry["tirant é"].faces) == 12


def test_a_mesh_made_before_changes_nothing(tmp_path: Path) -> None:
    fresh, used = unit(), unit()
    used[0].solid.mesh(0.001, 0.01)
    for name, items in (("fresh", fresh), ("used", used)):
        write_unit_glb(items, tmp_path / f"{name}.glb", unit_name="unit", tolerance=0.1)
    assert (tmp_path / "fresh.glb").read_bytes() == (tmp_path / "used.glb").read_bytes()


# Both


SCRIPT = """
import sys
from pathlib import Path
from tests.drawings.test_exports import BEECH, board, unit
from drawings.exports import write_part_step, write_unit_glb, write_unit_step
folder, is_turned = Path(sys.argv[1]), sys.argv[2] == "turned"
def part(): write_part_step("base", board(), BEECH, folder / "part.step")
def whole(): write_unit_step(unit(), folder / "unit.step", unit_name="Hängeschrank")
for write in (part, whole) if is_turned else (whole, part):
    write()
write_unit_glb(unit(), folder / "unit.glb", unit_name="Hängeschrank", tolerance=0.1)
"""


def test_same_unit_same_bytes_in_one_process_and_in_others(
    tmp_path: Path, step: Path, glb: Path
) -> None:
    again = tmp_path / "again.step"
    write_unit_step(unit(), again, unit_name="Hängeschrank")
    assert again.read_bytes() == step.read_bytes()
    parts = set()
    for seed, order in (("1", "turned"), ("77", "straight")):
        folder = tmp_path / order
        folder.mkdir()
        environment = {
            **os.environ,
            "PYTHONHASHSEED": seed,
            "TZ": "Pacific/Auckland",
            "LC_ALL": "C",
        }
        subprocess.run(
            [sys.executable, "-X", "utf8", "-c", SCRIPT, str(folder), order],
            check=True,
            env=environment,
            cwd=Path(__file__).parents[2],
        )
        assert (folder / "unit.step").read_bytes() == step.read_bytes()
        assert (folder / "unit.glb").read_bytes() == glb.read_bytes()
        parts.add((folder / "part.step").read_bytes())
    assert len(parts) == 1


def test_what_cannot_be_written_is_refused(tmp_path: Path) -> None:
    items = unit()
    with pytest.raises(DesignError):
        write_unit_step([], tmp_path / "a.step", unit_name="unit")
    with pytest.raises(DesignError) as twice:
        write_unit_step([items[0], items[0]], tmp_path / "a.step", unit_name="unit")
    assert twice.value.part == "base"
    with pytest.raises(DesignError):
        write_unit_glb(items, tmp_path / "a.glb", unit_name="top", tolerance=0.1)
    with pytest.raises(SizeError):
        write_unit_glb(items, tmp_path / "a.glb", unit_name="unit", tolerance=0.0)
    with pytest.raises(SizeError):
        PlacedSolid(
            name="base", solid=items[0].solid, location=cq.Location(), colour=(0.5, 1.2, 0.5)
        )
    with pytest.raises(FolderError):
        write_part_step("base", items[0].solid, BEECH, tmp_path / "missing" / "a.step")


def test_an_open_solid_is_named(tmp_path: Path) -> None:
    shell = cq.Compound.makeCompound(cq.Solid.makeBox(10, 20, 30).Faces()[:5])
    item = PlacedSolid(name="lid", solid=shell, location=cq.Location(), colour=GREY)
    with pytest.raises(KernelError) as caught:
        write_unit_glb([item], tmp_path / "a.glb", unit_name="unit", tolerance=0.1)
    assert caught.value.part == "lid"
    empty = cq.Solid.makeBox(1, 1, 1)
    empty.wrapped = type(empty.wrapped)()
    with pytest.raises(KernelError):
        write_part_step("lid", empty, GREY, tmp_path / "a.step")
