"""The job book as text: nothing escapes, nothing is missing, nothing differs."""

from __future__ import annotations

import base64
import copy
import hashlib
import io
import json
import re
import zipfile
from collections.abc import Iterator
from html.parser import HTMLParser
from importlib import resources
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cabinet.errors import CabinetError, KernelError
from cabinet.record import Record
from drawings import book_engine
from drawings.book import json_block
from drawings.book_assembly import book_assembly
from drawings.book_engine import engine_script
from drawings.book_moves import book_moves
from drawings.book_pieces import mass_text, pieces, size_text
from drawings.book_sheets import bound_sheet, inlined
from tests.job_folders import planted_findings, seed_box_folder, seed_box_parts

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
EVIL = '</script></title><img src=x onerror="document.title=1">\'"&amp;]]>\u2028<!--'


class Page(HTMLParser):
    """A page as a browser would take it apart: its tags, its scripts, its visible text."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.scripts: list[tuple[dict[str, str], str]] = []
        self.words: list[str] = []
        self._open = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep a tag."""
        named = {name: value or "" for name, value in attrs}
        self.tags.append((tag, named))
        self._open = tag
        if tag == "script":
            self.scripts.append((named, ""))

    def handle_endtag(self, tag: str) -> None:  # noqa: ARG002 - the parser's own signature
        """Whatever follows is text of the element around it."""
        self._open = ""

    def handle_data(self, data: str) -> None:
        """Keep text: of a script with the script, of a style nowhere, else as visible."""
        if self._open == "script":
            named, text = self.scripts[-1]
            self.scripts[-1] = (named, text + data)
        elif self._open != "style":
            self.words.append(data)

    def script(self, name: str) -> str:
        """Content of the script element with an id."""
        (found,) = [text for named, text in self.scripts if named.get("id") == name]
        return found


@pytest.fixture(scope="module")
def page() -> Page:
    return Page(seed_box_parts().book())


def test_the_folder_holds_the_book_made_of_its_own_files() -> None:
    written = (seed_box_folder() / "book.html").read_bytes()
    assert written == seed_box_parts().book().encode("utf-8")
    assert len(written) < 5_000_000


# What must be inside


def test_every_sheet_is_inside_once_with_all_its_words(page: Page) -> None:
    parts = seed_box_parts()
    drawn = [named for tag, named in page.tags if tag == "svg" and named.get("role") == "img"]
    assert [one["aria-label"] for one in drawn] == [sheet.title for sheet in parts.sheets]
    for one, sheet in zip(drawn, parts.sheets, strict=True):
        assert one["width"] == f"{sheet.size.width:g}mm"
    texts = [
        "".join(text.itertext())
        for svg in parts.svgs.values()
        for text in ET.fromstring(svg).iter(f"{SVG}text")
    ]
    assert len(texts) > 500
    inside = "\0".join(page.words)
    assert [text for text in texts if text not in inside] == []


def test_what_the_program_reads_agrees_with_the_record(page: Page) -> None:
    record = seed_box_parts().record
    data = json.loads(page.script("data"))
    told = [piece["name"] for piece in data["pieces"]]
    assert told == [piece["name"] for piece in (*record["parts"], *record["hardware"])]
    for piece, part in zip(data["pieces"], record["parts"], strict=False):
        facts = dict(piece["facts"])
        finished = part["blank"]["finished"]
        sizes = [float(size) for size in facts["Finished size"].removesuffix(" mm").split(" × ")]
        expected = [finished["length"], finished["width"], finished["thickness"]]
        assert sizes == pytest.approx(expected, abs=0.051)
        assert part["blank"]["material"] in facts["Board"]
        assert piece["sheet"] == part["sheet"]
        assert piece["mark"] == str(part["item"])
    assert len(data["moves"]) == len(record["moves"])
    assert base64.b64decode(page.script("model")) == seed_box_parts().glb


def test_every_blank_article_and_part_has_a_box_to_tick(page: Page) -> None:
    record = seed_box_parts().record
    ticks = [named["data-tick"] for _, named in page.tags if "data-tick" in named]
    assert len(ticks) == len(set(ticks))
    for stem, lines in (
        ("blank", record["cut_list"]),
        ("article", record["hardware_list"]),
        ("made", record["parts"]),
    ):
        assert len([tick for tick in ticks if tick.startswith(f"{stem}-")]) == len(lines)


def test_a_change_of_anything_gets_ticks_of_its_own() -> None:
    parts = seed_box_parts()
    changed = copy.deepcopy(parts.record)
    changed["parts"][0]["blank"]["measured_thickness"] += 0.1
    keys = {
        json.loads(Page(parts.book(record)).script("data"))["key"]
        for record in (parts.record, changed)
    }
    assert len(keys) == 2
    assert all(parts.record["number"] in key for key in keys)


def test_findings_stand_in_the_list_and_have_a_marker() -> None:
    parts = seed_box_parts()
    page = Page(parts.book(parts.record | {"findings": planted_findings()}))
    text = " ".join(page.words)
    for finding in planted_findings():
        assert finding["sentence"] in text
    assert len([1 for _, named in page.tags if "data-finding" in named]) == 3
    assert "Draft" not in text


def test_a_draft_says_so() -> None:
    parts = seed_box_parts()
    page = Page(parts.book(parts.record | {"is_draft": True}))
    assert "not for making" in " ".join(page.words)


# What must not get in


def _renamed(value: object, old: str, new: str) -> object:
    if isinstance(value, dict):
        return {key: _renamed(item, old, new) for key, item in value.items()}
    if isinstance(value, list):
        return [_renamed(item, old, new) for item in value]
    return value.replace(old, new) if isinstance(value, str) else value


def test_a_name_of_markup_stays_a_name(page: Page) -> None:
    parts = seed_box_parts()
    record = _renamed(copy.deepcopy(parts.record), "seed shelf", EVIL)
    assert isinstance(record, dict)
    record["name"] = record["number"] = EVIL
    record["findings"] = _renamed(planted_findings(), "seed shelf", EVIL)
    record["findings"][0]["sentence"] = record["findings"][0]["rule"] = EVIL
    record["sheets"][0]["title"] = record["cut_list"][0]["board"] = EVIL
    record["hardware_list"][0]["article"] = record["hardware"][0]["article"] = EVIL
    for item in record["hardware"]:
        item["article"] = record["hardware_list"][0]["article"]
    hurt = Page(parts.book(record))
    assert [tag for tag, _ in hurt.tags if tag in ("img", "iframe", "object", "link")] == []
    assert len(hurt.scripts) == len(page.scripts) == 4
    names = [piece["name"] for piece in json.loads(hurt.script("data"))["pieces"]]
    assert EVIL in names
    for _, named in hurt.tags:
        assert not [name for name in named if name.startswith("on")]
        assert "<" not in named.get("id", "")


def test_a_very_long_name_is_told_whole() -> None:
    parts = seed_box_parts()
    long = "shelf" * 400
    record = _renamed(copy.deepcopy(parts.record), "seed shelf", long)
    assert isinstance(record, dict)
    assert long in " ".join(Page(parts.book(record)).words)


def test_only_our_scripts_run_and_nothing_is_loaded(page: Page) -> None:
    """Content Security Policy Level 3: a script whose checksum is not listed does not run."""
    (policy,) = [named["content"] for _, named in page.tags if "http-equiv" in named]
    assert "default-src 'none'" in policy
    run = [text for named, text in page.scripts if "type" not in named]
    assert len(run) == 2
    for text in run:
        digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
        assert f"'sha256-{digest}'" in policy
    for tag, named in page.tags:
        assert "src" not in named, tag
        assert named.get("href", "#").startswith("#"), tag
    style = seed_box_parts().book().split("<style>")[1].split("</style>")[0]
    assert "url(" not in style
    assert "@import" not in style


def test_ids_are_unique_and_every_link_leads_somewhere(page: Page) -> None:
    ids = [named["id"] for _, named in page.tags if "id" in named]
    assert len(ids) == len(set(ids))
    for _, named in page.tags:
        for name in ("href", "aria-labelledby", "for"):
            if name in named:
                assert named[name].removeprefix("#") in ids


def test_the_page_has_no_class_of_the_sheets(page: Page) -> None:
    """The page's rules must not reach into a sheet, and the sheets' not into the page."""
    ours = resources.files("drawings").joinpath("book_assets", "book.css").read_text("utf-8")
    without_values = re.sub(r"\{[^{}]*\}", "{}", re.sub(r"/\*.*?\*/", "", ours, flags=re.DOTALL))
    classes = set(re.findall(r"\.([a-zA-Z][\w-]*)", without_values))
    assert classes
    assert all(name.startswith("jb-") for name in classes)


def test_data_in_a_script_cannot_end_it() -> None:
    block = json_block({"name": EVIL, "size": 17.6})
    assert not set("<>&\u2028") & set(block)
    assert json.loads(block) == {"name": EVIL, "size": 17.6}


# Sheets


def _sheet(rule: str, inside: str = "") -> str:
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="7mm">'
        f"<defs><style><![CDATA[{rule}]]></style></defs>{inside}</svg>"
    )


def test_styles_of_sheets_do_not_meet() -> None:
    rules = (
        ".cut{stroke-width:0.5}\ntext,.note{fill:#000}",
        ".cut{stroke-width:0.35}",
        ".cut{stroke-width:0.35}",
    )
    made = inlined(
        {
            number: bound_sheet(number, f"Sheet {number}", _sheet(rule))
            for number, rule in enumerate(rules, start=1)
        }
    )
    first, second = made.sheets[1].look, made.sheets[2].look
    assert first != second == made.sheets[3].look
    assert made.style.splitlines() == [
        f".{first} .cut{{stroke-width:0.5}}",
        f".{first} text,.{first} .note{{fill:#000}}",
        f".{second} .cut{{stroke-width:0.35}}",
    ]
    for number, sheet in made.sheets.items():
        assert "<style" not in sheet.markup
        assert f'aria-label="Sheet {number}"' in sheet.markup


def test_a_sheet_with_an_id_is_refused() -> None:
    with pytest.raises(KernelError, match=r"sheet 7.*the id 'edge'"):
        bound_sheet(7, "Seven", _sheet("", '<clipPath id="edge"/>'))


@pytest.mark.parametrize("text", ["no markup", "<html/>", "<svg>"])
def test_what_is_no_svg_is_refused(text: str) -> None:
    with pytest.raises(KernelError, match="sheet 7"):
        bound_sheet(7, "Seven", text)


# Moves and pieces


def _of(record: Record, label: str) -> int:
    return [move.label for move in book_moves(record)].index(label)


def test_doors_and_shelves_move_as_the_record_has_it() -> None:
    record = seed_box_parts().record
    moves, raw = book_moves(record), {move["name"]: move for move in record["moves"]}
    door = moves[_of(record, "right door slides")]
    assert (door.low, door.high) == (
        raw["right door slides"]["low"],
        raw["right door slides"]["high"],
    )
    assert door.direction == (1, 0, 0)
    assert door.travel == f"{-door.low:.1f} mm to the left"
    shelf = moves[_of(record, "seed shelf by its pins")]
    rows = {
        feature["count"]
        for part in record["parts"]
        for feature in part["features"]
        if feature["kind"] == "HoleRow" and part["role"] == "side"
    }
    assert {shelf.settings} == rows
    assert shelf.pitch == 32.0
    assert shelf.here == 3  # the design sets it in hole 3


def test_the_unit_rises_and_what_is_screwed_to_the_wall_stays() -> None:
    record = seed_box_parts().record
    (raised,) = [move for move in book_moves(record) if "cleat" in move.label]
    everything = {piece["name"] for piece in (*record["parts"], *record["hardware"])}
    stays = everything - set(raised.names)
    assert "cleat, wall half" in stays
    assert {name for name in stays if name != "cleat, wall half"} == {
        item["name"] for item in record["hardware"] if "wall" in item["inside"]
    }
    assert raised.direction == (0, 0, 1)
    assert raised.low == 0 < raised.high


def test_hardware_inside_one_moving_part_goes_with_it() -> None:
    record = copy.deepcopy(seed_box_parts().record)
    pull = {**record["hardware"][0], "name": "pull", "inside": ["left door"]}
    stop = {**record["hardware"][0], "name": "stop", "inside": ["left door", "top"]}
    record["hardware"] += [pull, stop]
    door = book_moves(record)[_of(record, "left door slides")]
    assert door.names == ("left door", "pull")


def test_a_move_against_an_axis_is_told_along_it() -> None:
    record = copy.deepcopy(seed_box_parts().record)
    record["moves"] = [
        {
            "name": "flap drops",
            "motion": "slides",
            "parts": ["left door"],
            "direction": "left",
            "low": -3.0,
            "high": 41.5,
        }
    ]
    (move,) = book_moves(record)
    assert (move.direction, move.low, move.high) == ((1, 0, 0), -41.5, 3.0)
    assert move.travel == "3 mm to the right or 41.5 mm to the left"


def test_hardware_is_told_by_its_article() -> None:
    record = seed_box_parts().record
    told = {piece.name: piece for piece in pieces(record)}
    item = record["hardware"][0]
    facts = dict(told[item["name"]].facts)
    assert facts["Article"] == item["article"]
    count = sum(other["article"] == item["article"] for other in record["hardware"])
    assert facts["Pieces alike"] == str(count)
    assert told[item["name"]].sheet is None


def test_the_whole_unit_is_not_told_by_its_first_part() -> None:
    """What is hung is all that was put together before, whatever stands on the wall already."""
    record = seed_box_parts().record
    last = book_assembly(record)[-1]
    hung = [step for step in record["assembly"]["steps"] if step["stage"] == "on the wall"]
    assert len(hung[-1]["bodies"]) > 3
    assert last.words.startswith("on the wall: all that is put together, moved down")


def test_sizes_and_masses_in_words() -> None:
    assert size_text(613, 287.3, 17.6) == "613 × 287.3 × 17.6 mm"
    assert [mass_text(m) for m in (0.0213, 2.3456, 38.04)] == ["21 g", "2.35 kg", "38 kg"]


# The engine


@pytest.fixture
def fresh_engine() -> Iterator[None]:
    engine_script.cache_clear()
    yield
    engine_script.cache_clear()


@pytest.mark.usefixtures("fresh_engine")
def test_the_installed_package_ships_an_engine_that_can_do_it_all() -> None:
    script = engine_script()
    for needed in ("GLTFLoader", "Raycaster", "clippingPlanes", "EdgesGeometry", "MIT"):
        assert needed in script
    assert "http-equiv" not in script
    assert "\r" not in script


@pytest.mark.usefixtures("fresh_engine")
@pytest.mark.parametrize("package", ["json", "no_such_package_at_all"])
def test_a_package_without_the_engine_is_named(
    package: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(book_engine, "PACKAGE", package)
    with pytest.raises(CabinetError, match=rf"{package}.*viewer\.zip") as caught:
        seed_box_parts().book()
    assert isinstance(caught.value, KernelError)
    assert caught.value.value == package


@pytest.mark.usefixtures("fresh_engine")
@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("viewer.html.template", "<html><script>another();</script></html>"),
        ("viewer.html.template", "<script>a</script><script>THREE.GLTFLoader=GLTFLoader;})();"),
        ("another.html", "<script>THREE.GLTFLoader=GLTFLoader;})();</script>"),
    ],
    ids=["another program", "two scripts", "another name"],
)
def test_a_page_that_changed_is_refused(
    name: str, text: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    archive = io.BytesIO()
    with zipfile.ZipFile(archive, "w") as opened:
        opened.writestr(name, text)
    place = tmp_path / "resources" / "templates"
    place.mkdir(parents=True)
    (place / "viewer.zip").write_bytes(archive.getvalue())
    monkeypatch.setattr(book_engine, "_home", lambda: tmp_path)
    with pytest.raises(KernelError, match="3D engine"):
        engine_script()


# Colours


def _luminance(colour: str) -> float:
    """Relative luminance of ``#rrggbb`` or ``#rgb``. Source: WCAG 2.2, Relative luminance."""
    digits = colour.removeprefix("#")
    digits = digits if len(digits) == 6 else "".join(2 * digit for digit in digits)
    channels = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("theme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize(
    ("text", "ground"),
    [
        ("ink", "ground"),
        ("ink", "card"),
        ("ink", "stage"),
        ("quiet", "ground"),
        ("quiet", "card"),
        ("mark", "ground"),
        ("mark", "card"),
        ("on-mark", "mark"),
        ("heed", "heed-ground"),
        ("heed", "ground"),
        ("bad", "ground"),
    ],
)
def test_text_is_told_from_its_ground(theme: int, text: str, ground: str) -> None:
    """WCAG 2.2, success criterion 1.4.3: a contrast of at least 4.5 : 1."""
    style = resources.files("drawings").joinpath("book_assets", "book.css").read_text("utf-8")
    blocks = re.findall(r":root \{([^}]*)\}", style)
    colours = dict(re.findall(r"--([\w-]+): (#[0-9a-f]+)", blocks[theme]))
    low, high = sorted((_luminance(colours[text]), _luminance(colours[ground])))
    assert (high + 0.05) / (low + 0.05) >= 4.5
