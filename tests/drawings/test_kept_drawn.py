"""A script kept drawn: what the page is told when it is saved, spoiled, mended or removed."""

from __future__ import annotations

import io
import json
import socket
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from http.client import HTTPConnection
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import trimesh

from cabinet.errors import FolderError, SizeError
from drawings import kept_drawn
from drawings.kept_drawing import Drawer, Message
from drawings.kept_drawn import KeptDrawn, keep_drawn
from tests.drawings.kept_scripts import SCRIPT, write_script, write_sizes

# Far more than a drawing takes, so that a busy machine fails no test.
PATIENCE = 120.0
NASTY = "<img src=x onerror=alert(1)>"


def until(is_so: Callable[[], bool]) -> None:
    """Wait until something is so."""
    end = time.monotonic() + PATIENCE
    while not is_so():
        assert time.monotonic() < end, "it never came to be so"
        time.sleep(0.02)


class Answer(NamedTuple):
    """What the server gives."""

    status: int
    headers: dict[str, str]
    content: bytes


class Bench:
    """A kept script with the few questions that a test asks."""

    def __init__(self, kept: KeptDrawn, folder: Path) -> None:
        self.kept = kept
        self.folder = folder
        self.script = folder / "twine_box.py"

    def slot(self, name: str) -> Any:
        """What the page has in a slot."""
        return self.kept.news.get(name)

    @property
    def phase(self) -> str:
        """How far the drawing is."""
        return str(self.slot("state")["phase"])

    @property
    def width(self) -> float:
        """Width of the unit in view, mm."""
        outline = self.slot("model")["data"]["outline"]
        return float(outline["high"][0] - outline["low"][0])

    def saved(self, save: Callable[[], object], phase: str = "drawn") -> None:
        """Save something and wait until that save is done with."""
        before = self.slot("state")["round"]
        save()
        until(lambda: self.slot("state")["round"] > before and self.phase == phase)

    @property
    def port(self) -> int:
        """The port of the page."""
        return int(self.kept.address.rstrip("/").rpartition(":")[2])

    def get(self, path: str, host: str = "") -> Answer:
        """What the server answers."""
        with closing(HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)) as connection:
            connection.request("GET", path, headers={"Host": host or f"127.0.0.1:{self.port}"})
            got = connection.getresponse()
            return Answer(got.status, dict(got.getheaders()), got.read())


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("kept")
    script = write_script(folder)
    with KeptDrawn(script, tell=None) as kept:
        bench = Bench(kept, folder)
        until(lambda: bench.phase == "drawn")
        yield bench


@pytest.fixture(autouse=True)
def good_again(request: pytest.FixtureRequest) -> Iterator[None]:
    """Each test leaves the script as it found it, and drawn."""
    yield
    if "bench" in request.fixturenames:
        bench = request.getfixturevalue("bench")
        if bench.phase != "drawn" or bench.width != pytest.approx(613):
            bench.saved(lambda: write_script(bench.folder))


def test_a_save_of_a_module_beside_changes_the_model_and_its_sheets(bench: Bench) -> None:
    before = {s: bench.slot(s)["file"] for s in bench.kept.news.slots() if s.startswith("sheet")}
    bench.saved(lambda: write_sizes(bench.folder, width=641))
    assert bench.width == pytest.approx(641)
    after = {s: bench.slot(s)["file"] for s in before}
    assert all(file.endswith(".svg") for file in after.values())
    assert {s for s in before if before[s] != after[s]}
    assert bench.slot("mistake") is None
    state = bench.slot("state")
    assert 0 < state["model"] <= state["checks"] <= state["sheets"] <= state["plans"]
    content = bench.get(f"/{bench.slot('model')['file']}").content
    model = trimesh.load(io.BytesIO(content), file_type="glb")
    assert (model.bounds[1] - model.bounds[0])[0] == pytest.approx(0.641, abs=1e-6)
    for file in after.values():
        assert b"<svg" in bench.get(f"/{file}").content


@pytest.mark.parametrize(
    ("spoil", "told"),
    [("\nwidth = = 3\n", "invalid syntax"), ("\nraise OSError('glue is dry')\n", "glue is dry")],
    ids=["it cannot be read", "it raises"],
)
def test_a_mistake_is_told_and_the_last_good_view_kept(bench: Bench, spoil: str, told: str) -> None:
    model = bench.slot("model")
    text = SCRIPT + spoil
    bench.saved(lambda: bench.script.write_text(text, encoding="utf-8"), "refused")
    assert told in " ".join(bench.slot("mistake")["sentences"])
    assert bench.slot("mistake")["place"].startswith("twine_box.py, line ")
    assert bench.slot("model") == model
    assert bench.get(f"/{model['file']}").status == 200
    bench.saved(lambda: write_script(bench.folder))
    assert bench.slot("mistake") is None


def test_findings_that_are_errors_keep_the_last_good_view(bench: Bench) -> None:
    model = bench.slot("model")
    text = SCRIPT.replace('name="twine shelf"),', CLASH)
    bench.saved(lambda: bench.script.write_text(text, encoding="utf-8"), "refused")
    mistake = bench.slot("mistake")
    assert "must be put right" in mistake["title"]
    assert any("twine shelf" in s and "second shelf" in s for s in mistake["sentences"])
    assert mistake["is_drawn"]
    assert bench.slot("model") == model
    faulty = bench.slot("faulty")
    assert {"second shelf", "twine shelf"} <= {p["name"] for p in faulty["data"]["pieces"]}
    assert bench.get(f"/{faulty['file']}").status == 200


def test_what_the_plans_bring_up_comes_after_the_sheets(bench: Bench) -> None:
    """Three clamps are too few for the box: known only when its gluing is planned."""
    text = SCRIPT.replace("keep_drawn(__file__)", FEW_CLAMPS)
    bench.saved(lambda: bench.script.write_text(text, encoding="utf-8"))
    model = bench.slot("model")
    assert "clamps-too-few" in model["html"]["findings"]
    facts = [dict(piece["facts"]) for piece in model["data"]["pieces"] if piece["mark"]]
    assert all("Cut from" in told for told in facts)
    assert any("Set-ups" in told for told in facts)


def test_a_plan_that_cannot_be_made_is_told_beside_this_save(bench: Bench) -> None:
    text = SCRIPT.replace("keep_drawn(__file__)", SMALL_SHEETS)
    bench.saved(lambda: bench.script.write_text(text, encoding="utf-8"), "refused")
    mistake = bench.slot("mistake")
    assert mistake["title"] == "No unit can be made from this"
    assert mistake["is_this"]
    assert not mistake["is_drawn"]
    assert bench.slot("model")["round"] == bench.slot("state")["round"]


FEW_CLAMPS = """
from cabinet.workshop import Clamp, Workshop
from drawings import write_job
write_job(unit, "twine.job", workshop=Workshop(clamps=(Clamp(opening=1000.0, count=3),)))
"""
# Every sheet is smaller than the sides.
SMALL_SHEETS = """
from cabinet.making.rack import Rack, SheetToBuy
from drawings import write_job
small = SheetToBuy(stock=birch, length=311, width=197)
write_job(unit, "twine.job", rack=Rack(sheets=(small,)))
"""

# A second shelf in the place of the first.
CLASH = (
    'name="twine shelf"),\n'
    '    board_shelf(pins.bay(1), hole=HOLE, stock=birch, name="second shelf"),'
)


def test_a_script_that_is_removed_is_told_and_may_come_back(bench: Bench) -> None:
    model = bench.slot("model")
    bench.saved(bench.script.unlink, "refused")
    assert bench.slot("mistake")["title"] == "The script is gone"
    assert bench.slot("model") == model
    bench.saved(lambda: write_script(bench.folder))
    assert bench.slot("mistake") is None


def test_a_second_save_while_it_is_drawn_is_the_one_that_stays(bench: Bench) -> None:
    first = bench.slot("state")["round"]
    write_sizes(bench.folder, width=627)
    until(lambda: bench.slot("state")["round"] > first)
    write_sizes(bench.folder, width=633)
    until(lambda: bench.slot("state")["round"] > first + 1 and bench.phase == "drawn")
    assert bench.width == pytest.approx(633)


def test_a_process_that_is_lost_is_told_and_begun_again(bench: Bench) -> None:
    model = bench.slot("model")
    text = SCRIPT + "\nimport os\nos._exit(3)\n"
    bench.saved(lambda: bench.script.write_text(text, encoding="utf-8"), "refused")
    assert "code 3" in bench.slot("mistake")["sentences"][0]
    assert bench.slot("model") == model
    bench.saved(lambda: write_script(bench.folder))
    assert bench.slot("mistake") is None


def test_a_script_without_end_is_given_up_when_the_next_is_saved(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(kept_drawn, "_PATIENCE", 0.2)
    first = bench.slot("state")["round"]
    bench.script.write_text(SCRIPT + "\nwhile True: pass\n", encoding="utf-8")
    until(lambda: bench.slot("state")["round"] > first)
    assert bench.phase == "drawing"
    bench.saved(lambda: write_script(bench.folder, width=619))
    assert bench.width == pytest.approx(619)


def test_it_listens_on_this_machine_only(bench: Bench) -> None:
    """RFC 1122, 3.2.1.3: what is sent to 127.0.0.0/8 never leaves the machine."""
    assert bench.kept._server.socket.getsockname() == ("127.0.0.1", bench.port)


def test_only_the_page_and_its_files_are_given(bench: Bench) -> None:
    page = bench.get("/")
    assert page.status == 200
    policy = page.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "unsafe-inline" not in policy.split("script-src")[1].split(";")[0]
    assert page.headers["X-Content-Type-Options"] == "nosniff"
    for path in ("/twine_box.py", "/../twine_box.py", "/etc/passwd", f"/{'0' * 20}.svg"):
        assert bench.get(path).status == 404
    for host in ("rebound.example", "rebound.example:80", "127.0.0.1:1"):
        assert bench.get("/", host=host).status == 403


def test_news_hold_all_there_is_from_the_start(bench: Bench) -> None:
    met: set[str] = set()
    with closing(HTTPConnection("127.0.0.1", bench.port, timeout=PATIENCE)) as connection:
        connection.request("GET", "/news")
        with connection.getresponse() as answer:
            assert answer.getheader("Content-Type") == "text/event-stream"
            while not {"model", "state", "sheet 6"} <= met:
                line = answer.readline()
                if line.startswith(b"data: "):
                    met.add(json.loads(line[6:])["slot"])


def test_a_port_that_is_taken_is_refused(tmp_path: Path) -> None:
    script = write_script(tmp_path)
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(FolderError, match="cannot be used"):
            KeptDrawn(script, port=taken.getsockname()[1], tell=None)
    with pytest.raises(SizeError):
        KeptDrawn(script, port=70000, tell=None)
    with pytest.raises(FolderError, match="no such script"):
        keep_drawn(tmp_path / "none.py", tell=None)


def test_it_ends_cleanly(tmp_path: Path) -> None:
    """Even while the first drawing is still going on."""
    script = write_script(tmp_path)
    before = threading.active_count()
    with KeptDrawn(script, tell=None) as kept:
        process = kept._process
        assert process is not None
        port = int(kept.address.rstrip("/").rpartition(":")[2])
    assert process._process.returncode is not None
    with pytest.raises(ConnectionRefusedError), socket.create_connection(("127.0.0.1", port)):
        pass
    until(lambda: threading.active_count() <= before)


# One drawing, in this process


def drawn(script: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Drawer, list[Message]]:
    monkeypatch.syspath_prepend(str(script.parent))
    monkeypatch.delitem(sys.modules, "sizes", raising=False)
    told: list[Message] = []
    return Drawer(script, told.append), told


def test_what_a_part_is_called_never_becomes_markup(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    script = write_script(tmp_path)
    text = SCRIPT.replace("twine shelf", NASTY).replace("Twine box", "</script><b>Box")
    script.write_text(text, encoding="utf-8")
    drawer, told = drawn(script, monkeypatch)
    drawer.draw()
    assert [m["kind"] for m in told][:3] == ["read", "model", "checked"]
    for message in told:
        for html in message.get("html", {}).values():
            assert "<img" not in html
        assert "<img" not in message.get("svg", "")
    assert "&lt;img src=x" in told[2]["html"]["side"]
    assert NASTY in {piece["name"] for piece in told[2]["data"]["pieces"]}


def test_only_what_changed_is_told_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    script = write_script(tmp_path)
    drawer, told = drawn(script, monkeypatch)
    drawer.draw()
    first = [m for m in told if m["kind"] == "sheet"]
    assert all("svg" in m for m in first)
    told.clear()
    drawer.draw()
    assert not any("svg" in m for m in told)
    assert len([m for m in told if m["kind"] == "sheet"]) == len(first)


def test_a_drawing_that_is_overtaken_is_left(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawer, told = drawn(write_script(tmp_path), monkeypatch)
    drawer.is_overtaken = lambda: True
    drawer.draw()
    assert [m["kind"] for m in told] == ["read", "model", "end"]


def test_it_tells_what_is_wanted_most_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Model, findings, the sheets of changed boards, the other sheets, then the plans."""
    drawer, told = drawn(write_script(tmp_path), monkeypatch)
    drawer.draw()
    boards = drawer._boards
    told.clear()
    write_script(tmp_path, width=641)
    drawer.draw()
    kinds = [message["kind"] for message in told]
    assert list(dict.fromkeys(kinds)) == [
        "read", "model", "checked", "sheet", "sheeted", "planned", "end",
    ]  # fmt: skip
    changed = len(drawer._boards - boards)
    sheets = [message["number"] for message in told if message["kind"] == "sheet"]
    assert 0 < changed < len(sheets)
    assert sheets[:changed] == sorted(sheets[:changed])
    assert sheets[changed:] == sorted(sheets[changed:])
    assert sheets != sorted(sheets)
