"""Size of the job book, seconds to its first picture, and pictures a second while it turns.

In headless Chromium with a software renderer, which is what machines without a graphics card
have.

    python -m tests.benchmarks.book [--units 100]
"""

from __future__ import annotations

import argparse
import json
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import sync_playwright

from cabinet.design import Design
from cabinet.record import Record, plain
from drawings import write_job
from drawings.book import book_html
from drawings.exports import write_unit_glb
from drawings.placed_solids import placed_solids
from drawings.scene import scene
from tests.benchmarks.job import example
from tests.benchmarks.proofs import side_by_side
from tests.browser.test_book_in_chromium import DESK, FLAGS, Opened

if TYPE_CHECKING:
    from playwright.sync_api import Page

_TURN = """() => new Promise((done) => {
  const button = document.querySelector('[data-turn="15 0"]');
  let count = 0;
  const begun = performance.now();
  function next() {
    count += 1;
    if (performance.now() - begun > 3000) done(count * 1000 / (performance.now() - begun));
    else { button.click(); requestAnimationFrame(next); }
  }
  requestAnimationFrame(next);
})"""


@contextmanager
def page() -> Iterator[Page]:
    """A page in the system's Chromium."""
    browser = next(filter(None, map(shutil.which, ("chromium", "chromium-browser"))), None)
    if browser is None:
        raise SystemExit("there is no Chromium")
    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=browser, args=FLAGS)
        yield opened.new_page(viewport=DESK)  # type: ignore[arg-type]
        opened.close()


def measured(name: str, book: Path) -> None:
    """Open a book three times, turn the unit, and print the figures."""
    pictures = []
    with page() as shown:
        for _ in range(3):
            opened = Opened(shown, book)
            told = "performance.getEntriesByName('first picture')[0].startTime"
            pictures.append(float(opened.page.evaluate(told)) / 1000)
        shown.evaluate("document.getElementById('round').scrollIntoView()")
        rate = float(shown.evaluate(_TURN))
    print(
        f"{name}: book {book.stat().st_size / 1e6:.2f} MB, first picture "
        f"{min(pictures):.2f} to {max(pictures):.2f} s, {rate:.0f} pictures a second while it turns",
        flush=True,
    )


def many(design: Design, record: Record, count: int, folder: Path) -> Path:
    """The book of many units side by side, without sheets: its model and its list of pieces."""
    unit = side_by_side(design.resolve(), count)
    glb = folder / "many.glb"
    write_unit_glb(placed_solids(unit), glb, unit_name="many", tolerance=0.1)
    ends = [f", unit {index + 1}" for index in range(count)]
    record = record | {
        "parts": [p | {"name": p["name"] + end} for end in ends for p in record["parts"]],
        "hardware": [h | {"name": h["name"] + end} for end in ends for h in record["hardware"]],
        "moves": [],
        "assembly": {"steps": [], "locked": []},
        "outline": {"low": plain(unit.outline.low), "high": plain(unit.outline.high)},
    }
    path = folder / "many.html"
    text = book_html(scene(design.resolve()), (), {}, record, glb.read_bytes())
    path.write_text(text, "utf-8")
    return path


def main() -> None:
    """The main example, then many of it side by side."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--units", type=int, default=100)
    count = parser.parse_args().units
    with tempfile.TemporaryDirectory() as told:
        folder = Path(told)
        design = example("greenhouse_wall_unit")
        write_job(design, folder / "one.job", tell=None)
        measured("main example", folder / "one.job" / "book.html")
        record = json.loads((folder / "one.job" / "job.json").read_text("utf-8"))
        pieces = count * (len(record["parts"]) + len(record["hardware"]))
        measured(f"{count} units, {pieces} pieces", many(design, record, count, folder))


if __name__ == "__main__":
    main()
