"""An altered design against the folder of the job that is under way."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from cabinet import (
    Component,
    Design,
    DoorTracks,
    Rails,
    Stock,
    birch_plywood,
    board_shelf,
    carcass,
    hanging_cleat,
    pin_rows,
    poplar_plywood,
    sliding_doors,
)
from cabinet.errors import DesignError, FolderError
from cabinet.site.room import RoomWall, Setting, WallPoint
from cabinet.site.walls import SolidMasonry
from drawings import write_job
from drawings.job_schema import SCHEMA_FILE
from drawings.revision import next_letter


def unit(
    *,
    name: str = "Seed drawer unit",
    birch: Stock | None = None,
    door: Stock | None = None,
    more: Callable[[Any], tuple[Component, ...]] = lambda _: (),
) -> Design:
    """A small unit with two doors and one shelf."""
    birch = birch or birch_plywood(nominal=18, measured=17.6)
    tracks = DoorTracks(stock=door or birch_plywood(nominal=12, measured=11.8), bar=8)
    box = carcass(
        width=713,
        height=487,
        depth=261,
        stock=birch,
        top_layers=2,
        base_layers=2,
        setback=41,
        back=Rails(stock=birch, top=100, bottom=80, behind=birch.measured),
    )
    pins = pin_rows(box)
    return Design(
        name,
        (
            box.component,
            sliding_doors(box, tracks, overlap=40),
            pins.component,
            board_shelf(pins.bay(1), hole=5, stock=birch, name="shelf"),
            hanging_cleat(box, stock=birch, height=80, layers=1),
            *more(pins),
        ),
    )


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the first issue."""
    folder = tmp_path_factory.mktemp("first") / "seeds.job"
    write_job(unit(), folder, tell=None)
    return folder


def again(
    design: Design,
    earlier: Path,
    folder: Path,
    date: str = "2026-03-09",
    place: Setting | None = None,
) -> dict[str, Any]:
    """The record of a job that was compared with an earlier one, valid by its schema."""
    write_job(design, folder, earlier=earlier, date=date, place=place, tell=None)
    record: dict[str, Any] = json.loads((folder / "job.json").read_text("utf-8"))
    jsonschema.validate(record, json.loads(SCHEMA_FILE.read_text("utf-8")))
    return record


def fates(record: dict[str, Any]) -> dict[str, str]:
    """What becomes of each part."""
    return {one["part"]: one["fate"] for one in record["changes"]["parts"]}


def steps(record: dict[str, Any], part: str) -> str:
    """What is done to one part."""
    return "; ".join(next(o["steps"] for o in record["changes"]["parts"] if o["part"] == part))


def test_nothing_changed_keeps_the_letter(first: Path, tmp_path: Path) -> None:
    """The same design: no letter, no sheet of changes, the very same sheets."""
    record = again(unit(), first, tmp_path / "again.job", date="")
    assert record["revision"] == ""
    assert set(fates(record).values()) == {"unchanged"}
    assert record["changes"]["sheets"] == []
    assert record["changes"]["cuts"] == []
    for sheet in (first / "sheets").iterdir():
        assert (tmp_path / "again.job" / "sheets" / sheet.name).read_bytes() == sheet.read_bytes()


def test_a_warped_door_is_replaced_by_another_board(first: Path, tmp_path: Path) -> None:
    """The doors are made anew, top and base are cut further, the rest stays."""
    folder = tmp_path / "doors.job"
    record = again(unit(door=poplar_plywood(nominal=12, measured=12.2)), first, folder)
    told = fates(record)
    assert record["revision"] == "A"
    assert told["left door"] == told["right door"] == "make anew"
    assert "poplar plywood 12 is wanted" in steps(record, "left door")
    assert told["left side"] == told["shelf"] == "unchanged"
    names = {sheet["title"] for sheet in record["changes"]["sheets"]}
    assert {"Left door", "Right door"} <= names
    assert "Shelf" not in names
    letters = {sheet["title"]: sheet["revision"] for sheet in record["sheets"]}
    assert letters["Left door"] == "A"
    assert letters["Shelf"] == ""
    door = next((folder / "sheets").glob("*-left-door.svg")).read_text("utf-8")
    index = re.search(r'<g class="revision-index">.*?</g>', door, re.DOTALL)
    assert index is not None
    assert ">A</text>" in index[0]
    assert 'class="revision-table"' in door
    assert "2026-03-09" in door
    changes = next((folder / "sheets").glob("*-changes.svg")).read_text("utf-8")
    assert "make anew" in changes


def test_a_board_measured_anew_tells_what_can_be_kept(first: Path, tmp_path: Path) -> None:
    """0.3 mm thinner: nearly every size of this unit follows from it; and no change is none."""
    record = again(
        unit(birch=birch_plywood(nominal=18, measured=17.3)), first, tmp_path / "thin.job"
    )
    told = fates(record)
    # What fills a gap between thinner boards is too short, and a rebate that was cut for a
    # thicker board is too wide.
    assert told["shelf"] == told["base"] == told["left side"] == "make anew"
    assert "its length is 675.4, 0.6 less than the 676 wanted" in steps(record, "shelf")
    assert "rebate for base" in steps(record, "left side")
    thinner = again(
        unit(birch=birch_plywood(nominal=18, measured=17.3)), tmp_path / "thin.job", tmp_path / "n"
    )
    assert set(fates(thinner).values()) == {"unchanged"}
    assert thinner["revision"] == "A"


def at(x: float, z: float) -> Setting:
    """The unit on a plain wall."""
    wall = RoomWall(
        name="kiln-room wall",
        width=2913,
        height=2487,
        datum=1000,
        build=SolidMasonry(anchor_pull=1700, anchor_shear=2100),
    )
    return Setting(room=wall, at=WallPoint(x, z))


def test_a_unit_moved_on_the_wall(tmp_path: Path) -> None:
    """No board changes; the wall elevation does, and the old holes are told of."""
    write_job(unit(), tmp_path / "here.job", place=at(613, 1287), tell=None)
    record = again(unit(), tmp_path / "here.job", tmp_path / "there.job", place=at(733.5, 1251))
    assert set(fates(record).values()) == {"unchanged"}
    assert record["changes"]["cuts"] == []
    told = record["changes"]["other"]
    assert told[:2] == ["on the wall: 120.5 further to the right", "on the wall: 36 further down"]
    assert "stop the old holes" in told[2]
    assert {one["title"] for one in record["changes"]["sheets"]} == {
        "Wall elevation",
        "Hanging plan",
    }


def test_letters_go_on_from_the_earlier_job(first: Path, tmp_path: Path) -> None:
    """A second change is B, and what did not change keeps its letter A."""
    one = tmp_path / "one.job"
    again(unit(door=poplar_plywood(nominal=12, measured=12.2)), first, one)
    design = unit(
        door=poplar_plywood(nominal=12, measured=12.2),
        more=lambda pins: (
            board_shelf(pins.bay(1), hole=8, stock=birch_plywood(18, 17.6), name="upper shelf"),
        ),
    )
    record = again(design, one, one)
    assert record["revision"] == "B"
    assert fates(record)["upper shelf"] == "new"
    letters = {sheet["title"]: sheet["revision"] for sheet in record["sheets"]}
    assert letters["Left door"] == "A"
    assert letters["Parts and where they go"] == "B"


def test_letters() -> None:
    """I and O are left out."""
    assert [next_letter(x) for x in ("", "A", "H", "N", "Z", "AZ")] == [
        "A", "B", "J", "P", "AA", "BA",
    ]  # fmt: skip


def _spoiled(first: Path, folder: Path, **values: object) -> Path:
    """A copy of a job.json with other values, and nothing else."""
    record = json.loads((first / "job.json").read_text("utf-8")) | values
    folder.mkdir()
    (folder / "job.json").write_text(json.dumps(record), "utf-8")
    return folder


def test_an_earlier_job_that_lacks_something(first: Path, tmp_path: Path) -> None:
    """Told before anything is computed."""
    folder = tmp_path / "earlier.job"
    shutil.copytree(first, folder)
    record = json.loads((folder / "job.json").read_text("utf-8"))
    del record["setups"]
    (folder / "job.json").write_text(json.dumps(record), "utf-8")
    with pytest.raises(FolderError, match=r"its job\.json lacks 'setups'"):
        write_job(unit(), tmp_path / "new.job", earlier=folder, tell=None)


@pytest.mark.parametrize(
    ("values", "error", "words"),
    [
        ({"name": "Tool rack"}, DesignError, "it is a job of 'Tool rack'"),
        ({"version": 0}, DesignError, "version 0; only"),
        ({"schema": "other"}, DesignError, "'other'"),
        ({}, FolderError, "a sheet cannot be read"),
        ({"sheets": [{}]}, FolderError, "lacks 'file'"),
        ({"parts": [{"name": "top"}]}, DesignError, "top: the earlier job tells of it"),
    ],
)
def test_an_earlier_job_that_cannot_be_compared(
    first: Path, tmp_path: Path, values: dict[str, object], error: type[Exception], words: str
) -> None:
    """One clear error, and nothing is written."""
    earlier = _spoiled(first, tmp_path / "earlier.job", **values)
    with pytest.raises(error, match=re.escape(words)):
        write_job(unit(), tmp_path / "new.job", earlier=earlier, tell=None)
    assert not (tmp_path / "new.job").exists()


def test_an_earlier_folder_that_vanished(tmp_path: Path) -> None:
    """Named, with what would be right."""
    with pytest.raises(FolderError, match="there is no such folder"):
        write_job(unit(), tmp_path / "new.job", earlier=tmp_path / "gone.job", tell=None)
    (tmp_path / "empty.job").mkdir()
    with pytest.raises(FolderError, match=r"its job\.json cannot be read"):
        write_job(unit(), tmp_path / "new.job", earlier=tmp_path / "empty.job", tell=None)
    (tmp_path / "empty.job" / "job.json").write_text("[]")
    with pytest.raises(FolderError, match="holds no job"):
        write_job(unit(), tmp_path / "new.job", earlier=tmp_path / "empty.job", tell=None)
