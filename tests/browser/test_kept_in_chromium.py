"""The page of a kept script in a real browser: it follows each save.

Skipped where no Chromium is installed, or the package that drives it is missing.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from drawings.kept_drawn import KeptDrawn
from tests.browser.test_book_in_chromium import (
    CHROMIUM,
    DESK,
    FLAGS,
    STILL,
    TELEPHONE,
    pixels,
    playwright,
    share_changed,
)
from tests.drawings.kept_scripts import SCRIPT, write_script, write_sizes

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium is installed")

PATIENCE = 120_000  # ms, far more than a drawing takes
NASTY = "<img src=x onerror=console.warn(7)>"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("kept")


@pytest.fixture(scope="module")
def kept(folder: Path) -> Iterator[KeptDrawn]:
    with KeptDrawn(write_script(folder), tell=None) as kept:
        yield kept


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with playwright.sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()


class Opened:
    """The page, with all that the browser complained of."""

    def __init__(self, page: Page, kept: KeptDrawn) -> None:
        self.page = page
        self.kept = kept
        self.complaints: list[str] = []
        page.on("console", lambda told: self.complaints.append(told.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.goto(kept.address)

    def wait(self, phase: str) -> None:
        """Wait until the last save is shown to be done with."""
        page = self.page
        page.wait_for_selector(f"#state[data-phase={phase}]", timeout=PATIENCE)
        page.wait_for_timeout(STILL)


@pytest.fixture
def desk(browser: Browser, kept: KeptDrawn, folder: Path) -> Iterator[Opened]:
    page = browser.new_page(viewport=DESK)  # type: ignore[arg-type]
    opened = Opened(page, kept)
    page.wait_for_selector("html[data-round]", timeout=PATIENCE)
    opened.wait("drawn")
    yield opened
    page.close()
    # A test that failed half-way must not leave its script to the next.
    if (folder / "twine_box.py").read_text(encoding="utf-8") != SCRIPT:
        write_script(folder)


def save(opened: Opened, text: str, folder: Path, phase: str) -> None:
    """Save the script and wait until the page has taken it up."""
    before = (opened.kept.news.get("state") or {})["round"]
    (folder / "twine_box.py").write_text(text, encoding="utf-8")
    taken_up(opened, before, phase)


def taken_up(opened: Opened, before: int, phase: str) -> None:
    for _ in range(PATIENCE // 50):
        state = opened.kept.news.get("state") or {}
        if state["round"] > before and state["phase"] == phase:
            break
        opened.page.wait_for_timeout(50)
    opened.wait(phase)


def test_a_save_changes_the_model_and_keeps_the_camera(desk: Opened, folder: Path) -> None:
    page = desk.page
    page.get_by_role("button", name="Front", exact=True).click()
    page.get_by_role("radio", name="from the front").check()
    page.get_by_role("button", name="twine shelf").first.click()
    page.wait_for_timeout(STILL)
    before = pixels(page.locator("#stage"))
    assert "613 × 487 × 243 mm" in page.locator("#summary").inner_text()
    sheets = page.locator("#papers img")
    count = sheets.count()
    assert count > 3
    sources = {image.get_attribute("src") for image in sheets.all()}
    round_before = (desk.kept.news.get("state") or {})["round"]
    write_sizes(folder, width=641)
    taken_up(desk, round_before, "drawn")
    assert "641 × 487 × 243 mm" in page.locator("#summary").inner_text()
    told = page.locator("#state").inner_text()
    assert told.startswith("Model drawn ")
    assert " s after the save, findings " in told
    assert {image.get_attribute("src") for image in sheets.all()} != sources
    assert page.get_by_text("changed by the last save").count() > 0
    # What was set by hand stays, and so does the camera: little of the picture is another.
    assert page.get_by_role("radio", name="from the front").is_checked()
    assert page.locator("#card-name").inner_text() == "twine shelf"
    changed = share_changed(before, pixels(page.locator("#stage")))
    assert 0.002 < changed < 0.25
    assert desk.complaints == []
    write_sizes(folder)
    taken_up(desk, round_before + 1, "drawn")


def test_a_mistake_is_shown_and_the_view_kept(desk: Opened, folder: Path) -> None:
    page = desk.page
    page.wait_for_timeout(STILL)
    before = pixels(page.locator("#stage"))
    save(desk, SCRIPT + "\nwidth = = 3\n", folder, "refused")
    mistake = page.locator("#mistake")
    assert mistake.is_visible()
    assert "invalid syntax" in mistake.inner_text()
    assert "twine_box.py, line " in mistake.inner_text()
    assert page.locator("#name").inner_text() == "Twine box"
    assert share_changed(before, pixels(page.locator("#stage"))) < 0.002
    save(desk, SCRIPT, folder, "drawn")
    assert not mistake.is_visible()
    assert desk.complaints == []


def test_errors_are_told_and_shown_if_asked_for(desk: Opened, folder: Path) -> None:
    page = desk.page
    second = '    board_shelf(pins.bay(1), hole=HOLE, stock=birch, name="second shelf"),\n'
    save(desk, SCRIPT.replace("    hanging_cleat", second + "    hanging_cleat"), folder, "refused")
    assert "second shelf" in page.locator("#mistake").inner_text()
    assert page.locator("#side").get_by_text("second shelf", exact=False).count() == 0
    button = page.get_by_role("button", name="Show it with its errors")
    button.click()
    page.locator("[data-finding]").first.wait_for(state="attached", timeout=PATIENCE)
    assert page.locator("#side").get_by_text("second shelf", exact=False).count() > 0
    assert page.locator("#findings .jb-error").count() > 0
    button.click()
    # By selector: the page forbids the evaluation that a function polled in it would need.
    page.wait_for_selector("#findings .jb-error", state="detached", timeout=PATIENCE)
    save(desk, SCRIPT, folder, "drawn")
    assert desk.complaints == []


def test_no_name_of_a_part_runs_or_becomes_markup(desk: Opened, folder: Path) -> None:
    page = desk.page
    save(desk, SCRIPT.replace("twine shelf", NASTY), folder, "drawn")
    page.locator("#side [data-piece]", has_text=NASTY).first.click()
    assert page.locator("#card-name").inner_text() == NASTY
    assert page.locator("img[src=x]").count() == 0
    save(desk, SCRIPT, folder, "drawn")
    assert desk.complaints == []


@pytest.mark.parametrize("size", [DESK, TELEPHONE], ids=["desk", "telephone"])
def test_nothing_is_wider_than_the_screen(
    browser: Browser, kept: KeptDrawn, size: dict[str, int]
) -> None:
    page = browser.new_page(viewport=size)  # type: ignore[arg-type]
    Opened(page, kept).wait("drawn")
    assert page.evaluate("document.documentElement.scrollWidth") == size["width"]
    page.close()


def test_without_3d_the_rest_follows(browser: Browser, kept: KeptDrawn) -> None:
    context = browser.new_context(viewport=DESK)  # type: ignore[arg-type]
    context.add_init_script("HTMLCanvasElement.prototype.getContext = () => null;")
    opened = Opened(context.new_page(), kept)
    opened.wait("drawn")
    assert opened.page.locator("#no-stage").is_visible()
    opened.page.get_by_role("button", name="twine shelf").first.click()
    assert opened.page.locator("#card-name").inner_text() == "twine shelf"
    context.close()
