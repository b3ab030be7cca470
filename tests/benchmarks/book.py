"""Size of the job book, seconds to its first picture, and pictures a second while it turns.

In headless Chromium with a software renderer, which is what machines without a graphics card
have.

    python -m tests.benchmarks.book [--units 100]
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import sync_playwright

from drawings import write_job
from tests.browser.test_book_in_chromium import DESK, FLAGS, Opened
from tests.examples import example_design
from tests.many_units import book_of_many

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
        f"{min(pictures):.2f} to {max(pictures):.2f} s, {rate:.0f} pictures a second while it turns "
        f"(load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores)",
        flush=True,
    )


def main() -> None:
    """The main example, then many of it side by side."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--units", type=int, default=100)
    count = parser.parse_args().units
    with tempfile.TemporaryDirectory() as told:
        folder = Path(told)
        design = example_design("greenhouse_wall_unit")
        write_job(design, folder / "one.job", tell=None)
        measured("main example", folder / "one.job" / "book.html")
        record = json.loads((folder / "one.job" / "job.json").read_text("utf-8"))
        pieces = count * (len(record["parts"]) + len(record["hardware"]))
        measured(f"{count} units, {pieces} pieces", book_of_many(design, record, count, folder))


if __name__ == "__main__":
    main()
