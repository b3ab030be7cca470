"""Small scripts to be kept drawn, written into a folder of their own."""

from __future__ import annotations

from pathlib import Path

SCRIPT = """
from cabinet import Design, Rails, birch_plywood, board_shelf, carcass, hanging_cleat, pin_rows
from drawings import keep_drawn
from sizes import WIDTH, HOLE

birch = birch_plywood(nominal=18, measured=17.6)
box = carcass(width=WIDTH, height=487, depth=243, stock=birch,
              back=Rails(stock=birch, top=97, bottom=83, behind=2 * birch.measured))
pins = pin_rows(box)
unit = Design("Twine box", (
    box.component,
    pins.component,
    board_shelf(pins.bay(1), hole=HOLE, stock=birch, name="twine shelf"),
    hanging_cleat(box, stock=birch),
))
keep_drawn(__file__)
"""


def write_script(folder: Path, *, width: float = 613, hole: int = 3) -> Path:
    """A script of a hung box with a shelf, and the module beside it that has its sizes."""
    write_sizes(folder, width=width, hole=hole)
    script = folder / "twine_box.py"
    script.write_text(SCRIPT, encoding="utf-8")
    return script


def write_sizes(folder: Path, *, width: float = 613, hole: int = 3) -> None:
    """The sizes once more."""
    (folder / "sizes.py").write_text(f"WIDTH = {width}\nHOLE = {hole}\n", encoding="utf-8")
