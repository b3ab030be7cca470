"""The whole way: from each example to its job folder, read back by other readers."""

from __future__ import annotations

import csv
import importlib.util
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import jsonschema
import pypdf
import pytest
import trimesh

from cabinet import birch_plywood, carcass, pill
from cabinet.design import Design
from cabinet.errors import CabinetError, FolderError
from cabinet.findings import FindingsError, Severity
from cabinet.site.uses import SpreadLoad, UseCase
from cabinet.site.walls import SolidMasonry
from drawings import write_job
from drawings.job_schema import SCHEMA_FILE
from tests.step_reader import step_reader

ROOT = Path(__file__).parents[1]
EXAMPLES = ("greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack")
SVG = "{http://www.w3.org/2000/svg}"


def example(name: str) -> Design:
    """The design of an example script, without running its job."""
    spec = importlib.util.spec_from_file_location(name, ROOT / "examples" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    design: Design = module.unit
    return design


@pytest.fixture(scope="module", params=EXAMPLES)
def job(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("jobs") / f"{request.param}.job"
    write_job(example(request.param), folder, tell=None)
    return folder


def record_of(job: Path) -> dict[str, Any]:
    data: dict[str, Any] = json.loads((job / "job.json").read_text("utf-8"))
    return data


def test_folder_holds_what_the_contract_names(job: Path) -> None:
    for name in ("job.json", "job.pdf", "book.html", "model/unit.step", "model/unit.glb"):
        assert (job / name).stat().st_size > 1000, name
    assert list((job / "sheets").glob("[0-9][0-9]-*.svg"))
    assert list((job / "templates").glob("*.svg"))
    assert list((job / "model" / "parts").glob("*.step"))
    assert {p.name for p in (job / "lists").glob("*.csv")} >= {
        "parts.csv",
        "cuts.csv",
        "hardware.csv",
    }
    assert not [p for p in job.parent.iterdir() if p.name.startswith(".")]


def test_job_record_follows_its_schema(job: Path) -> None:
    schema = json.loads(SCHEMA_FILE.read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(record_of(job), schema)


def test_examples_have_no_findings(job: Path) -> None:
    assert record_of(job)["findings"] == []


def test_each_part_stands_on_a_sheet_and_in_the_list(job: Path) -> None:
    record = record_of(job)
    numbers = {sheet["number"] for sheet in record["sheets"]}
    for part in record["parts"]:
        assert part["sheet"] in numbers
    with (job / "lists" / "parts.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["part"] for row in rows] == [part["name"] for part in record["parts"]]
    assert sum(float(row["mass kg"]) for row in rows) == pytest.approx(
        sum(part["mass_kg"] for part in record["parts"]), abs=0.01
    )


def test_sheets_are_true_to_paper(job: Path) -> None:
    """Width and height in mm; one unit of the view box is one mm (SVG 1.1, 7.10)."""
    for file in (job / "sheets").glob("*.svg"):
        root = ET.parse(file).getroot()
        width, height = root.get("width"), root.get("height")
        # ISO 216: A4 is 210 x 297, A3 is 297 x 420.
        assert (width, height) in {("210mm", "297mm"), ("420mm", "297mm")}, file.name
        assert root.get("viewBox") == f"0 0 {width} {height}".replace("mm", "")


def test_every_dimension_line_measures_its_value(job: Path) -> None:
    """Paper length of the line over its view's scale is the value in the record.

    A group of a dimension lies within the group of its view. The file keeps a thousandth of a
    mm, so the two ends may be off by one between them. A line over what an interrupted view
    leaves out is shorter by that, and marked.
    """
    counted = 0
    record = record_of(job)
    files = {sheet["number"]: sheet["file"] for sheet in record["sheets"]}
    cuts = {
        (sheet["number"], view["title"]): view.get("interruption")
        for sheet in record["sheets"]
        for view in sheet["views"]
    }
    for part in record["dimensions"]:
        views = _views(ET.parse(job / files[part["sheet"]]).getroot())
        for told in part["dimensions"]:
            group, scale = views[told["view"]], _scale(views[told["view"]])
            if told["text"].startswith("t = "):
                assert [t for t in _texts(group) if t == told["text"]] == [told["text"]]
                continue
            (drawn,) = (g for g in _groups(group, "dimension") if _title(g) == told["title"])
            assert _texts(drawn) == [told["text"]]
            shorter = _left_out(told, cuts[part["sheet"], told["view"]], scale)
            is_marked = "not-to-scale" in (drawn.get("class") or "").split()
            assert is_marked is (shorter != 0) is (not told.get("is_to_scale", True))
            (line,) = (e for e in drawn.iter(f"{SVG}line") if e.get("class") == "dimension-line")
            paper = told["value"] * scale - shorter
            assert abs(_length(line) - paper) <= 0.0011, (part["part"], told)
            assert abs(_printed(told["text"]) - told["value"]) <= 0.0051, (part["part"], told)
            assert _is_within(line, group), (part["part"], told)
            counted += 1
    assert counted > 40


def _left_out(told: dict[str, Any], cut: dict[str, Any] | None, scale: float) -> float:
    """By how much the line of a dimension is shorter than to scale, mm on paper."""
    if cut is None or cut["axis"] != told["axis"]:
        return 0.0
    low, high = sorted(told[end]["coordinate"] for end in ("from", "to"))
    over = [b - a for a, b in cut["left_out"] if low < a and b < high]
    return float(sum(length * scale - cut["gap"] for length in over))


def test_every_dimension_of_a_part_sheet_is_in_the_record(job: Path) -> None:
    """Nothing is printed beside what the record lists, and each callout stands in its view."""
    record = record_of(job)
    files = {sheet["number"]: sheet["file"] for sheet in record["sheets"]}
    titles = {sheet["number"]: [v["title"] for v in sheet["views"]] for sheet in record["sheets"]}
    for part in record["dimensions"]:
        views = _views(ET.parse(job / files[part["sheet"]]).getroot())
        assert list(views) == titles[part["sheet"]]
        for title, group in views.items():
            told = {one["title"] for one in part["dimensions"] if one["view"] == title}
            drawn = [_title(g) for g in _groups(group, "dimension")]
            assert len(set(drawn)) == len(drawn)
            assert set(drawn) <= told
            for callout in (c for c in part["callouts"] if c["view"] == title):
                (found,) = (g for g in _groups(group, "note") if _title(g) == callout["title"])
                assert " ".join(_texts(found)) == callout["text"]


def test_every_dimension_group_lies_in_a_view_and_is_to_its_scale(job: Path) -> None:
    """On all sheets, those of the whole unit too, the line measures the printed figure."""
    for file in (job / "sheets").glob("*.svg"):
        root = ET.parse(file).getroot()
        scaled = {
            id(g): _scale(view)
            for view in _views(root).values()
            for g in _groups(view, "dimension")
        }
        for group in _groups(root, "dimension"):
            if "not-to-scale" in (group.get("class") or "").split():
                continue
            (line,) = (e for e in group.iter(f"{SVG}line") if e.get("class") == "dimension-line")
            (text,) = _texts(group)
            scale = scaled[id(group)]
            assert abs(_length(line) / scale - _printed(text)) <= 0.0051 + 0.0011 / scale, (
                file.name,
                _title(group),
            )


def _views(root: ET.Element) -> dict[str, ET.Element]:
    found = {_title(group): group for group in _groups(root, "view")}
    assert len(found) == len(_groups(root, "view"))
    return found


def _title(group: ET.Element) -> str:
    title = group.findtext(f"{SVG}title")
    assert title
    return title


def _texts(group: ET.Element) -> list[str]:
    return ["".join(text.itertext()) for text in group.iter(f"{SVG}text")]


def _is_within(line: ET.Element, view: ET.Element) -> bool:
    """Whether both ends of a dimension line lie across from what the view shows."""
    is_level = line.get("y1") == line.get("y2")
    shown = [
        float(e.get(key) or "nan")
        for e in view.iter(f"{SVG}line")
        if e.get("class") in {"visible", "hidden", "cut", "phantom", "centre"}
        for key in (("x1", "x2") if is_level else ("y1", "y2"))
    ]
    ends = [float(line.get(k) or "nan") for k in (("x1", "x2") if is_level else ("y1", "y2"))]
    # Strips to be trimmed flush are too narrow to be drawn at small scales.
    return min(shown) - 1.0 <= min(ends) and max(ends) <= max(shown) + 1.0


def _groups(root: ET.Element, name: str) -> list[ET.Element]:
    return [g for g in root.iter(f"{SVG}g") if name in (g.get("class") or "").split()]


def _scale(group: ET.Element) -> float:
    text = group.findtext(f"{SVG}desc") or ""
    paper, model = text.split(":")
    return float(paper) / float(model)


def _length(line: ET.Element) -> float:
    x1, y1, x2, y2 = (float(line.get(k) or "nan") for k in ("x1", "y1", "x2", "y2"))
    return float(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)


def _printed(text: str) -> float:
    product = re.search(r"\(= ([0-9.]+)\)", text)
    if product:
        return float(product.group(1))
    found = re.search(r"[0-9]+(\.[0-9]+)?", text)
    assert found is not None, text
    return float(found.group(0))


def test_pdf_has_every_sheet_at_its_size(job: Path) -> None:
    """PDF user units are 1/72 inch (ISO 32000-1, 8.3.2): A4 595.276 x 841.890."""
    record = record_of(job)
    reader = pypdf.PdfReader(job / "job.pdf")
    sheets = record["sheets"]
    assert len(reader.pages) >= len(sheets)
    for page, sheet in zip(reader.pages, sheets, strict=False):
        wide, high = {"A4": (595.276, 841.890), "A3": (1190.551, 841.890)}[sheet["paper"]]
        assert float(page.mediabox.width) == pytest.approx(wide, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(high, abs=0.01)


def test_glb_is_closed_and_has_the_volume_of_the_solids(job: Path) -> None:
    """Read by trimesh; glTF 2.0 has metres, so mm3 are 1e-9 of its cubic metres."""
    scene = trimesh.load_scene(job / "model" / "unit.glb")
    record = record_of(job)
    for part in record["parts"]:
        assert part["name"] in scene.graph.nodes
        transform, name = scene.graph[part["name"]]
        mesh = scene.geometry[name]
        assert mesh.is_watertight, part["name"]
        volume = float(mesh.volume) * 1e9
        # Round cutters become chords within 0.1 mm of the solid.
        assert volume == pytest.approx(part["solid_volume_mm3"], rel=5e-3), part["name"]
        assert transform.shape == (4, 4)


def test_step_is_read_with_every_volume(job: Path) -> None:
    """Read back by gmsh: the sum of all solids within 1e-6, and each part by itself."""
    record = record_of(job)
    for part in record["parts"]:
        files = sorted((job / "model" / "parts").glob(f"{part['item']:02d}-*.step"))
        assert len(files) == 1
        volume = _read_volume(files[0])
        assert volume == pytest.approx(part["solid_volume_mm3"], rel=1e-6), part["name"]


def _read_volume(file: Path) -> float:
    with step_reader() as reader:
        reader.open(str(file))
        solids = reader.model.getEntities(3)
        return float(sum(reader.model.occ.getMass(3, tag) for _, tag in solids))


def test_unit_step_names_every_part(job: Path) -> None:
    text = (job / "model" / "unit.step").read_text("ascii")
    assert text.startswith("ISO-10303-21;")
    assert text.rstrip().endswith("END-ISO-10303-21;")
    for part in record_of(job)["parts"]:
        assert f"'{part['name']}'" in text, part["name"]


def test_same_design_same_bytes(tmp_path: Path) -> None:
    """Two fresh processes with other hash seeds, zones, locales and folders: every file."""
    folders = []
    for seed, zone, locale, place in (("1", "UTC", "C", "a"), ("77", "Asia/Tokyo", "C.UTF-8", "b")):
        here = tmp_path / place
        here.mkdir()
        script = (
            f"import sys; sys.path.insert(0, {str(ROOT / 'examples')!r})\n"
            "import pottery_drying_rack as e\nfrom drawings import write_job\n"
            "write_job(e.unit, 'rack.job', tell=None)\n"
        )
        environment = {
            **os.environ,
            "PYTHONHASHSEED": seed,
            "TZ": zone,
            "LC_ALL": locale,
            "PYTHONPATH": str(ROOT),
        }
        subprocess.run([sys.executable, "-c", script], cwd=here, env=environment, check=True)
        folders.append(here / "rack.job")
    one, other = folders
    names = sorted(str(p.relative_to(one)) for p in one.rglob("*") if p.is_file())
    assert names == sorted(str(p.relative_to(other)) for p in other.rglob("*") if p.is_file())
    for name in names:
        assert (one / name).read_bytes() == (other / name).read_bytes(), name


# Bad folders, and what is left behind


def small() -> Design:
    box = carcass(width=613, height=287, depth=241, stock=birch_plywood(18, 17.6))
    return Design("Small box", (box.component,), is_hung=False)


def clashing() -> Design:
    stock = birch_plywood(18, 17.6)
    box = carcass(width=613, height=287, depth=241, stock=stock, dividers=1)
    hole = pill(box, "top", name="lead", length=90, width=30, left=306, front=120)
    return Design("Cut through", (box.component, hole), is_hung=False)


def test_errors_write_nothing_and_name_themselves(tmp_path: Path) -> None:
    with pytest.raises(FindingsError) as caught:
        write_job(clashing(), tmp_path / "x.job", tell=None)
    assert caught.value.findings
    assert "housing for divider" in str(caught.value)
    assert list(tmp_path.iterdir()) == []


def test_a_draft_is_stamped_on_every_sheet(tmp_path: Path) -> None:
    write_job(clashing(), tmp_path / "x.job", as_draft=True, tell=None)
    sheets = list((tmp_path / "x.job" / "sheets").glob("*.svg"))
    assert sheets
    for file in sheets:
        assert "NOT FOR MAKING" in file.read_text("utf-8"), file.name
    assert record_of(tmp_path / "x.job")["is_draft"] is True


def test_an_earlier_job_is_replaced(tmp_path: Path) -> None:
    """Nothing of a larger job stays behind in the folder of a smaller one."""
    box = carcass(width=613, height=287, depth=241, stock=birch_plywood(18, 17.6), dividers=1)
    design = Design("Small box", (box.component,), is_hung=False)
    larger = write_job(design, tmp_path / "x.job", tell=None)
    smaller = write_job(small(), tmp_path / "x.job", tell=None)
    there = {p.relative_to(smaller.folder).as_posix() for p in smaller.folder.rglob("*.*")}
    assert there == set(smaller.files)
    assert set(larger.files) - there


def test_a_failed_run_leaves_the_earlier_job(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "x.job"
    write_job(small(), target, tell=None)
    before = {p: p.read_bytes() for p in target.rglob("*") if p.is_file()}

    def fail(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("drawings.job_files.write_unit_step", fail)
    with pytest.raises(KeyboardInterrupt):
        write_job(small(), target, tell=None)
    assert {p: p.read_bytes() for p in target.rglob("*") if p.is_file()} == before
    assert [p.name for p in tmp_path.iterdir()] == ["x.job"]


@pytest.mark.parametrize("kind", ["file", "other folder", "no parent"])
def test_what_is_no_job_folder_is_left_alone(tmp_path: Path, kind: str) -> None:
    target = tmp_path / "x"
    if kind == "file":
        target.write_text("a letter")
    elif kind == "other folder":
        target.mkdir()
        (target / "letter.txt").write_text("a letter")
    else:
        target = tmp_path / "missing" / "x"
    with pytest.raises(FolderError) as caught:
        write_job(small(), target, tell=None)
    assert isinstance(caught.value, CabinetError)
    assert isinstance(caught.value, OSError)
    assert str(target) in str(caught.value)
    if kind == "file":
        assert target.read_text() == "a letter"
    elif kind == "other folder":
        assert [p.name for p in target.iterdir()] == ["letter.txt"]


def test_uses_and_a_wall_bring_a_sheet_of_loads(tmp_path: Path) -> None:
    """Trays on both frame shelves, tools on the third, on solid brick: it holds."""
    trays = UseCase(
        name="seed trays",
        loads=(
            SpreadLoad(place="left frame shelf", kilograms=9.0),
            SpreadLoad(place="right frame shelf", kilograms=9.0),
            SpreadLoad(place="tool shelf", kilograms=7.5),
        ),
        is_damp=True,
    )
    wall = SolidMasonry(anchor_pull=1800.0, anchor_shear=2500.0)
    job = write_job(
        example("greenhouse_wall_unit"), tmp_path / "x.job", uses=(trays,), wall=wall, tell=None
    )
    assert {f.severity for f in job.findings} <= {Severity.NOTE}
    record = record_of(tmp_path / "x.job")
    jsonschema.validate(record, json.loads(SCHEMA_FILE.read_text("utf-8")))
    (loads,) = [one for one in record["sheets"] if one["title"] == "Loads and hanging"]
    sheet = (tmp_path / "x.job" / loads["file"]).read_text("utf-8")
    assert "seed trays" in sheet
    assert "never a promise" in sheet
