"""The job book in a real browser: it opens from disk, is drawn, and answers the hand.

Skipped where no Chromium is installed, or the package that drives it is missing.
"""

from __future__ import annotations

import io
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from tests.job_folders import planted_findings, seed_box_folder, seed_box_parts

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


def test_the_first_picture_stands_within_two_seconds(browser: Browser, book: Path) -> None:
    if os.getloadavg()[0] > (os.cpu_count() or 1):
        pytest.skip("the machine is too busy to time anything")
    times = []
    for _ in range(3):
        page = browser.new_page(viewport=DESK)  # type: ignore[arg-type]
        opened = Opened(page, book)
        times.append(
            opened.page.evaluate("performance.getEntriesByName('first picture')[0].startTime")
        )
        page.close()
    assert min(times) < 2000


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
