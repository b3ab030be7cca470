"""The job book in a real browser: it opens from disk, is drawn, and answers the hand.

Skipped where no Chromium is installed, or the package that drives it is missing.
"""

from __future__ import annotations

import io
import json
import shutil
import struct
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from tests.job_folders import planted_findings, seed_box, seed_box_folder, seed_box_parts
from tests.many_units import book_of_many

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

playwright = pytest.importorskip(
    "playwright.sync_api", reason="the package playwright, which drives the browser, is missing"
)
CHROMIUM = next(
    filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None
)
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium is installed")

# A software renderer, so that 3D is drawn on machines without a graphics card.
FLAGS = [
    "--no-sandbox",
    "--use-gl=angle",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
]
DESK = {"width": 1440, "height": 900}
TELEPHONE = {"width": 390, "height": 844}
STILL = 400  # ms after which what was asked for is drawn


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with playwright.sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def book() -> Path:
    return seed_box_folder() / "book.html"


@pytest.fixture(scope="module")
def book_with_findings(tmp_path_factory: pytest.TempPathFactory) -> Path:
    parts = seed_box_parts()
    path = tmp_path_factory.mktemp("book") / "book.html"
    path.write_text(parts.book(parts.record | {"findings": planted_findings()}), "utf-8")
    return path


class Opened:
    """A book that is open, with all that the browser complained of or asked for."""

    def __init__(self, page: Page, path: Path) -> None:
        self.page = page
        self.complaints: list[str] = []
        self.requests: list[str] = []
        page.on("console", lambda told: self.complaints.append(told.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("request", lambda request: self.requests.append(request.url))
        page.goto(path.as_uri())
        page.wait_for_selector("html[data-book]", timeout=60_000)

    def set(self, selector: str, value: float) -> None:
        """Set a slider as a hand does: the value and the event."""
        self.page.locator(selector).evaluate(
            "(input, value) => { input.value = value;"
            " input.dispatchEvent(new Event('input', { bubbles: true })); }",
            str(value),
        )

    def stage(self) -> NDArray[np.int16]:
        """What the 3D view shows, as (height, width, 3)."""
        # Scrolled so far that the view sticks to a whole pixel: equal pictures are then equal.
        self.page.evaluate("window.scrollTo(0, document.getElementById('round').offsetTop + 300)")
        self.page.wait_for_timeout(STILL)
        return pixels(self.page.locator("#stage"))


def pixels(place: Locator) -> NDArray[np.int16]:
    """What a place on the page shows, as (height, width, 3)."""
    with Image.open(io.BytesIO(place.screenshot())) as image:
        return np.asarray(image.convert("RGB"), dtype=np.int16)


def share_changed(before: NDArray[np.int16], after: NDArray[np.int16]) -> float:
    """Share of the pixels whose colour is another."""
    return float((np.abs(before - after).max(axis=2) > 12).mean())


@pytest.fixture
def desk(browser: Browser, book: Path) -> Iterator[Opened]:
    page = browser.new_page(viewport=DESK)  # type: ignore[arg-type]
    yield Opened(page, book)
    page.close()


def test_it_opens_without_a_complaint_and_asks_for_nothing(desk: Opened, book: Path) -> None:
    desk.page.wait_for_timeout(STILL)
    assert desk.complaints == []
    assert desk.requests == [book.as_uri()]
    assert desk.page.locator("html").get_attribute("data-book") == "drawn"


@pytest.mark.parametrize("place", ["#picture", "#stage"])
def test_the_unit_is_drawn(desk: Opened, place: str) -> None:
    """Plywood covers a good part of the picture, the ground its corners."""
    desk.page.locator(place).scroll_into_view_if_needed()
    shown = pixels(desk.page.locator(place))
    red, green, blue = (shown[:, :, channel] for channel in range(3))
    is_wood = (red > green + 8) & (green > blue + 20)
    assert is_wood.mean() > 0.15
    assert not is_wood[:20, :20].any()
    assert not is_wood[-20:, -20:].any()


# Counts what the page has the renderer do: calls, and how often a canvas is given its size.
COUNTING = """
window.told = { calls: 0, atFirst: null };
for (const kind of [WebGL2RenderingContext, WebGLRenderingContext]) {
  for (const name of ["drawElements", "drawArrays", "drawElementsInstanced", "drawArraysInstanced"]) {
    const own = kind.prototype[name];
    if (own) kind.prototype[name] = function (...given) { told.calls += 1; return own.apply(this, given); };
  }
}
const mark = performance.mark.bind(performance);
performance.mark = (name) => { told.atFirst ??= told.calls; return mark(name); };
"""
# As on a machine that draws slowly: every picture comes late.
LATE = """
const next = window.requestAnimationFrame.bind(window);
window.requestAnimationFrame = (draw) => next(() => setTimeout(() => draw(performance.now()), 90));
"""


@pytest.fixture(scope="module")
def many_boxes(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The book of thirty seed boxes side by side."""
    folder = tmp_path_factory.mktemp("many")
    return book_of_many(seed_box(), seed_box_parts().record, 30, folder)


def counted(browser: Browser, path: Path) -> tuple[Opened, int, int]:
    """An open book, its draw calls up to the first picture, and those of one turn."""
    page = browser.new_page(viewport=DESK)  # type: ignore[arg-type]
    page.add_init_script(COUNTING)
    opened = Opened(page, path)
    page.wait_for_timeout(STILL)
    before = page.evaluate("told.calls")
    page.get_by_role("button", name="Turn to the right").click()
    page.wait_for_timeout(STILL)
    return opened, page.evaluate("told.atFirst"), page.evaluate("told.calls") - before


def test_calls_do_not_grow_with_the_pieces(browser: Browser, book: Path, many_boxes: Path) -> None:
    """Equal pieces are drawn together: faces and lines of each shape in a call, at most."""
    alone, first, each = counted(browser, book)
    # Source: glTF 2.0, GLB file format: the JSON chunk begins after 20 bytes, its length at 12.
    glb = seed_box_parts().glb
    (length,) = struct.unpack_from("<I", glb, 12)
    shapes = len(json.loads(glb[20 : 20 + length])["meshes"])
    pieces = alone.page.locator("[data-piece]").count()
    assert 0 < first <= 2 * shapes + 2
    crowd, first_of_many, each_of_many = counted(browser, many_boxes)
    assert crowd.page.locator("[data-piece]").count() == 30 * pieces
    assert 0 < first_of_many <= 2 * shapes + 2
    # One turn may be drawn coarser at first, and once more at rest.
    assert 0 < each <= 3 * first
    assert 0 < each_of_many <= 3 * first
    assert alone.complaints == crowd.complaints == []
    alone.page.close()
    crowd.page.close()


def test_nothing_is_drawn_while_nothing_changes(browser: Browser, book: Path) -> None:
    opened, _, _ = counted(browser, book)
    calls = [0]
    # The last picture of the turn may come late.
    for _ in range(60):
        opened.page.wait_for_timeout(3 * STILL)
        calls.append(opened.page.evaluate("told.calls"))
        if calls[-1] == calls[-2]:
            break
    assert calls[-1] == calls[-2] > 0
    opened.page.close()


def test_one_of_many_is_chosen_moved_and_found_again(browser: Browser, many_boxes: Path) -> None:
    page = browser.new_page(viewport=DESK)  # type: ignore[arg-type]
    opened = Opened(page, many_boxes)
    page.get_by_role("button", name="left door, unit 17").click()
    before = opened.stage()
    page.get_by_role("button", name="Turn about it").click()
    near = opened.stage()
    # What is looked at from near is shown whole again, wherever it stands.
    assert share_changed(before, near) > 0.2
    page.get_by_role("button", name="Fade the rest").click()
    assert share_changed(near, opened.stage()) > 0.1
    page.get_by_role("button", name="Fade the rest").click()
    page.get_by_role("button", name="Choose none").click()
    box = page.locator("#stage").bounding_box()
    assert box is not None
    middle = {"x": box["width"] / 2, "y": box["height"] / 2}
    page.locator("#stage").click(position=middle)  # type: ignore[arg-type]
    assert page.locator("#card-name").inner_text() == "left door, unit 17"
    assert opened.complaints == []
    page.close()


def test_a_slow_machine_turns_it_coarser_and_rests_fine(browser: Browser, book: Path) -> None:
    """Fewer pixels while pictures come late; at rest the picture that any machine shows."""
    page = browser.new_page(viewport=DESK)  # type: ignore[arg-type]
    page.add_init_script(LATE)
    opened = Opened(page, book)
    opened.stage()
    fine = page.evaluate("document.getElementById('canvas').width")
    least = page.evaluate(
        """() => new Promise((done) => {
          const button = document.querySelector('[data-turn="15 0"]');
          let left = 24, least = Infinity;
          function next() {
            least = Math.min(least, document.getElementById("canvas").width);
            if (left === 0) { done(least); return; }
            left -= 1;
            button.click();
            requestAnimationFrame(next);
          }
          next();
        })"""
    )
    assert least < 0.6 * fine
    for _ in range(100):
        page.wait_for_timeout(STILL)
        if page.evaluate("document.getElementById('canvas').width") == fine:
            break
    turned = opened.stage()
    page.get_by_role("button", name="Corner", exact=True).click()
    page.wait_for_timeout(2 * STILL)
    # Twenty-four turns of 15 degrees go once round.
    assert share_changed(turned, opened.stage()) == 0.0
    page.close()


def test_a_tap_chooses_the_piece_under_it(desk: Opened) -> None:
    stage = desk.page.locator("#stage")
    desk.page.get_by_role("button", name="Front", exact=True).click()
    desk.page.wait_for_timeout(STILL)
    box = stage.bounding_box()
    assert box is not None
    before = desk.stage()
    # From the front, the middle of the left half is the left door.
    stage.click(position={"x": box["width"] * 0.38, "y": box["height"] * 0.5})
    assert desk.page.locator("#card-name").inner_text() == "left door"
    part = next(p for p in seed_box_parts().record["parts"] if p["name"] == "left door")
    card = desk.page.locator("#card").inner_text()
    assert f"{part['blank']['finished']['width']:g}" in card
    assert desk.page.locator("#card-sheet a").get_attribute("href") == f"#sheet-{part['sheet']}"
    pressed = desk.page.locator("[data-piece][aria-pressed=true]")
    assert pressed.all_inner_texts() == [f"{part['item']} left door"]
    assert share_changed(before, desk.stage()) > 0.05
    stage.click(position={"x": 5, "y": 5})
    assert desk.page.locator("#card-none").is_visible()


def test_a_door_slides_and_a_shelf_is_set(desk: Opened) -> None:
    before = desk.stage()
    far = float(desk.page.locator("#move-0").get_attribute("max") or 0)
    slides = next(m for m in seed_box_parts().record["moves"] if m["name"] == "left door slides")
    assert far == slides["high"]
    desk.set("#move-0", far)
    opened = desk.stage()
    assert share_changed(before, opened) > 0.02
    assert "to the right" in (desk.page.locator("#move-0").get_attribute("aria-valuetext") or "")
    shelf = desk.page.get_by_label("seed shelf by its pins")
    rows = max(
        feature["count"]
        for part in seed_box_parts().record["parts"]
        for feature in part["features"]
        if feature["kind"] == "HoleRow"
    )
    assert shelf.get_attribute("aria-valuetext") == f"row 3 of {rows}"
    shelf.focus()
    desk.page.keyboard.press("ArrowRight")
    assert shelf.get_attribute("aria-valuetext") == f"row 4 of {rows}"
    assert share_changed(opened, desk.stage()) > 0.002
    desk.page.get_by_role("button", name="Put everything back").click()
    assert share_changed(before, desk.stage()) < 0.002


def test_cut_open_and_spread_apart(desk: Opened) -> None:
    whole = desk.stage()
    desk.page.get_by_role("radio", name="from the front").check()
    cut = desk.stage()
    assert share_changed(whole, cut) > 0.1
    desk.page.get_by_role("radio", name="whole").check()
    assert share_changed(whole, desk.stage()) < 0.002
    desk.set("#spread", 100)
    assert share_changed(whole, desk.stage()) > 0.1


def test_the_unit_comes_together_step_by_step(desk: Opened) -> None:
    """Nothing at first, then more and more; the words of the step stand beside it."""
    page = desk.page
    whole = desk.stage()
    count = int(page.locator("#order").get_attribute("max") or 0)
    assert count > 3
    desk.set("#order", 0)
    empty = desk.stage()
    assert page.locator("output[for=order]").text_content() == "nothing yet"
    page.locator("#order-on").click()
    one = desk.stage()
    assert "lay out" in (page.locator("#order-words").text_content() or "")
    desk.set("#order", count - 0.5)
    on_its_way = desk.stage()
    desk.set("#order", count)
    assert share_changed(empty, one) > 0.002
    assert share_changed(empty, whole) > share_changed(one, whole) > 0.05
    assert share_changed(on_its_way, whole) > 0.001
    assert share_changed(desk.stage(), whole) == 0.0
    assert desk.complaints == []


def test_a_tap_on_what_is_cut_away_falls_through(desk: Opened) -> None:
    desk.page.get_by_role("button", name="Front", exact=True).click()
    desk.page.get_by_role("radio", name="from the front").check()
    box = desk.page.locator("#stage").bounding_box()
    assert box is not None
    spot = {"x": box["width"] * 0.38, "y": box["height"] * 0.5}
    desk.page.locator("#stage").click(position=spot)  # type: ignore[arg-type]
    assert desk.page.locator("#card-name").inner_text() != "left door"


def test_what_is_cut_is_filled_and_chosen_by_a_tap(desk: Opened) -> None:
    """A plane within the thickness of the left door shows it hatched, not what lies behind it."""
    page = desk.page
    page.get_by_role("button", name="Front", exact=True).click()
    whole = desk.stage()
    door = next(p for p in seed_box_parts().record["parts"] if p["name"] == "left door")
    # The door's origin is at its back.
    middle = door["placement"]["origin"][1] - door["blank"]["finished"]["thickness"] / 2
    page.get_by_role("radio", name="from the front").check()
    desk.set("#cut-at", round(middle / 243, 3))
    cut = desk.stage()
    height, width, _ = cut.shape
    patch = (
        slice(int(height * 0.45), int(height * 0.55)),
        slice(int(width * 0.3), int(width * 0.45)),
    )
    # Wood of one tone before; then tones of wood and of the hatching through it.
    assert whole[patch].std(axis=(0, 1)).max() < 4 < cut[patch].std(axis=(0, 1)).max()
    assert (cut[patch][:, :, 0] > cut[patch][:, :, 2] + 10).mean() > 0.6
    box = page.locator("#stage").bounding_box()
    assert box is not None
    spot = {"x": box["width"] * 0.38, "y": box["height"] * 0.5}
    page.locator("#stage").click(position=spot)  # type: ignore[arg-type]
    assert page.locator("#card-name").inner_text() == "left door"
    assert desk.complaints == []


def test_the_keyboard_turns_the_unit_and_chooses_from_the_list(desk: Opened) -> None:
    before = desk.stage()
    desk.page.locator("#stage").focus()
    desk.page.keyboard.press("ArrowLeft")
    turned = desk.stage()
    assert share_changed(before, turned) > 0.05
    desk.page.get_by_role("button", name="seed shelf").focus()
    desk.page.keyboard.press("Enter")
    assert desk.page.locator("#card-name").inner_text() == "seed shelf"
    desk.page.get_by_role("button", name="Fade the rest").click()
    assert share_changed(turned, desk.stage()) > 0.1


def test_findings_are_marked_where_they_are(browser: Browser, book_with_findings: Path) -> None:
    page = browser.new_page(viewport=DESK)  # type: ignore[arg-type]
    opened = Opened(page, book_with_findings)
    page.wait_for_timeout(STILL)
    marks = page.locator("[data-finding]")
    # The third names neither a place nor a part.
    assert [mark.is_visible() for mark in marks.all()] == [True, True, False]
    page.get_by_role("button", name="Front", exact=True).click()
    page.wait_for_timeout(STILL)
    stage, mark = page.locator("#stage").bounding_box(), marks.first.bounding_box()
    assert stage is not None
    assert mark is not None
    # It lies at 153 mm of 613 from the left, near the top.
    assert stage["x"] + stage["width"] * 0.2 < mark["x"] < stage["x"] + stage["width"] * 0.45
    assert mark["y"] < stage["y"] + stage["height"] * 0.4
    marks.first.click()
    assert page.locator("#card-name").inner_text() == "left door"
    assert page.evaluate("document.activeElement.id") == "finding-0"
    assert opened.complaints == []
    page.close()


def test_marks_in_one_place_lie_side_by_side(browser: Browser, tmp_path: Path) -> None:
    parts, (first, *_) = seed_box_parts(), planted_findings()
    path = tmp_path / "book.html"
    path.write_text(parts.book(parts.record | {"findings": [first] * 3}), "utf-8")
    page = browser.new_page(viewport=DESK)  # type: ignore[arg-type]
    opened = Opened(page, path)
    opened.stage()
    boxes = [mark.bounding_box() for mark in page.locator("[data-finding]").all()]
    lefts = [box["x"] for box in boxes if box is not None]
    assert len(lefts) == 3
    assert lefts[1] - lefts[0] > 20
    assert lefts[2] - lefts[1] > 20
    assert opened.complaints == []
    page.close()


def test_ticks_stay_after_the_book_is_opened_again(browser: Browser, book: Path) -> None:
    context = browser.new_context(viewport=DESK)  # type: ignore[arg-type]
    first = Opened(context.new_page(), book)
    total = first.page.locator("[data-tick]").count()
    first.page.locator("[data-tick=blank-3]").check()
    first.page.locator("[data-tick=made-2]").check()
    assert first.page.locator("#tally").inner_text() == f"2 of {total} ticked."
    first.page.close()
    second = Opened(context.new_page(), book)
    ticked = second.page.locator("[data-tick]:checked").all()
    assert [box.get_attribute("data-tick") for box in ticked] == ["blank-3", "made-2"]
    second.page.on("dialog", lambda dialog: dialog.accept())
    second.page.get_by_role("button", name="Clear all ticks").click()
    assert second.page.locator("[data-tick]:checked").count() == 0
    context.close()


def test_ticks_work_where_nothing_is_kept(browser: Browser, book: Path) -> None:
    """Some browsers refuse storage to a page opened from disk."""
    context = browser.new_context(viewport=DESK)  # type: ignore[arg-type]
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } });"
    )
    opened = Opened(context.new_page(), book)
    opened.page.locator("[data-tick=blank-3]").check()
    assert opened.page.locator("#tally").inner_text().startswith("1 of")
    assert opened.page.locator("#unkept").is_visible()
    assert opened.complaints == []
    context.close()


def test_without_3d_the_rest_is_there(browser: Browser, book: Path) -> None:
    context = browser.new_context(viewport=DESK)  # type: ignore[arg-type]
    context.add_init_script("HTMLCanvasElement.prototype.getContext = () => null;")
    opened = Opened(context.new_page(), book)
    assert opened.page.locator("html").get_attribute("data-book") == "plain"
    assert opened.page.locator("#no-stage").is_visible()
    opened.page.get_by_role("button", name="seed shelf").click()
    assert opened.page.locator("#card-name").inner_text() == "seed shelf"
    opened.page.locator("[data-tick=made-2]").check()
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [DESK, TELEPHONE], ids=["desk", "telephone"])
def test_nothing_is_wider_than_the_screen(
    browser: Browser, book_with_findings: Path, size: dict[str, int], scheme: str
) -> None:
    page = browser.new_page(viewport=size, color_scheme=scheme)  # type: ignore[arg-type]
    Opened(page, book_with_findings)
    assert page.evaluate("document.documentElement.scrollWidth") == size["width"]
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    light = sum(int(channel) for channel in ground[4:-1].split(",")) / 3
    assert (light > 128) is (scheme == "light")
    page.close()


@pytest.mark.parametrize("width", [320, 390, 700, 1440])
def test_a_blank_is_read_without_scrolling_sideways(
    browser: Browser, book: Path, width: int
) -> None:
    """Also on a telephone beside the saw; a reader aloud is told of a table on any window."""
    page = browser.new_page(viewport={"width": width, "height": 844})
    Opened(page, book)
    table = page.get_by_role("table")
    rows = table.get_by_role("row")
    assert rows.count() > 3
    for row in rows.all()[1:]:
        for cell in (row.get_by_role("rowheader"), *row.get_by_role("cell").all()):
            box = cell.bounding_box()
            assert box is not None
            assert box["x"] >= 0
            assert box["x"] + box["width"] <= width
    assert table.get_by_role("columnheader").count() == 8
    page.close()


def test_every_sheet_is_printed_on_its_own_paper(desk: Opened, tmp_path: Path) -> None:
    pypdf = pytest.importorskip("pypdf")
    path = tmp_path / "book.pdf"
    desk.page.pdf(path=path, prefer_css_page_size=True)
    pages = pypdf.PdfReader(path).pages
    parts = seed_box_parts()
    sheets = pages[-len(parts.sheets) :]
    number = parts.record["number"]
    for page, sheet in zip(sheets, parts.sheets, strict=True):
        width, height = (float(side) * 25.4 / 72 for side in page.mediabox[2:])
        assert (width, height) == pytest.approx((sheet.size.width, sheet.size.height), abs=0.5)
        assert f"{number}-{sheet.number:02d}" in page.extract_text()
    front = pages[0].extract_text()
    assert parts.record["name"] in front
    assert "613" in front
